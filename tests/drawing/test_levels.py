"""The levels of the plan: one in an open boat, two on most, three where something lies above the deck; each in its own column."""

import re

import pytest
from drawing.boats import item, vessel, words

from generator.manual.drawing.labels import overlap
from generator.manual.drawing.plan import COLUMN_MM, draw
from generator.manual.drawing.symbols import SIZE_MM
from generator.shelves.spaces import hull_types


def headings(plan):
    return [
        each for each in ("Upper deck", "On deck", "Below deck", "In the boat") if f">{each}<" in plan.svg
    ]


def boxes(plan):
    half = SIZE_MM / 2
    return [(x - half, y - half, x + half, y + half) for _, x, y, _ in plan.entries]


def whole_outlines(plan):
    """How many hulls are drawn in thick lines."""
    return len(re.findall(r'stroke-width="1.4"', plan.svg))


@pytest.mark.parametrize("hull", [each for each in hull_types() if each != "open boat"])
def test_two_levels_where_nothing_lies_above(hull):
    plan = draw(vessel(hull), (item(),), words)
    assert headings(plan) == ["On deck", "Below deck"]
    assert plan.width_mm == 2 * COLUMN_MM + 2


def test_a_motor_yacht_with_two_canisters_on_the_upper_deck():
    """Her third level is drawn, nothing of the two others is lost, and the sheet is no wider than before."""
    boat = vessel("motor vessel", "24 m", "6.2 m")
    below = tuple(
        item(number, name, "port") for number, name in enumerate(["saloon", "galley", "wheelhouse"] * 5, 3)
    )
    rafts = (item(1, "upper deck", "port", "raft"), item(2, "boat deck", "starboard", "raft"))
    plan = draw(boat, (*rafts, *below), words)
    assert headings(plan) == ["Upper deck", "On deck", "Below deck"]
    assert plan.width_mm == pytest.approx(2 * COLUMN_MM + 2)
    where = {number: level for number, _, _, level in plan.entries}
    assert (where[1], where[2], where[3], where[5]) == ("upper", "upper", "below", "deck")
    port, starboard = (next(x for number, x, *_ in plan.entries if number == one) for one in (1, 2))
    assert port < plan.width_mm / 6 < starboard < plan.width_mm / 3
    assert not (plan.unknown_spaces or plan.outside or plan.side_missing or plan.wrong_side)
    found = boxes(plan)
    assert not any(overlap(one, other) for number, one in enumerate(found) for other in found[number + 1 :])
    assert all(box[0] >= 0 and box[2] <= plan.width_mm for box in found)


def test_a_muster_place_above_the_deck_shows_that_level():
    plan = draw(vessel("motor vessel", muster="flybridge"), (item(),), words)
    assert headings(plan)[0] == "Upper deck"
    assert plan.muster_drawn


def test_an_own_space_above_is_always_shown():
    plan = draw(vessel(deck="{spaces: [{name: wheelhouse roof}]}"), (item(),), words)
    assert headings(plan) == ["Upper deck", "On deck", "Below deck"]


def test_above_a_catamaran_lies_what_her_bridgedeck_carries():
    boat = vessel("catamaran", "13 m", "7.2 m", deck="{spaces: [{name: flybridge}]}")
    plan = draw(boat, (item(1, "flybridge", "port"), item(2, "flybridge", point=(5.0, 0.0))), words)
    assert not plan.outside
    assert {level for *_, level in plan.entries} == {"upper"}
    assert whole_outlines(plan) > whole_outlines(draw(vessel("catamaran", "13 m", "7.2 m"), (), words))


def test_a_point_beside_the_hull_is_told_on_every_level():
    boat = vessel("motor vessel", "24 m", "6.2 m")
    beside = item(1, "flybridge", point=(10.0, 4.0))
    assert draw(boat, (beside,), words).outside == (beside,)


@pytest.mark.parametrize("stacked", [False, True])
def test_an_open_boat_is_one_drawing(stacked):
    boat = vessel("open boat", "7 m", "2.3 m", muster="midship thwart")
    plan = draw(boat, (item(1, "stern sheets", "port"), item(2, "bow")), words, stacked=stacked)
    assert headings(plan) == ["In the boat"]
    assert plan.width_mm == COLUMN_MM
    assert plan.muster_drawn
    assert not plan.unknown_spaces


def test_an_open_boat_with_a_space_of_her_own_below_has_two_levels():
    boat = vessel("open boat", deck="{spaces: [{name: console locker, level: below, aft: 3 m, fore: 4 m}]}")
    assert headings(draw(boat, (item(),), words)) == ["On deck", "Below deck"]


def test_stacked_levels_stand_below_each_other_from_the_top_down():
    boat = vessel("motor vessel", "24 m", "6.2 m")
    items = (item(1, "flybridge", "port"), item(2, "wheelhouse", "port"), item(3, "saloon", "port"))
    plan = draw(boat, items, words, stacked=True)
    heights = [y for _, _, y, _ in plan.entries]
    assert heights == sorted(heights)
    assert plan.width_mm == COLUMN_MM
