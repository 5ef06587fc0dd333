"""The shelf of limits: what published rules and practice set, by standard, use, waters and rule set, each with its source."""

from __future__ import annotations

import functools
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from generator.reading.block import Block
from generator.reading.fields import Choice, Many
from generator.reading.findings import Finding, Place, Weight
from generator.reading.measures import DIMENSIONS, dimension_of
from generator.reading.nearest import nearest
from generator.reading.values import Quantity, sure
from generator.shelves.limit_rows import KINDS, RowBlock, disagreements
from generator.shelves.shelf import File, Shelf, Tallied, twice

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterator, Mapping, Sequence

NAMES = (
    "painter",
    "height of the stowage",
    "time between services",
    "strength of the weak link",
    "age of a raft",
    "age that no raft reaches",
    "time to make a raft ready",
    "mass thrown by hand",
    "mass lifted without aid",
    "water a person",
    "depth of release",
    "time a release is trusted",
    "extinguisher to the galley",
    "extinguisher to the helm",
    "extinguisher to a berth",
    "berth to a way out",
    "alarm to a berth",
    "length with two ways out",
    "bilge pumps",
    "pieces of one thing",
    "pieces of one thing a person",
    "order at once",
    "age of a child",
    "contrast on white",
    "points of a mark",
    "width of a mark to its height",
    "bytes of a mark",
    "mass of a raft, however few it is for",
    "mass of a raft, more for each person",
    "load of a painter",
    "longest painter",
    "water packed in a raft a person",
    "highest sill",
    "lifted by one person",
    "turned upright by one person",
    "turned upright",
    "lifted by a child, for each year of age",
    "persons a metre of her length",
    "lifejackets a person",
    "width of a hole in the hull",
    "plug to its hole",
    "flow of a pump",
    "power of a radio",
    "water in one can",
    "water in one can with a handle",
    "mass of a grab bag",
    "cylinder to its stamped mass",
    "time between services of gear",
    "time ahead of a marked date",
    "time since a test",
    "time since the test of an alarm",
    "time a defect is deferred",
    "longest deferral",
    "time carried past a date",
    "length of a voyage",
    "briefed before a voyage",
    "hours of watch in a day",
    "width of a drain or outlet",
    "anchor line to the depth",
)
"""The limits that checks ask for; the figures stand on the shelf alone."""


class LimitBlock(Block):
    """A limit by its name, and what each rule sets for it."""

    called = "limit"
    limit = Choice("Under which name does a check ask for it?", NAMES, required=True)
    measured = Choice("What do its figures measure?", DIMENSIONS, required=True)
    rows = Many(RowBlock, "What does each rule set?", required=True)


class LimitsFile(Tallied):
    """A file of limits."""

    limits = Many(LimitBlock, "Which limits are there?", required=True)


def _blocks(files: Sequence[File[LimitsFile]]) -> Iterator[LimitBlock]:
    for each in files:
        yield from each.block.limits


def _holds_together(files: Sequence[File[LimitsFile]]) -> Iterator[Finding]:
    """Every limit that checks ask for is there once, its figures of what it measures."""
    yield from twice((str(each.limit), each, "limit") for each in _blocks(files))
    there = {each.limit for each in _blocks(files)}
    for name in NAMES if files else ():
        if name not in there:
            yield _bad(
                files[0].block.place("limits"), f"no limit is called '{name}'", f"write the limit {name}"
            )
    for limit in _blocks(files):
        for row in limit.rows:
            for key in ("least", "most"):
                figure = row.__dict__.get(key)
                if isinstance(figure, Quantity) and dimension_of(figure) != limit.measured:
                    message = f"'{figure}' is no {limit.measured}, which '{limit.limit}' measures"
                    yield _bad(row.place(key), message, "write the figure with a unit of that")


def _bad(place: Place, message: str, remedy: str) -> Finding:
    return Finding("file.bad-value", Weight.DEFECT, message, place, remedy)


def _agrees(files: Sequence[File[LimitsFile]], known: Mapping[str, Collection[str]]) -> Iterator[Finding]:
    """Standards are beginnings of those there are; kinds are words that `KINDS` name; rows leave no gap and agree."""
    standards = sorted(known.get("word of raft.standard", ()))
    kinds = sorted({word for name in KINDS for word in known.get(name, ())})
    for limit in _blocks(files):
        for row in limit.rows:
            for number, said in enumerate(row.standards):
                if not any(each.startswith(said) for each in standards):
                    place = row.place_in("standards", number)
                    yield _bad(place, f"no standard begins with '{said}'", nearest(said, standards))
            for number, said in enumerate(row.kinds):
                if said not in kinds:
                    place = row.place_in("kinds", number)
                    yield _bad(place, f"there is no kind '{said}'", nearest(said, kinds))
        yield from disagreements(str(limit.limit), limit.rows, known)


