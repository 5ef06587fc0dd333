"""By which way sentences have people leave her: when she lies upside down, and at all."""

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


@sieve
def _denies_a_way(text: str) -> bool:
    return _NO_WAY.search(text.lower()) is not None or _FROM_OUTSIDE.search(text.lower()) is not None


_NO_WAY = re.compile(
    r"\b(?:has|have|with) no (?:other |second |emergency )?(?:way out|hatch|exit|escape hatch)\b"
)
_FROM_OUTSIDE = re.compile(
    r"\b(?:only (?:opens?|opened|unlocked|worked) from|opens?\b[^.;]*? only from|(?:is|are) opened only from) (?:the )?(?:deck|outside|above|cockpit)\b"
    r"|\b(?:opens?|opened)\b[^.;]*? from (?:the )?(?:deck|outside|above) (?:only|alone)\b"
)
_SENTENCE = re.compile(r"[.!?;]")


@check("words.way-out-denied", LIFE, COMMON_PRACTICE, COMPOSITION)
def words_deny_no_way_out_that_there_is(sight: Sight) -> Finds:
    """Words deny no way out that 'escape' has, and have none open from outside alone that opens from inside.

    Why: whoever sleeps there and read it does not try the hatch over the bunk while the passage burns.
    Remedy: go and open it from inside; correct the words, or 'opens' of that way out.
    """
    ways = [
        (hatch, space)
        for hatch in sight.vessel.escape
        if hatch.opens in ("both", "inside") and (space := space_at(sight, hatch.where)) is not None
    ]
    for said in sight.words_through(_denies_a_way) if ways else ():
        if not isinstance(said.block, Note):
            continue
        for sentence in _SENTENCE.split(said.meant.lower()):
            denied = _NO_WAY.search(sentence) or _FROM_OUTSIDE.search(sentence)
            before = sentence[: denied.start()] if denied else ""
            hatch = next(
                (
                    hatch
                    for hatch, space in ways
                    if _names_it(before, str(hatch.where).lower(), space.name.lower())
                ),
                None,
            )
            if hatch is not None:
                yield at(
                    said.block,
                    said.field.key,
                    f"'{shortened(said.text)}', and 'escape' has a way out there: {hatch.where}, opens: {hatch.opens}",
                    item=said.block.path,
                    also=(hatch.place("opens"),),
                )
                break


def _names_it(before: str, where: str, space: str) -> bool:
    """Whether words name a space, or its hatch by the first word of it: the forward hatch, of the forward cabin."""
    ends = re.search(r"(?:the |our |her )?([a-z ]+?)$", before.strip(" ,"))
    named = ends[1] if ends else ""
    return any(named.endswith((each, f"{each} hatch", f"{each.split()[0]} hatch")) for each in (where, space))
