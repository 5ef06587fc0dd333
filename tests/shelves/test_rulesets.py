"""The rule sets hold what their sources say, row by row and at each boundary."""

import re

import pytest

from generator.reading.measures import Measure
from generator.reading.names import STANDINGS
from generator.shelves.quantities import Boat
from generator.shelves.rulesets import rule_sets
from generator.survey.registry import all_checks

FACTS = dict.fromkeys(
    (
        "sails",
        "engine",
        "inboard engine",
        "fuel-burning cooker",
        "through-hulls",
        "grab bag",
        "inflatable lifejackets",
        "has fixed extinguisher",
        "has automatic extinguisher",
        "fixed vhf",
        "handheld vhf",
        "epirb",
        "plb",
    ),
    False,
)
US, UK, OSR = "US recreational", "UK small commercial", "World Sailing offshore special regulations"
CANADA, SOLAS, GOOD = "Canada small craft", "SOLAS raft contents", "good practice"


def boat(length="10 m", *, persons=6, waters="coastal", category="", freeboard_m=1.0, facts=()):
    return Boat(
        persons,
        float(Measure("", "length").read(length)),
        freeboard_m,
        waters,
        category,
        FACTS | dict.fromkeys(facts, True),
    )


def asked(name, item, **about):
    """What all rows of an item ask of a boat together, with their sources."""
    one = boat(**about)
    rows = [row for row in rule_sets()[name].rows if row.item == item]
    assert rows, f"{name} has no row '{item}'"
    held = [row for row in rows if row.holds(one)]
    return max((row.quantity.asked_of(one) for row in held), default=0), {row.source for row in held}


