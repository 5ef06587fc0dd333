"""Medical: where the chest is, who opens it, who is asked."""

from __future__ import annotations

from generator.reading.fields import CHECKED, NEEDED, OPEN, One, Text, Texts
from generator.vessel.fittings import Kept, Located

ANYONE = "anyone"
"""Who opens a chest that is not locked."""


class Medical(Located):
    """The medical chest. Words alone are all of it."""

    shorthand = "what"
    what = Text(
        "What is it called aboard?",
        required=True,
        unknown=NEEDED,
        example="first-aid chest",
    )
    opened_by = Texts(
        "Which roles may open it (or: anyone)?", unknown=CHECKED, most=30, example="[skipper, mate]"
    )
    key_ = One(
        Kept, "Where is its key kept?", unknown=OPEN, example="{where: chart table, spot: on the hook}"
    )
    advice = Text(
        "Who is asked for medical advice, and how?",
        unknown=OPEN,
        example="the rescue centre on VHF 16",
    )
