"""What a vessel was described by: her files as they are."""

from __future__ import annotations

from collections.abc import Iterator

from generator.machine.opening import NotPlain, Outside, content
from generator.machine.photos import PAGE_PX, Unreadable
from generator.reading.tree import SIZE_LIMIT_BYTES
from generator.vessel.photographed import photo, photographed
from generator.vessel.vessel import Vessel

OWN_FILES = ("vessel.yaml", "voyage.yaml", "private.yaml")


def contents(vessel: Vessel) -> Iterator[tuple[str, bytes]]:
    """The files she was described by, each by its name and with what it holds; b"" where there is none, or none that is taken.

    What is not taken (a file outside, one that is no picture) is not looked into here either.
    """
    folder, within = vessel.folder, vessel.confines
    if folder is None or within is None:
        return
    named = [(name, folder / name) for name in OWN_FILES]
    if vessel.class_file is not None:
        named.append((str(vessel.based_on), vessel.class_file))
    for name, path in named:
        try:
            yield name, content(path, within.bounds, SIZE_LIMIT_BYTES)
        except (Outside, NotPlain, OSError):
            yield name, b""
    for name, each in sorted({str(each.photo): each for each in photographed(vessel)}.items()):
        try:
            yield name, photo(vessel, each, PAGE_PX) or b""
        except (Outside, Unreadable):
            yield name, b""
