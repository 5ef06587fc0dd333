"""What a check looks at: one boat on one day, and what follows from her description, worked out once for all checks."""

from __future__ import annotations

import functools
from datetime import timedelta
from functools import cached_property
from typing import TYPE_CHECKING, Any, Protocol, TypeVar

from generator.manual.reckoning import Reckoning

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence
    from datetime import date

    from generator.manual.composing import Manual
    from generator.manual.deadlines import Deadline, Thing
    from generator.manual.drawing.spaces import Space
    from generator.manual.own_words import OwnWords
    from generator.manual.sieves import Sieve
    from generator.reading.block import B, Block
    from generator.reading.values import Stamp
    from generator.vessel.vessel import Vessel


T = TypeVar("T")


class Remark(Protocol):
    """Something that the writing of an output showed: of which kind, in which file, in words."""

    @property
    def kind(self) -> str:
        """Of which kind it is: engine-warning, missing-glyph and so on."""

    @property
    def file(self) -> str:
        """The output file's path inside the reader's folder."""

    @property
    def text(self) -> str:
        """What was seen."""


class Written(Protocol):
    """An output as written: its files by path inside the reader's folder, what is drawn on the pages of some, and for whom ("": not said)."""

    files: dict[str, bytes]
    drawn: dict[str, str]
    reader: str

    @property
    def records(self) -> Sequence[Remark]:
        """What the writing of it showed."""


class Sight:
    """One boat on one day. Everything must be good through `until` (never before `as_of`).

    `manual` is there from the composition stage on, `written` (the outputs made) in the inspection stage; to ask earlier
    is a fault of the check, a LookupError. `reckoning` is what the stages share: whatever one of them worked out already.
    """

    def __init__(
        self,
        vessel: Vessel,
        as_of: date,
        until: date,
        lead_days: int = 90,
        *,
        manual: Manual | None = None,
        written: Mapping[str, Written] | None = None,
        reckoning: Reckoning | None = None,
    ) -> None:
        self.vessel = vessel
        self.as_of = as_of
        self.until = until
        self.lead_days = lead_days
        self.reckoning = Reckoning(vessel) if reckoning is None else reckoning
        self._manual = manual
        self._written = written
        self._found: dict[Callable[[Sight], Any], Any] = {}
        self._of_manual: dict[Callable[[Sight], Any], Any] = {}

    def composed(self, manual: Manual) -> Sight:
        """The same boat on the same day with her manual composed."""
        sight = Sight(
            self.vessel, self.as_of, self.until, self.lead_days, manual=manual, reckoning=self.reckoning
        )
        sight._found = self._found
        return sight

    def found(self, work: Callable[[Sight], T]) -> T:
        """What `work` finds here; it is done once, whichever check asks first."""
        if work not in self._found:
            self._found[work] = work(self)
        result: T = self._found[work]
        return result

    def found_composed(self, work: Callable[[Sight], T]) -> T:
        """The same of what goes by the manual too."""
        if work not in self._of_manual:
            self._of_manual[work] = work(self)
        result: T = self._of_manual[work]
        return result

    @property
    def manual(self) -> Manual:
        """The manual as composed."""
        if self._manual is None:
            raise LookupError("the manual is not composed yet: this check belongs to a later stage")
        return self._manual

    @property
    def written(self) -> Mapping[str, Written]:
        """The outputs made, by name."""
        if self._written is None:
            raise LookupError("nothing is written yet: this check belongs to the inspection stage")
        return self._written

    @property
    def lead_day(self) -> date:
        """The day up to which a date that runs out is announced ahead."""
        return self.until + timedelta(days=self.lead_days)

    @property
    def deadlines(self) -> tuple[Deadline, ...]:
        """Her deadlines, the earliest first."""
        return self.reckoning.deadlines

    @cached_property
    def near(self) -> tuple[Deadline, ...]:
        """Those of her deadlines that are announced or have passed: none ends behind the lead day."""
        return self.reckoning.deadlines_until(max(self.until, self.lead_day))

    @property
    def things(self) -> tuple[Thing, ...]:
        """Everything dated aboard."""
        return self.reckoning.things

    @property
    def spaces(self) -> dict[str, Space]:
        """Her spaces by folded name."""
        return self.reckoning.spaces

    @property
    def roles(self) -> tuple[str, ...]:
        """The roles aboard, in the order of the file."""
        return self.reckoning.roles

    @property
    def blocks(self) -> tuple[Block, ...]:
        """The vessel, her voyage and every block in them."""
        return self.reckoning.blocks

    def all_of(self, *kinds: type[B]) -> tuple[B, ...]:
        """Those of her blocks that are of one of these kinds, in the order of the file."""
        return self.reckoning.all_of(*kinds)

    def texts(self, name: str) -> tuple[tuple[Block, str], ...]:
        """Those of her blocks in which an attribute holds a text, with the text."""
        return self.reckoning.texts(name)

    @property
    def stamped(self) -> tuple[tuple[Block, dict[str, Stamp]], ...]:
        """Every block in which a date stands, with its dates by attribute."""
        return self.reckoning.stamped

    @property
    def own_words(self) -> tuple[OwnWords, ...]:
        """All words of her own that everybody may read and that are no name."""
        return self.reckoning.own_words

    def words_through(self, sieve: Sieve) -> Sequence[OwnWords]:
        """Those of them that a sieve lets through."""
        return self.reckoning.words_through(sieve)


def once_composed(work: Callable[[Sight], T]) -> Callable[[Sight], T]:
    """The same of what goes by the manual too."""

    @functools.wraps(work)
    def shared(sight: Sight) -> T:
        return sight.found_composed(work)

    return shared


def once(work: Callable[[Sight], T]) -> Callable[[Sight], T]:
    """Makes a function of a sight one whose result is worked out once and shared: nobody may change it.

    It must go by what a sight has from the beginning: boat and days, not the manual nor the outputs.
    """

    @functools.wraps(work)
    def shared(sight: Sight) -> T:
        return sight.found(work)

    return shared
