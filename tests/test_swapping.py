"""One boat's folder is replaced as a whole or not at all, and only what the program wrote is ever removed."""

import json
import os
import signal
import sys
from pathlib import Path

import pytest

from generator.machine import swapping
from generator.machine.swapping import Refused, digest, foreign_files, manifest_of, recover, swap_in

OLD = {"guest/index.html": b"old start", "guest/fonts/a.woff2": b"font", "crew/book.pdf": b"old book"}
NEW = {"guest/index.html": b"new start", "guest/plan.html": b"new plan", "crew/book.pdf": b"new book"}


def manifest(files):
    return {
        "surveyed-on": "2026-06-01",
        "files": {name: {"output": "site", "sha256": digest(data)} for name, data in files.items()},
    }


def put(into, files):
    return swap_in(into, "boat", files, manifest(files))


def held(folder):
    """The files of a folder, the manifest apart."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file() and path != folder / swapping.MANIFEST
    }


@pytest.fixture(params=["exchanged", "renamed"])
def variant(request, monkeypatch):
    """With the system's exchange, and without."""
    if request.param == "renamed":
        monkeypatch.setattr(swapping, "exchange", lambda one, other: False)
    return request.param


def test_the_first_publishing_makes_the_folder(tmp_path, variant):
    folder = put(tmp_path / "site", OLD)
    assert (folder, held(folder)) == (tmp_path / "site/boat", OLD)
    assert manifest_of(folder) == manifest(OLD)
    assert [path.name for path in (tmp_path / "site").iterdir()] == ["boat"]


def test_a_second_one_replaces_it_whole(tmp_path, variant):
    put(tmp_path, OLD)
    folder = put(tmp_path, NEW)
    assert held(folder) == NEW
    assert not (folder / "guest/fonts").exists()
    assert [path.name for path in tmp_path.iterdir()] == ["boat"], "something was left behind"


def test_the_exchange_is_one_step_where_the_system_has_it(tmp_path):
    one, other = tmp_path / "one", tmp_path / "other"
    one.mkdir()
    other.mkdir()
    (one / "a").write_bytes(b"")
    if sys.platform == "linux":
        assert swapping.exchange(one, other)
        assert (other / "a").exists()
        assert not list(one.iterdir())
    assert not swapping.exchange(one, tmp_path / "nowhere")


@pytest.mark.parametrize("fault", [AttributeError, OSError, TypeError])
def test_a_system_without_exchange_says_so(tmp_path, monkeypatch, fault):
    def none(*_args, **_more):
        raise fault

    monkeypatch.setattr(swapping.ctypes, "CDLL", none)
    assert swapping.exchange(tmp_path, tmp_path) is False


def spoil_added(folder):
    (folder / "guest/notes.txt").write_text("my own")
    return "guest/notes.txt"


def spoil_changed(folder):
    (folder / "guest/index.html").write_text("edited by hand")
    return "guest/index.html"


def spoil_linked(folder):
    (folder / "guest/link").symlink_to(folder.parent)
    return "guest/link"


def spoil_listed_by_a_link(folder):
    (folder / "guest/index.html").rename(folder.parent / "elsewhere")
    (folder / "guest/index.html").symlink_to(folder.parent / "elsewhere")
    return "guest/index.html"


def spoil_manifest_removed(folder):
    (folder / swapping.MANIFEST).unlink()
    return "crew/book.pdf, guest/fonts/a.woff2, guest/index.html"


def spoil_manifest_of_another_program(folder):
    (folder / swapping.MANIFEST).write_text('{"files": {"guest/index.html": 1}}')
    return "crew/book.pdf, guest/fonts/a.woff2, guest/index.html and 1 more"


def spoil_pipe(folder):
    os.mkfifo(folder / "guest/pipe")
    return "guest/pipe"


@pytest.mark.parametrize(
    "spoil",
    [
        spoil_added,
        spoil_changed,
        spoil_linked,
        spoil_listed_by_a_link,
        spoil_manifest_removed,
        spoil_manifest_of_another_program,
        spoil_pipe,
    ],
    ids=lambda one: one.__name__,
)
def test_a_folder_with_foreign_files_is_refused(tmp_path, variant, spoil):
    folder = put(tmp_path, OLD)
    name = spoil(folder)
    before = sorted(folder.rglob("*"))
    with pytest.raises(Refused, match="that musterbook did not write") as refused:
        put(tmp_path, NEW)
    assert (
        f": {name}. Move them elsewhere, or choose another folder with --into; nothing was replaced"
        in str(refused.value)
    )
    assert sorted(folder.rglob("*")) == before
    assert not [path for path in tmp_path.iterdir() if path.name.startswith(".boat")]


