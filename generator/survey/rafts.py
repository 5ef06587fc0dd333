"""What the checks of rafts, and of what holds them, share."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.manual.estimates import Estimate
    from generator.survey.sight import Sight
    from generator.vessel.raft import Raft
    from generator.vessel.vessel import Vessel


def fallen_short(sight: Sight, *keys: str) -> Iterator[tuple[Raft, Estimate]]:
    """The rafts of which an estimate of these keys does not hold, with that estimate."""
    for each in sight.manual.estimates:
        for row in each.rows:
            if row.key in keys and row.holds is False:
                yield each.raft, row


def held_by_hru(vessel: Vessel) -> list[Raft]:
    """The rafts held by an HRU."""
    return [raft for raft in vessel.rafts if raft.hydrostatic]
