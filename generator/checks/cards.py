"""Inspection of the cards written: they can be read from where they hang."""

from __future__ import annotations

from generator.survey.registry import INSPECTION, LIFE, Finds, Sight, check
from generator.survey.written import records


@check(
    "cards.too-small",
    LIFE,
    "letters of one two-hundredth of the reading distance (abstract of an aviation study, secondary)",
    INSPECTION,
)
def cards_can_be_read_from_where_they_hang(sight: Sight) -> Finds:
    """A card can be read from where people stand.

    Why: a card that takes a magnifying glass in daylight is none at night.
    Remedy: use larger paper (--paper), or shorten the boat's own words that stand on it.
    """
    yield from records(sight, "too-small")
