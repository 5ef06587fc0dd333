"""Deadlines out of a vessel's file: which date governs, by which rule; and the shelf of lives itself."""

from datetime import date
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.manual.deadlines import USUAL_CHECK, deadlines_of, things_of
from generator.manual.deadlines.lines import candidates
from generator.shelves.gear import gear_names, kind_of, lasting
from generator.vessel.loading import load

ROOT = Path(__file__).resolve().parent.parent
UK, US = "flag: United Kingdom", "flag: United States"


@pytest.fixture
def deadlines(tmp_path):
    """The deadlines of a boat that has nothing but what is written here; only what no rule reads may be missing in her file."""

    def of(text, particulars=UK):
        (tmp_path / "vessel.yaml").write_text(
            f"format: 1\nvessel: {{{particulars}}}\n{text}\n", encoding="utf-8"
        )
        vessel, findings = load(tmp_path)
        assert [
            each.message for each in findings if each.check not in ("file.missing-key", "file.not-known-yet")
        ] == []
        return deadlines_of(vessel)

    return of


def only(found, what=None):
    chosen = [each for each in found if what is None or each.what == what]
    assert len(chosen) == 1, chosen
    return chosen[0]


def gear(rest):
    return f"gear: [{{what: {rest}}}]"


# V1 to V3: flares


def test_a_us_flare_lasts_42_months_from_its_making(deadlines):
    # 46 CFR 160.036-5
    found = only(deadlines(gear("red hand flares, made: 2023-03"), US))
    assert (found.last_day, found.governs, found.firm) == (date(2026, 9, 30), "made and 42 months", True)
    assert only(deadlines(gear("red hand flares, made: 2022-08-31"), US)).last_day == date(2026, 2, 28)


def test_a_flare_elsewhere_lasts_four_years_from_its_making(deadlines):
    # Offshore Special Regulations 4.23 (quoted text)
    found = only(deadlines(gear("red hand flares, made: 2021-07")))
    assert (found.last_day, found.governs) == (date(2025, 7, 31), "made and 4 years")
    assert only(deadlines(gear("red hand flares, made: 2021-07"), US)).last_day == date(2025, 1, 31)


def test_a_stamped_expiry_governs_a_flare(deadlines):
    # 33 CFR 175.125: the date marked on it
    found = only(
        deadlines(gear('red hand flares, made: 2021-07, expires: {value: 2025-12, stamp: "12-25"}'), US)
    )
    assert (found.last_day, found.governs, found.stamp, found.source) == (
        date(2025, 12, 31),
        "marked expiry",
        "12-25",
        "",
    )


# Worked case V4, extinguishers


def test_an_extinguisher_stamped_with_the_year_alone(deadlines):
    # ACN 002/22: binding in the US, elsewhere good advice
    text = gear('"fire extinguisher, galley", made: {value: 2012, stamp: "12"}')
    bound, advised = only(deadlines(text, US)), only(deadlines(text))
    assert bound.last_day == advised.last_day == date(2024, 12, 31)
    assert (bound.stamp, bound.firm, bound.check) == ("12", True, "gear.expired")
    assert (advised.firm, advised.check) == (False, USUAL_CHECK)


# Worked case V5, HRU


RELEASE = "rafts: [{{name: raft, where: coachroof, release: {{kind: disposable, {}}}}}]"


def test_the_making_governs_an_hru_that_lay_on_the_shelf(deadlines):
    # a maker's manual: two years from fitting or four from making, whichever first
    found = only(deadlines(RELEASE.format("made: 2022-01, fitted: 2025-03-10, expires: 2027-03")))
    assert (found.last_day, found.governs) == (date(2026, 1, 31), "made and 4 years")
    assert (found.place.key, found.path, found.where) == (
        "rafts[raft].release.made",
        "rafts[raft].release",
        "coachroof",
    )


def test_the_month_marked_on_an_hru_outranks_the_day_worked_out(deadlines):
    # good to the end of the month marked
    found = only(deadlines(RELEASE.format("fitted: 2024-03-15, expires: {value: 2026-03, stamp: MAR 26}")))
    assert (found.last_day, found.governs, found.stamp) == (date(2026, 3, 31), "marked expiry", "MAR 26")
    assert only(deadlines(RELEASE.format("fitted: 2024-03-15, expires: 2026-04"))).last_day == date(
        2026, 3, 15
    )


