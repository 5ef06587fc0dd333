"""Imports run one way through the house, also inside its folders, by whatever means they are made."""

from pathlib import Path

import pytest
from imports_by_name import UNREAD
from layers import DISCOVERERS, LEVELS, NEVER_TOGETHER, Edge, circles, edges, level, modules, room


def told(edge: Edge) -> str:
    return f"{edge.source}:{edge.line} imports {edge.target}"


def wrong_ways(found: list[Edge]) -> list[str]:
    wrong = []
    for edge in found:
        own, target = room(edge.source), room(edge.target)
        if edge.target == UNREAD:
            if own not in {source for source, _ in DISCOVERERS}:
                wrong.append(told(edge))
            continue
        if own == target or (edge.target == "generator" and not edge.by_name):
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
    assert len(top) <= 16, sorted(top)


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
        "from importlib import import_module as load\nload('generator.checks.one')",
        "import importlib as i\ni.import_module(name='generator.checks.one')",
        "from importlib import import_module\nload = import_module\nload('generator.checks.one')",
        "import importlib\ngetattr(importlib, 'import_module')('generator.checks.one')",
        "from importlib import import_module\nFOUND = list(map(import_module, ['generator.checks.one']))",
        "from importlib import import_module\nONE = 'generator.checks.one'\nimport_module(ONE)",
        "from importlib import import_module\nimport_module('generator.' + 'checks.one')",
        "from importlib import import_module\nimport_module('..checks.one', __package__)",
        "from importlib import import_module\nimport_module('.checks.one', package='generator')",
        "from importlib import import_module\ndef late(name):\n    return import_module(name)",
        "from importlib import *\nimport_module('generator.checks.one')",
        "from importlib.util import find_spec as found\nfound('generator.checks.one').loader.load_module()",
        "import importlib.util\nimportlib.util.spec_from_file_location('x', 'checks/one.py')",
        "from importlib import util as u\nu.spec_from_file_location('x', 'checks/one.py')",
        "import importlib.machinery as m\nm.SourceFileLoader('x', 'checks/one.py').load_module()",
        "import pkgutil\npkgutil.resolve_name('generator.checks.one:VALUE')",
        "from pkgutil import walk_packages as walk\nfor each in walk(['..']):\n    pass",
        "import runpy\nrunpy.run_module('generator.checks.one')",
        "from runpy import run_path as run\nrun('checks/one.py')",
        "load = __import__\nload('generator.checks.one')",
        "import builtins\nbuiltins.__import__('generator.checks.one')",
        "import sys\nsys.modules['generator.checks.one']",
        "from sys import modules as there\nthere['generator.checks.one']",
        "exec('import generator.checks.one')",
    ],
)
def test_an_import_the_wrong_way_is_seen_however_it_is_made(tmp_path, line):
    found = house(tmp_path, checks__one="VALUE = 1\n", reading__high=line)
    assert len(wrong_ways(found)) >= 1


@pytest.mark.parametrize(
    "line",
    [
        "import importlib\nimportlib.import_module('json')",
        "import importlib.metadata as m\nm.version('generator')",
        "from importlib import resources\nresources.files('generator')",
        "import importlib\nimportlib.import_module('generator.reading.low')",
        "import sys\nsys.path, sys.argv",
        "def load(name):\n    return name\nload('generator.checks.one')",
        "NAME = 'generator.checks.one'",
    ],
)
def test_what_imports_nothing_from_above_is_no_fault(tmp_path, line):
    assert wrong_ways(house(tmp_path, checks__one="VALUE = 1\n", reading__high=line)) == []


def test_who_discovers_a_shelf_may_look_through_its_folder_and_no_other(tmp_path):
    look = "import importlib, pkgutil\nfor each in pkgutil.walk_packages(['x']):\n    importlib.import_module(each.name)\n"
    assert wrong_ways(house(tmp_path, checks__one="", survey__registry=look)) == []
    look += "importlib.import_module('generator.outputs')\n"
    assert len(wrong_ways(house(tmp_path, checks__one="", survey__registry=look))) == 1


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
