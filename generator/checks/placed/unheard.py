"""An alarm that hangs where it notices too late: shut in a box or among clothes, or behind the door of a wet room."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.manual.alarms import that_warn
from generator.manual.crew import the
from generator.survey.placing import berths, lies
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    LIFE,
    RECOMMENDATION,
    Finds,
    Sight,
    check,
    of,
)
from generator.vessel.alarms import Alarm

if TYPE_CHECKING:
    from generator.manual.drawing.spaces import Space
    from generator.vessel.gear import Gear

_WARN = ("warns of smoke", "warns of carbon monoxide")
_SHUT_IN = re.compile(
    r"\b(?:in|inside|within|among|behind|under|beneath) (?:the |a |an |its |her |his |our |your |that |this )?(?:[a-z'’-]+ ){0,3}?"
    r"(?:wardrobe|closet|cup ?board|drawer|drawers|locker|chest|crate|carton|box|bag|packet|packaging|wrapping|clothes|coats|oilskins|bedding|pillows?|cushions?|mattress(?:es)?|curtains?|"
    r"panel(?:ling)?|lining|bookshelf|books|sole|floor ?boards?|(?:bunk|settee) (?:board|front)|shelf with a door)\b"
    r"(?! (?:door|top|lid|front|handle|side|wall|frame|step|roof|vent|and)\b)",
    re.IGNORECASE,
)
_OUTSIDE_OF_IT = re.compile(
    r"\b(?:on|outside|beside|above|over|below|at|opposite|next to) (?:the |a |its )?(?:[a-z'’-]+ ){0,2}?(?:wardrobe|closet|cup ?board|drawer|locker|chest|box|panel)",
    re.IGNORECASE,
)
_WET = re.compile(
    r"\b(?:heads?|toilets?|shower(?: room)?|wet room|bath ?room|wash ?room|w\.?c\.?)$", re.IGNORECASE
)


@check("placed.alarm-shut-in", LIFE, COMMON_PRACTICE, COMPOSITION)
def alarms_hang_in_the_room_itself(sight: Sight) -> Finds:
    """An alarm for smoke or carbon monoxide hangs in the room where people are, not in a cupboard or a bag, nor in the heads for those who sleep elsewhere.

    Why: smoke reaches it last, and its sound is gone behind the door; in the heads steam sets it off until somebody takes the battery out.
    Remedy: hang it under the deckhead of the room where people sleep, and write that: spot: under the deckhead.
    """
    told: set[int] = set()
    for what in _WARN:
        for alarm in that_warn(sight.vessel, what):
            spot = alarm.spot if isinstance(alarm.spot, str) else ""
            found = None if _OUTSIDE_OF_IT.search(spot) else _SHUT_IN.search(spot)
            here = lies(sight, alarm)
            if id(alarm) in told or (isinstance(alarm, Alarm) and alarm.watches):
                continue
            told.add(id(alarm))
            if found is not None and not (here is not None and here.space.stows):
                yield of(alarm, "spot", f"it hangs '{spot}', where smoke and gas come last")
            elif here is not None and _WET.search(here.space.name) and not here.space.own:
                yield from _in_the_heads(sight, alarm, what, here.space)


def _in_the_heads(sight: Sight, alarm: Alarm | Gear, what: str, space: Space) -> Finds:
    """An alarm in the heads: it costs a life where people sleep in a space beside it that has none of its own."""
    hung = [each for one in that_warn(sight.vessel, what) if (each := lies(sight, one)) is not None]
    sleeping = berths(sight)
    alone = [name for name, (here, _) in sleeping.items() if not any(each.meets(here) for each in hung)]
    if any(here.space is space for here, _ in sleeping.values()):
        return
    who = (
        f", and the {alone[0]}, where {the(str(sleeping[alone[0]][1].role))} sleeps, has none"
        if alone
        else ""
    )
    yield of(
        alarm,
        "where",
        f"it hangs in the {space.name}, in steam and behind a door{who}",
        weight=None if alone and what == _WARN[0] else RECOMMENDATION,
    )
