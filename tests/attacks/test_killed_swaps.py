"""One writer at a time: a swap killed, or refused by the disk, at each of its system calls leaves the old manual or the new one."""

import json
import shutil
import sys
from pathlib import Path

import pytest
from berths import NAMED, NEW, OLD, held, is_whole, put
from specimens import files_in
from system_calls import Call, Tracer, changing, reading

from generator import __main__ as program

SWAP = ("-S", str(Path(__file__).resolve().parent.parent / "berths.py"))
pytestmark = [
    pytest.mark.attack("one-writer"),
    pytest.mark.thorough,
    pytest.mark.skipif(sys.platform != "linux", reason="strace is Linux's"),
]
NO_EXCHANGE = "renameat2:error=ENOSYS"


@pytest.fixture(params=["exchanged", "renamed"])
def tracer(request, strace_path):
    """With the system's exchange, and as on a system without it."""
    return Tracer(strace_path, *([NO_EXCHANGE] if request.param == "renamed" else []))


def foreign(into):
    put(into, OLD)
    (into / "boat/guest/notes.txt").write_text("my own")


def nothing(into):
    into.mkdir()


def window(into):
    """As a kill between the two renames leaves it."""
    put(into, OLD)
    put(into, NEW, "other")
    (into / "boat").rename(into / ".boat.musterbook-old-00000000000000aa")
    (into / "other").rename(into / ".boat.musterbook-new-00000000000000bb")
    from generator.machine import swapping

    journal = swapping._Journal(
        ".boat.musterbook-new-00000000000000bb", ".boat.musterbook-old-00000000000000aa"
    )
    (into / ".boat.musterbook-journal").write_bytes(journal.text)


# What stands there before; what is done; what may stand there at any instant, None for nothing.
SCENES = {
    "replace": (lambda into: put(into, OLD), ("new",), (OLD, NEW)),
    "first": (nothing, ("new",), (None, NEW)),
    "set aside": (foreign, ("new", "aside"), (None, NEW)),
    "finish": (window, ("new", "recover"), (None, NEW)),
}


def stands(into, may_be):
    """Which of the manuals stands, whole; fails where it is none of them."""
    if not (into / "boat").exists():
        return None if None in may_be else pytest.fail("the boat's folder is gone")
    for files in may_be:
        if files is not None and is_whole(into / "boat", files):
            return files
    if held(into / "boat") == OLD | {"guest/notes.txt": b"my own"}:
        return "foreign"
    return pytest.fail(f"torn: {sorted(held(into / 'boat'))}")


def names(into, aside=False):
    return sorted(path.name for path in into.iterdir() if not (aside and "set-aside" in path.name))


@pytest.mark.one_in(2, "scene")
@pytest.mark.parametrize("scene", SCENES)
def test_a_kill_at_every_call_that_changes_something(tracer, scene, tmp_path, tried, capsys):
    lay, how, may_be = SCENES[scene]
    lay(tmp_path / "dry")
    command = [*SWAP, str(tmp_path / "dry"), *how]
    struck = changing(tracer.calls(command, tmp_path / "log"))
    if tracer.always and scene != "first":
        may_be = (*may_be, None)  # the window of the two renames, which the journal tells of
    seen = []
    for number, call in enumerate(struck):
        into = tmp_path / str(number)
        lay(into)
        tracer.kill([*SWAP, str(into), *how], call)
        left = stands(into, may_be)
        seen.append("old" if left in (OLD, "foreign") else "none" if left is None else "new")
        if left is None and OLD in may_be:
            assert (into / ".boat.musterbook-journal").exists(), f"no manual and no journal after {call}"
        shutil.copytree(into, tmp_path / "looked-at", symlinks=True)
        look_at(tmp_path / "looked-at", call, lost=scene in ("first", "set aside"), capsys=capsys)
        shutil.rmtree(tmp_path / "looked-at")
        put(into, NEW, aside=scene == "set aside")
        assert is_whole(into / "boat", NEW), call
        assert names(into, scene == "set aside") == ["boat"], f"litter after {call}"
        if scene == "set aside":
            kept = [path for path in into.glob("boat.set-aside-*") if (path / "guest/notes.txt").exists()]
            assert [held(path) for path in kept] == [OLD | {"guest/notes.txt": b"my own"}], call
        shutil.rmtree(into)
    assert len(struck) > 10, "the kills missed the work"
    assert "new" in seen
    tried(len(struck))


