"""Steering: the emergency tiller is told, and has one place."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.manual.handling_facts import sailing
from generator.manual.sieves import sieve
from generator.reading.nearest import shortened
from generator.reading.values import untold
from generator.shelves.gear import before_comma
from generator.survey.places import another_place
from generator.survey.registry import (
    COMMON_PRACTICE,
    DEFECT,
    HELP,
    LIFE,
    TRUTH,
    Finds,
    Sight,
    at,
    check,
    of,
)
from generator.vessel.fittings import Located, told
from generator.vessel.gear import SLOWS, does
from generator.vessel.particulars import FAR

if TYPE_CHECKING:
    from collections.abc import Sequence

    from generator.vessel.gear import Gear
    from generator.vessel.installed import Engine
    from generator.vessel.particulars import Steering
    from generator.vessel.vessel import Vessel


OUTBOARD, MOVES = "outboard", "moves her by hand"


@check("steering.two-places", TRUTH, COMMON_PRACTICE)
def the_tiller_has_one_place(sight: Sight) -> Finds:
    """The emergency tiller has one place, not two.

    Why: without steering nobody has time to search two lockers.
    Remedy: go and look; write the same place under 'steering' and in the gear list.
    """
    steering = sight.vessel.steering
    text = told(steering.emergency_tiller) if steering else ""
    tillers = _tillers(sight.vessel)
    if steering and text and any(not another_place(text, each) for each in tillers):
        return  # any other is a spare
    for item in tillers:
        if steering and text and another_place(text, item):
            yield at(
                steering,
                "emergency-tiller",
                f"the {before_comma(item.what)}: '{text}' here, {item.where or 'a place not told'} {item.side or ''} in the gear list",
                item=before_comma(item.what),
                also=(item.place("where"),),
            )


def _tillers(vessel: Vessel) -> Sequence[Gear]:
    return vessel.gear_that("steers without the wheel")


_BY_TILLER = re.compile(r"\btillers?\b(?!.*\bwheels?\b)")


def _not_told(steering: Steering) -> list[str]:
    """What nothing says of the emergency tiller; of a boat that is steered by a tiller nobody asks whether there is another."""
    if steering.says_none("emergency-tiller"):
        return []
    told = {"emergency-tiller": steering.emergency_tiller, "fits": steering.fits}
    if (
        all(each is None for each in told.values())
        and isinstance(steering.main, str)
        and (_BY_TILLER.search(steering.main.lower()))
    ):
        return []
    return [key for key, said in told.items() if untold(said) and not steering.says_none(key)]


_FITS_NOT = re.compile(
    r"\b(?:does not|doesn't|will not|won't|did not|never|cannot be made to|no longer) (?:quite |really )?fit|\bfits (?:nowhere|nothing|no\b|not\b)|\bon no part\b|\btoo (?:small|big|large|wide|narrow|short|long|tight|loose)\b"
    r"|\bhas to be (?:filed|ground|cut|made|welded)|\bmust (?:first )?be (?:filed|ground|cut|made|welded)",
    re.IGNORECASE,
)


@check("steering.tiller-fits-not", LIFE, COMMON_PRACTICE)
def the_emergency_tiller_fits(sight: Sight) -> Finds:
    """No words say that the emergency tiller does not fit.

    Why: it is fetched when she lies beam to the sea, and then nothing steers her.
    Remedy: have it made to fit, fit it once in harbour, and write where; until then say that there is none, and what steers her instead.
    """
    steering = sight.vessel.steering
    for part in (steering.emergency_tiller, steering.fits) if steering else ():
        if isinstance(part, Located) and (told_so := _FITS_NOT.search(str(part.spot or ""))):
            yield at(
                part,
                "spot",
                f"the emergency tiller: '{part.spot}' ({told_so[0].lower()})",
                item="emergency tiller",
            )


@check("steering.fits-nothing", TRUTH, COMMON_PRACTICE)
def only_a_tiller_there_is_fits(sight: Sight) -> Finds:
    """Where the emergency tiller fits is said only where there is one.

    Why: somebody searches the lockers for a tiller while she turns beam to the sea, or nobody takes the one that is there.
    Remedy: go and look; write where the tiller is under 'emergency-tiller', or take 'fits' out.
    """
    steering = sight.vessel.steering
    if steering and steering.says_none("emergency-tiller") and told(steering.fits):
        yield at(
            steering,
            "fits",
            f"it says where the emergency tiller fits, and that there is none{_and_a_wheel(steering)}",
            also=(steering.place("emergency-tiller"),),
        )


def _and_a_wheel(steering: Steering) -> str:
    """What a boat steered by a wheel is left with where there is no tiller."""
    wheel = isinstance(steering.main, str) and "wheel" in steering.main.lower()
    return ": a wheel whose cables part steers nothing then" if wheel else ""


_WHEEL = re.compile(
    r"\b(?:behind|before|beside|under|below|above|at|on|in front of|left of|right of|aft of|forward of|abaft|by|near) (?:the )?(?:steering )?wheel\b(?! (?:valve|arch|of))"
    r"|\b(?:the|its) quadrant\b"
)


@sieve
def _tells_of_a_wheel(text: str) -> bool:
    return _WHEEL.search(text.lower()) is not None


@check("steering.wheel-left", TRUTH, COMMON_PRACTICE)
def a_boat_with_a_tiller_has_no_wheel(sight: Sight) -> Finds:
    """Where she is steered by a tiller, no place is told by a wheel that she has not.

    Why: whoever is sent behind the wheel for the rudder stock or a stop finds no wheel; half of the file is of how she was before.
    Remedy: go and look; write how she is steered under 'main', and the places as they are now.
    """
    steering = sight.vessel.steering
    main = steering.main.lower() if steering and isinstance(steering.main, str) else ""
    if not steering or not main.startswith("tiller") or "wheel" in main:
        return
    named = [said for said in sight.words_through(_tells_of_a_wheel) if said.block is not steering]
    if named:
        yield at(
            steering,
            "main",
            f"it says {steering.main}, and '{shortened(named[0].text)}' tells of a wheel",
            item="main",
            also=tuple(said.block.place(said.field.key) for said in named),
        )


@check("steering.tiller-unknown", HELP, COMMON_PRACTICE)
def the_emergency_tiller_is_told(sight: Sight) -> Finds:
    """Where there is an emergency tiller, the file says where it is and where it fits.

    Why: nobody finds the rudder stock under the sole in a seaway.
    Remedy: fit it once in harbour, then write 'steering' with 'emergency-tiller' and 'fits'.
    """
    steering = sight.vessel.steering
    if steering:
        if lacking := _not_told(steering):
            yield at(steering, "", f"steering does not say: {', '.join(lacking)}")
        if not steering.says_none("emergency-tiller"):
            return
    for item in _tillers(sight.vessel):
        none = "it is in the gear list, and 'steering' says that there is none"
        yield of(
            item,
            "what",
            none if steering else "nothing says where it fits",
            weight=DEFECT if steering else None,
            also=(steering.place("emergency-tiller"),) if steering else (),
        )


_OUTBOARD = re.compile(r"\boutboards?\b")


@check("steering.by-engine", TRUTH, COMMON_PRACTICE)
def she_is_steered_by_an_engine_that_she_has(sight: Sight) -> Finds:
    """Where she is steered by an outboard, she has one.

    Why: with the rudder gone somebody is sent to turn an engine that is not there, and the rudder is not looked at.
    Remedy: write under 'main' how she is steered, or her engine as it is.
    """
    steering, one = sight.vessel.steering, sight.vessel.vessel
    main = steering.main.lower() if steering and isinstance(steering.main, str) else ""
    if not steering or one is None or not isinstance(one.engine, str) or not _OUTBOARD.search(main):
        return
    if one.engine != OUTBOARD and not any(
        OUTBOARD in (each.kind, each.drive) for each in sight.vessel.engines
    ):
        has = "no engine" if one.engine == "none" else f"an {one.engine}"
        yield at(
            steering,
            "main",
            f"she is steered by an outboard, and has {has}",
            item="main",
            also=(one.place("engine"),),
        )


@check("steering.nothing-else", HELP, COMMON_PRACTICE)
def something_else_steers_her(sight: Sight) -> Finds:
    """At sea, a boat with one engine and no emergency tiller has something else that steers her: sails, a drogue, an oar; far out, with a wheel, sails are not enough.

    Why: with the rudder or its gear gone she lies beam to the sea, and nothing turns her.
    Remedy: carry a drogue with two lines and try it, or an emergency tiller; then list it.
    """
    vessel, steering, one = sight.vessel, sight.vessel.steering, sight.vessel.vessel
    if not steering or one is None or not steering.says_none("emergency-tiller") or one.waters == "sheltered":
        return
    turned_by_hand = isinstance(steering.main, str) and _BY_TILLER.search(steering.main.lower())
    far = one.waters in FAR and isinstance(steering.main, str) and "wheel" in steering.main.lower()
    if turned_by_hand or not one.inboard_engine or len(vessel.engines) > 1 or (sailing(vessel) and not far):
        return
    if not any(does(item, SLOWS) or does(item, MOVES) for item in vessel.gear):
        yield at(
            steering,
            "emergency-tiller",
            f"there is no emergency tiller, and nothing else aboard steers her{' with her sails alone' if sailing(vessel) else ''}",
            item="emergency-tiller",
            weight=DEFECT if far else None,
        )


_BY_ITSELF = re.compile(
    r"\b(?:auto ?-?pilot|autohelm|self[- ]?steering|wind ?-?vane|(?:tiller|wheel|electric) pilot|pilot)\b",
    re.IGNORECASE,
)
_BY_HAND = re.compile(
    r"\b(?:wheels?|tillers?|helm|rudders?|outboards?|stern ?drives?|legs?|joysticks?|oars?|sweep|paddles?|levers?|yoke|whipstaff|jets?|pods?|by hand|hand steering)\b",
    re.IGNORECASE,
)


@check("steering.by-itself-alone", HELP, COMMON_PRACTICE)
def somebody_steers_her_by_hand(sight: Sight) -> Finds:
    """How she is steered is told by what a hand does: a wheel, a tiller; an autopilot or a vane alone is none.

    Why: the steps for a dead wheel begin with it, and whoever takes over from the autopilot finds nothing to take hold of.
    Remedy: write under 'main' the wheel or the tiller, and with what it turns the rudder: main: wheel with hydraulics.
    """
    steering = sight.vessel.steering
    main = _main(steering)
    if steering and (found := _BY_ITSELF.search(main)) and not _BY_HAND.search(_BY_ITSELF.sub(" ", main)):
        yield at(
            steering,
            "main",
            f"it says that she is steered by the {found[0].lower()}, and not what a hand turns",
            item="main",
        )


_TURNS_ITSELF = ("sterndrive", "outboard leg", "pod")
"""Drives that steer by turning: with none but these she has no rudder."""


def _steers_itself(engine: Engine) -> bool:
    """Whether an engine turns with its drive; of an outboard's leg on another engine another check speaks."""
    return engine.drive in _TURNS_ITSELF and (engine.drive != "outboard leg" or engine.kind == OUTBOARD)


