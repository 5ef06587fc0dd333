"""Where sentences have a raft put over, against the place from which its entry launches it."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from generator.checks.words.places import apart, names_of_spaces, one_of
from generator.manual.drawing.spaces import find_space
from generator.manual.own_words import APART, called, orders_in
from generator.manual.sieves import sieve
from generator.reading.nearest import shortened
from generator.reading.worded import ROLE, SIGNAL
from generator.survey.places import space_at
from generator.survey.registry import COMMON_PRACTICE, COMPOSITION, LIFE, Finds, Sight, at, check
from generator.vessel.raft import Raft

if TYPE_CHECKING:
    from generator.manual.sieves import Names

_PUT = r"(?:lift|throw|launch|push|slide|heave|drop|lower|put|roll|tip|carry|bring)(?:s|es)?"
_IS_PUT = r"(?:lifted|thrown|launched|pushed|slid|heaved|dropped|lowered|put|rolled|tipped|carried|goes|go)"
_OVER = r"(?: (?:over|overboard|out|into the water|over the side|over the rail|over the guardrails|down))*"


@sieve
def _puts_a_raft_over(text: str) -> bool:
    return _ANY.search(text.lower()) is not None


@lru_cache(maxsize=64)
def _put_over(spaces: Names) -> re.Pattern[str]:
    """Finds a raft put over, with the side or the space from which."""
    raft = rf"(?:the |our |both )?(?P<raft>(?:port |starboard )?(?:{one_of(called('raft'))}))s?"
    from_where = (
        rf"(?: (?:to|on|over|at|from) (?:the )?(?P<side>port|starboard)(?: side| rail| gate| quarter)?(?=$|[,.;:)]| (?:side|rail|and|then|as|when)\b)"
        rf"|(?: (?:over|at|from|off|through) (?:the )?(?P<space>(?:(?:port|starboard) )?(?:{one_of(spaces)})))(?![\w-]))"
    )
    return re.compile(
        rf"\b(?:{_PUT} {raft}|{raft.replace('raft>', 'other>')} (?:is |are )?{_IS_PUT}){_OVER}{from_where}"
    )


_ANY = re.compile(rf"\b(?:{_PUT}|{_IS_PUT})\b")


@check("words.launched-elsewhere", LIFE, COMMON_PRACTICE, COMPOSITION)
def words_launch_rafts_where_they_are_launched(sight: Sight) -> Finds:
    """Where words have a raft put over at a side or a space, it is that of 'launch-from'.

    Why: half of them carry it to one rail, where the gate is shut and the painter does not reach, while the others wait at the other.
    Remedy: try it alongside; correct the words, or 'launch-from'.
    """
    rafts = [raft for raft in sight.vessel.rafts if raft.launch_from is not None]
    if not rafts:
        return
    find = _put_over(names_of_spaces(sight))
    for said in sight.words_through(_puts_a_raft_over):
        if (
            said.says in (ROLE, SIGNAL)
            or isinstance(said.block, (*APART, Raft))
            or said.block.path.startswith("rafts")
        ):
            continue
        for found in (one for sentence in orders_in(said.meant) for one in find.finditer(sentence)):
            named = found["raft"] or found["other"] or ""
            meant = [raft for raft in rafts if str(raft.name).lower() == named] or rafts
            if any(_fits(sight, raft, found["side"] or "", found["space"] or "") for raft in meant):
                continue
            first = meant[0].launch_from
            assert first is not None
            own = " ".join(str(each) for each in (first.where, first.side) if each)
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}' has it put over {_at(found)}, and launch-from says: {own}",
                item=said.block.path,
                also=(first.place("where"),),
            )
            break


def _at(found: re.Match[str]) -> str:
    return f"to {found['side']}" if found["side"] else f"at the {found['space']}"


def _fits(sight: Sight, raft: Raft, side: str, space: str) -> bool:
    """Whether a raft may be put over so by its entry; a side that its entry does not tell may be any."""
    place = raft.launch_from
    if place is None:
        return True
    if side:
        own = place.side if isinstance(place.side, str) else ""
        return own in ("", side, "centre", "either")
    here, there = space_at(sight, place.where), find_space(sight.spaces, space)[0]
    return here is None or there is None or here is there or not apart(sight, here, there)
