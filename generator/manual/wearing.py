"""Who wears a lifejacket all the time, by the size that fits: a child is no wearer of the adults' jackets."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.vessel.people import heads, jacket_sizes

if TYPE_CHECKING:
    from collections.abc import Iterable

    from generator.vessel.gear import Lifejackets
    from generator.vessel.people import Person
    from generator.vessel.vessel import Vessel


ALL = "all"
"""The word that names everybody whom a jacket fits."""


def named(jackets: Lifejackets, people: Iterable[Person]) -> tuple[str, ...]:
    """The roles that the file names as wearing these; where it names all, those whom their size fits."""
    people = list(people)
    said = tuple(jackets.worn_by or ())
    if ALL not in said or ALL in [person.role for person in people]:
        return said
    fitting = (
        str(each.role)
        for each in people
        if each.role and any(fits(jackets, size) for size in jacket_sizes(each))
    )
    return tuple(dict.fromkeys((*(role for role in said if role != ALL), *fitting)))


def wearers(jackets: Lifejackets, people: Iterable[Person]) -> tuple[str, ...]:
    """The roles that wear these all the time: of those the file names, all whom their size fits, and who is no role aboard."""
    people = list(people)
    sizes = {str(person.role): jacket_sizes(person) for person in people}
    return tuple(
        role for role in named(jackets, people) if any(fits(jackets, each) for each in sizes.get(role, ("",)))
    )


def fits(jackets: Lifejackets, size: str) -> bool:
    """Whether these are of a size; "", which nobody has told, is taken to be theirs."""
    return size in ("", jackets.size)


def some_wear_theirs(vessel: Vessel) -> bool:
    """Whether somebody aboard wears a lifejacket all the time."""
    return any(wearers(each, vessel.people) for each in vessel.lifejackets)


def everybody_wears_theirs(vessel: Vessel) -> bool:
    """Whether everybody she carries wears one all the time, and there are no rooms where it is taken off."""
    one = vessel.vessel
    if one is None or one.hull.has_rooms or not isinstance(one.persons, int):
        return False
    return heads(vessel.people) >= one.persons and all(
        any(person.role in named(each, vessel.people) and fits(each, size) for each in vessel.lifejackets)
        for person in vessel.people
        for size in set(jacket_sizes(person))
    )
