"""Lines that stand twice in the file, word for word."""

from __future__ import annotations

import re
from collections import Counter
from typing import TYPE_CHECKING

from generator.reading.block import Block
from generator.survey.registry import COMMON_PRACTICE, TRUTH, Finds, Sight, at, check
from generator.vessel.deck import Hatch, Way
from generator.vessel.deck import Space as OwnSpace
from generator.vessel.fittings import Fitting
from generator.vessel.gear import GrabBag, GrabItem, Lifejackets
from generator.vessel.installed import Battery, Engine, Pump, Stop, ThroughHull
from generator.vessel.particulars import Contact

if TYPE_CHECKING:
    from collections.abc import Iterator

LINES = (
    GrabItem,
    GrabBag,
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
    lines = sight.all_of(*LINES)
    named = list(map(_kind_and_name, lines))
    often = Counter(named)
    seen: dict[tuple[str, ...], Block] = {}
    for block, name_of in zip(lines, named, strict=True):
        if often[name_of] == 1:
            continue  # whatever else is said of it, no other line says the same
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


def _kind_and_name(block: Block) -> tuple[type[Block], str]:
    """What tells a line from most others at once."""
    kind = type(block)
    return kind, str(block.__dict__.get(kind.called)) if kind.called else ""


def _told(block: Block) -> Iterator[str]:
    """All that the file says of a thing."""
    for key, field in type(block).fields.items():
        value = block.__dict__.get(field.name)
        parts = value if isinstance(value, (tuple, list)) else (value,)
        if value is not None:
            yield f"{key}: {', '.join(' '.join(_told(each)) if isinstance(each, Block) else str(each) for each in parts)}"
