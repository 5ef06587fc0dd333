"""The procedures of the raft on the shelf and for particular boats; what holds for every raft is in test_raft_invariants.py."""

import datetime as dt
import itertools
import re
from pathlib import Path

import pytest
from documents.evidence import to_confirm
from rafts import KINDS, boat, compose, fitting

from generator.manual.composing import compose as compose_manual
from generator.manual.measuring import MOST_WORDS
from generator.manual.procedures import compose_procedures, in_sequence
from generator.manual.reckoning import Reckoning
from generator.reading.findings import Weight
from generator.shelves.languages import catalogue
from generator.shelves.procedures import shelf
from generator.shelves.stowages import stowages
from generator.vessel.loading import load

AS_OF = dt.date(2026, 6, 1)
WITHOUT = ("dinghy-launch", "into-the-dinghy", "in-the-dinghy", "into-the-water", "adrift", "full-of-water")
ROOT = Path(__file__).resolve().parent.parent


def fresh(name):
    """A specimen of one's own, to be changed."""
    return load(ROOT / "vessels" / name)[0]


def test_a_boat_without_a_raft_is_told_nothing_of_one():
    vessel = fresh("saltmeadow")
    vessel.__dict__["rafts"] = []
    composed, gaps = compose_procedures(Reckoning(vessel), catalogue())
    assert gaps == []
    assert [one.kind for one in composed if one.kind in KINDS] == [
        "abandon-ship",
        "ready-to-leave",
        "boat-recovered",
    ]
    steps = {step.id: step for one in composed if one.kind in KINDS for step in one.steps}
    assert [one.kind for one in composed if one.kind in ("into-the-water", "adrift")]
    assert not {"boat-recovered.keep-raft", "boat-recovered.service", "leaving.launch"} & set(steps)


OF_A_RAFT = re.compile(r"\b(life ?)?rafts?\b|\bpainter\b|\bcanister\b|\bvalise\b", re.IGNORECASE)


@pytest.mark.parametrize("name", ["saltmeadow", "ombrelune", "nordgyllen", "tansywade", "kelpwren"])
@pytest.mark.parametrize("persons", [1, 2, 12])
def test_whatever_a_boat_without_a_raft_prints_names_none(name, persons):
    vessel = fresh(name)
    vessel.__dict__["rafts"] = []
    vessel.vessel.__dict__["persons"] = persons
    if vessel.capsize is not None:
        vessel.capsize.__dict__["reached"] = ()
    manual, _ = compose_manual(vessel, AS_OF, AS_OF, catalogue())
    said = [
        text
        for one in manual.procedures
        for text in (
            one.title, one.intro, *(leave.words for leave in one.leaves), one.end.words if one.end else "",
            *(each for step in one.steps for each in (step.text, step.place, step.unless, step.caution, step.why)),
        )
    ]  # fmt: skip
    said += [duty.text for each in manual.bill.emergencies for duty in each.duties]
    assert len(said) > 500
    assert [text for text in said if OF_A_RAFT.search(text)] == []
    sources = [step.source for one in manual.procedures if one.kind in WITHOUT for step in one.steps]
    assert sources
    assert [text for text in sources if OF_A_RAFT.search(text)] == []


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
    assert case.step("ready-to-leave.call-alone")


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
    steps = {step.id: step for one in composed if one.kind == "leaving" for step in one.steps}
    assert "lee side first" in steps["leaving.lee-first"].text
    assert "beside each" in steps["leaving.launch-several"].caution
    for raft in vessel.rafts:
        own = ", ".join(raft.carries)
        assert own in steps["leaving.own-raft"].caution
        boarding = next(one for one in composed if one.kind == "boarding" and one.raft is raft)
        assert any(own in step.text for step in boarding.steps)
    vessel.rafts[1].__dict__["first_to_launch"] = 1
    composed, _ = compose_procedures(Reckoning(vessel), catalogue())
    steps = {step.id: step for one in composed if one.kind == "leaving" for step in one.steps}
    assert "first: the starboard liferaft" in steps["leaving.first"].text
    assert "leaving.lee-first" not in steps


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


