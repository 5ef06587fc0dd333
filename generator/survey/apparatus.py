"""Apparatus that words may name beside gear: rafts, pumps, sets, beacons and what holds a raft; whether she has it."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from generator.manual.own_words import told_in

if TYPE_CHECKING:
    from collections.abc import Callable

    from generator.reading.block import Block
    from generator.survey.sight import Sight

BEFORE = r"\b(?:the|an?|with|our|its|her|every|each|this) (?:(?:port|starboard|big|small|spare|second|first|nearest|forward|aft) )?"
BEHIND = (
    r"(?=$|[,.;:)!]| (?:in|at|on|from|under|beside|behind|below|above|by|near|of|or|and|over|with|to|into|is|are|hangs?|lies?|stands?|"
    r"then|until|while|through|across|around|for|aboard|ready|out|down|up|away|back|along|there|here|off|first|last|next|now|too|also|as|only|"
    r"before|after|again|fast|quick|hard|if|when|where|that|which|because|so|but|still|instead|once|twice|overboard|together|alongside|ashore|"
    r"cuts?|lets|frees|releases|sets|opens|works|starts|holds|shuts|pumps|sounds|yourself|yourselves|already|[a-z]+ly)\b)"
)


def _named_so(pattern: str) -> re.Pattern[str]:
    return re.compile(rf"{BEFORE}(?P<name>{pattern}){BEHIND}")


def _on_the_air(kind: str) -> Callable[[Sight], bool]:
    """Whether she has a set or beacon of a kind; a handheld VHF is one too."""

    def there(sight: Sight) -> bool:
        radio = sight.vessel.radio
        every: tuple[Block, ...] = (*radio.sets, *radio.beacons) if radio else ()
        return any(str(each.__dict__.get("kind")).endswith(kind) for each in every)

    return there


def _pumps(power: str) -> Callable[[Sight], bool]:
    """Whether she has a pump of a power, or one of which nobody says it."""
    return lambda sight: any(each.power == power or each.power is None for each in sight.vessel.pumps)


def _let_go_by_water(sight: Sight) -> bool:
    """Whether an HRU holds a raft or a beacon's bracket, or nobody says what holds a raft."""
    radio = sight.vessel.radio
    floats = any(each.release == "float-free" for each in (radio.beacons if radio else ()))
    return floats or any(not each.held_by or each.hydrostatic for each in sight.vessel.rafts)


def _let_go_by_a_slip(sight: Sight) -> bool:
    """Whether a slip holds a raft, or nobody says what does."""
    slip = re.compile(r"slip|hook", re.IGNORECASE)
    return any(not each.held_by or any(map(slip.search, each.held_by)) for each in sight.vessel.rafts)


APPARATUS: tuple[tuple[re.Pattern[str], Callable[[Sight], bool], bool], ...] = (
    (_named_so(r"life ?-?rafts?|rafts?"), lambda sight: bool(sight.vessel.rafts), True),
    (_named_so(r"dinghy|tender"), lambda sight: sight.vessel.tender is not None, False),
    (_named_so(r"grab.?bag"), lambda sight: bool(sight.vessel.grab_bags), True),
    (_named_so(r"(?:(?:electric|hand|manual) )?bilge pumps?|hand pump"), lambda sight: bool(sight.vessel.pumps), True),
    (_named_so(r"engine[- ]driven (?:bilge )?pumps?|engine pumps?"), _pumps("engine"), True),
    (_named_so(r"electric pumps?"), _pumps("electric"), True),
    (_named_so(r"hru|hydrostatic release(?: unit)?"), _let_go_by_water, True),
    (_named_so(r"senhouse slip|pelican hook|slip hook"), _let_go_by_a_slip, True),
    *((_named_so(kind.lower()), _on_the_air(kind), True) for kind in ("EPIRB", "PLB", "SART", "VHF")),
)  # fmt: skip
"""What words may name that is no gear: by what it is found, whether she has it, and whether a life hangs on it."""


@lru_cache(maxsize=8192)
def apparatus_in(text: str) -> tuple[tuple[int, str], ...]:
    """What words name that is no gear, each by its number in `APPARATUS` and as it stands there."""
    return tuple(
        (number, found["name"])
        for number, (pattern, _, _) in enumerate(APPARATUS)
        for sentence in told_in(text)
        for found in pattern.finditer(sentence)
    )
