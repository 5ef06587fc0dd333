"""Pumps: enough of them, worked where the file says."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.reading.values import Quantity, all_known
from generator.shelves.spaces import BELOW
from generator.survey.limits import least, most
from generator.survey.places import space_at
from generator.survey.placing import lies
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
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


@check("pumps.not-from-deck", TRUTH, COMMON_PRACTICE)
def a_pump_worked_from_deck_is_worked_there(sight: Sight) -> Finds:
    """What is worked from on deck is not worked below, and what is worked on deck is not said to be otherwise.

    Why: with gas in the bilge a step sends somebody to it who must not go below.
    Remedy: go and look; write where its handle or switch is, or correct 'from-deck'.
    """
    for pump in sight.vessel.pumps:
        told = pump.handle.where if pump.handle is not None and pump.handle.known("where") else pump.where
        space = space_at(sight, told)
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


@check("pumps.one-hull", LIFE, COMMON_PRACTICE, COMPOSITION)
def each_hull_is_pumped(sight: Sight) -> Finds:
    """Each of two hulls has a pump.

    Why: water in one hull does not run to the pump in the other; she lists, and then she turns over.
    Remedy: describe under 'pumps' the one of the other hull, with its space and side; of one that draws from both say so in its name: hand pump, both hulls.
    """
    vessel = sight.vessel
    if vessel.vessel is None or not vessel.vessel.hull.lived_in_hulls:
        return
    there = all_known(lies(sight, pump) for pump in vessel.pumps)
    hulls = {each.hull for each in there or ()}
    both = any("both" in f"{pump.what} {pump.spot}".lower().split() for pump in vessel.pumps)
    if len(hulls) == 1 and "" not in hulls and not both:
        (dry,) = {"port", "starboard"} - hulls
        first = vessel.pumps[0]
        yield at(first, "where", f"no pump is in the {dry} hull: all are in the other", item=f"{dry} hull")
