"""The height of a raft is held against the level it stands on: deck, upper deck, transom."""

import pytest

from generator.checks.raft.figures import heights_m
from generator.manual.drawing.spaces import Space
from generator.shelves.spaces import BELOW, DECK, UPPER

FREEBOARD_M = 1.8


def space(level, aft_m=4.0):
    return Space(level, aft_m, aft_m + 3, -1.0, 1.0, "raft's place")


@pytest.mark.parametrize(
    ("where", "height_m", "right"),
    [
        (space(UPPER), 5.2, True),
        (space(UPPER), 1.8, True),
        (space(UPPER), 0.0, False),
        (space(UPPER), 8.0, False),
        (space(DECK), 4.8, True),
        (space(DECK), 5.2, False),
        (space(DECK), 0.8, False),
        (space(DECK, aft_m=0.0), 0.0, True),
        (space(BELOW), 0.0, True),
        (None, 0.0, True),
    ],
)
def test_a_height_is_one_of_its_level(where, height_m, right):
    least_m, most_m = heights_m(where, FREEBOARD_M)
    assert (least_m <= height_m <= most_m) is right
