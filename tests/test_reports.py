"""Reports of findings: text in order and colour, JSON, SARIF 2.1.0, JUnit."""

import ast
import json
import re
from pathlib import Path
from xml.etree import ElementTree

import jsonschema
import pytest

from generator.reading.findings import Finding, Place, Weight
from generator.survey import reports
from generator.survey.registry import all_checks

PACKAGE = Path(__file__).parent.parent / "generator"
D, R, N = Weight.DEFECT, Weight.RECOMMENDATION, Weight.NOTE
FILE = "vessels/boat/vessel.yaml"
FOUND = [
    Finding(
        "raft.capacity",
        D,
        "6 persons aboard, 4 in the raft",
        Place(FILE, 41, 12, "rafts[0].persons"),
        "bring a larger raft",
        "Main raft",
        (Place(FILE, 3, 5, "vessel.persons"), Place("vessels/boat/voyage.yaml", 2, 1)),
    ),
    Finding(
        "gear.expired",
        R,
        "flares: good until 2026-05-31",
        Place(FILE, 90, 3, "gear[4].expires"),
        "replace them",
    ),
    Finding("raft.old", R, "the raft is old", Place(FILE, 40, 1, "rafts[0]"), "ask the station"),
    Finding(
        "bill.two-places",
        D,
        "the mate is in two places",
        Place(FILE, 12, 7),
        "give one duty to somebody else",
    ),
    Finding("file.not-known-yet", N, "'colour' is not known yet", Place(FILE, 5, 11, "vessel.colour")),
]


def test_text_is_a_list_of_what_to_do_in_the_order_of_what_matters():
    assert (
        reports.text(FOUND[::-1])
        == """\
Before anything is published: 2 things
  Rafts
    vessels/boat/vessel.yaml:41:12: defect raft.capacity: 6 persons aboard, 4 in the raft
        see also vessels/boat/vessel.yaml:3:5
        see also vessels/boat/voyage.yaml:2:1
        -> bring a larger raft
  Station bill
    vessels/boat/vessel.yaml:12:7: defect bill.two-places: the mate is in two places
        -> give one duty to somebody else

Then, so that nothing is left out or goes unchecked: 2 things
  Rafts
    vessels/boat/vessel.yaml:40:1: recommendation raft.old: the raft is old
        -> ask the station
  Gear
    vessels/boat/vessel.yaml:90:3: recommendation gear.expired: flares: good until 2026-05-31
        -> replace them

For information: 1 thing
  The vessel
    vessels/boat/vessel.yaml:5:11: note file.not-known-yet: 'colour' is not known yet

2 defects, 2 recommendations, 1 note
"""
    )


def test_text_of_nothing_says_so():
    assert reports.text([]) == "no findings\n"
    assert reports.count([FOUND[0]]) == "1 defect"


def test_findings_of_one_subject_stand_in_the_order_of_the_file_not_of_its_digits():
    rows = [
        Finding("raft.x", D, f"m{line}", Place(FILE, line, column))
        for line, column in ((10, 2), (9, 30), (9, 4), (100, 1))
    ]
    lines = [line.split(":")[1:3] for line in reports.listing(rows).splitlines() if FILE in line]
    assert lines == [["9", "4"], ["9", "30"], ["10", "2"], ["100", "1"]]


def test_the_same_finding_is_said_once():
    assert reports.text([FOUND[0], FOUND[0]]).count("raft.capacity") == 1


def test_colour_marks_the_weight_and_only_when_asked():
    coloured = reports.listing(FOUND, colour=True)
    assert "\033[1;31mdefect\033[0m raft.capacity" in coloured
    assert "\033[33mrecommendation\033[0m" in coloured
    assert "\033[36mnote\033[0m" in coloured
    assert "\033" not in reports.listing(FOUND)
    plain = coloured
    for code in ("\033[1;31m", "\033[33m", "\033[36m", "\033[0m"):
        plain = plain.replace(code, "")
    assert plain == reports.listing(FOUND)


def test_every_subject_of_a_check_reads_as_a_heading():
    for name in all_checks():
        heading = reports.listing([Finding(name, D, "m", Place(FILE))]).splitlines()[1]
        assert re.match("  [A-Z][a-z]", heading), name


