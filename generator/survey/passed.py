"""What has run out, or runs out before the end of the passage: the words of every check that speaks for a date."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.survey.registry import Finds, Found, Sight

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from generator.manual.deadlines import Deadline


def passed(sight: Sight, check: str) -> Finds:
    """What the check `check` speaks of whose last good day lies before the day everything must be good through."""
    for each in sight.near:
        if each.check == check and each.last_day < sight.until:
            yield Found(
                each.place,
                f"{good(each, sight)}{_over(each, sight)}{_governed(each)}",
                item=each.item,
                about=each.thing.block,
            )


def overdue(sight: Sight, check: str) -> Iterator[Deadline]:
    """What the check `check` speaks of that was to be done again before the as-of day."""
    return (each for each in sight.near if each.check == check and each.last_day < sight.as_of)


def good(deadline: Deadline, sight: Sight) -> str:
    """Until when something is good: "Main raft: service is good until ..."; without a verb where several things may be meant."""
    if not deadline.firm:
        return f"{deadline.item}: its {deadline.what} ends on {deadline.last_day}"
    verb = ("was " if deadline.last_day < sight.as_of else "is ") if deadline.what else ""
    named = f"{deadline.item}: {deadline.what}" if deadline.what else f"{deadline.item}:"
    return f"{named} {verb}good until {deadline.last_day}"


def _over(deadline: Deadline, sight: Sight) -> str:
    if deadline.last_day < sight.as_of:
        return f"{' and is' if deadline.what else ','} {span(deadline.last_day, sight.as_of)} overdue"
    return f", {span(deadline.last_day, sight.until)} short of {sight.until}, the day to last to"


def _governed(deadline: Deadline) -> str:
    return f"; what counts is: {deadline.governs} ({deadline.stamp})" if deadline.governs else ""


def span(first: date, last: date) -> str:
    """The time between two days in words: days while there are fewer than two whole months, then months.

    >>> span(date(2025, 5, 31), date(2026, 7, 1)), span(date(2026, 5, 31), date(2026, 6, 1))
    ('13 months', '1 day')
    >>> span(date(2026, 7, 15), date(2026, 9, 14)), span(date(2025, 12, 31), date(2026, 3, 3))
    ('61 days', '2 months')
    """
    days = (last - first).days
    if days < 62:
        return f"{days} day{'' if days == 1 else 's'}"
    months = (last.year - first.year) * 12 + last.month - first.month - (last.day < first.day)
    return f"{months} months"
