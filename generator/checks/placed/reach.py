"""Within reach: not locked away, not buried, not across the flames, not under chain, and near whoever works it."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.reading.values import all_known
from generator.shelves.gear_rows import SAVES
from generator.shelves.spaces import FOR_GEAR
from generator.survey.placing import Lies, lies, lies_at, no_hand_there
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    LIFE,
    RECOMMENDATION,
    TRUTH,
    Finds,
    Sight,
    at,
    check,
    of,
)
from generator.vessel.gear import does

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.reading.block import Block

HELM_M, TAP_M, PORT_M = 4.0, 3.0, 4.0
"""How far from whoever steers an engine stop may be, from cooker or bottles a gas tap, from the engine space its fire port. Common practice."""
_LOCKED = re.compile(
    r"(?<!un)(?<!inter)(?<!never )(?<!not )\b(?:locked|padlock(?:ed)?|under lock)\b", re.IGNORECASE
)
_KEY = re.compile(r"\b(?:keys?|code|combination)\b", re.IGNORECASE)
_GONE = re.compile(r"\bkeys?\b.*\b(?:pocket|ashore|purse|handbag|with the \w+)", re.IGNORECASE)
_HEAP = (
    r"sails?|sail ?bags?|jibs?|genoas?|mainsails?|staysails?|trysails?|sail covers?|tarpaulins?|nets?|spinnakers?|gennakers?|fenders?|warps?|mooring lines|ropes?|chain|anchors?|kedge|rode|dinghy|tender|"
    r"outboard|stores|provisions|food|crates?|boxes|tins|bottles|luggage|suitcases?|jerry ?cans?|cans|bicycles?|firewood|"
    r"paddle ?boards?|tools?|tool ?box|deck ?chairs|awnings?|bimini|mattress(?:es)?|bedding|clothes|washing|rubbish|everything|all else"
)
_BURIED = re.compile(
    rf"\b(?:under|beneath|underneath|below|behind|buried (?:in|under))\s+(?:(?:the|a|an|our|all|both|two|three|other|heavy|"
    rf"spare|storm|folded|rolled|bagged|old|second|inflatable|empty|full)\s+)*(?:{_HEAP})\b(?!['’ -]*(?:s )?(?:lockers?|plates?|"
    r"hooks?|racks?|drawers?|shel(?:f|ves)|bins?|hatch|rollers?|arch|davits?|winch|windlass|brackets?|lids?|boxes|clips?|stowage))"
    r"|\bat the (?:very )?bottom of (?:the |a |its )?(?:\w+ )?(?:locker|bin|chest|heap|pile|lazarette)\b",
    re.IGNORECASE,
)  # fmt: skip
_FLAMES = re.compile(
    r"\b(?:behind|over|above)\s+(?:the |our )?(?:cooker|stove|hob|oven|range|burners?|engine)\b(?!['’ -]*(?:s )?(?:\w+ )?(?:space|room|door))",
    re.IGNORECASE,
)


def _things(sight: Sight) -> Iterator[tuple[Block, bool]]:
    """What is wanted in an emergency, and whether a life hangs on getting at it at once."""
    vessel, radio = sight.vessel, sight.vessel.radio
    for listed in (
        radio.sets if radio else (),
        radio.beacons if radio else (),
        vessel.grab_bags,
        vessel.lifejackets,
    ):
        yield from ((each, True) for each in listed)
    yield from ((each, True) for each in (*vessel.stops, *vessel.pumps, *vessel.escape, *vessel.rafts))
    yield from ((pump.handle, True) for pump in vessel.pumps if pump.handle is not None)
    for raft in vessel.rafts:
        yield from ((part, True) for part in (raft.knife, raft.board_from) if part is not None)
    recovery = vessel.recovery
    for part in (recovery.ladder, recovery.hoist, recovery.gate) if recovery else ():
        if part is not None:
            yield part, True
    yield from ((item, item.kind in (*SAVES, "fire", "flooding")) for item in vessel.gear)


def _told(thing: Block) -> Iterator[tuple[str, str, str]]:
    """The words that say where a thing is and how it is got at, with their key and its name."""
    named = thing.__dict__.get(type(thing).called) if hasattr(type(thing), "called") else None
    for key in ("spot", "how"):
        said = thing.__dict__.get(key)
        if isinstance(said, str):
            yield key, said, str(named or thing.__dict__.get("where") or thing.path)


@check("placed.locked", LIFE, COMMON_PRACTICE, COMPOSITION)
def nothing_wanted_at_once_is_locked(sight: Sight) -> Finds:
    """What is wanted in an emergency is not locked, or it is said where the key hangs.

    Why: whoever stands before the lock has no time to look for the key, and who has it in a pocket may be in the water.
    Remedy: leave it unlocked at sea; or hang the key beside it and say so in the same words: "locked, key on the hook beside it".
    """
    for thing, vital in _things(sight):
        for key, said, name in _told(thing):
            if _LOCKED.search(said) and (not _KEY.search(said) or _GONE.search(said)):
                where = "the key is on a person" if _GONE.search(said) else "nothing says where the key is"
                yield at(
                    thing,
                    key,
                    f"{name}: '{said}': {where}",
                    item=name,
                    weight=None if vital else RECOMMENDATION,
                )


@check("placed.buried", LIFE, COMMON_PRACTICE, COMPOSITION)
def nothing_wanted_at_once_is_buried(sight: Sight) -> Finds:
    """What is wanted in an emergency does not lie under or behind what must be cleared away first.

    Why: sails, fenders and stores are not cleared away in a minute, least of all at night with the boat on her side.
    Remedy: put it on top, or into a place of its own, then write where, side and spot.
    """
    for thing, vital in _things(sight):
        for key, said, name in _told(thing):
            if key == "spot" and _BURIED.search(said):
                yield at(
                    thing,
                    key,
                    f"{name}: it lies '{said}'",
                    item=name,
                    weight=None if vital else RECOMMENDATION,
                )


@check("placed.across-flames", LIFE, COMMON_PRACTICE, COMPOSITION)
def nothing_against_fire_is_behind_it(sight: Sight) -> Finds:
    """Extinguisher, fire blanket and gas tap are reached without stretching a hand over the cooker or the engine; no signal or jacket is kept there.

    Why: it lies behind the very fire that it is for; flares and jackets burn with it.
    Remedy: hang it beside the way to the fire, or have the tap moved, then write the new spot.
    """
    vessel = sight.vessel
    against = [item for item in vessel.gear if item.kind == "fire" and not _guards(item)]
    taps = [stop for stop in vessel.stops if stop.what in ("gas", "fuel", "engine")]
    saves = [item for item in vessel.gear if item.kind in SAVES and not _guards(item)]
    beacons = vessel.radio.beacons if vessel.radio else ()
    told: set[int] = set()  # things of one line lie in one place
    for thing in (*saves, *vessel.lifejackets, *vessel.grab_bags, *beacons):
        line, spot = thing.place("spot").line, thing.__dict__.get("spot")
        if isinstance(spot, str) and _FLAMES.search(spot) and line not in told:
            told.add(line)
            yield of(thing, "spot", f"heat spoils it, and a fire stands before it: '{spot}'")
    for thing in (*against, *taps):
        if (
            isinstance(thing.spot, str)
            and _FLAMES.search(thing.spot)
            and thing.__dict__.get("from_outside") is not True
        ):
            yield of(thing, "spot", f"it is reached across the fire: '{thing.spot}'")


def _guards(item: Block) -> bool:
    """Whether a thing of the gear list works where the fire is, or only warns of it."""
    return any(
        does(item, each)  # type: ignore[arg-type]
        for each in ("guards the engine space", "warns of smoke", "warns of carbon monoxide", "warns of gas")
    )


@check("placed.with-anchor", LIFE, COMMON_PRACTICE, COMPOSITION)
def nothing_that_saves_lies_with_the_anchor(sight: Sight) -> Finds:
    """Lifejackets, signals and bags do not share a locker with anchor and chain.

    Why: what lies under chain is torn, wet, and not got out while somebody drowns.
    Remedy: give it a locker of its own, or a bag on a hook that the chain does not reach, and write its spot.
    """
    anchors = [item for item in sight.vessel.gear if does(item, "holds her to the ground")]
    worn = [each for each in sight.vessel.lifejackets if len(each.worn_by or ()) >= (each.quantity or 0)]
    jackets = [each for each in sight.vessel.lifejackets if each not in worn]
    saves = [
        item for item in sight.vessel.gear if item.kind in SAVES and not does(item, "thrown to somebody")
    ]
    for thing in (*jackets, *sight.vessel.grab_bags, *saves):
        here = lies(sight, thing)
        for anchor in anchors if here is not None and here.space.stows == FOR_GEAR else ():
            there = lies(sight, anchor)
            apart = isinstance(thing.spot, str) and thing.spot != anchor.spot
            if here is not None and there is not None and here.meets(there) and not apart:
                yield of(
                    thing,
                    "where",
                    f"it lies in the {here} with the {anchor.what}",
                    weight=None if thing in jackets else RECOMMENDATION,
                    also=(anchor.place("where"),),
                )
                break


@check("placed.stop-far", LIFE, COMMON_PRACTICE, COMPOSITION)
def stops_are_where_they_are_wanted(sight: Sight) -> Finds:
    """An engine is stopped near the helm, gas is shut near cooker or bottles.

    Why: the propeller turns on beside the swimmer, or gas runs out, while somebody goes there.
    Remedy: go and look where it is worked, and write that space; describe under 'stops' the one that is nearer, if there is.
    """
    vessel = sight.vessel
    helms = [Lies(space) for space in sight.spaces.values() if space.steering]
    cooks = [Lies(space) for space in sight.spaces.values() if space.cooking]
    bottles = lies_at(sight, vessel.gas.bottles) if vessel.gas else None
    for what, wanted, most_m, words in (
        ("engine", helms, HELM_M, "where she is steered"),
        ("gas", [*cooks, *([bottles] if bottles else [])], TAP_M, "cooker and bottles"),
    ):
        stops = [stop for stop in vessel.stops if stop.what == what]
        there = all_known(lies(sight, stop) for stop in stops)
        if (
            not there
            or not wanted
            or any(each.space.unlike or each.space.exposed or no_hand_there(each.space) for each in there)
        ):
            continue
        gaps = [min(each.apart_m(one) for one in wanted) for each in there]
        if min(gaps) > most_m:
            stop, gap = stops[gaps.index(min(gaps))], min(gaps)
            yield of(stop, "where", f"it is in the {there[gaps.index(gap)]}, {gap:.0f} m from {words}")


@check("placed.fire-port", TRUTH, COMMON_PRACTICE, COMPOSITION)
def a_fire_port_leads_into_the_engine_space(sight: Sight) -> Finds:
    """The fire port is beside the engine space.

    Why: the step discharges an extinguisher through it, and nothing reaches the engine.
    Remedy: go and look where the hole is: fire-port-place: {where: companionway, spot: lowest step}.
    """
    one = sight.vessel.vessel
    port = lies(sight, one.fire_port_place) if one and one.fire_port is True else None
    engines = [Lies(space) for space in sight.spaces.values() if space.engine]
    if one is not None and port is not None and engines and not port.space.unlike:
        gap = min(port.apart_m(each) for each in engines)
        if gap > PORT_M and one.fire_port_place is not None:
            message = f"the fire port is said to be in the {port}, {gap:.0f} m from the {engines[0]}"
            yield at(one.fire_port_place, "where", message, item="fire port")
