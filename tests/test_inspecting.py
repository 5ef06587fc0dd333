"""What `musterbook inspect` says of published folders, and that it finishes what was broken off."""

import os
import shutil
from pathlib import Path

import pytest
from alarm import within
from fleet_of_fakes import edit, fakes, lay_out  # noqa: F401 (a fixture)

from generator import __main__ as program
from generator.machine.locking import locked

pytestmark = pytest.mark.usefixtures("fakes")


@pytest.fixture
def run(capsys, monkeypatch, tmp_path):
    """Runs a command line in this process, in a folder with two boats published: exit code, stdout, stderr."""
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    lay_out(tmp_path / "vessels", "saltmeadow", "zilte-wind")
    monkeypatch.chdir(tmp_path)

    def call(*argv):
        code = program.main(list(argv))
        return (code, *capsys.readouterr())

    assert call("publish")[0] == 0
    return call


BOAT = Path("site/saltmeadow")
DAY = ("--as-of", "2026-06-01")


def test_a_whole_folder(run):
    code, out, err = run("inspect", str(BOAT), *DAY)
    assert (code, err) == (0, "")
    lines = out.splitlines()
    assert lines[0] == "site/saltmeadow: whole"
    assert lines[1].startswith(
        "  Saltmeadow, surveyed on 2026-06-01; good until 2026-06-24 (to be done by then: EPIRB, test; "
    )
    assert lines[2].startswith("  written by musterbook 0.1.0 from the description: crew ")
    assert ", guest " in lines[2]
    assert len(lines) == 3


def test_all_boats_of_the_output_folder(run):
    Path("site/notes").mkdir()
    Path("site/README.md").touch()
    Path("site/link").symlink_to(Path("site/saltmeadow").resolve())
    code, out, _ = run("inspect", *DAY)
    assert code == 0
    assert [line for line in out.splitlines() if not line.startswith(" ")] == [
        "site/saltmeadow: whole",
        "site/zilte-wind: whole",
    ]


def test_one_reader_s_folder_copied_anywhere(run, tmp_path):
    shutil.copytree(BOAT / "guest", tmp_path / "stick")
    code, out, _ = run("inspect", str(tmp_path / "stick"), *DAY)
    assert code == 0
    assert out.startswith(f"{tmp_path}/stick: whole\n  Saltmeadow, ")
    assert "crew" not in out
    (tmp_path / "stick/site.txt").write_text("x")
    code, out, _ = run("inspect", str(tmp_path / "stick"), *DAY)
    assert (code, "  changed: site.txt\n" in out) == (1, True)


def test_a_proof_copy_says_that_it_is_one(run):
    run("publish", "vessels/saltmeadow", "--proof-copy")
    code, out, _ = run("inspect", "site/saltmeadow.proof-copy", *DAY)
    assert (code, "; a proof copy, not for use\n" in out) == (0, True)


def test_past_its_date(run):
    code, out, _ = run("inspect", str(BOAT), "--as-of", "2031-01-01")
    assert code == 1
    assert out.startswith("site/saltmeadow: whole, but past its date\n")
    assert "; PAST" in out


def test_what_differs_is_missing_or_strange_is_named_with_the_way_out(run):
    (BOAT / "crew/book.txt").unlink()
    (BOAT / "guest/site.txt").write_text("edited")
    (BOAT / "guest/no\ntes.txt").write_text("my own")
    (BOAT / "guest/out").symlink_to("/")
    code, out, _ = run("inspect", str(BOAT), *DAY)
    assert code == 1
    assert out.splitlines()[0] == "site/saltmeadow: not whole: 1 missing, 1 changed, 2 not musterbook's"
    assert "  missing: crew/book.txt\n  changed: guest/site.txt\n" in out
    assert "  not musterbook's: guest/no\\ntes.txt\n  not musterbook's: guest/out\n" in out
    assert "add --set-aside: it moves the whole folder" in out
    code, out, _ = run("publish", "vessels/saltmeadow", "--set-aside")
    assert (code, "  set aside, nothing of it removed: site/saltmeadow.set-aside-1\n" in out) == (0, True)
    code, out, _ = run("inspect", *DAY)
    assert (code, out.count(": whole\n")) == (0, 2)
    assert (Path("site/saltmeadow.set-aside-1") / "guest/site.txt").read_text() == "edited"


@pytest.mark.parametrize("text", [None, "{}"])
def test_a_boat_s_folder_without_its_own_manifest_is_known_by_her_readers(run, text):
    (BOAT / "manifest.json").unlink()
    if text is not None:
        (BOAT / "manifest.json").write_text(text)
    for where in (str(BOAT), "site"):
        code, out, _ = run("inspect", where, *DAY)
        assert code == 1
        assert f"  {'missing' if text is None else 'changed'}: manifest.json\n" in out


