"""Those who are asleep: they are woken, get out, and find something to put a fire out with."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.checks.escape import ways_in_left_out
from generator.manual.alarms import that_warn
from generator.manual.crew import the
from generator.reading.values import Quantity, all_known
from generator.shelves.spaces import BELOW
from generator.survey.cells import lithium
from generator.survey.hands import hands
from generator.survey.limits import least, most
from generator.survey.placing import Lies, berths, lies, lies_at
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    HELP,
    LIFE,
    RECOMMENDATION,
    Finds,
    Found,
    Sight,
    at,
    check,
)
from generator.vessel.alarms import Alarm

if TYPE_CHECKING:
    from collections.abc import Sequence

    from generator.manual.drawing.spaces import Space
    from generator.vessel.gear import Gear


def _heard(sight: Sight, alarm: Alarm | Gear) -> list[Lies | None]:
    """Where an alarm sounds: where it hangs, and where else it says so."""
    also = (alarm.sounds_in or ()) if isinstance(alarm, Alarm) else ()
    own = lies(sight, alarm)
    shut_in = own is not None and own.space.engine  # behind its doors and its noise nobody hears it
    return [*(() if shut_in else (own,)), *(lies_at(sight, each) for each in also)]


def _nearest(here: Lies, those: Sequence[Lies]) -> tuple[float, str]:
    return min((here.apart_m(each), str(each)) for each in those)


@check("placed.asleep", LIFE, COMMON_PRACTICE, COMPOSITION)
def alarms_wake_those_who_sleep(sight: Sight) -> Finds:
    """A smoke alarm is heard in each space with a berth, and one for carbon monoxide in one of them at least.

    Why: smoke and gas put a sleeper deeper to sleep; an alarm behind two doors at the other end of the boat wakes nobody.
    Remedy: fit one there and tell it under 'alarms': what: smoke; of one that sounds there too write sounds-in.
    """
    sleeping, most_m = berths(sight), most(sight.vessel, "alarm to a berth")
    for words, does_what in (("smoke", "warns of smoke"), ("carbon monoxide", "warns of carbon monoxide")):
        alarms = that_warn(sight.vessel, does_what)
        heard = all_known(each for alarm in alarms for each in _heard(sight, alarm))
        hung = [lies(sight, alarm) for alarm in alarms]
        cabins = sight.vessel.vessel is not None and sight.vessel.vessel.hull.has_rooms
        if alarms and (sleeping or cabins) and heard == []:
            space = str(hung[0])
            yield at(
                alarms[0],
                "where",
                f"no alarm for {words} is heard in a cabin: it hangs in the {space}, shut in with the engine",
                item=words,
            )
        if not heard or not sleeping or any(each is not None and not each.space.roofed for each in hung):
            continue  # of one that hangs where it hears nothing another check speaks
        far = {name: _nearest(here, heard) for name, (here, _) in sleeping.items()}
        deaf = [name for name, (gap, _) in far.items() if gap > most_m]
        if words != "smoke" and len(deaf) < len(sleeping):
            continue
        if deaf:
            gap, there = far[deaf[0]]
            sleeper = sleeping[deaf[0]][1]
            nearest = f"the nearest sounds in the {there}, {gap:.0f} m away"
            yield Found(
                sleeper.place("berth"),
                f"no alarm for {words} is heard in the {' and the '.join(deaf)}, where {the(str(sleeper.role))} sleeps: {nearest}",
                remedy=_fit_one("smoke" if words == "smoke" else "CO", deaf[0]),
                item=deaf[0],
                also=(
                    *(sleeping[name][1].place("berth") for name in deaf[1:]),
                    *(alarm.place("where") for alarm in alarms[:1]),
                ),
            )


APART_M = 0.5
"""A gap between two spaces on the plan behind which the one is not open to the other. Common practice."""


def _smoke_heard_m(sight: Sight, here: Lies) -> float | None:
    """How far from a space the nearest smoke alarm sounds, in m; None where that of one is not known, or there is none."""
    heard = all_known(
        each for alarm in that_warn(sight.vessel, "warns of smoke") for each in _heard(sight, alarm)
    )
    return _nearest(here, heard)[0] if heard else None


@check(
    "placed.cabin-unwarned",
    HELP,
    "United States fire authorities on smoke alarms (secondary); common practice",
    COMPOSITION,
)
def each_cabin_has_its_smoke_alarm(sight: Sight) -> Finds:
    """Where most cabins that people sleep in have smoke alarms of their own, each has; a child's or a helpless person's where another cabin has one.

    Why: behind the one shut door that has none, whoever sleeps there breathes the smoke before the others' alarms are heard.
    Remedy: fit one there and tell it under 'alarms': what: smoke, with that space; of one that sounds there too write sounds-in.
    """
    cabins = {name: both for name, both in berths(sight).items() if _is_a_cabin(both[0].space)}
    gaps = {name: _smoke_heard_m(sight, here) for name, (here, _) in cabins.items()}
    own = [name for name, gap in gaps.items() if gap == 0]
    most_have, weak = 2 * len(own) > len(cabins), _who_do_not_get_out(sight)
    for name, (_, person) in cabins.items() if own else ():
        gap = gaps[name]
        if not most_have and not any(each == name for each in weak):
            continue
        if gap is not None and APART_M < gap <= most(sight.vessel, "alarm to a berth"):
            yield Found(
                person.place("berth"),
                f"the {own[0]} has a smoke alarm of its own, and the {name}, where {the(str(person.role))} sleeps, has none",
                remedy=_fit_one("smoke", name),
                item=name,
            )


def _who_do_not_get_out(sight: Sight) -> set[str]:
    """Where those sleep who are children or need help on board, as `berths` names it."""
    crew = hands(sight)
    small = [each for each in sight.vessel.people if each.role in crew and crew[str(each.role)].weak]
    return {str(here) for each in small if (here := lies(sight, each.berth)) is not None}


def _fit_one(what: str, space: str) -> str:
    """What to do where an alarm is missing, with its entry."""
    return f"fit one there and tell it under 'alarms': - {{what: {what}, where: {space}}}; of one that sounds there too write sounds-in: [{space}]"


def _is_a_cabin(space: Space) -> bool:
    """Whether a space that people sleep in has a door: neither a room in her middle nor one that she is steered or fed in."""
    return any(word in space.name for word in ("cabin", "peak", "stateroom")) and not space.cooking


@check("placed.lithium-unwarned", LIFE, COMMON_PRACTICE, COMPOSITION)
def smoke_of_cells_wakes_those_over_them(sight: Sight) -> Finds:
    """Where people sleep over a lithium bank, or the lithium battery of an outboard or a bicycle, a smoke alarm sounds in that space.

    Why: its smoke is poison and comes before the flames; those who lie on it have seconds.
    Remedy: fit one there and tell it under 'alarms': what: smoke, with that space.
    """
    sleeping = berths(sight)
    for what, bank, cells in lithium(sight):
        for name, (here, person) in sleeping.items():
            gap = _smoke_heard_m(sight, here) if here.meets(cells) else None
            if gap is not None and APART_M < gap <= most(sight.vessel, "alarm to a berth"):
                yield Found(
                    person.place("berth"),
                    f"{the(str(person.role))} sleeps in the {name}, over the {what}, and no smoke alarm sounds there",
                    remedy=_fit_one("smoke", name),
                    item=name,
                    also=(bank.place("where"),),
                )
                break


@check("placed.helper-in-the-other-hull", HELP, COMMON_PRACTICE, COMPOSITION)
def a_small_child_sleeps_where_its_helper_does(sight: Sight) -> Finds:
    """Who needs help sleeps in the same hull as whoever gives it.

    Why: at night, with one hull full of smoke or water, the helper is on the other side of it.
    Remedy: give one of the two another berth, or name a helper who sleeps in that hull.
    """
    slept = {str(person.role): lies(sight, person.berth) for person in sight.vessel.people}
    for person in sight.vessel.people:
        here, there = slept.get(str(person.role)), slept.get(str(person.helper))
        if here is not None and there is not None and {here.hull, there.hull} == {"port", "starboard"}:
            yield at(
                person,
                "berth",
                f"{the(str(person.role))} sleeps in the {here}, and {the(str(person.helper))}, the helper, in the {there}",
                item=str(person.role),
            )


@check(
    "placed.asleep-over-petrol",
    LIFE,
    "Boat Safety Scheme on carbon monoxide (secondary); common practice",
    COMPOSITION,
)
def each_cabin_over_petrol_has_its_alarm(sight: Sight) -> Finds:
    """Where a petrol engine runs below people who sleep, and cabins have carbon monoxide alarms of their own, each has.

    Why: exhaust finds its way through a bulkhead into one cabin alone, and has no smell there.
    Remedy: fit one there and tell it under 'alarms': what: CO, with that space.
    """
    one = sight.vessel.vessel
    if one is None or not (one.petrol and one.inboard_engine):
        return
    alarms = that_warn(sight.vessel, "warns of carbon monoxide")
    heard, sleeping = all_known(each for alarm in alarms for each in _heard(sight, alarm)), berths(sight)
    deaf = [name for name, (here, _) in sleeping.items() if not any(each.meets(here) for each in heard or ())]
    if heard and deaf and len(sleeping) - len(deaf) > len(deaf):
        sleeper, here = sleeping[deaf[0]][1], sleeping[deaf[0]][0]
        away_m, there = _nearest(here, heard)
        yield Found(
            sleeper.place("berth"),
            f"no alarm for carbon monoxide is heard in the {' and the '.join(deaf)}, where {the(str(sleeper.role))} sleeps, and she burns petrol; the nearest is {away_m:.0f} m away, in the {there}",
            remedy=_fit_one("CO", deaf[0]),
            item=deaf[0],
            also=tuple(alarm.place("where") for alarm in alarms[:1]),
        )


@check(
    "placed.way-from-berth",
    LIFE,
    "ISO 9094 on exits: 5 m from a berth (from memory, unverified)",
    COMPOSITION,
)
def a_way_out_is_near_each_berth(sight: Sight) -> Finds:
    """Each berth is near a way out.

    Why: in smoke nobody gets far, and the watch below is wanted on deck at once.
    Remedy: give a berth nearer to one; or describe under 'escape' the hatch that is there.
    """
    ways = all_known(lies(sight, hatch) for hatch in sight.vessel.escape if hatch.opens != "outside")
    most_m = most(sight.vessel, "berth to a way out")
    for name, (here, person) in berths(sight).items() if ways else ():
        gap, there = _nearest(here, ways or [])
        if gap > most_m:
            yield Found(
                person.place("berth"),
                f"{the(str(person.role))} sleeps in the {name}, and the nearest way out is that of the {there}, {gap:.0f} m away",
                item=name,
            )


BESIDE_M = 1.5
"""How far a way out may be from a cabin to count as beside it: common practice."""


@check("placed.way-past-fire", LIFE, COMMON_PRACTICE, COMPOSITION)
def nobody_gets_out_past_the_fire_alone(sight: Sight) -> Finds:
    """A cabin that lies behind the engine space or the galley has a way out of its own.

    Why: fire begins where the engine runs or somebody cooks, and the way past it is shut to those asleep behind.
    Remedy: describe the hatch of that cabin under 'escape': {where: aft cabin, opens: both}; with none, give the berth elsewhere.
    """
    ways = all_known(lies(sight, hatch) for hatch in sight.vessel.escape if hatch.opens != "outside")
    if ways_in_left_out(sight):
        return  # of the way that people go nothing is known
    burning = [space for space in sight.spaces.values() if space.engine or space.cooking]
    most_m = most(sight.vessel, "berth to a way out")
    for name, (here, person) in berths(sight).items() if ways else ():
        if not BESIDE_M < _nearest(here, ways or [])[0] <= most_m:
            continue  # beside one; or told as too far from any
        past = [_between(here, each, burning) for each in ways or []]
        if all(past):
            yield Found(
                sight.vessel.key_place("escape"),
                f"{the(str(person.role))} sleeps in the {name}, and every way out of there leads past the {past[0]}",
                item=name,
                also=(person.place("berth"),),
            )


@check("placed.way-past-battery", LIFE, COMMON_PRACTICE, COMPOSITION)
def nobody_gets_out_past_a_lithium_bank_alone(sight: Sight) -> Finds:
    """A cabin that lies behind a lithium bank has a way out of its own.

    Why: the smoke of its cells is poison and fills the space within a minute; those asleep behind it go through that, or stay.
    Remedy: describe the hatch of that cabin under 'escape': {where: aft cabin, opens: both}; with none, give the berth elsewhere.
    """
    ways = all_known(lies(sight, hatch) for hatch in sight.vessel.escape if hatch.opens != "outside")
    banks = [each for each in sight.vessel.batteries if each.chemistry == "lithium"]
    if not ways or not banks or ways_in_left_out(sight):
        return
    found = [(bank, there) for bank in banks if (there := lies(sight, bank)) is not None]
    burning = [space for space in sight.spaces.values() if space.engine or space.cooking]
    for name, (here, person) in berths(sight).items():
        if _nearest(here, ways)[0] <= BESIDE_M or all(_between(here, each, burning) for each in ways):
            continue  # beside one; or told as lying behind engine or galley
        past = next(
            (
                (bank, there)
                for bank, there in found
                if all(there.space is each.space or _between(here, each, [there.space]) for each in ways)
            ),
            None,
        )
        if past is not None and all(there.space is not here.space for _, there in found):
            bank, there = past
            yield Found(
                sight.vessel.key_place("escape"),
                f"{the(str(person.role))} sleeps in the {name}, and every way out of there leads past the lithium bank in the {there}",
                item=name,
                also=(person.place("berth"), bank.place("where")),
            )


@check(
    "placed.no-way-of-own",
    LIFE,
    "Offshore Special Regulations 3.07 (from memory, unverified): two exits from 8.5 m of length on; common practice",
    COMPOSITION,
)
def a_cabin_has_a_way_out_beside_it(sight: Sight) -> Finds:
    """A cabin that people sleep in has a way out of its own, or the companionway beside it.

    Why: with the one way there full of smoke or water, those asleep at the end of the boat have none.
    Remedy: describe the hatch of that cabin under 'escape': {where: forward cabin, opens: both, how: ...}; with none, give the berth elsewhere.
    """
    ways = all_known(lies(sight, hatch) for hatch in sight.vessel.escape if hatch.opens != "outside")
    most_m = most(sight.vessel, "berth to a way out")
    one = sight.vessel.vessel
    if not ways or ways_in_left_out(sight) or one is None or one.hull.lived_in_hulls:
        return  # of hulls that people live in each is asked
    short = not isinstance(one.length, Quantity) or one.length < least(
        sight.vessel, "length with two ways out"
    )
    burning = [space for space in sight.spaces.values() if space.engine or space.cooking]
    for name, (here, person) in berths(sight).items():
        gap, there = _nearest(here, ways)
        beside = any(
            here.apart_m(each) <= BESIDE_M and (each.space is here.space or _way_in(sight, each))
            for each in ways
        )
        if not beside and gap <= most_m and not all(_between(here, each, burning) for each in ways):
            yield Found(
                sight.vessel.key_place("escape"),
                f"{the(str(person.role))} sleeps in the {name}, and no way out is there; the nearest is that of the {there}",
                item=name,
                weight=RECOMMENDATION if short else None,
                also=(person.place("berth"),),
            )


def _way_in(sight: Sight, way: Lies) -> bool:
    """Whether everybody goes below by a way out, or it is that of the room in the middle of her."""
    one = sight.vessel.vessel
    return (
        one is None
        or way.space.inside
        or any(space.way_in is True and space.name == way.space.name for space in one.hull.spaces)
    )


def _between(here: Lies, way: Lies, spaces: Sequence[Space]) -> str:
    """The one of some spaces that lies between two, by its name; "" where none does."""
    first, last = sorted((here.space, way.space), key=lambda space: space.aft_m)
    return next(
        (
            each.name
            for each in spaces
            if each.level == BELOW
            and each is not way.space
            and each.aft_m < last.aft_m
            and each.fore_m > first.fore_m
            and min(each.fore_m, last.aft_m) - max(each.aft_m, first.fore_m) > BESIDE_M / 2
        ),
        "",
    )


@check(
    "placed.extinguisher-far",
    HELP,
    "French state leaflet of 2008 after Division 240: 5 m from a berth (secondary)",
    COMPOSITION,
)
def an_extinguisher_is_near_each_berth(sight: Sight) -> Finds:
    """An extinguisher is near each berth.

    Why: whoever wakes in smoke puts it out in the first seconds, or not at all.
    Remedy: hang one there, on the way out, and list it with where and side.
    """
    things = sight.vessel.gear_that("discharged by hand")
    there = all_known(lies(sight, item) for item in things)
    most_m = most(sight.vessel, "extinguisher to a berth")
    for name, (here, person) in berths(sight).items() if there else ():
        gap, nearest = _nearest(here, there or [])
        if gap > most_m:
            yield at(
                things[0],
                "where",
                f"{the(str(person.role))} sleeps in the {name}, and the nearest extinguisher hangs in the {nearest}, {gap:.0f} m away",
                item=name,
                also=(person.place("berth"),),
            )
