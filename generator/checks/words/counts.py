"""Things of hers counted or denied in words: as many as are listed, and none denied that is there."""

from __future__ import annotations

import re
from collections import defaultdict
from functools import cache, lru_cache
from typing import TYPE_CHECKING

from generator.checks.words.aboard import BEHIND
from generator.checks.words.places import one_of
from generator.checks.words.things import things_of
from generator.manual.own_words import called, in_order, told_in
from generator.reading.nearest import shortened
from generator.reading.worded import ROLE, SIGNAL
from generator.survey.registry import COMMON_PRACTICE, COMPOSITION, HELP, LIFE, Finds, Sight, at, check
from generator.vessel.gear import Gear, GrabBag, GrabItem, Lifejackets
from generator.vessel.radio import Beacon, RadioSet
from generator.vessel.raft import Raft

if TYPE_CHECKING:
    from generator.checks.words.things import Told
    from generator.reading.block import Block

_COUNTED = (Gear, GrabItem, Lifejackets, Raft, Beacon)
_STATES = (
    r"(?:there (?:are|is)|(?:we|they) (?:have|carry|keep)|(?:she|the boat) (?:has|carries)|aboard are|all)"
)
_STATED_BEHIND = re.compile(
    r"^(?:$|[.:!]|,? (?:are|is|hang|hangs|lie|lies|stand|stands|stowed|kept|aboard|in all|in total)\b)"
)
_NO = re.compile(r"\bno\b")
_HAS_NO = r"(?:there (?:is|are)|we have|we carry|she has|she carries|the boat has|aboard (?:is|are))"


@check("words.other-count", HELP, COMMON_PRACTICE, COMPOSITION)
def words_count_what_is_listed(sight: Sight) -> Finds:
    """Where words count things of hers, they count as many as are listed, and use no more.

    Why: whoever is told of six flares keeps the last ones back for an hour that two do not see.
    Remedy: count them, and correct the quantity or the words.
    """
    told = [
        each
        for each in sight.own_words
        if each.says not in (SIGNAL, ROLE)
        and not each.names_itself
        and each.block.__dict__.get("quantity") is None
        and _any_number().search(each.text.lower())
    ]
    if not told:
        return
    things = [each for each in things_of(sight) if isinstance(each.block, _COUNTED)]
    names = tuple(sorted({name for each in things for name in each.names}, key=len, reverse=True))
    find = _numbered(names)
    for said in told:
        for found in (one for sentence in told_in(said.text) for one in find.finditer(sentence)):
            number = (
                int(found["number"])
                if found["number"].isdigit()
                else in_order("reads.numbers").index(found["number"]) + 1
            )
            meant = [each for each in things if found["name"] in map(_single, each.names)]
            total, parts = _amounts(meant)
            stated = re.search(rf"(?:^|[.,;:]|{_STATES}) *$", found.string[: found.start()]) is not None
            stated = stated and _STATED_BEHIND.match(found.string[found.end() :]) is not None
            if total and (number > total or (stated and number > 1 and number not in parts)):
                yield at(
                    said.block,
                    said.field.key,
                    f"'{shortened(said.text)}' says {number}, and the file counts {total}",
                    item=said.block.path,
                    also=(meant[0].block.place(type(meant[0].block).called or "what"),),
                )
                break


def _amounts(things: list[Told]) -> tuple[int, set[int]]:
    """How many there are of these in all, and the numbers that somebody may rightly say: of each entry, of each kind of list, of all."""
    amounts: dict[type[Block], int] = defaultdict(int)
    said: set[int] = set()
    for each in things:
        amount = each.block.__dict__.get("quantity")
        number = amount if isinstance(amount, int) else 1
        amounts[type(each.block)] += number
        said.add(number)
    return sum(amounts.values()), said | set(amounts.values()) | {sum(amounts.values())}


@cache
def _any_number() -> re.Pattern[str]:
    return re.compile(rf"\b(?:\d{{1,3}}|{'|'.join(in_order('reads.numbers'))}) [a-z]")


def _single(name: str) -> str:
    return name.lower().rstrip("s")


@lru_cache(maxsize=64)
def _numbered(names: tuple[str, ...]) -> re.Pattern[str]:
    """Finds a number and the name of a thing behind it."""
    single = one_of(tuple(_single(each) for each in names)) or "(?!)"
    return re.compile(
        rf"\b(?P<number>\d{{1,3}}|{'|'.join(in_order('reads.numbers'))}) (?P<name>{single})(?:e?s)?{BEHIND}"
    )


@check("words.denied", LIFE, COMMON_PRACTICE, COMPOSITION)
def words_deny_nothing_that_is_aboard(sight: Sight) -> Finds:
    """Words deny nothing that is aboard.

    Why: nobody looks for the EPIRB of which the manual says that there is none.
    Remedy: go and look; take it out of the words, or off the list.
    """
    told = [each for each in sight.own_words if each.says not in (SIGNAL, ROLE) and _NO.search(each.text)]
    if not told:
        return
    things = [each for each in things_of(sight) if isinstance(each.block, (*_COUNTED, RadioSet, GrabBag))]
    names = {_single(name): each.place for each in things for name in each.names}
    names |= {
        short: each.place
        for short in called("short")
        for each in things
        if any(name.split()[-1].rstrip("s") == short for name in each.names)
    }
    for raft in sight.vessel.rafts:
        names |= {each.lower(): raft.place("held-by") for each in raft.held_by or () if isinstance(each, str)}
    find = _denied(tuple(sorted(names)))
    for said in told:
        found = find.search(said.text.lower())
        if found:
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}' denies the {found['name']}, and the file has one",
                item=said.block.path,
                also=(names[found["name"]],),
            )


@lru_cache(maxsize=64)
def _denied(names: tuple[str, ...]) -> re.Pattern[str]:
    """Finds "there is no NAME" and its like where the sentence ends there."""
    return re.compile(
        rf"\b{_HAS_NO} no (?P<name>{one_of(names) or '(?!)'})(?:e?s)?(?=$|[.;:)!*]|, | aboard\b| on board\b| and\b| on this boat\b)"
    )
