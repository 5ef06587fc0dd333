"""The lock of a boat's place: the system's own, on a file that is ours, in a folder that goes again if it was made for nothing."""

import errno
import os
import threading
from pathlib import Path

import pytest

from generator.machine import folders, locking
from generator.machine.folders import Busy, Refused
from generator.machine.locking import WORDS, lock_name, locked

NAME = lock_name("boat")


def test_the_lock_goes_and_leaves_nothing(tmp_path):
    with locked(tmp_path, "boat"):
        assert (tmp_path / NAME).read_bytes() == WORDS
    assert list(tmp_path.iterdir()) == []


def test_a_folder_made_for_it_goes_unless_something_came_into_it(tmp_path):
    with locked(tmp_path / "deep/site", "boat"):
        assert (tmp_path / "deep/site").is_dir()
    assert list(tmp_path.iterdir()) == []
    with locked(tmp_path / "deep/site", "boat"):
        (tmp_path / "deep/site/boat").mkdir()
    assert (tmp_path / "deep/site/boat").is_dir()


def test_a_second_one_is_told_after_a_short_wait_and_other_boats_are_not(tmp_path):
    with locked(tmp_path, "boat"), locked(tmp_path, "boat.proof-copy"):
        with pytest.raises(Busy, match=r"another publish is at work in .*/boat; nothing was done here"):
            locked(tmp_path, "boat", wait_s=0.1).__enter__()
        assert (tmp_path / NAME).exists()


def test_who_waits_comes_next(tmp_path):
    first = locked(tmp_path, "boat")
    first.__enter__()
    threading.Timer(0.2, lambda: first.__exit__(None, None, None)).start()
    with locked(tmp_path, "boat", wait_s=10):
        assert (tmp_path / NAME).read_bytes() == WORDS


def test_a_lock_that_the_run_before_took_away_is_not_taken_for_the_place_s(tmp_path, monkeypatch):
    """It is opened while another holds it, and had when that one has removed it: whoever comes then finds no lock there."""
    take, removed = locking._taken, []

    def taken(handle, path):
        if not removed:
            removed.append((tmp_path / NAME).unlink())
        return take(handle, path)

    monkeypatch.setattr(locking, "_taken", taken)
    with locked(tmp_path, "boat"), pytest.raises(Busy):
        locked(tmp_path, "boat", wait_s=0).__enter__()


def test_a_folder_that_the_run_before_took_away_in_the_making_is_made_again(tmp_path, monkeypatch):
    """`mkdir` finds it there, and when it looks whether it is a folder, it has gone."""
    into, made, make = tmp_path / "site", [], Path.mkdir

    def taken_away(path, *arguments, **named):
        made.append(path)
        if len(made) == 1:
            raise FileExistsError(errno.EEXIST, "File exists")
        make(path, *arguments, **named)

    monkeypatch.setattr(Path, "mkdir", taken_away)
    with locked(into, "tern", 1) as folder:
        assert folder.path == into
    assert len(made) == 2


def test_a_folder_below_a_file_is_refused_at_once(tmp_path):
    (tmp_path / "site").write_bytes(b"no folder")
    with pytest.raises((FileExistsError, NotADirectoryError)), locked(tmp_path / "site", "tern", 30):
        pass


def test_a_lock_file_that_was_left_is_taken_up(tmp_path):
    for left in (b"", WORDS):
        (tmp_path / NAME).write_bytes(left)
        with locked(tmp_path, "boat", wait_s=0):
            assert (tmp_path / NAME).read_bytes() == WORDS
        assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("words", [b"m", WORDS + b"more", b"somebody's own notes", b"\0" * 10_000])
def test_a_file_of_its_name_with_other_words_is_refused_and_left(tmp_path, words):
    (tmp_path / NAME).write_bytes(words)
    with pytest.raises(Refused, match="is no file of musterbook's; move it away"):
        locked(tmp_path, "boat").__enter__()
    assert (tmp_path / NAME).read_bytes() == words


@pytest.mark.parametrize("code", [errno.ENOLCK, errno.EOPNOTSUPP, errno.ENOSYS])
def test_a_file_system_without_locks_is_told_with_what_to_do(tmp_path, monkeypatch, code):
    def none(*_):
        raise OSError(code, os.strerror(code))

    monkeypatch.setattr(locking.fcntl, "flock", none)
    with pytest.raises(Refused, match=r"cannot lock, .*; publish into a folder on a disk of this machine"):
        locked(tmp_path, "boat").__enter__()


def test_a_full_disk_does_not_hinder_the_lock(tmp_path, monkeypatch):
    def full(*_):
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "write", full)
    with locked(tmp_path, "boat"):
        assert (tmp_path / NAME).read_bytes() == b""
    assert list(tmp_path.iterdir()) == []


def test_an_output_folder_that_is_a_link_is_where_the_user_points(tmp_path):
    (tmp_path / "real").mkdir()
    (tmp_path / "site").symlink_to("real")
    with locked(tmp_path / "site", "boat"):
        assert (tmp_path / "real" / NAME).exists()
    assert (tmp_path / "site").is_symlink()


@pytest.mark.parametrize("fault", [AttributeError, OSError, TypeError])
def test_a_system_without_the_exchange_says_so(tmp_path, monkeypatch, fault):
    def none(*_args, **_more):
        raise fault

    folders._library.cache_clear()
    monkeypatch.setattr(folders.ctypes, "CDLL", none)
    with folders.Folder.at(tmp_path) as folder:
        folder.make("one").close()
        folder.make("other").close()
        assert folder.exchange("one", "other") is False
        with pytest.raises(FileExistsError):
            folder.move("one", folder, "other")
        folder.move("one", folder, "third")
        assert folder.names() == ["other", "third"]
    folders._library.cache_clear()


def test_what_bears_a_name_that_does_not_print_is_shown_all_the_same():
    assert folders.shown("a\nb\x1b[31m\udc80 ö") == r"a\nb\x1b[31m\udc80 ö"


@pytest.mark.parametrize("leads_to", ["nowhere", "site"])
def test_a_link_that_leads_nowhere_is_told_as_what_it_is(tmp_path, leads_to):
    (tmp_path / "site").symlink_to(tmp_path / leads_to)
    with pytest.raises(Refused, match="is a link that leads nowhere"):
        locked(tmp_path / "site", "boat").__enter__()


def test_a_folder_that_keeps_nothing_is_not_said_to_be_busy(tmp_path, monkeypatch):
    def gone(_path):
        raise FileNotFoundError

    monkeypatch.setattr(folders.Folder, "at", gone)
    with pytest.raises(Refused, match="nothing can be kept in") as told:
        locked(tmp_path, "boat", wait_s=0.1).__enter__()
    assert not isinstance(told.value, Busy)
