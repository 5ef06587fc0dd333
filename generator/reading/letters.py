"""The letters of a text as typed: what no page has room for, line breaks, quotes of the wrong kind. Each is told as (what, remedy)."""

from __future__ import annotations

import re

from generator.reading.nearest import shortened

LONGEST, LONGEST_WORD = 500, 60
OPENING = ("“", "”", "„", "‘")
_CLOSING, _CURLY = ("“", "”", "’"), re.compile("[“”„]")


def unfit(
    text: str, longest: int = LONGEST, longest_word: int = LONGEST_WORD, one_line: bool = True
) -> tuple[str, str] | None:
    """Why no page has room for a text, or how it would begin lines of its own; None where it is fit to be printed."""
    if one_line and "\n" in text:
        return (
            "a line break stands in this value",
            "write it in one line (after '>', not '|', it may run on below)",
        )
    if len(text) > longest:
        return f"{len(text):,} letters stand here, and {longest:,} are the most", "write it shorter"
    word = max(map(len, text.split()), default=0)
    if word > longest_word:
        return (
            f"a word of {word:,} letters stands here, and {longest_word} are the most",
            "part it with blanks",
        )
    return None


def curly(text: str) -> tuple[str, str] | None:
    """Curly quotes round a value in place of straight ones; None where there are none."""
    if text[:1] in OPENING and text[-1:] in _CLOSING and not _CURLY.search(text, 1, len(text) - 1):
        return (
            f"{shortened(text)} stands in curly quotes",
            f'write it without quotes or with straight ones: "{shortened(text[1:-1])}"',
        )
    return None
