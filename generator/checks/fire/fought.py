"""Fire: what warns of it, what puts it out within reach, and what starves it."""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING

from generator.checks.fire.stowed import burners
from generator.manual.alarms import that_warn
from generator.reading.values import Quantity, all_known
from generator.shelves.spaces import FOR_GEAR
from generator.survey.limits import most
from generator.survey.places import has_cabin, space_at
from generator.survey.placing import Lies, a_room, lies
from generator.survey.registry import (
    COMMON_PRACTICE,
    DEFECT,
    HELP,
    LIFE,
    RECOMMENDATION,
    Finds,
    Found,
    Sight,
    at,
    check,
    of,
)
from generator.vessel.alarms import WARNS_OF_GAS

if TYPE_CHECKING:
    from generator.manual.drawing.spaces import Space
    from generator.vessel.gear import Gear

BURNT = ("butane", "propane", "alcohol", "paraffin")


def _look(sight: Sight, what: str) -> str:
    """What to do where it is not known whether there is an alarm."""
    where = a_room(sight)
    return f"look at deckheads and bulkheads; fit one where there is none, then write under 'alarms' for example: - {{what: {what}, where: {where}}}"


@check(
    "fire.smoke-alarm-missing",
    LIFE,
    "United States fire authorities on smoke alarms (secondary); common practice",
)
def smoke_is_noticed(sight: Sight) -> Finds:
    """There is a smoke alarm.

    Why: whoever sleeps does not smell smoke, and wakes when the way out is shut.
    Remedy: fit one in each cabin space and tell it under 'alarms': what: smoke; or list it as gear: what: smoke alarm.
    """
    vessel = sight.vessel
    if vessel.gear and has_cabin(vessel) and not that_warn(vessel, "warns of smoke"):
        message = "no smoke alarm is told of, neither in the gear list nor under 'alarms'"
        yield Found(vessel.key_place("gear"), message, _look(sight, "smoke"))


@check(
    "fire.carbon-monoxide-alarm-missing",
    LIFE,
    "Boat Safety Scheme on carbon monoxide (secondary); common practice",
)
def carbon_monoxide_is_noticed(sight: Sight) -> Finds:
    """Where something burns in a closed space, or people sleep over a petrol engine, there is a carbon monoxide alarm.

    Why: it has no smell, and kills people asleep.
    Remedy: fit one near the berths and tell it under 'alarms': what: CO; or list it as gear: what: carbon monoxide alarm.
    """
    vessel, gas, one = sight.vessel, sight.vessel.gas, sight.vessel.vessel
    if one and not one.hull.closed_in:
        return
    if vessel.gear and gas and gas.fuel in BURNT and not that_warn(vessel, "warns of carbon monoxide"):
        message = f"{gas.fuel} is burnt aboard, and no carbon monoxide alarm is told of, neither in the gear list nor under 'alarms'"
        yield at(gas, "fuel", message, remedy=_look(sight, "CO"))
    elif (
        vessel.gear
        and one
        and one.inboard_engine
        and one.petrol
        and has_cabin(vessel)
        and not that_warn(vessel, "warns of carbon monoxide")
    ):
        message = "it burns petrol below a cabin, and no carbon monoxide alarm is told of, neither in the gear list nor under 'alarms'"
        yield at(one, "engine", message, remedy=_look(sight, "CO"))
    elif not that_warn(vessel, "warns of carbon monoxide"):
        for item in burners(sight)[:1]:
            message = "it burns in a closed space, and no carbon monoxide alarm is told of, neither in the gear list nor under 'alarms'"
            yield of(item, "what", message, remedy=_look(sight, "CO"))


@check(
    "fire.engine-unprotected",
    LIFE,
    "Boat Safety Scheme part 6 (extinguisher discharged without opening the hatch); Division 240 (secondary)",
)
def engine_fire_is_fought_with_the_hatch_shut(sight: Sight) -> Finds:
    """A fire at an inboard engine can be fought without opening the engine space.

    Why: the opened hatch gives the fire the air it lacks.
    Remedy: fit an automatic or fixed extinguisher and list it, or a hole to discharge one through and write fire-port: yes.
    """
    one, vessel = sight.vessel.vessel, sight.vessel
    if (
        one
        and one.inboard_engine
        and one.fire_port is not True
        and not vessel.gear_that("guards the engine space")
    ):
        yield at(
            one,
            "engine",
            "she has an inboard engine, and neither an automatic nor a fixed extinguisher nor a 'fire-port'",
        )


