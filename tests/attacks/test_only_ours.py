"""Only what is ours is ever removed: whatever bears one of our names, before a publish or from any step of it on, stays."""

import itertools
import os
import random
import tempfile
from pathlib import Path

import pytest
from alarm import within
from berths import NEW, OLD, holds, is_whole, put
from hostile import KINDS, NOBODY, lost, nodes, precious_tree, tree_of

from generator import __main__ as program
from generator.machine import folders
from generator.machine.folders import Refused
from generator.machine.removing import MARK, PART, mark_of

pytestmark = [
    pytest.mark.attack("ours-alone"),
    pytest.mark.thorough,
    pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="pipes and users of POSIX"),
]
WORK, BEFORE = ".boat.musterbook-new-0123456789abcdef", ".boat.musterbook-old-0123456789abcdef"
HANGS_S = 20

# Each name of ours, and whether a publish is refused, refused until the folder is set aside, or goes on past it.
NAMES = {
    ".boat.musterbook-lock": "refused",
    ".boat.musterbook-journal": "refused",
    "boat": "set aside",
    "boat/manifest.json": "set aside",
    "boat/guest": "set aside",
    "boat/guest/manifest.json": "set aside",
    "boat/guest/index.html": "set aside",
    "boat/guest/fonts": "set aside",
    WORK: "goes on",
    f"{WORK}/manifest.json": "goes on",
    f"{WORK}/guest": "goes on",
    f"{WORK}/guest/index.html": "goes on",
    f"{WORK}/{MARK}": "goes on",
    f"{WORK}/{MARK}-more": "goes on",
    BEFORE: "goes on",
    f"{BEFORE}/crew": "goes on",
    f"{BEFORE}/crew/manifest.json": "goes on",
}


@pytest.fixture
def precious(tmp_path):
    return precious_tree(tmp_path / "precious")


@pytest.fixture(params=["exchanged", "renamed"])
def variant(request, monkeypatch):
    if request.param == "renamed":
        monkeypatch.setattr(folders, "_library", lambda: None)
    return request.param


@pytest.fixture
def quick_disk(monkeypatch):
    """Nothing is forced to the disk: these attacks are many, and none cuts the power."""
    monkeypatch.setattr(os, "fsync", lambda handle: None)


def lay_out(into):
    """A published boat, a work folder of a killed run, and the manual that a killed run had replaced."""
    put(into, NEW)
    (into / "boat").rename(into / BEFORE)
    put(into / "elsewhere", NEW)
    (into / "elsewhere/boat").rename(into / WORK)
    (into / "elsewhere").rmdir()
    (into / WORK / MARK).write_bytes(mark_of(WORK))
    kept = [(into / name).rename(into.parent / name) for name in (WORK, BEFORE)]
    put(into, OLD)
    for path in kept:
        path.rename(into / path.name)


def put_in_place_of(path, kind, precious):
    """The hostile thing at a path; what stood there lies outside now."""
    if os.path.lexists(path):
        path.rename(precious.parent / f"taken-{path.lstat().st_ino}")
    KINDS[kind](path, precious)
    return nodes(path)


def attempt(into, **more):
    """What a publish is answered: "" where it went through."""
    with within(HANGS_S):
        try:
            put(into, NEW, wait_s=0, **more)
        except (Refused, OSError) as error:
            return str(error)
    return ""


@pytest.mark.usefixtures("quick_disk", "variant")
@pytest.mark.one_in(2, "name")
@pytest.mark.parametrize("name", NAMES)
def test_what_bears_a_name_of_ours_before(tmp_path, precious, name, tried):
    for number, kind in enumerate(KINDS):
        into = tmp_path / str(number)
        into.mkdir()
        lay_out(into)
        foreign = put_in_place_of(into / name, kind, precious)
        before = tree_of(precious)
        said = attempt(into)
        assert bool(said) == (NAMES[name] != "goes on"), (kind, said)
        if name.startswith("boat"):
            assert "--set-aside" in said or "Permission" in said, (kind, said)
        elif said:
            assert name in said, (kind, said)
            assert is_whole(into / "boat", OLD), kind
        assert lost(foreign, into) == [], kind
        assert tree_of(precious) == before, kind
        with within(HANGS_S):
            program.main(["inspect", str(into / "boat"), "--as-of", "2026-06-01"])
        said = attempt(into, aside=True)
        assert bool(said) == (NAMES[name] == "refused"), (kind, said)
        assert is_whole(into / "boat", OLD if said else NEW), kind
        assert lost(foreign, into) == [], kind
        assert tree_of(precious) == before, kind
    tried(len(KINDS))


class Strike:
    """Puts a hostile thing in the place of one of our names just before the n-th call to the disk; 0 only looks when it could.

    `could` are the calls before which something bears the name, or could; `close` those that are made of that very name.
    """

    CALLS = ("stat", "open", "mkdir", "unlink", "rmdir", "rename", "read", "write", "fsync", "listdir")

    def __init__(self, into, name, kind, precious, at=0):
        self.into, self.name, self.kind, self.precious, self.at = into, name, kind, precious, at
        self.calls, self.could, self.close, self.foreign, self.ours = 0, [], [], {}, False

    def over(self, patch):
        """Stands in for the calls of the system, and that of the library."""
        for each in self.CALLS:
            patch.setattr(os, each, self._counted(getattr(os, each), each))
        patch.setattr(folders, "_renamed", self._counted(folders._renamed, "renameat2"))

    def _counted(self, function, call):
        def run(*args, **more):
            if not self.ours:
                self.ours = True  # what the strike itself does is no call of the program
                self._before(call, args)
                self.ours = False
            return function(*args, **more)

        for kind in (os.supports_dir_fd, os.supports_fd):
            if function in kind:
                kind.add(run)
        return run

    def _before(self, call, args):
        self.calls += 1
        path = self._path() if self.at in (0, self.calls) else None
        # Between the last look at a file and the removal of its name lies an instant that no system closes.
        if path is None or (call in ("unlink", "rename") and path.name in args):
            return
        self.could.append(self.calls)
        if path.name in args:
            self.close.append(self.calls)
        if self.at:
            self.foreign = put_in_place_of(path, self.kind, self.precious)

    def _path(self):
        """Where the name is now, or could be; None where the folder it would be in is not there."""
        at = self.into
        for part in self.name.split("/"):
            there = [at / part] if not part.endswith("*") else sorted(at.glob(part))
            if at.is_symlink() or not at.is_dir() or not there:
                return None
            at = there[0]
        return at


