"""The first language's own faults: told with file, line and column before anything is begun; its slots are those that are filled."""

import ast
import shutil
from pathlib import Path

import jinja2
import pytest
from jinja2 import nodes
from shelves.reading import copied, place, run, text_of

from generator.manual import soundness
from generator.manual.asked import PAGES, asked_for
from generator.manual.soundness import faults_among
from generator.manual.wording import gaps
from generator.reading.findings import in_order
from generator.shelves.folder import templates_folder
from generator.shelves.index import SHELVES
from generator.shelves.languages import Catalogue
from generator.shelves.shelf import as_installed, read_below
from generator.survey.registry import all_checks

ROOT = Path(__file__).resolve().parent.parent
EN = "text/en"
LABELS, LIVES, CHOICES, RULES = (f"{EN}/{name}.yaml" for name in ("labels", "lives", "choices", "rule-sets"))
FIRE, DISCLAIMER = f"{EN}/procedures/fire.yaml", f"{EN}/pages/disclaimer.md"
BLANK, NOTHING_FILLS = "would be printed as it stands, and says nothing", "which nothing fills"


@pytest.fixture
def templates(tmp_path, monkeypatch):
    """A copy of the templates that can be spoilt."""
    folder = tmp_path / "templates"
    shutil.copytree(templates_folder(), folder)
    monkeypatch.setattr(soundness, "templates_folder", lambda: folder)
    return folder


def _where(shelf, folder):
    """The folder to read a shelf from: that of all tests, read once, where its files are the same."""
    ours, installed = (
        {path.relative_to(each): path.read_bytes() for path in each.glob(shelf.pattern)}
        for each in (folder, templates_folder())
    )
    return templates_folder() if ours == installed else folder


def found(folder):
    """What is wrong below a folder of templates, as a command tells it."""
    shelves = [(shelf, *as_installed(shelf, _where(shelf, folder))) for shelf in SHELVES]
    words = Catalogue("en", folder, shelves)
    told = [*faults_among(shelves, tuple(all_checks())), *words.findings]
    return in_order([*told, *(() if words.findings else gaps(words, shelves))])


def told(folder):
    """The same, each as its place and message."""
    return [(f"{each.place}".removeprefix("templates/"), each.message) for each in found(folder)]


def changed(folder, name, old, new):
    """Writes something else into a file; gives the line of what stood there."""
    text = (folder / name).read_text(encoding="utf-8")
    assert old in text, old
    (folder / name).write_text(text.replace(old, new, 1), encoding="utf-8")
    return place(text, old)[0]


def test_nothing_is_wrong_with_what_is_installed(templates):
    assert found(templates) == []


SLOTS = [
    (LABELS, 'manual-of: "Emergency manual of {boat}"', "{boat}", "{boot}", 3, "'manual-of' has the slot {boot}, which nothing fills"),
    (LABELS, 'manual-of: "Emergency manual of {boat}"', "{boat}", "{boot}", 3, "'manual-of' lacks the slot {boat}"),
    (LABELS, 'thing.batteries: "{what} batteries"', "{what}", "{wath}", 3, "'thing.batteries' lacks the slot {what}"),
    (LABELS, "page: Page", ": Page", ': "Page {number}"', 3, "'page' has the slot {number}, which nothing fills"),
    (LABELS, 'estimates.stage-4: "At {painter} m', "{painter}", "40", 3, "'estimates.stage-4' lacks the slot {painter}"),
    (LABELS, 'gear.photo-of: "Photo: {what}, {where}"', "{where}", "there", 3, "'gear.photo-of' lacks the slot {where}"),
    (LIVES, 'months: "{from} and {months} months"', "{months} ", "", 11, "'lives.counted.months' lacks the slot {months}"),
    (LIVES, 'months: "{from} and {months} months"', "{months}", "{mnoths}", 11, "'lives.counted.months' has the slot {mnoths}, which"),
    (CHOICES, "motor vessel: motor vessel", ": motor", ": a {kind} motor", 5, "'choices.type.motor vessel' has the slot {kind}"),
    (f"{EN}/spaces.yaml", "cockpit: cockpit", ": cockpit", ": the {boat} cockpit", 3, "has the slot {boat}"),
    (f"{EN}/spelling.yaml", "a: Alfa", "Alfa", '"{Alfa}"', 14, "braces that are no slot"),
    (f"{EN}/spelling.yaml", "a: Alfa", "Alfa", '"{alfa}"', 14, "has a slot, and nothing fills it"),
]  # fmt: skip


@pytest.mark.parametrize(("name", "mark", "old", "new", "column", "message"), SLOTS)
def test_a_slot_that_nobody_fills_or_that_is_gone_is_told_at_its_label(
    templates, name, mark, old, new, column, message
):
    line = changed(templates, name, mark, mark.replace(old, new))
    here = [said for at, said in told(templates) if at == f"{name}:{line}:{column}"]
    assert any(message in said for said in here), told(templates)


