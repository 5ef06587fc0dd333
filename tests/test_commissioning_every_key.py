"""Every key of a vessel file can be answered, alone and with all others: what was set is what loads, and the rest of the text stays."""

import difflib
import re
from collections import defaultdict

import pytest
from answers import every_key

from generator.__main__ import main
from generator.commissioning import given
from generator.commissioning.answers import written
from generator.commissioning.paths import key_paths, target
from generator.commissioning.questions import questions
from generator.commissioning.read_back import loaded
from generator.commissioning.refusal import Refusal
from generator.commissioning.writing import commission
from generator.reading.block import Block
from generator.reading.editing import set_value
from generator.reading.fields import Listed
from generator.vessel.loading import load
from generator.vessel.vessel import Vessel

EVERY = dict(every_key())


def value_at(vessel, path):
    """What a vessel says at a key path, found by the words of the path alone."""
    found = vessel
    for key, name in re.findall(r"([^.\[\]]+)(?:\[([^\]]*)\])?", path):
        found = found.get(key) if isinstance(found, dict) else found.__dict__[type(found).fields[key].name]
        if name:
            called = type(found[0]).called if found else ""
            field = type(found[0]).fields[called].name if called else ""
            found = next(
                each
                for n, each in enumerate(found, 1)
                if name == (str(getattr(each, field)) if called else str(n))
            )
    if isinstance(found, Block):
        found = found.__dict__[type(found).fields[type(found).shorthand].name]
    return found


def read_as_answered(path, text):
    field = target(path).read_by
    return (
        tuple(field.of.read(each.strip()) for each in text.split(","))
        if isinstance(field, Listed)
        else field.read(text)
    )


@pytest.fixture(scope="module")
def starter(tmp_path_factory):
    return commission("Windhover", {}, tmp_path_factory.mktemp("starter")).path.read_text(encoding="utf-8")


def test_there_is_an_answer_to_every_key():
    """The fields of the blocks are counted, not the paths the program offers."""

    def count(kind):
        total = 0
        for field in kind.fields.values():
            inner = getattr(field, "blocks", None)
            total += count(inner) if inner is not None else 1
        return total

    bill = sum(path.startswith("station-bill.") for path in EVERY)
    assert (
        len(EVERY) - bill + 2 == count(Vessel) - 2
    )  # format and name by the program; of the bill each duty, and here two keys
    assert bill > 40


@pytest.mark.thorough
def test_every_key_alone_is_set_where_it_loads_and_nothing_else_changes(starter):
    for path, text in EVERY.items():
        one = target(path)
        changed = set_value(starter, one.steps, written(one, text))
        assert value_at(loaded(changed), path) == read_as_answered(path, text), path
        gone = [
            line[2:]
            for line in difflib.ndiff(starter.splitlines(), changed.splitlines())
            if line.startswith("- ")
        ]
        assert len(gone) <= 1, path
        assert all(
            re.sub(r"\s+#.*", "", line).endswith("unknown")
            or "role: skipper" in line
            or re.search(r"(format|name|what|kind|size):", line)
            for line in gone
        ), (path, gone)


@pytest.mark.thorough
def test_all_keys_of_a_block_at_once(tmp_path):
    blocks = defaultdict(dict)
    for path, text in EVERY.items():
        blocks[re.split(r"[.\[]", path)[0]][path] = text
    for number, (block, all_of_it) in enumerate(blocks.items()):
        places = (".where", "muster-place")
        answers = {path: "cockpit" if path.endswith(places) else text for path, text in all_of_it.items()}
        answers |= {path: "ketch" for path in answers if path == "vessel.rig"}
        done = commission(f"Boat {number}", answers, tmp_path)
        vessel, findings = load(done.path.parent)
        assert not [
            each
            for each in findings
            if each.check in ("file.unknown-key", "file.bad-value", "file.duplicate-key", "file.blank-value")
        ], block
        for path, text in answers.items():
            if path != "based-on":
                assert value_at(vessel, path) == read_as_answered(path, text), path


