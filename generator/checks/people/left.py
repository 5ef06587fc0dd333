"""Who is left when the one who can act is down: somebody who can call."""

from __future__ import annotations

from generator.manual.left_to_act import able
from generator.survey.registry import COMMON_PRACTICE, HELP, Finds, Found, Sight, check
from generator.vessel.people import heads

_RADIO = "radio"


BUTTON = 8
"""From which age, in years, a child holds a distress button down that it has been shown: common practice."""


def one_alone(sight: Sight) -> bool:
    """Whether one alone can act for children and those who need help, in waters where nobody is near."""
    vessel, one = sight.vessel, sight.vessel.vessel
    if one is None or one.waters == "sheltered" or not isinstance(one.persons, int) or one.persons < 2:
        return False
    return able(vessel) == 1 and heads(vessel.people) >= 2


@check("people.nobody-left", HELP, COMMON_PRACTICE)
def somebody_is_left_who_can_call(sight: Sight) -> Finds:
    """Where one alone can act for children and those who need help, one of these can call for help.

    Why: with that one down nobody steers and nobody calls; a child of eight can hold a button down.
    Remedy: show the eldest child, of eight or more, the distress button, and write radio among that role's abilities; or take along another who can.
    """
    vessel = sight.vessel
    if not one_alone(sight):
        return
    if heads(person for person in vessel.people if _RADIO in person.abilities) < 2:
        message = "of those aboard one alone can act, and nobody else can call for help"
        yield Found(vessel.key_place("people"), message, item="one alone")
