"""Lithium cells aboard: the banks, and what the gear list has of them by its name."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.survey.placing import lies

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.survey.placing import Lies
    from generator.survey.sight import Sight
    from generator.vessel.gear import Gear
    from generator.vessel.installed import Battery

_CELLS = re.compile(
    r"\b(?:lithium|li-?ion|lifepo4)\b.*\b(?:batter(?:y|ies)|packs?|cells|accumulators?|banks?)\b|\b(?:batter(?:y|ies)|packs?|cells|accumulators?|banks?)\b.*\b(?:lithium|li-?ion|lifepo4)\b"
    r"|\b(?:batter(?:y|ies)|battery pack) (?:of|for) (?:the |an? )?(?:electric outboard|e-?bikes?|e-?foil|scooter)\b"
    r"|\b(?:e-?bikes?|e-?scooters?|electric (?:bicycles?|bikes?|scooters?|surf ?boards?)|e-?foils?|sea ?scooters?|underwater scooters?)\b",
    re.IGNORECASE,
)
_SMALL = re.compile(
    r"\b(?:torch(?:es)?|lamps?|lights?|head ?torch(?:es)?|radio|vhf|handhelds?|epirb|plb|beacon|aa|aaa|button|camera|drill|clock|alarms?|detectors?|without (?:its |their )?batter(?:y|ies))\b",
    re.IGNORECASE,
)
"""Of what has a cell or two, whose smoke fills no cabin."""


def lithium(sight: Sight) -> Iterator[tuple[str, Battery | Gear, Lies]]:
    """What has lithium cells enough to fill a cabin with smoke: what it is called, its block, where it is; nothing of which that is not told."""
    for bank in sight.vessel.batteries:
        here = lies(sight, bank)
        if bank.chemistry == "lithium" and here is not None:
            yield f"{bank.what} batteries (lithium)", bank, here
    for item in sight.vessel.gear:
        what = item.what if isinstance(item.what, str) else ""
        if _CELLS.search(what) and not _SMALL.search(what) and (here := lies(sight, item)) is not None:
            yield what, item, here
