"""By which way sentences have people leave her when she lies upside down."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from generator.checks.words.places import names_of_spaces, one_of
from generator.manual.drawing.spaces import find_space
from generator.manual.own_words import called, orders_in
from generator.manual.sieves import sieve
from generator.reading.nearest import shortened
from generator.survey.places import space_at
from generator.survey.registry import COMMON_PRACTICE, COMPOSITION, LIFE, Finds, Sight, at, check
from generator.vessel.particulars import Note

if TYPE_CHECKING:
    from generator.manual.sieves import Names

_UPSIDE_DOWN = re.compile(
    r"\b(?:upside down|capsized?|inverted|turned over|turns over|turtle|keel up|bottom up)\b"
)


@sieve
def _leads_out(text: str) -> bool:
    return re.search(r"\b(?:out|leave|exit|climb|get|swim)\b", text.lower()) is not None


@lru_cache(maxsize=64)
def _out_by(spaces: Names) -> re.Pattern[str]:
    """Finds by which space or hatch people come out."""
    return re.compile(
        rf"\b(?:(?:come|comes|get|gets|climb|climbs|swim|swims|go|goes|is|all|everybody|everyone)? ?out|leaves?(?: her| the boat| the hull)?|exit|way out(?: is| leads)?)"
        rf" (?:by|through|via|over|at|of|from) (?:the )?(?P<space>(?:(?:port|starboard) )?(?:{one_of(spaces)}))(?![\w-])"
    )


@check("words.way-out-inverted", LIFE, COMMON_PRACTICE, COMPOSITION)
def words_lead_out_by_a_way_that_serves_inverted(sight: Sight) -> Finds:
    """Where a note has people leave her when she lies upside down, it is by a way of 'escape' that serves then.

    Why: they dive for a way that lies under water with its lid shut by it, past the one that is open.
    Remedy: go and look; name the way with serves-inverted: yes.
    """
    ways = [(hatch, space_at(sight, hatch.where)) for hatch in sight.vessel.escape]
    if not any(hatch.serves_inverted is True for hatch, _ in ways):
        return
    for said in sight.words_through(_leads_out):
        if not isinstance(said.block, Note):
            continue
        inverted = (
            str(said.block.beside) in called("beside.inverted")
            or _UPSIDE_DOWN.search(said.text.lower()) is not None
        )
        found = (
            one
            for sentence in orders_in(said.meant)
            for one in _out_by(names_of_spaces(sight)).finditer(sentence)
        )
        for each in found if inverted else ():
            named = find_space(sight.spaces, each["space"])[0]
            here = [hatch for hatch, space in ways if space is not None and space is named]
            if here and all(hatch.serves_inverted is False for hatch in here):
                serves = next(hatch for hatch, _ in ways if hatch.serves_inverted is True)
                yield at(
                    said.block,
                    said.field.key,
                    f"'{shortened(said.text)}' leads out by the {each['space']}, which does not serve then; what serves is at: {serves.where}",
                    item=said.block.path,
                    also=(here[0].place("serves-inverted"),),
                )
                break
