"""The ages of those who travel, against the crew list, and the lifejackets of the smallest."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.checks.bill.language import callers
from generator.manual.crew import the
from generator.reading.values import all_known
from generator.survey.registry import COMMON_PRACTICE, HELP, LIFE, TRUTH, Finds, Found, Sight, at, check
from generator.survey.tongues import tongues
from generator.vessel.people import Person, heads

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.vessel.people import Traveller

INFANT_AT_MOST = 1
"""Up to which age, in years, a child's jacket does not turn its wearer: common practice."""
BIRTHDAY = 1
"""By how many years the age in the voyage file may rightly differ from the crew list's."""


def _other(sight: Sight, traveller: Traveller) -> tuple[int, ...]:
    """The ages that the crew list has for a traveller's role, where none is his; () where one is, or none is told."""
    of_role = [person for person in sight.vessel.people if person.role == traveller.role]
    ages = all_known(age for person in of_role for age in person.age)
    if not ages or not isinstance(traveller.age, int):
        return ()
    return () if any(abs(age - traveller.age) <= BIRTHDAY for age in ages) else tuple(ages)


@check("voyage.other-age", TRUTH, COMMON_PRACTICE)
def ages_are_those_of_the_crew_list(sight: Sight) -> Finds:
    """The age of a child on the voyage is that of the crew list, give or take a birthday.

    Why: duties, jackets and helpers are dealt out by the one, and the child who comes along is the other.
    Remedy: ask; correct the age in voyage.yaml, or in the boat's file the age and with it lifejacket: of that role.
    """
    for traveller in sight.vessel.voyage.persons if sight.vessel.voyage else ():
        ages = _other(sight, traveller)
        if ages:
            yield at(
                traveller,
                "age",
                f"{the(str(traveller.role))} is {traveller.age} on the voyage, and {' or '.join(map(str, ages))} in the crew list",
                item=str(traveller.role),
                also=tuple(p.place("age") for p in sight.vessel.people if p.role == traveller.role),
            )


@check("voyage.other-language", HELP, COMMON_PRACTICE)
def languages_are_those_of_the_crew_list(sight: Sight) -> Finds:
    """Whoever is on the voyage speaks the language that the crew list has for that role; of one who calls for help it is a defect.

    Why: the call, the cards and the helpers are chosen by the one, and the other does not understand them.
    Remedy: ask; correct 'language' in voyage.yaml or under 'people', or name both there.
    """
    for traveller, person in _of_other_tongue(sight):
        yield at(
            traveller,
            "language",
            f"{the(str(traveller.role))} speaks {traveller.language} on the voyage, and {person.language} in the crew list",
            remedy=f"ask; correct 'language' in voyage.yaml or under 'people', or name both there: language: {person.language} and {traveller.language}",
            item=str(traveller.role),
            weight=LIFE.weight if str(traveller.role) in callers(sight) else None,
            also=(person.place("language"),),
        )


def _of_other_tongue(sight: Sight) -> Iterator[tuple[Traveller, Person]]:
    """Each traveller whose language is not among those that the crew list has for the role."""
    for traveller in sight.vessel.voyage.persons if sight.vessel.voyage else ():
        for person in sight.vessel.people:
            if (
                person.role == traveller.role
                and isinstance(traveller.language, str)
                and isinstance(person.language, str)
                and tongues(traveller.language).isdisjoint(tongues(person.language))
            ):
                yield traveller, person


@check("voyage.speaks-alone", HELP, COMMON_PRACTICE)
def nobody_is_alone_with_a_language(sight: Sight) -> Finds:
    """Where it is said what everybody aboard speaks, nobody speaks only a language that no other aboard does, unless it is English or that of the call.

    Why: orders, and what to do with the raft, are called out to somebody who understands none of it.
    Remedy: name every language that this person understands: language: Portuguese and English; with none in common, give that person a helper who goes along.
    """
    vessel = sight.vessel
    aboard: list[Person | Traveller] = list(vessel.voyage.persons if vessel.voyage else vessel.people)
    spoken = [tongues(each.language) if isinstance(each.language, str) else set() for each in aboard]
    calls = tongues(str(vessel.radio.language)) if vessel.radio else set()
    others = {traveller for traveller, _ in _of_other_tongue(sight)}
    for number, person in enumerate(aboard) if len(aboard) > 1 and all(spoken) else ():
        known = set.union(*(spoken[:number] + spoken[number + 1 :]), calls, {"english"})
        if (
            spoken[number].isdisjoint(known)
            and person not in others
            and not person.helper
            and (not isinstance(person, Person) or heads([person]) == 1)
        ):
            yield at(
                person,
                "language",
                f"{the(str(person.role))} speaks {person.language}, and nobody else aboard does",
                item=str(person.role),
            )


@check("voyage.infants", LIFE, "33 CFR 175.15(c); common practice for the age", deferrable=False)
def infants_have_their_size(sight: Sight) -> Finds:
    """There is an infant's lifejacket for every infant on the voyage.

    Why: a child's jacket lets an infant's head fall forward into the water.
    Remedy: bring one aboard and try it on, then list it: size: infant.
    """
    voyage, jackets = sight.vessel.voyage, sight.vessel.lifejackets
    counts = all_known(each.quantity for each in jackets if each.size == "infant")
    if voyage is None or not jackets or counts is None:
        return
    infants = [
        each
        for each in voyage.persons
        if isinstance(each.age, int) and each.age <= INFANT_AT_MOST and not _other(sight, each)
    ]
    if len(infants) > sum(counts):
        yield Found(
            infants[0].place("age"),
            f"infants on the voyage: {len(infants)}; lifejackets of their size: {sum(counts)}",
        )
