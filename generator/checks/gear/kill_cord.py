"""The kill cord: it stops every engine that drives her, it is pulled and not turned, and its spare hangs where she is steered."""

from __future__ import annotations

import re

from generator.checks.fire.controls import unserved
from generator.reading.nearest import shortened
from generator.shelves.spaces import FOR_NOTHING
from generator.survey.helms import CORD_M, helms
from generator.survey.placing import Lies, lies
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    HELP,
    LIFE,
    TRUTH,
    Finds,
    Sight,
    at,
    check,
)
from generator.vessel.fittings import Kept

_CORD = "kill cord"
_SECOND = re.compile(
    r"\b(?:auxiliary|aux|spare|wing|get[- ]home|come[- ]home|kicker|trolling|emergency|reserve|dinghy|tender)\b",
    re.IGNORECASE,
)
"""Of an engine: that it does not run beside the others."""


@check("gear.kill-cord-one-engine", LIFE, COMMON_PRACTICE)
def the_cord_stops_every_engine(sight: Sight) -> Finds:
    """Where a kill cord stops one of several engines of a kind that run together, each of them is stopped by one.

    Why: whoever steers goes over the side, one engine stops, and the other drives her round over him.
    Remedy: follow the cables; of one cord that stops all take 'serves' out, else fit one at the other engine's switch too and describe it.
    """
    without = unserved(sight, _CORD)
    served = [engine for engine in sight.vessel.engines if engine not in without]
    kinds = {engine.kind for engine in served if isinstance(engine.kind, str)}
    cords = [stop for stop in sight.vessel.stops if stop.what == _CORD]
    runs_on = [each for each in without if each.kind in kinds and not _SECOND.search(str(each.what))]
    if runs_on and cords:
        names = " and the ".join(str(each.what) for each in runs_on)
        yield at(
            cords[0],
            "serves",
            f"it stops the {cords[0].serves}, and no kill cord stops the {names}, which runs on",
            item=_CORD,
            also=tuple(each.place("what") for each in runs_on),
        )


_TURNED = re.compile(
    r"\b(?:turn|twist|switch|press|push|hold|hit|set|flip|move|put|slide|knock|open|shut|close)\b",
    re.IGNORECASE,
)
_PULLED = re.compile(
    r"\b(?:cords?|lanyards?|clips?|coils?|tethers?|leash|straps?|pull|pulls|pulled|draw|tug|yank|jerk|pluck|slip|off (?:its|the) (?:switch|button|knob)|fob|tag|transmitter|wireless|kill switch)\b",
    re.IGNORECASE,
)


@check("gear.kill-cord-how", TRUTH, COMMON_PRACTICE)
def a_kill_cord_is_pulled(sight: Sight) -> Finds:
    """How a kill cord is worked names the cord, or has it pulled: no key is turned and no button pressed.

    Why: these words are printed as the step; they are those of another stop, and who reads them looks for a key at the cord's switch.
    Remedy: work it once, and write what the hand does: how: pull the red cord off its switch.
    """
    for stop in sight.vessel.stops:
        if stop.what != _CORD or not isinstance(stop.how, str):
            continue
        if _TURNED.search(stop.how) and not _PULLED.search(stop.how):
            yield at(stop, "how", f"kill cord: '{shortened(stop.how)}' pulls no cord", item=_CORD)


@check("gear.kill-cord-spare-far", HELP, COMMON_PRACTICE, COMPOSITION)
def the_spare_kill_cord_is_where_she_is_steered(sight: Sight) -> Finds:
    """The spare of a kill cord hangs where she is steered: not aft between the engines, on the foredeck, nor in the bilge.

    Why: whoever takes the helm after somebody went over with the cord looks for the other one there, while she drifts off.
    Remedy: hang it beside the helm, and write that: spare: {where: helm, side: port}.
    """
    one = sight.vessel.vessel
    steered = [*helms(sight), *([own] if one is not None and (own := lies(sight, one.helm)) else [])]
    for stop in sight.vessel.stops:
        spare = stop.spare if stop.what == _CORD else None
        there, cord = lies(sight, spare if isinstance(spare, Kept) else None), lies(sight, stop)
        if not isinstance(spare, Kept) or there is None or there.space.own or not steered:
            continue
        near: list[Lies] = [*steered, *([cord] if cord is not None else [])]
        gap = min(there.apart_m(each) for each in near)
        if gap > CORD_M or there.space.exposed or there.space.mark or there.space.stows == FOR_NOTHING:
            yield at(
                spare,
                "where",
                f"the spare kill cord is in the {there}, {gap:.0f} m from where she is steered",
                item=_CORD,
            )
