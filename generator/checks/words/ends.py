"""Which end of the boat words name, bow or stern, and at which the thing is kept."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.manual.drawing.spaces import dimensions_m
from generator.survey.placing import space_of
from generator.survey.registry import COMMON_PRACTICE, COMPOSITION, LIFE, Finds, Sight, check, of
from generator.vessel.gear import HOLDS, does

if TYPE_CHECKING:
    from generator.manual.drawing.spaces import Space

_BEFORE = r"\b(?:at|on|in|over|under|by|from) (?:the |her )?"
_AT_THE_BOW = re.compile(
    rf"{_BEFORE}(?:bows?|stem|stemhead|bow roller|pulpit|foredeck|forepeak)\b", re.IGNORECASE
)
_AT_THE_STERN = re.compile(
    rf"{_BEFORE}(?:stern|transom|taffrail|pushpit|aft deck|after deck|poop)\b", re.IGNORECASE
)
_GONE_THERE = re.compile(
    r"\b(?:for|to|towed|over|from) (?:use )?(?:at |on )?(?:the )?(?:bows?|stem|stern|transom)\b",
    re.IGNORECASE,
)
_LET_GO_THERE = re.compile(
    r"\b(?:windlass|capstan|gypsy|bow roller|stemhead|chain ?stopper|pawl)\b", re.IGNORECASE
)
_MIDDLE = 0.5
"""Where the one end of her is behind the other, as a part of her length."""


@check("words.other-end", LIFE, COMMON_PRACTICE, COMPOSITION)
def a_thing_lies_at_the_end_its_name_says(sight: Sight) -> Finds:
    """A thing whose name has it at the bow, or at the stern, is not kept at the other end of her; an anchor let go by the windlass lies at the bow.

    Why: whoever runs forward to let the anchor go on a lee shore finds it is under the sails in a locker aft.
    Remedy: go and look; correct 'where', or the name: an anchor that lies ready at the bow has where: anchor locker.
    """
    length_m = dimensions_m(sight.vessel)[0]
    for item in sight.vessel.gear:
        space = space_of(sight, item)
        if space is None or space.unlike:
            continue
        name = str(item.what)
        end = _end(name)
        key, words = ("what", name) if end else ("let-go", str(item.let_go))
        if not end and does(item, HOLDS) and isinstance(item.let_go, str) and _LET_GO_THERE.search(words):
            end = "bow"
        if end and _at_the_other(space, end, length_m):
            yield of(
                item,
                "where",
                f"{'its name' if key == 'what' else chr(39) + words + chr(39)} has it at the {end}, and it is kept in the {space.name}",
                also=(item.place(key),),
            )


def _end(name: str) -> str:
    """The end of the boat that a name says a thing is at; "" where it says none, or whither it goes."""
    if _GONE_THERE.search(name):
        return ""
    forward, aft = _AT_THE_BOW.search(name) is not None, _AT_THE_STERN.search(name) is not None
    return "" if forward is aft else "bow" if forward else "stern"


def _at_the_other(space: Space, end: str, length_m: float) -> bool:
    middle = _MIDDLE * length_m
    return space.fore_m <= middle if end == "bow" else space.aft_m >= middle
