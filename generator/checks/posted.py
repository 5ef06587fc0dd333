"""Posted cards: they hang where they are needed."""

from __future__ import annotations

from generator.shelves.stations import ITS_RAFT, stations
from generator.survey.registry import FORM, Finds, Found, Sight, check


@check(
    "posted.raft-card-missing",
    FORM,
    "LSA Code and SOLAS III/9 (instructions at survival craft, secondary)",
)
def a_card_hangs_at_the_raft(sight: Sight) -> Finds:
    """Where posted cards are recorded, one hangs at the raft.

    Why: at the raft nobody has the book in hand.
    Remedy: hang the card 'at the raft', then record it under 'posted'.
    """
    vessel = sight.vessel
    at_rafts = [row.name for row in stations() if row.hangs_at == ITS_RAFT]
    if (
        vessel.posted
        and vessel.rafts
        and not any(name in str(card.station).lower() for card in vessel.posted for name in at_rafts)
    ):
        yield Found(vessel.key_place("posted"), "no card is recorded as hanging at the raft")
