"""The one list of all shelves: what stands in templates/ as data, read and found faulty all at once."""

from __future__ import annotations

from typing import Any

from generator.shelves.procedures import PROCEDURES
from generator.shelves.shelf import Shelf
from generator.shelves.stations import STATIONS
from generator.shelves.stowages import HOLDS, STOWAGES

SHELVES: tuple[Shelf[Any], ...] = (
    HOLDS,
    PROCEDURES,
    STATIONS,
    STOWAGES,
)
