"""The things aboard that may be dated: each with its name, its block, the kind it is of and whose values decide about it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from generator.manual.naming import COOKING_GAS, in_bag_named, lifejackets_of_size, release_named
from generator.manual.printing import Name
from generator.reading.block import Block
from generator.shelves.lives import Kind, kind_of


@dataclass(frozen=True)
class Thing:
    """`called` is the boat's own word for it or the program's, `owners` are the blocks asked in turn for what a rule needs."""

    called: Name
    block: Block
    kind: Kind
    owners: tuple

    @property
    def name(self) -> str:
        """What findings call it."""
        return str(self.called)


def things_of(vessel) -> Iterator[Thing]:
    """The things of a vessel that a kind is known for, in the order of her file."""
    for raft in vessel.rafts:
        yield from _thing("service", str(raft.name), raft.service, vessel, raft)
        yield from _thing("release", release_named(raft), raft.release, vessel, raft)
    for each in vessel.radio.sets if vessel.radio else ():
        yield from _thing("set", str(each.what), each, vessel)
    for each in vessel.radio.beacons if vessel.radio else ():
        yield from _thing("beacon", str(each.what), each, vessel)
    for item in vessel.gear:
        yield from _thing("gear", str(item.what), item, vessel)
    for each in vessel.lifejackets:
        yield from _thing("lifejackets", lifejackets_of_size(each), each, vessel)
    for bag in vessel.grab_bags:
        for item in bag.items:
            yield from _thing("gear", in_bag_named(item), item, vessel, own=str(item.what), at=bag)
    yield from _thing("gas", COOKING_GAS, vessel.gas, vessel)
    for each in vessel.through_hulls:
        yield from _thing("through-hull", str(each.what), each, vessel)


def _thing(sort, called: Name, block, vessel, raft=None, own="", at=None):
    """The thing, if a kind is known for what the boat herself calls it."""
    owners = (block, raft or at, vessel.vessel)
    kind = (
        kind_of(sort, own or (called if isinstance(called, str) else ""), owners)
        if block is not None
        else None
    )
    if kind is not None:
        yield Thing(called, block, kind, owners)
