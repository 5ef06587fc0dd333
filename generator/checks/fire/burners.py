"""What burns in a cabin: with a flue, and an alarm for carbon monoxide in the same room."""

from __future__ import annotations

import re

from generator.checks.alarms import listens
from generator.checks.fire.stowed import burners
from generator.manual.alarms import that_warn
from generator.manual.crew import the
from generator.reading.values import all_known
from generator.survey.limits import most
from generator.survey.placing import berths, lies
from generator.survey.registry import (
    COMPOSITION,
    LIFE,
    RECOMMENDATION,
    Finds,
    Sight,
    check,
    of,
)

_UNFLUED = re.compile(
    r"\bwithout (?:a |an |its |any )?(?:flue|chimney|exhaust|stove ?pipe)\b|\bno (?:flue|chimney|exhaust|stove ?pipe)\b|\b(?:un|non-?)flued\b|\bflue-?less\b|\bcatalytic\b"
    r"|\b(?:portable|camping|tent|patio) (?:gas |paraffin |kerosene |petrol |oil )?(?:heater|stove|grill)\b|\bbarbecue\b",
    re.IGNORECASE,
)
_DOOR = re.compile(r"\b(?:cabin|peak|stateroom|heads|berth)\b")


@check(
    "fire.burner-unwarned",
    LIFE,
    "Boat Safety Scheme on carbon monoxide (secondary); common practice",
    COMPOSITION,
)
def what_burns_in_a_cabin_is_listened_to(sight: Sight) -> Finds:
    """A heater or stove that burns something below has a flue to the open, and an alarm for carbon monoxide in the room it stands in.

    Why: it burns the air of those who sleep beside it; carbon monoxide has no smell, and the alarm in the next room hears it when they are dead.
    Remedy: take one without a flue out of her; with a flue, fit an alarm for carbon monoxide in that room: alarms: - {what: CO, where: aft cabin}.
    """
    alarms = that_warn(sight.vessel, "warns of carbon monoxide")
    heard = all_known(there for each in alarms for there in listens(sight, each))
    sleeping, most_m = berths(sight), most(sight.vessel, "alarm to a berth")
    for item in burners(sight):
        here, said = lies(sight, item), f"{item.what} {item.spot or ''}"
        if here is None or not here.space.roofed or here.space.unlike:
            continue
        slept = [person for there, person in sleeping.values() if there.space is here.space]
        who = f", where {the(str(slept[0].role))} sleeps" if slept else ""
        if _UNFLUED.search(said) and not _IN_USE_OUTSIDE.search(said):
            message = f"it burns without a flue in the {here}{who}"
            yield of(
                item,
                "what",
                message,
                remedy="take it ashore: nothing that burns without a flue heats or cooks where people sleep",
            )
            continue
        near_m = 0.0 if _DOOR.search(here.space.name) else most_m
        if heard and not any(each.space is here.space or here.apart_m(each) < near_m for each in heard):
            there = " and the ".join(dict.fromkeys(map(str, heard)))
            yield of(
                item,
                "where",
                f"it burns in the {here}{who}, and the alarms for carbon monoxide listen to the {there}",
                remedy=f"fit one there: alarms: - {{what: CO, where: {here}}}",
                weight=None if slept else RECOMMENDATION,
                also=tuple(person.place("berth") for person in slept[:1]),
            )


_IN_USE_OUTSIDE = re.compile(
    r"\b(?:ashore|on deck|in the cockpit|for the beach|on the rail|pushpit)\b", re.IGNORECASE
)
