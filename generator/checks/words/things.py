"""Her things in words: wherever a sentence says where one of them is, it says so as the thing's own entry does."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from generator.checks.words.aboard import gear_named, kinds_meant
from generator.checks.words.places import apart, names_of_spaces, one_of
from generator.manual.drawing.spaces import find_space
from generator.manual.own_words import APART, called, listed, told_in
from generator.reading.block import Block
from generator.reading.nearest import shortened
from generator.reading.worded import ROLE, SIGNAL
from generator.shelves.gear import before_comma, kinds
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    HELP,
    Finds,
    Sight,
    at,
    check,
)
from generator.vessel.fittings import Located
from generator.vessel.gear import Gear, GrabBag, GrabItem, Lifejackets, Tender
from generator.vessel.installed import Battery, Gas, Pump, Stop, ThroughHull
from generator.vessel.medical import Medical
from generator.vessel.radio import Beacon, RadioSet
from generator.vessel.raft import Raft

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.manual.drawing.spaces import Space
    from generator.reading.findings import Place

_OTHER = {"port": "starboard", "starboard": "port"}
_LIES = r"(?:(?:(?:can|may|must|should) )?be|is|are|hangs?|lies?|stands?|sits?|lives?|rests?|belongs?|(?:has|have) (?:its|their) places?)"
_HOW = (
    r"(?: (?:always|also|both|all|just|high up|low down|safely|usually|normally|still|right|ready|kept|stowed|found|mounted|fixed|secured|lashed|"
    r"clipped|stored|located|fitted|placed|hung|held|hanging|lying|standing|tied|strapped|screwed|to be found))*"
)
_FETCH = r"(?:fetch|get|find|take|collect|grab|pick up|look for|reach for|there (?:is|are)|(?:we|you) (?:keep|stow|find|have))"
_WITHIN = r"(?:in|inside|on|at|within|from|aboard|out of)"
_NEAR = r"(?P<near>under|below|beneath|by|near|beside|next to|behind|above|over|outside|forward of|aft of)"
_DET = r"(?:(?:the|our|her|its|an?|both|all|each|every|one|two|three|four|five|six|\d+)(?: (?:the|of the|our))? )"
_NAME = r"<(?P<name>\d+)>"
_NAME_OF_ANY = r"<\d+>"
_SPACE = (
    r"(?:the |our |her )?\{(?P<space>\d+)\}"
    r"(?=$|[,.;:)*]| (?:under|on|beside|behind|below|above|at|by|next|near|to port|to starboard|port|starboard|left|right|in|and|over|aft|"
    r"forward|with|for|as|so|where|marked|is|are|hangs?|lies?|stands?|you|we|there|first|last|now|too|also|again|fast|before|until|[a-z]+ly)\b)"
)
_OF = r"(?:for|of|with|and|marked|called|number)"
_MORE = rf"(?: {_OF} (?:[\w'’<>-]+ ){{0,3}}?[\w'’<>-]+| \([^()]{{1,30}}\))?"
_WHERES = (
    rf"(?:under|behind|in|on|at|beside|inside) (?:the|an?|its) [a-z]+ (?:of|in|on) {_SPACE}",
    rf"(?:{_WITHIN}|{_NEAR}) {_SPACE}",
    rf"on (?:the|its|her) (?P<side>port|starboard) (?:hand )?side(?: of {_SPACE})?",
    r"(?:to )?(?P<side>port|starboard)(?=$|[,.;:)])",
)
"""How a sentence says where: in a part of a space, in or near it, on a side, to a side."""
_RELEASED = re.compile(rf"{_NAME}{_MORE} is (?:released|set off|discharged) {_WITHIN} {_SPACE}")
_STATED = tuple(re.compile(rf"{_NAME}{_MORE},? {_LIES}{_HOW} {where}") for where in _WHERES)
_OTHERWISE = (
    *(re.compile(rf"\b{_FETCH} {_DET}?(?:[a-z]+ )?{_NAME} (?:kept |stowed |that is |which is )?{where}") for where in _WHERES[:3]),
    re.compile(rf"\bbring {_DET}{_NAME} (?:up |down |out )?(?:from|out of) {_SPACE}"),
    re.compile(rf"(?:^|[,(*-]) ?{_DET}?{_NAME}: ?(?:always )?(?:{_WITHIN} )?{_SPACE}"),
    re.compile(rf"\b{_WITHIN} {_SPACE},? (?:{_LIES}|you find|we keep|there (?:is|are)){_HOW} {_DET}{_NAME}(?=$|[,.;:)])"),
    re.compile(rf"^\W*{_DET}?{_NAME}{_MORE},? {_WHERES[1]}[\s*]*$"),
    re.compile(rf"\bthe \{{(?P<space>\d+)\}} (?:holds|contains|houses) {_DET}{_NAME}"),
    re.compile(rf"\b(?:the|an?|our) {_NAME} {_WHERES[2]}"),
    _RELEASED,
    re.compile(rf"\bthe {_NAME} (?:in|inside) {_SPACE} (?:is|are|has|have|serves?|works?|belongs?)\b"),
)  # fmt: skip
_TOGETHER = re.compile(rf"(?:{_NAME_OF_ANY}(?:,| and|, and) {_DET}?)+$")
_BEFORE_SUBJECT = frozenset(
    [
        "of",
        "for",
        "to",
        "beside",
        "under",
        "behind",
        "near",
        "with",
        "by",
        "from",
        "in",
        "on",
        "at",
        "into",
        "onto",
        "over",
        "above",
        "below",
        "without",
        "like",
        "than",
        "about",
        "whose",
        "who",
        "whoever",
    ]
)
_OTHERS_OF_ITS_KIND = frozenset(
    ["spare", "second", "other", "old", "new", "next", "third", "last", "dead", "empty", "former"]
)
_SENT_FOR = re.compile(
    r"(?:^|\b(?:fetch|get|find|take|collect|grab|use|up|for|with|and|or|under|behind|by|beside))\W*$"
)
"""What stands before gear that words send for; after other verbs they say where it is to be: hold the sling at the gate."""


_RELEASE = "release of the "


@dataclass(frozen=True)
class Told:
    """A thing of hers, and every place that its entry tells: of itself, of its handle, of its spare."""

    block: Block
    names: tuple[str, ...]
    places: tuple[tuple[str, str], ...]

    @property
    def place(self) -> Place:
        """Where its entry says it."""
        return self.block.place("bottles" if isinstance(self.block, Gas) else "where")


@dataclass(frozen=True)
class Claim:
    """What a sentence says of a thing: its name there, the name of a space, a side; whether it is in that space or near it."""

    name: str
    space: str
    side: str
    near: bool


@check("words.elsewhere", HELP, COMMON_PRACTICE, COMPOSITION)
def words_send_to_where_things_are(sight: Sight) -> Finds:
    """Words that say where a thing of hers is say the space and side of its own entry.

    Why: two places for one thing are searched one after the other.
    Remedy: go and look, and correct the one that is wrong.
    """
    things = things_of(sight)
    names = tuple(sorted({name for each in things for name in each.names}, key=len, reverse=True))
    spaces = names_of_spaces(sight)
    for said in sight.own_words:
        if said.says in (ROLE, SIGNAL) or said.names_itself:
            continue
        for claim in (*claims_in(said.text, names, spaces), *_gear_without_a_verb(said.text)):
            meant = _meant(claim.name, things)
            if not meant or any(each.block is said.block for each in meant):
                continue
            wrong = _wrong(sight, claim, meant)
            if wrong:
                yield at(
                    said.block,
                    said.field.key,
                    f"'{shortened(said.text)}' has the {claim.name} {wrong}, and its own entry has it elsewhere",
                    item=said.block.path,
                    also=tuple(each.place for each in meant),
                )
                break


def things_of(sight: Sight) -> tuple[Told, ...]:
    """Everything of hers that words may name, with its places."""
    found: list[Told] = []
    bag_of = {id(item): bag for bag in sight.vessel.grab_bags for item in bag.items}
    for block in sight.blocks:
        if isinstance(block, APART):
            continue
        names = tuple(dict.fromkeys(name.lower() for name in _names(block) if name))
        names = tuple(name for name in names if name not in listed("reads.plain-words"))
        if names:
            found.append(Told(block, names, tuple(_places(bag_of.get(id(block), block)))))
    found += (
        Told(block, names, tuple(_places(block)) if place is None else (place,))
        for block, names, place in _parts(sight)
    )
    return tuple(found)


def _parts(sight: Sight) -> Iterator[tuple[Block, tuple[str, ...], tuple[str, str] | None]]:
    """What has its place in another's entry: tiller, ladder, gas bottles, raft knives; each with its names, and its place where no keys of a block tell it."""
    vessel = sight.vessel
    tiller = vessel.steering.emergency_tiller if vessel.steering else None
    ladder = vessel.recovery.ladder if vessel.recovery else None
    for part, of in ((tiller, "steering"), (ladder, "ladder")):
        if isinstance(part, Located) and part.where:
            yield part, called(of), None
    gas = vessel.gas
    if gas and isinstance(gas.bottles, str):
        yield gas, called("gas-bottles"), (gas.bottles, "")
    for raft in vessel.rafts:
        if isinstance(raft.knife, Located) and raft.knife.where:
            yield raft.knife, called("raft-knife"), None
    for item in vessel.gear:
        if isinstance(item.released_from, Located) and item.released_from.where:
            yield item.released_from, tuple(f"{_RELEASE}{name}" for name in _names(item)), None


