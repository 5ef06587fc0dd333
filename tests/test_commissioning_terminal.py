"""Commission at a real terminal: whatever ends it, what was answered is on the disk and the next run goes on there."""

import os
import pty
import select
import signal
import subprocess
import sys
import time
from contextlib import suppress

import pytest

pytestmark = pytest.mark.thorough
PATIENCE_S = 60


class Session:
    """The program at a terminal of its own."""

    def __init__(self, folder, *more):
        self.terminal, theirs = pty.openpty()
        command = [sys.executable, "-m", "generator", "commission", "Tern", "--into", str(folder), *more]

        def at_it():
            signal.signal(signal.SIGINT, signal.default_int_handler)  # a run in the background ignores it
            os.login_tty(theirs)

        self.process = subprocess.Popen(command, preexec_fn=at_it)  # noqa: PLW1509 - the terminal is taken in the child
        os.close(theirs)
        self.shown = ""

    def until(self, words):
        """Reads until the words were shown; what was shown before them is forgotten."""
        end = time.monotonic() + PATIENCE_S
        while words not in self.shown:
            ready, _, _ = select.select([self.terminal], [], [], max(end - time.monotonic(), 0))
            assert ready, f"'{words}' never came: {self.shown[-500:]}"
            try:
                data = os.read(self.terminal, 4096)
            except OSError:
                data = b""
            assert data, f"it ended before '{words}': {self.shown[-500:]}"
            self.shown += data.decode("utf-8", "replace")
        self.shown = self.shown.partition(words)[2]

    def answer(self, question, text):
        self.until(question)
        self.until(" > ")
        os.write(self.terminal, text)

    def interrupt(self):
        """Ctrl-C as a person presses it: again where nothing happens, for between a prompt and its reading Python may lose one."""
        end = time.monotonic() + PATIENCE_S
        while self.process.poll() is None and time.monotonic() < end:
            os.write(self.terminal, b"\x03")
            with suppress(subprocess.TimeoutExpired):
                self.process.wait(1)

    def close(self):
        if self.terminal >= 0:
            os.close(self.terminal)
            self.terminal = -1

    def ended(self):
        """Its exit code, the last words read meanwhile."""
        end = time.monotonic() + PATIENCE_S
        while self.process.poll() is None and time.monotonic() < end:
            if self.terminal >= 0 and select.select([self.terminal], [], [], 0.05)[0]:
                try:
                    self.shown += os.read(self.terminal, 4096).decode("utf-8", "replace")
                except OSError:
                    self.close()
        return self.process.wait(1)


@pytest.fixture
def started():
    sessions = []

    def start(*given):
        sessions.append(Session(*given))
        return sessions[-1]

    yield start
    for each in sessions:
        each.close()
        each.process.kill()
        each.process.wait()


ENDS = {
    "Ctrl-C": (Session.interrupt, 130),
    "Ctrl-D": (lambda it: os.write(it.terminal, b"\x04"), 2),
    "SIGTERM": (lambda it: it.process.terminate(), -signal.SIGTERM),
    "SIGKILL": (lambda it: it.process.kill(), -signal.SIGKILL),
    "a closed terminal": (lambda it: it.close(), None),
}


@pytest.mark.parametrize("end", ENDS)
def test_whatever_ends_it_the_next_run_goes_on(tmp_path, started, end):
    first = started(tmp_path)
    first.answer("What hull is she?", b"trimaran\n")
    first.answer("Which roles", b"skipper, mate\n")
    first.until("In what is it kept")
    first.until(" > ")
    stop, code = ENDS[end]
    stop(first)
    ended = first.ended()
    assert ended == code or (code is None and ended in (2, -signal.SIGHUP))
    assert {each.name for each in (tmp_path / "tern").iterdir()} == {"first-answers.txt"}
    second = started(tmp_path)
    second.until("2 answers are kept for Tern in")
    second.answer("3 of 25. liferaft: In what is it kept", b"none\n")
    second.answer("fixed VHF", b"back\n")
    second.until("(answered: none; Enter alone keeps it)")
    second.until(" > ")
    os.write(second.terminal, b"back\n")
    second.until("(answered: skipper, mate; Enter alone keeps it)")
    second.until(" > ")
    os.write(second.terminal, b"skipper, mate, 5 guests\n")
    second.answer("fixed VHF", b"\xff\xfe\n")
    second.until("a character that cannot be printed")
    second.until(" > ")
    os.write(second.terminal, b"chart table, port\n")
    second.until(" > ")
    os.write(second.terminal, b"\n" * 30)
    second.until("A first look at her manual: musterbook publish")
    assert second.ended() == 0
    assert {each.name for each in (tmp_path / "tern").iterdir()} == {"vessel.yaml"}
    text = (tmp_path / "tern" / "vessel.yaml").read_text(encoding="utf-8")
    assert "type: trimaran" in text
    assert "where: chart table" in text
    assert "persons: 7" in text
