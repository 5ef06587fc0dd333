"""Where sentences have a raft put over, against the place from which its entry launches it."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from generator.checks.words.places import apart, names_of_spaces, one_of
from generator.manual.drawing.spaces import find_space
from generator.manual.own_words import called
from generator.survey.places import space_at

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.manual.sieves import Names
    from generator.reading.findings import Place
    from generator.survey.registry import Sight
    from generator.vessel.raft import Raft

_PUT = r"(?:lift|throw|launch|push|slide|heave|drop|lower|put|roll|tip|carry|bring)(?:s|es)?"
_IS_PUT = r"(?:lifted|thrown|launched|pushed|slid|heaved|dropped|lowered|put|rolled|tipped|carried|goes|go)"
_OVER = r"(?: (?:over|overboard|out|into the water|over the side|over the rail|over the guardrails|down))*"


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


def puts_something_over(text: str) -> bool:
    """Whether a text may have a raft put over."""
    return _ANY.search(text) is not None


def put_over_elsewhere(sentence: str, sight: Sight) -> Iterator[tuple[str, str, Place]]:
    """The side or space at which a sentence has a raft put over, where 'launch-from' of none that it may mean is there: as it is told, hers, and where."""
    rafts = [raft for raft in sight.vessel.rafts if raft.launch_from is not None]
    for found in _put_over(names_of_spaces(sight)).finditer(sentence) if rafts else ():
        named = found["raft"] or found["other"] or ""
        meant = [raft for raft in rafts if str(raft.name).lower() == named] or rafts
        place = meant[0].launch_from
        if place is not None and not any(
            _fits(sight, raft, found["side"] or "", found["space"] or "") for raft in meant
        ):
            yield f"over {_at(found)}", str(place), place.place("where")


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
