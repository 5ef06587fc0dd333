"""Limits for rafts against the published rules they come from, and the data's own form."""

from pathlib import Path

import pytest

from generator.manual.known_keys import keys_and_words
from generator.reading.findings import Weight
from generator.reading.names import STANDINGS
from generator.reading.values import Quantity
from generator.shelves.folder import templates_folder
from generator.shelves.limits import LIMITS, NAMES, Case, all_limits, limits
from generator.shelves.rulesets import rule_sets
from generator.shelves.shelf import faults as examine_read
from generator.survey.limits import least, limits_for, months, most
from generator.survey.registry import DESCRIPTION, Sight, run
from generator.vessel.loading import load

KNOWN = {**keys_and_words(), "rule set": tuple(rule_sets())}
VESSELS = Path(__file__).resolve().parents[2] / "vessels"


@pytest.fixture
def boat():
    vessel, _ = load(VESSELS / "saltmeadow", "saltmeadow")
    return vessel


def raft_of(boat, **raft):
    boat.rafts[0].__dict__.update(raft)
    return boat.rafts[0]


@pytest.mark.parametrize(
    ("standard", "metres"),
    [
        ("SOLAS", 18.0),  # C.R.C. c. 1436 Sch. VIII s. 1(2); 46 CFR 133.130(b)(2)
        ("ISO 9650-1 type 1 group A", 6.0),  # ISO 9650-1:2022, scope
        ("ISO 9650-1 type 2", 4.0),
    ],
)  # a maker's page on ISO 9650:2005
def test_highest_stowage(boat, standard, metres):
    assert most(boat, "height of the stowage", raft_of(boat, standard=standard)) == metres


@pytest.mark.parametrize(
    ("standard", "container", "use", "sets", "wanted"),
    [
        ("SOLAS", "canister", "private", (), 17),  # SOLAS III/20.8
        ("ISO 9650-1 type 1 group A", "canister", "private", (), 36),  # OSR 4.20.4
        ("ISO 9650-1 type 1 group A", "valise", "private", (), 36),  # OSR 4.20.4
        ("ISO 9650-1 type 1 group A", "valise", "charter", (), 12),  # OSR 4.20.4, hired valise
        (
            "ISO 9650-1 type 1 group A",
            "valise",
            "commercial",
            ("UK small commercial category 2",),
            12,
        ),  # valises yearly, secondary
        ("SOLAS", "canister", "private", ("World Sailing offshore special regulations category 1",), 12),
    ],
)  # OSR 4.20.4
def test_service_interval(boat, standard, container, use, sets, wanted):
    boat.vessel.__dict__.update(use=use, rule_set=sets)
    raft = raft_of(boat, standard=standard, container=container)
    assert months(boat, "time between services", raft) == wanted


def test_a_chosen_rule_set_changes_the_finding(boat):
    """The same raft, serviced three years apart, is in order at home and not under the racing rules' hired-valise year."""
    boat.rafts[0].__dict__["container"] = "valise"
    sight = Sight(boat, boat.specimen.as_of.last_day, boat.specimen.as_of.last_day)
    assert "raft.service-interval" not in {each.check for each in run(DESCRIPTION, sight)}
    boat.vessel.__dict__["rule_set"] = ("UK small commercial category 2",)
    found = [each for each in run(DESCRIPTION, sight) if each.check == "raft.service-interval"]
    assert len(found) == 1
    assert "coded boats" in found[0].message


def test_the_weak_link_band(boat):
    """2.2 +- 0.4 kN: C.R.C. c. 1436 Sch. VIII s. 7(2)(c); MGN 343."""
    (row,) = limits_for(boat, "strength of the weak link")
    assert (row.least, row.most, row.read) == (1800.0, 2600.0, True)


@pytest.mark.parametrize(
    ("name", "use", "kind", "wanted"),
    [
        ("time a release is trusted", "private", "disposable", 24),  # AMSA Working Boats, May 2020
        ("time a release is trusted", "private", "serviceable", 17),  # SOLAS III/20.9
        ("age of a raft", "private", "", 120),  # ISO 18079-2
    ],
)
def test_times(boat, name, use, kind, wanted):
    boat.vessel.__dict__["use"] = use
    assert months(boat, name, kind=kind) == wanted


