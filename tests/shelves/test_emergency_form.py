"""The common form of an emergency is read as strictly as all else: what refers to what, what is missing, where it stands."""

import contextlib
import re

import pytest
from shelves.reading import text_of
from shelves.tallies import renewed

from generator.manual.soundness import faults_among
from generator.shelves.folder import templates_folder
from generator.shelves.index import SHELVES
from generator.shelves.procedures import PROCEDURES
from generator.shelves.shelf import read_below
from generator.shelves.words import WORDS as TEXTS
from generator.survey.registry import all_checks

CHECKS = tuple(all_checks())
OF_STEPS = next(shelf for shelf in TEXTS if shelf.name == "words of steps")
GAS, WORDS, CLEAR = "procedures/gas.yaml", "text/en/procedures/gas.yaml", "procedures/righting.yaml"
MARK = "emergency: yes\n"
FORM = """\
urgency: 1
first-minute: 5
leaves:
  - {words: test-leave, to: fire, source: common sense, standing: common practice}
end: {source: common sense, standing: common practice}
other-end:
  - {when: [closed in], words: test-end}
"""
SAID = """\
intro: "You smell gas. Smoke or flame: another card."
leaves:
  test-leave: "Does it burn?"
end: "Over when nobody smells it."
ends:
  test-end: "Over when nobody smells it below."
"""
FORM_KEY = re.compile(
    r"^(urgency|likely-where|counts-out|first-minute|leaves|stays|intro|end|other-end|ends):.*\n(?:[ \-].*\n)*",
    re.MULTILINE,
)


def formed():
    """The gas procedure and its words, with the form as it is said here and nothing else of it."""
    made = {CLEAR: text_of(CLEAR)}
    for name, mark, new in ((GAS, MARK, MARK + FORM), (WORDS, "steps:\n", SAID + "steps:\n")):
        text = FORM_KEY.sub("", text_of(name))
        assert mark in text
        made[name] = text.replace(mark, new, 1)
    return made


def told(texts):
    """What is found on the shelves with these files among them: file, key, message, remedy."""
    shelves = []
    for shelf, files, found in read_below(SHELVES, templates_folder()):
        there, told_of = list(files), list(found)
        for number, file in enumerate(files):
            if file.path in texts and shelf in (PROCEDURES, OF_STEPS):
                text = texts[file.path]
                with contextlib.suppress(AttributeError):  # what cannot be read is not counted
                    text = renewed(shelf, text)
                there[number], findings = shelf.read_text(text, file.path)
                told_of += findings
        shelves.append((shelf, tuple(there), tuple(told_of)))
    return [
        (each.place.file.removeprefix("templates/"), each.place.key, each.message, each.remedy)
        for each in faults_among(shelves, CHECKS)
    ]


def test_the_form_as_written_here_is_sound():
    assert told(formed()) == []


