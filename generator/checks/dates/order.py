"""Days that contradict each other or the calendar: done in the future, before the thing was there, or so long ago that they say nothing."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.calc.expiry import add_months
from generator.reading.block import Block
from generator.reading.nearest import shortened
from generator.reading.values import Stamp, known
from generator.survey.limits import months
from generator.survey.passed import span
from generator.survey.registry import (
    COMMON_PRACTICE,
    TRUTH,
    UPKEEP,
    Finds,
    Found,
    Sight,
    at,
    check,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.vessel.particulars import Drill, Posted, Signed
    from generator.vessel.vessel import Vessel

# What has happened cannot lie ahead; of each pair the first comes before the second.
HAPPENED = frozenset(
    (
        "made",
        "last",
        "fitted",
        "checked",
        "tested",
        "registered",
        "programmed",
        "last_service",
        "replaced",
        "hose_made",
        "hose_fitted",
        "regulator_made",
        "battery_replaced",
        "release_fitted",
        "pressure_test",
        "flag_since",
        "briefed",
    )
)
"""Keys of days on which something was done."""
IN_ORDER = (
    ("made", "fitted"),
    ("made", "expires"),
    ("fitted", "expires"),
    ("last", "next"),
    ("last_service", "next_service"),
    ("made", "last_service"),
    ("made", "next_service"),
    ("departs", "until"),
    ("briefed", "until"),
    ("made", "tested"),
    ("made", "replaced"),
    ("hose_made", "hose_fitted"),
    ("programmed", "registered"),
)
"""Keys of one block of which the first comes before the second. An end that lies before what was done has passed, and is told as that."""
_AFTER_MAKING = (
    ("service", "last"),
    ("service", "pressure_test"),
    ("slip", "checked"),
    ("painter", "checked"),
)
"""Of a raft: what cannot have been done before it was made."""
_BUILDING_YEARS = 2  # a boat is built over two winters, and her seacocks are fitted in the first


def _called(block: Block) -> str:
    words = getattr(block, type(block).called, "") if type(block).called else ""
    return str(words or block.path or "voyage")


@check("dates.in-future", TRUTH, COMMON_PRACTICE)
def what_happened_lies_behind(sight: Sight) -> Finds:
    """What is said to have happened lies in the past.

    Why: a service that has not taken place yet makes everything after it look in date; mostly it is a slip of the pen.
    Remedy: correct the year or the month; write it when it has happened.
    """
    for block, dates in sight.stamped:
        for name in HAPPENED.intersection(dates):
            stamp = dates[name]
            if stamp.first_day > sight.as_of:
                key = name.replace("_", "-")
                yield at(
                    block,
                    key,
                    f"{_called(block)}: '{key}' says {stamp}, which is still to come on {sight.as_of}",
                    item=_called(block),
                )
    for block, key in _signed(sight.vessel):
        if isinstance(block.date, Stamp) and block.date.first_day > sight.as_of:
            yield at(block, "date", f"{key}: {block.date} is still to come on {sight.as_of}", item=key)


def _signed(vessel: Vessel) -> Iterator[tuple[Signed | Drill | Posted, str]]:
    if vessel.checked_aboard:
        yield vessel.checked_aboard, "checked-aboard"
    if vessel.approved:
        yield vessel.approved, "approved"
    yield from ((drill, f"drill {drill.emergency or drill.path}") for drill in vessel.drills)
    yield from ((card, f"card {card.station or card.path}") for card in vessel.posted)


@check("dates.reversed", TRUTH, COMMON_PRACTICE)
def dates_stand_in_their_order(sight: Sight) -> Finds:
    """Dates of one thing stand in their order.

    Why: a thing fitted before it was made, or due before it was last serviced, has a wrong date, and either may be the wrong one.
    Remedy: compare both with label and certificate and correct the wrong one.
    """
    for block, dates in sight.stamped:
        for first, second in IN_ORDER if len(dates) > 1 else ():
            early, late = dates.get(first), dates.get(second)
            if early is not None and late is not None and early.first_day > late.last_day:
                first_key, second_key = first.replace("_", "-"), second.replace("_", "-")
                yield at(
                    block,
                    second_key,
                    f"{_called(block)}: '{second_key}' ({late}) lies before '{first_key}' ({early})",
                    item=_called(block),
                    also=(block.place(first_key),),
                )
    yield from _before_it_was_made(sight)
    yield from _before_she_was_built(sight)


def _before_it_was_made(sight: Sight) -> Iterator[Found]:
    """What is said to have been done at a raft before the raft was made."""
    for raft in sight.vessel.rafts:
        made = known(raft.made)
        if made is None or made.first_day > sight.as_of:
            continue
        for part, name in _AFTER_MAKING:
            block = raft.__dict__.get(part)
            done = block.__dict__.get(name) if isinstance(block, Block) else None
            if isinstance(block, Block) and isinstance(done, Stamp) and done.last_day < made.first_day:
                key = name.replace("_", "-")
                said = f"{raft.name}: '{key}' of its {part} ({done}) lies before 'made' ({made})"
                yield at(block, key, said, item=str(raft.name), also=(raft.place("made"),))


def _before_she_was_built(sight: Sight) -> Iterator[Found]:
    """What is said to have been fitted in her, or since when she flies her flag, before she was built."""
    one = sight.vessel.vessel
    if not one or not isinstance(one.built, int) or one.built > sight.as_of.year:
        return
    earliest = one.built - _BUILDING_YEARS
    for block, dates in sight.stamped:
        for name in ("fitted", "hose_fitted", "release_fitted", "flag_since"):
            stamp = dates.get(name)
            if stamp is not None and stamp.year < earliest:
                key = name.replace("_", "-")
                yield at(
                    block,
                    key,
                    f"{_called(block)}: '{key}' ({stamp}) lies before she was built ({one.built})",
                    item=_called(block),
                    also=(one.place("built"),),
                )


@check("dates.test-forgotten", UPKEEP, COMMON_PRACTICE)
def what_was_tested_was_tested_in_these_years(sight: Sight) -> Finds:
    """What says when it was tested or looked at, and has no life counted from that day, was so in the last three years.

    Why: a test of ten years ago reads in the list like one of this spring; mostly the year is misread.
    Remedy: test it and write the day, or correct the year.
    """
    longest = months(sight.vessel, "time since a test")
    counted = {
        (thing.block, key)
        for thing in sight.things
        for line in thing.kind.lines
        for life in line.lives
        for key in life.since
    }
    for block, dates in sight.stamped:
        for key in ("tested", "checked"):
            stamp = dates.get(key)
            if not longest or stamp is None or (block, key) in counted:
                continue
            if add_months(stamp.last_day, longest) < sight.as_of:
                said = f"{_called(block)}: '{key}' says {stamp}, {span(stamp.last_day, sight.as_of)} ago"
                yield at(block, key, said, item=_called(block))


@check("dates.stamp-differs", TRUTH, COMMON_PRACTICE)
def the_stamp_says_the_date(sight: Sight) -> Finds:
    """A date is the one that stands beside it as stamped on the thing.

    Why: one of the two was changed and the other left; the thing was renewed and the old date stayed, or the other way round.
    Remedy: read the stamp again, and write both as they are there.
    """
    for block, dates in sight.stamped:
        for name, value in dates.items():
            if value.stamp and not _may_say(value.stamp, value):
                key = name.replace("_", "-")
                said = f"{_called(block)}: '{key}' says {value}, and its stamp '{shortened(value.stamp)}'"
                yield at(block, key, said, item=_called(block))


_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")


def _may_say(stamp: str, value: Stamp) -> bool:
    """Whether a stamp can be read as the date: its year is there, in four figures or two, and its month, by name or number.

    A stamp without figures, or with other numbers among them, is words, and may say anything.
    """
    words = re.findall(r"[a-z]+|[0-9]+", stamp.lower())
    figures = [each for each in words if each.isdigit()]
    named = [_MONTHS.index(each[:3]) + 1 for each in words if each[:3] in _MONTHS]
    if not figures or len(figures) > 3 or any(len(each) not in (1, 2, 4) for each in figures):
        return True
    years = {str(value.year), f"{value.year % 100:02}"}
    if not years.intersection(figures):
        return False
    if named:
        return value.month in named
    left = list(figures)
    left.remove(next(each for each in figures if each in years))
    return not left or any(int(each) == value.month for each in figures)