@check("fire.fan-runs-on", LIFE, "owner's manual of a motor yacht (secondary); 46 CFR 28.265(d)(9)(iv)")
def gas_of_a_fixed_extinguisher_stays_in(sight: Sight) -> Finds:
    """With a fixed extinguisher the ventilation can be shut off.

    Why: a fan or an open flap takes the gas out again, and the fire comes back.
    Remedy: describe flaps and fan switch under 'stops' with what: ventilation.
    """
    vessel = sight.vessel
    if not any(stop.what == "ventilation" for stop in vessel.stops):
        for item in vessel.gear_that("floods a space"):
            yield of(item, "what", "no shut-off of the ventilation is described")


@check(
    "fire.petrol-vapour",
    LIFE,
    "common practice; 33 CFR 183.610 on powered ventilation (from memory, unverified)",
)
def petrol_vapour_is_blown_out_or_noticed(sight: Sight) -> Finds:
    """With an inboard petrol engine the file tells of what blows its vapour out of the engine space, and of what warns of it.

    Why: petrol vapour lies in the bilge like gas, and the starter lights it; of a diesel engine nobody asks it.
    Remedy: tell the fan's switch and flaps under 'stops' with what: ventilation, or a detector under 'alarms' with what: gas;
    where the engine burns diesel, write engine: inboard diesel.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    if one is None or one.engine != "inboard petrol" or that_warn(vessel, WARNS_OF_GAS):
        return
    blown = any(stop.what == "ventilation" for stop in vessel.stops) or any(
        re.search(r"\b(?:blower|fan)\b", str(item.what or ""), re.IGNORECASE) for item in vessel.gear
    )
    yield at(
        one,
        "engine",
        "it burns petrol, and nothing warns of its vapour"
        if blown
        else "it burns petrol, and nothing blows its vapour out or warns of it",
        remedy="fit a detector low down in the engine space and tell it: alarms: [{what: gas, where: engine space, sounds-in: [cockpit]}]; until then defer this"
        if blown
        else "",
        item="petrol",
        weight=RECOMMENDATION if blown else None,
    )


@check("fire.inside-the-fire", LIFE, COMMON_PRACTICE)
def extinguishers_are_not_behind_the_fire(sight: Sight) -> Finds:
    """No extinguisher that is carried to a fire is kept in the engine space, nor all of them in the locker of tank, batteries or bottles.

    Why: it lies behind the fire it is meant for.
    Remedy: hang it outside, on the way to the fire.
    """
    for item in sight.vessel.gear_that("carried to a fire"):
        space = space_at(sight, item.where)
        if space is not None and space.engine:
            yield of(item, "where", f"it is kept in the {item.where}")
    by_hand = [(item, lies(sight, item)) for item in sight.vessel.gear_that("discharged by hand")]
    burning = [fire for _, here in by_hand if (fire := _burns_in(sight, here))]
    if by_hand and len(burning) == len(by_hand):
        item, here = by_hand[0]
        which = "it is the only one, and" if len(by_hand) == 1 else "all are with what burns: this"
        yield of(item, "where", f"{which} lies in the {here}, with {burning[0]}")


def _burns_in(sight: Sight, here: Lies | None) -> str:
    """What may burn in the same locker as something: its name; "" where nothing does, or that is no locker."""
    if here is None or here.space.stows != FOR_GEAR:
        return ""
    vessel = sight.vessel
    if any(space_at(sight, bank.where) is here.space for bank in vessel.batteries):
        return "the batteries"
    if any(space_at(sight, engine.where) is here.space for engine in vessel.engines):
        return "the engine"
    tank = any(
        stop.what == "fuel"
        and space_at(sight, stop.where) is here.space
        and "tank" in str(stop.spot or "").lower()
        for stop in vessel.stops
    )
    return "the fuel tank" if tank else ""


@check("fire.stop-inside", LIFE, COMMON_PRACTICE)
def shut_offs_are_reached_from_outside(sight: Sight) -> Finds:
    """What starves a fire is worked from outside the space that burns.

    Why: nobody reaches into a burning engine space for the fuel tap.
    Remedy: fit a pull or a hole to reach it through and write from-outside: yes, or move it.
    """
    vessel = sight.vessel
    bottles = vessel.gas.bottles if vessel.gas and isinstance(vessel.gas.bottles, str) else None
    for stop in vessel.stops:
        if not isinstance(stop.where, str) or stop.from_outside is True:
            continue
        space = space_at(sight, stop.where)
        burns = space is not None and space.engine
        inside = burns and stop.what in ("engine", "fuel", "ventilation", "batteries", "gas")
        if inside or stop.from_outside is False:
            yield at(
                stop,
                "where" if inside else "from-outside",
                f"the {stop.what or 'unnamed'} shut-off is worked inside the {stop.where or 'place not told'}",
                item=str(stop.what or stop.path),
            )
        elif stop.what == "gas" and bottles and stop.where.lower() == bottles.lower():
            yield at(stop, "where", f"the gas shut-off is in the {stop.where}, with the bottles", item="gas")


@check("fire.galley-far", HELP, "French state leaflet of 2008 after Division 240: 2 m (secondary)")
def an_extinguisher_is_near_the_galley(sight: Sight) -> Finds:
    """An extinguisher or fire blanket is within two metres of the galley.

    Why: a pan fire is put out in its first seconds or not at all.
    Remedy: hang one there, beside the way out and not behind the cooker.
    """
    far = _from_the_galley(sight)
    if far and nothing_near_the_galley(sight):
        first = sight.vessel.gear_that("carried to a fire")[0]
        yield at(
            first,
            "where",
            f"the nearest extinguisher or fire blanket is {min(far):.1f} m from the galley",
            item=str(first.what),
        )


def nothing_near_the_galley(sight: Sight) -> bool:
    """Whether all that is carried to a fire is known to be far from where people cook."""
    far = _from_the_galley(sight)
    return bool(far) and min(far) > most(sight.vessel, "extinguisher to the galley")


def _from_the_galley(sight: Sight) -> list[float]:
    """How far from the galley, in m, is what is carried to a fire; empty where that is not known of all of it."""
    galley, things = _galley(sight), sight.vessel.gear_that("carried to a fire")
    if galley is None:
        return []
    return all_known(_distance(sight, item, galley) for item in things) or []


@check(
    "fire.helm-far",
    HELP,
    "French state leaflet of 2008 after Division 240: 1 m under 10 m of length, else 2.5 m (secondary)",
)
def an_extinguisher_is_near_the_helm(sight: Sight) -> Finds:
    """Where extinguishers have points on the plan, one is near the helm.

    Why: whoever is on watch is alone with the first flames.
    Remedy: hang one in the cockpit, or give the point of the one that is there.
    """
    vessel = sight.vessel
    if not vessel.vessel or not vessel.vessel.known("length"):
        return
    helm = next((space for space in sight.spaces.values() if space.steering), None)
    most_m = most(vessel, "extinguisher to the helm")
    portable = vessel.gear_that("discharged by hand")
    things = [item for item in portable if item.point and item.point.known("aft", "off")]
    far = all_known(_distance(sight, item, helm) for item in things) if helm else None
    if far and len(things) == len(portable) and min(far) > most_m:
        nearest = things[far.index(min(far))]
        yield of(nearest, "point", f"the nearest to the helm, and {min(far):.1f} m away from it")


def _galley(sight: Sight) -> Space | None:
    """The space where people cook, if anything says that somebody cooks aboard."""
    vessel = sight.vessel
    galley = next((space for space in sight.spaces.values() if space.cooking), None)
    cooks = bool(vessel.gas) or any(
        galley is not None and space_at(sight, item.where) is galley
        for item in (*vessel.gear, *vessel.stops, *vessel.through_hulls)
    )
    return galley if cooks and vessel.vessel else None


def _distance(sight: Sight, item: Gear, space: Space) -> float | None:
    """Metres in plan from a thing, by its point or else its space, to the nearest edge of a space; None where not known."""
    point = item.point
    aft: float
    fore: float
    port: float
    starboard: float
    if point and isinstance(point.aft, Quantity) and isinstance(point.off, Quantity):
        aft, fore, port, starboard = point.aft, point.aft, point.off, point.off
    else:
        own = space_at(sight, item.where)
        if own is None:
            return None
        (port, starboard), aft, fore = own.half(str(item.side or "")), own.aft_m, own.fore_m
    left, right = space.half("")
    along = max(0.0, space.aft_m - fore, aft - space.fore_m)
    across = max(0.0, left - starboard, port - right)
    return math.hypot(along, across)


@check("fire.battery-switch-missing", LIFE, COMMON_PRACTICE)
def batteries_can_be_cut_off(sight: Sight) -> Finds:
    """Where there are batteries, a switch cuts them off.

    Why: a short circuit feeds the fire until the bank is empty; lithium cells that are still fed do not cool.
    Remedy: describe the switch under 'stops' with what: batteries.
    """
    vessel = sight.vessel
    if vessel.batteries and not any(stop.what == "batteries" for stop in vessel.stops):
        first = next((each for each in vessel.batteries if each.chemistry == "lithium"), vessel.batteries[0])
        yield at(
            first,
            "what",
            f"{first.what} batteries ({first.chemistry or 'of a kind not told'}): no switch that cuts them off is described",
            item=f"{first.what} batteries",
            weight=DEFECT if first.chemistry == "lithium" else None,
        )
