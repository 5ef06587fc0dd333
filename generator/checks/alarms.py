"""Alarms: each told once, and heard where people are."""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING

from generator.manual.crew import the
from generator.reading.nearest import folded, shortened
from generator.reading.values import all_known
from generator.shelves.gear import kinds_that
from generator.survey.places import space_at
from generator.survey.placing import Lies, berths, lies, lies_at
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    DEFECT,
    FORM,
    LIFE,
    Finds,
    Sight,
    at,
    check,
)
from generator.vessel.alarms import DOES
from generator.vessel.gear import does, gear_kind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.survey.registry import Found
    from generator.vessel.alarms import Alarm
    from generator.vessel.gear import Gear


@check("alarms.twice", FORM, COMMON_PRACTICE)
def each_alarm_is_told_once(sight: Sight) -> Finds:
    """Each alarm stands once in the file: under 'alarms' or in the gear list, with its quantity.

    Why: one of the two is counted on, and is not there.
    Remedy: keep the line under 'alarms', with 'quantity' where several hang in one place, and take the other out.
    """
    for what, does_what in DOES.items():
        told = [each for each in sight.vessel.alarms if each.what == what and each.known("where")]
        for number, alarm in enumerate(told):
            yield from _again(alarm, [each for each in told[:number] if _place(each) == _place(alarm)])
            listed = [each for each in sight.vessel.gear if does(each, does_what)]
            yield from _again(alarm, [each for each in listed if _place(each)[:2] == _place(alarm)[:2]])


def _again(alarm: Alarm, others: list[Alarm] | list[Gear]) -> Iterator[Found]:
    for other in others[:1]:
        yield at(
            alarm,
            "what",
            f"the alarm for {alarm.what} in the {alarm.where} is told twice",
            item=f"{alarm.what} alarm, {alarm.where}",
            also=(other.place("what"),),
        )


def _place(each: Alarm | Gear) -> tuple[str, ...]:
    """Where an alarm hangs, as it is compared: space, side, spot."""
    return tuple(folded(str(said or "")) for said in (each.where, each.side, each.spot))


_NOBODY_IN = re.compile(r"\b(locker|bilge|lazarette|void)\b")


@check("alarms.unheard", LIFE, COMMON_PRACTICE)
def alarms_sound_where_people_are(sight: Sight) -> Finds:
    """Each alarm is heard in a space that people are in, not only in the engine space, a locker or the bilge.

    Why: behind a shut hatch with the engine running nobody hears it, asleep or on watch.
    Remedy: listen to it with the hatch shut, and write under 'sounds-in' where it is heard; else fit a repeater there.
    """
    for alarm in sight.vessel.alarms:
        said = [space_at(sight, where) for where in alarm.sounds_in or ()]
        heard = said or [space_at(sight, alarm.where)]
        nobody = all(space is not None and (space.engine or _NOBODY_IN.search(space.name)) for space in heard)
        if nobody:
            yield at(
                alarm,
                "sounds-in" if alarm.sounds_in else "where",
                f"the alarm for {alarm.what} is heard in no space that people are in",
                item=f"{alarm.what} alarm, {alarm.where}",
                weight=DEFECT if alarm.sounds_in else None,
            )


_HIGH = re.compile(
    r"\b(?:under|on|at|against|in|below|near|to) the (?:deckhead|ceiling|headlining|overhead|roof|cabin top|deck ?beams?)\b|\bhigh(?: up)?\b(?! sole)|\bhead height\b"
    r"|\b(?:above|over) the (?:door|window|cooker|stove|hob|oven|settee|worktop|steps|sink|washboards?|companionway)\b|\bat the top\b",
    re.IGNORECASE,
)
_LOW = re.compile(
    r"\bunder the (?:sole|floor|floorboards?|bunks?|berths?|settees?|seats?|cooker|sink|chart table|steps|lowest step)\b|\bat the foot of\b|\blow(?: down)?\b(?! door)"
    r"|\bin the bilge\b|\b(?:at|near|by) (?:the )?(?:sole|floor)(?: level)?\b",
    re.IGNORECASE,
)


