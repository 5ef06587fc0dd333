"""What a misspelt word may mean, as remedies say it."""

from __future__ import annotations

import difflib
import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

MOST_LISTED = 40
"""More words than these are not listed in a message: nobody reads on to the end."""


def alike(text: str, words: Iterable[str]) -> list[str]:
    """The few of many words that `text` may mean: the nearest, and those that begin with it, as 'raft' begins 'raft.capacity'."""
    named = {folded(word): word for word in words}
    close = difflib.get_close_matches(folded(text)[:80], list(named), n=5, cutoff=0.6)
    begin = [each for each in named if len(text) > 2 and each.startswith(folded(text))]
    return [named[each] for each in dict.fromkeys((*close, *begin))][:MOST_LISTED]


def meant(text: str, words: Iterable[str]) -> str:
    """The one of the words that `text` most likely means; "" where none is near."""
    words = [str(word) for word in words]
    if len(words) > MOST_LISTED:
        return next(iter(alike(text, words)), "")
    if len(text) >= 80:
        return ""
    close = difflib.get_close_matches(folded(text), [folded(word) for word in words], n=1, cutoff=0.6)
    return next((word for word in words if close and folded(word) == close[0]), "")


def nearest(text: str, words: Iterable[str]) -> str:
    """What to write instead of `text`: the nearest word, or all there are."""
    words = [str(word) for word in words]
    if len(words) > MOST_LISTED:
        first, *others = alike(text, words) or [""]
        if not first:
            return "look it up: musterbook keys, or musterbook why --all"
        return f"write {first}?" + (f" (or one of: {', '.join(others)})" if others else "")
    word = meant(text, words)
    listed = ", ".join(words)
    if not words:
        return "there is nothing of this kind to name: write that first, or remove this"
    if not word:
        return f"write one of: {listed}"
    return f"write {word}? (or one of: {listed})" if len(words) > 8 else f"write {word}? (it takes: {listed})"


def shortened(text: str, most: int = 60) -> str:
    """Text as findings quote it: in one line, cut after `most` letters."""
    text = " ".join(text.split())
    return text if len(text) <= most else f"{text[:most]} ..."


def folded(text: str) -> str:
    """Text without what hands add to it: capitals, underscores, hyphens and blanks in a row."""
    return re.sub(r"[\s_-]+", " ", text.strip().lower())
