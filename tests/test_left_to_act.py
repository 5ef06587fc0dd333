"""Who is left to act: those aboard, without those counted out, small children and whoever needs help."""

import pytest
from boat_file import Boat, changed, without
from open_boats import OPEN_BOAT

from generator.manual.facts import facts_of
from generator.manual.inventory import list_items
from generator.manual.left_to_act import LEFT, able, left

SKIPPER = "people:\n  - {role: skipper, abilities: [command, radio]}\n"


def crew(persons, *more):
    """An open boat for so many, with these roles beside the skipper."""
    text = changed("  persons: 4\n", f"  persons: {persons}\n" if persons else "", OPEN_BOAT)
    return without("people", text) + SKIPPER + "".join(f"  - {{role: {each}}}\n" for each in more)


@pytest.mark.parametrize(
    ("text", "hands"),
    [
        (crew(1), 1),
        (crew(2, "mate"), 2),
        (crew(12, "mate"), 12),
        (crew(4, "mate", "'children', age: [6, 9]"), 2),
        (crew(4, "mate", "'children', age: [6, 12]"), 3),
        (crew(4, "mate", "'twins', age: [9], quantity: 2"), 2),
        (crew(4, "mate", "'children', quantity: 2"), 2),
        (crew(3, "mate", "'infant'"), 2),
        (crew(2, "mate, needs-help: must be led, helper: skipper"), 1),
        (crew(4, "mate", "'guests', quantity: 2, needs-help: must be led, helper: mate"), 2),
        (crew(1, "mate, needs-help: must be led, helper: skipper"), 1),
        (crew(None), 1),
    ],
)
def test_small_children_and_those_who_need_help_are_no_hands(tmp_path, text, hands):
    vessel, _ = Boat(tmp_path)(text)
    assert able(vessel) == hands
    facts = facts_of(vessel, list_items(vessel))
    assert {name: facts[name] for name in LEFT} == left(hands, 0)


@pytest.mark.parametrize(
    ("hands", "out", "name"),
    [
        (1, 0, "one left"),
        (1, 1, "nobody left"),
        (1, 2, "nobody left"),
        (2, 1, "one left"),
        (3, 1, "two left"),
        (4, 1, "more than two left"),
        (12, 0, "more than two left"),
    ],
)
def test_one_of_the_facts_is_so(hands, out, name):
    assert [each for each, so in left(hands, out).items() if so] == [name]
