"""One writer at a time: publishes at once into one folder never tear a manual, and what they say is true."""

import multiprocessing
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from berths import NEW, OLD, held, is_whole, put

from generator import __main__ as program
from generator.machine import folders
from generator.machine.folders import Refused
from generator.machine.swapping import at_work

ROOT = Path(__file__).resolve().parents[2]
AT_MOST_S = 180
pytestmark = [pytest.mark.attack("one-writer"), pytest.mark.thorough]
posix = pytest.mark.skipif(not hasattr(os, "fork"), reason="forks")


def without_exchange():
    """As on a system that cannot exchange two folders."""
    folders._library.cache_clear()
    folders._library = lambda: None


def at_once(rounds, works, exchange=True):
    """Processes of their own, one a work, that all begin each round together; what each answered, by round.

    A work is called with the round's number in a child; `check` runs in the test's process while the children wait.
    """
    context = multiprocessing.get_context("fork")
    begin, end = context.Barrier(len(works) + 1), context.Barrier(len(works) + 1)
    answers = context.Queue()

    def run(number, work):
        if not exchange:
            without_exchange()
        for each in range(rounds):
            begin.wait(AT_MOST_S)
            try:
                answer = work(each)
            except Refused as error:
                answer = str(error)
            except BaseException as error:  # noqa: BLE001 - any other is a fault, and told by the test
                answer = repr(error)
            answers.put((number, answer))
            end.wait(AT_MOST_S)

    children = [context.Process(target=run, args=(number, work)) for number, work in enumerate(works)]
    for child in children:
        child.start()
    try:
        for each in range(rounds):
            begin.wait(AT_MOST_S)
            said = dict(answers.get(timeout=AT_MOST_S) for _ in works)
            yield each, [said[number] for number in range(len(works))]
            end.wait(AT_MOST_S)
    finally:
        for child in children:
            child.join(10)
            if child.is_alive():
                child.kill()


def manual(writer, each, many=6):
    """A manual that tells who wrote it in which round in every one of its files."""
    return {
        f"{reader}/{number}.html": f"{writer} {each}".encode() * 500
        for reader in ("crew", "guest")
        for number in range(many)
    }


@posix
@pytest.mark.parametrize("exchange", [True, False], ids=["exchanged", "renamed"])
def test_a_hundred_rounds_of_two_into_one_folder(tmp_path, tried, exchange, capsys):
    """Both are published, one after the other: the folder is wholly of one of them, and can be published into again."""
    works = [lambda each, writer=writer: put(tmp_path, manual(writer, each)) for writer in "ab"]
    for each, said in at_once(100, works, exchange):
        assert said == [[], []], each
        assert is_whole(tmp_path / "boat", manual("a", each)) or is_whole(
            tmp_path / "boat", manual("b", each)
        ), each
        assert [path.name for path in tmp_path.iterdir()] == ["boat"], each
        assert program.main(["inspect", str(tmp_path / "boat"), "--as-of", "2026-06-01"]) == 0, (
            capsys.readouterr()
        )
        if each % 10 == 0:
            put(tmp_path, OLD)
            assert is_whole(tmp_path / "boat", OLD)
    tried(100)


@posix
def test_who_does_not_wait_is_refused_and_says_so(tmp_path, tried):
    """Whoever is told of another publish has replaced nothing; whoever is not stands there, or was followed by one who does."""
    works = [lambda each, writer=writer: put(tmp_path, manual(writer, each), wait_s=0) for writer in "abcd"]
    refused = 0
    for each, said in at_once(30, works):
        others = [one for one in said if one != []]
        assert all(
            re.match(f"another publish is at work in {re.escape(str(tmp_path))}/boat;", one) for one in others
        ), said
        done = [writer for writer, one in zip("abcd", said, strict=True) if one == []]
        assert done
        assert any(is_whole(tmp_path / "boat", manual(writer, each)) for writer in done), (each, said)
        assert [path.name for path in tmp_path.iterdir()] == ["boat"]
        refused += len(others)
    assert refused > 10, "nobody met another"
    tried(30)


@posix
def test_four_boats_at_once_into_one_folder_that_is_not_there_yet(tmp_path, tried):
    """None waits for another; the folder is made by whoever comes first, and by nobody taken from under another."""

    def work(each, boat):
        return put(tmp_path / f"site-{each}", manual(boat, each, 3), boat, wait_s=0)

    works = [lambda each, boat=boat: work(each, boat) for boat in ("a", "b", "c", "c.proof-copy")]
    for each, said in at_once(25, works):
        into = tmp_path / f"site-{each}"
        assert said == [[], [], [], []], each
        assert sorted(path.name for path in into.iterdir()) == ["a", "b", "c", "c.proof-copy"]
        assert all(is_whole(into / boat, manual(boat, each, 3)) for boat in ("a", "b", "c", "c.proof-copy"))
    tried(25)


@posix
def test_folders_that_come_and_go_are_no_hindrance(tmp_path, tried):
    """One finds her vessel unsound each time and takes away the folder that was made for her lock, while another publishes."""
    into = tmp_path / "deep" / "site"

    def unsound(_each):
        with at_work(into, "b"):
            return []

    works = [unsound, unsound, lambda each: put(into, manual("a", each, 1), "a")]
    for each, said in at_once(40, works):
        assert said == [[], [], []], each
        assert is_whole(into / "a", manual("a", each, 1))
        for path in sorted(tmp_path.rglob("*"), reverse=True):
            path.rmdir() if path.is_dir() else path.unlink()
    tried(40)


@posix
def test_a_killed_publish_lets_go_of_the_lock_at_once(tmp_path):
    context = multiprocessing.get_context("fork")
    there = context.Event()

    def hold():
        with at_work(tmp_path, "boat"):
            there.set()
            context.Event().wait(AT_MOST_S)

    child = context.Process(target=hold)
    child.start()
    assert there.wait(AT_MOST_S)
    with pytest.raises(Refused, match="another publish is at work"):
        put(tmp_path, NEW, wait_s=0.1)
    child.kill()
    child.join(AT_MOST_S)
    put(tmp_path, NEW, wait_s=0)
    assert [path.name for path in tmp_path.iterdir()] == ["boat"]


def command(*argv, cwd):
    return subprocess.Popen(
        [sys.executable, "-m", "generator", *argv],
        cwd=cwd,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
    )


def test_whole_commands_at_once(tmp_path, tried):
    """Two of one boat and four boats: all published, all whole; what one boat's two commands wrote stands together."""
    boats = ("nordgyllen", "ombrelune", "saltmeadow", "zilte-wind")
    for each in range(2):
        into = str(tmp_path / f"site-{each}")
        asked = [("publish", f"{ROOT}/vessels/{boat}", "--only", "site", "--into", into) for boat in boats]
        asked.append(("publish", f"{ROOT}/vessels/saltmeadow", "--only", "calendar", "--into", into))
        running = [command(*argv, cwd=tmp_path) for argv in asked]
        said = [one.communicate(timeout=AT_MOST_S)[0] for one in running]
        assert [one.returncode for one in running] == [0] * 5, said
        assert all(": published -> " in one for one in said)
        assert sorted(path.name for path in Path(into).iterdir()) == list(boats)
        assert {"crew/calendar.ics", "guest/index.html"} <= held(Path(into) / "saltmeadow").keys()
        looked = command("inspect", into, "--as-of", "2026-06-01", cwd=tmp_path)
        assert looked.communicate(timeout=AT_MOST_S)[0].count(": whole\n") == 4
        assert looked.returncode == 0
    tried(2)