# V6, V7: the raft


def raft(standard, container="canister", service="last: 2023-06-14"):
    return f"rafts: [{{name: raft, standard: {standard}, container: {container}, service: {{{service}}}}}]"


@pytest.mark.parametrize(
    ("text", "particulars", "expected"),
    [
        (raft("ISO 9650-1 type 1 group A"), UK, date(2026, 6, 14)),  # Offshore Special Regulations 4.20.4
        (raft("SOLAS"), UK, date(2024, 6, 14)),  # class news 05/2015
        (raft("ISO 9650-1 type 2", "valise"), "use: private", date(2026, 6, 14)),
        (raft("ISO 9650-1 type 2", "valise"), "use: charter", date(2024, 6, 14)),  # a hired valise: yearly
    ],
)
def test_the_service_of_a_raft_by_its_standard(deadlines, text, particulars, expected):
    assert only(deadlines(text, particulars), "service, usual life").last_day == expected


def test_the_next_service_written_on_the_certificate_is_firm_and_the_usual_one_advises(deadlines):
    found = deadlines(raft("SOLAS", service="last: 2025-05-10, next: 2026-10-10"))
    assert [(each.last_day, each.firm, each.check) for each in found] == [
        (date(2026, 5, 10), False, USUAL_CHECK), (date(2026, 10, 10), True, "raft.service-due")]  # fmt: skip


def test_the_contents_of_a_raft_have_a_day_of_their_own(deadlines):
    # MSC.388(94): a flare inside of November 2026 before the service of April 2027
    found = deadlines(raft("other", service="next: 2027-04-30, contents-expire: 2026-11"))
    assert [(each.what, each.last_day) for each in found] == [
        ("contents", date(2026, 11, 30)),
        ("service", date(2027, 4, 30)),
    ]


# V8, V14: beacons


def beacon(kind, rest):
    return f"radio: {{beacons: [{{what: {kind}, kind: {kind}, {rest}}}]}}"


def test_a_beacon_battery_lasts_to_the_end_of_its_month_and_no_longer(deadlines):
    # 46 CFR 25.26-50; a voyage from 20 May to 15 June is not covered
    found = only(deadlines(beacon("EPIRB", "battery-expires: 2027-05")), "battery")
    assert date(2027, 5, 20) <= found.last_day == date(2027, 5, 31) < date(2027, 6, 15)


def test_tests_and_registration_are_done_again_and_end_nothing(deadlines):
    # AMSA: two years; 46 CFR 25.26-50: tested monthly
    found = deadlines(beacon("EPIRB", "tested: 2026-01-31, registered: 2024-02-29"))
    assert [(each.what, each.last_day, each.routine, each.firm) for each in found] == [
        ("registration", date(2026, 2, 28), True, False), ("test", date(2026, 2, 28), True, False)]  # fmt: skip


def test_the_hru_of_a_beacon_lasts_two_years(deadlines):
    found = only(deadlines(beacon("EPIRB", "release-fitted: 2024-05-10, release-expires: 2028-01")), "HRU")
    assert (found.last_day, found.governs) == (date(2026, 5, 10), "fitted and 2 years")


# V9 to V13: batteries, food, hose, alarms, suits


