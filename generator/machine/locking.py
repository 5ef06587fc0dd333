"""The lock of one boat's place in the output folder: one writer at a time, and a kill lets go of it.

It is the operating system's own (flock; on Windows a locked byte), on a small file beside the boat's folder that goes when
the work ends. A file of that name is never emptied and never removed unless its words are ours.
"""

from __future__ import annotations

import errno
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from threading import Event

from generator.machine.folders import Busy, Folder, Refused, is_file, same

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl

WORDS = b"musterbook: while this file is locked a publish is at work beside it; when none is, it may go\n"
WAIT_S = 60.0
"""Longer than one boat is written, on a slow machine too."""
_STEP_S = 0.05
_BUSY = (errno.EACCES, errno.EAGAIN, errno.EWOULDBLOCK, errno.EDEADLK)
_CANNOT = (errno.ENOLCK, errno.ENOSYS, errno.EINVAL, errno.ENOTSUP, errno.EOPNOTSUPP)


def lock_name(slug: str) -> str:
    """What the lock of a boat's folder is called."""
    return f".{slug}.musterbook-lock"


@contextmanager
def locked(path: Path, slug: str, wait_s: float = WAIT_S) -> Iterator[Folder]:
    """Holds the lock of the boat's folder `slug` in the folder at `path`, which is made if need be, and yields that folder.

    Raises Busy where another holds it longer than `wait_s`; Refused where the file system cannot lock, and where something that
    is not ours bears the lock's name; OSError where the disk refuses. A folder that was made for it and is still empty goes.
    """
    name, made, waited_s = lock_name(slug), list[Path](), 0.0
    while True:
        try:
            made += _made(path)
            folder = Folder.at(path)
        except FileNotFoundError:  # the run before us took it away: begin again
            waited_s = _waited(waited_s, wait_s, path / slug, folder_stays=False)
            continue
        with folder:
            try:
                handle = _opened(folder, name)
            except FileNotFoundError:  # the same, of its lock
                waited_s = _waited(waited_s, wait_s, path / slug, folder_stays=False)
                continue
            try:
                if not _taken(handle, path):
                    waited_s = _waited(waited_s, wait_s, path / slug)
                    continue
                if not same(folder.look(name), os.fstat(handle)):
                    continue  # the run before us took it away
                _inscribe(handle, folder.path / name)
                try:
                    yield folder
                finally:
                    with suppress(OSError):
                        folder.remove(name, lambda found: found in (b"", WORDS))
                return
            finally:
                os.close(handle)
                for each in reversed(made):
                    with suppress(OSError):
                        each.rmdir()


def _made(path: Path) -> list[Path]:
    """The folders that had to be made for `path` to be there, the outermost first; FileNotFoundError where another run took one away meanwhile."""
    if path.is_symlink() and not path.exists():
        raise Refused(f"{path} is a link that leads nowhere; mend it, or choose another folder with --into")
    missing = [each for each in (path, *path.parents) if not os.path.lexists(each)]
    try:
        path.mkdir(parents=True, exist_ok=True)
    except FileExistsError:  # it was there, and is no more
        if any(os.path.lexists(each) and not each.is_dir() for each in (path, *path.parents)):
            raise
        raise FileNotFoundError(errno.ENOENT, os.strerror(errno.ENOENT), str(path)) from None
    return missing[::-1]


def _waited(waited_s: float, wait_s: float, target: Path, folder_stays: bool = True) -> float:
    """Waits a little; raises Refused where that was long enough, Busy where somebody else holds the lock meanwhile."""
    if waited_s >= wait_s and not folder_stays:
        raise Refused(f"nothing can be kept in {target.parent}; choose another folder with --into")
    if waited_s >= wait_s:
        raise Busy(
            f"another publish is at work in {target}; nothing was done here. Publish again when it has ended"
        )
    Event().wait(_STEP_S)
    return waited_s + _STEP_S


def _opened(folder: Folder, name: str) -> int:
    """The descriptor of the lock's file, made where there is none; raises Refused where what bears its name is no file."""
    found = folder.look(name)
    if found is None:
        with suppress(FileExistsError):
            return folder.open_new(name)
    elif not is_file(found):
        raise Refused(f"{folder.path / name} is no file of musterbook's; move it away. It was left as it is")
    return folder.open_to_write(name)


def _taken(handle: int, path: Path) -> bool:
    """Whether the lock is ours now; raises Refused where the file system has no locks."""
    try:
        if sys.platform == "win32":
            os.lseek(handle, 1 << 30, os.SEEK_SET)  # far behind the words, which others may read
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        else:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError as error:
        if error.errno in _BUSY:
            return False
        if error.errno in _CANNOT:
            raise Refused(
                f"the file system of {path} cannot lock, so two publishes could tear a manual there; "
                "publish into a folder on a disk of this machine (--into) and copy the boat's folder"
            ) from None
        raise
    return True


def _inscribe(handle: int, path: Path) -> None:
    """Writes our words into an empty lock file; raises Refused where other words stand in it."""
    os.lseek(handle, 0, os.SEEK_SET)
    found = os.read(handle, len(WORDS) + 1)
    if found not in (b"", WORDS):
        raise Refused(f"{path} is no file of musterbook's; move it away. It was left as it is")
    if not found:
        with suppress(OSError):  # a full disk is told where the manual is written
            if os.write(handle, WORDS) < len(WORDS):
                os.ftruncate(handle, 0)