@pytest.mark.parametrize(("length_m", "metres"), [(9.99, 1.0), (10.0, 2.5)])
def test_the_extinguisher_at_the_helm(boat, length_m, metres):
    """French state leaflet of 2008 after Division 240: 1 m under 10 m of length, else 2.5 m."""
    boat.vessel.__dict__["length"] = Quantity(length_m, f"{length_m} m", "m")
    assert most(boat, "extinguisher to the helm") == metres


@pytest.mark.parametrize(("waters", "pumps"), [("coastal", 1), ("offshore", 2), ("ocean", 2)])
def test_bilge_pumps(boat, waters, pumps):
    boat.vessel.__dict__["waters"] = waters
    assert least(boat, "bilge pumps") == pumps


@pytest.mark.parametrize(("height_m", "needed"), [(1.2, "15 m"), (8.0, "18 m"), (12.0, "24 m")])
def test_a_solas_painter(boat, height_m, needed):
    """The greater of 15 m and twice the height (C.R.C. c. 1436 Sch. VIII s. 4(1)(b)); the
    row from memory, 10 m and the height, is stricter between 5 and 10 m. One found too short names what is needed, and why."""
    boat.rafts[0].__dict__.update(standard="SOLAS", height=Quantity(height_m, f"{height_m} m", "m"))
    boat.rafts[0].painter.__dict__["length"] = Quantity(14.9, "14.9 m", "m")
    sight = Sight(boat, boat.specimen.as_of.last_day, boat.specimen.as_of.last_day)
    (found,) = [each for each in run(DESCRIPTION, sight) if each.check == "raft.painter-reach"]
    assert f"should be {needed} at least" in found.message


def test_what_was_not_read_only_recommends(boat):
    """Type 2's 4 m is secondary; type 1's 6 m was read."""
    sight = Sight(boat, boat.specimen.as_of.last_day, boat.specimen.as_of.last_day)
    for standard, weight in (
        ("ISO 9650-1 type 2", Weight.RECOMMENDATION),
        ("ISO 9650-1 type 1 group A", Weight.DEFECT),
    ):
        boat.rafts[0].__dict__.update(standard=standard, height=Quantity(7.0, "7 m", "m"))
        (found,) = [each for each in run(DESCRIPTION, sight) if each.check == "raft.stowage-height"]
        assert found.weight is weight


ROWS = [(name, number) for name, rows in all_limits().items() for number in range(len(rows))]


def case_of(block):
    """A case of which a row speaks, by nothing but what the row itself says."""
    return Case(
        standard=block.standards[0] if block.standards else "",
        container=block.container or "",
        kind=block.kinds[0] if block.kinds else "",
        use=block.use[0] if block.use else "",
        waters=block.waters[0] if block.waters else "",
        rule_sets=(f"{block.rule_set} category 1",) if block.rule_set else (),
        length_m=length_of(block),
    )


def length_of(block):
    if block.length_from is not None:
        return float(block.length_from)
    return float(block.length_below) - 0.01 if block.length_below is not None else None


@pytest.mark.parametrize(("name", "number"), ROWS)
def test_each_row_holds_for_what_it_says_and_for_nothing_else(name, number):
    """So a new row is looked at without a case of its own: in what it speaks of, and with each of its conditions unmet."""
    row = all_limits()[name][number]
    case = case_of(row.block)
    assert row in limits(name, case)
    unmet = {
        "standards": {"standard": "none such"},
        "container": {"container": "none such"},
        "kinds": {"kind": "none such"},
        "use": {"use": "none such"},
        "waters": {"waters": "none such"},
        "rule_set": {"rule_sets": ("none such",)},
        "length_from": {"length_m": (case.length_m or 0) - 0.01},
        "length_below": {"length_m": float(row.block.length_below or 0)},
    }
    for condition, other in unmet.items():
        if row.block.__dict__.get(condition):
            assert row not in limits(name, case._replace(**other)), condition