LIMITS: Shelf[LimitsFile] = Shelf(
    "limits",
    "limits/*.yaml",
    LimitsFile,
    "What published rules and practice set, and for what each of them holds.",
    holds_together=_holds_together,
    agrees=_agrees,
)


class Case(NamedTuple):
    """What a limit is asked for; "" or None is what is not known."""

    standard: str = ""
    container: str = ""
    kind: str = ""
    use: str = ""
    waters: str = ""
    rule_sets: tuple[str, ...] = ()
    length_m: float | None = None


@dataclass(frozen=True)
class Limit:
    """What one rule sets: figures in SI (durations in months), None where it sets none, and how far its source was verified."""

    least: float | None
    most: float | None
    times_height: float | None
    plus_height_m: float | None
    source: str
    standing: str
    block: RowBlock

    @property
    def read(self) -> bool:
        """Whether the rule itself was read; only then can it make a defect."""
        return self.standing == "read"

    def holds(self, case: Case) -> bool:
        """Whether the rule speaks of this case."""
        return all(condition(case) for condition in self._conditions)

    @functools.cached_property
    def _conditions(self) -> tuple[Callable[[Case], bool], ...]:
        """What the rule asks of a case, each as a question; of most rules it is one thing or nothing."""
        return tuple(_conditions(self.block))


def _conditions(row: RowBlock) -> Iterator[Callable[[Case], bool]]:
    if standards := row.standards:
        yield lambda case: case.standard.startswith(standards)
    if container := row.container:
        yield lambda case: case.container == container
    if kinds := row.kinds:
        yield lambda case: case.kind in kinds
    if use := row.use:
        yield lambda case: case.use in use
    if waters := row.waters:
        yield lambda case: case.waters in waters
    if rule_set := row.rule_set:
        yield lambda case: any(each.startswith(str(rule_set)) for each in case.rule_sets)
    if row.length_from is not None:
        length_from = float(sure(row.length_from))
        yield lambda case: case.length_m is not None and case.length_m >= length_from
    if row.length_below is not None:
        length_below = float(sure(row.length_below))
        yield lambda case: case.length_m is not None and case.length_m < length_below


def all_limits() -> Mapping[str, tuple[Limit, ...]]:
    """Every limit by its name, what each rule sets, in the order of the shelf."""
    return _limits(LIMITS.files())


def limits(name: str, case: Case) -> tuple[Limit, ...]:
    """What the rules set that hold for a case, in the order of the shelf; LookupError on a name that no limit has."""
    return tuple(each for each in all_limits()[name] if each.holds(case))


def most(name: str, case: Case) -> Limit | None:
    """The strictest of the rules that say how much is the most; None where none holds."""
    return _strictest(LIMITS.files(), name, case)[1]


def least(name: str, case: Case) -> Limit | None:
    """The strictest of the rules that say how little is the least; None where none holds."""
    return _strictest(LIMITS.files(), name, case)[0]


@functools.lru_cache(maxsize=4096)
def _strictest(
    files: tuple[File[LimitsFile], ...], name: str, case: Case
) -> tuple[Limit | None, Limit | None]:
    """The rules that say how little is the least and how much the most: most boats ask with the same few cases."""
    found = [each for each in _limits(files)[name] if each.holds(case)]
    low, high = ([each for each in found if getattr(each, of) is not None] for of in ("least", "most"))
    return (
        max(low, key=lambda each: sure(each.least), default=None),
        min(high, key=lambda each: sure(each.most), default=None),
    )


@functools.lru_cache(maxsize=64)
def _limits(files: tuple[File[LimitsFile], ...]) -> dict[str, tuple[Limit, ...]]:
    return {sure(each.limit): tuple(map(_limit, each.rows)) for each in _blocks(files)}


def _limit(row: RowBlock) -> Limit:
    figures = [None if each is None else float(sure(each)) for each in (row.least, row.most)]
    return Limit(
        figures[0],
        figures[1],
        None if row.times_height is None else sure(row.times_height),
        None if row.plus_height is None else float(sure(row.plus_height)),
        sure(row.source),
        sure(row.standing),
        row,
    )
