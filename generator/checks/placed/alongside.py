"""What brings somebody out of the water is where people are brought in, and what floats is not shut away."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.checks.placed.deck import no_edge
from generator.manual.drawing.spaces import dimensions_m
from generator.shelves.spaces import BELOW, FOR_GEAR, FOR_NOTHING
from generator.survey.placing import Lies, berths, lies, lies_at, no_hand_there, space_of
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
from generator.vessel.fittings import Located
from generator.vessel.gear import does, gear_kind
from generator.vessel.particulars import FAR as OFFSHORE
from generator.vessel.people import JACKETS, jacket_sizes

if TYPE_CHECKING:
    from collections.abc import Sequence

    from generator.shelves.spaces import PresetSpace
    from generator.vessel.gear import Gear, Lifejackets
    from generator.vessel.people import Person

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
    """Ladder and gate are not at the bow, nor at the other end of the boat from where people are brought in, and the hoist reaches that place.

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
        elif gap > FAR * length_m or _at_the_bow(there, here):
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
        if gap > max(LIFT_M, LIFT * length_m) or _at_the_bow(lifts, here):
            yield at(
                hoist,
                "where",
                f"the hoist is in the {lifts}, {gap:.0f} m from the {here}, where people are brought in",
                item="recovery",
                also=(recovery.place("place"),),
            )

    gate = recovery.gate if isinstance(recovery.gate, Located) else None
    opens = lies(sight, gate)
    if gate is not None and opens is not None and here is not None and _told(opens) and _told(here):
        gap = here.apart_m(opens)
        if gap > FAR * length_m or _at_the_bow(opens, here):
            yield at(
                gate,
                "where",
                f"the gate is in the {opens}, {gap:.0f} m from the {here}, where people are brought in",
                item="recovery",
                also=(recovery.place("place"),),
            )


STEP_M = 1.5
"""How far apart two places on deck are that are worked as one. Common practice."""


def _at_the_bow(there: Lies, here: Lies | None) -> bool:
    """Whether something is where the seas break, and people are brought in elsewhere, more than a step away."""
    return (
        here is not None and there.space.exposed and not here.space.exposed and here.apart_m(there) > STEP_M
    )


_HUNG = re.compile(
    r"\b(?:lines?|lanyard|ropes?|cord|rail|guardwires?|outside|overboard|hangs?|hung|water ?line|pull)\b",
    re.IGNORECASE,
)


_HUNG_LATER = re.compile(
    r"\b(?:hung|hangs?|hooked|hooks?|rigged|rig|put|fitted|fit|clipped|shipped|set|taken|fetched|brought|got|thrown)\b[^,;]*"
    r"\b(?:when(?:ever)?|if|once|before|only|for (?:bathing|swimming|boarding)|as (?:needed|wanted|required)|at anchor|in harbour)\b(?!.*\b(?:let down|pulled?|from the water)\b)",
    re.IGNORECASE,
)
"""Of a ladder: that it hangs there when somebody has fetched it."""


@check("placed.ladder-shut-in", LIFE, COMMON_PRACTICE, COMPOSITION)
def the_ladder_hangs_where_a_swimmer_gets_at_it(sight: Sight) -> Finds:
    """A ladder that somebody in the water lets down hangs over the side or the stern, not in a locker nor in the middle of the boat.

    Why: whoever fell in alone reaches up, and the ladder lies in a locker above his head.
    Remedy: hang it at the transom or the rail with its line down to the water, and write where: transom; of one that must be fetched correct ladder-from-water.
    """
    recovery = sight.vessel.recovery
    ladder = recovery.ladder if recovery is not None else None
    if recovery is None or recovery.ladder_from_water is not True or not isinstance(ladder, Located):
        return
    here = lies(sight, ladder)
    spot = ladder.spot if isinstance(ladder.spot, str) else ""
    if here is None or (_HUNG.search(spot) and not _HUNG_LATER.search(spot)):
        return
    why = "in which it is shut" if here.space.stows == FOR_GEAR else no_edge(sight, here.space)
    if why:
        yield at(
            ladder,
            "where",
            f"the ladder can be let down from the water, and is in the {here}, {why}",
            item="recovery",
            also=(recovery.place("ladder-from-water"),),
        )


