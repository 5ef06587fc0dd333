"""Swamping and capsize: whether it is said how she floats, and that what is said to be reached then is."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.manual.fitting_facts import reached_inverted, to_hold_on_to
from generator.reading.values import untold
from generator.shelves.gear import kind_of
from generator.shelves.procedure_files import GRAB_BAG
from generator.shelves.spaces import FOR_NOTHING, UPPER
from generator.survey.places import space_at
from generator.survey.placing import lies
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    DEFECT,
    HELP,
    LIFE,
    Finds,
    Sight,
    at,
    check,
)
from generator.vessel.capsize import FLOATS, SINKS
from generator.vessel.gear import gear_kind
from generator.vessel.particulars import FAR
from generator.vessel.raft import Raft

if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import TypeAlias

    from generator.manual.drawing.spaces import Space
    from generator.reading.values import NotKnown
    from generator.vessel.fittings import Fitting, Kept
    from generator.vessel.gear import Placed
    from generator.vessel.radio import Beacon, RadioSet
    from generator.vessel.vessel import Vessel

    _Kept: TypeAlias = Placed | RadioSet | Beacon
    _Entry: TypeAlias = Raft | _Kept | Kept

REACH_M = 1.5  # from where somebody hangs on to what the other arm gets at
_BEACONS = ("EPIRB", "PLB", "SART")
_CALLS = re.compile(
    r"\b(?:EPIRB|PLB|beacons?|radio|VHF|(?:tele)?phone|bag|flares?|(?:life ?-?)?raft)\b", re.IGNORECASE
)
_ARTICLES = ("the", "a", "an", "of", "for")


@check("capsize.not-said", HELP, COMMON_PRACTICE)
def it_is_said_how_she_floats_full_of_water(sight: Sight) -> Finds:
    """A boat that is open, or a multihull offshore, says how she floats when she is full of water.

    Why: whether to stay with her or to leave her hangs on it, and in the water nobody finds that out in time.
    Remedy: ask the builder, look at her plate, or fill her in shallow water; then write capsize: {swamped: ...}.
    """
    one, told = sight.vessel.vessel, sight.vessel.capsize
    if one is None or not (not one.hull.closed_in or (one.hull.multihull and one.waters in FAR)):
        return
    if told is None:
        yield at(
            one,
            "type",
            f"she is of the type {one.type}, and nothing says how she lies full of water",
            item="capsize",
            weight=DEFECT if _turned_over(sight) else None,
        )
    elif not told.known("swamped"):
        yield at(told, "swamped", "'swamped' does not say how she lies full of water", item="capsize")


def _turned_over(sight: Sight) -> bool:
    """Whether it is told of a multihull which ways out serve upside down: only an older file says that of none."""
    one = sight.vessel.vessel
    told = any(isinstance(hatch.serves_inverted, bool) for hatch in sight.vessel.escape)
    return one is not None and one.hull.multihull is True and told


@check("capsize.not-reached", LIFE, COMMON_PRACTICE)
def what_is_reached_upside_down_is_reached(sight: Sight) -> Finds:
    """What is listed as reached when she lies upside down is said nowhere else to be out of reach.

    Why: whoever swims for it under an upturned hull does not come back.
    Remedy: go and look at the mooring how it is got at from below; correct 'reached' or the raft's 'reached-inverted'.
    """
    for thing in reached_inverted(sight.vessel):
        for raft in sight.vessel.rafts:
            if raft.reached_inverted is False and _is_of(thing, raft):
                yield at(
                    thing,
                    "what",
                    f"'{thing.what}' is said to be reached upside down, and the {raft.name} is not",
                    item=str(thing.what),
                    also=(raft.place("reached-inverted"),),
                )
        space = space_at(sight, thing.where)
        if space is not None and space.stows == FOR_NOTHING and not space.exposed:
            message = f"'{thing.what}' is said to be reached upside down, and lies in the {space.name}, in which nobody can be"
            yield at(thing, "where", message, item=str(thing.what))


def _is_of(thing: Fitting, raft: Raft) -> bool:
    """Whether a thing is the raft by its name, or its knife where that is kept with the raft."""
    words = [word for word in re.findall(r"\w+", str(thing.what).lower()) if word not in _ARTICLES]
    named = words == re.findall(r"\w+", str(raft.name).lower())
    knife = raft.knife
    kept_there = knife is not None and knife.where == raft.where and thing.where == raft.where
    return named or (kept_there and knife is not None and thing.known("spot") and thing.spot == knife.spot)


@check("capsize.righted", HELP, COMMON_PRACTICE)
def how_she_is_righted_is_said_of_one_that_can_be(sight: Sight) -> Finds:
    """Where it is said how she is turned upright, it is said too that her own people can.

    Why: without it no step prints it.
    Remedy: write righted: yes if it was tried, or take 'righted-how' out.
    """
    told = sight.vessel.capsize
    if told is not None and told.known("righted_how") and told.righted is not True:
        key = "righted-how" if untold(told.righted) else "righted"
        yield at(
            told, key, "it says how she is turned upright, and not that her own people can", item="capsize"
        )


@check("capsize.nothing-to-hold", LIFE, COMMON_PRACTICE)
def people_find_a_hold_on_her_bottom(sight: Sight) -> Finds:
    """A boat that stays upside down, far out a multihull, anywhere a boat that floats full of water, has something on her bottom to hold on to.

    Why: a hull upside down is smooth, and people are washed off it before they reach the hatch.
    Remedy: rig a line along each keel or between eyes in the bottom, and list it under 'hold-on'.
    """
    told, one = sight.vessel.capsize, sight.vessel.vessel
    if told is None or one is None:
        return
    turns_over = one.waters in FAR if one.hull.multihull is True else told.swamped in FLOATS
    if turns_over and told.righted is False and told.says_none("hold-on"):
        yield at(
            told,
            "hold-on",
            "she stays upside down, and there is nothing to hold on to on her bottom",
            item="capsize",
        )


@check("capsize.reached-on-the-roof", LIFE, COMMON_PRACTICE, COMPOSITION)
def what_is_on_her_roof_is_under_her(sight: Sight) -> Finds:
    """What is reached without diving when she lies upside down is not on her coachroof or wheelhouse roof.

    Why: that is the deepest part of her then; whoever dives for it does not come up.
    Remedy: go and look at the mooring how it is got at from below; take it out of 'reached', or write where it is.
    """
    for thing in reached_inverted(sight.vessel):
        here = lies(sight, thing)
        if here is not None and (here.space.level == UPPER or ROOF.search(here.space.name)):
            yield at(
                thing,
                "where",
                f"'{thing.what}' is said to be reached upside down, and the {here.space.name} is under her then",
                item=str(thing.what),
            )


ROOF = re.compile(r"\b(?:coach-?|deck-?house |wheelhouse |cabin )?(?:roof|top)\b|\bflybridge\b")


@check("capsize.sinks-righted", LIFE, COMMON_PRACTICE)
def a_boat_that_sinks_is_not_righted(sight: Sight) -> Finds:
    """A boat that sinks when she is full of water is not said to be turned upright by her own people.

    Why: people hang on a line and pull, while she goes down under them.
    Remedy: try it in shallow water, or ask the builder; correct 'swamped' or 'righted'.
    """
    told = sight.vessel.capsize
    if told is not None and told.swamped == SINKS and told.righted is True:
        message = "she is said to sink when full of water, and to be turned upright by her people"
        yield at(told, "righted", message, item="capsize", also=(told.place("swamped"),))


@check("capsize.reached-elsewhere", LIFE, COMMON_PRACTICE)
def what_is_reached_is_where_its_entry_says(sight: Sight) -> Finds:
    """What is listed as reached, or held on to, upside down lies where its own entry says, and is aboard.

    Why: whoever swims round an upturned hull to the wrong end does not come back.
    Remedy: go and look, and correct 'where' or 'side' here or in the entry of the thing.
    """
    for thing in (*reached_inverted(sight.vessel), *to_hold_on_to(sight.vessel)):
        for name, entries in _named(sight, str(thing.what)):
            if not entries:
                yield at(
                    thing,
                    "what",
                    f"'{thing.what}' names the {name}, and the file has none",
                    item=str(thing.what),
                )
            elif all(_apart(sight, thing, each) for each in entries):
                yield at(
                    thing,
                    "where",
                    f"'{thing.what}' is said to be reached at '{thing.where}', and the entry of the {name.removeprefix('the ')} has another place: {_placed(entries[0])}",
                    item=str(thing.what),
                    also=tuple(each.place("where") for each in entries),
                )
                break  # what else it names lies with it


def _placed(entry: _Entry) -> str:
    """Space and side of an entry, as it has them."""
    told = (entry.__dict__.get(key) for key in ("where", "side"))
    return ", ".join(each for each in told if isinstance(each, str)) or "not said"


def _named(sight: Sight, what: str) -> Iterator[tuple[str, list[_Entry]]]:
    """Each thing that words name, with the entries of it; raft, bag, dinghy, sets and beacons also where there is none."""
    vessel, radio, lower = sight.vessel, sight.vessel.radio, what.lower()
    sets, beacons = (radio.sets, radio.beacons) if radio else ((), ())
    listed: list[tuple[str, str, list[_Entry]]] = [
        ("raft", r"(?:life ?-?)?rafts?", [*vessel.rafts]),
        (GRAB_BAG, r"grab.?bags?", [*vessel.grab_bags]),
        ("dinghy", r"dinghy|tender", [vessel.tender] if vessel.tender else []),
        ("handheld radio", r"handheld (?:vhf|radio)", [one for one in sets if one.kind == "handheld VHF"]),
    ]
    listed += [(kind, kind.lower(), [one for one in beacons if one.kind == kind]) for kind in _BEACONS]
    for name, pattern, entries in listed:
        if re.search(rf"\b(?:{pattern})\b(?!['’ -]*(?:s )?(?:knife|locker|recess|lid|painter))", lower):
            yield name, entries
    yield from _heldin_it(vessel, lower)
    bag = THE_BAG.search(lower)
    if bag is not None:  # the bag that other entries are said to be in
        kept: list[_Kept] = [*vessel.gear, *sets, *beacons]
        held: list[_Entry] = [item for item in kept if in_it(item.spot, bag[0])]
        if held:
            yield bag[0], held
    kind = kind_of(re.sub(r"^(?:the|an?|our) ", "", lower))
    if kind is not None:
        items: list[_Entry] = [item for item in vessel.gear if gear_kind(item) is kind]
        items += [raft.knife for raft in vessel.rafts if raft.knife and kind.name == Raft.knife.key]
        if items:
            yield kind.name, items


def _heldin_it(vessel: Vessel, lower: str) -> Iterator[tuple[str, list[_Entry]]]:
    """What is said to be in a bag by its words, "the bag with flares and torch": each with the entries of the gear list that mean it.

    What stands on the list of a grab bag too may be the other one.
    """
    _, held, contents = lower.partition(" with ")
    if not held:
        return
    bagged = " ".join(str(item.what).lower() for bag in vessel.grab_bags for item in bag.items)
    for name in re.split(r",\s*|\s+and\s+", contents):
        word = re.sub(r"^(?:the|an?|our|some|two|three|its) ", "", name.strip()).rstrip("s")
        meant: list[_Entry] = [
            item
            for item in vessel.gear
            if len(word) > MEANT
            and word in (called := str(item.what).lower())
            and re.search(rf"\b{re.escape(word)}s?\b", called)
        ]
        if meant and word not in bagged:
            yield name.strip(), meant


MEANT = 3
"""A word that is shorter names nothing of the gear list."""


def in_it(spot: str | NotKnown | None, bag: str) -> bool:
    """Whether words for a spot have a thing in that bag."""
    return isinstance(spot, str) and bag in spot.lower().split(",")[0]


THE_BAG = re.compile(r"\b(?!grab\b)[a-z]+ (?:bag|box|drum|barrel|canister|case)\b")
"""What several things are kept in, by its name: the dry bag, the flare box."""


def _apart(sight: Sight, thing: Fitting, entry: _Entry) -> bool:
    """Whether a thing's own entry has it in a space that does not overlap, or on the other side."""
    at, kept = lies(sight, thing), lies(sight, entry)
    if at is None or kept is None:
        return False
    here, there = at.space, kept.space
    if {at.side, kept.side} == {"port", "starboard"}:
        return True
    return here is not there and (beyond_reach(here, there) or _in_another_room(entry, here, there))


