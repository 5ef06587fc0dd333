"""What a boat's free words say, as far as the program goes by them, until the file has keys for it; nothing else reads words so."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.reading.measures import Measure

if TYPE_CHECKING:
    from collections.abc import Iterable

    from generator.reading.values import Given, Quantity

_LENGTH = Measure("", "length")
_FOR_EACH = re.compile(r"\b(each|every|everybody)\b")
_GRAB_BAG = re.compile(r"grab.?bag", re.IGNORECASE)
_BESIDE_A_BAG = re.compile(
    r"\b(?:near|beside|by|behind|under|below|above|over|before|on top of|next to|close to) (?:the |our )?grab.?bag",
    re.IGNORECASE,
)
"""What lies there is not in it."""
_LONG = re.compile(r"([0-9.]+) ?(m|ft)\b")


def one_for_each(spot: Given, carried_by: Given) -> bool:
    """Whether everybody has one, by where it lies or who carries it: "in each lifejacket"."""
    return any(isinstance(said, str) and _FOR_EACH.search(said) for said in (spot, carried_by))


def in_grab_bag(*places: Given) -> bool:
    """Whether one of the words for its place says that a thing is in the grab bag."""
    return any(isinstance(said, str) and _GRAB_BAG.search(_BESIDE_A_BAG.sub("", said)) for said in places)


def has_words(name: str, words: Iterable[str]) -> bool:
    """Whether each of the words stands in the name of a thing."""
    return all(re.search(rf"\b{word}\b", name, re.IGNORECASE) for word in words)


def length_of(name: str) -> Quantity | None:
    """The length that the name of a thing gives: "throwing line, 30 m"; None where it gives none."""
    found = _LONG.search(name)
    return _LENGTH.read(f"{found[1]} {found[2]}") if found else None
