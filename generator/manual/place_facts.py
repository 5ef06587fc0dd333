"""Facts of where things and people are aboard: whether they muster inside, and where somebody in the water is brought in.

Each is a name, what is so where it is true, and how that is seen with her spaces; they join the facts of the vessel.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.manual.drawing.spaces import dimensions_m, find_space
from generator.shelves.gear import kind_of
from generator.vessel.gear import LIFTS

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from generator.manual.drawing.spaces import Space
    from generator.reading.values import NotKnown
    from generator.vessel.vessel import Vessel

    Placed_ = Callable[[Vessel, Mapping[str, Space]], bool]

THE_STERN, THE_SIDE = 0.13, 0.2
"""As parts of her length from the transom: what ends behind the first is at the stern, what begins before the second at the side."""


def _space(spaces: Mapping[str, Space], where: str | NotKnown | None) -> Space | None:
    return find_space(spaces, where)[0] if isinstance(where, str) else None


def _musters_inside(vessel: Vessel, spaces: Mapping[str, Space]) -> bool:
    space = _space(spaces, vessel.vessel.muster_place) if vessel.vessel is not None else None
    return space is not None and space.roofed


def _ladder(vessel: Vessel, spaces: Mapping[str, Space]) -> Space | None:
    recovery = vessel.recovery
    return _space(spaces, recovery.ladder.where) if recovery is not None and recovery.ladder else None


def _ladder_at_the_side(vessel: Vessel, spaces: Mapping[str, Space]) -> bool:
    space = _ladder(vessel, spaces)
    return space is not None and space.aft_m >= THE_SIDE * dimensions_m(vessel)[0]


def _brought_in_over_the_stern(vessel: Vessel, spaces: Mapping[str, Space]) -> bool:
    """Whether the gate that is opened for it, or else those who hoist, are at the stern."""
    recovery = vessel.recovery
    if recovery is None:
        return False
    space = _space(spaces, recovery.gate.where if recovery.gate else recovery.place_)
    return space is not None and space.fore_m <= THE_STERN * dimensions_m(vessel)[0]


def _side_told(vessel: Vessel, _: Mapping[str, Space]) -> bool:
    return vessel.recovery is not None and vessel.recovery.side in ("port", "starboard")


def _lifted_in_a_net(vessel: Vessel, _: Mapping[str, Space]) -> bool:
    hoist = vessel.recovery.hoist if vessel.recovery is not None else None
    kind = kind_of(hoist.what) if hoist else None
    return kind is not None and LIFTS in kind.properties


PLACE_FACTS: tuple[tuple[str, str, Placed_], ...] = (
    ("muster inside", "The muster place is inside her: below, or under a roof", _musters_inside),
    ("ladder at the side", "The ladder hangs at her side, away from the stern", _ladder_at_the_side),
    (
        "brought in over the stern",
        "Whoever is in the water is brought in at the stern, as the gate or the place of those who hoist tells",
        _brought_in_over_the_stern,
    ),
    (
        "recovery side told",
        "The file says to which side whoever is in the water is brought in: port or starboard",
        _side_told,
    ),
    ("lifted in a net", "What lifts somebody aboard is a net, by its name", _lifted_in_a_net),
)
