"""Each space has its own: what puts out a fat fire at the cooker, a fuel fire at the engine; each release and tap apart from what burns."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.checks.fire.fought import nothing_near_the_galley
from generator.shelves.gear import before_comma
from generator.shelves.spaces import FOR_GEAR
from generator.survey.limits import most
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
    of,
)
from generator.vessel.fittings import Kept
from generator.vessel.gear import does

if TYPE_CHECKING:
    from generator.vessel.gear import Gear

_AT_THE_LID = re.compile(r"\b(?:lid|door|hatch|outside|front|opening|flap|cover)\b", re.IGNORECASE)
_COOKS = re.compile(r"\b(?:galley|cooker|stove|hob|oven)\b", re.IGNORECASE)
_SIDES = frozenset(("port", "starboard"))


def _by_hand(sight: Sight) -> list[Gear]:
    return [item for item in sight.vessel.gear if does(item, "discharged by hand")]


@check(
    "fire.no-fuel-class",
    LIFE,
    "EN 3-7 on fire classes: A solids, B liquids (from memory, unverified)",
    COMPOSITION,
)
def extinguishers_put_out_fuel(sight: Sight) -> Finds:
    """Where fuel or fat may burn, the rating of each extinguisher has a B, unless it is said what else it is for.

    Why: water on burning diesel or fat throws it about, and whoever has it in hand burns.
    Remedy: hang one there whose rating has a B; of one kept for cells or cushions say so: for: the lithium bank.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    burns = (
        bool(vessel.engines)
        or bool(vessel.gas)
        or (one is not None and one.engine not in (None, "none", "electric"))
    )
    rated = [
        item for item in _by_hand(sight) if isinstance(item.rating, str) and re.search(r"\d", item.rating)
    ]
    wrong = [item for item in rated if "B" not in str(item.rating).upper() and not isinstance(item.for_, str)]
    if burns and len(wrong) < len(rated):  # with none at all another check speaks
        for item in wrong:
            yield of(item, "rating", f"rated {item.rating}: not for fuel or fat")


@check("fire.blanket-far", HELP, COMMON_PRACTICE, COMPOSITION)
def the_blanket_hangs_where_people_cook(sight: Sight) -> Finds:
    """The fire blanket hangs where people cook.

    Why: fat burns for half a minute before it takes the deckhead; a blanket two doors away comes too late.
    Remedy: hang it beside the cooker, not over or behind it, and write where, side and spot.
    """
    galleys = [Lies(space) for space in sight.spaces.values() if space.cooking]
    blankets = [
        item for item in sight.vessel.gear if str(before_comma(str(item.what))).lower() == "fire blanket"
    ]
    places = [lies(sight, item) for item in blankets]
    if (
        not galleys
        or not blankets
        or nothing_near_the_galley(sight)
        or any(here is None or here.space.unlike for here in places)
    ):
        return
    most_m = most(sight.vessel, "extinguisher to the galley")
    near = [
        here
        for here in places
        if here is not None
        and any(here.apart_m(each) <= most_m and here.space.level == each.space.level for each in galleys)
    ]
    said = any(_COOKS.search(f"{item.what} {item.spot or ''}") for item in blankets)
    if not near and not said:  # of words that say galley and another space another check speaks
        yield of(blankets[0], "where", f"it hangs in the {places[0]}, away from the {galleys[0]}")


@check(
    "fire.galley-only-blanket",
    LIFE,
    COMMON_PRACTICE,
    COMPOSITION,
)
def an_extinguisher_is_where_people_live(sight: Sight) -> Finds:
    """Where gas is burnt, an extinguisher hangs inside, near the cooker: none in a cabin away from it, or in a locker on deck, alone.

    Why: a blanket covers a pan; hose, curtain or cushions burn on, and whoever cooks would go out through the flames to fetch something.
    Remedy: hang one in the galley or saloon, on the way out, and list it with where, side and rating.
    """
    gas = sight.vessel.gas
    galleys = [space for space in sight.spaces.values() if space.cooking and space.roofed]
    things = _by_hand(sight)
    if nothing_near_the_galley(sight) or any("galley" in str(item.what).lower() for item in things):
        return  # of which other checks speak
    if not gas or not isinstance(gas.fuel, str) or not galleys or not things:
        return
    places, most_m = [lies(sight, item) for item in things], most(sight.vessel, "extinguisher to the galley")
    if any(here is None or here.space.unlike or here.space.own for here in places):
        return
    if any(
        here is not None
        and (here.space.roofed or here.space.open_deck)
        and min(here.apart_m(Lies(galley)) for galley in galleys) <= most_m
        for here in places
    ):
        return
    names = ", ".join(dict.fromkeys(str(here) for here in places))
    yield of(
        things[0],
        "where",
        f"gas is burnt in the {galleys[0].name}, and no extinguisher hangs near it: they are in: {names}",
    )


@check("fire.serves-elsewhere", TRUTH, COMMON_PRACTICE, COMPOSITION)
def a_stop_in_an_engine_space_serves_that_engine(sight: Sight) -> Finds:
    """A stop that is in one of two engine spaces serves no engine of the other.

    Why: whoever reaches through the hole of the port engine space shuts the fuel of the engine that does not burn.
    Remedy: follow the pipe or the cable; correct 'where' and 'side', or 'serves'.
    """
    for stop in sight.vessel.stops:
        here = lies(sight, stop)
        if here is None or not here.space.engine or not isinstance(stop.serves, str):
            continue
        meant = _SIDES & set(re.findall(r"[a-z]+", stop.serves.lower()))
        side = here.side if here.side in _SIDES else ""
        if len(meant) == 1 and side and side not in meant:
            yield at(
                stop,
                "serves",
                f"the {stop.what} stop serves the {stop.serves}, and is in the {here.space.name} to {side}",
                item=f"{stop.what}, {stop.serves}",
                also=(stop.place("where"),),
            )


@check(
    "fire.release-shut-in",
    LIFE,
    "46 CFR 181.410 on controls outside the space (from memory, unverified); common practice",
    COMPOSITION,
)
def a_fixed_extinguisher_is_released_in_the_open(sight: Sight) -> Finds:
    """What releases a fixed extinguisher is not inside a locker or store beside the space that burns.

    Why: whoever crawls in to pull it is shut in with the smoke, and the gas that leaks through the bulkhead.
    Remedy: have the pull led to the deck or the helm; of one that is reached from outside write so: spot: just inside the lid.
    """
    for item in sight.vessel.gear:
        release = item.released_from
        here = lies(sight, release if isinstance(release, Kept) else None)
        if not does(item, "floods a space") or here is None or not isinstance(release, Kept):
            continue
        reached = isinstance(release.spot, str) and _AT_THE_LID.search(release.spot) is not None
        if here.space.stows == FOR_GEAR and not reached:
            name = str(item.what)
            yield at(release, "where", f"{name}: it is released inside the {here}", item=name)
