"""Steps: what the boat's own words make of them."""

from __future__ import annotations

from generator.survey.registry import COMPOSITION, RECOMMENDATION, describe

describe(
    "steps.too-long",
    RECOMMENDATION,
    COMPOSITION,
    "ASD-STE100 (at most 20 words an instruction, secondary)",
    """No step is too long.
    Why: a long place or name in the file makes a step that nobody takes in at one reading, wet and in the dark.
    Remedy: say the value in fewer words, as people aboard would call the place.""",
    deferrable=True,
)
