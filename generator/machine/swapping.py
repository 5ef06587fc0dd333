"""Swapping in: one boat's folder is replaced as a whole, by one writer at a time, and nothing that is not ours is lost.

What holds where, while the lock of the boat's place is held and after a kill at any instant:

- Where the system exchanges two folders in one step (Linux, renameat2, on most file systems of a disk): the boat's folder
  is the old manual or the new one, whole, at every instant.
- Elsewhere two renames are written down beforehand in a journal. After a kill between them no folder bears the boat's name,
  both manuals lie beside it whole, and whatever touches the place next (publish, inspect) puts the new one in.
- Everywhere: every file of the manual is read back from its place before the swap counts as done.

Not guaranteed: against somebody of the same user who changes a file at the very instant between the look at it and its
removal; on network drives that promise locks and keep none; after a power cut on a disk that reports what it has not written.
"""

from __future__ import annotations

import json
import os
import re
from collections.abc import Iterator, Mapping
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path
from typing import NamedTuple, NoReturn

from generator.machine.folders import Folder, NoPlainFile, Refused, digest, is_folder, same, shown
from generator.machine.locking import WAIT_S, lock_name, locked
from generator.machine.manifests import MANIFEST, Cover, Found, Manifest, find, text_of
from generator.machine.removing import MARK, PART, Kept, listed, mark_of, remove

_NAMED = re.compile(r"\.(.+)\.musterbook-(?:lock|journal|(?:new|old)-[0-9a-f]{16})", re.DOTALL)
_INNER = ".musterbook-"
SET_ASIDE = re.compile(r"\.set-aside-[0-9]+$")
"""How the name of a folder ends that was moved aside."""
_MOST_BYTES = 1 << 30


class _Journal(NamedTuple):
    """The two folders of a replacement that takes two renames, by name."""

    new: str
    old: str

    @property
    def text(self) -> bytes:
        """What stands in its file."""
        what = "a folder is being replaced; publish or inspect finishes it"
        return (json.dumps({"musterbook": what, "new": self.new, "old": self.old}) + "\n").encode()


