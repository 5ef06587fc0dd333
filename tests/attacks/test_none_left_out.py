"""No boat is left out in silence: whatever lies beside the boats is named by every command over a folder, and what may be a boat is exit 2."""

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree

import pytest
from readme_boat import TEASEL
from rights import as_a_user

from generator.__main__ import main
from generator.vessel import folders

ROOT = Path(__file__).resolve().parent.parent.parent
COMMANDS = {
    "survey": ["survey"],
    "publish": ["publish", "--only", "calendar"],
    "due": ["due", "--within", "all"],
}
pytestmark = pytest.mark.attack("none-left-out")


def boat(folder, text=TEASEL):
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "vessel.yaml").write_text(text)
    return folder


def named(name):
    """A folder whose vessel's file is called otherwise."""

    def make(fleet):
        boat(fleet / "tern")
        (fleet / "tern/vessel.yaml").rename(fleet / "tern" / name)

    return make


def holding(*names, text=""):
    def make(fleet):
        (fleet / "tern").mkdir()
        for name in names:
            (fleet / "tern" / name).write_text(text)

    return make


def linked(target):
    return lambda fleet: (fleet / "tern").symlink_to(target)


def twins(one, other):
    def make(fleet):
        boat(fleet / one)
        boat(fleet.parent / "elsewhere" / other)
        (fleet / "tern-by-link").symlink_to(fleet.parent / "elsewhere" / other)

    return make


def special(make_it):
    def make(fleet):
        (fleet / "tern").mkdir()
        make_it(fleet / "tern/vessel.yaml")

    return make


def outside(fleet):
    boat(fleet.parent / "elsewhere/tern")
    for name in ("one", "two"):
        (fleet / name).symlink_to(fleet.parent / "elsewhere/tern")


# What lies in the folder beside the boat teasel -> words with which each command must name it; exit code 2.
LEFT_OUT = {
    **{
        f"called {name}": (named(name), name)
        for name in ("vessel.yml", "Vessel.yaml", "VESSEL.YAML", "vessel.yaml.txt", "vessel.yaml.bak", "vessel.yaml~", ".vessel.yaml", ".vessel.yaml.swp",
                     "vessel (1).yaml", "vessel.yaml (1)", "Copy of vessel.yaml", "vessel - Copy.yaml", "vessel_old.yml", "vesel.yaml", "vessels.yaml",
                     "vessel", "vessel.txt", "vessel.yaml.part", "tern.yaml", "Tern.yml", "our-boat.yaml", "v\N{FULLWIDTH LATIN SMALL LETTER E}ssel.yaml", "vessel.yaml.gpg")
    },
    "only voyage.yaml": (holding("voyage.yaml"), "voyage.yaml"),
    "only private.yaml": (holding("private.yaml", "photo.jpg"), "private.yaml"),
    "another name, with what one boat alone says": (holding("x.yaml", text="vessel: {}\napproved: {by: me}\n"), "x.yaml"),
    "deeper down": (lambda fleet: boat(fleet / "deep/tern"), "deeper down: tern/vessel.yaml"),
    "deeper down by a link": (lambda fleet: (boat(fleet.parent / "else/tern"), (fleet / "deep").mkdir(), (fleet / "deep/tern").symlink_to(fleet.parent / "else/tern")), "deeper down: tern/vessel.yaml"),
    "much deeper down": (lambda fleet: boat(fleet / "a/b/c/d/e/tern"), "name the folder itself (vessels/a/b/c/d/e)"),
    "in the folder of a boat": (lambda fleet: boat(fleet / "teasel/old"), "teasel/old"),
    "hidden": (lambda fleet: boat(fleet / ".tern"), ".tern"),
    "broken link": (linked("nowhere"), "what it points to is not there"),
    "link in a circle": (linked("tern"), "leads in a circle"),
    "links in a circle": (lambda fleet: ((fleet / "a").symlink_to("b"), (fleet / "b").symlink_to("a")), "leads in a circle"),
    "link back": (linked("."), "link back"),
    "link back further": (linked("../.."), "link back"),
    "link to a boat beside": (linked("teasel"), "looked at already"),
    "link to a boat beside, named before her": (lambda fleet: (fleet / "a").symlink_to("teasel"), "looked at already"),
    "two links to one boat elsewhere": (outside, "looked at already"),
    "vessel.yaml is a folder": (special(Path.mkdir), "this is a folder"),
    "vessel.yaml is a pipe": (special(os.mkfifo), "no plain file"),
    "vessel.yaml is a broken link": (special(lambda path: path.symlink_to("nowhere")), "what it points to is not there"),
    "vessel.yaml is a link in a circle": (special(lambda path: path.symlink_to("vessel.yaml")), "cannot be opened"),
    "vessel.yaml is a device": (special(lambda path: path.symlink_to(os.devnull)), "a link leads there"),
    "vessel.yaml is empty": (holding("vessel.yaml"), "empty"),
    "vessel.yaml is no text": (special(lambda path: path.write_bytes(b"format: 1\nvessel: \xff\xfe" * 9)), "UTF-8"),
    "of another format": (special(lambda path: path.write_text("format: 7\n")), "format"),
    "of one name in other capitals": (twins("tern", "TERN"), "would both be published"),
    "of one name written otherwise": (twins("ma\u0308we", "m\u00e4we"), "would both be published"),
    "of one name, ss": (twins("weiss", "weiß"), "would both be published"),
    "a proof copy's name": (lambda fleet: boat(fleet / "tern.proof-copy"), "kept for proof copies"),
    "a name that is no text": (lambda fleet: boat(fleet / os.fsdecode(b"t\xffrn")), "cannot be printed"),
    "a line in a name": (lambda fleet: boat(fleet / "t\nvessels: published"), "cannot be printed"),
    "a code of the terminal in a name": (lambda fleet: boat(fleet / "t\x1b[2J"), "cannot be printed"),
    "a name that reads backwards": (lambda fleet: boat(fleet / "t\u202enret"), "cannot be printed"),
    "a file in the folder of vessels": (lambda fleet: (fleet / "vessel.yml").write_text(TEASEL), "vessel.yml"),
    "a copy in the folder of vessels": (lambda fleet: (fleet / "vessel.yaml.bak").write_text(TEASEL), "vessel.yaml.bak"),
}  # fmt: skip
BARE = {
    "classes": holding("marelle.yaml", text="vessel: {type: monohull}\nrafts: []\n"),
    "pictures": holding("vessel.jpg", "teasel.png", "vessel.pdf"),
    "nothing": holding(),
    "hidden": lambda fleet: (fleet / ".git/vessels").mkdir(parents=True),
    "linked": lambda fleet: (fleet / "pictures").symlink_to(fleet.parent / "empty"),
}


