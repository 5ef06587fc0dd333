"""Her things in words: wherever a sentence says where one of them is, it says so as the thing's own entry does."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import TYPE_CHECKING

from generator.checks.words.aboard import kinds_meant
from generator.checks.words.claims import RELEASE, Claim, claims_in, gear_without_a_verb
from generator.checks.words.places import another, apart, names_of_spaces
from generator.manual.drawing.spaces import find_space
from generator.manual.own_words import APART, called, listed
from generator.manual.sieves import names_alike
from generator.reading.block import Block
from generator.reading.fields import One
from generator.reading.nearest import shortened
from generator.reading.worded import ROLE, SIGNAL
from generator.shelves.gear import before_comma, kind_of, kinds
from generator.shelves.gear_rows import FETCHED
from generator.shelves.spaces import BELOW
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    LIFE,
    RECOMMENDATION,
    Finds,
    Sight,
    at,
    check,
)
from generator.survey.sight import once
from generator.vessel.alarms import Alarm
from generator.vessel.fittings import Located
from generator.vessel.gear import Gear, GrabBag, GrabItem, Lifejackets, Tender
from generator.vessel.installed import Battery, Gas, Pump, Stop, ThroughHull
from generator.vessel.medical import Medical
from generator.vessel.radio import Beacon, RadioSet
from generator.vessel.raft import Raft, Release

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.manual.drawing.spaces import Space
    from generator.reading.findings import Place

_OTHER = {"port": "starboard", "starboard": "port"}


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


@check("words.elsewhere", LIFE, COMMON_PRACTICE, COMPOSITION)
def words_send_to_where_things_are(sight: Sight) -> Finds:
    """Words that say where a thing of hers is say the space, the side and the bag of its own entry.

    Why: of two places for what saves somebody runs to the wrong one first, and there is no time for the second.
    Remedy: go and look, and correct the one that is wrong.
    """
    called_so = by_single_name(sight)
    names = names_alike(tuple(sorted({name for each in things_of(sight) for name in each.names})))
    spaces = names_of_spaces(sight)
    for said in sight.own_words:
        if said.says in (ROLE, SIGNAL) or said.names_itself:
            continue
        text = said.meant
        for claim in (*claims_in(text, names, spaces), *gear_without_a_verb(text)):
            meant = called_so.get(single(claim.name), ())
            if not meant or any(each.block is said.block for each in meant):
                continue
            wrong = _not_in_the_bag(claim, meant, sight) if claim.bag else _wrong(sight, claim, meant)
            if wrong:
                life = any(saves(each.block) for each in meant)
                yield at(
                    said.block,
                    said.field.key,
                    f"'{shortened(said.text)}' has {plainly(claim.name)} {wrong}, and {_own(meant[0])}",
                    item=said.block.path,
                    also=tuple(each.place for each in meant),
                    weight=None if life else RECOMMENDATION,
                )
                break


def plainly(name: str) -> str:
    """What a claim is of, as a finding says it: the EPIRB, the grab bag."""
    return f"the {name.upper() if name in _LETTERS else name}"


_LETTERS = frozenset(("epirb", "plb", "sart", "vhf", "ais", "mf/hf"))


def _own(thing: Told) -> str:
    """What the entry of a thing says of its place."""
    block = thing.block
    spot = block.__dict__.get("spot")
    said = (
        ", ".join(each for each in (*thing.places[0], spot) if isinstance(each, str) and each)
        if thing.places
        else ""
    )
    return f"its own entry says: {said}" if said else "its own entry has it elsewhere"


_SAVE = (
    Raft,
    Release,
    Stop,
    Alarm,
    Lifejackets,
    RadioSet,
    Beacon,
    GrabBag,
    Pump,
    Gas,
    Medical,
    ThroughHull,
    Located,
)


def saves(block: Block) -> bool:
    """Whether a life hangs on finding a thing: what stops, floats, calls, pumps or puts out; not the spare bulb."""
    if not isinstance(block, (Gear, GrabItem)):
        return isinstance(block, _SAVE)
    kind = kind_of(block.what)
    return block.__dict__.get("kind") in FETCHED or (kind is not None and kind.purpose in FETCHED)


def _not_in_the_bag(claim: Claim, things: list[Told], sight: Sight) -> str:
    """The bag that a claim has a thing in, where no line of its list and no spot puts it there."""
    last = single(claim.name).split()[-1]
    for bag in sight.vessel.grab_bags:
        if any(last in single(str(item.what)).replace(",", " ").split() for item in bag.items):
            return ""
    for each in things:
        spot = str(each.block.__dict__.get("spot") or "").lower()
        if isinstance(each.block, (GrabItem, GrabBag)) or "bag" in spot or not each.places:
            return ""
    return f"in the {claim.bag}" if sight.vessel.grab_bags else ""


@once
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
        for block, names, place in (*_parts(sight), *_fire_port(sight), *_spare_cords(sight), *_boxes(sight))
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
    hoist = vessel.recovery.hoist if vessel.recovery else None
    if isinstance(hoist, Located) and hoist.where:
        yield hoist, called("hoist"), None
    gas = vessel.gas
    if gas and isinstance(gas.bottles, str):
        yield gas, called("gas-bottles"), (gas.bottles, "")
    for raft in vessel.rafts:
        if isinstance(raft.knife, Located) and raft.knife.where:
            yield raft.knife, called("raft-knife"), None
        if raft.release is not None:
            yield raft.release, called("release"), None
    for item in vessel.gear:
        if isinstance(item.released_from, Located) and item.released_from.where:
            named = (*_names(item), *called("released-extinguisher"))
            yield item.released_from, tuple(f"{RELEASE}{name}" for name in named), None


def _boxes(sight: Sight) -> Iterator[tuple[Block, tuple[str, ...], tuple[str, str] | None]]:
    """Bags and boxes that have no line of their own: each by a thing that lies in it, whose place is theirs."""
    own = {before_comma(said).lower() for _, said in sight.texts("what")}
    for block, spot in sight.texts("spot"):
        found = _BOX.fullmatch(spot.lower())
        if found and found[1] not in own and isinstance(block.__dict__.get("where"), str):
            yield block, (found[1],), (str(block.__dict__["where"]), str(block.__dict__.get("side") or ""))


_BOX = re.compile(r"in the ((?!grab )(?:[a-z-]+ ){1,3}(?:bag|box|case|bin|basket))")


def _spare_cords(sight: Sight) -> Iterator[tuple[Block, tuple[str, ...], tuple[str, str] | None]]:
    """The spare kill cords, which stand with the cords themselves."""
    for stop in sight.vessel.stops:
        if isinstance(stop.spare, Located) and isinstance(stop.spare.where, str):
            yield stop.spare, called("spare-kill-cord"), None


def _fire_port(sight: Sight) -> Iterator[tuple[Block, tuple[str, ...], tuple[str, str] | None]]:
    """The fire port, which stands with the particulars."""
    vessel = sight.vessel
    port = vessel.vessel.fire_port_place if vessel.vessel else None
    if isinstance(port, Located) and port.where:
        yield port, called("fire-port"), None


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
        return _names_of_a_hole(own)
    if isinstance(block, Alarm):
        return called(f"alarm.{block.what}")
    if isinstance(block, Battery):
        return (f"{own} batteries", f"{own} battery")
    kind_of = next((name for name, of in _BLOCKS.items() if isinstance(block, of)), "")
    container = (str(block.container),) if isinstance(block, Raft) and block.container else ()
    return (own, *container, *called(kind_of)) if kind_of else ()


_HOLE = re.compile(r" (?:inlet|outlet|drain|intake|discharge|seacock|valve|through-hull)$")


@lru_cache(maxsize=1024)
def _names_of_a_hole(name: str) -> tuple[str, ...]:
    """What people call a hole in the hull: its name, and the seacock of what it serves."""
    serves = _HOLE.sub("", name.lower())
    if serves == name.lower():
        return (name, f"{serves} seacock")
    return (
        name,
        f"{serves} seacock",
        f"seacock of the {serves}",
        f"seacock for the {serves}",
        f"{serves} valve",
    )


_BLOCKS: dict[str, type[Block]] = {"bags": GrabBag, "raft": Raft, "tender": Tender, "medical": Medical}


def _places(block: Block) -> Iterator[tuple[str, str]]:
    """Space and side of a thing and of its parts; what they say of no space is ("", side)."""
    yield str(block.__dict__.get("where") or ""), str(block.__dict__.get("side") or "")
    if isinstance(block, Alarm):
        yield from (
            (str(space), "")
            for space in (*block.watches, *block.sounds_in)
            if space not in called("no-place-to-look")
        )
    for name in _parts_of(type(block)) if not isinstance(block, Raft) else ():
        part = block.__dict__.get(name)
        if isinstance(part, Located) and isinstance(part.where, str):
            yield part.where, str(part.side or "")


_PARTS: dict[type[Block], tuple[str, ...]] = {}


def _parts_of(kind: type[Block]) -> tuple[str, ...]:
    """The attributes of a kind of block that hold parts with a place of their own."""
    if kind not in _PARTS:
        fields = (field for field in kind.fields.values() if isinstance(field, One))
        _PARTS[kind] = tuple(field.name for field in fields if issubclass(field.block, Located))
    return _PARTS[kind]


@once
def by_single_name(sight: Sight) -> dict[str, list[Told]]:
    """The things of hers that a name may mean: those called so; by a short one, those whose names end so."""
    found: dict[str, list[Told]] = {}
    short: dict[str, list[Told]] = {each: [] for each in called("short")}
    for thing in things_of(sight):
        names = dict.fromkeys(map(single, thing.names))
        for name in names:
            found.setdefault(name, []).append(thing)
        for name in {each.split()[-1] for each in names if each.split()}:
            if name in short:
                short[name].append(thing)
    return found | short


@lru_cache(maxsize=8192)
def single(name: str) -> str:
    """A name as names are compared: small, without the ending of the plural."""
    return name.lower().replace("-", " ").rstrip("s")


def _wrong(sight: Sight, claim: Claim, things: list[Told]) -> str:
    """The space or side that a claim says and none of the things is at; "" where one of them is, or where nobody can tell."""
    places = [place for each in things for place in each.places]
    spaces = [find_space(sight.spaces, where)[0] for where, _ in places]
    named = find_space(sight.spaces, claim.space)[0] if claim.space else None
    known = [each for each in spaces if each is not None]
    sure = named is not None and known and len(known) == len(spaces)
    if named is not None and sure and all(_differ(sight, claim, each, named) for each in known):
        return f"{'near' if claim.near else 'in'} the {named.name}"
    if named is not None and claim.of and named not in known and _by_another_piece(claim, things):
        return f"at the {named.name} {claim.of}"
    side = claim.side or _side_before(claim.space)
    by_space = list(zip(places, spaces, strict=True))
    there = [place for place, space in by_space if named is not None and space == named]
    there = there or [place for place, space in by_space if _there(sight, named, space)]
    sides = {of for _, of in there}
    if side and sides and sides <= _OTHER.keys() and side not in sides:
        return f"to {side}"
    return ""


def _by_another_piece(claim: Claim, things: list[Told]) -> bool:
    """Whether a claim has a thing by furniture or steps of one space, and its entry by other ones of another."""
    spots = [str(each.block.__dict__.get("spot") or "").lower() for each in things]
    pieces = [set(re.findall(r"[a-z]+", spot)) & _pieces() for spot in spots]
    stem = claim.of.rstrip("s")
    return all(pieces) and not any(stem in spot for spot in spots)


@cache
def _pieces() -> frozenset[str]:
    return listed("reads.fixtures") | {"steps", "step", "ladder", "stairs"}


def _differ(sight: Sight, claim: Claim, here: Space, named: Space) -> bool:
    """Whether a thing of one space is not where a claim has it: apart from there, or in another room or cell that touches it."""
    if claim.below and here.level != BELOW and (here.stows or here.open_deck):
        return True
    if not claim.near and (_room_and_locker(here, named) or _room_and_locker(named, here)):
        return True
    return apart(sight, named, here, near=claim.near) or (
        not claim.near and another(sight, here, named, "in")
    )


def _room_and_locker(room: Space, locker: Space) -> bool:
    """Whether of two spaces one is a room below, the other a locker that is opened from deck, whatever lies over what."""
    return (
        room.always
        and room.level == BELOW
        and locker.level != BELOW
        and bool(locker.stows)
        and not locker.own
    )


def _there(sight: Sight, named: Space | None, space: Space | None) -> bool:
    return named is None or space is None or not apart(sight, named, space)


def _side_before(space: str) -> str:
    first = space.partition(" ")[0]
    return first if first in _OTHER else ""
