"""What is rigged when it is wanted: jackstays run along the deck, the emergency tiller fits where the rudder is."""

from __future__ import annotations

import re

from generator.manual.drawing.spaces import dimensions_m
from generator.reading.values import Quantity
from generator.shelves.spaces import BELOW, FOR_NOTHING, UPPER
from generator.survey.placing import lies, no_hand_there, nobody_stands_there, space_of
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    HELP,
    RECOMMENDATION,
    TRUTH,
    Finds,
    Sight,
    at,
    check,
    of,
)
from generator.vessel.fittings import Located
from generator.vessel.gear import does

AFT = 0.28
"""Of the length: no rudder stock comes up in a room that begins further forward. Common practice."""
TILLER = 0.45
"""Of the length: an emergency tiller further from the rudder stock is at the other end of the boat. Common practice."""


@check("placed.rigged", HELP, COMMON_PRACTICE, COMPOSITION)
def what_is_rigged_on_deck_is_there(sight: Sight) -> Finds:
    """Jackstays run along the deck.

    Why: whoever goes forward at night clips on at the companionway, or goes without.
    Remedy: write the deck they run along; of those that are rigged only at sea say in 'spot' in what they are kept: in the blue bag.
    """
    for item in sight.vessel.gear:
        space = space_of(sight, item) if does(item, "is rigged on deck") else None
        if (
            space is not None
            and not _SPARE.search(str(item.what))
            and not isinstance(item.spot, str)
            and not space.unlike
        ):
            why = nobody_stands_there(space)
            long_m = space.fore_m - space.aft_m
            if not why and not space.own and long_m < RUNS * dimensions_m(sight.vessel)[0]:
                why = f"which is {long_m:.1f} m long"
            if why:
                yield of(item, "where", f"it is said to run along the {space.name}, {why}")


_SPARE = re.compile(r"\bspares?\b", re.IGNORECASE)
RUNS = 0.15
"""Of the length: along less than that nobody goes, and no jackstay runs. Common practice."""


@check("placed.tiller", TRUTH, COMMON_PRACTICE, COMPOSITION)
def the_emergency_tiller_fits_where_the_rudder_is(sight: Sight) -> Finds:
    """The emergency tiller fits in the after half of the boat, where a rudder stock comes up, and is kept where a hand gets at it.

    Why: somebody carries it to where nothing turns, while she lies across the seas.
    Remedy: fit it once, and write the space under 'fits': {where: cockpit, spot: on the rudder stock under the round plate}.
    """
    steering, one = sight.vessel.steering, sight.vessel.vessel
    fits = steering.fits if steering is not None else None
    space = space_of(sight, fits if isinstance(fits, Located) else None)
    if space is None or one is None or not isinstance(fits, Located) or not isinstance(one.length, Quantity):
        return
    room = (space.level == BELOW or space.inside) and space.aft_m > AFT * one.length
    beside = space.paired and space.level != BELOW and not one.hull.lived_in_hulls and not space.own
    if (
        room
        or beside
        or space.aft_m > one.length / 2
        or space.mark
        or space.level == UPPER
        or space.stows == FOR_NOTHING
    ):
        yield at(fits, "where", f"no rudder stock is in the {space.name}", item="emergency tiller")
        return
    kept = steering.emergency_tiller if steering is not None else None
    here, there = lies(sight, kept if isinstance(kept, Located) else None), lies(sight, fits)
    if isinstance(kept, Located) and here is not None and there is not None and not here.space.unlike:
        far = here.apart_m(there) > TILLER * one.length
        why = no_hand_there(here.space) or (f"{here.apart_m(there):.0f} m from where it fits" if far else "")
        if why and not here.space.engine:
            yield at(
                kept,
                "where",
                f"it is kept in the {here}, {why}, and fits in the {there}",
                item="emergency tiller",
                weight=RECOMMENDATION,
                remedy="keep it near the rudder stock: emergency-tiller: {where: cockpit locker, side: port}",
                also=(fits.place("where"),),
            )
