"""Folders held open: what is done in one follows no link, whatever is put in the place of its name meanwhile.

On POSIX every step goes by the descriptor of the folder; where the system has none for folders (Windows) it goes by the
path, and what stands there is looked at first. Nothing here ever replaces one file by another.
"""

from __future__ import annotations

import ctypes
import errno
import functools
import hashlib
import os
import stat
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from types import TracebackType
from typing import Self

_BY_HANDLE = {os.open, os.stat, os.mkdir, os.unlink, os.rmdir, os.rename} <= os.supports_dir_fd
_HERE, _NO_REPLACE, _EXCHANGE = -100, 1, 2  # AT_FDCWD, RENAME_NOREPLACE and RENAME_EXCHANGE of Linux
_UNKNOWN_CALL = (errno.ENOSYS, errno.EINVAL, errno.EPERM, errno.ENOTSUP, errno.EOPNOTSUPP)
_SAFE: int = (
    getattr(os, "O_NOFOLLOW", 0)
    | getattr(os, "O_NONBLOCK", 0)
    | getattr(os, "O_CLOEXEC", 0)
    | getattr(os, "O_BINARY", 0)
)
_LEADS_ELSEWHERE = 0x20000000  # IO_REPARSE_TAG names another place: links and junctions of Windows
_CHUNK_BYTES = 1 << 20


class Refused(Exception):
    """Something that this program did not write is in the way; the message says what and what to do."""


class Busy(Refused):
    """Another publish is at work where this one would be."""


class NoPlainFile(OSError):
    """A link, folder, pipe or the like bears a name under which a plain file was looked for."""


def is_folder(found: os.stat_result) -> bool:
    """Whether what was looked at is a folder and no link to one."""
    return stat.S_ISDIR(found.st_mode) and not getattr(found, "st_reparse_tag", 0) & _LEADS_ELSEWHERE


def is_file(found: os.stat_result) -> bool:
    """Whether what was looked at is a plain file and no link to one."""
    return stat.S_ISREG(found.st_mode) and not getattr(found, "st_reparse_tag", 0) & _LEADS_ELSEWHERE


def digest(data: bytes) -> str:
    """The fingerprint of a file's bytes, as manifests keep it."""
    return hashlib.sha256(data).hexdigest()


def same(one: os.stat_result | None, other: os.stat_result | None) -> bool:
    """Whether both are the same file or folder."""
    return one is not None and other is not None and (one.st_dev, one.st_ino) == (other.st_dev, other.st_ino)


def shown(name: str) -> str:
    """A name of somebody's file as a terminal may be told it: what does not print stands as its number."""
    return "".join(each if each.isprintable() else ascii(each)[1:-1] for each in name)


