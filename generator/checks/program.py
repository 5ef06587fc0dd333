"""The program's own faults."""

from __future__ import annotations

from generator.survey.registry import INSPECTION, TRUTH, describe

_OWN = "this program's file format"


describe(
    "program.fault",
    TRUTH,
    INSPECTION,
    _OWN,
    """The program itself does its work.
    Why: nothing is published from work that broke off; the old manual stays.
    Remedy: set MUSTERBOOK_TRACE=1, publish again, and report what it prints.""",
)
