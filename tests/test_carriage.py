"""What is aboard is counted as the rules count: in date only, once, by its fittings, and not from inside the packed raft."""

import re
import shutil
from datetime import date
from pathlib import Path

import pytest
from beside import lay_beside

from generator.manual.aboard import pack_contents, persons_of
from generator.manual.carriage import MET, NOT_SAID, SHORT
from generator.outputs import Job, book
from generator.publishing import Order, survey
from generator.shelves.rulesets import named

VESSELS = Path(__file__).resolve().parent.parent / "vessels"
DAY = date(2026, 6, 1)
HAND = "{what: red hand flares, kind: signal, quantity: 6,"


@pytest.fixture
def rows(tmp_path):
    """The rows of a boat kept by `rule_set`, by item, after some changes of her file (each text stands once)."""

    def compared(rule_set, *changes, boat="saltmeadow", until=None, voyage=""):
        lay_beside(tmp_path)
        folder = tmp_path / boat
        shutil.copytree(VESSELS / boat, folder, dirs_exist_ok=True)
        text = (VESSELS / boat / "vessel.yaml").read_text(encoding="utf-8")
        for old, new in (
            ("  name: ", f"  rule-set: {rule_set}\n  name: "),
            ("  rule-set: good practice\n", ""),
            *changes,
        ):
            assert old in text, old
            text = text.replace(old, new, 1)
        (folder / "vessel.yaml").write_text(text, encoding="utf-8")
        if voyage:
            (folder / "voyage.yaml").write_text(voyage, encoding="utf-8")
        compared.surveyed = survey(folder, "", Order(DAY, until=until))
        return {row.rule.item: row for row in compared.surveyed.manual.carriage}

    return compared


US, CANADA = "US recreational", "Canada small craft"
UK2, OSR1 = "UK small commercial category 2", "World Sailing offshore special regulations category 1"


def test_a_row_says_required_aboard_where_good_until_and_source(rows):
    row = rows("good practice")["red hand flares"]
    assert (row.rule_set, row.required, row.aboard, row.state) == ("good practice", 6, 6, MET)
    assert [thing.at.where for thing in row.things] == ["companionway"]
    assert row.good_until == date(2028, 10, 31)
    assert (row.rule.source, row.rule.standing) == (
        "common practice; compare the code for small commercial vessels (secondary)",
        "common practice",
    )


@pytest.mark.parametrize(("quantity", "state"), [(5, SHORT), (6, MET), (7, MET)])
def test_one_less_is_short(rows, quantity, state):
    assert rows("good practice", (HAND, HAND.replace("6", str(quantity))))["red hand flares"].state == state


def test_what_is_past_its_date_is_never_counted_and_kept_apart(rows):
    box = " where: companionway, side: port, spot: in the orange flare box, expires: "
    row = rows("good practice", (f"{HAND}{box}2028-10", f"{HAND}{box}2026-05"))["red hand flares"]
    assert (row.aboard, row.state) == (0, SHORT)  # good to 31 May, the day before
    assert [thing.amount for thing in row.past] == [6]
    assert row.enough_with_past


def test_the_last_day_counts_and_the_end_of_the_passage_decides(rows):
    box = " where: companionway, side: port, spot: in the orange flare box, expires: "
    change = (f"{HAND}{box}2028-10", f"{HAND}{box}2026-06")
    assert rows("good practice", change)["red hand flares"].aboard == 6
    assert rows("good practice", change, until=date(2026, 6, 30))["red hand flares"].aboard == 6
    assert rows("good practice", change, until=date(2026, 7, 1))["red hand flares"].aboard == 0


def test_a_device_for_day_and_night_serves_both(rows):
    found = rows(US)  # 6 hand flares and 4 rockets aboard, 3 and 2 in the bag, and 2 smokes
    assert (found["distress signals for the day"].aboard, found["distress signals for the night"].aboard) == (
        17,
        15,
    )


