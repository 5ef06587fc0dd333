"""Keys and words of a vessel file by the names under which shelves refer to them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.vessel.gear import Gear, Lifejackets
from generator.vessel.installed import Gas, ThroughHull
from generator.vessel.particulars import Deferred, Drill, Particulars, Signed
from generator.vessel.people import Voyage
from generator.vessel.radio import Beacon, RadioSet
from generator.vessel.raft import Raft, Release, Service, Slip

if TYPE_CHECKING:
    from collections.abc import Mapping

    from generator.reading.block import Block

_BLOCKS: Mapping[str, type[Block]] = {
    "beacon": Beacon,
    "deferral": Deferred,
    "drill": Drill,
    "gas": Gas,
    "gear": Gear,
    "lifejackets": Lifejackets,
    "raft": Raft,
    "release": Release,
    "service": Service,
    "set": RadioSet,
    "slip": Slip,
    "through-hull": ThroughHull,
    "vessel": Particulars,
    "voyage": Voyage,
    "walk-round": Signed,
}


def keys_and_words() -> dict[str, tuple[str, ...]]:
    """By "key of raft" and so on the keys, by "word of raft.standard" and so on the words that the key takes."""
    known: dict[str, tuple[str, ...]] = {}
    for name, block in _BLOCKS.items():
        known[f"key of {name}"] = tuple(block.fields)
        for key, field in block.fields.items():
            choices = getattr(field, "choices", None)
            if choices:
                known[f"word of {name}.{key}"] = tuple(choices)
    return known
