"""Which kind of gear a name means: read once, in whatever form people write it, for steps, checks, rule sets, packs and the plan alike.

What stands before the first comma counts. Letter case, hyphens, blanks and the ending of the plural do not; words before a name tell
which one it is ("horseshoe lifebuoy"), so do figures and what begins with `behind` ("throwing line 20 m", "lifebuoy with light"). The
last word says what a thing is: a lifebuoy light is a light, a bracket for the extinguisher a bracket.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

_TOKEN = re.compile(r"[^\W_]+")
_BRACKETS = re.compile(r"\([^()]*\)")
_BETWEEN = re.compile(r"[,;/&+]")


@dataclass(frozen=True)
class Small:
    """The small words of names, each as `key_of` makes it.

    `joins` join two names, `behind` begins what tells which, `measures` count ("a pair of"), `parts` are other things that belong to
    a thing, `which` are adjectives that may stand behind a name, `another` make of whatever follows no such thing.
    """

    joins: frozenset[str] = frozenset()
    behind: frozenset[str] = frozenset()
    measures: frozenset[str] = frozenset()
    parts: frozenset[str] = frozenset()
    which: frozenset[str] = frozenset()
    another: frozenset[str] = frozenset()


@dataclass(frozen=True)
class Naming:
    """One name of one kind, which stands at `index` of its shelf: words that may not stand before it, or none at all (`alone`)."""

    index: int
    words: tuple[str, ...]
    own: bool
    not_before: frozenset[str] = frozenset()
    alone: bool = False


def tokens(text: str) -> tuple[str, ...]:
    """The words and figures of a name in small letters."""
    return tuple(_TOKEN.findall(text.lower()))


def key_of(words: Iterable[str]) -> str:
    """Words as they are compared: written together, without the ending of the plural."""
    return _stem("".join(words))


@lru_cache(maxsize=4096)
def _stem(word: str) -> str:
    if len(word) > 3 and word.endswith("s") and not word.endswith("ss"):
        word = f"{word[:-3]}y" if word.endswith("ies") and len(word) > 4 else word[:-1]
    word = word.removesuffix("e")
    return f"{word[:-1]}f" if word.endswith("iv") else word


class Recogniser:
    """All namings of one shelf, looked up in any form."""

    def __init__(self, namings: Iterable[Naming], small: Small) -> None:
        self._small = small
        self._by_key: dict[str, Naming] = {}
        self._by_last: dict[str, list[Naming]] = {}
        self._whole: dict[
            tuple[str, ...], str
        ] = {}  # names in which small words stand: "built-in extinguisher"
        for each in namings:
            for key in {key_of(each.words), "".join(map(_stem, each.words))}:
                self._by_key.setdefault(key, each)
            self._by_last.setdefault(_stem(each.words[-1]), []).append(each)
            if (small.joins | small.behind).intersection(each.words):
                self._whole[tuple(map(_stem, each.words))] = "".join(each.words)

    def meant(self, text: str) -> Naming | None:
        """The name of a kind that `text` means before its first comma; of several joined ones the first.

        A word alone in brackets, or behind the comma, tells which one it is as one before the name does: "red flares, parachute".
        """
        name, _, rest = text.partition(",")
        found = next(iter(self._each(name)), None)
        besides = map(tokens, (*_BRACKETS.findall(name), rest.partition(",")[0]))
        told = [each[0] for each in besides if len(each) == 1]
        return found if found is None or self._allowed(found, told, alone=False) else None

    def all_meant(self, text: str) -> list[Naming]:
        """Every name that a whole text means, one after the other: "whistle and mirror"."""
        return [
            found for part in _BETWEEN.split(_BRACKETS.sub(" ", text)) for found in self._each(part) if found
        ]

    def also_meant(self, text: str) -> list[Naming]:
        """The names that a text means before its first comma besides the first."""
        return [each for each in self._each(text.partition(",")[0])[1:] if each]

    def _read(self, text: str) -> tuple[str, ...]:
        """The words of a text, a name in which small words stand as one word."""
        words = tokens(_BRACKETS.sub(" ", text))
        for stems, name in self._whole.items():
            for at in range(len(words) - len(stems) + 1):
                if tuple(map(_stem, words[at : at + len(stems)])) == stems:
                    words = (*words[:at], name, *words[at + len(stems) :])
                    break
        return words

    def begun(self, text: str) -> Naming | None:
        """The kind whose own name stands before other words in what tells of no kind: "lifebuoy Pinta" may mean one."""
        words = self._plain(self._read(text.partition(",")[0]))
        if not words or self.is_part(text):
            return None
        tried = (self._one(words[:end]) for end in range(len(words) - 1, 0, -1))
        return next((found for found in tried if found is not None and found.own and not found.alone), None)

    def is_part(self, text: str) -> bool:
        """Whether a text names what belongs to a thing: a bracket, a hose."""
        words = self._head(self._read(text.partition(",")[0]))
        return bool(words) and _stem(words[-1]) in self._small.parts

    def _each(self, text: str) -> list[Naming | None]:
        """What each of the joined names of a text means; the first also where it means nothing."""
        words = self._read(text)
        whole = self._exact(self._plain(words))
        return [whole] if whole is not None else [self._one(part) for part in self._split(self._head(words))]

    def _split(self, words: Sequence[str]) -> Iterator[Sequence[str]]:
        """The names between joining words."""
        at = 0
        for number, word in enumerate((*words, *list(self._small.joins)[:1])):
            if word in self._small.joins:
                if number > at:
                    yield words[at:number]
                at = number + 1
        if at < len(words):
            yield words[at:]

    def _plain(self, words: Sequence[str]) -> tuple[str, ...]:
        """Words without articles and counts before them."""
        at = 0
        while at < len(words) - 1 and (words[at] in ("a", "an", "the", "our", "x") or words[at].isdigit()):
            at += 1
        return tuple(words[at:])

    def _head(self, words: Sequence[str]) -> tuple[str, ...]:
        """The words up to what tells which; behind a measure those it measures."""
        words = self._plain(words)
        for at, word in enumerate(words):
            if at and word in self._small.behind:
                before = words[:at]
                if word == "of" and _stem(before[-1]) in self._small.measures and not self._ending(before):
                    return self._head(words[at + 1 :])
                return before
        return words

    def _one(self, words: Sequence[str]) -> Naming | None:
        head = self._head(words)
        while head:
            if (found := self._ending(head)) is not None:
                return found
            figure = next((at for at, word in enumerate(head) if at and word[0].isdigit()), 0)
            if figure:
                head = head[:figure]
            elif _stem(head[-1]) in self._small.which:
                head = head[:-1]
            else:
                return None
        return None

    def _exact(self, words: Sequence[str]) -> Naming | None:
        if not words:
            return None
        return self._by_key.get(key_of(words)) or self._by_key.get("".join(map(_stem, words)))

    def _ending(self, words: Sequence[str]) -> Naming | None:
        """The name with which words end; a name that begins further forward, with others between its words, tells more."""
        at, nearest = next(
            (
                (start, found)
                for start in range(len(words))
                if (found := self._exact(words[start:])) is not None
            ),
            (0, None),
        )
        if nearest is None:
            return None
        wider = [(start, each) for each, start in self._between(words) if start < at]
        first = min(wider, key=lambda pair: pair[0], default=None)
        if first is not None and self._allowed(first[1], self._besides(first[1], words)):
            return first[1]
        return nearest if self._allowed(nearest, words[:at]) else None

    def _besides(self, naming: Naming, words: Sequence[str]) -> list[str]:
        """The words before and between those of a name."""
        own = {_stem(each) for each in naming.words}
        return [each for each in words if _stem(each) not in own]

    def _between(self, words: Sequence[str]) -> Iterator[tuple[Naming, int]]:
        """The names whose words stand in this order, the last of them at the end, each with where it begins."""
        stems = [_stem(each) for each in words]
        for naming in self._by_last.get(stems[-1], ()):
            wanted, at, start = [_stem(each) for each in naming.words], 0, -1
            if len(wanted) < 2:
                continue
            for place, stem in enumerate(stems):
                if at < len(wanted) and stem == wanted[at]:
                    start = place if at == 0 else start
                    at += 1
            if at == len(wanted):
                yield naming, start

    def _allowed(self, naming: Naming, before: Sequence[str], *, alone: bool = True) -> bool:
        told = [each for each in self._plain((*before, "")) if each]
        if naming.alone and told and alone:
            return False
        stems = {_stem(each) for each in told}
        return not stems & ((self._small.another if alone else frozenset()) | naming.not_before)


def small_words(lists: Mapping[str, Iterable[str]]) -> Small:
    """The small words of a shelf, by the names of `Small`."""
    return Small(
        **{
            name: frozenset(words)
            if name in ("joins", "behind")
            else frozenset(_stem(each) for each in words)
            for name, words in lists.items()
        }
    )
