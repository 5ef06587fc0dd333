"""Fire and gas: what warns of it, what puts it out within reach, what starves it, and how people get out."""

from __future__ import annotations

from generator.checks.deck import spaces_in
from generator.manual.drawing.spaces import find_space
from generator.reading.values import Quantity
from generator.survey.registry import COMMON_PRACTICE, DEFECT, RECOMMENDATION, Found, at, check

BURNT = ("butane", "propane", "alcohol", "paraffin")
GALLEY_M, HELM_M, HELM_SHORT_M, SHORT_BOAT_M = (
    2.0,
    2.5,
    1.0,
    10.0,
)  # French state leaflet of 2008 after Division 240 (secondary)
TWO_WAYS_OUT_M = 8.5


def _named(vessel, *names):
    return [
        item for item in vessel.gear if isinstance(item.what, str) and item.what.lower().startswith(names)
    ]


def _cabin(vessel):
    """Whether people sleep, cook or have an engine below."""
    return (
        any(person.berth for person in vessel.people)
        or bool(vessel.gas)
        or (vessel.vessel and str(vessel.vessel.engine).startswith("inboard"))
    )


@check(
    "fire.smoke-alarm-missing",
    RECOMMENDATION,
    "United States fire authorities on smoke alarms (secondary); common practice",
)
def smoke_is_noticed(sight):
    """There is a smoke alarm.

    Why: whoever sleeps does not smell smoke, and wakes when the way out is shut.
    Remedy: fit one in each cabin space and list it: what: smoke alarm.
    """
    vessel = sight.vessel
    if vessel.gear and _cabin(vessel) and not _named(vessel, "smoke alarm"):
        yield Found(vessel.key_place("gear"), "no smoke alarm is in the gear list")


@check(
    "fire.carbon-monoxide-alarm-missing",
    RECOMMENDATION,
    "Boat Safety Scheme on carbon monoxide (secondary); common practice",
)
def carbon_monoxide_is_noticed(sight):
    """Where something burns aboard there is a carbon monoxide alarm.

    Why: it has no smell, and kills people asleep.
    Remedy: fit one near the berths and list it: what: carbon monoxide alarm.
    """
    vessel = sight.vessel
    burns = vessel.gas and vessel.gas.fuel in BURNT
    if vessel.gear and burns and not _named(vessel, "carbon monoxide alarm"):
        yield at(
            vessel.gas,
            "fuel",
            f"{vessel.gas.fuel} is burnt aboard, and no carbon monoxide alarm is in the gear list",
        )


@check(
    "fire.engine-unprotected",
    RECOMMENDATION,
    "Boat Safety Scheme part 6 (extinguisher discharged without opening the hatch); Division 240 (secondary)",
)
def engine_fire_is_fought_with_the_hatch_shut(sight):
    """A fire at an inboard engine can be fought without opening the engine space.

    Why: the opened hatch gives the fire the air it lacks.
    Remedy: fit an automatic or fixed extinguisher and list it, or a hole to discharge one through and write fire-port: yes.
    """
    one, vessel = sight.vessel.vessel, sight.vessel
    if (
        one
        and str(one.engine).startswith("inboard")
        and one.fire_port is not True
        and not _named(vessel, "automatic extinguisher", "fixed extinguisher")
    ):
        yield at(
            one,
            "engine",
            "she has an inboard engine, and neither an automatic nor a fixed extinguisher nor a 'fire-port'",
        )


@check(
    "fire.fan-runs-on", RECOMMENDATION, "owner's manual of a motor yacht (secondary); 46 CFR 28.265(d)(9)(iv)"
)
def gas_of_a_fixed_extinguisher_stays_in(sight):
    """With a fixed extinguisher the ventilation can be shut off.

    Why: a fan or an open flap takes the gas out again, and the fire comes back.
    Remedy: describe flaps and fan switch under 'stops' with what: ventilation.
    """
    vessel = sight.vessel
    if not any(stop.what == "ventilation" for stop in vessel.stops):
        for item in _named(vessel, "fixed extinguisher"):
            yield at(
                item, "what", f"{item.what}: no shut-off of the ventilation is described", item=str(item.what)
            )


