"""What stands beside vessel.yaml: private values, the voyage, the class file; and that nothing private is ever quoted."""

import pytest
from boat_file import SOUND, Boat, block, changed, one, without

from generator.reading.findings import Weight
from generator.reading.values import PRIVATE

RECOMMENDATION = Weight.RECOMMENDATION


@pytest.fixture
def boat(tmp_path):
    return Boat(tmp_path)


SECRET = "+44 7700 900999"


def with_private(text=SOUND):
    return changed("phone: +44 7700 900142", "phone: private", text)


def test_private_values_come_from_their_file(boat):
    vessel, findings = boat(with_private(), private=f"contacts[the owner's brother].phone: {SECRET}\n")
    assert findings == []
    assert vessel.contacts[2].phone == SECRET
    assert not vessel.lacks_private


def test_without_the_private_file_the_value_is_withheld(boat):
    vessel, findings = boat(with_private())
    assert [each.check for each in findings] == ["file.no-private"]
    assert (vessel.contacts[2].phone, vessel.lacks_private) == (PRIVATE, True)


@pytest.mark.parametrize(
    "line",
    ["format: 1", "contacts[the owner's brother].phone:", "contacts[the owner's brother].phone: unknown"],
)
def test_a_private_value_without_its_line(line, boat):
    finding = [
        each for each in boat(with_private(), private=line + "\n")[1] if each.check == "file.private-missing"
    ]
    assert (
        one(finding).message == "the value stands as private, but private.yaml has no such line with a value"
    )
    assert (
        one(finding).remedy == "write into private.yaml: contacts[the owner's brother].phone: and the value"
    )
    assert one(finding).place.file == "saltmeadow/vessel.yaml"


def test_a_private_line_that_nothing_asks_for(boat):
    found = boat(private=f"format: 1\ncontacts[x].phone: {SECRET}\n'{SECRET}': y\n")[1]
    assert [(each.message, str(each.place), each.weight) for each in found] == [
        (
            "'contacts[...].phone' stands in private.yaml, but vessel.yaml does not ask for it",
            "saltmeadow/private.yaml:2:1",
            RECOMMENDATION,
        ),
        (
            "this line stands in private.yaml, but vessel.yaml does not ask for it",
            "saltmeadow/private.yaml:3:1",
            RECOMMENDATION,
        ),
    ]
    assert SECRET not in repr(found)


def test_two_of_one_name_cannot_both_be_private(boat):
    text = changed(
        "{who: the yacht insurer, kind: insurer, phone: +44 1632 960155}",
        "{who: the owner's brother, kind: insurer, phone: private}",
        with_private(),
    )
    assert one(boat(text, private=f"contacts[the owner's brother].phone: {SECRET}\n")[1]).message == (
        "two things of one name are private here, and private.yaml cannot tell them apart"
    )


@pytest.mark.parametrize("private", [
    f"radio.beacons[EPIRB].hex-id: {SECRET}", f"radio.beacons[EPIRB].hex-id: '{SECRET}", f"radio.beacons[EPIRB].hex-id: [{SECRET}]",
    f"radio.beacons[EPIRB].hex-id: @{SECRET}", f"{SECRET}", f"- {SECRET}", f"a: {SECRET}\n  b: {SECRET}", f"a: &x {SECRET}\nb: *x",
    f"a: {SECRET}\na: {SECRET}", f"radio: {{beacons: {SECRET}}}", f"? {SECRET}", f"a: “{SECRET}: b”", f'a: "\\q{SECRET}"',
    f"{SECRET}: {SECRET}\n{SECRET}: {SECRET}", f"radio.beacons[{SECRET}].hex-id: a", f"a\u200b: {SECRET}\n\t{SECRET}",
])  # fmt: skip
def test_no_private_value_is_in_any_finding(private, boat):
    found = boat(changed("hex-id: 1D04000000FFBFF", "hex-id: private"), private=private + "\n")[1]
    assert found
    assert SECRET not in repr(found)
    assert "900999" not in repr(found)


def test_a_personal_value_is_not_quoted_where_it_cannot_be_read(boat):
    finding = one(boat(changed("hex-id: 1D04000000FFBFF", "hex-id: 1D04"))[1])
    assert finding.message.startswith("the value of 'hex-id' is not 15 hexadecimal characters")
    assert "1D04" not in repr(finding)


VOYAGE = "format: 1\nuntil: 2026-07-01\npersons:\n  - {name: Anna Quay, role: skipper, age: 40}\n"


def test_a_voyage(boat):
    vessel, findings = boat(voyage=VOYAGE)
    assert (findings, str(vessel.voyage.until), vessel.voyage.persons[0].name) == (
        [],
        "2026-07-01",
        "Anna Quay",
    )


