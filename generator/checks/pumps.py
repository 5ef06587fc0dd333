"""Pumps: enough of them, worked where the file says."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.reading.values import Quantity
from generator.shelves.spaces import BELOW
from generator.survey.limits import least, most
from generator.survey.places import space_at
from generator.survey.placing import lies, space_of
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    HELP,
    LIFE,
    RECOMMENDATION,
    TRUTH,
    Finds,
    Found,
    Sight,
    at,
    check,
    of,
)
from generator.vessel.particulars import FAR

if TYPE_CHECKING:
    from generator.manual.drawing.spaces import Space
    from generator.vessel.installed import Pump


@check(
    "pumps.too-few",
    LIFE,
    "ISO 15083 5.1.3 (a second pump, read in an excerpt); common practice offshore",
)
def there_are_pumps_enough(sight: Sight) -> Finds:
    """There is a bilge pump; offshore there are two. Inshore, a boat whose type is bailed needs none.

    Why: the one pump chokes on what floats in the bilge.
    Remedy: list each under 'pumps'; fit a second that drains all of her.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    needed = least(vessel, "bilge pumps")
    if one and one.hull.is_bailed and one.waters not in FAR:
        return
    if one and isinstance(one.waters, str) and len(vessel.pumps) < needed:
        place = vessel.key_place("pumps") if vessel.pumps else one.place("waters")
        yield Found(
            place,
            f"she sails {one.waters} waters, and {len(vessel.pumps) or 'no'} bilge pump{' is' if len(vessel.pumps) < 2 else 's are'} described",
            weight=RECOMMENDATION if vessel.pumps else None,
        )


_FROM_DECK = re.compile(
    r"\b(?:reached|worked|switched|got at|pulled|pumped|at hand|within reach|in reach) (?:also |by hand |too )?from (?:on |the |our )*(?:deck|cockpit|helm|wheel|tiller|side deck)\b",
    re.IGNORECASE,
)
"""Words for what stands just inside, and is worked by somebody on deck."""


@check("pumps.not-from-deck", TRUTH, COMMON_PRACTICE)
def a_pump_worked_from_deck_is_worked_there(sight: Sight) -> Finds:
    """What is worked from on deck is not worked below, and what is worked on deck is not said to be otherwise.

    Why: with gas in the bilge a step sends somebody to it who must not go below.
    Remedy: go and look; write where its handle or switch is, or correct 'from-deck'.
    """
    for pump in sight.vessel.pumps:
        told = pump.handle.where if pump.handle is not None and pump.handle.known("where") else pump.where
        space = space_at(sight, told)
        spot = pump.handle.spot if pump.handle is not None and pump.handle.known("spot") else pump.spot
        if isinstance(spot, str) and _FROM_DECK.search(spot):
            continue
        if pump.from_deck is True and space is not None and space.level == BELOW:
            yield at(
                pump,
                "from-deck",
                f"the {pump.what} is worked from on deck, and in the {told}, below deck",
                item=str(pump.what),
            )
        elif (
            pump.from_deck is False
            and pump.power == "hand"
            and space is not None
            and _in_the_open(sight, space)
        ):
            yield at(
                pump,
                "from-deck",
                f"the {pump.what} is said not to be worked from on deck, and is in the {told}, on deck",
                item=str(pump.what),
            )


def _in_the_open(sight: Sight, space: Space) -> bool:
    """Whether whoever works a pump in a space of a boat with something below stands on deck."""
    one = sight.vessel.vessel
    return space.open_deck and not space.exposed and one is not None and one.hull.closed_in