STRUCK = (
    "boat",
    "boat/manifest.json",
    "boat/guest",
    "boat/guest/index.html",
    "boat/guest/manifest.json",
    "boat/crew/book.pdf",
    ".boat.musterbook-lock",
    ".boat.musterbook-journal",
    ".boat.musterbook-new-*",
    ".boat.musterbook-new-*/manifest.json",
    ".boat.musterbook-new-*/guest",
    ".boat.musterbook-new-*/guest/index.html",
    f".boat.musterbook-new-*/{MARK}",
    f".boat.musterbook-new-*/{PART}*",
    ".boat.musterbook-old-*",
    ".boat.musterbook-old-*/guest",
)
STRIKES = 10


@pytest.mark.usefixtures("quick_disk")
@pytest.mark.one_in(2, "name")
@pytest.mark.parametrize("name", STRUCK)
def test_what_takes_a_name_of_ours_at_any_step(tmp_path, precious, variant, name, tried):
    """At every call that is made of the name, with one kind after the other, and at others by chance."""
    could, close = steps(tmp_path / "dry", name, precious)
    chance = random.Random(name + variant)  # the same attacks on every run
    turn = itertools.cycle(chance.sample(sorted(KINDS), len(KINDS)))
    struck = [(at, next(turn)) for at in close]
    struck += [(chance.choice(could), next(turn)) for _ in range(STRIKES if could else 0)]
    for number, (at, kind) in enumerate(struck):
        into = tmp_path / str(number)
        put(into, OLD)
        strike = Strike(into, name, kind, precious, at)
        before = tree_of(precious)
        with pytest.MonkeyPatch.context() as patch:
            strike.over(patch)
            said = attempt(into)
        about = (name, strike.kind, strike.at, said)
        assert strike.foreign, about
        assert tree_of(precious) == before or strike.kind == "hard link", about
        assert lost(strike.foreign, tmp_path) == [], about
        assert said or holds(into / "boat", NEW) or name.startswith("boat"), about
        for _ in range(2):
            after = attempt(into, aside=True)
            assert lost(strike.foreign, tmp_path) == [], (*about, after)
        assert is_whole(into / "boat", NEW) or after, (*about, after)
        assert not after or name in after or "the manual" in after, (*about, after)
    tried(len(struck))


def steps(into, name, precious):
    """The calls of a publish before which something bears the name, or could; and those that are made of it."""
    put(into, OLD)
    strike = Strike(into, name, "file", precious)
    with pytest.MonkeyPatch.context() as patch:
        strike.over(patch)
        assert attempt(into) == ""
    return strike.could, strike.close


def as_nobody(work):
    """Whether a child that is another user, and owns nothing here, came to the end of its work."""
    child = os.fork()
    if not child:
        code = 1
        try:
            os.setgroups([])
            os.setgid(NOBODY)
            os.setuid(NOBODY)
            work()
            code = 0
        finally:
            os._exit(code)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 0


@pytest.fixture
def open_to_all():
    """An output folder in which every user may write, as no folder of pytest is."""
    with tempfile.TemporaryDirectory() as made:
        Path(made).chmod(0o777)
        (Path(made) / "site").mkdir()
        (Path(made) / "site").chmod(0o777)
        yield Path(made) / "site"


@pytest.mark.skipif(getattr(os, "geteuid", lambda: 1)() != 0, reason="only root can be another user")
@pytest.mark.parametrize("name", NAMES)
def test_what_belongs_to_another_user_is_not_touched_by_who_may_not(open_to_all, name):
    """A publish of somebody without rights: told, or goes on past it; what is root's, closed to all, stays to the byte."""
    into = open_to_all
    assert as_nobody(lambda: lay_out(into))
    path = into / name
    if os.path.lexists(path):
        path.rename(into.parent / "taken")
    KINDS["folder"](path, None)
    path.chmod(0o700)
    foreign = nodes(path)

    def publish():
        for aside in (False, True):
            told = attempt(into, aside=aside)
            assert bool(told) == (NAMES[name] == "refused" or (not aside and NAMES[name] == "set aside")), (
                told
            )

    assert as_nobody(publish)
    assert lost(foreign, into) == []
    assert NAMES[name] == "refused" or is_whole(into / "boat", NEW)
    assert program.main(["inspect", str(into)]) in (0, 1)


@pytest.mark.skipif(getattr(os, "geteuid", lambda: 1)() != 0, reason="only root can be another user")
def test_a_manual_that_another_user_published_is_refused(open_to_all):
    """Also to root, who could remove it."""
    assert as_nobody(lambda: put(open_to_all, OLD))
    said = attempt(open_to_all)
    assert "belongs to another user" in said
    assert attempt(open_to_all, aside=True) == ""
    assert is_whole(open_to_all / "boat", NEW)
    assert is_whole(open_to_all / "boat.set-aside-1", OLD)
