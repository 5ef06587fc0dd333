"""The tally of a file of a shelf, written anew: for tests that add rows to copies of files, as somebody does who means it."""

from __future__ import annotations

import re
import textwrap
from typing import Any

from generator.shelves.shelf import Shelf, counted

_TALLY = re.compile(r'(?m)^( ?"?tally"?:)\s*(\{[^}]*\})')
WIDTH = 128


def renewed(shelf: Shelf[Any], text: str) -> str:
    """The text of a file with the tally that fits it: keys in their order, new ones behind them where that is none by name."""
    file, _ = shelf.read_text(text, "renewed")
    assert file is not None
    there = counted(file.block)
    tally = _TALLY.search(text)
    assert tally is not None, (
        f"the file has no tally; add: tally: {{{', '.join(f'{key}: {number}' for key, number in there.items())}}}"
    )
    before = re.findall(r'"?([\w-]+)"?: \d+', tally[2])
    keys = [*(key for key in before if key in there), *(key for key in there if key not in before)]
    if before == sorted(before):
        keys.sort()
    quote = '"' if tally[1].endswith('":') else ""
    words = f"{{{', '.join(f'{quote}{key}{quote}: {there[key]}' for key in keys)}}}"
    row = f"{tally[1]} {words}"
    if len(row) > WIDTH:
        # a key stays with its number
        lines = textwrap.wrap(words.replace(": ", ":\0"), WIDTH - 3, break_on_hyphens=False)
        rows = [f"{'   ' if number else '  '}{line}" for number, line in enumerate(lines)]
        row = "\n".join([tally[1], *rows]).replace("\0", " ")
    return text[: tally.start()] + row + text[tally.end() :]
