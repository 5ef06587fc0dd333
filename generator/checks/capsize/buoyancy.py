"""What carries her when she is full of water: where it is built in, and that nothing opens it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.manual.drawing.spaces import dimensions_m
from generator.reading.values import Band
from generator.shelves.gear_rows import FETCHED
from generator.shelves.procedure_files import GRAB_BAG
from generator.survey.places import space_at
from generator.survey.placing import lies
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    LIFE,
    TRUTH,
    Finds,
    Sight,
    at,
    check,
)
from generator.vessel.capsize import FLOATS, LEVEL
from generator.vessel.gear import does
from generator.vessel.installed import Engine, Stop, ThroughHull

if TYPE_CHECKING:
    from generator.manual.drawing.spaces import Space


@check("capsize.buoyancy", LIFE, COMMON_PRACTICE)
def a_boat_that_floats_full_has_buoyancy(sight: Sight) -> Finds:
    """A boat that sinks when she is full is not said to have buoyancy built in, without a word why.

    Why: one of the two is wrong, and people stay with her or leave her by it.
    Remedy: ask the builder; buoyancy that does not carry her is no buoyancy: take it out, or correct 'swamped'.
    """
    told = sight.vessel.capsize
    if told is None or not told.known("swamped") or told.swamped in FLOATS:
        return
    listed = next((item for item in sight.vessel.gear if does(item, "keeps her afloat")), None)
    place = told.place("buoyancy") if told.buoyancy else listed.place("what") if listed is not None else None
    if place is not None:
        message = "she is said to sink when full of water, and to have buoyancy built in"
        yield at(told, "swamped", message, item="capsize", also=(place,))


@check("capsize.buoyancy-pierced", LIFE, COMMON_PRACTICE, COMPOSITION)
def what_floats_her_is_closed(sight: Sight) -> Finds:
    """No tap, engine or hole is in a space whose buoyancy carries her when she is full.

    Why: a tank with a tap in it is no closed one: it fills, or was never there, and she goes down with those who hold on to her.
    Remedy: go and look what is in that space; correct where the tap is, or take the space out of 'buoyancy'.
    """
    told, vessel = sight.vessel.capsize, sight.vessel
    if told is None or not told.buoyancy:
        return
    spaces = [space for name in told.buoyancy if (space := space_at(sight, name)) is not None and space.stows]
    things: list[Stop | Engine | ThroughHull] = [*vessel.stops, *vessel.engines]
    for thing in (*things, *vessel.through_hulls):
        space = space_at(sight, thing.where)
        if space is not None and space in spaces and not space.unlike:
            yield at(
                thing,
                "where",
                f"the {thing.what or 'thing'}{' stop' if isinstance(thing, Stop) else ''} is in the {space.name}, whose buoyancy is to carry her",
                item=str(thing.what or thing.path),
                also=(told.place("buoyancy"),),
            )


@check("capsize.floats-by-nothing", LIFE, COMMON_PRACTICE)
def a_boat_that_floats_full_says_by_what(sight: Sight) -> Finds:
    """A boat that floats full of water is not said to have no buoyancy, while bags or foam are listed, she lies level or has a cabin; a decked one says by what.

    Why: people stay with her, and she goes down under them.
    Remedy: ask the builder; write under 'buoyancy' the spaces of tanks, bags and foam, or swamped: sinks; a hull of wood or foam that floats by
    itself defers this and says so.
    """
    told, one = sight.vessel.capsize, sight.vessel.vessel
    if told is None or one is None or told.swamped not in FLOATS:
        return
    if not told.says_none("buoyancy"):
        if not told.buoyancy and one.hull.has_rooms and not one.hull.multihull:
            message = f"she is said to float full of water ({told.swamped}), and nothing says by what: she has a cabin to fill, and one hull"
            yield at(told, "swamped", message, item="capsize")
        return
    listed = next((item for item in sight.vessel.gear if does(item, "keeps her afloat")), None)
    level = told.swamped == LEVEL
    if listed is not None or level or (one.hull.has_rooms and not one.hull.multihull):
        why = "nothing else keeps a boat level" if level else "she has a cabin to fill"
        why = f"the {listed.what} is in the gear list" if listed is not None else why
        yield at(
            told,
            "buoyancy",
            f"she is said to float full of water ({told.swamped}), and to have no buoyancy built in; {why}",
            item="capsize",
            also=(listed.place("what"),) if listed is not None else (),
        )


@check("capsize.stowed-in-buoyancy", LIFE, COMMON_PRACTICE, COMPOSITION)
def nothing_is_kept_in_the_buoyancy(sight: Sight) -> Finds:
    """Nothing that is wanted in an emergency is kept in a space that is said to be the buoyancy of an open boat.

    Why: whoever opens it to get the thing out lets the water in, and what kept her up is gone.
    Remedy: give the thing another place, or take the space out of 'buoyancy' if its hatch does not keep the water out.
    """
    told, one = sight.vessel.capsize, sight.vessel.vessel
    if told is None or one is None or not told.buoyancy or one.hull.has_rooms:
        return
    spaces = [
        space for name in told.buoyancy if (space := space_at(sight, name)) is not None and not space.unlike
    ]
    gear = [item for item in sight.vessel.gear if item.kind in FETCHED and not does(item, "keeps her afloat")]
    for item in (*gear, *sight.vessel.lifejackets, *sight.vessel.grab_bags):
        here = lies(sight, item)
        if here is not None and here.space in spaces:
            name = str(item.__dict__.get(type(item).called) or GRAB_BAG)
            yield at(
                item,
                "where",
                f"{name}: kept in the {here.space.name}, which is said to be her buoyancy",
                item=name,
                also=(told.place("buoyancy"),),
            )


@check("capsize.buoyancy-elsewhere", TRUTH, COMMON_PRACTICE, COMPOSITION)
def buoyancy_is_where_both_say(sight: Sight) -> Finds:
    """Tanks, bags and foam of the gear list lie in the spaces in which buoyancy is said to be built in, and none of these is open deck.

    Why: a tank that is looked after lets no water in; one that nobody knows of is left open, and she goes down by that end.
    Remedy: go and look; write the same spaces under 'buoyancy' and in the gear list.
    """
    told = sight.vessel.capsize
    if told is None or not told.buoyancy:
        yield from _afloat_in_the_open(sight)
        return
    spaces = [space_at(sight, name) for name in told.buoyancy]
    for number, space in enumerate(spaces):
        if space is not None and _holds_no_buoyancy(sight, space):
            where = "in the open" if space.open_deck or space.mark else "where people or engines are"
            yield at(
                told,
                f"buoyancy[{number}]",
                f"no buoyancy is built into the {space.name}, {where}",
                item="capsize",
            )
            return
    for item in sight.vessel.gear:
        here = space_at(sight, item.where) if does(item, "keeps her afloat") else None
        if here is not None and None not in spaces and here not in spaces:
            yield at(
                item,
                "where",
                f"{item.what}: it is in the {here.name}, and buoyancy is said to be in: {', '.join(told.buoyancy)}",
                item=str(item.what),
                also=(told.place("buoyancy"),),
            )


def _afloat_in_the_open(sight: Sight) -> Finds:
    """Tanks, bags or foam of the gear list that lie where none can be, of a boat that says no more of them."""
    for item in sight.vessel.gear:
        here = space_at(sight, item.where) if does(item, "keeps her afloat") else None
        if here is not None and _holds_no_buoyancy(sight, here):
            message = f"{item.what}: no buoyancy is built into the {here.name}"
            yield at(item, "where", message, item=str(item.what))


def _holds_no_buoyancy(sight: Sight, space: Space) -> bool:
    """Whether no buoyancy is built into a space: it is open deck and no hull of its own, or people cook, go below, or the engine stands there."""
    if space.own or space.unlike:
        return False
    one = sight.vessel.vessel
    if space.engine or space.cooking or space.mark:
        return True
    if one is not None and any(each.way_in is True and each.name == space.name for each in one.hull.spaces):
        return True
    return space.open_deck and not _outer_hull(sight, space)


def _outer_hull(sight: Sight, space: Space) -> bool:
    """Whether a space is on one of the outer hulls of a multihull alone: a float."""
    one = sight.vessel.vessel
    if one is None or not one.hull.multihull or not space.paired:
        return False
    half_beam_m = dimensions_m(sight.vessel)[1] / 2
    inner = [each.off[0] * half_beam_m for each in one.hull.bodies if isinstance(each.off, Band)]
    return bool(inner) and 0 < max(inner) <= space.inner_m + 0.01
