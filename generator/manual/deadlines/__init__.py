"""Deadlines: every dated thing aboard with the last day on which it is good, and which of its dates says so."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.manual.deadlines.lines import Deadline, deadlines_of_thing
from generator.manual.deadlines.things import Thing, deferral, things_of
from generator.shelves.lives import USUAL_CHECK

if TYPE_CHECKING:
    from collections.abc import Iterable

    from generator.vessel.vessel import Vessel

__all__ = [
    "USUAL_CHECK",
    "Deadline",
    "Thing",
    "deadlines_among",
    "deadlines_of",
    "deadlines_of_thing",
    "deferral",
    "in_time",
    "things_of",
]


def deadlines_of(vessel: Vessel) -> tuple[Deadline, ...]:
    """All deadlines of a vessel, the earliest first."""
    return deadlines_among(things_of(vessel))


def deadlines_among(things: Iterable[Thing]) -> tuple[Deadline, ...]:
    """The deadlines of these things, the earliest first."""
    found = [each for thing in things for each in deadlines_of_thing(thing)]
    return in_time(found)


def in_time(deadlines: Iterable[Deadline]) -> tuple[Deadline, ...]:
    """The same, the earliest first."""
    return tuple(sorted(deadlines, key=lambda each: (each.last_day, each.item, each.what)))