def _names(block: Block) -> tuple[str, ...]:
    """What people call a thing: its own name, that of its kind."""
    own = before_comma(block.__dict__.get(type(block).called or "what"))
    if isinstance(block, (Gear, GrabItem)):
        kinds_of = kinds_meant(block.what, kinds())
        return (own, *(name for kind in kinds_of for name in (*kind.names, *kind.other_names)))
    if isinstance(block, Lifejackets):
        jackets = called("lifejackets")
        return (*jackets, *(f"{own} {name}" for name in jackets))
    if isinstance(block, Stop):
        return called(f"stop.{own.replace(' ', '-')}")
    if isinstance(block, (RadioSet, Beacon)):
        kind = str(block.kind).lower()
        return own, kind, *called(f"radio.{kind.replace(' ', '-')}")
    if isinstance(block, Pump):
        return own, *called("pumps"), *called(f"pumps.{block.power}")
    if isinstance(block, ThroughHull):
        return (own,)
    if isinstance(block, Battery):
        return (f"{own} batteries", f"{own} battery")
    kind_of = next((name for name, of in _BLOCKS.items() if isinstance(block, of)), "")
    container = (str(block.container),) if isinstance(block, Raft) and block.container else ()
    return (own, *container, *called(kind_of)) if kind_of else ()


