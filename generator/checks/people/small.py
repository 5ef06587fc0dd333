"""The smallest aboard: a lifejacket of the size of their age, and somebody who takes them along."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.manual.crew import the
from generator.reading.values import untold
from generator.shelves.procedure_files import HALF_GROWN
from generator.survey.registry import COMMON_PRACTICE, HELP, LIFE, Finds, Sight, at, check
from generator.vessel.people import jacket_sizes

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.vessel.people import Person

INFANT, CHILD, ADULT = "infant", "child", "adult"
BABY_AT_MOST = 2
"""Up to which age, in years, a child weighs less than the 15 kg from which a child's jacket is made: common practice."""
OUTGROWN = 6
"""From which age, in years, no infant's jacket, made for 15 kg at most, holds a child: common practice."""
GROWN = 16
"""From which age, in years, hardly anybody weighs less than the 40 kg up to which a child's jacket is made: common practice."""
IN_ARMS = 8
"""Under which age, in years, a child does not get up on deck and into a raft alone: common practice."""
FOAM_UNDER = 6
"""Under which age, in years, a child wears foam: who cannot pull a cord, and sinks until the cylinder fires. Common practice."""


def _by_age(person: Person) -> Iterator[tuple[int, str]]:
    """The age and the size of jacket of each child who has a role; where one size holds for all, that with each age."""
    sizes, ages = jacket_sizes(person), person.age
    if len(ages) == len(sizes) or len(set(sizes)) == 1:
        for number, age in enumerate(ages):
            if isinstance(age, int):
                yield age, sizes[min(number, len(sizes) - 1)]


def _years(age: int) -> str:
    return f"{age} year" if age == 1 else f"{age} years"


@check("people.jacket-of-age", LIFE, "33 CFR 175.15(c); common practice for the ages")
def a_small_child_wears_the_size_of_its_age(sight: Sight) -> Finds:
    """A baby is given an infant's lifejacket, and who has outgrown an infant's or a child's none of that size.

    Why: a child's jacket lets a baby's head fall forward into the water; an infant's does not keep a schoolchild up, nor a child's somebody grown up.
    Remedy: try the other size on in the water and write it under lifejacket; if the age is wrong, correct that; if this one really holds the child, defer this and say who tried it.
    """
    for person in sight.vessel.people:
        for age, size in _by_age(person):
            if size == CHILD and age <= BABY_AT_MOST:
                message = f"{_years(age)} old, in a child's lifejacket, which is made for 15 kg or more"
                fits = INFANT
            elif size == INFANT and age >= OUTGROWN:
                message = f"{_years(age)} old, in an infant's lifejacket, which is made for 15 kg at most"
                fits = CHILD
            elif size == CHILD and age >= GROWN:
                message = f"{_years(age)} old, in a child's lifejacket, which is made for 40 kg at most"
                fits = ADULT
            else:
                continue
            yield at(
                person,
                "lifejacket" if person.lifejacket else "age",
                f"{person.role}: {message}",
                remedy=f"try one on in the water and write lifejacket: {fits}; if the age is wrong, correct that; if the one "
                "written really holds the child, defer this and say who tried it",
                item=str(person.role),
                also=(person.place("age"),),
            )
            break


@check("people.small-inflatable", LIFE, COMMON_PRACTICE)
def the_smallest_wear_foam(sight: Sight) -> Finds:
    """A child under six wears a jacket of foam, not one that blows up.

    Why: it weighs too little to set the jacket off, floats face down until it fires, and cannot pull the cord; the small sizes are foam for that.
    Remedy: bring one of foam of its size aboard, try it on in the water, and list it: {size: child, kind: foam, quantity: 1}; where the maker gives an inflatable for its weight, defer this and say so.
    """
    ages = {str(person.role): [*_by_age(person)] for person in sight.vessel.people}
    travellers = sight.vessel.voyage.persons if sight.vessel.voyage else ()
    for traveller in travellers:
        told = ages.get(str(traveller.role))
        if told and len(told) == 1 and isinstance(traveller.age, int):
            ages[str(traveller.role)] = [(traveller.age, told[0][1])]
    for size in (INFANT, CHILD):
        small = {
            role: age
            for role, those in ages.items()
            for age, own in those
            if own == size and age < FOAM_UNDER
        }
        jackets = [each for each in sight.vessel.lifejackets if each.size == size]
        foam = sum(
            each.quantity for each in jackets if each.kind == "foam" and isinstance(each.quantity, int)
        )
        blown = next((each for each in jackets if each.kind == "inflatable"), None)
        if blown is not None and len(small) > foam:
            role, age = next(iter(small.items()))
            yield at(
                blown,
                "kind",
                f"inflatable, and {the(role)}, who wears this size, is {_years(age)} old",
                item=role,
                also=tuple(person.place("age") for person in sight.vessel.people if str(person.role) == role),
            )


@check("people.small-alone", LIFE, COMMON_PRACTICE)
def a_small_child_has_somebody(sight: Sight) -> Finds:
    """A child under eight needs help, and somebody is named who takes it along.

    Why: it does not come up by itself, and in the dark each of the grown-ups thinks that another has it.
    Remedy: write for example needs-help: is a small child and is carried, and under helper: who carries it.
    """
    for person in sight.vessel.people:
        small = [age for age in person.child_ages if age < IN_ARMS]
        if small and untold(person.needs_help) and untold(person.helper):
            yield at(
                person,
                "needs-help",
                f"{the(str(person.role))} is {' and '.join(map(_years, small))} old, and nobody is named who takes it along",
                item=str(person.role),
                also=(person.place("age"),),
            )


@check("people.child-unheld", HELP, COMMON_PRACTICE)
def a_child_without_a_raft_is_somebodys(sight: Sight) -> Finds:
    """Where there is no liferaft, somebody is named who holds each child in the water.

    Why: the step that ties a child to a grown-up names nobody, and each of them thinks that another has it.
    Remedy: write whom it is tied to: helper: mate, and needs-help: is a child and is held by the hand.
    """
    if sight.vessel.rafts:
        return
    for person in sight.vessel.people:
        small = [age for age in person.child_ages if IN_ARMS <= age < HALF_GROWN]
        if small and untold(person.helper) and untold(person.needs_help):
            yield at(
                person,
                "helper",
                f"{the(str(person.role))} is {' and '.join(map(_years, small))} old, and nobody is named who holds it in the water",
                item=str(person.role),
                also=(person.place("age"),),
            )


_CARRIED = ("carried", "in arms", "in the arms", "in a sling")


@check("people.older-than-carried", HELP, COMMON_PRACTICE)
def a_big_child_is_not_said_to_be_small(sight: Sight) -> Finds:
    """Nobody is called a small child, or is carried as one, who is half grown.

    Why: one of the two is wrong: the helper counts on the weight of a small child, jackets and duties on the age.
    Remedy: correct the age, or what help is needed: needs-help.
    """
    for person in sight.vessel.people:
        help_ = person.needs_help.lower() if isinstance(person.needs_help, str) else ""
        ages = person.child_ages
        called = any(each in help_ for each in ("small child", "baby", "infant", "toddler"))
        if (
            ages
            and min(ages) >= HALF_GROWN
            and (called or ("child" in help_ and any(each in help_ for each in _CARRIED)))
        ):
            yield at(
                person,
                "needs-help",
                f"{the(str(person.role))} is {_years(min(ages))} old, and needs help as a small child does: {person.needs_help}",
                item=str(person.role),
                also=(person.place("age"),),
            )
