"""What brings somebody out of the water is where people are brought in, and what floats is not shut away."""

from __future__ import annotations

import re

from generator.manual.drawing.spaces import dimensions_m
from generator.shelves.spaces import BELOW, FOR_GEAR, FOR_NOTHING
from generator.survey.placing import Lies, lies, lies_at, space_of
from generator.survey.registry import COMMON_PRACTICE, COMPOSITION, LIFE, Finds, Sight, at, check, of
from generator.vessel.fittings import Located
from generator.vessel.gear import does, gear_kind

BOWS = 0.75
"""Of the length: a ladder further forward hangs where she pitches and flares. Common practice."""
LIFT_M, LIFT = 4.0, 0.25
"""How far from where people are brought in a hoist may be, in m and as a part of the length, the greater. Common practice."""
FAR = 0.45
"""Of the length: a ladder, or the lifejackets of all, further away are at the other end of the boat. Common practice."""
FLOATS = ("lifebuoy", "danbuoy")
_ON_TOP = re.compile(r"\b(?:on|outside|atop)\b[^,;]*\b(?:lid|hatch|door|wall|front|top)\b", re.IGNORECASE)


@check("placed.recovery-far", LIFE, COMMON_PRACTICE, COMPOSITION)
def people_are_brought_in_at_one_place(sight: Sight) -> Finds:
    """The ladder is not at the bow, nor at the other end of the boat from where people are brought in, and the hoist reaches that place.

    Why: the person alongside is held at one place while what brings him in hangs at another; at the bow nobody climbs as she pitches.
    Remedy: try it in harbour; write where ladder and hoist are worked, or the 'place' where people are really brought in.
    """
    recovery, one = sight.vessel.recovery, sight.vessel.vessel
    if recovery is None or one is None:
        return
    length_m = dimensions_m(sight.vessel)[0]
    here = lies_at(sight, recovery.place_) if isinstance(recovery.place_, str) else None
    ladder = recovery.ladder if isinstance(recovery.ladder, Located) else None
    there = lies(sight, ladder)
    if ladder is not None and there is not None and _told(there):
        gap = here.apart_m(there) if here is not None and _told(here) else 0.0
        if there.space.aft_m > BOWS * length_m and not (here is not None and here.space is there.space):
            yield at(
                ladder,
                "where",
                f"the ladder is in the {there}, where nobody climbs as she pitches",
                item="recovery",
            )
        elif gap > FAR * length_m:
            yield at(
                ladder,
                "where",
                f"the ladder is in the {there}, {gap:.0f} m from the {here}, where people are brought in",
                item="recovery",
                also=(recovery.place("place"),),
            )
    hoist = recovery.hoist if isinstance(recovery.hoist, Located) else None
    lifts = lies(sight, hoist)
    if hoist is not None and lifts is not None and here is not None and _told(lifts) and _told(here):
        gap = here.apart_m(lifts)
        if gap > max(LIFT_M, LIFT * length_m):
            yield at(
                hoist,
                "where",
                f"the hoist is in the {lifts}, {gap:.0f} m from the {here}, where people are brought in",
                item="recovery",
                also=(recovery.place("place"),),
            )


def _told(here: Lies) -> bool:
    """Whether it is known where a space lies, and it is no mark that lines are led from, as the mast is."""
    return not (here.space.unlike or here.space.own or here.space.mark)


@check("placed.buoy-shut-in", LIFE, COMMON_PRACTICE, COMPOSITION)
def what_floats_hangs_in_the_open(sight: Sight) -> Finds:
    """One lifebuoy or danbuoy at least is not in a locker.

    Why: it is thrown in the first seconds, by whoever stands nearest; by the time a locker is open the boat is away.
    Remedy: hang it at the rail or on the seat beside the helm, then write where and side; of one that hangs outside on the lid write spot: on the lid.
    """
    buoys = [
        item
        for item in sight.vessel.gear
        if (kind := gear_kind(item)) is not None and kind.name in FLOATS and does(item, "thrown to somebody")
    ]
    spaces = [space_of(sight, item) for item in buoys]
    out = any(
        does(item, "thrown to somebody") and (space := space_of(sight, item)) is not None and not space.stows
        for item in sight.vessel.gear
        if item not in buoys
    )
    if not buoys or not out:
        return  # where nothing else is thrown another check speaks
    if all(
        space is not None
        and space.stows == FOR_GEAR
        and not (isinstance(item.spot, str) and _ON_TOP.search(item.spot))
        for item, space in zip(buoys, spaces, strict=True)
    ):
        first, shut = buoys[0], spaces[0]
        if shut is not None:
            yield of(first, "where", f"what is thrown and floats is shut in: this in the {shut.name}")


@check("placed.jackets-far", LIFE, COMMON_PRACTICE, COMPOSITION)
def lifejackets_lie_on_the_way(sight: Sight) -> Finds:
    """The lifejackets of grown-ups are not all kept at the other end of the boat from the muster place, below in a store.

    Why: all go one way, and whoever wants a jacket must go the other, into the smoke or the water.
    Remedy: hang them near the muster place or on the way from the berths to it, then write where, side and spot.
    """
    one = sight.vessel.vessel
    muster = (
        lies_at(sight, one.muster_place) if one is not None and isinstance(one.muster_place, str) else None
    )
    adult = [each for each in sight.vessel.lifejackets if each.size not in ("child", "infant")]
    sleeps = {str(here) for person in sight.vessel.people if (here := lies(sight, person.berth)) is not None}
    if muster is None or muster.space.unlike or not adult or one is None:
        return
    length_m = dimensions_m(sight.vessel)[0]
    far = []
    for jackets in adult:
        here = lies(sight, jackets)
        if here is None or here.space.unlike or here.space.level != BELOW or here.space.stows == FOR_NOTHING:
            return  # of which, where it is a fault, another check speaks
        gap = muster.apart_m(here)
        if gap <= FAR * length_m or str(here) in sleeps:
            return
        far.append((jackets, here, gap))
    jackets, here, gap = far[0]
    yield of(
        jackets,
        "where",
        f"all of this size are in the {here}, {gap:.0f} m from the {muster}, where people muster",
        also=(one.place("muster-place"),),
    )
