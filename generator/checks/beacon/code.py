"""The id itself: that it can exist, is no message and no test, and was copied right."""

from __future__ import annotations

from generator.shelves.identities import table_date
from generator.survey.beacons import (
    FIRST_GENERATION,
    SECOND_GENERATION,
    coded_beacons,
    states_of_code,
)
from generator.survey.registry import DEFECT, LIFE, TRUTH, Finds, Sight, check, of

_WHOLE_MESSAGE = (22, 30)


@check("beacon.whole-message", TRUTH, f"{FIRST_GENERATION} 3.3")
def an_id_is_no_whole_message(sight: Sight) -> Finds:
    """A beacon's id is written, not a whole message.

    Why: rescuers know a beacon by its id; the longer string from a test receiver is what it sends, with check figures in it.
    Remedy: read the 15 characters from the label.
    """
    for beacon, code in coded_beacons(sight.vessel):
        if len(str(beacon.hex_id)) in _WHOLE_MESSAGE:
            right = "" if code.bch_right else ", and its check figures do not agree: a character is wrong"
            yield of(
                beacon,
                "hex-id",
                f"{len(str(beacon.hex_id))} characters are a whole message, not an id{right}",
            )


@check(
    "beacon.label-differs",
    LIFE,
    "USCG safety alert 04-09: a registered id other than the programmed one delayed a rescue",
)
def label_and_registration_agree(sight: Sight) -> Finds:
    """The id on the label and the one registered are the same.

    Why: an id has no check figure; with one character wrong the alert points at no boat, or at another one.
    Remedy: compare both, character by character, and have the wrong one corrected.
    """
    for beacon in sight.vessel.radio.beacons if sight.vessel.radio else ():
        both = (beacon.hex_id, beacon.hex_id_registered)
        if all(isinstance(each, str) for each in both) and both[0] != both[1]:
            yield of(
                beacon,
                "hex-id-registered",
                "the id on the proof of registration is not the one on its label",
                also=(beacon.place("hex-id"),),
            )


@check("beacon.position-left-in", LIFE, f"{FIRST_GENERATION} 3.3, Annex A3.2")
def no_position_is_left_in_an_id(sight: Sight) -> Finds:
    """An id holds no position.

    Why: an id copied from a live message is not the one that is registered.
    Remedy: read the id from the label instead.
    """
    for beacon, code in coded_beacons(sight.vessel):
        if (
            code.position_default is False
            and len(str(beacon.hex_id)) not in _WHOLE_MESSAGE
            and not code.is_test
        ):
            yield of(beacon, "hex-id", "the id was copied from a message sent with a position")


@check("beacon.test-coded", LIFE, f"{FIRST_GENERATION} Annex A2.6, A3.3.3; {SECOND_GENERATION} Table 3.11")
def no_beacon_is_coded_for_tests(sight: Sight) -> Finds:
    """No beacon aboard is coded for tests.

    Why: an alert with a test code is thrown away.
    Remedy: have the beacon programmed before she sails.
    """
    for beacon, code in coded_beacons(sight.vessel):
        if code.is_test:
            yield of(beacon, "hex-id", "its id is a test code; its alert would be thrown away")


@check("beacon.impossible-code", LIFE, f"{FIRST_GENERATION} Annex A Table A2; {SECOND_GENERATION} 3.6")
def every_id_can_exist(sight: Sight) -> Finds:
    """Every id is one that a beacon can have.

    Why: an id that cannot exist was copied wrong, and may be registered wrong too.
    Remedy: read it again from the label; figure 0 and letter O, 1 and I, 5 and S, 8 and B are mixed up most.
    """
    for beacon, code in coded_beacons(sight.vessel):
        if code.faults and not code.is_test:
            yield of(beacon, "hex-id", "its id cannot be right: " + "; ".join(code.faults))


@check(
    "beacon.device-number",
    LIFE,
    f"UK MCA Safety Bulletin 30 (withdrawn); for second-generation ids {SECOND_GENERATION} App. I",
)
def no_beacon_is_coded_with_a_devices_number(sight: Sight) -> Finds:
    """No beacon is coded with the number of a locating device or of a tender.

    Why: rescue centres look the vessel up by her own number; numbers from 970 on belong to no vessel.
    Remedy: have the beacon programmed with the vessel's MMSI.
    """
    for beacon, code in coded_beacons(sight.vessel):
        if 970 <= code.country_code <= 989:
            yield of(
                beacon,
                "hex-id",
                f"its id starts with {code.country_code}, the number of a device or tender, not of a vessel",
            )
        elif code.generation == 2 and code.mmsi and code.mmsi[:3] in ("970", "972", "974"):
            yield of(
                beacon,
                "hex-id",
                f"its id carries a device's number ({code.mmsi[:3]}…) where the vessel's belongs",
                weight=DEFECT,
            )


@check(
    "beacon.country-unknown",
    LIFE,
    f"ITU table of maritime identification digits; {FIRST_GENERATION} Annex A1.2.3",
)
def the_country_in_an_id_exists(sight: Sight) -> Finds:
    """The country code in an id is allotted to a state.

    Why: the alert is sent to that state's rescue centre.
    Remedy: read the id again from the label, or have the beacon programmed anew.
    """
    for beacon, code in coded_beacons(sight.vessel):
        if (
            not states_of_code(code)
            and not 970 <= code.country_code <= 989
            and not code.faults
            and not code.is_test
        ):
            yield of(
                beacon,
                "hex-id",
                f"its country code {code.country_code} is allotted to no state in the table of {table_date()}",
            )


@check("beacon.ship-security", LIFE, f"{FIRST_GENERATION} Annex A3.3.5.2")
def no_epirb_has_a_security_code(sight: Sight) -> Finds:
    """No distress beacon has the code of a ship security alert.

    Why: a silent alarm against piracy calls police ashore, not a lifeboat, and must not be printed.
    Remedy: take the security beacon out of the file, or have the EPIRB programmed right.
    """
    for beacon, code in coded_beacons(sight.vessel):
        if code.beacon_type == "ship-security":
            yield of(beacon, "hex-id", "its id is that of a ship security alert")
