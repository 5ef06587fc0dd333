"""The bag or box that words name with a space lies in that space, as what is kept in it says."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.checks.words.places import apart
from generator.manual.drawing.spaces import find_space
from generator.reading.nearest import shortened
from generator.survey.placing import space_of
from generator.survey.registry import COMMON_PRACTICE, COMPOSITION, LIFE, Finds, Sight, at, check

if TYPE_CHECKING:
    from generator.manual.drawing.spaces import Space
    from generator.reading.block import Block

_KEPT = re.compile(r"^in the ((?:[a-z-]+ ){1,3}(?:bag|box|bin|case|chest|drum|barrel|canister))$")
_THERE = re.compile(
    r"\bin the ((?:[a-z-]+ ){1,3}(?:bag|box|bin|case|chest|drum|barrel|canister)),? "
    r"(?:(?:which )?(?:is|lies|hangs|stands) )?(?:in|at|on|under) (?:the |a )?([a-z][a-z -]*[a-z])"
)


@check("words.box-elsewhere", LIFE, COMMON_PRACTICE, COMPOSITION)
def a_box_is_where_its_things_are(sight: Sight) -> Finds:
    """Where words send somebody to a bag or box in a space, the things that are kept in it are in that space.

    Why: water comes in by the hole while somebody empties the lazarette for a plug that hangs in the bag at the chart table.
    Remedy: go and look where the bag hangs, and write the same space in the words and in 'where' of what is in it.
    """
    boxes: dict[str, list[tuple[Block, Space]]] = {}
    for said in sight.own_words:
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
    for block in sight.blocks:
        spot = block.__dict__.get("spot")
        match = _KEPT.match(spot.lower()) if isinstance(spot, str) else None
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
