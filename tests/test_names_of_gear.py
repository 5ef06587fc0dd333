"""No module of the program names a kind of gear or a life: what they are and do stands on their shelves."""

import ast
from pathlib import Path

import pytest

from generator.shelves.gear import PROPERTIES, gear_names, kinds
from generator.shelves.lives import shelf

PACKAGE = Path(__file__).resolve().parent.parent / "generator"

# Words that mean something else than the kind of gear of that name, and what.
ANOTHER = {
    ("knife", "words.py"): "a key of a raft: where its knife is",
    ("gas detector", "facts.py"): "a key of the gas aboard",
    ("medical chest", "medical.py"): "the value of the vessel's own key",
    ("red hand flares", "gear.py"): "an example beside a key",
}


def names():
    lives = {kind.name for group in shelf().kinds.values() for kind in group}
    return {*gear_names(), *(kind.name for kind in kinds()), *lives} - {*PROPERTIES}


def constants(path):
    """Every text of a module as (line, text)."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"), str(path))):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield node.lineno, node.value


def test_no_module_names_a_kind_of_gear_or_a_life():
    named = names()
    found = [
        f"{path.relative_to(PACKAGE)}:{line}: {text}"
        for path in sorted(PACKAGE.rglob("*.py"))
        for line, text in constants(path)
        if text in named and (text, path.name) not in ANOTHER
    ]
    assert found == []


@pytest.mark.parametrize("word", ["lifebuoy", "smoke alarm", "tethers", "flares and smoke", "all other gear"])
def test_these_are_among_the_names(word):
    assert word in names()
