"""The order that lives hang on, for every combination of facts and not only those of a boat that could float."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.manual.facts import vessel_facts
from generator.manual.left_to_act import left
from generator.manual.procedures import holds, in_sequence, taken_off
from generator.shelves.procedures import ShelfStep, shelf
from generator.vessel.installed import Stop

pytestmark = pytest.mark.thorough

FIRST = ["distress-call", "man-overboard", "fire", "flooding", "gas"]
SECOND = ["man-overboard-return", "back-aboard", "fire-starve", "fire-engine", "flooding-rises", "gas-air"]
MOST_STEPS = 14  # a distress call has the most
PROCEDURES = {one.id: one for one in shelf()}


FACTS = sorted(fact.name for fact in vessel_facts())


@st.composite
def any_facts(draw):
    facts = {name: draw(st.booleans()) for name in FACTS}
    facts["fixed dsc"] &= facts["fixed vhf"]
    facts["position on another set"] &= not facts["position on the set"]
    facts["handheld dsc"] &= facts["handheld vhf"]
    facts["mf/hf dsc"] &= facts["mf/hf"]
    facts["radio aboard"] = any(
        facts[each] for each in ("fixed vhf", "handheld vhf", "mf/hf", "satellite telephone")
    )
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
    facts |= left(draw(st.integers(0, 4)), 0)
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
    for name in (*FIRST, *SECOND):
        if holds(PROCEDURES[name].when, PROCEDURES[name].when_any, facts):
            assert 1 <= len(chosen(name, facts)) <= MOST_STEPS, (name, chosen(name, facts))


@given(any_facts())
@settings(max_examples=300, deadline=None)
def test_fire_never_shuts_anybody_in(facts):
    steps, behind = chosen("fire", facts), chosen("fire-starve", facts)
    close = [f"fire-starve.close{each}" for each in ("", "-alone", "-and-fans", "-and-fans-alone")]
    assert steps[0] == ("fire.shout" if facts["several persons"] else "fire.alone"), "people out first"
    assert len(set(close) & set(behind)) == (1 if facts["closed in"] else 0)
    assert not any(".close" in each for each in steps), "nothing is closed on the card of those who get out"
    assert before(behind, ["fire-starve.fuel", *close], ["fire-starve.fixed", "fire-starve.automatic"])
    assert not any("batter" in each for each in steps), "the switch comes on the card behind the call"
    assert len([each for each in steps if each.startswith(("fire.fight", "fire.smother"))]) == 1


@given(any_facts())
@settings(max_examples=300, deadline=None)
def test_the_space_of_the_engine_is_shut_and_starved_before_anything_goes_in(facts):
    steps = chosen("fire-engine", facts)
    shut = [each for each in steps if each.startswith("fire-engine.keep-")]
    assert len(shut) == 1
    starve = [f"fire-engine.{each}" for each in ("stop", "stop-one", "kill-cord", "fuel", "vents", "flaps")]
    into = [f"fire-engine.{each}" for each in ("fixed", "automatic", "port", "small-hole")]
    assert before(steps, shut, [*starve, *into]) and before(steps, starve, into)


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
    steps = chosen("man-overboard-return", facts)
    held = ["man-overboard-return.clip-on", "man-overboard-return.hold-on", "man-overboard-return.tie-on"]
    line = [each for each in steps if "line" in each]
    assert len(line) == len(set(held) & set(steps)) == 1
    assert before(steps, held, line) and len([each for each in steps if "approach" in each]) == 1


@given(any_facts())
@settings(max_examples=300, deadline=None)
def test_calling_never_comes_before_the_shout(facts):
    for name in ("fire", "flooding"):
        steps = chosen(name, facts)
        assert steps[0] == (f"{name}.shout" if facts["several persons"] else f"{name}.alone")
        calls = [
            each
            for each in (*steps, *chosen("flooding-rises", facts))
            if each.partition(".")[2].startswith("call")
        ]
        assert len(calls) == (2 if name == "fire" else 1)


@given(any_facts())
@settings(max_examples=300, deadline=None)
def test_the_button_comes_before_the_voice_and_somebody_is_always_called(facts):
    steps = chosen("distress-call", facts)
    radio = facts["fixed vhf"] or facts["handheld vhf"] or facts["mf/hf"]
    button = [each for each in steps if ".button" in each]
    rest = [each for each in button if not each.endswith("-first")]
    assert len(button) <= 1 and before(steps, [each for each in steps if ".power" in each], rest)
    channel = [each for each in steps if each.startswith("distress-call.channel")]
    assert len(channel) == radio and before(steps, button, channel)
    voice = ["mayday", "identity", "position", "nature", "listen"]
    spoken = [next((each for each in voice if f".{each}" in step), "") for step in steps]
    assert [each for each in spoken if each] == (voice if radio else [])
    assert bool(button) <= radio
    rung = {"ring", "ring-unnumbered", "any-telephone", "any-telephone-unnumbered"}
    assert radio or {each.partition(".")[2] for each in steps} & rung, "somebody is always called"
    assert {"be-seen.arms", "be-seen.arms-too"} & set(chosen("be-seen", facts)), (
        "there is always a signal to the eye"
    )


@given(any_facts())
@settings(max_examples=300, deadline=None)
def test_gas_touches_no_switch_before_it_is_said(facts):
    steps = chosen("gas", facts)
    assert steps[:2] == (
        ["gas.shout", "gas.switches"] if facts["several persons"] else ["gas.switches", "gas.flames"]
    )
    assert before(steps, ["gas.muster", "gas.go-on-deck", "gas.go-upwind"], ["gas.bottle", "gas.leave"])
    assert not any("pump" in each or "engine" in each for each in steps), "nobody stays for these"


@given(any_facts())
@settings(max_examples=300, deadline=None)
def test_flooding_pumps_and_looks_before_it_mends(facts):
    steps = chosen("flooding", facts)
    look = ["flooding.find", "flooding.look"]
    assert len(set(look) & set(steps)) == 1
    by_hand = [each for each in steps if "hand-pump" in each or "bail" in each]
    assert before(steps, [each for each in steps if "pump" in each and each not in by_hand], look)
    if facts["one left"]:
        assert before(steps, look, by_hand), "one pair of hands finds the hole first"
    else:
        assert before(steps, by_hand, look)
    assert before(steps, look, ["flooding.seacocks", "flooding.plug", "flooding.own-plug", "flooding.hole"])
    behind = chosen("flooding-rises", facts)
    assert ("flooding-rises.fetch-raft" in behind) == facts["raft below"]
    assert before(behind, ["flooding-rises.fetch-raft"], ["flooding-rises.raft"])
    assert len([each for each in (*steps, *behind) if each.partition(".")[2] == "hole"]) == 1


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
