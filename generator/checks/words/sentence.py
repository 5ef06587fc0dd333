"""Words that a step prints in its sentence read there: a thing, a place, a way of doing, a signal."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.manual.orders import empty, no_signal, orders, somebody, stray, without_a_hand
from generator.manual.own_words import OwnWords, listed
from generator.reading.nearest import shortened
from generator.reading.worded import DOING, PLACE, SIGNAL, THING
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    DEFECT,
    FORM,
    RECOMMENDATION,
    Finds,
    Found,
    Sight,
    at,
    check,
)
from generator.vessel.fittings import Fitting

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.reading.block import Block
    from generator.reading.findings import Weight

_TWO_SENTENCES = re.compile(r"[.!?]\s+[A-Z]")
_SENT_AWAY = re.compile(
    r"\b(?:see|refer to|consult|as (?:in|per|told in|shown in)|according to)\s+(?:the\s+|its\s+|his\s+|maker's\s+|separate\s+)*"
    r"(?:manual|handbook|instructions?|leaflet|booklet|page|drawing|label|below|above)\b",
    re.IGNORECASE,
)
_ORDER = re.compile(
    r"(?:press|push|pull|turn|switch|ask|look|unscrew)\s+(?:the|it|both|an?|on|off|up|down|hard|and|for|under|in|left|right)\b",
    re.IGNORECASE,
)


def _first(text: str) -> str:
    """The first word, in small letters."""
    return text.partition(" ")[0].lower().strip(",:")


def _of(sight: Sight, says: str) -> Iterator[OwnWords]:
    return (each for each in sight.own_words if each.says == says)


@check("words.no-thing", FORM, COMMON_PRACTICE, COMPOSITION)
def a_fitting_is_named_as_a_thing(sight: Sight) -> Finds:
    """What a step names as a thing or place reads so in its sentence.

    Why: "throw the raft into the water at straight aft over the stern" is read twice by somebody who has no time.
    Remedy: name the thing alone (what: the gate) and say the rest under where, side and spot.
    """
    for said in _of(sight, THING):
        text = said.text
        if orders(text):
            what = "it tells what to do"
        elif somebody(text):
            what = "it tells what somebody does"
        elif empty(text):
            what = "it names nothing"
        elif first := stray(text):
            what = f"it begins with '{first}'"
        elif _bare(said):
            yield _no_thing(sight, said, "it has no article and no place", RECOMMENDATION)
            continue
        else:
            continue
        yield _no_thing(sight, said, what, DEFECT)


def _bare(said: OwnWords) -> bool:
    """Whether a fitting is told by these words alone, and they lack the article that its place would bring: lee side."""
    block = said.block
    if not isinstance(block, Fitting) or any(block.__dict__.get(key) for key in ("where", "side", "spot")):
        return False
    first = said.text.split()[0] if said.text.split() else ""
    return (
        bool(first)
        and first.lower() not in listed("reads.articles")
        and not first.endswith(("'s", "s'", "’s"))
    )


def _no_thing(sight: Sight, said: OwnWords, what: str, weight: Weight) -> Found:
    block, key = said.block, said.field.key
    like = f"{key}: {said.field.example}"
    if isinstance(block, Fitting):
        like = f"{block.path.rpartition('.')[2]}: {_example_of_fitting(sight, block)}"
    return at(
        block,
        key,
        f"'{shortened(said.text)}' is no thing or place that a step can name: {what}",
        remedy=f"name what is there, for example {like}",
        item=block.path,
        weight=weight,
    )


def _example_of_fitting(sight: Sight, block: Block) -> str:
    """The example of the field that holds a fitting."""
    for owner in sight.blocks:
        for field in type(owner).fields.values():
            held = owner.__dict__.get(field.name)
            if held is block and field.example.startswith("{"):
                return field.example
    return "{what: the gate, where: ..., side: port}"


@check("words.no-place", FORM, COMMON_PRACTICE, COMPOSITION)
def a_place_is_told_as_a_place(sight: Sight) -> Finds:
    """What a step prints as the place of something says where it is, not what to do.

    Why: "cut the lashing with the knife (pull it out)" leaves the hand searching.
    Remedy: say where it is as one points at it (in the sheath on the cradle); what to do stands under how, use or power.
    """
    for said in _of(sight, PLACE):
        text = said.text
        if orders(text) or empty(text):
            yield _misfit(said, "says no place", DEFECT)
        elif _first(text) in listed("reads.no-place") or somebody(text) or _ORDER.match(text):
            yield _misfit(said, "says no place")


@check("words.no-doing", FORM, COMMON_PRACTICE, COMPOSITION)
def a_way_of_doing_is_told_as_one_says_it(sight: Sight) -> Finds:
    """What a step prints as a way of doing says what the hand does.

    Why: "stop the engine: under the seat" finds the place and leaves the knob as it is.
    Remedy: say it as to whoever does it (pull the red knob right out); the place stands under where, side and spot.
    """
    for said in _of(sight, DOING):
        first, text = _first(said.text), said.text.lower()
        misfits = listed("reads.no-doing") | (listed("reads.no-thing") - listed("reads.may-begin"))
        if empty(text) or without_a_hand(text):
            yield _misfit(said, "says no way of doing it", DEFECT)
        elif (
            re.match(r"by\s+\w+ing\b", text)
            or somebody(text)
            or (first in misfits and not re.search(r"[,:;]", text))
        ):
            yield _misfit(said, "says no way of doing it")


@check("words.no-signal", FORM, COMMON_PRACTICE, COMPOSITION)
def a_signal_is_told_as_it_is_heard(sight: Sight) -> Finds:
    """What a step prints as a signal says what is heard or seen.

    Why: whoever never heard it knows it from these words alone.
    Remedy: write what is heard: seven short blasts and one long on the horn; the skipper calls 'Abandon ship' three times.
    """
    for said in _of(sight, SIGNAL):
        if no_signal(said.text):
            yield _misfit(said, "says no signal", DEFECT)
        elif _first(said.text) in listed("reads.no-signal") and not re.search(r"[,:;]", said.text):
            yield _misfit(said, "says no signal")


@check("words.broken-sentence", FORM, COMMON_PRACTICE, COMPOSITION)
def words_stand_inside_a_sentence(sight: Sight) -> Finds:
    """What a step prints inside its sentence is no sentence of its own, no question, and sends to no other paper.

    Why: a step that breaks off, asks, or sends for the maker's manual is read twice, and the manual lies under water.
    Remedy: write it in a few words without full stop and question mark: press the red key for five seconds.
    """
    for said in sight.own_words:
        if said.says not in (THING, PLACE, DOING, SIGNAL):
            continue
        text = said.text
        if "?" in text:
            yield _misfit(said, "asks, where a step needs the answer")
        elif sent := _SENT_AWAY.search(text):
            yield _misfit(said, f"sends to another paper: '{sent[0]}'")
        elif text.endswith((".", "!")) and not re.search(r"\b(?:etc|approx|no|st)\.$|\.\.$", text):
            yield _misfit(said, "ends as a sentence does, and stands inside one")
        elif not re.search("[\"'“‘]", text) and _TWO_SENTENCES.search(text):
            yield _misfit(said, "holds two sentences, and stands inside one")


def _misfit(said: OwnWords, what: str, weight: Weight | None = None) -> Found:
    """Words that do not fit, with an example of some that do."""
    field = said.field
    remedy = f"write it as it stands in a sentence, for example {field.key}: {_example(said)}"
    return at(
        said.block,
        field.key,
        f"'{shortened(said.text)}' {what}: {field.question}",
        remedy=remedy,
        item=said.block.path,
        weight=weight,
    )


_LIKE = {
    THING: "the U-bolt",
    PLACE: "in the clip beside it",
    DOING: "pull the red knob right out",
    SIGNAL: "seven short blasts and one long on the horn",
}


def _example(said: OwnWords) -> str:
    """The example of the field, or of what its words are in a sentence."""
    example = said.field.example
    return example if example != said.field.usual else _LIKE[said.says]
