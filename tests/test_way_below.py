"""Nobody is sent inside without a way out of the step: with fire, water or a person in the water, a place inside comes with its UNLESS."""

import re

import pytest
from crews import BOATS, CREWS, composed

from generator.manual.reckoning import Reckoning
from generator.shelves.spaces import BELOW

SPREADS = re.compile(
    r"fire|flooding|ready-to-leave|leaving|abandon-ship|raft-launch|collision|distress-call|co-alarm|gas|petrol-vapour|trapped|knock-down"
)
"""Emergencies in which smoke, fire, water, gas or poison bars the way inside, or may; a capsized boat has cards of its own."""
BARS = re.compile(
    r"smoke|fire|flame|water|burn|going in|bars|barred|way is free|no time|smells|is inside: then"
)
"""What the UNLESS of a step says of what bars the way."""
OUTSIDE = "it is done from outside, or not at all, as its act says"
OUT = "it names the ways out"
FIRST_WORD = "they are switched on at the first word of water, by whoever is there"
BUT = {
    "co-alarm.off": OUTSIDE,
    "gas.close-by-hand": OUTSIDE,
    "gas-air.pump-from-deck": OUTSIDE,
    "trapped.hatch": OUTSIDE,
    "fire.way-out": OUT,
    "fire-galley.way-out": OUT,
    "flooding-rises.way-out": OUT,
    "flooding.electric-pump": FIRST_WORD,
    "flooding.electric-pumps": FIRST_WORD,
    "flooding.hand-pump-alone": "it names every handle, those on deck too",
    "collision.stay": "a hull that is holed is no place to go to",
    "collision.call": "of a boat that takes in water the distress call is another card's, with what bars it",
    "knock-down.call": "of a boat that leaks the distress call is another card's, with what bars it",
    "distress-call.power": "its card hangs at the set: whoever reads it stands there",
}
"""Steps that name a place inside, in their act too, and have no UNLESS for the way, and why."""


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
    return bool(known) and all(map(_shut_in, known))


def _shut_in(space):
    return space.level == BELOW or space.roofed


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
    shut_in = "|".join(re.escape(name) for name, space in spaces if _shut_in(space))
    within = re.compile(rf"\b(?:{shut_in or '(?!)'})\b", re.IGNORECASE)
    for one in procedures:
        for step in one.steps:
            told = step.place and inside(step.place, spaces)
            if SPREADS.match(one.kind) and (told or within.search(step.text)):
                yield one, step


@pytest.mark.parametrize("boat", BOATS)
def test_a_place_inside_comes_with_what_bars_the_way(boat, folder):
    """Over every specimen and four crews. Exceptions: BUT."""
    bare = {
        (step.id, step.place)
        for crew in CREWS
        for _, step in found(boat, crew, folder)
        if not BARS.search(step.unless) and step.id not in BUT
    }
    assert bare == set()


def test_such_steps_are_there_and_every_exception_is_needed(folder):
    steps = [step for boat in BOATS for crew in CREWS for _, step in found(boat, crew, folder)]
    assert len({step.id for step in steps}) > 15
    bare = {step.id for step in steps if not BARS.search(step.unless)}
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