@pytest.mark.parametrize(
    ("text", "expected", "governs"),
    [
        (
            gear("torch, replaced: 2024-09-01"),
            date(2025, 9, 1),
            "replaced and 12 months",
        ),  # 46 CFR 28.140 table
        (gear('"lifebuoy, with light", replaced: 2024-09'), date(2025, 9, 30), "replaced and 12 months"),
        (gear("food, made: 2021-02"), date(2026, 2, 28), "made and 5 years"),  # 46 CFR 160.046-9
        (
            gear("smoke alarm, made: 2014-11"),
            date(2024, 11, 30),
            "made and 10 years",
        ),  # fire authorities' advice
        (gear("jackstays, fitted: 2023-05"), date(2026, 5, 31), "fitted and 3 years"),  # CHIRP Maritime
        (gear("jackstays, made: 2020-01, replaced: 2023-05"), date(2026, 5, 31), "replaced and 3 years"),
        (
            "gas: {fuel: butane, hose-made: {value: 2019-04, stamp: 04/19}, hose-fitted: 2020-06}",
            date(2024, 4, 30),
            "made and 5 years",
        ),
        ("gas: {fuel: butane, regulator-made: 2016-02}", date(2026, 2, 28), "made and 10 years"),
        (
            "through-hulls: [{what: inlet, fitted: 2020-03}]",
            date(2025, 3, 31),
            "fitted and 5 years",
        ),  # ISO 9093-1, secondary
        (
            gear("immersion suits, made: 2014-05, tested: 2022-05-10"),
            date(2025, 5, 10),
            "tested and 3 years",
        ),  # MGN 529
        (
            gear("immersion suits, made: 2014-05, tested: 2024-06-10"),
            date(2026, 6, 10),
            "tested and 2 years",
        ),  # over ten years old
        (gear("immersion suits, made: 2014-05, tested: 2024-05-01"), date(2027, 5, 1), "tested and 3 years"),
    ],
)
def test_usual_lives(deadlines, text, expected, governs):
    found = deadlines(text)[0]
    assert (found.last_day, found.governs) == (expected, governs)
    assert found.source


def test_a_carbon_monoxide_alarm_is_advised_from_five_years_and_over_at_seven(deadlines):
    found = deadlines(gear("carbon monoxide alarm, made: 2019-03"))
    assert [(each.last_day, each.firm) for each in found] == [
        (date(2024, 3, 31), False),
        (date(2026, 3, 31), True),
    ]


# Worked case V15, the window of a service


def test_the_window_of_a_commercial_service(deadlines):
    # RYA on small commercial vessels, secondary
    text = "lifejackets: [{size: adult, kind: inflatable, next-service: 2025-07-01}]"
    assert only(deadlines(text, "flag: United Kingdom, use: commercial")).window == (
        date(2025, 6, 1),
        date(2025, 8, 1),
    )
    assert only(deadlines(text, "flag: United Kingdom, use: private")).window is None
    assert only(deadlines(text, "flag: France, use: commercial")).window is None


# The maker's own life, and the interval of the file


def test_the_makers_own_life_stands_in_for_the_usual_one(deadlines):
    own = 'lives: [{from: made, life: 7 years, source: "the makers manual, page 12"}]'
    found = only(deadlines(gear(f"smoke alarm, made: 2014-11, {own}")))
    assert (found.last_day, found.governs, found.firm) == (date(2021, 11, 30), "made and 7 years", True)
    assert "page 12" in found.source
    longer = RELEASE.format(
        'fitted: 2024-03-15, expires: 2027-03, lives: [{from: fitted, life: 3 years, source: "manual, page 4"}]'
    )
    assert only(deadlines(longer)).last_day == date(2027, 3, 31)


def test_an_own_life_counts_once_in_a_kind_of_several_lines(deadlines):
    text = "through-hulls: [{what: inlet, fitted: 2020-03, hose-fitted: 2020-03, lives: [{from: hose-fitted, life: 4 years, source: label}]}]"
    found = deadlines(text)
    assert [(each.what, each.last_day) for each in found] == [
        ("hose", date(2024, 3, 31)),
        ("seacock, usual life", date(2025, 3, 31)),
    ]


def test_own_gear_of_no_known_kind_takes_its_own_life(deadlines):
    found = only(
        deadlines(gear("leak mat, made: 2023-01, lives: [{from: made, life: 3 years, source: its label}]"))
    )
    assert (found.last_day, found.check, found.firm) == (date(2026, 1, 31), "gear.expired", True)


def test_the_interval_of_the_file_counts_with_what_is_marked(deadlines):
    text = "immersion suits, last-service: 2024-03-10, service-interval: 18 months, next-service: 2026-03-10, expires: 2029-01"
    found = only(deadlines(gear(text)), "")
    assert (found.last_day, found.governs) == (date(2025, 9, 10), "last service and its interval")