class Berth:
    """One boat's place in the output folder, its lock held: what stands there, and how it is replaced.

    `said` collects what is to be told: what was left alone or kept, and under which name.
    """

    def __init__(self, into: Folder, slug: str):
        self.into, self.slug = into, slug
        self.said: list[str] = []
        lock = into.look(lock_name(slug))
        own = os.geteuid() if hasattr(os, "geteuid") else 0
        # Some file systems give all files to one user: whoever the lock belongs to stands for us.
        self._owners = frozenset((own, lock.st_uid if lock is not None else own))

    @property
    def path(self) -> Path:
        """The boat's folder."""
        return self.into.path / self.slug

    def found(self) -> Found | None:
        """The boat's folder as it is; None where nothing bears its name. Raises Refused where that is no plain folder."""
        at = self.into.look(self.slug)
        if at is None:
            return None
        if not is_folder(at):
            raise Refused(
                f"{self.path} is no plain folder; move it away, choose another one with --into, or add --set-aside"
            )
        if at.st_uid not in self._owners:
            raise Refused(
                f"{self.path} belongs to another user; choose another folder with --into, or add --set-aside"
            )
        with self.into.inner(self.slug) as folder:
            return find(folder)

    def last_good(self) -> Cover | None:
        """What the manual that stands says of itself; None where there is none, or it is not whole."""
        try:
            found = self.found()
        except (Refused, OSError):
            return None
        return found.cover if found is not None and found.intact else None

    def refuse_strange(self) -> None:
        """Raises Refused where the boat's folder holds anything but what this program wrote, or cannot be read."""
        try:
            found = self.found()
        except OSError as error:
            raise Refused(
                f"{shown(str(error.filename))} cannot be read: {error.strerror}; choose another folder with --into, or add "
                "--set-aside, which moves the whole folder to a free name beside it; nothing was replaced"
            ) from error
        if found is not None and found.strange:
            raise Refused(
                f"{self.path} holds files that musterbook did not write, or that were changed since: "
                f"{listed(found.strange)}. Move them elsewhere, choose another folder with --into, or add --set-aside, "
                "which moves the whole folder to a free name beside it; nothing was replaced"
            )

    def copies(self, *, aside: bool = False) -> Mapping[str, Manifest]:
        """The manifests of the readers' copies that stand; none where they are to be set aside. Raises Refused."""
        try:
            self.refuse_strange()
            found = self.found()
        except Refused:
            if aside:
                return {}
            raise
        return found.readers if found is not None else {}

    def read(self, path: str, sha256: str) -> bytes | None:
        """A file of the boat's folder; None where it is gone, or has another fingerprint."""
        data = _read(self.into, f"{self.slug}/{path}", _MOST_BYTES)
        return data if data is not None and digest(data) == sha256 else None

    def set_aside(self) -> None:
        """Moves whatever bears the name of the boat's folder to a free name beside it, where it would be refused."""
        try:
            self.refuse_strange()
        except Refused:
            self.said.append(f"set aside, nothing of it removed: {self._moved_aside(self.slug)}")

    def _moved_aside(self, name: str) -> Path:
        number = 0
        while True:
            number += 1
            free = f"{self.slug}.set-aside-{number}"
            with suppress(FileExistsError):
                self.into.move(name, self.into, free)
                self.into.flush()
                return self.into.path / free

    def recover(self) -> None:
        """Finishes or undoes what a killed run left, and clears its work folders away.

        Raises Refused where something that is not ours bears the journal's name.
        """
        journal = self._journal()
        left = self._left()
        if self.into.look(self.slug) is None:
            olds = [each for each in left if self._kind(each) == "old"]
            waiting = ([journal.new, journal.old] if journal else []) + olds
            for name in waiting:
                if self._may_stand(name):
                    self.into.move(name, self.into, self.slug)
                    break
        if journal is not None or self.into.look(self._journal_name) is not None:
            self.into.flush()
            self.into.remove(
                self._journal_name, lambda found: found in (b"", journal.text if journal else b"")
            )
        for name in self._left():
            self._clear(name)

    def _may_stand(self, name: str) -> bool:
        """Whether a folder left by a replacement is the manual to be put in: a whole one, or the one that stood before."""
        try:
            with self.into.inner(name) as folder:
                found = find(folder)
                return found.cover is not None and (
                    self._kind(name) == "old" or (found.intact and folder.look(MARK) is None)
                )
        except OSError:
            return False

    def _left(self) -> list[str]:
        """What bears the name of a work folder of this boat."""
        return [each for each in self.into.names() if self._kind(each)]

    def _kind(self, name: str) -> str:
        start = f".{self.slug}{_INNER}"
        match = re.fullmatch(r"(new|old)-[0-9a-f]{16}", name.removeprefix(start))
        return match[1] if match and name.startswith(start) else ""

    def _clear(self, name: str) -> None:
        """Takes a work folder away; what is not ours stays, and is told of."""
        whole = self.last_good() is not None
        if self._kind(name) == "old" and not whole:
            self.said.append(
                f"left alone, for no whole manual stands in its stead: {shown(str(self.into.path / name))}"
            )
            return
        with ExitStack() as held:
            heir = None
            with suppress(OSError):
                heir = held.enter_context(self.into.inner(self.slug))
            kept = remove(self.into, name, self._owners, heir)
        if kept is not None:
            self._tell(kept)

    def _tell(self, kept: Kept) -> None:
        what, path = "left alone", self.into.path / kept.name
        if kept.ours:
            with suppress(OSError):
                what, path = "moved aside", self._moved_aside(kept.name)
        self.said.append(f"{what}: {shown(str(path))}: {kept.why}")

    @property
    def _journal_name(self) -> str:
        return f".{self.slug}{_INNER}journal"

    def _journal(self) -> _Journal | None:
        """What the journal says; None where there is none, or an empty one. Raises Refused where it is not ours."""
        name = self._journal_name
        if self.into.look(name) is None:
            return None
        try:
            data = self.into.read(name, 4096)
            if not data:
                return None
            said = json.loads(data)
            journal = _Journal(str(said["new"]), str(said["old"]))
            if data == journal.text and self._kind(journal.new) == "new" and self._kind(journal.old) == "old":
                return journal
        except (NoPlainFile, ValueError, LookupError, TypeError, RecursionError):
            pass
        raise Refused(
            f"{self.into.path / name} is no file of musterbook's; move it away. It was left as it is"
        )

    def _work_name(self, kind: str) -> str:
        return f".{self.slug}{_INNER}{kind}-{os.urandom(8).hex()}"

    def swap_in(
        self,
        cover: Cover,
        manifests: Mapping[str, Manifest],
        files: Mapping[str, bytes],
        *,
        aside: bool = False,
    ) -> Path:
        """Writes a manual beside the boat's folder and exchanges the two; returns the folder.

        `files` stand under reader/path as the manifests name them. `aside` has what would be refused moved aside. Raises
        Refused; OSError where the disk refuses: nothing is replaced then, and what was written so far is taken away.
        """
        if not aside:
            self.refuse_strange()
        meant = {MANIFEST: text_of(cover)}
        for reader, manifest in manifests.items():
            meant[f"{reader}/{MANIFEST}"] = text_of(manifest)
        meant |= {name: files[name] for name in sorted(files)}
        work = self._work_name("new")
        try:
            with self.into.make(work) as folder:
                _write(folder, work, meant)
                if aside:
                    self.set_aside()
                self.refuse_strange()  # again: writing took a while
                before = self._replace(work, folder, meant)
        except BaseException:
            if self.into.look(self._journal_name) is None:
                self._clear(work)
            raise
        if before:
            self._clear(before)
        return self.path

    def _replace(self, work: str, folder: Folder, meant: Mapping[str, bytes]) -> str:
        """Puts the work folder in the place of the boat's and reads it back; returns the name of what stood there, or ""."""
        if not same(self.into.look(work), folder.itself):
            raise Refused(f"{self.into.path / work} was exchanged for something else; nothing was replaced")
        if self._vacant():
            self.into.move(work, self.into, self.slug)
            if told := self._otherwise(folder, meant):
                raise Refused(f"{told}; look at it with: musterbook inspect {self.path}")
            return ""
        if self.into.exchange(work, self.slug):
            if told := self._otherwise(folder, meant):
                self.into.exchange(work, self.slug)
                raise Refused(f"{told}; the manual that stood there before was put back")
            return work
        return self._replace_in_two(work, folder, meant)

    def _replace_in_two(self, work: str, folder: Folder, meant: Mapping[str, bytes]) -> str:
        """The same by two renames, written down before the first."""
        journal = _Journal(work, self._work_name("old"))
        try:
            self.into.write(self._journal_name, journal.text)
            self.into.flush()
            self.into.move(self.slug, self.into, journal.old)
            self.into.move(work, self.into, self.slug)
            if told := self._otherwise(folder, meant):
                self.into.move(self.slug, self.into, work)
                _refuse(f"{told}; the manual that stood there before was put back")
        except BaseException:
            if self.into.look(self.slug) is None:
                self.into.move(journal.old, self.into, self.slug)
            elif self.into.look(journal.old) is not None:
                self.said.append(f"the manual that stood there before lies in {self.into.path / journal.old}")
            self._drop(journal)
            raise
        with suppress(OSError):  # the new manual stands; whatever comes next drops the journal
            self._drop(journal)
        return journal.old

    def _drop(self, journal: _Journal) -> None:
        with suppress(FileNotFoundError):
            self.into.remove(self._journal_name, journal.text.startswith)
        self.into.flush()

    def _vacant(self) -> bool:
        """Whether nothing bears the name of the boat's folder; an empty folder is ours to fill, and makes room."""
        if self.into.look(self.slug) is None:
            return True
        with self.into.inner(self.slug) as standing:
            empty = not standing.names()
        return empty and self.into.remove_empty(self.slug)

    def _otherwise(self, folder: Folder, meant: Mapping[str, bytes]) -> str:
        """What is not as it was meant in the boat's folder, read back from its place; "" where all is."""
        try:
            self.into.flush()
            with self.into.inner(self.slug) as standing:
                if not same(standing.itself, folder.itself):
                    return f"{self.path} was exchanged for something else in the instant it was replaced"
                wrong = [name for name, data in meant.items() if _read(standing, name, len(data) + 1) != data]
        except OSError as error:
            return f"{self.path} could not be read back: {error.strerror} ({error.filename})"
        return f"{self.path} does not hold what was written: {listed(wrong)}" if wrong else ""


