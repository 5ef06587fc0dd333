"""Gas: its detector, its bottles, and that what can be shut off is described."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.manual.alarms import that_warn
from generator.manual.drawing.spaces import find_space
from generator.reading.values import untold
from generator.shelves.spaces import BELOW, FOR_GEAR, FOR_NOTHING
from generator.survey.places import space_at
from generator.survey.placing import Lies, a_room, lies
from generator.survey.registry import (
    ADVICE,
    COMMON_PRACTICE,
    HELP,
    LIFE,
    TRUTH,
    Finds,
    Sight,
    at,
    check,
)
from generator.vessel.alarms import WARNS_OF_GAS
from generator.vessel.installed import Battery, Pump, Stop

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
        if space is not None and (space.level == BELOW or space.inside):
            where = ", below deck" if space.level == BELOW else ", inside her"
            yield at(gas, "bottles", f"the gas bottles are kept in the {gas.bottles}{where}", item="gas")


_OF_ITS_OWN = re.compile(r"\b(?:gas|bottles?|propane|butane|lpg|cylinders?)\b", re.IGNORECASE)


@check(
    "gas.bottles-with-gear",
    LIFE,
    "from memory, unverified: rules for gas aboard ask for a locker of its own that drains overboard",
)
def gas_bottles_have_a_locker_of_their_own(sight: Sight) -> Finds:
    """Gas bottles stand in a locker of their own, or in the open, and nothing else lies there, nor is anything else worked there.

    Why: what leaks lies at the bottom of a locker that does not drain overboard, and whoever takes something out of it, or a battery
    in it, makes the spark; what lies there blocks the drain.
    Remedy: go and look: of a locker of its own write bottles: gas locker; else have one made, or lash them on deck in the open.
    """
    gas, vessel = sight.vessel.gas, sight.vessel
    if gas is None or gas.fuel not in ("butane", "propane") or not isinstance(gas.bottles, str):
        return
    space = space_at(sight, gas.bottles)
    if space is not None and space.level != BELOW and space.stows == FOR_NOTHING:
        stops = [stop for stop in vessel.stops if stop.what != "gas"]
        for each in (*vessel.gear, *stops, *vessel.through_hulls):
            if space_at(sight, each.where) is space and not _is_of_the_gas(each):
                name = str(each.__dict__.get(type(each).called) or "") if type(each).called else each.path
                words = f"the {each.what} stop is worked" if isinstance(each, Stop) else "it is"
                yield at(
                    each,
                    "where",
                    f"{name or each.path}: {words} in the {space.name}, with the gas bottles",
                    remedy=f"stow it elsewhere, and write the space it lies in then: nothing shares the {space.name} with the bottles",
                    item=name,
                    also=(gas.place("bottles"),),
                )
        return
    if (
        space is None
        or space.level == BELOW
        or space.stows != FOR_GEAR
        or _OF_ITS_OWN.search(f"{gas.bottles} {space.name}")
    ):
        return
    holes = vessel.through_hulls  # whose hoses and valves are gone to, and which let what lies there into her
    placed = (*vessel.batteries, *vessel.gear, *vessel.pumps, *vessel.lifejackets, *vessel.grab_bags, *holes)
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


@check("gas.bottles-in-the-seas", HELP, COMMON_PRACTICE)
def gas_bottles_stand_where_no_sea_takes_them(sight: Sight) -> Finds:
    """Gas bottles stand neither on the foredeck nor with anchor and chain.

    Why: the first sea, or the chain as it runs out, breaks the valve off, and there is no shutting it.
    Remedy: keep them in a locker of their own that drains overboard: bottles: gas locker; of a box there say so: bottles: gas box, and tell its place under 'deck'.
    """
    gas = sight.vessel.gas
    if gas is None or gas.fuel not in ("butane", "propane") or not isinstance(gas.bottles, str):
        return
    space, one = space_at(sight, gas.bottles), sight.vessel.vessel
    if one is None or not one.hull.has_rooms or space is None or space.own or space.unlike:
        return
    shared = any(
        space_at(sight, each.where) is space for each in sight.vessel.gear
    )  # told as gear that lies with them
    if space.exposed and space.level != BELOW and space.stows != FOR_GEAR and not (space.stows and shared):
        why = "with anchor and chain" if space.stows else "where the seas break"
        yield at(gas, "bottles", f"the gas bottles are kept in the {space.name}, {why}", item="gas")


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
    """No electric switch or pump is in the space of the gas bottles, nor in that of a petrol engine, and no bank of batteries or pump at a petrol tap, which is itself in no cabin.

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
    if vessel.gas and vessel.gas.fuel in ("butane", "propane"):
        for pump in vessel.pumps:
            space = space_at(sight, pump.where)
            if (
                pump.power == "electric"
                and space is not None
                and _same(space, bottles)
                and not _SAFE.search(str(pump.what))
            ):
                yield at(
                    pump,
                    "where",
                    f"the {pump.what} is in the {pump.where}, with the gas bottles",
                    item=str(pump.what),
                )
    if vapour:
        yield from _pumps_beside_petrol(sight)
    if one is not None and one.petrol:
        yield from _sparks_at_a_tap(sight)