def found_in(text):
    file, found = LIMITS.read_text(text, "limits/own.yaml")
    together = [
        each
        for each in examine_read([(LIMITS, (file,), found)], KNOWN)
        if "no limit is called" not in each.message
    ]
    return [(each.place.line, each.place.column, each.message, each.remedy) for each in together]


def own(row, name="mass thrown by hand", measured="mass", tally="limits: 1, rows: 1, most: 1"):
    return f"limits:\n  - limit: {name}\n    measured: {measured}\n    rows:\n      - {{{row}}}\ntally: {{{tally}}}\n"


SAID = "source: x, standing: read"


@pytest.mark.parametrize(
    ("text", "line", "column", "message", "remedy"),
    [
        (own("most: 6 kg, standing: read"), 5, 9, "'limits[mass thrown by hand].rows[1].source' is missing", "source"),
        (own("most: 6 kg, source: x, standing: raed"), 5, 43, "none of the words", "write read?"),
        (own(SAID, tally="limits: 1, rows: 1"), 5, 18, "without a figure", "least or most"),
        (own(f"mast: 6 kg, {SAID}", tally="limits: 1, rows: 1"), 5, 10, "'mast' is no key", "write most?"),
        (own(f"most: 6 m, {SAID}"), 5, 16, "'6 m' is no mass", "unit"),
        (own(f"most: 6 stone, {SAID}"), 5, 16, "no figure with its unit", "kg"),
        (own(f"least: 8 kg, most: 6 kg, {SAID}", tally="limits: 1, rows: 1, least: 1, most: 1"), 5, 29, "less than the least", ""),
        (own(f"most: 6 kg, rule-set: good practise, {SAID}", tally="limits: 1, rows: 1, most: 1, rule-set: 1"),
         5, 32, "no rule set 'good practise'", "write good practice?"),
        (own(f"most: 6 kg, standards: [SOLAS, ISO 9560], {SAID}", tally="limits: 1, rows: 1, most: 1, standards: 1"),
         5, 41, "no standard begins with 'ISO 9560'", "ISO 9650"),
        (own(f"most: 6 kg, container: cannister, {SAID}", tally="limits: 1, rows: 1, most: 1, container: 1"),
         5, 33, "'cannister'", "write canister?"),
        (own(f"most: 6 kg, use: [chartered], {SAID}", tally="limits: 1, rows: 1, most: 1, use: 1"), 5, 28, "'chartered'", "charter"),
        (own(f"most: 6 kg, kinds: [disposeable], {SAID}", tally="limits: 1, rows: 1, most: 1, kinds: 1"),
         5, 30, "no kind 'disposeable'", "write disposable?"),
        (own(f"most: 6 kg, {SAID}", name="mass thrown by hands"), 2, 12, "none of the words", "write mass thrown by hand?"),
        (own(f"most: 6 kg, {SAID}", tally="limits: 1, rows: 2, most: 1"), 6, 20, "2 times 'rows'", "rows: 1"),
    ],
)  # fmt: skip
def test_a_wrong_row_is_told_with_its_place(text, line, column, message, remedy):
    found = found_in(text)
    assert any(
        (at, across) == (line, column) and message in said and remedy in instead
        for at, across, said, instead in found
    ), found


def test_a_limit_that_a_check_asks_for_must_be_there():
    file, found = LIMITS.read_text(own(f"most: 6 kg, {SAID}"), "limits/own.yaml")
    said = [each.message for each in examine_read([(LIMITS, (file,), found)], KNOWN)]
    assert sum("no limit is called" in each for each in said) == len(NAMES) - 1


def test_the_shelf_is_sound_and_each_figure_has_source_and_standing():
    files, found = LIMITS.read(templates_folder())
    assert examine_read([(LIMITS, files, found)], KNOWN) == []
    rows = [row for rows in all_limits().values() for row in rows]
    assert set(all_limits()) == set(NAMES)
    assert all(row.source and row.standing in STANDINGS for row in rows)


def test_a_name_that_no_limit_has_is_a_fault_of_the_program(boat):
    with pytest.raises(KeyError):
        most(boat, "mass thrown by foot")
