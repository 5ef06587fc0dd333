"""Dates: until when a thing is good, and which of its dates governs."""

from __future__ import annotations

import calendar
from datetime import date

_DAYS, _FEBRUARY = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31), 2


def add_months(day: date, months: int) -> date:
    """The same day of the month `months` later, clamped to that month's last day.

    Source: handbook convention, stated as our rule; worked case 31 August 2022 + 42 months (the life of a US flare,
    46 CFR 160.036-5) falls into February 2026.

    >>> add_months(date(2022, 8, 31), 42)
    datetime.date(2026, 2, 28)
    """
    if months < 0:
        raise ValueError(f"months must be 0 or more, got {months}")
    return _moved(day, months)


def is_beyond(day: date, since: date, months: int) -> bool:
    """Whether a day lies behind the same day of the month `months` after another.

    >>> is_beyond(date(2026, 3, 1), date(2022, 8, 31), 42), is_beyond(date(2026, 2, 28), date(2022, 8, 31), 42)
    (True, False)
    """
    apart = (day.year - since.year) * 12 + day.month - since.month
    return apart > months or (apart == months and day > add_months(since, months))


def _moved(day: date, months: int) -> date:
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    return date(year, month + 1, min(day.day, _days_in(year, month + 1)))


def _days_in(year: int, month: int) -> int:
    """How many days a month has."""
    return 29 if month == _FEBRUARY and calendar.isleap(year) else _DAYS[month - 1]


def last_of_month(day: date) -> date:
    """The last day of the month of `day`: a date marked to the month only is good until then.

    Source: USP labelling convention for expiration dates given as a month.

    >>> last_of_month(date(2026, 9, 1))
    datetime.date(2026, 9, 30)
    """
    return date(day.year, day.month, _days_in(day.year, day.month))


def last_of_year(day: date) -> date:
    """31 December of the year of `day`: what is marked with its year only, and what a rule lets last to the year's end.

    Source: ACN 002/22 of the US Coast Guard, a disposable extinguisher is out of service on 31 December of the 12th year.

    >>> last_of_year(date(2024, 3, 5))
    datetime.date(2024, 12, 31)
    """
    return date(day.year, 12, 31)


def end_of_life(last: date, exact: bool, months: int, year_end: bool = False) -> date:
    """The last good day of something with a life of `months` from a date whose latest meaning is `last`.

    `exact` is False where only month or year are known: the result is then the last day of its month. With `year_end` it is
    31 December of its year.

    >>> end_of_life(date(2023, 3, 31), False, 42)      # a US flare made in March 2023
    datetime.date(2026, 9, 30)
    >>> end_of_life(date(2012, 12, 31), False, 144)    # an extinguisher stamped 2012
    datetime.date(2024, 12, 31)
    """
    if months < 0:
        raise ValueError(f"months must be 0 or more, got {months}")
    year, month = divmod(last.year * 12 + last.month - 1 + months, 12)
    if year_end:
        return date(year, 12, 31)
    days = _days_in(year, month + 1)
    return date(year, month + 1, min(last.day, days) if exact else days)


def window(due: date, months: int) -> tuple[date, date]:
    """From when until when a service counts as done in time, where a rule allows `months` either side of the day due.

    Source: UK practice for inflatable life-saving appliances of small commercial vessels, one month either side (secondary).

    >>> window(date(2025, 7, 1), 1)
    (datetime.date(2025, 6, 1), datetime.date(2025, 8, 1))
    """
    return _moved(due, -months), add_months(due, months)


def governing(candidates: list[tuple[str, date]]) -> tuple[str, date] | None:
    """The earliest of named dates, (name, last good day); of equal dates the first named. None without candidates.

    >>> governing([("marked expiry", date(2027, 9, 30)), ("made and 4 years", date(2026, 1, 31))])
    ('made and 4 years', datetime.date(2026, 1, 31))
    """
    return min(candidates, key=lambda each: each[1]) if candidates else None
