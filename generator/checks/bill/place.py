"""Where a duty is done: whoever cannot leave the wheel has what the other duty needs within reach."""

from __future__ import annotations

import itertools
import re
from typing import TYPE_CHECKING

from generator.manual.calling import BY_HAND
from generator.manual.crew import the
from generator.shelves.procedures import hinders
from generator.shelves.spaces import BELOW
from generator.survey.hands import clash, hands, offered
from generator.survey.placing import Lies, lies
from generator.survey.registry import COMMON_PRACTICE, COMPOSITION, LIFE, Finds, Found, Sight, check

if TYPE_CHECKING:
    from generator.vessel.radio import RadioSet

_RADIO = "radio"
"""The ability of a duty that is done at a set."""
LEFT_ABOARD = 2
"""Of fewer left aboard one does all of it, one after the other; the steps for one say so."""
BESIDE_M = 1.5
"""How far from whoever steers a set may be to be spoken into: an arm and its cord. Common practice."""
_WORN = re.compile(
    r"\b(?:pocket|worn|wears|carried|carries|lifejacket|life jacket|belt|vest|on (?:the )?(?:skipper|helmsman|watch|person))\b",
    re.IGNORECASE,
)


_BAGGED = re.compile(r"\b(?:bag|drum|barrel)\b", re.IGNORECASE)


@check("bill.call-away", LIFE, COMMON_PRACTICE, COMPOSITION)
def whoever_steers_calls_from_there(sight: Sight) -> Finds:
    """Whoever steers and calls in one emergency, with others aboard, has a radio within reach of the wheel or the tiller.

    Why: to call he leaves the wheel, and she runs on with somebody in the water; or nobody calls.
    Remedy: give the call to somebody who is free to go to the radio, or keep a handheld VHF where she is steered and write that place.
    """
    radio, crew = sight.vessel.radio, hands(sight)
    if (
        radio is None
        or not radio.sets
        or sum(hand.heads for hand in crew.values() if hand.aboard) <= LEFT_ABOARD
    ):
        return
    helms = _helms(sight)
    if not helms or any(_within_reach(sight, each, helms) for each in radio.sets):
        return
    for emergency in sight.manual.bill.emergencies:
        for one, other in itertools.combinations(emergency.duties, 2):
            steady, call = (one, other) if one.continuous else (other, one)
            both = [who for who in call.who if who in steady.who]
            if (
                call.needs != _RADIO
                or call.id not in steady.worse_with
                or not both
                or not clash(one, other, crew, hinders)
            ):
                continue
            nearest = min(radio.sets, key=lambda each: _away_m(sight, each, helms))
            others = [role for role in offered(sight) if role not in steady.who]
            yield Found(
                call.place,
                f"{emergency.id}: {the(both[0])} has '{steady.id}', which cannot be left, and '{call.id}', and the nearest radio, the {nearest.what} ({nearest.where}), is out of reach from there",
                f"keep a handheld VHF in the {helms[0]}, or give '{call.id}' to "
                + (the(others[0]) if others else "somebody else"),
                f"{emergency.id}, {call.id}",
                also=(steady.place, nearest.place("where")),
            )


def _helms(sight: Sight) -> list[Lies]:
    """Where she is steered: as the file says, else where boats of her type are; nothing where the file's own place is not known."""
    one = sight.vessel.vessel
    if one is not None and one.helm is not None:
        told = lies(sight, one.helm)
        return [told] if told is not None and not told.space.unlike else []
    return [Lies(space) for space in sight.spaces.values() if space.steering]


def _away_m(sight: Sight, radio: RadioSet, helms: list[Lies]) -> float:
    here = lies(sight, radio)
    return min(here.apart_m(each) for each in helms) if here is not None else 0.0


def _within_reach(sight: Sight, radio: RadioSet, helms: list[Lies]) -> bool:
    """Whether a set is spoken into from where she is steered, or goes with a person; of one whose place is not known nobody can tell.

    In a boat without rooms a handheld is handed over by somebody else, unless it is packed in a bag.
    """
    here = lies(sight, radio)
    if here is None or here.space.unlike or _WORN.search(f"{radio.spot or ''} {radio.where or ''}"):
        return True
    ways_in = (
        {str(each.name) for each in sight.vessel.vessel.hull.spaces if each.way_in is True}
        if sight.vessel.vessel
        else set()
    )
    one = sight.vessel.vessel
    if (
        radio.kind == BY_HAND
        and one is not None
        and not one.hull.has_rooms
        and not _BAGGED.search(str(radio.spot or ""))
    ):
        return True
    for helm in helms:
        same = here.space is helm.space or here.space.level == helm.space.level or here.space.name in ways_in
        if here.apart_m(helm) <= BESIDE_M and (same or here.space.level != BELOW):
            return True
    return False