def _told(here: Lies) -> bool:
    """Whether it is known where a space lies, and it is no mark that lines are led from, as the mast is."""
    return not (here.space.unlike or here.space.own or here.space.mark)


@check("placed.buoy-shut-in", LIFE, COMMON_PRACTICE, COMPOSITION)
def what_floats_hangs_in_the_open(sight: Sight) -> Finds:
    """One lifebuoy at least is not in a locker, nor are all danbuoys; a danbuoy marks the place, far out the only thing that is seen, and carries nobody.

    Why: it is thrown in the first seconds, by whoever stands nearest; by the time a locker is open the boat is away.
    Remedy: hang it at the rail or on the seat beside the helm, then write where and side; of one that hangs outside on the lid write spot: on the lid.
    """
    thrown = sight.vessel.gear_that("thrown to somebody")
    out = [item for item in thrown if not _shut_in(sight, item)]
    far = sight.vessel.vessel is not None and sight.vessel.vessel.waters in OFFSHORE
    for name in FLOATS:
        own = [item for item in thrown if (kind := gear_kind(item)) is not None and kind.name == name]
        space = space_of(sight, own[0]) if own else None
        if space is None or not out or any(item in out for item in own):
            continue  # where nothing is thrown from the open another check speaks
        floats = any((kind := gear_kind(item)) is not None and kind.name in FLOATS for item in out)
        yield of(
            own[0],
            "where",
            f"what is thrown and floats is shut in: this in the {space.name}",
            weight=RECOMMENDATION if floats and name != FLOATS[0] and not far else None,
        )
        if not floats:
            return


def _shut_in(sight: Sight, item: Gear) -> bool:
    """Whether a thing is in a locker, and not on its lid; of one whose space is not known nobody can tell."""
    space = space_of(sight, item)
    on_top = isinstance(item.spot, str) and _ON_TOP.search(item.spot) is not None
    return space is not None and space.stows == FOR_GEAR and not on_top


@check("placed.sounder", LIFE, COMMON_PRACTICE, COMPOSITION)
def the_alarm_is_given_from_where_people_keep_watch(sight: Sight) -> Finds:
    """What gives the general alarm lies where she is steered or on the way up, not in a store at the other end of the boat.

    Why: whoever sees the smoke has to go below for the horn that is to wake the others.
    Remedy: hang one at the helm or beside the companionway, then write where and spot; or write under 'general-alarm' what is really sounded.
    """
    one = sight.vessel.vessel
    if one is None or not isinstance(one.general_alarm, str):
        return
    alarm = one.general_alarm.lower()
    near = [Lies(space) for space in sight.spaces.values() if space.steering or space.name in ways_in(sight)]
    found = [
        (item, lies(sight, item))
        for item in sight.vessel.gear
        if does(item, "makes a sound signal")
        and (kind := gear_kind(item)) is not None
        and any(re.search(rf"\b{name}\b", alarm) for name in (kind.name, *kind.name.split()[-1:]))
    ]
    if not near or not found:
        return
    gaps = []
    for item, here in found:
        if here is None or here.space.unlike or (isinstance(item.spot, str) and _WORN.search(item.spot)):
            return
        gap = min(here.apart_m(each) for each in near)
        shut = here.space.level == BELOW or here.space.stows
        if gap <= SOUNDER_M or not shut or no_hand_there(here.space):
            return  # of one that lies where no hand gets at it another check speaks
        gaps.append(gap)
    item, here = found[gaps.index(min(gaps))]
    if here is not None:
        yield of(
            item,
            "where",
            f"the general alarm is given on it, and it lies in the {here}, {min(gaps):.0f} m from where she is steered and from the way up",
            also=(one.place("general-alarm"),),
        )


_WORN = re.compile(r"\b(?:jackets?|pockets?|neck|each|every)\b", re.IGNORECASE)
SOUNDER_M = 2.5
"""How far below from the helm and the way up what gives the general alarm may lie. Common practice."""


def ways_in(sight: Sight) -> frozenset[str]:
    """The names of the spaces of her type by which people go below."""
    return frozenset(str(space.name) for space in _usual(sight) if space.way_in is True)


