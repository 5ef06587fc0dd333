"""Reckoning: what follows from one boat's description alone, each worked out once, when it is first asked for."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING, cast

from generator.manual.deadlines import Deadline, Thing, deadlines_among, things_of
from generator.manual.drawing.spaces import Space, spaces_of
from generator.manual.facts import facts_of
from generator.manual.inventory import Item, list_items
from generator.manual.own_words import OwnWords, own_words
from generator.manual.words import words_of
from generator.reading.values import Stamp
from generator.vessel.lives import YearStamp

if TYPE_CHECKING:
    from generator.manual.said import Said
    from generator.reading.block import Block
    from generator.vessel.vessel import Vessel


_DATES = frozenset((Stamp, YearStamp))


class Reckoning:
    """What checks, steps, bill, plan and carriage all go by; one boat's survey holds one and passes it on."""

    def __init__(self, vessel: Vessel) -> None:
        self.vessel = vessel

    @cached_property
    def items(self) -> tuple[Item, ...]:
        """The numbered gear list."""
        return list_items(self.vessel)

    @cached_property
    def facts(self) -> dict[str, bool]:
        """The facts of the vessel by name; her particulars must be there."""
        return facts_of(self.vessel, self.items)

    @cached_property
    def words(self) -> dict[str, Said]:
        """The words a step may print, by slot."""
        return words_of(self.vessel, self.items)

    @cached_property
    def things(self) -> tuple[Thing, ...]:
        """Everything dated aboard."""
        return tuple(things_of(self.vessel))

    @cached_property
    def deadlines(self) -> tuple[Deadline, ...]:
        """All deadlines, the earliest first."""
        return deadlines_among(self.things)

    @cached_property
    def spaces(self) -> dict[str, Space]:
        """Her spaces by folded name."""
        return spaces_of(self.vessel)

    @cached_property
    def roles(self) -> tuple[str, ...]:
        """The roles aboard, in the order of the file."""
        return tuple(str(person.role) for person in self.vessel.people if person.role)

    @cached_property
    def blocks(self) -> tuple[Block, ...]:
        """The vessel, her voyage and every block in them."""
        return tuple(self.vessel.inner())

    @cached_property
    def stamped(self) -> tuple[tuple[Block, dict[str, Stamp]], ...]:
        """Every block in which a date stands, with its dates by attribute."""
        found: list[tuple[Block, dict[str, Stamp]]] = []
        for block in self.blocks:
            dates = {name: value for name, value in block.__dict__.items() if value.__class__ in _DATES}
            if dates:
                found.append((block, cast("dict[str, Stamp]", dates)))
        return tuple(found)

    @cached_property
    def space_names(self) -> tuple[str, ...]:
        """All names of her spaces, in small letters."""
        return tuple(name.lower() for space in self.spaces.values() for name in (space.name, *space.also))

    @cached_property
    def own_words(self) -> tuple[OwnWords, ...]:
        """All words of her own that everybody may read and that are no name."""
        return tuple(own_words(self.blocks))