@check("alarms.height", LIFE, COMMON_PRACTICE)
def alarms_hang_where_the_danger_gathers(sight: Sight) -> Finds:
    """An alarm for gas hangs low, those for smoke and carbon monoxide at head height or above.

    Why: butane, propane and petrol vapour sink and are at the sole first, smoke rises; an alarm at the other end sounds when all is full.
    Remedy: go and look; have it moved: gas low down near the sole, smoke under the deckhead, carbon monoxide at the height of sleepers' heads;
    of one whose sensor hangs elsewhere say so: spot: above the door, sensor low down by the cooker.
    """
    warns: list[tuple[str, Alarm | Gear]] = [(str(each.what), each) for each in sight.vessel.alarms]
    known = _kinds_by_what_they_warn_of()
    warns += [
        (known[kind.name], each)
        for each in sight.vessel.gear
        if (kind := gear_kind(each)) is not None and kind.name in known
    ]
    for what, alarm in warns:
        said = alarm.spot if isinstance(alarm.spot, str) else ""
        if what == "gas" and _HIGH.search(said) and not _LOW.search(said) and "hydrogen" not in said.lower():
            message = f"the alarm for gas hangs high: '{shortened(said)}', and gas sinks"
        elif what in ("smoke", "CO") and _LOW.search(said) and not _HIGH.search(said):
            message = f"the alarm for {_TOLD[what]} hangs low: '{shortened(said)}'"
        else:
            continue
        yield at(alarm, "spot", message, item=f"{what} alarm, {alarm.where}")


@cache
def _kinds_by_what_they_warn_of() -> dict[str, str]:
    """Of each kind of gear that is an alarm, what it warns of, in the word of the file."""
    return {kind.name: what for what, does_what in DOES.items() for kind in kinds_that(does_what)}


_TOLD = {"smoke": "smoke, which rises,", "CO": "carbon monoxide"}


@check("alarms.one-hull", LIFE, COMMON_PRACTICE, COMPOSITION)
def water_is_noticed_in_each_hull(sight: Sight) -> Finds:
    """Of two hulls in which people live, each is listened to for water where the other is, beside the engine spaces.

    Why: one hull fills to the berths in silence, and a multihull that lists so far does not come up again.
    Remedy: fit a float switch in that hull and write its space under 'watches', with its side.
    """
    vessel = sight.vessel
    alarms = [each for each in vessel.alarms if each.warns_of_water]
    if vessel.vessel is None or not vessel.vessel.hull.lived_in_hulls or not alarms:
        return
    heard = all_known(
        lies_at(sight, name)
        for each in alarms
        for name in (each.watches or [_sided(each)] if isinstance(each.where, str) else each.watches)
    )
    hulls = {_hull_of(each) for each in heard or () if not each.space.engine} - {""}
    if heard is None or len(hulls) != 1:
        return
    (deaf,) = {"port", "starboard"} - hulls
    holes = [
        hole
        for hole in vessel.through_hulls
        if (here := lies(sight, hole)) is not None and here.hull == deaf and not here.space.engine
    ]
    slept = [person for here, person in berths(sight).values() if _hull_of(here) == deaf]
    if holes or slept:
        why = f"the {holes[0].what} goes through it" if holes else f"{the(str(slept[0].role))} sleeps there"
        yield at(
            alarms[0],
            "watches",
            f"no alarm for water listens to the {deaf} hull, and {why}",
            item=f"{deaf} hull",
            also=(holes[0].place("where") if holes else slept[0].place("berth"),),
        )


def _sided(alarm: Alarm) -> str:
    """Where an alarm that listens where it hangs is, with its side before it where the name has none."""
    side = alarm.side if isinstance(alarm.side, str) and alarm.side in ("port", "starboard") else ""
    return str(alarm.where) if not side or side in str(alarm.where) else f"{side} {alarm.where}"


def _hull_of(here: Lies) -> str:
    """The hull that words name, by the side they begin with, or by the space."""
    return here.hull or (here.side if here.side in ("port", "starboard") and here.space.paired else "")
