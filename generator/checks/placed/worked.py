"""What is wanted in an emergency is worked by a bare hand: no screws, bolts or tools before it."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from generator.checks.placed.reach import spoken, told_of, wanted
from generator.shelves.spaces import BELOW, FOR_NOTHING
from generator.survey.placing import no_hand_there
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    LIFE,
    RECOMMENDATION,
    Finds,
    Sight,
    at,
    check,
    of,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.manual.drawing.spaces import Space
    from generator.reading.block import Block

_SHUTS = r"(?:panels?|(?<!deck )(?<!round )plates?|covers?|boards?|lids?|hatch(?:es)?|doors?|flaps?|floor ?boards?|sole|bulkhead|lining|trim|grille|grating|box)"
_BY_HAND = re.compile(
    r"\b(?:wing|thumb|butterfly|finger|hand|knurled|quarter[- ]turn|half[- ]turn|coin)[- ]?(?:nuts?|screws?|bolts?|fasteners?|wheels?)\b|"
    r"\b(?:by hand|with (?:the|your) (?:bare )?(?:hands?|fingers|thumb)|glass)\b|"
    r"\b(?:draw|slide|slip|pull|shoot|throw|lift)\b[^.;]*\bbolts?\b|\bbolts?\b[^.;]*\b(?:drawn|slid|back|draw|slide)\b",
    re.IGNORECASE,
)
_TOOL = (
    r"(?:spanners?|screw ?drivers?|wrench(?:es)?|allen keys?|hex(?:agon)? keys?|socket (?:set|key)|ratchet|pliers|grips|hack ?saw|saw|drill|crow ?bar|"
    r"hammer|chisel|knife)"
)
_FASTENED = re.compile(
    rf"\b(?:behind|under|below|beneath|inside|within|in)\b[^,.;]*\b(?:screwed|bolted|riveted|nailed|glued)(?![- ]?(?:on ?)?to\b)\b[^,.;]*\b{_SHUTS}\b"
    rf"|\b{_SHUTS}\b[^,;.]*?\b(?:screwed|bolted|riveted|nailed|glued)(?: (?:down|on|shut|up|tight|in|over it))?(?=$|[,;.])"
    rf"|\b{_SHUTS}\b[^,;.]*\b(?:with|by|on|has|have|of)\s+(?:(?:its|the|about|some|all|\w+) ){{0,2}}(?:screws|bolts|nuts|rivets|nails)\b"
    rf"|\b{_SHUTS}, (?:(?:which|that) )?(?:is |are )?(?:screwed|bolted|riveted|nailed)\b|\b{_SHUTS},? (?:(?:which|that) )?(?:\w+ ){{0,2}}(?:screws|bolts|nuts) (?:hold|secure|fasten)"
    r"|\b(?:behind|under|below) (?:the |its |about )?(?:\w+ )?(?:screws|bolts|nuts)\b|\b(?:welded|riveted|nailed|glued|screwed|bolted) (?:shut|fast|tight|up|down)\b"
    r"|\b(?:undo|unscrew|loosen|slacken|remove|take out|turn out|back out|back off|drive out|withdraw|take off|release)\b[^,;.]*\b(?:screws?|nuts?)\b"
    r"|\b(?:unscrew|loosen|slacken|take out|turn out|back out|back off|drive out)\b[^,;.]*\bbolts?\b"
    rf"|\b(?:unscrew|undo|unbolt|prise|lever|force|saw|cut|break)\b[^,;.]*\b{_SHUTS}\b[^,;.]*\b(?:off|up|open|away|out)?\s*with (?:a|an|the|its|our)\b[^,;.]*\b{_TOOL}\b"
    r"|\bunscrew\b(?! (?:the |its |both |all )?(?:(?:round|deck|screw|two|three|four|big|small|red|black|yellow|brass|bronze|plastic|left|right|star) )*"
    r"(?:cap|plug|bung|plate|lid|cover|top|knob|ring|wheel|dog|handle|clamp)s?\b)"
    rf"|\bunbolt\b(?! (?:the |both |its )?(?:\w+ )?doors?\b)|\b(?:needs?|takes?|calls for|only with) (?:a|an|the) (?:[\w-]+ ){{0,3}}{_TOOL}\b",
    re.IGNORECASE,
)  # fmt: skip
_WITH_TOOL = re.compile(
    r"\bwith (?:a|an|the|our) (?:[\w-]+ ){0,2}(?:spanner|screw ?driver|wrench|allen key|hex(?:agon)? key|socket (?:set|key)|pliers|grips|hack ?saw|drill|crow ?bar)\b"
    r"(?!(?: \w+)? (?:on|at|beside|in|by|tied|hung|chained|clipped|that|which|from|under|next|kept)\b)",
    re.IGNORECASE,
)  # fmt: skip


def deeds(sight: Sight) -> Iterator[tuple[Block, str, str, str, bool]]:
    """What is told of how wanted things are got at and worked: thing, key, words, its name, whether a life hangs on it."""
    for thing, vital in (*wanted(sight), *((hole, True) for hole in sight.vessel.through_hulls)):
        for key, said, name in told_of(thing):
            yield thing, key, said, name, vital


@check("placed.fastened", LIFE, COMMON_PRACTICE, COMPOSITION)
def nothing_wanted_at_once_is_screwed_shut(sight: Sight) -> Finds:
    """What is wanted in an emergency is reached and worked without a tool.

    Why: in smoke, in the dark or under water nobody finds the screwdriver, and nobody draws six bolts with the cabin filling.
    Remedy: fit a hinge, a turn button or wing nuts that a hand opens, then write that: spot: behind the flap with two turn buttons.
    """
    for thing, key, said, name, vital in deeds(sight):
        if _takes_a_tool(said):
            yield at(
                thing,
                key,
                f"{spoken(thing, name)}: '{said}': that takes a tool, and time",
                item=name,
                weight=None if vital else RECOMMENDATION,
            )


@lru_cache(maxsize=8192)
def _takes_a_tool(said: str) -> bool:
    found = _FASTENED.search(said) or _WITH_TOOL.search(said)
    return found is not None and not _BY_HAND.search(said)


@check("placed.switched-inside", LIFE, COMMON_PRACTICE, COMPOSITION)
def what_calls_is_switched_where_people_stand(sight: Sight) -> Finds:
    """What a radio is switched on by is not in the engine space, the bilge or a place in which nobody stands.

    Why: when it burns or fills there the call for help hangs on a breaker behind the flames.
    Remedy: have the breaker moved to the radio or the switchboard, and write that: power: switch on the breaker marked VHF.
    """
    radio = sight.vessel.radio
    shut = [space for space in sight.spaces.values() if space.level == BELOW and space.stows == FOR_NOTHING]
    for each in radio.sets if radio else ():
        words = each.power.lower() if isinstance(each.power, str) else ""
        space = next((one for one in shut if words and _in(words, one)), None)
        if space is not None:
            yield of(each, "power", f"'{each.power}': that is in the {space.name}, {no_hand_there(space)}")


def _in(words: str, space: Space) -> bool:
    """Whether words have something in a space."""
    return any(
        name in words
        and re.search(
            rf"\b(?:in|inside|within) (?:the |our )?(?:port |starboard )?{re.escape(name)}\b", words
        )
        for name in (space.name, *space.also)
    )