_BLOCKS: dict[str, type[Block]] = {"bags": GrabBag, "raft": Raft, "tender": Tender, "medical": Medical}


def _places(block: Block) -> Iterator[tuple[str, str]]:
    """Space and side of a thing and of its parts; what they say of no space is ("", side)."""
    yield str(block.__dict__.get("where") or ""), str(block.__dict__.get("side") or "")
    for value in block.__dict__.values():
        if isinstance(value, Located) and isinstance(value.where, str) and not isinstance(block, Raft):
            yield value.where, str(value.side or "")


@lru_cache(maxsize=8192)
def claims_in(text: str, names: tuple[str, ...], spaces: tuple[str, ...]) -> tuple[Claim, ...]:
    """What words say of where her things are, in sentences that neither deny nor set a condition."""
    name, space = _found_by(names, spaces)
    claims: list[Claim] = []
    for sentence in told_in(re.sub(r"[<>{}]", " ", text)):
        marked, named = _marked(name, sentence, "<{}>")
        if not named:
            continue
        marked, spaced = _marked(space, marked, "{{{}}}")
        for pattern in (*_STATED, *_OTHERWISE):
            for found in pattern.finditer(marked):
                if not _is_subject(marked[: found.start("name") - 1], pattern in _STATED):
                    continue
                parts = found.groupdict()
                at_space = spaced[int(parts["space"])] if parts.get("space") else ""
                called_so = named[int(parts["name"])]
                called_so = f"{_RELEASE}{called_so}" if pattern is _RELEASED else called_so
                claim = Claim(called_so, at_space, parts.get("side") or "", bool(parts.get("near")))
                claims.append(claim)
                together = _TOGETHER.search(marked[: found.start("name") - 1])
                claims += (
                    replace(claim, name=named[int(one)])
                    for one in re.findall(r"<(\d+)>", together[0] if together else "")
                )
    return tuple(claims)


