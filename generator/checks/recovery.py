"""Recovery from the water: there is a way back aboard, and it is told whole."""

from __future__ import annotations

from generator.reading.values import NotKnown, known, untold
from generator.survey.registry import (
    COMMON_PRACTICE,
    DEFECT,
    HELP,
    LIFE,
    TRUTH,
    Finds,
    Found,
    Sight,
    at,
    check,
)
from generator.vessel.fittings import Located
from generator.vessel.gear import LIFTS, Recovery, does


@check("recovery.missing", LIFE, COMMON_PRACTICE)
def there_is_a_way_back_aboard(sight: Sight) -> Finds:
    """The way back aboard for somebody in the water is described.

    Why: reaching the person is half of it; many die alongside.
    Remedy: write 'recovery' with ladder, hoist, side and place.
    """
    vessel, recovery = sight.vessel, sight.vessel.recovery
    if vessel.vessel and not vessel.known("recovery"):
        yield at(vessel.vessel, "freeboard", "nothing says how somebody in the water gets back aboard")
    elif recovery and not _names_a_way(recovery):
        none = recovery.says_none("ladder") and recovery.says_none("hoist")
        said = "she has neither" if none else "it says neither where"
        yield at(
            recovery, "", f"{said} a ladder {'' if none else 'is '}nor what lifts somebody out of the water"
        )


LOW_M = 0.6
"""Over the side of an open boat no higher than this somebody fit climbs without a ladder: common practice."""


@check("recovery.ladder", LIFE, COMMON_PRACTICE)
def the_ladder_comes_down_from_the_water(sight: Sight) -> Finds:
    """There is a ladder, and somebody in the water can let it down.

    Why: whoever fell in may have nobody aboard who can, and no boat side is low enough to climb.
    Remedy: lead its line to the waterline, or carry a ladder that can be pulled down.
    """
    recovery, one = sight.vessel.recovery, sight.vessel.vessel
    if not recovery or not _names_a_way(recovery):
        return
    if not recovery.says_none("ladder"):
        if recovery.ladder_from_water is False:
            yield at(recovery, "ladder-from-water", "the ladder cannot be let down from the water")
        return
    freeboard = known(one.freeboard) if one else None
    low = one is not None and not one.hull.closed_in and freeboard is not None and freeboard <= LOW_M
    if not low:
        place = recovery.place("ladder")
        yield Found(
            place,
            "there is no ladder: whoever is in the water and able to climb has nothing to climb up by",
            "carry a ladder that is let down from the water, and write where: ladder: {where: transom, side: centre}",
            also=(recovery.place("ladder-from-water"),) if recovery.ladder_from_water is not None else (),
            about=recovery,
            explains=frozenset((place, sight.vessel.key_place("recovery"))),
        )
    elif recovery.ladder_from_water is not None:
        yield at(
            recovery,
            "ladder-from-water",
            "there is said to be no ladder",
            remedy="take this line out, or write where the ladder is",
        )


@check("recovery.incomplete", HELP, COMMON_PRACTICE)
def the_way_back_aboard_is_told_whole(sight: Sight) -> Finds:
    """The way back aboard says what lifts a helpless person, at which side and from where, and whether the ladder comes down from the water.

    Why: many who were found alive died alongside.
    Remedy: try it in harbour, then write 'hoist', 'side', 'place' and 'ladder-from-water'.
    """
    recovery = sight.vessel.recovery
    if not recovery or not _names_a_way(recovery):  # told as missing
        return
    if sight.vessel.vessel and sight.vessel.vessel.persons == 1:  # alone, nobody is there to lift
        return
    lacking = (
        ["hoist"]
        if untold(recovery.hoist) and not recovery.says_none("hoist")
        else [key for key, name in (("side", "side"), ("place", "place_")) if untold(getattr(recovery, name))]
    )
    lacking += ["ladder-from-water"] if recovery.ladder and untold(recovery.ladder_from_water) else []
    if lacking:
        yield at(recovery, "", f"the way back aboard does not say: {', '.join(lacking)}")


def _names_a_way(recovery: Recovery) -> bool:
    """Whether it says where a ladder is, or what lifts; what is not known yet is told as such."""
    ladder, hoist = recovery.ladder, recovery.hoist
    if isinstance(ladder, NotKnown) or isinstance(hoist, NotKnown) or hoist is not None:
        return True
    return ladder is not None and bool(ladder.where or ladder.spot)


@check("recovery.no-hoist", HELP, "MSC.1/Circ.1185/Rev.1, section 6 (read); common practice")
def a_helpless_person_is_lifted_without_a_hoist(sight: Sight) -> Finds:
    """Where nothing lifts a helpless person aboard, a decked boat has what her people roll one in with.

    Why: two people do not pull somebody in wet clothes over a rail by the arms.
    Remedy: carry a recovery net, try it in harbour, and list it under 'gear' by that name.
    """
    recovery, one = sight.vessel.recovery, sight.vessel.vessel
    if (
        not recovery
        or not one
        or not recovery.says_none("hoist")
        or not one.hull.closed_in
        or one.persons == 1
    ):
        return
    if not any(does(item, LIFTS) for item in sight.vessel.gear):
        yield at(
            recovery, "hoist", "nothing lifts a helpless person, and nothing is aboard to roll one in with"
        )


@check("recovery.two-sides", TRUTH, COMMON_PRACTICE)
def one_side_is_told_for_hoist_gate_and_ladder(sight: Sight) -> Finds:
    """Somebody is lifted aboard at one side: that of the gate that is opened for it and of the hoist.

    Why: the step sends those who lift to one side, and the gate opens on the other.
    Remedy: try it in harbour, and correct 'side', the side of 'gate' or that of 'hoist'.
    """
    recovery = sight.vessel.recovery
    if not recovery:
        return
    side, gate, ladder = recovery.side, recovery.gate or None, recovery.ladder or None
    if gate and _opposite(side, gate):
        message = f"people are lifted to {side}, and the gate that is opened for it is on the other side"
        yield at(recovery, "side", message, item="gate", weight=DEFECT, also=(gate.place("side"),))
    if recovery.hoist and _opposite(side, recovery.hoist):
        message = f"people are lifted to {side}, and what lifts them is on the other side"
        yield at(recovery, "side", message, item="hoist", also=(recovery.hoist.place("side"),))
    if gate and ladder and ladder.where and ladder.where == gate.where and _opposite(ladder.side, gate):
        message = (
            f"the ladder is at the {ladder.where} to {ladder.side}, and the gate there on the other side"
        )
        yield at(ladder, "side", message, item="ladder", also=(gate.place("side"),))


def _opposite(side: str | NotKnown | None, thing: Located) -> bool:
    """Whether words and field of a thing tell the side opposite to one, and that alone."""
    return {"port": "starboard", "starboard": "port"}.get(str(side)) in thing.sides_told and (
        len(thing.sides_told) == 1
    )
