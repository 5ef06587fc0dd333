"""Battery banks: fastened and fused."""

from __future__ import annotations

import re

from generator.survey.registry import COMMON_PRACTICE, LIFE, Finds, Sight, check, of

_LOOSE = re.compile(
    r"\b(?:loose|unsecured|not (?:secured|strapped|fastened|lashed|fused)|without (?:a )?(?:fuse|straps?|box)|unfused|no fuse|stands? free)\b",
    re.IGNORECASE,
)


@check("batteries.loose", LIFE, COMMON_PRACTICE)
def batteries_are_fastened_and_fused(sight: Sight) -> Finds:
    """No bank is said to stand loose, or without a fuse.

    Why: one that slides shorts its own terminals when she is knocked down, and without a fuse nothing ends the fire of its cables.
    Remedy: strap it down, fuse it at its positive terminal, and write that: spot: strapped down under the seat.
    """
    for bank in sight.vessel.batteries:
        told = _LOOSE.search(f"{bank.what or ''}; {bank.spot or ''}")
        if told is not None:
            yield of(bank, "spot" if bank.spot else "what", f"it is said to be '{told[0].lower()}'")