@pytest.fixture
def fleet(tmp_path, monkeypatch):
    """Teasel alone in vessels/, seen from the folder above."""
    boat(tmp_path / "vessels/teasel")
    (tmp_path / "empty").mkdir()
    monkeypatch.chdir(tmp_path)
    return tmp_path / "vessels"


def run(capsys, *argv):
    code = main(list(argv))
    return code, capsys.readouterr()


@pytest.mark.parametrize("command", COMMANDS)
@pytest.mark.parametrize("kind", LEFT_OUT)
def test_what_may_be_a_boat_is_named_and_the_others_are_looked_at(fleet, capsys, kind, command):
    make, words = LEFT_OUT[kind]
    make(fleet)
    code, shown = run(
        capsys, *COMMANDS[command], "vessels", "--report", "r.json" if command != "due" else "r.csv"
    )
    assert code == 2
    assert words in shown.out
    assert shown.err == ""
    assert {"survey": "vessels/teasel: 4 recom", "publish": "teasel: published -> ", "due": "Teasel"}[
        command
    ] in shown.out
    if command == "publish":
        assert Path("site/teasel/manifest.json").is_file()
    if command != "due":
        weights = [each["weight"] for each in json.loads(Path("r.json").read_text())["findings"]]
        assert "defect" in weights


@pytest.mark.parametrize("command", COMMANDS)
@pytest.mark.parametrize("kind", BARE)
def test_a_folder_without_a_boat_is_named_in_one_line_at_the_end_and_is_no_fault(
    fleet, capsys, kind, command
):
    BARE[kind](fleet)
    (bare,) = (each.name for each in fleet.iterdir() if each.name != "teasel")
    code, shown = run(capsys, *COMMANDS[command], "vessels")
    assert (code, shown.err) == (0, "")
    assert shown.out.splitlines()[-1] == f"no vessel in: vessels/{bare}"


@pytest.mark.parametrize("command", ["survey", "publish"])
def test_the_reports_name_them_too(fleet, capsys, command, tried):
    tried(8)
    named("vessel.yml")(fleet)
    (fleet / "classes").mkdir()
    forms = ("json", "sarif", "xml", "txt")
    code, _ = run(capsys, *COMMANDS[command], *(f"--report=r.{form}" for form in forms))
    assert code == 2
    for form in forms:
        text = Path(f"r.{form}").read_text()
        assert "vessels/tern" in text and "fleet.left-out" in text, form
        assert "vessels/classes" in text and "fleet.no-vessel" in text, form
    suites = {each.get("name"): each.get("failures") for each in ElementTree.parse("r.xml").getroot()}
    assert suites == {"vessels/tern": "1", "vessels/teasel": "0", "vessels/classes": "0"}


@pytest.mark.parametrize("command", COMMANDS)
@pytest.mark.parametrize(
    ("expected", "boats", "code"), [("1", 1, 0), ("2", 1, 2), ("1", 2, 2), ("2", 2, 0), ("9999", 2, 2)]
)
def test_a_run_that_nobody_watches_says_how_many_boats_it_expects(
    fleet, capsys, command, expected, boats, code
):
    for number in range(boats - 1):
        boat(fleet / f"tern-{number}", TEASEL.replace("Teasel", "Tern"))
    found, shown = run(capsys, *COMMANDS[command], "--expect", expected)
    assert found == code
    if code:
        assert f"--expect {expected}: {boats} vessels were found: vessels/teasel" in shown.err
    else:
        assert shown.err == ""
    if command == "publish":  # those that are there are published all the same
        assert len(list(Path("site").iterdir())) == boats