def test_flares_inside_the_raft_are_not_the_vessels(rows):
    change = ("pack: under 24 h", "pack: SOLAS A")
    assert rows(OSR1, change)["red hand flares"].aboard == 6
    assert rows(US, change)["distress signals for the night"].aboard == 15


def test_three_or_one_electric_light(rows):
    bare = [
        (f"{{what: {name}, kind: signal", "{what: a rod, kind: signal")
        for name in ("red hand flares", "parachute flares")
    ]
    bare += [
        ("      - {what: parachute flares, quantity: 2, expires: 2028-09}\n", ""),
        ("      - {what: red hand flares, quantity: 3, expires: 2028-09}\n", ""),
    ]
    assert rows(US, *bare)["distress signals for the night"].state == SHORT
    light = (
        "gear:\n",
        "gear:\n  - {what: electric distress light, kind: signal, quantity: 1, where: cockpit, side: port}\n",
    )
    assert rows(US, *bare, light)["distress signals for the night"].state == MET


def _rated(*ratings):
    """Her three portable extinguishers rated so, one after the other."""
    return [("rating: 13A/113B", f'rating: "{rating}"') for rating in ratings]


NO_FIXED = ("{what: automatic extinguisher,", "{what: old extinguisher,")


@pytest.mark.parametrize(
    ("ratings", "aboard", "state"),
    [
        (("5-B:C", "5-B:C", "5-B:C"), 3, MET),
        (("20-B:C", "5-B:C", "1-A"), 3, MET),  # a 20-B counts as two
        (("10-B:C", "10-B:C", "1-A"), 2, SHORT),  # a 10-B counts as one
        (("20-B:C", "1-A", "1-A"), 2, SHORT),
        (("13A/113B", "13A/113B", "13A/113B"), 0, NOT_SAID),  # another system, never converted
        (("5-B:C", "5-B:C", "13A/113B"), 2, NOT_SAID),
    ],
)
def test_us_extinguishers_at_40_ft(rows, ratings, aboard, state):
    row = rows(US, ("length: 12.0 m", "length: 40 ft"), NO_FIXED, *_rated(*ratings))[
        "portable extinguishers, in units of 5-B"
    ]
    assert (row.required, row.aboard, row.state) == (3, aboard, state)


def test_us_extinguishers_at_39_ft_4(rows):
    row = rows(US, ("length: 12.0 m", "length: 39 ft 4 in"), NO_FIXED, *_rated("20-B:C", "1-A", "1-A"))[
        "portable extinguishers, in units of 5-B"
    ]
    assert (row.required, row.aboard, row.state) == (2, 2, MET)


@pytest.mark.parametrize(
    ("what", "state"),
    [("lifebuoy, with light and line", MET), ("lifebuoy, with line", MET), ("lifebuoy", NOT_SAID)],
)
def test_canada_over_12_m_lifebuoy_with_light_or_line(rows, what, state):
    row = rows(CANADA, ("length: 12.0 m", "length: 13 m"), ('"lifebuoy, with light and drogue"', f'"{what}"'))
    assert row["lifebuoy with a light or a buoyant line of 15 m"].state == state


@pytest.mark.parametrize(
    ("line", "state"),
    [
        ("throwing line, 25 m", MET),
        ("throwing line, 15 m", MET),
        ("throwing line, 14 m", SHORT),
        ("throwing line, 50 ft", MET),
        ("throwing line, 49 ft", SHORT),
        ("throwing line", NOT_SAID),
    ],
)
def test_canada_heaving_line_of_15_m(rows, line, state):
    assert rows(CANADA, ('"throwing line, 25 m"', f'"{line}"'))["buoyant heaving line of 15 m"].state == state


