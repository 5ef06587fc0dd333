"""Limits as checks ask for them: by their name, for this boat and, where it is about one, this raft, release or beacon."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.reading.values import Quantity
from generator.shelves import limits
from generator.shelves.limits import Case, Limit

if TYPE_CHECKING:
    from generator.vessel.raft import Raft
    from generator.vessel.vessel import Vessel


def limits_for(vessel: Vessel, name: str, raft: Raft | None = None, kind: str = "") -> tuple[Limit, ...]:
    """What the rules set that hold for her, in the order of the shelf."""
    return limits.limits(name, _case(vessel, raft, kind))


def most(vessel: Vessel, name: str, raft: Raft | None = None, kind: str = "") -> float:
    """The strictest of the rules that hold for her: how much is the most, in SI or months; infinite where none holds."""
    found = limits.most(name, _case(vessel, raft, kind))
    return float("inf") if found is None or found.most is None else found.most


def least(vessel: Vessel, name: str, raft: Raft | None = None, kind: str = "") -> float:
    """The strictest of the rules that hold for her: how little is the least, in SI; 0 where none holds."""
    found = limits.least(name, _case(vessel, raft, kind))
    return 0.0 if found is None or found.least is None else found.least


def months(vessel: Vessel, name: str, raft: Raft | None = None, kind: str = "") -> int | None:
    """The most of a time in months; None where no rule holds."""
    found = limits.most(name, _case(vessel, raft, kind))
    return None if found is None or found.most is None else round(found.most)


def strictest(vessel: Vessel, name: str, raft: Raft) -> Limit | None:
    """The rule that allows a raft the least of all that say how much is the most; None where none holds."""
    return limits.most(name, _case(vessel, raft, ""))


def _case(vessel: Vessel, raft: Raft | None, kind: str) -> Case:
    one = vessel.vessel
    length = one.length if one else None
    return Case(
        str(raft.standard or "") if raft else "",
        str(raft.container or "") if raft else "",
        kind,
        str(one.use or "") if one else "",
        str(one.waters or "") if one else "",
        tuple(one.rule_set) if one else (),
        float(length) if isinstance(length, Quantity) else None,
    )
