"""Limits for rafts against the published rules they come from, and the data's own form."""

from pathlib import Path

import pytest

from generator.reading.findings import Weight
from generator.reading.values import Quantity
from generator.shelves.limits import KINDS, LimitFault, limit, limits, shelf
from generator.survey.registry import DESCRIPTION, Sight, run
from generator.vessel.loading import load

VESSELS = Path(__file__).resolve().parent.parent / "vessels"


@pytest.fixture
def boat():
    vessel, _ = load(VESSELS / "saltmeadow", "saltmeadow")
    return vessel


def figures(boat, kind, name, **raft):
    boat.rafts[0].__dict__.update(raft)
    return [row.figures[name] for row in limits(kind, boat, boat.rafts[0]) if name in row.figures]


@pytest.mark.parametrize(
    ("standard", "metres"),
    [
        ("SOLAS", 18.0),  # C.R.C. c. 1436 Sch. VIII s. 1(2); 46 CFR 133.130(b)(2)
        ("ISO 9650-1 type 1 group A", 6.0),  # ISO 9650-1:2022, scope
        ("ISO 9650-1 type 2", 4.0),
    ],
)  # a maker's page on ISO 9650:2005
def test_highest_stowage(boat, standard, metres):
    assert figures(boat, "highest-stowage", "most", standard=standard) == [metres]


@pytest.mark.parametrize(
    ("standard", "container", "use", "sets", "months"),
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
def test_service_interval(boat, standard, container, use, sets, months):
    boat.vessel.__dict__.update(use=use, rule_set=sets)
    assert min(figures(boat, "service", "months", standard=standard, container=container)) == months


def test_a_chosen_rule_set_changes_the_finding(boat):
    """The same raft, serviced three years apart, is in order at home and not under the racing rules' hired-valise year."""
    boat.rafts[0].__dict__["container"] = "valise"
    sight = Sight(boat, boat.specimen.as_of.last_day, boat.specimen.as_of.last_day)
    assert "raft.service-interval" not in {each.check for each in run(DESCRIPTION, sight)}
    boat.vessel.__dict__["rule_set"] = ("UK small commercial category 2",)
    found = [each for each in run(DESCRIPTION, sight) if each.check == "raft.service-interval"]
    assert len(found) == 1
    assert "coded boats" in found[0].message


def test_the_weak_link_band():
    """2.2 +- 0.4 kN: C.R.C. c. 1436 Sch. VIII s. 7(2)(c); MGN 343."""
    (row,) = shelf()["weak-link"]
    assert (row.figures["low"], row.figures["high"]) == (1800.0, 2600.0)


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


@pytest.mark.parametrize(
    ("row", "why"),
    [
        ({"most": "6 m", "standing": "read"}, "source"),
        ({"most": "6 m", "source": "x", "standing": "heard"}, "standings"),
        ({"source": "x", "standing": "read"}, "without a figure"),
        ({"mast": "6 m", "source": "x", "standing": "read"}, "no key"),
        ({"most": "6 m", "source": "x", "standing": "read", "rule-set": "nobody's"}, "no rule set"),
    ],
)
def test_a_wrong_row_is_told(row, why):
    with pytest.raises(LimitFault, match=why):
        limit(row, "highest-stowage")


def test_unknown_kinds_are_told(boat):
    with pytest.raises(LimitFault, match=KINDS[0]):
        limits("painter", boat, boat.rafts[0])
