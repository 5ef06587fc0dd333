"""The shelf of dangerous deeds: what no text of a boat's own may tell anybody to do, and the words in which people tell it."""

from __future__ import annotations

import functools
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.reading.block import Block
from generator.reading.fields import Many, Text, Texts
from generator.reading.names import OtherName, references, standing
from generator.shelves.shelf import File, Shelf, Tallied
from generator.shelves.worded_forms import JOINS, WordedForm, WordsBlock, any_of, words_agree

if TYPE_CHECKING:
    import re
    from collections.abc import Iterator, Mapping, Sequence

    from generator.reading.findings import Finding

FORBIDS, WARNS, CONDITIONS, RESETS = "FORBIDS", "WARNS", "CONDITIONS", "RESETS"
HURRIES = "HURRIES"
GRAMMAR = (FORBIDS, WARNS, CONDITIONS, RESETS, JOINS, HURRIES)
"""The lists of words by which a sentence is read, whatever it tells of."""


class DangerBlock(Block):
    """A deed that costs lives."""

    called = "danger"
    danger = Text("What would the words have somebody do?", required=True)
    said = Texts("How is it said?", of=Text("Which words, in their order?"), required=True)
    beside = references("Beside which procedures is a note read so?", to="procedure")
    of = Texts("Which words of a sentence say the same elsewhere?", of=OtherName("Which words?"))
    spared = Texts("With which words of the sentence is it no such order?", of=OtherName("Which words?"))
    why = Text("What does it cost?", required=True)
    instead = Text("What is written in its place?", required=True)
    source = Text("Who says so?", required=True)
    standing = standing()


class DeedsFile(Tallied):
    """A file of dangerous deeds."""

    words = Many(WordsBlock, "Which words mean one deed, thing or place?", required=True)
    dangers = Many(DangerBlock, "Which deeds cost lives?", required=True)


def _holds_together(files: Sequence[File[DeedsFile]]) -> Iterator[Finding]:
    """Every name in capitals is that of words that are there, and what reads every sentence is there."""
    for file in files:
        yield from words_agree(file.block.words, [(each, "said") for each in file.block.dangers], GRAMMAR)


DEEDS: Shelf[DeedsFile] = Shelf(
    "dangerous deeds",
    "deeds/dangers.yaml",
    DeedsFile,
    "What no text of a boat's own may tell anybody to do, and the words in which people tell it.",
    holds_together=_holds_together,
)


@dataclass(frozen=True, eq=False)
class Form:
    """One way to tell somebody to do a dangerous deed; what finds it is made when a text has a word of it."""

    danger: DangerBlock
    form: WordedForm
    order: int
    """Where it stands on the shelf: of several that a text says the first is told."""

    @functools.cached_property
    def of(self) -> re.Pattern[str] | None:
        """What finds in a sentence that it is of this, where it stands beside no procedure that says so."""
        return any_of(self.danger.of) if self.danger.of else None

    @functools.cached_property
    def spared(self) -> re.Pattern[str] | None:
        """What finds that it is no such order."""
        return any_of(self.danger.spared) if self.danger.spared else None

    @functools.cached_property
    def says_only(self) -> bool:
        """Whether its own words hold the "only" that elsewhere makes an order sound."""
        return " only " in f" {self.form.said} "

    def denies(self, forbids: re.Pattern[str]) -> bool:
        """Whether its own words deny, so that a denial in them forbids nothing: no lifejacket is needed."""
        return forbids.search(f" {self.form.said} ") is not None

    @property
    def beside(self) -> tuple[str, ...]:
        """The procedures beside which a note is read so without a further word."""
        return tuple(map(str, self.danger.beside))


@dataclass(frozen=True, eq=False)
class Deeds:
    """Every form, by each of the words one of which is in all that tells it, and what reads any sentence."""

    by_word: Mapping[str, tuple[Form, ...]]
    grammar: Mapping[str, re.Pattern[str]]


def deeds() -> Deeds:
    """The dangerous deeds of the shelf; raises ShelfFault."""
    return _deeds(DEEDS.files())


@functools.lru_cache(maxsize=8)
def _deeds(files: tuple[File[DeedsFile], ...]) -> Deeds:
    words = {str(each.name): each.words for file in files for each in file.block.words}
    by_word: dict[str, list[Form]] = {}
    said_so = ((danger, said) for file in files for danger in file.block.dangers for said in danger.said)
    for order, (danger, said) in enumerate(said_so):
        form = Form(danger, WordedForm(said, words), order)
        for stem in form.form.needs[0]:
            by_word.setdefault(stem, []).append(form)
    return Deeds(
        {word: tuple(forms) for word, forms in by_word.items()},
        {name: any_of(words[name]) for name in GRAMMAR},
    )
