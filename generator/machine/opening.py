"""Opening what others name: plain files alone, below agreed folders, by descriptor, so that no pipe is waited for and no link leads out.

A path is resolved first; then each folder on the way is opened from the one before it without following links, so that what
is swapped meanwhile is refused, not read. A second name of a file outside (a hard link) cannot be told from a file inside.
"""

from __future__ import annotations

import errno
import os
import stat
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from typing import BinaryIO

Bounds = tuple[Path, ...]
"""Folders, their links resolved, below one of which a file must lie."""

_READ = os.O_RDONLY | getattr(os, "O_CLOEXEC", 0) | getattr(os, "O_BINARY", 0)
_NOT_WAITING = getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_NOCTTY", 0)
_NO_LINK = getattr(os, "O_NOFOLLOW", 0)
# O_PATH asks for no right to list the folder; whoever may pass through it may read what lies in it.
_PASS = _READ | _NO_LINK | getattr(os, "O_DIRECTORY", 0) | getattr(os, "O_PATH", 0)
_STEP_BY_STEP = os.open in os.supports_dir_fd and os.stat in os.supports_dir_fd
NOT_THERE = (errno.ENOENT, errno.ENOTDIR, errno.ENAMETOOLONG, errno.ELOOP)
"""Errors that say: under this name nothing can be found."""


class Outside(Exception):
    """The file lies, its links resolved, below none of the agreed folders. It was not opened."""


class NotPlain(Exception):
    """It is no file with bytes in it: a folder, a pipe, a device, a socket. It was not read; the message says what."""


def resolved(path: Path) -> Path:
    """A path with its links resolved, whether or not it is there. Raises FileNotFoundError for a name no disk could hold."""
    try:
        return Path(os.path.realpath(path))
    except ValueError:  # a zero in it, or letters the file system has none for
        raise FileNotFoundError(errno.ENOENT, os.strerror(errno.ENOENT)) from None


def is_below(path: Path, bounds: Bounds) -> bool:
    """Whether a path lies, its links resolved, below one of the folders."""
    return any(resolved(path).is_relative_to(each) for each in bounds)


def open_plain(path: Path, bounds: Bounds | None) -> BinaryIO:
    """A plain file opened for reading; `bounds` is None for the program's own files alone, which may be links.

    Raises Outside, NotPlain and, where the system refuses, OSError.
    """
    if bounds is None:
        return os.fdopen(_plain(path), "rb")
    real = resolved(path)
    root = next((each for each in bounds if real.is_relative_to(each)), None)
    if root is None:
        raise Outside
    return os.fdopen(_below(root, real), "rb")


def content(path: Path, bounds: Bounds | None, most_bytes: int) -> bytes:
    """What a plain file holds, and one byte more than `most_bytes` where it holds more; raises as open_plain does."""
    with open_plain(path, bounds) as file:
        return file.read(most_bytes + 1)


def _below(root: Path, real: Path) -> int:
    """The descriptor of a plain file below a folder, no link followed on the way."""
    if not _STEP_BY_STEP:
        return _plain(real, follows=False)
    *folders, name = real.relative_to(root).parts or (".",)
    folder = os.open(root, _PASS)
    try:
        for each in folders:
            inner = os.open(each, _PASS, dir_fd=folder)
            os.close(folder)
            folder = inner
        return _plain(name, folder, follows=False)
    finally:
        os.close(folder)


def _plain(path: Path | str, folder: int | None = None, *, follows: bool = True) -> int:
    """Opens a plain file; it is looked at before, for to open a device is to use it, and after, for it may have been swapped."""
    _refuse_others(os.stat(path, dir_fd=folder, follow_symlinks=follows))
    descriptor = os.open(path, _READ | _NOT_WAITING | (0 if follows else _NO_LINK), dir_fd=folder)
    try:
        _refuse_others(os.fstat(descriptor))
    except BaseException:
        os.close(descriptor)
        raise
    return descriptor


def _refuse_others(found: os.stat_result) -> None:
    if stat.S_ISLNK(found.st_mode):  # a circle of links, or one laid here a moment ago
        raise OSError(errno.ELOOP, os.strerror(errno.ELOOP))
    if not stat.S_ISREG(found.st_mode):
        raise NotPlain("a folder" if stat.S_ISDIR(found.st_mode) else "no plain file")
