"""Deferrals: what they cover, and what is wrong with them."""

import dataclasses
from datetime import date

import pytest
from checks.survey_patch import VESSELS, changed

from generator.reading.findings import Finding, Place, Weight
from generator.survey.deferral import defer
from generator.survey.registry import DESCRIPTION, Sight, run
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


def entry_of(vessel):
    (entry,) = vessel.deferred_defects
    return entry


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
    assert defer(vessel, [found(), other], DAY) == ([other], {entry_of(vessel): [found()]}, [])


@pytest.mark.parametrize("item", ["red hand flares", "Red Hand Flares", '"gear[red hand flares].expires"'])
def test_an_item_is_named_exactly_or_by_the_key_path_of_the_finding(tmp_path, item):
    vessel, _ = vessel_with(tmp_path, ENTRY.replace("red hand flares", item))
    other = found(item="orange smoke", message="no red hand flares", key="gear[orange smoke].expires")
    assert defer(vessel, [found(), other], DAY) == ([other], {entry_of(vessel): [found()]}, [])


@pytest.mark.parametrize(
    "item", ["e", "hand flares", "flares", "gear", "gear[red hand flares]", "red hand flares, cockpit"]
)
def test_a_part_of_a_name_covers_nothing_and_the_right_one_is_told(tmp_path, item):
    vessel, _ = vessel_with(tmp_path, ENTRY.replace("red hand flares", f'"{item}"'))
    other = found(item="mirror", message="a mirror", key="gear[mirror].expires")
    remaining, deferred, (said,) = defer(vessel, [found(), other], DAY)
    assert (remaining, deferred) == ([found(), other], {})
    assert (said.check, said.weight, said.place.key) == (
        "deferral.unused",
        Weight.DEFECT,
        "deferred-defects[1].item",
    )
    assert 'item: "red hand flares"' in said.remedy


def test_without_an_item_an_entry_of_a_check_about_items_names_them_all(tmp_path):
    vessel, _ = vessel_with(tmp_path, ENTRY.replace("item: red hand flares, ", ""))
    comma = found(item="fire extinguisher, galley", key="gear[fire extinguisher, galley].expires")
    for findings in ([found()], [found(), comma]):
        remaining, deferred, (said,) = defer(vessel, findings, DAY)
        assert (remaining, deferred) == (findings, {})
        assert (said.check, said.weight) == ("deferral.inexact", Weight.DEFECT)
        assert all(f'item: "{each.item}"' in said.remedy for each in findings)


def test_a_finding_about_no_item_is_named_by_its_key_path(tmp_path):
    entry = ENTRY.replace("gear.expired", "raft.missing")
    alone = found("raft.missing", "", "no raft", "vessel.waters")
    vessel, _ = vessel_with(tmp_path, entry.replace("red hand flares", "vessel.waters"))
    other = dataclasses.replace(alone, place=Place("vessel.yaml", 12, 1, "vessel.use"))
    assert defer(vessel, [alone, other], DAY) == ([other], {entry_of(vessel): [alone]}, [])
    unsaid, _ = vessel_with(tmp_path, entry.replace("item: red hand flares, ", ""))
    remaining, _, (said,) = defer(unsaid, [alone], DAY)
    assert (remaining, said.check, said.remedy) == (
        [alone],
        "deferral.inexact",
        'write item: "vessel.waters"',
    )
    remaining, _, (said,) = defer(unsaid, [alone, other], DAY)
    assert (remaining, said.check) == ([alone, other], "deferral.inexact")
    assert said.remedy == 'write item: "vessel.waters" (or, of what was found, item: "vessel.use")'


def test_two_things_of_one_name_are_not_covered_by_one_entry(tmp_path):
    vessel, _ = vessel_with(tmp_path, ENTRY)
    first, second = vessel.gear[0], vessel.gear[1]
    both = [
        dataclasses.replace(found(), about=first),
        dataclasses.replace(found(message="the others"), about=second),
    ]
    remaining, deferred, (said,) = defer(vessel, both, DAY)
    assert (remaining, deferred) == (both, {})
    assert (said.check, said.also) == ("deferral.inexact", tuple(each.place for each in both))
    assert "behind a comma" in said.remedy


def test_a_thing_and_its_parts_are_one_thing(tmp_path):
    vessel, _ = vessel_with(
        tmp_path, ENTRY.replace("red hand flares", "raft").replace("gear.expired", "raft.strong-point-rail")
    )
    raft = vessel.rafts[0]
    both = [found("raft.strong-point-rail", "raft", str(number)) for number in range(2)]
    both = [
        dataclasses.replace(one, about=block) for one, block in zip(both, (raft, raft.painter), strict=True)
    ]
    assert defer(vessel, both, DAY) == ([], {entry_of(vessel): both}, [])


def test_the_survey_says_which_thing_each_finding_is_about():
    vessel, _ = load(VESSELS / "saltmeadow", "")
    found = run(DESCRIPTION, Sight(vessel, date(2040, 1, 1), date(2040, 1, 1)))
    things = [each for each in found if each.check == "gear.expired"]
    assert len(things) > 3
    for each in things:
        name = getattr(each.about, each.about.called) if each.about.called else "cooking gas"
        assert name in each.item


@pytest.mark.parametrize(
    ("change", "day", "check", "key"),
    [(("until: 2026-06-20", "until: 2026-06-20"), date(2026, 6, 21), "deferral.expired", "until"),
     (("red hand flares", "bolt cutters"), DAY, "deferral.unused", "item"),
     (("gear.expired", "gear.expird"), DAY, "deferral.unknown-check", "check"),
     (("gear.expired", "raft.capacity"), DAY, "deferral.not-allowed", "check")],
)  # fmt: skip
def test_an_entry_that_does_not_hold_is_a_finding_and_covers_nothing(tmp_path, change, day, check, key):
    vessel, _ = vessel_with(tmp_path, ENTRY.replace(*change))
    remaining, deferred, more = defer(vessel, [found()], day)
    assert (remaining, deferred) == ([found()], {})
    assert [each.check for each in more] == [check]
    assert more[0].place.key.endswith(f".{key}")
    assert more[0].message
    assert more[0].remedy


def test_on_its_last_day_it_still_holds(tmp_path):
    vessel, _ = vessel_with(tmp_path, ENTRY)
    assert defer(vessel, [found()], date(2026, 6, 20)) == ([], {entry_of(vessel): [found()]}, [])


@pytest.mark.parametrize("key", ["reason", "who", "until"])
def test_without_reason_person_or_end_it_covers_nothing(tmp_path, key):
    parts = [part for part in ENTRY.strip("{}").split(", ") if not part.startswith(f"{key}:")]
    vessel, findings = vessel_with(tmp_path, "{" + ", ".join(parts) + "}")
    assert [each.check for each in findings] == ["file.missing-key"]
    assert defer(vessel, [found()], DAY)[:2] == ([found()], {})


def test_the_nearest_check_is_proposed(tmp_path):
    vessel, _ = vessel_with(tmp_path, ENTRY.replace("gear.expired", "gear.expird"))
    assert "gear.expired" in defer(vessel, [found()], DAY)[2][0].remedy
