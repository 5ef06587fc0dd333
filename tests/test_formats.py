"""What a format number promises: a file that was sound stays read, and means the same. Files as they were written at first."""

import json
import shutil
from pathlib import Path

import pytest
from checks.survey_patch import survey_boat

from generator.__main__ import main
from generator.reading.findings import Weight
from generator.vessel.loading import load
from generator.vessel.vessel import FORMAT

FIRST = Path(__file__).parent / "data" / f"format-{FORMAT}"
BOATS = sorted(path.parent.name for path in FIRST.glob("*/vessel.yaml"))
WITHOUT = {
    "file.no-format",
    "file.no-private",
}  # class files and voyage.yaml did not say their format; nor is private.yaml there


def test_boats_of_the_first_files_are_there():
    assert len(BOATS) == 4


@pytest.mark.parametrize("boat", BOATS)
def test_a_first_file_is_read_without_a_defect(boat):
    """What was asked for since then is recommended."""
    vessel, findings = load(FIRST / boat, boat)
    assert vessel is not None
    assert {found.check for found in findings} <= WITHOUT | {"file.not-known-yet"}
    assert Weight.DEFECT not in {found.weight for found in findings}


def test_first_files_are_sound(tmp_path, capsys):
    report = tmp_path / "survey.json"
    assert main(["survey", str(FIRST), "--report", str(report)]) == 0
    findings = json.loads(report.read_text())["findings"]
    told = {found["check"] for found in findings if found["weight"] == "note"}
    assert told == WITHOUT | {"fleet.no-vessel", "raft.mount-not-told"}  # asked kindly for what came later
    assert "defect" not in {found["weight"] for found in findings}
    said = capsys.readouterr().out
    assert all(f"{boat}: " in said for boat in BOATS)


@pytest.mark.thorough
def test_a_first_file_is_published_as_it_is(tmp_path):
    assert main(["publish", str(FIRST / "ombrelune"), "--into", str(tmp_path), "--only", "one-file"]) == 0
    assert "Ombrelune" in (tmp_path / "ombrelune/guest/manual.html").read_text()


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("vessel:\n", "vessels:\n"),
        ("vessel:\n  type: catamaran\n", "crew: nobody\nvessel:\n  type: catamaran\n"),
        ("vessel:\n", "format: 2\nvessel:\n"),
        ("  type: catamaran\n", "  typ: catamaran\n"),
    ],
)
def test_a_file_without_a_format_that_may_be_anything_is_not_quoted(old, new, tmp_path):
    for name in ("classes/marelle-45.yaml", "ombrelune/vessel.yaml"):
        (tmp_path / name).parent.mkdir()
        (tmp_path / name).write_bytes((FIRST / name).read_bytes())
    shared = tmp_path / "classes/marelle-45.yaml"
    assert old in shared.read_text()
    shared.write_text(shared.read_text().replace(old, new, 1))
    findings = load(tmp_path / "ombrelune", "ombrelune")[1]
    assert [found.check for found in findings].count("file.format") == 1
    assert {found.place.key for found in findings if "marelle" in found.place.file} <= {"format"}


def weights(check, boat, tmp_path, *changes):
    """How a check weighs what it finds in a first file with these changes."""
    shutil.copytree(FIRST, tmp_path / "first")
    for name, old, new in changes:
        file = tmp_path / "first" / name
        text = file.read_text(encoding="utf-8")
        assert old in text
        file.write_text(text.replace(old, new), encoding="utf-8")
    return [each.weight for each in survey_boat(tmp_path / "first" / boat).findings if each.check == check]


@pytest.mark.parametrize(
    ("told", "weight"), [("", Weight.RECOMMENDATION), (" serves-inverted: yes,", Weight.DEFECT)]
)
def test_how_she_lies_full_is_demanded_of_who_tells_what_serves_then(told, weight, tmp_path):
    """The keys of both came together: a file that has one of them is no first one."""
    change = ("classes/marelle-45.yaml", "opens: both, how: break", f"opens: both,{told} how: break")
    assert weights("capsize.not-said", "ombrelune", tmp_path, change) == [weight]


@pytest.mark.parametrize(
    ("order", "weight"),
    [
        ('the skipper calls "Abandon ship" three times and rings the bell', Weight.RECOMMENDATION),
        ("by word of mouth, three times, and on the bell", Weight.RECOMMENDATION),
        ("the skipper rings the bell without a stop", Weight.DEFECT),
        ('on the bell, which has "call" on it', Weight.DEFECT),
    ],
)
def test_a_bell_that_is_not_listed_weighs_less_beside_a_voice(order, weight, tmp_path):
    text = (FIRST / "nordgyllen/vessel.yaml").read_text(encoding="utf-8")
    line = next(each for each in text.splitlines() if each.startswith("  abandon-order: "))
    change = ("nordgyllen/vessel.yaml", line, f"  abandon-order: {order}")
    assert weights("bill.alarm-unsounded", "nordgyllen", tmp_path, change) == [weight]
