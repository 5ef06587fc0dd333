"""The registry of checks: each is one function with id, weight, source, why and remedy; the engine runs them by stage."""

from __future__ import annotations

import functools
import importlib
import inspect
import pkgutil
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from generator.reading.findings import Finding, Place, Weight
from generator.survey.lines import with_line
from generator.survey.sight import Sight
from generator.survey.stakes import Stake

if TYPE_CHECKING:
    from generator.reading.block import Block

DEFECT, RECOMMENDATION, NOTE = Weight.DEFECT, Weight.RECOMMENDATION, Weight.NOTE
LIFE, TRUTH, RULE, HELP = Stake.LIFE, Stake.TRUTH, Stake.RULE, Stake.HELP
UPKEEP, ADVICE, FORM, NOTICE = Stake.UPKEEP, Stake.ADVICE, Stake.FORM, Stake.NOTICE
DESCRIPTION, COMPOSITION, INSPECTION = "description", "composition", "inspection"
COMMON_PRACTICE = "common practice"


@dataclass(frozen=True)
class Check:
    """A check: `find` is None where reading or writing finds it itself."""

    id: str
    stake: Stake
    stage: str
    title: str
    why: str
    remedy: str
    source: str
    deferrable: bool
    find: Callable[[Sight], Iterator[Found]] | None = None

    @property
    def weight(self) -> Weight:
        """What a finding weighs, unless the check says otherwise of one."""
        return self.stake.weight


@dataclass(frozen=True)
class Found:
    """What a check yields: a place, what is there, and if it differs from the check's own: remedy, weight, item.

    `about` is the block of the thing, where it is one thing's; `explains` are the places at which this is the cause of whatever
    other checks find.
    """

    place: Place
    message: str
    remedy: str = ""
    item: str = ""
    weight: Weight | None = None
    also: tuple[Place, ...] = ()
    about: Block | None = None
    explains: frozenset[Place] = frozenset()


Finds: TypeAlias = Iterator[Found]
"""What a check yields, one by one."""
Look: TypeAlias = Callable[[Sight], Finds]

CHECKS: dict[str, Check] = {}


def check(
    name: str, stake: Stake, source: str, stage: str = DESCRIPTION, deferrable: bool = True
) -> Callable[[Look], Look]:
    """Registers a check; what hangs on it is its weight. Its docstring is: title; blank; Why: ...; Remedy: ... (each may run over lines)."""

    def register(function: Look) -> Look:
        title, why, remedy = _parts(inspect.getdoc(function) or "", name)
        _add(Check(name, stake, stage, title, why, remedy, source, deferrable, function))
        return function

    return register


def describe(
    name: str, stake: Stake, stage: str, source: str, text: str, *, deferrable: bool = False
) -> None:
    """Registers the description of a finding that reading, composing or writing makes itself."""
    title, why, remedy = _parts(inspect.cleandoc(text), name)
    _add(Check(name, stake, stage, title, why, remedy, source, deferrable))


def _add(one: Check) -> None:
    if one.id in CHECKS:
        raise ValueError(f"two checks are called {one.id}")
    CHECKS[one.id] = one


def _parts(text: str, name: str) -> tuple[str, str, str]:
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
    """Imports the families once; looking through the folders for each vessel would cost more than the checks."""
    package = importlib.import_module("generator.checks")
    for module in pkgutil.walk_packages(package.__path__, f"{package.__name__}."):
        importlib.import_module(module.name)


def run(stage: str, sight: Sight) -> list[Finding]:
    """The findings of all checks of a stage."""
    return [
        Finding(
            one.id,
            found.weight if found.weight is not None else one.weight,
            found.message,
            found.place,
            with_line(found.remedy or one.remedy, found.about, found.item, found.place.key, sight),
            found.item,
            found.also,
            found.about,
            found.explains,
        )
        for one in map(CHECKS.__getitem__, _of_stage(stage))
        if one.find is not None
        for found in one.find(sight)
    ]


@functools.cache
def _of_stage(stage: str) -> tuple[str, ...]:
    """The ids of the checks that look at something in a stage."""
    return tuple(one.id for one in all_checks().values() if one.stage == stage and one.find is not None)


def at(
    block: Block,
    key: str,
    message: str,
    *,
    remedy: str = "",
    item: str = "",
    weight: Weight | None = None,
    also: tuple[Place, ...] = (),
) -> Found:
    """Something found at a key of a block; a missing key is placed at the block's start."""
    return Found(block.place(key), message, remedy, item, weight, also, block)


def of(
    thing: Block,
    key: str,
    message: str,
    *,
    part: Block | None = None,
    remedy: str = "",
    weight: Weight | None = None,
    also: tuple[Place, ...] = (),
) -> Found:
    """The same of a thing that has a name, or of a part of it: the message begins with the name, and that is the item.

    What has no name goes by its place in the file.
    """
    called = type(thing).called
    name = str((getattr(thing, called) if called else "") or thing.path)
    said = f"{name}: {message}"
    return at(part or thing, key, said, remedy=remedy, item=name, weight=weight, also=also)


__all__ = [
    "COMMON_PRACTICE",
    "COMPOSITION",
    "DEFECT",
    "DESCRIPTION",
    "INSPECTION",
    "NOTE",
    "RECOMMENDATION",
    "Check",
    "Finds",
    "Found",
    "Sight",
    "all_checks",
    "at",
    "check",
    "describe",
    "of",
    "run",
]
