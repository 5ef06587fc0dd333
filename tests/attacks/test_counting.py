"""The counting of attacks itself: all that is tried counts, and what failed is seen."""

import attacked
import pytest


class Report:
    def __init__(self, *properties):
        self.user_properties = list(properties)


def test_what_is_tried_is_summed_by_promise():
    tally = attacked.Tally(
        [Report(("attack", ("private", 3, 12, 0))), Report(("attack", ("private", 4, 4, 4)), ("figure", "x"))]
    )
    assert (tally.tried["private"], tally.failed["private"]) == (7, 4)
    assert not tally.whole
    assert any("7 tried of 16, 4 failed" in line for line in tally.differences())


@pytest.mark.parametrize("promise", attacked.PROMISES)
def test_every_promise_has_its_words(promise):
    assert attacked.PROMISES[promise]
