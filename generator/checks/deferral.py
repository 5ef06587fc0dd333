"""Deferred defects: what may be wrong with an entry. `survey/deferral.py` looks at them."""

from __future__ import annotations

from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    FORM,
    LIFE,
    TRUTH,
    describe,
)

describe(
    "deferral.unused",
    FORM,
    COMPOSITION,
    COMMON_PRACTICE,
    """Every deferred defect is still found.
    Why: an entry left behind would silently cover the next fault of the same kind.
    Remedy: delete the entry, or correct the item it names.""",
)


describe(
    "deferral.inexact",
    TRUTH,
    COMPOSITION,
    COMMON_PRACTICE,
    """Every deferral names one thing.
    Why: an entry that fits several things silently covers one that nobody has looked at.
    Remedy: write under 'item' the item or the key path that the message names, an entry for each thing.""",
)


describe(
    "deferral.expired",
    LIFE,
    COMPOSITION,
    COMMON_PRACTICE,
    """No deferral has run out, or ends before the day everything must last to.
    Why: it was to be mended by then; a deferral that renews itself is no decision.
    Remedy: mend it and delete the entry, or decide again and write a new 'until' with who and why.""",
)


describe(
    "deferral.not-allowed",
    LIFE,
    COMPOSITION,
    COMMON_PRACTICE,
    """Nothing is deferred that cannot be.
    Why: with these nobody may sail knowingly, or the manual would have a hole.
    Remedy: mend it and delete the entry.""",
)


describe(
    "deferral.unknown-check",
    TRUTH,
    COMPOSITION,
    COMMON_PRACTICE,
    """Every deferral names a check there is.
    Why: an entry for a misspelt check covers nothing.
    Remedy: write the id that stands in the finding, as 'musterbook why --all' lists it.""",
)
