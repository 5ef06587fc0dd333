"""What other vessels hear and see of her: a sound signal, and signals of distress."""

from __future__ import annotations

import re
from collections.abc import Iterator

from generator.shelves.gear import kinds_that
from generator.survey.registry import COMMON_PRACTICE, HELP, LIFE, Finds, Found, Sight, check, of
from generator.vessel.gear import Gear, GrabItem, does
from generator.vessel.vessel import Vessel


@check(
    "gear.sound-signal",
    HELP,
    "COLREG rule 33: a whistle from 12 m of length on, below that some other means of making an efficient sound signal",
)
def she_can_be_heard(sight: Sight) -> Finds:
    """There is something to make a sound signal with; what the general alarm is given on counts.

    Why: in fog, or when another vessel does not give way, she is known only by what is heard of her; a voice does not carry.
    Remedy: list it under 'gear': what: whistle, or foghorn.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    alarm = one.general_alarm.lower() if one and isinstance(one.general_alarm, str) else ""
    kinds = [kind.name for kind in kinds_that("makes a sound signal")]
    if (
        vessel.gear
        and not any(does(item, "makes a sound signal") for item in _carried(vessel))
        and not any(re.search(rf"\b{name}\b", alarm) for name in kinds)
    ):
        yield Found(
            vessel.key_place("gear"), f"nothing that makes a sound signal is in the gear list: {_or(kinds)}"
        )


_NO_LIGHT = re.compile(
    r"\b(?:no|without|lacks|lacking)(?: an?| its| any)? (?:working )?lights?\b|\bunlit\b", re.IGNORECASE
)
_LIGHT = re.compile(r"\blights?\b|\blit\b|\bstrobe\b", re.IGNORECASE)


@check("gear.unlit", LIFE, COMMON_PRACTICE)
def what_is_thrown_at_night_is_seen(sight: Sight) -> Finds:
    """Where a lifebuoy is said to have no light, another has one; in sheltered waters none is asked for.

    Why: at night whoever is in the water does not find it, and nobody aboard sees any more where it drifts.
    Remedy: tie a light to it, and write what: lifebuoy, with light.
    """
    one = sight.vessel.vessel
    buoys = sight.vessel.gear_that("carries a light")
    dark = next((item for item in buoys if _NO_LIGHT.search(str(item.what))), None)
    if dark is None or one is None or one.waters == "sheltered":
        return
    others = [item for item in sight.vessel.gear if item in buoys or _BUOY_LIGHT.search(str(item.what))]
    if not any(_LIGHT.search(_NO_LIGHT.sub("", str(item.what))) for item in others):
        yield of(dark, "what", "it has no light, and no other lifebuoy has one")


_BUOY_LIGHT = re.compile(r"\b(?:life ?buoy|horseshoe|man.overboard|mob) lights?\b", re.IGNORECASE)


@check(
    "gear.distress-signals",
    LIFE,
    "33 CFR 175.110 (visual distress signals in coastal waters; secondary); common practice elsewhere",
)
def she_can_be_seen_in_distress(sight: Sight) -> Finds:
    """Beyond sheltered waters there is something that shows distress.

    Why: a lifeboat that is called to a place on the radio still has to find an open boat among the waves.
    Remedy: list what she has under 'gear' or in the grab bag: what: red hand flares, with their expiry.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    if (
        one
        and isinstance(one.waters, str)
        and one.waters != "sheltered"
        and vessel.gear
        and not any(does(item, "shows distress") for item in _carried(vessel))
    ):
        kinds = [kind.name for kind in kinds_that("shows distress") if not kind.words]
        yield Found(
            vessel.key_place("gear"),
            f"she sails {one.waters} waters, and nothing that shows distress is in the gear list: {_or(kinds)}",
        )


def _carried(vessel: Vessel) -> Iterator[Gear | GrabItem]:
    """What is in the gear list and in the grab bags."""
    yield from vessel.gear
    for bag in vessel.grab_bags:
        yield from bag.items


def _or(names: list[str]) -> str:
    return f"{', '.join(names[:-1])} or {names[-1]}"
