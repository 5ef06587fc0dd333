"""Who raises the alarm ashore: somebody among the contacts."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.survey.hands import hands
from generator.survey.registry import COMMON_PRACTICE, HELP, LIFE, Finds, Sight, at, check

if TYPE_CHECKING:
    from generator.reading.values import NotKnown

_WHO = r"(?:the|our|his|her|their) (?P<who>[^,;:.]+?)"
_FIRST = re.compile(
    rf"^{_WHO}(?:$|[,;:.]| (?:if|when|unless|rings?|calls?|raises?|after|telephones?|alerts?|waits?)\b)",
    re.IGNORECASE,
)
_NAMED = re.compile(
    rf"\b(?:by|calls?|rings?|tells?|telephones?|phones?|alerts?|asks?) {_WHO}(?:$|[,;:.]| (?:if|when|unless|after|at|on|by|to|who|and|or)\b)",
    re.IGNORECASE,
)
_OFFICES = re.compile(
    r"\b(?:coast ?guard|rescue|lifeboat|harbour|harbor|police|base|office|station|club|marina|centre|center|agent|time|day|evening|morning|night|noon|end|latest)\b",
    re.IGNORECASE,
)
"""What is no person among the contacts, or no one at all."""


def _plain(who: str | NotKnown | None) -> str:
    """The name of a contact without its article, in small letters."""
    return re.sub(r"^(?:the|our|her) ", "", str(who or "").strip().lower())


@check("voyage.alarm-by-nobody", HELP, COMMON_PRACTICE)
def whoever_raises_the_alarm_is_a_contact(sight: Sight) -> Finds:
    """Whoever is said to raise the alarm stands among the contacts, and stays ashore.

    Why: the one waits for a word and knows of no time, the other, whom the words name, has no number here and is not told.
    Remedy: write under 'contacts' as 'shore contact' whom 'raise-alarm' names, or name the contact there as it stands.
    """
    voyage, contacts = sight.vessel.voyage, sight.vessel.contacts
    told = voyage.raise_alarm if voyage is not None else None
    if (
        voyage is None
        or not isinstance(told, str)
        or not any(each.kind in ("shore contact", "base") for each in contacts)
    ):
        return
    aboard = sorted(role for role, hand in hands(sight).items() if hand.aboard)
    known = {word for each in contacts for word in re.findall(r"\w+", str(each.who).lower())}
    for found in (*_FIRST.finditer(told), *_NAMED.finditer(told)):
        who = found["who"]
        role = who.strip().lower()
        if role in aboard and not any(_plain(each.who) == role for each in contacts):
            yield at(
                voyage,
                "raise-alarm",
                f"the {role} is to raise the alarm, and sails along: nobody ashore would miss her",
                remedy="write who waits ashore, by the name of a shore contact under 'contacts', and when: raise-alarm: the base, if no message by 18.00",
                item="raise-alarm",
                weight=LIFE.weight,
                also=tuple(each.place("who") for each in contacts if each.kind == "shore contact"),
            )
            return
        if _OFFICES.search(who) or re.findall(r"\w+", who.lower())[-1] in known:
            continue
        yield at(
            voyage,
            "raise-alarm",
            "whom it names is not among the contacts",
            item="raise-alarm",
            also=tuple(each.place("who") for each in contacts if each.kind == "shore contact"),
        )
        return
