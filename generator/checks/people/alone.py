"""One person alone aboard: nobody throws, nobody turns back, and what nobody else does is theirs."""

from __future__ import annotations

from generator.manual.crew import the
from generator.manual.wearing import wearers
from generator.survey.hands import sole
from generator.survey.registry import (
    COMMON_PRACTICE,
    LIFE,
    RECOMMENDATION,
    Finds,
    Sight,
    at,
    check,
)
from generator.vessel.particulars import FAR


@check("people.alone-without-jacket", LIFE, COMMON_PRACTICE)
def whoever_is_alone_aboard_wears_a_jacket(sight: Sight) -> Finds:
    """Whoever is alone aboard wears the lifejacket all the time on deck.

    Why: nobody is left aboard to throw anything, or to turn back; what is not worn at the moment of the fall is never put on.
    Remedy: wear it, with a light, a crotch strap and what calls, and write worn-by: all.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    only = sole(sight)
    if one is None or not only or not vessel.lifejackets:
        return
    if any(only in wearers(jackets, vessel.people) for jackets in vessel.lifejackets):
        return
    jackets = vessel.lifejackets[0]
    none = jackets.says_none("worn-by")
    kept = f"; it is kept in the {jackets.where}" if isinstance(jackets.where, str) else ""
    yield at(
        jackets,
        "worn-by",
        f"{the(only)} is alone aboard, and {'wears no' if none else 'is not said to wear a'} lifejacket{kept}",
        item="lifejackets",
        weight=None if none or one.waters in FAR else RECOMMENDATION,
    )
