"""Which of her spaces is meant by one that she has not, on every hull: a place on deck for a place on deck, never a tank that is spelt alike."""

import pytest

from generator.manual.drawing.likely import instead, likely
from generator.manual.drawing.spaces import find_space, preset_spaces
from generator.shelves.spaces import DECK, hull_types

STERN = ("stern", "the stern", "aft", "stern deck", "afterdeck", "starboard quarter", "stern, under the seat")
BOW = ("bow", "bows", "forward", "fore deck", "the bow")
MIDDLE = ("midships", "amidships")
STEERED = ("helm", "steering position", "wheelhouse", "bridge", "pilothouse", "console")
ENGINE = ("engine room", "engine bay", "engine compartment", "motor room", "engine")


def spaces_of(hull):
    return preset_spaces(hull, 10, 3.4)


def meant(hull, where):
    """The spaces of a hull that a word leads to: the one it names, else those it may mean."""
    spaces = spaces_of(hull)
    found = find_space(spaces, where)[0]
    return (
        [found]
        if found
        else [
            next(each for each in spaces.values() if each.name == name)
            for name in likely(where, spaces.values())
        ]
    )


def part(space):
    return (space.aft_m + space.fore_m) / 20


@pytest.mark.parametrize("hull", hull_types())
def test_on_every_hull_a_part_of_the_boat_leads_to_places_on_deck_there(hull):
    for words, holds in (
        (STERN, lambda at: at <= 0.2),
        (BOW, lambda at: at >= 0.65),
        (MIDDLE, lambda at: 0.3 < at < 0.7),
    ):
        for where in words:
            found = meant(hull, where)
            assert found, where
            for space in found:
                assert space.level == DECK and holds(part(space)), (where, space.name)
                assert not space.name.endswith(("tank", "locker", "recess", "box")), (where, space.name)


@pytest.mark.parametrize("hull", hull_types())
def test_on_every_hull_helm_and_engine_lead_to_where_she_is_steered_and_driven(hull):
    assert all([space.steering for space in meant(hull, where)] != [] for where in STEERED)
    assert all(
        space.steering or space.name == "wheelhouse" for where in STEERED for space in meant(hull, where)
    )
    assert all([space.engine for space in meant(hull, where)] == [True] for where in ENGINE)


@pytest.mark.parametrize(("hull", "where", "names"), [
    ("open boat", "stern", ["stern sheets", "transom"]), ("open boat", "foredeck", ["bow"]), ("open boat", "midships", ["midship thwart", "bottom boards", "gunwale"]),
    ("open boat", "galley", []), ("open boat", "cabin", []), ("open boat", "engine room", ["engine box"]),
    ("monohull", "stern", ["aft deck", "transom", "pushpit"]), ("monohull", "bow", ["foredeck", "pulpit"]), ("monohull", "wheelhouse", ["helm"]),
    ("monohull", "cokpit", ["cockpit"]), ("monohull", "bow locker", ["anchor locker", "foredeck locker"]), ("monohull", "engine bay", ["engine space"]),
    ("motor vessel", "stern", ["cockpit", "swim platform", "pushpit"]), ("motor vessel", "weelhouse", ["wheelhouse"]),
    ("catamaran", "stern", ["transom steps", "pushpit", "aft deck"]), ("dayboat", "saloon", ["cuddy"]), ("monohull", "moon", []),
])  # fmt: skip
def test_the_likeliest_come_first(hull, where, names):
    spaces = spaces_of(hull)
    assert find_space(spaces, where)[0] is None
    assert likely(where, spaces.values()) == names
    said = instead(where, list(spaces.values()))
    assert said.startswith(f"write {' or '.join(names)}? (or one of: " if names else "write one of: ")
