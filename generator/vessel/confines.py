"""Where the files of one boat may lie: under the folder that hers lies in."""

from __future__ import annotations

import os
import re
from dataclasses import dataclass
from pathlib import Path

from generator.machine.opening import Bounds, resolved

_DRIVE = re.compile("[A-Za-z]:")


@dataclass(frozen=True)
class Confines:
    """Her folder and the one it lies in, `root`, links resolved; `shown` and `root_shown` are what findings call them.

    It is the same whether her folder or the one of all boats is named on the command line. A boat that lies at the top of
    the disk has her own folder alone: else everything would be in it.
    """

    folder: Path
    root: Path
    shown: str
    root_shown: str

    @property
    def bounds(self) -> Bounds:
        """Where her own files, and her class file, may lie."""
        return (self.root,)


def confines_of(folder: Path, shown: str) -> Confines:
    """The confines of the boat in a folder that findings call `shown`."""
    real = resolved(folder)
    root = real.parent if folder.name in ("", "..") else resolved(folder.parent)
    if root == root.parent:
        return Confines(real, real, shown or ".", shown or ".")
    return Confines(real, root, shown or ".", joined(shown, ".."))


def joined(shown: str, name: str) -> str:
    """A file's name as findings print it, seen from a folder that they call `shown`; with / on every system."""
    return os.path.normpath(Path(shown, name)).replace(os.sep, "/")


def not_from_here(named: str) -> str:
    """Why a path in a vessel file is none that is seen from her folder; "" where it is one."""
    if "\\" in named:
        return "is written with \\, which only some systems read"
    if named.startswith("/") or _DRIVE.match(named):
        return "starts at the top of the disk"
    return ""