def test_unknown_dates_and_no_dates_give_no_deadline(deadlines):
    assert deadlines(gear("smoke alarm, made: unknown")) == ()
    assert deadlines(gear("parachute flares, expires: unknown")) == ()
    assert deadlines(gear("boathook, where: foredeck")) == ()


def test_service_and_firing_head_of_lifejackets_are_told_apart(deadlines):
    found = deadlines(
        "lifejackets: [{size: adult, kind: inflatable, next-service: 2027-04, head-expires: 2026-09}]"
    )
    assert [(each.item, each.what, each.last_day) for each in found] == [
        ("adult lifejackets", "firing head", date(2026, 9, 30)), ("adult lifejackets", "service", date(2027, 4, 30))]  # fmt: skip


def test_the_earliest_comes_first_and_each_keeps_its_stamp_and_place(deadlines):
    found = deadlines(
        "gear:\n  - {what: parachute flares, expires: {value: 2028-01, stamp: 01/28}}\n  - {what: orange smoke, expires: 2027-02}"
    )
    assert [(each.item, each.stamp, each.place.line) for each in found] == [
        ("orange smoke", "2027-02", 5),
        ("parachute flares", "01/28", 4),
    ]


# Properties


KEYS = ("made", "expires", "fitted", "replaced", "tested", "last-service", "next-service")
ONE_LINE = [name for name in gear_names() if len(lasting(name, kind_of(name)).lines) == 1]
WHATS = (
    *ONE_LINE,
    "smoke alarm",
    "carbon monoxide alarm",
    "gas detector",
    "medical chest",
    "food",
    "water",
    "storm jib",
)
STAMPS = st.dates(date(1995, 1, 1), date(2045, 12, 31)).flatmap(
    lambda day: st.sampled_from([day.isoformat(), day.isoformat()[:7]]))  # fmt: skip


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.sampled_from(WHATS), st.dictionaries(st.sampled_from(KEYS), STAMPS), st.sampled_from([UK, US]))
def test_no_date_of_a_thing_ends_it_before_its_deadline(tmp_path, what, dates, flag):
    keys = "".join(f", {key}: {value}" for key, value in dates.items())
    (tmp_path / "vessel.yaml").write_text(
        f"format: 1\nvessel: {{{flag}}}\ngear: [{{what: {what}{keys}}}]\n", encoding="utf-8"
    )
    vessel, _ = load(tmp_path)
    found = deadlines_of(vessel)
    (thing,) = things_of(vessel)
    (line,) = thing.kind.lines
    firm, usual = candidates(thing, line)
    if firm:
        assert next(each for each in found if each.firm).last_day == min(each.last_day for each in firm)
    if firm or usual:
        assert found[0].last_day == min(each.last_day for each in firm + usual)
    assert bool(found) == bool(firm or usual)
    assert len(found) <= 2
    for each in found:
        key = each.place.key.rpartition(".")[2]
        assert each.stamp == dates[key]


# Which kind a thing is of


def test_gear_is_known_by_name_alone_or_before_a_comma():
    def kind(what):
        return lasting(what, kind_of(what)).name

    assert kind("Smoke alarm, forward") == "smoke alarm"
    assert kind("lifebuoy, with light and drogue") == "lights of lifebuoys"
    assert kind("lifebuoy") == "all other gear"
    assert kind("water pistol") == "all other gear"
    assert kind("rocket flares") == "flares and smoke"
    assert kind("CO alarm") == "carbon monoxide alarm"


@pytest.mark.parametrize(
    "boat", sorted(path.parent.name for path in (ROOT / "vessels").glob("*/vessel.yaml"))
)
def test_the_specimens_have_dates_of_most_kinds(boat):
    vessel, _ = load(ROOT / "vessels" / boat)
    found = deadlines_of(vessel)
    assert [each.last_day for each in found] == sorted(each.last_day for each in found)
    wanted = {"radio.battery-expired", "gear.expired", *(["raft.service-due"] if vessel.rafts else [])}
    assert wanted <= {each.check for each in found}
    assert all((each.path or each.kind == "over") and each.governs and each.stamp for each in found)
