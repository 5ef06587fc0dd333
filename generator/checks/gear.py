"""Gear: dates, what is missing, what is named twice, and what the steps ask for."""

from __future__ import annotations

import re

from generator.checks.passed import passed
from generator.checks.people import roles_of
from generator.manual.facts import gear_called
from generator.manual.procedures import shelf
from generator.reading.nearest import nearest
from generator.survey.registry import COMMON_PRACTICE, COMPOSITION, DEFECT, RECOMMENDATION, Found, at, check

FAR = ("offshore", "ocean")
_FLARES = re.compile(r"\b(flares?|orange smokes?|rockets?)\b", re.IGNORECASE)


@check("gear.expired", DEFECT, "33 CFR 175.125; 46 CFR 28.140 table")
def gear_is_in_date(sight):
    """Gear is in date for the whole passage.

    Why: an old flare burns the hand or not at all; an old extinguisher is empty.
    Remedy: renew it or have it serviced, then write the new date.
    """
    yield from passed(sight, "gear.expired")


@check("gear.undated", DEFECT, "33 CFR 175.125; Offshore Special Regulations 4.23 (quoted text)")
def flares_have_a_date(sight):
    """Flares and smoke signals have their expiry date.

    Why: without a date nobody notices when they run out.
    Remedy: read it from the flare and write 'expires', or 'made' where only that is stamped; with neither, count it as expired.
    """
    for item in _things(sight.vessel):
        if (
            item.expires is None
            and item.made is None
            and isinstance(item.what, str)
            and _FLARES.search(item.what)
        ):
            yield at(item, "what", f"{item.what}: no date says until when they are good", item=item.what)


def _things(vessel):
    return [*vessel.gear, *(item for bag in vessel.grab_bags for item in bag.items)]


@check(
    "gear.service-undated",
    RECOMMENDATION,
    "33 CFR 175.320; fire codes: yearly look at extinguishers (secondary)",
)
def extinguishers_have_a_date(sight):
    """Extinguishers have an expiry or a service date.

    Why: pressure leaks away over the years and nobody sees it.
    Remedy: write 'expires' or 'next-service', as the label says.
    """
    for item in sight.vessel.gear:
        if (
            isinstance(item.what, str)
            and "extinguisher" in item.what.lower()
            and item.expires is None
            and item.next_service is None
            and item.last_service is None
            and item.made is None
        ):
            yield at(
                item, "what", f"{item.what}: neither 'expires' nor 'next-service' is given", item=item.what
            )


@check("gear.duplicate-name", RECOMMENDATION, COMMON_PRACTICE)
def nothing_is_listed_twice(sight):
    """Nothing is listed twice in the same place.

    Why: one of the two is counted on and is not there.
    Remedy: write one line with the whole quantity, or say what tells them apart.
    """
    seen = {}
    for item in sight.vessel.gear:
        name = tuple(str(each or "").lower() for each in (item.what, item.where, item.side, item.spot))
        if name in seen and item.known("what", "where"):
            yield at(
                item,
                "what",
                f"{item.what} is listed twice in the same place ({item.where})",
                item=str(item.what),
                also=(seen[name].place("what"),),
            )
        seen.setdefault(name, item)


@check("gear.extinguisher-missing", DEFECT, "33 CFR 175.320")
def there_is_a_fire_extinguisher(sight):
    """There is a fire extinguisher.

    Why: a fire is put out in its first minute or not at all.
    Remedy: list each one: what: fire extinguisher, galley.
    """
    vessel = sight.vessel
    if vessel.gear and not any(
        str(item.what).lower().startswith("fire extinguisher") for item in vessel.gear
    ):
        yield Found(vessel.key_place("gear"), "no fire extinguisher is in the gear list")


@check("gear.float-missing", RECOMMENDATION, "33 CFR 175.15(b) (one throwable device at 16 feet and over)")
def something_can_be_thrown(sight):
    """There is something to throw to a person in the water.

    Why: a swimmer in clothes goes under before the boat is back.
    Remedy: list it: what: lifebuoy, danbuoy or throwing line.
    """
    vessel = sight.vessel
    names = ("lifebuoy", "danbuoy", "throwing line")
    if vessel.gear and not any(str(item.what).lower().startswith(names) for item in vessel.gear):
        yield Found(
            vessel.key_place("gear"),
            "neither a lifebuoy nor a danbuoy nor a throwing line is in the gear list",
        )


@check("gear.carrier", DEFECT, "RYA advice on grab bags: one person carries it (secondary)")
def the_grab_bag_has_a_carrier_aboard(sight):
    """The grab bag is carried by a role that is aboard.

    Why: a bag that is nobody's is left behind.
    Remedy: write one of the roles under 'people'.
    """
    roles = roles_of(sight.vessel)
    for bag in sight.vessel.grab_bags:
        if isinstance(bag.carried_by, str) and bag.carried_by not in roles:
            yield at(
                bag,
                "carried-by",
                f"the grab bag is carried by '{bag.carried_by}', which is no role aboard",
                remedy=nearest(bag.carried_by, roles),
                item="grab bag",
            )


@check("gear.grab-bag-missing", RECOMMENDATION, "offshore racing grab-bag list (secondary)")
def there_is_a_grab_bag(sight):
    """Offshore there is a grab bag beside the raft.

    Why: what is packed in the raft is little, and nothing of it calls for help by radio.
    Remedy: pack one, give it a carrier and describe it under 'grab-bags'.
    """
    one, vessel = sight.vessel.vessel, sight.vessel
    if one and one.waters in FAR and vessel.rafts and not vessel.known("grab_bags"):
        yield at(one, "waters", f"she sails {one.waters} with a raft, and no grab bag is described")


