"""What commission says at its end and the line it writes for editors: true of this boat, and usable as it stands."""

import json
from datetime import date

import jsonschema
import pytest
import yaml

from generator.commissioning import editors
from generator.commissioning.closing import closing
from generator.commissioning.editors import schema_of
from generator.commissioning.first_things import first_things
from generator.commissioning.writing import commission
from generator.fleet import discover
from generator.publishing import Order, survey
from generator.reading.findings import Finding, Place, Weight
from generator.shelves.folder import templates_folder
from generator.vessel.schema import vessel_schema

ORDER = Order(date(2026, 6, 1))
MODELINE = "# yaml-language-server: $schema="


def test_the_first_things_are_open_keys_of_hers_what_saves_lives_first(tmp_path):
    done = commission("Tern", {"people": "3", "vessel.type": "monohull"}, tmp_path)
    surveyed = survey(done.path.parent, "tern", ORDER)
    things = first_things(surveyed.findings)
    assert [each.about for each in things] == [
        "the raft", "the raft's painter", "the raft's dates", "alarm, order to abandon and muster place", "the radio"
    ]  # fmt: skip
    open_keys = {each.place.key for each in surveyed.findings if each.weight is Weight.DEFECT}
    assert {key for each in things for key in each.keys} <= open_keys
    told = closing(done, ORDER)
    assert "painter: How long is it (on the container's label)?" in told
    assert "rafts[liferaft].painter.length" in told
    assert (
        told.splitlines()[-1]
        == f"A first look at her manual: musterbook publish {done.path.parent} --proof-copy"
    )


def test_without_a_raft_the_radio_comes_first_and_without_people_who_does_what(tmp_path):
    done = commission("Tern", {"rafts": "none", "radio.beacons": "none"}, tmp_path)
    abouts = [each.about for each in first_things(survey(done.path.parent, "tern", ORDER).findings)]
    assert abouts[1:4] == ["the radio", "who does what", "the lifejackets"]
    assert abouts[0] == "alarm, order to abandon and muster place"


def test_what_a_check_found_is_told_in_its_words():
    found = Finding("raft.x", Weight.DEFECT, "the raft is upside down", Place("f", 1, 1, "rafts[a].righting"))
    note = Finding("raft.y", Weight.NOTE, "never mind", Place("f", 1, 1, "rafts[a].where"))
    assert [each.words for each in first_things([found, note])] == [
        "getting into the raft: The raft is upside down."
    ]
    assert first_things([note]) == []


def test_entries_without_a_name_and_whole_blocks_are_asked_in_the_question_s_words(tmp_path):
    (tmp_path / "vessel.yaml").write_text("format: 1\nrafts:\n  - {stowage: deck cradle}\n", encoding="utf-8")
    asked = [one for each in first_things(survey(tmp_path, "tern", ORDER).findings) for one in each.asked]
    assert "Which painter has it?" in asked and "What is it packed in?" in asked
    assert [each for each in asked if not each.endswith("?") or "'" in each or "not known yet" in each] == []


def test_the_line_for_editors_leads_to_a_schema_by_which_the_file_is_valid(tmp_path):
    path = commission("Tern", {"people": "2"}, tmp_path).path
    first = path.read_text(encoding="utf-8").splitlines()[0]
    assert first.startswith(MODELINE)
    schema = (path.parent / first.removeprefix(MODELINE)).resolve()
    assert schema == (tmp_path / "vessel.schema.json").resolve()
    assert json.loads(schema.read_text(encoding="utf-8")) == vessel_schema()
    plain = yaml.load(path.read_text(encoding="utf-8"), yaml.BaseLoader)
    plain["rafts"][0]["persons"] = 4
    assert "Tern" in str(plain)
    jsonschema.Draft202012Validator.check_schema(vessel_schema())
    assert [shown for _, shown in discover([str(tmp_path)]).boats] == [str(path.parent)]


def test_in_a_checkout_it_leads_to_the_schema_that_is_kept_there():
    checkout = templates_folder().parent
    schema = schema_of(checkout / "vessels")
    assert schema.ours
    assert (checkout / "vessels" / "any" / schema.seen_from_a_vessel).resolve() == (
        templates_folder() / "vessel.schema.json"
    ).resolve()
    assert " " not in schema.seen_from_a_vessel


def test_a_schema_of_the_program_is_renewed_and_another_file_is_left(tmp_path):
    schema = tmp_path / "vessel.schema.json"
    schema.write_text(json.dumps({"title": "A vessel's description, format 0"}))
    commission("A", {}, tmp_path)
    assert json.loads(schema.read_text())["title"] == vessel_schema()["title"]
    for number, mine in enumerate(('{"title": "mine"}', "no json", "[]")):
        schema.write_text(mine)
        commission(f"B {number}", {}, tmp_path)
        assert schema.read_text() == mine
    schema.unlink()
    schema.symlink_to(tmp_path / "elsewhere")
    commission("C", {}, tmp_path)
    assert schema.is_symlink()
    assert not (tmp_path / "elsewhere").exists()


def test_that_no_schema_can_be_written_stops_no_vessel(tmp_path, monkeypatch):
    (tmp_path / f".{editors.FILE}.new").write_text("somebody's")
    assert commission("A", {}, tmp_path).path.is_file()
    assert not (tmp_path / "vessel.schema.json").exists()
    assert (tmp_path / f".{editors.FILE}.new").read_text() == "somebody's"


@pytest.mark.parametrize("engine", ["none", "outboard", "inboard diesel", "unknown"])
def test_no_line_for_an_engine_she_has_not(tmp_path, engine):
    answers = {"vessel.engine": engine, "gas.fuel": "none"}
    text = commission("Tern", answers, tmp_path).path.read_text(encoding="utf-8")
    inboard = engine in ("inboard diesel", "unknown")
    assert (
        ("engine space" in text) == ("engine cooling inlet" in text) == ("what: engine," in text) == inboard
    )
    assert ("kill cord" in text) == (engine == "outboard")
    assert "what: gas," not in text


def test_whoever_pipes_answers_is_told_that_nothing_was_asked(tmp_path):
    done = commission("Tern", {}, tmp_path)
    assert "no terminal" in closing(done, ORDER, unasked=True).splitlines()[0]
    assert "no terminal" not in closing(done, ORDER)


def test_a_beacon_named_after_its_kind_is_of_that_kind(tmp_path):
    done = commission(
        "Tern", {"radio.beacons": "EPIRB, radar transponder", "radio.sets": "masthead VHF"}, tmp_path
    )
    text = done.path.read_text(encoding="utf-8")
    assert "kind: unknown" not in text.partition("radio:")[2].partition("station-bill")[0]
