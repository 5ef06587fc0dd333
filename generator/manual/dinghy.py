"""What carries people where the boat is left without a liferaft: her dinghy, and whoever holds the children.

Facts are a name, what is so where it is true, and how that is seen; words are a slot and how its word is found.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.manual.said import Charge, Charges, Said, given_word, place_word
from generator.vessel.people import ADULT, heads, jacket_sizes

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from generator.manual.fitting_facts import True_
    from generator.vessel.people import Person
    from generator.vessel.vessel import Vessel


def carries(vessel: Vessel) -> int | None:
    """How many persons the dinghy carries; None where there is none, or it is not said."""
    told = vessel.tender.persons if vessel.tender is not None else None
    return told if isinstance(told, int) else None


def aboard(vessel: Vessel) -> int | None:
    """How many may be aboard, as the file says; None where it does not."""
    told = vessel.vessel.persons if vessel.vessel is not None else None
    return told if isinstance(told, int) else None


def too_small(vessel: Vessel) -> bool:
    """Whether the dinghy is said to carry fewer than may be aboard."""
    room, persons = carries(vessel), aboard(vessel)
    return room is not None and persons is not None and room < persons


def children(people: Sequence[Person]) -> list[Person]:
    """The roles of which somebody is a child: by age, or by the size of lifejacket."""
    return [each for each in people if each.child_ages or set(jacket_sizes(each)) - {ADULT}]


def must_be_dry(people: Sequence[Person]) -> int:
    """How many must not go into the water if anything carries them: children, and whoever needs help."""
    return heads(people_who_must_be_dry(people))


def people_who_must_be_dry(people: Sequence[Person]) -> list[Person]:
    """Their roles: of several of one role all, where one is a child."""
    small = {id(each) for each in children(people)}
    return [each for each in people if id(each) in small or each.known("needs_help")]


def _taken(how: str) -> True_:
    return lambda vessel: vessel.tender is not None and vessel.tender.carried == how


DINGHY_FACTS: tuple[tuple[str, str, True_], ...] = (
    ("dinghy", "She has a dinghy", lambda vessel: vessel.tender is not None),
    ("dinghy told for how many", "The file says how many the dinghy carries", lambda vessel: carries(vessel) is not None),
    ("dinghy too small", "The dinghy carries fewer than may be aboard", too_small),
    ("dinghy towed", "The dinghy is towed", _taken("towed")),
    ("dinghy packed", "The dinghy is carried packed, without air", _taken("packed")),
    ("dinghy in davits", "The dinghy hangs in davits", _taken("in davits")),
    (
        "dinghy with an outboard",
        "The file says that the dinghy has an outboard",
        lambda vessel: vessel.tender is not None and vessel.tender.outboard is True,
    ),
    ("children aboard", "A child is aboard, by its age or by its lifejacket", lambda vessel: bool(children(vessel.people))),
)  # fmt: skip


def dinghy_words() -> Iterator[tuple[str, Callable[[Vessel], Said | None]]]:
    """Every slot of the dinghy and of the children, and how its word is found; None where she has nothing of the kind."""
    yield "dinghy", _of_the_dinghy("what")
    yield "dinghy-persons", _of_the_dinghy("persons")
    yield "dinghy-place", lambda vessel: None if vessel.tender is None else place_word(vessel.tender)
    yield "children held", lambda vessel: _held(children(vessel.people), vessel.people)
    yield "held", lambda vessel: _held(people_who_must_be_dry(vessel.people), vessel.people)


def _of_the_dinghy(name: str) -> Callable[[Vessel], Said | None]:
    return lambda vessel: None if vessel.tender is None else given_word(vessel.tender, name)


def _held(held: Sequence[Person], people: Sequence[Person]) -> Said | None:
    """Each of them with whoever helps; None where there is nobody."""
    return Charges(tuple(Charge(each, tuple(people)) for each in held)) if held else None
