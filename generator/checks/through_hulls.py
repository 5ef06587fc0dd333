"""Holes in the hull: listed, closed, and each with its plug."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.checks.words.places import apart, spaces_in
from generator.manual.own_words import OwnWords
from generator.reading.fields import Text
from generator.reading.nearest import shortened
from generator.reading.values import Quantity, known, untold
from generator.survey.limits import least, most
from generator.survey.placing import space_of
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
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
from generator.vessel.installed import ThroughHull

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.manual.drawing.spaces import Space


@check("through-hulls.missing", HELP, COMMON_PRACTICE)
def holes_of_an_engine_are_listed(sight: Sight) -> Finds:
    """With an inboard engine the holes in the hull are listed.

    Why: whoever looks for the leak in the dark needs to know where holes are.
    Remedy: list each hole under 'through-hulls', beginning with the engine's cooling inlet.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    if one and one.inboard_engine and not vessel.through_hulls:
        yield at(one, "engine", "she has an inboard engine, and no hole in the hull is listed")


_OF_AN_ENGINE = re.compile(
    r"cool|engine|sea ?(?:chest|water|suction)|raw ?water|sail ?drive|\bleg\b|propulsion", re.IGNORECASE
)


@check("through-hulls.no-inlet", HELP, COMMON_PRACTICE)
def the_engine_has_its_inlet(sight: Sight) -> Finds:
    """Where an inboard engine stands and holes are listed, one of them is its cooling inlet.

    Why: its hose is the one that bursts most, in the space where nobody looks; the list is that of the engine before.
    Remedy: go and look; list it under 'through-hulls' with what: engine cooling inlet; of one cooled without sea water say so in a name:
    keel cooler of the engine.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    if not one or not one.inboard_engine or not vessel.through_hulls:
        return
    if not any(_OF_AN_ENGINE.search(str(each.what or "")) for each in vessel.through_hulls):
        yield at(
            one,
            "engine",
            f"it says {one.engine}, and no hole in the hull is listed by which that engine is cooled",
            item="engine cooling inlet",
            also=(vessel.through_hulls[0].place("what"),),
        )


_FILLED = re.compile(
    r"\b(?:stern|shaft|rudder) ?-?(?:gland|seal|stock|tube|bearing)s?\b|\bstuffing ?-?box|\bstern ?-?gear\b|\b(?:propeller )?shaft$|\blog\b|\bpaddle-? ?wheel|\btransducer|\b(?:depth|echo) ?-?sounder",
    re.IGNORECASE,
)
"""What fills its hole itself, shaft, stock or sounder: no seacock is made for it, and a blank goes in where it is drawn."""
_BUNG = re.compile(r"\b(?:bung|drain(?: plug)?|drainage plug)\b", re.IGNORECASE)
"""What is under water as soon as she is afloat, however deep."""


@check("through-hulls.no-seacock", HELP, COMMON_PRACTICE)
def every_hole_can_be_closed(sight: Sight) -> Finds:
    """Every hole in the hull can be closed.

    Why: when its hose comes off nothing else stops the water.
    Remedy: write under 'closes' how it is closed; if nothing closes it, fit a seacock.
    """
    for each in sight.vessel.through_hulls:
        if untold(each.closes):
            none = each.says_none("closes")
            if none and _FILLED.search(str(each.what or "")):
                continue  # its own tube fills it, and gear.plug asks for the blank
            yield of(
                each,
                "closes" if none else "what",
                "nothing closes it" if none else "nothing says how it is closed",
                weight=DEFECT if (known(each.below_water) or 0) > 0 or _BUNG.search(str(each.what)) else None,
            )


@check("through-hulls.plug-too-small", LIFE, COMMON_PRACTICE)
def plugs_are_wider_than_their_holes(sight: Sight) -> Finds:
    """A plug is wider at its thick end than the hole it is for.

    Why: it goes through, and is gone.
    Remedy: tie a larger one there and write its size.
    """
    for each in sight.vessel.through_hulls:
        if (
            isinstance(each.plug_size, Quantity)
            and isinstance(each.diameter, Quantity)
            and each.plug_size <= each.diameter
        ):
            yield of(each, "plug-size", f"the plug is {each.plug_size} wide and the hole {each.diameter}")


_WIDE = re.compile(
    r"thruster|exhaust|tunnel|trunk|moon ?pool|\bwell\b|freeing|scupper|\bjet\b", re.IGNORECASE
)


_RUNS_OUT = re.compile(r"\b(?:sink|heads|toilet|basin|shower|drains?)\b", re.IGNORECASE)
"""What runs out by a hose; an inlet is narrower."""


@check("through-hulls.figures", TRUTH, "seacocks and plugs as sold; common practice")
def holes_are_of_a_size_that_holes_have(sight: Sight) -> Finds:
    """No hole in the hull is deeper than she draws, or wider than seacocks are; its plug goes in.

    Why: how fast she fills, which hole is looked for first and which plug fits are told by these figures.
    Remedy: measure again, and look at the unit, mm or cm, inches or millimetres; depth is from the waterline down to the hole.
    """
    one = sight.vessel.vessel
    draft = one.draft if one else None
    of_any = [limit(sight.vessel, "width of a hole in the hull") for limit in (least, most)]
    of_outlets = [limit(sight.vessel, "width of a drain or outlet") for limit in (least, most)]
    thick = most(sight.vessel, "plug to its hole")
    for each in sight.vessel.through_hulls:
        depth, width, plug = each.below_water, each.diameter, each.plug_size
        if one and isinstance(depth, Quantity) and isinstance(draft, Quantity) and depth > draft:
            yield of(
                each,
                "below-water",
                f"it lies {depth} below the water, and she draws {draft}",
                also=(one.place("draft"),),
            )
        runs_out = isinstance(each.what, str) and "inlet" not in each.what and _RUNS_OUT.search(each.what)
        low, high = of_outlets if runs_out else of_any
        wide = isinstance(each.what, str) and _WIDE.search(each.what)
        if isinstance(width, Quantity) and not wide and not low <= width <= high:
            yield of(
                each,
                "diameter",
                f"it is {width} wide; such holes are {low * 1000:g} to {high * 1000:g} mm wide",
            )
        elif isinstance(width, Quantity) and isinstance(plug, Quantity) and plug > thick * width:
            yield of(
                each,
                "plug-size",
                f"the plug is {plug} wide at its thick end and the hole {width}: it does not go in",
                also=(each.place("diameter"),),
            )


@check("through-hulls.plug-far", HELP, COMMON_PRACTICE, COMPOSITION)
def the_plug_is_at_its_hole(sight: Sight) -> Finds:
    """Where plugs are kept at their holes, no one of them is said to be in a space elsewhere.

    Why: with the hose off somebody stands over the hole with a hand on it, and the plug that fits lies at the other end of the boat.
    Remedy: tie it to the seacock, and write plug: tied beside it.
    """
    told = [
        (each, next(_away_from(sight, each), None))
        for each in sight.vessel.through_hulls
        if isinstance(each.plug, str)
    ]
    away = [(each, space) for each, space in told if space is not None]
    if 2 * len(away) >= len(told):
        return  # kept together in one bag
    for each, _ in away:
        yield of(
            each,
            "plug",
            f"its plug is '{shortened(str(each.plug))}', and the hole is in the {each.where}",
        )


def _away_from(sight: Sight, hole: ThroughHull) -> Iterator[Space]:
    """The spaces in which words have the plug of a hole, and that are not beside it."""
    here = space_of(sight, hole)
    field = ThroughHull.fields["plug"]
    if here is None or here.unlike or not isinstance(field, Text):
        return
    for named in spaces_in(OwnWords(hole, field, str(hole.plug)), sight):
        if not named.near and apart(sight, here, named.space, near=True) and not named.space.unlike:
            yield named.space