@check("fire.inside-the-fire", RECOMMENDATION, COMMON_PRACTICE)
def extinguishers_are_not_behind_the_fire(sight):
    """No extinguisher that is carried to a fire is kept in the engine space.

    Why: it lies behind the fire it is meant for.
    Remedy: hang it outside, on the way to the fire.
    """
    for item in _named(sight.vessel, "fire extinguisher", "fire blanket"):
        if isinstance(item.where, str) and "engine" in item.where.lower():
            yield at(item, "where", f"{item.what}: it is kept in the {item.where}", item=str(item.what))


@check("fire.stop-inside", RECOMMENDATION, COMMON_PRACTICE)
def shut_offs_are_reached_from_outside(sight):
    """What starves a fire is worked from outside the space that burns.

    Why: nobody reaches into a burning engine space for the fuel tap.
    Remedy: fit a pull or a hole to reach it through and write from-outside: yes, or move it.
    """
    vessel = sight.vessel
    bottles = vessel.gas.bottles if vessel.gas and isinstance(vessel.gas.bottles, str) else None
    for stop in vessel.stops:
        if not isinstance(stop.where, str) or stop.from_outside is True:
            continue
        inside = stop.what in ("engine", "fuel", "ventilation") and "engine" in stop.where.lower()
        if inside or stop.from_outside is False:
            yield at(
                stop,
                "where" if inside else "from-outside",
                f"the {stop.what} shut-off is worked inside the {stop.where}",
                item=str(stop.what),
            )
        elif stop.what == "gas" and bottles and stop.where.lower() == bottles.lower():
            yield at(stop, "where", f"the gas shut-off is in the {stop.where}, with the bottles", item="gas")


@check("fire.galley-far", RECOMMENDATION, "French state leaflet of 2008 after Division 240: 2 m (secondary)")
def an_extinguisher_is_near_the_galley(sight):
    """An extinguisher or fire blanket is within two metres of the galley.

    Why: a pan fire is put out in its first seconds or not at all.
    Remedy: hang one there, beside the way out and not behind the cooker.
    """
    vessel = sight.vessel
    galley = _galley(vessel)
    things = _named(vessel, "fire extinguisher", "fire blanket")
    if galley is None or not things:
        return
    far = [_distance(vessel, item, galley) for item in things]
    if all(each is not None and each > GALLEY_M for each in far):
        yield at(
            things[0],
            "where",
            f"the nearest extinguisher or fire blanket is {min(far):.1f} m from the galley",
            item=str(things[0].what),
        )


@check(
    "fire.helm-far",
    RECOMMENDATION,
    "French state leaflet of 2008 after Division 240: 1 m under 10 m of length, else 2.5 m (secondary)",
)
def an_extinguisher_is_near_the_helm(sight):
    """Where extinguishers have points on the plan, one is near the helm.

    Why: whoever is on watch is alone with the first flames.
    Remedy: hang one in the cockpit, or give the point of the one that is there.
    """
    vessel = sight.vessel
    if not vessel.vessel or not vessel.vessel.known("length"):
        return
    helm = find_space(spaces_in(vessel), "helm")[0]
    most_m = HELM_SHORT_M if vessel.vessel.length < SHORT_BOAT_M else HELM_M
    things = [
        item for item in _named(vessel, "fire extinguisher") if item.point and item.point.known("aft", "off")
    ]
    far = [_distance(vessel, item, helm) for item in things] if helm else []
    if far and len(things) == len(_named(vessel, "fire extinguisher")) and min(far) > most_m:
        nearest = things[far.index(min(far))]
        yield at(
            nearest,
            "point",
            f"{nearest.what}: the nearest to the helm, and {min(far):.1f} m away from it",
            item=str(nearest.what),
        )


