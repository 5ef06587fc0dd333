"""What is said to whoever writes no answer, or asks for a key there is not."""

import pytest
from boat_file import Boat, changed, one
from open_boats import OPEN_BOAT, surveyed
from plain_tree import plain

from generator.reading.findings import Weight, in_order
from generator.reading.nodes import Source
from generator.reading.tree import read


@pytest.fixture
def boat(tmp_path):
    return Boat(tmp_path)


def said(findings):
    return [f"{each.place.line}:{each.place.column} {each.message}" for each in in_order(findings)]


BARE = {
    "length: ?": {"length": "?"},
    "length: ?   # ask": {"length": "?"},
    "a: [?, b, ?]": {"a": ["?", "b", "?"]},
    "a: {b: ?, c: 1}": {"a": {"b": "?", "c": "1"}},
    "a: {b: 1, c: ?}": {"a": {"b": "1", "c": "?"}},
    "a:\n  - ?\n  - strap": {"a": ["?", "strap"]},
    "a:\n  - {b: ?}\nc: ?": {"a": [{"b": "?"}], "c": "?"},
    "a: 'why: ?'\nb: who?": {"a": "why: ?", "b": "who?"},
    "a: ~\nb: ?": {"a": "~", "b": "?"},
}


@pytest.mark.parametrize("text", BARE)
def test_a_bare_mark_is_read_as_the_text_it_is_and_the_rest_too(text):
    made, findings = read(f"{text}\n", Source("vessel.yaml"))
    assert (plain(made), findings) == (BARE[text], [])


def test_marks_beyond_what_a_file_may_say_are_refused():
    assert (
        said(read("gear:\n" + "  - ?\n" * 501, Source("vessel.yaml"))[1])[0] == "2:5 a bare '?' stands here"
    )


def test_a_bare_mark_is_told_with_its_question_beside_all_else(boat):
    text = changed("  beam: 3.8 m", "  beam: ?").replace("  draft: 2.0 m", "  draft: 2.0")
    assert said(boat(text.replace("lead: clear", "lead: ?"))[1]) == [
        "13:9 '?' stands where a value belongs: How wide is she?",
        "14:10 '2.0' has no unit",
        "56:116 '?' stands where a value belongs: How does it run from the container to its end?",
    ]


@pytest.mark.parametrize(
    "text", ["dont know", "Don't know", "don’t know", "NOT KNOWN", "no-idea", "unknow", "unknown?"]
)
def test_a_call_sign_that_says_nothing_is_none(text, boat):
    finding = one(boat(changed("call-sign: MZZZ9", f'call-sign: "{text}"'))[1])
    assert finding.message == f"'{text}' is no answer"
    assert finding.remedy == (
        "write three to eight letters and digits; write unknown if it is not known yet; remove the key if there is none"
    )


@pytest.mark.parametrize(
    ("key", "remedy"),
    [
        ("HRU", "write release (Which hydrostatic release unit (HRU) holds it?)"),
        ("weight", "write mass (What does it weigh?)"),
        ("drougue", "write drogue?"),
        ("frobnicator", "look it up: musterbook keys rafts"),
    ],
)
def test_a_key_that_there_is_not_is_looked_for_among_keys_and_questions(key, remedy, boat):
    finding = one(boat(changed("    canopy: yes", f"    canopy: yes\n    {key}: yes"))[1])
    assert (finding.check, finding.message) == ("file.unknown-key", f"'{key}' is no key of rafts[liferaft]")
    assert finding.remedy.startswith(remedy)


def test_what_a_rule_asks_of_a_thing_is_asked_by_its_keys_and_only_what_is_open(tmp_path):
    text = OPEN_BOAT.replace(
        "use: private", "use: private\n  rule-set: UK small commercial category 2"
    ).replace("lights: yes}", "lights: unknown}")
    asked = [each for each in surveyed(text, tmp_path).findings if each.check == "carriage.not-said"]
    told = {each.item: (each.message.rpartition("it is not said: ")[2], each.remedy) for each in asked}
    assert told["lifejackets with lights"] == (
        "whether they have lights",
        "look at the thing and write it there: lights",
    )
    assert told["fire extinguisher of 13A/113B"][1] == "look at the thing and write it there: rating"


def test_without_people_the_bill_is_not_told_name_by_name(tmp_path):
    people = OPEN_BOAT[OPEN_BOAT.index("people:") : OPEN_BOAT.index("radio:")]
    found = surveyed(OPEN_BOAT.replace(people, ""), tmp_path).findings
    assert [each.check for each in found if each.weight is Weight.DEFECT] == ["file.missing-key"]