def test_the_line_that_says_where_is_measured_too():
    """The place of the fixed VHF stands beside the step of the call, and in no sentence of a boat without a fire."""
    vessel = fresh("saltmeadow")
    (vhf,) = [each for each in vessel.radio.sets if each.kind == "VHF"]
    words = "on the forward face of the chart table just below the shelf with the almanacs and pilots that the barometer stands upon too"
    vhf.__dict__["spot"] = words
    _, found = compose_procedures(Reckoning(vessel), catalogue())
    assert [(each.check, each.place.key) for each in found] == [("steps.too-long", f"{vhf.path}.spot")]
    assert len(words.split()) > MOST_WORDS
    vessel = fresh("saltmeadow")
    stop = next(each for each in vessel.stops if each.what == "engine")
    stop.__dict__["spot"] = words
    _, found = compose_procedures(Reckoning(vessel), catalogue())
    assert [(each.check, each.place.key) for each in found] == [("steps.too-long", f"{stop.path}.spot")]
    assert "the place beside the step 'leaving.engine'" in found[0].message


def test_nothing_of_a_raft_waits_for_the_call():
    for one in shelf():
        for step in one.steps:
            assert one.id not in KINDS or not [
                name for name in step.after if name.partition(".")[2].startswith("call")
            ], step.id


def test_holds_come_off_in_the_order_of_the_file():
    launch = next(one for one in shelf() if one.id == "raft-overboard")
    freed = [step for step in launch.steps if step.id in ("pin.pull", "strap.undo", "lashing.cut")]
    for order in itertools.permutations(("pin", "strap", "lashing")):
        assert [step.hold for step in in_sequence(freed, order)] == list(order)


def test_what_is_to_be_confirmed_is_listed_from_shelf_and_boat():
    names = {step.id for step in to_confirm(shelf())}
    vessel, _ = boat("saltmeadow")
    printed = {step.id for step in to_confirm(compose_procedures(Reckoning(vessel), catalogue())[0])}
    assert {"raft-launch.painter-also", "raft-trouble.on-deck"} <= printed < names


@pytest.mark.parametrize(
    ("held_by", "fast_to", "untold"),
    [
        ("unknown", "weak link", True),
        ("[Senhouse slip, HRU, strap]", "unknown", True),
        ("unknown", "unknown", True),
        ("unknown", "strong point", False),
        ("[strap]", "unknown", False),
    ],
)
def test_a_rig_that_is_not_known_is_not_said_to_be_one_or_the_other(held_by, fast_to, untold, tmp_path):
    """Held by unknown: nobody reads that it does not release itself, nor that it does; its painter is tied, its joint left alone."""
    text = (ROOT / "vessels" / "saltmeadow" / "vessel.yaml").read_text(encoding="utf-8")
    text = re.sub(r"(?m)^(    held-by: ).*$", lambda found: found[1] + held_by, text)
    text = re.sub(r"(fast-to: )[\w ]+", lambda found: found[1] + fast_to, text)
    text = re.sub(r"(painter: \{?\s*length: )(\{[^}]*\}|[\w. ]+)", r"\1unknown", text)
    (tmp_path / "vessel.yaml").write_text(text, encoding="utf-8")
    composed, _ = compose_procedures(Reckoning(load(tmp_path)[0]), catalogue())
    steps = {step.id: step for one in composed for step in one.steps}
    assert ("raft-launch.painter-untold" in steps) == ("raft-automatic.by-hand-untold" in steps) == untold
    assert "raft-automatic.by-hand" not in steps
    assert ("raft-automatic.by-hand-only" in steps) != untold
    assert ("raft-launch.free-untold" in steps) == (held_by == "unknown")
    assert steps["raft-launch.pull"].text == "Pull the painter out to its very end."
    if untold:
        assert "not known whether" in steps["raft-automatic.by-hand-untold"].caution
        assert "untie" in steps["raft-trouble.give-up-untold"].text
        assert not any("rigged to release itself" in step.caution for step in steps.values())
