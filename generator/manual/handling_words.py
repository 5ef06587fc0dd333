"""Words of how she is handled: how an anchor is let go and slipped, where a towline goes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.manual.handling_facts import anchors, told_of_anchors
from generator.manual.said import WHOLE, Opened, Said, Word, all_of, given_word
from generator.vessel.fittings import Located

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from generator.vessel.vessel import Vessel

_OF_ANCHORS = (("anchor rode", "rode"), ("anchor let go", "let_go"), ("anchor slip", "slip"))


def handling_words() -> Iterator[tuple[str, Callable[[Vessel], Said | None]]]:
    """Every slot of handling, and how its word is found; None where she has nothing of the kind."""
    yield "tow-point", _tow_point
    for slot, name in _OF_ANCHORS:
        yield slot, _of_anchors(name)


def _tow_point(vessel: Vessel) -> Said | None:
    """The fitting whole; None where the file names none."""
    point = vessel.vessel.tow_point if vessel.vessel is not None else None
    return Word(point, WHOLE) if isinstance(point, Located) else None


def _of_anchors(name: str) -> Callable[[Vessel], Said | None]:
    """What is told of her anchors; of several, each behind its place."""

    def said(vessel: Vessel) -> Said | None:
        words = [given_word(each, name) for each in told_of_anchors(vessel, name)]
        if len(anchors(vessel)) > 1:
            words = [Opened(each.block, each.name) if isinstance(each, Word) else each for each in words]
        return all_of(words) if words else None

    return said
