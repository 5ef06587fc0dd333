"""A tree becomes a vessel, and whatever keeps it from becoming one is told, all of it, with the place it stands at."""

import ntpath
from types import SimpleNamespace

import pytest
from boat_file import ROOT, SOUND, Boat, changed, one, without

from generator.reading.fields import NEEDED, Compound
from generator.reading.findings import Weight, in_order
from generator.reading.values import UNKNOWN
from generator.vessel import confines
from generator.vessel.loading import load
from generator.vessel.vessel import Vessel

DEFECT, RECOMMENDATION = Weight.DEFECT, Weight.RECOMMENDATION


@pytest.fixture
def boat(tmp_path):
    return Boat(tmp_path)


def said(findings):
    return [f"{each.place.line}:{each.place.column} {each.message}" for each in in_order(findings)]


def test_the_specimens_load_without_a_finding():
    for path in sorted((ROOT / "vessels").glob("*/vessel.yaml")):
        vessel, findings = load(path.parent)
        assert (vessel.slug, findings) == (path.parent.name, [])


def test_values_and_places(boat):
    vessel, _ = boat()
    raft = vessel.rafts[0]
    assert (vessel.vessel.name, vessel.vessel.persons, float(vessel.vessel.length)) == ("Saltmeadow", 6, 12.0)
    assert (raft.held_by, raft.canopy, raft.lift_needed) == (("Senhouse slip", "HRU", "strap"), True, False)
    assert (raft.basis("mass"), raft.release.expires.stamp, raft.basis("serial")) == ("label", "SEP 27", "")
    row = 1 + SOUND.splitlines().index("    persons: 6")
    assert (str(raft.place("persons")), raft.place("persons").key) == (
        f"saltmeadow/vessel.yaml:{row}:14",
        "rafts[liferaft].persons",
    )
    assert str(raft.key_place("persons")) == f"saltmeadow/vessel.yaml:{row}:5"
    assert raft.place("first-to-launch").line == 1 + SOUND.splitlines().index("  - name: liferaft")
    assert vessel.station_bill["fire"]["command"].substitute == "mate"
    assert str(vessel.station_bill.places["fire"]).startswith("saltmeadow/vessel.yaml:")
    assert vessel.grab_bags[0].items[-1].what == "string and plastic bags"


UNKNOWNS = {
    # replaced, by what, weight, message
    "needed": ("    knife: {where: coachroof, side: port, spot: on the foot of the cradle}", "    knife: unknown", DEFECT,
               "'rafts[liferaft].knife' is not known yet: Where is the knife to cut it loose, outside its container?"),
    "for an estimate": ("    height: 1.7 m", "    height: unknown", RECOMMENDATION,
                        "'rafts[liferaft].height' is not known yet: How high above the water does it lie?"),
    "with its source": ("    mass: {value: 42 kg, from: label}", "    mass: {value: unknown, from: label}", RECOMMENDATION,
                        "'rafts[liferaft].mass' is not known yet: What does it weigh?"),
    "one of a list of words": ("    held-by: [Senhouse slip, HRU, strap] ", "    held-by: [Senhouse slip, unknown] ", DEFECT,
                               "'rafts[liferaft].held-by' is not known yet: What holds it, in the order you take it off?"),
    "a block in a block": ("service: {last: 2025-09-04,", "service: unknown # {", DEFECT,
                           "'rafts[liferaft].service' is not known yet: When was it serviced?"),
    "a duty": ("    launch: {who: [deckhand, cook], substitute: guest 1}", "    launch: unknown", DEFECT,
               "'station-bill.abandon-ship.launch.who' is not known yet: Which role or roles?"),
    "a thing in the bag": ("      - string and plastic bags", "      - unknown", DEFECT,
                           "'grab-bags[1].items[19].what' is not known yet: What is it?"),
}  # fmt: skip


@pytest.mark.parametrize("kind", UNKNOWNS)
def test_unknown_has_the_effect_its_field_declares(kind, boat):
    old, new, weight, message = UNKNOWNS[kind]
    text = changed(old, new)
    finding = one(boat(text)[1])
    assert (finding.check, finding.weight, finding.message) == ("file.not-known-yet", weight, message)
    line = next(number for number, row in enumerate(text.splitlines(), 1) if new in row)
    assert finding.place.line == line
    assert text.splitlines()[line - 1][finding.place.column - 1 :].lower().startswith("unknown")
    assert finding.remedy.startswith(f"find out and write {finding.place.key.rpartition('.')[2]}")


