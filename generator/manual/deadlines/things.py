"""The things aboard that may be dated: each with its name, its block, the kind it is of and whose values decide about it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from generator.reading.block import Block
from generator.shelves.lives import Kind, kind_of


@dataclass(frozen=True)
class Thing:
    """`name` is what findings and lists call it, `owners` are the blocks asked in turn for the values a rule depends on."""

    name: str
    block: Block
    kind: Kind
    owners: tuple


def things_of(vessel) -> Iterator[Thing]:
    """The things of a vessel that a kind is known for, in the order of her file."""
    for raft in vessel.rafts:
        yield from _thing("service", str(raft.name), raft.service, vessel, raft)
        yield from _thing("release", f"{raft.name}: HRU", raft.release, vessel, raft)
    for each in vessel.radio.sets if vessel.radio else ():
        yield from _thing("set", str(each.what), each, vessel)
    for each in vessel.radio.beacons if vessel.radio else ():
        yield from _thing("beacon", str(each.what), each, vessel)
    for item in vessel.gear:
        yield from _thing("gear", str(item.what), item, vessel)
    for each in vessel.lifejackets:
        yield from _thing("lifejackets", f"{each.size} lifejackets", each, vessel)
    for bag in vessel.grab_bags:
        for item in bag.items:
            yield from _thing("gear", f"grab bag: {item.what}", item, vessel, called=str(item.what), at=bag)
    yield from _thing("gas", "cooking gas", vessel.gas, vessel)
    for each in vessel.through_hulls:
        yield from _thing("through-hull", str(each.what), each, vessel)


def _thing(sort, name, block, vessel, raft=None, called="", at=None):
    owners = (block, raft or at, vessel.vessel)
    kind = kind_of(sort, called or name, owners) if block is not None else None
    if kind is not None:
        yield Thing(name, block, kind, owners)
