"""Swapping in: one boat's folder is replaced as a whole, and a kill at any instant leaves the old one or the new one.

Guaranteed where the system can exchange two folders in one step (Linux, renameat2): the boat's folder is at every instant
the old one or the new one. Elsewhere two journalled renames are used: after a kill between them the folder may be absent
until the next run, which finishes the exchange (the new folder was already complete).
"""

from __future__ import annotations

import ctypes
import hashlib
import json
import os
from contextlib import suppress
from pathlib import Path, PurePosixPath
from typing import NamedTuple, Required, TypedDict

MANIFEST = "manifest.json"
_LEFT_BY_SYSTEMS = {".DS_Store", "Thumbs.db", "desktop.ini"}
_EXCHANGE, _HERE = 2, -100  # RENAME_EXCHANGE and AT_FDCWD of Linux


class Entry(TypedDict):
    """What a manifest says of a file: the output it belongs to, and its fingerprint."""

    output: str
    sha256: str


Manifest = TypedDict(
    "Manifest",
    {
        "program": str,
        "vessel": str,
        "surveyed-on": str,
        "good-until": str | None,
        "first-to-expire": str | None,
        "proof-copy": bool,
        "description": str,
        "files": Required[dict[str, Entry]],
    },
    total=False,
)
"""What stands in a published folder about the manual in it; its files are always listed, days are written YYYY-MM-DD."""


class Paths(NamedTuple):
    """A boat's folder, and what may lie beside it while it is replaced."""

    target: Path
    new: Path
    old: Path
    journal: Path


class Refused(Exception):
    """The folder holds something this program did not write; the message says what and what to do."""


def digest(data: bytes) -> str:
    """The fingerprint that the manifest keeps of a file."""
    return hashlib.sha256(data).hexdigest()


def manifest_of(folder: Path) -> Manifest | None:
    """The manifest of a published folder, None where there is none that can be read, or one not written by this program."""
    try:
        found: Manifest = json.loads((folder / MANIFEST).read_text(encoding="utf-8"))
        whole = isinstance(found["files"], dict) and all(
            isinstance(entry["sha256"], str) and isinstance(entry["output"], str)
            for entry in found["files"].values()
        )
    except (OSError, ValueError, TypeError, KeyError, AttributeError):
        return None
    return found if whole else None


def foreign_files(folder: Path) -> list[str]:
    """The files in a boat's folder that are not, or no longer, as this program wrote them."""
    manifest = manifest_of(folder)
    known = {name: entry["sha256"] for name, entry in manifest["files"].items()} if manifest else {}
    found = []
    for path in sorted(folder.rglob("*")):
        name = path.relative_to(folder).as_posix()
        if path.is_symlink():
            found.append(name)
        elif path.is_dir() or path.name in _LEFT_BY_SYSTEMS or (manifest and name == MANIFEST):
            continue
        elif name not in known or not path.is_file() or known[name] != digest(path.read_bytes()):
            found.append(name)
    return found


def refuse_foreign(folder: Path) -> None:
    """Raises Refused where `folder` exists and holds anything but what this program wrote."""
    if not folder.exists() and not folder.is_symlink():
        return
    if folder.is_symlink() or not folder.is_dir():
        raise Refused(f"{folder} is no plain folder; move it away or choose another one with --into")
    foreign = foreign_files(folder)
    if foreign:
        shown = ", ".join(foreign[:3]) + (f" and {len(foreign) - 3} more" if len(foreign) > 3 else "")
        raise Refused(
            f"{folder} holds files that musterbook did not write, or that were changed since: {shown}. "
            "Move them elsewhere, or choose another folder with --into; nothing was replaced"
        )


def recover(into: Path, slug: str) -> None:
    """Finishes or undoes what a killed run left behind. Raises Refused where somebody's own file lies in it."""
    target, new, old, journal = _paths(into, slug)
    if journal.exists():
        if not target.exists():
            whole = new if manifest_of(new) is not None else old
            if whole.exists():
                whole.rename(target)
                _flush(into)
        journal.unlink()
    for left in (new, old):
        if not left.exists():
            continue
        if left == new and manifest_of(left) is None:
            _remove_half_written(left)
        else:
            refuse_foreign(left)
            _remove_ours(left)


