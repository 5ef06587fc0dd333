"""What people lift: no more than people do."""

from __future__ import annotations

from generator.reading.values import Quantity
from generator.survey.limits import least, most
from generator.survey.registry import LIFE, Finds, Sight, at, check


@check(
    "people.lifts",
    LIFE,
    "guidance on handling at work, 25 kg for a strong man (from memory, unverified); common practice",
)
def people_lift_what_people_lift(sight: Sight) -> Finds:
    """Nobody lifts more than a strong person does, a child no more than its age lets it, and a grown person who needs no help not next to nothing.

    Why: the raft's party is made up by these figures, and whoever is told off for it cannot lift it.
    Remedy: try it with a can of water, and write it in kilogrammes, not in pounds.
    """
    low, high = (limit(sight.vessel, "lifted by one person") for limit in (least, most))
    a_year = most(sight.vessel, "lifted by a child, for each year of age")
    for person in sight.vessel.people:
        lifts = person.lifts
        if not isinstance(lifts, Quantity):
            continue
        ages = person.child_ages
        able = min([high, *(max(low, a_year * age) for age in ages)])
        young = f", {' and '.join(map(str, ages))} years old," if ages and able < high else ""
        if lifts > able:
            message = f"{person.role}{young} is said to lift {lifts}; {'such a child' if young else 'a strong person'} lifts {able:g} kg"
        elif lifts < low and not ages and not person.needs_help:
            message = f"{person.role} is said to lift {lifts} only, and no help is said to be needed"
        else:
            continue
        yield at(person, "lifts", message, item=str(person.role))
