"""Pumps, stops, alarms, batteries and holes in the hull: each where it can do what it is for."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.reading.values import Quantity
from generator.shelves.spaces import BELOW, FOR_GEAR, FOR_NOTHING, UPPER
from generator.survey.places import space_at
from generator.survey.placing import Lies, apart_m, lies, no_hand_there, over_no_hull, shut_off, space_of
from generator.survey.registry import COMMON_PRACTICE, COMPOSITION, LIFE, TRUTH, Finds, Sight, at, check, of
from generator.vessel.fittings import Located
from generator.vessel.gear import does

if TYPE_CHECKING:
    from generator.manual.drawing.spaces import Space
    from generator.vessel.alarms import Alarm
    from generator.vessel.gear import Gear
    from generator.vessel.installed import Pump

HANDLE_M, CORD_M, BELT_M = 2.5, 2.0, 0.3
"""How far a pump's handle may be kept from it, a kill cord's switch from whoever steers, a pump from the engine that drives it. Common practice."""
HELM_M = 1.0
"""How far from the helm a switch of a pump may be in the open. Common practice."""
AFT = 0.28
"""Of the length: no rudder stock comes up in a room that begins further forward. Common practice."""
HEARS_ROOMS = ("warns of smoke", "warns of carbon monoxide")


@check("placed.pump", LIFE, COMMON_PRACTICE, COMPOSITION)
def pumps_are_worked_where_they_are(sight: Sight) -> Finds:
    """A hand pump's handle is kept beside it, and a pump lies where water can be drawn to it.

    Why: a pump without its handle moves nothing, and in the dark nobody finds it in another space.
    Remedy: hang the handle in a clip beside the pump; write the space where each really is.
    """
    for pump in sight.vessel.pumps:
        space = space_of(sight, pump)
        if space is not None and (space.level == UPPER or space.mark or (space.exposed and not space.stows)):
            yield of(pump, "where", f"it is on the {space.name}, and no water collects there")
        handle = pump.handle
        engines = [Lies(each) for each in sight.spaces.values() if each.engine]
        here = lies(sight, pump)
        named = (
            re.search(r"\b(?:hand|electric)\b", str(pump.what)) is not None
        )  # of which it says another kind
        if pump.power == "engine" and not named and here is not None and engines and not here.space.unlike:
            far = min(here.apart_m(each) for each in engines)
            if far > BELT_M:
                yield of(
                    pump,
                    "where",
                    f"an engine drives it, and it is in the {here}, {far:.0f} m from the engine space",
                )
        told = handle if isinstance(handle, Located) and handle.known("where") else pump
        worked = space_of(sight, told)
        if pump.power == "hand" and worked is not None and no_hand_there(worked) and worked.level == BELOW:
            yield of(pump, "where", f"it is worked in the {worked.name}, {no_hand_there(worked)}")
            continue
        if pump.power != "hand" or not isinstance(handle, Located) or not handle.known("where"):
            continue
        gap, kept = apart_m(sight, pump, handle), space_of(sight, handle)
        if kept is None or space is None or gap is None:
            continue
        if gap > HANDLE_M or (pump.from_deck is not True and kept.level != space.level and not space.stows):
            yield of(
                pump,
                "where",
                f"its handle is kept in the {kept.name}, the pump is in the {space.name}",
                part=handle,
            )


RUN = ("electric", "engine")
"""By what a pump is driven that runs by itself."""


@check("placed.pump-runs", LIFE, COMMON_PRACTICE, COMPOSITION)
def pumps_that_run_draw_and_are_switched(sight: Sight) -> Finds:
    """A pump that runs by itself lies where water collects, and its switch or lever is where somebody gets at it.

    Why: it runs dry while she fills, or nobody finds the switch.
    Remedy: go and look at the pump and at its switch; write the space of each, and under 'spot' what it is under or in.
    """
    for pump in sight.vessel.pumps:
        space = space_of(sight, pump)
        aloft = space is None or space.level == UPPER or space.mark or (space.exposed and not space.stows)
        if space is not None and not aloft and (why := _no_bilge(sight, pump, space)):
            yield of(pump, "where", f"it is in the {space.name}, {why}")
        switch = pump.handle if isinstance(pump.handle, Located) else None
        there = space_of(sight, switch)
        if pump.power in RUN and there is not None and (why := _no_switch(sight, pump, there)):
            yield of(pump, "where", f"it is switched in the {there.name}, {why}", part=switch)


def _no_bilge(sight: Sight, pump: Pump, space: Space) -> str:
    """Why a pump that runs by itself draws no water in a space, as words after its name: on a deck that drains, between two hulls, in a tank."""
    if space.unlike or isinstance(pump.spot, str) or pump.power not in RUN:
        return "a closed tank" if shut_off(space) else ""
    one = sight.vessel.vessel
    if space.open_deck and one is not None and one.hull.closed_in:
        return "a deck that drains by itself"
    return "which no hull is under" if over_no_hull(sight, space) else ""


def _no_switch(sight: Sight, pump: Pump, space: Space) -> str:
    """Why nobody switches a pump in a space, as words after its name; a lever may be on the engine that drives it."""
    if space.engine:
        drowned = pump.power == "electric" and space_of(sight, pump) is space
        return "which it is to empty" if drowned else ""
    if why := no_hand_there(space):
        return why
    helms = [Lies(each) for each in sight.spaces.values() if each.steering]
    if pump.power == "engine" and not space.unlike:
        engines = [Lies(each) for each in sight.spaces.values() if each.engine]
        if engines and min(Lies(space).apart_m(each) for each in [*engines, *helms]) > HANDLE_M:
            return "away from engine and helm"
    if space.open_deck and not isinstance(pump.from_deck, bool):
        far = helms and min(Lies(space).apart_m(each) for each in helms) > HELM_M
        return "in the open, away from the helm" if far else ""
    return ""


@check("placed.stop", LIFE, COMMON_PRACTICE, COMPOSITION)
def stops_are_within_reach(sight: Sight) -> Finds:
    """A stop is where a hand gets at it in a sea; a kill cord at the place she is steered from.

    Why: the engine drives on over the swimmer, or the fire is fed, while somebody crawls there.
    Remedy: go and look where it is worked, and write that space.
    """
    vessel, helms = sight.vessel, [space for space in sight.spaces.values() if space.steering]
    for stop in vessel.stops:
        space = space_of(sight, stop)
        if space is None:
            continue
        if stop.what == "kill cord":
            near = any(
                space.level == helm.level
                and max(space.aft_m - helm.fore_m, helm.aft_m - space.fore_m, 0.0) <= CORD_M
                for helm in helms
            )
            if helms and not near and not space.own:
                yield of(stop, "where", f"the {space.name} is not where she is steered")
        elif space.mark or (space.exposed and stop.what != "ventilation"):
            yield of(stop, "where", f"it is in the {space.name}, where the seas break")
        elif space.stows == FOR_NOTHING and not space.engine and stop.from_outside is not True:
            with_bottles = (
                stop.what == "gas" and vessel.gas is not None and space_at(sight, vessel.gas.bottles) is space
            )
            if not with_bottles and not (stop.what == "fuel" and "tank" in space.name):
                yield of(stop, "where", f"it is in the {space.name}, where nobody gets at it")


@check("placed.alarm", LIFE, COMMON_PRACTICE, COMPOSITION)
def alarms_are_where_they_serve(sight: Sight) -> Finds:
    """Smoke and carbon monoxide are noticed inside, gas and water low down.

    Why: in the open the wind takes it, and nobody asleep is woken.
    Remedy: hang it in the space where people sleep or where it gathers, and write that space.
    """
    for alarm in sight.vessel.alarms:
        space = space_of(sight, alarm)
        if space is not None and (why := _no_place_for(sight, alarm, space)):
            yield of(alarm, "where", why)
        for number, name in enumerate(alarm.watches):
            heard = space_at(sight, name)
            if heard is not None and (heard.open_deck or heard.mark):
                yield at(
                    alarm,
                    f"watches[{number}]",
                    f"it listens to the {heard.name}, in the open",
                    item=str(alarm.what),
                )
    for item in sight.vessel.gear:
        space = space_of(sight, item)
        if space is not None and any(does(item, each) for each in HEARS_ROOMS):
            if space.open_deck or space.mark:
                yield of(item, "where", f"it hangs in the open: {space.name}")
            elif not _serves_in(sight, item, space):
                yield of(item, "where", f"it hangs in the {space.name}, and nobody sleeps there")


def _serves_in(sight: Sight, item: Gear, space: Space) -> bool:
    """Whether an alarm of the gear list serves in a space that is no deck: a room, the engine's, or a locker in which something may burn."""
    if space.engine:
        return does(item, HEARS_ROOMS[0])
    return not no_hand_there(space) and (not space.stows or _burns_there(sight, space))


