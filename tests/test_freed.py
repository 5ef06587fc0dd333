"""A value freed for guests on purpose: printed for them where its block is, named by the survey, and no other with it."""

from datetime import date

import pytest
from boat_file import SOUND, Boat, changed, one
from specimens import VESSELS

from generator.outputs import Job, Made
from generator.outputs import site as output
from generator.publishing import Order, survey
from generator.publishing import write as write_outputs
from generator.reading.findings import Weight
from generator.survey.registry import CHECKS, INSPECTION, Sight, run
from generator.vessel import keys

DAY = date(2026, 6, 1)
BROTHER, INSURER = "+44 7700 900142", "+44 1632 960155"


@pytest.fixture
def boat(tmp_path):
    return Boat(tmp_path)


def freed(value=INSURER, beside="for: guests", text=SOUND):
    return changed(f"phone: {INSURER}", f"phone: {{value: {value}, {beside}}}", text)


def pages(folder, reader):
    manual = survey(folder, "b", Order(DAY)).manual
    return "".join(
        data.decode()
        for name, data in output.write(Job(manual, reader)).files.items()
        if name.endswith(".html")
    )


@pytest.mark.parametrize(
    ("value", "private"), [(INSURER, None), ("private", f"contacts[the yacht insurer].phone: '{INSURER}'\n")]
)
def test_guests_read_it_and_no_other(boat, value, private):
    boat(freed(value), **({"private": private} if private else {}))
    said = pages(boat.folder, "guest")
    assert INSURER in said
    assert BROTHER not in said
    assert "in the private copy only" in said
    surveyed = survey(boat.folder, "b", Order(DAY))
    written = write_outputs(surveyed.manual, Order(DAY, only=("site", "one-file")))
    sight = Sight(surveyed.vessel, DAY, DAY, manual=surveyed.manual, written=written)
    assert run(INSPECTION, sight) == []


def test_what_was_freed_covers_no_other_value_of_its_kind(boat):
    boat(freed())
    vessel = survey(boat.folder, "b", Order(DAY)).vessel
    made = {"site": Made({"a.html": f"<p>Ring {BROTHER} or {INSURER}.</p>".encode()}, reader="guest")}
    found = list(CHECKS["reader.private-leak"].find(Sight(vessel, DAY, DAY, written=made)))
    assert [each.item for each in found] == ["contacts[the owner's brother].phone"]


def test_a_value_freed_once_is_free_wherever_it_stands(boat):
    boat(changed("{role: mate,", f"{{role: mate, phone: {INSURER},", freed()))
    vessel = survey(boat.folder, "b", Order(DAY)).vessel
    made = {"site": Made({"a.html": f"<p>{INSURER}, or 01632 960155.</p>".encode()}, reader="guest")}
    assert list(CHECKS["reader.private-leak"].find(Sight(vessel, DAY, DAY, written=made))) == []


def test_without_private_yaml_it_is_left_open_and_not_named(boat):
    boat(freed("private"))
    surveyed = survey(boat.folder, "b", Order(DAY))
    assert [each.check for each in surveyed.findings] == ["file.no-private"]
    assert INSURER not in pages(boat.folder, "guest")


def test_the_survey_names_it(boat):
    boat(freed())
    finding = one(survey(boat.folder, "b", Order(DAY)).findings)
    assert (finding.check, finding.weight, finding.item) == (
        "reader.freed",
        Weight.NOTE,
        "contacts[the yacht insurer].phone",
    )
    assert INSURER not in repr(finding)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("hex-id: 1D04000000FFBFF", "hex-id: {value: 1D04000000FFBFF, for: guests}"),
        ("{role: mate,", "{role: mate, medical: {value: asthma, for: guests},"),
    ],
)
def test_an_illness_or_a_beacon_s_id_is_advised_against(boat, old, new):
    boat(changed(old, new))
    finding = one(survey(boat.folder, "b", Order(DAY)).findings)
    assert (finding.check, finding.weight) == ("reader.freed", Weight.RECOMMENDATION)
    assert "for the crew alone" in finding.remedy


@pytest.mark.parametrize(
    ("old", "new", "message", "remedy"),
    [
        ("flag: United Kingdom", "flag: {value: United Kingdom, for: guests}", "everybody may read this value anyway", "remove 'for' here"),
        (f"phone: {INSURER}", f"phone: {{value: {INSURER}, for: crew}}", "this does not say for whom the value is freed", "write for: guests, or remove it"),
        (f"phone: {INSURER}", f"phone: {{value: {INSURER}, for: [guests]}}", "this does not say for whom the value is freed", "write for: guests, or remove it"),
        (f"phone: {INSURER}", f"phone: {{value: {INSURER}, four: guests}}", "'four' is no key here", "write for? (it takes: value, from, stamp, for)"),
    ],
)  # fmt: skip
def test_what_frees_nothing_is_told(boat, old, new, message, remedy):
    vessel, findings = boat(changed(old, new))
    assert message in one(findings).message
    assert remedy in one(findings).remedy
    assert not vessel.contacts[3].freed


def test_the_charter_specimen_frees_the_telephone_of_her_base():
    said = pages(VESSELS / "ombrelune", "guest")
    assert "+33 6 39 98 00 45" in said
    assert "+33 6 39 98 00 46" not in said


def test_the_keys_tell_of_it():
    assert "'for: guests'" in " ".join(keys.text(keys.find("contacts")).split())
    assert "for: guests" not in keys.text(keys.find("pumps"))
