"""The order that lives hang on, for every combination of facts and not only those of a boat that could float."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.manual.facts import vessel_facts
from generator.manual.procedures import holds, in_sequence, taken_off
from generator.shelves.procedures import ShelfStep, shelf
from generator.vessel.installed import Stop

pytestmark = pytest.mark.thorough

VESSEL_WIDE = ["distress-call", "man-overboard", "fire", "flooding", "gas"]
MOST_STEPS = 14  # a person overboard from a boat with kill cord, gate and ladder has the most
PROCEDURES = {one.id: one for one in shelf()}


FACTS = sorted(fact.name for fact in vessel_facts())


@st.composite
def any_facts(draw):
    facts = {name: draw(st.booleans()) for name in FACTS}
    facts["fixed dsc"] &= facts["fixed vhf"]
    facts["position on the vhf"] &= facts["fixed vhf"]
    facts["handheld dsc"] &= facts["handheld vhf"]
    facts["several hand pumps"] &= facts["hand pump"]
    facts["several electric pumps"] &= facts["electric pump"]
    facts["hand pump from deck"] &= facts["hand pump"]
    facts["hand pumps below only"] &= facts["hand pump"] & (not facts["hand pump from deck"])
    facts["jets alone"] &= not facts["propeller told"]
    for what in Stop.what.choices:
        facts[f"electric {what} stop"] &= facts[f"{what} stop"]
        facts[f"{what} stop without a spark"] = facts[f"{what} stop"] & (
            facts[f"{what} stop without a spark"] | (not facts[f"electric {what} stop"])
        )
        facts[f"{what} stop by hand"] &= facts[f"{what} stop without a spark"]
    facts["raft below"] &= facts["raft"]
    facts["rooms below"] |= facts["multihull"]
    facts["closed in"] |= facts["rooms below"] | facts["raft below"]
    return facts


def chosen(name, facts):
    """The ids of the steps of a procedure for these facts, in order; one in other words (for an open boat, with an alarm) as the step that it stands for."""
    one = PROCEDURES[name]
    return [
        step.id.removesuffix("-by-the-alarm").removesuffix("-in-the-open")
        for step in in_sequence([step for step in one.steps if holds(step.when, step.when_any, facts)])
    ]


def before(sequence, first, second):
    """Whether every step of `first` stands before every step of `second`, of those that are there."""
    earlier = [sequence.index(each) for each in first if each in sequence]
    later = [sequence.index(each) for each in second if each in sequence]
    return not earlier or not later or max(earlier) < min(later)


@given(any_facts())
@settings(max_examples=300, deadline=None)
def test_no_combination_of_facts_is_too_long_or_empty(facts):
    for name in VESSEL_WIDE:
        assert 1 <= len(chosen(name, facts)) <= MOST_STEPS, (name, chosen(name, facts))


@given(any_facts())
@settings(max_examples=300, deadline=None)
def test_fire_never_shuts_anybody_in(facts):
    steps = chosen("fire", facts)
    close = ["fire.close", "fire.close-alone", "fire.close-and-ventilation"]
    assert steps[0] == ("fire.shout" if facts["several persons"] else "fire.alone"), "people out first"
    assert len(set(close) & set(steps)) == (1 if facts["closed in"] else 0)
    assert before(steps, ["fire.shout"], close)
    assert before(
        steps,
        ["fire.engine", "fire.outboard", "fire.kill-cord", "fire.fuel", *close],
        [
            "fire.fixed",
            "fire.automatic",
            "fire.keep-shut",
            "fire.keep-box-shut",
            "fire.port",
            "fire.port-of-box",
        ],
    )
    assert before(
        steps,
        [each for each in steps if each.startswith("fire.call")],
        ["fire.batteries", "fire.lithium-batteries"],
    )
    assert len([each for each in steps if each.startswith(("fire.fight", "fire.smother"))]) == 1


@given(any_facts())
@settings(max_examples=300, deadline=None)
def test_man_overboard_throws_and_looks_before_all_else(facts):
    steps = chosen("man-overboard", facts)
    first = 3 if "man-overboard.shout" in steps else 2
    assert ("man-overboard.shout" in steps) is not facts["two persons"]
    assert len([each for each in steps[:first] if each.startswith("man-overboard.throw")]) == 1
    assert {"man-overboard.point", "man-overboard.look-back"} & set(steps[:first])
    stop = [each for each in steps if each.startswith("man-overboard.stop")]
    call = [each for each in steps if each.startswith("man-overboard.call")]
    assert len(stop) == len(call) == 1
    assert before(steps, ["man-overboard.shout", "man-overboard.mark", *stop], call)
    assert before(
        steps,
        ["man-overboard.clip-on", "man-overboard.hold-on"],
        ["man-overboard.line", "man-overboard.any-line"],
    )
    assert before(
        steps, ["man-overboard.line", "man-overboard.any-line"], ["back-aboard.hoist", "back-aboard.lift"]
    )


@given(any_facts())
@settings(max_examples=300, deadline=None)
def test_calling_never_comes_before_the_shout(facts):
    for name in ("fire", "flooding"):
        steps = chosen(name, facts)
        assert steps[0] == (f"{name}.shout" if facts["several persons"] else f"{name}.alone")
        assert len([each for each in steps if each.startswith(f"{name}.call")]) == 1


@given(any_facts())
@settings(max_examples=300, deadline=None)
def test_the_button_comes_before_the_voice_and_somebody_is_always_called(facts):
    steps = chosen("distress-call", facts)
    button = [each for each in steps if ".button" in each]
    assert before(steps, [each for each in steps if ".power" in each], button)
    assert before(steps, button, ["distress-call.channel"])
    voice = [
        "distress-call.mayday",
        "distress-call.identity",
        "distress-call.position",
        "distress-call.nature",
        "distress-call.listen",
        "distress-call.again",
    ]
    radio = facts["fixed vhf"] or facts["handheld vhf"]
    told = ("distress-call.identity", "distress-call.position", "distress-call.again")
    spoken = [next((each for each in told if step.startswith(each)), step) for step in steps]
    assert [each for each in spoken if each in voice] == (voice if radio else [])
    assert bool(button) <= radio
    seen = {
        "distress-call.parachute",
        "distress-call.hand-flare",
        "distress-call.arms",
        "distress-call.arms-too",
    }
    assert seen & set(steps), "there is always a signal to the eye"


@given(any_facts())
@settings(max_examples=300, deadline=None)
def test_gas_touches_no_switch_before_it_is_said(facts):
    steps = chosen("gas", facts)
    assert steps[:2] == (
        ["gas.shout", "gas.switches"] if facts["several persons"] else ["gas.switches", "gas.flames"]
    )
    assert before(steps, ["gas.muster", "gas.go-on-deck"], ["gas.engine", "gas.leave"])


@given(any_facts())
@settings(max_examples=300, deadline=None)
def test_flooding_pumps_and_looks_before_it_mends(facts):
    steps = chosen("flooding", facts)
    look = ["flooding.find", "flooding.look"]
    assert len(set(look) & set(steps)) == 1
    assert before(steps, [each for each in steps if "pump" in each or each == "flooding.bail"], look)
    assert ("flooding.fetch-raft" in steps) == facts["raft below"]
    assert before(steps, look, ["flooding.fetch-raft"]) and before(
        steps, ["flooding.fetch-raft"], ["flooding.call", "flooding.raft"]
    )
    assert before(steps, look, ["flooding.seacocks", "flooding.plug", "flooding.own-plug", "flooding.hole"])


def test_sequence_respects_after_and_refuses_a_circle():
    first = ShelfStep("a", 1, "x", "read", after=("b",), position=0)
    second = ShelfStep("b", 2, "x", "read", position=1)
    assert [step.id for step in in_sequence([first, second])] == ["b", "a"]
    with pytest.raises(ValueError, match="wait for each other: a, b"):
        in_sequence([first, ShelfStep("b", 2, "x", "read", after=("a",), position=1)])


def test_all_of_some_facts_and_one_of_others():
    assert holds(("not sails",), ("gas", "engine"), {"sails": False, "gas": False, "engine": True})
    assert not holds((), ("gas",), {"gas": False})
    assert holds((), (), {})


def test_a_hold_that_another_frees_comes_off_behind_it():
    assert taken_off(("strap", "pin", "Senhouse slip")) == ["pin", "Senhouse slip", "strap"]
    assert taken_off(("Senhouse slip", "pin", "strap")) == ["Senhouse slip", "pin", "strap"]
