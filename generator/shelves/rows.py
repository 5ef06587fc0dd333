"""Rows of a table that contradict each other: one way to say so for all shelves."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.reading.findings import Finding, Weight

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterable, Iterator

    from generator.reading.findings import Place


def contradiction(place: Place, message: str, remedy: str, *also: Place) -> Finding:
    """What is wrong with a row; `also` are the places of the rows that it is wrong with."""
    return Finding("file.bad-value", Weight.DEFECT, message, place, remedy, also=also)


def alike(rows: Iterable[tuple[Hashable, Place]], message: str, remedy: str) -> Iterator[Finding]:
    """A finding for each (what a row says, its place) that an earlier row says as well."""
    seen: dict[Hashable, Place] = {}
    for said, place in rows:
        if said in seen:
            yield contradiction(place, message, remedy, seen[said])
        seen.setdefault(said, place)
