"""Deadlines: every dated thing aboard with the last day on which it is good, and which of its dates says so."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from generator.manual.deadlines.lines import Deadline, End, dates_in, deadline_of, deadlines_of_thing, ends_of
from generator.manual.deadlines.things import Thing, deferral, things_of
from generator.shelves.lives import USUAL_CHECK

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import date

    from generator.manual.deadlines.lines import Dates
    from generator.reading.block import Block
    from generator.vessel.vessel import Vessel

__all__ = [
    "USUAL_CHECK",
    "Deadline",
    "End",
    "Thing",
    "dates_in",
    "deadlines_among",
    "deadlines_of",
    "deadlines_of_thing",
    "deadlines_out_of",
    "deferral",
    "ends_among",
    "in_time",
    "things_of",
]


def deadlines_of(vessel: Vessel) -> tuple[Deadline, ...]:
    """All deadlines of a vessel, the earliest first."""
    return deadlines_among(things_of(vessel))


def deadlines_among(things: Iterable[Thing]) -> tuple[Deadline, ...]:
    """The deadlines of these things, the earliest first."""
    return deadlines_out_of([end for thing in things for end in ends_of(thing)])


def ends_among(things: Iterable[Thing], stamped: Iterable[tuple[Block, Dates]]) -> tuple[End, ...]:
    """Every last day of these things, not yet put into words; `stamped` are the dates of each block that has any."""
    dates = {id(block): told for block, told in stamped}
    return tuple([end for thing in things for end in ends_of(thing, dates.get(id(thing.block), {}))])


def deadlines_out_of(ends: Iterable[End]) -> tuple[Deadline, ...]:
    """The deadlines out of these ends, the earliest first."""
    return in_time(map(deadline_of, ends))


def _names(one: Deadline) -> tuple[str, str]:
    return str(one.called), one.what


def in_time(deadlines: Iterable[Deadline]) -> tuple[Deadline, ...]:
    """The same, the earliest first."""
    days: defaultdict[date, list[Deadline]] = defaultdict(list)
    for each in deadlines:
        days[each.last_day].append(each)
    return tuple(
        each
        for _, same in sorted(days.items())
        for each in (sorted(same, key=_names) if len(same) > 1 else same)
    )
