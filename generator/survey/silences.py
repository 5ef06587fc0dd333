"""What was not said, and therefore not looked at: the last lines of a survey, so that a short file does not read as a sound boat."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

from generator.manual.printing import first_printer
from generator.manual.unsaid import not_said, silence
from generator.survey.listing import COLUMNS

if TYPE_CHECKING:
    from generator.vessel.vessel import Vessel

FEW = 4
"""So many have a line each; more are named one after the other."""


def silences(vessel: Vessel) -> list[str]:
    """The lines of a terminal on what her file does not say; none where it says all that one like her must say."""
    found = not_said(vessel)
    if not found:
        return []
    keys = [each.key for each in found]
    first = keys[0].rpartition(".")[2]
    head = f"Not said, and so not looked at; write each, or none where she has none ({first}: none):"
    if len(found) > FEW:
        return textwrap.wrap(
            f"{head} {', '.join(keys)}", COLUMNS, subsequent_indent="  ", break_on_hyphens=False
        )
    say = first_printer().say
    return [head, *(f"  {each.key}: {silence(each, say)}" for each in found)]


def unsaid(vessel: Vessel) -> dict[str, str]:
    """The same for a report: what is said of each, by its key."""
    say = first_printer().say
    return {each.key: silence(each, say) for each in not_said(vessel)}


def counted(vessel: Vessel) -> str:
    """How many there are, behind the number of findings; "" where nothing is left out."""
    number = len(not_said(vessel))
    return f"; {number} subject{'s' if number > 1 else ''} not said, and so not looked at" if number else ""
