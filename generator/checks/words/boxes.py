"""One box has one place, and what is beside a thing is where that thing is."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from generator.checks.words.places import apart
from generator.manual.drawing.spaces import find_space
from generator.manual.own_words import called
from generator.manual.sieves import sieve
from generator.reading.nearest import folded, shortened
from generator.shelves.gear import before_comma
from generator.survey.places import space_at
from generator.survey.placing import space_of
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    HELP,
    LIFE,
    TRUTH,
    Finds,
    Sight,
    at,
    check,
    of,
)
from generator.vessel.fittings import Kept
from generator.vessel.gear import Gear
from generator.vessel.installed import Pump, Stop

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.manual.drawing.spaces import Space
    from generator.reading.block import Block
    from generator.survey.registry import Found

_KEPT = re.compile(r"^in the ((?:[a-z-]+ ){1,3}(?:bag|box|bin|case|chest|drum|barrel|canister))$")
_THERE = re.compile(
    r"\bin the ((?:[a-z-]+ ){1,3}(?:bag|box|bin|case|chest|drum|barrel|canister)),? "
    r"(?:(?:which )?(?:is|lies|hangs|stands) )?(?:in|at|on|under) (?:the |a )?([a-z][a-z -]*[a-z])"
)


@sieve
def _tells_where_a_box_is(text: str) -> bool:
    return _THERE.search(text.lower()) is not None


@check("words.box-elsewhere", LIFE, COMMON_PRACTICE, COMPOSITION)
def a_box_is_where_its_things_are(sight: Sight) -> Finds:
    """Where words send somebody to a bag or box in a space, the things that are kept in it are in that space.

    Why: water comes in by the hole while somebody empties the lazarette for a plug that hangs in the bag at the chart table.
    Remedy: go and look where the bag hangs, and write the same space in the words and in 'where' of what is in it.
    """
    boxes: dict[str, list[tuple[Block, Space]]] = {}
    for said in sight.words_through(_tells_where_a_box_is):
        found = _THERE.search(said.text.lower())
        if found is None:
            continue
        boxes = boxes or _boxes(sight)
        kept = [(block, space) for block, space in boxes.get(found[1], []) if block is not said.block]
        named = _space(sight, found[2])
        if named is None or not kept:
            continue
        if all(space is not named and apart(sight, space, named) for _, space in kept):
            block, space = kept[0]
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}': what is kept in the {found[1]} is in the {space.name}",
                item=said.block.path,
                also=(block.place("where"),),
            )


def _boxes(sight: Sight) -> dict[str, list[tuple[Block, Space]]]:
    """Bags and boxes by their name, with what is said to be in each and its space."""
    found: dict[str, list[tuple[Block, Space]]] = {}
    for block, spot in sight.texts("spot"):
        match = _KEPT.match(spot.lower())
        space = space_of(sight, block) if match else None
        if match and space is not None:
            found.setdefault(match[1], []).append((block, space))
    return found


def _space(sight: Sight, words: str) -> Space | None:
    """The space that words begin with, the longest name first."""
    parts = words.split()
    for number in range(min(len(parts), 3), 0, -1):
        space = find_space(sight.spaces, " ".join(parts[:number]))[0]
        if space is not None:
            return space
    return None


_BOX = re.compile(
    r"^in the (?!grab bag)(?:(?:[\w'’-]+ ){1,3}(?:bag|box|case|chest|crate|drum|barrel|canister|tin|holdall|pouch|kit|pack)"
    r"|(?:bag|box|case|chest|crate|drum|locker) (?:with|marked) (?:the |a )?.+|(?:bag|box|case|chest) (?:beside|at|by|under|below|beneath|behind|above|over|on) the .+)$"
)
"""A box of its own, called by more than its kind: of bags beside things there are many, of the orange flare box there is one. What is in a
grab bag is asked of by the checks of the bag."""


@lru_cache(maxsize=8192)
def _kept_in(spot: str) -> tuple[str, str, str]:
    """The box of its own in which something is kept, else how it lies at a piece of the room, and which; "" for what is not told."""
    spot = spot.lower()
    if _BOX.match(spot):
        return spot, "", ""
    found = _FIXED.match(spot)
    return ("", found[1], found[2]) if found else ("", "", "")


@check("words.one-box", LIFE, COMMON_PRACTICE)
def one_box_has_one_place(sight: Sight) -> Finds:
    """Things that are kept in one bag or box lie in one space, on one side; of twins each side may have its own box.

    Why: whoever is sent for the flares runs to the one place, and the box they are in stands in the other.
    Remedy: go and look where the box is, and write that under 'where' and 'side' of everything in it.
    """
    boxes: dict[str, list[Block]] = {}
    for block, spot in sight.texts("spot"):
        box, at_it, piece = _kept_in(spot)
        if box and isinstance(block.__dict__.get("where"), str):
            boxes.setdefault(box, []).append(block)
        elif piece and (room := _one_piece(sight, block)):
            boxes.setdefault(f"{at_it} the {piece} of the {room}", []).append(block)
    for spot in sorted(boxes, key=len):
        fuller = [
            each for each in boxes if each != spot and each.endswith(f" {spot.removeprefix('in the ')}")
        ]
        if len(fuller) == 1:  # the flare box, elsewhere called the orange flare box
            boxes[fuller[0]] += boxes.pop(spot)
    for spot, kept in boxes.items():
        entries = _entries(sight, spot)
        if entries:
            yield from _beside_their_box(sight, spot, kept, entries)
            continue
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


def _entries(sight: Sight, spot: str) -> list[Gear]:
    """The entries of the gear list that a box is, by the name before a comma: the first-aid kit, the flare box."""
    name = re.sub(r"^in the (?:(?:red|orange|yellow|green|blue|white|big|small|dry) )?", "", spot)
    return [item for item in sight.vessel.gear if before_comma(str(item.what)).lower().strip() == name]


def _beside_their_box(sight: Sight, spot: str, kept: list[Block], entries: list[Gear]) -> Iterator[Found]:
    """What is said to lie in a box that has an entry of its own, and is told of another space than any box of that name."""
    there = [space for each in entries if (space := space_of(sight, each)) is not None]
    for block in kept:
        here = space_of(sight, block)
        if here is None or block in entries or len(there) < len(entries) or here.unlike:
            continue
        if all(space is not here and apart(sight, here, space) for space in there):
            yield at(
                block,
                "where",
                f"it lies {spot}, in the {here.name}, and by its own entry that is in the {there[0].name}",
                item=block.path,
                also=tuple(each.place("where") for each in entries),
            )


_FIXED = re.compile(
    r"^(under|beneath|below|behind) (?:the )?(?:galley )?(sink|cooker|stove|oven|chart table|ice ?box|fridge|refrigerator)(?=$|[,.;]| (?:in|to|on|at|beside|near)\b)"
)
"""Under or behind what stands once in a space and on one side of it."""


def _one_piece(sight: Sight, block: Block) -> str:
    """The name of the space of a thing that is told to be to port or to starboard there; "" for one on both sides of the boat."""
    space = space_at(sight, block.__dict__.get("where"))
    sided = block.__dict__.get("side") in ("port", "starboard")
    return space.name if space is not None and sided and not (space.paired or space.unlike) else ""


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
    spots = {str(block.__dict__.get("spot")).lower() for block in kept}
    if spots and all(spot.endswith(called("each-side")) for spot in spots):
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


@sieve
def _beside_it(text: str) -> bool:
    return _BESIDE_IT.search(text.lower()) is not None


@check("words.beside-it", TRUTH, COMMON_PRACTICE)
def what_is_beside_it_lies_on_its_side(sight: Sight) -> Finds:
    """A handle, a switch or a spare that is said to be kept beside its thing, in the same space, lies on the same side.

    Why: whoever kneels at the pump reaches beside it, and the handle hangs across the cockpit.
    Remedy: go and look; write where it really is kept, and take 'beside it' out of 'spot' where it is elsewhere.
    """
    if not any(isinstance(said.block, Kept) for said in sight.words_through(_beside_it)):
        return
    for block in sight.all_of(Pump, Stop, Gear):
        if block.holding.isdisjoint(block.__dict__):
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


_BY_ANOTHER = re.compile(
    r"\b(?:in|inside|with|on|under|below|beneath|above|beside|next to|behind|by) the ([a-z][a-z -]*[a-z])(?=$|[,.;:)]| (?:and|on|in|at|by|to|with)\b)"
)


@sieve
def _by_another(text: str) -> bool:
    return _BY_ANOTHER.search(text.lower()) is not None


@check("words.by-another", HELP, COMMON_PRACTICE, COMPOSITION)
def what_is_by_another_thing_lies_in_its_space(sight: Sight) -> Finds:
    """Gear that is said to be in, under or beside another thing of the gear list lies in the same space, not behind a bulkhead or on deck.

    Why: whoever has found the first-aid kit looks below it for the defibrillator, and it hangs elsewhere.
    Remedy: go and look, and write of both the same 'where'; or take the other thing out of 'spot'.
    """
    if not sight.words_through(_by_another):
        return
    named: dict[str, list[Gear]] = {}
    for item in sight.vessel.gear:
        named.setdefault(before_comma(item.what).lower(), []).append(item)
    for item in sight.vessel.gear:
        found = _BY_ANOTHER.search(item.spot.lower()) if isinstance(item.spot, str) else None
        others = [each for each in named.get(found[1], ()) if each is not item] if found else []
        here, there = space_of(sight, item), space_of(sight, others[0]) if len(others) == 1 else None
        if here is None or there is None or here is there or here.own or there.own:
            continue
        if here.roofed != there.roofed or here.level != there.level or apart(sight, here, there):
            yield of(
                item,
                "where",
                f"it lies {item.spot}, and is in the {here.name}; the {found[1] if found else ''} is in the {there.name}",
                also=(others[0].place("where"),),
            )


def _said(place: tuple[str, str]) -> str:
    """A place as a finding says it."""
    return ", ".join(filter(None, place))


def _differ(one: tuple[str, str], other: tuple[str, str]) -> bool:
    return one[0] != other[0] or (one[1] != other[1] and bool(one[1]) and bool(other[1]))
