"""Words of her own: they read in the step that prints them, and say no other side or space than the fields beside them."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.manual.printing import first_printer
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
from generator.vessel.fittings import Fitting, Located
from generator.vessel.gear import Placed
from generator.vessel.radio import Beacon, RadioSet
from generator.vessel.raft import Raft

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.reading.block import Block

_OTHER = {"port": "starboard", "starboard": "port"}
_TELLS_PLACE = ("spot", "where")


@check("words.no-thing", RECOMMENDATION, COMMON_PRACTICE, COMPOSITION)
def a_fitting_is_named_as_a_thing(sight: Sight) -> Finds:
    """What a step names as a thing or place reads so in its sentence.

    Why: "throw the raft into the water at straight aft over the stern" is read twice by somebody who has no time.
    Remedy: name the thing alone (what: the gate) and say the rest under where, side and spot.
    """
    no_thing = first_printer().say("reads.no-thing").split()
    for block in sight.vessel.inner():
        if not isinstance(block, Fitting) or not isinstance(block.what, str):
            continue
        first = block.what.partition(" ")[0].lower().strip(",")
        if first in no_thing:
            yield at(
                block,
                "what",
                f"'{block.what}' is no thing or place that a step can name: it begins with '{first}'",
                remedy=f"name what stands there, for example {_like(block)}",
                item=block.path,
            )


def _like(block: Fitting) -> str:
    """A fitting as it may be written under this key."""
    return f"{block.path.rpartition('.')[2]}: {{what: the gate, where: ..., side: port}}"


@check("words.other-side", DEFECT, COMMON_PRACTICE)
def words_say_no_other_side(sight: Sight) -> Finds:
    """The words for a thing's name and place say no other side than its field.

    Why: in the dark somebody goes to the side that the words say, and the thing lies on the other.
    Remedy: go and look, and correct the one that is wrong.
    """
    for block, side in _sided(sight):
        for key, words in _texts(block):
            named = set(re.findall(r"[a-z]+", words.lower()))
            if _OTHER[side] in named and side not in named:
                yield at(
                    block,
                    key,
                    f"'{words}' says {_OTHER[side]}, and side says {side}",
                    item=block.path,
                    also=(block.place("side"),),
                )


def _sided(sight: Sight) -> Iterator[tuple[Block, str]]:
    """Everything that lies to port or to starboard."""
    for block in sight.vessel.inner():
        if isinstance(block, (Placed, Located, Raft, RadioSet, Beacon)) and block.side in _OTHER:
            yield block, str(block.side)


def _texts(block: Block) -> Iterator[tuple[str, str]]:
    """What names a thing and its place in words, by its key."""
    for key in dict.fromkeys((type(block).called, "what", *_TELLS_PLACE)):
        field = type(block).fields.get(key)
        value = block.__dict__.get(field.name) if field else None
        if isinstance(value, str):
            yield key, value
