"""Deferred defects: what may be wrong with an entry. `survey/deferral.py` looks at them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.calc.expiry import add_months
from generator.reading.values import Stamp
from generator.survey.deferral import past_their_date
from generator.survey.limits import months
from generator.survey.passed import span
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    FORM,
    LIFE,
    RECOMMENDATION,
    TRUTH,
    Finds,
    Sight,
    at,
    check,
    describe,
)

if TYPE_CHECKING:
    from generator.vessel.gear import StillCarried
    from generator.vessel.particulars import Deferred

describe(
    "deferral.unused",
    FORM,
    COMPOSITION,
    COMMON_PRACTICE,
    """Every deferred defect is still found.
    Why: an entry left behind would silently cover the next fault of the same kind.
    Remedy: delete the entry, or correct the item it names.""",
)


describe(
    "deferral.inexact",
    TRUTH,
    COMPOSITION,
    COMMON_PRACTICE,
    """Every deferral names one thing.
    Why: an entry that fits several things silently covers one that nobody has looked at.
    Remedy: write under 'item' the item or the key path that the message names, an entry for each thing.""",
)


describe(
    "deferral.expired",
    LIFE,
    COMPOSITION,
    COMMON_PRACTICE,
    """No deferral has run out, or ends before the day everything must last to.
    Why: it was to be mended by then; a deferral that renews itself is no decision.
    Remedy: mend it and delete the entry, or decide again and write a new 'until' with who and why.""",
)


describe(
    "deferral.not-allowed",
    LIFE,
    COMPOSITION,
    COMMON_PRACTICE,
    """Nothing is deferred that cannot be.
    Why: with these nobody may sail knowingly, or the manual would have a hole.
    Remedy: mend it and delete the entry.""",
)


describe(
    "deferral.unknown-check",
    TRUTH,
    COMPOSITION,
    COMMON_PRACTICE,
    """Every deferral names a check there is.
    Why: an entry for a misspelt check covers nothing.
    Remedy: write the id that stands in the finding, as 'musterbook why --all' lists it.""",
)


@check("deferral.too-far", LIFE, COMMON_PRACTICE, deferrable=False)
def a_deferral_ends_in_sight(sight: Sight) -> Finds:
    """No deferral reaches further ahead than the lay-up after the next season.

    Why: what is put off for years is not put off but given up, and its line in the manual is read over.
    Remedy: write an 'until' within a year and a half, and decide again then; or mend it and delete the entry.
    """
    usual, longest = (
        months(sight.vessel, name) or 0 for name in ("time a defect is deferred", "longest deferral")
    )
    entries: list[tuple[Deferred | StillCarried, str]] = [
        (entry, f"{entry.check}{f', {entry.item}' if isinstance(entry.item, str) else ''}")
        for entry in sight.vessel.deferred_defects
    ]
    entries += [
        (entry, str(getattr(thing, type(thing).called))) for thing, entry in past_their_date(sight.vessel)
    ]
    for entry, name in entries:
        end = entry.until
        if isinstance(end, Stamp) and end.first_day > add_months(sight.as_of, usual):
            yield at(
                entry,
                "until",
                f"{name}: deferred until {end}, {span(sight.as_of, end.first_day)} ahead",
                item=name,
                weight=None if end.first_day > add_months(sight.as_of, longest) else RECOMMENDATION,
            )
