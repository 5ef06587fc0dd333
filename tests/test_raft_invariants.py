"""Every valid raft, on one hull and on two, and every boat with parts of her raft changed: the invariants hold, no step is too long.

A run composes one raft in five of each stowage, container, first hold and painter on each hull; with --all-mutants all.
"""

import re

import boarding_invariants
import pytest
import raft_rig_invariants
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from raft_invariants import EXCEPTIONS, INVARIANTS
from rafts import BOATS, KINDS, boat, combinations, compose
from sampled import spread

from generator.manual.measuring import MOST_WORDS
from generator.reading.names import STANDINGS
from generator.shelves.languages import catalogue
from generator.shelves.procedures import shelf
from generator.shelves.stowages import holds, stowages

EVERY = 5  # no multiple of the ways in which a painter is fast and a raft lifted: all of them come up
MOST_STEPS = 9  # what one face may hold
CONDITIONS = (
    "After",
    "As",
    "At",
    "Before",
    "By",
    "From",
    "In",
    "Once",
    "Unless",
    "When",
    "While",
    "If",
    "Until",
    "On",
    "With",
)
VERBS = frozenset(
    re.findall(
        r"\w+",
        """Agree Also Ask Bail Bring Call Catch Check Choose Climb Close Count Cut Do Drive Feel Get Give Go Hand Hold Hook Inflate Join Keep
    Knock Launch Leave Let Lift Look Never Open Pass Paddle Post Pull Pump Push Put Read Report Select Send Share Slide Sound Stand Stay Step
    Stop Stow Swing Switch Take Throw Tie Tip Treat Turn Undo Watch Wedge Wrap Wring Fire Shine Use Cover Swim Lie
    Make Clip Brace Set Free Lead Board Lean Eat Have Lower Wring Dry Drink Unclip See Untie Tug Shout Say Help Come Kick Plug Burn""",
    )
)


ASKED = [(hull, raft) for hull in ("monohull", "catamaran") for raft in combinations()]


def _alike(asked):
    """Rafts of one family: hull, stowage, container, what holds first, to what the painter is fast."""
    hull, raft = asked
    return hull, raft["stowage"], raft["container"], raft["held_by"][:1], raft["fast_to"]


@pytest.fixture(scope="module")
def cases(one_in):
    """Valid combinations on both hulls, and the boats as they are."""
    chosen = spread(ASKED, one_in(EVERY), _alike)
    made = [compose("saltmeadow", hull=hull, **raft) for hull, raft in chosen]
    return [*made, *(compose(name) for name in BOATS)]


def test_there_are_thousands_and_each_stowage_and_hold_is_among_those_looked_at(cases, one_in):
    every = one_in(EVERY)
    assert len(ASKED) > 2000
    assert len(cases) > 2000 / every
    assert sum(case.facts["float-free"] for case in cases) > 400 / every
    assert {case.asked.get("stowage") for case in cases} >= set(stowages())
    assert {hold for case in cases for hold in case.held_by} == set(holds())
    assert len(INVARIANTS) >= 30
    for module in (boarding_invariants, raft_rig_invariants):
        assert any(each.__module__ == module.__name__ for each in INVARIANTS.values())


@pytest.mark.parametrize("name", INVARIANTS)
def test_the_invariant_holds(name, cases):
    for case in cases:
        try:
            INVARIANTS[name](case)
        except (AssertionError, ValueError, AttributeError, StopIteration, IndexError) as error:
            pytest.fail(f"{name}: {INVARIANTS[name].__doc__}\n{case.asked}\n{error!r}\n{case.ids()}")


@pytest.mark.parametrize("name", INVARIANTS)
def test_the_invariant_is_explained(name):
    said = INVARIANTS[name].__doc__
    assert "xception" in said, "it names its exceptions, or says that there is none"


@pytest.mark.parametrize(("name", "step", "words"), EXCEPTIONS)
def test_the_exception_prints_beside_its_step(name, step, words, cases):
    found = [
        composed
        for case in [*cases, compose("nordgyllen", first_to_launch=1)]
        if (composed := case.step(step)) is not None
    ]
    assert found or step == "abandon-ship.suit", f"{name}: no boat prints {step}"
    for each in found:
        assert all(word in each.unless for word in words), (name, step, each.unless)


BLOCKS = st.fixed_dictionaries(
    {
        "boarding": st.sampled_from(["ramp", "ladder", "ramp and ladder", "none"]),
        "righting": st.sampled_from(["strap", "ladder", "none"]),
        "drogue": st.sampled_from(["by hand", "streams itself", None]),
        "canopy": st.sampled_from([True, False, None]),
        "cylinder_side": st.sampled_from(["marked", "not marked", None]),
        "pack": st.sampled_from(["SOLAS A", "SOLAS B", "over 24 h", "under 24 h", "coastal", "none"]),
        "entrances": st.sampled_from([None, 1, 2]),
        "launch_from": st.sampled_from(["the gate on the lee side", "the port side gate", "the stern"]),
    }
)