def test_a_voyage_names_nobody_in_findings(boat):
    finding = one(boat(voyage=VOYAGE.replace("age: 40", "age: forty"))[1])
    assert (finding.place.file, finding.place.line, finding.place.key) == (
        "saltmeadow/voyage.yaml",
        4,
        "persons[1].age",
    )
    assert "Anna" not in repr(finding)
    assert "forty" not in repr(finding)


def test_a_voyage_may_take_private_values(boat):
    vessel, findings = boat(
        voyage=VOYAGE.replace("age: 40", "phone: private"), private=f"persons[1].phone: {SECRET}\n"
    )
    assert (findings, vessel.voyage.persons[0].phone) == ([], SECRET)


def test_a_voyage_of_another_format_is_left_out(boat):
    vessel, findings = boat(voyage=VOYAGE.replace("format: 1", "format: 7"))
    assert (vessel.voyage, one(findings).message) == (None, "this program reads format 1; the file says 7")
    assert str(one(findings).place) == "saltmeadow/voyage.yaml:1:9"


@pytest.fixture
def sister(boat, tmp_path):
    """The sound boat, with the blocks named taken out of her own file and put into a class file."""

    def write(keys, extra="", own=""):
        text, moved = SOUND, ""
        for key in keys:
            moved += block(key, text)
            text = without(key, text)
        (tmp_path / "boats" / "classes").mkdir(parents=True, exist_ok=True)
        (tmp_path / "boats" / "classes" / "cutter.yaml").write_text(
            f"format: 1\n{moved}{extra}", encoding="utf-8"
        )
        return boat(changed("format: 1", "format: 1\nbased-on: ../classes/cutter.yaml", text) + own)

    return write


def test_what_a_class_file_gives_is_placed_there(sister):
    vessel, findings = sister(["gas", "steering"])
    assert findings == []
    assert (vessel.gas.fuel, str(vessel.gas.place("fuel"))) == ("butane", "classes/cutter.yaml:2:13")
    finding = one(sister(["gas"], extra="steering: {mian: wheel}\n", own="")[1][:1])
    assert (finding.message, finding.place.file) == ("'mian' is no key of steering", "classes/cutter.yaml")


def test_what_the_boat_says_wins_key_by_key_and_list_by_list(sister):
    vessel, findings = sister(
        ["gas", "pumps"],
        own="gas: {fuel: propane}\npumps:\n  - {what: hand pump, power: hand, where: cockpit, side: port, "
        "handle: beside it}\n",
    )
    assert (one(findings).check, one(findings).place.key) == ("file.class-list", "pumps")
    assert "hand pump at the helm" in one(findings).message
    assert "electric bilge pump" in one(findings).message
    assert (vessel.gas.fuel, vessel.gas.detector, len(vessel.pumps)) == ("propane", True, 1)
    assert vessel.gas.place("fuel").file == "saltmeadow/vessel.yaml"
    assert vessel.gas.place("detector").file == "classes/cutter.yaml"


@pytest.mark.parametrize("own", ["approved", "checked-aboard", "drills", "specimen"])
def test_what_one_boat_alone_can_say_is_not_inherited(own, sister):
    vessel, findings = sister([own])
    assert not getattr(vessel, own.replace("-", "_"))
    assert (one(findings).check, one(findings).message) == (
        "file.class-file",
        f"'{own}' can be said of one vessel only, not of a class",
    )
    assert str(one(findings).place) == "classes/cutter.yaml:2:1"


def test_a_class_file_stands_alone(sister):
    assert (
        one(sister([], extra="based-on: other.yaml\n")[1]).message
        == "a class file cannot be based on another one"
    )


@pytest.mark.parametrize(("named", "message"), [
    ("../classes/none.yaml", "there is no class file '../classes/none.yaml'"), ("..", "there is no class file '..'"),
    ("[a]", "'based-on' names no class file"), ("x" * 5000, f"there is no class file '{'x' * 60} ...'"),
    ("''", "the value is blank: On which class file is she based?"),
])  # fmt: skip
def test_a_class_file_that_is_not_there(named, message, boat):
    assert message in [
        each.message for each in boat(changed("format: 1", f"format: 1\nbased-on: {named}"))[1]
    ]


@pytest.mark.parametrize("name", ["private.yaml", "voyage.yaml"])
def test_a_link_to_nowhere_is_not_taken_for_no_file(name, boat, tmp_path):
    boat()
    (tmp_path / "boats" / "saltmeadow" / name).symlink_to(tmp_path / "boats" / "nowhere")
    finding = one(boat()[1])
    assert (finding.place.file, finding.check) == (f"saltmeadow/{name}", "file.unreadable")