def _refuse(why: str) -> NoReturn:
    raise Refused(why)


def _write(folder: Folder, name: str, meant: Mapping[str, bytes]) -> None:
    """Fills a new work folder: its mark first, then each file, under its own name only when it is whole; the mark goes last."""
    folder.write(MARK, mark_of(name))
    with ExitStack() as held:
        made = {"": folder}
        for path, data in meant.items():
            *above, base = path.split("/")
            for depth in range(len(above)):
                here, inner = "/".join(above[:depth]), "/".join(above[: depth + 1])
                if inner not in made:
                    made[inner] = held.enter_context(made[here].make(above[depth]))
            part = f"{PART}{os.urandom(8).hex()}"
            folder.write(part, data)
            folder.move(part, made["/".join(above)], base)
        for each in made.values():
            each.flush()
        if not folder.remove(MARK, mark_of(name).__eq__):
            raise Refused(f"{folder.path / MARK} was exchanged for something else; nothing was replaced")
        folder.flush()


def _read(folder: Folder, path: str, most_bytes: int) -> bytes | None:
    """The file at a path in a folder, no link followed; None where there is no plain one."""
    *above, base = path.split("/")
    try:
        with ExitStack() as held:
            for name in above:
                folder = held.enter_context(folder.inner(name))
            return folder.read(base, most_bytes)
    except (NoPlainFile, FileNotFoundError, NotADirectoryError):
        return None


@contextmanager
def at_work(into: Path, slug: str, wait_s: float = WAIT_S) -> Iterator[Berth]:
    """Holds one boat's place in the output folder, made if need be, and finishes what a killed run left there.

    Raises Refused where another is at work in it for longer than `wait_s`, or where something not ours is in the way.
    """
    if _INNER in slug:
        raise Refused(f"'{shown(slug)}': names with '{_INNER}' are musterbook's own; rename the folder")
    with locked(into, slug, wait_s) as folder:
        berth = Berth(folder, slug)
        try:
            berth.recover()
            yield berth
        except (Refused, OSError) as error:
            if not berth.said:
                raise
            why = (
                error
                if isinstance(error, Refused)
                else f"the disk refused: {error.strerror} ({error.filename})"
            )
            raise Refused("; ".join((f"{why}", *berth.said))) from error


def traces(folder: Path) -> set[str]:
    """The boats of whose places in an output folder a lock, a journal or a work folder tells: work was, or is, under way."""
    matches = (_NAMED.fullmatch(each.name) for each in folder.iterdir())
    return {match[1] for match in matches if match}