def _marked(find: re.Pattern[str], text: str, mark: str) -> tuple[str, list[str]]:
    """Text with a numbered mark in place of each name, and the names in that order."""
    names: list[str] = []

    def marked(found: re.Match[str]) -> str:
        names.append(found[0])
        return mark.format(len(names) - 1)

    return find.sub(marked, text), names


@lru_cache(maxsize=64)
def _found_by(names: tuple[str, ...], spaces: tuple[str, ...]) -> tuple[re.Pattern[str], re.Pattern[str]]:
    """What finds the names of her things, and those of her spaces."""
    return (
        re.compile(rf"(?<![\w-])(?:{one_of((*names, *called('short')))})s?(?![\w-])"),
        re.compile(rf"(?<![\w-])(?:(?:port|starboard) )?(?:{one_of(spaces)})(?![\w-])"),
    )


def _is_subject(before: str, stated: bool) -> bool:
    """Whether a name behind these words is what the sentence tells of: not of what lies beside it, nor another of its kind."""
    words = re.sub(rf"{_DET}$", "", before).split()
    last = words[-1].strip("*_,") if words else ""
    if last in _OTHERS_OF_ITS_KIND:
        return False
    if not stated:
        return True
    if last in _BEFORE_SUBJECT or last.endswith("ing"):
        return False
    return {"who", "whoever", "whose"}.isdisjoint(words) and "that" not in words[:-1]


def _gear_without_a_verb(text: str) -> Iterator[Claim]:
    """Gear that words have somewhere without a verb, or to a side: the fire blanket in the galley, the port extinguisher."""
    small = text.lower()
    for _, named in gear_named(text, kinds()):
        before = small[: max(0, small.find(named.before + named.name + named.behind))]
        if not _SENT_FOR.search(before):
            continue
        there = _THERE.match(named.behind)
        side = re.search(r"\b(port|starboard)\b", named.before)
        yield Claim(named.name, there["where"] if there else "", side[1] if side else "", near=False)


_THERE = re.compile(
    r" (?:in|at|on|from|by) (?:the )?(?P<where>[a-z ]+?)(?=$|[,.;:)]| (?:under|on|beside|behind|at|by|to|and|is|in|first|last|now|too|fast|before|[a-z]+ly)\b)"
)


def _meant(name: str, things: tuple[Told, ...]) -> list[Told]:
    """The things of hers that a name may mean: those called so, or those whose names end so."""
    single = _single(name)
    exact = [each for each in things if any(_single(own) == single for own in each.names)]
    if single in called("short"):
        return [each for each in things if any(_single(own).split()[-1] == single for own in each.names)]
    return exact


def _single(name: str) -> str:
    return name.lower().replace("-", " ").rstrip("s")


def _wrong(sight: Sight, claim: Claim, things: list[Told]) -> str:
    """The space or side that a claim says and none of the things is at; "" where one of them is, or where nobody can tell."""
    places = [place for each in things for place in each.places]
    spaces = [find_space(sight.spaces, where)[0] for where, _ in places]
    named = find_space(sight.spaces, claim.space)[0] if claim.space else None
    known = [each for each in spaces if each is not None]
    sure = named is not None and known and len(known) == len(spaces)
    if named is not None and sure and all(apart(sight, named, each, near=claim.near) for each in known):
        return f"{'near' if claim.near else 'in'} the {named.name}"
    side = claim.side or _side_before(claim.space)
    by_space = list(zip(places, spaces, strict=True))
    there = [place for place, space in by_space if named is not None and space == named]
    there = there or [place for place, space in by_space if _there(sight, named, space)]
    sides = {of for _, of in there}
    if side and sides and sides <= _OTHER.keys() and side not in sides:
        return f"to {side}"
    return ""


def _there(sight: Sight, named: Space | None, space: Space | None) -> bool:
    return named is None or space is None or not apart(sight, named, space)


def _side_before(space: str) -> str:
    first = space.partition(" ")[0]
    return first if first in _OTHER else ""
