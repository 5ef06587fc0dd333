"""The fleet: folders beside those of the vessels."""

from __future__ import annotations

from generator.survey.registry import INSPECTION, NOTICE, TRUTH, describe

_OWN = "this program's file format"


describe(
    "fleet.left-out",
    TRUTH,
    INSPECTION,
    _OWN,
    """Every vessel of the folder is looked at.
    Why: a boat that is passed over in silence sails with the manual of last year, or with none.
    Remedy: do what the message says: rename the file or folder, see that it can be read, or take it away from there.""",
)


describe(
    "fleet.no-vessel",
    NOTICE,
    INSPECTION,
    _OWN,
    """Each folder beside the vessels' holds what it is meant to hold.
    Why: a folder whose vessel.yaml was lost looks like any other folder.
    Remedy: nothing, where none is meant to lie there.""",
)
