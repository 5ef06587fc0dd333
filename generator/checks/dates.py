"""Dates that contradict each other or the calendar, and what falls due soon."""

from __future__ import annotations

from functools import lru_cache

from generator.checks.passed import deadlines, good, span
from generator.reading.block import Block
from generator.reading.values import Stamp
from generator.survey.registry import COMMON_PRACTICE, DEFECT, RECOMMENDATION, Found, at, check

SOON_DAYS = 30
# What has happened cannot lie ahead; of each pair the first comes before the second.
_HAPPENED = (
    "made",
    "last",
    "fitted",
    "checked",
    "tested",
    "registered",
    "last_service",
    "replaced",
    "hose_made",
    "hose_fitted",
    "regulator_made",
    "battery_replaced",
    "release_fitted",
)
_IN_ORDER = (
    ("made", "fitted"),
    ("made", "expires"),
    ("fitted", "expires"),
    ("last", "next"),
    ("last_service", "next_service"),
    ("made", "last_service"),
    ("made", "next_service"),
    ("departs", "until"),
    ("made", "tested"),
    ("made", "replaced"),
    ("hose_made", "hose_fitted"),
)


@lru_cache(maxsize=4)
def _all(vessel) -> tuple[Block, ...]:
    """The vessel, her voyage and every block in them, found once for the checks of this file."""
    return tuple(_blocks(vessel))


def _blocks(block):
    yield block
    for value in block.__dict__.values():
        for each in value if isinstance(value, list) else (value,):
            if isinstance(each, Block):
                yield from _blocks(each)


def _called(block):
    words = getattr(block, type(block).called, "") if type(block).called else ""
    return str(words or block.path or "voyage")


@check("dates.in-future", DEFECT, COMMON_PRACTICE)
def what_happened_lies_behind(sight):
    """What is said to have happened lies in the past.

    Why: a service that has not taken place yet makes everything after it look in date; mostly it is a slip of the pen.
    Remedy: correct the year or the month; write it when it has happened.
    """
    for block in _all(sight.vessel):
        for name in _HAPPENED:
            stamp = block.__dict__.get(name)
            if isinstance(stamp, Stamp) and stamp.first_day > sight.as_of:
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


def _signed(vessel):
    named_blocks = [(vessel.checked_aboard, "checked-aboard"), (vessel.approved, "approved")]
    named_blocks += [(drill, f"drill {drill.emergency}") for drill in vessel.drills]
    named_blocks += [(card, f"card {card.station}") for card in vessel.posted]
    return [(block, key) for block, key in named_blocks if block]


@check("dates.reversed", DEFECT, COMMON_PRACTICE)
def dates_stand_in_their_order(sight):
    """Dates of one thing stand in their order.

    Why: a thing fitted before it was made, or due before it was last serviced, has a wrong date, and either may be the wrong one.
    Remedy: compare both with label and certificate and correct the wrong one.
    """
    for block in _all(sight.vessel):
        for first, second in _IN_ORDER:
            early, late = block.__dict__.get(first), block.__dict__.get(second)
            if isinstance(early, Stamp) and isinstance(late, Stamp) and early.first_day > late.last_day:
                first_key, second_key = first.replace("_", "-"), second.replace("_", "-")
                yield at(
                    block,
                    second_key,
                    f"{_called(block)}: '{second_key}' ({late}) lies before '{first_key}' ({early})",
                    item=_called(block),
                    also=(block.place(first_key),),
                )


@check("dates.soon", RECOMMENDATION, "ready notice of 30 and 90 days, our own choice")
def nothing_runs_out_soon(sight):
    """Nothing runs out within the next weeks.

    Why: stations and chandlers need time; the day it runs out the manual is no longer good.
    Remedy: order or book it now; write the new date when it is aboard.
    """
    for each in deadlines(sight.vessel):
        if not each.routine and sight.until <= each.last_day <= sight.lead_day:
            days = (each.last_day - sight.until).days
            urgent = ": order it or book the service today" if days <= SOON_DAYS else ""
            yield Found(
                each.place,
                f"{good(each, sight)}, only {span(sight.until, each.last_day)} beyond {sight.until}{urgent}",
                item=each.item,
            )
