"""How sentences have people lifted out of the water: at the side and with the hoist of 'recovery'."""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING

from generator.checks.words.places import one_of
from generator.manual.own_words import APART, called, orders_in
from generator.manual.sieves import sieve
from generator.reading.nearest import shortened
from generator.reading.worded import ROLE, SIGNAL
from generator.survey.registry import COMMON_PRACTICE, LIFE, Finds, Sight, at, check
from generator.vessel.fittings import Fitting
from generator.vessel.gear import Recovery, does
from generator.vessel.particulars import Note

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.reading.findings import Place

_SIDES = frozenset(("port", "starboard"))


@sieve
def _lifts(text: str) -> bool:
    return _lifting().search(text.lower()) is not None


@cache
def _lifting() -> re.Pattern[str]:
    """Finds that somebody is lifted or taken aboard."""
    return re.compile(
        rf"\b(?:(?P<lifts>the hoist is|our hoist is|{one_of(called('lifts'))})|(?:{one_of(called('takes-aboard'))}))\b(?P<whom>[^.;:]*)"
    )


@cache
def _side() -> re.Pattern[str]:
    return re.compile(
        r"\b(?:on|over|at|from|to|along|up) (?:the |our |her )?(?P<side>port|starboard)(?: (?:side|rail|gate|quarter|gunwale|bulwark|gangway))?(?=$|[,.;:)*]| (?:always|only|and|with|by|at|where|whatever|first)\b)"
    )


@cache
def _hoist() -> re.Pattern[str]:
    return re.compile(
        rf"\b(?:with|by|using|on) (?:the |our |a |an )(?P<what>(?:[\w'’-]+ ){{0,3}}?(?P<noun>{one_of(called('hoists'))}))\b"
    )


@cache
def _used() -> re.Pattern[str]:
    """Finds what is said to be the hoist, or is rigged or taken to lift with."""
    what = rf"(?:the |our |an? )?(?P<what>(?:[\w'’-]+ ){{0,3}}?(?P<noun>{one_of(called('hoists'))}))\b"
    return re.compile(
        rf"\b(?:(?:the|our) (?:hoist|lifting gear) is|(?:use|rig|take|lead|set up|fetch)) {what}(?= (?:to|and|for)\b|$|[,.;])"
    )


_PERSONS = re.compile(
    r"\b(?:people|persons?|casualty|casualties|swimmers?|them|him|somebody|anybody in|whoever|man|woman|one in the water|survivors?|aboard|on board|out of the water)\b"
)
_AT_ONCE_HOW = re.compile(r"^(?: up| out| in| always| then)* (?:with|by|on|over|at|from|using|to)\b")
"""How words go on that do not name whom they lift: with the windlass."""


def _somebody(lifted: re.Match[str], before: str, *, of_people: bool) -> bool:
    """Whether it is somebody who is lifted or taken aboard, by what is said before and behind the verb."""
    if lifted["lifts"] is None:
        passive = _IS.search(before) or lifted[0].startswith(_COMES)
        return bool(passive and _PERSONS.search(before)) or _WHOM.search(lifted["whom"]) is not None
    named = _PERSONS.search(lifted["whom"]) or _PERSONS.search(before)
    if named or lifted["lifts"].endswith("hoist is"):
        return True
    return of_people and _AT_ONCE_HOW.search(lifted["whom"]) is not None


_WHOM = re.compile(rf"^(?: [\w'’-]+){{0,3}}? {_PERSONS.pattern.removeprefix(chr(92) + 'b')}")
_IS = re.compile(r"\b(?:is|are|be|been|being|gets)(?: always| then| also)? $")
_COMES = ("comes aboard", "come aboard", "climbs aboard")


@check("words.other-recovery", LIFE, COMMON_PRACTICE)
def words_lift_people_as_recovery_has_it(sight: Sight) -> Finds:
    """Where words say at which side or with what people are lifted aboard, they say the side and the hoist of 'recovery'.

    Why: the boat is laid with the casualty to port, and what lifts him is rigged to starboard.
    Remedy: go and lift somebody; correct the words, or 'side' and 'hoist' under 'recovery'.
    """
    recovery = sight.vessel.recovery
    for said in sight.words_through(_lifts) if recovery is not None else ():
        if said.says in (ROLE, SIGNAL) or isinstance(said.block, (*APART, Recovery)):
            continue
        if said.block.path.startswith("recovery"):
            continue
        beside = str(said.block.beside) if isinstance(said.block, Note) else ""
        wrong = next(
            (
                found
                for sentence in orders_in(said.meant)
                for found in _otherwise(
                    sentence, sight, of_people=beside.startswith(called("beside.recovery"))
                )
            ),
            None,
        )
        if wrong is not None:
            what, hers, place = wrong
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}' lifts people {what}, and recovery says: {hers}",
                item=said.block.path,
                also=(place,),
            )


def _otherwise(sentence: str, sight: Sight, *, of_people: bool) -> Iterator[tuple[str, str, Place]]:
    """The side and the hoist that a sentence lifts people by, which recovery has otherwise."""
    recovery = sight.vessel.recovery
    for lifted in _lifting().finditer(sentence):
        before = sentence[: lifted.start()]
        if recovery is None or _ELSE.search(sentence) or not _somebody(lifted, before, of_people=of_people):
            continue
        sides = {str(recovery.side)} | {str(each.side) for each in (recovery.gate, recovery.ladder) if each}
        side = _side().search(lifted["whom"])
        if side and str(recovery.side) in _SIDES and side["side"] not in sides:
            yield f"to {side['side']}", f"side: {recovery.side}", recovery.place("side")
        hoist = _hoist().search(lifted["whom"]) or _used().search(sentence)
        if (
            hoist
            and isinstance(recovery.hoist, Fitting)
            and _another_hoist(hoist["what"], hoist["noun"], sight)
        ):
            yield f"with the {hoist['what']}", f"hoist: {recovery.hoist}", recovery.hoist.place("what")


_ELSE = re.compile(
    r"\b(?:raft|dinghy|tender|anchor(?! (?:windlass|winch))|outboard|canister|boom|sail|boat round)\b"
)
"""What else is lifted or brought, so that nothing is said of people."""


def _another_hoist(what: str, noun: str, sight: Sight) -> bool:
    """Whether what words lift by is neither the hoist of recovery nor gear that serves for it."""
    recovery = sight.vessel.recovery
    hoist = recovery.hoist if recovery is not None else None
    words = f"{hoist} {recovery.place_ if recovery else ''}".lower()
    stem = noun.rstrip("s")
    gear = [str(item.what).lower() for item in sight.vessel.gear if does(item, "lifts a person by hand")]
    if stem not in words:
        return not any(stem in each for each in gear)
    told = {each for each in called("sails") if re.search(rf"\b{each}\b", what)}
    hers = {each for each in called("sails") if re.search(rf"\b{each}\b", words)}
    return bool(told and hers) and told.isdisjoint(hers)
