"""What sentences say is in the bottles: the gas that is burnt, and what puts a fire out."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.manual.own_words import sentences_in
from generator.manual.sieves import sieve
from generator.reading.nearest import shortened
from generator.survey.registry import COMMON_PRACTICE, TRUTH, Finds, Sight, at, check
from generator.vessel.gear import SUFFOCATES
from generator.vessel.particulars import Note

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.reading.findings import Place

_GASES = re.compile(r"\b(butane|propane)\b")
_AGENTS = {
    "co2": SUFFOCATES,
    "carbon dioxide": SUFFOCATES,
    "powder": "powder",
    "foam": "foam",
    "aerosol": "aerosol",
    "clean agent": "clean agent",
    "water mist": "water mist",
}
_OF_AGENTS = re.compile(
    rf"\b(?:fixed|automatic|engine)(?: space| room)? extinguish(?:er|ing system)s?\b[^.;]*?\b(?:is|are|holds?|contains?|works? with|with|of)(?: a| an| the)? (?P<agent>{'|'.join(_AGENTS)})\b"
)


@sieve
def _tells_a_content(text: str) -> bool:
    small = text.lower()
    return _GASES.search(small) is not None or _OF_AGENTS.search(small) is not None


@check("words.other-content", TRUTH, COMMON_PRACTICE)
def words_say_what_is_in_the_bottles(sight: Sight) -> Finds:
    """Where a note says which gas she burns, or what a fixed extinguisher holds, it is that of 'gas' and of the extinguisher.

    Why: the wrong bottle is brought aboard; of a gas that suffocates people are warned who need not be, or are not.
    Remedy: read the bottle, and correct the one that is wrong.
    """
    for said in sight.words_through(_tells_a_content):
        if not isinstance(said.block, Note):
            continue
        for sentence in sentences_in(said.text):
            found = next(_otherwise(sight, sentence.lower()), None)
            if found is not None:
                told, hers, place = found
                yield at(
                    said.block,
                    said.field.key,
                    f"'{shortened(said.text)}' says {told}, and the file says {hers}",
                    item=said.block.path,
                    also=(place,),
                )
                break


def _otherwise(sight: Sight, sentence: str) -> Iterator[tuple[str, str, Place]]:
    """What a sentence says that is otherwise in the file, how it stands there, and where."""
    gas = sight.vessel.gas
    for found in _GASES.finditer(sentence) if gas is not None and isinstance(gas.fuel, str) else ():
        if gas is not None and found[1] not in str(gas.fuel):
            yield found[1], str(gas.fuel), gas.place("fuel")
    fixed = [item for item in sight.vessel.gear if isinstance(item.agent, str)]
    for found in _OF_AGENTS.finditer(sentence) if fixed else ():
        if all(item.agent != _AGENTS[found["agent"]] for item in fixed):
            yield found["agent"], str(fixed[0].agent), fixed[0].place("agent")
