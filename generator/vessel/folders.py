"""Which folders hold a vessel, and what stands in the way of the others: none below a folder that is named is passed over in silence."""

from __future__ import annotations

import errno
import os
import re
import stat
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from difflib import SequenceMatcher
from pathlib import Path

from generator.options import Misuse
from generator.reading.visible import visible
from generator.vessel.vessel import OWN_KEYS

FILE = "vessel.yaml"
BESIDE = ("voyage.yaml", "private.yaml")
_MOST_ENTRIES = (
    100_000  # of a folder without a vessel; more than that takes minutes from a disk on the network
)
_LOOKED_INTO_BYTES = 65_536
_YAML = re.compile(r"ya?ml")
_BARE_NAMES = {"vessel", "vessel.txt", "vessel.json", "vessels", "vessel.rtf", "vessel.doc", "vessel.docx"}
_ONE_BOAT_S = re.compile(rf"^({'|'.join(OWN_KEYS)})\s*:".encode(), re.MULTILINE)


class NoVessel(Misuse):
    """A path leads to no vessel file; the message says what was looked for."""


@dataclass(frozen=True)
class Boat:
    """A folder with a vessel file; `link` where it was come upon by a link, `named` where the command line names it."""

    folder: Path
    link: bool = False
    named: bool = False


@dataclass(frozen=True)
class LeftOut:
    """What holds a vessel, or may, and is not looked at: why, and what to do."""

    path: Path
    why: str
    remedy: str


@dataclass(frozen=True)
class Bare:
    """A folder in which nothing looks like a vessel's file."""

    path: Path


Found = Boat | LeftOut | Bare


def look_into(path: str) -> list[Found]:
    """What is found at a path: a vessel.yaml, a folder that holds one, or a folder of such folders. Raises NoVessel."""
    here = Path(path)
    if here.name == FILE and os.path.lexists(here) and not here.is_dir():
        return [Boat(here.parent, named=True)]
    try:
        kind = here.stat().st_mode
        held = _holds_vessel(here)
    except OSError as error:
        raise NoVessel(_not_there(path, here, error)) from None
    if not stat.S_ISDIR(kind):
        raise NoVessel(f"{visible(path)} is no vessel.yaml; name the vessel's folder or her vessel.yaml")
    if held:
        return [Boat(here, named=True), *_within(here)]
    found = list(_subfolders(path, here))
    if all(isinstance(each, Bare) for each in found):
        raise NoVessel(
            f"no vessel.yaml in {visible(path)} nor in a folder of it; start one with: musterbook commission NAME"
        )
    return found


def _not_there(path: str, here: Path, error: OSError) -> str:
    if isinstance(error, FileNotFoundError) and not here.is_symlink():
        return (
            f"there is no folder or file '{visible(path)}' here; name the vessel's folder, "
            "or start one with: musterbook commission NAME"
        )
    return f"{visible(path)} cannot be looked into: {why(error, here)}"


def why(error: OSError, path: Path) -> str:
    """What keeps a path from being read, in words."""
    if error.errno == errno.ELOOP:
        return "it is a link that leads in a circle"
    if isinstance(error, FileNotFoundError) and path.is_symlink():
        return "it is a link, and what it points to is not there"
    if isinstance(error, PermissionError):
        return "you may not read it"
    return error.strerror or str(error)


def _holds_vessel(folder: Path) -> bool:
    """Whether something of that name lies in a folder, whatever it is: reading it tells more. Raises OSError."""
    try:
        (folder / FILE).lstat()
    except (FileNotFoundError, NotADirectoryError):
        return False
    return True


def _subfolders(path: str, here: Path) -> Iterator[Found]:
    try:
        names = sorted(each.name for each in here.iterdir())
    except OSError as error:
        raise NoVessel(f"{visible(path)} cannot be looked into: {why(error, here)}") from None
    for near in _meant(here, names):
        yield LeftOut(here / near, "this is no vessel.yaml, and lies in no vessel's folder", _AS_IT_IS_CALLED)
    for name in names:
        yield from _subfolder(here / name)


def _subfolder(path: Path) -> Iterator[Found]:
    """What one entry of a folder of vessels is; nothing where it is a plain file."""
    link = path.is_symlink()
    try:
        if not stat.S_ISDIR(path.stat().st_mode):
            return
        if link and path.resolve() in (path.parent.resolve(), *path.parent.resolve().parents):
            yield LeftOut(path, "it is a link back to a folder that it lies in", "remove the link")
        elif _holds_vessel(path):
            hidden = path.name.startswith(".")
            yield LeftOut(path, *_HIDDEN) if hidden else Boat(path, link)
            yield from () if hidden else _within(path)
        else:
            yield _without_vessel(path)
    except OSError as error:
        yield LeftOut(path, why(error, path), "see that it can be read, or take it away from here")


