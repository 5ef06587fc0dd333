"""Upside down: what is reached or held on to then is not inside her, nor under her deck; what is kept to serve lies above the water."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.checks.capsize.floating import MEANT, ROOF, THE_BAG, beyond_reach, in_it
from generator.manual.fitting_facts import reached_inverted, to_hold_on_to
from generator.reading.values import Quantity
from generator.shelves.spaces import BELOW, FOR_GEAR, FOR_NOTHING, UPPER
from generator.survey.limits import most
from generator.survey.places import space_at
from generator.survey.placing import space_of
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    HELP,
    LIFE,
    Finds,
    Sight,
    at,
    check,
    of,
)
from generator.vessel.gear import CUTS, Gear, does

if TYPE_CHECKING:
    from generator.manual.drawing.spaces import Space
    from generator.vessel.fittings import Fitting
    from generator.vessel.vessel import Vessel

_STANDS_UP = r"guard[- ]?(?:wires?|rails?|lines?)|jack[- ]?(?:stays?|lines?)|stanchions?|pulpits?|pushpits?|gantry|bimini"
_UNDER_HER = re.compile(
    rf"\b(?:winch(?:es)?|cleats?|mast|boom|binnacle|wheel|tiller|coamings?|windlass|grab ?rails?|hand ?rails?|steering pedestal|thwarts?|seats?|bench(?:es)?|"
    rf"bottom boards|floor ?boards|sole|console|hoops?|spray ?hood|cuddy|mooring bitts?|{_STANDS_UP})\b"
)
_ON_HER_BOTTOM = re.compile(
    r"\b(?:bottom(?! boards)|keels?|skeg|rudder|outside|under(?:side|neath)|hulls?|to the water|from below|from under|over the side|transoms?|between the (?:hulls|floats)|under the (?:nets?|trampolines?|bridgedeck|beams?|wings?|floats?))\b"
)
"""What stands on deck, and what words have it reached on her bottom all the same."""
_AT_THE_WATER = re.compile(
    r"\b(?:transoms?|pushpit|steps?|sugar scoops?|stern|swim|bathing|platform|aft (?:deck|beam)|davits|nets?|trampolines?|floats?|hulls?|beams?|crossbeams?)\b"
)
"""The spaces on deck of a multihull that a hand gets at from the water beside her, or through the net."""
_THROUGH_IT = re.compile(
    r"\b(?:hatch|way out|from below|from under(?:neath)?|from outside|outside|through)\b"
)


def _deck_under_her(sight: Sight, space: Space) -> bool:
    """Whether a multihull that stays upside down has that part of her deck under water."""
    one, told = sight.vessel.vessel, sight.vessel.capsize
    turned = one is not None and one.hull.multihull is True and told is not None and told.righted is not True
    on_deck = space.level != BELOW and not space.unlike and not space.own
    return turned and on_deck and not _AT_THE_WATER.search(space.name)


def _words(thing: Fitting) -> str:
    return f"{thing.what} {thing.spot or ''}".lower()


_CUTS = re.compile(
    r"\b(?:propellers?|props?|outboard(?: leg)?|exhaust|sail ?drive|rudder blade|hydrofoils?|foils?)\b",
    re.IGNORECASE,
)
"""What cuts, burns or swings on an upturned hull."""


@check("capsize.held-inside", LIFE, COMMON_PRACTICE, COMPOSITION)
def people_hold_on_outside(sight: Sight) -> Finds:
    """What people hold on to when she lies upside down is outside, or at the way out that serves then; of a multihull it is not on her deck.

    Why: inside the air is used up, her deck is under water, and the sea takes whoever looks for a hold where there is none.
    Remedy: write the space at whose outside the line or eye is: {what: the line along each keel}.
    """
    vessel = sight.vessel
    ways = [space_at(sight, hatch.where) for hatch in vessel.escape if hatch.serves_inverted is True]
    for thing in to_hold_on_to(vessel):
        space = space_at(sight, thing.where)
        words = _words(thing)
        if cuts := _CUTS.search(words):
            message = (
                f"'{thing.what}': whoever holds on by the {cuts[0].lower()} is cut, burnt or struck by it"
            )
            yield at(
                thing,
                "what",
                message,
                remedy="have a line led along the keel or round the hull, and write that",
                item=str(thing.what),
            )
            continue
        in_the_open = space.open_deck if space is not None else not thing.known("where")
        stands = _UNDER_HER.search(words) or (space is not None and _deck_under_her(sight, space))
        if in_the_open and stands and not _ON_HER_BOTTOM.search(words):
            where = f"on her deck, the {space.name}" if space is not None else "inside her or on her deck"
            message = f"'{thing.what}', {where}, would be under her then"
            yield at(thing, "what", message, item=str(thing.what))
            continue
        if (
            space is not None
            and (space.roofed or space.level == BELOW or space.stows == FOR_GEAR)
            and not space.unlike
            and space not in ways
        ):
            yield at(
                thing, "where", f"'{thing.what}' is in the {space.name}, inside her", item=str(thing.what)
            )


@check("capsize.reached-in-a-room", LIFE, COMMON_PRACTICE, COMPOSITION)
def what_is_reached_is_outside(sight: Sight) -> Finds:
    """What is listed as reached when she lies upside down is neither inside her, away from the way out that serves then, nor under the deck of a multihull.

    Why: 'reached' means from outside, without diving; whoever dives into a cabin full of water and floating gear does not come out.
    Remedy: stow it at the way out that serves upside down, or where a hand gets at it from the water, and write that under 'where', here and in its own entry;
    else take it out of 'reached'.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    ways = [space_of(sight, hatch) for hatch in vessel.escape if hatch.serves_inverted is True]
    turns_over = one is not None and (one.hull.multihull is True or not one.hull.has_rooms)
    for thing in reached_inverted(vessel) if turns_over else ():
        space = space_of(sight, thing)
        if space is None or space.unlike or _there(vessel, thing):
            continue
        if _THROUGH_IT.search(f"{_words(thing)} {space.name}"):
            continue
        inside = space.roofed and space not in ways
        if inside or (_deck_under_her(sight, space) and not _told_by_another(space)):
            yield at(
                thing,
                "where",
                f"'{thing.what}' is said to be reached from outside, and the {space.name} is {'a room, whose door is under water' if inside else 'on deck, under her then'}",
                item=str(thing.what),
                also=tuple(hatch.place("where") for hatch in vessel.escape if hatch.serves_inverted is True),
            )


