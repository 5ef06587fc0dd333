"""Dates: until when a thing is good, and which of its dates governs."""

from __future__ import annotations

import calendar
from datetime import date


def add_months(day: date, months: int) -> date:
    """The same day of the month `months` later, clamped to that month's last day.

    Source: handbook convention, stated as our rule; worked case 31 August 2022 + 42 months (the life of a US flare,
    46 CFR 160.036-5) falls into February 2026.

    >>> add_months(date(2022, 8, 31), 42)
    datetime.date(2026, 2, 28)
    """
    if months < 0:
        raise ValueError(f"months must be 0 or more, got {months}")
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    return date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))


def last_of_month(day: date) -> date:
    """The last day of the month of `day`: a date marked to the month only is good until then.

    Source: USP labelling convention for expiration dates given as a month.

    >>> last_of_month(date(2026, 9, 1))
    datetime.date(2026, 9, 30)
    """
    return date(day.year, day.month, calendar.monthrange(day.year, day.month)[1])


def months_later(first: date, exact: bool, months: int) -> date:
    """The last good day of something dated `first` with a life of `months`.

    `exact` is False where only the month is known; the result is then that month's last day.
    """
    later = add_months(first, months)
    return later if exact else last_of_month(later)


def governing(candidates: list[tuple[str, date]]) -> tuple[str, date] | None:
    """The earliest of named dates, (name, last good day); of equal dates the first named. None without candidates.

    >>> governing([("marked expiry", date(2027, 9, 30)), ("made and 4 years", date(2026, 1, 31))])
    ('made and 4 years', datetime.date(2026, 1, 31))
    """
    return min(candidates, key=lambda each: each[1]) if candidates else None
