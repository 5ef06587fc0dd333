"""Several things in one entry of a list read as if each had been written by itself; what does not go together is told."""

import json
from datetime import date

import pytest
import yaml
from jsonschema import Draft202012Validator
from open_boats import OPEN_BOAT, changed, surveyed

from generator.commissioning.paths import target
from generator.reading.block import Block
from generator.reading.editing import set_value
from generator.reading.findings import Weight
from generator.vessel.loading import load
from generator.vessel.schema import vessel_schema

FLARES = "  - {what: red hand flares, kind: signal, quantity: 3, where: foredeck locker, side: port, expires: 2028-10}\n"
SHARED = "kind: signal, where: foredeck locker, side: port, expires: 2028-10}"
ONE_BY_ONE = (
    f"  - {{what: red hand flares, quantity: 3, {SHARED}\n  - {{what: orange smoke, quantity: 2, {SHARED}\n"
)
TOGETHER = f"  - {{what: {{red hand flares: 3, orange smoke: 2}}, {SHARED}\n"
ALIKE = f"  - {{what: [red hand flares, orange smoke], quantity: 2, {SHARED}\n"
IN_LINES = """\
  - what:
      red hand flares: 3
      orange smoke: 2
    kind: signal
    where: foredeck locker
    side: port
    expires: 2028-10   # both
"""
JACKETS = "  - {size: adult, kind: inflatable, quantity: 4, where: foredeck locker,"


def boat(gear=FLARES, **more):
    pairs = [(FLARES, gear)] if gear != FLARES else []
    return changed(OPEN_BOAT, *pairs, *more.items())


def read(text, folder):
    (folder / "vessel.yaml").write_text(text, encoding="utf-8")
    return load(folder, "")


def values(block):
    """Everything a block holds, with the paths that tell things apart."""
    return {
        name: value if not isinstance(value, Block) else values(value)
        for name, value in block.__dict__.items()
        if name != "_node"
    }


def gear(text, folder):
    vessel, findings = read(text, folder)
    assert findings == []
    return [values(each) for each in vessel.gear]


@pytest.mark.parametrize("together", [TOGETHER, IN_LINES])
def test_they_read_as_if_written_one_by_one(tmp_path, together):
    assert gear(boat(together), tmp_path) == gear(boat(ONE_BY_ONE), tmp_path)


def test_names_alone_share_the_number_too(tmp_path):
    alike = ONE_BY_ONE.replace("quantity: 3", "quantity: 2")
    assert gear(boat(ALIKE), tmp_path) == gear(boat(alike), tmp_path)


def test_all_that_is_said_of_her_is_the_same(tmp_path):
    said = []
    for number, text in enumerate((boat(TOGETHER), boat(ONE_BY_ONE))):
        folder = tmp_path / str(number)
        folder.mkdir()
        done = surveyed(text, folder)
        said.append(
            (
                [(each.check, each.message) for each in done.findings],
                [(item.number, item.what, item.quantity) for item in done.manual.items],
                [(str(each.called), each.last_day) for each in done.manual.deadlines],
            )
        )
    assert said[0] == said[1]


def test_what_is_found_of_each_stands_at_its_name(tmp_path):
    old = TOGETHER.replace("2028-10", "2020-10")
    text = boat(old)
    line = text.splitlines().index(old.rstrip())
    found = [each for each in surveyed(text, tmp_path).findings if each.check == "gear.expired"]
    assert [(each.item, each.place.line, each.place.column) for each in found] == [
        (name, line + 1, old.index(name) + 1) for name in ("red hand flares", "orange smoke")
    ]
    assert [each.place.key for each in found] == [
        f"gear[{name}].expires" for name in ("red hand flares", "orange smoke")
    ]


def test_a_deferral_names_one_of_them(tmp_path):
    entry = "deferred-defects:\n  - {check: gear.expired, item: orange smoke, reason: new ones are ordered, who: the skipper, until: 2026-06-20}\n"
    done = surveyed(boat(TOGETHER.replace("2028-10", "2020-10")) + entry, tmp_path)
    assert [each.item for each in done.findings if each.check == "gear.expired"] == ["red hand flares"]
    assert [each.item for each in done.deferred] == ["orange smoke"]


