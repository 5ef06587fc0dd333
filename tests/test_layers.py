"""Imports run one way through the house, also inside its folders, by whatever means they are made."""

from pathlib import Path

import pytest
from layers import DISCOVERERS, LEVELS, NEVER_TOGETHER, Edge, circles, edges, level, modules, room


def told(edge: Edge) -> str:
    return f"{edge.source}:{edge.line} imports {edge.target}"


def wrong_ways(found: list[Edge]) -> list[str]:
    wrong = []
    for edge in found:
        own, target = room(edge.source), room(edge.target)
        if own == target or (target == "" and edge.target == "generator"):
            continue
        if edge.by_name and (own, target) in DISCOVERERS:
            continue
        heights = level(own), level(target)
        if None in heights or heights[1] >= heights[0] or (own, target) in NEVER_TOGETHER:
            wrong.append(told(edge))
    return wrong


@pytest.fixture(scope="module")
def found():
    return edges(modules())


def test_every_room_has_a_level():
    unknown = {room(module) for module in modules()} - {""} - {name for names in LEVELS for name in names}
    assert not unknown, f"give {sorted(unknown)} a level in LEVELS: what may it import?"


def test_imports_run_one_way(found):
    assert wrong_ways(found) == []


def test_nothing_imports_in_a_circle(found):
    assert circles(found) == []


def test_calc_imports_nothing_of_ours(found):
    assert [told(edge) for edge in found if room(edge.source) == "calc" and room(edge.target) != "calc"] == []


def test_the_top_of_the_package_tells_the_order_of_work_alone():
    top = {room(module) for module in modules()} - {""}
    assert len(top) <= 15, sorted(top)


HOUSE = {
    "reading/__init__.py": "",
    "reading/low.py": "VALUE = 1\n",
    "checks/__init__.py": "",
    "outputs/__init__.py": "",
}


def house(tmp_path: Path, **files: str) -> list[Edge]:
    """The imports of a small house with these files in it, `checks__one` for checks/one.py."""
    package = tmp_path / "generator"
    for name, text in {
        **HOUSE,
        **{f"{key.replace('__', '/')}.py": text for key, text in files.items()},
    }.items():
        path = package / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)
    (package / "__init__.py").write_text("")
    return edges(modules(package))


@pytest.mark.parametrize(
    "line",
    [
        "from generator.checks import one",
        "import generator.checks.one",
        "from ..checks import one",
        "def late():\n    from generator.checks.one import VALUE",
        "import importlib\nimportlib.import_module('generator.checks.one')",
        "import importlib\nname = 'one'\nimportlib.import_module(f'generator.checks.{name}')",
        "__import__('generator.checks.one')",
    ],
)
def test_an_import_the_wrong_way_is_seen_however_it_is_made(tmp_path, line):
    found = house(tmp_path, checks__one="VALUE = 1\n", reading__high=line)
    assert len(wrong_ways(found)) >= 1


def test_a_circle_inside_a_folder_is_seen(tmp_path):
    one = "from generator.checks.two import VALUE\n"
    two = "def late():\n    from generator.checks import one\n"
    assert circles(house(tmp_path, checks__one=one, checks__two=two)) == [
        ["generator.checks.one", "generator.checks.two"]
    ]


def test_what_is_imported_for_types_alone_makes_no_circle(tmp_path):
    one = "from generator.checks.two import VALUE\n"
    two = "from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    from generator.checks import one\nVALUE = 1\n"
    assert circles(house(tmp_path, checks__one=one, checks__two=two)) == []