@check("capsize.raft-under-her", LIFE, COMMON_PRACTICE, COMPOSITION)
def a_raft_that_is_reached_lies_where_it_can_be(sight: Sight) -> Finds:
    """A raft that is said to be reached when a multihull lies upside down is neither below, away from the way out that serves then, nor on her roof.

    Why: the raft is the one dry place left, and nobody who dives for it under her nets and lines comes up.
    Remedy: think it through at the mooring: how is it got out from below? Move it to the stern, or into a locker that opens from below too; else write reached-inverted: no.
    """
    ways = [space_of(sight, hatch) for hatch in sight.vessel.escape if hatch.serves_inverted is True]
    for raft in sight.vessel.rafts:
        space = space_of(sight, raft) if raft.reached_inverted is True else None
        if space is None or space.unlike:
            continue
        below = space.level == BELOW and not any(way is not None and _holds(space, way) for way in ways)
        roof = space.level == UPPER or ROOF.search(space.name) is not None
        if below or (roof and _deck_under_her(sight, space)):
            yield of(
                raft,
                "reached-inverted",
                f"it is said to be reached upside down, and lies {f'below deck, in the {space.name}' if below else f'on the {space.name}, the deepest part of her then'}",
                also=(raft.place("where"),),
            )


def _there(vessel: Vessel, thing: Fitting) -> bool:
    """Whether a thing is a raft that its own entry says is reached upside down, or lies with one."""
    return any(raft.reached_inverted is True and raft.where == thing.where for raft in vessel.rafts)


def _told_by_another(space: Space) -> bool:
    """Whether `capsize.reached-on-the-roof` or `capsize.not-reached` speaks of it."""
    return space.level == UPPER or ROOF.search(space.name) is not None or space.stows == FOR_NOTHING


def _holds(space: Space, way: Space) -> bool:
    """Whether a way out leads out of a space: it is the same, or shares an area of one level with it."""
    along = min(space.fore_m, way.fore_m) - max(space.aft_m, way.aft_m)
    across = min(space.starboard_m, way.starboard_m) - max(space.port_m, way.port_m)
    return space is way or (
        along > 0 and across > 0 and space.level == way.level and space.paired == way.paired
    )


_BY_MORE = re.compile(
    r"\b(?:inflat\w+|air ?bags?|righting (?:bag|system|gear)|the bag|winch\w*|tackle|crane|another boat|towed|tow(?:line)?|self[- ]right\w*)\b",
    re.IGNORECASE,
)
"""Words for what turns her when people alone do not."""


@check("capsize.righted-too-heavy", LIFE, COMMON_PRACTICE)
def her_people_can_turn_her(sight: Sight) -> Finds:
    """A boat that her own people are said to turn upright is no heavier than a few people on her bottom can turn.

    Why: they hang on a line until they are spent, and let her drift while nobody calls; what comes up by the weight of her keel is not turned by hand.
    Remedy: try it with everybody in the water at the mooring; else write righted: no, and take 'righted-how' out.
    """
    one, told = sight.vessel.vessel, sight.vessel.capsize
    if one is None or told is None or told.righted is not True or not isinstance(one.displacement, Quantity):
        return
    each_kg, most_kg = (
        most(sight.vessel, name) for name in ("turned upright by one person", "turned upright")
    )
    people = max(len(sight.vessel.people), one.persons if isinstance(one.persons, int) else 1)
    can_kg = min(most_kg, each_kg * people)
    how = str(told.righted_how) if told.known("righted_how") else ""
    if one.displacement > can_kg and not _BY_MORE.search(how):
        comes_up = one.hull.has_rooms and not one.hull.multihull
        alone = "; a keel that brings her up does so without them" if comes_up else ""
        yield at(
            told,
            "righted",
            f"{'one person is' if people == 1 else f'{people} people are'} to turn {one.displacement} upright by hand{alone}",
            item="capsize",
            also=(one.place("displacement"),),
        )