def test_the_command_line_takes_lists_names_and_words_that_elsewhere_are_none(tmp_path):
    said = (
        "vessel.use=private", "vessel.rule-set=good practice", "gas.fuel=none", "stops[engine].where=cockpit", "stops[engine].how=pull = turn",
        "people=skipper, mate", "people[mate].abilities=command,radio", "rafts[aft raft].persons=4", "radio.beacons[PLB].kind=PLB",
        "station-bill.fire.command.who=mate", "station-bill.fire.fight=skipper", "gear[x=y].quantity=3", "recovery.hoist=the davit: port",
        "radio.beacons[PLB].hex-id=private", "pumps=hand pump, electric pump", "grab-bags[1].items[water].quantity=6",
    )  # fmt: skip
    assert (
        main(
            [
                "commission",
                "Tern",
                "--into",
                str(tmp_path),
                *(each for one in said for each in ("--set", one)),
            ]
        )
        == 0
    )
    vessel, findings = load(tmp_path / "tern")
    assert {each.check for each in findings} <= {"file.not-known-yet", "file.missing-key", "file.no-private"}
    assert (vessel.vessel.use, vessel.vessel.rule_set, vessel.gas.fuel) == (
        "private",
        ("good practice",),
        "none",
    )
    assert [(each.what, each.where, each.how) for each in vessel.stops] == [
        ("engine", "cockpit", "pull = turn")
    ]
    assert [each.abilities for each in vessel.people] == [(), ("command", "radio")]
    assert [(each.name, each.persons) for each in vessel.rafts] == [("aft raft", 4)]
    assert [(each.what, each.kind) for each in vessel.radio.beacons] == [("PLB", "PLB")]
    assert vessel.station_bill["fire"]["command"].who == ("mate",)
    assert vessel.station_bill["fire"]["fight"].who == ("skipper",)
    assert [(each.what, each.quantity) for each in vessel.gear] == [("x=y", 3)]
    assert [each.what for each in vessel.pumps] == ["hand pump", "electric pump"]
    assert [(each.what, each.quantity) for each in vessel.grab_bags[0].items] == [("water", 6)]
    assert vessel.lacks_private


REFUSED = [
    ("vessel", "a whole block takes no answer; name a key of it: vessel.name"),
    ("raft.persons", "write rafts"),
    ("rafts.persons", "write which: rafts[liferaft].persons"),
    ("rafts[1].persons", "told apart by their names"),
    ("rafts[liferaft]", "a whole entry takes no answer; name a key of it: rafts[liferaft].name"),
    ("vessel[x].use", "vessel is no list; write it without [x]"),
    ("vessel.use.more", "vessel.use takes one value"),
    ("persons", "write one of: "),
    ("muster-place", "write one of: vessel.muster-place"),
    ("grab-bags[bag].where", "write the number: grab-bags[1]"),
    ("lifejackets[large].where", "none of the words"),
    ("station-bill.fre.command.who", "write station-bill.fire?"),
    ("station-bill.fire", "write it to the end, like station-bill."),
    ("vessel..use", "is no key path"),
    ("[x]", "is no key path"),
    ("a\nb", "is no key path"),
    ("", "is no key path"),
    ("rafts[liferaft].name", "write that name there"),
    ("lifejackets", "she has some"),
    ("gear[x].serial", ""),
]


