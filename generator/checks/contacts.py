"""Contacts: whom she calls, and that they can be reached."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.reading.values import PRIVATE, untold
from generator.survey.hands import hands, sole
from generator.survey.registry import (
    COMMON_PRACTICE,
    HELP,
    LIFE,
    Finds,
    Found,
    Sight,
    at,
    check,
    of,
)
from generator.vessel.particulars import FAR, RESCUE_CENTRE, Contact

if TYPE_CHECKING:
    from generator.reading.findings import Weight
    from generator.reading.values import NotKnown
    from generator.vessel.people import Person, Traveller

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
    """Where a satellite telephone is aboard, the telephone number of a rescue centre is among the contacts; far out a life hangs on it.

    Why: the step says to ring the rescue centre, and a telephone without a number calls nobody.
    Remedy: find out the number of the rescue centre for her waters, and write it as 'phone' of that contact.
    """
    sets = sight.vessel.radio.sets if sight.vessel.radio else ()
    telephone = next((each for each in sets if each.kind == TELEPHONE), None)
    centres = [each for each in sight.vessel.contacts if each.kind == "rescue centre"]
    if telephone is not None and centres and all(untold(each.phone) for each in centres):
        message = f"a step says to ring them on the {telephone.what}, and no telephone number is written"
        yield of(centres[0], "who", message, weight=_far_weight(sight), also=(telephone.place("what"),))


def _far_weight(sight: Sight) -> Weight | None:
    """What the only number of a telephone weighs: a life where no coast hears the VHF and nothing else reaches it."""
    one, radio = sight.vessel.vessel, sight.vessel.radio
    shortwave = radio is not None and any(each.kind == "MF/HF" for each in radio.sets)
    return LIFE.weight if one is not None and one.waters in FAR and not shortwave else None


@check("contacts.coast-station-mmsi", LIFE, "ITU-R M.585 Annex 1 section 2")
def a_coast_station_s_mmsi_begins_with_two_noughts(sight: Sight) -> Finds:
    """A rescue centre's MMSI begins with 00.

    Why: any other number is a vessel's, and the call goes there.
    Remedy: read it again from the list of coast stations.
    """
    for each in sight.vessel.contacts:
        if each.kind == "rescue centre" and isinstance(each.mmsi, str) and not each.mmsi.startswith("00"):
            yield of(each, "mmsi", f"the MMSI {each.mmsi} is no coast station's")


_ANSWERS = ("rescue centre", "medical advice")


@check("contacts.same-number", LIFE, COMMON_PRACTICE)
def each_number_rings_one_desk(sight: Sight) -> Finds:
    """The telephone number of a rescue centre or of medical advice is not that of somebody at home or of a base.

    Why: a line copied with the number of another: the distress call rings in a kitchen, or nowhere.
    Remedy: look both numbers up again, and correct 'phone' where it is wrong.
    """
    others = [each for each in sight.vessel.contacts if each.kind not in _ANSWERS]
    for each in sight.vessel.contacts:
        if each.kind not in _ANSWERS or not (own := _digits(each.phone)):
            continue
        for other in others:
            if _digits(other.phone) == own:
                yield of(
                    each, "phone", f"it has the telephone number of {other.who}", also=(other.place("phone"),)
                )
                break


def _digits(phone: str | NotKnown | None) -> str:
    """The digits of a number; "" where none is told."""
    return re.sub(r"[^0-9]", "", phone) if isinstance(phone, str) else ""


@check("contacts.shore", HELP, COMMON_PRACTICE)
def somebody_ashore_waits_for_her(sight: Sight) -> Finds:
    """Where a voyage is described, somebody ashore waits for word from her, above all from one who sails alone.

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
            weight=LIFE.weight if sole(sight) else None,
        )


_KIN = re.compile(
    r"['\u2019]s? (?:\w+ )?(?:wife|husband|partner|sister|brother|mother|father|mum|dad|son|daughter|uncle|aunt|cousin|niece|nephew|grand\w+|friend|neighbou?r|parents?|family|"
    r"contact(?: ashore)?|secretary|boy ?friend|girl ?friend|fianc\u00e9e?)\b"
    r"|^(?:the |our |my |a )?(?:\w+ )?(?:wife|husband|partner|sister|brother|mother|father|mum|dad|son|daughter|uncle|aunt|cousin|grand\w+|friend|neighbou?r)(?: (?:ashore|at home))?$",
    re.IGNORECASE,
)
_HEALS = re.compile(
    r"\b(?:doctor|dr|physician|gp|surgeon|surgery|nurse|paramedic|medic|clinic|hospital|practice|pharmacist)\b",
    re.IGNORECASE,
)