_RUDDER = re.compile(r"\brudder(?: ?-?(?:stock|head|post|quadrant|shaft))?\b|\bquadrant\b", re.IGNORECASE)


@check("steering.no-rudder", TRUTH, COMMON_PRACTICE)
def an_emergency_tiller_fits_what_she_has(sight: Sight) -> Finds:
    """Where all her engines drive by what turns itself, no emergency tiller is said to fit a rudder.

    Why: somebody is sent aft with the tiller to a rudder stock that is not there, while she turns beam to the sea.
    Remedy: go and look; write emergency-tiller: none, and how she is steered with the legs: main: wheel that turns both sterndrives; or correct 'drive' under 'engines'.
    """
    steering, engines = sight.vessel.steering, sight.vessel.engines
    if not steering or not engines or sailing(sight.vessel) or not all(map(_steers_itself, engines)):
        return
    if steering.says_none("emergency-tiller") or "rudder" in _main(steering):
        return
    named = _RUDDER.search(f"{told(steering.fits)} {told(steering.emergency_tiller)}")
    if named is not None:
        yield at(
            steering,
            "fits",
            f"the emergency tiller is said to fit the {named[0].lower()}, and she is driven and steered by: {engines[0].drive}",
            item="fits",
            also=(engines[0].place("drive"),),
        )


