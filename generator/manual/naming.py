"""Naming: what the program calls things whose names are not the boat's own words: the grab bag, a stop, lifejackets."""

from __future__ import annotations

import functools
from typing import TYPE_CHECKING

from generator.manual.printing import Name, Phrase

if TYPE_CHECKING:
    from collections.abc import Sequence

    from generator.vessel.alarms import Alarm
    from generator.vessel.gear import GrabBag, GrabItem, Lifejackets
    from generator.vessel.installed import Battery, Stop
    from generator.vessel.raft import Raft

UNNAMED = Phrase("thing.unnamed")
COOKING_GAS = Phrase("thing.cooking-gas")
WALK_ROUND = Phrase("thing.walk-round")
THE_VOYAGE = Phrase("thing.the-voyage")


def offered(key: str, word: str) -> Phrase:
    """A word that the program offers under `key` of a vessel file."""
    return Phrase(f"choices.{key}.{word}")


def bags_named(bags: Sequence[GrabBag]) -> list[tuple[Name, GrabBag]]:
    """Each grab bag with its name: numbered where there are several."""
    if len(bags) == 1:
        return [(Phrase("thing.grab-bag"), bags[0])]
    return [
        (Phrase("thing.grab-bag-of-several", (("number", str(n)),)), bag) for n, bag in enumerate(bags, 1)
    ]


def in_bag_named(item: GrabItem) -> Name:
    """A thing of the grab bag."""
    return _in_bag_named(str(item.what))


@functools.lru_cache(maxsize=4096)
def _in_bag_named(what: str) -> Phrase:
    return Phrase("thing.in-grab-bag", (("what", what),))


def lifejackets_named(block: Lifejackets) -> Name:
    """Lifejackets by size and kind, as far as both are known."""
    if isinstance(block.size, str) and isinstance(block.kind, str):
        words = (("size", offered("size", block.size)), ("kind", offered("kind", block.kind)))
        return Phrase("thing.lifejackets-of-kind", words)
    return lifejackets_of_size(block)


def lifejackets_of_size(block: Lifejackets) -> Name:
    """Lifejackets by size, if that is known."""
    if not isinstance(block.size, str):
        return Phrase("thing.lifejackets")
    return Phrase("thing.lifejackets-of-size", (("size", offered("size", block.size)),))


def stop_named(block: Stop) -> Name:
    """A stop by what it stops."""
    return Phrase(f"thing.stop.{block.what}") if isinstance(block.what, str) else UNNAMED


def alarms_named(alarms: Sequence[Alarm]) -> list[tuple[Name, Alarm]]:
    """Each alarm by what it warns of, and by its space where several warn of the same."""
    called = [each.what for each in alarms]
    return [(_alarm(each, several=called.count(each.what) > 1), each) for each in alarms]


def _alarm(block: Alarm, *, several: bool) -> Name:
    if not isinstance(block.what, str):
        return UNNAMED
    name = Phrase(f"thing.alarm.{block.what}")
    if not several or not isinstance(block.where, str):
        return name
    return Phrase("thing.alarm-in", (("alarm", name), ("space", block.where)))


def batteries_named(block: Battery) -> Name:
    """A bank of batteries."""
    return Phrase("thing.batteries", (("what", str(block.what)),)) if block.known("what") else UNNAMED


def release_named(raft: Raft) -> Name:
    """The hydrostatic release unit of a raft."""
    return Phrase("thing.release", (("raft", str(raft.name)),))
