"""One matcher for all who ask: what of the values kept from a reader stands in a text."""

from __future__ import annotations

import re
from calendar import monthrange
from functools import cached_property
from typing import TYPE_CHECKING

from generator.shelves.languages import catalogue, languages
from generator.survey.withheld.forms import (
    APART,
    SHORTEST_NUMBER,
    SHORTEST_WORD,
    STRONG,
    Day,
    Form,
    Id,
    NameWords,
    Number,
    Sentence,
    Span,
    Words,
)
from generator.survey.withheld.plain import Plain, plain, squeezed
from generator.survey.withheld.values import Kept, Withheld, standing

if TYPE_CHECKING:
    from collections.abc import Iterator

_NUMBER = re.compile(r"\+?\d(?:[\d\s().\u2010-\u2015/\u00a0-]*\d)?")
_DATES = re.compile(r"(?:19|20)\d\d[-./ ]\d{1,2}([-./ ]\d{1,2})?|\d{1,2}[-./ ]\d{1,2}[-./ ](?:19|20)?\d\d")
_TITLE = re.compile(r"[^\W\d_]")
_PARTICLES = frozenset(
    ("de", "van", "von", "der", "den", "la", "le", "da", "di", "du", "of", "af", "av", "bin", "al", "y", "i")
)
MOST_NAMES = 5  # words of a name
LONGEST = 80  # words of a sentence that is looked at as one


class Matcher:
    """Finds values kept back in texts; what is ordinary is looked up only once something may have been found."""

    def __init__(self, kept: Kept) -> None:
        self.kept = kept
        self._ordinary: dict[str, bool] = {}

    @cached_property
    def forms(self) -> tuple[tuple[Withheld, tuple[Form, ...]], ...]:
        """Each value with the forms it is recognised by; those that the reader sees anyway are left out."""
        return tuple(
            (one, forms)
            for one in self.kept.values
            if squeezed(plain(one.value).spaced) not in self.kept.shown and (forms := tuple(_forms(one)))
        )

    def ordinary(self, word: str) -> bool:
        """Whether a word is nobody's secret: the program prints it, or it names the boat, a place or a role."""
        known = self._ordinary.get(word)
        if known is None:
            known = self._ordinary[word] = word in self.kept.own or word in standing().words
        return known

    def found(self, text: Plain, *, is_text: bool = True) -> Iterator[Withheld]:
        """The values that stand in a text; in what is no text only those that stand nowhere by chance."""
        for one, forms in self.forms:
            if any(
                next(form.spans(text, self.ordinary), None) is not None
                for form in forms
                if is_text or form.strong
            ):
                yield one

    def spans(self, text: Plain) -> list[Span]:
        """Where in a text any of them stand, those that touch as one."""
        found = sorted(
            span for _, forms in self.forms for form in forms for span in form.spans(text, self.ordinary)
        )
        joined: list[Span] = []
        for start, end in found:
            if joined and start <= joined[-1][1] + 1:
                joined[-1] = joined[-1][0], max(end, joined[-1][1])
            else:
                joined.append((start, end))
        return joined


def _forms(one: Withheld) -> Iterator[Form]:
    """The forms of one value, by what it is made of."""
    text = one.value
    if days := tuple(_days(text)):
        yield from days
        return
    words = tuple(plain(text).spaced.replace("-", " ").split())
    letters = [word for word in words if not word.isdigit()]
    if not letters:
        if len("".join(words)) >= SHORTEST_NUMBER:
            yield Number("".join(words))
        return
    yield from _numbers(text)
    yield from (Id((word,)) for word in words if len(word) >= STRONG and _is_mixed(word) and len(words) > 1)
    mixed = any(map(_is_mixed, words))
    if len(words) <= MOST_NAMES and (mixed or len(letters) < len(words)):
        if len("".join(words)) >= SHORTEST_WORD:
            yield Id(words)
        if len(letters) < 2:
            return
    named = one.name or _is_name(text)
    yield Words(words, named)
    if named:
        yield NameWords(tuple(letters))
    if len(words) > 1 and not one.name:
        yield from (Sentence(words[at : at + LONGEST]) for at in range(0, len(words), LONGEST - APART))


def _is_mixed(word: str) -> bool:
    """Whether a word holds letters and digits."""
    return not word.isdigit() and any(map(str.isdigit, word))


def _numbers(text: str) -> Iterator[Number]:
    """The numbers in a text that are long enough to tell; dates are none."""
    for match in _NUMBER.finditer(text):
        digits = "".join(plain(match[0]).spaced.replace("-", " ").split())
        if len(digits) >= SHORTEST_NUMBER and not _DATES.fullmatch(match[0].strip()) and _free(match):
            yield Number(digits)


def _free(match: re.Match[str]) -> bool:
    """Whether a number stands by itself, not in a word of letters and digits."""
    before, after = match.string[: match.start()][-1:], match.string[match.end() :][:1]
    return not (before.isalpha() or after.isalpha())


def _is_name(text: str) -> bool:
    """Whether a text looks like a name: a few words, each with a capital."""
    words = re.findall(r"[^\W\d_]+(?:['’][^\W\d_]+)?", text)
    return 0 < len(words) <= MOST_NAMES and all(word[0].isupper() or word in _PARTICLES for word in words)


def _days(text: str) -> Iterator[Day]:
    """The day that a value is, if it is one; both where figures can mean two."""
    names = [catalogue(each).months for each in languages()]
    words = plain(text).spaced.replace("-", " ").split()
    if len(words) != 3 or max(map(len, words)) > 12:
        return
    figures = [int(word) for word in words if word.isdecimal()]
    month = next(
        (
            number
            for months in names
            for number, name in enumerate(months, 1)
            for word in words
            if not word.isdigit() and len(word) > 2 and plain(name).spaced.strip().startswith(word)
        ),
        0,
    )
    if month and len(figures) == 2:
        orders = {(max(figures), month, min(figures))}
    elif len(figures) == 3 and figures[0] > 31:
        orders = {(figures[0], figures[1], figures[2])}
    elif len(figures) == 3 and figures[2] > 31:
        orders = {(figures[2], figures[1], figures[0]), (figures[2], figures[0], figures[1])}
    else:
        return
    for year, at, day in sorted(orders):
        if 1900 <= year <= 2099 and 1 <= at <= 12 and 1 <= day <= monthrange(year, at)[1]:
            yield Day(year, at, day, tuple(plain(months[at - 1]).spaced.strip() for months in names))
