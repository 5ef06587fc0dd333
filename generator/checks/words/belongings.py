"""What a name, a spot and a line alike say of things: beside what they are kept, in which box, and whether they are told twice."""

from __future__ import annotations

import re
from functools import cache, lru_cache
from typing import TYPE_CHECKING

from generator.checks.words.places import FAR, apart, one_of
from generator.manual.drawing.spaces import dimensions_m
from generator.manual.own_words import called
from generator.reading.block import Block
from generator.reading.nearest import folded, shortened
from generator.shelves.spaces import BELOW, FOR_GEAR
from generator.survey.places import space_at
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    LIFE,
    RECOMMENDATION,
    TRUTH,
    Finds,
    Sight,
    at,
    check,
)
from generator.vessel.alarms import Alarm
from generator.vessel.deck import Hatch, Way
from generator.vessel.deck import Space as OwnSpace
from generator.vessel.fittings import Fitting, Kept
from generator.vessel.gear import Gear, GrabBag, GrabItem, Lifejackets
from generator.vessel.installed import Battery, Engine, Pump, Stop, ThroughHull
from generator.vessel.particulars import Contact
from generator.vessel.radio import Beacon, RadioSet

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.manual.drawing.spaces import Space

PLACED = (Gear, GrabBag, Lifejackets, RadioSet, Beacon, Pump, Stop, Battery, ThroughHull, Alarm, Kept)
"""What lies somewhere and is called something."""
_NOT_WHERE_IT_IS = re.compile(
    r"\b(?:for|from|to|of|serves|and|both|spare|than|towards?)(?: (?:the|each|every|all))? $"
)
"""What stands before a space that a thing serves and need not lie in."""
_FIXTURES: tuple[tuple[str, str], ...] = (
    ("cooker|stove|oven|hob", "cooking"),
    ("toilet|bowl", "heads"),
    ("wheel|helmsman|throttle|throttles", "steering"),
    ("washboards", "companionway"),
    ("chart drawer|chart table", "chart table"),
)
"""What is built into one sort of space alone, as spots and ways of opening name it, and into which."""
_OF_A_HOLE = (("galley|sink", "cooking"), ("heads", "heads"), ("engine", "engine"))
"""What the name of a hole in the hull says it serves."""


@check("words.name-elsewhere", LIFE, COMMON_PRACTICE, COMPOSITION)
def things_lie_where_their_names_say(sight: Sight) -> Finds:
    """A thing whose name or spot names a space, or what is built into one alone, lies there and not elsewhere in the boat.

    Why: whoever reads "fire extinguisher, galley" or "beside the cooker" runs there, and the thing hangs in the forepeak.
    Remedy: go and look; correct the name, the spot or 'where', whichever is wrong.
    """
    least_m = 0.25 * FAR * dimensions_m(sight.vessel)[0]  # shorter is no place to go to by its name: the mast
    rooms = {
        space.name.lower(): space for space in sight.spaces.values() if space.fore_m - space.aft_m >= least_m
    }
    for block in sight.blocks:
        if isinstance(block, (*PLACED, Hatch)):
            here = space_at(sight, getattr(block, "where", None))
            if here is not None:
                yield from _elsewhere(sight, block, here, rooms)


def _elsewhere(sight: Sight, block: Block, here: Space, rooms: dict[str, Space]) -> Finds:
    for key, words, spaces in _implied(sight, block, rooms):
        if spaces and all(apart(sight, here, each, near=key == "what") for each in spaces):
            yield at(
                block,
                key,
                f"'{shortened(words)}' belongs to the {spaces[0].name}, and where says {here.name}",
                item=block.path,
                also=(block.place("where"),),
                weight=RECOMMENDATION if isinstance(block, ThroughHull) else None,
            )
            return
    spot = block.__dict__.get("spot")
    if not isinstance(spot, str) or any(name in spot.lower() for name in rooms):
        return  # a space that it names is held against 'where' by itself
    if stands := _stands_elsewhere(spot.lower(), here):
        yield at(
            block,
            "spot",
            f"'{shortened(spot)}' is {stands}, and where says {here.name}",
            item=block.path,
            also=(block.place("where"),),
        )


def _stands_elsewhere(spot: str, here: Space) -> str:
    """Where the furniture that a spot names stands, if her space of the thing is no such place: bunks inside her, rails in the open."""
    if here.unlike:
        return ""
    inside = bool(_furniture(called("indoors")).search(spot))
    if inside == bool(_furniture(called("outdoors")).search(spot)):
        return ""
    if inside:
        under_a_roof = here.roofed or (here.level == BELOW and not here.engine)
        return "" if under_a_roof or (here.stows == FOR_GEAR and here.own) else "inside her"
    return "" if here.open_deck or here.inside or here.mark else "on the open deck"