@check(
    "pumps.none-from-deck",
    LIFE,
    "ISO 15083 on a pump worked from the cockpit (from memory, unverified); common practice",
)
def one_hand_pump_is_worked_from_deck(sight: Sight) -> Finds:
    """Offshore, of the hand pumps of a boat that can be shut, one is worked from on deck.

    Why: with the hatches shut in breaking seas nobody can go below to pump, and she fills.
    Remedy: lead one pump's lever to the cockpit, and write its handle there and from-deck: yes.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    by_hand = [pump for pump in vessel.pumps if pump.power == "hand"]
    if one is None or one.waters not in FAR or not one.hull.closed_in or not by_hand:
        return
    there = [space_at(sight, pump.where) for pump in by_hand]
    if all(pump.from_deck is False for pump in by_hand) and not any(
        space is None or _in_the_open(sight, space) for space in there
    ):
        yield at(
            by_hand[0],
            "from-deck",
            "no hand pump is worked from on deck",
            item="hand pumps",
            also=tuple(pump.place("from-deck") for pump in by_hand[1:]),
        )


@check("pumps.flow", TRUTH, "makers' data sheets (secondary); the limits on the shelf")
def a_pump_moves_what_such_a_pump_moves(sight: Sight) -> Finds:
    """A pump's flow is one that pumps worked so have.

    Why: whoever reads that one man at a handle moves a swimming bath a minute stops looking for the leak.
    Remedy: read the maker's plate again, and the unit with it, litres or gallons, a minute or an hour.
    """
    for pump in sight.vessel.pumps:
        if not isinstance(pump.flow, Quantity) or not isinstance(pump.power, str):
            continue
        low, high = (limit(sight.vessel, "flow of a pump", kind=pump.power) for limit in (least, most))
        if not low <= pump.flow <= high:
            yield of(
                pump,
                "flow",
                f"{pump.flow} by a pump driven by {pump.power}; on a boat of her length such pumps move {low:g} to {high:g} l/min",
                also=(pump.place("power"),),
            )


_HULLS = frozenset(("port", "starboard"))


@check("pumps.one-hull", LIFE, COMMON_PRACTICE, COMPOSITION)
def each_hull_is_pumped(sight: Sight) -> Finds:
    """Each of two hulls has a pump.

    Why: water in one hull does not run to the pump in the other; she lists, and then she turns over.
    Remedy: describe under 'pumps' the one of the other hull, with its space and side; of one that draws from both say so in its name: hand pump, both hulls.
    """
    vessel = sight.vessel
    if vessel.vessel is None or not vessel.vessel.hull.lived_in_hulls:
        return
    pumped = {hull for pump in vessel.pumps for hull in _drains(sight, pump)}
    if len(pumped) == 1:
        (dry,) = _HULLS - pumped
        yield at(
            vessel.pumps[0],
            "where",
            f"nothing pumps the {dry} hull: every pump is in the other, or by its name that of the other",
            item=f"{dry} hull",
        )


def _drains(sight: Sight, pump: Pump) -> frozenset[str]:
    """The hulls that a pump may draw from: that in which it is, that by which it is called, or else both."""
    here, words = lies(sight, pump), frozenset(f"{pump.what} {pump.spot}".lower().split())
    if here is not None and here.hull and "both" not in words:
        return frozenset((here.hull,))
    named = _HULLS & frozenset(str(pump.what).lower().split())
    return named if named and "both" not in words else _HULLS


@check("pumps.no-handle", LIFE, COMMON_PRACTICE)
def every_hand_pump_has_a_handle(sight: Sight) -> Finds:
    """A hand pump has something to work it by, an electric one something that switches it on.

    Why: the step sends somebody to it, and bare hands move no diaphragm.
    Remedy: carry a handle and write where: handle: in the clip beside it; of one that stays in the pump: handle: stays in it.
    """
    for pump in sight.vessel.pumps:
        if pump.says_none("handle"):
            by_hand = pump.power == "hand"
            yield of(
                pump,
                "handle",
                "nothing to work it by" if by_hand else "nothing switches it on",
                weight=None if by_hand else RECOMMENDATION,
            )


_AT_THE_LID = re.compile(r"\b(?:lid|clips?|hooks?|hatch|just inside|edge|coaming)\b", re.IGNORECASE)
_WHERE_ONE_SITS = re.compile(r"cockpit|helm|side (?:seat|bench)|seat")
"""Of the name of a locker: that it opens where whoever pumps sits."""


@check("pumps.handle-in-a-locker", HELP, COMMON_PRACTICE, COMPOSITION)
def the_handle_hangs_where_the_pump_is_worked(sight: Sight) -> Finds:
    """The handle of a hand pump on deck is not among the gear of a locker elsewhere: the lazarette, the foredeck locker.

    Why: somebody empties the locker in a breaking sea before the first stroke.
    Remedy: hang it in a clip beside the pump, and write that: handle: {where: cockpit, spot: in the clip beside it}.
    """
    for pump in sight.vessel.pumps:
        space, kept = space_of(sight, pump), space_of(sight, pump.handle)
        if pump.power != "hand" or space is None or kept is None or kept is space or kept.own:
            continue
        spot = pump.handle.spot if pump.handle is not None else None
        away = kept.stows and space.open_deck and kept.level == space.level
        if away and not _AT_THE_LID.search(str(spot or "")) and not _WHERE_ONE_SITS.search(kept.name):
            yield at(
                pump.handle or pump,
                "where",
                f"{pump.what}: its handle is kept in the {kept.name}, and the pump is in the {space.name}",
                item=str(pump.what),
                also=(pump.handle.place("spot"),) if pump.handle is not None and spot else (),
            )
