"""Likely spaces: which of hers somebody means who names one that she has not, by where it lies and what it is for, then by its letters."""

from __future__ import annotations

import difflib
import re
from typing import TYPE_CHECKING

from generator.manual.own_words import listed
from generator.reading.nearest import MOST_LISTED, at_the_other_side, folded
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


def likely(where: str, spaces: Collection[Space]) -> list[str]:
    """The few of her spaces that `where` may mean, the likeliest first; none where nothing speaks for any."""
    said = folded(where.partition(",")[0])
    spaces = [space for space in spaces if not at_the_other_side(said, space.name)]
    words = [word for word in re.findall(r"[^\W\d_]+", said) if word not in listed("reads.at-sides")]
    named = {folded(name): space.name for space in spaces for name in (*space.also, space.name)}
    if slip := _spelt_like(said, named, _SLIP):
        return slip
    if by_place := _by_place(words, spaces):
        return by_place[:_MOST]
    holding = [space.name for space in spaces if words and set(words) <= set(folded(space.name).split())]
    at_a_part = not (
        listed("reads.at-stern") | listed("reads.at-bow") | listed("reads.at-middle")
    ).isdisjoint(words)
    return holding[:_MOST] or ([] if at_a_part else _spelt_like(said, named, _NEAR))


def instead(where: str, spaces: Collection[Space]) -> str:
    """What to write instead of a space that she has not."""
    names, found = [space.name for space in spaces], likely(where, spaces)
    every = f" (or one of: {', '.join(names)})" if len(names) <= MOST_LISTED else ""
    if found:
        return f"write {' or '.join(found)}?{every}"
    if not names:
        return "there is nothing of this kind to name: write that first, or remove this"
    return f"write one of: {', '.join(names[:MOST_LISTED])}"


def _spelt_like(said: str, named: dict[str, str], cutoff: float) -> list[str]:
    close = difflib.get_close_matches(said[:80], list(named), n=1, cutoff=cutoff)
    return [named[each] for each in close]


def _by_place(words: Iterable[str], spaces: Collection[Space]) -> list[str]:
    """The spaces at the part of the boat that the words name, or of the use that they tell of."""
    told = set(words)
    if told & listed("reads.at-engine"):
        return [space.name for space in spaces if space.engine]
    if told & listed("reads.at-wheel"):
        return [space.name for space in spaces if space.steering]
    if told & listed("reads.at-below"):
        below = [space for space in spaces if space.level == BELOW]
        return [
            space.name for space in sorted(below, key=lambda space: not _shares(space, told)) if space.always
        ]
    length = max((space.fore_m for space in spaces), default=0.0)
    return _at_part(told, spaces, length) if length > 0 else []


def _at_part(told: set[str], spaces: Collection[Space], length_m: float) -> list[str]:
    """The spaces on deck at the part of the boat that the words name: where one stands or, of lockers and tanks, those there."""
    stowages = listed("reads.at-lockers")  # where things are kept, and nobody stands
    sought = told & stowages
    centre = {id(space): (space.aft_m + space.fore_m) / 2 / length_m for space in spaces}
    on_deck = [
        space
        for space in spaces
        if space.level == DECK
        and not (space.mark or space.steering or space.engine)
        and listed("reads.at-wheel").isdisjoint(folded(space.name).split())
        and stowages.intersection(folded(space.name).split()[-1:]) == sought
    ]
    wider = 0.1 if sought else 0.0
    if told & listed("reads.at-stern"):
        there, far = [space for space in on_deck if centre[id(space)] <= _AFT + wider], 0.0
    elif told & listed("reads.at-bow"):
        there, far = [space for space in on_deck if centre[id(space)] >= _FORE - wider], 1.0
    elif told & listed("reads.at-middle"):
        there, far = [space for space in on_deck if abs(centre[id(space)] - 0.5) <= _MIDDLE], 0.5
    elif told & listed("reads.at-deck") and not sought:
        there, far = [space for space in on_deck if space.always or _shares(space, told)], 0.5
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
