"""The operator's mark: a picture beside the base file, published as photos are."""

from __future__ import annotations

import os
from pathlib import Path

from generator.machine.opening import Outside, resolved
from generator.machine.photos import prepared
from generator.vessel.confines import not_from_here
from generator.vessel.folders import FILE
from generator.vessel.vessel import Vessel

MARK_PX = 480  # the longer edge as published: 20 mm of paper at 600 points an inch


def _file(vessel: Vessel) -> tuple[Path, Path] | None:
    """The file of the mark and the folder that it must lie below; None where there is none. Raises Outside."""
    base, beside = vessel.charter_base, vessel.base_file
    if base is None or beside is None or not isinstance(base.mark, str):
        return None
    if not_from_here(base.mark):
        raise Outside
    path, folder = beside.parent / base.mark, beside.parent
    try:
        real = resolved(path)
    except OSError:  # a name that no disk could hold: told when it is opened
        return path, folder
    if folder not in real.parents:
        raise Outside
    between = real.parents[: real.parents.index(folder)]
    if any(os.path.lexists(each / FILE) for each in between):
        raise Outside
    return path, folder


def mark(vessel: Vessel) -> bytes | None:
    """The mark as it is published, a JPEG on white; None where there is none.

    It lies beside the base file or below, links followed, and in no boat's folder there: what is hers alone is no mark. Raises
    Unreadable, and Outside where it lies elsewhere.
    """
    found = _file(vessel)
    return prepared(found[0], (found[1],), MARK_PX) if found is not None else None
