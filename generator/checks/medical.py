"""The medical chest: one place, opened by somebody aboard."""

from __future__ import annotations

from generator.reading.nearest import nearest
from generator.survey.places import another_place
from generator.survey.registry import (
    COMMON_PRACTICE,
    HELP,
    TRUTH,
    Finds,
    Found,
    Sight,
    at,
    check,
)
from generator.vessel.medical import ANYONE, Medical


@check("medical.two-places", TRUTH, COMMON_PRACTICE)
def the_medical_chest_has_one_place(sight: Sight) -> Finds:
    """The medical chest has one place, not two.

    Why: whoever bleeds cannot wait while two cabins are searched.
    Remedy: go and look; write the same place under 'medical' and in the gear list.
    """
    medical = sight.vessel.medical
    text = medical.words if isinstance(medical, Medical) else None
    chests = [item for item in sight.vessel.gear if item.kind == "medical"]
    if isinstance(text, str) and chests and all(another_place(text, item) for item in chests):
        yield Found(
            sight.vessel.place("medical"),
            f"'{text}', and the gear list has it elsewhere",
            item="medical chest",
            also=tuple(item.place("where") for item in chests),
        )


@check("medical.opened-by", HELP, COMMON_PRACTICE)
def the_medical_chest_is_opened_by_somebody_aboard(sight: Sight) -> Finds:
    """Whoever may open the medical chest is aboard.

    Why: a key that is nobody's is looked for while somebody bleeds.
    Remedy: write roles that stand under 'people', or anyone.
    """
    medical = sight.vessel.medical
    if not isinstance(medical, Medical):
        return
    for who in medical.opened_by or ():
        if who != ANYONE and who not in sight.roles:
            yield at(
                medical,
                "opened-by",
                f"the medical chest is opened by '{who}', which is no role aboard",
                remedy=nearest(who, (*sight.roles, ANYONE)),
                item="medical chest",
            )
