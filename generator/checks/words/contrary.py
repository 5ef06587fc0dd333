"""Notes that tell how a stop is worked, against how it is worked: the tap is not shut along the pipe, nor the knob pushed that is pulled."""

from __future__ import annotations

import re
from functools import cache, lru_cache
from typing import TYPE_CHECKING

from generator.checks.words.deeds import ends_told
from generator.checks.words.places import one_of
from generator.manual.own_words import called, in_order, sentences_in
from generator.reading.nearest import shortened
from generator.survey.registry import COMMON_PRACTICE, LIFE, Finds, Sight, at, check

if TYPE_CHECKING:
    from generator.vessel.installed import Stop

_SHUTS = re.compile(r"\b(?:shuts?|clos(?:e|es|ing)|shutting|off|stops?|stopping|ends?)\b")
_OPENS = re.compile(r"\b(?:opens?|opening|turn(?:s|ed)? on|switch(?:es)? on)\b")
_WORKED = re.compile(r"\b(knob|button|key|lever|handle|switch|cord|tap|valve|pull|ring|cock)s?\b")
_MEANT = ("gas", "fuel", "batteries", "engine")


@check("words.contrary-deed", LIFE, COMMON_PRACTICE)
def notes_work_a_stop_as_its_entry_does(sight: Sight) -> Finds:
    """A note that tells how gas, fuel, batteries or engine are shut off tells it as 'how' of the stop does.

    Why: of two ways to turn a tap one opens it, and nobody tries both with gas in the bilge.
    Remedy: go and work it once; correct the note, or 'how', whichever is wrong.
    """
    stops = [each for each in sight.vessel.stops if isinstance(each.how, str) and each.what in _MEANT]
    for note in sight.vessel.notes if stops else ():
        if not isinstance(note.text, str):
            continue
        for sentence in sentences_in(note.text):
            wrong = _contrary(sentence, str(note.beside), stops)
            if wrong is not None:
                stop, said = wrong
                yield at(
                    note,
                    "text",
                    f"'{shortened(note.text)}' {said}, and how of the {stop.what} says: {stop.how}",
                    item=note.path,
                    also=(stop.place("how"),),
                )
                break


def _contrary(sentence: str, beside: str, stops: list[Stop]) -> tuple[Stop, str] | None:
    """The stop that a sentence works the other way round, and what it does to it."""
    small = sentence.lower()
    if not _WORKED.search(small):
        return None
    kinds = [kind for kind in _MEANT if _named(kind).search(small)]
    kind = kinds[0] if len(kinds) == 1 else beside if not kinds and beside == "gas" else ""
    meant = [each for each in stops if each.what == kind]
    if not meant:
        return None
    shuts, opens = _SHUTS.search(small) is not None, _OPENS.search(small) is not None
    going, rest = ends_told(sentence)
    if shuts and not opens and going and not rest:
        return meant[0], "opens it"
    if opens and not shuts and rest and not going and kind in ("gas", "fuel"):
        return meant[0], "has it opened so"
    if shuts and all(_other_way(small, str(each.how).lower()) for each in meant):
        return meant[0], "works it the other way"
    return None


@cache
def _named(kind: str) -> re.Pattern[str]:
    return re.compile(rf"\b(?:{one_of((*called(f'stop.{kind}'), *called(f'shut.{kind}')))})\b")


@lru_cache(maxsize=1024)
def _other_way(said: str, how: str) -> bool:
    """Whether words move the same knob or lever the other way than `how`: push it where that pulls."""
    if set(_WORKED.findall(said)).isdisjoint(_WORKED.findall(how)):
        return False
    here, there = (set(re.findall(r"[a-z]+", each)) for each in (said, how))
    pairs = list(zip(in_order("reads.opposites")[::2], in_order("reads.opposites")[1::2], strict=True))
    both = [*pairs, *((other, one) for one, other in pairs)]
    return any(
        one in here and other not in here and other in there and one not in there for one, other in both
    )