def test_json_holds_everything():
    read = json.loads(reports.as_json(FOUND))
    assert read["counts"] == {"defect": 2, "recommendation": 2, "note": 1}
    assert [row["line"] for row in read["findings"]] == [5, 12, 40, 41, 90]
    assert read["findings"][3] == {
        "check": "raft.capacity",
        "weight": "defect",
        "message": "6 persons aboard, 4 in the raft",
        "remedy": "bring a larger raft",
        "item": "Main raft",
        "file": FILE,
        "line": 41,
        "column": 12,
        "key": "rafts[0].persons",
        "also": [
            {"file": FILE, "line": 3, "column": 5, "key": "vessel.persons"},
            {"file": "vessels/boat/voyage.yaml", "line": 2, "column": 1, "key": ""},
        ],
    }


# The parts of a SARIF log that are emitted, from the text of the standard (SARIF 2.1.0, OASIS Standard, 27 March 2020).
TEXT = {
    "type": "object",
    "properties": {"text": {"type": "string", "minLength": 1}},
    "required": ["text"],  # 3.11, 3.12
    "additionalProperties": False,
}
LEVEL = {"enum": ["none", "note", "warning", "error"]}  # 3.27.10, 3.50.3
PHYSICAL = {
    "type": "object",
    "required": ["artifactLocation"],
    "additionalProperties": False,
    "properties": {  # 3.29
        "artifactLocation": {
            "type": "object",
            "required": ["uri"],
            "additionalProperties": False,  # 3.4
            "properties": {"uri": {"type": "string", "pattern": r"^[A-Za-z0-9\-._~:/?#\[\]@!$&'()*+,;=%]+$"}},
        },
        "region": {
            "type": "object",
            "required": ["startLine"],
            "additionalProperties": False,  # 3.30
            "properties": {
                "startLine": {"type": "integer", "minimum": 1},
                "startColumn": {"type": "integer", "minimum": 1},
            },
        },
    },
}
LOCATION = {
    "type": "object",
    "additionalProperties": False,
    "properties": {  # 3.28
        "id": {"type": "integer", "minimum": 0},
        "physicalLocation": PHYSICAL,
        "logicalLocations": {
            "type": "array",
            "uniqueItems": True,
            "items": {  # 3.33
                "type": "object",
                "properties": {"fullyQualifiedName": {"type": "string", "minLength": 1}},
                "additionalProperties": False,
            },
        },
    },
}
RULE = {
    "type": "object",
    "required": ["id"],
    "additionalProperties": False,
    "properties": {  # 3.49
        "id": {"type": "string"},
        "shortDescription": TEXT,
        "fullDescription": TEXT,
        "help": TEXT,
        "defaultConfiguration": {
            "type": "object",
            "properties": {"level": LEVEL},
            "additionalProperties": False,
        },
    },
}
RESULT = {
    "type": "object",
    "required": ["message", "ruleId", "level"],
    "additionalProperties": False,
    "properties": {  # 3.27
        "ruleId": {"type": "string"},
        "ruleIndex": {"type": "integer", "minimum": 0},
        "level": LEVEL,
        "message": TEXT,
        "locations": {"type": "array", "items": LOCATION},
        "relatedLocations": {"type": "array", "uniqueItems": True, "items": LOCATION | {"required": ["id"]}},
    },
}
SARIF = {
    "type": "object",
    "required": ["version", "runs"],
    "additionalProperties": False,
    "properties": {  # 3.13
        "version": {"const": "2.1.0"},
        "$schema": {"type": "string", "format": "uri"},
        "runs": {
            "type": "array",
            "items": {
                "type": "object",
                "required": ["tool", "results"],
                "additionalProperties": False,
                "properties": {  # 3.14
                    "tool": {
                        "type": "object",
                        "required": ["driver"],
                        "additionalProperties": False,
                        "properties": {  # 3.18
                            "driver": {
                                "type": "object",
                                "required": ["name"],
                                "additionalProperties": False,
                                "properties": {  # 3.19
                                    "name": {"type": "string", "minLength": 1},
                                    "version": {"type": "string"},
                                    "rules": {"type": "array", "uniqueItems": True, "items": RULE},
                                },
                            }
                        },
                    },
                    "columnKind": {"enum": ["utf16CodeUnits", "unicodeCodePoints"]},  # 3.14.17
                    "results": {"type": "array", "items": RESULT},
                },
            },
        },
    },
}


@pytest.mark.parametrize(
    "found", [FOUND, [], FOUND[:1], [Finding("not.registered", D, "m", Place("a b/ü.yaml"))]]
)
def test_sarif_has_the_parts_the_standard_asks_for(found):
    log = json.loads(reports.as_sarif(found, all_checks()))
    jsonschema.validate(log, SARIF)
    run = log["runs"][0]
    rules = run["tool"]["driver"]["rules"]
    assert len({rule["id"] for rule in rules}) == len(rules)
    assert len(run["results"]) == len(found)
    for result in run["results"]:
        if "ruleIndex" in result:  # 3.27.6: the index and the id name the same rule
            assert rules[result["ruleIndex"]]["id"] == result["ruleId"]
        ids = [place["id"] for place in result.get("relatedLocations", ())]
        assert len(set(ids)) == len(ids)


