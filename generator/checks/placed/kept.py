"""Where things for an emergency are kept, people sleep, and ways lead out."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.checks.placed.machinery import HANDLE_M
from generator.manual.own_words import called
from generator.shelves.gear_rows import AT_ONCE, FETCHED, SAVES, USED_THERE
from generator.shelves.spaces import BELOW, FOR_NOTHING, UPPER
from generator.survey.places import has_cabin
from generator.survey.placing import (
    Lies,
    away_from_seats,
    no_hand_there,
    shut_off,
    space_of,
    with_bottles,
)
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    HELP,
    LIFE,
    RECOMMENDATION,
    TRUTH,
    Finds,
    Sight,
    at,
    check,
    of,
)
from generator.vessel.fittings import Berth, Kept
from generator.vessel.gear import Gear, does
from generator.vessel.installed import Pump, Stop
from generator.vessel.medical import Medical
from generator.vessel.radio import RadioSet

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.manual.drawing.spaces import Space
    from generator.reading.block import Block

BELONGS = (
    "guards the engine space",
    "floods a space",
    "holds her to the ground",
    "keeps her afloat",
    "carried to a fire",
    "warns of smoke",
    "warns of carbon monoxide",
    "warns of gas",
    "warns of water",
)
"""What has its place there, or of which another check speaks."""
BELONG_SHUT_OFF = (
    "guards the engine space",
    "floods a space",
    "keeps her afloat",
    "holds her to the ground",
    "warns of gas",
)
"""What of the gear list may rightly be in a space that nobody opens at sea."""


IN_HAND = ("bails water", "moves her by hand", "cuts a line", "lights the way")
"""What of tools and other gear is taken in hand while she burns, fills or drifts: it serves in no space that nobody opens at sea."""
FIXED = ("VHF", "MF/HF")
"""The radios that are built in, and spoken into where they are."""


def _vital(sight: Sight) -> Iterator[tuple[Block, str]]:
    vessel = sight.vessel
    yield from ((each, "it calls for help") for each in (vessel.radio.sets if vessel.radio else ()))
    yield from ((each, "it calls for help") for each in (vessel.radio.beacons if vessel.radio else ()))
    yield from ((each, "it goes into the raft") for each in vessel.grab_bags)
    yield from ((each, "all put them on") for each in vessel.lifejackets)
    if vessel.medical is not None:
        yield vessel.medical, "it is wanted at once"


def _out_of_place(item: Gear, why: str, *, shut_off: bool) -> bool:
    """Whether a thing of the gear list has no business there: tools and plugs lie where
    they are used, deck gear where the seas break; in a space that is `shut_off`, a tank or the gas locker, next to nothing does.
    """
    if shut_off and (item.kind in FETCHED or any(does(item, each) for each in IN_HAND)):
        return not any(does(item, each) for each in BELONG_SHUT_OFF)
    if does(item, "carried to a fire"):
        return why != "where the engine burns first"  # of which another check speaks
    if any(does(item, each) for each in BELONGS) or item.kind in USED_THERE:
        return False
    in_the_open = why in ("where the seas break", "above the deck")
    return not in_the_open or (item.kind in AT_ONCE and not does(item, "is fixed in the open"))


@check("placed.kept", LIFE, COMMON_PRACTICE, COMPOSITION)
def what_saves_is_kept_where_a_hand_gets_at_it(sight: Sight) -> Finds:
    """Radios, beacons, jackets, bags, signals and medicine are not kept with engine, anchor, gas or bilge water, nor aloft.

    Why: it is wet, buried under chain or behind the flames just when it is wanted.
    Remedy: bring it where people are, near the way out, then write where and side.
    """
    for thing, words in _vital(sight):
        space = space_of(sight, thing)
        why = no_hand_there(space) if space is not None else ""
        if space is not None and space.mark and _in_reach(thing):
            continue
        if space is not None and why:
            yield of(thing, "where", f"{words}, and is kept in the {space.name}, {why}")
        elif (
            space is not None
            and isinstance(thing, RadioSet)
            and thing.kind in FIXED
            and _outside(sight, space)
            and not _another_set(sight, thing)
        ):
            yield of(thing, "where", f"{words}, and is fixed in the open, away from the helm: {space.name}")
        elif space is not None and space.stows and isinstance(thing, RadioSet) and thing.kind in FIXED:
            yield of(
                thing, "where", f"{words}, and is fixed in the {space.name}, in which nobody stands to speak"
            )
        elif space is not None and isinstance(thing, RadioSet) and thing.kind in FIXED and _no_station(space):
            yield of(thing, "where", f"{words}, and is fixed in the {space.name}, where nobody sits to speak")
    for item in sight.vessel.gear:
        space = space_of(sight, item)
        why = no_hand_there(space) if space is not None else ""
        if space is not None and with_bottles(sight, space):
            continue  # of what lies with the gas bottles another check speaks
        closed = space is not None and "tank" in space.name and does(item, "holds her to the ground")
        if space is not None and why and (closed or _out_of_place(item, why, shut_off=shut_off(space))):
            yield of(
                item,
                "where",
                f"it is kept in the {space.name}, {why}",
                weight=None if item.kind in SAVES or does(item, "discharged by hand") else RECOMMENDATION,
            )


def _no_station(space: Space) -> bool:
    """Whether a space is one in which no fixed radio is spoken into: the heads, or a store in the bows."""
    return not (space.own or space.unlike) and _WET_OR_STORE.search(space.name) is not None


_WET_OR_STORE = re.compile(r"\b(?:heads|toilet|shower|forepeak|sail locker)\b")


def _in_reach(thing: Block) -> bool:
    """Whether words have a thing at the mast where somebody on deck takes hold of it."""
    spot = thing.__dict__.get("spot")
    return isinstance(spot, str) and _IN_REACH.search(spot) is not None and not _ALOFT.search(spot)


_IN_REACH = re.compile(
    r"\b(?:foot|heel|base|waist|knee|chest|shoulder|hip|eye|head|breast)(?:[- ](?:height|high|level))?\b|\b(?:in|within)(?: \w+)? reach\b"
    r"|\bman(?:['’]s)? (?:high|height)\b|\blow down\b|\babove the deck\b|\babove deck\b",
    re.IGNORECASE,
)
_ALOFT = re.compile(
    r"\b(?:mast ?head|spreaders?|cross ?trees|truck|aloft|top|hounds|out of reach|not)\b", re.IGNORECASE
)


@check("placed.in-the-open", HELP, COMMON_PRACTICE, COMPOSITION)
def what_spray_spoils_is_not_kept_in_the_open(sight: Sight) -> Finds:
    """In a boat that can be shut, jackets, signals, torches, medicine, water and what keeps warm do not lie on the open deck, away from the helm.

    Why: spray spoils it, and the first sea that comes aboard takes it along; whoever is sent for it finds nothing.
    Remedy: bring it inside or into a locker and write that space; of what is shut in on deck say in 'spot' in what: in the box under the seat.
    """
    one, vessel = sight.vessel.vessel, sight.vessel
    if one is None or not one.hull.closed_in:
        return
    kept = [
        each for each in vessel.gear if each.kind == "medical" or any(does(each, what) for what in SPOILT)
    ]
    worn = [each for each in vessel.lifejackets if len(each.worn_by or ()) >= (each.quantity or 0)]
    jackets = [each for each in vessel.lifejackets if each not in worn]
    chest = [vessel.medical] if vessel.medical is not None else []
    for thing in (*jackets, *(each for each in kept if not does(each, "thrown to somebody")), *chest):
        space, spot = space_of(sight, thing), thing.__dict__.get("spot")
        away = space is not None and away_from_seats(sight, space)
        shut_in = _BOXED if away else _SHUT_IN
        if space is None or (isinstance(spot, str) and shut_in.search(spot)):
            continue
        if isinstance(thing, Gear) and _STANDS_SPRAY.search(str(thing.what)):
            continue
        why = no_hand_there(space)
        told = why and (not isinstance(thing, Gear) or _out_of_place(thing, why, shut_off=shut_off(space)))
        burns = isinstance(thing, Gear) and thing.kind == "fire"  # in the cockpit it hangs at hand
        if not told and (away or (_outside(sight, space) and not burns)):
            yield of(thing, "where", f"it lies in the open: {space.name}")


_STANDS_SPRAY = re.compile(r"\b(?:stretcher|litter|spine ?board|back ?board)\b", re.IGNORECASE)
_SHUT_IN = re.compile(r"\b(?:in|inside|within|under|below|beneath)\b", re.IGNORECASE)
"""What stands in words for what keeps spray and seas off a thing."""
_BOXED = re.compile(
    r"\b(?:box|locker|case|casing|chest|bin|canister|drum|barrel|tube|cabinet|cupboard|compartment|bag|pouch|pocket|sack|holder|cover)s?\b|\b(?:inside|under|below) (?:the|its) (?:hatch|lid)\b",
    re.IGNORECASE,
)
"""The same where nobody sits, so that no seat is there to lie under."""
SPOILT = (
    "shows distress",
    "keeps warm",
    "suit against cold",
    "drinking water",
    "food",
    "lights the way",
    "clips somebody on",
    "floods a space",
    "carried to a fire",
)
"""What things are or do that spray spoils, or a sea takes along."""
_SPARE = (
    (Pump, "handle", "its handle"),
    (Stop, "spare", "its spare"),
    (Medical, "key_", "its key"),
    (Gear, "released_from", "its release"),
)


@check("placed.part-kept", LIFE, COMMON_PRACTICE, COMPOSITION)
def what_works_a_thing_is_kept_where_a_hand_gets_at_it(sight: Sight) -> Finds:
    """The handle, release, key or spare of a thing is where a hand gets at it; one that is 'beside it' is in the space of the thing.

    Why: a pump without its handle, a locked chest, a bottle that nobody can release are as good as none.
    Remedy: go and look where it is kept, and write that space; where it is elsewhere, take 'beside it' out of 'spot'.
    """
    vessel = sight.vessel
    chest = [vessel.medical] if vessel.medical is not None else []
    for thing in (*vessel.pumps, *vessel.stops, *vessel.gear, *chest):
        for kind, name, words in _SPARE:
            part = thing.__dict__.get(name) if isinstance(thing, kind) else None
            space, own = space_of(sight, part if isinstance(part, Kept) else None), space_of(sight, thing)
            if space is None or not isinstance(part, Kept):
                continue
            beside = isinstance(part.spot, str) and _AT_IT.search(part.spot.lower())
            why = ""
            apart = own is not None and own is not space and not _one_place(own, space)
            if own is not None and beside and apart and not _told_by_pump(thing, own, space):
                why = f"is said to be {part.spot}, and is in the {space.name}, it in the {own.name}"
            elif (
                space is not own
                and (shut_off(space) or (space.stows == FOR_NOTHING and not space.engine))
                and not (isinstance(thing, Pump) and thing.power != "hand")
            ):
                why = f"is kept in the {space.name}, {no_hand_there(space)}"
            elif name == "key_" and (space.engine or _outside(sight, space)):
                why = f"is kept in the {space.name}, {no_hand_there(space) or 'in the open'}"
            elif name == "released_from" and (space.exposed or space.name.endswith("roof")):
                why = f"is on the {space.name}, where nobody goes in a sea"
            elif name == "released_from" and own is not None and own.engine and _far(sight, own, space):
                why = f"is in the {space.name}, away from the {own.name} and the helm"
            if why:
                called_so = str(thing.__dict__.get("what") or thing.path)
                yield at(part, "where", f"{called_so}: {words} {why}", item=called_so)


def _told_by_pump(thing: Block, own: Space, space: Space) -> bool:
    """Whether the check of hand pumps speaks of a handle so far away."""
    levels = own.level != space.level and not own.stows
    far = Lies(own).apart_m(Lies(space)) > HANDLE_M or levels
    told = isinstance(thing, Pump) and thing.power == "hand" and far
    return told and isinstance(thing, Pump) and (thing.from_deck is not True or not levels)


_AT_IT = re.compile(r"\b(?:beside|next to) it\b")
RELEASE_M = 3.0
"""How far from the engine space and the helm the release of its extinguisher may be. Common practice."""


def _one_place(one: Space, other: Space) -> bool:
    """Whether one of two spaces is a part of the other, as the helm is of the cockpit: on one level, over each other in plan."""
    same = one.level == other.level and bool(one.stows) == bool(other.stows)
    parts = {one.name, other.name}.isdisjoint(called("apart"))
    return (same and parts and _over_each_other(one, other)) or one.own or other.own


def _over_each_other(one: Space, other: Space) -> bool:
    """Whether two spaces share an area in plan."""
    along = min(one.fore_m, other.fore_m) - max(one.aft_m, other.aft_m)
    halves = (
        (mine, theirs) for mine in map(one.half, _halves(one)) for theirs in map(other.half, _halves(other))
    )
    across = any(min(mine[1], theirs[1]) - max(mine[0], theirs[0]) > 0 for mine, theirs in halves)
    return along > 0 and across


def _halves(space: Space) -> tuple[str, ...]:
    """The sides of a space that lies on both with something else between; else the whole."""
    return ("port", "starboard") if space.paired else ("",)


def _another_set(sight: Sight, one: RadioSet) -> bool:
    """Whether another fixed set is where people steer or live: then one at a second helm, on a flybridge, is more than others have."""
    sets = sight.vessel.radio.sets if sight.vessel.radio else ()
    others = [space_of(sight, each) for each in sets if each is not one and each.kind in FIXED]
    return any(space is not None and not space.stows and not _outside(sight, space) for space in others)


def _outside(sight: Sight, space: Space) -> bool:
    """Whether a space is open deck away from where she is steered, or a level above the deck with no helm on it."""
    helms = [each for each in sight.spaces.values() if each.steering]
    if space.own or not helms or not space.open_deck:
        return False
    return (space.level == UPPER and space.name.endswith("roof")) or not any(
        each.level == space.level and _over_each_other(each, space) for each in helms
    )


def _far(sight: Sight, engine: Space, space: Space) -> bool:
    """Whether a space is neither near an engine space nor near where she is steered."""
    near = [engine, *(each for each in sight.spaces.values() if each.steering and each.level == space.level)]
    return not space.unlike and min(Lies(space).apart_m(Lies(each)) for each in near) > RELEASE_M


@check("placed.berth", TRUTH, COMMON_PRACTICE, COMPOSITION)
def people_sleep_where_people_can(sight: Sight) -> Finds:
    """A berth is in a space where somebody can sleep.

    Why: whoever is missing is looked for in the berth.
    Remedy: write the cabin or the berth by its name on the plan.
    """
    for person in sight.vessel.people:
        berth = person.berth
        space = space_of(sight, berth if isinstance(berth, Berth) else None)
        deck = space is not None and has_cabin(sight.vessel) and _outside(sight, space)
        if space is not None and (space.stows or space.mark or space.exposed or space.engine or deck):
            yield of(
                person,
                "where",
                f"nobody sleeps in the {space.name}",
                part=berth if isinstance(berth, Berth) else None,
            )


@check("placed.way-out", TRUTH, COMMON_PRACTICE, COMPOSITION)
def ways_out_lead_out(sight: Sight) -> Finds:
    """A way out leads out of a space that people are inside of.

    Why: from the open deck nobody needs one, and one that is none is tried while the water rises.
    Remedy: write the cabin, the passage or the engine room that it leads out of.
    """
    for hatch in sight.vessel.escape:
        space = space_of(sight, hatch)
        if space is not None and (
            space.open_deck
            or space.mark
            or shut_off(space)
            or (space.stows and not space.engine and (space.level != BELOW or space.stows == FOR_NOTHING))
        ):
            yield of(hatch, "where", f"the {space.name} is no space that people are shut in")
