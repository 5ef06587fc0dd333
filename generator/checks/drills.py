"""Drills: held, lately, led by somebody, and of emergencies there are."""

from __future__ import annotations

from generator.manual.procedures import holds
from generator.reading.nearest import nearest
from generator.reading.values import Stamp, untold
from generator.shelves.procedures import shelf
from generator.survey.passed import overdue
from generator.survey.registry import (
    COMMON_PRACTICE,
    FORM,
    UPKEEP,
    Finds,
    Found,
    Sight,
    at,
    check,
)
from generator.vessel.particulars import Drill


@check(
    "drills.missing",
    UPKEEP,
    "46 CFR 28.270; 46 CFR 199.180 (fire and abandon-ship drills); common practice for man overboard",
)
def working_boats_drill(sight: Sight) -> Finds:
    """A boat that works or is let has drilled abandon ship, fire and man overboard.

    Why: what was never done by daylight is not done in the dark.
    Remedy: hold the drill, then write it under 'drills' with its day.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    held = {drill.emergency for drill in vessel.drills}
    if not one or one.use != "commercial":
        return
    wanted = sorted(
        each.id for each in shelf() if each.drilled and holds(each.drilled, (), sight.reckoning.facts)
    )
    lacking = [each for each in wanted if each not in held]
    if lacking:
        place = vessel.key_place("drills") if vessel.drills else one.place("use")
        yield Found(place, f"no drill is written for: {', '.join(lacking)}", item=", ".join(lacking))


@check("drills.incomplete", UPKEEP, "SOLAS III/19.5 (what a record of drills holds, secondary)")
def a_drill_says_who_led_it_and_who_took_part(sight: Sight) -> Finds:
    """On a boat that works, a drill says who led it; whoever took part has a role aboard.

    Why: a record without names does not show who still has to be drilled.
    Remedy: write 'led-by', and 'took-part' with roles of 'people'.
    """
    vessel, roles = sight.vessel, sight.roles
    for drill in vessel.drills:
        if vessel.vessel and vessel.vessel.use == "commercial" and untold(drill.led_by):
            yield at(
                drill,
                "emergency",
                f"the drill '{drill.emergency}' does not say who led it",
                item=str(drill.emergency),
            )
        for who in drill.took_part:
            if who not in roles and who != "all":
                yield at(
                    drill,
                    "took-part",
                    f"the drill '{drill.emergency}' names '{who}', which is no role aboard",
                    remedy=nearest(who, roles, taken=drill.took_part),
                    item=str(drill.emergency),
                )


@check(
    "drills.overdue",
    UPKEEP,
    "46 CFR 28.270 and MGN 570 Amendment 1 (monthly, commercial); common practice (yearly)",
)
def drills_were_held_lately(sight: Sight) -> Finds:
    """What was drilled is drilled again: within a year, on a commercial boat within a month.

    Why: a crew that has changed has not drilled.
    Remedy: hold the drill, then write its day and who led it.
    """
    for each in overdue(sight, "drills.overdue"):
        drill = each.thing.block
        if isinstance(drill, Drill) and isinstance(drill.date, Stamp):
            yield at(
                drill,
                "date",
                f"{each.thing.name}: the last drill was {drill.date.when}",
                item=each.thing.name,
            )


@check("drills.unknown-emergency", FORM, COMMON_PRACTICE)
def drills_are_of_emergencies_there_are(sight: Sight) -> Finds:
    """Drills are of emergencies the manual has.

    Why: under a misspelt name the drill is not counted.
    Remedy: write the name the message proposes.
    """
    names = [one.id for one in shelf() if one.emergency]
    for drill in sight.vessel.drills:
        if isinstance(drill.emergency, str) and drill.emergency not in names:
            yield at(
                drill,
                "emergency",
                f"there is no emergency '{drill.emergency}'",
                remedy=nearest(drill.emergency, names),
                item=drill.emergency,
            )
