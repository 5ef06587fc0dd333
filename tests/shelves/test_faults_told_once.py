"""A shelf whose file is missing, unreadable or misread: the cause is told once, in words of that file, by every command."""

import json

import pytest
from shelves.reading import copied

from generator.__main__ import DEFECTS, SOUND, USAGE, main
from generator.manual import soundness
from generator.reading.nodes import OF_A_VESSEL
from generator.shelves.folder import templates_folder
from generator.shelves.identities import MIDS
from generator.shelves.index import SHELVES
from generator.shelves.procedures import PROCEDURES
from generator.shelves.stowages import HOLDS
from generator.shelves.words import WORDS
from generator.survey.registry import all_checks

pytestmark = pytest.mark.thorough

FIRE, GEAR = "procedures/fire.yaml", "gear/gear.yaml"
CHECKS = tuple(all_checks())
ALONE = [
    (shelf.pattern, path.relative_to(templates_folder()).as_posix())
    for shelf in SHELVES
    if shelf not in WORDS
    for path in templates_folder().glob(shelf.pattern)
    if len(list(templates_folder().glob(shelf.pattern))) == 1
]


@pytest.fixture
def templates(tmp_path, monkeypatch):
    """A copy of the templates, which the commands take for those installed."""
    folder = copied(tmp_path) / "templates"
    monkeypatch.setattr(soundness, "templates_folder", lambda: folder)
    return folder


def told(folder):
    """Every fault of the shelves below a folder: place, message, remedy."""
    return [(str(each.place), each.message, each.remedy) for each in soundness.faults_below(folder, CHECKS)]


def changed(folder, name, old, new):
    """The same folder with a change in one of its files."""
    path = folder / name
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    return folder


def test_shelves_of_one_file_are_looked_at():
    assert {name for _, name in ALONE} >= {
        GEAR,
        "identities/forms.yaml",
        "identities/mid.json",
        "identities/call_signs.json",
        "rafts/stowages.yaml",
        "lives/lives.yaml",
        "cards/stations.yaml",
    }


@pytest.mark.parametrize(("pattern", "name"), ALONE, ids=[name for _, name in ALONE])
def test_a_missing_file_is_the_one_fault(pattern, name, templates):
    (templates / name).unlink()
    folder = f"templates/{name.rpartition('/')[0]}"
    missing = (
        (f"{folder}:1:1", f"there is no .yaml file in {folder}")
        if "*" in pattern
        else (f"templates/{name}:1:1", f"templates/{name} is not there")
    )
    assert told(templates) == [(*missing, "put back the file as installed")]


@pytest.mark.parametrize("name", [GEAR, FIRE, "rafts/stowages.yaml", "symbols/hulls/monohull.yaml"])
@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "the file is empty"),
        ("a: [", "the file ends before its last bracket or value is finished"),
        ("# x\n" * 300_000, "the file is larger than 1,000 kB, the most a file of this shelf may have"),
    ],
    ids=["empty", "broken", "too large"],
)
def test_a_file_that_cannot_be_read_is_the_one_fault(name, text, message, templates):
    (templates / name).write_text(text)
    ((place, said, _),) = told(templates)
    assert (place.partition(":")[0], said) == (f"templates/{name}", message)


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("gear/more.yml", "this is no file of this shelf; its files end in .yaml"),
        ("procedures/stowage/davit.yaml.orig", "this is no file of this shelf; its files end in .yaml"),
        ("identities/forms.yml", "this is no file of this shelf; its files end in .json or .yaml"),
        ("rafts/rafts.yaml", "this is no file of this shelf"),
    ],
)
def test_a_file_that_belongs_to_no_shelf_is_told(name, says, templates):
    (templates / name).write_text("a: 1\n")
    assert told(templates) == [(f"templates/{name}:1:1", says, "rename it, or take it away")]


