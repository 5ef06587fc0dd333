"""Likely spaces: which of hers somebody means who names one that she has not, by where it lies and what it is for, then by its letters."""

from __future__ import annotations

import difflib
import re
from typing import TYPE_CHECKING

from generator.reading.nearest import MOST_LISTED, folded
from generator.shelves.spaces import BELOW, DECK

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable

    from generator.manual.drawing.spaces import Space

_MOST = 3
_SLIP, _NEAR = 0.84, 0.75  # how alike a slip of the pen is, and what may be one
_AFT, _FORE, _MIDDLE = (
    0.2,
    0.8,
    0.15,
)  # of the length: the parts called stern and bow; how far from the middle is amidships
_KEPT_IN = re.compile(r"\b(locker|tank|recess|box|gate)(?=s?$)")  # where things are stowed, and nobody stands
_STOWED = frozenset(("locker", "tank", "recess", "box", "gate"))
_SIDE_WORDS = frozenset(("port", "starboard", "on", "the", "at", "in", "of", "side"))
_AFT_WORDS = frozenset(
    ("stern", "aft", "after", "afterdeck", "astern", "quarter", "quarters", "poop", "taffrail")
)
_FORE_WORDS = frozenset(("bow", "bows", "stem", "prow", "fore", "forward", "foredeck"))
_MIDDLE_WORDS = frozenset(("midships", "amidships", "midship", "middle", "waist"))
_STEERED_FROM = frozenset(
    ("helm", "wheel", "wheelhouse", "pilothouse", "bridge", "steering", "tiller", "console", "pilot")
)
_ENGINE_WORDS = frozenset(("engine", "motor", "machinery"))
_BELOW_WORDS = frozenset(("cabin", "cabins", "below", "inside", "saloon", "interior", "berth"))


def likely(where: str, spaces: Collection[Space]) -> list[str]:
    """The few of her spaces that `where` may mean, the likeliest first; none where nothing speaks for any."""
    said = folded(where.partition(",")[0])
    words = [word for word in re.findall(r"[^\W\d_]+", said) if word not in _SIDE_WORDS]
    named = {folded(name): space.name for space in spaces for name in (*space.also, space.name)}
    if slip := _spelt_like(said, named, _SLIP):
        return slip
    if by_place := _by_place(words, spaces):
        return by_place[:_MOST]
    holding = [space.name for space in spaces if words and set(words) <= set(folded(space.name).split())]
    at_a_part = not (_AFT_WORDS | _FORE_WORDS | _MIDDLE_WORDS).isdisjoint(words)
    return holding[:_MOST] or ([] if at_a_part else _spelt_like(said, named, _NEAR))


def instead(where: str, spaces: Collection[Space]) -> str:
    """What to write instead of a space that she has not."""
    names, found = [space.name for space in spaces], likely(where, spaces)
    listed = f" (or one of: {', '.join(names)})" if len(names) <= MOST_LISTED else ""
    if found:
        return f"write {' or '.join(found)}?{listed}"
    if not names:
        return "there is nothing of this kind to name: write that first, or remove this"
    return f"write one of: {', '.join(names[:MOST_LISTED])}"


def _spelt_like(said: str, named: dict[str, str], cutoff: float) -> list[str]:
    close = difflib.get_close_matches(said[:80], list(named), n=1, cutoff=cutoff)
    return [named[each] for each in close]


def _by_place(words: Iterable[str], spaces: Collection[Space]) -> list[str]:
    """The spaces at the part of the boat that the words name, or of the use that they tell of."""
    told = set(words)
    if told & _ENGINE_WORDS:
        return [space.name for space in spaces if space.engine]
    if told & _STEERED_FROM:
        return [space.name for space in spaces if space.steering]
    if told & _BELOW_WORDS:
        below = [space for space in spaces if space.level == BELOW]
        return [
            space.name for space in sorted(below, key=lambda space: not _shares(space, told)) if space.always
        ]
    length = max((space.fore_m for space in spaces), default=0.0)
    return _at_part(told, spaces, length) if length > 0 else []


def _at_part(told: set[str], spaces: Collection[Space], length_m: float) -> list[str]:
    """The spaces on deck at the part of the boat that the words name: where one stands or, of lockers and tanks, those there."""
    stowage = _KEPT_IN.search(" ".join(sorted(told & _STOWED)))
    centre = {id(space): (space.aft_m + space.fore_m) / 2 / length_m for space in spaces}
    on_deck = [
        space
        for space in spaces
        if space.level == DECK
        and not (space.mark or space.steering or space.engine)
        and (_KEPT_IN.search(folded(space.name)) or [""])[0] == (stowage[0] if stowage else "")
    ]
    wider = 0.1 if stowage else 0.0
    if told & _AFT_WORDS:
        there, far = [space for space in on_deck if centre[id(space)] <= _AFT + wider], 0.0
    elif told & _FORE_WORDS:
        there, far = [space for space in on_deck if centre[id(space)] >= _FORE - wider], 1.0
    elif told & _MIDDLE_WORDS:
        there, far = [space for space in on_deck if abs(centre[id(space)] - 0.5) <= _MIDDLE], 0.5
    elif "deck" in told and not stowage:
        there, far = [space for space in on_deck if space.always or "deck" in space.name], 0.5
    else:
        return []
    ranked = sorted(
        there, key=lambda space: (not _shares(space, told), not space.always, abs(centre[id(space)] - far))
    )
    return [space.name for space in ranked]


def _shares(space: Space, told: set[str]) -> bool:
    """Whether a word of those told is one of its names, by its stem: midships, midship thwart."""
    own = {word for name in (space.name, *space.also) for word in re.findall(r"[^\W\d_]+", folded(name))}
    return any(one.startswith(other[:5]) and len(other) > 2 for one in own for other in told)
