"""Recovery from the water: there is a way back aboard, and it is told whole."""

from __future__ import annotations

import re

from generator.reading.nearest import shortened
from generator.reading.values import NotKnown, known, untold
from generator.shelves.gear import before_comma
from generator.survey.barring import on_gates
from generator.survey.places import another_place
from generator.survey.placing import space_of
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
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
from generator.vessel.fittings import Fitting, Located
from generator.vessel.gear import LIFTS, Recovery


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


@check("recovery.two-places", TRUTH, COMMON_PRACTICE)
def what_lifts_has_one_place(sight: Sight) -> Finds:
    """What lifts somebody has one place, not two: under 'recovery' and in the gear list.

    Why: with somebody alongside nobody has time to search two lockers for the sling.
    Remedy: go and look; write the same where and side under 'hoist' and in the gear list.
    """
    recovery = sight.vessel.recovery
    hoist = recovery.hoist if recovery is not None else None
    if not isinstance(hoist, Fitting) or not isinstance(hoist.what, str) or not hoist.known("where"):
        return
    what = hoist.what.lower()
    for item in sight.vessel.gear:
        name = before_comma(item.what)
        if (
            name
            and name in what
            and re.fullmatch(rf"(?:the |our |a )?{re.escape(name)}(?: (?:and|with|on|from)\b.*)?", what)
        ):
            if item.known("where") and another_place(hoist.words, item):
                yield at(
                    hoist,
                    "where",
                    f"the {name}: '{hoist.where}, {hoist.side or 'no side told'}' here, {item.where} {item.side or ''} in the gear list",
                    item=name,
                    also=(item.place("where"),),
                )
            return


_WEAK = re.compile(
    r"\b(?:flag|burgee|signal|lazy ?jack|courtesy) ?-?(?:halyard|line)|\b(?:guard ?wire|guard ?rail|life ?line|stanchion|pulpit|pushpit|flag ?staff|aerial|awning)s?\b"
)


@check("recovery.hoist-weak", LIFE, COMMON_PRACTICE)
def what_lifts_holds_a_person(sight: Sight) -> Finds:
    """What lifts somebody is made to carry a person: no flag halyard, guardwire or rail.

    Why: it parts with the person half out of the water.
    Remedy: lift with a main halyard, a boom tackle or a davit, try it in harbour, and write that under 'hoist'.
    """
    recovery = sight.vessel.recovery
    hoist = recovery.hoist if recovery is not None else None
    if not isinstance(hoist, Fitting) or not isinstance(hoist.what, str):
        return
    found = _WEAK.search(hoist.what.lower())
    if found is not None and not _PAST_IT.search(hoist.what.lower()[: found.start()]):
        yield at(hoist, "what", f"the {found[0]} is to lift a person", item="recovery")


_PAST_IT = re.compile(r"\b(?:over|at|above|beside|past|clear of|from)\b")


LOW_M = 0.6
"""Over the side of an open boat no higher than this somebody fit climbs without a ladder: common practice."""


_ENDS_ABOVE = re.compile(
    r"\b(?:rungs?|steps?|ends?|reach(?:es)?|stops?)\b[^.;]*\babove (?:the )?(?:water|waterline|surface)\b|\b(?:does not|doesn't|not) reach (?:down to )?(?:the )?water\b|\btoo short\b",
    re.IGNORECASE,
)


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
        way = recovery.ladder
        if isinstance(way, Located) and (short := _ENDS_ABOVE.search(str(way.spot or ""))):
            yield at(
                recovery,
                "ladder",
                f"'{short[0]}': nobody in the water gets a foot on it",
                remedy="fit one that goes three rungs below the water, and write its place",
            )
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
    if not sight.vessel.gear_that(LIFTS):
        helpless = any(isinstance(each.needs_help, str) and not each.a_child for each in sight.vessel.people)
        rail = known(one.freeboard)
        yield at(
            recovery,
            "hoist",
            "nothing lifts a helpless person, and nothing is aboard to roll one in with",
            weight=DEFECT if helpless or (rail is not None and rail > LOW_M) else None,
        )


