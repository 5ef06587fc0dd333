"""The hurt, the drowned, the missing and those who are left: what comes first for any boat, and what nobody is told who has no hands for it."""

import functools
import re
from datetime import date

import pytest
from fact_sample import CREWS, boats, steps_for, words_of
from specimens import VESSELS

from generator.manual.printed import Words
from generator.manual.printing import Printer
from generator.manual.procedures import compose_procedures
from generator.manual.reckoning import Reckoning
from generator.shelves.languages import catalogue
from generator.shelves.procedures import shelf
from generator.survey.registry import Sight, all_checks
from generator.vessel.loading import load

EACH = 60
OF_PEOPLE = (
    "not-breathing", "drowned", "bleeding", "burned", "chilled", "head-injury", "sick-for-days", "radio-doctor", "skipper-down",
    "somebody-missing", "trapped", "co-alarm", "petrol-vapour", "in-the-water", "man-overboard-search", "knock-down", "capsized-multihull",
    "upside-down", "turned-over", "strangers",
)  # fmt: skip
SHELF = {one.id: one for one in shelf() if one.id in OF_PEOPLE}
TO_OTHERS = re.compile(r"\b(send somebody|one of you|change over|give each|one kneels)\b", re.IGNORECASE)
"""What is said to several who can act."""
CALLS = re.compile(r"\b(call|distress button|channel 16|doctor|beacon|signal)\b", re.IGNORECASE)
CLOSES = re.compile(r"^(shut|close)\b", re.IGNORECASE)


@functools.cache
def sample():
    """The boats that are looked at."""
    return tuple(boats(EACH))


@functools.cache
def faces(name):
    """The steps of a procedure with their texts, for each boat of the sample that has it, and who is left there."""
    one, found = SHELF[name], []
    for crew, facts in sample():
        steps = steps_for(one, facts, CREWS[crew][1])
        if steps:
            left = max(CREWS[crew][1] - one.form.counts_out, 0)
            found.append((left, facts, [(step, texts(step, facts)) for step in steps]))
    return found


def texts(step, facts):
    """What a step says on such a boat, by its parts."""
    name, left_out = words_of(step, facts)
    said = catalogue().procedures[step.words_in].steps[name].texts
    return {key: text for key, text in said.items() if key not in left_out}


def test_every_one_of_them_is_looked_at():
    assert SHELF.keys() == set(OF_PEOPLE)
    assert all(map(faces, OF_PEOPLE))


@pytest.mark.parametrize("name", OF_PEOPLE)
def test_nobody_is_told_what_takes_more_hands_than_are_left(name):
    few = [texts for left, _, steps in faces(name) if left < 2 for _, texts in steps]
    assert [each for each in few if TO_OTHERS.search(" ".join(each.values()))] == []


@pytest.mark.parametrize("name", OF_PEOPLE)
def test_whoever_is_left_has_something_to_do_and_a_call_to_make(name):
    for left, facts, steps in faces(name):
        said = " ".join(" ".join(each.values()) for _, each in steps)
        assert len(steps) >= 4, (left, [step.id for step, _ in steps])
        if facts["radio aboard"] and name not in ("petrol-vapour", "in-the-water"):
            assert CALLS.search(said), (left, [step.id for step, _ in steps])


@pytest.mark.parametrize(
    ("name", "first", "then"),
    [
        ("drowned", "five", ("call-late", "shock", "shock-alone")),
        ("not-breathing", "airway", ("send", "button", "call-late", "shock", "shock-alone")),
        ("not-breathing", "press", ("call-late", "shock", "shock-alone")),
        ("bleeding", "press", ("send", "call-alone", "call-one", "tourniquet", "band")),
        ("burned", "cool", ("send", "ask", "ask-alone", "rings", "cover")),
        ("head-injury", "still", ("worse", "ask", "wake")),
        ("skipper-down", "lever", ("call", "told", "wait", "anchor")),
        ("skipper-down", "kill-cord", ("call", "told", "wait", "anchor")),
        ("trapped", "not-in", ("hatch", "window", "break", "pull")),
        ("somebody-missing", "mark", ("call", "back")),
        ("upside-down", "out", ("inflate", "raft", "beacon")),
        ("turned-over", "engine", ("climb", "bail", "call")),
    ],
)
def test_what_saves_comes_before_the_rest(name, first, then):
    seen = 0
    for _, _, steps in faces(name):
        order = [step.id.partition(".")[2] for step, _ in steps]
        if first in order:
            seen += 1
            assert [each for each in then if each in order and order.index(each) < order.index(first)] == []
    assert seen


def test_out_of_the_poison_comes_before_everything_and_no_radio_is_touched_in_petrol():
    for _, _, steps in faces("co-alarm"):
        assert steps[0][0].id in ("co-alarm.out", "co-alarm.out-alone")
    for _, _, steps in faces("petrol-vapour"):
        acts = [each["do"] for _, each in steps]
        assert not any(CALLS.search(act) for act in acts)
        switches = next(n for n, (step, _) in enumerate(steps) if step.id == "petrol-vapour.switches")
        assert switches <= 1


