"""Languages: whoever calls speaks that of the call, whoever gives orders one that the others understand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.manual.crew import COMMAND, the
from generator.manual.own_words import called
from generator.shelves.procedures import shelf
from generator.survey.registry import COMMON_PRACTICE, COMPOSITION, LIFE, Finds, Found, Sight, check
from generator.survey.tongues import tongues
from generator.vessel.people import heads

if TYPE_CHECKING:
    from collections.abc import Mapping

    from generator.reading.findings import Place
    from generator.vessel.people import Person, Traveller

SPEECH = "speech"
"""What a duty takes that reads out the words of the call for help."""


@check("bill.caller-speaks", LIFE, COMMON_PRACTICE, COMPOSITION)
def whoever_calls_speaks_the_language_of_the_call(sight: Sight) -> Finds:
    """Whoever has the call, or stands in for it, speaks the language in which she calls for help, where another aboard does.

    Why: the words of the Mayday stand in a language that the one at the radio cannot read out, and he does not understand what is asked back.
    Remedy: give the call to somebody who speaks it, or write under 'language' of that role all that is spoken: language: Danish and English.
    """
    radio, spoken = sight.vessel.radio, _spoken(sight)
    calls = tongues(radio.language) if radio is not None and isinstance(radio.language, str) else set()
    if radio is None or not calls or not any(calls & tongues for tongues in spoken.values()):
        return
    bill = sight.vessel.station_bill
    told: dict[str, list[tuple[str, Place]]] = {}
    for emergency in sight.manual.bill.emergencies:
        for duty in emergency.duties:
            if SPEECH not in duty.senses:
                continue
            besides = any(calls & tongues for who, tongues in spoken.items() if who not in duty.who)
            for who in dict.fromkeys((*duty.who, duty.substitute)):
                own = who in duty.who
                if who in spoken and not calls & spoken[who] and (own or besides):
                    place = duty.place if own else bill[emergency.id][duty.id].place("substitute")
                    told.setdefault(who, []).append(
                        (emergency.id if own else f"{emergency.id} (as substitute)", place)
                    )
    for who, those in told.items():
        yield Found(
            those[0][1],
            f"{the(who)} calls for help: {'; '.join(emergency for emergency, _ in those)}; the call is in {radio.language}, which is not said to be spoken by {the(who)}",
            item=who,
            also=(*(place for _, place in those[1:]), radio.place("language"), *_said_at(sight, who)),
        )


@check("bill.orders-understood", LIFE, COMMON_PRACTICE, COMPOSITION)
def whoever_commands_is_understood(sight: Sight) -> Finds:
    """Whoever commands, or counts the people, is understood by more than half of the others: by what each is said to speak, else in the language of the call.

    Why: orders are called out once, in the dark; who does not understand them waits, or does what the neighbour does.
    Remedy: give the duty to somebody whom all understand, or write under 'language' of that role all that is spoken: language: Danish and English.
    """
    radio, spoken = sight.vessel.radio, _spoken(sight)
    calls = tongues(radio.language) if radio is not None and isinstance(radio.language, str) else set()
    others = {
        str(person.role): spoken.get(str(person.role), calls)
        for person in sight.vessel.people
        if heads([person]) == 1 and not isinstance(person.helper, str)
    }
    told: dict[str, list[tuple[str, Place]]] = {}
    for emergency in sight.manual.bill.emergencies:
        for duty in emergency.duties:
            if duty.needs != COMMAND and duty.id not in called("takes.voice"):
                continue
            for who in duty.who if len(duty.who) == 1 else ():
                heard = [tongues for role, tongues in others.items() if role != who and tongues]
                lost = [tongues for tongues in heard if who in spoken and not tongues & spoken[who]]
                if lost and 2 * len(lost) >= len(heard):
                    told.setdefault(who, []).append((f"{emergency.id}, {duty.id}", duty.place))
    for who, those in told.items():
        yield Found(
            those[0][1],
            f"{the(who)} gives orders ({'; '.join(emergency for emergency, _ in those)}) in {' or '.join(sorted(map(str.capitalize, spoken[who])))}, which most of the others are not said to understand",
            item=who,
            also=(*(place for _, place in those[1:]), *_said_at(sight, who)),
        )


def _spoken(sight: Sight) -> Mapping[str, set[str]]:
    """The languages of each role that one person has, of crew list and voyage together (where they differ, another check says so)."""
    vessel = sight.vessel
    found = {
        str(person.role): tongues(person.language)
        for person in vessel.people
        if isinstance(person.language, str) and heads([person]) == 1
    }
    for traveller in vessel.voyage.persons if vessel.voyage else ():
        if isinstance(traveller.language, str) and str(traveller.role) in found:
            found[str(traveller.role)] |= tongues(traveller.language)
    return found


def _said_at(sight: Sight, who: str) -> list[Place]:
    """Where the languages of a role are told."""
    vessel = sight.vessel
    aboard: list[Person | Traveller] = [*vessel.people, *(vessel.voyage.persons if vessel.voyage else ())]
    return [each.place("language") for each in aboard if each.role == who and isinstance(each.language, str)]


def callers(sight: Sight) -> set[str]:
    """Who has the call in some emergency, or stands in for it, as the file's bill says."""
    calls = {(one.id, line.id) for one in shelf() for line in one.duties if SPEECH in line.senses}
    assigned = [
        each
        for emergency, duties in sight.vessel.station_bill.items()
        for duty, each in duties.items()
        if (emergency, duty) in calls
    ]
    return {str(who) for each in assigned for who in (*(each.who or ()), each.substitute)}