def test_a_wrong_value_that_they_share_is_told_once_where_it_stands(tmp_path):
    wrong = TOGETHER.replace("2028-10", "soon")
    _, (found,) = read(boat(wrong), tmp_path)
    assert (found.check, found.place.column) == ("file.bad-value", wrong.index("soon") + 1)


@pytest.mark.parametrize(
    ("what", "check", "weight", "at", "says"),
    [
        ("{red hand flares: 3}, quantity: 3", "file.bad-value", Weight.DEFECT, " 3, kind", "gives each thing its own number"),
        ("[orange smoke, Orange smoke], quantity: 2", "file.bad-value", Weight.DEFECT, "Orange", "stands twice"),
        ("{}", "file.blank-value", Weight.DEFECT, "{}", "no name stands here"),
        ("[], quantity: 1", "file.blank-value", Weight.DEFECT, "[]", "no name stands here"),
        ("{orange smoke: unknown}", "file.not-known-yet", Weight.DEFECT, "unknown", "gear[orange smoke].quantity"),
        ("{orange smoke: many}", "file.bad-value", Weight.DEFECT, "many", "whole number"),
        ("{orange smoke: 0}", "file.bad-value", Weight.DEFECT, "0}", "outside what can be"),
        ("{orange smoke: 9999}", "file.bad-value", Weight.DEFECT, "9999", "outside what can be"),
        ("{orange smoke: }", "file.blank-value", Weight.DEFECT, "}", "blank"),
        ("[{a: 1}, orange smoke], quantity: 2", "file.bad-value", Weight.DEFECT, "{a: 1}", "where a name belongs"),
        ("[unknown, orange smoke], quantity: 2", "file.not-known-yet", Weight.DEFECT, "unknown", "not known yet"),
        ("[orange smoke, tbd], quantity: 2", "file.bad-value", Weight.DEFECT, "tbd", "no answer"),
        ("[orange smoke, red hand flares]", "file.missing-key", Weight.DEFECT, "orange smoke", "quantity' is not known yet"),
    ],
)  # fmt: skip
def test_what_does_not_go_together_is_told_at_its_place(tmp_path, what, check, weight, at, says):
    entry = f"  - {{what: {what}, {SHARED}\n"
    _, findings = read(boat(entry), tmp_path)
    found = findings[0]
    assert (found.check, found.weight) == (check, weight)
    assert says in found.message
    column = entry.index(at) + (1 if at.startswith(" ") else 0)
    assert abs(found.place.column - 1 - column) <= (1 if at == "}" else 0)
    assert len(findings) == (2 if check == "file.missing-key" else 1)


def test_a_name_with_where_it_comes_from_is_one_thing(tmp_path):
    entry = f"  - {{what: {{value: orange smoke, from: label}}, quantity: 2, {SHARED}\n"
    vessel, findings = read(boat(entry), tmp_path)
    assert findings == []
    assert "orange smoke" in [each.what for each in vessel.gear]


def test_the_bound_of_a_list_counts_things(tmp_path):
    many = ", ".join(f"thing {number}: 1" for number in range(401))
    _, findings = read(boat(f"  - {{what: {{{many}}}, {SHARED}\n"), tmp_path)
    assert any("400 are the most" in each.message for each in findings)


def test_what_is_private_has_a_line_for_each(tmp_path):
    (tmp_path / "private.yaml").write_text(
        "format: 1\ngear[red hand flares].serial: A1\ngear[orange smoke].serial: B2\n", encoding="utf-8"
    )
    vessel, findings = read(boat(TOGETHER.replace("kind:", "serial: private, kind:")), tmp_path)
    assert findings == []
    assert {each.what: each.serial for each in vessel.gear if each.serial} == {
        "red hand flares": "A1",
        "orange smoke": "B2",
    }
    (tmp_path / "private.yaml").write_text("format: 1\n", encoding="utf-8")
    _, findings = read(boat(TOGETHER.replace("kind:", "serial: private, kind:")), tmp_path)
    assert [each.place.key for each in findings] == [
        "gear[red hand flares].serial",
        "gear[orange smoke].serial",
    ]


