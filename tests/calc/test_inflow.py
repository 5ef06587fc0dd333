"""Water through an open hole."""

import pytest

from generator.calc.inflow import inflow_l_min


def test_twice_as_wide_lets_in_four_times_as_much_and_four_times_as_deep_twice():
    assert inflow_l_min(0.050, 0.6) == pytest.approx(243, abs=1)
    assert inflow_l_min(0.100, 0.6) == pytest.approx(4 * inflow_l_min(0.050, 0.6))
    assert inflow_l_min(0.050, 2.4) == pytest.approx(2 * inflow_l_min(0.050, 0.6))
    assert inflow_l_min(0.050, 0.0) == 0


@pytest.mark.parametrize("wrong", [(-0.01, 1.0), (0.01, -1.0)])
def test_nothing_is_less_than_nothing(wrong):
    with pytest.raises(ValueError, match="negative"):
        inflow_l_min(*wrong)
