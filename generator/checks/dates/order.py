"""Days that contradict each other or the calendar: done in the future, before the thing was there, or so long ago that they say nothing."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.calc.expiry import add_months, last_of_month
from generator.reading.block import Block
from generator.reading.nearest import shortened
from generator.reading.values import Quantity, Stamp, known
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
from generator.survey.sight import once
from generator.vessel.alarms import DOES, Alarm
from generator.vessel.gear import Gear, does
from generator.vessel.particulars import Drill

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.vessel.particulars import Posted, Signed
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
_FIRST, _SECOND = (frozenset(each) for each in zip(*IN_ORDER, strict=True))
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
        both = len(dates) > 1 and not (_FIRST.isdisjoint(dates) or _SECOND.isdisjoint(dates))
        for first, second in IN_ORDER if both else ():
            early, late = dates.get(first), dates.get(second)
            if first in HAPPENED and early is not None and early.first_day > sight.as_of:
                continue  # told as still to come
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
    yield from _after_its_interval(sight)


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
    before = [
        (block, name.replace("_", "-"), dates[name])
        for block, dates in sight.stamped
        for name in (*_FITTED, *(("date",) if isinstance(block, Drill) else ()))
        if name in dates and dates[name].year < one.built
    ]
    early = [each for each in before if each[2].year < one.built - _BUILDING_YEARS]
    if early and len(before) >= _SEVERAL:
        told = [f"'{key}' of {_called(block)} ({stamp})" for block, key, stamp in (*early, *before)]
        yield at(
            one,
            "built",
            f"{_called(one)}: she is said to be built in {one.built}, and {len(before)} days lie before that: {', '.join(list(dict.fromkeys(told))[:_SEVERAL])} …",
            remedy="read the year on the builder's plate or in her papers, and correct 'built'; if it is right, correct those days",
            item=_called(one),
            also=tuple(block.place(key) for block, key, _ in before),
        )
        return
    for block, key, stamp in early:
        yield at(
            block,
            key,
            f"{_called(block)}: '{key}' ({stamp}) lies before she was built ({one.built})",
            item=_called(block),
            also=(one.place("built"),),
        )


_FITTED = ("fitted", "hose_fitted", "release_fitted", "flag_since")
_SEVERAL = 3
"""Of so many days before the year of building it is the year that is wrong."""


def _after_its_interval(sight: Sight) -> Iterator[Found]:
    """What is due later than its own interval lets it be, counted from when it was last done."""
    for item in sight.vessel.gear:
        if "service_interval" not in item.__dict__:
            continue
        last, due, interval = known(item.last_service), known(item.next_service), item.service_interval
        if last is None or due is None or not isinstance(interval, Quantity):
            continue
        if due.first_day > last_of_month(add_months(last.last_day, round(interval))):
            said = f"{item.what}: 'next-service' ({due}) lies more than its interval of {interval} behind 'last-service' ({last})"
            yield at(item, "next-service", said, item=str(item.what), also=(item.place("service-interval"),))


@check("dates.test-forgotten", UPKEEP, COMMON_PRACTICE)
def what_was_tested_was_tested_in_these_years(sight: Sight) -> Finds:
    """What says when it was tested or looked at, and has no life counted from that day, was so in the last three years, an alarm in the last year and a half.

    Why: a test of ten years ago reads in the list like one of this spring; mostly the year is misread.
    Remedy: test it and write the day, or correct the year.
    """
    longest, of_alarms = (
        months(sight.vessel, each) for each in ("time since a test", "time since the test of an alarm")
    )
    for block, dates in sight.stamped:
        if _LOOKED_AT.isdisjoint(dates):
            continue
        warns = isinstance(block, Alarm) or (
            isinstance(block, Gear) and any(does(block, each) for each in DOES.values())
        )
        for key in ("tested", "checked", *(("replaced",) if isinstance(block, Alarm) else ())):
            stamp, most = dates.get(key), of_alarms if warns and key == "tested" else longest
            if not most or stamp is None or add_months(stamp.last_day, most) >= sight.as_of:
                continue
            if (block, key) not in _counted_from(sight):
                said = f"{_called(block)}: '{key}' says {stamp}, {span(stamp.last_day, sight.as_of)} ago"
                yield at(block, key, said, item=_called(block))


_LOOKED_AT = frozenset(("tested", "checked", "replaced"))


@once
def _counted_from(sight: Sight) -> frozenset[tuple[Block, str]]:
    """The dates of things from which a life is counted."""
    return frozenset(
        (thing.block, key)
        for thing in sight.things
        for line in thing.kind.lines
        for life in line.lives
        for key in life.since
    )


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
