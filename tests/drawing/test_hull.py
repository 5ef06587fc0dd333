"""The outline holds what a seaman would say is on board."""

import pytest
from drawing.boats import vessel

from generator.manual.drawing.hull import outline_of
from generator.shelves.spaces import hull_types


@pytest.mark.parametrize("hull", hull_types())
def test_the_outline_is_as_long_and_wide_as_she_is(hull):
    outline = outline_of(vessel(hull, "10 m", "5 m"))
    points = [point for part in outline.parts("deck") for point in outline.shape(part)]
    assert max(aft for aft, _ in points) == pytest.approx(10)
    assert min(aft for aft, _ in points) == pytest.approx(0)
    assert max(off for _, off in points) == pytest.approx(2.5, rel=0.01)
    assert min(off for _, off in points) == pytest.approx(-2.5, rel=0.01)


def test_points_in_and_out():
    outline = outline_of(vessel("monohull", "12 m", "3.8 m"))
    assert outline.contains(6, 1.5, "deck")
    assert not outline.contains(11.5, 1.5, "deck")
    assert not outline.contains(-0.1, 0, "deck")
    assert not outline.contains(6, -2, "below")


def test_between_the_hulls_is_deck_but_not_below():
    outline = outline_of(vessel("catamaran", "13.7 m", "7.5 m"))
    assert outline.contains(11, 0, "deck")
    assert not outline.contains(11, 0, "below")
    assert outline.contains(7, 0, "below")
    assert not outline.contains(13.5, 0, "deck")
    assert outline.contains(11, 2.8, "below")


def test_unknown_dimensions_give_the_usual_ones():
    assert outline_of(vessel("catamaran", "unknown", "7 m")).length_m == 13