def _usual(sight: Sight) -> Sequence[PresetSpace]:
    """The spaces that a boat of her type has."""
    one = sight.vessel.vessel
    return one.hull.spaces if one is not None else ()


def _away_in_a_locker(sight: Sight, here: Lies) -> bool:
    """Whether a place is a locker on deck that lies neither at the helm nor where those on watch stay, of a boat in which people sleep below."""
    if here.space.stows != FOR_GEAR or not berths(sight):
        return False
    watched = {str(space.name) for space in _usual(sight) if space.on_watch is True}
    at_hand = [each for each in sight.spaces.values() if each.steering or each.name in watched]
    return (
        bool(at_hand)
        and not here.space.own
        and not any(
            min(each.fore_m, here.space.fore_m) > max(each.aft_m, here.space.aft_m) for each in at_hand
        )
    )


@check("placed.jackets-far", LIFE, COMMON_PRACTICE, COMPOSITION)
def lifejackets_lie_on_the_way(sight: Sight) -> Finds:
    """The lifejackets of one size are not all kept at the other end of the boat from the muster place, below in a store.

    Why: all go one way, and whoever wants a jacket must go the other, into the smoke or the water.
    Remedy: hang them near the muster place or on the way from the berths to it, then write where, side and spot.
    """
    one = sight.vessel.vessel
    muster = (
        lies_at(sight, one.muster_place) if one is not None and isinstance(one.muster_place, str) else None
    )
    if muster is None or muster.space.unlike or one is None:
        return
    small = ("child", "infant")
    for sizes in ([each for each in JACKETS if each not in small], *([each] for each in small)):
        jackets = [each for each in sight.vessel.lifejackets if each.size in sizes]
        wearers = [
            person
            for person in sight.vessel.people
            if sizes[0] not in small or sizes[0] in jacket_sizes(person)
        ]
        wearers += [each for each in sight.vessel.people if any(each.role == one.helper for one in wearers)]
        if jackets:
            yield from _far_from(sight, muster, jackets, wearers)


def _in_the_other_hull(sight: Sight, here: Lies, wearers: Sequence[Person]) -> bool:
    """Whether a place is inside a hull in which nobody sleeps of those who wear what lies there, or help them on with it."""
    one = sight.vessel.vessel
    if one is None or not one.hull.lived_in_hulls or not here.hull:
        return False
    slept = [there for person in wearers if (there := lies(sight, person.berth)) is not None]
    return bool(slept) and all(there.hull != here.hull for there in slept)


def _far_from(sight: Sight, muster: Lies, adult: Sequence[Lifejackets], wearers: Sequence[Person]) -> Finds:
    """The finding that all jackets of a size are kept far from the muster place, and where none sleeps who wears them or helps them on."""
    one = sight.vessel.vessel
    sleeps = {str(here) for person in wearers if (here := lies(sight, person.berth)) is not None}
    if one is None:
        return
    length_m = dimensions_m(sight.vessel)[0]
    far = []
    for jackets in adult:
        here = lies(sight, jackets)
        if here is None or here.space.unlike or here.space.stows == FOR_NOTHING:
            return  # of which, where it is a fault, another check speaks
        if here.space.level != BELOW:
            if not _away_in_a_locker(sight, here):
                return
            far.append((jackets, here, -1.0))
            continue
        gap = muster.apart_m(here)
        if _in_the_other_hull(sight, here, wearers) and jackets.size in ("child", "infant"):
            far.append((jackets, here, gap))
            continue
        if gap <= FAR * length_m or str(here) in sleeps:
            return
        far.append((jackets, here, gap))
    jackets, here, gap = far[0]
    if gap < 0:
        yield of(
            jackets,
            "where",
            f"all of this size are shut in the {here}, which opens from on deck alone and not from where people stand",
            weight=RECOMMENDATION,
            also=(one.place("muster-place"),),
        )
        return
    yield of(
        jackets,
        "where",
        f"all of this size are in the {here}, {gap:.0f} m from the {muster}, where people muster",
        also=(one.place("muster-place"),),
    )
