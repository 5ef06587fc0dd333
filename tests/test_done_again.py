"""What is done again, a service, a test, a drill, the walk round the boat, and how it is told apart from the end of a life."""

from datetime import date

import pytest

from generator.manual.deadlines import deadlines_of
from generator.vessel.loading import load


def due_of(folder, text, particulars="flag: United Kingdom"):
    """The deadlines of a boat that has nothing but what is written here."""
    (folder / "vessel.yaml").write_text(f"format: 1\nvessel: {{{particulars}}}\n{text}\n", encoding="utf-8")
    return deadlines_of(load(folder)[0])


def only(found, what=None):
    chosen = [each for each in found if what is None or each.what == what]
    assert len(chosen) == 1, chosen
    return chosen[0]


@pytest.mark.parametrize(
    ("kind", "day"), [("EPIRB", date(2026, 2, 28)), ("PLB", date(2027, 1, 31)), ("SART", date(2027, 1, 31))]
)
def test_beacons_are_tested_again(tmp_path, kind, day):
    # 46 CFR 25.26-50: an EPIRB monthly; others once a year: common practice
    found = only(
        due_of(tmp_path, f"radio: {{beacons: [{{what: {kind}, kind: {kind}, tested: 2026-01-31}}]}}"), "test"
    )
    assert (found.last_day, found.kind, found.firm) == (day, "again", False)


@pytest.mark.parametrize(
    ("use", "month", "day"), [("commercial", 6, 19), ("private", 5, 19), ("charter", 5, 19)]
)
def test_the_last_drill_of_each_emergency_is_held_again(tmp_path, use, month, day):
    # 46 CFR 28.270: monthly where she works; else yearly: common practice
    drills = "drills: [{emergency: fire, date: 2026-05-19}, {emergency: fire, date: 2025-12-01}]"
    found = only(due_of(tmp_path, drills, f"use: {use}"), "drill")
    year = 2026 if use == "commercial" else 2027
    assert (found.item, found.last_day, found.kind) == ("fire", date(year, month, day), "again")


@pytest.mark.parametrize(("use", "day"), [("charter", date(2026, 4, 30)), ("private", date(2027, 3, 31))])
def test_a_slip_is_opened_again(tmp_path, use, day):
    # a safety alert on slips (secondary); common practice
    found = only(due_of(tmp_path, "rafts: [{name: raft, slip: {checked: 2026-03}}]", f"use: {use}"), "slip")
    assert (found.last_day, found.kind) == (day, "again")


@pytest.mark.parametrize(
    ("made", "tested", "day"),
    [
        ("2014-05", "2025-04-10", date(2026, 4, 10)),
        ("2018-05", "2025-04-10", date(2028, 5, 31)),
        ("2015-01", "2025-04", date(2026, 4, 30)),
    ],
)
def test_a_raft_over_ten_years_is_tested_under_pressure_every_year(tmp_path, made, tested, day):
    # ISO 18079-2 (secondary)
    text = f"rafts: [{{name: raft, made: {made}, service: {{pressure-test: {tested}}}}}]"
    found = only(due_of(tmp_path, text), "pressure test")
    assert (found.last_day, found.routine) == (day, True)
    assert due_of(tmp_path, f"rafts: [{{name: raft, service: {{pressure-test: {tested}}}}}]") == ()


def test_a_walk_round_counts_for_a_year(tmp_path):
    found = only(due_of(tmp_path, "checked-aboard: {by: Ann, date: 2026-02}"))
    assert (found.item, found.last_day, found.kind) == ("walk round the boat", date(2027, 2, 28), "again")


def test_services_and_tests_are_told_apart_from_ends_of_life(tmp_path):
    kinds = {
        (each.item, each.what): each.kind
        for each in due_of(
            tmp_path,
            "rafts: [{name: raft, standard: SOLAS, container: canister, service: {last: 2025-05-10, next: 2026-10-10, "
            "contents-expire: 2026-11, cylinder-test: 2028-01}}]\n"
            "gear: [{what: immersion suits, tested: 2025-01, expires: 2031-01}]\n"
            "lifejackets: [{size: adult, kind: inflatable, next-service: 2027-04, head-expires: 2026-09}]",
        )
    }
    assert kinds == {
        ("raft", "service"): "again",
        ("raft", "service, usual life"): "again",
        ("raft", "contents"): "ends",
        ("raft", "cylinder"): "again",
        ("immersion suits", ""): "ends",
        ("immersion suits", "usual life"): "again",
        ("adult lifejackets", "service"): "again",
        ("adult lifejackets", "firing head"): "ends",
    }
