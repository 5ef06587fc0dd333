"""People: the roles aboard, their duties, and who is aboard on a voyage."""

import re
from collections.abc import Iterable, Iterator
from functools import lru_cache

from generator.reading.block import Block, Fault
from generator.reading.fields import CHECKED, ESTIMATE, NEEDED, OPEN, Dated, Listed, Many, One, Text, Texts
from generator.reading.measures import Count, Measure
from generator.reading.values import Counted, given
from generator.reading.worded import NAME, ROLE, Worded
from generator.vessel.fittings import Berth

MOST_OF_A_CHILD, OLDEST = 17, 110
"""How old a child is at most whose age is asked, and anybody."""
ABILITIES = ("command", "radio", "first aid", "engine", "deck", "swim")


ADULT = "adult"
JACKETS = (ADULT, "child", "infant")
_SMALL = {"child": ("child", "children"), "infant": ("infant", "infants")}
"""The sizes of the small, with the words by which a role says them."""


class Person(Block):
    """A role aboard; posted cards name roles, never persons."""

    called = "role"
    role = Worded("Which role?", says=ROLE, required=True, example="skipper")
    name = Text("Who is it?", reader="crew", unknown=OPEN)
    quantity = Count(
        "How many have this role, if more than one?",
        low=1,
        high=60,
        unknown=OPEN,
        example="10",
        why="as many as a boat of 40 m has aboard",
    )
    age = Listed(
        "How old, if a child or very old, and each of several?",
        Count("How old?", low=0, high=OLDEST, why="ages of people; a grown person needs none"),
        unknown=OPEN,
        most=60,
        example="[6, 9, 11]",
    )
    lifejacket = Texts(
        "Which size of lifejacket fits, if not an adult's, and each of several?",
        JACKETS,
        unknown=OPEN,
        most=60,
        example="[child, child, infant]",
    )
    abilities = Texts("What can this person do?", ABILITIES, most=12, unknown=CHECKED)
    lifts = Measure(
        "What can this person lift with both hands?",
        "mass",
        high=80,
        unknown=ESTIMATE,
        example="25 kg",
        low=1,
        why="from a child to the strongest, with both hands",
    )
    berth = One(Berth, "Where does this person sleep?", unknown=OPEN, example="{where: saloon, side: port}")
    language = Worded("Which language?", says=NAME, unknown=OPEN)
    needs_help = Text(
        "What help does this person need (printed for the crew alone; why it is needed belongs under 'medical')?",
        unknown=OPEN,
    )
    helper = Worded("Which role helps?", says=ROLE, unknown=CHECKED)
    phone = Text("Which telephone number?", reader="crew", unknown=OPEN)
    medical = Text("Which medical facts must a helper know?", reader="crew", unknown=OPEN, answers=("none",))

    def complete(self) -> None:
        """Several ages, or sizes, say how many have the role."""
        told = max(len(self.age), len(self.lifejacket))
        if told > 1 and self.quantity is None:
            self.__dict__["quantity"] = told

    def faults(self) -> Iterator[Fault]:
        """Of several, one age or size holds for all, or each has one."""
        for key, told, what in (("age", self.age, "ages"), ("lifejacket", self.lifejacket, "sizes")):
            if isinstance(self.quantity, int) and 1 < len(told) != self.quantity:
                many = f"{self.quantity} have" if self.quantity > 1 else "1 has"
                yield Fault(
                    key,
                    f"{len(told)} {what} stand here, and {many} the role {self.role or 'here'}",
                    f"write one for each of them, or quantity: {len(told)}",
                )

    @property
    def child_ages(self) -> tuple[int, ...]:
        """The ages, in years, of the children among those who have the role, as far as told."""
        return tuple(age for age in self.age if isinstance(age, int) and age <= MOST_OF_A_CHILD)

    @property
    def a_child(self) -> bool:
        """Whether an age tells that one of those who have the role is a child, or may be: of several one is not known."""
        if "age" not in self.__dict__:
            return False
        return any(not isinstance(age, int) or age <= MOST_OF_A_CHILD for age in self.age)


class Assignment(Block):
    """Who does a duty, and who takes over."""

    shorthand = "who"
    who = Texts("Which role or roles?", required=True, unknown=NEEDED, most=30)
    substitute = Worded("Who takes over if that person is disabled or overboard?", says=ROLE, unknown=CHECKED)


class Traveller(Block):
    """Somebody aboard on this voyage."""

    called = "name"
    name = Text("What is the name?", required=True, reader="crew")
    role = Worded("Which role?", says=ROLE, required=True, example="skipper")
    age = Count("How old?", low=0, high=OLDEST, reader="crew", unknown=OPEN, why="ages of people")
    language = Worded("Which language?", says=NAME, unknown=OPEN)
    needs_help = Text(
        "What help does this person need (printed for the crew alone; why it is needed belongs under 'medical')?",
        unknown=OPEN,
    )
    helper = Worded("Which role helps?", says=ROLE, unknown=CHECKED)
    phone = Text("Which telephone number?", reader="shore", unknown=OPEN)


class Voyage(Block):
    """Who is aboard, from where to where, until when."""

    persons = Many(Traveller, "Who is aboard?", required=True, most=100)
    from_ = Worded("From where?", says=NAME, unknown=OPEN)
    to = Worded("To where?", says=NAME, unknown=OPEN)
    departs = Dated("Which day does she leave?", unknown=OPEN)
    until = Dated("Until when at the latest?", required=True)
    briefed = Dated("When were all of them shown round and briefed?", unknown=OPEN)
    raise_alarm = Text("When does the shore contact raise the alarm?", reader="shore", unknown=OPEN)


def jacket_sizes(person: Person) -> tuple[str, ...]:
    """The size of lifejacket that each who has a role takes, as told or as the role says, an adult's else.

    "" for a child of whom neither does.
    """
    told = person.__dict__.get("lifejacket")
    told = told or (_size_called(str(person.role)) or ("" if person.a_child else ADULT),)
    return tuple(told) if len(told) > 1 else tuple(told) * _many(person)


@lru_cache(maxsize=1024)
def _size_called(role: str) -> str:
    """The size that a role says: child, infant; "" of others."""
    words = set(re.findall(r"\w+", role.lower()))
    return next((size for size, names in _SMALL.items() if not words.isdisjoint(names)), "")


def heads(people: Iterable[Person]) -> int:
    """How many persons a list of roles means: one each, or as many as it says."""
    return sum(map(_many, people))


def _many(person: Person) -> int:
    """How many persons have a role, as far as told."""
    number = person.__dict__.get("quantity")
    return number if isinstance(number, int) else 1


def meant_by(role: str, people: Iterable[Person]) -> int:
    """How many persons are meant where a role is named: the number with it, else all who have it; one where neither is known."""
    if isinstance(role, Counted) and role.number is not None:
        return given(role.number, 1)
    return heads(person for person in people if person.role == role) or 1
