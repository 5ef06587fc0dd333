"""Deadlines of dated things aboard, read from a vessel's file: which date governs, and until when."""

from datetime import date

import pytest

from generator.deadlines import deadlines_of
from generator.loading import load

PARTICULARS = "format: 1\nvessel: {name: Tern, type: monohull, length: 9 m, beam: 3 m, flag: FLAG, use: private}\n"


@pytest.fixture
def due(tmp_path):
    """The deadlines of a file's lines, by item and what; the boat's flag may matter."""
    def of(lines, flag="Norway"):
        (tmp_path / "vessel.yaml").write_text(PARTICULARS.replace("FLAG", flag) + lines, encoding="utf-8")
        vessel, findings = load(tmp_path, "tern")
        wrong = [each.message for each in findings if each.check in ("file.unknown-key", "file.bad-value", "file.unreadable")]
        assert wrong == []
        return deadlines_of(vessel)
    return of


def gear(**keys):
    return "gear:\n  - {" + ", ".join(f"{key.replace('_', '-')}: {value}" for key, value in keys.items()) + "}\n"


@pytest.mark.parametrize(("flag", "keys", "ends"), [
    # 46 CFR 160.036-5, 42 months; Offshore Special Regulations 4.23, four years.
    ("United States", {"what": "red hand flares", "made": "2023-03"}, date(2026, 9, 30)),
    ("United States", {"what": "red hand flares", "made": "2022-08-31"}, date(2026, 2, 28)),
    ("Norway", {"what": "red hand flares", "made": "2021-07"}, date(2025, 7, 31)),
    # A date marked on the thing outranks what is counted.
    ("United States", {"what": "red hand flares", "made": "2021-07", "expires": "2024-05"}, date(2024, 5, 31)),
    # ACN 002/22: 31 December of the twelfth year.
    ("United States", {"what": "fire extinguisher", "made": "2012"}, date(2024, 12, 31)),
    # 46 CFR 28.140: undated batteries yearly.
    ("Norway", {"what": "torch", "replaced": "2024-09-01"}, date(2025, 9, 1)),
    # 46 CFR 160.046-9: five years after packing.
    ("Norway", {"what": "food rations", "made": "2021-02"}, date(2026, 2, 28)),
    # Fire authorities' advice: smoke alarms ten years from making.
    ("Norway", {"what": "smoke alarm", "made": "2014-11"}, date(2024, 11, 30)),
    # MGN 529: an immersion suit three years from its test, two where it was then over ten years old.
    ("Norway", {"what": "immersion suits", "made": "2014-05", "tested": "2022-05-10"}, date(2025, 5, 10)),
    ("Norway", {"what": "immersion suits", "made": "2011-05", "tested": "2022-05-10"}, date(2024, 5, 10)),
])
def test_the_earliest_deadline_of_an_item(due, flag, keys, ends):
    first = due(gear(where="saloon", **keys), flag)[0]
    assert (first.item, first.last_day) == (keys["what"], ends)
    assert first.place.line == 4
    assert first.governs


def test_carbon_monoxide_alarms_have_an_advised_and_a_last_day(due):
    # Fire authorities' advice: five to seven years by maker.
    found = due(gear(what="CO alarm", where="saloon", made="2019-03"))
    assert [(each.last_day, each.firm) for each in found] == [(date(2024, 3, 31), False), (date(2026, 3, 31), True)]


RAFT = "rafts:\n  - name: Raft\n    standard: {standard}\n    container: canister\n"


@pytest.mark.parametrize(("release", "ends", "governs"), [
    # A beacon maker's manual: two years from fitting or four from making, whichever comes first.
    ("{kind: disposable, made: 2022-01, fitted: 2025-03-10}", date(2026, 1, 31), "made"),
    ("{kind: disposable, made: 2009-06, fitted: 2009-08-01}", date(2011, 8, 1), "fitted"),
    ("{kind: disposable, made: 2022-01, fitted: 2025-03-10, expires: 2025-12}", date(2025, 12, 31), "marked expiry"),
    # The month on the label stands for itself where the day counted lies in it.
    ("{kind: disposable, fitted: 2025-03-10, expires: 2027-03}", date(2027, 3, 31), "marked expiry"),
])
def test_a_disposable_release(due, release, ends, governs):
    found = due(RAFT.format(standard="SOLAS") + f"    release: {release}\n")
    first = next(each for each in found if each.item == "Raft: HRU")
    assert first.last_day == ends
    assert first.governs.startswith(governs)
    assert first.check == "release.expired"


@pytest.mark.parametrize(("standard", "ends"), [("SOLAS", date(2024, 6, 14)), ("ISO 9650-1 type 1 group A", date(2026, 6, 14))])
def test_service_of_a_raft_counted_from_the_last_one(due, standard, ends):
    # Offshore Special Regulations 4.20.4: SOLAS rafts yearly, ISO 9650 canisters every three years.
    found = due(RAFT.format(standard=standard) + "    service: {last: 2023-06-14}\n")
    assert [each.last_day for each in found if each.what.startswith("service")] == [ends]


def test_what_lies_in_the_raft_has_its_own_day(due):
    # SOLAS dated contents: a fault where "the expiry date falls before the next service date of the liferaft".
    found = due(RAFT.format(standard="SOLAS") + "    service: {last: 2026-04-30, next: 2027-04-30, contents-expire: 2026-11}\n")
    days = {each.what: each.last_day for each in found if each.firm}
    assert days["contents"] == date(2026, 11, 30)
    assert days["service"] == date(2027, 4, 30)
    assert found[0].what == "contents"


def test_a_battery_marked_to_the_month_is_good_to_its_end(due):
    # USP: a month alone means its last day.
    found = due("radio:\n  beacons:\n    - {what: EPIRB, kind: EPIRB, battery-expires: 2027-05, registered: 2024-02-29}\n")
    days = {each.what: each.last_day for each in found}
    assert days["battery"] == date(2027, 5, 31)
    assert next(day for what, day in days.items() if what.startswith("registration")) == date(2026, 2, 28)


def test_a_gas_hose_counts_from_its_stamp(due):
    # Gas fitters' guidance: five years from the marked month; the day of fitting counts only where nothing is marked.
    found = due("gas: {fuel: propane, hose-made: 2019-04, hose-fitted: 2020-06}\n")
    assert next(each.last_day for each in found if each.what.startswith("hose")) == date(2024, 4, 30)


def test_service_and_firing_head_of_lifejackets_are_told_apart(due):
    found = due("lifejackets:\n  - {kind: inflatable, size: adult, quantity: 4, next-service: 2027-04, head-expires: 2026-09}\n")
    assert [(each.item, each.what, each.last_day) for each in found] == [
        ("adult lifejackets", "firing head", date(2026, 9, 30)), ("adult lifejackets", "service", date(2027, 4, 30))]


def test_the_earliest_comes_first_and_the_stamp_is_kept(due):
    found = due("gear:\n  - {what: parachute flares, where: saloon, expires: {value: 2028-01, stamp: 01/28}}\n"
                "  - {what: orange smoke, where: saloon, expires: 2027-02}\n")
    assert [(each.item, each.stamp) for each in found] == [("orange smoke", "2027-02"), ("parachute flares", "01/28")]


def test_what_is_not_dated_has_no_deadline(due):
    assert due(gear(what="boathook", where="foredeck")) == ()
    assert due(gear(what="parachute flares", where="saloon", expires="unknown")) == ()
