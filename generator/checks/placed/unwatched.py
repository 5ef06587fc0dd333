"""What an alarm listens to, and who hears it: its own cabin among the spaces it watches, the bilge's at the helm."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.checks.alarms import NOBODY_IN, listens
from generator.manual.alarms import that_warn
from generator.manual.crew import the
from generator.reading.values import all_known
from generator.survey.limits import most
from generator.survey.placing import berths, lies, lies_at
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    HELP,
    LIFE,
    RECOMMENDATION,
    Finds,
    Sight,
    at,
    check,
)
from generator.vessel.alarms import Alarm

if TYPE_CHECKING:
    from generator.survey.placing import Lies

_SLEEPERS = {"warns of smoke": "smoke", "warns of carbon monoxide": "carbon monoxide"}


@check("placed.alarm-deaf-to-its-cabin", LIFE, COMMON_PRACTICE, COMPOSITION)
def an_alarm_listens_to_the_cabin_it_hangs_in(sight: Sight) -> Finds:
    """An alarm for smoke or carbon monoxide that hangs where people sleep listens to that space, or another alarm does.

    Why: 'watches' names the spaces that it listens to in place of its own; whoever sleeps under it is not among them, and believes to be.
    Remedy: take 'watches' out where it listens to the space it hangs in alone; else write that space among them: watches: [aft cabin, engine space].
    """
    sleeping, most_m = berths(sight), most(sight.vessel, "alarm to a berth")
    for does_what, words in _SLEEPERS.items():
        alarms = that_warn(sight.vessel, does_what)
        heard = {id(each): all_known(listens(sight, each)) or [] for each in alarms}
        for alarm in alarms:
            here = lies(sight, alarm) if isinstance(alarm, Alarm) and alarm.watches else None
            slept = [both for both in sleeping.values() if here is not None and _shared(both[0], here)]
            if here is None or not slept or not heard[id(alarm)] or _among(here, heard[id(alarm)]):
                continue
            others = [there for each in alarms if each is not alarm for there in heard[id(each)]]
            if _among(here, others):
                continue
            alone = isinstance(alarm, Alarm) and alarm.fed_by == "its own battery"
            near = any(here.apart_m(each) <= most_m for each in others) and words == "smoke"
            spaces = " and the ".join(dict.fromkeys(map(str, heard[id(alarm)])))
            yield at(
                alarm,
                "watches",
                f"the alarm for {words} hangs in the {here}, where {the(str(slept[0][1].role))} sleeps, and listens to the {spaces} alone",
                remedy=f"where it hears the space it hangs in, write that: watches: [{here}, {spaces.replace(' and the ', ', ')}]; else fit one there that does",
                item=f"{words} alarm, {here}",
                weight=RECOMMENDATION if near and not alone else None,
                also=(slept[0][1].place("berth"),),
            )


def _among(here: Lies, those: list[Lies]) -> bool:
    """Whether a space is one of those, or shares one with it."""
    return any(_shared(each, here) for each in those)


def _shared(one: Lies, other: Lies) -> bool:
    """Whether two are in one room: the same space, or spaces that lie one in the other, as a cabin in its hull."""
    if one.space is other.space:
        return one.meets(other) or not one.space.paired
    if one.space.engine or other.space.engine or one.space.stows or other.space.stows:
        return False  # shut off, though it lies beneath
    (port, starboard), (far_port, far_starboard) = (each.space.half(each.side) for each in (one, other))
    along_m = min(one.space.fore_m, other.space.fore_m) - max(one.space.aft_m, other.space.aft_m)
    across_m = min(starboard, far_starboard) - max(port, far_port)
    return one.space.level == other.space.level and along_m > 0 and across_m > 0


_SHUT = re.compile(
    r"\b(?:fore|forward|aft|after|guests?|owner'?s?|crew|port|starboard|bow|stern)\b.*\bcabin\b|\b(?:heads|toilet|shower|quarter berth|forepeak|aftpeak|stateroom|locker|workshop)\b"
)


@check("placed.bilge-alarm-not-at-the-helm", HELP, COMMON_PRACTICE, COMPOSITION)
def water_is_heard_at_the_helm(sight: Sight) -> Finds:
    """An alarm for water is heard by whoever steers, not only behind the door of a cabin.

    Why: under way the cabins are empty and the engine is loud; she settles while the one who could stop the pump of the heads steers on.
    Remedy: fit a sounder at the helm, and name that space under 'sounds-in' too: sounds-in: [cockpit, saloon].
    """
    vessel = sight.vessel
    steered = [space for space in sight.spaces.values() if space.steering]
    alarms = [each for each in vessel.alarms if each.warns_of_water]
    heard = all_known(
        here
        for alarm in alarms
        for here in (lies(sight, alarm), *(lies_at(sight, each) for each in alarm.sounds_in or ()))
    )
    if not heard or not steered or any(each.space.unlike for each in heard):
        return
    if all(NOBODY_IN.search(each.space.name) for each in heard):
        return  # of which alarms.unheard speaks
    if all(_SHUT.search(each.space.name) for each in heard):
        name = " and the ".join(dict.fromkeys(str(each) for each in heard))
        helm = vessel.vessel.helm if vessel.vessel is not None else None
        where = helm.where if helm is not None and isinstance(helm.where, str) else steered[0].name
        yield at(
            alarms[0],
            "sounds-in",
            f"water is heard in the {name} alone, and not where she is steered: {where}",
            item="bilge",
        )