@pytest.mark.parametrize("name", OF_PEOPLE)
def test_nothing_is_shut_on_anybody(name):
    for _, _, steps in faces(name):
        for step, each in steps:
            if CLOSES.search(each["do"]) and "hatch" in each["do"].lower():
                assert "open" in each.get("caution", ""), step.id


def test_whoever_is_alone_is_not_told_to_look_after_somebody_else():
    for name in ("bleeding", "chilled", "head-injury", "sick-for-days"):
        for left, _, steps in faces(name):
            acts = " ".join(each["do"] for _, each in steps)
            assert left or not re.search(r"\b(them|their)\b", acts), acts


@pytest.fixture
def vessel():
    return load(VESSELS / "saltmeadow")[0]


def words(vessel):
    return Words(Reckoning(vessel).words, Printer(catalogue()))


def test_the_set_to_call_on_is_the_one_that_carries_farthest(vessel):
    assert words(vessel)["radio-place"] == "chart table, starboard"
    assert Reckoning(vessel).facts["radio aboard"]
    vessel.radio.__dict__["sets"] = tuple(each for each in vessel.radio.sets if each.kind == "handheld VHF")
    assert words(vessel)["radio-place"] == "companionway, starboard, in the grab bag"
    vessel.radio.__dict__["sets"] = ()
    assert "radio-place" not in words(vessel)
    assert not Reckoning(vessel).facts["radio aboard"]


def test_medical_advice_is_a_channel_before_it_is_anything_else(vessel):
    assert words(vessel)["medical-advice"] == "VHF 16: ask the coastguard for medical advice"
    vessel.__dict__["contacts"] = ()
    assert "medical-advice" not in words(vessel)
    tresmare = load(VESSELS / "tresmare")[0]  # whose contact has a telephone number alone
    assert words(tresmare)["medical-advice"] == "the doctor ashore, by satellite telephone"


def test_the_next_in_command_is_somebody_else(vessel):
    assert words(vessel)["second in command"] == "mate"
    assert Reckoning(vessel).facts["another in command"]
    able = [each for each in vessel.people if "command" in each.abilities]
    for each in able[1:]:
        each.__dict__["abilities"] = ()
    assert "second in command" not in words(vessel)
    assert not Reckoning(vessel).facts["another in command"]
    able[0].__dict__["quantity"] = 2
    assert words(vessel)["second in command"] == "skipper"


def test_a_device_of_which_nobody_says_how_is_switched_on_without_a_gap(vessel):
    def step():
        composed, gaps = compose_procedures(Reckoning(vessel), catalogue())
        assert gaps == []
        water = next(one for one in composed if one.kind == "in-the-water")
        return next(each.text for each in water.steps if each.id == "in-the-water.device")

    assert step() == "Switch on your device: pull the tab and turn the aerial up."
    next(each for each in vessel.radio.beacons if "AIS" in each.kind).__dict__["use"] = None
    assert step() == "Switch on the device you carry."


def test_people_are_reached_by_what_opens_from_outside(vessel):
    assert words(vessel)["ways in"] == "companionway; forward cabin; saloon"
    vessel.escape[1].__dict__["opens"] = "inside"
    assert words(vessel)["ways in"] == "companionway; saloon"
    for each in vessel.escape:
        each.__dict__["opens"] = "inside"
    assert not Reckoning(vessel).facts["ways in"]
    steps = next(
        one.steps for one in compose_procedures(Reckoning(vessel), catalogue())[0] if one.kind == "trapped"
    )
    assert [step.id for step in steps if step.id in ("trapped.hatch", "trapped.window")] == ["trapped.window"]


def test_a_boat_that_sinks_is_not_stayed_with():
    boat = load(VESSELS / "kelpwren")[0]

    def swamped():
        return next(
            one for one in compose_procedures(Reckoning(boat), catalogue())[0] if one.kind == "turned-over"
        )

    assert "Stay with it" in swamped().intro
    boat.capsize.__dict__["swamped"] = "sinks"
    assert Reckoning(boat).facts["sinks when swamped"]
    assert "goes down" in swamped().intro
    ids = [step.id for step in swamped().steps]
    assert "turned-over.what-floats" in ids
    assert not {"turned-over.stay", "turned-over.climb", "turned-over.bail"} & set(ids)


def test_the_autopilot_is_switched_off_where_it_is_listed(vessel):
    day = date(2026, 6, 1)
    item = vessel.gear[0]
    item.__dict__.update(what="autopilot", where="cockpit", side="starboard", spot="the key marked STANDBY")
    item.__dict__.pop("_gear_kind", None)
    composed = compose_procedures(Reckoning(vessel), catalogue())[0]
    down = next(one for one in composed if one.kind == "skipper-down")
    step = next(step for step in down.steps if step.id == "skipper-down.autopilot")
    assert step.place == "cockpit, starboard, the key marked STANDBY"
    assert [each.name for each in step.gear] == ["autopilot"]
    assert list(all_checks()["gear.autopilot-place"].find(Sight(vessel, day, day))) == []