@given(
    st.sampled_from(BOATS),
    st.sampled_from(["monohull", "catamaran", "trimaran", "motor vessel"]),
    st.sampled_from([1, 2, 6]),
    st.booleans(),
    st.tuples(st.sampled_from(list(combinations())), BLOCKS),
)
@settings(max_examples=250, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_the_invariants_hold_for_any_boat(name, hull, persons, radio, raft):
    case = compose(name, hull=hull, persons=persons, radios=None if radio else [], **raft[0], **raft[1])
    for invariant in INVARIANTS.values():
        invariant(case)
    for kind in KINDS:
        _check_steps(case, kind)


def test_every_step_is_short_whole_and_one_act(cases):
    for case in cases:
        for kind in KINDS:
            _check_steps(case, kind)


def _check_steps(case, kind):
    one = case.procedures[kind]
    assert one.title
    assert 1 <= len(one.steps) <= MOST_STEPS, (case.asked, kind, " ".join(case.ids(kind)))
    for step in one.steps:
        told = (step.text, step.unless, step.caution, step.why)
        assert len(step.text.split()) <= MOST_WORDS, (case.asked, step.id, step.text)
        assert not any("{" in text or "not known" in text for text in told), (case.asked, step.id)
        assert step.standing in STANDINGS, step.id
        assert step.source, step.id
        if case.facts["several persons"] is False:
            assert "each end" not in step.text, step.text
            assert "others" not in step.text, step.text
            assert "both ends" not in step.text, step.text


def test_a_launch_stays_short(cases):
    """A gate that must be opened adds the one step that opens it."""
    assert max(len(case.ids()) - ("raft-launch.gate" in case.ids()) for case in cases) <= 14
    assert {kind for kind in KINDS if kind not in cases[0].procedures} <= {"raft-rises"}


def _worded():
    words = catalogue().procedures
    return [
        (step, words[step.words_in].steps[step.id].texts)
        for one in shelf()
        if one.id in KINDS
        for step in one.steps
    ]


@pytest.mark.parametrize(("step", "text"), _worded(), ids=lambda each: getattr(each, "id", ""))
def test_a_step_is_an_act_or_its_condition_and_then_the_act(step, text):
    first = re.split(r"[ ,]", text["do"])[0]
    if first in CONDITIONS:
        assert ", " in text["do"] or first in ("From", "As", "At"), text["do"]
        acts = {part.split()[0].strip(":").capitalize() for part in text["do"].split(", ")[1:]}
        acts |= {word.capitalize() for word in text["do"].split(" ")[3:5]} if first == "From" else set()
        assert acts & VERBS, f"{step.id}: condition, comma, act; it has {acts}"
    else:
        assert first in VERBS | {"One"}, f"{step.id}: '{first}' is no act"


@pytest.mark.parametrize(("step", "text"), _worded(), ids=lambda each: getattr(each, "id", ""))
def test_the_lowest_standing_governs(step, text):
    """A source that says "common practice" or "from memory" of a part of the step may not stand higher than that part."""
    marks = {
        "secondary": 1,
        "common practice": 2,
        "trade practice": 2,
        "handbook practice": 2,
        "from memory": 3,
    }
    lowest = max([rank for word, rank in marks.items() if word in step.source], default=0)
    assert STANDINGS.index(step.standing) >= lowest, (step.id, step.standing, step.source)


def test_every_float_free_wording_is_on_the_list_to_confirm():
    listed = {step.id for one in shelf() for step in one.steps if step.confirm}
    assert listed >= {
        "raft-launch.painter-joint",
        "raft-launch.painter-joint-chocks",
        "raft-launch.painter-also",
        "hru.leave",
        "hru.cut",
        "boarding.cut-by-hand",
        "raft-automatic.untouched",
        "raft-automatic.cut",
    }


def test_the_step_names_its_place_where_it_has_one(cases):
    """A step with a place prints it: in its words, or beside it."""
    unplaced = {step.id for one in shelf() if one.id in KINDS for step in one.steps if step.place}
    for case in cases[-4:]:
        for kind in KINDS:
            for step in case.steps(kind):
                assert step.id not in unplaced or step.place, (case.asked, step.id)


def test_the_boats_are_put_back():
    before = dict(boat("saltmeadow")[0].rafts[0].__dict__)
    compose("saltmeadow", hull="catamaran", stowage="davit")
    assert boat("saltmeadow")[0].rafts[0].__dict__ == before
