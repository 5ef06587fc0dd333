"""Those who are asleep: they are woken, get out, and find something to put a fire out with."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.checks.escape import ways_in_left_out
from generator.manual.alarms import that_warn
from generator.manual.crew import the
from generator.reading.values import all_known
from generator.shelves.spaces import BELOW
from generator.survey.limits import most
from generator.survey.placing import Lies, berths, lies, lies_at
from generator.survey.registry import COMMON_PRACTICE, COMPOSITION, HELP, LIFE, Finds, Found, Sight, at, check
from generator.vessel.alarms import Alarm
from generator.vessel.gear import does

if TYPE_CHECKING:
    from collections.abc import Sequence

    from generator.manual.drawing.spaces import Space
    from generator.vessel.gear import Gear


def _heard(sight: Sight, alarm: Alarm | Gear) -> list[Lies | None]:
    """Where an alarm sounds: where it hangs, and where else it says so."""
    also = (alarm.sounds_in or ()) if isinstance(alarm, Alarm) else ()
    return [lies(sight, alarm), *(lies_at(sight, each) for each in also)]


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
                item=deaf[0],
                also=(
                    *(sleeping[name][1].place("berth") for name in deaf[1:]),
                    *(alarm.place("where") for alarm in alarms[:1]),
                ),
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
    things = [item for item in sight.vessel.gear if does(item, "discharged by hand")]
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