def test_what_nothing_hangs_on_is_silent(boat):
    vessel, findings = boat(changed("  deck-colour: pale grey", "  deck-colour: Unknown"))
    assert (findings, vessel.vessel.deck_colour) == ([], UNKNOWN)


@pytest.mark.parametrize(
    ("old", "new", "remedy"),
    [
        (
            "climate: temperate",
            "climate: unknown",
            "find out and write climate; one of: tropical, temperate, cold, polar",
        ),
        ("beam: 3.8 m", "beam: unknown", "find out and write beam, for example beam: 3.9 m"),
        (
            "  climate: temperate\n",
            "",
            "find out and write climate; one of: tropical, temperate, cold, polar",
        ),
    ],
)
def test_no_answer_of_several_is_put_into_the_mouth(boat, old, new, remedy):
    """Whoever copies the first of the list writes a wrong one."""
    assert one(boat(changed(old, new))[1]).remedy == remedy


@pytest.mark.parametrize(
    "key",
    [
        "vessel",
        "people",
        "radio",
        "lifejackets",
        "gear",
    ],
)
def test_a_whole_block_can_be_unknown_and_stops_publishing(key, boat):
    text = without(key) + f"{key}: unknown\n"
    vessel, findings = boat(text)
    finding = one(findings)
    assert (finding.check, finding.weight, finding.place.key) == ("file.not-known-yet", DEFECT, key)
    assert (finding.place.line, finding.place.column) == (len(text.splitlines()), len(key) + 3)
    assert not getattr(vessel, key.replace("-", "_"))


@pytest.mark.parametrize(
    "key",
    [key for key, field in Vessel.fields.items() if isinstance(field, Compound) and field.unknown != NEEDED],
)
def test_a_block_without_which_she_sails_weighs_the_same_unknown_and_left_out(key, boat):
    assert said(boat(without(key) + f"{key}: unknown\n")[1]) == said(boat(without(key))[1])


def test_blocks_that_only_inform_do_not_stop_publishing(boat):
    for key in ("contacts", "capsize", "alarms", "deck", "drills", "approved"):
        assert boat(without(key) + f"{key}: unknown\n")[1] == []


@pytest.mark.parametrize(("text", "expected"), [
    ("rafts:\n  -", "2 the value is blank: Which liferafts has she?"),
    ("rafts:", "1 the value is blank: Which liferafts has she?"),
    ("rafts: []", "1 the list is empty"),
    ("rafts: ~", "1 '~' stands where a value belongs: Which liferafts has she?"),
    ("rafts: private", "1 'rafts' is printed for guests, so it cannot be private"),
    ("rafts: [liferaft]", "1 a value stands where keys belong"),
    ("rafts: [[liferaft]]", "1 a list stands where keys belong"),
    ("rafts: liferaft", "1 one thing stands where a list belongs"),
    ("rafts: {another: liferaft}", "1 one thing stands where a list belongs"),
    ("station-bill: {}", "1 the block is empty: Who does what in each emergency?"),
    ("station-bill: skipper", "1 a list or value stands where named entries belong"),
    ("station-bill:\n  fire:", "2 the value is blank: Who does what in each emergency?"),
    ("station-bill:\n  fire: {}", "2 the block is empty: Who does what in each emergency?"),
    ("station-bill:\n  fire: [skipper]", "2 a list or value stands where named entries belong"),
    ("station-bill:\n  fire:\n    command: ''", "3 the value is blank: Which role or roles?"),
    ("recovery: {}", "1 the block is empty"),
    ("recovery: ladder", "1 a value stands where keys belong"),
    ("deck: {without: []}", "1 the list is empty"),
    ("deck: {without: [[a]]}", "1 a list or block stands where a word belongs"),
])  # fmt: skip
def test_blocks_in_another_form(text, expected, boat):
    key = text.partition(":")[0]
    rest = without(key)
    finding = one(boat(rest + text + "\n")[1])
    number, _, message = expected.partition(" ")
    assert finding.place.line == len(rest.splitlines()) + int(number)
    assert finding.message.startswith(message)
    assert finding.remedy


