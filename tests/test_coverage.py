"""Published emergency instructions are covered item by item, by steps that some boat gets."""

import functools
import re

import pytest
from crews import everything
from documents.evidence import confirm_table, to_confirm, wordings
from evidence.lists import reading, rules
from fact_sample import CREWS, boats, steps_for
from rafts import compose

from generator.manual.reckoning import Reckoning
from generator.manual.steps import holds
from generator.shelves.procedure_files import AT_HAND, CONFIRM, MEMORY
from generator.shelves.procedures import confirmed, shelf

KNOWN = (
    *("131.340", "26.03", "28.265", "2303", "80.1117", "80.335", "1182", "1185", "RIC-22", "publication 117"),
    *(
        "Boat Safety Scheme",
        "California",
        "Canadian Safe",
        "Float to Live",
        "SARSAT",
        "National Weather Service",
    ),
    *("Army Corps", "Transport for NSW", "St John", "telephones at sea"),
)
"""By which words a list is known that is gone through item by item."""
APART = {
    "199.80": "the muster list of ships, gone through with the station bill's failures",
    "199.217": "the same",
    "COLREG": "which signals are signals of distress; when one is given is the card's",
    "ITU Radio Regulations": "the words of the call, printed as they stand there",
    "Marine Rescue NSW": "advice of a rescue service, which says no more than 46 CFR 131.340(c)",
    "Shropshire": "advice of a fire service, the same",
    "Water Safety New Zealand": "advice of a water safety council, the same",
}
"""Sources that were read and are no list of instructions, with the reason."""


def test_every_published_list_asked_for_is_there():
    names = " ".join(rule.rule for rule in rules())
    for wanted in (
        "26.03-2",
        "28.265",
        "131.340",
        "185.510",
        "SOLAS III/35",
        "MGN 280 13.11",
        "MGN 280 Annex 7",
    ):
        assert wanted in names
    heads = next(rule for rule in rules() if "III/35" in rule.rule)
    assert [item.item.split()[0] for item in heads.items] == [str(number) for number in range(1, 19)]


def test_nothing_asked_for_of_raft_and_abandoning_is_left_to_a_reason():
    """What has no step and no page is named here, so that a new gap is seen."""
    bare = [item.item for rule in rules() for item in rule.items if not item.steps and not item.page]
    allowed = (
        "seated",
        "fire pumps",
        "185.512",
        "from within the craft",
        "protection in launching areas",
        "engine and accessories",
        "booklet",
        "navigation lights",
        "stability booklet",
        "dangerous goods",
        "instructions hang",
        "which way the hatch opens",
    )
    assert [text for text in bare if not any(word in text for word in allowed)] == []


def test_the_list_to_confirm_has_every_step_that_is_marked():
    apart = [to_confirm(shelf(), when) for when in CONFIRM]
    assert all(apart)
    assert sum(map(len, apart)) == len(to_confirm(shelf()))
    for when, steps in zip(CONFIRM, apart, strict=True):
        rows = [row.partition("|")[2].strip() for row in confirm_table(when).splitlines()[2:]]
        assert len(rows) == sum(len(wordings(step)) for step in steps)
        assert {row.split("`")[1].partition(".")[0] for row in rows} == {
            step.id.partition(".")[0] for step in steps
        }


def test_what_rests_on_memory_alone_is_on_the_list_to_confirm():
    for one in shelf():
        for step in one.steps:
            assert step.confirm or step.standing != MEMORY, step.id
    assert confirmed("", MEMORY) == AT_HAND
    assert confirmed("before publishing", MEMORY) == "before publishing"
    assert confirmed("", "common practice") == ""


OF_THE_BODY = ("drowned", "not-breathing", "bleeding", "burned", "chilled", "head-injury")
NOT_ASKED = (
    "send",
    "boat",
    "hold",
    "inside",
    "out-alone",
    "wrap",
    "note",
    "watch",
    "duty",
    "harbour",
    "ask",
    "lay",
)
"""Steps of them that are no first aid: sending, stopping the boat, shelter, writing down."""


def test_first_aid_is_on_the_list_to_confirm():
    for one in shelf():
        for step in one.steps if one.id in OF_THE_BODY else ():
            name = step.id.partition(".")[2]
            assert step.confirm or name.startswith(NOT_ASKED), step.id


def test_every_wording_of_a_step_to_confirm_is_listed():
    bow = next(step for one in shelf() for step in one.steps if step.id == "heavy-weather.bow")
    texts = [text for _, text, _, _ in wordings(bow)]
    assert len(texts) == len(set(texts)) > 2
    assert any("drogue" in text for text in texts) and any("racing" in text for text in texts)


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    """Where the specimens with other crews are written."""
    return tmp_path_factory.mktemp("crews")


@functools.cache
def given_to_some_boat(folder):
    """The names of all steps that a specimen with some crew gets, or a boat of the sample, or a raft stowed otherwise."""
    got = {step.id for _, _, _, one in everything(folder) for step in one.steps}
    for crew, facts in boats(40):
        for one in shelf():
            steps = steps_for(one, facts, CREWS[crew][1]) if one.per == "vessel" else None
            got |= {step.id for step in steps or ()}
    for asked in ({"stowage": "davit", "container": "canister", "held_by": ()}, {"drogue": "by hand"}):
        got |= {step.id for one in compose("saltmeadow", **asked).procedures.values() for step in one.steps}
    return got


def test_every_step_that_answers_a_published_item_or_a_finding_is_given_to_some_boat(folder):
    got = given_to_some_boat(folder)
    asked = {name for rule in rules() for item in rule.items for name in item.steps}
    asked |= {name for row in reading().findings for name in row.steps}
    assert len(asked) > 150
    assert sorted(asked - got) == []


def said_by(one):
    """All that a procedure says, a text a line."""
    texts = [one.title, one.intro, one.end.words if one.end else "", *(leave.words for leave in one.leaves)]
    for step in one.steps:
        texts += [step.text, f"unless {step.unless}" if step.unless else "", step.caution, step.why]
    return [each for each in texts if each]


def broken(folder, rows):
    """Where a composed text says what is said no more: (row, boat, crew, procedure, text)."""
    found, facts = [], {}
    never = [(row.row, re.compile(str(each.says)), each.when) for row in rows for each in row.never]
    for boat, crew, vessel, one in everything(folder):
        known = facts.setdefault((boat, crew), Reckoning(vessel).facts if (boat, crew) not in facts else {})
        found += [
            (row, boat, crew, one.id, text)
            for row, pattern, when in never
            if holds(when, (), known)
            for text in said_by(one)
            if pattern.search(text)
        ]
    return found


def test_what_a_professional_found_wrong_is_said_no_more(folder):
    rows = reading().findings
    assert sum(bool(row.never) for row in rows) > 8
    assert broken(folder, rows) == []


def test_words_that_are_said_would_be_seen(folder):
    class Row:
        row = "X"
        never = (type("Never", (), {"says": "“Fire”: gather all", "when": ("several persons",)})(),)

    assert {(boat, crew) for _, boat, crew, _, _ in broken(folder, [Row])} >= {("kelpwren", "a couple")}


def test_every_list_read_is_covered():
    """Each list that a step rests on as read is one of those gone through item by item, or is told here why not."""
    names = " ".join(rule.rule for rule in rules())
    sources = {
        str(step.source) for one in shelf() if one.emergency for step in one.steps if step.standing == "read"
    }
    known = [*KNOWN, *APART]
    assert [each for each in sorted(sources) if not any(word in each for word in known)] == []
    assert all(word in names for word in KNOWN)