def _main(steering: Steering | None) -> str:
    """How she is steered, in small letters; "" where it is not told."""
    return steering.main.lower() if steering and isinstance(steering.main, str) else ""


_PARTS = re.compile(r"\bcables?\b|\bchains?\b|\bwires?\b|\bhydraulics?\b|\brods?\b|\bquadrant\b")


@check("steering.wheel-alone", HELP, COMMON_PRACTICE)
def a_wheel_has_its_tiller(sight: Sight) -> Finds:
    """At sea, a sailing boat that is steered by a wheel with cables or hydraulics has an emergency tiller.

    Why: a cable parts or a hose bursts, and the rudder swings free; her sails alone do not hold a course in a seaway.
    Remedy: have one made that fits the rudder stock, try it once, and write emergency-tiller and fits; until then carry a drogue with two lines and list it.
    """
    vessel, steering, one = sight.vessel, sight.vessel.steering, sight.vessel.vessel
    main = _main(steering)
    if (
        not steering
        or one is None
        or one.waters in (None, "sheltered", *FAR)
        or not steering.says_none("emergency-tiller")
    ):
        return  # far out it is told as something else that steers her
    wheel = "wheel" in main and _PARTS.search(main) is not None and not _BY_TILLER.search(main)
    if (
        wheel
        and sailing(vessel)
        and not told(steering.fits)
        and not any(does(item, SLOWS) or does(item, MOVES) for item in vessel.gear)
    ):
        yield at(
            steering,
            "emergency-tiller",
            f"she is steered by a {steering.main}, and there is no emergency tiller, nor a drogue or an oar to steer with",
            item="emergency-tiller",
            also=(steering.place("main"),),
        )
