"""What may bear one of our names without being ours, a tree outside that nothing may touch, and the proof that nothing was lost."""

from __future__ import annotations

import hashlib
import os
import socket
import stat
from pathlib import Path

from berths import OLD, put

NOBODY = 65534


def precious_tree(folder: Path) -> Path:
    """A folder outside: a whole manual with our names and the very bytes of the one to be removed, and a letter."""
    put(folder.parent, OLD, folder.name)
    (folder / "deep/down").mkdir(parents=True)
    (folder / "deep/down/letter.txt").write_bytes(b"precious letter")
    return folder


def tree_of(folder: Path) -> str:
    """The fingerprint of everything in a folder: names, kinds, bytes, numbers."""
    whole = hashlib.sha256()
    for path, at in sorted((path, path.lstat()) for path in [folder, *folder.rglob("*")]):
        whole.update(f"{path} {at.st_ino} {at.st_mode} {at.st_nlink} {_content(path, at)!r}\n".encode())
    return whole.hexdigest()


def _content(path: Path, at: os.stat_result):
    if stat.S_ISLNK(at.st_mode):
        return path.readlink()
    return path.read_bytes() if stat.S_ISREG(at.st_mode) else None


def _folder(path: Path) -> None:
    (path / "guest").mkdir(parents=True)
    for name in ("index.html", "guest/index.html", "manifest.json", "letter.txt"):
        (path / name).write_bytes(f"foreign {name}".encode())


def _other_user(path: Path) -> None:
    _folder(path)
    for each in [path, *path.rglob("*")]:
        os.chown(each, NOBODY, NOBODY)
    path.chmod(0o700)


def _read_only(path: Path) -> None:
    _folder(path)
    path.chmod(0o500)


def _socket(path: Path) -> None:
    here = Path.cwd()
    os.chdir(path.parent)  # the address of a socket is short
    try:
        with socket.socket(socket.AF_UNIX) as one:
            one.bind(path.name)
    finally:
        os.chdir(here)


KINDS = {
    "link to a folder": lambda path, precious: path.symlink_to(precious),
    "link to a file": lambda path, precious: path.symlink_to(precious / "guest/index.html"),
    "dangling link": lambda path, _: path.symlink_to(path.parent / "nowhere"),
    "link loop": lambda path, _: path.symlink_to(path.name),
    "folder": lambda path, _: _folder(path),
    "read-only folder": lambda path, _: _read_only(path),
    "file": lambda path, _: path.write_bytes(b"foreign file"),
    "hard link": lambda path, precious: os.link(precious / "deep/down/letter.txt", path),
    "pipe": lambda path, _: os.mkfifo(path),
    "socket": lambda path, _: _socket(path),
}
if hasattr(os, "geteuid") and os.geteuid() == 0:
    KINDS["another user's folder"] = lambda path, _: _other_user(path)


def nodes(path: Path) -> dict[int, tuple[int, object]]:
    """Everything at and below a path by its number: its kind, and its bytes or where it leads."""
    found = {}
    for each in [path, *(path.rglob("*") if not path.is_symlink() and path.is_dir() else ())]:
        at = each.lstat()
        found[at.st_ino] = (stat.S_IFMT(at.st_mode), _content(each, at))
    return found


def lost(before: dict[int, tuple[int, object]], into: Path) -> list[object]:
    """What of the foreign things is nowhere below a folder any more, or is not as it was."""
    now = nodes(into)
    return [each for number, each in before.items() if now.get(number) != each]
