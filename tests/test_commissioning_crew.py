"""Who is aboard, as one answer of commissioning says it."""

import pytest

from generator.commissioning import crew
from generator.commissioning.refusal import Refusal
from generator.commissioning.writing import commission
from generator.vessel.loading import load
from generator.vessel.people import heads


@pytest.mark.parametrize(("said", "roles"), [
    ("skipper, mate", ["skipper", "mate"]), ("4", ["skipper", "mate", "guest 1", "guest 2"]), ("1", ["skipper"]),
    ("3", ["skipper", "mate", "guest"]), ("captain,2 deckhands, 1 cook", ["captain", "deckhand 1", "deckhand 2", "cook"]),
    ("unknown", []), ("", []), ("2 crew and 3 guests", ["crew 1", "crew 2", "guest 1", "guest 2", "guest 3"]),
    ("two adults and a child of 6", ["adult 1", "adult 2", "child"]), ("skipper; mate", ["skipper", "mate"]),
    ("2 adults + 1 child", ["adult 1", "adult 2", "child"]), ("skipper, mate and an engineer", ["skipper", "mate", "engineer"]),
    ("skipper, child of 6 & child of 8", ["skipper", "child 1", "child 2"]), ("skipper, 3 children", ["skipper", "child 1", "child 2", "child 3"]),
])  # fmt: skip
def test_one_answer_says_who_is_aboard(said, roles):
    assert list(crew.roles(said)) == roles


@pytest.mark.parametrize(("said", "why"), [
    ("0", "outside what can be"), ("61", "outside what can be"), ("100 guests", "outside|no role"), ("mate, mate", "two are called 'mate'"),
    ("none", "somebody sails her"), (",", "write 1 to 60 roles"), ("...", "is no role"), ("40 guests, 30 cooks", "write 1 to 60 roles"),
    ("a\x07b", "cannot be printed"), ("mate [1]", "is no role"), ("0 guests", "outside what can be"),
    ("sloop", "is a rig"), ("skipper, gaff cutter", "is a rig"), ("2 ketches", "is a rig"), ("open boat", "is a hull"), ("a catamaran", "is a hull"),
    ("motor yacht, 2 guests", "is a hull"), ("39 ft", "a figure with its unit"), ("12 metres long", "a figure with its unit"), ("30 hp", "a figure with its unit"),
    ("5.5 m", "no role"), ("3 children of 6 and 8", "3 children, and 2 ages"), ("cook, age 40", "is no role"), ("3 5", "is no role"),
])  # fmt: skip
def test_who_cannot_be_aboard(said, why):
    with pytest.raises(Refusal, match=why):
        crew.roles(said)


@pytest.mark.parametrize(("said", "ages"), [
    ("skipper, child of 6", {"child": 6}), ("skipper, child (6)", {"child": 6}), ("skipper, a child aged 6 years", {"child": 6}),
    ("skipper, child of 6, child of 8", {"child 1": 6, "child 2": 8}), ("skipper, grandmother of 70", {"grandmother": 70}), ("skipper, 2 guests", {}),
    ("skipper, children 6, 9 and 11", {"child 1": 6, "child 2": 9, "child 3": 11}), ("skipper, children (6, 9)", {"child 1": 6, "child 2": 9}),
    ("children aged 6 & 9, mate, 2 guests", {"child 1": 6, "child 2": 9}), ("2 children of 6, 2 guests", {"child 1": 6, "child 2": 6}),
    ("skipper, 3 children of 6, 9, and 11 years old and a mate", {"child 1": 6, "child 2": 9, "child 3": 11}),
])  # fmt: skip
def test_the_ages_of_children_are_read(said, ages):
    for text in (said, crew.in_one_line(said)):
        found = crew.groups(text)
        told = {role: age for each in found for role, age in zip(each.roles, each.ages, strict=False)}
        assert told == ages
        assert crew.roles(text) == crew.roles(said)


@pytest.mark.parametrize(("said", "busy", "lines"), [
    ("skipper, 10 guests", {"skipper"}, [("skipper", 1, ""), ("guests", 10, "")]),
    ("skipper, 4 guests", {"guest 1", "guest 3"}, [("skipper", 1, ""), ("guest 1", 1, ""), ("other guests", 2, ""), ("guest 3", 1, "")]),
    ("skipper, 3 guests", {"guest 1", "guest 3"}, [("skipper", 1, ""), ("guest 1", 1, ""), ("guest 2", 1, ""), ("guest 3", 1, "")]),
    ("12", {"guest 1"}, [("skipper", 1, ""), ("mate", 1, ""), ("guest 1", 1, ""), ("other guests", 9, "")]),
    ("skipper, children 6, 9 and 11", (), [("skipper", 1, ""), ("children", 3, "[6, 9, 11]")]),
    ("skipper, 2 children of 6", (), [("skipper", 1, ""), ("children", 2, "6")]),
    ("skipper, child of 6, child of 8", (), [("skipper", 1, ""), ("child 1", 1, "6"), ("child 2", 1, "8")]),
    ("skipper, 2 guests of 40 and 45", (), [("skipper", 1, ""), ("guests", 2, "")]),
    ("skipper, 2 guests of 16 and 45", (), [("skipper", 1, ""), ("guest 1", 1, "16"), ("guest 2", 1, "")]),
    ("guests, 3 guests", (), [("guests", 1, ""), ("other guests", 3, "")]),
])  # fmt: skip
def test_who_is_alike_stands_in_one_line_and_who_has_a_duty_in_a_line_of_their_own(said, busy, lines):
    assert [(each.role, each.quantity, each.age) for each in crew.lines(crew.groups(said), busy)] == lines


def test_ten_guests_are_written_as_those_with_duties_and_one_line_of_the_others(tmp_path):
    answers = {"vessel.type": "motor vessel", "people": "skipper, mate, 10 guests, children of 6 and 9"}
    vessel, _ = load(commission("Tern", answers, tmp_path).path.parent)
    assert vessel.vessel.persons == heads(vessel.people) == 14
    alike = {str(each.role): each.quantity for each in vessel.people if each.quantity is not None}
    assert alike["children"] == 2 and alike.keys() == {"children", "other guests"}
    named = {
        role for duties in vessel.station_bill.values() for one in duties.values() for role in (*one.who, one.substitute)
    }  # fmt: skip
    assert named.isdisjoint(alike)
    assert named == {str(each.role) for each in vessel.people} - set(alike)


def test_whoever_another_answer_tells_of_keeps_a_line(tmp_path):
    answers = {
        "people": "skipper, mate, 10 guests",
        "people[guest 9].berth": "saloon",
        "rafts[raft].carries": "skipper, guest 10",
    }
    vessel, _ = load(commission("Tern", answers, tmp_path).path.parent)
    roles = [str(each.role) for each in vessel.people]
    assert {"guest 9", "guest 10", "other guests"} <= set(roles)
    assert heads(vessel.people) == 12


def test_a_child_is_written_with_its_age_and_gets_no_duty(tmp_path):
    answers = {"vessel.type": "open boat", "people": "skipper, mate, child of 6", "rafts": "none"}
    path = commission("Wren", answers, tmp_path).path
    vessel, _ = load(path.parent)
    assert [(each.role, each.age) for each in vessel.people] == [
        ("skipper", ()),
        ("mate", ()),
        ("child", (6,)),
    ]
    assert vessel.vessel.persons == 3
    bill = [one for duties in vessel.station_bill.values() for one in duties.values()]
    assert bill and not [one for one in bill if "child" in one.who or one.substitute == "child"]