@check("contacts.kin-answers", LIFE, COMMON_PRACTICE)
def whoever_is_called_for_help_can_give_it(sight: Sight) -> Finds:
    """A rescue centre is none of somebody's family; nor is who gives medical advice, unless the words say that this is a doctor.

    Why: the one call that there is time for rings at somebody's home.
    Remedy: look which kind is right: kind: shore contact; of a doctor in the family say so: who: the skipper's sister, a doctor.
    """
    for each in sight.vessel.contacts:
        who = each.who if isinstance(each.who, str) else ""
        doctor = each.kind != RESCUE_CENTRE and _HEALS.search(who)
        if each.kind in _ANSWERS and _KIN.search(who) and not doctor:
            yield of(each, "kind", f"'{who}' is called as {each.kind}, and is somebody's family or friend")


@check("contacts.aboard", LIFE, COMMON_PRACTICE)
def whoever_waits_ashore_is_ashore(sight: Sight) -> Finds:
    """A shore contact is nobody who sails along.

    Why: whoever is to miss her is in the water with the others, and nobody calls.
    Remedy: write somebody who stays ashore; of one who stays behind this time say so: who: the mate ashore.
    """
    for each in sight.vessel.contacts:
        if each.kind != "shore contact":
            continue
        crew = hands(sight)
        who = re.sub(r"^(?:the|our|her) ", "", str(each.who or "").strip().lower())
        why = _is_aboard(sight, each, who)
        if why:
            yield at(each, "who", why, item=each.path)
            continue
        role = next((name for name in crew if name.lower() == who and crew[name].aboard), "")
        if role:
            person = next(one for one in sight.vessel.people if one.role == role)
            yield at(
                each,
                "who",
                f"'{each.who}' is a shore contact, and is aboard",
                item=each.path,
                also=(person.place("role"),),
            )


def _is_aboard(sight: Sight, contact: Contact, who: str) -> str:
    """Why whoever, or whatever, waits ashore is aboard, without a name that the crew alone may read; "" where nothing says so."""
    vessel = sight.vessel
    voyage = vessel.voyage
    travellers: tuple[Person | Traveller, ...] = tuple(voyage.persons) if voyage else tuple(vessel.people)
    words = set(re.findall(r"[^\W\d_]+", who))
    for person in travellers:
        name = set(re.findall(r"[^\W\d_]+", person.name.lower())) if isinstance(person.name, str) else set()
        if len(name) > 1 and name <= words:
            return "whom this names as shore contact is on the list of those who sail along"
        own = _digits(contact.phone)
        if own and _digits(person.phone) == own:
            return "its number is that of a telephone that sails along"
    sets = vessel.radio.sets if vessel.radio else ()
    if any(who in (str(each.what).lower(), str(each.kind).lower()) for each in sets) or re.search(
        r"(?<!not )\b(?:aboard|on board)$", who
    ):
        return f"'{contact.who}' is a shore contact, and is aboard"
    return ""


_CHANNEL_ALONE = re.compile(
    r"^\W*(?:on )?(?:vhf|channel|ch\.?)\b(?!.*\b(?:telephone|phone|mobile|khz|mhz|satellite|e-?mail)\b)",
    re.IGNORECASE,
)


@check("contacts.shore-by-vhf", HELP, COMMON_PRACTICE)
def whoever_waits_ashore_is_reached_from_far_out(sight: Sight) -> Finds:
    """Far out, a shore contact is not reached on VHF alone.

    Why: a day out nobody ashore hears it; the rescue centre, which rings them first, has no number.
    Remedy: ask for the telephone number, and write it as 'phone'; guests do not read it.
    """
    one = sight.vessel.vessel
    for each in sight.vessel.contacts if one is not None and one.waters in FAR else ():
        if each.kind != "shore contact" or not untold(each.phone) or not untold(each.mmsi):
            continue
        if isinstance(each.channel, str) and _CHANNEL_ALONE.search(each.channel):
            yield of(
                each,
                "channel",
                f"'{each.channel}' is all that reaches them, and she sails {one.waters if one else ''}",
            )


_FEWEST_DIGITS, _SHORT_DIGITS = 8, 6
"""Of how many digits a number has at least that can be rung from anywhere, and up to how many it is one for emergencies."""


@check("contacts.number-form", HELP, "ITU-T E.164 (from memory, unverified); common practice")
def numbers_can_be_rung_from_where_she_is(sight: Sight) -> Finds:
    """A telephone number with a country code has digits enough, and where a satellite telephone rings it, it has one.

    Why: a digit left out rings nobody; a satellite telephone knows no number without its country.
    Remedy: look it up and ring it once: write +, the country code, and all digits.
    """
    sets = sight.vessel.radio.sets if sight.vessel.radio else ()
    by_satellite = any(one.kind == TELEPHONE for one in sets)
    one = sight.vessel.vessel
    abroad = by_satellite or (one is not None and one.waters in FAR)
    for each in sight.vessel.contacts:
        if not isinstance(each.phone, str):
            continue
        digits, plain = re.sub(r"[^0-9]", "", each.phone.split(" or ")[0]), each.phone.strip()
        coded = plain.startswith(("+", "00", "(+"))
        if coded and digits and len(digits) < _FEWEST_DIGITS:
            yield of(
                each,
                "phone",
                f"its number has {len(digits)} digits with the country code, and none is so short",
            )
        elif abroad and not coded and len(digits) > _SHORT_DIGITS:
            why = "a satellite telephone rings it" if by_satellite else "she sails far from home"
            yield of(each, "phone", f"its number has no country code, and {why}")


