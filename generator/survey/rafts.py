"""What the checks of rafts, and of what holds them, share."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.survey.registry import Found, Sight, at

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.manual.estimates import Estimate
    from generator.reading.block import Block
    from generator.reading.findings import Place, Weight
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


def of_raft(
    raft: Raft,
    block: Block,
    key: str,
    message: str,
    *,
    remedy: str = "",
    weight: Weight | None = None,
    also: tuple[Place, ...] = (),
) -> Found:
    """Something found at a key of a raft, or of what belongs to her, said of the raft by name."""
    said = f"{raft.name}: {message}"
    return at(block, key, said, remedy=remedy, item=str(raft.name), weight=weight, also=also)
