"""Text as it is shown on a terminal, in tables and reports: nothing in it moves the cursor, hides, or begins a line or cell of its own."""

from __future__ import annotations

import re
import unicodedata

_HIDDEN = {"Cc", "Cf", "Cs", "Zl", "Zp"}
"""Unicode's general categories of control and format characters, halves of characters, separators of lines and paragraphs."""
_FORMULA = "=+\\-@\N{FULLWIDTH EQUALS SIGN}\N{FULLWIDTH PLUS SIGN}\N{FULLWIDTH HYPHEN-MINUS}\N{FULLWIDTH COMMERCIAL AT}"
_COLOUR = re.compile(r"(\x1b\[(?:0|33|36|1;31)m)")
_CELLS = re.compile(rf"(^|;)([\s'\"]*)(?=[{_FORMULA}])")


def visible(text: str) -> str:
    r"""The text in one line: what no reader could see stands as its code, `\x1b`, `\n`, `\u202e`; a byte that is no text too.

    >>> visible("tern\x1b[2J\nvessels/x: published")
    'tern\\x1b[2J\\nvessels/x: published'
    """
    if text.isprintable():
        return text
    return "".join(_code(letter) if unicodedata.category(letter) in _HIDDEN else letter for letter in text)


def visible_lines(text: str) -> str:
    """The same of text that is laid out in lines of its own."""
    return "\n".join(visible(line) for line in text.split("\n"))


def cell(text: str) -> str:
    """The same for a cell of a table: no spreadsheet takes it, or what follows a semicolon in it, for a formula.

    >>> cell("x;=1+1")
    "x;'=1+1"
    """
    return _CELLS.sub(r"\1\2'", visible(text))


def _code(letter: str) -> str:
    number = ord(letter)
    if letter in "\n\r\t":
        return {"\n": "\\n", "\r": "\\r", "\t": "\\t"}[letter]
    if 0xDC80 <= number <= 0xDCFF:  # a byte of a file's name that is not UTF-8
        return f"\\x{number - 0xDC00:02x}"
    return (
        f"\\x{number:02x}"
        if number < 0x100
        else f"\\u{number:04x}"
        if number < 0x10000
        else f"\\U{number:08x}"
    )


def spoken(text: str) -> str:
    """The same of what goes to a terminal: its lines stay, and the colours that weights of findings have there."""
    if text.replace("\n", "").isprintable():
        return text
    return "".join(
        part if _COLOUR.fullmatch(part) else visible_lines(part) for part in _COLOUR.split(text) if part
    )