@check("contacts.advice-by-telephone", HELP, COMMON_PRACTICE)
def medical_advice_is_asked_on_a_set_aboard(sight: Sight) -> Finds:
    """Offshore, medical advice that is asked for by telephone alone is asked on a telephone that reaches from there.

    Why: the one number that is written is of no use beyond the reach of the masts ashore.
    Remedy: write the channel on which the rescue centre puts her through to a doctor: channel: VHF 16
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    given = [each for each in vessel.contacts if each.kind == "medical advice"]
    sets = vessel.radio.sets if vessel.radio else ()
    if one is None or one.waters not in FAR or not given or any(each.kind == TELEPHONE for each in sets):
        return
    if all(untold(each.channel) and untold(each.mmsi) and not untold(each.phone) for each in given):
        message = (
            "medical advice has a telephone number alone, and no telephone aboard reaches beyond the coast"
        )
        yield of(given[0], "who", message, also=(one.place("waters"),))


@check("contacts.number-kept-back", HELP, COMMON_PRACTICE)
def a_rescue_centre_s_number_is_everybody_s(sight: Sight) -> Finds:
    """The telephone number of a rescue centre is not kept private.

    Why: it is no secret, and whoever stands with the telephone in the hand finds no number on the card.
    Remedy: write the number itself in place of private, or free it: phone: {value: private, for: guests}
    """
    centres = [each for each in sight.vessel.contacts if each.kind == RESCUE_CENTRE]
    if any(each.known("phone") and each.is_freed(Contact.phone) for each in centres):
        return
    for each in centres:
        if each.phone is PRIVATE or each.known("phone"):
            yield of(each, "phone", "its number is private, so no card has it")
            return


@check("contacts.short-number", HELP, COMMON_PRACTICE)
def a_short_number_is_not_the_only_one(sight: Sight) -> Finds:
    """Where a satellite telephone rings the rescue centre, its number is not one of three figures or so alone; far out a life hangs on it.

    Why: such a number is answered by the network of the country ashore; from a satellite telephone it rings nobody, or a desk on another continent.
    Remedy: look up the centre's own number, with + and the country code, and write it as 'phone'.
    """
    sets = sight.vessel.radio.sets if sight.vessel.radio else ()
    telephone = next((one for one in sets if one.kind == TELEPHONE), None)
    told = [(each, _digits(each.phone)) for each in sight.vessel.contacts if each.kind == RESCUE_CENTRE]
    if telephone is None or any(len(digits) > _SHORT_DIGITS for _, digits in told):
        return
    for each, digits in told:
        if digits:
            yield of(
                each,
                "phone",
                f"its only number is short, and the {telephone.what} rings it",
                weight=_far_weight(sight),
                also=(telephone.place("kind"),),
            )
            return


_FIGURES = {
    "+1": (10, 10),
    "+31": (9, 9),
    "+33": (9, 9),
    "+34": (9, 9),
    "+351": (9, 9),
    "+44": (9, 10),
    "+45": (8, 8),
    "+47": (8, 8),
    "+61": (9, 9),
}
"""How many figures follow a country code, from and to: where the country's plan has one length; services of few figures have no such code before them."""


@check(
    "contacts.figures-missing", LIFE, "national numbering plans after ITU-T E.164 (from memory, unverified)"
)
def a_number_has_all_its_figures(sight: Sight) -> Finds:
    """A telephone number with a country code has as many figures as numbers of that country have.

    Why: one figure too few rings nobody, and it is found out in the only call there is battery for.
    Remedy: look it up, ring it, and write it anew: phone: +44 7700 900123.
    """
    for each in (*sight.vessel.contacts, sight.vessel.charter_base):
        phone = each.phone if each is not None else None
        if each is None or not isinstance(phone, str):
            continue
        for one in re.split(r" or |[,;/]", phone):
            figures = re.sub(r"[^+\d]", "", one.replace("(0)", ""))
            code = next(filter(figures.startswith, sorted(_FIGURES, key=len, reverse=True)), "")
            if not code or len(figures) <= _FEWEST_DIGITS:
                continue  # of one that is shorter than any number another check speaks
            low, high = _FIGURES[code]
            many = len(figures) - len(code)
            if not low <= many <= high:
                said = str(low) if low == high else f"{low} or {high}"
                message = f"behind {code} stand {many} figures, and numbers of that country have {said}"
                yield of(each, "phone", message)
                break
