"""The things aboard that may be dated: each with its name, its block, the kind it is of and whose values decide about it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.reading.block import Block
from generator.shelves.lives import Kind, kind_of, kind_of_gear
from generator.vessel.gear import Gear, GrabBag, GrabItem, gear_kind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.vessel.raft import Raft
    from generator.vessel.vessel import Vessel

Owners = tuple[Block | None, ...]


@dataclass(frozen=True, eq=False)
class Thing:
    """`name` is what findings and lists call it; `kept` is the block that the gear list and the rule sets know it by: itself,
    or what it is a part of. `owners` are the blocks asked in turn for the values a rule depends on.
    """

    name: str
    block: Block
    kind: Kind
    kept: Block
    owners: Owners


def things_of(vessel: Vessel) -> Iterator[Thing]:
    """The things of a vessel that a kind is known for, in the order of her file."""
    for raft in vessel.rafts:
        yield from _thing("service", str(raft.name), raft.service, vessel, raft)
        yield from _thing("release", f"{raft.name}: HRU", raft.release, vessel, raft)
    for each in vessel.radio.sets if vessel.radio else ():
        yield from _thing("set", str(each.what), each, vessel)
    for beacon in vessel.radio.beacons if vessel.radio else ():
        yield from _thing("beacon", str(beacon.what), beacon, vessel)
    for item in vessel.gear:
        yield _gear(str(item.what), item, vessel)
    for jackets in vessel.lifejackets:
        yield from _thing("lifejackets", f"{jackets.size} lifejackets", jackets, vessel)
    for bag in vessel.grab_bags:
        for packed in bag.items:
            yield _gear(f"grab bag: {packed.what}", packed, vessel, bag)
    yield from _thing("gas", "cooking gas", vessel.gas, vessel)
    for hole in vessel.through_hulls:
        yield from _thing("through-hull", str(hole.what), hole, vessel)


def _thing(
    sort: str, name: str, block: Block | None, vessel: Vessel, raft: Raft | None = None
) -> Iterator[Thing]:
    if block is None:
        return
    owners = (block, raft, vessel.vessel)
    kind = kind_of(sort, owners)
    if kind is not None:
        yield Thing(name, block, kind, raft or block, owners)


def _gear(name: str, block: Gear | GrabItem, vessel: Vessel, bag: GrabBag | None = None) -> Thing:
    owners = (block, bag, vessel.vessel)
    return Thing(name, block, kind_of_gear(str(block.what), gear_kind(block)), bag or block, owners)
