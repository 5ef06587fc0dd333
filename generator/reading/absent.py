"""What she has not got: where the word none may stand, and means what the key left out means."""

from __future__ import annotations

from typing import Any

from generator.reading.fields import CHECKED, OPEN, Compound, Digits, Field, Listed, Text
from generator.reading.worded import DOING, PLACE, SIGNAL, SPACE, Worded

NONE = "none"
_NO_THINGS = (SPACE, DOING, SIGNAL)


def takes_none(field: Field[Any]) -> bool:
    """Whether a field names something that she may have none of, and the word is no answer of its own there.

    What a step prints whatever she has is not; nor what an estimate is made of; a space, a way of doing and a signal are no
    things, and the exact place of one is always somewhere.
    """
    if field.required and not field.may_be_none:
        return False
    if isinstance(field, Worded) and (
        field.says in _NO_THINGS or (field.says == PLACE and field.unknown == OPEN)
    ):
        return False
    if isinstance(field, (Text, Digits)):
        return field.unknown in (OPEN, CHECKED) and NONE not in getattr(field, "answers", ())
    if isinstance(field, Listed):
        return NONE not in (field.choices or ())
    return isinstance(field, Compound)
