"""Ways to say a thing: names of words, plain words, what may stand between them; read from shelves, found in sentences."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import TYPE_CHECKING

from generator.reading.block import Block
from generator.reading.fields import Texts
from generator.reading.names import Name, OtherName
from generator.reading.values import sure
from generator.shelves.rows import alike, contradiction

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from generator.reading.findings import Finding

JOINS = "JOINS"
"""The words that no ~ goes over."""
_FEW, _ANY, _FIRST = "~", "..", "^"
_SIGNS = (_FEW, _ANY, _FIRST)
_LETTERS = re.compile(r"[a-z0-9'-]+")
_TOKEN = re.compile(r"[A-Z]{2,}(?: [A-Z]{2,})*|~|\.\.|\^|[a-z'-]+")
_WORD = re.compile(r"[\w'’/+-]+|[,:()–—]")
_SHORTEST = 3
"""Letters of the shortest verb: tie, cut."""
_LONGEST_TY = 4
"""Letters of the longest stem whose y stands for an i: untying, untie."""
_SHORT = (("n't", " not"), ("n’t", " not"), ("cannot", "can not"))


class WordsBlock(Block):
    """Words that mean one deed, thing or place."""

    called = "name"
    name = Name("Under which name, in capitals, are they asked for?", required=True)
    words = Texts("Which words mean it?", of=OtherName("Which words?"), required=True, most=80)


def asked_in(said: str) -> set[str]:
    """The names of words that a form asks for."""
    return {token for token in _TOKEN.findall(said) if token.isupper()}


def words_agree(
    words: Sequence[WordsBlock],
    asked: Iterable[tuple[Block, str]],
    always: Sequence[str],
    whole: Iterable[str] = (),
) -> Iterator[Finding]:
    """Every name that forms ask for (a block and the attribute that lists them) is that of words, of one list alone; none is idle.

    `always` are names that the program asks for, `whole` texts each of which may be a name.
    """
    yield from alike(
        ((str(each.name), each.place("name")) for each in words),
        "two are called so",
        "give each its own name",
    )
    there, used = {str(each.name) for each in words}, {*always, *whole}
    for block, attribute in asked:
        for number, form in enumerate(getattr(block, attribute)):
            used |= asked_in(form)
            if lacking := sorted(asked_in(form) - there):
                place = block.place_in(attribute, number)
                yield contradiction(place, f"no words are called '{lacking[0]}'", "write them under 'words'")
    for name in sorted(set(always) - there):
        if words:
            yield contradiction(
                words[0].place("name"), f"no words are called '{name}'", f"write the words {name}"
            )
    for each in words:
        if str(each.name) not in used:
            yield contradiction(
                each.place("name"), f"nothing asks for '{each.name}'", "ask for them, or remove them"
            )


@dataclass(frozen=True, eq=False)
class WordedForm:
    """One way to say a thing; what finds it is made when first a text has words of all its parts."""

    said: str
    words: Mapping[str, Sequence[str]]

    @cached_property
    def needs(self) -> tuple[frozenset[str], ...]:
        """For each part of it the stems of which one is in every text that says it; the fewest first."""
        meant = (
            self.words[each] if each.isupper() else (each,)
            for each in _TOKEN.findall(self.said)
            if each not in _SIGNS
        )
        stems = (frozenset(word_stem(each.lower().split()[0]) for each in several) for several in meant)
        return tuple(sorted(stems, key=len))

    def search(self, sentence: str, stems: frozenset[str]) -> re.Match[str] | None:
        """Where a sentence, as `plain` gives it, says it; `stems` are those of its text."""
        return self._find.search(sentence) if self.may_say(stems) else None

    def may_say(self, stems: frozenset[str]) -> bool:
        """Whether a text of these stems has a word of each part of it."""
        return not any(each.isdisjoint(stems) for each in self.needs)

    @cached_property
    def _find(self) -> re.Pattern[str]:
        few = rf"(?: (?!(?:{_alternatives(self.words[JOINS])}|[,:(]) )\S+){{0,3}}?"
        between = {_FEW: few, _ANY: r"(?: \S+){0,14}?", _FIRST: "^(?: then)?"}
        parts = [
            between.get(token) or rf" ({_alternatives(self.words[token] if token.isupper() else (token,))})"
            for token in _TOKEN.findall(self.said)
        ]
        return re.compile("".join(parts) + r"(?= )")

    @cached_property
    def acts(self) -> int:
        """Which of its parts, from 1, is the deed itself: the first, or what follows a "..", before which its cause may stand."""
        tokens = _TOKEN.findall(self.said)
        parts = [each for each in tokens if each not in _SIGNS]
        cause = tokens[: tokens.index(_ANY)] if _ANY in tokens[:-1] else []
        before = sum(each not in _SIGNS for each in cause)
        whole = any(each not in _SIGNS and each.islower() for each in cause)
        return before + 1 if before and not whole and parts[before].isupper() else 1


def stems_in(text: str) -> frozenset[str]:
    """The stems of the words of a text."""
    return frozenset(map(word_stem, _LETTERS.findall(text.lower())))


def any_of(words: Sequence[str]) -> re.Pattern[str]:
    """Finds any of these words where each stands behind a blank and before one."""
    return re.compile(rf" (?:{_alternatives(words)})(?= )")


def _alternatives(words: Sequence[str]) -> str:
    longest_first = sorted({sure(each).lower() for each in words}, key=len, reverse=True)
    return "|".join(
        " ".join([_doing(first), *(rf"{re.escape(part)}(?:e?s)?" for part in rest)])
        for first, *rest in map(str.split, longest_first)
    )


def _doing(word: str) -> str:
    """Finds a word, its plural or what somebody does, and the doing of it: cut, cuts, cutting."""
    plain_word = rf"{re.escape(word)}(?:e?s)?"
    if len(word) < _SHORTEST or not word.isalpha() or word.endswith(("ing", "ed")):
        return plain_word
    if word.endswith("ie"):
        return rf"(?:{plain_word}|{word[:-2]}ying)"
    return rf"(?:{plain_word}|{word.removesuffix('e')}{word[-1]}?ing)"


@lru_cache(maxsize=65536)
def word_stem(word: str) -> str:
    """A word without the ending of the plural, of whoever does it, or of the doing; the same for each of its forms."""
    stem = word.removesuffix("ing") if len(word) >= _SHORTEST + len("in") else word
    stem = stem.rstrip("se")
    if stem.endswith("y") and len(stem) <= _LONGEST_TY:
        stem = f"{stem[:-1]}i"
    return stem[:-1] if stem[-2:-1] == stem[-1:] else stem


def plain(sentence: str) -> str:
    """A sentence in small letters, a blank before and behind each word and each break."""
    small = sentence.lower()
    for short, full in _SHORT:
        small = small.replace(short, full)
    return f" {' '.join(_WORD.findall(small))} "
