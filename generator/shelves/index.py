"""The one list of all shelves: what stands in templates/ as data, read and found faulty all at once."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from generator.shelves.countables import COUNTABLES
from generator.shelves.deeds import DEEDS
from generator.shelves.gear_rows import GEAR
from generator.shelves.handling import HANDLING
from generator.shelves.identities import CALL_SIGNS, FORMS, MIDS
from generator.shelves.limits import LIMITS
from generator.shelves.lives import LIVES
from generator.shelves.packs import PACKS
from generator.shelves.procedures import PROCEDURES
from generator.shelves.rulesets import RULE_SETS
from generator.shelves.spaces import HULLS
from generator.shelves.stations import STATIONS
from generator.shelves.stowages import HOLDS, STOWAGES
from generator.shelves.trade import TRADE
from generator.shelves.words import WORDS

if TYPE_CHECKING:
    from generator.shelves.shelf import Shelf

SHELVES: tuple[Shelf[Any], ...] = (
    CALL_SIGNS,
    COUNTABLES,
    DEEDS,
    FORMS,
    GEAR,
    HANDLING,
    HOLDS,
    HULLS,
    LIMITS,
    LIVES,
    MIDS,
    PACKS,
    PROCEDURES,
    RULE_SETS,
    STATIONS,
    STOWAGES,
    TRADE,
    *WORDS,
)
