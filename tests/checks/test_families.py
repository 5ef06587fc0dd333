"""Every check stands in the file of its id's family, the shelf holds nothing else, and one survey works each thing out once."""

import ast
import re
from pathlib import Path

import pytest
from checks.survey_patch import VESSELS, survey_boat

import generator.checks
from generator.manual import reckoning
from generator.survey import sight
from generator.survey.registry import all_checks

SHELF = Path(generator.checks.__file__).parent


def registered(path):
    """The ids of the checks that a file registers, by decorator or by description, in the order of the file."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") in ("check", "describe"):
            yield ast.literal_eval(node.args[0])


def family(path):
    """The family whose checks a file of the shelf holds, by its name or that of its folder."""
    return path.relative_to(SHELF).parts[0].removesuffix(".py").replace("_", "-")


FILES = sorted(path for path in SHELF.rglob("*.py") if path.name != "__init__.py")


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.relative_to(SHELF).as_posix())
def test_a_file_holds_checks_of_its_family_and_nothing_but_checks(path):
    ids = list(registered(path))
    assert ids, "what is not a check belongs to survey/ or manual/"
    assert [name for name in ids if name.partition(".")[0] != family(path)] == []


def test_every_check_stands_on_the_shelf_once():
    assert sorted(name for path in FILES for name in registered(path)) == sorted(all_checks())


def test_what_a_check_does_stands_where_it_is_registered():
    for name, one in all_checks().items():
        if one.find is not None:
            where = one.find.__module__.removeprefix("generator.checks.").partition(".")[0]
            assert where == name.partition(".")[0].replace("-", "_"), name


def test_a_folder_of_the_shelf_has_its_docstring_and_nothing_beside():
    for path in SHELF.rglob("__init__.py"):
        (only,) = ast.parse(path.read_text(encoding="utf-8")).body
        assert re.search(r"\w", ast.literal_eval(only.value))


WORKED_OUT = ("list_items", "facts_of", "words_of", "things_of", "deadlines_among", "spaces_of")


@pytest.mark.parametrize("name", WORKED_OUT)
def test_a_survey_works_each_thing_out_once(name, monkeypatch):
    asked = []
    real = getattr(reckoning, name)
    monkeypatch.setattr(reckoning, name, lambda *given: asked.append(name) or real(*given))
    assert survey_boat(VESSELS / "saltmeadow").manual
    assert asked == [name]


def test_a_check_that_asks_too_early_is_a_fault():
    surveyed = survey_boat(VESSELS / "saltmeadow")
    early = sight.Sight(surveyed.vessel, surveyed.manual.as_of, surveyed.manual.until)
    with pytest.raises(LookupError, match="not composed yet"):
        _ = early.manual
    with pytest.raises(LookupError, match="nothing is written yet"):
        _ = early.composed(surveyed.manual).written
    assert early.composed(surveyed.manual).deadlines is early.deadlines