def swap_in(into: Path, slug: str, files: dict[str, bytes], manifest: Manifest) -> Path:
    """Writes `files` beside the boat's folder and exchanges the two; returns the folder.

    `manifest` holds the fingerprint of each file. Raises Refused; OSError where the disk refuses: nothing is replaced then,
    and what was written so far is taken away.
    """
    into.mkdir(parents=True, exist_ok=True)
    target, new, old, journal = paths = _paths(into, slug)
    recover(into, slug)
    refuse_foreign(target)
    try:
        _write(new, files, manifest)
        refuse_foreign(target)  # again: writing took a while
        _replace(paths)
    except (OSError, Refused):
        if not journal.exists():
            _clear(new)
        raise
    _clear(new)
    _clear(old)
    return target


def _replace(paths: Paths) -> None:
    """Puts `new` in the place of `target`; what was there is `new` afterwards, or `old` where no exchange is possible."""
    target, new, old, journal = paths
    if not target.exists():
        new.rename(target)
    elif not exchange(new, target):
        journal.write_text("a folder is being replaced; the next run finishes it\n", encoding="utf-8")
        _flush(journal)
        _flush(target.parent)
        target.rename(old)
        try:
            new.rename(target)
        except OSError:
            old.rename(target)
            journal.unlink()
            raise
        journal.unlink()
    _flush(target.parent)


def exchange(one: Path, other: Path) -> bool:
    """Exchanges two folders in one step; False where the system cannot."""
    try:
        call = ctypes.CDLL(None, use_errno=True).renameat2
    except (AttributeError, OSError, TypeError):
        return False
    refused: int = call(_HERE, os.fsencode(one), _HERE, os.fsencode(other), _EXCHANGE)
    return refused == 0


def _paths(into: Path, slug: str) -> Paths:
    return Paths(
        into / slug,
        into / f".{slug}.musterbook-new",
        into / f".{slug}.musterbook-old",
        into / f".{slug}.musterbook-journal",
    )


def _write(folder: Path, files: dict[str, bytes], manifest: Manifest) -> None:
    for name, data in sorted(files.items()):
        path = folder / PurePosixPath(name)
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)
        _flush(path)
    path = folder / MANIFEST
    path.write_text(
        json.dumps(manifest, indent=1, sort_keys=True, ensure_ascii=False) + "\n",
        encoding="utf-8",
        newline="\n",
    )
    _flush(path)
    for each in sorted({path.parent for path in folder.rglob("*")}, reverse=True):
        _flush(each)


def _flush(path: Path) -> None:
    """Forces a file, or on POSIX a folder, to the disk."""
    if path.is_dir():
        if os.name != "posix":
            return
        handle = os.open(path, os.O_RDONLY)
    else:
        handle = os.open(path, os.O_RDWR)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _remove_ours(folder: Path) -> None:
    """Removes what the manifest lists, the manifest last, and the folders that are then empty."""
    manifest = manifest_of(folder)
    listed = set(manifest["files"]) if manifest else set()
    for path in sorted(folder.rglob("*"), reverse=True):
        if path.is_dir() and not path.is_symlink():
            if not any(path.iterdir()):
                path.rmdir()
        elif path.relative_to(folder).as_posix() in listed or path.name in _LEFT_BY_SYSTEMS:
            path.unlink()
    if manifest:
        (folder / MANIFEST).unlink()
    if not any(folder.iterdir()):
        folder.rmdir()


def _clear(folder: Path) -> None:
    """Takes away what is no longer needed; where a file is held open the next run does it."""
    with suppress(OSError):
        if folder.exists():
            _remove_half_written(folder) if manifest_of(folder) is None else _remove_ours(folder)


def _remove_half_written(folder: Path) -> None:
    """Removes a folder that never became a manual; it bears our own hidden name, and nobody was told of it."""
    for path in sorted(folder.rglob("*"), reverse=True):
        if path.is_dir() and not path.is_symlink():
            path.rmdir()
        else:
            path.unlink()
    folder.rmdir()
