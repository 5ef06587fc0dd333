"""Words of a list as people elsewhere have them: kerosene is paraffin."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Unpack

from generator.reading.fields import Choice, Options, Schema, Words
from generator.reading.nearest import folded


class Renamed(Choice):
    """A choice whose words have other names too: `also` has them, each with the word of the list that it means."""

    def __init__(self, question: str, choices: Words, *, also: Mapping[str, str], **options: Unpack[Options]):
        super().__init__(question, choices, **options)
        self.also = also

    def read(self, text: str) -> str:
        """The word as listed."""
        for said, meant in self.also.items():
            if folded(said) == folded(text):
                return meant
        return super().read(text)

    def schema(self) -> Schema:
        """The list of words, and their other names."""
        return {"enum": [*self.choices, *self.also]}
