"""Lockers and rooms that words may take for one another."""

from __future__ import annotations

from generator.manual.drawing.spaces import Space
from generator.reading.block import Block
from generator.shelves.spaces import BELOW, FOR_GEAR, LEVELS
from generator.vessel.deck import Hatch


def entered_from_deck(one: Space, other: Space) -> bool:
    """Whether one of two spaces is a locker that is opened from the deck, and the other a room below: nobody reaches the one out of the other."""
    locker, room = (one, other) if one.stows == FOR_GEAR else (other, one)
    known = not (locker.own or room.own or locker.unlike or room.unlike)
    below = room.level == BELOW and not room.engine and room.stows != FOR_GEAR
    return known and below and locker.stows == FOR_GEAR and locker.level not in ("", BELOW)


def levels_between(one: Space, other: Space) -> int:
    """How many levels lie between two spaces: of the saloon and the flybridge two."""
    known = [LEVELS.index(each.level) for each in (one, other) if each.level in LEVELS]
    return abs(known[0] - known[1]) if len(known) == 2 else 0


def leads_up(block: Block, here: Space, above: Space) -> bool:
    """Whether a block is a way out, and leads out of `here` into what lies over it: the hatch in the cockpit sole."""
    known = here.level in LEVELS and above.level in LEVELS
    return isinstance(block, Hatch) and known and LEVELS.index(here.level) > LEVELS.index(above.level)
