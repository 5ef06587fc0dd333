"""Radio: that the call for help says who and where, and goes on when the boat's own power is off."""

from __future__ import annotations

import re

from generator.manual.calling import BY_HAND, FIXED, SHORTWAVE
from generator.reading.values import untold
from generator.survey.placing import space_of
from generator.survey.registry import COMMON_PRACTICE, COMPOSITION, HELP, LIFE, Finds, Found, Sight, check, of
from generator.vessel.particulars import FAR

_OF_THE_BOAT = (FIXED, SHORTWAVE)
"""Sets that the boat's own batteries feed."""
_BY_THEMSELVES = ("EPIRB", "PLB")


@check("radio.dies-with-batteries", HELP, COMMON_PRACTICE)
def something_calls_without_the_boat_s_batteries(sight: Sight) -> Finds:
    """On the coast, without a mast, something calls for help that does not hang on the boat's own batteries.

    Why: water in the bilge or a fire puts them out, or somebody switches them off, and the only radio is dead in the middle of the call.
    Remedy: take a handheld VHF or a PLB along and describe it under 'sets' or 'beacons'.
    """
    one, radio = sight.vessel.vessel, sight.vessel.radio
    if one is None or radio is None or one.waters != "coastal" or not radio.sets:
        return  # farther out the beacon and the handheld are asked for by checks of their own
    if one.rig not in (None, "none"):
        return  # with a mast, whatever calls when it is down calls then too: another check asks for that
    fixed = all(each.kind in _OF_THE_BOAT for each in radio.sets)
    if fixed and not any(each.kind in _BY_THEMSELVES for each in radio.beacons):
        yield Found(radio.key_place("sets"), "all that calls for help hangs on the boat's own batteries")


@check("radio.power-low", HELP, COMMON_PRACTICE, COMPOSITION)
def a_battery_for_the_radio_stands_high(sight: Sight) -> Finds:
    """Far out, not all batteries stand with the engine, where fire and water come first.

    Why: the fixed radios are silent within minutes of the leak, and with them the lights and the pumps.
    Remedy: have a battery for the radio fitted higher, above the sole and away from the engine, and list it under 'batteries' with its space.
    """
    one, vessel = sight.vessel.vessel, sight.vessel
    sets = vessel.radio.sets if vessel.radio else ()
    fixed = next((each for each in sets if each.kind in _OF_THE_BOAT), None)
    if one is None or one.waters not in FAR or fixed is None or not vessel.batteries:
        return
    spaces = [space_of(sight, bank) for bank in vessel.batteries]
    if all(space is not None and space.engine for space in spaces):
        where = " and the ".join(dict.fromkeys(space.name for space in spaces if space is not None))
        bank = vessel.batteries[0]
        yield of(
            bank,
            "where",
            f"all batteries stand in the {where}, and feed the {fixed.what} too",
            also=(fixed.place("what"),),
        )


@check(
    "radio.alert-without-position",
    HELP,
    "USCG text on digital calling: the set works only with the MMSI programmed and the receiver connected",
)
def the_distress_button_knows_where_she_is(sight: Sight) -> Finds:
    """A radio with a distress button knows the position, by itself or from a receiver aboard.

    Why: the alert says who calls and not from where; if the voice is cut off, nobody knows where to look.
    Remedy: switch it on and look; write gnss: yes, or list what feeds it in the gear list: GNSS receiver. If neither: say the position by
    voice, and have them connected.
    """
    radio = sight.vessel.radio
    fed = bool(sight.vessel.gear_that("knows the position"))
    for each in radio.sets if radio else ():
        if each.dsc is True and each.gnss is False and (each.kind == BY_HAND or not fed):
            if each.known("position_shown"):
                continue  # of a set that shows what it does not know another check speaks
            message = "its distress button sends no position: it does not know it" + (
                "" if each.kind == BY_HAND else ", and nothing in the gear list tells it"
            )
            yield of(each, "gnss", message, also=(each.place("dsc"),))


@check("radio.no-call-sign", HELP, "ITU Radio Regulations article 19 (from memory, unverified)")
def far_out_she_has_a_call_sign(sight: Sight) -> Finds:
    """Offshore a boat with a radio that is fixed aboard has a call sign.

    Why: it says who she is where her name is not understood, and a station ashore finds her particulars by it.
    Remedy: read it on the radio licence, and write call-sign under 'radio'.
    """
    one, radio = sight.vessel.vessel, sight.vessel.radio
    if one is None or radio is None or one.waters not in FAR or radio.says_none("call-sign"):
        return
    if untold(radio.call_sign) and any(each.kind in _OF_THE_BOAT for each in radio.sets):
        where = radio.place("call-sign") if radio.says("call-sign") else radio.key_place("sets")
        message = f"she sails {one.waters} with a radio that is fixed aboard, and has no call sign here"
        yield Found(where, message, item="call-sign")


_ANOTHER_KEY = re.compile(
    r"\b(?:16 ?/ ?9|16/6|key 16|dual watch|scan|squelch|mob|man overboard key|man-overboard key|test|hi/lo|1/25|volume|menu|wx|weather|clear|cancel|enter)\b(?! (?:cover|flap))",
    re.IGNORECASE,
)


@check("radio.another-key", LIFE, COMMON_PRACTICE)
def the_distress_button_is_the_distress_button(sight: Sight) -> Finds:
    """What 'distress-button' says is where the red button is, not another key of the set.

    Why: the key beside it changes the channel or marks a place; nobody ashore is told, and those aboard believe that help is coming.
    Remedy: look at the set, and write where the button is that is marked with distress: distress-button: under the red flap, left of the screen.
    """
    for each in sight.vessel.radio.sets if sight.vessel.radio else ():
        said = each.distress_button
        found = _ANOTHER_KEY.search(said) if isinstance(said, str) else None
        if found is not None and not re.search(
            r"\b(?:not|never|beside|left of|right of|above|below|under|next to|distress)\b",
            str(said),
            re.IGNORECASE,
        ):
            yield of(each, "distress-button", f"'{said}' is another key: {found[0]}")
