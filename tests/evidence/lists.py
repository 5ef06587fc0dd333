"""The lists of this folder: what published instructions ask for, and what published accounts say goes wrong."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from generator.reading.nodes import plain
from generator.reading.tree import read_file

HERE = Path(__file__).resolve().parent
SUBJECTS = ("raft", "station-bill", "carriage", "radio")


class EvidenceFault(Exception):
    """A list cannot be read; the message says where."""


@dataclass(frozen=True)
class Item:
    """One thing a rule asks for: the steps that say it, the page of the book that does, or the reason why not."""

    text: str
    steps: tuple[str, ...]
    page: str
    reason: str


@dataclass(frozen=True)
class Rule:
    """A published list; `standing` is how far it was read."""

    name: str
    standing: str
    items: tuple[Item, ...]


@dataclass(frozen=True)
class Failure:
    """Something that goes wrong, who says so, the checks that look for it, and what else there is to say."""

    failure: str
    source: str
    checks: tuple[str, ...]
    reason: str


def rules() -> tuple[Rule, ...]:
    """The published lists of coverage.yaml, in their order. Raises EvidenceFault."""
    return tuple(
        Rule(
            rule["rule"],
            rule["standing"],
            tuple(
                Item(item["item"], tuple(item.get("steps", ())), item.get("page", ""), item.get("reason", ""))
                for item in rule["items"]
            ),
        )
        for rule in _read(HERE / "coverage.yaml")["coverage"]
    )


def failures() -> dict[str, tuple[Failure, ...]]:
    """The failures of failures/ by subject, in their order. Raises EvidenceFault."""
    found = {}
    for name in SUBJECTS:
        data = _read(HERE / "failures" / f"{name}.yaml")
        found[data["subject"]] = tuple(
            Failure(row["failure"], row["source"], tuple(row.get("checks", ())), row.get("reason", ""))
            for row in data["failures"]
        )
    return found


def _read(path: Path) -> dict[str, Any]:
    tree, findings = read_file(path, path.name)
    if tree is None or findings:
        raise EvidenceFault(f"{path.name}: {findings[0].place}: {findings[0].message}")
    data: dict[str, Any] = plain(tree)
    return data
