"""Spaces: the preset of the hull type, and what the deck block changes."""

import pytest
from drawing.boats import vessel

from generator.manual.drawing.hull import outline_of
from generator.manual.drawing.spaces import (
    find_space,
    folded,
    preset_spaces,
    spaces_of,
    unknown_presets,
    unlocated_spaces,
)
from generator.shelves.spaces import LEVELS, hull_types


@pytest.mark.parametrize("hull", hull_types())
def test_preset_spaces_lie_on_the_vessel_and_their_names_are_one_each(hull):
    boat = vessel(hull, "12 m", "6 m")
    outline = outline_of(boat)
    names = []
    for space in spaces_of(boat).values():
        assert space.level in LEVELS
        assert 0 <= space.aft_m < space.fore_m <= 12
        assert space.port_m < space.starboard_m
        names += [folded(space.name), *map(folded, space.also)]
        for side in ("port", "starboard"):
            assert outline.region(space.aft_m, space.fore_m, *space.half(side), space.level), (
                space.name,
                side,
            )
    assert len(names) == len(set(names))


def test_a_space_is_found_whatever_its_capitals_and_by_its_other_names():
    spaces = spaces_of(vessel())
    assert find_space(spaces, "Cockpit-Locker")[0].name == "cockpit locker"
    assert find_space(spaces, "main cabin")[0].name == "saloon"
    assert find_space(spaces, "cockpit, under the seat")[0].name == "cockpit"
    assert find_space(spaces, "ballroom") == (None, "")


def test_a_side_before_the_name_picks_the_half():
    spaces = spaces_of(vessel("catamaran", "13.7 m", "7.5 m"))
    for name, side in (("port hull", "port"), ("starboard hull forward cabin", "starboard")):
        space, found = find_space(spaces, name)
        port, starboard = space.half(found)
        assert found == side
        assert starboard < 0 if side == "port" else port > 0


def test_replaces_renames_and_keeps_the_place():
    preset = preset_spaces("monohull", 12, 3.8)["saloon"]
    spaces = spaces_of(vessel(deck="{spaces: [{name: Great cabin, replaces: saloon}]}"))
    assert "saloon" not in spaces
    assert (spaces["great cabin"].aft_m, spaces["great cabin"].fore_m) == (preset.aft_m, preset.fore_m)


def test_own_ends_and_edges_win():
    spaces = spaces_of(
        vessel(
            deck="{spaces: [{name: doghouse, level: deck, aft: 4 m, fore: 5.5 m, port: 1 m port, "
            "starboard: 0.5 m starboard}]}"
        )
    )
    found = spaces["doghouse"]
    assert (found.aft_m, found.fore_m, found.port_m, found.starboard_m, found.level) == (
        4,
        5.5,
        -1,
        0.5,
        "deck",
    )


def test_one_preset_space_may_become_two():
    spaces = spaces_of(
        vessel(
            deck="{spaces: [{name: port berth, replaces: aft cabin, starboard: centre},"
            " {name: starboard berth, replaces: aft cabin, port: centre}]}"
        )
    )
    assert spaces["port berth"].starboard_m == 0 == spaces["starboard berth"].port_m
    assert "aft cabin" not in spaces


def test_a_wheelhouse_on_a_sailing_vessel_needs_only_its_name():
    assert "wheelhouse" not in spaces_of(vessel())
    assert spaces_of(vessel(deck="{spaces: [{name: wheelhouse}]}"))["wheelhouse"].level == "deck"


def test_what_lies_above_the_deck_needs_only_its_name_on_any_type():
    for hull in ("monohull", "catamaran", "open boat"):
        spaces = spaces_of(vessel(hull, deck="{spaces: [{name: flybridge}]}"))
        assert spaces["flybridge"].level == "upper"
    own = spaces_of(vessel(deck="{spaces: [{name: doghouse top, level: upper, aft: 4 m, fore: 6 m}]}"))
    assert own["doghouse top"].level == "upper"
    boat = vessel("motor vessel", "24 m", "6.2 m")
    assert {each.name for each in spaces_of(boat).values() if each.level == "upper"} == {
        "flybridge",
        "wheelhouse roof",
        "upper deck",
    }
    assert find_space(spaces_of(boat), "boat deck")[0].name == "upper deck"


def test_an_open_boat_has_nothing_below_and_a_dayboat_a_cuddy():
    assert {each.level for each in spaces_of(vessel("open boat", "7 m", "2.3 m")).values()} == {"deck"}
    below = {
        each.name for each in spaces_of(vessel("dayboat", "6 m", "2.2 m")).values() if each.level == "below"
    }
    assert "cuddy" in below
    assert not {"forward cabin", "saloon", "galley"} & below


def test_without_takes_a_space_away():
    assert "lazarette" not in spaces_of(vessel(deck="{without: [Lazarette]}"))


def test_names_that_lead_nowhere_are_told():
    boat = vessel(
        deck="{spaces: [{name: ballroom}, {name: den, replaces: library}], without: [ballast tank]}"
    )
    assert [space.name for space in unlocated_spaces(boat)] == ["ballroom", "den"]
    assert unknown_presets(boat) == ("ballast tank", "library")
    assert "ballroom" not in spaces_of(boat)


def test_the_helm_is_drawn_where_the_file_says_that_she_is_steered():
    """On the half that is named, no larger than what it stands in; the helm that the boat measured herself stays."""
    usual = spaces_of(vessel("dayboat", "6 m", "2.2 m"))
    boat = vessel("dayboat", "6 m", "2.2 m", helm="{where: side console, side: starboard}")
    helm, console = spaces_of(boat)["helm"], usual["side console"]
    assert helm.steering
    assert (
        (helm.aft_m, helm.fore_m)
        == (console.aft_m, console.fore_m)
        != (usual["helm"].aft_m, usual["helm"].fore_m)
    )
    assert (helm.port_m, helm.starboard_m) == pytest.approx(console.half("starboard"))
    boat = vessel("open boat", "6 m", "2.2 m", helm="{where: centre console}")
    helm, console = spaces_of(boat)["helm"], spaces_of(boat)["centre console"]
    assert console.aft_m <= helm.aft_m < helm.fore_m <= console.fore_m
    assert -helm.port_m == pytest.approx(helm.starboard_m)
