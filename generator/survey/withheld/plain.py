"""Text without what hands, printers and markup add to it: letters and digits alone, and where they were parted.

Compatibility forms, capitals, accents and digits of any script become one; invisible signs vanish; whatever is neither letter nor
digit only parts words. A value retyped with other blanks, hyphens, dots or brackets is the same text then.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass, field
from functools import cached_property, lru_cache

BREAK = "\u01c3"
"""Stands between blocks of text (paragraphs, cells), as a word of its own; where it is typed it is taken for a blank."""
MANY = 200
_JOINERS = frozenset(
    "\u00ad\u034f\u061c\u115f\u1160\u17b4\u17b5\u180b\u180c\u180d\u180e\u200b\u200c\u200d\u200e\u200f\u202a\u202b\u202c"
    "\u202d\u202e\u2060\u2061\u2062\u2063\u2064\u2066\u2067\u2068\u2069\u3164\ufe0e\ufe0f\ufeff\uffa0"
)
_HYPHENATED = re.compile(r"(?<=[^\W\d_])[-\u2010]\n\s*(?=[^\W\d_])")
_SIGNS = re.compile(r"[^\w\s]+")
_WORD = re.compile(r"[^\W_]+")
_FIGURES = re.compile(rf"\d+(?:(?: {BREAK} |[ -])\d+)*")


@lru_cache(maxsize=4096)
def _letter(sign: str) -> str:
    """What one character comes to: nothing for marks and what is not seen."""
    if sign in _JOINERS:
        return ""
    if sign == BREAK:
        return " "
    kept = [each for each in unicodedata.normalize("NFKD", sign) if unicodedata.category(each) != "Mn"]
    return "".join(_one_by_one(str(unicodedata.decimal(each, each))) for each in kept).replace(BREAK, " ")


def _one_by_one(letter: str) -> str:
    """A letter as small letters have it where these are several, so that capitals and small letters are as many."""
    small = letter.casefold()
    return letter if len(small) == 1 else small if letter.islower() else small.upper()


@dataclass(frozen=True, eq=False)
class Plain:
    """A text come to its letters and digits.

    In `cased`, and in `spaced` where capitals are small, words are parted by a blank where a blank parted them, by a hyphen where
    only other signs did; a blank stands at both ends. `at` says where each character stood in the text, where that was asked for.
    """

    cased: str
    at: tuple[int, ...] = field(default=(), repr=False)

    @cached_property
    def spaced(self) -> str:
        """All of it in small letters."""
        return self.cased.casefold()

    @cached_property
    def words(self) -> frozenset[str]:
        """Each word once."""
        return frozenset(self.spaced.replace("-", " ").split())

    @cached_property
    def squeezed(self) -> str:
        """All letters and digits in a row."""
        return squeezed(self.spaced)

    @cached_property
    def figures(self) -> str:
        """The digits alone, a line a row of them that no letter parts."""
        return squeezed("\n".join(_FIGURES.findall(self.spaced)))

    @cached_property
    def tokens(self) -> tuple[tuple[str, int, int], ...]:
        """The words in their order, each with where it begins and ends."""
        return tuple((each[0], *each.span()) for each in _WORD.finditer(self.spaced))

    def is_capital(self, start: int) -> bool:
        """Whether the word that begins there has a capital."""
        return self.cased[start].isupper()


def squeezed(spaced: str) -> str:
    """A spaced text without what parts its words."""
    return spaced.replace(f" {BREAK} ", "").replace(" ", "").replace("-", "").replace(BREAK, "")


def plain(text: str) -> Plain:
    """A text come to its letters and digits; a form feed parts blocks."""
    if not text.isascii():
        text = _come_to_letters(text)
    return Plain(_spaced(text.replace("\f", f" {BREAK} ")))


def _come_to_letters(text: str) -> str:
    signs = [sign for sign in set(text) if sign > "\x7f"]
    if len(signs) > MANY:
        return text.translate({ord(sign): _letter(sign) for sign in signs})
    for sign in signs:  # of few signs each is found faster than all are looked up
        text = text.replace(sign, _letter(sign))
    return text


def _spaced(text: str) -> str:
    if "-\n" in text or "\u2010\n" in text:
        text = _HYPHENATED.sub("", text)
    parted = " ".join(_SIGNS.sub("-", text.replace("_", "-")).split())
    return f" {' '.join(parted.replace('- ', ' ').replace(' -', ' ').split()).strip('-')} "


def placed(text: str) -> Plain:
    """The same as `plain`, with where each character stood."""
    signs: list[str] = []
    at: list[int] = []
    for number, sign in enumerate(text):
        come_to = _letter(sign) if sign > "\x7f" else f" {BREAK} " if sign == "\f" else sign
        signs += come_to
        at += [number] * len(come_to)
    whole = "".join(signs)
    spaced, places = [" "], [0]
    end, joined = 0, {each.span() for each in _HYPHENATED.finditer(whole)}
    for word in _WORD.finditer(whole):
        between = whole[end : word.start()]
        if end and (end, word.start()) not in joined:
            spaced.append(" " if re.search(r"\s", between) else "-")
            places.append(at[end])
        spaced += word[0]
        places += at[word.start() : word.end()]
        end = word.end()
    return Plain("".join((*spaced, " ")), (*places, len(text)))
