"""What is said when the first file stands: what is missing, what to find out first, and the command for a first look."""

from __future__ import annotations

from shlex import quote
from textwrap import wrap
from typing import TYPE_CHECKING

from generator.commissioning.first_things import first_things
from generator.publishing import survey
from generator.survey.listing import count

if TYPE_CHECKING:
    from generator.commissioning.writing import Done
    from generator.publishing import Order

_WIDTH = 100
_MOST_ROLES = 6


def closing(done: Done, order: Order) -> str:
    """The words for the terminal."""
    folder = done.path.parent
    if done.missing:
        answers = f"{done.missing} of {done.asked} first answers are missing (they say unknown)"
    else:
        answers = f"all {done.asked} first answers stand in it"
    lines = [f"{done.path} written; {answers}."]
    if done.roles:
        more = f" and {len(done.roles) - _MOST_ROLES} more" if len(done.roles) > _MOST_ROLES else ""
        lines.append(
            f"In it a first station bill for {', '.join(done.roles[:_MOST_ROLES])}{more}: a proposal by rule. Change it."
        )
    if done.base and done.hers:
        lines.append(
            f"{done.base} tells of her base, and what it says is hers too; if she is not of that base, write base: none."
        )
    elif done.base:
        lines.append(
            f"{done.base} tells of a base; if it lets her out or looks after her, write base: ../base.yaml."
        )
    surveyed = survey(folder, str(folder), order)
    things = first_things(surveyed.findings)
    lines.append(f"The survey finds {count(surveyed.findings)}.{' Find out first:' if things else ''}")
    for number, thing in enumerate(things, 1):
        lines += wrap(f"{number}. {thing.words}", _WIDTH, subsequent_indent="   ", break_long_words=False)
        lines += wrap(
            ", ".join(thing.keys),
            _WIDTH,
            initial_indent="   ",
            subsequent_indent="   ",
            break_on_hyphens=False,
        )
    lines.append(f"All of it: musterbook survey {quote(str(folder))}")
    lines.append(f"A first look at her manual: musterbook publish {quote(str(folder))} --proof-copy")
    return "\n".join(lines)
