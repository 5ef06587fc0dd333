"""Things of hers counted or denied in words: as many as are listed, and none denied that is there."""

from __future__ import annotations

import re
from collections import defaultdict
from functools import cache, lru_cache
from typing import TYPE_CHECKING

from generator.checks.words.places import one_of
from generator.checks.words.things import things_of
from generator.manual.own_words import called, in_order, told_in
from generator.manual.sieves import Names, names_alike, sieve
from generator.reading.nearest import shortened
from generator.reading.worded import ROLE, SIGNAL
from generator.survey.apparatus import BEHIND
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    DEFECT,
    HELP,
    LIFE,
    Finds,
    Sight,
    at,
    check,
)
from generator.vessel.alarms import Alarm
from generator.vessel.gear import ALL, Gear, GrabBag, GrabItem, Lifejackets
from generator.vessel.installed import Pump, Stop
from generator.vessel.people import heads, meant_by
from generator.vessel.radio import Beacon, RadioSet
from generator.vessel.raft import Raft

if TYPE_CHECKING:
    from generator.checks.words.things import Told
    from generator.reading.block import Block

_COUNTED = (Gear, GrabItem, Lifejackets, Raft, Beacon, Alarm, Pump, Stop)
_STATES = (
    r"(?:there (?:are|is)|(?:we|they) (?:have|carry|keep)|(?:she|the boat) (?:has|carries)|aboard are|all)"
)
_STATED_BEHIND = re.compile(
    r"^(?:$|[.:!]|,? (?:for both|for all|for everybody|are|is|hang|hangs|lie|lies|stand|stands|stowed|kept|aboard|in all|in total)\b)"
)
_FOR_ALL = re.compile(r"^ for (?:both|all|the whole|everybody|each)\b")
_NO = re.compile(r"\bno\b")
_HAS_NO = r"(?:there (?:is|are)|the engines? (?:has|have)|we have|we carry|she has|she carries|the boat has|aboard (?:is|are))"
_SAYS_NO = re.compile(rf"\b{_HAS_NO} no ")


@sieve
def _counts(text: str) -> bool:
    return _any_number().search(text.lower()) is not None


@sieve
def _denies(text: str) -> bool:
    return _NO.search(text) is not None and _SAYS_NO.search(text.lower()) is not None


