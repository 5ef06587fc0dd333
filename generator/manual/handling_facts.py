"""Facts of how she is handled: what drives and steers her, her anchors, where a towline goes.

Each is a name, what is so where it is true, and how that is seen; they join the facts of the vessel.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.manual.fitting_facts import driven
from generator.vessel.fittings import Located
from generator.vessel.gear import HOLDS

if TYPE_CHECKING:
    from collections.abc import Sequence

    from generator.manual.fitting_facts import True_
    from generator.vessel.gear import Gear
    from generator.vessel.vessel import Vessel

_TILTED = ("sterndrive", "outboard leg")
"""What is lifted out of the water by tilting it."""


def anchors(vessel: Vessel) -> Sequence[Gear]:
    """What holds her to the ground, in the order of the gear list."""
    return vessel.gear_that(HOLDS)


def told_of_anchors(vessel: Vessel, name: str) -> list[Gear]:
    """The anchors of which the file gives a value."""
    return [item for item in anchors(vessel) if item.known(name)]


def sailing(vessel: Vessel) -> bool:
    """Whether sails drive her: she has a rig, and is of no type that her engine alone drives."""
    one = vessel.vessel
    return one is not None and one.rig not in (None, "none") and one.hull.motor is not True


def drives_tilt(vessel: Vessel) -> bool:
    """Whether all that turns a propeller is tilted out of the water; as the file says of her engines, else by their kind."""
    found = driven(vessel)
    if found:
        return all(each.drive in _TILTED for each in found)
    return vessel.vessel is not None and vessel.vessel.engine == "outboard"


def _several_anchors(vessel: Vessel) -> bool:
    return sum(item.quantity if isinstance(item.quantity, int) else 1 for item in anchors(vessel)) > 1


def _tiller_told(vessel: Vessel) -> bool:
    return vessel.steering is not None and isinstance(vessel.steering.emergency_tiller, Located)


def _fit_told(vessel: Vessel) -> bool:
    return vessel.steering is not None and isinstance(vessel.steering.fits, Located)


HANDLING_FACTS: tuple[tuple[str, str, True_], ...] = (
    ("sailing", "Sails drive her: she has a rig, and is no type that her engine alone drives", sailing),
    (
        "outboard engine",
        "Her engine is an outboard",
        lambda vessel: vessel.vessel is not None and vessel.vessel.engine == "outboard",
    ),
    ("drives tilt", "All that turns a propeller is tilted out of the water", drives_tilt),
    ("emergency tiller told", "The file says where the emergency tiller is", _tiller_told),
    ("fit of the tiller told", "The file says where the emergency tiller fits", _fit_told),
    ("several anchors", "The gear list has more than one anchor", _several_anchors),
    (
        "anchor rode told",
        "The file says how much line and chain an anchor has",
        lambda vessel: bool(told_of_anchors(vessel, "rode")),
    ),
    (
        "letting the anchor go told",
        "The file says how an anchor is let go",
        lambda vessel: bool(told_of_anchors(vessel, "let_go")),
    ),
    (
        "slipping the anchor told",
        "The file says how an anchor is slipped",
        lambda vessel: bool(told_of_anchors(vessel, "slip")),
    ),
    (
        "tow point told",
        "The file says to what a towline is made fast",
        lambda vessel: vessel.vessel is not None and isinstance(vessel.vessel.tow_point, Located),
    ),
)
