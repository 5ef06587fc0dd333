"""Words of her own about a place: they say no other side and no other space than the fields beside them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from generator.manual.drawing.spaces import Space, dimensions_m, find_space, gap_m
from generator.manual.own_words import OwnWords, listed, told_in
from generator.reading.nearest import shortened
from generator.reading.worded import DOING
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    DEFECT,
    RECOMMENDATION,
    Finds,
    Sight,
    at,
    check,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

_OTHER = {"port": "starboard", "starboard": "port"}
_IN = re.compile(r"\b(?:in|inside)\b")
FAR = 0.2  # of her length: spaces so far apart are two places, however her plan differs from the preset
_SIDE = re.compile(r"\b(port|starboard)\b")
_NO_SIDE = re.compile(
    r"\b(?:fire|usb|in|discharge|inspection|charging|data|home|exhaust|air|serial|every|each|any|next|last|nearest)[ -]$"
)
"""What stands before a port that is a hole, a plug or a harbour."""
_BESIDE = re.compile(r"[ -](?:hand )?(?:(?:side|end|edge|corner|half|part) )?(?:of|from)\b")
"""What stands behind a side of some other thing: on the port side of the tank."""


@dataclass(frozen=True)
class Sides:
    """The sides that words name: where the thing itself is, and those that are sides of something else."""

    own: frozenset[str]
    of_another: frozenset[str]


@lru_cache(maxsize=8192)
def sides_in(text: str) -> Sides:
    """The sides that words name; none from a sentence that denies one or tells what lies opposite."""
    own: set[str] = set()
    other: set[str] = set()
    for sentence in told_in(text) if _SIDE.search(text.lower()) else ():
        if listed("reads.turns-round") & set(re.findall(r"[a-z]+", sentence)):
            continue
        for found in _SIDE.finditer(sentence):
            before, behind = sentence[: found.start()], sentence[found.end() :]
            if found[1] == "port" and _NO_SIDE.search(before):
                continue
            of_another = _BESIDE.match(behind) or re.search(r"\bto (?:the )?$", before)
            (other if of_another else own).add(found[1])
    return Sides(frozenset(own), frozenset(other))


@check("words.other-side", DEFECT, COMMON_PRACTICE)
def words_say_no_other_side(sight: Sight) -> Finds:
    """The words for a thing's name and place say no other side than its field.

    Why: in the dark somebody goes to the side that the words say, and the thing lies on the other.
    Remedy: go and look, and correct the one that is wrong.
    """
    for said, side in _placed_words(sight, "side"):
        if side not in _OTHER:
            continue
        sides, doing = sides_in(said.text), said.says == DOING
        if side in sides.own | sides.of_another or (doing and not sides.own):
            continue
        if _OTHER[side] in sides.own | sides.of_another:
            certain = _OTHER[side] in sides.own and not doing
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}' says {_OTHER[side]}, and side says {side}",
                item=said.block.path,
                also=(said.block.place("side"),),
                weight=DEFECT if certain else RECOMMENDATION,
            )


def _placed_words(sight: Sight, key: str) -> Iterator[tuple[OwnWords, str]]:
    """The words that tell where something itself is or how it is worked there, with its side or its space."""
    for said in sight.own_words:
        here = said.block.__dict__.get(key)
        if isinstance(here, str) and said.field.key != key and (said.of_itself or said.names_itself):
            yield said, here


@check("words.other-space", RECOMMENDATION, COMMON_PRACTICE, COMPOSITION)
def words_say_no_other_space(sight: Sight) -> Finds:
    """The words for a thing's place, and for how it is worked, name no space that lies elsewhere than its field says.

    Why: whoever reads "in the aft cabin" goes there, and the thing lies in the forepeak.
    Remedy: go and look; name the space under 'where' and say under 'spot' where in it. Where a hand acts from elsewhere, say so in 'where'.
    """
    length, _, _ = dimensions_m(sight.vessel)
    for said, where in _placed_words(sight, "where"):
        here = find_space(sight.spaces, where)[0]
        if here is None:
            continue
        for named in spaces_in(said.text, sight):
            apart = gap_m(here, named)
            if apart > 0:
                yield at(
                    said.block,
                    said.field.key,
                    f"'{shortened(said.text)}' is in the {named.name}, and where says {where}",
                    item=said.block.path,
                    also=(said.block.place("where"),),
                    weight=DEFECT if apart > FAR * length and said.says != DOING else RECOMMENDATION,
                )
                break


def spaces_in(text: str, sight: Sight) -> Iterator[Space]:
    """The spaces that words say something is in: "in the aft cabin, under the bunk"."""
    for name in _names_in(text, tuple(_names(sight))) if _IN.search(text.lower()) else ():
        space = find_space(sight.spaces, name)[0]
        if space is not None:
            yield space


@lru_cache(maxsize=8192)
def _names_in(text: str, names: tuple[str, ...]) -> tuple[str, ...]:
    find = _in_a_space(names)
    return tuple(found[1] for sentence in told_in(text) for found in find.finditer(sentence))


def _names(sight: Sight) -> Iterator[str]:
    for space in sight.spaces.values():
        yield from (name.lower() for name in (space.name, *space.also))


@lru_cache(maxsize=64)
def _in_a_space(names: tuple[str, ...]) -> re.Pattern[str]:
    """Finds "in the NAME" where the name ends there, and is no part of another: in the cockpit locker."""
    longest_first = "|".join(re.escape(name) for name in sorted(names, key=len, reverse=True))
    return re.compile(
        rf"\b(?:in|inside) (?:the )?((?:(?:port|starboard) )?(?:{longest_first}))"
        r"(?=$|[,.;:)]| (?:under|on|beside|behind|below|above|at|by|next|near|to|port|starboard|left|right|in|and|over|aft|forward)\b)"
    )
