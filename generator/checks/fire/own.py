"""Each space has its own: what puts out a fat fire at the cooker, a fuel fire at the engine; each release and tap apart from what burns."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.checks.fire.fought import nothing_near_the_galley
from generator.shelves.gear import before_comma
from generator.shelves.spaces import FOR_GEAR
from generator.survey.limits import most
from generator.survey.placing import Lies, lies, space_of
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    FORM,
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
from generator.vessel.gear import SUFFOCATES, does

if TYPE_CHECKING:
    from collections.abc import Sequence

    from generator.vessel.gear import Gear
    from generator.vessel.installed import Stop

_AT_THE_LID = re.compile(r"\b(?:lid|door|hatch|outside|front|opening|flap|cover)\b", re.IGNORECASE)
_COOKS = re.compile(r"\b(?:galley|cooker|stove|hob|oven)\b", re.IGNORECASE)
_SIDES = frozenset(("port", "starboard"))


def _by_hand(sight: Sight) -> Sequence[Gear]:
    return sight.vessel.gear_that("discharged by hand")


@check(
    "fire.no-fuel-class",
    LIFE,
    "EN 3-7 on fire classes: A solids, B liquids (from memory, unverified)",
    COMPOSITION,
)
def extinguishers_put_out_fuel(sight: Sight) -> Finds:
    """Where fuel or fat may burn, the rating of each extinguisher has a B, unless it is said what else it is for.

    Why: water on burning diesel or fat throws it about, and whoever has it in hand burns.
    Remedy: hang one there whose rating has a B (one for fat, class F, in the galley beside it); of one kept for cells or cushions say so: for: the lithium bank.
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
    wrong = [item for item in rated if "B" not in str(item.rating).upper() and not _said_for(item)]
    wrong = [
        item for item in wrong if not ("F" in str(item.rating).upper() and _where_people_cook(sight, item))
    ]
    if burns and len(wrong) < len(rated):  # with none at all another check speaks
        for item in wrong:
            fat = "F" in str(item.rating).upper()
            yield of(
                item,
                "rating",
                f"rated {item.rating}: not for {'burning liquid fuel' if fat else 'fuel or fat'}",
            )


_FOR_WHAT = re.compile(
    r"\bfor (?:the |our )?(?:lithium|li-?ion|house |bow ?thruster )?(?:lithium|li-?ion|cells?|bank|batter(?:y|ies)|cushions?|bedding|berths?|wood|paper|solids)\b",
    re.IGNORECASE,
)


def _said_for(item: Gear) -> bool:
    """Whether it is said what an extinguisher is for, under 'for' or in its name."""
    return isinstance(item.for_, str) or (
        isinstance(item.what, str) and _FOR_WHAT.search(item.what) is not None
    )


def _where_people_cook(sight: Sight, item: Gear) -> bool:
    """Whether a thing hangs where people cook: there its class F, for fat, is what is wanted."""
    space = space_of(sight, item)
    return space is not None and space.cooking


@check("fire.agent-rating", TRUTH, "EN 3-7 on fire classes: A solids, B liquids (from memory, unverified)")
def an_agent_has_the_rating_it_can_have(sight: Sight) -> Finds:
    """An extinguisher of CO2 has no A in its rating.

    Why: one of the two was read off another bottle; CO2 puts out no cushion, and takes the air of whoever sleeps in a small cabin.
    Remedy: read both on the bottle, and correct 'agent' or 'rating'.
    """
    for item in _by_hand(sight):
        rated = isinstance(item.rating, str) and re.search(
            r"(?<![A-Za-z])\d+ ?-? ?A\b|\bA ?:", item.rating.upper()
        )
        gas = item.agent == SUFFOCATES or (not isinstance(item.agent, str) and _CO2.search(str(item.what)))
        if rated and gas:
            yield of(item, "rating", f"rated {item.rating}, and CO2 puts out nothing of class A")


_CO2 = re.compile(r"\bCO2\b|\bcarbon dioxide\b", re.IGNORECASE)
PORT_M = 2.5
"""How far from the fire port the extinguisher that is discharged through it may hang. Common practice."""


