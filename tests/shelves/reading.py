"""Shelves for tests: a file with one thing changed in it, and what is found; a copy of the program with templates of its own."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

from generator.manual import soundness
from generator.shelves.folder import templates_folder
from generator.shelves.index import SHELVES
from generator.shelves.shelf import as_installed, faults
from generator.survey.registry import all_checks

ROOT = Path(__file__).resolve().parents[2]


def known():
    """Every name that the program and the shelves give."""
    names = {**soundness.known(), "check": all_checks()}
    for shelf in SHELVES:
        names |= {
            kind: (*names.get(kind, ()), *given)
            for kind, given in shelf.gives(as_installed(shelf, templates_folder())[0]).items()
        }
    return names


def text_of(name):
    """A file of templates/ as it stands."""
    return (templates_folder() / name).read_text(encoding="utf-8")


def found(shelf, text, name="test.yaml"):
    """What is wrong with a file of a shelf, alone on it."""
    file, findings = shelf.read_text(text, name)
    return faults([(shelf, (file,) if file else (), findings)], known())


def place(text, mark):
    """The line and column, from 1, where `mark` first stands in a text."""
    at = text.index(mark)
    return text.count("\n", 0, at) + 1, at - text.rfind("\n", 0, at)


def told(shelf, name, change, mark):
    """The findings at `mark` after a (old, new) change in a file; each as message and remedy."""
    text = text_of(name)
    assert change[0] in text, change[0]
    text = text.replace(*change, 1)
    return [
        f"{each.message}: {each.remedy}"
        for each in found(shelf, text, name)
        if (each.place.line, each.place.column) == place(text, mark)
        and each.place.file == f"templates/{name}"
    ]


def copied(folder):
    """A copy of the program with templates and vessels of its own below a folder."""
    for part in ("generator", "templates", "vessels"):
        shutil.copytree(ROOT / part, folder / part, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(ROOT / "pyproject.toml", folder)
    return folder


def run(folder, *arguments, code=None):
    """The exit code and output of the copied program, or of Python code beside it."""
    told_python = ("-c", code) if code else ("-m", "generator")
    path = os.pathsep.join((str(folder), str(ROOT / "tests")))
    done = subprocess.run(
        [sys.executable, *told_python, *arguments],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": path, "PYTHONDONTWRITEBYTECODE": "1"},
        capture_output=True,
        text=True,
        check=False,
    )
    return done.returncode, done.stdout + done.stderr