@check("words.other-count", HELP, COMMON_PRACTICE, COMPOSITION)
def words_count_what_is_listed(sight: Sight) -> Finds:
    """Where words count things of hers, they count as many as are listed, and use no more.

    Why: whoever is told of six flares keeps the last ones back for an hour that two do not see.
    Remedy: count them, and correct the quantity or the words.
    """
    told = [
        each
        for each in sight.words_through(_counts)
        if each.says not in (SIGNAL, ROLE)
        and not each.names_itself
        and each.block.__dict__.get("quantity") is None
    ]
    if not told:
        return
    things = [each for each in things_of(sight) if isinstance(each.block, _COUNTED)]
    names = names_alike(tuple(sorted({name for each in things for name in each.names})))
    find = _numbered(names)
    for said in told:
        for found in (one for sentence in told_in(said.meant) for one in find.finditer(sentence)):
            number = (
                int(found["number"])
                if found["number"].isdigit()
                else in_order("reads.numbers").index(found["number"]) + 1
            )
            meant = [each for each in things if found["name"] in map(_single, each.names)]
            total, parts = _amounts(meant)
            stated = re.search(rf"(?:^|[.,;:]|{_STATES}) *$", found.string[: found.start()]) is not None
            stated = stated and _STATED_BEHIND.match(found.string[found.end() :]) is not None
            for_all = number == 1 and _FOR_ALL.match(found.string[found.end() :]) is not None
            if total and (
                number > total
                or (stated and (number > 1 or for_all) and number not in (parts if number > 1 else {total}))
            ):
                yield at(
                    said.block,
                    said.field.key,
                    f"'{shortened(said.text)}' says {number}, and the file counts {total}",
                    item=said.block.path,
                    also=(meant[0].block.place(type(meant[0].block).called or "what"),),
                    weight=DEFECT
                    if isinstance(meant[0].block, (Pump, Stop, Alarm, Raft, Lifejackets))
                    else None,
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


@lru_cache(maxsize=8192)
def _single(name: str) -> str:
    return name.lower().rstrip("s")


@lru_cache(maxsize=64)
def _numbered(names: Names) -> re.Pattern[str]:
    """Finds a number and the name of a thing behind it."""
    single = one_of(tuple(_single(each) for each in names)) or "(?!)"
    return re.compile(
        rf"\b(?P<number>\d{{1,3}}|{'|'.join(in_order('reads.numbers'))}) (?P<name>{single})(?:e?s)?{BEHIND}"
    )


_IN_EACH = re.compile(
    r"^(?:(?:one|clipped|fixed|tied|sewn|packed|kept|stowed) )*(?:in|on|inside|with|at|to) (?:each|every|all(?: of)?)(?: the)?(?: \w+)? "
    r"(?P<of>life ?jackets?|jackets?|life ?rafts?|rafts?|grab bags?)\b",
    re.IGNORECASE,
)


@check("words.in-each", LIFE, COMMON_PRACTICE)
def there_is_one_for_each(sight: Sight) -> Finds:
    """Of what is said to be in each lifejacket, raft or grab bag there are as many as of those.

    Why: whoever puts on the jacket without the beacon thinks that it calls for him.
    Remedy: count them; correct 'quantity', or write in which of them they are: spot: in the jackets of skipper and mate.
    """
    vessel = sight.vessel
    things: list[Beacon | Gear] = [*(vessel.radio.beacons if vessel.radio else ()), *vessel.gear]
    for thing in things:
        found = _IN_EACH.match(thing.spot) if isinstance(thing.spot, str) else None
        if found is None or not isinstance(thing.quantity, int):
            continue
        of = found["of"].lower()
        groups: list[Lifejackets | Raft | GrabBag] = [
            *(vessel.lifejackets if "jacket" in of else vessel.rafts if "raft" in of else vessel.grab_bags)
        ]
        counted = [each.quantity if isinstance(each, Lifejackets) else 1 for each in groups]
        numbers = [each for each in counted if isinstance(each, int)]
        if not numbers or len(numbers) < len(counted):
            continue
        total, most = sum(numbers), max(numbers)
        sums = {most}  # those of children may be left out
        for number in numbers[: numbers.index(most)] + numbers[numbers.index(most) + 1 :]:
            sums |= {number + each for each in sums}
        grown = [person for person in vessel.people if not person.a_child]
        wear = [
            heads(vessel.people)
            if ALL in (each.worn_by or ())
            else sum(meant_by(who, vessel.people) for who in each.worn_by or ())
            for each in groups
            if isinstance(each, Lifejackets)
        ]
        worn = {heads(grown), max(wear, default=0), sum(wear)}
        spare = "jacket" in of and (
            thing.quantity in worn or thing.quantity >= heads(vessel.people)
        )  # those over that nobody wears
        if thing.quantity < total and not spare and thing.quantity not in sums:
            yield at(
                thing,
                "quantity",
                f"{thing.what}: '{shortened(str(thing.spot))}' are {thing.quantity}, and the file counts {total} {of.rstrip('s')}s",
                item=str(thing.what),
                also=(groups[0].place("quantity" if "jacket" in of else type(groups[0]).called or ""),),
            )


@check("words.denied", LIFE, COMMON_PRACTICE, COMPOSITION)
def words_deny_nothing_that_is_aboard(sight: Sight) -> Finds:
    """Words deny nothing that is aboard.

    Why: nobody looks for the EPIRB of which the manual says that there is none.
    Remedy: go and look; take it out of the words, or off the list.
    """
    told = [each for each in sight.words_through(_denies) if each.says not in (SIGNAL, ROLE)]
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
        rf"\b{_HAS_NO} no (?P<name>{one_of(names) or '(?!)'})(?:e?s)?(?=$|[.;:)!*]|, | aboard\b| on board\b| and\b| on this boat\b| any ?more\b| any longer\b| now\b| at the moment\b| in the [a-z ]+? any ?more\b)"
    )
