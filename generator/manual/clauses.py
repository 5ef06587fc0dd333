"""Clauses: what commas, "and" and "then" join; each is read for itself."""

from __future__ import annotations

import re
from dataclasses import dataclass

from generator.manual.own_words import listed

_QUOTED = re.compile(r"\"[^\"]*\"|“[^”]*”|‘[^’]*’|(?<![^\W_])'[^']*'(?![^\W_])")
_WORD = re.compile(r"[^\W_]+(?:['’./-][^\W_]+)*")
_STOPS = re.compile(r"[,:;()!?…]|\.(?=\s|$)|\s[–-]\s")
_NAMED = "X"  # stands for what is quoted: a name on a switch, a word that is called


@dataclass(frozen=True)
class Clause:
    """The words of a clause in small letters, and whether it begins as a condition does."""

    words: tuple[str, ...]
    conditional: bool = False


def masked(text: str) -> str:
    """A text in which each thing in quotes is one word: nothing in them is meant as the boat's own words."""
    return _QUOTED.sub(_NAMED, text)


def clauses_of(text: str) -> tuple[Clause, ...]:
    """The clauses of a text without those that hold no words; what leads to an act stands in none."""
    found = []
    for part in _STOPS.split(masked(text)):
        words = [word.lower().replace("’", "'") for word in _WORD.findall(part)]
        start = 0
        for at, word in enumerate([*words, "and"]):
            joins = word in ("and", "then", "but", "or") or at == len(words)
            begins = word in listed("reads.conditions") and at > start
            if joins or begins:
                if clause := _clause(words[start:at]):
                    found.append(clause)
                start = at + 1 if joins else at
    return tuple(found)


def _clause(words: list[str]) -> Clause | None:
    """The clause without the words that lead to its act: then, gently."""
    kept = words
    while len(kept) > 1 and (kept[0] in listed("reads.lead") or _how(kept[0])):
        kept = kept[1:]
    if not kept:
        return None
    return Clause(tuple(kept), kept[0] in listed("reads.conditions"))


def _how(word: str) -> bool:
    return word.endswith("ly") and len(word) > 5
