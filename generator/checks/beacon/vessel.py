"""Whose id it is: her number, her call sign, her flag, and where it is registered."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.reading.values import Stamp
from generator.shelves.identities import states_of_flag
from generator.survey.beacons import (
    FIRST_GENERATION,
    SECOND_GENERATION,
    coded_beacons,
    states_of_code,
)
from generator.survey.registry import (
    COMMON_PRACTICE,
    HELP,
    LIFE,
    NOTE,
    NOTICE,
    Finds,
    Sight,
    check,
    of,
)

if TYPE_CHECKING:
    from generator.calc.beacon_id import BeaconId
    from generator.vessel.radio import Beacon


@check("beacon.other-vessel", LIFE, f"{FIRST_GENERATION} Annex A1.2.3, A2.2; {SECOND_GENERATION} Table 3.1")
def a_beacon_carries_her_own_number(sight: Sight) -> Finds:
    """A beacon coded with an MMSI carries this vessel's.

    Why: the alert names another vessel, and her owner is telephoned.
    Remedy: have the beacon programmed for this vessel and registered anew.
    """
    radio = sight.vessel.radio
    for beacon, code in coded_beacons(sight.vessel):
        if (
            code.mmsi
            and radio
            and isinstance(radio.mmsi, str)
            and code.mmsi != radio.mmsi
            and not 970 <= int(code.mmsi[:3]) <= 989
            and not code.is_test
            and not code.faults
        ):
            yield of(
                beacon, "hex-id", "its id carries the MMSI of another vessel", also=(radio.place("mmsi"),)
            )


@check("beacon.no-vessel-coded", NOTICE, f"{SECOND_GENERATION} Table 3.11")
def a_second_generation_id_names_the_vessel(sight: Sight) -> Finds:
    """A second-generation id names the vessel.

    Why: without it rescuers know her from the registration alone.
    Remedy: have the MMSI or call sign programmed at the next service.
    """
    for beacon, code in coded_beacons(sight.vessel):
        if (
            beacon.kind == "EPIRB"
            and code.generation == 2
            and not (code.mmsi or code.call_sign)
            and not code.is_test
            and not code.faults
        ):
            yield of(beacon, "hex-id", "its id names no vessel")


@check(
    "beacon.country-differs",
    LIFE,
    "Cospas-Sarsat: the country code should match the flag, a PLB's the owner's residence",
)
def country_code_and_flag_agree(sight: Sight) -> Finds:
    """An EPIRB's country code belongs to her flag.

    Why: the beacon can be registered only where its code points.
    Remedy: have it programmed for her flag; another of the same state's codes is right too.
    """
    one = sight.vessel.vessel
    flag = states_of_flag(str(one.flag)) if one and one.known("flag") else ()
    for beacon, code in coded_beacons(sight.vessel):
        states = states_of_code(code)
        if (
            one
            and flag
            and states
            and not code.mmsi
            and not code.is_test
            and not code.faults
            and not set(flag) & set(states)
        ):
            yield of(
                beacon,
                "hex-id",
                f"its country code {code.country_code} is {states[0]}'s, her flag is {one.flag}",
                weight=NOTE if beacon.kind == "PLB" else None,
                also=(one.place("flag"),),
            )


@check("beacon.call-sign", LIFE, f"{FIRST_GENERATION} Annex A2.2, A2.3")
def a_call_sign_in_an_id_is_hers(sight: Sight) -> Finds:
    """A call sign in a beacon's id is this vessel's.

    Why: the alert names the vessel that has that call sign.
    Remedy: have the beacon programmed for this vessel.
    """
    radio = sight.vessel.radio
    for beacon, code in coded_beacons(sight.vessel):
        if (
            code.call_sign
            and radio
            and isinstance(radio.call_sign, str)
            and code.call_sign != radio.call_sign
            and not code.faults
        ):
            yield of(
                beacon,
                "hex-id",
                "its id carries the call sign of another vessel",
                also=(radio.place("call-sign"),),
            )


@check("beacon.same-number", LIFE, f"{FIRST_GENERATION} Annex A2.2")
def two_epirbs_with_her_number_are_told_apart(sight: Sight) -> Finds:
    """Two EPIRBs with the vessel's number have different beacon numbers.

    Why: rescuers cannot tell two beacons in the water from one that drifts.
    Remedy: have the second one programmed as number 1.
    """
    seen: dict[tuple[str, str], tuple[Beacon, BeaconId]] = {}
    for beacon, code in coded_beacons(sight.vessel):
        if beacon.kind != "EPIRB" or not code.mmsi or code.beacon_number is None or code.is_test:
            continue
        other = seen.setdefault((code.mmsi, code.beacon_number), (beacon, code))
        if other[0] is not beacon and other[1].id15 != code.id15:
            yield of(
                beacon,
                "hex-id",
                f"it has the same beacon number as {other[0].what}",
                also=(other[0].place("hex-id"),),
            )


@check("beacon.number-order", HELP, f"{FIRST_GENERATION} Annex A2.2, A3.3.7.1: first or only EPIRB 0")
def the_first_epirb_has_number_nought(sight: Sight) -> Finds:
    """The only EPIRB, coded with the vessel's number, is number 0.

    Why: another number says that there is a second one aboard, and it may be looked for.
    Remedy: have it programmed as number 0 at the next service.
    """
    coded = [
        (beacon, code)
        for beacon, code in coded_beacons(sight.vessel)
        if beacon.kind == "EPIRB" and code.mmsi and not code.is_test
    ]
    read = {beacon for beacon, _ in coded_beacons(sight.vessel)}
    others = sight.vessel.radio.beacons if sight.vessel.radio else ()
    if any(each.kind == "EPIRB" and each not in read for each in others):
        return  # the first of them may be one whose id is not known, or stands in private.yaml
    if len(coded) == 1 and coded[0][1].beacon_number not in (None, "0") and not coded[0][1].faults:
        yield of(
            coded[0][0], "hex-id", f"it is the only EPIRB and is coded as number {coded[0][1].beacon_number}"
        )


@check("beacon.ais-number", LIFE, f"{SECOND_GENERATION} Table 3.1")
def the_ais_number_is_the_coded_one(sight: Sight) -> Finds:
    """The AIS number of an EPIRB ends as its id says.

    Why: searchers tie the mark on the screen to the alert by it.
    Remedy: read the AIS number from the label again.
    """
    for beacon, code in coded_beacons(sight.vessel):
        if code.epirb_ais and isinstance(beacon.ais_number, str) and beacon.ais_number[-4:] != code.epirb_ais:
            yield of(
                beacon,
                "ais-number",
                "its AIS number does not end with the four figures in its id",
                also=(beacon.place("hex-id"),),
            )


@check("beacon.registered-elsewhere", LIFE, f"{FIRST_GENERATION} Annex D")
def a_beacon_is_registered_where_its_code_points(sight: Sight) -> Finds:
    """A beacon is registered with the state its code names.

    Why: that state's rescue centre looks in its own registry first.
    Remedy: register it there, or have it programmed for the state where it is registered.
    """
    for beacon, code in coded_beacons(sight.vessel):
        where = states_of_flag(str(beacon.registered_in)) if beacon.known("registered_in") else ()
        states = states_of_code(code)
        if where and states and not set(where) & set(states):
            yield of(
                beacon,
                "registered-in",
                f"it is registered in {beacon.registered_in}, its code is {states[0]}'s",
                also=(beacon.place("hex-id"),),
            )


@check("beacon.reprogram", LIFE, f"{SECOND_GENERATION} App. I")
def a_beacon_is_programmed_after_a_change_of_flag(sight: Sight) -> Finds:
    """A beacon was programmed after she got her flag and number.

    Why: it may still carry the old ones.
    Remedy: have its code read out and corrected.
    """
    since = sight.vessel.vessel.flag_since if sight.vessel.vessel else None
    for beacon, _ in coded_beacons(sight.vessel):
        if (
            isinstance(since, Stamp)
            and isinstance(beacon.programmed, Stamp)
            and beacon.programmed.last_day < since.first_day
        ):
            yield of(
                beacon,
                "programmed",
                f"it was programmed {beacon.programmed.when}, she has her flag and number since {since}",
            )


@check("beacon.registered-before", LIFE, COMMON_PRACTICE)
def a_registration_is_confirmed_after_a_change_of_flag(sight: Sight) -> Finds:
    """The registration of a beacon was confirmed after she got her flag and number.

    Why: the registry that answers the alert knows another boat, and rings whoever sold her.
    Remedy: have the beacon entered in the registry of her flag, then write the day: registered: 2026-06-01.
    """
    since = sight.vessel.vessel.flag_since if sight.vessel.vessel else None
    for beacon in sight.vessel.radio.beacons if sight.vessel.radio else ():
        confirmed = beacon.registered
        programmed = beacon.programmed
        told = (
            isinstance(since, Stamp)
            and isinstance(programmed, Stamp)
            and programmed.last_day < since.first_day
        )
        if (
            isinstance(since, Stamp)
            and isinstance(confirmed, Stamp)
            and confirmed.last_day < since.first_day
            and not told
        ):
            yield of(
                beacon,
                "registered",
                f"its registration was confirmed {confirmed.when}, she has her flag and number since {since}",
            )


@check("beacon.in-no-registry", LIFE, "47 CFR 80.1061 (from memory, unverified)")
def a_distress_beacon_stands_in_a_registry(sight: Sight) -> Finds:
    """No EPIRB or PLB is said to stand in no state's registry.

    Why: the alert names a number, nobody knows whose; nobody is rung, and the search begins hours later.
    Remedy: register it with the state of her flag, it costs a form; then write registered-in and the day: registered: 2026-06-01.
    """
    for beacon in sight.vessel.radio.beacons if sight.vessel.radio else ():
        if beacon.kind in ("EPIRB", "PLB") and beacon.says_none("registered-in"):
            yield of(beacon, "registered-in", "it stands in no registry: the alert names nobody")
