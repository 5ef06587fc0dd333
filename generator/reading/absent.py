"""What she has not got: where the word none may stand, and means what the key left out means."""

from __future__ import annotations

from typing import Any

from generator.reading.fields import NEEDED, Compound, Digits, Field, Listed, Text
from generator.reading.worded import DOING, SIGNAL, SPACE, Worded

NONE = "none"


def takes_none(field: Field[Any]) -> bool:
    """Whether a field names something that she may have none of, and the word is no answer of its own there.

    What must stand, or a step prints whatever she has, is not; a space, a way of doing and a signal are no things.
    """
    if field.required or (isinstance(field, Worded) and field.says in (SPACE, DOING, SIGNAL)):
        return False
    if isinstance(field, Text):
        return field.unknown != NEEDED and NONE not in field.answers
    if isinstance(field, Listed):
        return NONE not in (field.choices or ())
    return isinstance(field, (Compound, Digits))
