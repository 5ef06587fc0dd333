"""templates/words/README.md: the words of the trade, what they mean and for which boats."""

from __future__ import annotations

from documents.markdown import page, table
from generator.shelves.languages import catalogue
from generator.shelves.trade import TradeWord, trade

INTRODUCTION = """\
The words that a guest may not know. Each is explained in the book, on the site and in the one-file manual where it stands in what is printed for
the boat, the owner's own words among it, and nowhere else; what it means in a language stands in `trade.yaml` of
[`templates/text/`](../text/README.md), with the forms in which it is found. Where a card is named, it is explained at the foot of the cards of that station too, as
far as that costs no side: it is no part of the card's code. The head of each file explains its keys. A word is added by its row here, its explanation there and both
tallies; `musterbook survey` names what is wrong or missing."""


def document() -> str:
    """The whole page."""
    said = catalogue().trade.words
    rows = []
    for word in trade():
        words = said[str(word.word)]
        rows.append(
            (
                str(words.listed),
                "; ".join(
                    [
                        str(words.means),
                        *(f"{_when(word, name)}: {text}" for name, text in words.others.items()),
                    ]
                ),
                ", ".join(word.when),
                ", ".join(word.cards),
                str(word.source),
                str(word.standing),
            )
        )
    return page(
        "Words of the trade",
        "`trade.yaml`",
        INTRODUCTION,
        table(("word", "means", "only where", "cards", "source", "standing"), rows),
    )


def _when(word: TradeWord, name: str) -> str:
    """On which boats a word means what stands under a name."""
    return next(", ".join(each.when) for each in word.other_words if str(each.words) == name)
