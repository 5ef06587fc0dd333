"""Gear that ages: dates that are missing, and dates that have passed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.reading.values import known, untold
from generator.survey.passed import passed
from generator.survey.registry import LIFE, UPKEEP, Finds, Sight, at, check, of
from generator.vessel.gear import does

if TYPE_CHECKING:
    from generator.vessel.gear import Gear, GrabItem


@check("gear.expired", LIFE, "33 CFR 175.125; 46 CFR 28.140 table")
def gear_is_in_date(sight: Sight) -> Finds:
    """Gear is in date for the whole passage.

    Why: an old flare burns the hand or not at all; an old extinguisher is empty.
    Remedy: renew it or have it serviced, then write the new date.
    """
    yield from passed(sight, "gear.expired")


@check("gear.undated", LIFE, "33 CFR 175.125; Offshore Special Regulations 4.23 (quoted text)")
def flares_have_a_date(sight: Sight) -> Finds:
    """Flares and smoke signals have their expiry date.

    Why: without a date nobody notices when they run out.
    Remedy: read it from the flare and write 'expires', or 'made' where only that is stamped; with neither, count it as expired.
    """
    packed = (item for bag in sight.vessel.grab_bags for item in bag.items if does(item, "must be dated"))
    things: tuple[Gear | GrabItem, ...] = (*sight.vessel.gear_that("must be dated"), *packed)
    for item in things:
        if untold(item.expires) and untold(item.made):
            yield of(item, "what", "no date says until when they are good")


@check(
    "gear.service-undated",
    UPKEEP,
    "33 CFR 175.320; fire codes: yearly look at extinguishers (secondary)",
)
def extinguishers_have_a_date(sight: Sight) -> Finds:
    """Extinguishers have an expiry or a service date.

    Why: pressure leaks away over the years and nobody sees it.
    Remedy: write 'expires' or 'next-service', as the label says.
    """
    for item in sight.vessel.gear_that("loses pressure"):
        if all(map(untold, (item.expires, item.next_service, item.last_service, item.made))):
            yield of(item, "what", "neither 'expires' nor 'next-service' is given")


@check(
    "gear.gas-hose-undated",
    UPKEEP,
    "gas fitters' guidance: hoses five years from the date marked (secondary)",
)
def the_gas_hose_has_a_date(sight: Sight) -> Finds:
    """The gas hose has its date.

    Why: old rubber cracks where nobody looks.
    Remedy: read the date printed on the hose and write 'hose-made', or 'hose-expires' where an expiry is printed.
    """
    gas = sight.vessel.gas
    if (
        gas
        and gas.fuel in ("butane", "propane")
        and all(map(untold, (gas.hose_expires, gas.hose_made, gas.hose_fitted)))
    ):
        yield at(gas, "fuel", "no date says until when the gas hose is good", item="gas hose")


@check(
    "gear.cylinder-light",
    LIFE,
    "lifeboat institution's advice: no tolerance below the stamped gross weight (secondary)",
)
def cylinders_weigh_what_is_stamped_on_them(sight: Sight) -> Finds:
    """No lifejacket cylinder weighs less than the gross weight stamped on it.

    Why: one that is lighter has leaked, and the jacket fills by half or not at all.
    Remedy: screw in a new cylinder of the same type, weigh it, and write both weights.
    """
    for each in sight.vessel.lifejackets:
        mass, least = known(each.cylinder_mass), known(each.cylinder_minimum)
        if mass is not None and least is not None and mass < least:
            yield at(
                each,
                "cylinder-mass",
                f"{each.size or 'the'} lifejackets: a cylinder weighs {each.cylinder_mass}, less than the "
                f"{each.cylinder_minimum} stamped on it",
                item=f"{each.size or 'the'} lifejackets",
            )
