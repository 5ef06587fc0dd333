"""Who is aboard, as one answer of commissioning says it."""

import pytest

from generator.commissioning import crew
from generator.commissioning.refusal import Refusal
from generator.commissioning.writing import commission
from generator.vessel.loading import load


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
    ("5.5 m", "is no role"), ("2 children of 6 and 8", "'8' is no role"), ("cook, age 40", "is no role"), ("3 5", "is no role"),
])  # fmt: skip
def test_who_cannot_be_aboard(said, why):
    with pytest.raises(Refusal, match=why):
        crew.roles(said)


@pytest.mark.parametrize(("said", "ages"), [
    ("skipper, child of 6", {"child": 6}), ("skipper, child (6)", {"child": 6}), ("skipper, a child aged 6 years", {"child": 6}),
    ("skipper, child of 6, child of 8", {"child 1": 6, "child 2": 8}), ("skipper, grandmother of 70", {}), ("skipper, 2 guests", {}),
])  # fmt: skip
def test_the_ages_of_children_are_read(said, ages):
    assert crew.ages(said) == ages
    assert crew.ages(crew.in_one_line(said)) == ages
    assert crew.roles(crew.in_one_line(said)) == crew.roles(said)


def test_a_child_is_written_with_its_age_and_gets_no_duty(tmp_path):
    answers = {"vessel.type": "open boat", "people": "skipper, mate, child of 6", "rafts": "none"}
    path = commission("Wren", answers, tmp_path).path
    vessel, _ = load(path.parent)
    assert [(each.role, each.age) for each in vessel.people] == [
        ("skipper", None),
        ("mate", None),
        ("child", 6),
    ]
    assert vessel.vessel.persons == 3
    bill = [one for duties in vessel.station_bill.values() for one in duties.values()]
    assert bill and not [one for one in bill if "child" in one.who or one.substitute == "child"]