@pytest.mark.parametrize(("key", "why"), REFUSED)
def test_what_is_no_key_is_told_with_the_nearest(tmp_path, key, why):
    if not why:
        commission("Tern", {key: "none of it"}, tmp_path)
        return
    with pytest.raises(Refusal, match=re.escape(why)):
        commission("Tern", {key: "none" if key == "lifejackets" else "another"}, tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_whole_lists_may_be_none_or_unknown(tmp_path):
    answers = {
        "rafts": "none",
        "radio.beacons": "none",
        "pumps": "unknown",
        "gear": "unknown",
        "people": "unknown",
    }
    vessel, findings = load(commission("Tern", answers, tmp_path).path.parent)
    assert (vessel.rafts, vessel.radio.beacons) == ((), ())
    assert "gear" in {each.place.key for each in findings}


def test_what_only_the_crew_may_read_is_not_quoted(tmp_path):
    with pytest.raises(Refusal) as refused:
        commission(
            "Tern",
            {"radio.beacons[EPIRB].hex-id": "SECRET-17", "radio.beacons[EPIRB].type-approval": "SECRET"},
            tmp_path,
        )
    assert "SECRET" not in str(refused.value)


def test_every_first_question_asks_for_keys_there_are():
    known = {re.sub(r"\[[^\]]*\]", "[NAME]", key) for question in questions() for key in question.keys}
    assert known - set(key_paths()) == {"people"}


def test_a_value_set_wrong_is_a_fault_and_no_file(tmp_path, monkeypatch):
    """A fault of the program, put there: it writes otherwise than was answered."""
    monkeypatch.setattr(
        given, "set_value", lambda text, steps, value: set_value(text, steps, value.replace("12", "13"))
    )
    with pytest.raises(ValueError, match=r"would say otherwise at vessel\.air-draft"):
        commission("Tern", {"vessel.air-draft": "12 m"}, tmp_path)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("key", "said", "told"),
    [
        (
            "rafts[liferaft].strong-point",
            "{what: the eye, where: foredeck}",
            {"what": "the eye", "where": "foredeck"},
        ),
        ("people[child].berth", "{where: saloon, side: port}", {"where": "saloon", "side": "port"}),
        ("recovery.ladder", "{where: stern, spot: 'under the seat, aft'}", {"spot": "under the seat, aft"}),
        ("recovery.hoist", "{what: the davit, side: port}", {"what": "the davit", "side": "port"}),
        ("radio", "{call-sign: MZZZ9, mmsi: '232000000'}", {"call_sign": "MZZZ9", "mmsi": "232000000"}),
    ],
)
def test_a_whole_block_is_answered_as_the_file_has_it(tmp_path, key, said, told):
    assert main(["commission", "Plover", "--into", str(tmp_path), "--set", f"{key}={said}"]) == 0
    vessel, findings = load(tmp_path / "plover", tmp_path / "plover")
    assert not [
        each for each in findings if each.check != "file.not-known-yet" and "missing" not in each.check
    ]
    block = {
        "rafts[liferaft].strong-point": lambda: vessel.rafts[0].strong_point,
        "people[child].berth": lambda: next(each for each in vessel.people if each.role == "child").berth,
        "recovery.ladder": lambda: vessel.recovery.ladder,
        "recovery.hoist": lambda: vessel.recovery.hoist,
        "radio": lambda: vessel.radio,
    }[key]()
    assert {name: getattr(block, name) for name in told} == told


def test_a_key_that_is_none_of_the_block_is_told(tmp_path, capsys):
    assert main(["commission", "Plover", "--into", str(tmp_path), "--set", "recovery.ladder={wher: stern}"])
    assert "recovery.ladder.where" in "".join(capsys.readouterr())


def test_how_a_raft_is_mounted_is_asked_in_comments_and_costs_nothing(tmp_path):
    path = commission("Plover", {}, tmp_path).path
    text = path.read_text(encoding="utf-8")
    assert "    # lies: unknown " in text
    assert "# Does the container lie along or across the boat?" in text
    one = commission("Tern", {"rafts[liferaft].lies": "across"}, tmp_path).path
    assert "    lies: across " in one.read_text(encoding="utf-8")
    assert "# lies:" not in one.read_text(encoding="utf-8")
    assert load(one.parent)[0].rafts[0].lies == "across"
    found = load(path.parent)[1]
    assert not [
        each for each in found if each.place.key in ("lies", "painter-end", "strap-fixed", "lid-hinge")
    ]


def test_how_old_several_children_are_is_shown_as_a_list(tmp_path):
    with pytest.raises(Refusal, match="like 3 children of 6, 7 and 8"):
        commission("Plover", {"people": "skipper, 3 children"}, tmp_path)
