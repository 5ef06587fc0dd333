"""Steering: the emergency tiller is told, and has one place."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.reading.nearest import shortened
from generator.reading.values import untold
from generator.shelves.gear import before_comma
from generator.survey.places import another_place
from generator.survey.registry import (
    COMMON_PRACTICE,
    HELP,
    TRUTH,
    Finds,
    Sight,
    at,
    check,
    of,
)
from generator.vessel.fittings import told
from generator.vessel.gear import does

if TYPE_CHECKING:
    from generator.vessel.gear import Gear
    from generator.vessel.particulars import Steering
    from generator.vessel.vessel import Vessel


@check("steering.two-places", TRUTH, COMMON_PRACTICE)
def the_tiller_has_one_place(sight: Sight) -> Finds:
    """The emergency tiller has one place, not two.

    Why: without steering nobody has time to search two lockers.
    Remedy: go and look; write the same place under 'steering' and in the gear list.
    """
    steering = sight.vessel.steering
    text = told(steering.emergency_tiller) if steering else ""
    for item in _tillers(sight.vessel):
        if steering and text and another_place(text, item):
            yield at(
                steering,
                "emergency-tiller",
                f"the {before_comma(item.what)}: '{text}' here, {item.where or 'a place not told'} {item.side or ''} in the gear list",
                item=before_comma(item.what),
                also=(item.place("where"),),
            )


def _tillers(vessel: Vessel) -> list[Gear]:
    return [item for item in vessel.gear if does(item, "steers without the wheel")]


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
            "it says where the emergency tiller fits, and that there is none",
            also=(steering.place("emergency-tiller"),),
        )


_WHEEL = re.compile(
    r"\b(?:behind|before|beside|under|below|above|at|on|in front of|left of|right of|aft of|forward of|abaft|by|near) (?:the )?(?:steering )?wheel\b(?! (?:valve|arch|of))"
    r"|\b(?:the|its) quadrant\b"
)


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
    named = [
        said for said in sight.own_words if said.block is not steering and _WHEEL.search(said.text.lower())
    ]
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
        yield of(item, "what", none if steering else "nothing says where it fits")
