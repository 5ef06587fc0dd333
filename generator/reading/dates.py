"""Dates as they are typed: read where they can mean one day or month only, else told how to write them."""

from __future__ import annotations

import re

from generator.reading.values import Stamp

_MONTHS = (
    "january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december",
)  # fmt: skip
_AS_FILES_HAVE_IT = re.compile(r"([0-9]{4})-([0-9]{2})(?:-([0-9]{2}))?")
_LONGEST = 60
_LIKE = "write year-month or year-month-day: 2026-05 or 2026-05-20"


def read(text: str) -> Stamp:
    """The date of year-month or year-month-day, or of what can mean one date only (March 2027, 31/03/2027).

    Raises ValueError(message, remedy) for everything else.
    """
    match = _AS_FILES_HAVE_IT.fullmatch(text)
    if not match and len(text) <= _LONGEST and len(meant := _meanings(text)) == 1:
        match = _AS_FILES_HAVE_IT.fullmatch(meant[0])
    if not match:
        raise ValueError(*_told(text if len(text) <= _LONGEST else f"{text[:_LONGEST]} ..."))
    year, month, day = int(match[1]), int(match[2]), int(match[3]) if match[3] else None
    if not 1900 <= year <= 2099:
        raise ValueError(f"the year of {text} is outside what can be: 1900 to 2099", _LIKE)
    if not 1 <= month <= 12:
        raise ValueError(f"there is no month {match[2]} in {text}", _LIKE)
    try:
        return Stamp(year, month, day)
    except ValueError:
        raise ValueError(
            f"there is no day {text}", "look at the day again, or write the month alone: " + text[:7]
        ) from None


def _told(text: str) -> tuple[str, str]:
    """What is wrong with text that may be meant as a date, and how to write what it may mean."""
    meant = _meanings(text)
    if len(meant) > 1:
        return (
            f"'{text}' can be read as more than one date",
            f"write {' or '.join(meant)}, whichever is meant",
        )
    if re.fullmatch(r"[0-9]{1,4}[./ -][0-9]{1,2}([./ -][0-9]{1,4})?", text):
        return f"'{text}' can be read as more than one date", _LIKE
    return f"'{text}' is not a date", _LIKE


def _meanings(text: str) -> list[str]:
    """The dates that a skipper may have meant, written as a vessel file has them."""
    parts = [
        re.sub(r"(?<=[0-9])(?:st|nd|rd|th)$", "", part)
        for part in re.split(r"[\s./,-]+", text.lower())
        if part
    ]
    word = next((part for part in parts if _month(part)), None)
    figures = [part for part in parts if part != word]
    if not all(re.fullmatch(r"[0-9]{1,4}", part) for part in figures):
        return []
    year = next((part for part in figures if len(part) == 4), None)
    if year is None:
        return []
    first = figures.index(year) == 0
    figures.remove(year)
    rest = [int(part) for part in figures]
    if word:
        rest = [rest[0], _month(word)] if rest else [_month(word)]
    if len(rest) == 1:
        orders: list[tuple[int, int | None]] = [(rest[0], None)]
    elif len(rest) == 2:
        orders = (
            [(rest[1], rest[0])]
            if word
            else [(rest[0], rest[1])]
            if first
            else [(rest[1], rest[0]), (rest[0], rest[1])]
        )
    else:
        return []
    return list(dict.fromkeys(text for month, day in orders if (text := _dated(int(year), month, day))))


def _month(word: str) -> int:
    """The number of a month by its name, in full or shortened to three letters or more; 0 of any other word."""
    return next(
        (number for number, name in enumerate(_MONTHS, 1) if len(word) >= 3 and name.startswith(word)), 0
    )


def _dated(year: int, month: int, day: int | None) -> str:
    try:
        return str(Stamp(year, month, day)) if 1900 <= year <= 2099 else ""
    except ValueError:
        return ""
