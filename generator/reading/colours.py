"""Colours as they are written in a file: six hexadecimal digits, as every drawing program shows them."""

from __future__ import annotations

import re

from generator.reading.fields import Misread, Schema, Single
from generator.reading.nearest import shortened

_WRITTEN = re.compile(r"#?([0-9A-Fa-f]{6})")


class Colour(Single[str]):
    """A colour of the screen (sRGB): red, green and blue, two hexadecimal digits each, with or without # before them."""

    kind = "colour"
    usual = '"#5b2a86"'

    def read(self, text: str) -> str:
        """The six digits in small letters, with # before them."""
        match = _WRITTEN.fullmatch(text)
        if match is None:
            raise Misread(
                f"'{shortened(text)}' is no colour",
                f"write its six digits as a drawing program shows them, in quotes if # stands before them: {self.usual}",
            )
        return f"#{match[1].lower()}"

    def schema(self) -> Schema:
        """Six digits or, where editors take them for one, a number."""
        return {
            "anyOf": [
                {"type": "string", "pattern": "^#?[0-9A-Fa-f]{6}$"},
                {"type": "integer", "minimum": 0, "maximum": 999999},
            ]
        }


def parts_of(colour: str) -> tuple[int, int, int]:
    """Red, green and blue of a colour as Colour gives it, each from 0 to 255."""
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)