def _galley(vessel):
    """The space called galley, where anything says that somebody cooks there."""
    cooks = bool(vessel.gas) or any(
        str(item.where).lower() == "galley" for item in (*vessel.gear, *vessel.stops, *vessel.through_hulls)
    )
    return find_space(spaces_in(vessel), "galley")[0] if cooks and vessel.vessel else None


def _distance(vessel, item, space):
    """Metres in plan from a thing, by its point or else its space, to the nearest edge of a space; None where not known."""
    point = item.point
    if point and isinstance(point.aft, Quantity) and isinstance(point.off, Quantity):
        aft, fore, port, starboard = point.aft, point.aft, point.off, point.off
    else:
        own = find_space(spaces_in(vessel), item.where)[0] if isinstance(item.where, str) else None
        if own is None:
            return None
        (port, starboard), aft, fore = own.half(str(item.side or "")), own.aft_m, own.fore_m
    left, right = space.half("")
    along = max(0.0, space.aft_m - fore, aft - space.fore_m)
    across = max(0.0, left - starboard, port - right)
    return (along * along + across * across) ** 0.5


@check("gas.detector-missing", RECOMMENDATION, COMMON_PRACTICE)
def leaking_gas_is_noticed(sight):
    """Where gas is aboard there is a gas detector.

    Why: gas is heavier than air and lies in the bilge until a spark finds it.
    Remedy: fit one low down, then write detector: yes.
    """
    gas = sight.vessel.gas
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
def gas_bottles_are_not_below(sight):
    """Gas bottles are not kept below deck.

    Why: what leaks there runs into the bilge.
    Remedy: keep them on deck or in a locker that drains overboard.
    """
    gas = sight.vessel.gas
    if gas and gas.fuel in ("butane", "propane") and isinstance(gas.bottles, str) and sight.vessel.vessel:
        space = find_space(spaces_in(sight.vessel), gas.bottles)[0]
        if space is not None and space.level == "below":
            yield at(gas, "bottles", f"the gas bottles are kept in the {gas.bottles}, below deck", item="gas")


@check("fire.battery-switch-missing", RECOMMENDATION, COMMON_PRACTICE)
def batteries_can_be_cut_off(sight):
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
            f"{first.what} batteries ({first.chemistry}): no switch that cuts them off is described",
            item=f"{first.what} batteries",
            weight=DEFECT if first.chemistry == "lithium" else None,
        )


@check(
    "escape.one-only",
    RECOMMENDATION,
    "Offshore Special Regulations 3.07 (from memory, unverified): two exits from 8.5 m of length on",
)
def there_are_two_ways_out(sight):
    """From 8.5 m of length on there are two ways out.

    Why: fire or a fallen mast shuts the one there is.
    Remedy: describe the second under 'escape'; if a hatch opens wide enough for a person, that is one.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    if (
        one
        and isinstance(one.length, Quantity)
        and one.length >= TWO_WAYS_OUT_M
        and _cabin(vessel)
        and len(vessel.escape) < 2
    ):
        place = vessel.key_place("escape") if vessel.escape else one.place("length")
        yield Found(place, f"{len(vessel.escape) or 'no'} way out is described; she is {one.length} long")


@check(
    "escape.inverted",
    RECOMMENDATION,
    "Offshore Special Regulations 3.07.2 for multihulls (from memory, unverified)",
)
def each_hull_has_its_way_out(sight):
    """Offshore, each hull of a catamaran has its own way out.

    Why: she floats upside down, and the companionway is then under water.
    Remedy: describe the escape hatch of each hull under 'escape', the space with its side: port aft cabin.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    if not one or one.type != "catamaran" or one.waters not in ("offshore", "ocean") or not vessel.escape:
        return
    for side in ("port", "starboard"):
        if not any(side in str(hatch.where).lower().split() for hatch in vessel.escape):
            yield Found(
                vessel.key_place("escape"), f"no way out of the {side} hull is described", item=f"{side} hull"
            )
