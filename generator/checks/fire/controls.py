"""What is worked against a fire from outside the space that burns, and which engine or space each stop serves."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.manual.drawing.spaces import find_space
from generator.manual.extinguishing import FLOODS, flooding, served_by
from generator.reading.nearest import folded, nearest
from generator.reading.values import untold
from generator.survey.places import space_at
from generator.survey.registry import (
    COMMON_PRACTICE,
    HELP,
    LIFE,
    TRUTH,
    Finds,
    Sight,
    at,
    check,
    of,
)
from generator.vessel.gear import does

if TYPE_CHECKING:
    from generator.manual.drawing.spaces import Space
    from generator.reading.values import NotKnown
    from generator.vessel.fittings import Located
    from generator.vessel.gear import Gear
    from generator.vessel.installed import Engine

_OF_ENGINES = ("engine", "fuel", "kill cord")
_ALL = frozenset({"all", "both", "all engines", "both engines", "every engine"})
_OTHER_MACHINES = frozenset({"generator", "heater", "cooker"})
"""What burns fuel or gas aboard and is no engine of the list."""


@check("fire.released-inside", LIFE, COMMON_PRACTICE)
def what_floods_a_space_is_released_outside_it(sight: Sight) -> Finds:
    """A fixed extinguisher is released, and a fire port is reached, from outside the space that burns.

    Why: the step sends somebody into the fire, and into the gas that puts it out.
    Remedy: go and look where the pull or the hole is, and write that space: released-from: {where: wheelhouse};
    fire-port-place: {where: companionway}.
    """
    for item in (each for each in sight.vessel.gear if each.released_from or does(each, FLOODS)):
        burns = _flooded(sight, item)
        if burns is None:
            continue
        if item.released_from:
            if _lies_in(sight, item.released_from, burns):
                message = f"it is released from the {burns.name}, the space that it floods"
                yield of(item, "where", message, part=item.released_from)
        elif space_at(sight, item.where) is burns:
            yield of(
                item,
                "where",
                f"it is in the {burns.name}, which it floods, and nothing says from where it is released",
                remedy="write released-from, with the space outside it that the pull or button is in",
            )
    one = sight.vessel.vessel
    if one and one.fire_port is not False and one.fire_port_place:
        for space in sight.spaces.values():
            if space.engine and _lies_in(sight, one.fire_port_place, space):
                message = f"the fire port is said to be in the {space.name}, which is kept shut"
                yield at(one.fire_port_place, "where", message, item="fire port")


@check("fire.floods-elsewhere", TRUTH, COMMON_PRACTICE)
def a_fixed_extinguisher_is_for_where_it_lies(sight: Sight) -> Finds:
    """A fixed extinguisher in the engine space is not said to be for another space.

    Why: the steps release it when engine, fuel and air of the engine space are shut.
    Remedy: go and look which space its nozzles are in, and correct 'for' or 'where'.
    """
    for item in flooding(sight.vessel):
        own, meant = space_at(sight, item.where), _named(sight, item.for_)
        if own is not None and own.engine and meant is not None and meant is not own:
            message = f"it is in the {own.name}, and is said to be for the {meant.name}"
            yield of(item, "for", message, also=(item.place("where"),))


@check("fire.handles-alike", LIFE, COMMON_PRACTICE)
def the_handles_of_fixed_extinguishers_are_told_apart(sight: Sight) -> Finds:
    """Of several fixed extinguishers each says what it is for.

    Why: the step tells whoever stands before two handles which one is for the space that burns; the other floods a space with people in it.
    Remedy: follow the pipes and write it of each: for: port engine space.
    """
    found = flooding(sight.vessel)
    for item in found if len(found) > 1 else ():
        if not served_by(item):
            yield of(
                item,
                "for",
                f"there are {len(found)} fixed extinguishers, and nothing says what this one is for",
            )


@check("fire.agent-not-said", HELP, COMMON_PRACTICE)
def it_is_said_what_a_fixed_extinguisher_sends_out(sight: Sight) -> Finds:
    """A fixed extinguisher says what it sends out.

    Why: CO2 at the strength that puts out a fire kills whoever is in the space, and the step says so only where that is known.
    Remedy: read it on the bottle and write agent: CO2, clean agent, powder, foam, aerosol or water mist.
    """
    for item in flooding(sight.vessel):
        if untold(item.agent):
            yield of(item, "agent", "'agent' does not say what it sends out")


@check("fire.port-contradicted", TRUTH, COMMON_PRACTICE)
def a_fire_port_with_a_place_is_there(sight: Sight) -> Finds:
    """Where it is said where the fire port is, it is said too that there is one.

    Why: without it no step prints the hole, and a hatch is opened on the fire.
    Remedy: go and look; write fire-port: yes where there is one, else take 'fire-port-place' out.
    """
    one = sight.vessel.vessel
    if one and one.fire_port_place and one.fire_port is not True:
        said = "'fire-port' says no" if one.fire_port is False else "nothing says that there is one"
        yield at(one, "fire-port", f"it says where the fire port is, and {said}", item="fire port")


@check("fire.engine-without-stop", LIFE, COMMON_PRACTICE)
def every_engine_is_stopped(sight: Sight) -> Finds:
    """Each of several engines has a stop.

    Why: a running engine sucks the extinguisher's gas out of its space and feeds the fire with fuel.
    Remedy: describe its stop under 'stops' with what: engine and serves: the name of the engine; one that stops all serves none.
    """
    for engine in unserved(sight, "engine"):
        yield of(engine, "what", "no stop serves it")


@check("fire.engine-without-fuel-stop", LIFE, COMMON_PRACTICE)
def fuel_is_shut_to_every_engine(sight: Sight) -> Finds:
    """Where fuel is shut for one engine, it is shut for each of them.

    Why: the step says "shut the fuel" and names one tap; the other engine goes on feeding the fire.
    Remedy: describe its tap under 'stops' with what: fuel and serves: the name of the engine; one that shuts all serves none.
    """
    if any(stop.what == "fuel" for stop in sight.vessel.stops):
        for engine in unserved(sight, "fuel"):
            if engine.kind != "electric":
                yield of(engine, "what", "no fuel shut-off serves it, and another engine has one")


@check("fire.serves-nothing", TRUTH, COMMON_PRACTICE)
def stops_serve_what_is_aboard(sight: Sight) -> Finds:
    """What a stop of an engine, of fuel or of ventilation serves is an engine or a space she has.

    Why: whoever pulls it believes that one engine to be stopped which there is not, and looks no further.
    Remedy: write the name under 'engines', or that of a space; one that serves all has no 'serves'.
    """
    vessel = sight.vessel
    names = [str(each.what) for each in vessel.engines if isinstance(each.what, str)]
    known = {_bare(name) for name in names} | _ALL | _OTHER_MACHINES
    known |= {"engine"} if len(names) < 2 else set()
    for stop in vessel.stops:
        if not isinstance(stop.serves, str) or stop.what not in (*_OF_ENGINES, "ventilation"):
            continue
        for each in _parts(stop.serves):
            if each not in known and find_space(sight.spaces, each)[0] is None:
                yield at(
                    stop,
                    "serves",
                    f"the {stop.what} stop serves '{each}', and she has no engine or space of that name",
                    remedy=nearest(each, names),
                    item=f"{stop.what}, {stop.serves}",
                )


def _flooded(sight: Sight, item: Gear) -> Space | None:
    """The space that a fixed extinguisher floods, as 'for' or its name says, or else the engine space that it is in."""
    own = space_at(sight, item.where)
    named = _named(sight, item.for_) or _named(sight, str(item.what or "").partition(",")[2])
    return named or (own if own is not None and own.engine else None)


def _named(sight: Sight, text: str | NotKnown | None) -> Space | None:
    """The space that words name, whatever article stands before it."""
    return find_space(sight.spaces, _bare(text))[0] if isinstance(text, str) else None


def _lies_in(sight: Sight, thing: Located, space: Space) -> bool:
    """Whether something is in a space: as 'where' says, or else as its spot does."""
    if isinstance(thing.where, str):
        return space_at(sight, thing.where) is space
    words = folded(str(thing.spot or ""))
    return any(re.match(rf"(?:in|inside) (?:the )?{re.escape(name)}\b", words) for name in _names(space))


def _names(space: Space) -> list[str]:
    return [folded(name) for name in (space.name, *space.also)]


def _bare(text: str) -> str:
    """A name without what stands before it: the, for the."""
    return re.sub(r"^(?:for )?(?:the )?", "", folded(text))


def _parts(serves: str) -> list[str]:
    """Each thing that one stop is said to serve."""
    return [_bare(each) for each in re.split(r",\s*|\s+and\s+", serves) if each.strip()]


def unserved(sight: Sight, what: str) -> list[Engine]:
    """The engines that no stop of a kind serves, by their name or by the space they are in; none where one serves all."""
    stops = [stop for stop in sight.vessel.stops if stop.what == what]
    served = [each for stop in stops if isinstance(stop.serves, str) for each in _parts(stop.serves)]
    if any(untold(stop.serves) for stop in stops) or _ALL.intersection(served):
        return []
    return [
        engine
        for engine in sight.vessel.engines
        if isinstance(engine.what, str)
        and _bare(engine.what) not in served
        and not any(_holds(sight, each, engine) for each in served)
    ]


def _holds(sight: Sight, name: str, engine: Engine) -> bool:
    """Whether a name is that of the space that an engine is in, on its side where the name says one."""
    space, side = find_space(sight.spaces, name)
    return (
        space is not None and space is space_at(sight, engine.where) and side in ("", str(engine.side or ""))
    )
