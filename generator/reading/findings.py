"""Findings: what the survey says, where it says it, and in which order."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from enum import IntEnum
from typing import TYPE_CHECKING

from generator.reading.visible import visible

if TYPE_CHECKING:
    from generator.reading.block import Block


class Weight(IntEnum):
    """How much a finding counts; a defect stops publishing."""

    DEFECT = 0
    RECOMMENDATION = 1
    NOTE = 2

    @property
    def word(self) -> str:
        """The weight as printed."""
        return self.name.lower()


@dataclass(unsafe_hash=True, slots=True)
class Place:
    """Where in which file: line and column count from 1, `key` is the path of the key in the file.

    It is never changed; not frozen, for that would make each cost three times as much, and a file has hundreds.
    """

    file: str
    line: int = 1
    column: int = 1
    key: str = ""

    def __str__(self) -> str:
        return f"{visible(self.file)}:{self.line}:{self.column}"


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing found: `message` says what is, `remedy` what to write or do instead.

    `item` names the thing it is about (as `deferred-defects` names it), `also` holds further places; `about` is the block
    of that thing, which tells it from others of its name. `explains` are places of which other checks need say nothing: it gives the cause.
    """

    check: str
    weight: Weight
    message: str
    place: Place
    remedy: str = ""
    item: str = ""
    also: tuple[Place, ...] = field(default=())
    about: Block | None = field(default=None, compare=False, repr=False)
    explains: frozenset[Place] = field(default=frozenset(), compare=False, repr=False)

    @property
    def subject(self) -> str:
        """The family of the check: the part of its id before the dot."""
        return self.check.partition(".")[0]

    @property
    def order(self) -> tuple[str, int, int, Weight, str, str]:
        """Sort key: by file, line and column, then weight and check."""
        place = self.place
        return (place.file, place.line, place.column, self.weight, self.check, self.message)


def in_order(findings: Iterable[Finding]) -> list[Finding]:
    """The findings without repetitions, by place."""
    return sorted(set(findings), key=lambda finding: finding.order)


def defects(findings: Iterable[Finding]) -> list[Finding]:
    """Those that stop publishing."""
    return [finding for finding in findings if finding.weight is Weight.DEFECT]
