"""Times of day: 00:00 to 24:00."""

from __future__ import annotations

import re

from generator.reading.fields import Misread, Schema, Single
from generator.reading.nearest import shortened

DAY_MIN = 24 * 60


class Clock(int):
    """A time of day in minutes since midnight, 0 to 1440; printed as on a clock."""

    def __str__(self) -> str:
        return f"{self // 60:02}:{self % 60:02}"


class TimeOfDay(Single[Clock]):
    """A time of day on a clock of 24 hours."""

    kind = "time of day"
    usual = "20:00"

    def read(self, text: str) -> Clock:
        """The time; a point or an h between hours and minutes is told, not guessed."""
        found = re.fullmatch(r"([0-9]{1,2}):([0-5][0-9])", text)
        if not found:
            raise Misread(
                f"'{shortened(text)}' is not a time of day", "write hours and minutes on 24 hours: 20:00"
            )
        minutes = int(found[1]) * 60 + int(found[2])
        if minutes > DAY_MIN:
            raise Misread(f"{text} is outside what can be: 00:00 to 24:00", "write it on a clock of 24 hours")
        return Clock(minutes)

    def schema(self) -> Schema:
        """Text; editors of the older YAML turn it into a number of minutes."""
        text = {"type": "string", "pattern": "^[0-9]{1,2}:[0-5][0-9]$"}
        return {"anyOf": [text, {"type": "integer", "minimum": 0, "maximum": DAY_MIN}]}
