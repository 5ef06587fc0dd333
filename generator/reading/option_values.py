"""What is written behind an option, read: a day, a span of days, a number of vessels."""

from datetime import date

from generator.reading.visible import visible

YEARS = range(1900, 2100)
"""The years that can be meant, as in a vessel's file."""


def day(text: str) -> date:
    """A day written like 2026-05-20, within `YEARS`. Raises ValueError."""
    try:
        read = date.fromisoformat(text)
    except ValueError:
        raise ValueError(f"'{visible(text)}' is no day; write it like 2026-05-20") from None
    if read.year not in YEARS:
        raise ValueError(f"the year of {read} is outside what can be: {YEARS[0]} to {YEARS[-1]}")
    return read


def count(text: str) -> int:
    """How many, from 1 to 9,999. Raises ValueError."""
    if not (text.isascii() and text.isdigit() and 0 < int(text[:9]) < 10_000):
        raise ValueError(f"'{visible(text)}' is no number of vessels; write it like 12")
    return int(text)


def span(text: str) -> int | None:
    """Days of "90d", "12w", "6m" (months of 30 days) or "90"; None for "all". Raises ValueError."""
    if text == "all":
        return None
    figure, unit = (text[:-1], text[-1]) if text[-1:] in ("d", "w", "m") else (text, "d")
    if not (figure.isascii() and figure.isdigit() and len(figure) < 5):
        raise ValueError(f"'{visible(text)}' is no span of time; write it like 90d, 12w, 6m, or all")
    return int(figure) * {"d": 1, "w": 7, "m": 30}[unit]
