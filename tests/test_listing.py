"""The listing for people: what to do, in the order of what matters, the same of several things once."""

import re

from generator.reading.findings import Finding, Place, Weight
from generator.survey import reports
from generator.survey.listing import on_screen

D, R = Weight.DEFECT, Weight.RECOMMENDATION
FILE = "vessels/boat/vessel.yaml"


def _open(key, line, check="file.not-known-yet", item=""):
    said = f"{item}: it is open" if item else f"'{key}' is not known yet: Where?"
    return Finding(check, D, said, Place(FILE, line, 3, key), "find out and write where", item)


def test_the_same_of_several_things_is_one_thing_to_do_with_its_places():
    found = [
        _open(f"gear[{name}].where", line) for name, line in (("knife", 30), ("torch", 31), ("flares", 40))
    ]
    other = _open("gear[horn].side", 35)
    assert reports.listing([*found, other]).splitlines() == [
        "Before anything is published: 4 things",
        "  Gear",
        "    vessels/boat/vessel.yaml:30:3: defect file.not-known-yet: 'gear[knife].where' is not known yet: Where?",
        "        and vessels/boat/vessel.yaml:31:3: gear[torch].where",
        "        and vessels/boat/vessel.yaml:35:3: gear[horn].side",
        "        and vessels/boat/vessel.yaml:40:3: gear[flares].where",
        "        -> find out and write where",
    ]


def test_what_is_told_apart_keeps_its_line_and_shares_what_to_do():
    found = [
        Finding("gear.x", R, f"{name} is lacking", Place(FILE, 44, 1, "gear"), "list it", name)
        for name in ("tethers", "water cans")
    ] + [_open("gear[1].where", 50, "gear.y", "knife"), _open("gear[2].where", 51, "gear.y", "torch")]
    assert reports.listing(found).splitlines()[2:] == [
        "    vessels/boat/vessel.yaml:50:3: defect gear.y: knife: it is open",
        "        and vessels/boat/vessel.yaml:51:3: torch",
        "        -> find out and write where",
        "",
        "Then, so that nothing is left out or goes unchecked: 2 things",
        "  Gear",
        "    vessels/boat/vessel.yaml:44:1: recommendation gear.x: tethers is lacking",
        "    vessels/boat/vessel.yaml:44:1: recommendation gear.x: water cans is lacking",
        "        -> list it",
    ]


def test_what_saves_lives_comes_first_and_who_signs_last():
    keys = (
        "approved.by",
        "gear[1]",
        "people[1].role",
        "vessel.name",
        "radio.sets",
        "rafts[1].name",
        "format",
        "station-bill.fire",
        "",
    )
    found = [Finding("file.x", D, f"m{line}", Place(FILE, line, 1, key)) for line, key in enumerate(keys, 1)]
    heads = [line.strip() for line in reports.listing(found).splitlines() if re.match(r"  \w", line)]
    assert heads == [
        "The file", "Format", "Rafts", "People", "Radio", "Station bill", "The vessel", "Gear", "Checked aboard and approved",
    ]  # fmt: skip


def test_of_one_place_the_keys_stand_in_their_order():
    keys = ("vessel.engine", "vessel.type", "vessel.flag", "vessel.name", "vessel.no-key")
    found = [Finding("file.x", D, key, Place(FILE, 3, 1, key)) for key in keys]
    said = [line.rpartition(" ")[2] for line in reports.listing(found).splitlines() if FILE in line]
    assert said == ["vessel.no-key", "vessel.name", "vessel.type", "vessel.flag", "vessel.engine"]


def test_what_holds_and_fires_the_raft_comes_before_how_it_is_boarded_and_what_calls_all_before_her_length():
    raft = [
        f"rafts[liferaft].{key}"
        for key in ("boarding", "standard", "service.next", "painter.length", "held-by", "knife")
    ]
    keys = ("vessel.length", "vessel.muster-place", "people[1].role", *raft, "vessel.general-alarm")
    found = [Finding("file.x", D, key, Place(FILE, line, 1, key)) for line, key in enumerate(keys, 1)]
    said = [
        line.rpartition(" ")[2].removeprefix("rafts[liferaft].")
        for line in reports.listing(found).splitlines()
        if FILE in line
    ]
    assert said == [
        "held-by", "painter.length", "service.next", "knife", "boarding", "standard",
        "vessel.muster-place", "vessel.general-alarm", "people[1].role", "vessel.length",
    ]  # fmt: skip


def test_every_finding_is_named_by_file_line_and_column_once():
    found = [_open(f"gear[{n}].where", n) for n in range(1, 30)] + [
        Finding("raft.x", R, "m", Place(FILE, n, 9, "rafts[1]")) for n in (3, 4)
    ]
    shown = reports.listing(found)
    for each in found:
        assert len(re.findall(rf"(?m)^ +(?:and )?{re.escape(str(each.place))}: ", shown)) == 1


def test_pages_and_files_named_from_the_root_are_listed_together():
    files = [("/boats/boat/vessel.yaml", number) for number in range(1, 120)] + [
        ("guest/cards.pdf", 1),
        ("", 0),
    ]
    found = [
        Finding(
            "gear.x",
            D if number % 2 else R,
            f"thing {number} is lacking",
            Place(file, number, 1, f"gear[{number}]"),
            "list it",
        )
        for file, number in files
    ]
    said = on_screen(found)
    assert "  vessel.yaml:1:1 gear.x: thing 1 is lacking" in said
    assert "  guest/cards.pdf:1:1 gear.x" in said or "cards.pdf:1:1 gear.x" in said
