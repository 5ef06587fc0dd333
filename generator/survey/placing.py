"""Where a thing is said to be, for the checks that ask whether it can serve there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.shelves.spaces import BELOW, FOR_NOTHING
from generator.survey.places import space_at
from generator.vessel.fittings import Located

if TYPE_CHECKING:
    from generator.manual.drawing.spaces import Space
    from generator.reading.block import Block
    from generator.reading.values import NotKnown
    from generator.survey.sight import Sight


def space_of(sight: Sight, thing: Block | NotKnown | None, key: str = "where") -> Space | None:
    """The space of a block with a place; None where it is not told, or she has none of that name."""
    where = thing.__dict__.get(key) if thing is not None and not isinstance(thing, str) else None
    return space_at(sight, where) if isinstance(where, str) else None


def side_of(thing: Block) -> str:
    """The side a thing is said to be on, "" where it is not told."""
    side = thing.__dict__.get("side")
    return side if isinstance(side, str) else ""


def no_hand_there(space: Space) -> str:
    """Why nothing for an emergency is kept in a space, as words after its name; "" where it may be."""
    if space.engine:
        return "where the engine burns first"
    if space.stows == FOR_NOTHING:
        return "where nobody gets at it"
    if space.mark:
        return "above the deck"
    if space.exposed and not space.stows:
        return "where the seas break"
    return ""


def nobody_stands_there(space: Space, *, roof: bool = False) -> str:
    """Why nobody can stand and work on deck in a space; "" where people can. `roof`: under a roof on deck will do."""
    if space.level == BELOW:
        return "which is below deck"
    if space.stows:
        return "in which nobody stands"
    if space.mark:
        return "above the deck"
    return "" if roof or not space.inside else "under a roof"


def apart_m(sight: Sight, one: Located | Block, other: Located | Block) -> float | None:
    """The gap between the spaces of two things, each on its side, in m; 0 where they touch, None where one is not told."""
    first, second = space_of(sight, one), space_of(sight, other)
    if first is None or second is None:
        return None
    along = max(first.aft_m - second.fore_m, second.aft_m - first.fore_m, 0.0)
    (port, starboard), (far_port, far_starboard) = first.half(side_of(one)), second.half(side_of(other))
    across = max(port - far_starboard, far_port - starboard, 0.0)
    return float((along**2 + across**2) ** 0.5)
