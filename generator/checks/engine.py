"""Engines: each turns what its kind can turn, and stands where its kind can stand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.manual.drawing.spaces import dimensions_m
from generator.shelves.spaces import FOR_GEAR, FOR_NOTHING, UPPER
from generator.survey.places import space_at
from generator.survey.registry import COMMON_PRACTICE, HELP, TRUTH, Finds, Sight, check, of
from generator.vessel.particulars import INBOARD

if TYPE_CHECKING:
    from generator.manual.drawing.spaces import Space
    from generator.vessel.installed import Engine

BRACKET = 0.25
"""Of the length: no outboard hangs at a side further forward. Common practice."""
_LEG, _OUTBOARD = "outboard leg", "outboard"
_TURNED_BY_OUTBOARDS = (_LEG, "jet")


@check("engine.drive", TRUTH, COMMON_PRACTICE)
def an_engine_turns_what_its_kind_can(sight: Sight) -> Finds:
    """An outboard turns its own leg or a jet, and an inboard engine does not turn an outboard's leg.

    Why: steps against fire, flooding and for somebody in the water go by kind and drive.
    Remedy: go and look, and correct 'kind' or 'drive'.
    """
    for engine in sight.vessel.engines:
        if not isinstance(engine.kind, str) or not isinstance(engine.drive, str):
            continue
        wrong = (
            engine.drive not in _TURNED_BY_OUTBOARDS
            if engine.kind == _OUTBOARD
            else engine.kind in INBOARD and engine.drive == _LEG
        )
        if wrong:
            message = f"its kind is {engine.kind}, and it is said to turn: {engine.drive}"
            yield of(engine, "drive", message, also=(engine.place("kind"),))


@check("engine.place", TRUTH, COMMON_PRACTICE)
def an_engine_stands_where_its_kind_can(sight: Sight) -> Finds:
    """An outboard hangs aft, an inboard engine stands in the engine space, a locker, or what 'spot' says.

    Why: whoever is sent to stop it or to shut its fuel goes to the wrong end of the boat.
    Remedy: go and look, and correct 'where' or 'kind'; of an engine under a bunk or the steps say so in 'spot'.
    """
    for engine in sight.vessel.engines:
        space = space_at(sight, engine.where)
        if space is None:
            continue
        outboard = engine.kind == _OUTBOARD and (space.engine or _no_bracket(sight, space))
        if outboard or (engine.kind in INBOARD and _no_engine_space(space, isinstance(engine.spot, str))):
            message = f"its kind is {engine.kind}, and it is said to stand in the space '{space.name}'"
            yield of(engine, "where", message, also=(engine.place("kind"),))


def _no_bracket(sight: Sight, space: Space) -> bool:
    """Whether an outboard cannot hang in a space: forward, in a room, or where nothing is kept."""
    length_m = dimensions_m(sight.vessel)[0]
    along_her = space.paired and space.open_deck and space.aft_m > BRACKET * length_m and not space.own
    return (
        along_her
        or space.aft_m > length_m / 2
        or space.roofed
        or bool(space.mark)
        or space.stows == FOR_NOTHING
    )


def _no_engine_space(space: Space, boxed: bool) -> bool:
    """Whether an inboard engine cannot stand in a space; `boxed`: words say what shuts it in there, as under the steps."""
    if space.level == UPPER or space.exposed or space.mark:
        return True
    return not (space.engine or space.unlike or space.stows == FOR_GEAR or boxed)


@check("engine.two-fuels", HELP, COMMON_PRACTICE)
def inboard_engines_burn_one_fuel(sight: Sight) -> Finds:
    """Of several inboard engines none burns petrol while another burns diesel.

    Why: mostly one was changed and the other line left; fire, vapour and fuel are looked after by the kind.
    Remedy: go and look, and correct 'kind'; of two that really differ defer this and say so.
    """
    kinds: dict[str, Engine] = {}
    for engine in sight.vessel.engines:
        if engine.kind in INBOARD:
            kinds.setdefault(str(engine.kind), engine)
    if len(kinds) > 1:
        first, other = list(kinds.values())[:2]
        one = sight.vessel.vessel
        told = one is not None and other.kind == one.engine
        wrong, right = (first, other) if told else (other, first)
        message = f"its kind is {wrong.kind}, and that of the {right.what} is {right.kind}"
        yield of(wrong, "kind", message, also=(right.place("kind"),))


@check("engine.stop-of-none", HELP, COMMON_PRACTICE)
def a_fuel_stop_serves_what_burns_fuel(sight: Sight) -> Finds:
    """A fuel shut-off does not serve an electric motor.

    Why: whoever is sent to shut it finds nothing, or the tap of a tank that was taken out.
    Remedy: go and look: take the stop out, or correct 'serves', or the engine's 'kind'.
    """
    electric = {
        str(engine.what).lower(): engine for engine in sight.vessel.engines if engine.kind == "electric"
    }
    for stop in sight.vessel.stops:
        engine = electric.get(stop.serves.lower()) if isinstance(stop.serves, str) else None
        if stop.what == "fuel" and engine is not None:
            yield of(
                stop,
                "serves",
                f"it serves the {engine.what}, which is electric",
                also=(engine.place("kind"),),
            )
