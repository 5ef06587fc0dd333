"""Words of steps, printed in a language: each with what it was made of, so that findings on a step lead to the key."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Self

from generator.manual.said import Missing, Several, Word

if TYPE_CHECKING:
    from generator.manual.printing import Printer
    from generator.manual.said import Said, Sayable
    from generator.reading.findings import Place


class Printed(str):
    """A word as a step prints it; `said` is what it was made of, `word` what of it stands in the file, if it is not put together."""

    __slots__ = ("said", "word")

    word: Word | None
    said: Sayable | None

    def __new__(cls, text: str, word: Word | None = None, said: Sayable | None = None) -> Self:
        """A plain text for whoever prints it."""
        made = super().__new__(cls, text)
        made.word, made.said = word, said
        return made

    @property
    def key(self) -> str:
        """The key it comes from; "" where it is put together."""
        return self.word.key if self.word is not None else ""

    @property
    def place(self) -> Place | None:
        """Where that stands."""
        return self.word.place if self.word is not None else None


class Words(Mapping[str, Printed | Missing]):
    """The words of steps in a language, each printed when it is first asked for; what is missing stays so.

    `others` has those that are not among them, as the vessel's are beside those of one raft.
    """

    def __init__(self, said: Mapping[str, Said], printer: Printer, others: Words | None = None) -> None:
        self._said, self._printer, self._others = said, printer, others
        self._printed: dict[str, Printed | Missing] = {}

    def __getitem__(self, slot: str) -> Printed | Missing:
        found = self._printed.get(slot)
        if found is None:
            if slot not in self._said and self._others is not None:
                return self._others[slot]
            said = self._said[slot]
            found = said if isinstance(said, Missing) else _printed(said, self._printer)
            self._printed[slot] = found
        return found

    def __iter__(self) -> Iterator[str]:
        return iter({**self._said, **dict.fromkeys(self._others or ())})

    def __len__(self) -> int:
        return sum(1 for _ in self)


def _printed(said: Sayable, printer: Printer) -> Printed:
    source = said if isinstance(said, Word) else said.first if isinstance(said, Several) else None
    return Printed(said.said_by(printer), source, said)
