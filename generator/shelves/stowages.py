"""Where a raft may be kept and what may hold it there: the tables of templates/rafts, each row with what it means.

Nothing in the program names a stowage or a hold: facts, steps and checks ask for the properties of the row.
"""

from __future__ import annotations

import functools
from typing import TYPE_CHECKING

from generator.reading.block import Block
from generator.reading.fields import Choice, Many, Text, Texts, YesNo
from generator.reading.names import Name, references, standing
from generator.shelves.shelf import File, Names, Shelf, Tallied

if TYPE_CHECKING:
    from collections.abc import Sequence

CONTAINERS = ("canister", "valise")
LAUNCHING_AID = "launching aid"
DROPS, LIFTED = "drops", "lifted"


class Stowage(Block):
    """A place for a raft: what it may be packed in and held by there, and what the place means."""

    called = "stowage"
    stowage = Name("What is the place called?", required=True)
    container = Texts("What may the raft be packed in there?", CONTAINERS, required=True)
    held_by = references("What may hold it there?", to="hold", required=True)
    float_free = Choice("Does it float off by itself?", ("yes", "no", "depends"), required=True)
    compartment = YesNo("Is it closed in, in a place of its own outside?", required=True)
    below = YesNo("Is it under deck?", required=True)
    exposed = YesNo("Does it lie open to spray and sun?", required=True)
    clip_on = YesNo("Does whoever works at it stand on deck, outside the cockpit?", required=True)
    falls_out = YesNo("Does it leave by itself as soon as nothing holds it?", required=True)
    goes_over = Choice(
        "What takes it over the side if it need not be lifted?",
        ("slides", DROPS, LIFTED, LAUNCHING_AID),
        required=True,
    )
    one_side = YesNo("Does it always go over at the same place?", required=True)
    beside_propeller = YesNo("Does it come into the water near the propeller?", required=True)
    reached_inverted = YesNo("Is it reached on a multihull that floats upside down?", required=True)
    source = Text("Who says so?", required=True)
    standing = standing()

    @property
    def name(self) -> str:
        """What the place is called."""
        return str(self.stowage)

    @property
    def launching_aid(self) -> bool:
        """Whether a davit or another device takes the raft over."""
        return self.goes_over == LAUNCHING_AID


class Hold(Block):
    """Something that may hold a raft, and how it lets go."""

    called = "hold"
    hold = Name("What is it called?", required=True)
    hydrostatic = YesNo("Does it let go by itself under water?", required=True)
    one_action = YesNo("Does the hand let go with it in one swift action?", required=True)
    frees = references("Which other holds come loose with it?", to="hold")

    @property
    def name(self) -> str:
        """What it is called."""
        return str(self.hold)


class StowageTable(Tallied):
    """The table of stowages."""

    float_free_containers = Texts("What is a raft packed in that releases itself?", CONTAINERS, required=True)
    stowages = Many(Stowage, "Where may a raft be kept?", distinct=True, required=True)


class HoldTable(Tallied):
    """The table of holds."""

    holds = Many(Hold, "What may hold a raft?", distinct=True, required=True)


def _stowages_in(files: Sequence[File[StowageTable]]) -> list[str]:
    return [row.name for each in files for row in each.block.stowages]


def _holds_in(files: Sequence[File[HoldTable]]) -> list[str]:
    return [row.name for each in files for row in each.block.holds]


def _stowages_named(files: Sequence[File[StowageTable]]) -> Names:
    return {"stowage": _stowages_in(files), "fact": _stowages_in(files)}


def _holds_named(files: Sequence[File[HoldTable]]) -> Names:
    names = _holds_in(files)
    return {"hold": names, "fact": [*names, *map(comes_loose, names)]}


def comes_loose(hold: str) -> str:
    """The fact of a raft that this hold comes loose with another one."""
    return f"{hold} comes loose"


STOWAGES = Shelf(
    "stowages",
    "rafts/stowages.yaml",
    StowageTable,
    "Where a raft may be kept, what goes with each place and what the place means.",
    gives=_stowages_named,
)
HOLDS = Shelf(
    "holds", "rafts/holds.yaml", HoldTable, "What may hold a raft, and how it lets go.", gives=_holds_named
)


@functools.cache
def stowages() -> dict[str, Stowage]:
    """Every stowage by name, in the order of the table; raises ShelfFault."""
    return {row.name: row for each in STOWAGES.files() for row in each.block.stowages}


@functools.cache
def holds() -> dict[str, Hold]:
    """Everything that may hold a raft by name, in the order of the table; raises ShelfFault."""
    return {row.name: row for each in HOLDS.files() for row in each.block.holds}


def hydrostatic() -> tuple[str, ...]:
    """The holds that let go by themselves under water; raises ShelfFault."""
    return tuple(name for name, row in holds().items() if row.hydrostatic is True)


def float_free_containers() -> tuple[str, ...]:
    """What a raft that releases itself is packed in; raises ShelfFault."""
    return tuple(name for each in STOWAGES.files() for name in each.block.float_free_containers)