_FLOAT = re.compile(r"\bfloat[- ]?switch(?:es)?\b|\bautomatic\b", re.IGNORECASE)


def _pumps_beside_petrol(sight: Sight) -> Finds:
    """Electric pumps in the space of a petrol engine; of one with a float switch, which sparks by itself, it is a defect."""
    for pump in sight.vessel.pumps:
        space = space_at(sight, pump.where) if isinstance(pump.where, str) else None
        words = " ".join(str(each) for each in (pump.what, pump.spot) if isinstance(each, str))
        if pump.power != "electric" or space is None or not space.engine or _SAFE.search(words):
            continue
        if found := _FLOAT.search(words):
            yield at(
                pump,
                "what",
                f"the {pump.what} is in the {pump.where}, with a petrol engine: the {found[0].lower()} sparks by itself in its vapour",
                remedy="have one fitted that cannot spark, and say so in its name: electric bilge pump, ignition protected; else have it moved",
                item=str(pump.what),
                also=(pump.place("where"),),
            )


_SAFE = re.compile(
    r"\b(?:ignition|explosion|spark)[- ]?(?:protected|proof|safe|free)\b|\bATEX\b|\bby hand\b", re.IGNORECASE
)
"""How a name says that a thing is built so that it cannot spark."""


def _lived_in(sight: Sight, here: Lies) -> bool:
    """Whether a boat with an outboard has her petrol inside a space that people live in, and not open to the air."""
    one, space = sight.vessel.vessel, here.space
    closed = space.roofed and not (space.engine or space.open_deck or space.mark or space.unlike)
    return one is not None and not one.inboard_engine and closed and not space.steering


def _sparks_at_a_tap(sight: Sight) -> Finds:
    """A petrol tap where people live; or in a locker, and in the same half of it a bank of batteries, its switch or an electric pump."""
    vessel = sight.vessel
    switches = [stop for stop in vessel.stops if stop.what == "batteries" and stop.electric is not False]
    decked = vessel.vessel is not None and vessel.vessel.hull.closed_in and not vessel.vessel.inboard_engine
    pumps = [pump for pump in vessel.pumps if pump.power == "electric" and not _SAFE.search(str(pump.what))]
    for tap in vessel.stops:
        here = lies(sight, tap) if tap.what == "fuel" else None
        if here is None or not here.space.stows:
            if here is not None and _lived_in(sight, here):
                message = (
                    f"the petrol tap is in the {here}, where people live, and petrol vapour lies on its sole"
                )
                yield at(tap, "where", message, item="fuel")
            continue
        for thing in (*vessel.batteries, *switches, *pumps):
            there = lies(sight, thing)
            one_room = (
                decked
                and not here.space.engine
                and there is not None
                and here.space is there.space
                and not here.space.paired
            )
            if there is not None and (one_room or here.meets(there)):
                name = f"the battery ({thing.what})" if isinstance(thing, Battery) else "the battery switch"
                name = f"the {thing.what}" if isinstance(thing, Pump) else name
                yield at(
                    tap,
                    "where",
                    f"the petrol tap is in the {here}, with {name}",
                    item="fuel",
                    also=(thing.place("where"),),
                )
                break


@check("gas.butane-cold", ADVICE, "butane boils at half a degree of frost (from memory, unverified)")
def gas_burns_in_the_cold(sight: Sight) -> Finds:
    """In polar waters the gas is one that still comes out of the bottle.

    Why: near freezing a butane bottle on deck gives next to nothing: no hot drink, no warm cabin for whoever was in the water.
    Remedy: take propane, with its own regulator and bottles, and write fuel: propane; or keep another way to heat water.
    """
    gas, one = sight.vessel.gas, sight.vessel.vessel
    if gas and gas.fuel == "butane" and one is not None and one.climate == "polar":
        yield at(
            gas, "fuel", f"butane, and her waters are {one.climate}", item="gas", also=(one.place("climate"),)
        )


def _same(space: Space, other: Space | None) -> bool:
    return other is not None and space.name == other.name


@check("gas.shut-off-untold", HELP, COMMON_PRACTICE)
def the_gas_shut_off_is_told_by_hand_or_electric(sight: Sight) -> Finds:
    """The file says of each gas shut-off whether it is worked by electricity.

    Why: an electric one makes a spark, and with gas about nobody may touch it; where it is not told, the card must leave whoever
    stands before it to judge.
    Remedy: go and look: electric: no for a tap or lever in the pipe, electric: yes for a switch that works a valve.
    """
    gas = sight.vessel.gas
    if gas is None or gas.fuel not in ("butane", "propane"):
        return
    for stop in sight.vessel.stops:
        if stop.what == "gas" and stop.electric is None:
            yield at(
                stop,
                "electric",
                "it is not told whether this shut-off is electric, so the card says 'unless that is an electric switch'",
                remedy="write electric: no, if it is a tap or lever; electric: yes, if it is a switch",
                item="gas",
            )
