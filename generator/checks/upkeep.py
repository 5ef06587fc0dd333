"""Upkeep of the description itself: looked over aboard, drilled, and its notes in their place."""

from __future__ import annotations

from generator.calc.expiry import add_months
from generator.manual.procedures import shelf
from generator.reading.nearest import nearest
from generator.reading.values import Stamp
from generator.survey.registry import COMMON_PRACTICE, COMPOSITION, DEFECT, RECOMMENDATION, at, check

WALK_ROUND_MONTHS = 12


@check("file.checked-aboard", RECOMMENDATION, COMMON_PRACTICE)
def the_description_was_checked_aboard(sight):
    """Somebody walked round the boat with this description within a year, and it is approved.

    Why: gear moves, and the description does not; the manual prints "not yet checked aboard" until it is done.
    Remedy: go round with the gear list, correct it, then write who and when under 'checked-aboard' and 'approved'.
    """
    vessel = sight.vessel
    if not vessel.checked_aboard:
        yield at(vessel, "checked-aboard", "nobody has checked this description aboard yet")
    elif (
        isinstance(vessel.checked_aboard.date, Stamp)
        and add_months(vessel.checked_aboard.date.last_day, WALK_ROUND_MONTHS) < sight.as_of
    ):
        yield at(
            vessel.checked_aboard,
            "date",
            f"the last walk round the boat was {vessel.checked_aboard.date.when}, more than "
            f"{WALK_ROUND_MONTHS} months ago",
        )
    if not vessel.approved:
        yield at(vessel, "approved", "nobody has approved this description yet")
    elif (
        vessel.checked_aboard
        and isinstance(vessel.checked_aboard.date, Stamp)
        and isinstance(vessel.approved.date, Stamp)
        and (vessel.approved.date.last_day < vessel.checked_aboard.date.first_day)
    ):
        yield at(
            vessel.approved,
            "date",
            f"it was approved on {vessel.approved.date}, before the walk round the boat on "
            f"{vessel.checked_aboard.date}",
            also=(vessel.checked_aboard.place("date"),),
        )


@check(
    "drills.overdue",
    RECOMMENDATION,
    "46 CFR 28.270 and MGN 570 Amendment 1 (monthly, commercial); common practice (yearly)",
)
def drills_were_held_lately(sight):
    """What was drilled is drilled again: within a year, on a commercial boat within a month.

    Why: a crew that has changed has not drilled.
    Remedy: hold the drill, then write its day and who led it.
    """
    commercial = bool(sight.vessel.vessel) and sight.vessel.vessel.use == "commercial"
    latest = {}
    for drill in sight.vessel.drills:
        if isinstance(drill.date, Stamp) and drill.emergency:
            known = latest.get(drill.emergency)
            latest[drill.emergency] = (
                drill if known is None or drill.date.last_day > known.date.last_day else known
            )
    for emergency, drill in latest.items():
        if add_months(drill.date.last_day, 1 if commercial else 12) < sight.as_of:
            yield at(drill, "date", f"{emergency}: the last drill was {drill.date.when}", item=str(emergency))


@check("drills.unknown-emergency", RECOMMENDATION, COMMON_PRACTICE)
def drills_are_of_emergencies_there_are(sight):
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


@check("notes.unknown-procedure", DEFECT, COMMON_PRACTICE, COMPOSITION)
def notes_stand_beside_procedures_there_are(sight):
    """Own notes stand beside a procedure the manual has.

    Why: beside a misspelt name they are printed nowhere.
    Remedy: write the name the message proposes.
    """
    names = sorted({name for one in sight.manual.procedures for name in (one.id, one.kind)})
    for note in sight.vessel.notes:
        if isinstance(note.beside, str) and note.beside not in names:
            yield at(
                note,
                "beside",
                f"there is no procedure '{note.beside}' in her manual",
                remedy=nearest(note.beside, names),
                item=note.beside,
            )
