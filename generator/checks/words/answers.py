"""Short answers that no step prints inside its sentence: a colour, a harbour, a reason; they answer, and neither ask nor send elsewhere."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from generator.manual.acts import begins_as_act
from generator.manual.clauses import masked
from generator.manual.forms import asks, misfit
from generator.manual.orders import words_of
from generator.manual.own_words import APART, listed
from generator.reading.fields import NEEDED, Text, Texts
from generator.reading.nearest import shortened
from generator.reading.worded import DOING, NAME, PLACE, SIGNAL, THING, Worded
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    DEFECT,
    FORM,
    RECOMMENDATION,
    Finds,
    Sight,
    at,
    check,
)
from generator.vessel.gear import StillCarried
from generator.vessel.medical import Medical
from generator.vessel.particulars import Contact, Deferred, Particulars

if TYPE_CHECKING:
    from generator.reading.block import Block

_IN_SENTENCES = (THING, PLACE, DOING, SIGNAL)
_NOT_FOUND = (
    "advised",
    "confirmed",
    "decided",
    "defined",
    "determined",
    "done",
    "filled",
    "found",
    "written",
)
"""What is still to be done to an answer, and not aboard: to be moved in autumn tells why she sails with it, to be confirmed does not."""
_CHANNEL = re.compile(r"\b\d{1,2}\b")
"""What tells on which channel somebody is called, in words that say what to do there: call the coastguard on 16."""
_ADDRESS = re.compile(r"\w+://|\bwww\.|@")


@check("words.no-answer", FORM, COMMON_PRACTICE, COMPOSITION)
def a_short_answer_answers(sight: Sight) -> Finds:
    """A short answer is no question, and sends to no paper and to nobody.

    Why: "hull colour: dark blue?" is read out to a lifeboat as if somebody knew it, and "see log" to whoever has no log.
    Remedy: find out and write what it is; write unknown where nobody knows it yet.
    """
    for block in sight.blocks:
        for field in _short(type(block)):
            value = block.__dict__.get(field.name)
            for number, text in enumerate(value if isinstance(value, tuple) else (value,)):
                if not isinstance(text, str) or not (wrong := _wrong(block, field, text)):
                    continue
                shown = (
                    f"'{shortened(text)}'"
                    if block.readable(field, "guest")
                    else f"the value of '{field.key}'"
                )
                yield at(
                    block,
                    field.key,
                    f"{shown} {wrong}: {field.question}",
                    item=block.path,
                    also=(block.place_in(field.key, number),) if isinstance(value, tuple) else (),
                    weight=DEFECT if field.unknown == NEEDED else RECOMMENDATION,
                )


_SHORT: dict[type[Block], tuple[Text | Texts, ...]] = {}


def _short(kind: type[Block]) -> tuple[Text | Texts, ...]:
    """The fields of a kind of block that hold an answer in a few words which `words_stand_inside_a_sentence` does not read."""
    if kind in _SHORT:
        return _SHORT[kind]
    found: list[Text | Texts] = []
    for field in kind.fields.values():
        if field is Particulars.name:
            continue
        if isinstance(field, Texts) and type(field.of) is Text:
            found.append(field)
        elif isinstance(field, Text) and field.one_line:
            says = field.says if isinstance(field, Worded) else ""
            if says not in _IN_SENTENCES or issubclass(kind, APART):
                found.append(field)
    _SHORT[kind] = tuple(found)
    return _SHORT[kind]


def _wrong(block: Block, field: Text | Texts, text: str) -> str:
    """What a text is instead of an answer; "" where it is one."""
    says, apart = field.says if isinstance(field, Worded) else "", isinstance(block, APART)
    if says != NAME and not apart and _answers(text):
        return ""
    if says == "" and not apart and _says_nothing(text):
        return "is no answer"
    if says != NAME and not apart and not _may_ask_or_send(text):
        return ""
    if _ADDRESS.search(text):
        return ""
    if asks(text):
        return "asks, and is no answer"
    words = tuple(words_of(masked(text)))
    if not words:
        return ""
    first, behind = words[0], words[1:]
    if first in listed("reads.no-answer") or _not_yet(block, words):
        return "is no answer yet"
    asked = isinstance(block, Medical) and first == "ask"  # which is what the field asks for: who is asked
    if first in listed("reads.sends") and not asked and behind and _as_a_word(text, behind):
        return "sends elsewhere, and is no answer"
    rung = isinstance(block, Contact) and first in listed("reads.callers") and _CHANNEL.search(text)
    if says == NAME and begins_as_act(words) and text[:1].islower() and not rung:
        return "tells what to do, and is no answer"
    rings = says == DOING and first in listed("reads.callers")  # which is what a guest is asked to do first
    wrong = misfit(says, text) if isinstance(block, APART) and not rings else None
    return wrong.what if wrong is not None else ""


def _not_yet(block: Block, words: tuple[str, ...]) -> bool:
    """Whether words say that somebody is still to find out; what is to be done to the thing is an answer to why she sails with it."""
    if words[:2] == ("to", "be"):
        reason = isinstance(block, (Deferred, StillCarried))
        return not reason or len(words) < 4 or words[2] in _NOT_FOUND
    if words[:2] in (("don't", "know"), ("no", "idea")):
        return True
    return words[0] == "not" and not listed("reads.not-yet").isdisjoint(words[1:])


@lru_cache(maxsize=8192)
def _answers(text: str) -> bool:
    """Whether nothing in words looks like anything but an answer."""
    return not (_says_nothing(text) or _may_ask_or_send(text))


def _may_ask_or_send(text: str) -> bool:
    """Whether words ask, or begin as what is no answer does."""
    return "?" in text or text.partition(" ")[0].lower().strip(",;:.") in _begins()


def _says_nothing(text: str) -> bool:
    """Whether words say that it depends, or is as elsewhere: varies with the load, same as the other one."""
    words = tuple(words_of(masked(text)))
    return words[:2] in (("it", "depends"), ("it", "varies"), ("same", "as"), ("like", "the")) or (
        words[:1] in (("depends",), ("varies",))
    )


def _begins() -> frozenset[str]:
    """With one of these words begins whatever is no answer, and no question."""
    return listed("reads.no-answer", "reads.sends", "reads.denies", "reads.joins")


def _as_a_word(text: str, behind: tuple[str, ...]) -> bool:
    """Whether the first word is no name: see log, See the log; not Ask Petersen."""
    return text[:1].islower() or not (listed("reads.articles", "reads.papers")).isdisjoint(behind[:1])
