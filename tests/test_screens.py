"""What a survey shows first: two screens for many faults, what to find out next for a new boat, what is not looked at."""

import shutil

import pytest
from beside import lay_beside
from checks.survey_patch import VESSELS, survey_boat
from specimens import BOATS

from generator.__main__ import DEFECTS, SOUND, main
from generator.reading.fields import Misread
from generator.reading.findings import Finding, Place, Weight, defects
from generator.survey.held import held_back
from generator.survey.listing import COLUMNS, ROWS, SCREENS, on_screen
from generator.vessel.installed import ThroughHull
from generator.vessel.vessel import Vessel

LONG = "so that a line of it is longer than a screen is wide, as such lines are, when they tell what is and what is to be"


def _many(number, weight=Weight.DEFECT, file="boats/tern/vessel.yaml"):
    return [
        Finding(
            "gear.expired",
            weight,
            f"{LONG} {line}",
            Place(file, line),
            f"renew {line} (or one of: a red, or a blue one, or a green one)",
        )
        for line in range(1, number + 1)
    ]


def _fits(text):
    lines = text.split("\n")
    return len(lines) <= SCREENS * ROWS and max(map(len, lines)) <= COLUMNS


def test_forty_faults_fit_two_screens():
    shown = on_screen(_many(25) + _many(17, Weight.RECOMMENDATION, "boats/tern/../classes/gull.yaml"))
    assert _fits(shown)
    assert shown.count("gear.expired") == 42
    assert "  vessel.yaml:25:1 gear.expired" in shown
    assert "-> renew 1" in shown
    assert "a blue one" not in shown


def test_what_does_not_fit_is_counted_and_nothing_that_stops_is_left_out():
    shown = on_screen(_many(47) + _many(30, Weight.RECOMMENDATION))
    assert shown.count("gear.expired") == 47
    assert "30 things; all of it: --report survey.txt" in shown


def test_few_faults_are_shown_at_length():
    assert "boats/tern/vessel.yaml:1:1: defect gear.expired" in on_screen(_many(3))


def test_the_survey_of_a_new_boat_begins_with_five_things(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    assert main(["commission", "Tern", "--ask-nothing"]) == SOUND
    capsys.readouterr()
    assert main(["survey", "vessels/tern"]) == DEFECTS
    count, head, *rest = capsys.readouterr().out.split("\n")
    assert count.startswith("vessels/tern: ")
    assert head == "Find out next:"
    numbered = [line for line in rest[: rest.index("")] if line[0].isdigit()]
    assert [line[:3] for line in numbered] == ["1. ", "2. ", "3. ", "4. ", "5. "]
    assert numbered[0].startswith("1. the raft: ")
    assert max(map(len, rest)) <= COLUMNS


@pytest.mark.parametrize("boat", BOATS)
def test_without_private_yaml_one_note_is_all(boat, tmp_path):
    lay_beside(tmp_path)
    folder = tmp_path / boat
    shutil.copytree(VESSELS / boat, folder)
    before = {(each.check, each.message) for each in survey_boat(folder).findings}
    (folder / "private.yaml").unlink(missing_ok=True)
    new = [each for each in survey_boat(folder).findings if (each.check, each.message) not in before]
    private = (VESSELS / boat / "private.yaml").exists()
    assert [each.check for each in new] == ["file.no-private"] * private


@pytest.mark.parametrize(("figure", "meant"), [("25", "25 mm"), ("0.1", "0.1 m"), ("3", "3 cm")])
def test_a_unit_left_out_is_one_that_can_be_meant(figure, meant):
    with pytest.raises(Misread) as told:
        ThroughHull.diameter.read(figure)
    assert f"for example {meant} (" in told.value.remedy


def test_nothing_is_held_back_without_a_defect(tmp_path):
    """What is not known of a list, and no more than recommended, holds nothing back."""
    lay_beside(tmp_path)
    folder = tmp_path / "saltmeadow"
    shutil.copytree(VESSELS / "saltmeadow", folder)
    file = folder / "vessel.yaml"
    text = file.read_text(encoding="utf-8")
    for key in (key for key, field in Vessel.fields.items() if f"\n{key}:" in text):
        lines = text.split("\n")
        at = next(number for number, line in enumerate(lines) if line.startswith(f"{key}:"))
        end = next(
            (n for n in range(at + 1, len(lines)) if lines[n] and lines[n][0] not in " #-"), len(lines)
        )
        for word in ("unknown", ""):
            file.write_text("\n".join([*lines[:at], f"{key}: {word}", *lines[end:]]), encoding="utf-8")
            surveyed = survey_boat(folder)
            again = [Finding("gear.expired", Weight.DEFECT, "x", Place("vessel.yaml", 1, 1, key))]
            if surveyed.vessel and list(held_back(surveyed.vessel, [*surveyed.findings, *again])):
                assert defects(surveyed.findings), f"{key}: {word}"


@pytest.mark.parametrize(("old", "new", "check", "line"), [
    ("  - {what: batteries, where: chart table, side: starboard, spot: under the seat, how: turn both red keys to OFF}\n", "", "fire.battery-switch-missing", "paste: - {what: batteries, where: unknown, how: unknown}"),
    ('"torch, waterproof"', '"lantern"', "gear.missing-for-step", "paste: - {what: torch, where: unknown, quantity: unknown}"),
    ("muster-place: cockpit\n", "muster-place: cockpitt\n", "deck.muster-place", "write muster-place: cockpit? (or one of: "),
    ("substitute: guest 1}\n    muster", "substitute: gest 1}\n    muster", "bill.unknown-person", "write substitute: guest 1? (it takes: "),
    ("      use: lift the red flap and hold the button for two seconds\n", "", "steps.gap", "find out and write use, for example use: slide the red cover"),
])  # fmt: skip
def test_a_remedy_names_the_key_and_gives_the_line(old, new, check, line, tmp_path):
    folder = tmp_path / "saltmeadow"
    shutil.copytree(VESSELS / "saltmeadow", folder)
    file = folder / "vessel.yaml"
    text = file.read_text(encoding="utf-8")
    assert text.count(old) == 1
    file.write_text(text.replace(old, new), encoding="utf-8")
    told = [each for each in survey_boat(folder).findings if each.check == check]
    assert told
    assert any(line in each.remedy for each in told), [each.remedy for each in told]