@pytest.mark.parametrize("kind", ["file", "link", "dead link"])
def test_something_else_in_the_folder_s_place_is_refused(tmp_path, kind):
    if kind == "file":
        (tmp_path / "boat").write_text("a file")
    else:
        (tmp_path / "boat").symlink_to(tmp_path.parent if kind == "link" else tmp_path / "nowhere")
    with pytest.raises(Refused, match="is no plain folder"):
        put(tmp_path, NEW)
    assert not (tmp_path / "boat").is_dir() or (tmp_path / "boat").is_symlink()


def test_what_systems_leave_in_folders_is_no_foreign_file(tmp_path, variant):
    folder = put(tmp_path, OLD)
    for name in (".DS_Store", "guest/Thumbs.db", "crew/desktop.ini"):
        (folder / name).write_bytes(b"x")
    assert foreign_files(folder) == []
    assert held(put(tmp_path, NEW)) == NEW
    assert [path.name for path in tmp_path.iterdir()] == ["boat"]


def test_a_listed_file_that_somebody_removed_hinders_nothing(tmp_path, variant):
    (put(tmp_path, OLD) / "guest/index.html").unlink()
    assert held(put(tmp_path, NEW)) == NEW


def test_an_empty_folder_is_ours_to_fill(tmp_path, variant):
    (tmp_path / "boat").mkdir()
    assert held(put(tmp_path, NEW)) == NEW


def test_what_stands_beside_the_folder_is_left_alone(tmp_path, variant):
    (tmp_path / "README.md").write_text("ours")
    (tmp_path / "other").mkdir()
    put(tmp_path, OLD)
    put(tmp_path, NEW)
    assert {path.name for path in tmp_path.iterdir()} == {"README.md", "other", "boat"}


def test_a_file_laid_into_the_folder_while_writing_is_not_lost(tmp_path, variant, monkeypatch):
    folder = put(tmp_path, OLD)
    write = swapping._write

    def write_slowly(*args):
        write(*args)
        spoil_added(folder)

    monkeypatch.setattr(swapping, "_write", write_slowly)
    with pytest.raises(Refused):
        put(tmp_path, NEW)
    assert held(folder) == OLD | {"guest/notes.txt": b"my own"}
    assert [path.name for path in tmp_path.iterdir()] == ["boat"]


def test_a_file_found_in_a_replaced_folder_is_kept_and_named(tmp_path):
    left = tmp_path / ".boat.musterbook-old"
    put(tmp_path, OLD).rename(left)
    put(tmp_path, NEW)
    assert not left.exists()
    put(tmp_path, OLD).rename(left)
    spoil_added(left)
    with pytest.raises(Refused, match=r"\.boat\.musterbook-old holds files .*: guest/notes\.txt"):
        put(tmp_path, NEW)
    assert (left / "guest/notes.txt").read_text() == "my own"


def test_a_full_disk_leaves_the_old_manual_and_no_litter(tmp_path, variant, monkeypatch):
    put(tmp_path, OLD)
    write = Path.write_bytes
    written = []

    def full(self, data):
        written.append(self)
        if len(written) == 2:
            write(self, data[:3])
            raise OSError(28, "No space left on device", str(self))
        return write(self, data)

    monkeypatch.setattr(Path, "write_bytes", full)
    with pytest.raises(OSError, match="No space left"):
        put(tmp_path, NEW)
    monkeypatch.undo()
    assert held(tmp_path / "boat") == OLD
    assert [path.name for path in tmp_path.iterdir()] == ["boat"]


