"""The medical chest: one place."""

from __future__ import annotations

from generator.survey.places import another_place
from generator.survey.registry import COMMON_PRACTICE, RECOMMENDATION, Finds, Found, Sight, check


@check("medical.two-places", RECOMMENDATION, COMMON_PRACTICE)
def the_medical_chest_has_one_place(sight: Sight) -> Finds:
    """The medical chest has one place, not two.

    Why: whoever bleeds cannot wait while two cabins are searched.
    Remedy: go and look; write the same place under 'medical' and in the gear list.
    """
    text = sight.vessel.medical
    chests = [item for item in sight.vessel.gear if item.kind == "medical"]
    if isinstance(text, str) and chests and all(another_place(text, item) for item in chests):
        yield Found(
            sight.vessel.place("medical"),
            f"'{text}', and the gear list has it elsewhere",
            item="medical chest",
            also=tuple(item.place("where") for item in chests),
        )
