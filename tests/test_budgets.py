"""What is written for an emergency keeps to its budget: on the shelf, for any boat's facts, and with the longest words of a boat."""

import functools
import re

import pytest
from fact_sample import CREWS, boats, steps_for, words_of
from raft_sample import rafts
from specimens import BOATS, VESSELS

from generator.manual.left_to_act import left
from generator.manual.procedures import compose_procedures, holds
from generator.manual.reckoning import Reckoning
from generator.shelves.languages import catalogue
from generator.shelves.procedures import shelf
from generator.shelves.words import SLOT
from generator.vessel.loading import load

TITLE, LINE, LEAVE, ACT = 26, 102, 48, 51
"""Characters of fixed words: a title; a condition line, an end, an unless or a caution; a line on which it is left; an act."""
MOST_STEPS, MOST_WORDS = 9, 225
"""Of a face, whatever the boat."""
OF_A_SLOT, OF_ROLES = 8, 2
"""Words: of what a boat puts in at its longest, 48 characters; of the roles beside a step."""
EACH = 150
"""Boats of each crew that are looked at."""
FORMED = [one for one in shelf() if one.form.ends or one.when_over]
BY_NAME = {one.id: one for one in FORMED}
_AT_THE_END = re.compile(r"\{[^}]*\}[.)]*")


def fixed(text):
    """How many characters a text has before a boat puts in hers."""
    return len(SLOT.sub("", text).strip())


def badly_placed(text):
    """Whether a text has two slots, or one that is not at its end."""
    found = SLOT.findall(text)
    return len(found) > 1 or bool(found and not _AT_THE_END.fullmatch(text[text.index("{") :]))


def over_at_the_shelf(one):
    """The names of the texts of a procedure that are over budget, by kind."""
    words = catalogue().procedures
    page, over = words[one.id], {}

    def note(kind, name, is_over):
        over.setdefault(kind, []).extend([name] if is_over else [])

    note("title", "title", fixed(page.title) > TITLE)
    for name, text in (("intro", page.intro), *page.intros.items()):
        note("intro", name, text and fixed(text) > LINE)
    for name, text in page.leaves.items():
        note("leave", name, fixed(text) > LEAVE or not text.endswith("?"))
    for name, text in (("end", page.end), *page.ends.items()):
        note("end", name, text and (fixed(text) > LINE or not text.startswith("Over ")))
    for step in one.steps:
        for name in {step.id, *(each.words or step.id for each in step.other_words)}:
            said = words[step.words_in].steps[name]
            note("act", name, fixed(said.do) > ACT)
            note("slot", name, badly_placed(said.do))
            note("beside", name, any(fixed(each) > LINE for each in (said.unless, said.caution) if each))
    return {kind: len(names) for kind, names in over.items() if names}


def counted(text):
    """How many words a text has at the longest."""
    return len(SLOT.sub("", text).split()) + OF_A_SLOT * len(SLOT.findall(text))


def words_on_a_face(one, steps, facts):
    """How many words a card of these steps has, with the longest of a boat's own."""
    words, titles = (
        catalogue().procedures,
        {each.id: catalogue().procedures[each.id].title for each in shelf()},
    )
    page = words[one.id]
    other = next((name for when, name in one.other_intro if holds(when, (), facts)), "")
    said = [page.title, (page.intros[other] if other else page.intro) or ""]
    for leave in one.form.leaves:
        if holds(leave.when, (), facts):
            said += [page.leaves[leave.words], titles[leave.to]]
    end = next((each for each in one.form.ends if holds(each.when, (), facts)), None)
    said += [page.ends[end.words] if end.words else page.end] if end else []
    extra = 0
    for step in steps:
        name, left_out = words_of(step, facts)
        texts = words[step.words_in].steps[name].texts
        said += [text for key, text in texts.items() if key != "why" and key not in left_out]
        extra += OF_A_SLOT * bool(step.place) + OF_ROLES * bool(step.duty and facts["several persons"])
    return extra + sum(map(counted, said))


@functools.cache
def faces(name):
    """The most steps and the most words of a procedure among the boats of the sample."""
    one, most, longest = BY_NAME[name], 0, 0
    for crew, facts in rafts(EACH) if one.per == "raft" else boats(EACH):
        steps = steps_for(one, facts, CREWS[crew][1])
        if steps:
            known = facts | left(CREWS[crew][1], one.form.counts_out)
            most, longest = max(most, len(steps)), max(longest, words_on_a_face(one, steps, known))
    return {"steps": most, "words": longest}


def test_every_emergency_has_the_form():
    assert [one.id for one in shelf() if one.emergency and one.id not in BY_NAME] == []


@pytest.mark.parametrize("name", BY_NAME)
def test_what_is_written_keeps_to_its_budget(name):
    assert over_at_the_shelf(BY_NAME[name]) == {}, "write less"


@pytest.mark.parametrize("name", BY_NAME)
def test_a_face_keeps_to_its_budget_whatever_the_boat(name):
    found = faces(name)
    assert found["steps"] > 0, "some boat has it"
    assert found["steps"] <= MOST_STEPS
    assert found["words"] <= MOST_WORDS


SPOT = "on the forward bulkhead behind the oilskins that hang"
HOW = "turn the red handle one quarter to the right until it clicks"


@pytest.mark.parametrize("boat", BOATS)
def test_the_longest_words_of_a_specimen_keep_the_face(boat):
    vessel, _ = load(VESSELS / boat)
    for block in vessel.inner():
        for key, long in (("spot", SPOT), ("how", HOW)):
            if isinstance(block.__dict__.get(key), str):
                block.__dict__[key] = long
    composed, found = compose_procedures(Reckoning(vessel), catalogue())
    assert not [each for each in found if each.check != "steps.too-long"]
    for one in composed:
        if one.kind not in BY_NAME:
            continue
        told = [one.title, one.intro, one.end.words if one.end else ""]
        told += [each for leave in one.leaves for each in (leave.words, *(link.title for link in leave.to))]
        told += [
            each
            for step in one.steps
            for each in (step.text, step.place, step.unless, step.caution, *step.who)
        ]
        assert len(one.steps) <= MOST_STEPS, one.kind
        assert len(" ".join(told).split()) <= MOST_WORDS, one.kind


def test_the_budgets_see_what_is_too_long(monkeypatch):
    assert fixed("Put the engine in neutral: {engine stop how}.") == len("Put the engine in neutral: .")
    assert not badly_placed("Stop it ({engine stop how}).")
    assert badly_placed("Stop it: {engine stop how}, at once.")
    assert badly_placed("{boat}: {boat}.")
    assert counted("Stop it: {engine stop how}.") == 3 + OF_A_SLOT
    call = BY_NAME["distress-call"]
    assert 1 < faces("distress-call")["steps"] <= MOST_STEPS
    for limit, kind in (("TITLE", "title"), ("LINE", "intro"), ("ACT", "act"), ("LEAVE", "leave")):
        monkeypatch.setitem(globals(), limit, 5)
        assert over_at_the_shelf(call)[kind]
