"""The years that sentences give for a thing, against the dates of its own entry."""

from __future__ import annotations

import re
from functools import cache, lru_cache
from typing import TYPE_CHECKING

from generator.checks.words.places import one_of
from generator.checks.words.things import by_single_name, plainly, saves, single, things_of
from generator.manual.own_words import APART, sentences_in
from generator.manual.sieves import names_alike, sieve
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
    from generator.manual.sieves import Names
    from generator.reading.block import Block
    from generator.reading.findings import Place

_YEAR = r"(?P<year>(?:19|20)\d\d)"
_DATED = r"(?:due|fitted|serviced|service|tested|test|expired?s?|runs? out|ran out|made|built|from|renewed|replaced|bought|inspected|weighed|changed|valid until|good until|out of date|past their date|past its date)"
_MOST = 40
"""So many characters may stand between a thing, what is said to be dated and the year."""


@sieve
def _tells_a_year(text: str) -> bool:
    return _any_year().search(text.lower()) is not None


@cache
def _any_year() -> re.Pattern[str]:
    return re.compile(rf"\b{_DATED}\b[^.;]*\b{_YEAR}\b")


@lru_cache(maxsize=64)
def _dated(names: Names) -> re.Pattern[str]:
    """Finds a thing, that it is dated, and the year."""
    return re.compile(
        rf"(?<![\w-])(?P<name>{one_of(names) or '(?!)'})(?:e?s)?\b(?!['’])[^.;]{{0,{_MOST}}}?\b{_DATED}\b[^.;\d]{{0,{_MOST}}}?\b{_YEAR}\b"
    )


@check("words.other-year", LIFE, COMMON_PRACTICE, COMPOSITION)
def words_date_things_as_their_entries_do(sight: Sight) -> Finds:
    """Where words say in which year a thing of hers was made, serviced or tested, or runs out, one of its own dates lies in it.

    Why: one of the two is wrong; if it is the entry, what is relied on has run out, and nobody is told.
    Remedy: read the label or the certificate, and correct the one that is wrong; leave dates to the entry, the manual prints them.
    """
    told = [each for each in sight.words_through(_tells_a_year) if each.says not in (SIGNAL, ROLE)]
    if not told:
        return
    called_so = by_single_name(sight)
    names = names_alike(tuple(sorted({name for each in things_of(sight) for name in each.names})))
    for said in told:
        if said.names_itself or isinstance(said.block, APART):
            continue
        for found in (
            one for sentence in sentences_in(said.meant) for one in _dated(names).finditer(sentence.lower())
        ):
            meant = [
                each for each in called_so.get(single(found["name"]), ()) if each.block is not said.block
            ]
            years, place = _years(sight, [each.block for each in meant])
            if not years or place is None or int(found["year"]) in years:
                continue
            yield at(
                said.block,
                said.field.key,
                f"'{shortened(said.text)}' says {found['year']} of {plainly(found['name'])}, and its own dates lie in {', '.join(map(str, sorted(years)))}",
                item=said.block.path,
                also=(place,),
                weight=None if any(saves(each.block) for each in meant) else RECOMMENDATION,
            )
            break


def _years(sight: Sight, blocks: list[Block]) -> tuple[set[int], Place | None]:
    """The years in which dates of these blocks, and of those in them, lie, with the place of one."""
    years: set[int] = set()
    place: Place | None = None
    paths = tuple(each.path for each in blocks)
    for block, dates in sight.stamped:
        if any(block.path == path or block.path.startswith(f"{path}.") for path in paths):
            for name, stamp in dates.items():
                years |= {stamp.first_day.year, stamp.last_day.year}
                place = place or block.place(name.replace("_", "-"))
    return years, place