@pytest.mark.parametrize(
    ("where", "says"),
    [
        ("nowhere", "there is no folder 'nowhere'"),
        ("vessels/saltmeadow/vessel.yaml", "is no folder"),
        ("vessels", "vessels holds no manual that musterbook published"),
    ],
)
def test_where_nothing_was_published_the_exit_code_is_two(run, where, says):
    code, out, err = run("inspect", where)
    assert (code, out, says in err) == (2, "", True)


def test_the_description_it_comes_from(run):
    asked = ("inspect", str(BOAT), *DAY, "--vessel", "vessels/saltmeadow")
    code, out, _ = run(*asked)
    assert (code, "; the description is the same today\n" in out) == (0, True)
    edit(Path("vessels/saltmeadow"), "\n\nvessel:", "\n\n# a word for whoever keeps the file\nvessel:")
    assert run(*asked)[0] == 0
    edit(Path("vessels/saltmeadow"), "hull-colour: dark blue", "hull-colour: black")
    code, out, _ = run(*asked)
    assert (code, "; the description, or musterbook, is another today\n" in out) == (1, True)
    assert run(*asked[:-1], "vessels/saltmeadow/vessel.yaml") == run(*asked)
    assert run("inspect", "site", "--vessel", "vessels/saltmeadow")[0] == 2
    assert run("inspect", str(BOAT), "--vessel", "vessels/nowhere")[0] == 2


def test_a_publish_at_work_is_told(run, monkeypatch):
    from generator import inspecting

    look = inspecting.inspect
    monkeypatch.setattr(inspecting, "inspect", lambda *args: look(*args, wait_s=0))
    with locked(Path("site"), "saltmeadow"):
        code, out, err = run("inspect", str(BOAT))
    assert (code, out) == (2, "")
    assert "another publish is at work in" in err


@pytest.mark.parametrize("where", [str(BOAT), "site"])
def test_a_broken_off_swap_is_finished(run, where):
    BOAT.rename("site/.saltmeadow.musterbook-old-0123456789abcdef")
    code, out, _ = run("inspect", where, *DAY)
    assert (code, "site/saltmeadow: whole\n" in out) == (0, True)
    assert sorted(path.name for path in Path("site").iterdir()) == ["saltmeadow", "zilte-wind"]


def test_somebody_s_own_journal_is_told_and_left(run):
    journal = Path("site/.saltmeadow.musterbook-journal")
    journal.write_text("mine")
    code, out, _ = run("inspect", str(BOAT), *DAY)
    assert (code, "is no file of musterbook's" in out) == (0, True)
    assert journal.read_text() == "mine"


def test_a_folder_that_is_replaced_while_it_is_looked_at_is_looked_at_again(run, monkeypatch):
    from generator import inspecting

    find, seen = inspecting.find, []

    def slowly(folder):
        if not seen:
            BOAT.rename("site/old")
            shutil.copytree("site/old", BOAT)
            (Path("site/old") / "crew/book.txt").unlink()
        seen.append(folder)
        return find(folder)

    monkeypatch.setattr(inspecting, "find", slowly)
    assert run("inspect", str(BOAT), *DAY)[0] == 0
    assert len(seen) == 2


def link(path):
    path.symlink_to(BOAT.resolve() / "guest/manifest.json")


@pytest.mark.attack("ours-alone")
@pytest.mark.parametrize(
    ("command", "report", "lay", "why"),
    [
        ("survey", "site/saltmeadow/manifest.json", None, "is a published folder"),
        ("survey", "site/saltmeadow/guest/fonts/new.xml", None, "is a published folder"),
        ("survey", "site/saltmeadow/guest/../guest/new.txt", None, "is a published folder"),
        ("publish", "linked.json", link, "is a published folder"),
        ("due", "site/saltmeadow/crew/calendar.ics", None, "is a published folder"),
        ("survey", "pipe.sarif", os.mkfifo, "this is a pipe"),
        ("due", "pipe.csv", os.mkfifo, "this is a pipe"),
    ],
)
def test_no_report_tears_a_published_folder_or_waits_for_a_pipe(run, command, report, lay, why):
    if lay is not None:
        lay(Path(report))
    with within(60):
        code, _, err = run(command, "vessels/zilte-wind", "--report", report)
    assert code == 2
    assert f"--report {report}: " in err
    assert why in err
    assert run("inspect", str(BOAT), *DAY)[0] == 0


def test_a_report_beside_the_boats_folders_is_written(run):
    assert run("survey", "vessels/zilte-wind", "--report", "site/survey.json")[0] == 0
    assert Path("site/survey.json").is_file()
