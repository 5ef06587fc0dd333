"""What is fetched in the first minutes does not lie in the bows: nobody goes there past smoke or water for the grab bag."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.manual.told import in_grab_bag
from generator.reading.values import Quantity
from generator.shelves.procedure_files import GRAB_BAG
from generator.shelves.spaces import BELOW, FOR_NOTHING
from generator.survey.placing import berths, lies
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
    from collections.abc import Iterator, Sequence

    from generator.reading.block import Block
    from generator.survey.placing import Lies

BOWS = 0.78
"""Of the length: a store below that begins further forward lies in the bows. Common practice."""
_WORN = re.compile(r"\b(?:jackets?|vests?|pockets?|belts?|wrists?|worn|float[- ]?free)\b", re.IGNORECASE)


@check("placed.in-the-bows", LIFE, COMMON_PRACTICE, COMPOSITION)
def what_is_fetched_at_once_is_not_in_the_bows(sight: Sight) -> Finds:
    """Grab bag, beacons, flares, suits, torches and tethers are not all in a store in the bows, where nobody sleeps.

    Why: a boat that has hit something fills there first, and whoever must go there goes away from the way out.
    Remedy: hang it beside the companionway or where people muster, then write where, side and spot.
    """
    one = sight.vessel.vessel
    if one is None or not one.hull.has_rooms or not isinstance(one.length, Quantity):
        return
    sleeps = {here.space.name for here, _ in berths(sight).values()}
    for group, vital in _groups(sight):
        places = [lies(sight, each) for each in group]
        if places and all(here is not None and _in_the_bows(here, one.length, sleeps) for here in places):
            name = (
                str(group[0].__dict__.get(type(group[0]).called) or "") if type(group[0]).called else GRAB_BAG
            )
            yield at(
                group[0],
                "where",
                f"{name}: it is kept in the {places[0]}, in the bows, away from every way out that people take",
                item=name,
                weight=None if vital else RECOMMENDATION,
            )


def _in_the_bows(here: Lies, length_m: float, sleeps: set[str]) -> bool:
    space = here.space
    if (
        space.unlike
        or space.own
        or space.level != BELOW
        or space.stows == FOR_NOTHING
        or space.name in sleeps
    ):
        return False
    return space.aft_m > BOWS * length_m


def _groups(sight: Sight) -> Iterator[tuple[Sequence[Block], bool]]:
    """Things of which one near at hand is enough, and whether a life hangs on them; what lies in a bag or on a person is asked of there."""
    vessel, radio = sight.vessel, sight.vessel.radio
    yield from (([bag], True) for bag in vessel.grab_bags)
    for beacon in radio.beacons if radio else ():
        spot = beacon.spot if isinstance(beacon.spot, str) else ""
        if beacon.kind in ("EPIRB", "SART", "PLB") and not in_grab_bag(spot) and not _WORN.search(spot):
            yield [beacon], True
    for what, vital in (("suit against cold", True), ("shows distress", True), ("clips somebody on", False)):
        group: list[Block] = [*vessel.gear_that(what)]
        yield group, vital
    torches: list[Block] = [
        item for item in vessel.gear if re.search(r"\btorch(?:es)?\b", str(item.what).lower())
    ]
    yield torches, False
