"""How many can act in an emergency: those aboard, without whom it takes away, without small children and those who need help."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.reading.values import untold
from generator.shelves.procedure_files import HALF_GROWN
from generator.vessel.people import ADULT, heads, jacket_sizes

if TYPE_CHECKING:
    from generator.vessel.people import Person
    from generator.vessel.vessel import Vessel

LEFT = {
    "nobody left": "None of those aboard can act once those are taken away whom the procedure counts out: it has happened to whoever is alone",
    "one left": "One of those aboard can act once those are taken away whom the procedure counts out",
    "two left": "Two of those aboard can act once those are taken away whom the procedure counts out",
    "more than two left": "More than two of those aboard can act once those are taken away whom the procedure counts out",
}
"""The facts of who is left, each with what is so; one of them is, in every procedure."""
_SEVERAL = len(LEFT) - 1


def able(vessel: Vessel) -> int:
    """How many can act where nobody is hurt or overboard, at least one.

    A child counts from HALF_GROWN on, as for a duty that no special skill takes; whoever needs help does not, for it takes hands.
    A boat of which is not said how many she carries is taken for that of one person, as elsewhere.
    """
    persons = vessel.vessel.persons if vessel.vessel is not None else None
    aboard = persons if isinstance(persons, int) else 0
    return max(1, aboard - sum(map(_cannot, vessel.people)))


def _cannot(person: Person) -> int:
    """How many of those who have a role do not count."""
    if not untold(person.needs_help):
        return heads([person])
    if person.age:
        small = sum(age < HALF_GROWN for age in person.age)
        return small if len(person.age) > 1 else small * heads([person])
    return sum(size != ADULT for size in jacket_sizes(person))


def left(hands: int, counts_out: int) -> dict[str, bool]:
    """The facts of who is left, of so many hands, in a procedure that counts out so many."""
    number = min(max(hands - counts_out, 0), _SEVERAL)
    return {name: place == number for place, name in enumerate(LEFT)}