_HIDDEN = (
    "its name begins with a dot, so it is passed over, and a vessel.yaml lies in it",
    "rename the folder if she is to be looked at, else take it away from here",
)
_AS_IT_IS_CALLED = "name it vessel.yaml, in the vessel's own folder; else take it away from here"


def _without_vessel(folder: Path) -> LeftOut | Bare:
    """A folder without vessel.yaml: what in it may be meant as one. Raises OSError."""
    names = sorted(each.name for each in folder.iterdir())
    if near := _meant(folder, names):
        return LeftOut(folder, f"no vessel.yaml lies in it, but {_in_a_row(near)}", _AS_IT_IS_CALLED)
    if alone := [name for name in names if name in BESIDE]:
        return LeftOut(
            folder,
            f"{_in_a_row(alone)} lies in it, and no vessel.yaml",
            "lay her vessel.yaml beside it, or take the folder away from here",
        )
    deeper: list[str] = []
    refused: list[str] = []
    for each in () if folder.name.startswith(".") else _deeper(folder, refused):
        if each is None:
            return LeftOut(
                folder,
                f"more than {_MOST_ENTRIES:,} files lie in it, too many to look through for vessels",
                "take it away from here",
            )
        deeper.append(each)
    if deeper:
        return LeftOut(
            folder,
            f"no vessel.yaml lies in it, but deeper down: {_in_a_row(deeper)}",
            f"name the folder itself ({visible(str((folder / deeper[0]).parent.parent))}), or move the vessel's up",
        )
    if refused:
        return LeftOut(
            folder,
            f"it cannot be looked through: {refused[0]}",
            "see that it can be read, or take it away from here",
        )
    return Bare(folder)


def _within(boat: Path) -> Iterator[LeftOut]:
    """Vessels that lie in the folder of another."""
    for each in _deeper(boat, []):
        if each is not None:
            yield LeftOut(
                (boat / each).parent,
                f"it lies in the folder of another vessel ({visible(str(boat))})",
                "name it by itself, or move it beside the other; an old copy belongs elsewhere",
            )


def _deeper(folder: Path, refused: list[str]) -> Iterator[str | None]:
    """The vessel files below the folders of a folder, seen from it; None at last where there is too much to look through."""
    seen = 0

    def told(error: OSError) -> None:
        at = Path(error.filename or folder)
        refused.append(f"{visible(at.name)}: {why(error, at)}")

    for top, folders, files in os.walk(folder, onerror=told):
        seen += len(folders) + len(files)
        if seen > _MOST_ENTRIES:
            yield None
            return
        folders.sort()
        inner = Path(top)
        if inner != folder and os.path.lexists(inner / FILE):
            yield (inner / FILE).relative_to(folder).as_posix()
        for name in folders:
            if (inner / name).is_symlink() and os.path.lexists(inner / name / FILE):
                yield (inner / name / FILE).relative_to(folder).as_posix()


def _meant(folder: Path, names: list[str]) -> list[str]:
    """The files of a folder without vessel.yaml that seem to be meant as one."""
    return [
        name
        for name in names
        if (_named_alike(name, folder.name) and not (folder / name).is_dir()) or _one_boat_s(folder / name)
    ]


def _named_alike(name: str, folder: str) -> bool:
    plain = unicodedata.normalize("NFKC", name).casefold()
    if plain in _BARE_NAMES:
        return True
    if not _YAML.search(plain):
        return False
    words = re.split(r"[^\w]+|_", plain)
    stem = plain.partition(".")[0]
    alike = any(SequenceMatcher(None, "vessel", word).ratio() >= 0.8 for word in words)
    return alike or (bool(stem) and stem == unicodedata.normalize("NFKC", folder).casefold())


def _one_boat_s(path: Path) -> bool:
    """Whether a YAML file says what only one boat's file can say, such as who checked her; a class file does not."""
    if not re.search(r"(?i)\.ya?ml$", path.name) or path.name in BESIDE:
        return False
    try:
        if not stat.S_ISREG(path.stat().st_mode):
            return False
        with path.open("rb") as file:
            return bool(_ONE_BOAT_S.search(file.read(_LOOKED_INTO_BYTES).replace(b"\0", b"")))
    except OSError:
        return True  # nobody knows what it says


def _in_a_row(names: list[str]) -> str:
    shown = ", ".join(visible(name) for name in names[:5])
    return shown + (f" and {len(names) - 5} more" if len(names) > 5 else "")
