"""The shelf of procedures: every step sourced, worded, one sentence, and beginning with the act or its condition."""

import re

import pytest

from generator.manual.procedures import slug
from generator.reading.names import STANDINGS
from generator.shelves.languages import catalogue
from generator.shelves.procedures import shelf

VESSEL_WIDE = ["distress-call", "man-overboard", "fire", "flooding", "gas"]
SECOND = ["man-overboard-return", "back-aboard", "fire-starve", "flooding-rises", "gas-air"]

# A step starts with one of these or with a condition that ends at a comma.
VERBS = frozenset(
    [
        "Aim",
        "Bail",
        "Bring",
        "Call",
        "Check",
        "Close",
        "Come",
        "Cover",
        "Drive",
        "Fire",
        "Give",
        "Go",
        "Heel",
        "Hold",
        "Keep",
        "Lay",
        "Leave",
        "Let",
        "Lift",
        "Light",
        "Look",
        "Make",
        "Mark",
        "Move",
        "Lean",
        "Open",
        "Paddle",
        "Point",
        "Press",
        "Pull",
        "Set",
        "Pump",
        "Put",
        "Raise",
        "Read",
        "See",
        "Release",
        "Say",
        "Say:",
        "Search",
        "Select",
        "Send",
        "Share",
        "Shift",
        "Shout",
        "Shut",
        "Slow",
        "Smother",
        "Sound",
        "Stay",
        "Start",
        "Stop",
        "Switch",
        "Tie",
        "Wedge",
        "Take",
        "Throw",
        "Turn",
        "Work",
    ]
)
CONDITIONS = {"If", "When", "While", "Before", "By"}


def _worded_steps():
    words = catalogue().procedures
    return [
        pytest.param(step, words[step.words_in].steps[step.id].texts, id=step.id)
        for one in shelf()
        for step in one.steps
    ]


@pytest.mark.parametrize(("step", "text"), _worded_steps())
def test_every_step_is_worded_and_sourced(step, text):
    assert set(text) <= {"do", "unless", "caution", "why"}
    assert step.source.strip()
    assert step.standing in STANDINGS
    assert not re.search(r"\.md\b|\.yaml\b|row |\b[VRSD]\d+\b", step.source), "the source is the public one"
    assert not re.search(r"[*_`#]", "".join(text.values())), "plain text, no Markdown"


@pytest.mark.parametrize(("step", "text"), _worded_steps())
def test_every_step_is_one_sentence(step, text):
    assert text["do"].endswith("."), text["do"]
    assert not re.search(r"[.!?] ", text["do"]), text["do"]
    if "unless" in text:
        assert re.match(r"(?!if )[a-z{].*\.$", text["unless"]), (
            f"{step.id}: 'unless' goes on after the word Unless"
        )


@pytest.mark.parametrize("name", [*VESSEL_WIDE, *SECOND])
def test_steps_start_with_the_act_or_its_condition(name):
    for key, text in catalogue().procedures[name].steps.items():
        first = text.do.split()[0]
        if first in CONDITIONS:
            acts = [part.split()[0].capitalize() for part in text.do.split(", ")[1:]]
            assert set(acts) & VERBS, f"{key}: condition first, then comma, then the act; it has {acts}"
        else:
            assert first in VERBS, f"{key}: '{first}' is no act"


def test_ids_are_unique():
    known = [step.id for one in shelf() for step in one.steps]
    assert len(known) == len(set(known))


def test_fixed_duties():
    """Boats assign these ids: none may be renamed."""
    duties = {one.id: {line.id: line for line in one.duties} for one in shelf()}
    assert set(duties["man-overboard"]) == {"lookout", "helm", "throw", "call", "recover"}
    assert set(duties["fire"]) == {"command", "fight", "backup", "shut-off", "close", "call"}
    assert set(duties["flooding"]) == {"command", "find", "pump", "call", "prepare-raft"}
    assert set(duties["gas"]) == {"command", "shut-off", "ventilate", "muster"}
    keys = {
        (name, duty)
        for name in ("man-overboard", "fire", "flooding", "gas")
        for duty, line in duties[name].items()
        if line.key
    }
    assert keys == {
        ("man-overboard", "helm"),
        ("fire", "command"),
        ("fire", "fight"),
        ("fire", "call"),
        ("flooding", "command"),
        ("flooding", "find"),
        ("flooding", "call"),
        ("gas", "command"),
        ("gas", "shut-off"),
    }
    assert duties["man-overboard"]["recover"].persons == 2


def test_slug():
    assert slug("Port liferaft, 6 pers.") == "port-liferaft-6-pers"
    assert slug("ö") == "x"
