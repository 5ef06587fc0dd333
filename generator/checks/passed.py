"""What has run out, or runs out before the end of the passage: the words of every check that speaks for a date."""

from __future__ import annotations

from datetime import date
from functools import lru_cache

from generator.checks.registry import Found
from generator.deadlines import deadlines_of


@lru_cache(maxsize=4)
def deadlines(vessel) -> tuple:
    """The deadlines of a vessel, worked out once for all checks that ask."""
    return deadlines_of(vessel)


def passed(sight, check: str):
    """What the check `check` speaks of whose last good day lies before the day everything must be good through."""
    for each in deadlines(sight.vessel):
        if each.check == check and each.last_day < sight.until:
            yield Found(each.place, f"{named(each)} {_over(each.last_day, sight)}{_governed(each)}", item=each.item)


def named(deadline) -> str:
    """Item and what of it falls due, in words."""
    return f"{deadline.item}: {deadline.what}" if deadline.what else deadline.item


def _over(last_day: date, sight) -> str:
    if last_day < sight.as_of:
        return f"was good until {last_day} and is {span(last_day, sight.as_of)} overdue"
    return f"is good until {last_day}, {span(last_day, sight.until)} short of {sight.until}, the day it must last to"


def _governed(deadline) -> str:
    return f"; what counts is: {deadline.governs} ({deadline.stamp})" if deadline.governs else ""


def span(first: date, last: date) -> str:
    """The time between two days in words: days up to two months, then whole months.

    >>> span(date(2025, 5, 31), date(2026, 7, 1)), span(date(2026, 5, 31), date(2026, 6, 1))
    ('13 months', '1 day')
    """
    days = (last - first).days
    if days < 60:
        return f"{days} day{'' if days == 1 else 's'}"
    months = (last.year - first.year) * 12 + last.month - first.month - (last.day < first.day)
    return f"{months} months"
