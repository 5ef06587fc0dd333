"""Lists in one line: words with how many of each are meant, [skipper, guests: 6]; values in a row that stand as one."""

from __future__ import annotations

import re
from typing import Unpack

from generator.reading.fields import Misread, Options, Schema, Single, T, Texts
from generator.reading.measures import Count


class Shares(Texts):
    """A list of words, each alone or with its number as `word: number`."""

    def __init__(self, question: str, number: Count, **options: Unpack[Options]):
        super().__init__(question, **options)
        self.number = number

    def schema(self) -> Schema:
        """A list of words and numbered words, or one of them."""
        one = self.of.schema()
        number = {"anyOf": [self.number.schema(), {"const": "unknown"}]}
        numbered = {"type": "object", "minProperties": 1, "additionalProperties": number}
        either = {"anyOf": [one, numbered]}
        return {"anyOf": [{"type": "array", "minItems": 1, "maxItems": self.most, "items": either}, either]}


def word_and_number(text: str) -> tuple[str, str]:
    """A word and the number behind its colon, as one line says them: "guests: 6"; the number is "" where there is none."""
    said = re.fullmatch(r"(.*\S)\s*:\s*([0-9]+)", text)
    return (said[1], said[2]) if said else (text, "")


def in_a_row(of: Single[T], text: str) -> list[T]:
    """The values of a text that names several in a row, as a choice or a number never does; none where one of them is none."""
    if not of.choices and not isinstance(of, Count):
        return []
    parts = re.split(r"\s*,\s*(?:and\s+)?|\s+and\s+", text.strip())
    if len(parts) == 1 or text.strip() in (of.choices or ()):
        return []
    try:
        return [of.read(part) for part in parts]
    except Misread:
        return []
