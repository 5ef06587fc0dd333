"""The registry of checks: each is one function with id, weight, source, why and remedy; the engine runs them by stage."""

from __future__ import annotations

import functools
import importlib
import inspect
import pkgutil
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from generator.reading.block import Block
from generator.reading.findings import Finding, Place, Weight

DEFECT, RECOMMENDATION, NOTE = Weight.DEFECT, Weight.RECOMMENDATION, Weight.NOTE
DESCRIPTION, COMPOSITION, INSPECTION = "description", "composition", "inspection"
COMMON_PRACTICE = "common practice"


@dataclass(frozen=True)
class Check:
    """A check: `find` is None where reading or writing finds it itself."""

    id: str
    weight: Weight
    stage: str
    title: str
    why: str
    remedy: str
    source: str
    deferrable: bool
    find: Callable | None = None


@dataclass(frozen=True)
class Found:
    """What a check yields: a place, what is there, and if it differs from the check's own: remedy, weight, item."""

    place: Place
    message: str
    remedy: str = ""
    item: str = ""
    weight: Weight | None = None
    also: tuple[Place, ...] = ()


@dataclass(frozen=True)
class Sight:
    """What a check looks at. Everything must be good through `until` (never before `as_of`).

    `manual` is there from the composition stage on, `written` (the outputs made) in the inspection stage.
    """

    vessel: object
    as_of: date
    until: date
    lead_days: int = 90
    manual: object = None
    written: object = None

    @property
    def lead_day(self) -> date:
        """The day up to which a date that runs out is announced ahead."""
        return self.until + timedelta(days=self.lead_days)


CHECKS: dict[str, Check] = {}


def check(name: str, weight: Weight, source: str, stage: str = DESCRIPTION, deferrable: bool = True):
    """Registers a check. Its docstring is: title; blank; Why: ...; Remedy: ... (each may run over lines)."""

    def register(function: Callable[[Sight], Iterator[Found]]):
        title, why, remedy = _parts(inspect.getdoc(function) or "", name)
        _add(Check(name, weight, stage, title, why, remedy, source, deferrable, function))
        return function

    return register


def describe(name: str, weight: Weight, stage: str, source: str, text: str, deferrable: bool = False):
    """Registers the description of a finding that reading, composing or writing makes itself."""
    title, why, remedy = _parts(inspect.cleandoc(text), name)
    _add(Check(name, weight, stage, title, why, remedy, source, deferrable))


def _add(one):
    if one.id in CHECKS:
        raise ValueError(f"two checks are called {one.id}")
    CHECKS[one.id] = one


def _parts(text, name):
    title, _, rest = text.partition("\n")
    why, mark, remedy = " ".join(rest.split()).partition("Remedy:")
    if not (title and why.startswith("Why:") and mark):
        raise ValueError(f"check {name} has no title, 'Why:' and 'Remedy:'")
    return title.strip(), why.removeprefix("Why:").strip(), remedy.strip()


def all_checks() -> dict[str, Check]:
    """Every check by id, the shelf loaded; in the order of their ids."""
    _load_shelf()
    return dict(sorted(CHECKS.items()))


@functools.cache
def _load_shelf() -> None:
    """Imports the families once; looking through the folder for each vessel would cost more than the checks."""
    package = importlib.import_module("generator.checks")
    for module in pkgutil.iter_modules(package.__path__):
        if module.name != "registry":
            importlib.import_module(f"generator.checks.{module.name}")


def run(stage: str, sight: Sight) -> list[Finding]:
    """The findings of all checks of a stage."""
    findings = []
    for one in all_checks().values():
        if one.stage == stage and one.find is not None:
            findings += [
                Finding(
                    one.id,
                    found.weight if found.weight is not None else one.weight,
                    found.message,
                    found.place,
                    found.remedy or one.remedy,
                    found.item,
                    found.also,
                )
                for found in one.find(sight)
            ]
    return findings


def at(block: Block, key: str, message: str, **more) -> Found:
    """Something found at a key of a block; a missing key is placed at the block's start."""
    return Found(block.place(key), message, **more)


__all__ = [
    "COMMON_PRACTICE",
    "COMPOSITION",
    "DEFECT",
    "DESCRIPTION",
    "INSPECTION",
    "NOTE",
    "RECOMMENDATION",
    "Check",
    "Found",
    "Sight",
    "all_checks",
    "at",
    "check",
    "describe",
    "run",
]
