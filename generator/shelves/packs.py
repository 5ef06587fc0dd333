"""What may be packed in a raft, by the name of the pack: the table of templates/rafts/packs.yaml."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.reading.block import Block, Fault
from generator.reading.fields import Many, Named, Text, YesNo
from generator.reading.names import Figure, Name, Reference, standing
from generator.reading.values import Given, given
from generator.shelves.countables import COUNTABLE
from generator.shelves.quantities import Amount
from generator.shelves.rows import alike
from generator.shelves.shelf import File, Shelf, Tallied

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from generator.reading.findings import Finding


class Pack(Block):
    """A pack, and what is known to be in it by its name alone."""

    called = "name"
    name = Name("What is it called?", required=True)
    contents = Reference(
        "Which rule set, with its category, lists what is in it?", "rule set with its category"
    )
    holds = Named(Amount, "What else is it known to hold?", names=Reference("Of what?", COUNTABLE))
    water = YesNo("Does it bring drinking water?")
    food = YesNo("Does it bring food?")
    light = YesNo("Does it bring a torch?")
    food_energy = Figure("How much food, in kJ for each person it is packed for?", low=1)
    source = Text("Who says so?", required=True)
    standing = standing()

    def faults(self) -> Iterator[Fault]:
        """Only food has energy."""
        if self.food_energy is not None and self.food is not True:
            yield Fault("food-energy", "a pack without food has none", "write food: yes, or remove it")


class Packs(Tallied):
    """The table of packs."""

    packs = Many(Pack, "Which packs are there?", required=True, distinct=True)


def _each_its_own(files: Sequence[File[Packs]]) -> Iterator[Finding]:
    """No two packs hold what one list says: one of them has the wrong list, or is the other by a second name."""
    yield from alike(
        (
            (str(each.contents), each.place("contents"))
            for file in files
            for each in file.block.packs
            if each.contents is not None
        ),
        "another pack has the same contents already",
        "name the list that says what is in this one",
    )


PACKS = Shelf(
    "packs of rafts",
    "rafts/packs.yaml",
    Packs,
    "What may be packed in a raft, and what is known of it by the name of the pack.",
    gives=lambda files: {
        "pack of rafts": [given(each.name, "") for file in files for each in file.block.packs]
    },
    holds_together=_each_its_own,
)


def packs() -> dict[str, Pack]:
    """Every pack by name, in the order of the shelf; raises ShelfFault."""
    return {given(each.name, ""): each for file in PACKS.files() for each in file.block.packs}


def brings_water(pack: Given) -> bool:
    """Whether a pack is known to bring drinking water."""
    found = packs().get(pack) if isinstance(pack, str) else None
    return found is not None and found.water is True


def brings_light(pack: Given) -> bool:
    """Whether a pack is known to bring a torch."""
    found = packs().get(pack) if isinstance(pack, str) else None
    return found is not None and found.light is True


def brings_food(pack: Given) -> bool:
    """Whether a pack is known to bring food."""
    found = packs().get(pack) if isinstance(pack, str) else None
    return found is not None and found.food is True
