"""Answers kept while they are asked for: a small readable file beside where the vessel's file goes, a line an answer.

Each answer is on the disk before the next question is asked, so that nothing that ends the program loses one. What only the
crew may read is never kept. A file of that name that is not ours is left alone.
"""

from __future__ import annotations

import errno
import os
import stat
from collections.abc import Mapping
from dataclasses import dataclass, field
from io import FileIO
from pathlib import Path

from generator.commissioning import crew
from generator.commissioning.paths import target
from generator.commissioning.refusal import Refusal
from generator.reading.nearest import shortened

NAME = "first-answers.txt"
_MARK = "# musterbook commission: first answers for "
_SAYS = "# One line an answer, KEY=VALUE; the last one of a key counts. Her vessel.yaml is made from them, and this file goes then.\n"
_MOST_BYTES = 100_000


@dataclass
class Kept:
    """The answers kept for the vessel of a title: `answers` by key path, as typed; `wrong` are lines that are none."""

    path: Path
    title: str
    answers: dict[str, str] = field(default_factory=dict)
    wrong: list[str] = field(default_factory=list)
    there: bool = False

    @property
    def _head(self) -> str:
        return f"{_MARK}{self.title}\n"

    def keep(self, answers: Mapping[str, str]) -> None:
        """Adds answers to the file, on the disk when it returns; raises Refusal where that cannot be."""
        lines = "".join(f"{key}={text}\n" for key, text in answers.items() if _for_everybody(key))
        self.answers |= answers
        try:
            self.path.parent.mkdir(parents=True, exist_ok=True)
            with self._opened() as file:
                file.write(lines.encode())
                os.fsync(file.fileno())
        except OSError as error:
            raise Refusal(
                f"answers cannot be kept in {self.path}: {error.strerror}; name another folder"
            ) from None

    def _opened(self) -> FileIO:
        """The file to write behind its last whole line; made anew where it is not there."""
        how = os.O_RDWR | os.O_APPEND | getattr(os, "O_NOFOLLOW", 0)
        if not self.there:
            file = os.fdopen(os.open(self.path, how | os.O_CREAT | os.O_EXCL, 0o644), "a+b", buffering=0)
            file.write(self._head.encode() + _SAYS.encode())
            self.there = True
            return file
        handle = os.open(self.path, how | getattr(os, "O_NONBLOCK", 0))
        about = os.fstat(handle)
        file = os.fdopen(handle, "a+b", buffering=0)
        whole = b""
        if stat.S_ISREG(about.st_mode) and about.st_size <= _MOST_BYTES:
            file.seek(0)
            whole = file.read()
        if not whole.startswith(self._head.encode()):
            file.close()
            raise OSError(errno.EEXIST, "another file has its name now")
        file.truncate(whole.rfind(b"\n") + 1)
        return file

    def remove(self) -> None:
        """Takes the file away, and the folder if nothing else is in it; one that is not ours stays."""
        lines = _lines_of(self.path) if self.there else None
        if not lines or f"{lines[0]}\n" != self._head:
            return
        try:
            self.path.unlink()
            self.path.parent.rmdir()
        except OSError:
            return
        finally:
            self.there = False


def kept_for(vessel_file: Path, title: str) -> Kept:
    """What is kept for a vessel; raises Refusal where a file of that name is not ours, or of another vessel."""
    path = vessel_file.with_name(NAME)
    kept = Kept(path, title)
    if not os.path.lexists(path):
        return kept
    lines = _lines_of(path)
    if lines is None:
        raise Refusal(
            f"{path} is not from 'musterbook commission', and answers would be kept there; move it, or name another folder"
        )
    other = lines[0].removeprefix(_MARK)
    if other != title:
        raise Refusal(
            f"{path} keeps answers for '{shortened(other)}', whose folder has the same name; commission her first, or delete it"
        )
    kept.there = True
    for number, line in enumerate(lines[1:], 2):
        if line.strip() and not line.startswith("#"):
            _take(kept, number, line)
    return kept


def _take(kept: Kept, number: int, line: str) -> None:
    key, mark, text = line.partition("=")
    if not mark or any(not letter.isprintable() for letter in line):
        kept.wrong.append(
            f"{kept.path}, line {number}: this is no answer; write KEY=VALUE, or delete the line"
        )
        return
    kept.answers[key.strip()] = text.strip()


def _lines_of(path: Path) -> list[str] | None:
    """The whole lines of a file of ours; None where it is another. A last line that broke off is no answer and is cut off."""
    try:
        if not stat.S_ISREG(path.lstat().st_mode) or path.lstat().st_size > _MOST_BYTES:
            return None
        data = path.read_bytes()
        text = data.decode("utf-8")
    except (OSError, UnicodeDecodeError):
        return None
    if not text.startswith(_MARK):
        return None
    return text[: text.rfind("\n") + 1].splitlines() or None


def _for_everybody(key: str) -> bool:
    """Whether the value of a key may stand where anybody reads it."""
    return key == crew.PEOPLE or target(key).field.reader == "guest"
