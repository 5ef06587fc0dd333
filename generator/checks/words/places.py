"""Words of her own about a place: they say no other side and no other space than the fields beside them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from generator.manual.drawing.spaces import Space, dimensions_m, find_space, gap_m
from generator.manual.own_words import OwnWords, listed, told_in
from generator.reading.nearest import folded, shortened
from generator.reading.worded import DOING, PLACE, ROLE
from generator.shelves.spaces import LEVELS, UPPER
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    DEFECT,
    HELP,
    LIFE,
    RECOMMENDATION,
    Finds,
    Sight,
    at,
    check,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

_OTHER = {"port": "starboard", "starboard": "port"}
_INSIDE = ("in", "inside")
_BEYOND = re.compile(
    r"\b(?:opposite|facing|beside|behind|near|by|next to|below|above|before|against|outside|abreast|clear|forward|aft|abaft|ahead|astern|"
    r"seen|reached|towards?|foot|head|top|bottom|edge|end|front|sight|reach|step)\b[^,;:]*$"
)
"""What stands before a space that a thing is near and not in."""
FAR = 0.2  # of her length: spaces so far apart are two places, however her plan differs from the preset
_SHORTEST = 0.05  # of her length: shorter than a pulpit is no place to go to, but a part: the mast
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


@check("words.other-side", LIFE, COMMON_PRACTICE)
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
        if not isinstance(here, str) or said.field.key == key or said.says == ROLE:
            continue
        if said.of_itself or said.names_itself:
            yield said, here


@check("words.other-space", HELP, COMMON_PRACTICE, COMPOSITION)
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
        for named, prep in spaces_in(said, sight):
            if apart(sight, here, named, enters=prep in _INSIDE):
                far = gap_m(here, named) > FAR * length or levels_between(here, named) > 1
                yield at(
                    said.block,
                    said.field.key,
                    f"'{shortened(said.text)}' is {'in' if prep == 'of' else prep} the {named.name}, and where says {where}",
                    item=said.block.path,
                    also=(said.block.place("where"),),
                    weight=DEFECT if far and said.says != DOING else RECOMMENDATION,
                )
                break


def levels_between(one: Space, other: Space) -> int:
    """How many levels lie between two spaces: of the saloon and the flybridge two."""
    known = [LEVELS.index(each.level) for each in (one, other) if each.level in LEVELS]
    return abs(known[0] - known[1]) if len(known) == 2 else 0


def apart(sight: Sight, one: Space, other: Space, *, near: bool = False, enters: bool = True) -> bool:
    """Whether two spaces are two places: apart in plan, or above each other with a level between, or one entered: of two rooms, aloft, at the engine.

    Spaces that touch are one place; where words say only that a thing is near a space, so are those a step apart.
    """
    length, _, _ = dimensions_m(sight.vessel)
    if gap_m(one, other) > (FAR * length if near else 0):
        return True
    if near or one.level == other.level:
        return False
    rooms = all(each.always and not each.own for each in (one, other))
    closed = UPPER in (one.level, other.level) or one.engine or other.engine
    return levels_between(one, other) > 1 or (enters and (rooms or closed))


def spaces_in(said: OwnWords, sight: Sight) -> Iterator[tuple[Space, str]]:
    """The spaces that words say something is in, on, at or under, and which of these: "in the aft cabin, under the bunk"."""
    names, length = names_of_spaces(sight), dimensions_m(sight.vessel)[0]
    for prep, name in _names_in(said.text, names):
        space = find_space(sight.spaces, name)[0]
        if space is not None and (prep in _INSIDE or (said.says == PLACE and _stood_on(space, name, length))):
            yield space, prep


def _stood_on(space: Space, name: str, length_m: float) -> bool:
    """Whether "on the NAME" tells of a place to go to: not of the mast, nor of the steps and the wheel that a word means as well."""
    also_means_it = not folded(name).endswith(folded(space.name)) and " " not in name
    return not also_means_it and space.fore_m - space.aft_m >= _SHORTEST * length_m


@lru_cache(maxsize=8192)
def _names_in(text: str, names: tuple[str, ...]) -> tuple[tuple[str, str], ...]:
    find = _in_a_space(names)
    return tuple(
        (found[1], found[2])
        for sentence in told_in(text)
        for found in find.finditer(sentence)
        if found[1] in _INSIDE or not _BEYOND.search(sentence[: found.start()])
    )


def names_of_spaces(sight: Sight) -> tuple[str, ...]:
    """All names of her spaces, in small letters."""
    return tuple(name.lower() for space in sight.spaces.values() for name in (space.name, *space.also))


def one_of(names: tuple[str, ...]) -> str:
    """What matches any of the names, the longest first."""
    return "|".join(re.escape(name) for name in sorted(set(names), key=len, reverse=True))


@lru_cache(maxsize=64)
def _in_a_space(names: tuple[str, ...]) -> re.Pattern[str]:
    """Finds "in the NAME" where the name ends there, and is no part of another: in the cockpit locker."""
    return re.compile(
        rf"\b(in|inside|on|at|under|of) (?:the )?((?:(?:port|starboard) )?(?:{one_of(names)}))"
        r"(?=$|[,.;:)]| (?:under|on|beside|behind|below|above|at|by|next|near|to|port|starboard|left|right|in|and|over|aft|forward)\b)"
    )
