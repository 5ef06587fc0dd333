"""Distress beacons: what their ids say, tied to the vessel. Ids are crew-only, so no message repeats one."""

from __future__ import annotations

from functools import lru_cache

from generator.calc import beacon as calc
from generator.calc.beacon_id import BeaconId
from generator.reading.values import Stamp
from generator.shelves.identities import states_of_flag, states_of_mid, table_date
from generator.survey.registry import DEFECT, NOTE, RECOMMENDATION, at, check

_FIRST = "C/S T.001 Rev. 12"
_SECOND = "C/S T.018 Rev. 12"
_WHOLE_MESSAGE = (22, 30)


@lru_cache(maxsize=16)
def decode(hex_id: str) -> BeaconId:
    """What an id says, read once for all checks that ask."""
    return calc.decode(hex_id)


def _beacons(vessel):
    """The beacons with an id that can be read, and what the id says."""
    for beacon in vessel.radio.beacons if vessel.radio else ():
        if isinstance(beacon.hex_id, str):
            yield beacon, decode(beacon.hex_id)


def _state(code: BeaconId) -> tuple[str, ...]:
    return states_of_mid(f"{code.country_code:03}")


def _at(beacon, key, message, **more):
    return at(beacon, key, f"{beacon.what}: {message}", item=str(beacon.what), **more)


@check("beacon.whole-message", DEFECT, f"{_FIRST} 3.3")
def an_id_is_no_whole_message(sight):
    """A beacon's id is written, not a whole message.

    Why: rescuers know a beacon by its id; the longer string from a test receiver is what it sends, with check figures in it.
    Remedy: read the 15 characters from the label.
    """
    for beacon, code in _beacons(sight.vessel):
        if len(beacon.hex_id) in _WHOLE_MESSAGE:
            right = "" if code.bch_right else ", and its check figures do not agree: a character is wrong"
            yield _at(
                beacon, "hex-id", f"{len(beacon.hex_id)} characters are a whole message, not an id{right}"
            )


@check(
    "beacon.label-differs",
    DEFECT,
    "USCG safety alert 04-09: a registered id other than the programmed one delayed a rescue",
)
def label_and_registration_agree(sight):
    """The id on the label and the one registered are the same.

    Why: an id has no check figure; with one character wrong the alert points at no boat, or at another one.
    Remedy: compare both, character by character, and have the wrong one corrected.
    """
    for beacon in sight.vessel.radio.beacons if sight.vessel.radio else ():
        both = (beacon.hex_id, beacon.hex_id_registered)
        if all(isinstance(each, str) for each in both) and both[0] != both[1]:
            yield _at(
                beacon,
                "hex-id-registered",
                "the id on the proof of registration is not the one on its label",
                also=(beacon.place("hex-id"),),
            )


@check("beacon.position-left-in", DEFECT, f"{_FIRST} 3.3, Annex A3.2")
def no_position_is_left_in_an_id(sight):
    """An id holds no position.

    Why: an id copied from a live message is not the one that is registered.
    Remedy: read the id from the label instead.
    """
    for beacon, code in _beacons(sight.vessel):
        if code.position_default is False and len(beacon.hex_id) not in _WHOLE_MESSAGE and not code.is_test:
            yield _at(beacon, "hex-id", "the id was copied from a message sent with a position")


@check("beacon.test-coded", DEFECT, f"{_FIRST} Annex A2.6, A3.3.3; {_SECOND} Table 3.11")
def no_beacon_is_coded_for_tests(sight):
    """No beacon aboard is coded for tests.

    Why: an alert with a test code is thrown away.
    Remedy: have the beacon programmed before she sails.
    """
    for beacon, code in _beacons(sight.vessel):
        if code.is_test:
            yield _at(beacon, "hex-id", "its id is a test code; its alert would be thrown away")


@check("beacon.impossible-code", DEFECT, f"{_FIRST} Annex A Table A2; {_SECOND} 3.6")
def every_id_can_exist(sight):
    """Every id is one that a beacon can have.

    Why: an id that cannot exist was copied wrong, and may be registered wrong too.
    Remedy: read it again from the label; figure 0 and letter O, 1 and I, 5 and S, 8 and B are mixed up most.
    """
    for beacon, code in _beacons(sight.vessel):
        if code.faults and not code.is_test:
            yield _at(beacon, "hex-id", "its id cannot be right: " + "; ".join(code.faults))


