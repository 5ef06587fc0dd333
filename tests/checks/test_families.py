"""Every check stands in the file of its id's family, the shelf holds nothing else, and each thing is worked out once a boat."""

import ast
import dataclasses
import re
import sys
from collections.abc import Callable
from pathlib import Path
from types import FrameType, SimpleNamespace

import pytest
from checks.survey_patch import TODAY, VESSELS, survey_boat

import generator.checks
from generator.manual.carriage import compare
from generator.manual.deadlines import ends_among, things_of
from generator.manual.drawing.spaces import spaces_of
from generator.manual.facts import facts_of
from generator.manual.inventory import list_items
from generator.manual.words import words_of
from generator.options import output_names
from generator.outputs.setting import engine
from generator.publishing import Order, output, publish
from generator.survey import registry, sight
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


WORKED_OUT = (
    compare,
    ends_among,
    facts_of,
    list_items,
    spaces_of,
    things_of,
    words_of,
)


def times_run(work: Callable[[], object]) -> dict[str, int]:
    """How often each of WORKED_OUT ran during a piece of work, by whatever name and from wherever it was called."""
    names = {function.__code__: function.__name__ for function in WORKED_OUT}
    frames: dict[str, set[FrameType]] = {name: set() for name in names.values()}

    def noted(frame: FrameType, _event: str, _about: object) -> None:
        if frame.f_code in names:
            frames[names[frame.f_code]].add(
                frame
            )  # a generator runs in one frame, however often it is taken up

    before = sys.getprofile()
    sys.setprofile(noted)
    try:
        work()
    finally:
        sys.setprofile(before)
    return {name: len(run) for name, run in frames.items()}


ONCE = dict.fromkeys((function.__name__ for function in WORKED_OUT), 1)


def test_a_survey_works_each_thing_out_once():
    assert times_run(lambda: survey_boat(VESSELS / "saltmeadow")) == ONCE


@pytest.fixture
def no_engine(monkeypatch):
    """Paper that is composed and never laid out: every page of it fits."""
    layout = SimpleNamespace(pages=1, filled=0.5, drawn="", page_of=lambda _: 1)
    monkeypatch.setattr(engine, "lay_out", lambda *_: layout)
    monkeypatch.setattr(engine, "clipped", lambda _: [])
    monkeypatch.setattr(engine, "join", lambda _: layout)
    monkeypatch.setattr(engine, "write", lambda _layout, _name: (b"%PDF-", []))


@pytest.mark.thorough
@pytest.mark.usefixtures("no_engine")
def test_a_publish_with_every_output_works_each_thing_out_once(tmp_path):
    done = []
    order = Order(TODAY, into=tmp_path)
    assert times_run(lambda: done.append(publish(VESSELS / "saltmeadow", "saltmeadow", order))) == ONCE
    assert done[0].folder is not None
    written = {path.relative_to(done[0].folder).as_posix() for path in done[0].folder.rglob("*.*")}
    assert {f"{output(name).READER}/{output(name).FILE}" for name in output_names()} <= written


AGAIN = {
    "facts_of": lambda sight: facts_of(sight.vessel, sight.reckoning.items, sight.spaces),
    "words_of": lambda sight: words_of(sight.vessel, sight.reckoning.items),
    "things_of": lambda sight: list(things_of(sight.vessel)),
    "ends_among": lambda sight: ends_among(sight.things, sight.stamped),
    "spaces_of": lambda sight: spaces_of(sight.vessel),
    "compare": lambda sight: compare(sight.reckoning, sight.until),
    "list_items": lambda sight: list_items(sight.vessel),
}


@pytest.mark.parametrize("name", sorted(AGAIN))
def test_a_check_that_works_something_out_again_is_seen(name, monkeypatch):
    def find(sight):
        AGAIN[name](sight)
        yield from ()

    one = all_checks()["gas.detector-missing"]
    monkeypatch.setitem(registry.CHECKS, one.id, dataclasses.replace(one, find=find))
    assert times_run(lambda: survey_boat(VESSELS / "saltmeadow")) == {**ONCE, name: 2}


def test_a_check_that_asks_too_early_is_a_fault():
    surveyed = survey_boat(VESSELS / "saltmeadow")
    early = sight.Sight(surveyed.vessel, surveyed.manual.as_of, surveyed.manual.until)
    with pytest.raises(LookupError, match="not composed yet"):
        _ = early.manual
    with pytest.raises(LookupError, match="nothing is written yet"):
        _ = early.composed(surveyed.manual).written
    assert early.composed(surveyed.manual).deadlines is early.deadlines
