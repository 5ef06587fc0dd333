"""The shelf of the words of the trade: which are explained, for which boats, on which cards; what is said of them is text."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.reading.block import Block
from generator.reading.fields import Many, Text
from generator.reading.names import Name, references, standing
from generator.shelves.procedure_files import OtherWords
from generator.shelves.rows import alike
from generator.shelves.shelf import File, Shelf, Tallied

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from generator.reading.findings import Finding


class TradeWord(Block):
    """A word that a guest may not know."""

    called = "word"
    word = Name("What is it called?", required=True)
    when = references("Which facts must all be so for it to be explained?", to="fact", negatable=True)
    cards = references("On the cards of which stations is it explained?", to="station")
    other_words = Many(OtherWords, "Where is something else said of it, the first that holds?")
    source = Text("Who says so?", required=True)
    standing = standing()


class TradeFile(Tallied):
    """A file of words of the trade."""

    words = Many(TradeWord, "Which words are explained?", required=True)


def _holds_together(files: Sequence[File[TradeFile]]) -> Iterator[Finding]:
    """Every word stands there once."""
    rows = [row for each in files for row in each.block.words]
    yield from alike(
        ((str(row.word), row.place("word")) for row in rows),
        "the word stands there twice",
        "keep one of them",
    )


TRADE: Shelf[TradeFile] = Shelf(
    "words of the trade",
    "words/trade.yaml",
    TradeFile,
    "The words of the trade that are explained where they are printed.",
    holds_together=_holds_together,
)


def trade() -> tuple[TradeWord, ...]:
    """Every word of the shelf; raises ShelfFault."""
    return tuple(row for each in TRADE.files() for row in each.block.words)
