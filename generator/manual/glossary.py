"""The words of the trade that stand in what is printed for one boat, each explained as is true for her."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from generator.manual.steps import holds
from generator.reading.values import given
from generator.shelves.trade import TradeWord, trade

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from generator.shelves.languages import Catalogue
    from generator.shelves.words import Explanation

_TAG = re.compile(r"<[^>]*>")
_LETTERS = re.compile(r"\w+")
_SOFT_HYPHEN = "\u00ad"


@dataclass(frozen=True)
class Explained:
    """A word of the trade as it is listed, and what it means; `cards` are the stations on whose cards that is said."""

    id: str
    called: str
    says: str
    cards: tuple[str, ...] = ()


@dataclass(frozen=True)
class Glossary:
    """What can be explained to the readers of a boat of these facts, in a language."""

    facts: Mapping[str, bool]
    catalogue: Catalogue

    def of(self, text: str) -> tuple[Explained, ...]:
        """The words that stand in a text, by the alphabet."""
        found = self.catalogue.trade.spotter.found_in(text)
        return tuple(each for each in self._all if each.id in found)

    def of_page(self, markup: str) -> tuple[Explained, ...]:
        """The words that stand in what a page of HTML shows."""
        return self.of(_TAG.sub(" ", markup).replace(_SOFT_HYPHEN, ""))

    def of_card(self, text: str, station: str) -> tuple[Explained, ...]:
        """The words in the text of a card that are explained on the cards of a station."""
        wanted = any(station in each.cards for each in self._all)
        return tuple(each for each in self.of(text) if station in each.cards) if wanted else ()

    @cached_property
    def _all(self) -> tuple[Explained, ...]:
        return tuple(sorted(self._explained(), key=lambda each: (by_the_alphabet(each.called), each.id)))

    def _explained(self) -> Iterator[Explained]:
        said = self.catalogue.trade.words
        for word in trade():
            if holds(word.when, (), self.facts):
                name = given(word.word, "")
                words = said[name]
                yield Explained(
                    name, given(words.listed, name), _meaning(word, words, self.facts), word.cards
                )


def by_the_alphabet(word: str) -> str:
    """What a word is sorted by: its letters, É beside E, without signs."""
    letters = "".join(one for one in unicodedata.normalize("NFKD", word) if not unicodedata.combining(one))
    return " ".join(_LETTERS.findall(letters.casefold()))


def _meaning(word: TradeWord, words: Explanation, facts: Mapping[str, bool]) -> str:
    """What a word means on a boat of these facts."""
    other = next((each for each in word.other_words if holds(each.when, (), facts)), None)
    return given(words.means, "") if other is None else str(words.others[given(other.words, "")])