def look_at(into, call, lost, capsys):
    """Inspecting finishes what was broken off; then a manual stands there, unless none ever did."""
    code = program.main(["inspect", str(into / "boat"), "--as-of", "2026-06-01"])
    said = capsys.readouterr()
    if (into / "boat").exists():
        files = held(into / "boat")
        whole = any(is_whole(into / "boat", each) for each in (OLD, NEW))
        assert code == (0 if whole else 1), (call, said)
        assert whole or "guest/notes.txt" in files, (call, said)
        assert ": whole\n" in said.out or "not musterbook's: guest/notes.txt" in said.out
        assert names(into, aside=not whole or lost) == ["boat"], f"litter after {call}, inspected"
    else:
        assert lost, f"no manual after {call}, inspected: {said}"
        assert code == 2


ERRORS = ("ENOSPC", "EIO", "EACCES")


@pytest.mark.parametrize("error", ERRORS)
def test_an_error_at_every_call_that_changes_something(tracer, error, tmp_path, tried, one_in):
    """Every call meets one of the errors; with --all-mutants each."""
    struck = struck_by(tracer, changing, tmp_path)
    chosen = struck[ERRORS.index(error) % one_in(len(ERRORS)) :: one_in(len(ERRORS))]
    for number, call in enumerate(chosen):
        refused(tracer, call, error, tmp_path / str(number))
    tried(len(chosen), of=len(struck))


def test_an_error_at_every_look(strace_path, tmp_path, tried, one_in):
    """At one look in three; with --all-mutants at each."""
    tracer = Tracer(strace_path)
    struck = struck_by(tracer, reading, tmp_path)
    chosen = struck[:: one_in(3)]
    for number, call in enumerate(chosen):
        refused(tracer, call, "EIO", tmp_path / str(number))
    tried(len(chosen), of=len(struck))


COMMANDS = 12


def test_a_whole_command_killed_now_and_then(strace_path, tmp_path, tried, one_in):
    """The command itself, at calls spread over all that touch the output folder, the exchange and those beside it among them.

    At twelve of them with --all-mutants, else at half as many.
    """
    tracer = Tracer(strace_path)
    command = ["-m", "generator", "publish", "vessels/saltmeadow", "--only", "site", "--into"]
    for name, day in (("old", "2026-06-01"), ("new", "2026-06-02")):
        assert program.main([*command[2:], str(tmp_path / name), "--as-of", day]) == 0
    old, new = (files_in(tmp_path / name) for name in ("old", "new"))
    assert old != new
    shutil.copytree(tmp_path / "old", tmp_path / "dry")
    struck = changing(
        tracer.calls([*command, str(tmp_path / "dry"), "--as-of", "2026-06-02"], tmp_path / "log")
    )
    swap = next(at for at, call in enumerate(struck) if "RENAME_EXCHANGE" in call.shown)
    between = COMMANDS // one_in(2) - 3
    chosen = {*range(0, len(struck), len(struck) // between), swap, swap + 1, len(struck) - 1}
    for at in sorted(chosen):
        into = tmp_path / "struck"
        shutil.copytree(tmp_path / "old", into)
        tracer.kill([*command, str(into), "--as-of", "2026-06-02"], struck[at])
        assert files_in(into / "saltmeadow") == {
            name.partition("/")[2]: data for name, data in (old if at <= swap else new).items()
        }, struck[at]
        assert program.main(["inspect", str(into), "--as-of", "2026-06-02"]) == 0, struck[at]
        assert files_in(into) in (old, new), f"litter after {struck[at]}"
        shutil.rmtree(into)
    tried(len(chosen), of=COMMANDS)


def struck_by(tracer, which, tmp_path):
    put(tmp_path / "dry", OLD)
    return which(tracer.calls([*SWAP, str(tmp_path / "dry"), "new"], tmp_path / "log"))


def refused(tracer: Tracer, call: Call, error: str, into: Path):
    """Either it is told, and the old manual stays; or the error did no harm, and the new one stands."""
    put(into, OLD)
    done = tracer.fail([*SWAP, str(into), "new"], call, error)
    assert done.returncode in (0, 2), (call, done.stderr)
    if done.returncode:
        assert done.stderr.strip().startswith(("Refused: ", "OSError: ", "PermissionError: ")), (
            call,
            done.stderr,
        )
    left = stands(into, (OLD, NEW) if done.returncode == 0 else (OLD,))
    assert left is NEW or done.returncode == 2, f"nothing was told: {call}"
    said = json.loads(done.stdout) if done.returncode == 0 else []
    put(into, NAMED["new"])
    assert is_whole(into / "boat", NEW)
    assert names(into) == ["boat"] or said, f"litter after {call}"
    shutil.rmtree(into)
