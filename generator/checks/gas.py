"""Gas: its detector, its bottles, and that what can be shut off is described."""

from __future__ import annotations

from generator.manual.drawing.spaces import find_space
from generator.shelves.spaces import BELOW
from generator.survey.registry import COMMON_PRACTICE, RECOMMENDATION, Finds, Sight, at, check


@check("gas.detector-missing", RECOMMENDATION, COMMON_PRACTICE)
def leaking_gas_is_noticed(sight: Sight) -> Finds:
    """Where gas is aboard, and people can be inside her, there is a gas detector.

    Why: gas is heavier than air and lies in the bilge until a spark finds it.
    Remedy: fit one low down, then write detector: yes.
    """
    gas, one = sight.vessel.gas, sight.vessel.vessel
    if one and not one.hull.closed_in:
        return
    if gas and gas.fuel in ("butane", "propane") and (gas.detector is False or gas.detector is None):
        yield at(
            gas,
            "detector" if gas.detector is False else "fuel",
            f"{gas.fuel} is aboard, and no gas detector",
            item="gas",
        )


@check(
    "gas.bottles-below",
    RECOMMENDATION,
    "from memory, unverified: rules for gas aboard ask for a locker that drains overboard",
)
def gas_bottles_are_not_below(sight: Sight) -> Finds:
    """Gas bottles are not kept below deck.

    Why: what leaks there runs into the bilge.
    Remedy: keep them on deck or in a locker that drains overboard.
    """
    gas = sight.vessel.gas
    if gas and gas.fuel in ("butane", "propane") and isinstance(gas.bottles, str) and sight.vessel.vessel:
        space = find_space(sight.spaces, gas.bottles)[0]
        if space is not None and space.level == BELOW:
            yield at(gas, "bottles", f"the gas bottles are kept in the {gas.bottles}, below deck", item="gas")


@check("gas.not-described", RECOMMENDATION, COMMON_PRACTICE)
def gas_with_a_shut_off_is_described(sight: Sight) -> Finds:
    """Where a gas shut-off is described, so is the gas.

    Why: without it no page says where the bottles are, and the emergency of leaking gas is left out.
    Remedy: write 'gas' with fuel and bottles, or take the shut-off out.
    """
    for stop in sight.vessel.stops:
        if stop.what == "gas" and not sight.vessel.known("gas"):
            yield at(stop, "what", "a gas shut-off is described, and no gas", item="gas")
