"""The shelf of handling: how things are worked that a step names, and in which words they are not."""

from __future__ import annotations

import functools
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.reading.block import Block
from generator.reading.fields import Choice, Many, Text, Texts
from generator.reading.names import OtherName
from generator.shelves.shelf import File, Shelf, Tallied, twice
from generator.shelves.worded_forms import JOINS, WordedForm, WordsBlock, any_of, stems_in, words_agree

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from generator.reading.findings import Finding

HANDLED = (
    "engine",
    "fuel",
    "gas",
    "batteries",
    "ventilation",
    "kill cord",
    "hole",
    "hatch",
    "set",
    "beacon",
    "gate",
    "pump",
    "hoist",
)
"""What is worked: what a stop ends, a hole in the hull, a way out, a radio, a beacon, a gate, an electric pump, a hoist."""
_PARTS = re.compile(r" AND | ?[/&] ?")
_BEHIND_A_LABEL = re.compile(r" (?:\d+|PORT|STARBOARD|STBD|FWD|AFT|MAIN)$")


class HandledBlock(Block):
    """How one sort of thing is worked, and how it is not."""

    called = "handled"
    handled = Choice("What is worked?", HANDLED, required=True)
    fails = Text("What does a hand fail to do that works it otherwise?", required=True)
    otherwise = Texts("In which words is it not worked?", of=Text("Which words, in their order?"))
    spared = Texts("With which words is that right all the same?", of=OtherName("Which words?"))
    labels = Texts("With what is the switch of something else marked?", of=OtherName("Which label?"), most=80)
    example = Text("How is such a thing worked?", required=True)


class HandlingFile(Tallied):
    """The file of handling."""

    words = Many(WordsBlock, "Which words mean one deed, thing or place?", required=True)
    handled = Many(HandledBlock, "What is worked, and how is it not?", required=True)


def _holds_together(files: Sequence[File[HandlingFile]]) -> Iterator[Finding]:
    """Every sort of thing is there once, and every name that it asks for."""
    for file in files:
        handled = file.block.handled
        labels = [label for each in handled for label in each.labels]
        yield from words_agree(file.block.words, [(each, "otherwise") for each in handled], (JOINS,), labels)
        yield from twice((str(each.handled), each, "handled") for each in handled)


HANDLING: Shelf[HandlingFile] = Shelf(
    "handling",
    "deeds/handling.yaml",
    HandlingFile,
    "How things are worked that a step names, and in which words they are not.",
    holds_together=_holds_together,
)


@dataclass(frozen=True, eq=False)
class Handled:
    """How one sort of thing is not worked; `example` is how it is."""

    fails: str
    example: str
    otherwise: tuple[WordedForm, ...]
    spares: tuple[str, ...]
    labels: frozenset[str]

    @functools.cached_property
    def spared(self) -> re.Pattern[str] | None:
        """What finds that these are right all the same."""
        return any_of(self.spares) if self.spares else None

    def not_worked(self, sentence: str) -> bool:
        """Whether a sentence, as `worded_forms.plain` gives it, works it otherwise."""
        stems = stems_in(sentence)
        found = any(form.search(sentence, stems) for form in self.otherwise)
        return found and not (self.spared is not None and self.spared.search(sentence))

    def marked_for_else(self, label: str) -> bool:
        """Whether a label is that of the switch of something else."""
        return all(map(self._of_else, _PARTS.split(label)))

    def _of_else(self, part: str) -> bool:
        words = _BEHIND_A_LABEL.sub("", part).split()
        return any(" ".join(words[number:]) in self.labels for number in range(len(words)))


def handled(of: str) -> Handled | None:
    """How one sort of thing is worked; None of what is not on the shelf. Raises ShelfFault."""
    return _handled(HANDLING.files()).get(of)


@functools.lru_cache(maxsize=8)
def _handled(files: tuple[File[HandlingFile], ...]) -> dict[str, Handled]:
    found: dict[str, Handled] = {}
    for file in files:
        words = {str(each.name): each.words for each in file.block.words}
        for each in file.block.handled:
            found[str(each.handled)] = Handled(
                str(each.fails),
                str(each.example),
                tuple(WordedForm(said, words) for said in each.otherwise),
                tuple(each.spared),
                frozenset(label for said in each.labels for label in words.get(said, (said,))),
            )
    return found