def _in_another_room(entry: _Entry, here: Space, there: Space) -> bool:
    """Whether a thing that is said to be reached at a way out is kept in a room beside it, and no words have it reached from there."""
    spot = entry.__dict__.get("spot")
    rooms = here.roofed and there.roofed and max(here.aft_m - there.fore_m, there.aft_m - here.fore_m) > 0
    return rooms and not (isinstance(spot, str) and re.search(r"\breach|\bhatch\b|\bway out\b", spot.lower()))


def beyond_reach(one: Space, other: Space) -> bool:
    """Whether two spaces share no area in plan, and their middles lie further apart than an arm reaches."""
    along = max(one.aft_m - other.fore_m, other.aft_m - one.fore_m)
    across = max(one.port_m - other.starboard_m, other.port_m - one.starboard_m)
    middles_m = abs(one.aft_m + one.fore_m - other.aft_m - other.fore_m) / 2
    return max(along, across) >= 0 and (middles_m > REACH_M or across > REACH_M)


@check("capsize.nothing-calls", LIFE, COMMON_PRACTICE)
def something_that_calls_is_reached_upside_down(sight: Sight) -> Finds:
    """Far out, what is reached when a multihull lies upside down has something in it that calls for help.

    Why: she floats for weeks, and nobody knows; the beacon is in a cabin that fills and empties with every sea.
    Remedy: move one beacon or the grab bag to where it is reached, and list it under 'reached'; a beacon that somebody wears counts, and a raft for the flares in its pack.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    told = vessel.capsize
    if one is None or told is None or not one.hull.multihull or one.waters not in FAR or not told.reached:
        return
    beacons = vessel.radio.beacons if vessel.radio else ()
    worn = any(
        each.kind in ("EPIRB", "PLB") and (each.carried_by or "jacket" in str(each.spot)) for each in beacons
    )
    if not worn and not any(_CALLS.search(str(thing.what)) for thing in told.reached):
        yield at(told, "reached", "nothing that is reached upside down calls for help", item="capsize")


@check("capsize.open-boat-calls", HELP, COMMON_PRACTICE)
def somebody_calls_from_an_open_boat_that_turned_over(sight: Sight) -> Finds:
    """Where an open boat has a beacon, that is worn, or something that calls is among what is reached when she has turned over.

    Why: she fills within one wave, and what lies in a locker is then under water, or drifts off.
    Remedy: wear the PLB, and write carried-by; or tie a dry bag with beacon and flares where it is reached, and list it under 'reached'.
    """
    vessel, one, told = sight.vessel, sight.vessel.vessel, sight.vessel.capsize
    beacons = vessel.radio.beacons if vessel.radio else ()
    if one is None or told is None or one.hull.closed_in or not told.reached or not beacons:
        return
    worn = any(each.carried_by or "jacket" in str(each.spot) for each in beacons)
    if not worn and not any(_CALLS.search(str(thing.what)) for thing in told.reached):
        message = "no beacon is worn, and nothing that calls for help is reached when she has turned over"
        yield at(told, "reached", message, item="capsize", also=(beacons[0].place("where"),))
