"""Drills: held, lately, led by somebody who can, with those whose duty it is, and of emergencies there are."""

from __future__ import annotations

import re

from generator.manual.crew import the
from generator.manual.steps import holds
from generator.reading.nearest import nearest
from generator.reading.values import Stamp, untold
from generator.shelves.procedures import shelf
from generator.survey.hands import hands
from generator.survey.passed import overdue
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    FORM,
    HELP,
    UPKEEP,
    Finds,
    Found,
    Sight,
    at,
    check,
)
from generator.vessel.particulars import FAR, Drill


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


def _before_her(sight: Sight, day: Stamp) -> bool:
    """Whether a day lies before she was built, which is told of itself."""
    one = sight.vessel.vessel
    return one is not None and isinstance(one.built, int) and day.year < one.built - 2


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
        if isinstance(drill, Drill) and isinstance(drill.date, Stamp) and not _before_her(sight, drill.date):
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


@check("drills.one-left-out", UPKEEP, COMMON_PRACTICE, COMPOSITION)
def what_is_drilled_leaves_none_out(sight: Sight) -> Finds:
    """A boat that keeps a list of drills and sails far has drilled leaving her, fire and somebody overboard, not some of them alone.

    Why: the one that is left out is mostly that with the raft, and nobody has ever stood at it with the knife in the hand.
    Remedy: go through it at the mooring, with each at his place, and write it under 'drills' with its day.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    held = {drill.emergency for drill in vessel.drills}
    if one is None or one.use == "commercial" or one.waters not in FAR or len(held) < SOME:
        return  # of one that works another check speaks
    if held - {each.id for each in shelf() if each.emergency}:
        return  # the one that is misspelt may be it
    wanted = sorted(
        each.id for each in shelf() if each.drilled and holds(each.drilled, (), sight.reckoning.facts)
    )
    lacking = [each for each in wanted if each not in held]
    if lacking and not held.isdisjoint(wanted):
        yield Found(
            vessel.key_place("drills"),
            f"of {', '.join(lacking)} no drill is written, and of others some are",
            item=", ".join(lacking),
        )


SOME = 3
"""From so many emergencies on that were drilled somebody keeps a list of them. Common practice."""


@check("drills.without-them", HELP, COMMON_PRACTICE, COMPOSITION)
def those_drill_whose_duty_it_is(sight: Sight) -> Finds:
    """Where it is said who took part in a drill, one at least of those who launch, recover or fight in that emergency did.

    Why: the others watched each other do what in earnest is somebody else's; whoever has the duty does it for the first time in the dark.
    Remedy: hold it again with them, and write them under 'took-part'; or write all, if all did.
    """
    crew = hands(sight)
    emergencies = {each.id: each for each in sight.manual.bill.emergencies}
    for drill in sight.vessel.drills:
        emergency = emergencies.get(str(drill.emergency))
        there = {str(who) for who in drill.took_part} | {_plain(drill)}
        if emergency is None or not drill.took_part or "all" in there:
            continue
        for duty in emergency.duties if there & crew.keys() else ():
            own = [who for who in duty.who if who in crew]
            if duty.strength and own and there.isdisjoint(own):
                yield at(
                    drill,
                    "took-part",
                    f"the drill '{drill.emergency}' was held without {' and '.join(map(the, own))}, who {'have' if own[1:] else 'has'} '{duty.id}'",
                    item=str(drill.emergency),
                    also=(duty.place,),
                )
                break


@check(
    "drills.led-by-whom",
    HELP,
    "46 CFR 199.180 (who leads a drill is trained; from memory, unverified); common practice",
)
def a_drill_is_led_by_somebody_who_can(sight: Sight) -> Finds:
    """A drill is led by somebody grown, who can do something of it himself where others aboard can.

    Why: what a child or a guest shows the others is learnt wrong, and done so in earnest.
    Remedy: hold it again, led by somebody who commands or has the duty, and write who: led-by: skipper.
    """
    people = {str(person.role): person for person in sight.vessel.people}
    taught = any(person.abilities for person in people.values())
    for drill in sight.vessel.drills:
        person = people.get(_plain(drill))
        if person is None:
            continue
        able = "" if person.abilities or not taught else "is not said to be able to do anything of it"
        if why := "is a child" if person.a_child and person.age else able:
            message = f"the drill '{drill.emergency}' was led by {the(str(person.role))}, who {why}"
            yield at(drill, "led-by", message, item=str(drill.emergency))


def _plain(drill: Drill) -> str:
    """The role that is said to have led a drill; "" where nobody is told."""
    return (
        re.sub(r"^(?:the|our|her) ", "", str(drill.led_by).strip()) if isinstance(drill.led_by, str) else ""
    )
