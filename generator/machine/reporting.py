"""Where a report may be written: neither into a pipe that nobody reads nor over what a published folder holds."""

import os
from pathlib import Path

from generator.machine.folders import Folder
from generator.machine.manifests import cover_of, manifest_of

_DEEPEST = 3  # a font lies in its folder, in the reader's, in the boat's


def unfit(path: Path) -> str:
    """Why no report is written there, in words; "" where one may be."""
    if path.is_fifo():
        return "this is a pipe"
    for above in Path(os.path.realpath(path)).parents[:_DEEPEST]:
        try:
            with Folder.at(above) as folder:
                if cover_of(folder) or manifest_of(folder):
                    return f"{above} is a published folder, which would no longer be whole"
        except OSError:
            continue
    return ""
