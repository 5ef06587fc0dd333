"""Where she is steered, for the checks of what whoever steers has in reach: the kill cord, its spare, the engine's stop."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.reading.nearest import folded
from generator.shelves.spaces import FOR_NOTHING
from generator.survey.placing import Lies, lies

if TYPE_CHECKING:
    from generator.manual.drawing.spaces import Space
    from generator.survey.sight import Sight
    from generator.vessel.installed import Stop

CORD_M = 2.0
"""How far from whoever steers the switch of a kill cord may be along the boat, and its spare. Common practice."""
_SIDES = frozenset(("port", "starboard"))
_AT_THE_CONTROLS = re.compile(
    r"\b(?:throttles?|controls?|control box|switch|console|tiller|wheel|steering|engines?|motor|outboard|powerhead|outside)\b|\bon the (?:lid|side|front|face|edge)\b",
    re.IGNORECASE,
)
"""Of a place in a locker: that it is at what drives her, or on the locker."""


def helms(sight: Sight) -> list[Lies]:
    """The places at which she is steered."""
    return [Lies(space) for space in sight.spaces.values() if space.steering]


def not_at_the_helm(sight: Sight, stop: Stop, space: Space) -> str:
    """Why a kill cord's place is not that of whoever steers, as a message; "" where it is, or where nobody can tell."""
    if space.own:
        return ""
    near = any(
        space.level == helm.space.level
        and max(space.aft_m - helm.space.fore_m, helm.space.aft_m - space.fore_m, 0.0) <= CORD_M
        for helm in helms(sight)
    )
    if not near or space.stows == FOR_NOTHING:
        return f"the {space.name} is not where she is steered"
    spot = stop.spot if isinstance(stop.spot, str) else ""
    if space.stows and "locker" in folded(str(stop.where)) and not _AT_THE_CONTROLS.search(spot):
        return f"it is kept in the {space.name}, and whoever steers wears it"
    one = sight.vessel.vessel
    steered, here = (lies(sight, one.helm) if one is not None else None), lies(sight, stop)
    if steered is None or here is None or space.steering:
        return ""
    if {steered.side, here.side} == _SIDES:
        return f"it is in the {space.name} to {here.side}, and she is steered to {steered.side}"
    return ""
