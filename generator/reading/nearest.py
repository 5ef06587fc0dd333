"""What a misspelt word may mean, as remedies say it."""

from __future__ import annotations

import difflib
import functools
import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Sequence

_ALIKE, _SURELY, _AS_NEAR = (
    0.6,
    0.85,
    0.02,
)  # how alike a slip may be; and where its first letter differs; what is equally so
_SMALL = 2  # words of so few letters say nothing: of, at, to
_MOST_NEAR = 3
MOST_LISTED = 40
"""More words than these are not listed in a message: nobody reads on to the end."""


_APART = (frozenset(("port", "starboard")), frozenset(("forward", "aft")))


def at_the_other_side(said: str, word: str) -> bool:
    """Whether a word names the side or end opposite to the one that `said` names: never a slip for it, whatever else is alike."""
    told, other = (set(_parts(folded(each))) for each in (said, word))
    return any(len(told & pair) == 1 and other & pair == pair - told for pair in _APART)


def alike(text: str, words: Iterable[str]) -> list[str]:
    """The few of many words that `text` may mean: the nearest, and those that begin with it, as 'raft' begins 'raft.capacity'."""
    named = {folded(word): word for word in words if not at_the_other_side(text, word)}
    close = difflib.get_close_matches(folded(text)[:80], list(named), n=5, cutoff=_ALIKE)
    begin = [each for each in named if len(text) > 2 and each.startswith(folded(text))]
    return [named[each] for each in dict.fromkeys((*close, *begin))][:MOST_LISTED]


def near(text: str, words: Iterable[str]) -> list[str]:
    """The words that `text` most likely means, all that are equally near; none where nothing speaks for any, or for many alike.

    A word that is one of theirs is no slip for another: 'outboard petrol' is an outboard and no inboard petrol, 'on deck' not
    'below deck' alone. A number is no slip for another number either.
    """
    said = folded(text)
    named = {folded(word): word for word in words if not at_the_other_side(text, word)}
    if not said or len(text) >= 80:
        return []
    if same := [each for each in named if each.replace(" ", "") == said.replace(" ", "")]:
        return [named[same[0]]]
    told, parts = set(_parts(said)), {each: set(_parts(each)) for each in named}
    whole = [each for each in named if parts[each] <= told and any(map(str.isalpha, parts[each]))]
    if whole:
        return _few([named[each] for each in whole if not any(parts[each] < parts[other] for other in whole)])
    kept = {part for part in told & set().union(*parts.values()) if _says_something(part)}
    if kept:
        rest = {part for part in told - kept if _says_something(part)}
        found = [each for each in named if kept <= parts[each] and _all_slips(rest, parts[each] - kept)]
    else:
        found = _closest(said, [each for each in named if _numbers(told) <= _numbers(parts[each])])
    return _few([named[each] for each in found])


def _says_something(part: str) -> bool:
    return part.isdigit() or len(part) > _SMALL


def _all_slips(told: Iterable[str], parts: Iterable[str]) -> bool:
    """Whether each of the words told may be a slip for one of those."""
    parts = list(parts)
    return all(_closest(each, parts) for each in told)


def _closest(said: str, words: Iterable[str]) -> list[str]:
    """The words nearest to `said` by their letters, of which the first is seldom mistaken; a number is none."""
    close: dict[str, float] = {}
    for each in words:
        like = difflib.SequenceMatcher(None, each, said).ratio()
        if like >= (_ALIKE if each[:1] == said[:1] else _SURELY) and not said.isdigit():
            close[each] = like
    best = max(close.values(), default=0.0)
    return [each for each, like in close.items() if best - like < _AS_NEAR]


def _parts(text: str) -> list[str]:
    return re.findall(r"[^\W\d_]+|[0-9]+", text)


def _numbers(parts: Iterable[str]) -> set[str]:
    return {part for part in parts if part.isdigit()}


def _few(found: list[str]) -> list[str]:
    return found if len(found) <= _MOST_NEAR else []


def meant(text: str, words: Iterable[str]) -> str:
    """The one of the words that `text` most likely means; "" where none is near, or several are equally so."""
    words = [str(word) for word in words]
    if len(words) > MOST_LISTED:
        return next(iter(alike(text, words)), "")
    found = near(text, words)
    return found[0] if len(found) == 1 else ""


def nearest(text: str, words: Iterable[str], taken: Collection[str] = ()) -> str:
    """What to write instead of `text`: the nearest word, those that are equally near, or all there are.

    What is `taken`, as it stands beside already, is listed and never proposed.
    """
    words = [str(word) for word in words]
    if len(words) > MOST_LISTED:
        first, *others = alike(text, words) or [""]
        if not first:
            return "look it up: musterbook keys, or musterbook why --all"
        return f"write {first}?" + (f" (or one of: {', '.join(others)})" if others else "")
    found = near(text, [word for word in words if word not in taken])
    listed = ", ".join(words)
    if not words:
        return "there is nothing of this kind to name: write that first, or remove this"
    if not found:
        return f"write one of: {listed}"
    write = f"write {either(found)}?"
    return f"{write} (or one of: {listed})" if len(words) > 8 else f"{write} (it takes: {listed})"


def either(words: Sequence[str]) -> str:
    """Words of which one is to be chosen: this, that or the other."""
    return " or ".join(filter(None, (", ".join(words[:-1]), *words[-1:])))


def shortened(text: str, most: int = 60) -> str:
    """Text as findings quote it: in one line, cut after `most` letters."""
    text = " ".join(text.split())
    return text if len(text) <= most else f"{text[:most]} ..."


_ADDED = re.compile(r"[\s_-]+")


@functools.lru_cache(maxsize=8192)
def folded(text: str) -> str:
    """Text without what hands add to it: capitals, underscores, hyphens and blanks in a row."""
    return _ADDED.sub(" ", text.strip().lower())
