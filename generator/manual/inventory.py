"""The gear list: everything aboard that has a place, numbered once for list, plan, cards and site."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from generator.manual.naming import (
    UNNAMED,
    alarms_named,
    bags_named,
    batteries_named,
    lifejackets_named,
    stop_named,
)
from generator.manual.printing import Name, Phrase
from generator.reading.values import NotKnown, Quantity
from generator.shelves.gear import answers_to
from generator.vessel.alarms import Alarm
from generator.vessel.gear import GrabBag, Lifejackets, Placed
from generator.vessel.radio import Beacon, RadioSet
from generator.vessel.raft import Raft

if TYPE_CHECKING:
    from generator.reading.block import Block
    from generator.reading.findings import Place
    from generator.vessel.vessel import Vessel

_Block = Placed | RadioSet | Beacon | Raft
_Row = tuple[Name | NotKnown | None, str, int | NotKnown | None, _Block]

# The numbers follow this order: what saves lives first.
KIND_ORDER = (
    "raft",
    "lifesaving",
    "signal",
    "radio",
    "fire",
    "stop",
    "flooding",
    "medical",
    "water and food",
    "rig",
    "tool",
    "navigation",
    "through-hull",
    "other",
)


@dataclass(frozen=True)
class Item:
    """One numbered line of the gear list.

    `name` is the boat's own word for it or the program's, `answers_to` are the names by which steps and rule sets find it.
    `where` is the name of a space, `side` port, starboard, centre or "", `aft_m` and `off_m` the point on the plan if the
    file gives one (metres from the transom; metres off the centreline, negative to port).
    """

    number: int
    name: Name
    kind: str
    quantity: int
    where: str
    side: str
    spot: str
    block: Block
    place: Place
    aft_m: float | None = None
    off_m: float | None = None
    answers_to: frozenset[str] = frozenset()

    @cached_property
    def what(self) -> str:
        """Its name in the first language, in which findings are written."""
        return str(self.name)

    @property
    def situated(self) -> bool:
        """Whether the file says in which space it is."""
        return bool(self.where)


def list_items(vessel: Vessel) -> tuple[Item, ...]:
    """The numbered gear list of a vessel, in the order of `KIND_ORDER` and then of the file."""
    rows = [*_rafts(vessel), *_radio(vessel), *_others(vessel)]
    rows.sort(key=lambda row: KIND_ORDER.index(row[1]))
    return tuple(_item(number, *row) for number, row in enumerate(rows, 1))


def rank(block: Block) -> int:
    """Where a thing stands in `KIND_ORDER`, whatever its name; behind all others what the gear list has no line for."""
    known = {
        Raft: "raft",
        Beacon: "signal",
        RadioSet: "radio",
        GrabBag: "lifesaving",
        Lifejackets: "lifesaving",
    }
    kind = known.get(type(block)) or str(block.__dict__.get("kind") or "")
    return KIND_ORDER.index(kind) if kind in KIND_ORDER else len(KIND_ORDER)


def _rafts(vessel: Vessel) -> list[_Row]:
    return [(raft.name, "raft", 1, raft) for raft in vessel.rafts]


def _radio(vessel: Vessel) -> list[_Row]:
    radio = vessel.radio
    if not radio:
        return []
    rows: list[_Row] = [(each.what, "radio", 1, each) for each in radio.sets]
    return rows + [
        (each.what, "signal", 1 if each.quantity is None else each.quantity, each) for each in radio.beacons
    ]


def _others(vessel: Vessel) -> list[_Row]:
    rows: list[_Row] = [(name, "lifesaving", 1, bag) for name, bag in bags_named(vessel.grab_bags)]
    rows += [(lifejackets_named(each), "lifesaving", each.quantity, each) for each in vessel.lifejackets]
    rows += [(vessel.tender.what, "other", 1, vessel.tender)] if vessel.tender else []
    rows += [(stop_named(each), "stop", 1, each) for each in vessel.stops]
    rows += [
        (name, "flooding" if each.warns_of_water else "fire", each.quantity or 1, each)
        for name, each in alarms_named(vessel.alarms)
    ]
    rows += [(each.what, "flooding", 1, each) for each in vessel.pumps]
    rows += [(each.what, "through-hull", 1, each) for each in vessel.through_hulls]
    rows += [(batteries_named(each), "other", 1, each) for each in vessel.batteries]
    rows += [(each.what, str(each.kind or "other"), each.quantity, each) for each in vessel.gear]
    return rows


def _item(
    number: int, name: Name | NotKnown | None, kind: str, quantity: int | NotKnown | None, block: _Block
) -> Item:
    point = block.point if isinstance(block, Placed) else None
    aft, off = (point.aft, point.off) if point else (None, None)
    return Item(
        number,
        name if isinstance(name, Phrase) else str(name) if name else UNNAMED,
        kind,
        quantity if isinstance(quantity, int) else 0,
        str(block.where or ""),
        str(block.side or ""),
        "" if isinstance(block, Raft) else str(block.spot or ""),
        block,
        block.place("where"),
        float(aft) if isinstance(aft, Quantity) else None,
        float(off) if isinstance(off, Quantity) else None,
        _found_by(block, name),
    )


def _found_by(block: _Block, name: Name | NotKnown | None) -> frozenset[str]:
    """The names by which steps and rule sets find a thing; an alarm is found as the kind of gear it is."""
    if isinstance(block, Alarm):
        return answers_to(block.gear_kind.name) if block.gear_kind is not None else frozenset()
    return answers_to(str(name) if name else "")