def _no_place_for(sight: Sight, alarm: Alarm, space: Space) -> str:
    """Why an alarm does not serve where it hangs; "" where it does."""
    one, kind = sight.vessel.vessel, alarm.gear_kind
    rooms = kind is not None and any(kind.does(each) for each in HEARS_ROOMS)
    if alarm.watches:
        own = any(space_at(sight, each) is space for each in alarm.watches)
        why = "" if own else no_hand_there(space)
        return f"it hangs in the {space.name}, {why}, and listens elsewhere" if why else ""
    if rooms and space.open_deck:
        return f"it hangs in the open: {space.name}"
    closed_in = one is not None and one.hull.closed_in
    return (
        f"nothing gathers in the {space.name}, on deck" if not rooms and closed_in and space.open_deck else ""
    )


def _burns_there(sight: Sight, space: Space) -> bool:
    """Whether a fire may begin in a locker: batteries or an engine stand there."""
    vessel = sight.vessel
    return any(space_of(sight, each) is space for each in (*vessel.batteries, *vessel.engines))


@check("placed.batteries", TRUTH, COMMON_PRACTICE, COMPOSITION)
def batteries_are_inside_her(sight: Sight) -> Finds:
    """Batteries stand below, or in a locker.

    Why: whoever is to switch them off, or fights their fire, is sent to the wrong place.
    Remedy: write the space where the bank stands.
    """
    one = sight.vessel.vessel
    lived_in = one is not None and one.hull.has_rooms
    for bank in sight.vessel.batteries:
        space = space_of(sight, bank)
        if space is not None and (space.mark or space.level == UPPER or (space.exposed and not space.stows)):
            yield of(bank, "where", f"batteries do not stand on the {space.name}")
        elif space is not None and shut_off(space):
            yield of(bank, "where", f"batteries do not stand in the {space.name}")
        elif space is not None and _FOR_CALLS.search(str(bank.what)) and (why := _drowned(space)):
            yield of(
                bank,
                "where",
                f"it feeds the radio when all else is out, and stands in the {space.name}, {why}",
            )
        elif space is not None and space.open_deck and lived_in and not isinstance(bank.spot, str):
            yield of(
                bank,
                "where",
                f"they stand in the open: {space.name}",
                remedy="write the space where the bank stands, or under 'spot' what shuts it in: in the locker under the seat",
            )


