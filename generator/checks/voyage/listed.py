"""The list of a voyage: each name once, and an hour at which somebody ashore stops waiting."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.survey.registry import COMMON_PRACTICE, HELP, LIFE, Finds, Sight, at, check

if TYPE_CHECKING:
    from generator.vessel.people import Traveller

_A_TIME = re.compile(
    r"\d|\b(?:noon|midday|midnight|morning|afternoon|evening|night|dusk|dark|dawn|sunset|sunrise|hours?|days?|today|tomorrow|tonight|tide|high water|low water|week|weekend|"
    r"(?:mon|tues|wednes|thurs|fri|satur|sun)days?|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|overdue by|o.clock)\b",
    re.IGNORECASE,
)


@check("voyage.alarm-no-hour", LIFE, COMMON_PRACTICE)
def the_alarm_has_a_day_or_an_hour(sight: Sight) -> Finds:
    """When the alarm is raised is told by a day, an hour or a number of hours.

    Why: without an hour whoever waits ashore hopes for one more day, and the people in the raft wait with them.
    Remedy: write the day and hour: raise-alarm: no message by 20.00 on 4 June 2026.
    """
    voyage = sight.vessel.voyage
    if voyage and isinstance(voyage.raise_alarm, str) and not _A_TIME.search(voyage.raise_alarm):
        yield at(
            voyage,
            "raise-alarm",
            "it names neither a day nor an hour: whoever waits never knows that it is time",
        )


@check("voyage.name-twice", HELP, COMMON_PRACTICE)
def everybody_stands_once_on_the_list(sight: Sight) -> Finds:
    """Nobody stands twice on the list of those who sail along.

    Why: the rescue centre searches for one more than there are, or one who is aboard is not on the list.
    Remedy: take the second line out, or correct the name; of two of one name tell them apart: Jan Brink the elder.
    """
    seen: dict[str, Traveller] = {}
    for person in sight.vessel.voyage.persons if sight.vessel.voyage else ():
        name = " ".join(person.name.lower().split()) if isinstance(person.name, str) else ""
        first = seen.setdefault(name, person) if name else person
        if first is not person:
            yield at(
                person,
                "name",
                "the same name stands on the list above",
                item=str(person.role),
                also=(first.place("name"),),
            )