VALUES = {
    "length: 12.0 m\n  beam": (
        "length:\n  beam",
        "the value is blank: How long is her hull?",
        10,
        "write length, for example length: 12.0 m; write unknown if it is not known yet",
    ),
    "name: Saltmeadow": (
        "name: null",
        "'null' stands where a value belongs: What is her name?",
        9,
        "write name, for example name: Saltmeadow; write unknown if it is not known yet",
    ),
    "rig: cutter": (
        "rig: '  '",
        "the value is blank: How is she rigged?",
        8,
        "write rig, for example rig: cutter; write unknown if it is not known yet; remove the key if there is none",
    ),
    "draft: 2.0 m": (
        "draft: 2.0",
        "'2.0' has no unit",
        10,
        "write the unit with it, for example 2.0 m (units: m, cm, mm, ft, in)",
    ),
    "air-draft: 17.2 m": (
        "air-draft: 57'5",
        "'57'5' does not say what follows the feet",
        14,
        "write 57' 5\"",
    ),
    "held-by: [Senhouse slip, HRU, strap] ": (
        "held-by: Senhouse slip, HRU, strap ",
        "several words stand here as one",
        14,
        "write held-by: [Senhouse slip, HRU, strap]",
    ),
    "how: pull the red knob right out": (
        "how: pull the red knob, then let go",
        "'then let go' is no key of stops[engine], and no colon follows it",
        107,
        "text that holds a comma goes in quotes; a key is followed by a colon: where, what, how",
    ),
    "beam: 3.8 m": (
        "beam: [3.8 m]",
        "a list or block stands where a length belongs",
        9,
        "write beam: 3.9 m, or beam: {value: 3.9 m, from: label}",
    ),
    "freeboard: 1.2 m": (
        "freeboard: {}",
        "a list or block stands where a length belongs",
        14,
        "write freeboard: 1.2 m, or freeboard: {value: 1.2 m, from: label}",
    ),
    "waters: offshore": (
        "waters: sea",
        "'sea' is none of the words this key takes",
        11,
        "write one of: sheltered, coastal, offshore, ocean",
    ),
    "flag: United Kingdom": (
        "flag: private",
        "'vessel.flag' is printed for guests, so it cannot be private",
        9,
        "write flag: United Kingdom",
    ),
    "climate: temperate": (
        "climatic: temperate\n  climate: cold",
        "'climatic' is no key of vessel",
        3,
        "write climate? (or one of: name, type, rig,",
    ),
    "mmsi: 232000000": (
        "mmsi: 2320000",
        "'2320000' is not nine digits",
        9,
        "write nine digits, for example 232000000",
    ),
    "mass: {value: 42 kg, from: label}": (
        "mass: {value: 42 kg, from: hearsay}",
        "this says no source of the value",
        32,
        "write one of: label, certificate, measured, assumed",
    ),
    "length: {value: 11 m, from: label}": (
        "length: {value: 11 m, form: label}",
        "'form' is no key here",
        37,
        "write from? (it takes: value, from, stamp)",
    ),
    "expires: {value: 2027-09, stamp: SEP 27}": (
        "expires: {value: 2027-13, stamp: SEP 27}",
        "there is no month 13 in 2027-13",
        85,
        "write year-month or year-month-day: 2026-05 or 2026-05-20",
    ),
    "strength: 2.2 kN,": (
        "strength: {value: 2.2 kN, stamp: X},",
        "a stamp is the marking of a date as it is read on the device",
        50,
        "remove it here: this value is no date",
    ),
}


@pytest.mark.parametrize("old", VALUES)
def test_values_that_cannot_be_read(old, boat):
    new, message, column, remedy = VALUES[old]
    finding = one(boat(changed(old, new))[1])
    assert finding.message == message
    assert finding.place.column == column
    assert finding.remedy.startswith(remedy)
    assert finding.weight is DEFECT


def test_values_with_blanks_around_them(boat):
    vessel, findings = boat(
        changed("length: 12.0 m\n  beam", "length: ' 12.0 m '\n  beam").replace(
            "rig: cutter", 'rig: " unknown "'
        )
    )
    assert str(vessel.vessel.length) == "12.0 m"
    assert vessel.vessel.rig is UNKNOWN
    assert one(findings).check == "file.not-known-yet"


