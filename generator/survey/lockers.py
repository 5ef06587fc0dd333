"""Lockers and rooms that words may take for one another."""

from __future__ import annotations

from generator.manual.drawing.spaces import Space
from generator.shelves.spaces import BELOW, FOR_GEAR


def entered_from_deck(one: Space, other: Space) -> bool:
    """Whether one of two spaces is a locker that is opened from the deck, and the other a room below: nobody reaches the one out of the other."""
    locker, room = (one, other) if one.stows == FOR_GEAR else (other, one)
    known = not (locker.own or room.own or locker.unlike or room.unlike)
    below = room.level == BELOW and not room.engine and room.stows != FOR_GEAR
    return known and below and locker.stows == FOR_GEAR and locker.level not in ("", BELOW)