@check("gear.grab-bag-afloat", RECOMMENDATION, "RYA advice on grab bags (secondary)")
def the_grab_bag_floats_and_clips_on(sight):
    """The grab bag floats and has a line with a clip.

    Why: in the jump it goes into the water, and drifts away.
    Remedy: take out weight or add buoyancy, tie on a line with a clip, then write yes.
    """
    for bag in sight.vessel.grab_bags:
        for key, what in (("floats", "does not float when packed"), ("lanyard", "has no line and clip")):
            if getattr(bag, key) is False:
                yield at(bag, key, f"the grab bag {what}", item="grab bag")


@check("gear.stop-missing", DEFECT, COMMON_PRACTICE)
def what_burns_can_be_shut_off(sight):
    """The shut-offs of what burns are described: gas, and the fuel of an inboard engine.

    Why: fire fed from a bottle or a tank does not go out.
    Remedy: write where each is and how it is worked, under 'stops'.
    """
    vessel = sight.vessel
    there = {stop.what for stop in vessel.stops}
    if vessel.gas and vessel.gas.fuel in ("butane", "propane") and "gas" not in there:
        yield at(
            vessel.gas, "fuel", f"{vessel.gas.fuel} is aboard, and no gas shut-off is described", item="gas"
        )
    one = vessel.vessel
    if one and str(one.engine).startswith("inboard") and "fuel" not in there:
        yield at(
            one,
            "engine",
            "she has an inboard engine, and no fuel shut-off is described",
            item="fuel",
            weight=RECOMMENDATION,
        )


@check(
    "gear.gas-hose-undated",
    RECOMMENDATION,
    "gas fitters' guidance: hoses five years from the date marked (secondary)",
)
def the_gas_hose_has_a_date(sight):
    """The gas hose has its date.

    Why: old rubber cracks where nobody looks.
    Remedy: read the date printed on the hose and write 'hose-made', or 'hose-expires' where an expiry is printed.
    """
    gas = sight.vessel.gas
    if (
        gas
        and gas.fuel in ("butane", "propane")
        and gas.hose_expires is None
        and gas.hose_made is None
        and gas.hose_fitted is None
    ):
        yield at(gas, "fuel", "no date says until when the gas hose is good", item="gas hose")


@check("gear.hand-pump", RECOMMENDATION, "Offshore Special Regulations 3.23 (from memory, unverified)")
def a_pump_works_without_current(sight):
    """A bilge pump works by hand.

    Why: water that comes in reaches the batteries first.
    Remedy: fit one and list it under 'pumps' with power: hand.
    """
    if sight.vessel.pumps and not any(pump.power == "hand" for pump in sight.vessel.pumps):
        yield Found(sight.vessel.key_place("pumps"), "none of the pumps works by hand")


@check("gear.plug", RECOMMENDATION, "Offshore Special Regulations 4.03 (from memory, unverified)")
def every_opening_has_its_plug(sight):
    """Every hole in the hull has its plug beside it.

    Why: when a hose comes off and the seacock is stuck, a plug at hand is the only thing quick enough.
    Remedy: tie one of the right size there and write where it is under 'plug'.
    """
    for each in sight.vessel.through_hulls:
        if each.plug is None:
            yield at(each, "what", f"{each.what}: nothing says where its plug is", item=str(each.what))


@check("recovery.missing", DEFECT, COMMON_PRACTICE)
def there_is_a_way_back_aboard(sight):
    """The way back aboard for somebody in the water is described.

    Why: reaching the person is half of it; many die alongside.
    Remedy: write 'recovery' with ladder, hoist, side and place.
    """
    vessel = sight.vessel
    if vessel.vessel and not vessel.known("recovery"):
        yield at(vessel.vessel, "freeboard", "nothing says how somebody in the water gets back aboard")


@check("recovery.ladder", RECOMMENDATION, COMMON_PRACTICE)
def the_ladder_comes_down_from_the_water(sight):
    """Somebody in the water can let the ladder down.

    Why: whoever fell in may have nobody aboard who can, and no boat side is low enough to climb.
    Remedy: lead its line to the waterline, or carry a ladder that can be pulled down.
    """
    recovery = sight.vessel.recovery
    if recovery and recovery.ladder_from_water is False:
        yield at(recovery, "ladder-from-water", "the ladder cannot be let down from the water")


@check("escape.one-way", RECOMMENDATION, COMMON_PRACTICE)
def ways_out_open_from_inside(sight):
    """Ways out open from inside.

    Why: a hatch that only opens from outside is no way out for those below.
    Remedy: fit a handle inside, or take it out of 'escape'.
    """
    for hatch in sight.vessel.escape:
        if hatch.opens == "outside":
            yield at(
                hatch,
                "opens",
                f"the hatch in the {hatch.where} opens from outside only",
                item=str(hatch.where),
            )


@check("gear.missing-for-step", RECOMMENDATION, COMMON_PRACTICE, COMPOSITION)
def steps_find_their_gear(sight):
    """What a step asks for is in the gear list.

    Why: the reader looks for it where it is not.
    Remedy: list it under 'gear' by that name, alone or followed by a comma and more.
    """
    printed = {step.id for one in sight.manual.procedures for step in one.steps}
    lost: dict[str, str] = {}
    for one in shelf():
        for step in one.steps:
            if (
                step.id in printed
                and step.gear
                and not any(gear_called(sight.manual.items, name) for name in step.gear)
            ):
                lost.setdefault(step.gear[0], step.id)
    for name, step in lost.items():
        yield Found(
            sight.vessel.key_place("gear"),
            f"the step '{step}' asks for '{name}', and the gear list has none",
            item=name,
        )
