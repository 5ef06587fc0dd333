"""The order that lives hang on in the emergencies of ground, gear, weather and tow, for every combination of facts."""

import re

import pytest
from fact_sample import boats

from generator.manual.procedures import holds, in_sequence
from generator.shelves.languages import catalogue
from generator.shelves.procedures import shelf

PROCEDURES = {one.id: one for one in shelf()}
OURS = [
    "power-lost", "collision", "grounding", "anchoring", "dragging", "steering-lost", "propeller-fouled",
    "stay-parted", "mast-down", "heavy-weather", "bar", "lightning", "under-tow",
]  # fmt: skip
MOST = 9
"""As many steps as one face of a card holds."""


BOATS = [facts for _, facts in boats(300)]


def steps_for(name, facts):
    """The steps of a procedure in their order, by the last part of their ids; none where it does not hold."""
    one = PROCEDURES[name]
    if not holds(one.when, one.when_any, facts):
        return []
    chosen = [step for step in one.steps if holds(step.when, step.when_any, facts)]
    return [step.id.partition(".")[2] for step in in_sequence(chosen)]


def before(steps, first, second):
    """Whether all of `first` stand before all of `second`, of those that are there."""
    earlier = [steps.index(each) for each in first if each in steps]
    later = [steps.index(each) for each in second if each in steps]
    return not earlier or not later or max(earlier) < min(later)


def test_each_fits_one_face_and_none_is_empty():
    for facts in BOATS:
        for name in OURS:
            steps = steps_for(name, facts)
            assert len(steps) <= MOST, (name, steps)
            assert not holds(PROCEDURES[name].when, PROCEDURES[name].when_any, facts) or len(steps) > 2, name


def test_help_is_called_once_and_holds_up_nothing_of_the_first_moment():
    for facts in BOATS:
        for name in OURS:
            steps = steps_for(name, facts)
            calls = [each for each in steps if each in ("call", "signal", "tell")]
            assert len(calls) <= 1, (name, steps)
            if steps and name not in ("heavy-weather", "bar", "lightning", "under-tow"):
                assert len(calls) == 1, (name, steps)
                assert steps.index(calls[0]) > 0, (name, steps)


def test_off_a_lee_shore_sail_anchor_and_call_come_before_the_fault():
    for facts in BOATS:
        steps = steps_for("power-lost", facts)
        if steps:
            assert steps[0] == "turn"
            assert steps[-1] in ("fault", "fault-kill-cord")
            assert sum(each.startswith("anchor") for each in steps) == facts["has anchor"]
            assert before(steps, ["sail", "row"], ["anchor", "anchor-under-sail"])


def test_nobody_pulls_her_off_before_her_bilge_was_looked_at():
    for facts in BOATS:
        steps = steps_for("grounding", facts)
        assert before(steps, ["neutral", "tilt", "sails"], ["look", "look-in-the-open"])
        assert before(steps, ["look", "look-in-the-open", "call", "signal"], ["off", "lean"])
        assert len({"look", "look-in-the-open"} & set(steps)) == 1
        assert len({"count", "lifejacket"} & set(steps)) == 1


def test_after_a_collision_she_is_stopped_and_people_are_counted_first():
    for facts in BOATS:
        steps = steps_for("collision", facts)
        assert steps[0] == "stop"
        assert steps[1] in ("count", "ask")
        assert len({"look", "look-alone", "look-in-the-open"} & set(steps)) == 1
        assert before(steps, ["call", "signal"], ["stand-by", "names"])


def test_an_anchor_is_made_fast_before_it_goes_and_nobody_goes_forward_bare():
    for facts in BOATS:
        steps = steps_for("anchoring", facts)
        if steps:
            assert steps[0] == "lifejacket"
            assert len({"let-go", "lower"} & set(steps)) == 1
            assert before(steps, ["stop", "end"], ["let-go", "lower"])
            assert before(steps, ["let-go", "lower", "length"], ["snub"])
        drags = steps_for("dragging", facts)
        assert before(
            drags, ["wake", "engine", "sail", "oars", "lifejacket"], ["more-line", "second", "again", "slip"]
        )
        assert not {"slip", "slip-somehow"} & set(drags) or facts["engine"], (
            "without an engine the anchor is all there is"
        )


def test_no_propeller_turns_among_ropes_or_beside_a_hand():
    for facts in BOATS:
        mast = steps_for("mast-down", facts)
        assert before(mast, ["engine"], ["count", "hold"])
        assert before(mast, ["engine", "cut", "pins", "lash"], ["start"])
        assert len({"cut", "pins"} & set(mast)) == bool(mast)
        fouled = steps_for("propeller-fouled", facts)
        if fouled:
            assert fouled[0] == "stop"
            assert len({"no-diving", "no-diving-few"} & set(fouled)) == 1
            assert ("no-diving" in fouled) == facts["more than two left"]
            assert before(fouled, ["nobody-starts"], ["pull", "pole", "tilt", "tilt-that"])
            assert before(
                fouled, ["pull", "pole", "tilt", "tilt-that", "no-diving", "no-diving-few"], ["start"]
            )


def test_something_steers_her_wherever_something_can():
    for facts in BOATS:
        steps = steps_for("steering-lost", facts)
        ways = {"tiller", "tiller-somehow", "engines", "by-hand", "trim", "oar", "drogue"} & set(steps)
        able = (
            "emergency tiller told",
            "several engines",
            "outboard engine",
            "sailing",
            "moved by hand",
            "has drogue",
        )
        assert bool(ways) == any(facts[each] for each in able), (steps, facts)
        assert before(steps, ["slow", "slow-sails", "warn"], ["look", *sorted(ways)])


def test_who_is_left_is_told_what_so_many_can_do():
    for facts in BOATS:
        weather = steps_for("heavy-weather", facts)
        assert len({"seat", "watch", "rest"} & set(weather)) == 1
        assert ("rest" in weather) == (not facts["several persons"])
        assert before(weather, ["lifejackets", "close", "stow"], ["bow", "shelter", "tell"])
        for name in ("collision", "grounding", "mast-down", "lightning"):
            told = {"count", "struck"} & set(steps_for(name, facts))
            assert not told or facts["several persons"], name


SAID = [
    (f"{step.id}: {key}", words)
    for name in OURS
    for step in PROCEDURES[name].steps
    for key in (step.id, *(each.words for each in step.other_words if each.words))
    for words in [catalogue().procedures[step.words_in].steps[key].texts]
]


@pytest.mark.parametrize(("name", "words"), SAID, ids=[name for name, _ in SAID])
def test_nobody_is_sent_into_a_flooded_space_and_nothing_is_shut_on_anybody(name, words):
    act = words["do"].lower()
    if re.search(r"\bbelow\b|\binside\b(?!,)", act) and re.match(r"(?:send|look)\b", act):
        assert "water stands above the floor" in words.get("unless", ""), name
    if re.match(r"(?:close|shut)\b", act):
        assert re.search(r"(?:some|any)body .* first", words["unless"]), name
