"""What an editor does not show: characters that nobody sees, each told and taken for a blank."""

from __future__ import annotations

import re

from generator.reading.complaints import BREAK, refuse
from generator.reading.findings import Finding
from generator.reading.nodes import Source

# What an editor does not show: control and formatting characters, other line breaks, what stands for a lost character.
UNSEEN = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u00ad\u0600-\u0605\u061c\u06dd\u070f\u0890\u0891\u08e2\u180e\u200b-\u200f\u2028-\u202e"
    "\u2060-\u206f\ufeff\ufff9-\uffff\U000110bd\U000110cd\U00013430-\U0001343f\U0001bca0-\U0001bca3\U0001d173-\U0001d17a"
    "\U000e0000-\U000e007f]"
    "|^[ ]*[\u00a0\u2000-\u200a\u202f\u3000]+",
    re.MULTILINE,
)
_UNSEEN_LIMIT = 100
_BLANKS = "\u00a0\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u3000"


def without_unseen(text: str, source: Source, findings: list[Finding]) -> str:
    """The text with a blank for each character that nobody sees, each of them told."""

    def told(match: re.Match[str]) -> str:
        row = match[0]
        if len(findings) < _UNSEEN_LIMIT:
            line, column = line_and_column(text, match.end() - 1)
            letter = row[-1]
            indents = len(row) > 1 or letter in _BLANKS
            what = (
                "the line is indented with a blank that is no plain space"
                if indents
                else "a character was lost here"
                if letter == "\ufffd"
                else f"an invisible character stands here (U+{ord(letter):04X})"
            )
            findings.append(refuse(source, line, column, what, "delete it and type it anew"))
        return " " * len(row)

    return UNSEEN.sub(told, text)


def line_and_column(text: str, at: int) -> tuple[int, int]:
    """Line and column, from 0, of a character of the text."""
    rows = BREAK.split(text[:at])
    return len(rows) - 1, len(rows[-1])
