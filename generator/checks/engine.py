"""Engines: each turns what its kind can turn, and stands where its kind can stand."""

from __future__ import annotations

from generator.shelves.spaces import UPPER
from generator.survey.places import space_at
from generator.survey.registry import COMMON_PRACTICE, TRUTH, Finds, Sight, check, of
from generator.vessel.particulars import INBOARD

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
    """No outboard stands in the engine space, and no inboard engine above the deck or where the seas break.

    Why: whoever is sent to stop it or to shut its fuel goes to the wrong end of the boat.
    Remedy: go and look, and correct 'where' or 'kind'.
    """
    for engine in sight.vessel.engines:
        space = space_at(sight, engine.where)
        if space is None:
            continue
        outboard = engine.kind == _OUTBOARD and space.engine
        if outboard or (engine.kind in INBOARD and (space.level == UPPER or space.exposed)):
            message = f"its kind is {engine.kind}, and it is said to stand in the space '{space.name}'"
            yield of(engine, "where", message, also=(engine.place("kind"),))