def test_canada_counts_smokes_to_half_only(rows):
    none = (
        ("{what: parachute flares, kind", "{what: p, kind"),
        ("      - {what: parachute flares, quantity: 2, expires: 2028-09}\n", ""),
        ("      - {what: red hand flares, quantity: 3, expires: 2028-09}\n", ""),
    )
    many = (
        "{what: orange smoke, kind: signal, quantity: 2",
        "{what: orange smoke, kind: signal, quantity: 20",
    )
    row = rows(CANADA, *none, many)["pyrotechnic distress signals"]
    assert (row.required, row.aboard, row.state) == (12, 12, MET)  # 6 hand flares and 6 of 20 smokes
    fewer = (HAND, HAND.replace("6", "2"))
    row = rows(CANADA, *none, many, fewer)["pyrotechnic distress signals"]
    assert (row.required, row.aboard, row.state) == (
        12,
        8,
        SHORT,
    )  # and half of it: 2 and 3 smokes are 5 of 6
    fewer = (HAND, HAND.replace("6", "3"))
    row = rows(CANADA, *none, many, fewer)["pyrotechnic distress signals"]
    assert (row.required, row.aboard, row.state) == (6, 6, MET)  # a radio is aboard: s. 213(3)
    assert "213(3)" in row.rule.source


@pytest.mark.parametrize(("category", "required"), [("0", 12), ("1", 6), ("2", 4), ("3", 4), ("4", None)])
def test_uk_parachute_flares_by_category(rows, category, required):
    row = rows(f"UK small commercial category {category}").get("parachute flares")
    assert (row and row.required) == required


def test_uk_two_spare_where_lifejackets_are_inflatable(rows):
    change = ("{size: adult, kind: inflatable, quantity: 8", "{size: adult, kind: foam, quantity: 8")
    assert rows(UK2)["lifejackets, two spare where they are inflatable"].required == 8
    assert "lifejackets, two spare where they are inflatable" not in rows(UK2, change)


def test_osr_water_is_two_litres_a_person(rows):
    row = rows(OSR1)["emergency drinking water"]
    assert (row.required, row.aboard, row.state) == (
        12,
        30,
        MET,
    )  # 12 l in the bag and 18 l in cans; the raft holds none
    assert (
        rows(OSR1, ("volume: 12 l", "volume: 11 l"), (", volume: 18 l", ""))["emergency drinking water"].state
        == SHORT
    )


def test_osr_a_handheld_counts_in_the_bag_and_only_once(rows):
    assert rows(OSR1)["handheld VHF in the grab bag"].aboard == 1
    assert (
        rows(OSR1, ("      - {what: handheld VHF, quantity: 1}\n", ""))["handheld VHF in the grab bag"].state
        == SHORT
    )
    assert rows("good practice")["handheld VHF"].aboard == 1


def test_osr_a_beacon_in_each_lifejacket_says_no_number_unless_it_is_told(rows):
    one = rows(OSR1, (", quantity: 8, use: pull the tab", ", use: pull the tab"))
    assert one["AIS man-overboard beacons"].state == NOT_SAID
    assert rows(OSR1)["AIS man-overboard beacons"].state == MET
    few = rows(OSR1, (", quantity: 8, use: pull the tab", ", quantity: 2, use: pull the tab"))
    assert few["AIS man-overboard beacons"].state == SHORT


def test_osr_raft_must_be_of_the_standard(rows):
    assert rows(OSR1)["places in liferafts for all"].state == MET
    assert (
        rows(OSR1, ("standard: ISO 9650-1 type 1 group A", "standard: ISO 9650-1 type 2"))[
            "places in liferafts for all"
        ].state
        == SHORT
    )


def test_raft_pack_and_grab_bag_count_together_and_what_is_out_of_reach_is_told(rows):
    found = rows("SOLAS raft contents category B", ("pack: under 24 h", "pack: SOLAS B"))
    assert all(row.state == MET for row in found.values())
    assert found["buoyant paddles"].needs_the_raft
    assert not found["whistle"].needs_the_raft
    assert found["parachute flares"].aboard == 4  # 2 packed in the raft, 2 in the bag


