"""The one list of all shelves: what stands in templates/ as data, read and found faulty all at once."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from generator.shelves.gear import GEAR
from generator.shelves.limits import LIMITS
from generator.shelves.lives import LIVES
from generator.shelves.procedures import PROCEDURES
from generator.shelves.stations import STATIONS
from generator.shelves.stowages import HOLDS, STOWAGES

if TYPE_CHECKING:
    from generator.shelves.shelf import Shelf

SHELVES: tuple[Shelf[Any], ...] = (
    GEAR,
    HOLDS,
    LIMITS,
    LIVES,
    PROCEDURES,
    STATIONS,
    STOWAGES,
)