@pytest.mark.parametrize("failing", [1, 2])
def test_a_rename_that_fails_is_taken_back(tmp_path, monkeypatch, failing):
    put(tmp_path, OLD)
    rename, seen = os.rename, []

    def refuse(one, other):
        seen.append(one)
        if len(seen) == failing:
            raise PermissionError(13, "Permission denied", str(one))
        rename(one, other)

    monkeypatch.setattr(swapping, "exchange", lambda one, other: False)
    monkeypatch.setattr(swapping.os, "rename", refuse)
    with pytest.raises(PermissionError):
        put(tmp_path, NEW)
    monkeypatch.undo()
    assert held(tmp_path / "boat") == OLD
    assert held(put(tmp_path, NEW)) == NEW
    assert [path.name for path in tmp_path.iterdir()] == ["boat"]


def count_down(call, variant):
    """From now on this process kills itself at its `call`th call to the file system; a file being written is then half there."""
    left = [call]

    def counted(function, half=None):
        def run(*args, **more):
            left[0] -= 1
            if left[0] == 0:
                if half:
                    half(*args)
                os.kill(os.getpid(), signal.SIGKILL)
            return function(*args, **more)

        return run

    def half_a_file(path, data, *_):
        with open(path, "wb") as file:  # noqa: PTH123 - the methods of Path are stood in for here
            file.write(data[: len(data) // 2] if isinstance(data, bytes) else data[: len(data) // 2].encode())

    for name in ("rename", "fsync"):
        setattr(os, name, counted(getattr(os, name)))
    for name in ("mkdir", "unlink", "rmdir"):
        setattr(Path, name, counted(getattr(Path, name)))
    for name in ("write_bytes", "write_text"):
        setattr(Path, name, counted(getattr(Path, name), half_a_file))
    swapping.exchange = counted(swapping.exchange) if variant == "exchanged" else lambda one, other: False


def kill_at(call, into, variant):
    """Whether a process of its own that swaps in the new manual was killed at its `call`th call to the file system."""
    child = os.fork()
    if not child:
        done = 1
        try:
            count_down(call, variant)
            put(into, NEW)
            done = 0
        finally:
            os._exit(done)
    code = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    assert code in (0, -signal.SIGKILL)
    return code != 0


FEW = 60  # more calls than this would mean that the swap has become something else
posix = pytest.mark.skipif(
    not hasattr(os, "fork"), reason="kills a process of its own with a signal of POSIX"
)


@posix
@pytest.mark.thorough
@pytest.mark.parametrize("way", ["exchanged", "renamed"])
def test_a_kill_at_any_instant_leaves_the_old_manual_or_the_new_one(tmp_path, way):
    if way == "exchanged" and sys.platform != "linux":
        pytest.skip("the system has no exchange of folders")
    outcomes = []
    for call in range(1, FEW):
        into = tmp_path / str(call)
        put(into, OLD)
        if not kill_at(call, into, way):
            break
        if way == "exchanged":  # whole at every instant, before anything is mended
            assert held(into / "boat") in (OLD, NEW), f"killed at call {call}"
        recover(into, "boat")
        files = held(into / "boat")
        assert files in (OLD, NEW), f"killed at call {call}"
        assert manifest_of(into / "boat") == manifest(files)
        assert [path.name for path in into.iterdir()] == ["boat"], f"litter after a kill at call {call}"
        outcomes.append("old" if files == OLD else "new")
        assert held(put(into, NEW)) == NEW
    else:
        pytest.fail("the swap never ended")
    assert outcomes == sorted(outcomes, reverse=True), "once the new manual stands it stays"
    assert {"old", "new"} == set(outcomes)
    assert len(outcomes) > 15, "the kills missed the work"


@posix
@pytest.mark.thorough
def test_a_kill_in_the_first_publishing_leaves_nothing_or_all(tmp_path):
    for call in range(1, FEW):
        into = tmp_path / str(call)
        if not kill_at(call, into, "exchanged"):
            break
        recover(into, "boat")
        assert not (into / "boat").exists() or held(into / "boat") == NEW
        assert held(put(into, NEW)) == NEW
    else:
        pytest.fail("the swap never ended")


def test_the_manifest_is_the_same_text_each_time(tmp_path):
    folder = put(tmp_path, OLD)
    text = (folder / swapping.MANIFEST).read_bytes()
    put(tmp_path, dict(reversed(OLD.items())))
    assert (folder / swapping.MANIFEST).read_bytes() == text
    assert b"\r" not in text
    assert json.loads(text)["files"].keys() == OLD.keys()