@check(
    "beacon.device-number",
    RECOMMENDATION,
    f"UK MCA Safety Bulletin 30 (withdrawn); for second-generation ids {_SECOND} App. I",
)
def no_beacon_is_coded_with_a_devices_number(sight):
    """No beacon is coded with the number of a locating device or of a tender.

    Why: rescue centres look the vessel up by her own number; numbers from 970 on belong to no vessel.
    Remedy: have the beacon programmed with the vessel's MMSI.
    """
    for beacon, code in _beacons(sight.vessel):
        if 970 <= code.country_code <= 989:
            yield _at(
                beacon,
                "hex-id",
                f"its id starts with {code.country_code}, the number of a device or tender, not of a vessel",
            )
        elif code.generation == 2 and code.mmsi and code.mmsi[:3] in ("970", "972", "974"):
            yield _at(
                beacon,
                "hex-id",
                f"its id carries a device's number ({code.mmsi[:3]}…) where the vessel's belongs",
                weight=DEFECT,
            )


@check(
    "beacon.country-unknown",
    RECOMMENDATION,
    f"ITU table of maritime identification digits; {_FIRST} Annex A1.2.3",
)
def the_country_in_an_id_exists(sight):
    """The country code in an id is allotted to a state.

    Why: the alert is sent to that state's rescue centre.
    Remedy: read the id again from the label, or have the beacon programmed anew.
    """
    for beacon, code in _beacons(sight.vessel):
        if not _state(code) and not 970 <= code.country_code <= 989 and not code.faults and not code.is_test:
            yield _at(
                beacon,
                "hex-id",
                f"its country code {code.country_code} is allotted to no state in the table of {table_date()}",
            )


@check("beacon.other-vessel", DEFECT, f"{_FIRST} Annex A1.2.3, A2.2; {_SECOND} Table 3.1")
def a_beacon_carries_her_own_number(sight):
    """A beacon coded with an MMSI carries this vessel's.

    Why: the alert names another vessel, and her owner is telephoned.
    Remedy: have the beacon programmed for this vessel and registered anew.
    """
    radio = sight.vessel.radio
    for beacon, code in _beacons(sight.vessel):
        if (
            code.mmsi
            and isinstance(radio.mmsi, str)
            and code.mmsi != radio.mmsi
            and not 970 <= int(code.mmsi[:3]) <= 989
            and not code.is_test
            and not code.faults
        ):
            yield _at(
                beacon, "hex-id", "its id carries the MMSI of another vessel", also=(radio.place("mmsi"),)
            )


@check("beacon.no-vessel-coded", NOTE, f"{_SECOND} Table 3.11")
def a_second_generation_id_names_the_vessel(sight):
    """A second-generation id names the vessel.

    Why: without it rescuers know her from the registration alone.
    Remedy: have the MMSI or call sign programmed at the next service.
    """
    for beacon, code in _beacons(sight.vessel):
        if (
            beacon.kind == "EPIRB"
            and code.generation == 2
            and not (code.mmsi or code.call_sign)
            and not code.is_test
            and not code.faults
        ):
            yield _at(beacon, "hex-id", "its id names no vessel")


@check(
    "beacon.country-differs",
    RECOMMENDATION,
    "Cospas-Sarsat: the country code should match the flag, a PLB's the owner's residence",
)
def country_code_and_flag_agree(sight):
    """An EPIRB's country code belongs to her flag.

    Why: the beacon can be registered only where its code points.
    Remedy: have it programmed for her flag; another of the same state's codes is right too.
    """
    one = sight.vessel.vessel
    flag = states_of_flag(str(one.flag)) if one and one.known("flag") else ()
    for beacon, code in _beacons(sight.vessel):
        states = _state(code)
        if (
            flag
            and states
            and not code.mmsi
            and not code.is_test
            and not code.faults
            and not set(flag) & set(states)
        ):
            yield _at(
                beacon,
                "hex-id",
                f"its country code {code.country_code} is {states[0]}'s, her flag is {one.flag}",
                weight=NOTE if beacon.kind == "PLB" else None,
                also=(one.place("flag"),),
            )