def test_readmes_schemas_pages_and_what_is_hidden_may_lie_there(templates):
    for name in ("rafts/README.md", "gear/x.schema.json", "cards/more.html", "gear/.gear.yaml.swp"):
        (templates / name).write_text("x")
    assert told(templates) == []


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("duty: fight", "dutty: fight", "'dutty' is no key of steps[fire.throw-out]"),
        ("duty: fight", "duty: [fight]", "a list or block stands where a name belongs"),
        ("duty: fight", "duty:", "the value is blank: Whose duty is it, if not everybody's?"),
        ("duty: fight", "duty: &x fight", "anchors and aliases ('&', '*') are not used in a file of this shelf"),
    ],
)  # fmt: skip
def test_a_misread_duty_is_told_once(old, new, message, templates):
    said = [text for _, text, _ in told(changed(templates, FIRE, old, new))]
    assert len(said) == 1, said
    assert said[0].partition("[")[0] == message.partition("[")[0]


def test_what_hangs_on_nothing_that_is_lost_is_told_beside(templates):
    changed(templates, FIRE, "standing: ", "standing: all but ")
    changed(templates, GEAR, "lasts-as: torches", "lasts-as: torchs")
    life, standing = (text for _, text, _ in told(templates))
    assert life == "there is no life of gear 'torchs'"
    assert standing.endswith("is none of the words this key takes")


def test_a_tally_that_is_wrong_besides_is_told():
    text = (templates_folder() / FIRE).read_text(encoding="utf-8")
    text = text.replace("duty: fight", "dutty: fight", 1).replace(", confirm: ", ", confirm: 9", 1)
    said = [each.message for each in PROCEDURES.read_text(text, FIRE)[1]]
    assert not any("times 'duty'" in each for each in said)
    assert any("times 'confirm'" in each for each in said), said


FORMS = {
    "nothing": ("", "put back the file as installed, or write its keys"),
    "a list": ("- a\n", "write keys and values, with a blank after each colon; the schema beside the file says which"),
    "alias": ("holds: *x\n", "write the value out; text that starts with & or * goes in quotes"),
    "second document": ("a: 1\n---\nb: 2\n", "everything stands in one document: remove the line '---'"),
    "deep": ("a: " + "[" * 40 + "]" * 40, "check brackets and indentation"),
    "blank": ("holds:\n", "write what belongs to 'holds'"),
}  # fmt: skip


@pytest.mark.parametrize("form", FORMS)
def test_remedies_are_of_a_shelf(form):
    text, remedy = FORMS[form]
    found = HOLDS.read_text(text, "rafts/holds.yaml")[1]
    assert found[0].remedy == remedy
    for each in found:
        said = f"{each.message} {each.remedy}"
        assert not any(
            word in said for word in ("vessel", "commission", "sister", "unknown", OF_A_VESSEL.called)
        ), said


def test_a_form_without_an_example_of_its_own_is_told_once():
    text = (templates_folder() / "identities/mid.json").read_text(encoding="utf-8")
    found = MIDS.read_text(text.replace('"AL"', '"Albania"', 1), "identities/mid.json")[1]
    assert [each.remedy for each in found] == ["write two letters"]


@pytest.mark.parametrize("argv", [["keys", "gear"], ["schema"], ["why", "--all"], ["commission", "Tern", "--ask-nothing"]])  # fmt: skip
def test_no_command_but_readiness_begins(argv, templates, monkeypatch, capsys, tmp_path):
    monkeypatch.chdir(tmp_path)
    (templates / "symbols/hulls/monohull.yaml").write_text("")
    assert main(argv) == USAGE
    said = capsys.readouterr().out
    assert said.startswith(
        "the program's own data files (templates/) are faulty: 1 defect; nothing was begun.\n"
        "Put back the files as installed, or mend them where the findings say.\n"
    )
    assert not (tmp_path / "vessels/tern").exists()
    assert main(["readiness"]) in (SOUND, DEFECTS)


@pytest.mark.parametrize("command", ["survey", "publish"])
def test_the_report_holds_the_faults(command, templates, monkeypatch, capsys, tmp_path):
    monkeypatch.chdir(tmp_path)
    (templates / GEAR).unlink()
    assert main([command, "vessels/saltmeadow", "--report", "r.json", "--report", "r.sarif"]) == USAGE
    report = json.loads((tmp_path / "r.json").read_text())
    assert report["counts"]["defect"] == 1
    assert report["findings"][0]["message"] == "there is no .yaml file in templates/gear"
    assert (tmp_path / "r.sarif").is_file()
    assert main([command, "vessels/saltmeadow", "--report", "r.pdf"]) == USAGE
    assert "--report r.pdf: the ending says the form" in capsys.readouterr().err