def test_sarif_says_what_and_where():
    results = json.loads(reports.as_sarif(FOUND, all_checks()))["runs"][0]["results"]
    result = next(each for each in results if each["ruleId"] == "raft.capacity")
    assert (result["level"], result["message"]["text"]) == (
        "error",
        "6 persons aboard, 4 in the raft. bring a larger raft",
    )
    place = result["locations"][0]
    assert place["physicalLocation"] == {
        "artifactLocation": {"uri": FILE},
        "region": {"startLine": 41, "startColumn": 12},
    }
    assert place["logicalLocations"] == [{"fullyQualifiedName": "rafts[0].persons"}]
    assert [each["physicalLocation"]["region"]["startLine"] for each in result["relatedLocations"]] == [3, 2]
    assert [each["level"] for each in results] == ["note", "error", "warning", "error", "warning"]


@pytest.mark.parametrize(
    ("name", "uri"),
    [
        ("boats/Zilte wind/vessel.yaml", "boats/Zilte%20wind/vessel.yaml"),
        (r"boats\b\vessel.yaml", "boats/b/vessel.yaml"),
        ("/boats/b/vessel.yaml", "file:///boats/b/vessel.yaml"),
        (r"C:\boats\vessel.yaml", "file:///C:/boats/vessel.yaml"),
        ("ö.yaml", "%C3%B6.yaml"),
    ],
)
def test_sarif_names_files_as_uri_references(name, uri):
    log = json.loads(reports.as_sarif([Finding("raft.old", N, "m", Place(name))], all_checks()))
    assert log["runs"][0]["results"][0]["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] == uri


def test_junit_has_a_suite_a_vessel_and_fails_for_defects_alone():
    root = ElementTree.fromstring(reports.as_junit([("vessels/boat", FOUND), ("vessels/sound", [])]))
    assert root.attrib == {"name": "musterbook survey", "tests": "6", "failures": "2"}
    boat, sound = root
    assert (boat.get("name"), boat.get("tests"), boat.get("failures")) == ("vessels/boat", "5", "2")
    assert [case.get("classname") for case in boat if case.find("failure") is not None] == [
        "bill.two-places",
        "raft.capacity",
    ]
    failure = boat.find("testcase[@classname='raft.capacity']/failure")
    assert (failure.get("message"), failure.text) == (
        "6 persons aboard, 4 in the raft",
        "bring a larger raft",
    )
    assert "recommendation: the raft is old" in boat.find("testcase[@classname='raft.old']/system-out").text
    assert [case.get("name") for case in sound] == ["survey"]
    assert len(sound[0]) == 0


def test_junit_survives_what_xml_does_not_allow():
    bad = 'a\x00b\x1b[31mc\x0b\ud800\ufffe & <d> "e"\n'
    root = ElementTree.fromstring(reports.as_junit([(bad, [Finding("raft.old", D, bad, Place(bad), bad)])]))
    message = root.find(".//failure").get("message")
    assert message == 'a\\x00b\\x1b[31mc\\x0b\\ud800\ufffd & <d> "e"\\n'


@pytest.mark.parametrize(
    ("name", "start"),
    [
        ("a.json", "{"),
        ("b.SARIF", '{\n  "version": "2.1.0"'),
        ("c.xml", "<?xml"),
        ("d.txt", "Before anything"),
        ("dir.x/e.log", "Before anything"),
    ],
)
def test_the_ending_of_a_report_says_its_form(name, start):
    assert reports.for_file(name, [("boat", FOUND)], all_checks()).startswith(start)


@pytest.mark.parametrize("name", ["findings", "findings.pdf", "json.md", "json/findings"])
def test_another_ending_is_told_which_there_are(name):
    with pytest.raises(ValueError, match=r"\.txt, \.json, \.sarif or \.xml \(JUnit\)"):
        reports.form_of(name)


def made_here(path):
    """The check ids that a module gives to findings it makes itself."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "Finding" and node.args:
            yield from (
                each.value
                for each in ast.walk(node.args[0])
                if isinstance(each, ast.Constant) and "." in str(each.value)
            )


def test_every_finding_made_outside_the_checks_is_described():
    made = {name for path in PACKAGE.rglob("*.py") for name in made_here(path)}
    assert {"file.unknown-key", "output.not-written", "reader.skipped"} <= made
    assert made - set(all_checks()) == set()
