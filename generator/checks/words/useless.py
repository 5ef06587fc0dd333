"""What sentences say of the state of her things: that one of them is broken, empty, sold or without a part, wherever that is said."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from generator.checks.placed.unfit import moves_ill
from generator.checks.words.claims import OTHERS_OF_ITS_KIND
from generator.checks.words.places import one_of
from generator.checks.words.things import Told, by_single_name, plainly, saves, single, things_of
from generator.manual.own_words import called, listed
from generator.manual.sieves import names_alike
from generator.reading.nearest import shortened
from generator.reading.worded import ROLE, SIGNAL
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    LIFE,
    RECOMMENDATION,
    Finds,
    Sight,
    at,
    check,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.manual.sieves import Names

_SENTENCE = re.compile(r"[.!?;]+(?=[\s*_]|$)|\n")
_ANOTHER = re.compile(r",? (?:and|but|so|while|whereas) (?:the|our|its|then)\b")
"""Where a sentence goes on to something else."""
_CURED = re.compile(
    r"\b(?:(?:was|were|been|is|are|has|have|since) (?:since )?(?:renewed|replaced|repaired|mended|fixed|refilled|cured)|(?:renewed|replaced|repaired|mended|fixed|refilled) (?:since|in|last)|new (?:one|\w+) (?:is |was )?fitted|, fixed)\b"
)
"""What says that a fault is over."""
_MOST_WORDS = 7
"""So many words may stand between a thing and what is said of it."""


@check("words.out-of-order", LIFE, COMMON_PRACTICE, COMPOSITION)
def no_words_have_her_things_do_nothing(sight: Sight) -> Finds:
    """No words say of a thing of hers that it is broken, empty, dead, sold or without a part.

    Why: its own entry counts it, every step relies on it, and only a note knows that it does nothing.
    Remedy: have it mended, or take it out of the list and see what she lacks then; defer that with reason and date, and take the note out.
    """
    called_so = by_single_name(sight) | {
        single(name): [detector] for detector in _detector(sight) for name in detector.names
    }
    of_gas = [name for detector in _detector(sight) for name in detector.names]
    names = names_alike(tuple(sorted({*of_gas, *(name for each in things_of(sight) for name in each.names)})))
    for said in sight.own_words:
        if said.says in (ROLE, SIGNAL) or said.names_itself:
            continue
        for name in said_useless(said.meant, names):
            meant = called_so.get(single(name), ())
            if not meant or any(each.block is said.block for each in meant):
                continue
            life = any(saves(each.block) for each in meant)
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}': {plainly(name)}, by that, does nothing; its own entry has it serve",
                item=said.block.path,
                also=tuple(each.place for each in meant),
                weight=None if life else RECOMMENDATION,
            )
            break


def _detector(sight: Sight) -> tuple[Told, ...]:
    """The gas detector that stands with the gas alone."""
    gas = sight.vessel.gas
    return (Told(gas, called("detector-of-gas"), ()),) if gas is not None and gas.detector is True else ()


@lru_cache(maxsize=8192)
def said_useless(text: str, names: Names) -> tuple[str, ...]:
    """The things that a text says do nothing, each by the name it has there; what is only stiff still serves."""
    return tuple(_told(text, names))


def _told(text: str, names: Names) -> Iterator[str]:
    find = _found_by(names)
    for sentence in _SENTENCE.split(text.lower().replace("’", "'")):
        for found in find.finditer(sentence):
            before = re.findall(r"[a-z']+", sentence[: found.start()])
            if before and before[-1] in OTHERS_OF_ITS_KIND:
                continue
            if not listed("reads.unfit-condition", "reads.unfit-cases").isdisjoint(before):
                continue
            behind = _ANOTHER.split(sentence[found.end() :])[0]
            words = behind.split()[: _MOST_WORDS + 1]
            if _CURED.search(text.lower()):
                continue
            if words and moves_ill(f"this {' '.join(words)}".rstrip("*_ "), "what") == "stuck":
                yield found[0].strip()


@lru_cache(maxsize=64)
def _found_by(names: Names) -> re.Pattern[str]:
    return re.compile(rf"(?<![\w-])(?:{one_of(names)})s?(?![\w-])")
