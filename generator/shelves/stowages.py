"""Where a raft may be kept and what may hold it there: the tables of templates/rafts, each row with what it means.

Nothing in the program names a stowage or a hold: facts, steps and checks ask for the properties of the row.
"""

from __future__ import annotations

import functools
from typing import TYPE_CHECKING

from generator.reading.block import Block, Fault
from generator.reading.fields import Choice, Many, Text, Texts, YesNo
from generator.reading.names import Name, Reference, references, standing
from generator.shelves.rows import contradiction
from generator.shelves.shelf import File, Names, Shelf, Tallied

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from generator.reading.findings import Finding
    from generator.reading.names import Known

CONTAINERS = ("canister", "valise")
LAUNCHING_AID = "launching aid"
SLIDES, DROPS, LIFTED = "slides", "drops", "lifted"
EXCLUDED = (
    ("below", "yes", "exposed", "yes"),
    ("below", "yes", "compartment", "yes"),  # that is a place of its own outside
    ("below", "yes", "clip-on", "yes"),  # its holds come off below
    ("below", "yes", "falls-out", "yes"),
    ("below", "yes", "goes-over", SLIDES),
    ("below", "yes", "goes-over", DROPS),
    ("below", "yes", "float-free", "yes"),
    ("below", "yes", "float-free", "depends"),
    ("compartment", "yes", "exposed", "yes"),
    ("falls-out", "yes", "goes-over", LIFTED),
    ("falls-out", "yes", "goes-over", LAUNCHING_AID),
    ("falls-out", "no", "goes-over", DROPS),
    ("goes-over", LAUNCHING_AID, "container", "valise"),
)
"""Each two properties that exclude each other: a key and what it says, the other key and what that says."""
FLOATS_FREE = "hold that lets go under water"
"""What references call the holds that let go by themselves."""


class Stowage(Block):
    """A place for a raft: what it may be packed in and held by there, and what the place means."""

    called = "stowage"
    stowage = Name("What is the place called?", required=True)
    where = Reference("Which space of the plan is it, or does it stand in, if it says so itself?", to="space")
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
        (SLIDES, DROPS, LIFTED, LAUNCHING_AID),
        required=True,
    )
    one_side = YesNo("Does it always go over at the same place?", required=True)
    beside_propeller = YesNo("Does it come into the water near the propeller?", required=True)
    reached_inverted = YesNo("Is it reached on a multihull that floats upside down?", required=True)
    source = Text("Who says so?", required=True)
    standing = standing()

    def faults(self) -> Iterator[Fault]:
        """A word of a list stands there once."""
        for key, said in (("container", self.container), ("held-by", self.held_by)):
            if twice := next((each for number, each in enumerate(said) if each in said[:number]), None):
                yield Fault(key, f"'{twice}' stands twice under '{key}'", "write it once")

    def contradictions(self) -> Iterator[Finding]:
        """Properties that no place can have together."""
        for key, said, other, instead in EXCLUDED:
            if self._is(key, said) and self._is(other, instead):
                yield contradiction(
                    self.place(other),
                    f"'{self.stowage}' cannot be both '{key}: {said}' and '{other}: {instead}'",
                    "keep the one that is true",
                    self.place(key),
                )

    def _is(self, key: str, said: str) -> bool:
        value = self.__dict__.get(key.replace("-", "_"))
        if isinstance(value, bool):
            return value is (said == "yes")
        return said in value if isinstance(value, tuple) else value == said

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

    def faults(self) -> Iterator[Fault]:
        """What lets go by itself is left alone by the hand; nothing comes loose with itself."""
        if self.hydrostatic is True and self.one_action is True:
            message = f"'{self.hold}' lets go by itself, and the hand leaves it alone"
            yield Fault("one-action", message, "write no, or hydrostatic: no")
        if self.hold in self.frees:
            yield Fault(
                "frees", f"'{self.hold}' comes loose with itself", "name other holds, or remove the key"
            )

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


def _together(files: Sequence[File[StowageTable]]) -> Iterator[Finding]:
    """No place contradicts itself; where a raft floats off by itself, it may be packed in what releases itself."""
    for table in (each.block for each in files):
        for row in table.stowages:
            yield from row.contradictions()
            if row.float_free != "no" and not set(row.container) & set(table.float_free_containers):
                packed = " or ".join(table.float_free_containers)
                yield contradiction(
                    row.place("container"),
                    f"'{row.stowage}' has 'float-free: {row.float_free}', and no raft there is in a {packed}",
                    "write float-free: no, or what the raft may be packed in",
                    row.place("float-free"),
                )


def _float_free_held(files: Sequence[File[StowageTable]], known: Known) -> Iterator[Finding]:
    """Where a raft floats off by itself something lets go under water; where it cannot, nothing there is made to."""
    letting_go = set(known.get(FLOATS_FREE, ()))
    for row in (row for each in files for row in each.block.stowages):
        held = [each for each in row.held_by if each in letting_go]
        if row.float_free == "yes" and row.held_by and not held:
            message = f"'{row.stowage}' has 'float-free: yes', and nothing that may hold a raft there lets go under water"
        elif row.float_free == "no" and held:
            message = f"'{row.stowage}' has 'float-free: no', and '{held[0]}' would let go there under water"
        else:
            continue
        yield contradiction(
            row.place("held-by"), message, "keep the one that is true", row.place("float-free")
        )


def _nothing_frees_what_frees_it(files: Sequence[File[HoldTable]]) -> Iterator[Finding]:
    """Of holds that come loose with each other none would be opened."""
    rows = {row.name: row for each in files for row in each.block.holds}
    for row in rows.values():
        seen, waiting = {row.name}, list(row.frees)
        while waiting:
            name = waiting.pop()
            if name == row.name and row.name not in row.frees:
                others = [each.place("frees") for each in rows.values() if row.name in each.frees]
                message = (
                    f"'{row.name}' comes loose with what comes loose with it, and none of them is opened"
                )
                yield contradiction(row.place("frees"), message, "keep the one that is true", *others)
                break
            if name in rows and name not in seen:
                seen.add(name)
                waiting += rows[name].frees


def _holds_named(files: Sequence[File[HoldTable]]) -> Names:
    names = _holds_in(files)
    letting_go = [row.name for each in files for row in each.block.holds if row.hydrostatic is True]
    return {"hold": names, "fact": [*names, *map(comes_loose, names)], FLOATS_FREE: letting_go}


def comes_loose(hold: str) -> str:
    """The fact of a raft that this hold comes loose with another one."""
    return f"{hold} comes loose"


STOWAGES = Shelf(
    "stowages",
    "rafts/stowages.yaml",
    StowageTable,
    "Where a raft may be kept, what goes with each place and what the place means.",
    gives=_stowages_named,
    holds_together=_together,
    agrees=_float_free_held,
)
HOLDS = Shelf(
    "holds",
    "rafts/holds.yaml",
    HoldTable,
    "What may hold a raft, and how it lets go.",
    gives=_holds_named,
    holds_together=_nothing_frees_what_frees_it,
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
