"""Values that remember how they were written: quantities in SI, dates to the month or day, and what is not known."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from typing import Literal, Self, TypeVar

from generator.calc.expiry import last_of_month
from generator.reading.findings import Place

V = TypeVar("V")
T = TypeVar("T")


class Keyed(dict[str, V]):
    """Values by name; `places` says where each name stands."""

    def __init__(self, *given: Mapping[str, V]) -> None:
        super().__init__(*given)
        self.places: dict[str, Place] = {}


class NotKnown:
    """The value of a key that says `unknown` or `private`; false in conditions, never a number."""

    def __init__(self, word: str):
        self.word = word

    def __bool__(self) -> Literal[False]:
        return False

    def __repr__(self) -> str:
        return self.word.upper()

    def __str__(self) -> str:
        return self.word

    def __deepcopy__(self, memo: object) -> Self:
        """Itself, for it never changes."""
        return self


BASES = ("label", "certificate", "measured", "assumed")  # what a value may say it comes from
FREED = "guests"  # for whom a value may be freed that they do not see else
UNKNOWN = NotKnown("unknown")
PRIVATE = NotKnown("private")
UNREAD = NotKnown("unknown")
"""What stands there is no value of its field, and is told: nobody asks again."""
Given = str | NotKnown | None
"""What a field of words gives: the words, or that they are not known, or that the key is not there."""


def sure(value: T | NotKnown | None) -> T:
    """A value that the reader has made sure of; LookupError where it is absent or not known all the same."""
    if value is None or isinstance(value, NotKnown):
        raise LookupError("a value that must be there is not")
    return value


class Quantity(float):
    """A number in SI with the unit it was written in; `written` is the skipper's own text."""

    __slots__ = ("unit", "written")

    unit: str
    written: str

    def __new__(cls, value: float, written: str = "", unit: str = "") -> Self:
        """The figure in SI, the words and the unit it was written with."""
        made = super().__new__(cls, value)
        made.written = written or f"{value:g}"
        made.unit = unit
        return made

    def __deepcopy__(self, memo: object) -> Self:
        """Itself, for it never changes."""
        return self

    def __str__(self) -> str:
        return self.written


class Counted(str):
    """A word, and how many of what it names are meant: None for all of it, UNKNOWN where the file says so."""

    __slots__ = ("number",)

    number: int | NotKnown | None

    def __new__(cls, word: str, number: int | NotKnown | None = None) -> Self:
        """The word with its number."""
        made = super().__new__(cls, word)
        made.number = number
        return made

    def __deepcopy__(self, memo: object) -> Self:
        """Itself, for it never changes."""
        return self


class Band(tuple[float, float]):  # noqa: SLOT001 - a tuple has room for no slots
    """A lowest and a highest value in SI."""

    written: str = ""

    def __new__(cls, low: float, high: float, written: str = "") -> Self:
        """Both figures in SI, and the words they were written with."""
        made = super().__new__(cls, (low, high))
        made.written = written
        return made

    def __deepcopy__(self, memo: object) -> Self:
        """Itself, for it never changes."""
        return self

    def __str__(self) -> str:
        return self.written


class Stamp:
    """A date as marked: to the day, or to the month (then good to the month's last day).

    `last_day` is the last day on which it is still good; `stamp` the marking as read on the device, or "".
    """

    __slots__ = ("_last_day", "day", "first_day", "month", "stamp", "year")
    year_alone = False

    def __init__(self, year: int, month: int, day: int | None = None, stamp: str = ""):
        self.year, self.month, self.day, self.stamp = year, month, day, stamp
        self.first_day = date(year, month, day or 1)
        """The earliest day the marking can mean."""
        self._last_day = self.first_day if day else None

    @property
    def last_day(self) -> date:
        """The latest day the marking can mean."""
        if self._last_day is None:
            self._last_day = last_of_month(self.first_day)
        return self._last_day

    @property
    def when(self) -> str:
        """The date with its preposition, as findings say it: "on 2026-05-19", "in 2026-05"."""
        return f"on {self}" if self.day else f"in {self}"

    @property
    def exact(self) -> bool:
        """Whether a day is given."""
        return self.day is not None

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Stamp) and (self.year, self.month, self.day) == (
            other.year,
            other.month,
            other.day,
        )

    def __hash__(self) -> int:
        return hash((self.year, self.month, self.day))

    def __str__(self) -> str:
        return self.first_day.isoformat() if self.day else self.first_day.isoformat()[:7]

    def __deepcopy__(self, memo: object) -> Self:
        """Itself, for it never changes."""
        return self


def untold(value: object) -> bool:
    """Whether the file leaves a value open: its key is not there, or says unknown. What is private is told."""
    return value is None or value is UNKNOWN


def given(value: V | NotKnown | None, otherwise: V) -> V:
    """A value that is given and known, else `otherwise`."""
    return otherwise if value is None or isinstance(value, NotKnown) else value


def known(value: V | NotKnown | None) -> V | None:
    """A value if it is given and known, else None."""
    return None if isinstance(value, NotKnown) else value


def all_known(values: Iterable[V | NotKnown | None]) -> list[V] | None:
    """The values if every one of them is given and known, else None."""
    found = [known(value) for value in values]
    sure = [value for value in found if value is not None]
    return sure if len(sure) == len(found) else None
