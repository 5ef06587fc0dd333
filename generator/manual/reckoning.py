"""Reckoning: what follows from one boat's description alone, each worked out once, when it is first asked for."""

from __future__ import annotations

import itertools
from collections import defaultdict
from functools import cached_property
from typing import TYPE_CHECKING, TypeVar, cast

from generator.manual.deadlines import Deadline, End, Thing, dates_in, deadlines_out_of, ends_among, things_of
from generator.manual.drawing.spaces import Space, spaces_of
from generator.manual.facts import facts_of
from generator.manual.inventory import Item, list_items
from generator.manual.own_words import OwnWords, own_words
from generator.manual.parties import RaftParty, parties_of
from generator.manual.sieves import Names, Sieve, Sifted, names_alike, sifted
from generator.manual.words import words_of
from generator.reading.block import Block

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from generator.manual.said import Said
    from generator.reading.values import Stamp
    from generator.vessel.vessel import Vessel

B = TypeVar("B", bound=Block)
_AMONG: dict[tuple[type[Block], ...], dict[type[Block], bool]] = {}
"""By kinds of blocks that are asked for together: of each kind whether it is one of them."""


class Reckoning:
    """What checks, steps, bill, plan and carriage all go by; one boat's survey holds one and passes it on."""

    def __init__(self, vessel: Vessel) -> None:
        self.vessel = vessel
        self._of: dict[tuple[type[Block], ...], tuple[Block, ...]] = {}
        self._texts: dict[str, tuple[tuple[Block, str], ...]] = {}
        self._sifted: Sifted = {}

    @cached_property
    def items(self) -> tuple[Item, ...]:
        """The numbered gear list."""
        return list_items(self.vessel)

    @cached_property
    def facts(self) -> dict[str, bool]:
        """The facts of the vessel by name; her particulars must be there."""
        return facts_of(self.vessel, self.items, self.spaces)

    @cached_property
    def words(self) -> dict[str, Said]:
        """The words a step may print, by slot."""
        return words_of(self.vessel, self.items)

    @cached_property
    def parties(self) -> tuple[RaftParty, ...]:
        """The party of each of her rafts."""
        return parties_of(self.vessel)

    @cached_property
    def things(self) -> tuple[Thing, ...]:
        """Everything dated aboard."""
        return tuple(things_of(self.vessel))

    @cached_property
    def deadlines(self) -> tuple[Deadline, ...]:
        """All deadlines, the earliest first."""
        return deadlines_out_of(self._ends)

    @cached_property
    def _ends(self) -> tuple[End, ...]:
        """Every last day, not yet put into words."""
        return ends_among(self.things, self.stamped)

    def deadlines_until(self, day: date) -> tuple[Deadline, ...]:
        """Those of the deadlines that end on a day or before it, the earliest first."""
        return deadlines_out_of([end for end in self._ends if end.last_day <= day])

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
    def _by_kind(self) -> dict[type[Block], list[tuple[int, Block]]]:
        """Her blocks by their kinds, numbered in the order of the file."""
        found: defaultdict[type[Block], list[tuple[int, Block]]] = defaultdict(list)
        for number, block in enumerate(self.blocks):
            found[type(block)].append((number, block))
        return found

    def all_of(self, *kinds: type[B]) -> tuple[B, ...]:
        """Those of her blocks that are of one of these kinds."""
        found = self._of.get(kinds)
        if found is None:
            meant = _AMONG.setdefault(kinds, {})
            for kind in self._by_kind.keys() - meant.keys():
                meant[kind] = issubclass(kind, kinds)
            alike = [blocks for kind, blocks in self._by_kind.items() if meant[kind]]
            in_order = alike[0] if len(alike) == 1 else sorted(itertools.chain.from_iterable(alike))
            found = self._of[kinds] = tuple(block for _, block in in_order)
        return cast("tuple[B, ...]", found)

    def texts(self, name: str) -> tuple[tuple[Block, str], ...]:
        """Those of her blocks in which an attribute holds a text, with the text."""
        found = self._texts.get(name)
        if found is None:
            found = self._texts[name] = tuple(
                [(each, said) for each in self.blocks if isinstance(said := each.__dict__.get(name), str)]
            )
        return found

    @cached_property
    def stamped(self) -> tuple[tuple[Block, dict[str, Stamp]], ...]:
        """Every block in which a date stands, with its dates by attribute."""
        return tuple([(block, dates) for block in self.blocks if block.dated and (dates := dates_in(block))])

    @cached_property
    def space_names(self) -> Names:
        """All names of her spaces, in small letters."""
        return names_alike(
            tuple(name.lower() for space in self.spaces.values() for name in (space.name, *space.also))
        )

    @cached_property
    def own_words(self) -> tuple[OwnWords, ...]:
        """All words of her own that everybody may read and that are no name."""
        return tuple(own_words(self.blocks))

    def words_through(self, sieve: Sieve) -> Sequence[OwnWords]:
        """Those of them that a sieve lets through."""
        if sieve not in self._sifted:
            self._sifted = sifted(self.blocks)
        return self._sifted[sieve]