@check("beacon.call-sign", DEFECT, f"{_FIRST} Annex A2.2, A2.3")
def a_call_sign_in_an_id_is_hers(sight):
    """A call sign in a beacon's id is this vessel's.

    Why: the alert names the vessel that has that call sign.
    Remedy: have the beacon programmed for this vessel.
    """
    radio = sight.vessel.radio
    for beacon, code in _beacons(sight.vessel):
        if (
            code.call_sign
            and isinstance(radio.call_sign, str)
            and code.call_sign != radio.call_sign
            and not code.faults
        ):
            yield _at(
                beacon,
                "hex-id",
                "its id carries the call sign of another vessel",
                also=(radio.place("call-sign"),),
            )


@check("beacon.same-number", DEFECT, f"{_FIRST} Annex A2.2")
def two_epirbs_with_her_number_are_told_apart(sight):
    """Two EPIRBs with the vessel's number have different beacon numbers.

    Why: rescuers cannot tell two beacons in the water from one that drifts.
    Remedy: have the second one programmed as number 1.
    """
    seen: dict = {}
    for beacon, code in _beacons(sight.vessel):
        if beacon.kind != "EPIRB" or not code.mmsi or code.beacon_number is None or code.is_test:
            continue
        other = seen.setdefault((code.mmsi, code.beacon_number), (beacon, code))
        if other[0] is not beacon and other[1].id15 != code.id15:
            yield _at(
                beacon,
                "hex-id",
                f"it has the same beacon number as {other[0].what}",
                also=(other[0].place("hex-id"),),
            )


@check("beacon.number-order", RECOMMENDATION, f"{_FIRST} Annex A2.2, A3.3.7.1: first or only EPIRB 0")
def the_first_epirb_has_number_nought(sight):
    """The only EPIRB, coded with the vessel's number, is number 0.

    Why: another number says that there is a second one aboard, and it may be looked for.
    Remedy: have it programmed as number 0 at the next service.
    """
    coded = [
        (beacon, code)
        for beacon, code in _beacons(sight.vessel)
        if beacon.kind == "EPIRB" and code.mmsi and not code.is_test
    ]
    if len(coded) == 1 and coded[0][1].beacon_number not in (None, "0") and not coded[0][1].faults:
        yield _at(
            coded[0][0], "hex-id", f"it is the only EPIRB and is coded as number {coded[0][1].beacon_number}"
        )


@check("beacon.mount", RECOMMENDATION, f"{_FIRST} Annex A2.5")
def mount_and_code_agree(sight):
    """A beacon coded as float-free is mounted so, and the other way round.

    Why: rescuers take it from the code whether somebody switched it on.
    Remedy: correct 'release', or have the beacon programmed for its bracket.
    """
    for beacon, code in _beacons(sight.vessel):
        coded = {"EPIRB float-free": "float-free", "EPIRB non-float-free": "by hand"}.get(
            code.beacon_type or ""
        )
        if coded and isinstance(beacon.release, str) and beacon.release != coded:
            yield _at(
                beacon,
                "release",
                f"it leaves its bracket {beacon.release}, its id says {coded}",
                also=(beacon.place("hex-id"),),
            )


@check("beacon.kind", DEFECT, f"{_FIRST} Annex A Table A2")
def kind_and_code_agree(sight):
    """A beacon is of the kind its id says.

    Why: an aircraft's or a person's beacon is answered in another way.
    Remedy: correct 'kind', or have the beacon programmed right.
    """
    for beacon, code in _beacons(sight.vessel):
        coded = (code.beacon_type or "").split(" ")[0]
        if coded in ("EPIRB", "PLB") and beacon.kind in ("EPIRB", "PLB") and coded != beacon.kind:
            yield _at(
                beacon,
                "kind",
                f"it is described as {beacon.kind}, its id says {coded}",
                also=(beacon.place("hex-id"),),
            )
        elif coded == "ELT":
            yield _at(beacon, "hex-id", "its id is that of an aircraft's beacon (ELT)", weight=RECOMMENDATION)


