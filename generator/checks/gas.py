"""Gas: its detector, its bottles, and that what can be shut off is described."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.manual.alarms import that_warn
from generator.manual.drawing.spaces import find_space
from generator.reading.values import untold
from generator.shelves.spaces import BELOW, FOR_GEAR
from generator.survey.places import space_at
from generator.survey.placing import a_room
from generator.survey.registry import (
    COMMON_PRACTICE,
    LIFE,
    TRUTH,
    Finds,
    Sight,
    at,
    check,
)
from generator.vessel.alarms import WARNS_OF_GAS
from generator.vessel.installed import Battery

if TYPE_CHECKING:
    from generator.manual.drawing.spaces import Space
    from generator.reading.block import Block
    from generator.reading.values import Given


@check("gas.detector-missing", LIFE, COMMON_PRACTICE)
def leaking_gas_is_noticed(sight: Sight) -> Finds:
    """Where gas is aboard, and people can be inside her, there is a gas detector.

    Why: gas is heavier than air and lies in the bilge until a spark finds it.
    Remedy: fit one low down, then write detector: yes, or tell it under 'alarms' with what: gas.
    """
    gas, one = sight.vessel.gas, sight.vessel.vessel
    if one and not one.hull.closed_in:
        return
    if that_warn(sight.vessel, WARNS_OF_GAS):
        return
    if gas and gas.fuel in ("butane", "propane") and (gas.detector is False or untold(gas.detector)):
        open_ = gas.detector is not False and not gas.says_none("detector")
        yield at(
            gas,
            "detector" if gas.says("detector") else "fuel",
            f"{gas.fuel} is aboard, and {'whether there is a gas detector is unknown' if open_ else 'no gas detector'}",
            remedy="find out: look low down, in the bilge and beside the cooker; then write detector: yes or detector: no"
            if open_
            else "",
            item="gas",
        )


@check(
    "gas.bottles-below",
    LIFE,
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


_OF_ITS_OWN = re.compile(r"\b(?:gas|bottles?|propane|butane|lpg|cylinders?)\b", re.IGNORECASE)


@check(
    "gas.bottles-with-gear",
    LIFE,
    "from memory, unverified: rules for gas aboard ask for a locker of its own that drains overboard",
)
def gas_bottles_have_a_locker_of_their_own(sight: Sight) -> Finds:
    """Gas bottles stand in a locker of their own, or in the open, and nothing else lies there.

    Why: what leaks lies at the bottom of a locker that does not drain overboard, and whoever takes something out of it, or a battery
    in it, makes the spark; what lies there blocks the drain.
    Remedy: go and look: of a locker of its own write bottles: gas locker; else have one made, or lash them on deck in the open.
    """
    gas, vessel = sight.vessel.gas, sight.vessel
    if gas is None or gas.fuel not in ("butane", "propane") or not isinstance(gas.bottles, str):
        return
    space = space_at(sight, gas.bottles)
    if (
        space is None
        or space.level == BELOW
        or space.stows != FOR_GEAR
        or _OF_ITS_OWN.search(f"{gas.bottles} {space.name}")
    ):
        return
    placed = (*vessel.batteries, *vessel.gear, *vessel.pumps, *vessel.lifejackets, *vessel.grab_bags)
    with_them = [each for each in placed if space_at(sight, each.where) is space and not _is_of_the_gas(each)]
    if with_them:
        first = with_them[0]
        name = str(first.__dict__.get(type(first).called) or "") if type(first).called else ""
        name = f"the {name} battery" if isinstance(first, Battery) else f"'{name or first.path}'"
        more = f" and {len(with_them) - 1} more" if len(with_them) > 1 else ""
        yield at(
            gas,
            "bottles",
            f"the gas bottles are kept in the {gas.bottles}, with {name}{more}: it is no locker of their own",
            item="gas",
            also=(first.place("where"),),
        )


def _is_of_the_gas(thing: Block) -> bool:
    """Whether a thing belongs to the gas: a spare bottle, its regulator, an alarm for it."""
    name = thing.__dict__.get(type(thing).called) if type(thing).called else None
    return isinstance(name, str) and _OF_ITS_OWN.search(name) is not None


@check("gas.not-described", TRUTH, COMMON_PRACTICE)
def gas_with_a_shut_off_is_described(sight: Sight) -> Finds:
    """Where a gas shut-off is described, so is the gas.

    Why: without it no page says where the bottles are, and the emergency of leaking gas is left out.
    Remedy: write 'gas' with fuel and bottles, or take the shut-off out.
    """
    for stop in sight.vessel.stops:
        if stop.what == "gas" and not sight.vessel.known("gas"):
            yield at(stop, "what", "a gas shut-off is described, and no gas", item="gas")


@check("gas.detector-contradicted", TRUTH, COMMON_PRACTICE)
def the_detector_is_among_the_alarms(sight: Sight) -> Finds:
    """Where alarms are told, a gas detector is one of them; and where one is told there is a detector.

    Why: whoever hears it must know where it hangs; one of the two places is out of date.
    Remedy: tell it under 'alarms' with what: gas and its space, or correct 'detector'.
    """
    gas, vessel = sight.vessel.gas, sight.vessel
    warn = that_warn(vessel, WARNS_OF_GAS)
    if gas and gas.detector is True and vessel.alarms and not warn:
        remedy = f"tell it among the alarms, for example - {{what: gas, where: {a_room(sight)}}}; with none found aboard write detector: no"
        message = "there is a gas detector, and no alarm for gas is told"
        yield at(gas, "detector", message, remedy=remedy, item="gas")
    elif gas and gas.detector is False and warn:
        yield at(
            gas,
            "detector",
            "there is no gas detector, and an alarm for gas is told",
            item="gas",
            also=(warn[0].place("what"),),
        )


@check("gas.sparks", LIFE, COMMON_PRACTICE)
def nothing_sparks_where_gas_collects(sight: Sight) -> Finds:
    """No electric switch or pump is in the space of the gas bottles, nor in that of a petrol engine.

    Why: it sparks when it is touched, and a float switch when nobody touches it; gas and petrol vapour wait for just that.
    Remedy: move it out of there; of one built so that it cannot spark write electric: no, or say so in its name.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    vapour = one is not None and one.petrol and one.inboard_engine
    bottles = space_at(sight, vessel.gas.bottles) if vessel.gas else None
    sparking: list[tuple[Block, Given, str]] = [
        (stop, stop.where, f"the electric stop of the {stop.what}")
        for stop in vessel.stops
        if stop.electric is True
    ]
    sparking += [
        (pump, pump.handle.where, f"the switch of the {pump.what}")
        for pump in vessel.pumps
        if pump.power == "electric" and pump.handle is not None
    ]
    for block, where, what in sparking:
        space = space_at(sight, where) if isinstance(where, str) else None
        if space is not None and (_same(space, bottles) or (vapour and space.engine)):
            lies = "the gas bottles" if _same(space, bottles) else "a petrol engine"
            yield at(block, "where", f"{what} is in the {where}, with {lies}", item=what)


def _same(space: Space, other: Space | None) -> bool:
    return other is not None and space.name == other.name
