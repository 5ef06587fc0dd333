"""Water and food in a raft: for how many days they last."""

from __future__ import annotations

WATER_L_A_DAY = 0.5  # litres a person and day, none on the first; survival-craft course manual p. 161
FOOD_KJ_A_DAY = 3350.0  # kJ a person and day, 46 CFR 160.046-9


def water_days(water_l: float, persons: int) -> float:
    """Days for which `water_l` litres last `persons`, the first day without, in days; 0 where there is none.

    Limits: 1 to 150 persons, water not negative, else ValueError.
    Source: survival-craft course manual p. 161: none in the first 24 hours except for the injured, then half a litre a day;
    a full pack of 1.5 l a person lasts 4 days.

    >>> water_days(9.0, 6)
    4.0
    """
    _check(water_l, persons)
    return 1 + water_l / (persons * WATER_L_A_DAY) if water_l else 0.0


def food_days(food_kj: float, persons: int) -> float:
    """Days for which food of `food_kj` kJ lasts `persons`, in days.

    Source: 46 CFR 160.046-9: 3350 kJ a person and day.

    >>> round(food_days(10_000, 1), 2)
    2.99
    """
    _check(food_kj, persons)
    return food_kj / (persons * FOOD_KJ_A_DAY)


def _check(amount: float, persons: int) -> None:
    if not 1 <= persons <= 150:
        raise ValueError(f"persons must be from 1 to 150, got {persons}")
    if amount < 0:
        raise ValueError(f"there cannot be less than nothing, got {amount}")
