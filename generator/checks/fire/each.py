"""Each engine, and each battery bank, has what the others have: something that puts its fire out, a switch outside its space."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.checks.alarms import NOBODY_IN
from generator.manual.crew import the
from generator.reading.nearest import folded
from generator.reading.values import all_known, untold
from generator.shelves.spaces import BELOW
from generator.survey.placing import Lies, berths, lies
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    HELP,
    LIFE,
    RECOMMENDATION,
    TRUTH,
    Finds,
    Sight,
    at,
    check,
    of,
)
from generator.vessel.gear import SUFFOCATES, does

if TYPE_CHECKING:
    from generator.vessel.gear import Gear
    from generator.vessel.installed import Battery, Engine, Stop

_COMMON = frozenset(("engine", "batteries", "battery", "bank", "the", "and", "for", "of", "space"))
_HULLS = ("port", "starboard")


@check("fire.engine-without-guard", LIFE, COMMON_PRACTICE, COMPOSITION)
def every_engine_is_guarded(sight: Sight) -> Finds:
    """Where an automatic or fixed extinguisher guards one of several engines, one guards each of them.

    Why: the step says "release it" and the hatch stays shut; at the other engine nothing is released, and it burns on.
    Remedy: list the one of the other engine under 'gear', with where and side; or write fire-port: yes if an extinguisher can be discharged into both.
    """
    vessel = sight.vessel
    guards = vessel.gear_that("guards the engine space")
    inboard = [engine for engine in vessel.engines if str(engine.kind).startswith("inboard")]
    if not guards or len(inboard) < 2 or (vessel.vessel is not None and vessel.vessel.fire_port is True):
        return
    for engine in inboard:
        if not any(_guards(sight, item, engine, len(inboard)) for item in guards):
            yield at(
                guards[0],
                "where",
                f"{engine.what}: nothing that is listed guards it against fire, and another engine has it",
                item=str(engine.what),
                also=(engine.place("where"),),
            )


def _guards(sight: Sight, item: Gear, engine: Engine, engines: int) -> bool:
    """Whether an extinguisher is for an engine: by its name, by the space it is in, or because there are as many as engines."""
    words = _words(f"{item.what} {item.for_ if isinstance(item.for_, str) else ''}")
    if {"port", "starboard"} & words:
        return (
            bool(_words(f"{engine.what} {engine.side}") & words & {"port", "starboard"})
            or {"port", "starboard"} <= words
        )
    here, there = lies(sight, item), lies(sight, engine)
    if (
        here is None
        or there is None
        or not here.space.engine
        or (not here.side and isinstance(item.quantity, int) and item.quantity >= engines)
    ):
        return True
    return here.meets(there)


@check("fire.guards-elsewhere", TRUTH, COMMON_PRACTICE, COMPOSITION)
def an_automatic_extinguisher_is_where_it_guards(sight: Sight) -> Finds:
    """An automatic extinguisher is in the engine space, unless it is said to be for the space that it is in.

    Why: it goes off by the heat around it, and outside it stays silent while the engine burns.
    Remedy: go and look where it hangs; of one that guards another space write so: for: the gas heater.
    """
    one = sight.vessel.vessel
    for item in sight.vessel.gear if one is not None and one.inboard_engine else ():
        here = lies(sight, item)
        automatic = does(item, "guards the engine space") and not does(item, "floods a space")
        if (
            automatic
            and here is not None
            and not (here.space.engine or here.space.unlike)
            and untold(item.for_)
        ):
            named = _words(str(item.what).partition(",")[2])
            if not named & _words(here.space.name):
                yield of(item, "where", f"it guards the engine space, and hangs in the {here}")


@check("fire.hull-without", HELP, COMMON_PRACTICE, COMPOSITION)
def each_lived_in_hull_has_an_extinguisher(sight: Sight) -> Finds:
    """Of two hulls in which people live, each has something to put a fire out with where the other has.

    Why: whoever wakes in smoke in the one runs across the boat for what hangs in the other.
    Remedy: hang one in that hull, on the way out, and list it with where and side.
    """
    one = sight.vessel.vessel
    things = sight.vessel.gear_that("discharged by hand")
    there = all_known(lies(sight, item) for item in things)
    if one is None or not one.hull.lived_in_hulls or not there:
        return
    hung: dict[str, Gear] = {}
    for item, here in zip(things, there, strict=True):
        for hull in _HULLS:
            if here.hull == hull or f"{hull} hull" in str(item.what).lower():
                hung.setdefault(hull, item)  # of a name that its place contradicts another check speaks
    for deaf in (hull for hull in _HULLS if hung and hull not in hung):
        sleeper = next((person for here, person in berths(sight).values() if here.hull == deaf), None)
        if sleeper is not None:
            ((hull, item),) = hung.items()
            yield at(
                item,
                "where",
                f"the {hull} hull has an extinguisher, and the {deaf} hull, where {the(str(sleeper.role))} sleeps, has none",
                item=f"{deaf} hull",
                also=(sleeper.place("berth"),),
            )


STORE_M = 1.5
"""How far from where people are a store on deck may be whose extinguisher they reach. Common practice."""


@check("fire.in-a-store", LIFE, COMMON_PRACTICE, COMPOSITION)
def an_extinguisher_hangs_where_people_are(sight: Sight) -> Finds:
    """A portable extinguisher does not hang in a store at the end of the boat, in which nothing burns.

    Why: it counts as one of those aboard, and nobody fetches it out of the forepeak or the lazarette past the fire.
    Remedy: hang it where people sleep, cook or steer, on the way out; of one kept for what burns there say so: for: the outboard's petrol.
    """
    reached = [
        Lies(space) for space in sight.spaces.values() if space.steering or space.cooking or space.engine
    ]
    reached += [here for here, _ in berths(sight).values()]
    fed = [
        *sight.vessel.batteries,
        *sight.vessel.engines,
        *sight.vessel.stops,
        *(item for item in sight.vessel.gear if does(item, "feeds a fire")),
    ]
    for item in sight.vessel.gear:
        here = lies(sight, item) if does(item, "discharged by hand") and untold(item.for_) else None
        if here is None or not NOBODY_IN.search(here.space.name) or here.space.unlike or not reached:
            continue
        far = here.space.level == BELOW or min(here.apart_m(each) for each in reached) > STORE_M
        burns = any((each := lies(sight, thing)) is not None and each.space is here.space for thing in fed)
        if far and not burns and not any(each.space is here.space for each in reached):
            yield of(item, "where", f"it hangs in the {here}, a store in which nothing burns and nobody is")


@check(
    "fire.gas-among-sleepers", LIFE, "46 CFR 181.410 (from memory, unverified); common practice", COMPOSITION
)
def what_suffocates_is_not_kept_where_people_sleep(sight: Sight) -> Finds:
    """The bottle of a fixed extinguisher whose gas suffocates does not stand where people sleep.

    Why: CO2 that leaks, or is sent out by mistake, has no smell and kills whoever lies there.
    Remedy: have the bottle moved on deck or into the space that it floods; correct 'where', or 'agent' if it is another.
    """
    slept = berths(sight)
    for item in sight.vessel.gear:
        here = lies(sight, item) if does(item, "floods a space") and item.agent == SUFFOCATES else None
        found = next((both for both in slept.values() if here is not None and both[0].meets(here)), None)
        if found is not None:
            yield of(
                item,
                "where",
                f"it sends out CO2, and stands in the {here}, where {the(str(found[1].role))} sleeps",
                also=(found[1].place("berth"),),
            )


@check("fire.bank-without-switch", LIFE, COMMON_PRACTICE)
def every_bank_is_cut_off(sight: Sight) -> Finds:
    """Where a switch cuts off one battery bank, one cuts off each of them.

    Why: the bank that is left feeds the fire, and the cells of a lithium bank that is still fed do not cool.
    Remedy: describe its switch under 'stops' with what: batteries and serves: the name of the bank; one that cuts off all serves none.
    """
    switches = [stop for stop in sight.vessel.stops if stop.what == "batteries"]
    if not switches or any(untold(stop.serves) for stop in switches):
        return
    for bank in sight.vessel.batteries:
        if isinstance(bank.what, str) and not any(_serves(stop, bank) for stop in switches):
            yield at(
                bank,
                "what",
                f"{bank.what} batteries: no switch serves them, and other banks have one",
                item=f"{bank.what} batteries",
            )


def _serves(stop: Stop, bank: Battery) -> bool:
    """Whether a switch serves a bank: all of them, it by its name, or what is in its space."""
    said = folded(str(stop.serves or ""))
    if untold(stop.serves) or re.search(r"\b(?:all|both|every)\b", said):
        return True
    meant = _words(str(bank.what)) - _COMMON
    space = folded(str(bank.where or ""))
    return (
        folded(str(bank.what)) in said
        or (bool(meant) and meant <= _words(said))
        or (bool(space) and space in said)
    )


@check("fire.switch-with-bank", LIFE, COMMON_PRACTICE, COMPOSITION)
def a_lithium_bank_is_cut_off_from_outside(sight: Sight) -> Finds:
    """The switch of a lithium bank is reached without going where the bank is.

    Why: its smoke is poison and burns; whoever goes to the switch beside it does not come back.
    Remedy: have the switch moved, or a remote one fitted; where it is reached without opening the place of the cells write from-outside: yes.
    """
    switches = [stop for stop in sight.vessel.stops if stop.what == "batteries"]
    for bank in sight.vessel.batteries:
        here = lies(sight, bank)
        serving = [stop for stop in switches if _serves(stop, bank)]
        if bank.chemistry != "lithium" or here is None or here.space.engine or not serving:
            continue
        if all(
            untold(stop.from_outside) and (there := lies(sight, stop)) is not None and here.meets(there)
            for stop in serving
        ):
            yield at(
                serving[0],
                "where",
                f"the switch of the {bank.what} batteries (lithium) is in the {here}, with them",
                item=f"{bank.what} batteries",
                weight=RECOMMENDATION if here.space.roofed else None,
                also=(bank.place("where"),),
            )


def _words(text: str) -> set[str]:
    return set(re.findall(r"[a-z]+", text.lower()))
