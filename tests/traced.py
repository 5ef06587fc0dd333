"""What a command of ours asks of the system: which files it reads and changes, which variables, programs and addresses.

The calls are those that strace sees, the engine's native libraries included; the variables those that Python code asks for.
"""

import json
import os
import re
import subprocess
import sys
from dataclasses import dataclass, field
from pathlib import Path

ROOT = Path(__file__).parent.parent
KINDS = "%file,%network,%process,fchmod,fchown,ftruncate"
CHANGES = re.compile(
    r"(mkdir|rename|unlink|rmdir|symlink|link|chmod|fchmod|chown|lchown|fchown|truncate|ftruncate|mknod|utime|utimes|utimens|"
    r"setxattr|lsetxattr|removexattr|creat|mount|umount2?)(at|at2)?$"
)
CALL = re.compile(r"^\d+ +(\w+)\((.*)")
PATH_AFTER_PLACE = re.compile(r'(?:(?:AT_FDCWD|\d+)<([^>]*)>, )?"((?:[^"\\]|\\.)*)"')
OPENED = re.compile(r"^(?:AT_FDCWD|\d+)<([^>]*)>")
# Runs the command with an environment that notes what is asked of it, and tells at the end.
ASKING = """
import json, os, runpy, sys
asked = set()
class Asked(type(os.environ)):
    def __getitem__(self, name):
        asked.add(os.fsdecode(name))
        return super().__getitem__(name)
    def items(self):
        before = {*asked, "*"}
        every = dict(super().items())
        asked.clear()
        asked.update(before)
        return every.items()
os.environ.__class__ = Asked
told = sys.argv.pop(1)
try:
    runpy.run_module("generator", run_name="__main__", alter_sys=True)
finally:
    with open(told, "w") as file:
        json.dump(sorted(asked), file)
"""


@dataclass
class Traced:
    """What became of a command, and what it asked for."""

    code: int
    out: str
    read: set[str] = field(default_factory=set)
    changed: set[str] = field(default_factory=set)
    asked: set[str] = field(default_factory=set)
    run: list[str] = field(default_factory=list)
    network: list[str] = field(default_factory=list)


def traced(folder: Path, *argv: str, typed: bytes | None = None, **more: str) -> Traced:
    """A command of ours, run in a folder; `typed` comes from a terminal, `more` are variables beside those of the tests."""
    log, told = folder / "calls.strace", folder / "asked.json"
    environment = {
        **os.environ,
        "PYTHONPATH": str(ROOT),
        "PYTHONDONTWRITEBYTECODE": "1",
        "PYTHONPYCACHEPREFIX": "",
        **more,
    }
    keyboard, terminal = os.openpty() if typed else (None, subprocess.DEVNULL)
    if typed:
        os.write(keyboard, typed)
    done = subprocess.run(
        ["strace", "-f", "-qq", "-y", "-s", "4096", "-e", f"trace={KINDS}", "-e", "signal=none", "-o", str(log),
         sys.executable, "-c", ASKING, str(told), *argv],
        cwd=folder, env=environment, capture_output=True, text=True, check=False, stdin=terminal,
    )  # fmt: skip
    if typed:
        os.close(keyboard)
        os.close(terminal)
    found = Traced(done.returncode, done.stdout + done.stderr, asked=set(json.loads(told.read_text())))
    for line in log.read_text(encoding="utf-8", errors="replace").splitlines():
        if match := CALL.match(line):
            note(found, match[1], match[2], folder)
    ours = {str(told), str(log)}
    for paths in (found.read, found.changed):
        paths.difference_update(
            ours, [path for path in paths if not path.startswith("/")]
        )  # pipes have no path
    return found


def note(found: Traced, call: str, rest: str, folder: Path) -> None:
    """Files one call where it belongs; what was only looked for, and is not there, is no reading."""
    failed = re.search(r"\) += -1 E", rest)
    if call.startswith("exec") and not failed:
        found.run.append(rest)
    elif call in (
        "socket",
        "socketpair",
        "connect",
        "bind",
        "sendto",
        "sendmsg",
        "sendmmsg",
        "listen",
        "accept",
        "accept4",
    ):
        found.network.append(f"{call}({rest}")
    elif call in ("fork", "vfork") or (call.startswith("clone") and "CLONE_THREAD" not in rest):
        found.run.append(f"{call}({rest}")
    else:
        paths = [
            os.path.normpath(Path(place or folder) / name) for place, name in PATH_AFTER_PLACE.findall(rest)
        ]
        if call.startswith("readlink"):  # what it leads to is read on its own, if at all
            del paths[1:]
        if call in ("fchmod", "fchown", "ftruncate"):
            paths = [re.match(r"\d+<([^>]*)>", rest)[1]]
        opened_to_write = call.startswith("open") and re.search(
            r"O_WRONLY|O_RDWR|O_CREAT|O_TRUNC|O_APPEND", rest
        )
        if CHANGES.match(call) or opened_to_write:
            found.changed.update(paths)
        elif not failed:
            found.read.update(paths)
