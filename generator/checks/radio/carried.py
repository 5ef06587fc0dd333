"""Radio: what calls for help, that it works, and that it is told how."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.reading.values import Quantity, Stamp, untold
from generator.survey.limits import least, most
from generator.survey.passed import overdue, passed, span
from generator.survey.registry import (
    ADVICE,
    COMMON_PRACTICE,
    HELP,
    LIFE,
    TRUTH,
    UPKEEP,
    Finds,
    Found,
    Sight,
    at,
    check,
    of,
)
from generator.vessel.gear import WITHOUT_MAST
from generator.vessel.particulars import FAR
from generator.vessel.radio import Beacon

if TYPE_CHECKING:
    from generator.vessel.radio import Radio
    from generator.vessel.vessel import Vessel


_ON_SOMEBODY = re.compile(r"\b(?:life ?)?jackets?\b|\bbelt\b|\bbody\b|\bworn\b|\bpocket\b", re.IGNORECASE)
"""Words of a spot by which a thing goes where somebody goes."""


def _radio(vessel: Vessel) -> Radio | None:
    return vessel.radio or None


@check("radio.mmsi-form", LIFE, "ITU-R M.585 Annex 1 section 1")
def mmsi_is_a_vessel_s(sight: Sight) -> Finds:
    """The MMSI is that of a vessel.

    Why: rescuers look the number up; a handheld's, a group's or a made-up one finds nobody.
    Remedy: read it again from the licence: nine digits, the first from 2 to 7.
    """
    radio = _radio(sight.vessel)
    if not radio or not isinstance(radio.mmsi, str):
        return
    mmsi = radio.mmsi
    if not "2" <= mmsi[0] <= "7":
        yield at(
            radio, "mmsi", f"the MMSI begins with {mmsi[0]}; a vessel's begins with a figure from 2 to 7"
        )
    elif len(set(mmsi)) == 1 or mmsi in ("234567890", "234567891"):
        yield at(radio, "mmsi", "the MMSI is a row of figures, not an assigned number")


@check("radio.no-vhf", HELP, COMMON_PRACTICE)
def a_vhf_is_aboard(sight: Sight) -> Finds:
    """There is a VHF aboard.

    Why: every ship and rescue station near by listens on VHF 16; a telephone reaches one of them at most.
    Remedy: describe it under 'sets'.
    """
    radio = _radio(sight.vessel)
    if radio and radio.sets and not any(each.kind in ("VHF", "handheld VHF") for each in radio.sets):
        yield Found(radio.key_place("sets"), "none of the radios is a VHF")


@check("radio.handheld", ADVICE, "Offshore Special Regulations 3.29.1 (quoted text)")
def a_handheld_goes_into_the_raft(sight: Sight) -> Finds:
    """Offshore a handheld VHF can go into the raft.

    Why: the fixed set stays with the boat, and works as long as batteries and mast do.
    Remedy: keep a handheld in the grab bag and describe it under 'sets'.
    """
    one, radio = sight.vessel.vessel, _radio(sight.vessel)
    if (
        one
        and radio
        and one.waters in FAR
        and radio.sets
        and not any(each.kind == "handheld VHF" for each in radio.sets)
    ):
        yield Found(
            radio.key_place("sets"), f"she sails {one.waters}, and none of the radios is a handheld VHF"
        )


@check("radio.beacon-missing", LIFE, "Offshore Special Regulations 4.19 (quoted text)")
def a_distress_beacon_is_aboard(sight: Sight) -> Finds:
    """Offshore there is an EPIRB or a PLB.

    Why: out of VHF range nothing else tells where she is after she has sunk.
    Remedy: describe it under 'beacons'; if she sails without, defer this with the reason.
    """
    one, radio = sight.vessel.vessel, _radio(sight.vessel)
    if not one or one.waters not in FAR or not (radio or sight.vessel.says_none("radio")):
        return
    if not any(each.kind in ("EPIRB", "PLB") for each in (radio.beacons if radio else ())):
        place = radio.key_place("beacons") if radio else sight.vessel.key_place("radio")
        yield Found(place, f"she sails {one.waters}, and neither an EPIRB nor a PLB is described")


_SENDS = frozenset(("EPIRB", "PLB"))


@check("radio.epirb-missing", ADVICE, "Offshore Special Regulations 4.19 (quoted text)")
def a_beacon_of_hers_is_aboard(sight: Sight) -> Finds:
    """Offshore she has an EPIRB, and not only beacons that somebody carries.

    Why: a PLB works for a day, in the hand of one who holds it up; with him in the water nothing sends for the others.
    Remedy: describe the EPIRB under 'beacons'; if she sails without, defer this with the reason.
    """
    one, radio = sight.vessel.vessel, _radio(sight.vessel)
    if one and one.waters in FAR and radio and {each.kind for each in radio.beacons} & _SENDS == {"PLB"}:
        yield Found(
            radio.key_place("beacons"), f"she sails {one.waters}, and no EPIRB is described, only PLBs"
        )


@check(
    "radio.tender-number", HELP, "ITU-R M.585 (craft of a parent ship begin with 98; from memory, unverified)"
)
def the_tender_has_a_number_of_its_own(sight: Sight) -> Finds:
    """The tender does not send with the MMSI of the vessel.

    Why: two marks of one number stand on every screen, and a search goes to the wrong one.
    Remedy: read the number from the tender's set; have it programmed with one of its own, or take it out.
    """
    tender, radio = sight.vessel.tender, _radio(sight.vessel)
    if tender and radio and isinstance(tender.mmsi, str) and tender.mmsi == radio.mmsi:
        yield at(
            tender, "mmsi", f"it has her own MMSI, {tender.mmsi}", item="tender", also=(radio.place("mmsi"),)
        )


@check("radio.long-range", LIFE, COMMON_PRACTICE)
def somebody_answers_across_an_ocean(sight: Sight) -> Finds:
    """Where she sails an ocean, a set reaches beyond VHF: MF/HF or a satellite telephone.

    Why: a beacon tells where she is and nothing else; no doctor is asked, nobody is told that the raft holds, out of sight of every mast.
    Remedy: describe under 'sets' the MF/HF or satellite telephone she carries; without one defer this with the reason, or write the waters
    she does sail.
    """
    one, radio = sight.vessel.vessel, _radio(sight.vessel)
    if not one or one.waters != "ocean" or radio is None or not radio.sets:
        return
    if not any(each.kind in ("MF/HF", "satellite telephone") for each in radio.sets):
        yield at(
            one,
            "waters",
            "she sails an ocean, and every radio aboard is VHF",
            item="long range",
            also=(radio.key_place("sets"),),
        )


@check("radio.battery-expired", LIFE, "46 CFR 25.26-50")
def beacon_batteries_are_in_date(sight: Sight) -> Finds:
    """Batteries and HRU of the beacons are in date for the whole passage.

    Why: an old battery stops sending before the search is over.
    Remedy: have it renewed, then write the new date.
    """
    yield from passed(sight, "radio.battery-expired")


@check("radio.release-undated", LIFE, "a beacon maker's manual: two years from fitting (secondary)")
def float_free_beacons_have_a_date(sight: Sight) -> Finds:
    """A float-free beacon's own HRU has its date.

    Why: its bracket is opened by an HRU that ages like the raft's and is overlooked more easily.
    Remedy: read the date struck on it and write 'release-expires'.
    """
    radio = _radio(sight.vessel)
    for beacon in radio.beacons if radio else ():
        if beacon.release == "float-free" and untold(beacon.release_expires):
            yield of(beacon, "release", "it floats free, and no date says until when its HRU is good")


_CALLING = ("EPIRB", "PLB")
_FORGOTTEN_DAYS = 731
"""A beacon that calls for help and was not tested for two years may be dead since then. Common practice."""


@check(
    "radio.test-overdue",
    UPKEEP,
    "46 CFR 25.26-50 (EPIRB: monthly); other devices once a year: common practice",
)
def beacons_were_tested_lately(sight: Sight) -> Finds:
    """The EPIRB was tested within a month, other beacons within a year.

    Why: a dead beacon looks like a live one.
    Remedy: press its self-test as the maker says, in the first five minutes of an hour where it asks so, and write the day.
    """
    for each in overdue(sight, "radio.test-overdue"):
        beacon = each.thing.block
        if isinstance(beacon, Beacon) and isinstance(beacon.tested, Stamp):
            ago = span(beacon.tested.last_day, sight.as_of)
            message = f"{beacon.what}: the last test was {ago} ago ({beacon.tested})"
            forgotten = (
                sight.as_of - beacon.tested.last_day
            ).days > _FORGOTTEN_DAYS and beacon.kind in _CALLING
            yield at(
                beacon, "tested", message, item=str(beacon.what), weight=LIFE.weight if forgotten else None
            )


@check("radio.registration-old", UPKEEP, "AMSA; NOAA: registration valid for two years (secondary)")
def beacon_registration_is_confirmed(sight: Sight) -> Finds:
    """The beacon's registration was confirmed within two years.

    Why: rescuers telephone the numbers that are registered; old ones cost hours.
    Remedy: look at the registration, correct it, and write the day under 'registered'.
    """
    for each in overdue(sight, "radio.registration-old"):
        beacon = each.thing.block
        if isinstance(beacon, Beacon) and isinstance(beacon.registered, Stamp):
            message = f"{beacon.what}: its registration was last confirmed {beacon.registered.when}"
            yield at(beacon, "registered", message, item=str(beacon.what))


@check("radio.same-hex-id", LIFE, "C/S T.001 (each beacon has its own identification)")
def no_two_beacons_share_an_id(sight: Sight) -> Finds:
    """No two beacons have the same id.

    Why: one of them is then registered under a number it does not send.
    Remedy: read the id from the label of each.
    """
    radio = _radio(sight.vessel)
    seen: dict[str, Beacon] = {}
    for beacon in radio.beacons if radio else ():
        if isinstance(beacon.hex_id, str) and beacon.hex_id in seen:
            other = seen[beacon.hex_id]
            yield at(
                beacon,
                "hex-id",
                f"{beacon.what} and {other.what} have the same id",
                item=str(beacon.what),
                also=(other.place("hex-id"),),
            )
        elif isinstance(beacon.hex_id, str):
            seen[beacon.hex_id] = beacon


@check(
    "radio.dsc-without-mmsi",
    LIFE,
    "USCG text on digital calling: the set works only with the MMSI programmed",
)
def a_set_with_a_distress_button_has_a_number(sight: Sight) -> Finds:
    """A radio with a distress button has an MMSI to send.

    Why: without a number programmed the button does nothing.
    Remedy: write 'mmsi', and have it programmed in the set; if she has none, write dsc: no.
    """
    radio = _radio(sight.vessel)
    for each in radio.sets if radio else ():
        if radio and each.dsc is True and untold(radio.mmsi) and untold(each.mmsi):
            also = (radio.place("mmsi"),)
            unknown = radio.says("mmsi") and not radio.says_none("mmsi")
            yield of(
                each,
                "dsc",
                f"it has a distress button, and {'her MMSI is unknown' if unknown else 'there is no MMSI'}",
                remedy="find out: read it in the set's menu or on her radio licence, and write mmsi, nine digits"
                if unknown
                else "",
                also=also,
            )


@check("radio.unexplained", HELP, COMMON_PRACTICE)
def every_radio_says_how_it_is_worked(sight: Sight) -> Finds:
    """Every radio and beacon says how it is switched on, and every radio whether and how it makes a digital distress call.

    Why: whoever picks it up may never have held it.
    Remedy: write 'power' and 'dsc' (and with dsc: yes the 'distress-button') for a radio, 'use' for a beacon.
    """
    radio = sight.vessel.radio
    for each in radio.sets if radio else ():
        lacking = [
            key
            for key in ("power", "dsc")
            if untold(getattr(each, key)) and (key != "dsc" or each.kind != "satellite telephone")
        ]
        told = not untold(each.distress_button) or each.says_none("distress-button")
        lacking += ["distress-button"] if each.dsc is True and not told else []
        if lacking:
            yield of(each, "what", f"it does not say: {', '.join(lacking)}")
    for beacon in radio.beacons if radio else ():
        if untold(beacon.use):
            message = f"{beacon.what}: nothing says how it is switched on"
            yield at(beacon, "what", message, item=str(beacon.what))


_CARRIED = ("handheld VHF", "satellite telephone")


@check("radio.position-unknown", TRUTH, COMMON_PRACTICE)
def a_set_that_shows_the_position_knows_it(sight: Sight) -> Finds:
    """A radio that shows the position knows it by itself, or is fixed where a receiver aboard can feed it.

    Why: whoever makes the distress call reads out an empty line, or an old position.
    Remedy: switch it on and look; write gnss: yes, or take 'position-shown' out. A fixed set that another receiver
    feeds keeps it where that is in the gear list: GNSS receiver.
    """
    radio = sight.vessel.radio
    fed = bool(sight.vessel.gear_that("knows the position"))
    for each in radio.sets if radio else ():
        if each.gnss is False and each.known("position_shown") and (each.kind in _CARRIED or not fed):
            message = "it does not know the position, and is said to show it"
            yield of(each, "position-shown", message, also=(each.place("gnss"),))


@check("radio.power", HELP, "Radio Regulations Appendix 18 and makers' data sheets (from memory, unverified)")
def a_set_sends_with_the_power_of_its_kind(sight: Sight) -> Finds:
    """A radio sends with a power that sets of its kind have.

    Why: power tells how far it is heard; or it is a set of another kind, and worked otherwise.
    Remedy: read it on the set, and look at 'kind' too; a VHF has 25 W, a handheld VHF about 5 W, an MF/HF set about 150 W.
    """
    for each in sight.vessel.radio.sets if sight.vessel.radio else ():
        if not isinstance(each.power_w, Quantity) or not isinstance(each.kind, str):
            continue
        low, high = (limit(sight.vessel, "power of a radio", kind=each.kind) for limit in (least, most))
        if not low <= each.power_w <= high:
            yield of(
                each,
                "power-w",
                f"it is a {each.kind}, and sends with {each.power_w}; such sets have {low:g} to {high:g} W",
                also=(each.place("kind"),),
            )


@check("radio.nothing-on-the-body", HELP, COMMON_PRACTICE)
def whoever_is_alone_carries_what_calls(sight: Sight) -> Finds:
    """Beyond sheltered waters whoever sails alone carries something that calls for help.

    Why: in the water the boat sails away with every radio and beacon that is fixed to it.
    Remedy: wear a PLB, and write carried-by: skipper; or wear the handheld VHF, and write so under its 'spot'.
    """
    one, radio = sight.vessel.vessel, _radio(sight.vessel)
    if one is None or one.persons != 1 or one.waters == "sheltered" or radio is None:
        return
    worn = any(each.carried_by or _ON_SOMEBODY.search(str(each.spot)) for each in radio.beacons)
    if not worn and not any(_ON_SOMEBODY.search(str(each.spot)) for each in radio.sets):
        yield Found(
            radio.key_place("beacons"),
            "she is sailed alone, and nothing that calls is worn",
            item="worn beacon",
        )


@check("radio.nothing-without-mast", HELP, "three accounts of dismastings in sailing magazines (secondary)")
def she_calls_when_the_mast_is_down(sight: Sight) -> Finds:
    """On the coast, a boat with sails has something that calls when the mast is down.

    Why: the aerial goes with the mast, and the fixed VHF with it.
    Remedy: describe a handheld VHF or a beacon under 'radio', or list an emergency VHF aerial under 'gear'.
    """
    one, radio = sight.vessel.vessel, _radio(sight.vessel)
    if one is None or radio is None or one.waters in ("sheltered", *FAR) or one.rig in (None, "none"):
        return  # offshore a handheld and a beacon are asked for
    fixed = [each for each in radio.sets if each.kind == "VHF"]
    others = len(fixed) < len(radio.sets) or any(each.kind in _SENDS for each in radio.beacons)
    aerial = bool(sight.vessel.gear_that(WITHOUT_MAST))
    if fixed and not others and sight.vessel.gear and not aerial:
        message = "it has no aerial when the mast is down, and nothing else aboard calls"
        yield of(fixed[0], "kind", message)
