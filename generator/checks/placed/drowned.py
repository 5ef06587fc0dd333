"""What is wanted when she fills is not kept where the water comes first: under the sole, in the sump."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.checks.placed.kept import BELONGS
from generator.shelves.gear_rows import AGAINST_WATER, FETCHED
from generator.shelves.procedure_files import GRAB_BAG
from generator.shelves.spaces import BELOW, FOR_NOTHING
from generator.survey.placing import space_of
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    LIFE,
    Finds,
    Sight,
    at,
    check,
)
from generator.vessel.fittings import Located
from generator.vessel.gear import does

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.manual.drawing.spaces import Space
    from generator.reading.block import Block

_UNDER_WATER = re.compile(
    r"\b(?:under|below|beneath|underneath) (?:the |a |its |our )?(?:(?!cockpit|deck|bridge)\w+ )?(?:soles?|sole ?boards?|floor ?boards?|cabin floor|floor)\b"
    r"|\b(?:in|inside|down in|at the bottom of) (?:the |its |our )?(?:(?!dry)\w+ )?(?:sump|bilges?|keel well)\b(?! ?(?:panel|alarm|pump|box))",
    re.IGNORECASE,
)
_PUMPS = re.compile(r"\bpumps?\b", re.IGNORECASE)
_BY_ITSELF = re.compile(r"\b(?:float|automatic|automatically|by itself)\b", re.IGNORECASE)


def _wanted(sight: Sight) -> Iterator[tuple[Block, str]]:
    """What somebody goes for while she fills, and its name."""
    vessel, radio = sight.vessel, sight.vessel.radio
    for pump in vessel.pumps:
        words = "its switch" if pump.power == "electric" else "its handle"
        if isinstance(pump.handle, Located) and pump.power != "engine":
            yield pump.handle, f"{pump.what}: {words}"
    for each in (*(radio.sets if radio else ()), *(radio.beacons if radio else ()), *vessel.grab_bags):
        yield each, str(each.__dict__.get(type(each).called) or GRAB_BAG)
    for jackets in vessel.lifejackets:
        yield jackets, f"{jackets.size} lifejackets"
    for item in vessel.gear:
        own = any(does(item, each) for each in BELONGS) or _PUMPS.search(str(item.what)) is not None
        if (item.kind == AGAINST_WATER or item.kind in FETCHED) and not own:
            yield item, str(item.what)


@check("placed.drowned", LIFE, COMMON_PRACTICE, COMPOSITION)
def what_is_wanted_in_a_leak_is_above_the_water(sight: Sight) -> Finds:
    """A pump's handle or switch, plugs and mats, radios, jackets and signals are not kept under the sole or in the sump.

    Why: they are wanted when water stands over the boards, and then nobody finds them, or the switch is dead.
    Remedy: have the switch moved, or bring the thing to a dry place near the way out, and write where, side and spot.
    """
    for thing, name in _wanted(sight):
        space = space_of(sight, thing)
        spot = thing.__dict__.get("spot")
        words = _UNDER_WATER.search(spot) if isinstance(spot, str) else None
        if words is not None and (space is None or space.level == BELOW) and not _BY_ITSELF.search(str(spot)):
            yield at(
                thing,
                "spot",
                f"{name}: '{spot}': there the water stands first",
                item=name,
            )
        elif thing.__dict__.get("kind") == AGAINST_WATER and space is not None and _wet(space):
            yield at(
                thing,
                "where",
                f"{name}: it is kept in the {space.name}, where the water comes first",
                item=name,
            )


def _wet(space: Space) -> bool:
    """Whether a space is one in which water collects: the bilge."""
    return space.level == BELOW and space.stows == FOR_NOTHING and not space.engine
