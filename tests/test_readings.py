"""What a professional found is answered row by row; what the rows leave to tests of their own stands here."""

import re
from pathlib import Path

import crews
import pytest
from evidence.lists import reading
from specimens import VESSELS

from generator.manual.procedures import compose_procedures
from generator.manual.raft_facts import float_free, float_free_untold
from generator.manual.reckoning import Reckoning
from generator.outputs.book import _inflow, _rated
from generator.reading.values import UNKNOWN
from generator.shelves.languages import catalogue
from generator.vessel.loading import load

ROOT = Path(__file__).parent.parent
ROWS = {"A": 13, "B": 14, "C": 10, "D": 4, "E": 11, "R": 7}
"""How many of each sort there are."""
FOUND = reading().findings


def number_of(row):
    return re.fullmatch(r"([A-ER]\d+)[a-z]?", str(row.row))[1]


def test_no_row_is_forgotten():
    told = {number_of(row) for row in FOUND}
    assert told == {f"{sort}{number}" for sort, many in ROWS.items() for number in range(1, many + 1)}


@pytest.mark.parametrize("row", FOUND, ids=lambda row: row.row)
def test_each_row_is_mended_or_says_why_not(row):
    assert row.answers() or row.source or len(str(row.reason)) > 20
    for path in re.findall(r"tests/[a-z_/]+\.py", str(row.reason or "")):
        assert (ROOT / path).is_file(), path


def test_most_rows_are_mended_in_the_steps():
    assert sum(bool(row.steps) for row in FOUND) / len(FOUND) > 0.85


def test_whoever_commands_is_called_as_the_file_calls_them(tmp_path, monkeypatch):
    people = crews.MATE.replace("role: mate", "role: master") + crews.HANDS
    monkeypatch.setitem(crews.CREWS, "a master", (3, people))
    monkeypatch.setitem(crews.CARRIED, "a master", ("[master]", "[engineer, cook]"))
    monkeypatch.setitem(crews.ROLES, "a master", ("master", "engineer", "cook"))
    vessel, procedures, _ = crews.composed("ombrelune", "a master", tmp_path)
    said = [
        (step.id, text)
        for one in procedures
        for step in one.steps
        for text in (step.text, step.unless, step.caution)
        if str(vessel.vessel.abandon_order) not in text
    ]
    assert any("master" in text for _, text in said)
    assert [each for each in said if "skipper" in each[1]] == []


def test_what_is_not_known_of_a_raft_is_not_said_of_it():
    raft = load(VESSELS / "nordgyllen")[0].rafts[0]
    assert float_free(raft)
    assert not float_free_untold(raft)
    raft.painter.__dict__["fast_to"] = UNKNOWN
    assert float_free_untold(raft)
    raft.painter.__dict__["fast_to"] = "strong point"
    assert not float_free(raft)
    assert not float_free_untold(raft)


def test_what_an_open_hole_lets_in_is_told_where_it_is_known():
    vessel = load(VESSELS / "saltmeadow")[0]
    sounder = next(each for each in vessel.through_hulls if "sounder" in str(each.what))
    assert _inflow(sounder) == "243"
    assert _rated(vessel) == "240"
    sounder.__dict__["below_water"] = UNKNOWN
    assert _inflow(sounder) == ""
    vessel.pumps[0].__dict__["flow"] = UNKNOWN
    assert _rated(vessel) == ""


def test_steps_and_script_of_the_call_are_in_one_order():
    script = (ROOT / "templates/parts/script.html").read_text(encoding="utf-8")
    spoken = [
        each
        for each in re.findall(r'say\("distress\.([a-z-]+)"', script)
        if each in ("mayday", "this-is", "call-sign", "mmsi", "mayday-again", "position", "nature", "over")
    ]
    assert spoken == ["mayday", "this-is", "call-sign", "mmsi", "mayday-again", "position", "nature", "over"]
    composed, _ = compose_procedures(Reckoning(load(VESSELS / "saltmeadow")[0]), catalogue())
    call = next(one for one in composed if one.kind == "distress-call")
    said = [step.text for step in call.steps if "“" in step.text]
    assert [re.search("“([A-Z][a-zA-Z ]+)", each)[1] for each in said] == [
        "MAYDAY",
        "Call sign MZZZ",
        "My position is",
        "We are",
        "Over",
    ]
    assert re.search("This is Saltmeadow", said[0])
    assert said[1].endswith("MAYDAY Saltmeadow”.")
