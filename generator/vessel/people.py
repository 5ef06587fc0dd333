"""People: the roles aboard, their duties, and who is aboard on a voyage."""

from collections.abc import Iterable

from generator.reading.block import Block
from generator.reading.fields import CHECKED, ESTIMATE, NEEDED, OPEN, Choice, Dated, Many, Text, Texts
from generator.reading.measures import Count, Measure

ABILITIES = ("command", "radio", "first aid", "engine", "deck", "swim")


JACKETS = ("adult", "child", "infant")


class Person(Block):
    """A role aboard; posted cards name roles, never persons."""

    called = "role"
    role = Text("Which role?", required=True, example="skipper")
    name = Text("Who is it?", reader="crew", unknown=OPEN)
    quantity = Count(
        "How many have this role, if more than one?",
        low=1,
        high=60,
        why="as many as a boat of 40 m has aboard",
        unknown=OPEN,
        example="10",
    )
    age = Count(
        "How old, if a child?",
        low=0,
        high=17,
        why="ages of children; a grown person needs none",
        unknown=OPEN,
        example="7",
    )
    lifejacket = Choice("Which size of lifejacket fits, if not an adult's?", JACKETS, unknown=OPEN)
    abilities = Texts("What can this person do?", ABILITIES, most=12, unknown=CHECKED)
    lifts = Measure(
        "What can this person lift with both hands?",
        "mass",
        low=1,
        high=80,
        why="from a child to the strongest, with both hands",
        unknown=ESTIMATE,
        example="25 kg",
    )
    berth = Text("Where does this person sleep?", unknown=OPEN)
    language = Text("Which language?", unknown=OPEN)
    needs_help = Text("What help does this person need?", unknown=OPEN)
    helper = Text("Which role helps?", unknown=CHECKED)
    phone = Text("Which telephone number?", reader="crew", unknown=OPEN)
    medical = Text("Which medical facts must a helper know?", reader="crew", unknown=OPEN, answers=("none",))


class Assignment(Block):
    """Who does a duty, and who takes over."""

    shorthand = "who"
    who = Texts("Which role or roles?", required=True, unknown=NEEDED, most=30)
    substitute = Text("Who takes over if that person is disabled or overboard?", unknown=CHECKED)


class Traveller(Block):
    """Somebody aboard on this voyage."""

    called = "name"
    name = Text("What is the name?", required=True, reader="crew")
    role = Text("Which role?", required=True, example="skipper")
    age = Count("How old?", low=0, high=110, why="ages of people", reader="crew", unknown=OPEN)
    language = Text("Which language?", unknown=OPEN)
    needs_help = Text("What help does this person need?", unknown=OPEN)
    helper = Text("Which role helps?", unknown=CHECKED)
    phone = Text("Which telephone number?", reader="shore", unknown=OPEN)


class Voyage(Block):
    """Who is aboard, from where to where, until when."""

    persons = Many(Traveller, "Who is aboard?", required=True, most=100)
    from_ = Text("From where?", unknown=OPEN)
    to = Text("To where?", unknown=OPEN)
    departs = Dated("Which day does she leave?", unknown=OPEN)
    until = Dated("Until when at the latest?", required=True)
    briefed = Dated("When were all of them shown round and briefed?", unknown=OPEN)
    raise_alarm = Text("When does the shore contact raise the alarm?", reader="shore", unknown=OPEN)


def heads(people: Iterable[Person]) -> int:
    """How many persons a list of roles means: one each, or as many as it says."""
    return sum(person.quantity if isinstance(person.quantity, int) else 1 for person in people)
