"""Contacts: whom she calls, and that they can be reached."""

from __future__ import annotations

from generator.reading.values import untold
from generator.survey.registry import (
    COMMON_PRACTICE,
    HELP,
    LIFE,
    Finds,
    Found,
    Sight,
    check,
    of,
)

TELEPHONE = "satellite telephone"


@check("contacts.rescue-centre", HELP, COMMON_PRACTICE)
def the_rescue_centre_is_named(sight: Sight) -> Finds:
    """The manual says which rescue centre to call.

    Why: out of VHF range, or from ashore, somebody has to know whom to telephone.
    Remedy: write it under 'contacts' with kind: rescue centre.
    """
    if not any(each.kind == "rescue centre" for each in sight.vessel.contacts):
        yield Found(sight.vessel.key_place("contacts"), "no rescue centre is among the contacts")


@check("contacts.unreachable", LIFE, COMMON_PRACTICE)
def every_contact_can_be_reached(sight: Sight) -> Finds:
    """Every contact has a channel, a telephone number or an MMSI.

    Why: a name alone calls nobody.
    Remedy: write 'channel' or 'phone', or the word unknown until it is found out.
    """
    for each in sight.vessel.contacts:
        if all(untold(way) for way in (each.channel, each.phone, each.mmsi)):
            yield of(each, "who", "nothing says how to reach them")


@check("contacts.no-number", HELP, COMMON_PRACTICE)
def a_telephone_aboard_has_a_number_to_call(sight: Sight) -> Finds:
    """Where a satellite telephone is aboard, the telephone number of a rescue centre is among the contacts.

    Why: the step says to ring the rescue centre, and a telephone without a number calls nobody.
    Remedy: find out the number of the rescue centre for her waters, and write it as 'phone' of that contact.
    """
    sets = sight.vessel.radio.sets if sight.vessel.radio else ()
    telephone = next((each for each in sets if each.kind == TELEPHONE), None)
    centres = [each for each in sight.vessel.contacts if each.kind == "rescue centre"]
    if telephone is not None and centres and all(untold(each.phone) for each in centres):
        message = f"a step says to ring them on the {telephone.what}, and no telephone number is written"
        yield of(centres[0], "who", message, also=(telephone.place("what"),))


@check("contacts.coast-station-mmsi", LIFE, "ITU-R M.585 Annex 1 section 2")
def a_coast_station_s_mmsi_begins_with_two_noughts(sight: Sight) -> Finds:
    """A rescue centre's MMSI begins with 00.

    Why: any other number is a vessel's, and the call goes there.
    Remedy: read it again from the list of coast stations.
    """
    for each in sight.vessel.contacts:
        if each.kind == "rescue centre" and isinstance(each.mmsi, str) and not each.mmsi.startswith("00"):
            yield of(each, "mmsi", f"the MMSI {each.mmsi} is no coast station's")


@check("contacts.shore", HELP, COMMON_PRACTICE)
def somebody_ashore_waits_for_her(sight: Sight) -> Finds:
    """Where a voyage is described, somebody ashore waits for word from her.

    Why: with everybody in the water nobody calls; whoever waits ashore is then the only one who misses her.
    Remedy: list under 'contacts' who that is, as 'shore contact', and write 'raise-alarm' into voyage.yaml.
    """
    voyage = sight.vessel.voyage
    if not voyage:
        return
    if not any(each.kind in ("shore contact", "base") for each in sight.vessel.contacts):
        yield Found(
            sight.vessel.key_place("contacts"),
            "a voyage is described, and neither a shore contact nor a base is among the contacts",
            item="shore contact",
        )