@cache
def _furniture(names: tuple[str, ...]) -> re.Pattern[str]:
    """Finds what stands inside her alone, or in the open alone, where the words end with it or go on to say where that is."""
    return re.compile(
        rf"\b(?:{one_of(names)})(?=$|[,.;:)]| (?:under|on|beside|behind|below|above|at|by|in|and|over|to|of|with|aft|forward)\b)"
    )


def _implied(sight: Sight, block: Block, rooms: dict[str, Space]) -> Iterator[tuple[str, str, list[Space]]]:
    """(key, its words, the spaces one of which they mean) of a thing; `rooms` are those that a name may name."""
    hole = isinstance(block, ThroughHull)
    what, spot, how = (block.__dict__.get(key) for key in ("what", "spot", "how"))
    if isinstance(what, str) and not isinstance(block, (ThroughHull, Alarm, Stop)):
        named = _named_in(what.lower(), tuple(rooms))
        yield "what", what, [rooms[named]] if named else []
    for key, words, fixtures in (
        ("what", what if hole else None, _OF_A_HOLE),
        ("spot", spot, _FIXTURES),
        ("how", how if isinstance(block, Hatch) else None, _FIXTURES),
    ):
        for pattern, sort in fixtures if isinstance(words, str) else ():
            if re.search(rf"\b(?:{pattern})\b", str(words).lower()):
                yield key, str(words), _of_sort(sight, sort)


@lru_cache(maxsize=8192)
def _named_in(said: str, names: tuple[str, ...]) -> str:
    """The last space that a name names as its place; "" for none."""
    found = [
        match[1]
        for match in re.finditer(rf"\b({one_of(names)})\b", said)
        if not _NOT_WHERE_IT_IS.search(said[: match.start()])
    ]
    return found[-1] if found else ""


def _of_sort(sight: Sight, sort: str) -> list[Space]:
    """Her spaces of a sort; where she is steered is near the cockpit as well."""
    return [
        space
        for space in sight.spaces.values()
        if (sort == "cooking" and space.cooking)
        or (sort == "engine" and space.engine)
        or (sort == "steering" and (space.steering or space.name in ("cockpit", "wheelhouse")))
        or folded(space.name).endswith(sort)
    ]


_BOX = re.compile(
    r"^in the (?!grab bag)(?:(?:[\w'’-]+ ){1,3}(?:bag|box|case|chest|crate|drum|barrel|canister|tin|holdall|pouch|kit|pack)"
    r"|(?:bag|box|case|chest|crate|drum|locker) (?:with|marked) (?:the |a )?.+|(?:bag|box|case|chest) (?:beside|at|by) the .+)$"
)
"""A box of its own, called by more than its kind: of bags beside things there are many, of the orange flare box there is one. What is in a
grab bag is asked of by the checks of the bag."""


@check("words.one-box", LIFE, COMMON_PRACTICE)
def one_box_has_one_place(sight: Sight) -> Finds:
    """Things that are kept in one bag or box lie in one space, on one side; of twins each side may have its own box.

    Why: whoever is sent for the flares runs to the one place, and the box they are in stands in the other.
    Remedy: go and look where the box is, and write that under 'where' and 'side' of everything in it.
    """
    boxes: dict[str, list[Block]] = {}
    for block in sight.blocks:
        spot = block.__dict__.get("spot")
        if (
            isinstance(spot, str)
            and _BOX.match(spot.lower())
            and isinstance(block.__dict__.get("where"), str)
        ):
            boxes.setdefault(spot.lower(), []).append(block)
    for spot in sorted(boxes, key=len):
        fuller = [
            each for each in boxes if each != spot and each.endswith(f" {spot.removeprefix('in the ')}")
        ]
        if len(fuller) == 1:  # the flare box, elsewhere called the orange flare box
            boxes[fuller[0]] += boxes.pop(spot)
    for spot, kept in boxes.items():
        told = [_place(block) for block in kept]
        usual = max(told, key=told.count)
        first = kept[told.index(usual)]
        for block, place in zip(kept, told, strict=True):
            if _differ(place, usual) and not _one_each_side(sight, kept, place, usual):
                other, own = _said(usual), _said(place)
                yield at(
                    block,
                    "where" if place[0] != usual[0] else "side",
                    f"it lies {spot}, {own}; what else is said to lie {spot} is at: {other}",
                    item=block.path,
                    also=(first.place("where"),),
                )


def _place(block: Block) -> tuple[str, str]:
    side = block.__dict__.get("side")
    return folded(str(block.__dict__["where"])), side if isinstance(side, str) else ""


_SIDES = re.compile(r"\b(port|starboard)\b")
_TO_THE_OTHER_SIDE = {"port": "starboard", "starboard": "port"}


def _mirrored(words: str) -> str:
    """The same words of the other side."""
    return _SIDES.sub(lambda found: _TO_THE_OTHER_SIDE[found[0]], words)