def test_jackets_items_of_a_bag_and_beacons_stand_together_too(tmp_path):
    bag = """\
grab-bags:
  - where: helm
    side: port
    carried-by: mate
    floats: yes
    lanyard: yes
    items:
      - {what: [light sticks, seasickness tablets], expires: 2028-05}
gear:
"""
    beacons = "  beacons:\n    - {what: {crew beacon: 2, spare beacon: 1}, kind: AIS man-overboard device, where: helm, side: port, battery-expires: 2029-01}\nstation-bill:"
    text = changed(
        OPEN_BOAT,
        (JACKETS, "  - {size: {adult: 3, child: 1}, kind: inflatable, where: foredeck locker,"),
        ("gear:\n", bag),
        ("station-bill:", beacons),
    )
    vessel, findings = read(text, tmp_path)
    assert findings == []
    assert [(each.size, each.quantity) for each in vessel.lifejackets] == [("adult", 3), ("child", 1)]
    assert [str(each.expires) for each in vessel.grab_bags[0].items] == ["2028-05", "2028-05"]
    assert [(each.what, each.quantity) for each in vessel.radio.beacons] == [
        ("crew beacon", 2),
        ("spare beacon", 1),
    ]


@pytest.mark.parametrize("together", [TOGETHER, ALIKE, IN_LINES], ids=["numbers", "names", "in lines"])
@pytest.mark.parametrize(
    ("key", "value"),
    [("expires", "2031-04"), ("quantity", "5"), ("serial", "C3"), ("still-carried.who", "she")],
)
def test_a_key_of_one_of_them_is_set_and_the_others_stay(tmp_path, together, key, value):
    before = {each["what"]: each for each in gear(boat(together), tmp_path)}
    text = set_value(boat(together), target(f"gear[orange smoke].{key}").steps, value)
    vessel, _ = read(text, tmp_path)
    after = {each.what: each for each in vessel.gear}
    name = key.partition(".")[0].replace("-", "_")
    assert list(after) == list(before)
    for what, block in after.items():
        if what == "orange smoke":
            said = getattr(block, name)
            assert value == str(getattr(said, "who", said))
            same = {each: held for each, held in before[what].items() if each != name}
            assert {each: held for each, held in values(block).items() if each != name} == same
        else:
            assert values(block) == before[what]
    assert "# both" in text or together is not IN_LINES


def test_the_last_of_them_is_set_in_place(tmp_path):
    alone = TOGETHER.replace(", orange smoke: 2", "")
    text = set_value(boat(alone), target("gear[red hand flares].expires").steps, "2031-04")
    assert (
        "{what: red hand flares, quantity: 3, kind: signal, where: foredeck locker, side: port, expires: 2031-04}"
        in text
    )
    assert gear(text, tmp_path)


def test_in_a_flow_list_the_other_stands_behind(tmp_path):
    listing = f"gear: [{TOGETHER.strip()[2:]}]\n"
    text = OPEN_BOAT.partition("gear:\n")[0] + listing
    set_text = set_value(text, target("gear[red hand flares].quantity").steps, "6")
    vessel, _ = read(set_text, tmp_path)
    assert [(each.what, each.quantity) for each in vessel.gear] == [
        ("orange smoke", 2),
        ("red hand flares", 6),
    ]


@pytest.mark.parametrize(
    ("entry", "fits"),
    [
        (TOGETHER, True),
        (ALIKE, True),
        (ONE_BY_ONE, True),
        (TOGETHER.replace("{red hand flares: 3, orange smoke: 2}", "{}"), False),
        (TOGETHER.replace("{red hand flares: 3, orange smoke: 2}", "[]"), False),
        (TOGETHER.replace(": 2}", ": lots}"), False),
    ],
)
def test_editors_complete_it(entry, fits):
    data = json.loads(json.dumps(yaml.safe_load(boat(entry)), default=date.isoformat))
    assert Draft202012Validator(vessel_schema()).is_valid(data) == fits
