"""The figures of the factory: how many mutants there are, how many are noticed, and of which class the others are."""

from __future__ import annotations

import json
import re
import zlib
from collections.abc import Iterable
from dataclasses import asdict, dataclass, field
from pathlib import Path

from meanings.boats import Boat
from meanings.factory import mutants
from meanings.judging import Judge
from meanings.mutant import Mutant

KEPT = Path(__file__).parent / "figures.json"
OTHER = "of no class"
SHOWN = 4


@dataclass
class Tally:
    """How many mutants were made, how many of them are harmless by a rule, how many others nobody noticed; `unknowable`: nobody could."""

    made: int = 0
    harmless: int = 0
    missed: int = 0
    unknowable: int = 0

    @property
    def share(self) -> float:
        """How many of those that are not harmless, and can be known from the file, are noticed."""
        return 1 - self.missed / max(1, self.made - self.harmless - self.unknowable)

    def add(self, other: Tally) -> None:
        """Counts in another."""
        self.made += other.made
        self.harmless += other.harmless
        self.missed += other.missed
        self.unknowable += other.unknowable


@dataclass
class Figures:
    """By operator, by block, by class; of each class some examples, one of a kind."""

    operators: dict[str, Tally] = field(default_factory=dict)
    blocks: dict[str, Tally] = field(default_factory=dict)
    classes: dict[str, int] = field(default_factory=dict)
    examples: dict[str, list[str]] = field(default_factory=dict)
    every: int = 1
    """One mutant in so many was looked at."""

    @property
    def whole(self) -> Tally:
        """All together."""
        whole = Tally()
        for each in self.operators.values():
            whole.add(each)
        return whole

    def count(
        self, mutant: Mutant, noticed: bool, name: str, harmless: bool, unknowable: bool = False
    ) -> None:
        """Counts one mutant in; `name` is that of its class, "" where it is noticed."""
        missed = not (noticed or harmless or unknowable)
        one = Tally(1, int(not noticed and harmless), int(missed), int(not noticed and unknowable))
        self.operators.setdefault(mutant.operator, Tally()).add(one)
        self.blocks.setdefault(mutant.block or "the file", Tally()).add(one)
        if not noticed:
            self.classes[name] = self.classes.get(name, 0) + 1
            shown = self.examples.setdefault(name, [])
            kinds = {_kind(each) for each in shown}
            if len(shown) < SHOWN and _kind(mutant.name) not in kinds:
                shown.append(mutant.name)

    def add(self, other: Figures) -> None:
        """Counts in those of another share."""
        for mine, theirs in ((self.operators, other.operators), (self.blocks, other.blocks)):
            for name, tally in theirs.items():
                mine.setdefault(name, Tally()).add(tally)
        for name, number in other.classes.items():
            self.classes[name] = self.classes.get(name, 0) + number
            shown = self.examples.setdefault(name, [])
            shown += [
                each for each in other.examples[name] if _kind(each) not in {_kind(one) for one in shown}
            ]
            del shown[SHOWN:]


def _kind(name: str) -> str:
    """What two examples of one kind share: block, key and operator."""
    _, path, operator = [*name.split(": ", 3), "", ""][:3]
    return re.sub(r"\[\d+\]|\(.*\)", "", path) + operator


def chosen(boat: Boat, every: int) -> Iterable[Mutant]:
    """The mutants of a boat that are looked at: those whose name falls into one of so many shares, always the same."""
    return (each for each in mutants(boat) if zlib.crc32(each.name.encode()) % every == 0)


def looked_at(boat: Boat, folder: Path, every: int) -> Figures:
    """The figures of one boat."""
    judge, figures = Judge(boat, folder), Figures(every=every)
    for mutant in chosen(boat, every):
        found = bool(judge.noticed(mutant) or judge.silent(mutant))
        rule = None if found else judge.rule(mutant)
        figures.count(
            mutant,
            found,
            rule.name if rule else OTHER,
            bool(rule and rule.harmless),
            bool(rule and rule.unknowable),
        )
    return figures


def plain(figures: Figures) -> dict[str, object]:
    """As JSON holds them."""
    return asdict(figures)


def read(data: dict[str, dict]) -> Figures:
    """From JSON."""
    tallies = ({name: Tally(**each) for name, each in data[key].items()} for key in ("operators", "blocks"))
    return Figures(*tallies, data["classes"], data["examples"], data["every"])


def kept() -> Figures:
    """The figures of the last complete run."""
    return read(json.loads(KEPT.read_text(encoding="utf-8")))


def keep(figures: Figures) -> None:
    """Keeps those of a complete run."""
    KEPT.write_text(
        json.dumps(plain(figures), indent=1, sort_keys=True, ensure_ascii=False) + "\n", encoding="utf-8"
    )
