"""Deferrals: what they cover, and what is wrong with them."""

from datetime import date

import pytest
from checks.survey_patch import VESSELS, changed

from generator.reading.findings import Finding, Place, Weight
from generator.survey.deferral import defer
from generator.vessel.loading import load

DAY = date(2026, 6, 1)
ENTRY = "{check: gear.expired, item: red hand flares, reason: new ones are ordered, who: the skipper, until: 2026-06-20}"


def vessel_with(tmp_path, *entries):
    text = (VESSELS / "saltmeadow/vessel.yaml").read_text(encoding="utf-8")
    listed = "\ndeferred-defects:\n" + "".join(f"  - {entry}\n" for entry in entries)
    (tmp_path / "vessel.yaml").write_text(
        changed(text, "", "\ndrills:", listed + "\ndrills:"), encoding="utf-8"
    )
    vessel, findings = load(tmp_path, "")
    return vessel, findings


def found(
    check="gear.expired",
    item="red hand flares",
    message="red hand flares are old",
    key="gear[red hand flares].expires",
):
    return Finding(check, Weight.DEFECT, message, Place("vessel.yaml", 9, 1, key), "renew", item)


def test_a_finding_is_deferred_with_reason_person_and_end(tmp_path):
    vessel, _ = vessel_with(tmp_path, ENTRY)
    other = found(item="orange smoke", message="orange smoke is old", key="gear[orange smoke].expires")
    assert defer(vessel, [found(), other], DAY) == ([other], [found()], [])


@pytest.mark.parametrize(
    "finding",
    [found(item="", message="the red hand flares ran out", key="gear[3].expires"), found(item="", message="ran out"),
     found(item="Red Hand Flares", message="", key="")],
)  # fmt: skip
def test_the_item_is_known_by_name_message_or_key(tmp_path, finding):
    vessel, _ = vessel_with(tmp_path, ENTRY)
    assert defer(vessel, [finding], DAY)[1] == [finding]


def test_without_an_item_all_findings_of_the_check_are_covered(tmp_path):
    vessel, _ = vessel_with(tmp_path, ENTRY.replace("item: red hand flares, ", ""))
    both = [found(), found(item="orange smoke")]
    assert defer(vessel, both, DAY) == ([], both, [])


@pytest.mark.parametrize(
    ("change", "day", "check", "key"),
    [(("until: 2026-06-20", "until: 2026-06-20"), date(2026, 6, 21), "deferral.expired", "until"),
     (("red hand flares", "bolt cutters"), DAY, "deferral.unused", "check"),
     (("gear.expired", "gear.expird"), DAY, "deferral.unknown-check", "check"),
     (("gear.expired", "raft.capacity"), DAY, "deferral.not-allowed", "check")],
)  # fmt: skip
def test_an_entry_that_does_not_hold_is_a_finding_and_covers_nothing(tmp_path, change, day, check, key):
    vessel, _ = vessel_with(tmp_path, ENTRY.replace(*change))
    remaining, deferred, more = defer(vessel, [found()], day)
    assert (remaining, deferred) == ([found()], [])
    assert [each.check for each in more] == [check]
    assert more[0].place.key.endswith(f".{key}")
    assert more[0].message
    assert more[0].remedy


def test_on_its_last_day_it_still_holds(tmp_path):
    vessel, _ = vessel_with(tmp_path, ENTRY)
    assert defer(vessel, [found()], date(2026, 6, 20)) == ([], [found()], [])


@pytest.mark.parametrize("key", ["reason", "who", "until"])
def test_without_reason_person_or_end_it_covers_nothing(tmp_path, key):
    parts = [part for part in ENTRY.strip("{}").split(", ") if not part.startswith(f"{key}:")]
    vessel, findings = vessel_with(tmp_path, "{" + ", ".join(parts) + "}")
    assert [each.check for each in findings] == ["file.missing-key"]
    assert defer(vessel, [found()], DAY)[:2] == ([found()], [])


def test_the_nearest_check_is_proposed(tmp_path):
    vessel, _ = vessel_with(tmp_path, ENTRY.replace("gear.expired", "gear.expird"))
    assert "gear.expired" in defer(vessel, [found()], DAY)[2][0].remedy
