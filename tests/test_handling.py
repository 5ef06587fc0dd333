"""What the file tells of anchors, steering, drive and towline is what the steps print, and what the facts of handling say."""

import pytest
from specimens import VESSELS
from test_procedures import boat, composed

from generator.manual.facts import facts_of
from generator.manual.inventory import list_items
from generator.outputs import Job, book
from generator.publishing import Order, survey
from generator.reading.values import UNKNOWN


def facts(name, **changed):
    """The facts of a specimen with values replaced."""
    vessel = boat(name, **changed)
    return facts_of(vessel, list_items(vessel))


def steps(name, procedure, **changed):
    """The steps of one procedure of a specimen with values replaced, by the last part of their ids."""
    procedures, gaps = composed(boat(name, **changed))
    assert gaps == []
    return {step.id.partition(".")[2]: step for step in procedures[procedure].steps}


@pytest.mark.parametrize(
    ("name", "changed", "so"),
    [
        ("saltmeadow", {}, {"sailing", "several anchors", "anchor rode told", "letting the anchor go told", "slipping the anchor told", "tow point told", "emergency tiller told", "fit of the tiller told"}),
        ("nordgyllen", {}, {"several anchors", "anchor rode told", "letting the anchor go told", "slipping the anchor told", "tow point told", "emergency tiller told", "fit of the tiller told"}),
        ("kelpwren", {}, {"outboard engine", "drives tilt"}),
        ("tansywade", {}, {"outboard engine", "drives tilt"}),
        ("zilte-wind", {}, {"sailing", "anchor rode told"}),
        ("zilte-wind", {"vessel__rig": "none"}, {"anchor rode told"}),
        ("saltmeadow", {"gear": [], "vessel__tow_point": UNKNOWN, "steering__fits": None}, {"sailing", "emergency tiller told"}),
        ("saltmeadow", {"gear": [], "vessel__tow_point": None, "steering": None}, {"sailing"}),
    ],
)  # fmt: skip
def test_the_facts_of_handling(name, changed, so):
    asked = (
        "sailing", "outboard engine", "drives tilt", "several anchors", "anchor rode told", "letting the anchor go told",
        "slipping the anchor told", "tow point told", "emergency tiller told", "fit of the tiller told",
    )  # fmt: skip
    there = facts(name, **changed)
    assert {each for each in asked if there[each]} == so


def test_an_outboard_that_turns_a_shaft_is_not_tilted():
    """What the engines are said to turn counts more than their kind."""
    engines = boat("tansywade").engines
    for each in engines:
        each.__dict__["drive"] = "jet"
    assert not facts("tansywade", engines=engines)["drives tilt"]


def test_an_anchor_is_let_go_and_slipped_as_the_file_says():
    said = steps("zilte-wind", "anchoring")
    assert "lower" in said
    assert said["length"].caution.endswith("All there is: 40 m.")
    told = steps("nordgyllen", "anchoring")
    assert told["let-go"].text == (
        "Let the anchor go: anchor locker – slacken the brake of the windlass with its handwheel."
    )
    slipped = steps("nordgyllen", "dragging")["slip"]
    assert slipped.text.endswith("knock out the pin at the end of the chain.")
    assert "slip-somehow" in steps("zilte-wind", "dragging")


def test_the_only_anchor_stands_without_its_place():
    gear = [item for item in boat().gear if not str(item.what).startswith("second anchor")]
    said = steps("saltmeadow", "anchoring", gear=gear)["let-go"]
    assert said.text == "Let the anchor go: lift the pawl and slacken the clutch of the windlass."
    assert said.place == "anchor locker"


def test_a_towline_is_made_fast_where_the_file_says():
    assert steps("saltmeadow", "under-tow")["fast"].text == "Make it fast: both bow cleats (foredeck)."
    assert "spread" in steps("zilte-wind", "under-tow")
    assert "low" in steps("kelpwren", "under-tow")


def test_the_emergency_tiller_is_fitted_where_it_fits():
    said = steps("saltmeadow", "steering-lost")["tiller"]
    assert said.text.startswith("Fit the emergency tiller: cockpit, ")
    assert said.place == "cockpit locker, port"
    assert "tiller-somehow" in steps("saltmeadow", "steering-lost", steering__fits=None)
    assert not {"tiller", "tiller-somehow"} & steps("zilte-wind", "steering-lost").keys()


@pytest.mark.parametrize(
    ("name", "changed", "held"),
    [
        (
            "saltmeadow",
            {},
            {"stay-parted", "mast-down", "power-lost", "propeller-fouled", "anchoring", "dragging"},
        ),
        ("nordgyllen", {}, {"mast-down", "power-lost", "propeller-fouled", "anchoring", "dragging"}),
        ("kelpwren", {}, {"power-lost", "propeller-fouled", "anchoring", "dragging"}),
        ("kelpwren", {"vessel__engine": "none", "stops": [], "gear": []}, set()),
    ],
)
def test_each_emergency_stands_where_it_can_happen(name, changed, held):
    there = composed(boat(name, **changed))[0]
    some = {"stay-parted", "mast-down", "power-lost", "propeller-fouled", "anchoring", "dragging"}
    assert some & there.keys() == held
    assert {
        "heavy-weather",
        "bar",
        "grounding",
        "collision",
        "steering-lost",
        "lightning",
        "under-tow",
    } <= there.keys()


@pytest.mark.parametrize(("persons", "step"), [(1, "no-diving-few"), (2, "no-diving-few"), (3, "no-diving")])
def test_nobody_dives_where_too_few_are_left_to_help(persons, step):
    people = boat().people[:persons]
    said = steps("saltmeadow", "propeller-fouled", vessel__persons=persons, people=people)
    assert {"no-diving", "no-diving-few"} & said.keys() == {step}
    assert bool(said[step].unless) == (persons > 2)


@pytest.mark.thorough
def test_the_book_prints_line_and_tow_point():
    said = book.html(Job(survey(VESSELS / "saltmeadow", "saltmeadow", Order(None)).manual, "crew"))
    for words in (
        "Line and chain: 60 m",
        "Let go: lift the pawl",
        "Slipped: cut the lashing",
        "A towline is made fast to",
    ):
        assert words in said
