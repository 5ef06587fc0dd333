"""People as they are printed: a role of several with its number, whoever needs help with the helper, and the helper with whom."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.reading.values import Counted
from generator.vessel.people import heads

COMMAND = "command"

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from generator.manual.printing import Printer
    from generator.vessel.people import Person


def called(role: str, people: Iterable[Person], printer: Printer) -> str:
    """A role as it is counted and called: with its number where several have it, and how many of them where some are meant."""
    number = next((person.quantity for person in people if person.role == role), None)
    some = role.number if isinstance(role, Counted) else None
    if isinstance(some, int) and isinstance(number, int) and some != number:
        return printer.say("row.share", role=role, number=some, all=number)
    return (
        printer.say("row.counted", role=role, number=number)
        if isinstance(number, int) and number > 1
        else role
    )


def the(role: str) -> str:
    """A role in a sentence: "the mate", but "guest 2"."""
    return role if role[-1:].isdigit() else f"the {role}"


def in_command(people: Iterable[Person], printer: Printer) -> str:
    """What whoever has the command is called in a sentence: the skipper, or by the role where nobody aboard is called that."""
    skipper, roles = printer.say("bill.skipper"), [str(each.role) for each in people]
    able = [str(each.role) for each in people if COMMAND in each.abilities]
    if not able or any(skipper in role.lower().split() for role in roles):
        return skipper
    return able[0]


def several_in_command(people: Iterable[Person]) -> bool:
    """Whether somebody else can take the command where one of those who can is down."""
    return heads(person for person in people if COMMAND in person.abilities) > 1


def next_in_command(people: Sequence[Person], printer: Printer) -> str:
    """Who takes the command where whoever has it is down; the same role where several have it, "" where nobody can."""
    first = in_command(people, printer)
    able = [person for person in people if COMMAND in person.abilities]
    others = [each for each in able if first != each.role and first not in str(each.role).lower().split()]
    return str((others or able)[0].role) if several_in_command(people) else ""


def aged(role: str, people: Iterable[Person], printer: Printer) -> str:
    """How old the children of a role are; "" where nobody says so."""
    ages = next((person.child_ages for person in people if person.role == role), ())
    return printer.say("bill.aged", ages=", ".join(map(str, ages))) if ages else ""


def without_a_duty(role: str, people: Sequence[Person], printer: Printer, *, outside: bool = False) -> str:
    """What a role does that has no duty: it follows whoever commands, or goes with its helper; `outside`, into the open air."""
    helper = next((person.helper for person in people if person.role == role), None)
    if isinstance(helper, str) and helper != role:
        return printer.say("bill.no-duty-helped-outside" if outside else "bill.no-duty-helped", helper=helper)
    commander = in_command(people, printer)
    return printer.say("bill.no-duty-outside" if outside else "bill.no-duty", commander=commander)


def helps(role: str, people: Sequence[Person], printer: Printer, *, briefly: bool = False) -> str:
    """Whom a role helps, and unless said `briefly` for what; "" for nobody."""
    helped = [
        printer.say("bill.helped", role=called(str(each.role), people, printer), need=need)
        if (need := "" if briefly or not each.known("needs_help") else printer.in_step(each, "needs_help"))
        else called(str(each.role), people, printer)
        for each in people
        if each.helper == role and each.role != role
    ]
    return printer.say("bill.helps", who="; ".join(helped)) if helped else ""
