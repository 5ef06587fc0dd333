"""Nobody is sent inside without a way out of the step: with fire, water or a person in the water, a place inside comes with its UNLESS."""

import re

import pytest
from crews import BOATS, CREWS, composed

from generator.manual.reckoning import Reckoning
from generator.shelves.spaces import BELOW

SPREADS = re.compile(
    r"fire|flooding|ready-to-leave|leaving|abandon-ship|raft-launch|collision|distress-call|co-alarm|gas|petrol-vapour|trapped"
)
"""Emergencies in which smoke, fire, water, gas or poison bars the way inside, or may; a capsized boat has cards of her own."""
BARS = re.compile(
    r"smoke|fire|flame|water|burn|going in|bars|barred|way is free|no time|smells|is inside: then|from outside|pass it on the way out"
)
BUT = {
    "flooding.shout": "it names where all muster",
    "abandon-ship.count": "it names where all muster",
    "flooding.electric-pumps": "they are switched on at the first word of water, by whoever is there",
    "distress-call.power": "its card hangs at the set: whoever reads it stands there",
}
"""Steps with a place inside and no UNLESS, and why."""


def inside(place, spaces):
    """Whether every place that is named lies inside, below or in a wheelhouse: a step that names one on deck too leaves the choice.

    Of the spaces in the words of a place the first is meant, and of two that begin there the longer.
    """
    parts = [part for part in re.split(r"; (?![^(]*\))", place) if part]
    named = [
        [(part.lower().find(name), -len(name), space) for name, space in spaces if name in part.lower()]
        for part in parts
    ]
    known = [min(each, key=lambda one: one[:2])[2] for each in named if each]
    return bool(known) and all(space.level == BELOW or space.roofed for space in known)


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    return tmp_path_factory.mktemp("crews")


def found(boat, crew, folder):
    vessel, procedures, _ = composed(boat, crew, folder)
    spaces = [
        (name.lower(), space)
        for space in Reckoning(vessel).spaces.values()
        for name in (space.name, *space.also)
    ]
    for one in procedures:
        for step in one.steps:
            if SPREADS.match(one.kind) and step.place and inside(step.place, spaces):
                yield one, step


@pytest.mark.parametrize("boat", BOATS)
def test_a_place_inside_comes_with_what_bars_the_way(boat, folder):
    """Over every specimen and four crews. Exceptions: BUT."""
    bare = {
        (step.id, step.place)
        for crew in CREWS
        for _, step in found(boat, crew, folder)
        if not BARS.search(f"{step.unless} {step.text}") and step.id not in BUT
    }
    assert bare == set()


def test_such_steps_are_there_and_every_exception_is_needed(folder):
    steps = [step for boat in BOATS for crew in CREWS for _, step in found(boat, crew, folder)]
    assert len({step.id for step in steps}) > 15
    bare = {step.id for step in steps if not BARS.search(f"{step.unless} {step.text}")}
    assert bare == BUT.keys()


def test_one_who_is_left_fetches_nothing_from_below(folder):
    """With somebody in the water and one left aboard, no step of the approach has a place below."""
    for boat in BOATS:
        vessel, procedures, _ = composed(boat, "a couple", folder)
        spaces = [
            (name.lower(), space)
            for space in Reckoning(vessel).spaces.values()
            for name in (space.name, *space.also)
        ]
        for one in procedures:
            if one.kind == "man-overboard-return":
                below = [step.id for step in one.steps if step.place and inside(step.place, spaces)]
                assert below == [], boat
