"""Numbers on the air and the hull id: their forms, their states, and that they belong together."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.calc.hull_id import read_hull_id
from generator.shelves.identities import (
    beginning_of,
    beginnings,
    kind_of,
    mid_of,
    states_of_call_sign,
    states_of_flag,
    states_of_mid,
    table_date,
)
from generator.survey.registry import (
    FORM,
    HELP,
    LIFE,
    RULE,
    Finds,
    Sight,
    at,
    check,
    of,
)

if TYPE_CHECKING:
    from generator.reading.values import Given
    from generator.vessel.particulars import Particulars
    from generator.vessel.radio import Radio

_FORMS = "ITU-R M.585 Annexes 1 and 2 (by a dossier; the text itself not read)"
_DATE_CODES_SINCE = 1985  # hulls of before August 1984 carry other date codes


def _mmsi(radio: Radio | None) -> str | None:
    return radio.mmsi if radio and isinstance(radio.mmsi, str) and kind_of(radio.mmsi) == "ship" else None


def _flag(one: Particulars | None) -> tuple[str, ...]:
    return states_of_flag(str(one.flag)) if one and one.known("flag") else ()


@check("identity.flag-unknown", HELP, "ITU table of maritime identification digits")
def the_flag_is_a_states(sight: Sight) -> Finds:
    """The flag is the name of a state or territory.

    Why: whether number, call sign and beacons belong to her flag can be checked only if the state is known.
    Remedy: write the state's usual name in English, such as United Kingdom.
    """
    one = sight.vessel.vessel
    if one and one.known("flag") and not _flag(one):
        yield at(one, "flag", f"'{one.flag}' is no state or territory in the table of {table_date()}")


@check("identity.mmsi-unallotted", LIFE, "ITU table of maritime identification digits")
def the_mmsi_belongs_to_a_state(sight: Sight) -> Finds:
    """The first three figures of the MMSI are allotted to a state.

    Why: a rescue centre asks that state who she is.
    Remedy: read the MMSI again from the licence.
    """
    radio = sight.vessel.radio
    mmsi = _mmsi(radio)
    if radio and mmsi and not states_of_mid(mmsi[:3]):
        yield at(
            radio,
            "mmsi",
            f"the MMSI starts with {mmsi[:3]}, which is allotted to no state in the table of {table_date()}",
        )


@check("identity.mmsi-flag", LIFE, "C/S T.018 Rev. 12 Table 3.1: the MID indicates the flag state")
def the_mmsi_is_of_her_flag(sight: Sight) -> Finds:
    """The MMSI belongs to her flag.

    Why: a rescue centre asks the wrong state who she is, and learns that there is no such vessel.
    Remedy: ask for a new MMSI after a change of flag, or correct the flag.
    """
    radio, one = sight.vessel.radio, sight.vessel.vessel
    mmsi, flag = _mmsi(radio), _flag(one)
    states = states_of_mid(mmsi[:3]) if mmsi else ()
    if radio and one and flag and states and not set(flag) & set(states):
        yield at(
            radio,
            "mmsi",
            f"the MMSI belongs to {states[0]}, and her flag is {one.flag}",
            also=(one.place("flag"),),
        )


@check("identity.call-sign-flag", HELP, "Radio Regulations 19.50, Appendix 42")
def the_call_sign_is_of_her_flag(sight: Sight) -> Finds:
    """The call sign lies in a series of her flag.

    Why: whoever hears it takes her for another state's vessel.
    Remedy: read it again from the licence; some territories use the mother state's series, which is right.
    """
    radio, one = sight.vessel.radio, sight.vessel.vessel
    if not radio or not isinstance(radio.call_sign, str):
        return
    flag, states = _flag(one), states_of_call_sign(radio.call_sign)
    if one and flag and states and not set(flag) & set(states):
        yield at(
            radio,
            "call-sign",
            f"the call sign belongs to {states[0]}, and her flag is {one.flag}",
            also=(one.place("flag"),),
        )
    elif not states:
        yield at(
            radio, "call-sign", f"the call sign lies in no state's series in the table of {table_date()}"
        )


@check(
    "identity.set-number", LIFE, "USCG text on digital calling: the set works only with the MMSI programmed"
)
def fixed_sets_send_her_number(sight: Sight) -> Finds:
    """Fixed radios have her MMSI programmed.

    Why: the distress button sends the number in the set, whoever that belongs to.
    Remedy: have the set programmed with her MMSI.
    """
    radio = sight.vessel.radio
    mmsi = _mmsi(radio)
    for each in radio.sets if radio else ():
        if (
            radio
            and mmsi
            and each.kind in ("VHF", "MF/HF")
            and isinstance(each.mmsi, str)
            and each.mmsi != mmsi
        ):
            yield of(each, "mmsi", "the MMSI programmed in it is not hers", also=(radio.place("mmsi"),))


@check("identity.handheld-number", LIFE, _FORMS)
def handhelds_have_their_own_or_her_number(sight: Sight) -> Finds:
    """A handheld's number starts with 8, or is her MMSI.

    Why: any other number points at a vessel that is not there.
    Remedy: have it programmed with the number of its licence.
    """
    radio = sight.vessel.radio
    mmsi = _mmsi(radio)
    for each in radio.sets if radio else ():
        if (
            each.kind == "handheld VHF"
            and isinstance(each.mmsi, str)
            and each.mmsi != mmsi
            and kind_of(each.mmsi) != "handheld VHF"
        ):
            yield of(each, "mmsi", "its number is neither her MMSI nor a handheld's, which starts with 8")


@check("identity.handheld-state", HELP, _FORMS)
def a_handhelds_number_is_of_her_flag(sight: Sight) -> Finds:
    """A handheld's own number belongs to her flag.

    Why: it is licensed with the vessel.
    Remedy: ask the licensing office which number it should have.
    """
    one = sight.vessel.vessel
    flag = _flag(one)
    for each in sight.vessel.radio.sets if sight.vessel.radio else ():
        states = _states_of(each.mmsi, "handheld VHF")
        if one and flag and states and not set(flag) & set(states):
            yield of(each, "mmsi", f"its number belongs to {states[0]}, and her flag is {one.flag}")


@check(
    "identity.tender-number",
    LIFE,
    "ITU-R M.585 Annex 1 section 5; US Coast Guard: on a tender the parent vessel's number may be used",
)
def the_tenders_number_is_a_tenders_or_hers(sight: Sight) -> Finds:
    """The dinghy's number starts with 98, or is the vessel's MMSI.

    Why: any other number points at a vessel that is not there.
    Remedy: have it programmed with 98, the three figures of her state and four more, or with her own MMSI.
    """
    tender, mmsi = sight.vessel.tender, _mmsi(sight.vessel.radio)
    if not tender or not isinstance(tender.mmsi, str):
        return
    if mmsi and tender.mmsi != mmsi and kind_of(tender.mmsi) != "craft of a parent ship":
        yield of(tender, "mmsi", "its number is neither the vessel's MMSI nor one that starts with 98")


@check("identity.tender-state", HELP, "ITU-R M.585 Annex 1 section 5 (98MIDXXXX)")
def the_tenders_number_is_of_her_flag(sight: Sight) -> Finds:
    """The dinghy's own number belongs to her flag.

    Why: it is assigned with the vessel's.
    Remedy: ask the licensing office which number it should have; some states assign none.
    """
    tender, one = sight.vessel.tender, sight.vessel.vessel
    flag, states = _flag(one), _states_of(tender.mmsi, "craft of a parent ship") if tender else ()
    if tender and one and flag and states and not set(flag) & set(states):
        yield of(
            tender,
            "mmsi",
            f"its number is one of {states[0]}, her flag is {one.flag}",
            also=(one.place("flag"),),
        )


def _states_of(number: Given, kind: str) -> tuple[str, ...]:
    """The states that a number belongs to, where it is a number of that kind of station."""
    mid = mid_of(number) if isinstance(number, str) and kind_of(number) == kind else None
    return states_of_mid(mid) if mid else ()


@check("identity.device-number", LIFE, _FORMS)
def locating_devices_have_the_number_of_their_kind(sight: Sight) -> Finds:
    """SART, man-overboard device and EPIRB have AIS numbers of their kind.

    Why: the first three figures tell a ship's screen whether a person, a raft or a beacon is there.
    Remedy: read the number from the device: 970 for a SART, 972 for a man-overboard device, 974 for an EPIRB.
    """
    for each in sight.vessel.radio.beacons if sight.vessel.radio else ():
        wanted = beginning_of(str(each.kind))
        if wanted and isinstance(each.ais_number, str) and not each.ais_number.startswith(wanted):
            yield of(
                each,
                "ais-number",
                f"the AIS number of {'an' if str(each.kind)[:1] in 'AE' else 'a'} {each.kind} starts with {wanted}",
            )


@check("identity.device-test-number", LIFE, _FORMS)
def no_device_has_a_test_number(sight: Sight) -> Finds:
    """No locating device has a test number.

    Why: screens mark it as a test, and nobody comes.
    Remedy: have the device programmed by its maker.
    """
    for each in sight.vessel.radio.beacons if sight.vessel.radio else ():
        number = each.ais_number
        if isinstance(number, str) and number[:3] in beginnings() and number[3:5] == "00":
            yield of(each, "ais-number", f"the figures 00 after {number[:3]} mark a test device")


@check("identity.hull-id-form", RULE, "33 CFR 181.25; ISO 10087 (form, secondary)")
def the_hull_id_has_its_form(sight: Sight) -> Finds:
    """The hull id has 12 characters, or 14 with the builder's country.

    Why: police, insurers and rescuers look the boat up by it.
    Remedy: read it again from the transom, starboard side; a hull of before 1985 may have another form: leave it out then.
    """
    one = sight.vessel.vessel
    if one and isinstance(one.hull_id, str) and not _older(one):
        try:
            read_hull_id(one.hull_id)
        except ValueError as error:
            yield at(one, "hull-id", f"the hull id cannot be right: {error}")


@check(
    "identity.hull-id-year",
    FORM,
    "33 CFR 181.25 (the rule that both years agree is from memory, unverified)",
)
def the_years_in_the_hull_id_agree(sight: Sight) -> Finds:
    """Year and model year in the hull id belong together.

    Why: where they do not, a character is mistyped.
    Remedy: read it again from the transom.
    """
    one = sight.vessel.vessel
    if one and isinstance(one.hull_id, str) and not _older(one):
        try:
            found = read_hull_id(one.hull_id)
        except ValueError:
            return
        if (found.model_year - found.year) % 10 not in (0, 1):
            yield at(
                one,
                "hull-id",
                "the year of building and the model year in the hull id do not belong together",
            )


@check("identity.hull-id-built", FORM, "33 CFR 181.25; ISO 10087 (form, secondary)")
def the_hull_id_is_of_the_year_she_was_built(sight: Sight) -> Finds:
    """The model year in the hull id is that in which she was built, or one beside it.

    Why: one of the two is misread, or the hull id is another boat's.
    Remedy: read the id again from the transom, and the year from her papers; correct 'hull-id' or 'built'.
    """
    one = sight.vessel.vessel
    if one and isinstance(one.hull_id, str) and isinstance(one.built, int) and not _older(one):
        try:
            found = read_hull_id(one.hull_id)
        except ValueError:
            return
        if min((found.model_year - one.built) % 100, (one.built - found.model_year) % 100) > _YEARS_APART:
            yield at(
                one,
                "built",
                f"she was built in {one.built}, and the model year in her hull id is {found.model_year:02}",
                also=(one.place("hull-id"),),
            )


_YEARS_APART = 3
"""By how many years a boat may be finished after, or before, the model year of her hull: common practice."""


def _older(one: Particulars) -> bool:
    return isinstance(one.built, int) and one.built < _DATE_CODES_SINCE
