"""Pumps, stops, alarms, batteries and holes in the hull: each where it can do what it is for."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.reading.values import Quantity
from generator.shelves.spaces import BELOW, FOR_GEAR, FOR_NOTHING, UPPER
from generator.survey.helms import not_at_the_helm
from generator.survey.places import space_at
from generator.survey.placing import (
    Lies,
    apart_m,
    away_from_seats,
    lies,
    no_hand_there,
    over_no_hull,
    shut_off,
    space_of,
    with_bottles,
)
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    LIFE,
    TRUTH,
    Finds,
    Sight,
    at,
    check,
    of,
)
from generator.vessel.fittings import Located
from generator.vessel.gear import does

if TYPE_CHECKING:
    from generator.manual.drawing.spaces import Space
    from generator.vessel.alarms import Alarm
    from generator.vessel.gear import Gear
    from generator.vessel.installed import Pump

HANDLE_M, BELT_M = 2.5, 0.3
"""How far a pump's handle may be kept from it, a pump from the engine that drives it. Common practice."""
HELM_M = 1.0
"""How far from the helm a switch of a pump may be in the open. Common practice."""
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
        if (
            pump.power == "engine"
            and not _NOT_BELTED.search(str(pump.what))
            and here is not None
            and engines
            and not here.space.unlike
        ):
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


_NOT_BELTED = re.compile(
    r"\b(?:hand|electric|portable|petrol|gasoline|salvage|trash|carried|own (?:engine|motor)|stand-?alone)\b",
    re.IGNORECASE,
)
"""A pump that is of another kind by its name, or has an engine of its own and is carried to the water."""
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
    told = isinstance(pump.spot, str) and (
        not away_from_seats(sight, space) or _REACHED.search(pump.spot) is not None
    )
    if space.unlike or told or pump.power not in RUN:
        return "a closed tank" if shut_off(space) else ""
    one = sight.vessel.vessel
    if space.open_deck and one is not None and one.hull.closed_in:
        return "a deck that drains by itself"
    if space.inside and space.level != BELOW and one is not None and one.hull.has_rooms:
        return "above her rooms, where no water collects"
    return "which no hull is under" if over_no_hull(sight, space) else ""


def _no_switch(sight: Sight, pump: Pump, space: Space) -> str:
    """Why nobody switches a pump in a space, as words after its name; a lever may be on the engine that drives it."""
    if space.engine:
        drowned = pump.power == "electric" and space_of(sight, pump) is space
        return "which it is to empty" if drowned else ""
    if why := no_hand_there(space):
        return why
    helms = [Lies(each) for each in sight.spaces.values() if each.steering]
    own = _NOT_BELTED.search(str(pump.what)) is not None and space_of(sight, pump) is space
    if pump.power == "engine" and not space.unlike and not own:
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
            if helms and (why := not_at_the_helm(sight, stop, space)):
                yield of(stop, "where", why)
        elif space.mark or (space.exposed and stop.what != "ventilation"):
            yield of(stop, "where", f"it is in the {space.name}, where the seas break")
        elif space.level == UPPER and space.name.endswith("roof") and not space.own:
            yield of(stop, "where", f"it is on the {space.name}, a level above the deck")
        elif space.stows == FOR_NOTHING and not space.engine and stop.from_outside is not True:
            own = (
                stop.what == "gas" and vessel.gas is not None and space_at(sight, vessel.gas.bottles) is space
            )
            if (
                not own
                and not with_bottles(sight, space)
                and not (stop.what == "fuel" and "tank" in space.name and (space.own or space.unlike))
            ):
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
        yield from _watched_in_the_open(sight, alarm)
    for item in sight.vessel.gear:
        space = space_of(sight, item)
        if space is not None and any(does(item, each) for each in HEARS_ROOMS):
            if space.open_deck or space.mark:
                yield of(item, "where", f"it hangs in the open: {space.name}")
            elif not _serves_in(sight, item, space):
                yield of(item, "where", f"it hangs in the {space.name}, and nobody sleeps there")


def _watched_in_the_open(sight: Sight, alarm: Alarm) -> Finds:
    """What an alarm listens to in the open, or where nothing gathers: the anchor locker drains overboard."""
    for number, name in enumerate(alarm.watches):
        heard = space_at(sight, name)
        if heard is not None and heard.exposed and shut_off(heard):
            yield at(
                alarm,
                f"watches[{number}]",
                f"it listens to the {heard.name}, which drains overboard",
                item=str(alarm.what),
            )
        elif heard is not None and (heard.open_deck or heard.mark):
            yield at(
                alarm,
                f"watches[{number}]",
                f"it listens to the {heard.name}, in the open",
                item=str(alarm.what),
            )


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
        helms = [Lies(each) for each in sight.spaces.values() if each.steering]
        sheltered = one is None or not one.hull.closed_in or space.own or not helms
        if not why and space.open_deck and not sheltered:
            why = "in the open" if min(Lies(space).apart_m(each) for each in helms) > HELM_M else ""
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
        under_water = (isinstance(hole.below_water, Quantity) and hole.below_water > 0) or (
            hole.below_water is None and _FEELS_THE_WATER.search(str(hole.what)) is not None
        )
        away = away_from_seats(sight, space) or (space.inside and space.level != BELOW)
        reached = isinstance(hole.spot, str) and (_REACHED if away else _TOLD).search(hole.spot)
        deck = space.level != BELOW and not space.stows and not space.unlike and not reached
        if space.level != BELOW and (
            space.mark or space.level == UPPER or (space.exposed and not space.stows)
        ):
            yield of(hole, "where", f"the {space.name} has no hole into the sea")
        elif under_water and deck and one is not None and one.hull.has_rooms:
            depth = f"{hole.below_water} " if hole.below_water is not None else ""
            yield of(
                hole,
                "where",
                f"it is {depth}below the water, and the {space.name} is on deck",
                remedy="write the space below in which the seacock is, or under 'spot' what it is reached through",
            )
        elif shut_off(space):
            yield of(hole, "where", f"nobody gets at a seacock in the {space.name}")
        elif (
            under_water
            and not space.cooking
            and over_no_hull(sight, space)
            and not isinstance(hole.spot, str)
        ):
            yield of(hole, "where", f"no hull is under the {space.name}")


_REACHED, _TOLD = re.compile(r"\b(?:hatch|lid|locker|box|cover|plate)\b", re.IGNORECASE), re.compile(r"\w")
"""Through what a seacock is reached from open deck: where people sit a sole is over the hull, and any words may tell of it."""
_FEELS_THE_WATER = re.compile(r"\b(?:logs?|sounders?|transducers?|speedometer)\b", re.IGNORECASE)
"""What is under water wherever it is fitted, though nobody says how deep."""
