"""What the steps of the day need to be told: how a thing is switched on, how somebody is lifted, where the tiller fits."""

from __future__ import annotations

import re

from generator.survey.registry import COMMON_PRACTICE, RECOMMENDATION, at, check

_CALLS = re.compile(r"\b(epirb|plb|sart|radar transponder|handheld vhf|satellite telephone)\b", re.IGNORECASE)
FALLS_OUT = ("pushpit bracket", "transom recess", "under-cockpit slot")


@check("radio.unexplained", RECOMMENDATION, COMMON_PRACTICE)
def every_radio_says_how_it_is_worked(sight):
    """Every radio and beacon says how it is switched on, and every radio whether and how it makes a digital distress call.

    Why: whoever picks it up may never have held it.
    Remedy: write 'power' and 'dsc' (and with dsc: yes the 'distress-button') for a radio, 'use' for a beacon.
    """
    radio = sight.vessel.radio
    for each in radio.sets if radio else ():
        lacking = [
            key
            for key in ("power", "dsc")
            if getattr(each, key) is None and (key != "dsc" or each.kind != "satellite telephone")
        ]
        lacking += ["distress-button"] if each.dsc is True and each.distress_button is None else []
        if lacking:
            yield at(each, "what", f"{each.what}: it does not say: {', '.join(lacking)}", item=str(each.what))
    for each in radio.beacons if radio else ():
        if each.use is None:
            yield at(each, "what", f"{each.what}: nothing says how it is switched on", item=str(each.what))


@check("recovery.incomplete", RECOMMENDATION, COMMON_PRACTICE)
def the_way_back_aboard_is_told_whole(sight):
    """The way back aboard says what lifts a helpless person, at which side and from where, and whether the ladder comes down from the water.

    Why: many who were found alive died alongside.
    Remedy: try it in harbour, then write 'hoist', 'side', 'place' and 'ladder-from-water'.
    """
    recovery = sight.vessel.recovery
    if not recovery or (
        sight.vessel.vessel and sight.vessel.vessel.persons == 1
    ):  # alone, nobody is there to lift
        return
    lacking = (
        ["hoist"]
        if recovery.hoist is None
        else [key for key, name in (("side", "side"), ("place", "place_")) if getattr(recovery, name) is None]
    )
    lacking += ["ladder-from-water"] if recovery.ladder and recovery.ladder_from_water is None else []
    if lacking:
        yield at(recovery, "", f"the way back aboard does not say: {', '.join(lacking)}")


@check("steering.tiller-unknown", RECOMMENDATION, COMMON_PRACTICE)
def the_emergency_tiller_is_told(sight):
    """Where there is an emergency tiller, the file says where it is and where it fits.

    Why: nobody finds the rudder stock under the sole in a seaway.
    Remedy: fit it once in harbour, then write 'steering' with 'emergency-tiller' and 'fits'.
    """
    steering = sight.vessel.steering
    for key in ("emergency-tiller", "fits") if steering else ():
        if getattr(steering, key.replace("-", "_")) is None:
            yield at(steering, "", f"steering does not say: {key}")
    for item in sight.vessel.gear if not steering else ():
        if isinstance(item.what, str) and item.what.lower().startswith("emergency tiller"):
            yield at(item, "what", f"{item.what}: nothing says where it fits", item=item.what)


@check("gas.not-described", RECOMMENDATION, COMMON_PRACTICE)
def gas_with_a_shut_off_is_described(sight):
    """Where a gas shut-off is described, so is the gas.

    Why: without it no page says where the bottles are, and the emergency of leaking gas is left out.
    Remedy: write 'gas' with fuel and bottles, or take the shut-off out.
    """
    for stop in sight.vessel.stops:
        if stop.what == "gas" and not sight.vessel.known("gas"):
            yield at(stop, "what", "a gas shut-off is described, and no gas", item="gas")


@check("grab-bag.not-described", RECOMMENDATION, COMMON_PRACTICE)
def what_calls_for_help_from_the_bag_is_described(sight):
    """A radio or beacon on the grab bag's list is described under 'radio'.

    Why: otherwise no page says how it is switched on, and its battery is in no list of dates.
    Remedy: describe it under 'sets' or 'beacons' by the same name, with spot: in the grab bag.
    """
    radio = sight.vessel.radio
    known = {str(each.what).lower() for each in (*radio.sets, *radio.beacons)} if radio else set()
    for bag in sight.vessel.grab_bags:
        for item in bag.items:
            name = item.what.lower().partition(",")[0].strip() if isinstance(item.what, str) else ""
            if _CALLS.search(name) and name not in known:
                yield at(
                    item,
                    "what",
                    f"{item.what}: it is on the grab bag's list, and 'radio' does not describe it under 'beacons' or 'sets'",
                    item=item.what,
                )


@check("raft.unheld", RECOMMENDATION, COMMON_PRACTICE)
def a_raft_that_could_fall_is_held(sight):
    """A raft in a bracket, recess or slot is held by something.

    Why: a raft that falls out under way fires at its painter and takes its bracket with it.
    Remedy: write under 'held-by' what holds it, in the order you take it off.
    """
    for raft in sight.vessel.rafts:
        if raft.stowage in FALLS_OUT and not raft.held_by and raft.held_by == ():
            yield at(
                raft,
                "stowage",
                f"{raft.name}: nothing is said to hold it in its {raft.stowage}",
                item=str(raft.name),
            )
