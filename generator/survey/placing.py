"""Where a thing is said to be, for the checks that ask whether it can serve there."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.manual.drawing.spaces import dimensions_m, find_space
from generator.reading.values import Band, NotKnown
from generator.shelves.gear_rows import VITAL
from generator.shelves.spaces import BELOW, FOR_NOTHING
from generator.survey.places import space_at
from generator.vessel.deck import Hatch
from generator.vessel.gear import Gear, GrabBag, Lifejackets
from generator.vessel.installed import Pump, Stop
from generator.vessel.medical import Medical
from generator.vessel.radio import Beacon, RadioSet
from generator.vessel.raft import Raft

if TYPE_CHECKING:
    from generator.manual.drawing.spaces import Space
    from generator.reading.block import Block
    from generator.survey.sight import Sight
    from generator.vessel.people import Person


def space_of(sight: Sight, thing: Block | NotKnown | None, key: str = "where") -> Space | None:
    """The space of a block with a place; None where it is not told, or she has none of that name."""
    where = thing.__dict__.get(key) if thing is not None and not isinstance(thing, str) else None
    return space_at(sight, where) if isinstance(where, str) else None


def side_of(thing: Block) -> str:
    """The side a thing is said to be on, "" where it is not told."""
    side = thing.__dict__.get("side")
    return side if isinstance(side, str) else ""


def no_hand_there(space: Space) -> str:
    """Why nothing for an emergency is kept in a space, as words after its name; "" where it may be."""
    if space.engine:
        return "where the engine burns first"
    if space.stows == FOR_NOTHING:
        return "where nobody gets at it"
    if space.mark:
        return "above the deck"
    if space.exposed and not space.stows:
        return "where the seas break"
    return ""


def shut_off(space: Space) -> bool:
    """Whether a space is one on deck that nobody opens at sea, or for gas or the anchor alone: a tank, a float, the gas locker."""
    return space.stows == FOR_NOTHING and space.level != BELOW and not space.engine


def in_the_open(space: Space) -> bool:
    """Whether vapour is blown away there: on open deck, at the rail, on the mast."""
    return (space.open_deck or space.mark != "" or space.exposed) and not space.inside


def away_from_seats(sight: Sight, space: Space) -> bool:
    """Whether a space is open deck of a boat that can be shut, away from where she is steered and those on watch sit."""
    one = sight.vessel.vessel
    if one is None or not one.hull.closed_in or space.own or not space.open_deck:
        return False
    port, starboard = space.half("starboard") if space.paired else (space.port_m, space.starboard_m)
    along_m, across_m = (space.aft_m + space.fore_m) / 2, (port + starboard) / 2
    return not any(
        (each.steering or each.on_watch)
        and each.level == space.level
        and each.aft_m <= along_m <= each.fore_m
        and each.port_m <= across_m <= each.starboard_m
        for each in sight.spaces.values()
    )


def with_bottles(sight: Sight, space: Space) -> bool:
    """Whether a space on deck is the one in which nothing but her gas bottles stands."""
    gas = sight.vessel.gas
    if (
        gas is None
        or gas.fuel not in ("butane", "propane")
        or space.level == BELOW
        or space.stows != FOR_NOTHING
    ):
        return False
    return isinstance(gas.bottles, str) and space_at(sight, gas.bottles) is space


def vital(thing: Block) -> bool:
    """Whether a life may hang on finding a thing at once: a raft, jackets, a radio, a stop, a pump, a way out, gear that saves or fights fire."""
    if isinstance(thing, Gear):
        return thing.kind in VITAL
    return isinstance(thing, _VITAL)


_VITAL = (Raft, Lifejackets, GrabBag, RadioSet, Beacon, Stop, Pump, Hatch, Medical)


def nobody_stands_there(space: Space, *, roof: bool = False) -> str:
    """Why nobody can stand and work on deck in a space; "" where people can. `roof`: under a roof on deck will do."""
    if space.level == BELOW:
        return "which is below deck"
    if space.stows:
        return "in which nobody stands"
    if space.mark:
        return "above the deck"
    return "" if roof or not space.inside else "under a roof"


def a_room(sight: Sight) -> str:
    """A space inside her in which people are, as an example names it: where she cooks, else the first; unknown where she has none."""
    rooms = [each for each in sight.spaces.values() if each.roofed and not (each.engine or each.stows)]
    return next((each.name for each in sorted(rooms, key=lambda each: not each.cooking)), "unknown")


def over_no_hull(sight: Sight, space: Space) -> bool:
    """Whether a space of a multihull lies between her hulls, with air under it; of one that only touches a hull nobody can tell."""
    one = sight.vessel.vessel
    if one is None or not one.hull.multihull or space.unlike or space.own:
        return False
    half_beam_m = dimensions_m(sight.vessel)[1] / 2
    for body in one.hull.bodies:
        if isinstance(body.off, Band):
            inner, outer = (each * half_beam_m for each in body.off)
            if space.starboard_m > inner and space.port_m < outer:
                return False
            if space.port_m < -inner and space.starboard_m > -outer:
                return False
    return bool(one.hull.bodies)


@dataclass(frozen=True)
class Lies:
    """The part of the boat that something is in: its space, and the half of it where a side is told."""

    space: Space
    side: str = ""

    @property
    def hull(self) -> str:
        """The one of two hulls that it is inside of, "" where it is in none, or in both."""
        one = self.space.level == BELOW and self.side in ("port", "starboard")
        return (
            self.side if one and (self.space.paired or self.space.port_m * self.space.starboard_m > 0) else ""
        )

    def apart_m(self, other: Lies) -> float:
        """The gap to another in plan, in m; 0 where they touch."""
        along = max(self.space.aft_m - other.space.fore_m, other.space.aft_m - self.space.fore_m, 0.0)
        (port, starboard), (far_port, far_starboard) = (each.space.half(each.side) for each in (self, other))
        return float(math.hypot(along, max(port - far_starboard, far_port - starboard, 0.0)))

    def meets(self, other: Lies) -> bool:
        """Whether both are in one space, and not on its two sides."""
        return self.space is other.space and {self.side, other.side} != {"port", "starboard"}

    def __str__(self) -> str:
        name = self.space.name
        return f"{self.side} {name}" if self.side and self.space.paired and self.side not in name else name


def lies_at(sight: Sight, where: str | NotKnown | None, side: str = "") -> Lies | None:
    """What a place means, the side it begins with included; None where it is not told, or she has none of that name."""
    space, named = find_space(sight.spaces, where) if isinstance(where, str) else (None, "")
    return Lies(space, side or named) if space is not None else None


def lies(sight: Sight, thing: Block | NotKnown | None) -> Lies | None:
    """Where a thing is: its space, and its side as field or space say it; None where that is not told."""
    if thing is None or isinstance(thing, NotKnown):
        return None
    where = thing.__dict__.get("where")
    return lies_at(sight, where, side_of(thing)) if isinstance(where, str) else None


def apart_m(sight: Sight, one: Block, other: Block) -> float | None:
    """The gap between the spaces of two things, each on its side, in m; 0 where they touch, None where one is not told."""
    first, second = lies(sight, one), lies(sight, other)
    return None if first is None or second is None else first.apart_m(second)


def berths(sight: Sight) -> dict[str, tuple[Lies, Person]]:
    """Where people sleep, each place once with the first who sleeps there; what is no place to sleep is left out."""
    found: dict[str, tuple[Lies, Person]] = {}
    for person in sight.vessel.people:
        here = lies(sight, person.berth)
        if here is not None and here.space.roofed and not (here.space.mark or here.space.engine):
            found.setdefault(str(here), (here, person))
    return found