@check("beacon.ship-security", DEFECT, f"{_FIRST} Annex A3.3.5.2")
def no_epirb_has_a_security_code(sight):
    """No distress beacon has the code of a ship security alert.

    Why: a silent alarm against piracy calls police ashore, not a lifeboat, and must not be printed.
    Remedy: take the security beacon out of the file, or have the EPIRB programmed right.
    """
    for beacon, code in _beacons(sight.vessel):
        if code.beacon_type == "ship-security":
            yield _at(beacon, "hex-id", "its id is that of a ship security alert")


@check("beacon.type-approval", RECOMMENDATION, f"{_FIRST} 4.5, Annex A2.5, A3.3; {_SECOND} App. I")
def the_type_approval_on_the_label_is_the_coded_one(sight):
    """The type-approval number on the label is the one in the id.

    Why: where they differ, the label or the id belongs to another beacon.
    Remedy: read both again; ask the maker if they differ.
    """
    for beacon, code in _beacons(sight.vessel):
        label = beacon.type_approval
        if isinstance(label, int) and code.type_approval and code.type_approval != label and not code.faults:
            yield _at(
                beacon,
                "type-approval",
                "the type-approval number on the label is not the one in its id",
                also=(beacon.place("hex-id"),),
            )


@check("beacon.position-protocol", RECOMMENDATION, f"{_FIRST} 3.3")
def a_location_code_needs_a_receiver(sight):
    """A beacon coded to send its position has a receiver for it.

    Why: rescuers would wait for a position that never comes.
    Remedy: correct 'gnss', or have the beacon programmed without position.
    """
    for beacon, code in _beacons(sight.vessel):
        if beacon.gnss is False and code.position_default is not None:
            yield _at(
                beacon,
                "gnss",
                "its id is coded for sending a position, and it has no receiver",
                also=(beacon.place("hex-id"),),
            )


@check("beacon.homing", RECOMMENDATION, f"{_FIRST} Annex A2.1")
def an_epirb_can_be_homed_on(sight):
    """An EPIRB's id says that it has a homing signal.

    Why: aircraft and lifeboats find the last mile by it.
    Remedy: ask the maker whether it has a 121.5 MHz homer, and have the code corrected.
    """
    for beacon, code in _beacons(sight.vessel):
        if beacon.kind == "EPIRB" and code.homing == "none" and not code.faults:
            yield _at(beacon, "hex-id", "its id says that it has no homing signal")


@check("beacon.ais-number", DEFECT, f"{_SECOND} Table 3.1")
def the_ais_number_is_the_coded_one(sight):
    """The AIS number of an EPIRB ends as its id says.

    Why: searchers tie the mark on the screen to the alert by it.
    Remedy: read the AIS number from the label again.
    """
    for beacon, code in _beacons(sight.vessel):
        if code.epirb_ais and isinstance(beacon.ais_number, str) and beacon.ais_number[-4:] != code.epirb_ais:
            yield _at(
                beacon,
                "ais-number",
                "its AIS number does not end with the four figures in its id",
                also=(beacon.place("hex-id"),),
            )


@check("beacon.registered-elsewhere", DEFECT, f"{_FIRST} Annex D")
def a_beacon_is_registered_where_its_code_points(sight):
    """A beacon is registered with the state its code names.

    Why: that state's rescue centre looks in its own registry first.
    Remedy: register it there, or have it programmed for the state where it is registered.
    """
    for beacon, code in _beacons(sight.vessel):
        where = states_of_flag(str(beacon.registered_in)) if beacon.known("registered_in") else ()
        states = _state(code)
        if where and states and not set(where) & set(states):
            yield _at(
                beacon,
                "registered-in",
                f"it is registered in {beacon.registered_in}, its code is {states[0]}'s",
                also=(beacon.place("hex-id"),),
            )


@check("beacon.reprogram", RECOMMENDATION, f"{_SECOND} App. I")
def a_beacon_is_programmed_after_a_change_of_flag(sight):
    """A beacon was programmed after she got her flag and number.

    Why: it may still carry the old ones.
    Remedy: have its code read out and corrected.
    """
    since = sight.vessel.vessel.flag_since if sight.vessel.vessel else None
    for beacon, _ in _beacons(sight.vessel):
        if (
            isinstance(since, Stamp)
            and isinstance(beacon.programmed, Stamp)
            and beacon.programmed.last_day < since.first_day
        ):
            yield _at(
                beacon,
                "programmed",
                f"it was programmed {beacon.programmed.when}, she has her flag and number since {since}",
            )
