"""Storeys: a raft goes over and is boarded on its own level or from beside the water, what lifts people stands beside those who work it."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.reading.values import Quantity
from generator.shelves.spaces import UPPER
from generator.survey.placing import space_of
from generator.survey.registry import COMMON_PRACTICE, COMPOSITION, LIFE, Finds, Sight, at, check, of
from generator.vessel.fittings import Fitting

if TYPE_CHECKING:
    from generator.manual.drawing.spaces import Space
    from generator.vessel.raft import Raft

STOREY_M = 1.5
"""How far above her deck a raft lies that nobody carries down, nor follows with one step: common practice."""


@check("placed.raft-level", LIFE, COMMON_PRACTICE, COMPOSITION)
def a_raft_a_storey_up_goes_over_there(sight: Sight) -> Finds:
    """A raft a storey above the deck goes over from where it lies, and is boarded from beside the water, not from up there.

    Why: nobody carries it down a ladder in a sea; and whoever jumps so far into a raft breaks a leg, or the raft.
    Remedy: go and look where it goes over and from where people step in; write those spaces under 'launch-from' and 'board-from'.
    """
    for raft in sight.vessel.rafts:
        own = space_of(sight, raft)
        if own is None or own.unlike or not _a_storey_up(sight, raft, own):
            continue
        board, launch = raft.board_from, raft.launch_from
        if isinstance(board, Fitting) and space_of(sight, board) is own:
            message = f"people step into it in the {own.name}, {raft.height} above the water"
            yield of(raft, "where", message, part=board, also=(raft.place("height"),))
        over = space_of(sight, launch if isinstance(launch, Fitting) else None)
        below = over is not None and over.level != UPPER and not (over.mark or over.unlike)
        if isinstance(launch, Fitting) and over is not None and below:
            message = f"it goes over in the {over.name}, a storey below the {own.name} in which it lies"
            yield of(raft, "where", message, part=launch, also=(raft.place("where"),))


def _a_storey_up(sight: Sight, raft: Raft, own: Space) -> bool:
    """Whether a raft lies on an upper level, a storey above the lowest part of her side."""
    one = sight.vessel.vessel
    if own.level != UPPER or one is None or not isinstance(raft.height, Quantity):
        return False
    deck_m = float(one.freeboard) if isinstance(one.freeboard, Quantity) else 0.0
    return raft.height - deck_m >= STOREY_M


_WORKED_BELOW = re.compile(
    r"\b(?:halyards?|topping ?-?lifts?|booms?|gaff|mast|remote|control|led|fall|from (?:the )?(?:cockpit|deck|below))\b"
)
"""What is led down, or worked from afar."""


@check("placed.hoist-level", LIFE, COMMON_PRACTICE, COMPOSITION)
def the_hoist_is_beside_those_who_work_it(sight: Sight) -> Finds:
    """What lifts people does not stand a level above those who work it, unless it is led down from a mast or has a remote control.

    Why: they stand below with the person on the hook, and the winch is up a ladder.
    Remedy: go and look where its winch is worked, and write that space under 'place'; of one with a remote say so: spot: its remote hangs at the gate.
    """
    recovery = sight.vessel.recovery
    hoist, place = (
        (recovery.hoist, space_of(sight, recovery, "place_")) if recovery is not None else (None, None)
    )
    above = space_of(sight, hoist if isinstance(hoist, Fitting) else None)
    if recovery is None or not isinstance(hoist, Fitting) or above is None or place is None:
        return
    words = f"{hoist.what} {hoist.spot or ''}".lower()
    low = above.level != UPPER or above.name.startswith("coach") or above.unlike or above.own or place.unlike
    if not low and place.level != UPPER and not _WORKED_BELOW.search(words):
        yield at(
            hoist,
            "where",
            f"the hoist is on the {above.name}, and whoever hoists stands in the {place.name}, a level below",
            item="recovery",
            also=(recovery.place("place"),),
        )
