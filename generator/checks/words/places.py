"""Words of her own about a place: they say no other side and no other space than the fields beside them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from generator.manual.drawing.spaces import Space, dimensions_m, find_space, gap_m
from generator.manual.own_words import OwnWords, called, listed, told_in
from generator.manual.sieves import Names, sieve
from generator.reading.nearest import folded, shortened
from generator.reading.worded import DOING, PLACE, ROLE
from generator.shelves.spaces import BELOW, FOR_GEAR, UPPER
from generator.survey.lockers import entered_from_deck, leads_up, levels_between
from generator.survey.placing import no_hand_there, vital
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
from generator.vessel.fittings import Fitting
from generator.vessel.installed import Stop, ThroughHull

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

_OTHER = {"port": "starboard", "starboard": "port"}
CENTRE, OVERHEAD = "centre", "overhead"
_INSIDE = ("in", "inside")
_THERE = ("on", "at", "under", "of")
_BOUNDS = ("sole", "floor", "floorboards", "deckhead", "ceiling")
"""What parts a space from the one below or above it: what is under the cockpit sole is not in the cockpit."""
_FURNITURE = "table"
"""How a space is called that is a piece of furniture, in which a thing may lie while its space is the room."""
_BEYOND = re.compile(
    r"\b(?:opposite|facing|beside|behind|near|by|next to|below|above|before|against|outside|abreast|clear|forward|aft|abaft|ahead|astern|"
    r"seen|reached|towards?|foot|head|top|bottom|edge|end|front|sight|reach|step)\b[^,;:]*$"
)
"""What stands before a space that a thing is near and not in."""
FAR = 0.2  # of her length: spaces so far apart are two places, however her plan differs from the preset
_SHORTEST = 0.05  # of her length: shorter than a pulpit is no place to go to, but a part: the mast
_SIDE = re.compile(r"\b(port|starboard)\b")
_LABEL = re.compile(
    r"\b(?i:marked|labelled|reads|reading|says|named|called)\s+['\"“‘]?[A-Z][A-Z0-9]*(?:[ /-][A-Z0-9]+)*\b"
)
"""What a switch is marked with, in capitals: it says what it works, not where it is."""
_NO_SIDE = re.compile(
    r"\b(?:fire|usb|in|discharge|inspection|charging|data|home|exhaust|air|serial|every|each|any|next|last|nearest)[ -]$"
)
"""What stands before a port that is a hole, a plug or a harbour."""
_BESIDE = re.compile(r"[ -](?:hand )?(?:(?:side|end|edge|corner|half|part) )?(?:of|from)\b")
"""What stands behind a side of some other thing: on the port side of the tank."""


_PIECE = re.compile(r"[,;:(]")
_PLACED = re.compile(
    r"^(?:on|at|in|inside|by|under|behind|beside|below|above|over|next|near|forward|aft|foot|head|top|bottom|end|edge|side|one|two|both|all)\b"
)


@dataclass(frozen=True)
class Sides:
    """The sides that words name: where the thing itself is, that to which it lies ("to port"), and those of something else."""

    own: frozenset[str]
    lies: frozenset[str]
    of_another: frozenset[str]


@lru_cache(maxsize=8192)
def sides_in(text: str, spaces: Names) -> Sides:
    """The sides that words name; none from a sentence that denies one or tells what lies opposite."""
    own: set[str] = set()
    lies: set[str] = set()
    other: set[str] = set()
    for sentence in told_in(_LABEL.sub(" ", text)) if _names_a_side(text) else ():
        if listed("reads.turns-round") & set(re.findall(r"[a-z]+", sentence)):
            continue
        for found in _SIDE.finditer(sentence):
            before, behind = sentence[: found.start()], sentence[found.end() :]
            if (found[1] == "port" and _NO_SIDE.search(before)) or _of_a_part(before, behind):
                continue
            towards = re.search(r"\bto (?:the )?$", before)
            beside = _BESIDE.match(behind)
            if beside and _is_space(behind[beside.end() :], spaces):
                own.add(found[1])
            elif beside or (towards and behind.startswith(" of ")):
                other.add(found[1])
            elif not towards:
                own.add(found[1])
            elif _lies(before[: towards.start()]):
                lies.add(found[1])
    return Sides(frozenset(own), frozenset(lies), frozenset(other))


@sieve
def _names_a_side(text: str) -> bool:
    return _SIDE.search(text.lower()) is not None


def _of_a_part(before: str, behind: str) -> bool:
    """Whether a side behind a comma is that of a part, told with how it is: under the seat, starboard bolt loose."""
    piece = re.fullmatch(r" [a-z]+(?: is)? ([a-z]+)", _PIECE.split(behind)[0].rstrip(" .)"))
    return piece is not None and piece[1] in listed("reads.states") and bool(_PIECE.search(before))


def _is_space(words: str, spaces: tuple[str, ...]) -> bool:
    """Whether words begin with the name of one of her spaces: on the port side of the galley, and not of the cooker."""
    name = re.match(r" (?:the )?([^,;:.()]+)", words)
    return name is not None and any(re.match(rf"{re.escape(each)}\b", name[1]) for each in spaces)


def _lies(before: str) -> bool:
    """Whether "to port" behind these words tells where the thing lies: not where a lead runs, nor where terminals behind a comma are."""
    pieces = _PIECE.split(before)
    here = pieces[-1].strip()
    if not listed("reads.leads").isdisjoint(re.findall(r"[a-z]+", here)):
        return False
    return not here or len(pieces) == 1 or _PLACED.match(here) is not None


@check("words.other-side", LIFE, COMMON_PRACTICE)
def words_say_no_other_side(sight: Sight) -> Finds:
    """The words for a thing's name and place say no other side than its field.

    Why: in the dark somebody goes to the side that the words say, and the thing lies on the other.
    Remedy: go and look, and correct the one that is wrong.
    """
    spaces = names_of_spaces(sight)
    for said, side in _placed_words(sight.words_through(_names_a_side), "side"):
        sides, doing = sides_in(said.meant, spaces), said.says == DOING
        own = sides.own if doing else sides.own | sides.lies
        every = own | sides.of_another
        wrong = _OTHER.get(side, "")
        if side == CENTRE:
            sure = said.of_itself or said.names_itself
            wrong = next(iter(own)) if len(own) == 1 and sure and not doing and not sides.of_another else ""
        if side in every or (doing and not own) or not wrong or wrong not in every:
            continue
        yield at(
            said.block,
            said.field.key,
            f"'{shortened(said.text)}' says {wrong}, and side says {side}",
            item=said.block.path,
            also=(said.block.place("side"),),
            weight=DEFECT if wrong in own else RECOMMENDATION,
        )


def _placed_words(words: Iterable[OwnWords], key: str) -> Iterator[tuple[OwnWords, str]]:
    """The words that tell where something itself is or how it is worked there, with its side or its space."""
    for said in words:
        here = said.block.__dict__.get(key)
        if not isinstance(here, str) or said.field.key == key or said.says == ROLE:
            continue
        if said.of_itself or said.names_itself or said.field.key == OVERHEAD:
            yield said, here


@check("words.other-space", HELP, COMMON_PRACTICE, COMPOSITION)
def words_say_no_other_space(sight: Sight) -> Finds:
    """The words for a thing's name and place, and for how it is worked, name no space that lies elsewhere than its field says.

    Why: whoever reads "in the aft cabin" goes there, and the thing lies in the forepeak.
    Remedy: go and look; name the space under 'where' and say under 'spot' where in it. Where a hand acts from elsewhere, say so in 'where'.
    """
    length, _, _ = dimensions_m(sight.vessel)
    for said, where in _placed_words(sight.own_words, "where"):
        here = find_space(sight.spaces, where)[0]
        if here is None:
            continue
        for named in spaces_in(said, sight):
            enters = named.prep in _INSIDE
            if _locker_of_the_room(sight, here, named.space) or leads_up(said.block, here, named.space):
                continue
            if apart(sight, here, named.space, near=named.near, enters=enters):
                far = gap_m(here, named.space) > FAR * length or levels_between(here, named.space) > 1
            elif named.near and not named.opened and _out_of_sight(here, named.space):
                far = False
            elif not named.near and not named.opened and another(sight, here, named.space, named.prep):
                far = enters and named.space.engine and not here.engine
            elif enters and not named.opened and entered_from_deck(here, named.space):
                far = isinstance(said.block, Stop)
            elif enters and (lies := _opposite_side(sight, said, named.space)):
                yield at(
                    said.block,
                    said.field.key,
                    f"'{shortened(said.text)}' is in the {named.space.name}, all of whose things are to {lies}, and side says {_OTHER[lies]}",
                    item=said.block.path,
                    also=(said.block.place("side"),),
                    weight=RECOMMENDATION,
                )
                break
            else:
                continue
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}' is {'in' if named.prep == 'of' else named.prep} the {named.space.name}, and where says {where}",
                item=said.block.path,
                also=(said.block.place("where"),),
                weight=DEFECT
                if far or _into_the_fire(said, named) or _missed(said, here, named)
                else RECOMMENDATION,
            )
            break


_CUT_AND_WORKED = (".knife", ".handle", ".released-from")
"""Parts that a hand is to find in the minute, by the key they stand under."""


def _locker_of_the_room(sight: Sight, here: Space, locker: Space) -> bool:
    """Whether words may mean a locker in the room itself: of a usual one below that nothing else of hers lies in, nobody knows where hers is."""
    usual = locker.stows == FOR_GEAR and locker.level == BELOW and folded(locker.name).endswith("locker")
    if not usual or locker.own or not here.roofed:
        return False
    return all(find_space(sight.spaces, where)[0] is not locker for _, where in sight.texts("where"))


def _into_the_fire(said: OwnWords, named: NamedSpace) -> bool:
    """Whether words have what a life hangs on in a space where nothing for an emergency is kept: engine, bilge, gas locker."""
    return vital(said.block) and named.prep in _INSIDE and no_hand_there(named.space) != ""


def _missed(said: OwnWords, here: Space, named: NamedSpace) -> bool:
    """Whether a hand looks in vain for what it needs in the minute: what cuts, pumps or releases; on deck, a spot that is in a room below."""
    at_hand = vital(said.block) or said.block.path.startswith("rafts[")
    below = said.field.key == "spot" and named.prep in _INSIDE and named.space.roofed and here.open_deck
    return said.block.path.endswith(_CUT_AND_WORKED) or (at_hand and below)


def _opposite_side(sight: Sight, said: OwnWords, named: Space) -> str:
    """The side of all things in a part of a room, where that of these words is opposite: the galley is to port, and the kit to starboard under its sink."""
    side = _OTHER.get(str(said.block.__dict__.get("side")), "")
    if not side or named.name not in called("apart") or named.paired:
        return ""
    sides = [
        each.__dict__.get("side")
        for each, where in sight.texts("where")
        if each is not said.block and find_space(sight.spaces, where)[0] is named
    ]
    return side if len(sides) > 1 and set(sides) == {side} else ""


def _out_of_sight(here: Space, room: Space) -> bool:
    """Whether a space is open deck, and the other a room below that is not under it: what is by the heads is not in the cockpit."""
    told = not (here.own or here.unlike or room.own or room.unlike or room.engine)
    return told and here.open_deck and room.level == BELOW and room.roofed and gap_m(here, room) > 0


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
    closed = closed or not {one.name, other.name}.isdisjoint(called("closed"))
    return levels_between(one, other) > 1 or (enters and (rooms or closed))


def another(sight: Sight, here: Space, named: Space, prep: str) -> bool:
    """Whether two spaces that touch on one level are two places to look in: two rooms, a room and what is part of another, galley and heads.

    What is part of a room lies in it: the chart table in the saloon, the helm in the cockpit; what is in the galley or the heads has that
    for its space. Nobody can tell it of spaces of her own.
    """
    if here.own or named.own or here.level != named.level or here.name == named.name:
        return False
    cells = called("apart")
    if here.engine != named.engine:
        return prep in _INSIDE or (prep == "under" and not named.engine)
    if here.always and named.always:
        return prep in (*_INSIDE, "on")
    if here.always or named.always:
        room, part = (here, named) if here.always else (named, here)
        of_room = _overlap(room, part)
        of_any = any(_overlap(each, part) for each in sight.spaces.values() if each.always)
        if named is part and part.name in cells and not folded(part.name).endswith(_FURNITURE):
            return prep in _INSIDE  # a place to go to, though it lies off the saloon: the galley, the heads
        return prep in _INSIDE and not of_room and (named is room or of_any)
    if not {folded(here.name).split()[-1], folded(named.name).split()[-1]}.isdisjoint(listed("reads.parts")):
        return prep in _INSIDE and not _overlap(here, named)
    if prep in _INSIDE:
        return here.name in cells or named.name in cells or not _overlap(here, named)
    return prep == "at" and here.name in cells and named.name in cells


def _overlap(one: Space, other: Space) -> bool:
    """Whether two spaces lie over each other in plan, on one level."""
    along = min(one.fore_m, other.fore_m) - max(one.aft_m, other.aft_m)
    across = min(one.starboard_m, other.starboard_m) - max(one.port_m, other.port_m)
    return one.level == other.level and along > 0 and across > 0


@dataclass(frozen=True)
class NamedSpace:
    """A space that words name, how (in, under, beside), whether they say no more than near it, and whether its door or lid is meant."""

    space: Space
    prep: str
    near: bool = False
    opened: bool = False


def spaces_in(said: OwnWords, sight: Sight) -> Iterator[NamedSpace]:
    """The spaces that words say something is in, on, at or under, or near; that of the engine too."""
    names, length = names_of_spaces(sight), dimensions_m(sight.vessel)[0]
    over = said.field.key == OVERHEAD
    if said.names_itself and not isinstance(said.block, (Fitting, ThroughHull)):
        return  # what a name implies is asked of the names
    stands = said.says == PLACE or said.names_itself or over
    for prep, name, behind, before in _names_in(said.meant, names):
        space = find_space(sight.spaces, name)[0]
        if space is None or (prep in _INSIDE and name in called("stows-too")):
            continue  # on the net people lie, in one gear is stowed
        of_part = behind in listed("reads.fixtures")
        if not (prep in _INSIDE or of_part or (stands and _stood_on(space, name, length))):
            continue
        near = over or prep not in (*_INSIDE, *_THERE)
        if not near or stands:
            opened = not listed("reads.openings").isdisjoint(re.findall(r"[a-z]+", before))
            held = of_part and prep in _THERE and behind not in _BOUNDS
            yield NamedSpace(space, "in" if held else prep, near, opened)
    if stands:
        yield from _by_the_engine(said, sight)


def _by_the_engine(said: OwnWords, sight: Sight) -> Iterator[NamedSpace]:
    """The spaces of the engine, where words say that something is by it."""
    for sentence in told_in(said.meant):
        for found in _BY_THE.finditer(sentence):
            if found[2] in listed("reads.engine"):
                for space in sight.spaces.values():
                    if space.engine:
                        yield NamedSpace(space, f"by the {found[2]} of", near=True)


def _stood_on(space: Space, name: str, length_m: float) -> bool:
    """Whether "on the NAME" tells of a place to go to: not of the mast, nor of the steps and the wheel that a word means as well."""
    also_means_it = not folded(name).endswith(folded(space.name)) and " " not in name
    return not also_means_it and space.fore_m - space.aft_m >= _SHORTEST * length_m


@lru_cache(maxsize=8192)
def _names_in(text: str, names: Names) -> tuple[tuple[str, str, str, str], ...]:
    """How words stand to a space, its name, the word behind it, and what stands before, of each space they name."""
    find = _in_a_space(names)
    return tuple(
        (found[1], found[2], found[3] or "", sentence[: found.start()])
        for sentence in told_in(text)
        for found in find.finditer(sentence)
        if found[1] in _INSIDE or not _BEYOND.search(sentence[: found.start()])
    )


def names_of_spaces(sight: Sight) -> Names:
    """All names of her spaces, in small letters."""
    return sight.reckoning.space_names


def one_of(names: tuple[str, ...]) -> str:
    """What matches any of the names, the longest first."""
    return "|".join(re.escape(name) for name in sorted(set(names), key=len, reverse=True))


@lru_cache(maxsize=64)
def _in_a_space(names: Names) -> re.Pattern[str]:
    """Finds "in the NAME" where the name ends there, and is no part of another, as in the cockpit locker; and what a space holds: the galley sink."""
    fixtures = "|".join(sorted(listed("reads.fixtures")))
    return re.compile(
        rf"\b(in|inside|on|at|under|of|below|beneath|behind|beside|by|near|above|over) (?:the )?(?:(?:forward|aft|after|guest|owner['’]s) )?((?:(?:port|starboard) )?(?:{one_of(names)}))"
        rf"(?: ({fixtures})\b(?!['’])|(?=$|[,.;:)]| (?:under|on|beside|behind|below|above|at|by|next|near|to|port|starboard|left|right|in|and|over|aft|forward)\b))"
    )


_BY_THE = re.compile(
    r"\b(in|under|below|beneath|behind|beside|by|near|next to|above|over|at) the ([a-z]+)(?=$|[,.;:)]| (?:and|in|on|at|to|under)\b| door\b)"
)
