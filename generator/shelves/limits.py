"""Limits for rafts by standard, use and rule set: what published rules differ on, read from templates/rafts."""

from __future__ import annotations

import functools
from dataclasses import dataclass

from generator.reading.measures import Measure
from generator.reading.nodes import plain
from generator.reading.tree import read_file
from generator.shelves.folder import templates_folder
from generator.shelves.rulesets import rule_sets

STANDINGS = ("read", "quoted", "secondary", "common practice", "from memory, unverified")
_LENGTH = Measure("", "length")
_FORCE = Measure("", "force")
_FIGURES = {"least": _LENGTH, "plus-height": _LENGTH, "most": _LENGTH, "low": _FORCE, "high": _FORCE}
_NUMBERS = ("times-height", "months")
_WORDS = ("standards", "container", "use", "rule-set", "source", "standing")
KINDS = ("painter-least", "highest-stowage", "service", "weak-link")


class LimitFault(Exception):
    """The shelf of limits contradicts itself: a fault of the program, not of a boat's file."""


@dataclass(frozen=True)
class Limit:
    """One row: `figures` in SI (months as months) by their keys, and how far the `source` was verified."""

    standards: tuple[str, ...]
    container: str
    use: str
    rule_set: str
    figures: dict[str, float]
    source: str
    standing: str

    def holds(self, vessel, raft) -> bool:
        """Whether the row speaks of this raft aboard this vessel."""
        chosen = [str(name) for name in vessel.vessel.rule_set] if vessel.vessel else []
        use = vessel.vessel.use if vessel.vessel else None
        return (
            (not self.standards or str(raft.standard).startswith(self.standards))
            and self.container in ("", raft.container)
            and self.use in ("", use)
            and (not self.rule_set or any(name.startswith(self.rule_set) for name in chosen))
        )

    @property
    def read(self) -> bool:
        """Whether the rule itself was read; only then can it make a defect."""
        return self.standing == "read"


def limits(kind: str, vessel, raft) -> list[Limit]:
    """The rows of a kind that hold for a raft, in the order of the shelf; raises LimitFault on an unknown kind."""
    if kind not in KINDS:
        raise LimitFault(f"there are no limits '{kind}'; there are: {', '.join(KINDS)}")
    return [row for row in shelf()[kind] if row.holds(vessel, raft)]


@functools.cache
def shelf() -> dict[str, tuple[Limit, ...]]:
    """All rows by kind."""
    path = templates_folder() / "rafts" / "limits.yaml"
    tree, findings = read_file(path, path.name)
    if tree is None or findings:
        raise LimitFault(f"{path.name}: {findings[0].place}: {findings[0].message}")
    data = plain(tree)
    if sorted(data) != sorted(KINDS):
        raise LimitFault(f"{path.name} must have just {', '.join(KINDS)}")
    return {kind: tuple(limit(row, kind) for row in rows) for kind, rows in data.items()}


def limit(row: dict, kind: str) -> Limit:
    """A row as the shelf has it; raises LimitFault naming the words it takes."""
    for key in row:
        if key not in (*_FIGURES, *_NUMBERS, *_WORDS):
            raise LimitFault(
                f"{kind}: '{key}' is no key of a limit; it takes {', '.join((*_FIGURES, *_NUMBERS, *_WORDS))}"
            )
    if row.get("standing") not in STANDINGS or not row.get("source"):
        raise LimitFault(f"{kind}: a limit has a source and one of the standings {', '.join(STANDINGS)}")
    if row.get("rule-set") and row["rule-set"] not in rule_sets():
        raise LimitFault(f"{kind}: there is no rule set '{row['rule-set']}'")
    figures = {key: float(_FIGURES[key].read(row[key])) for key in _FIGURES if key in row}
    figures |= {key: float(row[key]) for key in _NUMBERS if key in row}
    if not figures:
        raise LimitFault(f"{kind}: a limit without a figure")
    return Limit(
        tuple(row.get("standards", ())),
        row.get("container", ""),
        row.get("use", ""),
        row.get("rule-set", ""),
        figures,
        row["source"],
        row["standing"],
    )