def test_an_invented_slot_in_a_rule_set_is_told(templates):
    entry = text_of(RULES).partition("items:\n")[2].splitlines()[0]
    line = changed(templates, RULES, entry, f'{entry.partition(":")[0]}: "a {{thing}}"')
    ((at, said),) = told(templates)
    assert at == f"{RULES}:{line}:3"
    assert NOTHING_FILLS in said


def test_the_slot_of_a_step_is_told_in_the_words_with_the_step_beside(templates):
    row = next(line for line in text_of(FIRE).splitlines() if line.startswith("    do: "))
    line = changed(templates, FIRE, row, '    do: "Go to {nowhere}."')
    (finding,) = found(templates)
    assert (finding.place.file, finding.place.line, finding.place.column) == (f"templates/{FIRE}", line, 9)
    assert "has the slot 'nowhere', which nothing fills" in finding.message
    assert [each.file for each in finding.also] == ["templates/procedures/fire.yaml"]


def test_a_duty_has_no_slots(templates):
    line = changed(templates, FIRE, "  command: ", '  command: "{raft}" #')
    assert [(at.rpartition(":")[0], NOTHING_FILLS in said) for at, said in told(templates)] == [
        (f"{FIRE}:{line}", True)
    ]


@pytest.mark.parametrize(
    "word", ["unknown", "Unknown", "no", "yes", "none", "tbd", "private", "n/a", "...", "not known"]
)
def test_what_says_nothing_is_no_text_of_a_step(templates, word):
    row = next(line for line in text_of(FIRE).splitlines() if line.startswith("    do: "))
    line = changed(templates, FIRE, row, f'    do: "{word}"')
    assert told(templates) == [(f"{FIRE}:{line}:9", f"'{word}' {BLANK}")]


@pytest.mark.parametrize(
    ("name", "old", "new", "column"),
    [
        (LABELS, "  page: Page", "  page: unknown", 3),
        (CHOICES, "    motor vessel: motor vessel", '    motor vessel: "no"', 5),
        (LIVES, "usual: ", "usual: tbd #", 8),
        (f"{EN}/spaces.yaml", "  cockpit: cockpit", "  cockpit: private", 12),
        (f"{EN}/spelling.yaml", "a: Alfa", "a: none", 14),
    ],
)
def test_what_says_nothing_is_no_text_elsewhere(templates, name, old, new, column):
    line = changed(templates, name, old, new)
    assert any(at == f"{name}:{line}:{column}" and BLANK in said for at, said in told(templates)), told(
        templates
    )


@pytest.mark.parametrize("word", ["unknown", "private", "tbd", "none"])
def test_what_says_nothing_is_no_source(templates, word):
    name = "procedures/fire.yaml"
    row = next(line for line in text_of(name).splitlines() if line.startswith("    source: "))
    line = changed(templates, name, row, f"    source: {word}")
    (finding,) = found(templates)
    assert f"{finding.place}" == f"templates/{name}:{line}:13"
    assert f"'{word}'" in finding.message
    assert "unknown" not in finding.remedy


@pytest.mark.parametrize("shelf", ["text/en/procedures", "procedures"])
def test_two_files_of_one_stem_are_told_with_both_places(templates, shelf):
    first = templates / shelf / "fire.yaml"
    second = templates / shelf / "stowage" / "fire.yaml"
    shutil.copy(first, second)
    both = {f"templates/{shelf}/fire.yaml", f"templates/{shelf}/stowage/fire.yaml"}
    twins = [each for each in found(templates) if {each.place.file, *(at.file for at in each.also)} == both]
    assert any("'fire'" in each.message or "'fire.yaml'" in each.message for each in twins), told(templates)


@pytest.mark.parametrize(
    "name", ["labels", "choices", "spaces", "lives", "rule-sets", "spelling", "procedures/fire"]
)
def test_a_file_that_is_gone_is_one_finding(templates, name):
    (templates / EN / f"{name}.yaml").unlink()
    ((at, said),) = told(templates)
    assert at == f"{EN}/{name}.yaml:1:1"
    assert said.startswith(f"templates/{EN}/{name}.yaml is not there")


def _latin(path):
    path.write_bytes(path.read_text(encoding="utf-8").replace("This", "Th\u00edS").encode("latin-1"))


def _folder(path):
    path.unlink()
    path.mkdir()