PUBLISHED = [
    # 33 CFR 175.15(a) and (b)
    (US, "wearable lifejackets", {"persons": 6}, 6, "33 CFR 175.15(a)"),
    (US, "wearable lifejackets", {"persons": 1}, 1, "33 CFR 175.15(a)"),
    (US, "device to throw", {"length": "16 ft"}, 1, "33 CFR 175.15(b)"),
    (US, "device to throw", {"length": "15 ft 11 in"}, 0, None),
    (US, "device to throw", {"length": "4.8768 m"}, 1, "33 CFR 175.15(b)"),
    (US, "device to throw", {"length": "4.876 m"}, 0, None),
    # 33 CFR 175.110 and 175.130, three for the day and three for the night
    (US, "distress signals for the day", {}, 3, "33 CFR 175.110 and 175.130"),
    (US, "distress signals for the night", {}, 3, "33 CFR 175.110 and 175.130"),
    (US, "distress signals for the day", {"length": "15 ft"}, 0, None),
    (US, "distress signals for the night", {"length": "15 ft"}, 3, "33 CFR 175.110 and 175.130"),
    (US, "distress signals for the night", {"waters": "sheltered"}, 0, None),
    # 33 CFR 175.320(a), table 1
    (US, "portable extinguishers, in units of 5-B", {"length": "25 ft 11 in"}, 1, "33 CFR 175.320(a)"),
    (US, "portable extinguishers, in units of 5-B", {"length": "26 ft"}, 2, "33 CFR 175.320(a)"),
    (US, "portable extinguishers, in units of 5-B", {"length": "39 ft 4 in"}, 2, "33 CFR 175.320(a)"),
    (US, "portable extinguishers, in units of 5-B", {"length": "40 ft"}, 3, "33 CFR 175.320(a)"),
    (US, "portable extinguishers, in units of 5-B", {"length": "12.192 m"}, 3, "33 CFR 175.320(a)"),
    (US, "portable extinguishers, in units of 5-B", {"length": "12.19 m"}, 2, "33 CFR 175.320(a)"),
    (US, "portable extinguishers, in units of 5-B", {"length": "65 ft"}, 3, "33 CFR 175.320(a)"),
    (US, "portable extinguishers, in units of 5-B", {"length": "65 ft 1 in"}, 0, "33 CFR 175.320(a)"),
    (US, "portable extinguishers, in units of 5-B", {"facts": ["has fixed extinguisher"]}, 0, None),
    *(
        (
            US,
            "portable extinguishers beside a fixed system, in units of 5-B",
            {"length": length, "facts": [fixed]},
            number,
            "33 CFR 175.320(a)",
        )
        for fixed in ("has fixed extinguisher", "has automatic extinguisher")
        for length, number in (("25 ft", 0), ("26 ft", 1), ("39 ft 11 in", 1), ("40 ft", 2), ("65 ft", 2))
    ),
    # COLREG rule 33
    (US, "whistle", {"length": "11.99 m"}, 0, None),
    (US, "whistle", {"length": "12 m"}, 1, "COLREG rule 33(a)"),
    (US, "some other means of making a sound signal", {"length": "11.99 m"}, 1, "COLREG rule 33(b)"),
    (US, "bell", {"length": "19.99 m"}, 0, None),
    (US, "bell", {"length": "20 m"}, 1, "COLREG rule 33(a)"),
    # UK codes, table of flares
    *(
        (UK, "parachute flares", {"category": category}, number, "table of life-saving appliances")
        for category, number in zip("01234", (12, 6, 4, 4, 0), strict=True)
    ),
    *(
        (UK, "red hand flares", {"category": category}, number, "table of life-saving appliances")
        for category, number in zip("01234", (6, 6, 6, 6, 2), strict=True)
    ),
    *(
        (UK, "smoke signals", {"category": category}, 2, "table of life-saving appliances")
        for category in "01234"
    ),
    (
        UK,
        "lifejackets, two spare where they are inflatable",
        {"category": "2", "persons": 9, "facts": ["inflatable lifejackets"]},
        11,
        "inventory",
    ),
    (UK, "lifejackets, two spare where they are inflatable", {"category": "2", "persons": 9}, 0, None),
    (UK, "thermal protective aids", {"category": "2", "persons": 9}, 9, "inventory"),
    (
        UK,
        "fire pump and hose, or four extinguishers of 13A/113B",
        {"category": "2", "length": "14.9 m"},
        0,
        None,
    ),
    (
        UK,
        "fire pump and hose, or four extinguishers of 13A/113B",
        {"category": "2", "length": "15 m"},
        1,
        "from 15 m",
    ),
    # World Sailing offshore special regulations
    (OSR, "red hand flares", {"category": "1"}, 4, "OSR 4.23"),
    (OSR, "orange smoke signals", {"category": "1"}, 2, "OSR 4.23"),
    (OSR, "red hand flares", {"category": "3"}, 0, None),
    (OSR, "emergency drinking water", {"category": "1", "persons": 7}, 14, "OSR 3.21.3"),
    (OSR, "emergency drinking water", {"category": "0"}, 0, None),
    (OSR, "MF/HF radio", {"category": "0"}, 1, "OSR 3.29.13"),
    (OSR, "MF/HF radio", {"category": "1"}, 0, None),
    (OSR, "AIS man-overboard beacons", {"category": "2"}, 6, "OSR 4.22.1 a"),
    (OSR, "AIS man-overboard beacons", {"category": "3"}, 0, None),
    (OSR, "places in liferafts for all", {"category": "2", "persons": 8}, 8, "OSR 4.20.1"),
    # SOR/2010-91, Small Vessel Regulations
    (CANADA, "pyrotechnic distress signals", {"length": "6 m"}, 0, None),
    (CANADA, "pyrotechnic distress signals", {"length": "6.01 m"}, 6, "s. 205"),
    (CANADA, "pyrotechnic distress signals", {"length": "9 m"}, 6, "s. 205"),
    (CANADA, "pyrotechnic distress signals", {"length": "9.01 m"}, 12, "s. 205"),
    (CANADA, "pyrotechnic distress signals", {"length": "13 m"}, 12, "s. 205"),
    (CANADA, "reboarding device", {"freeboard_m": 0.5}, 0, None),
    (CANADA, "reboarding device", {"freeboard_m": 0.51}, 1, "s. 204(b)"),
    (CANADA, "lifebuoy with a light or a buoyant line of 15 m", {"length": "12 m"}, 0, None),
    (
        CANADA,
        "lifebuoy with a light or a buoyant line of 15 m",
        {"length": "12.01 m"},
        1,
        "s. 204(c), table item 4",
    ),
    (CANADA, "lifebuoy with a buoyant line of 15 m", {"length": "12 m"}, 1, "s. 204(c), table item 3"),
    (CANADA, "anchor with 50 m of rode", {"length": "13 m"}, 1, "s. 206, table item 3"),
    (CANADA, "anchor with 30 m of rode", {"length": "12 m"}, 1, "s. 206, table item 2"),
    (
        CANADA,
        "portable extinguishers of 5B:C",
        {"length": "9 m", "facts": ["engine", "fuel-burning cooker"]},
        2,
        "s. 208, table item 2",
    ),
    (
        CANADA,
        "portable extinguishers of 10B:C",
        {"length": "9.01 m", "facts": ["engine"]},
        1,
        "s. 208, table item 3",
    ),
    (
        CANADA,
        "portable extinguishers of 10B:C, at accommodation, machinery space and cooker",
        {"length": "13 m", "facts": ["inboard engine", "fuel-burning cooker"]},
        3,
        "s. 208, table item 4",
    ),
    (CANADA, "axe", {"length": "12 m"}, 0, None),
    (CANADA, "axe", {"length": "13 m"}, 1, "s. 208, table item 4"),
    (CANADA, "buckets", {"length": "13 m"}, 2, "s. 208, table item 4"),
    # LSA packs A and B
    *(
        (SOLAS, item, {"category": category, "persons": 10}, number, "schedule I")
        for item, a, b in (
            ("parachute flares", 4, 2),
            ("red hand flares", 6, 3),
            ("buoyant smoke signals", 2, 1),
            ("tin openers", 3, 0),
            ("seasickness tablets", 60, 60),
            ("drinking water", 15, 0),
            ("food rations of 10,000 kJ", 10, 0),
            ("sponges", 2, 2),
            ("graduated cup", 1, 0),
            ("thermal protective aids", 2, 2),
        )
        for category, number in (("A", a), ("B", b))
    ),
    (SOLAS, "thermal protective aids", {"category": "A", "persons": 25}, 3, "schedule I"),
    # our own list
    *(
        (GOOD, "parachute flares", {"waters": waters}, number, "common practice")
        for waters, number in zip(("sheltered", "coastal", "offshore", "ocean"), (0, 2, 4, 6), strict=True)
    ),
]


@pytest.mark.parametrize(
    ("name", "item", "about", "number", "source"),
    PUBLISHED,
    ids=lambda value: re.sub(r"[^\w.,-]+", " ", str(value))[:40],
)
def test_the_rows_ask_what_their_sources_print(name, item, about, number, source):
    wanted, sources = asked(name, item, **about)
    assert wanted == number
    assert source is None or all(source in each for each in sources)


@pytest.mark.parametrize("name", sorted(rule_sets()))
def test_every_row_has_its_source_and_standing(name):
    one = rule_sets()[name]
    assert one.edition
    assert one.length_means
    for row in one.rows:
        assert row.source
        assert row.standing in STANDINGS
        assert set(row.told_by) <= set(all_checks()), row.item
        assert row.standing == "read" or "read" not in row.source


def test_what_is_not_read_is_not_called_read():
    standings = {name: set(one.standings) for name, one in rule_sets().items()}
    assert "read" not in standings[OSR] | standings[UK] | standings[GOOD]
    assert standings[GOOD] == {"common practice"}
    read = {row.item for row in rule_sets()[US].rows if row.standing == "read"}
    assert read == {
        "wearable lifejackets",
        "device to throw",
        "whistle",
        "some other means of making a sound signal",
        "bell",
    }
