"""Alarms as facts, words and checks look at them: those told under `alarms`, and those that stand in the gear list alone."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.vessel.gear import Gear

if TYPE_CHECKING:
    from generator.vessel.alarms import Alarm
    from generator.vessel.vessel import Vessel


def that_warn(vessel: Vessel, does_what: str) -> list[Alarm | Gear]:
    """Everything aboard whose kind has this property of the shelf of gear, whichever way the file tells it."""
    told = [each for each in vessel.alarms if each.gear_kind is not None and each.gear_kind.does(does_what)]
    return [*told, *vessel.gear_that(does_what)]


def alarms_for(vessel: Vessel, what: str) -> list[Alarm]:
    """The alarms that the file tells with the spaces they listen to, by what they warn of."""
    return [each for each in vessel.alarms if each.what == what]