_FOR_CALLS = re.compile(r"\b(?:emergency|reserve|radio|radios|gmdss|vhf)\b", re.IGNORECASE)
"""Of a bank: that it is for the call for help."""


def _drowned(space: Space) -> str:
    """Why the bank of the radio goes out first in a space, as words after its name; "" where it stands high and apart."""
    if space.level == BELOW and space.stows == FOR_NOTHING:
        return "where the engine burns first" if space.engine else "where the water comes first"
    return ""


@check("placed.hull-opening", TRUTH, COMMON_PRACTICE, COMPOSITION)
def holes_are_in_the_hull(sight: Sight) -> Finds:
    """A hole in the hull is below, in a locker, or in a space that drains overboard.

    Why: water comes in, and people look for its seacock where there is none.
    Remedy: write the space in which the seacock is.
    """
    one = sight.vessel.vessel
    for hole in sight.vessel.through_hulls:
        space = space_of(sight, hole)
        if space is None or space.stows == FOR_GEAR:
            continue
        under_water = isinstance(hole.below_water, Quantity) and hole.below_water > 0
        deck = (
            space.level != BELOW and not space.stows and not space.unlike and not isinstance(hole.spot, str)
        )
        if space.level != BELOW and (
            space.mark or space.level == UPPER or (space.exposed and not space.stows)
        ):
            yield of(hole, "where", f"the {space.name} has no hole into the sea")
        elif under_water and deck and one is not None and one.hull.has_rooms:
            yield of(
                hole,
                "where",
                f"it is {hole.below_water} below the water, and the {space.name} is on deck",
                remedy="write the space below in which the seacock is, or under 'spot' what it is reached through",
            )
        elif shut_off(space):
            yield of(hole, "where", f"nobody gets at a seacock in the {space.name}")


@check("placed.tiller", TRUTH, COMMON_PRACTICE, COMPOSITION)
def the_emergency_tiller_fits_where_the_rudder_is(sight: Sight) -> Finds:
    """The emergency tiller fits in the after half of the boat, where a rudder stock comes up.

    Why: somebody carries it to where nothing turns, while she lies across the seas.
    Remedy: fit it once, and write the space under 'fits': {where: cockpit, spot: on the rudder stock under the round plate}.
    """
    steering, one = sight.vessel.steering, sight.vessel.vessel
    fits = steering.fits if steering is not None else None
    space = space_of(sight, fits if isinstance(fits, Located) else None)
    if space is None or one is None or not isinstance(fits, Located) or not isinstance(one.length, Quantity):
        return
    room = space.level == BELOW and space.aft_m > AFT * one.length
    if (
        room
        or space.aft_m > one.length / 2
        or space.mark
        or space.level == UPPER
        or space.stows == FOR_NOTHING
    ):
        yield at(fits, "where", f"no rudder stock is in the {space.name}", item="emergency tiller")
