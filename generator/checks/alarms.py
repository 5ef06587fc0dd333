"""Alarms: each told once, and heard where people are."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.reading.nearest import folded
from generator.survey.places import space_at
from generator.survey.registry import (
    COMMON_PRACTICE,
    DEFECT,
    FORM,
    LIFE,
    Finds,
    Sight,
    at,
    check,
)
from generator.vessel.alarms import DOES
from generator.vessel.gear import does

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
        heard = [space_at(sight, where) for where in (alarm.where, *(alarm.sounds_in or ()))]
        if all(space is not None and (space.engine or _NOBODY_IN.search(space.name)) for space in heard):
            yield at(
                alarm,
                "sounds-in" if alarm.sounds_in else "where",
                f"the alarm for {alarm.what} is heard in no space that people are in",
                item=f"{alarm.what} alarm, {alarm.where}",
                weight=DEFECT if alarm.sounds_in else None,
            )
