"""Team lifting and rations against the published figures they come from."""

import pytest

from generator.calc import lifting, rations


def test_a_pair_lifts_two_thirds_of_its_sum():
    """Network Rail, "Lifting and handling in teams": 20 kg and 20 kg give 26.6 kg (printed with one decimal, cut off)."""
    assert lifting.team_capability_kg([20, 20]) == pytest.approx(26.6, abs=0.1)


def test_three_lift_half_of_their_sum():
    """The same source: three people, half of the sum."""
    assert lifting.team_capability_kg([25, 25, 16]) == pytest.approx(33.0)


def test_more_than_four_are_refused():
    """The same source: more than four are unlikely to work together."""
    with pytest.raises(ValueError, match="1 to 4"):
        lifting.team_capability_kg([25] * 5)


@pytest.mark.parametrize(
    ("mass_kg", "each_kg", "needed"),
    [
        (25, [25, 25], 1),
        (30, [25, 25], 2),
        (36, [25, 25, 25], 3),
        (30, [25, 16], None),
        (80, [25, 25, 25, 25], None),
    ],
)
def test_the_smallest_team(mass_kg, each_kg, needed):
    assert lifting.smallest_team(mass_kg, each_kg) == needed


def test_a_full_pack_lasts_four_days():
    """Survival-craft course manual p. 161: 1.5 l a person (SOLAS A pack) lasts the full complement 4 days."""
    assert rations.water_days(1.5 * 6, 6) == pytest.approx(4)


def test_food_of_a_solas_pack_lasts_three_days():
    """46 CFR 160.046-9: 3350 kJ a person and day; SOLAS A: 10,000 kJ a person. 1 % for the rounded ration."""
    assert rations.food_days(10_000 * 6, 6) == pytest.approx(3, rel=0.01)


def test_no_water_is_no_days():
    assert rations.water_days(0, 4) == 0