_LIGHTS, _CALLS = "lights the way", "shows distress"


@check("capsize.under-water", LIFE, COMMON_PRACTICE, COMPOSITION)
def what_is_tied_in_to_serve_is_not_under_water(sight: Sight) -> Finds:
    """A knife, a light or a signal that is tied in so that it stays with a multihull is not kept on deck, away from what is reached when she lies upside down.

    Why: the deck and its lockers are under her then; whoever is caught in the net, or shut in the dark, has nothing to cut or see with.
    Remedy: tie it in at the way out that serves then, or where 'reached' has things, and write where; or take 'tied-in' out and tie in another there.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    if one is None or not one.hull.multihull or (vessel.capsize is None and not vessel.escape):
        return
    ways = [hatch for hatch in vessel.escape if hatch.serves_inverted is True]
    reached = [
        space for each in (*ways, *reached_inverted(vessel)) if (space := space_of(sight, each)) is not None
    ]
    for item in vessel.gear if reached else ():
        space = space_of(sight, item) if item.tied_in is True and _serves(item) else None
        if space is None or space.level == BELOW or space.unlike or space.own or _at_one_of(space, reached):
            continue
        yield of(
            item,
            "where",
            f"it is tied in, and kept in the {space.name}, which is under her when she lies upside down",
            also=(item.place("tied-in"),),
        )


def _serves(item: Gear) -> bool:
    """Whether a thing is one that people free, find or show themselves with."""
    return any(does(item, each) for each in (CUTS, _LIGHTS, _CALLS))


def _at_one_of(space: Space, reached: list[Space]) -> bool:
    return any(space is each or not beyond_reach(space, each) for each in reached if each.level != BELOW)


@check("capsize.not-in-it", LIFE, COMMON_PRACTICE, COMPOSITION)
def what_the_bag_is_said_to_hold_is_in_it(sight: Sight) -> Finds:
    """What a bag is said to hold, among what is reached when she lies upside down, is in that bag by its own entry.

    Why: whoever gets the bag out from under her finds in it neither flare nor light; they floated out of the locker beside it.
    Remedy: put it back and tie it in: spot: in the dry bag, tied-in: yes; or take it out of the bag's words under 'reached'.
    """
    for thing in reached_inverted(sight.vessel):
        lower = str(thing.what).lower()
        bag, here = THE_BAG.search(lower), space_of(sight, thing)
        _, held, contents = lower.partition(" with ")
        for name in re.split(r",\s*|\s+and\s+", contents) if held and bag is not None and here else ():
            word = re.sub(r"^(?:the|an?|our|some|two|three|its) ", "", name.strip()).rstrip("s")
            meant = [
                item
                for item in sight.vessel.gear
                if len(word) > MEANT and re.search(rf"\b{re.escape(word)}s?\b", str(item.what).lower())
            ]
            beside = [item for item in meant if space_of(sight, item) is here and item.known("spot")]
            if bag is not None and beside and not any(in_it(item.spot, bag[0]) for item in meant):
                yield at(
                    beside[0],
                    "spot",
                    f"{beside[0].what}: '{thing.what}' has it in the {bag[0]}, and by its entry it lies '{beside[0].spot}'",
                    item=str(beside[0].what),
                    also=(thing.place("what"),),
                )


@check("capsize.suits-under-water", HELP, COMMON_PRACTICE, COMPOSITION)
def suits_are_where_people_are_upside_down(sight: Sight) -> Finds:
    """The suits of a multihull that may lie upside down are kept inside her, or at the way out that serves then.

    Why: her deck and its lockers are under water, and people who sit on her bottom without suits live for hours, not for days.
    Remedy: stow them in the cabin by the way out that serves upside down, and write where.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    ways = [hatch for hatch in vessel.escape if hatch.serves_inverted is True]
    if one is None or not one.hull.multihull or not ways:
        return
    for item in vessel.gear:
        space = space_of(sight, item) if does(item, "suit against cold") else None
        if space is None or space.level == BELOW or space.inside or space.unlike or space.own:
            continue
        yield of(
            item,
            "where",
            f"kept in the {space.name}, under water when she lies upside down; the way out then is that of the {ways[0].where}",
            also=(ways[0].place("where"),),
        )
