"""Words that a step prints in its sentence read there: a thing, a place, a way of doing, a signal."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from generator.manual.clauses import masked
from generator.manual.forms import asks, misfit, unfamiliar
from generator.manual.orders import words_of
from generator.manual.own_words import OwnWords, listed
from generator.reading.nearest import shortened
from generator.reading.nodes import Mapping
from generator.reading.worded import DOING, PLACE, SIGNAL, THING
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    DEFECT,
    FORM,
    RECOMMENDATION,
    TRUTH,
    Finds,
    Found,
    Sight,
    at,
    check,
)
from generator.vessel.fittings import Fitting
from generator.vessel.gear import Tender
from generator.vessel.radio import RadioSet

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.reading.findings import Weight

_TWO_SENTENCES = re.compile(r"[.!?]\s+[A-Z]")
_SENT_AWAY = re.compile(
    r"\b(?:see|refer to|consult|as (?:in|per|told in|shown in)|according to)\s+(?:the\s+|its\s+|his\s+|maker's\s+|separate\s+)*"
    r"(?:manual|handbook|instructions?|leaflet|booklet|page|drawing|label|photo|sticker|below|above)\b",
    re.IGNORECASE,
)


def _of(sight: Sight, says: str) -> Iterator[OwnWords]:
    return (each for each in sight.own_words if each.says == says)


@check("words.no-thing", TRUTH, COMMON_PRACTICE, COMPOSITION)
def a_fitting_is_named_as_a_thing(sight: Sight) -> Finds:
    """What a step names as a thing or place reads so in its sentence.

    Why: "throw the raft into the water at straight aft over the stern" is read twice by somebody who has no time.
    Remedy: name the thing alone (what: the gate) and say the rest under where, side and spot.
    """
    for said in _of(sight, THING):
        if wrong := misfit(THING, said.text):
            yield _no_thing(sight, said, wrong.what, DEFECT if wrong.sure else RECOMMENDATION)
        elif _bare(said) and not asks(said.text):
            yield _no_thing(sight, said, "it has no article and no place", RECOMMENDATION)
        elif isinstance(said.block, (Fitting, Tender)) and _strange(sight, said):
            yield _no_thing(sight, said, _STRANGE, RECOMMENDATION)


_STRANGE = "it reads as no thing that is known here, so write what it is in other words too"


def _strange(sight: Sight, said: OwnWords) -> bool:
    """Whether words pass by their form, and hold nothing that is known of boats, nor a name of her own spaces and gear."""
    if not unfamiliar(said.says, said.text):
        return False
    names = (*sight.spaces, *(str(gear.what) for gear in sight.vessel.gear))
    own = {word for name in names for word in words_of(name)} - listed("reads.articles", "reads.what-of")
    return own.isdisjoint(words_of(said.text))


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
        like = _thing_of_example(sight, block)
    return at(
        block,
        key,
        f"'{shortened(said.text)}' is no thing or place that a step can name: {what}",
        remedy=f"name what is there, for example {like}",
        item=block.path,
        weight=weight,
    )


def _thing_of_example(sight: Sight, block: Fitting) -> str:
    """The line to paste, out of the example of the field that holds a fitting: where it is told by keys its `what` alone, else all of it."""
    example = f"{{what: {Fitting.what.example}}}"
    for owner in sight.blocks:
        for field in type(owner).fields.values():
            if owner.__dict__.get(field.name) is block and field.example.startswith("{"):
                example = field.example
    if isinstance(block.node, Mapping) and Fitting.what.key in block.node.keys:
        return example.strip("{}").split(",")[0]
    return f"{block.path.rpartition('.')[2]}: {example}"


@check("words.no-place", TRUTH, COMMON_PRACTICE, COMPOSITION)
def a_place_is_told_as_a_place(sight: Sight) -> Finds:
    """What a step prints as the place of something says where it is, not what to do.

    Why: "cut the lashing with the knife (pull it out)" leaves the hand searching.
    Remedy: say where it is as one points at it (in the sheath on the cradle); what to do stands under how, use or power.
    """
    yield from _misfits(sight, PLACE, "says no place: ")


@check("words.no-doing", TRUTH, COMMON_PRACTICE, COMPOSITION)
def a_way_of_doing_is_told_as_one_says_it(sight: Sight) -> Finds:
    """What a step prints as a way of doing says what the hand does.

    Why: "stop the engine: under the seat" finds the place and leaves the knob as it is; of "close the gas: as marked" nobody gets anything.
    Remedy: say the act and what it is done to, as to whoever does it (pull the red knob right out); the place stands under where, side and spot.
    """
    yield from _misfits(sight, DOING, "")


@check("words.no-signal", TRUTH, COMMON_PRACTICE, COMPOSITION)
def a_signal_is_told_as_it_is_heard(sight: Sight) -> Finds:
    """What a step prints as a signal says what is heard or seen.

    Why: whoever never heard it knows it from these words alone.
    Remedy: write what is heard: seven short blasts and one long on the horn; the skipper calls 'Abandon ship' three times.
    """
    yield from _misfits(sight, SIGNAL, "says no signal: ")


def _misfits(sight: Sight, says: str, what: str) -> Iterator[Found]:
    """What is wrong with the words that are to be one of these in a sentence."""
    for said in _of(sight, says):
        if isinstance(said.block, RadioSet) and said.field is RadioSet.power and _switches(said):
            continue
        if wrong := misfit(says, said.text):
            yield _misfit(said, what + wrong.what, DEFECT if wrong.sure or says == SIGNAL else RECOMMENDATION)
        elif _strange(sight, said):
            yield _misfit(said, what + _STRANGE, RECOMMENDATION)


def _switches(said: OwnWords) -> bool:
    """Whether words say which switch turns a set on, by its label or its way, or that it is on: breaker R3 on the panel overhead."""
    words = set(words_of(masked(said.text)))
    if _ON_WITH.match(said.text) or _ITS_SWITCH.match(said.text):
        return True
    told = _LABEL.search(said.text) is not None or not words.isdisjoint(listed("reads.ways"))
    named = told and not words.isdisjoint(listed("reads.worked"))
    always = isinstance(said.block, RadioSet) and said.block.always_on
    return always or (
        named and words.isdisjoint(listed("reads.either", "reads.denies")) and "?" not in said.text
    )


_ON_WITH = re.compile(
    r"(?:it |the set |the radio )?(?:is |comes |goes )?(?:always )?(?:on )?(?:with|whenever) (?:the |her |its |all )?(?:[\w'’]+ ){0,2}"
    r"(?:switch|switches|panel|batter(?:y|ies)|instruments|electrics|electronics|engine|breaker|plotter|ignition|navigation)(?: (?:is|are)(?: on)?)?$",
    re.IGNORECASE,
)
"""Of a set that has no switch of its own: on with the main switch."""
_ITS_SWITCH = re.compile(
    r"(?:the |its )?(?:[\w-]+ ){0,2}(?:switch|rocker|breaker|toggle|isolator|fuse) (?:on|at|above|under|over|by|beside|below|behind|next to|left of|right of) (?:the|its) \w+",
    re.IGNORECASE,
)
"""A switch that has no label, by its place: rocker on the overhead panel."""
_LABEL = re.compile(r"\b[A-Z]{2,}\b|\b[A-Z]?\d+\b")
"""What stands on the key or breaker of a set."""


@check("words.broken-sentence", FORM, COMMON_PRACTICE, COMPOSITION)
def words_stand_inside_a_sentence(sight: Sight) -> Finds:
    """What a step prints inside its sentence is no sentence of its own, no question, and sends to no other paper.

    Why: a step that breaks off, asks, or sends for the maker's manual is read twice, and the manual lies under water.
    Remedy: write it in a few words without full stop and question mark: press the red key for five seconds.
    """
    for said in sight.own_words:
        printed = said.says in (THING, PLACE, DOING, SIGNAL)
        if printed and (what := _breaks(said.text)) and not misfit(said.says, said.text):
            yield _misfit(said, what, DEFECT if asks(said.text) else None)


@lru_cache(maxsize=8192)
def _breaks(text: str) -> str:
    """How words break the sentence that they stand in; "" where they do not."""
    if asks(text):
        return "asks, where a step needs the answer"
    if sent := _SENT_AWAY.search(text):
        return f"sends to another paper: '{sent[0]}'"
    if text.endswith((".", "!")) and not re.search(r"\b(?:etc|approx|no|st)\.$|\.\.$", text):
        return "ends as a sentence does, and stands inside one"
    return "holds two sentences, and stands inside one" if _TWO_SENTENCES.search(masked(text)) else ""


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
