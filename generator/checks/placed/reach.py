"""Within reach: not locked away, not buried, not across the flames, not under chain, and near whoever works it."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.checks.placed.alongside import ways_in
from generator.manual.drawing.spaces import dimensions_m
from generator.reading.nearest import shortened
from generator.reading.values import all_known
from generator.shelves.gear_rows import FETCHED, SAVES
from generator.shelves.procedure_files import GRAB_BAG
from generator.shelves.spaces import BELOW, FOR_GEAR, UPPER
from generator.survey.barring import locked_things
from generator.survey.places import space_at
from generator.survey.placing import Lies, lies, lies_at, no_hand_there, space_of
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
from generator.vessel.deck import Hatch
from generator.vessel.fittings import Located
from generator.vessel.gear import GrabBag, Lifejackets, does
from generator.vessel.installed import Stop
from generator.vessel.medical import Medical

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.reading.block import Block

HELM_M, TAP_M, PORT_M, PORT = 4.0, 3.0, 2.5, 0.2
"""How far from whoever steers an engine stop may be, from cooker or bottles a gas tap, from the engine space its fire port, that also as a part of her length. Common practice."""
_LOCKED = re.compile(
    r"(?<!un)(?<!inter)(?<!never )(?<!not )\b(?:locked|padlock(?:ed)?|under lock)\b", re.IGNORECASE
)
_UNLOCK = re.compile(
    r"\bunlock(?:s|ed|ing)?\b(?=.*\bkey\b)|^(?!.*\b(?:inside|thumb|knob|latch|catch|lever|button|bolt|by hand|handles?)\b).*"
    r"\b(?:unlock(?:s|ing)?|(?:be|being) unlocked(?! (?:at sea|under way|always)))\b",
    re.IGNORECASE,
)
"""What is unlocked before it opens; a box that is unlocked as it stands is not."""
_KEY = re.compile(r"\b(?:keys?|code|combination)\b", re.IGNORECASE)
_UNUSED = re.compile(r"lock\w*\b[^.;]*\b(?:never|not|no longer) (?:used|locked|closed|shut)\b", re.IGNORECASE)
_KEPT = re.compile(
    r"\bkeys?\b[^.;]*\b(?:hangs?|hung|lies|stays|kept)\b|\bkeys?\b[^.;]*\b(?:on|in|at|beside|by|under|behind|inside|above|next to|near|over|below) (?!and\b)\w|\bkey (?:in|inside|beside it)$|"
    r"\b(?:on|in|beside|at|under|behind|by) (?:the|its|a) [^.;]*\bkey\b",
    re.IGNORECASE,
)
_GONE = re.compile(
    r"\bkeys?\b.*\b(?:pocket|ashore|purse|handbag|with the \w+)"
    r"|\b(?:skipper|captain|master|owner|mate|engineer|cook|base|bosun|charterer|deckhand|steward(?:ess)?)s?['’]s? (?:own |spare )?(?:bunch of )?keys?\b",
    re.IGNORECASE,
)
_ON_SOMEBODY = re.compile(r"\b(?:pocket|round (?:the|his|her) neck|belt)\b", re.IGNORECASE)
_WITH_A_KEY = re.compile(
    r"\b(?:open|undo|take off|remove|slip|turn) (?:the |its |both |two )?padlocks?\b"
    r"|\b(?:open|opens|opened|undo|turn|release|free)s?\b[^.;]*\bwith (?:the |a |its |her )?(?!(?:allen|hex|hexagon|winch|fitted|square|t-?)[ -])(?:[a-z'’]+ )?key\b"
    r"|\b(?:put|push|fit|insert) the key in",
    re.IGNORECASE,
)
"""What a hand opens with a key, or a padlock that it opens, before the thing serves."""
_HEAP = (
    r"sails?|drogues?|sea[- ]?anchors?|para[- ]?anchors?|sail ?bags?|jibs?|genoas?|mainsails?|staysails?|trysails?|sail covers?|tarpaulins?|nets?|spinnakers?|gennakers?|fenders?|warps?|mooring lines|ropes?|chain|anchors?|kedge|rode|dinghy|tender|"
    r"outboard|stores|provisions|food|crates?|boxes|tins|bottles|luggage|suitcases?|jerry ?cans?|cans|bicycles?|firewood|"
    r"paddle ?boards?|ballast|weights|gas bottles|suits|wood|surf ?boards?|kayaks?|canoe|life ?-?raft|tools?|tool ?box|deck ?chairs|awnings?|bimini|mattress(?:es)?|bedding|clothes|washing|rubbish|everything|all else|pots|pans|crockery|books"
)
_BURIED = re.compile(
    rf"\b(?:under|beneath|underneath|below|behind|buried (?:in|under))\s+(?:(?:the|a|an|our|all|both|two|three|other|heavy|"
    rf"spare|storm|folded|rolled|bagged|old|first|second|third|fourth|top|bottom|lower|upper|inflatable|empty|full)\s+)*(?:(?!in|on|at|of|for|with|and|by|to|beside|inside|from|as)[a-z'’-]+ ){{0,2}}(?:(?:bags|piles?|heaps?|stacks?|boxes|coils?|tons?) of |(?:[a-z'’-]+ ){{0,2}}and (?:the |our )?)?(?:{_HEAP}|raft|canister|valise)\b(?!['’ -]*(?:s )?(?:lockers?|plates?|"
    r"travellers?|tracks?|sheets?|halyards?|booms?|covers?|kits?|hooks?|racks?|drawers?|shel(?:f|ves)|bins?|hatch|rollers?|arch|davits?|winch|windlass|brackets?|lids?|boxes|clips?|stowage))"
    r"|\bbehind (?:the |a )?(?:\w+ ){0,2}drawers?\b"
    r"|\bat the (?:very )?bottom of (?:the |a |its )?(?:\w+ )?(?:locker|bin|chest|heap|pile|lazarette)\b|\bat the very bottom\b|\bat the bottom$",
    re.IGNORECASE,
)  # fmt: skip
_FLAMES = re.compile(
    r"\b(?:behind|over|above|across)\s+(?:the |our )?(?:(?:flames?|burners?|rings?) (?:of|on) (?:the |our )?)?"
    r"(?:flames?|cooker|stove|hob|oven|range|burners?|engine)\b(?!['’ -]*(?:s )?(?:\w+ )?(?:space|room|door))",
    re.IGNORECASE,
)


_ON_ITS_CRADLE = re.compile(r"\b(?:on|to|at) the (?:\w+ )?(?:cradle|bracket|chock|frame)\b", re.IGNORECASE)
"""What hangs on what holds the raft is at hand, below it too."""
_AT_FLAMES = re.compile(
    r"\b(?:beside|next to|near|by|at|against|under|below|above|over|behind|in front of)\s+(?:the |our )?(?:gas |galley )?(?:cooker|stove|hob|oven|range|burners?|heater|grill|engine|exhaust)\b"
    r"(?!['’ -]*(?:s )?(?:\w+ )?(?:space|room|door|locker|controls?|panel|stop))",
    re.IGNORECASE,
)


def wanted(sight: Sight) -> Iterator[tuple[Block, bool]]:
    """What is wanted in an emergency, and whether a life hangs on getting at it at once."""
    vessel, radio = sight.vessel, sight.vessel.radio
    aired = (*radio.sets, *radio.beacons) if radio else ()
    yield from ((each, True) for each in (*aired, *vessel.grab_bags, *vessel.lifejackets))
    yield from ((each, True) for each in (*vessel.stops, *vessel.pumps, *vessel.escape, *vessel.rafts))
    yield from ((pump.handle, True) for pump in vessel.pumps if pump.handle is not None)
    for raft in vessel.rafts:
        yield from (
            (part, True) for part in (raft.knife, raft.launch_from, raft.board_from) if part is not None
        )
    yield from ((item.released_from, True) for item in vessel.gear if item.released_from is not None)
    yield from ((stop.spare, True) for stop in vessel.stops if stop.spare is not None)
    steering = vessel.steering
    for part in (steering.emergency_tiller, steering.fits) if steering else ():
        if isinstance(part, Located):
            yield part, False
    recovery = vessel.recovery
    for way in (recovery.ladder, recovery.hoist, recovery.gate) if recovery else ():
        if way is not None:
            yield way, True
    medical = vessel.medical
    if isinstance(medical, Medical):
        yield from ((part, True) for part in (medical, medical.key_) if part is not None)
    yield from ((item, item.kind in FETCHED) for item in vessel.gear)


_PART = re.compile(r"(?:\[(?P<of>[^\[\]]+)\])?\.(?P<part>[a-z-]+)$")
_PARTS = {
    "handle": "handle of the {of}",
    "launch-from": "where the {of} goes over",
    "board-from": "where people step into the {of}",
    "released-from": "release of the {of}",
    "spare": "spare of the {of}",
    "fits": "where the emergency tiller fits",
    "ladder": "ladder",
    "hoist": "what lifts a person",
    "gate": "gate",
}
"""What parts are called that have no name of their own, by the key that they stand under."""


def spoken(thing: Block, name: str) -> str:
    """What a finding calls a thing whose own name is no more than its space, its size or what it stops."""
    if isinstance(thing, GrabBag):
        return GRAB_BAG
    if isinstance(thing, Hatch):
        return f"way out, {name}"
    if isinstance(thing, Lifejackets):
        return f"{name} lifejackets"
    if isinstance(thing, Stop):
        return {"batteries": "battery switch", "kill cord": name}.get(name, f"{name} stop")
    if thing.path == "medical.key":
        return "key of the medical chest"
    part = _PART.search(thing.path) if isinstance(thing, Located) else None
    if part is None:
        return name
    plain = part["part"].replace("-", " ") + (" of the {of}" if part["of"] else "")
    return _PARTS.get(part["part"], plain).format(of=part["of"] or "thing")


def told_of(thing: Block) -> Iterator[tuple[str, str, str]]:
    """The words that say where a thing is and how it is got at, with their key and its name."""
    named = thing.__dict__.get(type(thing).called) if hasattr(type(thing), "called") else None
    for key in ("spot", "how", "closes", "use", "power", "distress-button"):
        said = thing.__dict__.get(key.replace("-", "_"))
        if isinstance(said, str):
            yield key, said, str(named or thing.__dict__.get("where") or thing.path)


@check("placed.locked", LIFE, COMMON_PRACTICE, COMPOSITION)
def nothing_wanted_at_once_is_locked(sight: Sight) -> Finds:
    """What is wanted in an emergency is not locked, or it is said where the key hangs.

    Why: whoever stands before the lock has no time to look for the key, and who has it in a pocket may be in the water.
    Remedy: leave it unlocked at sea; or hang the key beside it and say so in the same words: "locked, key on the hook beside it".
    """
    for thing, vital in wanted(sight):
        for key, said, name in told_of(thing):
            if (
                _UNUSED.search(said)
                or (isinstance(thing, Medical) and thing.key_ is not None)
                or (isinstance(thing, Hatch) and "padlock" in said.lower())
            ):
                continue
            shut, opened, gone = (pattern.search(said) for pattern in (_LOCKED, _UNLOCK, _GONE))
            worked = key != "spot" and _WITH_A_KEY.search(said)
            lost = (shut and not _KEY.search(said)) or ((opened or worked) and not _KEPT.search(said))
            worn = thing.path == "medical.key" and _ON_SOMEBODY.search(said)
            if lost or worn or (gone and (shut or opened or worked)):
                where = "the key is on a person" if gone or worn else "nothing says where the key is"
                yield at(
                    thing,
                    key,
                    f"{spoken(thing, name)}: '{said}': {where}",
                    item=name,
                    weight=None if vital else RECOMMENDATION,
                )
    kept = [thing for thing, vital in wanted(sight) if vital and not isinstance(thing, Hatch)]
    for locked in locked_things(sight):
        there = space_at(sight, locked.what)
        first = next((each for each in kept if there is not None and space_of(sight, each) is there), None)
        if first is not None and there is not None and there.stows and not _KEPT.search(locked.said.text):
            yield at(
                locked.said.block,
                locked.said.field.key,
                f"'{shortened(locked.said.text)}': {first.__dict__.get(type(first).called or '') or first.path} lies there, and nothing says where the key is",
                item=locked.said.block.path,
                also=(first.place("where"),),
            )


@check("placed.buried", LIFE, COMMON_PRACTICE, COMPOSITION)
def nothing_wanted_at_once_is_buried(sight: Sight) -> Finds:
    """What is wanted in an emergency does not lie under or behind what must be cleared away first.

    Why: sails, fenders and stores are not cleared away in a minute, least of all at night with the boat on her side.
    Remedy: put it on top, or into a place of its own, then write where, side and spot.
    """
    for thing, vital in wanted(sight):
        for key, said, name in told_of(thing):
            if key == "spot" and _BURIED.search(said) and not _ON_ITS_CRADLE.search(said):
                yield at(
                    thing,
                    key,
                    f"{spoken(thing, name)}: it lies '{said}'",
                    item=name,
                    weight=None if vital else RECOMMENDATION,
                )


@check("placed.across-flames", LIFE, COMMON_PRACTICE, COMPOSITION)
def nothing_against_fire_is_behind_it(sight: Sight) -> Finds:
    """Extinguisher, fire blanket and gas tap are reached without stretching a hand over the cooker or the engine; no signal, jacket or oxygen is kept there, nor what feeds a fire where people cook.

    Why: it lies behind the very fire that it is for; flares and jackets burn with it, and oxygen makes cloth and fat burn like powder.
    Remedy: hang it beside the way to the fire, or have the tap moved, then write the new spot.
    """
    vessel = sight.vessel
    against = [item for item in vessel.gear if item.kind == "fire" and not _guards(item)]
    taps = [stop for stop in vessel.stops if stop.what in ("gas", "fuel", "engine")]
    saves = [item for item in vessel.gear if item.kind in SAVES and not _guards(item)]
    beacons = vessel.radio.beacons if vessel.radio else ()
    elsewhere = any(each.roofed and not each.cooking and not each.engine for each in sight.spaces.values())
    for item in (each for each in vessel.gear if does(each, "feeds a fire")):
        if (
            isinstance(item.spot, str)
            and _AT_FLAMES.search(item.spot)
            and (item not in saves or not _behind_flames(item))
        ):
            yield of(
                item,
                "spot",
                f"it feeds a fire, and lies where one begins: '{item.spot}'",
                remedy="move it to a cabin or the saloon, away from flames, and correct 'spot'",
            )
        elif elsewhere and (item not in saves or not _behind_flames(item)):
            space = space_of(sight, item)
            if space is not None and space.cooking:
                yield of(
                    item,
                    "where",
                    f"it feeds a fire, and is kept in the {space.name}",
                    remedy="move it to a cabin or the saloon, away from flames, and correct 'where'",
                    weight=RECOMMENDATION,
                )
    told: set[int] = set()  # things of one line lie in one place
    for thing in (*saves, *vessel.lifejackets, *vessel.grab_bags, *beacons):
        line, spot = thing.place("spot").line, thing.__dict__.get("spot")
        if _behind_flames(thing) and line not in told:
            told.add(line)
            yield of(thing, "spot", f"heat spoils it, and a fire stands before it: '{spot}'")
    for thing in (*against, *taps):
        if _behind_flames(thing) and thing.__dict__.get("from_outside") is not True:
            yield of(thing, "spot", f"it is reached across the fire: '{thing.spot}'")


def _behind_flames(thing: Block) -> bool:
    """Whether a thing is said to be behind a cooker or an engine, or over it."""
    spot = thing.__dict__.get("spot")
    return isinstance(spot, str) and _FLAMES.search(spot) is not None


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
    anchors = sight.vessel.gear_that("holds her to the ground")
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
        elif what == "engine" and not any(map(_from_the_helm, stops)):
            yield from _on_no_helms_level(sight, stops[0], there, helms)


_FROM_THE_HELM = re.compile(
    r"\b(?:from|at) (?:on |the |our )*(?:deck|cockpit|helm|wheel|tiller|flybridge|flying bridge|outside)\b|\bthrough\b|\b(?:hatch|hole|slot|port|opening)\b",
    re.IGNORECASE,
)


def _from_the_helm(stop: Stop) -> bool:
    """Whether words have a stop worked from where she is steered, or through a hole there."""
    return any(
        isinstance(each, str) and _FROM_THE_HELM.search(each) is not None for each in (stop.spot, stop.how)
    )


def _on_no_helms_level(sight: Sight, stop: Stop, there: list[Lies], helms: list[Lies]) -> Finds:
    """The first engine stop, where all are below and she is steered on deck, or all on deck and she is steered above it."""
    levels, ways = {each.space.level for each in helms}, ways_in(sight)
    if any(each.space.level in levels or each.space.own or each.space.name in ways for each in there):
        return
    if BELOW in levels or any(each.space.engine or each.space.stows for each in there):
        return
    one = sight.vessel.vessel
    helm = one.helm.where if one is not None and one.helm is not None else helms[0]
    aloft = levels == {UPPER}
    yield of(
        stop,
        "where",
        f"it is in the {there[0]}, and she is steered at the {helm}, {'above it' if aloft else 'on deck'}: whoever steers cannot stop the propeller",
        weight=None if aloft else RECOMMENDATION,
    )


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
        far = gap > max(PORT_M, PORT * dimensions_m(sight.vessel)[0])
        if (far or port.space.exposed) and one.fire_port_place is not None:
            away = f"{gap:.0f} m from the {engines[0]}" if far else "where the seas break"
            message = f"the fire port is said to be in the {port}, {away}"
            yield at(one.fire_port_place, "where", message, item="fire port")
