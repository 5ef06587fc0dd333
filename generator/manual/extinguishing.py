"""Fixed extinguishers: of several, which serves which space, and which sends out what kills whoever is in it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.manual.said import Missing, Said, Several, Word, all_of, given_word, place_word
from generator.vessel.fittings import Located
from generator.vessel.gear import SUFFOCATES

if TYPE_CHECKING:
    from collections.abc import Sequence

    from generator.manual.printing import Printer
    from generator.reading.block import Block
    from generator.vessel.gear import Gear
    from generator.vessel.vessel import Vessel

FLOODS = "floods a space"
"""What gear does that is released from a handle, and whose gas fills the space it serves."""


def flooding(vessel: Vessel) -> Sequence[Gear]:
    """The fixed extinguishers of the gear list."""
    return vessel.gear_that(FLOODS)


def served_by(item: Gear) -> str:
    """What one of several things is for: as its key says, or else the words behind the comma of its name; "" where neither does."""
    told = item.for_ if isinstance(item.for_, str) else str(item.what or "").partition(",")[2]
    return re.sub(r"^(?:(?:is )?for )?(?:the )?", "", told.strip())


def told_apart(items: Sequence[Gear]) -> bool:
    """Whether the file says of several, one by one, what each is for, and not the same of all."""
    served = [served_by(item).lower() for item in items]
    return all(served) and len(set(served)) > 1


def suffocating(vessel: Vessel) -> list[Gear]:
    """The fixed extinguishers that the file says send out CO2."""
    return [item for item in flooding(vessel) if item.agent == SUFFOCATES]


def suffocates_of_some(vessel: Vessel) -> bool:
    """Whether of several told apart some send out CO2, and others do not."""
    every = flooding(vessel)
    return told_apart(every) and 0 < len(suffocating(vessel)) < len(every)


@dataclass(frozen=True, eq=False)
class Serving(Word):
    """What one of several things is for, and behind it what is said of it, if anything."""

    serves: str
    said: Word | None = None

    def said_by(self, printer: Printer) -> str:
        """The words in a language."""
        if self.said is None:
            return self.serves
        return printer.say("row.serves", serves=self.serves, said=self.said.said_by(printer))


def acted_on(block: Block) -> Said:
    """Where a hand acts on a thing: where it is released, if the file says so, else where it is."""
    released = block.__dict__.get("released_from")
    return given_word(block, "released_from") if isinstance(released, Located) else place_word(block)


def handles(items: Sequence[Gear]) -> Said:
    """Where each of several fixed extinguishers is released, behind what it is for."""
    places = [(item, acted_on(item)) for item in items]
    return all_of(
        place
        if isinstance(place, Missing) or not isinstance(place, Word)
        else Serving(place.block, place.name, served_by(item), place)
        for item, place in places
    )


def of_co2(vessel: Vessel) -> Said | None:
    """What those are for that send out CO2, where they are told apart; None where none does."""
    found = suffocating(vessel)
    if not found or not told_apart(flooding(vessel)):
        return None
    return Several(tuple(Serving(item, "what", served_by(item)) for item in found))
