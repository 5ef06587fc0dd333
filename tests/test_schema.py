"""The schema for editors is a valid one, made from the fields, and agrees with the survey on good files and on common mistakes."""

import copy
import json
from datetime import date
from pathlib import Path

import jsonschema
import pytest
import yaml

from generator.__main__ import main
from generator.commissioning.writing import commission
from generator.reading.block import Block
from generator.reading.fields import One
from generator.vessel.schema import SCHEMAS, vessel_schema
from generator.vessel.vessel import OWN_KEYS, Vessel

ROOT = Path(__file__).resolve().parent.parent
BOATS = sorted(path.parent.name for path in (ROOT / "vessels").glob("*/vessel.yaml"))


def as_editors_load(text):
    """The file as an editor's YAML 1.1 loader types it; a date goes into the check as the text that was typed, and so does the key off."""

    def typed(value):
        if isinstance(value, dict):
            return {"off" if key is False else str(key): typed(each) for key, each in value.items()}
        if isinstance(value, list):
            return [typed(each) for each in value]
        return value.isoformat() if isinstance(value, date) else value

    return typed(yaml.safe_load(text))


@pytest.fixture(scope="module")
def validator():
    return jsonschema.Draft202012Validator(vessel_schema())


@pytest.fixture
def saltmeadow():
    return as_editors_load((ROOT / "vessels/saltmeadow/vessel.yaml").read_text(encoding="utf-8"))


def test_it_is_a_valid_schema():
    jsonschema.Draft202012Validator.check_schema(vessel_schema())


def test_every_reference_leads_to_a_definition():
    text = json.dumps(vessel_schema())
    named = {part.partition('"')[0] for part in text.split('"$ref": "#/$defs/')[1:]}
    assert named == set(vessel_schema()["$defs"])


@pytest.mark.parametrize("boat", BOATS)
def test_the_specimens_are_valid(boat, validator):
    text = (ROOT / "vessels" / boat / "vessel.yaml").read_text(encoding="utf-8")
    assert [
        f"{list(error.absolute_path)}: {error.message}"
        for error in validator.iter_errors(as_editors_load(text))
    ] == []


def test_a_starter_file_is_valid(tmp_path, validator):
    for number, answers in enumerate(
        (
            {},
            {"rafts[liferaft].held-by": "HRU", "radio.beacons[EPIRB].where": "galley"},
            {"rafts[liferaft].stowage": "none", "radio.sets[fixed VHF].where": "none"},
        )
    ):
        done = commission(f"Boat {number}", answers, tmp_path)
        assert list(validator.iter_errors(as_editors_load(done.path.read_text(encoding="utf-8")))) == []


def test_each_key_of_the_model_is_described_by_its_question():
    schema = vessel_schema()

    def visit(kind, properties):
        assert set(properties) == set(kind.fields)
        for key, field in kind.fields.items():
            assert properties[key]["description"] == field.question
            inner = field
            while isinstance(getattr(inner, "block", None), One):
                inner = inner.block
            if isinstance(inner, One):
                assert issubclass(inner.block, Block)
                visit(inner.block, schema["$defs"][inner.block.__name__]["properties"])

    visit(Vessel, schema["properties"])


