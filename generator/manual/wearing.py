"""Who wears a lifejacket all the time, by the size that fits: a child is no wearer of the adults' jackets."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.vessel.people import heads, jacket_sizes

if TYPE_CHECKING:
    from collections.abc import Iterable

    from generator.vessel.gear import Lifejackets
    from generator.vessel.people import Person
    from generator.vessel.vessel import Vessel


ALL = frozenset(("all", "everybody", "everyone", "all whom it fits", "all whom they fit"))
"""The words that name everybody whom a jacket fits."""


def named(jackets: Lifejackets, people: Iterable[Person]) -> tuple[str, ...]:
    """The roles that the file names as wearing these; where it names all, those whom their size fits."""
    people = list(people)
    said = tuple(jackets.worn_by or ())
    every = {role for role in said if role.lower() in ALL} - {str(person.role) for person in people}
    if not every:
        return said
    fitting = (
        str(each.role)
        for each in people
        if each.role and any(fits(jackets, size) for size in jacket_sizes(each))
    )
    return tuple(dict.fromkeys((*(role for role in said if role not in every), *fitting)))


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
    """Whether everybody she carries wears one all the time, of which there are enough, and there are no rooms where it is taken off."""
    one = vessel.vessel
    if one is None or one.hull.has_rooms or not isinstance(one.persons, int):
        return False
    sizes = [size for person in vessel.people for size in jacket_sizes(person)]
    return (
        heads(vessel.people) >= one.persons
        and all(
            any(person.role in named(each, vessel.people) and fits(each, size) for each in vessel.lifejackets)
            for person in vessel.people
            for size in set(jacket_sizes(person))
        )
        and all(sizes.count(size) <= _worn(vessel, size) for size in set(sizes))
    )


def _worn(vessel: Vessel, size: str) -> int:
    """How many there are of a size among those that somebody wears."""
    return sum(
        each.quantity
        for each in vessel.lifejackets
        if each.worn_by and fits(each, size) and isinstance(each.quantity, int)
    )
