"""Places aboard as checks of several families ask for them."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.manual.drawing.spaces import find_space

if TYPE_CHECKING:
    from generator.manual.drawing.spaces import Space
    from generator.reading.values import NotKnown
    from generator.survey.sight import Sight
    from generator.vessel.gear import Gear
    from generator.vessel.vessel import Vessel


def another_place(text: str, item: Gear) -> bool:
    """Whether words name another space, or the other side, than an item of the gear list says."""
    words = re.findall(r"[a-z]+", text.lower())
    if not isinstance(item.where, str) or not all(
        word in words for word in re.findall(r"[a-z]+", item.where.lower())
    ):
        return True
    other = {"port": "starboard", "starboard": "port"}.get(item.side or "")
    return other in words and item.side not in words


def space_at(sight: Sight, where: str | NotKnown | None) -> Space | None:
    """The space that a place begins with by name; None where she has none of that name."""
    return find_space(sight.spaces, where)[0] if isinstance(where, str) else None


def has_cabin(vessel: Vessel) -> bool:
    """Whether people sleep, cook or have an engine below: never in an open boat; where there is but a shelter, if somebody sleeps."""
    hull = vessel.vessel.hull if vessel.vessel is not None else None
    if hull is not None and not hull.has_rooms:
        return hull.closed_in and any(person.berth for person in vessel.people)
    return (
        any(person.berth for person in vessel.people)
        or bool(vessel.gas)
        or (vessel.vessel is not None and vessel.vessel.inboard_engine)
    )