@check("fire.port-far", LIFE, COMMON_PRACTICE, COMPOSITION)
def the_extinguisher_for_the_port_hangs_at_it(sight: Sight) -> Finds:
    """The extinguisher that is for the fire port hangs beside it.

    Why: the step discharges it through the port at once; who has to fetch it first opens the hatch instead, and gives the fire air.
    Remedy: hang it at the port, then write where, side and spot; or correct 'fire-port-place'.
    """
    one = sight.vessel.vessel
    port = lies(sight, one.fire_port_place) if one is not None and one.fire_port is True else None
    engines = [Lies(space) for space in sight.spaces.values() if space.engine]
    if one is None or port is None or port.space.unlike or not engines:
        return
    if min(port.apart_m(each) for each in engines) > PORT_M:
        return  # of a port that leads elsewhere another check speaks
    for item in _by_hand(sight):
        here = (
            lies(sight, item)
            if re.search(
                r"\bfire ?-?port\b|\bfor the port$", f"{item.what} {item.for_ or ''}".lower().strip()
            )
            else None
        )
        if here is None or here.space.unlike or here.apart_m(port) <= PORT_M:
            continue
        yield of(
            item,
            "where",
            f"it is for the fire port in the {port}, and hangs in the {here}, {here.apart_m(port):.0f} m away",
            also=(one.place("fire-port-place"),),
        )


@check("fire.stops-alike", HELP, COMMON_PRACTICE)
def stops_of_two_engines_are_told_apart(sight: Sight) -> Finds:
    """Two stops of one kind that serve two engines differ in their place or in how they are worked.

    Why: before two taps alike the one is shut, and the fuel of the other goes on burning.
    Remedy: follow the pipes; write side and spot of each, or what is marked on them: how: turn the tap marked PORT across the pipe.
    """
    seen: dict[tuple[str, ...], Stop] = {}
    for stop in sight.vessel.stops:
        if not isinstance(stop.serves, str) or not isinstance(stop.where, str):
            continue
        place = tuple(
            str(each or "").lower() for each in (stop.what, stop.where, stop.side, stop.spot, stop.how)
        )
        other = seen.setdefault(place, stop)
        if other is not stop and other.serves != stop.serves:
            yield at(
                stop,
                "side" if stop.known("side") else "where",
                f"the {stop.what} stops of the {other.serves} and of the {stop.serves} are in one place, worked alike",
                item=f"{stop.what}, {stop.serves}",
                also=(other.place("where"), stop.place("how"), other.place("how")),
            )


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
        here = places[0]
        outside = here is not None and all(
            here.space.level != each.space.level or here.apart_m(each) > 2 * most_m for each in galleys
        )
        yield of(
            blankets[0],
            "where",
            f"it hangs in the {here}, away from the {galleys[0]}",
            weight=LIFE.weight if outside and not _for_fat(sight, galleys, most_m) else None,
        )


def _for_fat(sight: Sight, galleys: list[Lies], most_m: float) -> bool:
    """Whether an extinguisher for burning fat, of class F, hangs near where people cook."""
    for item in _by_hand(sight):
        here = lies(sight, item)
        rated = isinstance(item.rating, str) and "F" in item.rating.upper()
        if rated and here is not None and any(here.apart_m(each) <= most_m for each in galleys):
            return True
    return False


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


_WET = ("foam", "water mist")
_AT_THE_PORT = re.compile(r"\b(?:fire ?)?port\b", re.IGNORECASE)
_RATED = re.compile(r"(\d+)\s*A\b\W*(\d+)\s*B", re.IGNORECASE)


@check(
    "fire.port-agent", HELP, "Boat Safety Scheme part 6 (extinguisher discharged without opening the hatch)"
)
def what_goes_through_the_port_fills_the_space(sight: Sight) -> Finds:
    """What is discharged through the fire port is a gas or powder, not foam or water.

    Why: a gas fills the engine space behind the port; foam lies on the first thing it meets, and the fire burns behind it.
    Remedy: hang one of clean agent, powder or CO2 there; if it is one, correct 'agent'.
    """
    one = sight.vessel.vessel
    if one is None or one.fire_port is not True:
        return
    for item in _by_hand(sight):
        called = f"{str(item.what or '').partition(',')[2]} {item.for_ if isinstance(item.for_, str) else ''}"
        if (
            item.agent in _WET
            and _AT_THE_PORT.search(called)
            and not re.search(r"\bport (?:side|hull|cabin|aft|forward)\b", called)
        ):
            yield of(item, "agent", f"it is for the fire port, and sends out {item.agent}")


@check(
    "fire.rating-turned",
    FORM,
    "EN 3 test fires, as makers rate portable extinguishers (from memory, unverified)",
)
def ratings_have_the_greater_number_before_the_b(sight: Sight) -> Finds:
    """Of a rating for A and B the number before the B is the greater.

    Why: makers rate 13A/113B, 8A/68B, 2A:10B; the other way round it was read from another line, or typed over.
    Remedy: read it again on the extinguisher, and correct 'rating'.
    """
    for item in _by_hand(sight):
        found = _RATED.search(item.rating) if isinstance(item.rating, str) else None
        if found is not None and int(found[1]) > int(found[2]):
            yield of(
                item, "rating", f"rated {item.rating}: such an extinguisher puts out more of B than of A"
            )
