"""Marks on one thing that belong to each other, and figures no boat has."""

from __future__ import annotations

from generator.calc.expiry import add_months
from generator.reading.values import Quantity, Stamp
from generator.survey.registry import COMMON_PRACTICE, RECOMMENDATION, at, check

# The longest that a marked expiry lies after making, in months, by the beginning of the name.
LONGEST_MONTHS = {
    "smoke alarm": 120,
    "carbon monoxide alarm": 120,
    "parachute flares": 48,
    "red hand flares": 48,
    "orange smoke": 48,
    "white hand flares": 48,
}
MANY, MANY_A_PERSON = 50, 8
OLD_SUIT_MONTHS, SUIT_TEST_MONTHS, OLD_SUIT_TEST_MONTHS = 120, 36, 24


@check(
    "dates.stretched",
    RECOMMENDATION,
    "fire authorities: smoke alarms ten years from making; Offshore Special Regulations 4.23: signals "
    "four years (secondary)",
)
def a_marked_expiry_fits_the_making(sight):
    """No marked expiry lies further from the making than is usual for such a thing.

    Why: a year read wrong, or a date made up, keeps in the list what is long dead.
    Remedy: read both dates on the thing again.
    """
    for item in (*sight.vessel.gear, *(each for bag in sight.vessel.grab_bags for each in bag.items)):
        name = item.what.lower() if isinstance(item.what, str) else ""
        months = next((most for begins, most in LONGEST_MONTHS.items() if name.startswith(begins)), None)
        if (
            months
            and isinstance(item.made, Stamp)
            and isinstance(item.expires, Stamp)
            and (item.expires.first_day > add_months(item.made.last_day, months))
        ):
            yield at(
                item,
                "made",
                f"{item.what}: made {item.made.when} and good until {item.expires}, more than {months // 12} years",
                item=str(item.what),
                also=(item.place("expires"),),
            )


@check(
    "people.suit-test",
    RECOMMENDATION,
    "MSC/Circ.1114 and MGN 529 (three years, two years for suits over ten; secondary)",
)
def suits_are_tested_in_time(sight):
    """Immersion suits are tested every three years, every two when they are over ten years old.

    Why: a seam that lets water in turns a suit into wet clothes.
    Remedy: have them tested, and write the shorter 'service-interval' and the new dates.
    """
    for item in sight.vessel.gear:
        if not str(item.what).lower().startswith("immersion suits") or not isinstance(
            item.service_interval, Quantity
        ):
            continue
        old = isinstance(item.made, Stamp) and add_months(item.made.last_day, OLD_SUIT_MONTHS) < sight.as_of
        if item.service_interval > (OLD_SUIT_TEST_MONTHS if old else SUIT_TEST_MONTHS):
            made = f" (made {item.made.when})" if old else ""
            yield at(
                item,
                "service-interval",
                f"{item.what}{made}: tested every {item.service_interval}",
                item=str(item.what),
            )


@check("gear.so-many", RECOMMENDATION, COMMON_PRACTICE)
def numbers_are_those_of_a_boat(sight):
    """No thing of the gear list is there in more numbers than a boat carries.

    Why: a slipped figure makes everybody count on what is not there.
    Remedy: count again, and write how many there are.
    """
    one = sight.vessel.vessel
    most = max(MANY, MANY_A_PERSON * one.persons) if one and isinstance(one.persons, int) else MANY
    for item in sight.vessel.gear:
        if isinstance(item.quantity, int) and item.quantity > most:
            yield at(
                item, "quantity", f"{item.what}: there are said to be {item.quantity}", item=str(item.what)
            )
