"""The things aboard that may be dated: each with its name, its block, the kind it is of and whose values decide about it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.manual.naming import (
    COOKING_GAS,
    THE_VOYAGE,
    WALK_ROUND,
    alarms_named,
    in_bag_named,
    lifejackets_of_size,
    release_named,
)
from generator.manual.printing import Name
from generator.reading.block import Block
from generator.reading.values import known
from generator.shelves.gear import lasting
from generator.shelves.lives import Kind, kind_of
from generator.vessel.gear import Gear, GrabBag, GrabItem, gear_kind

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from generator.vessel.particulars import Drill
    from generator.vessel.raft import Raft
    from generator.vessel.vessel import Vessel

Owners = tuple[Block | None, ...]


@dataclass(eq=False, slots=True)
class Thing:
    """`called` is the boat's own word for it or the program's; `kept` is the block that the gear list and the rule sets know it by: itself,
    or what it is a part of. `owners` are the blocks asked in turn for the values a rule depends on.
    """

    called: Name
    block: Block
    kind: Kind
    kept: Block
    owners: Owners

    @property
    def name(self) -> str:
        """What findings call it."""
        return str(self.called)


def things_of(vessel: Vessel) -> Iterator[Thing]:
    """The things of a vessel that a kind is known for, in the order of her file."""
    for raft in vessel.rafts:
        yield from _thing("service", str(raft.name), raft.service, vessel, raft)
        yield from _thing("release", release_named(raft), raft.release, vessel, raft)
        yield from _thing("slip", str(raft.name), raft.slip, vessel, raft)
    for each in vessel.radio.sets if vessel.radio else ():
        yield from _thing("set", str(each.what), each, vessel)
    for beacon in vessel.radio.beacons if vessel.radio else ():
        yield from _thing("beacon", str(beacon.what), beacon, vessel)
    for item in vessel.gear:
        yield _gear(str(item.what), item, vessel)
    yield from _alarms(vessel)
    for jackets in vessel.lifejackets:
        yield from _thing("lifejackets", lifejackets_of_size(jackets), jackets, vessel)
    for bag in vessel.grab_bags:
        for packed in bag.items:
            yield _gear(in_bag_named(packed), packed, vessel, bag)
    yield from _thing("gas", COOKING_GAS, vessel.gas, vessel)
    for hole in vessel.through_hulls:
        yield from _thing("through-hull", str(hole.what), hole, vessel)
    for drill in last_drills(vessel):
        yield from _thing("drill", str(drill.emergency), drill, vessel)
    yield from _thing("walk-round", WALK_ROUND, vessel.checked_aboard, vessel)
    yield from _thing("voyage", THE_VOYAGE, vessel.voyage, vessel)


def last_drills(vessel: Vessel) -> list[Drill]:
    """The last drill of each emergency that was drilled on a known day."""
    last: dict[str, tuple[date, Drill]] = {}
    for drill in vessel.drills:
        day = known(drill.date)
        if day is not None and isinstance(drill.emergency, str):
            before = last.get(drill.emergency)
            if before is None or day.last_day > before[0]:
                last[drill.emergency] = day.last_day, drill
    return [drill for _, drill in last.values()]


def deferral(called: Name, block: Block, vessel: Vessel) -> Iterator[Thing]:
    """A deferral, of a thing that is `called` so; `block` says until when."""
    yield from _thing("deferral", called, block, vessel)


def _alarms(vessel: Vessel) -> Iterator[Thing]:
    """The alarms; each lasts as the kind of gear it is."""
    for called, alarm in alarms_named(vessel.alarms):
        if alarm.gear_kind is not None:
            kind = lasting(alarm.gear_kind.name, alarm.gear_kind)
            yield Thing(called, alarm, kind, alarm, (alarm, vessel.vessel))


def _thing(
    sort: str, called: Name, block: Block | None, vessel: Vessel, raft: Raft | None = None
) -> Iterator[Thing]:
    if block is None:
        return
    owners = (block, raft, vessel.vessel)
    kind = kind_of(sort, owners)
    if kind is not None:
        yield Thing(called, block, kind, raft or block, owners)


def _gear(called: Name, block: Gear | GrabItem, vessel: Vessel, bag: GrabBag | None = None) -> Thing:
    owners = (block, bag, vessel.vessel)
    return Thing(called, block, lasting(str(block.what), gear_kind(block)), bag or block, owners)
