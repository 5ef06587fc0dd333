"""The one list of all shelves: what stands in templates/ as data, read and found faulty all at once."""

from __future__ import annotations

from typing import Any

from generator.shelves.countables import COUNTABLES
from generator.shelves.gear import GEAR
from generator.shelves.identities import CALL_SIGNS, FORMS, MIDS
from generator.shelves.limits import LIMITS
from generator.shelves.lives import LIVES
from generator.shelves.packs import PACKS
from generator.shelves.rulesets import RULE_SETS
from generator.shelves.shelf import Shelf
from generator.shelves.spaces import HULLS

SHELVES: tuple[Shelf[Any], ...] = (
    CALL_SIGNS,
    COUNTABLES,
    FORMS,
    GEAR,
    HULLS,
    LIMITS,
    LIVES,
    MIDS,
    PACKS,
    RULE_SETS,
)
