"""Removing: only what is ours ever goes, and what somebody else laid beside it stays, with the folder it lies in.

A work folder is ours by the mark that is the first thing written into it, a published one by its manifests. No link is
followed; a file goes only if a manifest of the folder names it and its bytes are those, a folder only if it is empty.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from contextlib import ExitStack, suppress
from dataclasses import dataclass

from generator.machine.folders import Folder, NoPlainFile, is_folder, shown
from generator.machine.manifests import (
    MANIFEST,
    MOST_BYTES,
    Cover,
    Found,
    Manifest,
    find,
    text_of,
    walk,
)

MARK = ".musterbook-work"
PART = ".musterbook-part-"
"""How the name of a file begins while it is being written, in a marked folder; what follows nobody can guess."""
_PART = re.compile(re.escape(PART) + "[0-9a-f]{16}")


def mark_of(name: str) -> bytes:
    """The words that stand in the mark of the work folder of that name."""
    return f"musterbook is writing into {ascii(name)[1:-1]}; when no publish is at work, this folder may go\n".encode()


def marked(folder: Folder, name: str) -> bool:
    """Whether a folder bears the mark of the work folder `name`; a run killed while writing the mark has written nothing else."""
    try:
        found = folder.read(MARK, 4096)
    except OSError:
        return False
    return found == mark_of(name) or (not found and folder.names() == [MARK])


@dataclass(frozen=True)
class Kept:
    """A folder or file that was not removed, and why; `ours` says that the folder is, and something strange lies in it."""

    name: str
    why: str
    ours: bool = False


def remove(into: Folder, name: str, owners: frozenset[int], heir: Folder | None = None) -> Kept | None:
    """Takes away a work folder, or a published one, of this program in the folder `into`; tells what was kept instead.

    `owners` are the users whose folders may be ours. What systems leave in folders moves to the same place in `heir`, the
    folder that stands in its stead. An error of the disk leaves the rest for the next run, and is told.
    """
    found = into.look(name)
    if found is None:
        return None
    if not is_folder(found):
        return Kept(name, "it is no folder of musterbook's")
    if found.st_uid not in owners:
        return Kept(name, "it belongs to another user")
    try:
        with into.inner(name) as folder:
            half, there = marked(folder, name), find(folder)
            strange = [
                each for each in there.strange if not (half and (each == MARK or _PART.fullmatch(each)))
            ]
            if strange and there.cover is None and not half:
                return Kept(name, "nothing in it proves that it is musterbook's")
            if strange:
                return Kept(name, f"it holds what musterbook did not write: {listed(strange)}", ours=True)
            if heir is not None:
                _hand_over(folder, heir, there)
            _empty(folder, name, there, half)
        if into.remove_empty(name):
            return None
    except OSError as error:
        return Kept(
            name,
            f"the disk refused: {error.strerror} ({shown(str(error.filename))}); the next publish tries again",
        )
    return Kept(name, "something was laid into it meanwhile", ours=True)


def listed(names: Sequence[str]) -> str:
    """The first names of a list as a message tells them, and how many more there are."""
    return ", ".join(map(shown, names[:3])) + (f" and {len(names) - 3} more" if len(names) > 3 else "")


def _empty(folder: Folder, name: str, there: Found, half: bool) -> None:
    """Removes what the manifests name, then each manifest, the cover after all readers, the mark last."""
    if half:
        for part in filter(_PART.fullmatch, folder.names()):
            folder.remove_plain(part)
    for reader, manifest in there.readers.items():
        with folder.inner(reader) as inner:
            _empty_reader(inner, manifest)
    for reader in there.cover["readers"] if there.cover is not None else ():
        if folder.look(reader) is not None:
            folder.remove_empty(reader)
    if there.cover is not None:
        _remove_manifest(folder, there.cover)
    if half:
        folder.remove(MARK, lambda found: found in (b"", mark_of(name)))


def _empty_reader(folder: Folder, manifest: Manifest) -> None:
    for path, inner, base in walk(folder):
        at = inner.look(base)
        if at is not None and is_folder(at):
            if any(each.startswith(f"{path}/") for each in manifest["files"]):
                inner.remove_empty(base)
        elif path in manifest["files"]:
            with suppress(NoPlainFile, FileNotFoundError):
                inner.remove_exactly(base, manifest["files"][path]["sha256"])
    _remove_manifest(folder, manifest)


def _remove_manifest(folder: Folder, said: Cover | Manifest) -> None:
    with suppress(NoPlainFile, FileNotFoundError):
        folder.remove(MANIFEST, text_of(said).__eq__, MOST_BYTES)


def _hand_over(folder: Folder, heir: Folder, there: Found) -> None:
    """Moves what systems left in a folder to the same place in its heir, or as near to it as there is room."""
    for path in there.left_by_systems:
        *above, base = path.split("/")
        for depth in range(len(above), -1, -1):
            with suppress(FileExistsError, FileNotFoundError, NotADirectoryError), ExitStack() as held:
                source, target = folder, heir
                for name in above:
                    source = held.enter_context(source.inner(name))
                for name in above[:depth]:
                    target = held.enter_context(target.inner(name))
                source.move(base, target, base)
                break
