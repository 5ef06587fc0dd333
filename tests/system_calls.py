"""A process struck at one of its system calls: killed before it is made, or answered with an error instead."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
CHANGING = (
    "openat", "write", "fsync", "mkdirat", "mkdir", "unlinkat", "rmdir", "renameat2", "renameat", "rename",
    "ftruncate", "flock",
)  # fmt: skip
READING = ("openat", "read", "getdents64")
_LINE = re.compile(r"\d+ +(\w+)\((.*)")


@dataclass(frozen=True)
class Call:
    """The n-th call of that name in a run; `shown` is what it was called with."""

    name: str
    number: int
    shown: str

    def __str__(self) -> str:
        return f"{self.name} number {self.number}: {self.shown[:80]}"


class Tracer:
    """Runs commands of Python under strace; `always` are injections that hold in every run."""

    def __init__(self, strace: str, *always: str) -> None:
        self.strace, self.always = strace, [part for each in always for part in ("-e", f"inject={each}")]

    def _run(self, command, names, *options, **more):
        environment = {
            **os.environ,
            "PYTHONPATH": f"{ROOT}{os.pathsep}{ROOT / 'tests'}",
            "PYTHONHASHSEED": "0",
        }
        traced = ",".join(sorted({*names, *(["renameat2"] if self.always else [])}))
        return subprocess.run(
            [
                self.strace,
                "-f",
                "-qq",
                "-e",
                f"trace={traced}",
                *self.always,
                *options,
                sys.executable,
                *command,
            ],
            env=environment,
            cwd=ROOT,
            capture_output=True,
            text=True,
            check=False,
            timeout=120,
            **more,
        )

    def calls(self, command, log: Path, begins: str = "musterbook-lock") -> list[Call]:
        """Every call of a run that goes through, from the first that names `begins` on."""
        done = self._run(command, (*CHANGING, *READING), "-o", str(log))
        assert done.returncode == 0, done.stderr
        counted: dict[str, int] = {}
        found, begun = [], False
        for match in filter(None, map(_LINE.match, log.read_text(errors="replace").splitlines())):
            name = match[1]
            counted[name] = counted.get(name, 0) + 1
            begun = begun or begins in match[2]
            if begun:
                found.append(Call(name, counted[name], match[2]))
        assert begun
        return found

    def kill(self, command, call: Call):
        """A run that is killed as it makes this call."""
        done = self._run(
            command,
            (call.name,),
            "-o",
            os.devnull,
            "-e",
            f"inject={call.name}:signal=KILL:when={call.number}",
        )
        assert done.returncode in (-9, 137), f"{call} was not reached: {done.returncode} {done.stderr}"
        return done

    def fail(self, command, call: Call, error: str):
        """A run in which this call is answered with an error."""
        return self._run(
            command,
            (call.name,),
            "-o",
            os.devnull,
            "-e",
            f"inject={call.name}:error={error}:when={call.number}",
        )


def changing(calls: list[Call]) -> list[Call]:
    """The calls that change something on the disk, or take the lock."""
    return [
        each
        for each in calls
        if each.name in CHANGING
        and "(INJECTED)" not in each.shown
        and (each.name != "openat" or "O_CREAT" in each.shown)
        and not (each.name == "write" and each.shown.startswith(("1,", "2,")))
    ]


def reading(calls: list[Call]) -> list[Call]:
    """The calls that open a file or folder or read in it."""
    return [each for each in calls if each.name in READING and "O_CREAT" not in each.shown]
