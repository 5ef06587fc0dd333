"""Shelves for tests: a file with one thing changed in it, and what is found; a copy of the program with templates of its own."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

from generator.manual.facts import facts_of
from generator.manual.inventory import list_items
from generator.manual.known_keys import keys_and_words
from generator.shelves.countables import COUNTABLES
from generator.shelves.folder import templates_folder
from generator.shelves.gear import GEAR
from generator.shelves.packs import PACKS
from generator.shelves.rulesets import RULE_SETS
from generator.shelves.shelf import faults
from generator.survey.registry import all_checks
from generator.vessel.loading import load
from generator.vessel.names import names_of_a_vessel

ROOT = Path(__file__).resolve().parents[2]


def known():
    """Every name that the program and the shelves give."""
    vessel, _ = load(ROOT / "vessels" / "saltmeadow", "saltmeadow")
    names = {
        **keys_and_words(),
        **names_of_a_vessel(),
        "check": all_checks(),
        "fact": {*facts_of(vessel, list_items(vessel)), "inflatable lifejackets", "fuel-burning cooker"},
    }
    for shelf in (COUNTABLES, GEAR, PACKS, RULE_SETS):
        names |= shelf.gives(shelf.read(templates_folder())[0])
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
