"""Outputs: what could not be written."""

from __future__ import annotations

from generator.survey.registry import INSPECTION, TRUTH, describe

_OWN = "this program's file format"


describe(
    "output.not-written",
    TRUTH,
    INSPECTION,
    _OWN,
    """What was published can be written.
    Why: a folder that holds other people's files, a full disk or a missing PDF engine stops it; the old manual stays.
    Remedy: do what the message says and publish again.""",
)