def test_keys_that_look_like_numbers_or_words_of_the_reader(boat):
    assert said(boat(SOUND + "7: x\nunknown: y\n'': z\n? q\n")[1]) == [
        f"{len(SOUND.splitlines()) + 1}:1 '7' is no key of a vessel file",
        f"{len(SOUND.splitlines()) + 2}:1 'unknown' is no key of a vessel file",
        f"{len(SOUND.splitlines()) + 3}:1 there is no key before the colon",
        f"{len(SOUND.splitlines()) + 4}:3 'q' is no key of a vessel file",
    ]


def test_a_missing_key_is_told_at_its_block(boat):
    text = changed("  persons: 6\n  waters", "  waters")
    finding = one(boat(text)[1])
    assert (finding.check, finding.message) == (
        "file.missing-key",
        "'vessel.persons' is not known yet: How many persons at most are aboard on a passage?",
    )
    assert finding.place.line == 1 + text.splitlines().index("  name: Saltmeadow")
    assert finding.remedy == "find out and write persons, for example persons: 6"


def test_a_missing_block_is_told(boat):
    finding = one(boat(without("lifejackets"))[1])
    assert finding.message.startswith("'lifejackets' is not known yet: Which lifejackets has she?")
    assert (finding.check, finding.weight, finding.place.line) == ("file.missing-key", DEFECT, 3)
    assert finding.remedy == "find out and write lifejackets: a list, each with where, size, kind, quantity"


def test_all_mistakes_are_told_at_once(boat):
    text = SOUND
    for old, (new, *_) in VALUES.items():
        text = changed(old, new, text)
    found = boat(text)[1]
    assert len(found) == len(VALUES)
    assert {each.message for each in found} == {message for _, message, *_ in VALUES.values()}


def test_an_alias_is_told_once(boat):
    for text in (
        changed("length: 12.0 m\n  beam", "length: *x\n  beam"),
        without("gas") + "gas: *x\n",
        changed("[Senhouse slip, HRU, strap]", "[Senhouse slip, HRU, *x]"),
        SOUND + "notes: [*x]\n",
        changed("    launch: {who: [deckhand, cook], substitute: guest 1}", "    launch: *x"),
    ):
        assert one(boat(text)[1]).check == "file.refused-form"


@pytest.mark.parametrize(("first", "message"), [
    ("format: 2", "this program reads format 1; the file says 2"),
    ("format: [1]", "this program reads format 1; the file says something else"),
    ("format:", "this program reads format 1; the file says something else"),
    ("", "the file is no vessel file of musterbook: no line of it says 'format: 1'"),
])  # fmt: skip
def test_another_format_is_told_alone(first, message, boat):
    vessel, findings = boat(changed("format: 1", first) + "unknown-key: 1\n")
    assert vessel is None
    assert (one(findings).check, one(findings).message) == ("file.format", message)
    assert "format: 1" in one(findings).remedy


def test_a_folder_called_vessel_yaml(tmp_path):
    (tmp_path / "vessel.yaml").mkdir()
    vessel, findings = load(tmp_path, "boat")
    assert (vessel, one(findings).message) == (None, "this is a folder, and a text file belongs here")


def test_paths_are_shown_with_slashes_on_every_system(monkeypatch):
    assert confines.joined("vessels/a", "../classes/b.yaml") == "vessels/classes/b.yaml"
    assert confines.joined(".", "vessel.yaml") == "vessel.yaml"
    monkeypatch.setattr(confines, "os", SimpleNamespace(path=ntpath, sep="\\"))
    assert confines.joined("vessels\\a", "../classes/b.yaml") == "vessels/classes/b.yaml"
    assert confines.joined("C:\\boats\\a", "vessel.yaml") == "C:/boats/a/vessel.yaml"


def test_a_guest_does_not_see_the_voyages_names():
    """voyage.yaml is seen by each reader as the vessel file is."""
    from pathlib import Path

    vessel, _ = load(Path(__file__).parent.parent / "vessels" / "zilte-wind", "zilte-wind")
    guest, crew = vessel.seen_by("guest"), vessel.seen_by("crew")
    assert [each.name for each in crew.voyage.persons] != [None] * len(crew.voyage.persons)
    assert [each.name for each in guest.voyage.persons] == [None] * len(guest.voyage.persons)
    assert [each.role for each in guest.voyage.persons] == [each.role for each in vessel.voyage.persons]