PAGE_FAULTS = {
    "bytes": (_latin, "1:3", "not UTF-8"),
    "folder": (_folder, "1:1", "this is a folder"),
    "gone": (Path.unlink, "1:1", "is not there"),
    "empty": (lambda path: path.write_text(""), "1:1", "the page is blank"),
    "white": (lambda path: path.write_text(" \n\n"), "1:1", "the page is blank"),
    "slot": (lambda path: path.write_text("Of {boat}.\nAnd of {nobody}."), "2:8", "has the slot {nobody}"),
    "lacking": (lambda path: path.write_text("Of a boat.\n"), "1:1", "lacks the slot {boat}"),
    "brace": (lambda path: path.write_text("Of {boat}.\n\n- And { boat}."), "3:7", "a brace stands here"),
    "unseen": (lambda path: path.write_text("Of {boat}.\nA\u200bnd"), "2:2", "an invisible character"),
}


@pytest.mark.parametrize("case", PAGE_FAULTS.values(), ids=PAGE_FAULTS)
def test_a_faulty_page_is_told_where(templates, case):
    spoil, at, message = case
    spoil(templates / DISCLAIMER)
    here = [said for place_, said in told(templates) if place_ == f"{DISCLAIMER}:{at}"]
    assert any(message in said for said in here), told(templates)


@pytest.mark.parametrize("name", ["song.md", "about.txt"])
def test_a_page_that_nothing_prints_is_told(templates, name):
    (templates / EN / "pages" / name).write_text("La.", encoding="utf-8")
    assert told(templates) == [(f"{EN}/pages/{name}:1:1", "nothing prints this page")]


def test_the_pages_of_another_language_are_examined_too(templates):
    shutil.copytree(templates / "text" / "en", templates / "text" / "xx")
    (templates / "text" / "xx" / "pages" / "never-rely.md").write_text("\n", encoding="utf-8")
    assert [f"{each.place}" for each in Catalogue("xx", templates).findings] == [
        "templates/text/xx/pages/never-rely.md:1:1"
    ]


@pytest.mark.parametrize(
    ("spoil", "message"),
    [
        (lambda text: _latin(text / "pages" / "disclaimer.md"), "pages/disclaimer.md:1:3: defect"),
        (lambda text: (text / "pages" / "about.md").unlink(), "pages/about.md:1:1: defect"),
        (lambda text: (text / "spelling.yaml").unlink(), "spelling.yaml:1:1: defect"),
        (lambda text: (text / "labels.yaml").unlink(), "labels.yaml:1:1: defect"),
        (lambda text: shutil.copy(text / "procedures" / "fire.yaml", text / "procedures" / "stowage"), "two files for 'fire'"),
    ],
    ids=["bytes", "page", "spelling", "labels", "twins"],
)  # fmt: skip
@pytest.mark.thorough
def test_a_command_begins_nothing_and_ends_with_2(tmp_path, spoil, message):
    folder = copied(tmp_path)
    spoil(folder / "templates" / "text" / "en")
    code, said = run(
        folder, "publish", "vessels/saltmeadow", "--only", "site", "--into", str(tmp_path / "out")
    )
    assert code == 2, said
    assert said.startswith(
        "the program's own data files (templates/) are faulty: 1 defect; nothing was begun"
    )
    assert message in said


def _by_templates(function):
    """What templates ask of a function by plain names: which, in which template, with what; ** is no plain word."""
    for path in sorted(templates_folder().rglob("*.html")):
        tree = jinja2.Environment().parse(path.read_text(encoding="utf-8"))
        for call in tree.find_all(nodes.Call):
            if isinstance(call.node, nodes.Name) and call.node.name == function:
                given = {each.key.replace("_", "-") for each in call.kwargs}
                for name in _plain_words(call.args[0]):
                    yield name, path.name, given


def _plain_words(node):
    if isinstance(node, nodes.Const):
        return [node.value]
    return [*_plain_words(node.expr1), *_plain_words(node.expr2)] if isinstance(node, nodes.CondExpr) else []


def _by_python():
    """What Python says by plain names, and with what; what is given as a mapping is not seen."""
    for path in sorted((ROOT / "generator").rglob("*.py")):
        for call in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if not isinstance(call, ast.Call) or not call.args or not isinstance(call.args[0], ast.Constant):
                continue
            called = call.func.attr if isinstance(call.func, ast.Attribute) else getattr(call.func, "id", "")
            if called == "say":
                yield (
                    call.args[0].value,
                    path.name,
                    {str(each.arg).replace("_", "-") for each in call.keywords},
                )


def test_the_slots_asked_for_are_those_that_are_filled():
    asked = {}
    for each in asked_for(read_below(SHELVES, templates_folder())):
        assert asked.setdefault(each.label, each.slots) == each.slots, each
    said = [*_by_templates("say"), *_by_python()]
    assert len(said) > 300
    assert [(label, where) for label, where, given in said if asked[label] != given] == []


def test_the_pages_asked_for_are_those_that_templates_print():
    printed = list(_by_templates("page"))
    assert len(printed) >= 6
    assert [each for each in printed if not PAGES[each[0]] <= each[2]] == []
    chapters = {"about", "never-rely", "disclaimer"}  # which the book names
    assert {name for name, _, _ in printed} | chapters == set(PAGES)