@check("recovery.barred", LIFE, COMMON_PRACTICE, COMPOSITION)
def nothing_lies_across_the_way_back_aboard(sight: Sight) -> Finds:
    """Nothing lies over or across the gate, the ladder or the platform by which people come back aboard or go into the raft.

    Why: with somebody alongside, or the raft there, nobody has the minutes that a lashed dinghy takes.
    Remedy: stow it elsewhere and write that place and spot: lashed bottom up, clear of the gate.
    """
    vessel, recovery = sight.vessel, sight.vessel.recovery
    ways: list[Located] = [each for raft in vessel.rafts if isinstance(each := raft.board_from, Located)]
    own = (recovery.gate, recovery.ladder) if recovery else ()
    ways += [way for way in own if isinstance(way, Located)]
    for burden in on_gates(sight) if ways else ():
        block = burden.said.block
        here = space_of(sight, block)
        meant = [way for way in ways if here is None or space_of(sight, way) is here]
        if meant and block not in ways:
            name = str(block.__dict__.get(type(block).called or "what") or "a note")
            yield at(
                block,
                burden.said.field.key,
                f"{name}: '{shortened(burden.said.text)}': that is the way by which people come aboard or leave her",
                item=name,
                also=(meant[0].place("where"),),
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
    lifts = f"{recovery.hoist.what} {recovery.hoist.spot}".lower() if recovery.hoist else ""
    led = _FROM_ALOFT.search(lifts) and _STANDS.search(lifts)
    if recovery.hoist and _opposite(side, recovery.hoist) and not led:
        message = f"people are lifted to {side}, and what lifts them is on the other side"
        yield at(recovery, "side", message, item="hoist", also=(recovery.hoist.place("side"),))
    if gate and ladder and ladder.where and ladder.where == gate.where and _opposite(ladder.side, gate):
        message = (
            f"the ladder is at the {ladder.where} to {ladder.side}, and the gate there on the other side"
        )
        yield at(ladder, "side", message, item="ladder", also=(gate.place("side"),))


_FROM_ALOFT = re.compile(r"\bhalyards?\b|\btopping ?-?lifts?\b")
_STANDS = re.compile(r"\b(?:winch|clutch|jammer|stopper|cleat|pin|bitts?|mast)\b")
"""What comes down from the mast goes over either side, whatever side its winch stands on."""


def _opposite(side: str | NotKnown | None, thing: Located) -> bool:
    """Whether words and field of a thing tell the side opposite to one, and that alone."""
    return {"port": "starboard", "starboard": "port"}.get(str(side)) in thing.sides_told and (
        len(thing.sides_told) == 1
    )


_UP = re.compile(
    r"\b(?:lashed|tied|bound|roped|padlocked|locked|pinned|bolted|screwed|hoisted|chained|wired|strapped|cable[- ]tied)\b|\b(?:cable|zip)[- ]ties?\b|\bon (?:the )?deck above\b|\bunship(?:s|ped)\b"
)
_FROM_BELOW = re.compile(
    r"\b(?:slip\w*|quick[- ]release|line to|cord to|water ?line|from the water|one pull|tripping|pulls? (?:it )?down|release line|tail|within reach|velcro|shock ?cord|bungee|elastic|lets go|toggle|breaks|hangs? down)\b"
)


@check("recovery.ladder-tied", LIFE, COMMON_PRACTICE)
def a_ladder_let_down_from_the_water_is_not_tied_up(sight: Sight) -> Finds:
    """A ladder that somebody in the water can let down is not told as lashed, locked or pinned up.

    Why: whoever fell in hangs on under it, and cannot reach the lashing.
    Remedy: hold it by a line that a pull from the water lets go, and write that; or ladder-from-water: no, and lead such a line to the waterline.
    """
    recovery = sight.vessel.recovery
    ladder = recovery.ladder if recovery else None
    if (
        recovery is None
        or not ladder
        or recovery.ladder_from_water is not True
        or not isinstance(ladder.spot, str)
    ):
        return
    spot = ladder.spot.lower()
    if _UP.search(spot) and not _FROM_BELOW.search(spot):
        yield at(
            ladder,
            "spot",
            f"the ladder: '{ladder.spot}', and ladder-from-water says yes",
            item="ladder",
            also=(recovery.place("ladder-from-water"),),
        )


_ROPE_ALONE = re.compile(r"\b(?:halyard|topping lift|uphaul)\b", re.IGNORECASE)
_MADE_FAST = re.compile(
    r"\b(?:cleats?|belaying pins?|pin ?rail|horns?|jammers?|clutch(?:es)?|hooks?)\b", re.IGNORECASE
)
_PURCHASE = re.compile(
    r"\b(?:winch\w*|windlass|capstan|tackles?|purchase|handy[- ]billy|blocks?|hoist|crane|davits?|derrick|\d ?: ?1|\d[- ]part|parts?)\b",
    re.IGNORECASE,
)


@check("recovery.no-purchase", LIFE, COMMON_PRACTICE)
def what_lifts_has_a_purchase(sight: Sight) -> Finds:
    """A halyard that lifts a person, and is said to be on a cleat, a pin or a clutch, is said to have a winch or a tackle as well.

    Why: nobody hauls somebody in wet clothes up the side by a bare rope, and the minutes pass in which they could still help themselves.
    Remedy: lead it to a winch or put a tackle on it, try it with a grown person in harbour, and write that: spot: on its winch.
    """
    hoist = sight.vessel.recovery.hoist if sight.vessel.recovery else None
    if not isinstance(hoist, Fitting):
        return
    how = hoist.__dict__.get("how")
    told = [each for each in (hoist.what, hoist.spot, how) if isinstance(each, str)]
    said = " ".join(told)
    if (
        len(told) > 1
        and _ROPE_ALONE.search(told[0])
        and _MADE_FAST.search(said)
        and not _PURCHASE.search(said)
    ):
        key = "spot" if isinstance(hoist.spot, str) else "how"
        yield at(
            hoist,
            key,
            f"{told[0]}: '{told[1]}': no winch and no tackle is said to be on it",
            item=told[0],
        )