def test_a_pack_that_is_no_solas_pack_is_known_by_its_water_and_food_alone(rows):
    rows("good practice")
    raft = rows.surveyed.vessel.rafts[0]
    assert pack_contents(raft) == {"drinking water": 0.0}
    raft.__dict__.update(pack="over 24 h", pack_water=9.0)
    assert pack_contents(raft) == {"food": 6.0, "drinking water": 9.0}
    raft.__dict__.update(pack="SOLAS A", pack_water=None)
    assert pack_contents(raft)["drinking water"] == 9.0
    assert pack_contents(raft)["red hand flares"] == 6
    raft.__dict__.update(pack="SOLAS B")
    assert pack_contents(raft)["red hand flares"] == 3
    assert pack_contents(raft)["drinking water"] == 0


def test_counted_is_for_the_most_she_may_carry_or_for_more_who_travel(rows):
    rows("good practice")
    assert persons_of(rows.surveyed.vessel) == 6
    travellers = "\n".join(f"  - {{name: N{number}, role: guest 1}}" for number in range(7))
    found = rows("good practice", voyage=f"format: 1\nuntil: 2026-06-20\npersons:\n{travellers}\n")
    assert found["lifejackets"].required == 7
    found = rows(
        "good practice", voyage="format: 1\nuntil: 2026-06-20\npersons:\n  - {name: Ada, role: skipper}\n"
    )
    assert found["lifejackets"].required == 6


def test_several_rule_sets_stand_one_after_the_other(rows):
    rows("[good practice, US recreational]")
    assert list(dict.fromkeys(row.rule_set for row in rows.surveyed.manual.carriage)) == [
        "good practice",
        "US recreational",
    ]


def test_a_set_without_its_category_is_not_compared(rows):
    assert rows("UK small commercial") == {}
    assert rows("UK small commercial category 9") == {}


def test_names_are_read_whatever_their_capitals():
    assert named("Good Practice")[0].name == "good practice"
    assert named("uk small commercial category 2") == (named("UK small commercial")[0], "2")
    assert named("flag rules") == (None, "")


@pytest.mark.parametrize(
    ("rule_set", "weights"), [(CANADA, {"defect"}), (UK2, {"recommendation"}), (OSR1, {"recommendation"})]
)
def test_only_rows_that_were_read_make_defects(rows, rule_set, weights):
    rows(rule_set)
    assert {
        each.weight.word for each in rows.surveyed.findings if each.check == "carriage.lacking"
    } == weights


def test_nothing_is_compared_where_the_persons_are_not_known(rows):
    assert rows("good practice", ("persons: 6\n  waters", "persons: unknown\n  waters")) == {}


def test_the_book_prints_required_aboard_where_good_until_and_what_is_an_extra_only(rows):
    box = " where: companionway, side: port, spot: in the orange flare box, expires: "
    rows("[good practice, UK small commercial category 2]", (f"{HAND}{box}2028-10", f"{HAND}{box}2026-04"))
    page = book.html(Job(rows.surveyed.manual, "crew"))
    chapter = page[page.index('id="chapter-carriage"') : page.index('id="chapter-drills"')]
    cells = [re.sub(r"<[^>]+>|\s+", " ", cell) for cell in re.findall(r"<tr>.*?</tr>", chapter, re.DOTALL)]
    cells = [" ".join(cell.split()) for cell in cells]
    assert any(
        cell.startswith(
            "4 · parachute flares 4 companionway, port, in the orange flare box 31 October 2028 common practice"
        )
        for cell in cells
    )
    assert any(
        cell.startswith("6 · red hand flares 0 too few 6 as an extra only, past 30 April 2026")
        for cell in cells
    )
    assert any("lifebuoy with a buoyant line of 18 m 0 not said, look at it" in cell for cell in cells)
    assert "UK small commercial category 2" in chapter


def test_without_a_rule_set_the_book_has_no_such_chapter(rows):
    rows("flag rules")
    assert 'id="chapter-carriage"' not in book.html(Job(rows.surveyed.manual, "crew"))
