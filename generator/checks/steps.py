"""Steps that composing finds incomplete or too long."""

from __future__ import annotations

from generator.survey.registry import COMPOSITION, FORM, LIFE, describe

_OWN = "this program's file format"


describe(
    "steps.gap",
    LIFE,
    "composition",
    _OWN,
    """No step has a gap.
    Why: a step must name this boat's own place, side and gear; a gap stops the reader at the worst moment.
    Remedy: write the key named in the message.""",
)


describe(
    "steps.too-long",
    FORM,
    COMPOSITION,
    "ASD-STE100 (at most 20 words an instruction, secondary)",
    """No step is too long.
    Why: a long place or name in the file makes a step that nobody takes in at one reading, wet and in the dark; what stands in brackets or behind
    a colon is read by itself.
    Remedy: say the value named in fewer words, as people aboard would call the place.""",
    deferrable=True,
)
