"""Machines set differently: a copy of the checkout in another place, run by another user and Python, with all else upset.

What the program would have to ask the machine for, to make another manual of the same boat, is different on each.
"""

import importlib.metadata
import json
import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from locked import RUNS, locked
from specimens import files_in

ROOT = Path(__file__).parent.parent
NOBODY = 65534

# Folders tell their files in another order than here.
OTHER_ORDER = """
import os
listed, scanned = os.listdir, os.scandir
class Upside:
    def __init__(self, entries):
        with entries:
            self.entries = iter(sorted(entries, key=lambda each: each.name, reverse=True))
    def __iter__(self):
        return self.entries
    def __next__(self):
        return next(self.entries)
    def __enter__(self):
        return self
    def __exit__(self, *_):
        pass
    close = __exit__
os.listdir = lambda path=".": sorted(listed(path), reverse=True)
os.scandir = lambda path=".": Upside(scanned(path))
"""
# Every font is another, bold and slanted, and no letters are joined or kerned.
OTHER_FONTS = """<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "urn:fontconfig:fonts.dtd"><fontconfig>
<dir>/usr/share/fonts</dir><cachedir>{cache}</cachedir>
<match target="pattern"><edit name="family" mode="assign" binding="strong"><string>DejaVu Sans</string></edit></match>
<match target="font"><edit name="embolden" mode="assign"><bool>true</bool></edit>
<edit name="hintstyle" mode="assign"><const>hintfull</const></edit>
<edit name="fontfeatures" mode="append"><string>kern off</string><string>liga off</string></edit></match></fontconfig>"""


@dataclass(frozen=True)
class Machine:
    """How a machine is set; `environment` is all its variables, with {home} and {fonts} for places on it."""

    folder: str
    environment: dict[str, str]
    options: tuple[str, ...] = ()
    umask: int = 0o022
    niceness: int = 0
    cores: int | None = None
    nobody: bool = False
    python: str = sys.executable
    upside_down: bool = False
    last_touched: float = 86_400.0
    program_options: tuple[str, ...] = field(default=())

    @property
    def settings(self) -> int:
        """How many things are set on it."""
        others = (self.umask != 0o022, self.niceness, self.cores, self.nobody, self.python != sys.executable)
        return len(self.environment) + len(self.options) + sum(map(bool, others)) + self.upside_down + 2


def other_python() -> str:
    """The system's Python of the same minor version, for which the installed packages are good; where it has none, our own."""
    return shutil.which(f"python3.{sys.version_info.minor}", path="/usr/bin:/usr/local/bin") or sys.executable


def anybody_may_run(python: str) -> bool:
    """Whether other users reach a Python, and we may act as one."""
    there = [Path(python), Path(python).resolve()]
    return os.getuid() == 0 and all(
        up.stat().st_mode & 0o001 for each in there for up in (each, *each.parents)
    )


def lay_out(
    machine: Machine, place: Path, boat: str, add: Callable[[Path], None] = lambda _vessel: None
) -> Path:
    """The checkout and what it needs, copied to a place on that machine; returns the folder to work in."""
    home = place / machine.folder
    for name in ("vessels", "templates", "generator"):
        shutil.copytree(ROOT / name, home / name, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(ROOT / "pyproject.toml", home)
    add(home / "vessels" / boat)
    packages = home / "packages"
    for entry in locked():
        if entry.part == RUNS:
            for file in importlib.metadata.files(entry.name) or []:
                if ".." not in file.parts and file.suffix != ".pyc":
                    (packages / file).parent.mkdir(parents=True, exist_ok=True)
                    shutil.copyfile(file.locate(), packages / file)
    if machine.upside_down:
        (packages / "sitecustomize.py").write_text(OTHER_ORDER)
    (home / "fonts.conf").write_text(OTHER_FONTS.format(cache=home / "cache"))
    (home / "site").mkdir()
    for path in [home, *home.rglob("*")]:
        os.utime(path, (machine.last_touched, machine.last_touched))
        if machine.nobody:
            os.chown(path, NOBODY, NOBODY)
    return home


def publish(machine: Machine, home: Path, boat: str) -> dict[str, bytes]:
    """What a publish leaves there, by path; the modes of files and folders are those the machine asks for."""
    told = {
        name: value.format(home=home, fonts=home / "fonts.conf")
        for name, value in machine.environment.items()
    }
    environment = {"PYTHONPATH": os.pathsep.join((str(home), str(home / "packages"))), **told}
    command = [machine.python, *machine.options, "-m", "generator", "publish", f"vessels/{boat}"]

    def settle() -> None:
        os.nice(machine.niceness)
        if machine.cores:
            os.sched_setaffinity(0, sorted(os.sched_getaffinity(0))[: machine.cores])

    done = subprocess.run(
        [*command, "--into", "site", *machine.program_options], cwd=home, env=environment, umask=machine.umask,
        preexec_fn=settle, capture_output=True, check=False, **({"user": NOBODY, "group": NOBODY, "extra_groups": []} if machine.nobody else {}),
    )  # fmt: skip
    said = (done.stdout + done.stderr).decode("utf-8", "replace")
    assert done.returncode == 0, said
    assert done.stderr == b"", said
    folder = home / "site" / boat
    for path in folder.rglob("*"):
        whole = 0o777 if path.is_dir() else 0o666
        assert path.stat().st_mode & 0o7777 == whole & ~machine.umask, path
    return files_in(folder)


def differences(one: dict[str, bytes], other: dict[str, bytes]) -> list[str]:
    """The files that are not the same to the byte, or only on one side; of a manifest, which keys."""
    found = []
    for name in sorted(one.keys() | other.keys()):
        if one.get(name) != other.get(name):
            shown = name
            if name.endswith("manifest.json") and name in one and name in other:
                first, second = json.loads(one[name]), json.loads(other[name])
                shown = f"{name}: {[key for key in first if first[key] != second.get(key)]}"
            found.append(shown)
    return found