MISTAKES = {
    "unknown key": lambda it: it["vessel"].update(lenght="12 m"),
    "unknown key at the top": lambda it: it.update(raft=[]),
    "no unit": lambda it: it["vessel"].update(length=12),
    "no unit, as text": lambda it: it["vessel"].update(length="12"),
    "a decimal comma": lambda it: it["vessel"].update(length="12,5 m"),
    "a unit of something else": lambda it: it["rafts"][0].update(mass="36 m"),
    "a word that is no choice": lambda it: it["vessel"].update(type="submarine"),
    "a date in another order": lambda it: it["rafts"][0]["service"].update(next="05/2026"),
    "a blank": lambda it: it["vessel"].update({"muster-place": None}),
    "a blank block": lambda it: it.update(radio=None),
    "a required key left out": lambda it: it["vessel"].pop("persons"),
    "a required block left out": lambda it: it.pop("lifejackets"),
    "a required key left out in a list": lambda it: it["gear"][0].pop("quantity"),
    "one raft without a list": lambda it: it.update(rafts=it["rafts"][0]),
    "an empty list": lambda it: it.update(rafts=[]),
    "too many persons": lambda it: it["vessel"].update(persons=600),
    "a count in words": lambda it: it["vessel"].update(persons="six"),
    "an MMSI of ten digits": lambda it: it["radio"].update(mmsi=2320000001),
    "a source that is none": lambda it: it["rafts"][0]["mass"].update({"from": "hearsay"}),
    "a stamp beside a mass": lambda it: it["rafts"][0]["mass"].update(stamp="X"),
    "private where guests read": lambda it: it["vessel"].update(length="private"),
    "another format": lambda it: it.update(format=2),
    "no format": lambda it: it.pop("format"),
    "a side that is none": lambda it: it["gear"][0].update(side="left"),
}


@pytest.mark.parametrize("mistake", MISTAKES)
def test_a_mistake_is_refused(mistake, saltmeadow, validator):
    assert validator.is_valid(saltmeadow)
    MISTAKES[mistake](saltmeadow)
    assert not validator.is_valid(saltmeadow)


GOOD = {
    "unknown for a value": lambda it: it["vessel"].update(length="unknown"),
    "unknown for a block": lambda it: it.update(radio="unknown"),
    "unknown for a list": lambda it: it.update(gear="unknown"),
    "unknown for an entry": lambda it: it.update(gear=["unknown"]),
    "unknown for the bill": lambda it: it.update({"station-bill": "unknown"}),
    "private where only crew read": lambda it: it["rafts"][0].update(serial="private"),
    "a value with its source": lambda it: it["vessel"].update(length={"value": "39 ft", "from": "measured"}),
    "an unknown value with its source": lambda it: it["vessel"].update(
        length={"value": "unknown", "from": "assumed"}
    ),
    "feet and inches": lambda it: it["vessel"].update(length="39' 6\"", beam="12 ft 6 in"),
    "a month": lambda it: it["rafts"][0]["service"].update(next="2028-09"),
    "yes as editors type it": lambda it: it["rafts"][0].update(canopy=True),
    "one word for a list": lambda it: it["rafts"][0].update({"held-by": "strap"}),
    "a thing for its name": lambda it: it["grab-bags"][0].update(items=["knife"]),
}


@pytest.mark.parametrize("form", GOOD)
def test_what_the_survey_reads_is_allowed(form, saltmeadow, validator):
    GOOD[form](saltmeadow)
    assert [error.message for error in validator.iter_errors(saltmeadow)] == []


def test_with_a_class_file_the_blocks_both_share_may_be_in_part(saltmeadow, validator):
    alone = copy.deepcopy(saltmeadow)
    del alone["vessel"]["type"], alone["lifejackets"]
    assert not validator.is_valid(alone)
    assert validator.is_valid({**alone, "based-on": "../classes/some.yaml"})


def test_with_a_class_file_lists_are_whole_and_signatures_her_own(saltmeadow, validator):
    saltmeadow["based-on"] = "../classes/some.yaml"
    del saltmeadow["approved"]["by"]
    assert not validator.is_valid(saltmeadow)
    assert set(OWN_KEYS) <= set(Vessel.fields)


@pytest.mark.parametrize("file", SCHEMAS)
def test_the_published_file_is_current(file, capsys, renew):
    assert main(["schema", file]) == 0
    printed = capsys.readouterr().out
    published = ROOT / f"templates/{file}.schema.json"
    if renew:
        published.write_text(printed, encoding="utf-8", newline="\n")
    assert printed == published.read_text(encoding="utf-8"), (
        "renew it with: pytest tests/test_schema.py --renew"
    )
