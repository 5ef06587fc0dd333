"""The gear list: everything aboard that has a place, numbered once for list, plan, cards and site."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.reading.values import NotKnown, Quantity
from generator.shelves.gear import answers_to
from generator.vessel.gear import Placed
from generator.vessel.radio import Beacon, RadioSet
from generator.vessel.raft import Raft

if TYPE_CHECKING:
    from generator.reading.block import Block
    from generator.reading.findings import Place
    from generator.vessel.vessel import Vessel

_Block = Placed | RadioSet | Beacon | Raft
_Row = tuple[str | NotKnown | None, str, int | NotKnown | None, _Block]

# The numbers follow this order: what saves lives first.
_KIND_ORDER = (
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

    `answers_to` are the names by which steps and rule sets find it. `where` is the name of a space, `side` port, starboard,
    centre or "", `aft_m` and `off_m` the point on the plan if the file gives one (metres from the transom; metres off the
    centreline, negative to port).
    """

    number: int
    what: str
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

    @property
    def situated(self) -> bool:
        """Whether the file says in which space it is."""
        return bool(self.where)


def list_items(vessel: Vessel) -> tuple[Item, ...]:
    """The numbered gear list of a vessel, in the order of `_KIND_ORDER` and then of the file."""
    rows = [*_rafts(vessel), *_radio(vessel), *_others(vessel)]
    rows.sort(key=lambda row: _KIND_ORDER.index(row[1]))
    return tuple(_item(number, *row) for number, row in enumerate(rows, 1))


def _rafts(vessel: Vessel) -> list[_Row]:
    return [(raft.name, "raft", 1, raft) for raft in vessel.rafts]


def _radio(vessel: Vessel) -> list[_Row]:
    radio = vessel.radio
    if not radio:
        return []
    rows: list[_Row] = [(each.what, "radio", 1, each) for each in radio.sets]
    return rows + [(each.what, "signal", 1, each) for each in radio.beacons]


def _others(vessel: Vessel) -> list[_Row]:
    bags = vessel.grab_bags
    rows: list[_Row] = [
        ("grab bag" if len(bags) == 1 else f"grab bag {n}", "lifesaving", 1, bag)
        for n, bag in enumerate(bags, 1)
    ]
    rows += [
        (f"{each.size or ''} lifejackets, {each.kind or ''}".strip(), "lifesaving", each.quantity, each)
        for each in vessel.lifejackets
    ]
    rows += [(vessel.tender.what, "other", 1, vessel.tender)] if vessel.tender else []
    rows += [(_STOP_NAMES.get(str(each.what), each.what), "stop", 1, each) for each in vessel.stops]
    rows += [(each.what, "flooding", 1, each) for each in vessel.pumps]
    rows += [(each.what, "through-hull", 1, each) for each in vessel.through_hulls]
    rows += [(f"{each.what} batteries", "other", 1, each) for each in vessel.batteries]
    rows += [(each.what, str(each.kind or "other"), each.quantity, each) for each in vessel.gear]
    return rows


_STOP_NAMES = {
    "engine": "engine stop",
    "fuel": "fuel shut-off",
    "gas": "gas shut-off",
    "batteries": "battery switch",
    "ventilation": "ventilation shut-off",
}


def _item(
    number: int, what: str | NotKnown | None, kind: str, quantity: int | NotKnown | None, block: _Block
) -> Item:
    point = block.point if isinstance(block, Placed) else None
    aft, off = (point.aft, point.off) if point else (None, None)
    return Item(
        number,
        str(what or "unknown"),
        kind,
        quantity if isinstance(quantity, int) else 0,
        str(block.where or ""),
        str(block.side or ""),
        "" if isinstance(block, Raft) else str(block.spot or ""),
        block,
        block.place("where"),
        float(aft) if isinstance(aft, Quantity) else None,
        float(off) if isinstance(off, Quantity) else None,
        answers_to(what),
    )
