"""Shares: words of which a number may say how many are meant, where each stands for several: [skipper, guests: 6]."""

from __future__ import annotations

import re
from typing import Unpack

from generator.reading.fields import Options, Schema, Texts
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