LEAVE = "words: test-leave, to: fire"
FAULTS = {
    "how urgent": (GAS, "urgency: 1", "urgency: 4", GAS, "urgency", "4 is outside what can be", "look at"),
    "no urgency": (GAS, "urgency: 1\n", "", GAS, "", "'urgency' is missing, which every emergency has", "write urgency"),
    "no first minute": (GAS, "first-minute: 5\n", "", GAS, "", "'first-minute' is missing", "write first-minute"),
    "no end": (GAS, FORM[FORM.index("end:") :], "", GAS, "", "'end' is missing", "write end"),
    "left for none": (GAS, FORM[FORM.index("leaves:") : FORM.index("end:")], "", GAS, "", "nothing says for which", "stays: yes"),
    "left and stays": (GAS, "leaves:", "stays: yes\nleaves:", GAS, "stays", "for others, and for none", "the one that is true"),
    "left for nothing there": (GAS, LEAVE, "words: test-leave, to: fier", GAS, "leaves[test-leave].to", "no procedure 'fier'", "fire?"),
    "left for itself": (GAS, LEAVE, "words: test-leave, to: gas", GAS, "leaves[test-leave].to", "left for itself", "another"),
    "left where no fact is": (GAS, LEAVE, f"{LEAVE}, when: [sials]", GAS, "leaves[test-leave].when", "no fact 'sials'", "sails?"),
    "left where a raft is so": (GAS, LEAVE, f"{LEAVE}, when: [davit]", GAS, "leaves[test-leave].when", "said of one raft", "per: raft"),
    "likelier where no fact is": (GAS, "first-minute: 5", "first-minute: 5\nlikely-where: [gaz]", GAS, "likely-where", "no fact 'gaz'", "gas?"),
    "likelier where a raft is so": (GAS, "first-minute: 5", "first-minute: 5\nlikely-where: [davit]", GAS, "likely-where", "one raft", "per: raft"),
    "too many counted out": (GAS, "first-minute: 5", "first-minute: 5\ncounts-out: 5", GAS, "counts-out", "5 is outside", "look at"),
    "no part of its own": (GAS, "first-minute: 5", "first-minute: x", GAS, "first-minute", "'x' is not a whole number", "digits"),
    "no other end's fact": (GAS, "[closed in], words: test-end", "[closd in], words: test-end", GAS, "other-end[1].when", "no fact 'closd in'", "closed in?"),
    "other end without an end": (GAS, "end: {source: common sense, standing: common practice}\nother", "other", GAS, "other-end", "none of its own", "write end"),
    "other end's source alone": (GAS, "words: test-end", "words: test-end, source: me", GAS, "other-end[1].source", "come together", "both"),
    "end of no standing": (GAS, "end: {source: common sense, standing: common practice}", "end: {source: me}", GAS, "end.standing", "standing' is missing", "write standing"),
    "end of an odd standing": (GAS, "end: {source: common sense, standing: common", "end: {source: me, standing: comon", GAS, "end.standing", "none of the words", "common practice"),
    "when nobody confirms": (GAS, "confirm: before publishing", "confirm: yes", GAS, "steps[gas.close].confirm", "none of the words", "at hand"),
    "leaving unsaid": (WORDS, '  test-leave: "Does it burn?"', '  test-lave: "Does it burn?"', GAS, "leaves[test-leave].words", "no words for leaving 'gas' for 'fire'", "gas.yaml"),
    "end unsaid": (WORDS, SAID[SAID.index("end:") : SAID.index("ends:")], "", GAS, "end", "no words for the end of 'gas'", "gas.yaml"),
    "other end unsaid": (WORDS, "test-end:", "test-ent:", GAS, "other-end[1].words", "said in other words", "gas.yaml"),
    "condition line unsaid": (WORDS, SAID[: SAID.index("leaves:")], "", GAS, "urgency", "no words for the condition line", "gas.yaml"),
    "slot of a leaving": (WORDS, "Does it burn?", "Does {it} burn?", WORDS, "leaves.test-leave", "the slot 'it', which nothing fills", "look it up"),
    "slot of an end": (WORDS, "Over when nobody smells it.", "Over when {nobody} smells.", WORDS, "end", "'nobody', which nothing fills", "look it up"),
    "urgent and no emergency": (CLEAR, "procedure: righting", "procedure: righting\nurgency: 1", CLEAR, "urgency", "belongs to an emergency", "emergency: yes"),
    "likelier and no emergency": (CLEAR, "procedure: righting", "procedure: righting\nlikely-where: [sails]", CLEAR, "likely-where", "orders emergencies", "urgency"),
    "follows all and is one": (GAS, "first-minute: 5", "first-minute: 5\nwhen-over: yes", GAS, "when-over", "none itself", "emergency: no"),
}  # fmt: skip


@pytest.mark.parametrize("case", FAULTS.values(), ids=FAULTS)
def test_a_fault_of_the_form_is_found_where_it_stands(case):
    name, old, new, where, key, message, remedy = case
    texts = formed()
    assert old in texts[name], old
    texts[name] = texts[name].replace(old, new, 1)
    found = told(texts)
    here = [each for each in found if each[0] == where and each[1] == key and message in each[2]]
    assert here, found
    assert remedy in here[0][3], here


@pytest.mark.parametrize(
    ("first_minute", "after", "said"),
    [("99", "", 0), ("2", "", 0), ("1", "    after: [gas.leave]\n", 1)],
)
def test_the_first_minute_is_over_before_the_rest(first_minute, after, said):
    texts = formed()
    text = texts[GAS].replace("first-minute: 5", f"first-minute: {first_minute}")
    mark = "  - id: gas.switches\n    phase: 1\n    after: [gas.shout]\n"
    assert mark in text
    texts[GAS] = text.replace(
        mark, mark.replace("    after: [gas.shout]\n", after or "    after: [gas.shout]\n")
    )
    found = [message for _, _, message, _ in told(texts) if "belongs to the first minute" in message]
    assert len(found) == said, found
    assert all("comes after 'gas.leave', which does not" in each for each in found)


def test_a_first_minute_has_a_step():
    texts = formed()
    texts[GAS] = texts[GAS].replace("phase: 1", "phase: 2").replace("first-minute: 5", "first-minute: 1")
    assert any("no step of 'gas' comes in the first minute" in message for _, _, message, _ in told(texts))


def test_two_cannot_follow_every_emergency():
    texts = formed()
    texts["procedures/boarding.yaml"] = text_of("procedures/boarding.yaml")
    for name in ("righting", "boarding"):
        path = f"procedures/{name}.yaml"
        texts[path] = texts[path].replace(f"procedure: {name}", f"procedure: {name}\nwhen-over: yes", 1)
    assert any("follows every emergency already" in message for _, _, message, _ in told(texts))