@pytest.mark.parametrize("command", COMMANDS)
def test_a_boat_that_is_left_out_is_not_counted_as_found(fleet, capsys, command):
    named("vessel.yml")(fleet)
    code, shown = run(capsys, *COMMANDS[command], "--expect", "2")
    assert code == 2
    assert "1 vessels were found" in shown.err


@pytest.mark.parametrize("said", ["0", "-1", "two", "", "1.0", "99999", "\N{ARABIC-INDIC DIGIT ONE}"])
def test_an_expected_number_that_is_none_is_wrong_usage(fleet, capsys, said):
    with pytest.raises(SystemExit) as left:
        main(["survey", f"--expect={said}"])
    assert left.value.code == 2
    assert "no number of vessels" in capsys.readouterr().err


@pytest.mark.parametrize("command", COMMANDS)
@pytest.mark.parametrize("said", ["", " "])
def test_a_name_that_is_empty_is_not_the_folder_one_stands_in(fleet, capsys, monkeypatch, command, said):
    monkeypatch.chdir(fleet / "teasel")
    code, shown = run(capsys, *COMMANDS[command], said)
    assert (code, shown.out) == (2, "")
    assert "is empty" in shown.err


def test_a_folder_with_too_much_to_look_through_is_named(fleet, capsys, monkeypatch):
    monkeypatch.setattr(folders, "_MOST_ENTRIES", 20)
    (fleet / "photos").mkdir()
    for number in range(25):
        (fleet / f"photos/{number}.jpg").touch()
    code, shown = run(capsys, "survey")
    assert code == 2
    assert "vessels/photos: not surveyed: more than 20 files lie in it" in shown.out


def test_boats_beside_a_stray_file_are_not_passed_over(fleet, capsys):
    """A vessel.yaml in the folder of vessels makes that one boat: the others are told."""
    shutil.copy(fleet / "teasel/vessel.yaml", fleet)
    code, shown = run(capsys, "survey")
    assert code == 2
    assert "vessels/teasel: not surveyed: it lies in the folder of another vessel" in shown.out


# As a user who may not read everything.


def forbid(*paths, mode=0):
    return lambda fleet: [(fleet / path).chmod(mode) for path in paths]


UNREADABLE = {
    "the folder": (forbid("tern"), "vessels/tern", "you may not read it"),
    "the folder, which can be listed": (forbid("tern", mode=0o444), "vessels/tern", "you may not read it"),
    "vessel.yaml": (forbid("tern/vessel.yaml"), "vessels/tern", "Permission denied"),
    "voyage.yaml": (forbid("tern/voyage.yaml"), "vessels/tern", "Permission denied"),
    "a folder that may hold one": (forbid("deep/down"), "vessels/deep", "you may not read it"),
    "a link into such a folder": (lambda fleet: ((fleet / "link").symlink_to(fleet.parent / "shut/tern"), (fleet.parent / "shut").chmod(0)), "vessels/link", "you may not read it"),
    "the folder of vessels": (forbid("."), "vessels", "you may not read it"),
    "the folder of vessels, which can be entered": (forbid(".", mode=0o111), "vessels", "you may not read it"),
    "the folder of vessels, which can be listed": (forbid(".", mode=0o444), "vessels", "you may not read it"),
}  # fmt: skip


@pytest.mark.thorough
@pytest.mark.one_in(3, "command", "kind")
@pytest.mark.parametrize("command", COMMANDS)
@pytest.mark.parametrize("kind", UNREADABLE)
def test_what_may_not_be_read_is_named(tmp_path, kind, command):
    spoil, where, words = UNREADABLE[kind]
    here, vessels = tmp_path, tmp_path / "vessels"
    boat(here / "shut/tern")
    for name in ("teasel", "tern"):
        boat(vessels / name, TEASEL.replace("Teasel", name.capitalize()))
    (vessels / "tern/voyage.yaml").write_text("until: 2026-07-01\npersons: [{name: A, role: skipper}]\n")
    (vessels / "deep/down").mkdir(parents=True)
    before = {path: path.stat().st_mode for path in (here, *here.rglob("*"))}
    spoil(vessels)
    done = subprocess.run(
        [*as_a_user(), sys.executable, "-m", "generator", *COMMANDS[command], "vessels"],
        capture_output=True,
        check=False,
        cwd=here,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )
    for path, mode in before.items():
        path.chmod(mode)
    said = done.stdout.decode() + done.stderr.decode()
    assert "Traceback" not in said
    if kind == "voyage.yaml" and command == "due":  # it holds no dates of things
        assert done.returncode == 0
        return
    assert where in said and words in said, said
    assert done.returncode == (1 if kind == "voyage.yaml" else 2), said
    if not kind.startswith("the folder of vessels"):
        others = {"survey": "vessels/teasel: 4 rec", "publish": "vessels/teasel: published", "due": "Teasel"}
        assert others[command] in said
