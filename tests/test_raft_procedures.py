"""The procedures of the raft on the shelf and for particular boats; what holds for every raft is in test_raft_invariants.py."""

import itertools
from pathlib import Path

import pytest
from documents.evidence import to_confirm
from rafts import KINDS, boat, compose, fitting

from generator.manual.procedures import compose_procedures, in_sequence
from generator.manual.reckoning import Reckoning
from generator.reading.findings import Weight
from generator.shelves.languages import catalogue
from generator.shelves.procedures import shelf
from generator.shelves.stowages import stowages
from generator.vessel.loading import load

ROOT = Path(__file__).resolve().parent.parent


def fresh(name):
    """A specimen of one's own, to be changed."""
    return load(ROOT / "vessels" / name)[0]


def test_a_boat_without_a_raft_is_told_nothing_of_one():
    vessel = fresh("saltmeadow")
    vessel.__dict__["rafts"] = []
    composed, gaps = compose_procedures(Reckoning(vessel), catalogue())
    assert gaps == []
    assert [one.kind for one in composed if one.kind in KINDS] == ["abandon-ship", "boat-recovered"]
    steps = {step.id: step for one in composed if one.kind in KINDS for step in one.steps}
    assert "abandon-ship.together" in steps
    assert not {"boat-recovered.keep-raft", "boat-recovered.service", "abandon-ship.launch"} & set(steps)


@pytest.mark.parametrize("stowage", sorted(name for name, row in stowages().items() if not row.launching_aid))
def test_alone_aboard_nobody_is_told_to_lift_with_another(stowage):
    case = compose(
        "saltmeadow",
        persons=1,
        stowage=stowage,
        lift_needed=True,
        held_by=("strap",),
        fast_to="strong point",
        container=stowages()[stowage].container[0],
    )
    assert case.at(".tip"), case.ids()
    assert not case.at(".lift", ".call", ".up"), case.ids()
    assert case.step("abandon-ship.call-alone")


def test_in_chocks_without_a_lashing_the_raft_floats_off_by_itself():
    case = compose("saltmeadow", stowage="deck cradle", held_by=(), fast_to="weak link")
    assert case.facts["float-free"]
    assert case.step("raft-launch.painter-joint-chocks")
    assert case.step("raft-automatic.untouched-chocks")
    told = " ".join(
        text
        for one in (case.procedures["raft-launch"], case.procedures["raft-automatic"])
        for step in one.steps
        for text in (step.text, step.unless, step.caution, step.why)
    )
    assert "HRU" not in told
    for changed in ({"stowage": "deck locker"}, {"container": "valise"}, {"fast_to": "strong point"}):
        values = {
            "stowage": "deck cradle",
            "container": "canister",
            "held_by": (),
            "fast_to": "weak link",
        } | changed
        assert not compose("saltmeadow", **values).facts["float-free"], changed


def test_two_rafts_are_each_named_with_their_people_and_the_lee_one_goes_first():
    vessel = fresh("nordgyllen")
    composed, gaps = compose_procedures(Reckoning(vessel), catalogue())
    assert gaps == []
    steps = {step.id: step for one in composed if one.kind == "abandon-ship" for step in one.steps}
    assert "lee side first" in steps["abandon-ship.lee-first"].text
    assert "beside each" in steps["abandon-ship.launch-several"].text
    for raft in vessel.rafts:
        own = ", ".join(raft.carries)
        assert own in steps["abandon-ship.own-raft"].caution
        boarding = next(one for one in composed if one.kind == "boarding" and one.raft is raft)
        assert any(own in step.text for step in boarding.steps)
    vessel.rafts[1].__dict__["first_to_launch"] = 1
    composed, _ = compose_procedures(Reckoning(vessel), catalogue())
    steps = {step.id: step for one in composed if one.kind == "abandon-ship" for step in one.steps}
    assert "starboard liferaft first" in steps["abandon-ship.first"].text
    assert "abandon-ship.lee-first" not in steps


def test_two_rafts_whose_people_are_not_said_leave_a_gap():
    vessel = fresh("nordgyllen")
    vessel.rafts[1].__dict__["carries"] = ()
    _, gaps = compose_procedures(Reckoning(vessel), catalogue())
    assert [(gap.check, gap.place.key) for gap in gaps] == [
        ("steps.gap", "rafts[starboard liferaft].carries")
    ]


def test_a_step_made_too_long_by_the_boats_own_words_names_the_key():
    vessel = fresh("zilte-wind")
    raft = vessel.rafts[0]
    words = "the big shiny eye bolt that goes right through the cockpit side just ahead of the starboard winch base"
    raft.__dict__["strong_point"] = fitting(words, raft.strong_point)
    _, found = compose_procedures(Reckoning(vessel), catalogue())
    assert [(each.check, each.weight, each.place.key) for each in found] == [
        ("steps.too-long", Weight.RECOMMENDATION, "rafts[liferaft].strong-point.what")
    ]
    assert found[0].place.line == raft.place("strong-point").line
    assert found[0].remedy.endswith("as people aboard would call it: 6 words less")


@pytest.mark.parametrize(
    ("path", "name", "words"),
    [
        ("gear[fire blanket]", "spot", "to the left of the cooker as you face it"),
        ("gear[throwing line, 20 m]", "spot", "hung on the pushpit rail within reach of the helm"),
        ("stops[engine]", "how", "push the yellow lever all the way down and hold it"),
        (
            "recovery.hoist",
            "spot",
            "led through the block at the end of the boom to the winch on the coachroof",
        ),
    ],
)
def test_plain_words_make_no_step_too_long(path, name, words):
    vessel = fresh("zilte-wind")
    block = next((each for each in vessel.inner() if each.path == path), None)
    assert block is not None
    block.__dict__[name] = words
    assert compose_procedures(Reckoning(vessel), catalogue())[1] == []


def test_of_a_place_the_spot_is_named_that_is_too_long():
    vessel = fresh("saltmeadow")
    vessel.recovery.ladder.__dict__["spot"] = (
        "on the forward bulkhead behind the oilskins that hang there, above the second of the three sail bags, in two leather loops"
    )
    _, found = compose_procedures(Reckoning(vessel), catalogue())
    assert [(each.check, each.place.key) for each in found] == [("steps.too-long", "recovery.ladder.spot")]


def test_nothing_of_a_raft_waits_for_the_call():
    for one in shelf():
        for step in one.steps:
            assert one.id not in KINDS or not [
                name for name in step.after if name.partition(".")[2].startswith("call")
            ], step.id


def test_holds_come_off_in_the_order_of_the_file():
    launch = next(one for one in shelf() if one.id == "raft-launch")
    freed = [step for step in launch.steps if step.id in ("pin.pull", "strap.undo", "lashing.cut")]
    for order in itertools.permutations(("pin", "strap", "lashing")):
        assert [step.hold for step in in_sequence(freed, order)] == list(order)


def test_what_is_to_be_confirmed_is_listed_from_shelf_and_boat():
    names = {step.id for step in to_confirm(shelf())}
    vessel, _ = boat("saltmeadow")
    printed = {step.id for step in to_confirm(compose_procedures(Reckoning(vessel), catalogue())[0])}
    assert {"raft-launch.painter-also", "raft-trouble.on-deck"} <= printed < names