class Folder:
    """A folder held open, to be used in a `with`. Each step raises OSError with the full path."""

    def __init__(self, path: Path, handle: int | None):
        self.path = path
        self._handle = handle
        self.itself = path.stat() if handle is None else os.fstat(handle)
        """What the system said of the folder when it was opened, which tells it from others."""

    @classmethod
    def at(cls, path: Path) -> Self:
        """The folder that a path leads to, through links too: it is where the user points."""
        if not _BY_HANDLE:
            path.stat()  # raises as opening would
            return cls(path, None)
        return cls(path, os.open(path, os.O_RDONLY | os.O_DIRECTORY | os.O_CLOEXEC))

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def close(self) -> None:
        """Lets go of it."""
        handle, self._handle = self._handle, None
        if handle is not None:
            os.close(handle)

    def look(self, name: str) -> os.stat_result | None:
        """What bears a name in the folder, links not followed; None where nothing does."""
        with self._naming(name):
            try:
                return os.stat(self._reach(name), dir_fd=self._handle, follow_symlinks=False)
            except FileNotFoundError:
                return None

    def names(self) -> list[str]:
        """Everything in the folder, sorted."""
        with self._naming():
            return sorted(os.listdir(self._handle if self._handle is not None else str(self.path)))  # noqa: PTH208 - of what is held open

    def inner(self, name: str) -> Folder:
        """A folder in the folder, held open; NotADirectoryError where a link or anything else bears the name."""
        found = self.look(name)
        if found is not None and not is_folder(found):
            raise NotADirectoryError(errno.ENOTDIR, os.strerror(errno.ENOTDIR), str(self.path / name))
        with self._naming(name):
            if self._handle is None:
                return Folder.at(self.path / name)
            handle = os.open(name, os.O_RDONLY | os.O_DIRECTORY | _SAFE, dir_fd=self._handle)
            return Folder(self.path / name, handle)

    def make(self, name: str) -> Folder:
        """A new folder in the folder, held open; FileExistsError where something bears the name."""
        with self._naming(name):
            os.mkdir(self._reach(name), dir_fd=self._handle)
        return self.inner(name)

    @contextmanager
    def opened(self, name: str) -> Iterator[int]:
        """The descriptor of a plain file, to read; raises NoPlainFile, and never waits for a pipe."""
        found = self.look(name)
        if found is not None and not is_file(found):
            raise NoPlainFile(errno.EINVAL, "no plain file", str(self.path / name))
        with self._naming(name):
            handle = os.open(self._reach(name), os.O_RDONLY | _SAFE, dir_fd=self._handle)
        try:
            if not is_file(os.fstat(handle)):
                raise NoPlainFile(errno.EINVAL, "no plain file", str(self.path / name))
            yield handle
        finally:
            os.close(handle)

    def read(self, name: str, most_bytes: int) -> bytes:
        """A plain file's bytes, of a larger one so many; raises NoPlainFile."""
        with self.opened(name) as handle, self._naming(name):
            parts, left = [], most_bytes
            while left > 0 and (part := os.read(handle, min(left, _CHUNK_BYTES))):
                parts.append(part)
                left -= len(part)
            return b"".join(parts)

    def digest(self, name: str) -> str:
        """The fingerprint of a plain file; raises NoPlainFile."""
        with self.opened(name) as handle, self._naming(name):
            return _digest(handle)

    def open_new(self, name: str) -> int:
        """The descriptor of a new file; FileExistsError where something bears the name."""
        with self._naming(name):
            flags = os.O_RDWR | os.O_CREAT | os.O_EXCL | _SAFE
            return os.open(self._reach(name), flags, 0o666, dir_fd=self._handle)

    def open_to_write(self, name: str) -> int:
        """The descriptor of a plain file, left as it is; raises NoPlainFile."""
        with self._naming(name):
            handle = os.open(self._reach(name), os.O_RDWR | _SAFE, dir_fd=self._handle)
            if is_file(os.fstat(handle)):
                return handle
            os.close(handle)
            raise NoPlainFile(errno.EINVAL, "no plain file", str(self.path / name))

    def write(self, name: str, data: bytes) -> None:
        """A new file, forced to the disk; FileExistsError where something bears the name."""
        handle = self.open_new(name)
        with self._naming(name):
            try:
                rest = memoryview(data)
                while rest:
                    rest = rest[os.write(handle, rest) :]
                os.fsync(handle)
            finally:
                os.close(handle)

    def remove(self, name: str, is_ours: Callable[[bytes], bool], most_bytes: int = 4096) -> bool:
        """Removes a small plain file whose bytes `is_ours` knows; False where it is none, and stays."""

        def known(handle: int) -> bool:
            data = os.read(handle, most_bytes + 1)
            return len(data) <= most_bytes and is_ours(data)

        return self._remove(name, known)

    def remove_exactly(self, name: str, sha256: str) -> bool:
        """Removes a plain file of that fingerprint; False where it has another, and stays."""
        return self._remove(name, lambda handle: _digest(handle) == sha256)

    def remove_plain(self, name: str) -> bool:
        """Removes a plain file, whatever is in it: one whose name only a mark of ours gives away."""
        return self._remove(name, lambda _handle: True)

    def remove_empty(self, name: str) -> bool:
        """Removes a folder that is empty; False where it holds something, and stays."""
        with self._naming(name):
            try:
                os.rmdir(self._reach(name), dir_fd=self._handle)
            except OSError as error:
                if error.errno in (errno.ENOTEMPTY, errno.EEXIST):
                    return False
                raise
            return True

    def _remove(self, name: str, is_ours: Callable[[int], bool]) -> bool:
        """Removes a plain file that is ours and, when it goes, still is the one that was looked at, unchanged."""
        with self.opened(name) as handle, self._naming(name):
            seen = os.fstat(handle)
            if not is_ours(handle):
                return False
            if self._handle is not None:  # while it is held open no other file gets its number
                return self._unlink(name, seen)
        return self._unlink(name, seen)  # Windows removes no file that is open

    def _unlink(self, name: str, seen: os.stat_result) -> bool:
        found = self.look(name)
        if found is None or not same(found, seen):
            return False
        if (found.st_size, found.st_mtime_ns) != (seen.st_size, seen.st_mtime_ns):
            return False
        with self._naming(name):
            os.unlink(self._reach(name), dir_fd=self._handle)
        return True

    def move(self, name: str, into: Folder, new: str) -> None:
        """Gives a file or folder another name, in this folder or another; FileExistsError where something bears that one."""
        with self._naming(name):
            refused = _renamed(self._handle, self._reach(name), into._handle, into._reach(new), _NO_REPLACE)
            if not refused:
                return
            if refused not in _UNKNOWN_CALL:
                raise OSError(refused, os.strerror(refused))
            if into.look(new) is not None:
                raise FileExistsError(errno.EEXIST, os.strerror(errno.EEXIST))
            os.rename(self._reach(name), into._reach(new), src_dir_fd=self._handle, dst_dir_fd=into._handle)

    def exchange(self, one: str, other: str) -> bool:
        """Exchanges two names in one step; False where the system cannot."""
        with self._naming(other):
            refused = _renamed(self._handle, self._reach(one), self._handle, self._reach(other), _EXCHANGE)
            if refused and refused not in _UNKNOWN_CALL:
                raise OSError(refused, os.strerror(refused))
            return not refused

    def flush(self) -> None:
        """Forces the names in the folder to the disk, where the system can."""
        if self._handle is not None:
            with self._naming():
                os.fsync(self._handle)

    def _reach(self, name: str) -> str:
        return name if self._handle is not None else str(self.path / name)

    @contextmanager
    def _naming(self, name: str = "") -> Iterator[None]:
        """An error names the file by its whole path."""
        try:
            yield
        except OSError as error:
            error.filename, error.filename2 = str(self.path / name), None
            raise


def _digest(handle: int) -> str:
    whole = hashlib.sha256()
    while part := os.read(handle, _CHUNK_BYTES):
        whole.update(part)
    return whole.hexdigest()


@functools.cache
def _library() -> ctypes.CDLL | None:
    try:
        library = ctypes.CDLL(None, use_errno=True)
        library.renameat2  # noqa: B018 - whether it is there
    except (AttributeError, OSError, TypeError):
        return None
    return library


def _renamed(one_in: int | None, one: str, other_in: int | None, other: str, flags: int) -> int:
    """The number of the error of a renameat2 call; 0 where it was done, ENOSYS where the system has no such call."""
    library = _library()
    if library is None:
        return errno.ENOSYS
    refused: int = library.renameat2(
        _HERE if one_in is None else one_in,
        os.fsencode(one),
        _HERE if other_in is None else other_in,
        os.fsencode(other),
        flags,
    )
    return ctypes.get_errno() if refused else 0