def _one_each_side(sight: Sight, kept: list[Block], place: tuple[str, str], usual: tuple[str, str]) -> bool:
    """Whether there are two boxes alike, as beside twin engines: in spaces of both sides, or each with the other's things in it."""
    if (_mirrored(place[0]), _mirrored(place[1])) != usual and (_mirrored(place[0]), place[1]) != usual:
        return False
    here = space_at(sight, place[0])
    if place[0] != usual[0] or (here is not None and here.paired):
        return True
    own, other = (
        {
            _SIDES.sub("", str(block.__dict__.get(type(block).called) or block.path).lower())
            for block in kept
            if _place(block) == each
        }
        for each in (place, usual)
    )
    return bool(own & other)


_BESIDE_IT = re.compile(r"\b(?:beside|next to|with|under|on|above|behind) it\b")


@check("words.beside-it", TRUTH, COMMON_PRACTICE)
def what_is_beside_it_lies_on_its_side(sight: Sight) -> Finds:
    """A handle, a switch or a spare that is said to be kept beside its thing, in the same space, lies on the same side.

    Why: whoever kneels at the pump reaches beside it, and the handle hangs across the cockpit.
    Remedy: go and look; write where it really is kept, and take 'beside it' out of 'spot' where it is elsewhere.
    """
    for block in sight.blocks:
        if not isinstance(block, (Pump, Stop, Gear)):
            continue
        for part in block.__dict__.values():
            if not isinstance(part, Kept):
                continue
            spot = part.__dict__.get("spot")
            told = isinstance(spot, str) and block.known("where") and part.known("where")
            if not told or not _BESIDE_IT.search(str(spot).lower()):
                continue
            here, there = _place(block), _place(part)
            if here[0] == there[0] and _differ(here, there):
                yield at(
                    part,
                    "side",
                    f"'{shortened(str(spot))}' is said of what lies to {there[1]}, and the {block.__dict__[type(block).called]} is to {here[1]}",
                    item=block.path,
                    also=(block.place("side"),),
                )


def _said(place: tuple[str, str]) -> str:
    """A place as a finding says it."""
    return ", ".join(filter(None, place))


def _differ(one: tuple[str, str], other: tuple[str, str]) -> bool:
    return one[0] != other[0] or (one[1] != other[1] and bool(one[1]) and bool(other[1]))


LINES = (
    GrabItem,
    Stop,
    Contact,
    Hatch,
    Battery,
    Way,
    Pump,
    ThroughHull,
    Engine,
    Lifejackets,
    OwnSpace,
    Fitting,
)
"""What a line of the file tells once."""


@check("words.told-twice", TRUTH, COMMON_PRACTICE)
def nothing_is_told_twice(sight: Sight) -> Finds:
    """No line stands twice in the file, word for word.

    Why: what is counted twice is there once: the second torch, the second water bottle, the second way out.
    Remedy: take one of the two out; of two alike that are both aboard write 'quantity: 2', or say in 'spot' where the second is.
    """
    seen: dict[tuple[str, ...], Block] = {}
    for block in sight.blocks:
        if not isinstance(block, LINES):
            continue
        told = (type(block).__name__, _ENTRY.sub("", block.path), *_told(block))
        if told in seen:
            name = str(getattr(block, type(block).called, "") or "") if type(block).called else ""
            yield at(
                block,
                "",
                f"{name or 'this line'} stands twice, word for word",
                item=name or block.path,
                also=(seen[told].place(),),
            )
        seen.setdefault(told, block)


_ENTRY = re.compile(r"\[[^\]]*\]$")
"""What tells an entry of a list from the others, at the end of its path."""


def _told(block: Block) -> Iterator[str]:
    """All that the file says of a thing."""
    for key, field in type(block).fields.items():
        value = block.__dict__.get(field.name)
        if value is not None:
            yield f"{key}: {' '.join(_told(value)) if isinstance(value, Block) else value}"


@check("words.other-carrier", TRUTH, COMMON_PRACTICE)
def whoever_it_is_called_after_carries_it(sight: Sight) -> Finds:
    """A beacon or a bag that is called somebody's, or lies in somebody's jacket, is carried by that person.

    Why: two count on one beacon, and whoever goes overboard has none.
    Remedy: look in whose jacket it is, and correct 'carried-by', or the words.
    """
    if not sight.roles:
        return
    owner = re.compile(rf"\b({one_of(tuple(role.lower() for role in sight.roles))})['’]s?\b")
    for block in sight.blocks:
        carrier = block.__dict__.get("carried_by") if isinstance(block, (Beacon, GrabBag)) else None
        if not isinstance(carrier, str) or carrier not in sight.roles:
            continue
        for key in ("what", "spot"):
            words = block.__dict__.get(key)
            if not isinstance(words, str):
                continue
            owners = owner.findall(words.lower())
            if owners and carrier.lower() not in owners:
                yield at(
                    block,
                    "carried-by",
                    f"'{shortened(words)}' is the {owners[0]}'s, and carried-by says {carrier}",
                    item=block.path,
                    also=(block.place(key),),
                )
                break
