"""What is said on the terminal: it never stops the work, hides nothing, and is told where it could not be heard."""

from __future__ import annotations

import io
import os
from collections.abc import Iterator
from contextlib import contextmanager, redirect_stderr, redirect_stdout, suppress
from typing import IO, Any, Protocol, cast

from generator.reading.visible import spoken


class Streams(Protocol):
    """Who holds the three streams of a program: the module sys. One that the caller closed is None."""

    stdin: Any
    stdout: Any
    stderr: Any


class Voice:
    """Writes to a stream what may be shown of each text; what can no longer be written is dropped.

    Whoever stopped reading (a closed pipe) has seen enough: that is no loss.
    """

    def __init__(self, stream: IO[str]):
        self.stream = stream
        self._failure: OSError | None = None
        self._silent = False

    def lost(self) -> str:
        """Why not all could be written; "" where it could."""
        self.flush()
        return (self._failure.strerror or str(self._failure)) if self._failure else ""

    def write(self, text: str) -> int:
        """Writes the text, or drops it."""
        if not self._silent:
            try:
                self.stream.write(spoken(text))
            except OSError as error:
                self._fall_silent(error)
        return len(text)

    def flush(self) -> None:
        """Brings what was written to its reader."""
        if not self._silent:
            try:
                self.stream.flush()
            except OSError as error:
                self._fall_silent(error)

    def _fall_silent(self, error: OSError) -> None:
        """Leads what is still kept back nowhere, so that it is not tried again when the program ends."""
        self._silent = True
        if not isinstance(error, BrokenPipeError):
            self._failure = error
        with suppress(OSError, ValueError):
            _lead_nowhere(self.stream.fileno())

    def __getattr__(self, name: str) -> Any:
        return getattr(self.stream, name)


@contextmanager
def heard(streams: Streams) -> Iterator[Voice]:
    """While it lasts both outputs of the program speak by a Voice each; gives that of standard output."""
    for number, name in enumerate(("stdin", "stdout", "stderr")):
        stream = getattr(streams, name)
        if stream is None:  # closed: else the next file to be opened would be taken for it
            _lead_nowhere(number)
            mode = "w" if number else "r"
            setattr(
                streams,
                name,
                os.fdopen(number, mode, encoding="utf-8", errors="backslashreplace", closefd=False),
            )
        elif isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace" if number else "surrogateescape")
    out, err = Voice(streams.stdout), Voice(streams.stderr)
    with redirect_stdout(cast("IO[str]", out)), redirect_stderr(cast("IO[str]", err)):
        yield out
    err.flush()


def _lead_nowhere(number: int) -> None:
    """Makes a handle of the system one that drops all that is written and has nothing to be read."""
    nowhere = os.open(os.devnull, os.O_RDWR)
    if nowhere != number:
        os.dup2(nowhere, number)
        os.close(nowhere)
