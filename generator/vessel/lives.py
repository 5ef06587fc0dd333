"""How long a thing lasts by its own maker, and dates marked with the year alone."""

from datetime import date

from generator.reading.block import Block
from generator.reading.fields import NEEDED, OPEN, Choice, Dated, Many, Misread, Schema, Text
from generator.reading.measures import Measure
from generator.reading.values import Stamp

# The dates a life may be counted from, as the keys of the blocks name them.
SINCE = (
    "made",
    "fitted",
    "replaced",
    "tested",
    "last-service",
    "last",
    "hose-made",
    "hose-fitted",
    "regulator-made",
    "battery-replaced",
    "release-fitted",
)


class YearStamp(Stamp):
    """A date marked with its year alone: good to the year's end."""

    __slots__ = ()
    year_alone = True

    def __init__(self, year: int, stamp: str = ""):
        super().__init__(year, 12, None, stamp)
        self.first_day = date(year, 1, 1)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, YearStamp) and self.year == other.year

    def __hash__(self) -> int:
        return hash((self.year, None))

    def __str__(self) -> str:
        return f"{self.year:04}"


class Made(Dated):
    """A date to the day, the month or, as on some extinguishers, the year alone."""

    kind = "date or year"
    usual = "2026-05, or the year alone"

    def read(self, text: str) -> Stamp:
        """The date as marked."""
        if len(text) == 4 and text.isascii() and text.isdigit():
            if not 1950 <= int(text) <= 2099:
                raise Misread(
                    f"the year {text} is outside what can be: 1950 to 2099",
                    "write the year as it is stamped, in four digits",
                )
            return YearStamp(int(text))
        return super().read(text)

    def schema(self) -> Schema:
        """A day, a month or a year; editors turn a year into a number."""
        return {
            "anyOf": [
                {"type": "string", "pattern": "^(19|20)[0-9]{2}(-[0-9]{2}(-[0-9]{2})?)?$"},
                {"type": "integer", "minimum": 1950, "maximum": 2099},
            ]
        }


class Life(Block):
    """How long the maker of this very thing says it lasts; it stands in for what is usual for its kind."""

    called = "from"
    from_ = Choice("Counted from which of its dates?", SINCE, required=True, unknown=NEEDED)
    life = Measure(
        "How long?",
        "duration",
        low=1,
        high=600,
        why="from a month to fifty years",
        required=True,
        unknown=NEEDED,
        example="48 months",
    )
    source = Text(
        "Where does it say so?", required=True, unknown=NEEDED, example="the maker's manual, page 12"
    )


def own_lives() -> Many[Life]:
    """The key `lives`, for every block of a thing that ages."""
    return Many(
        Life,
        "How long does its own maker say that it lasts, if that is not what is usual?",
        unknown=OPEN,
        most=12,
    )
