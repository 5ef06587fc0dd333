"""How a value that is kept back may be written: numbers, ids, names, sentences, days; each form finds where it stands in a text.

What is short, or ordinary, is let stand: a false alarm would keep a manual from a boat.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import TYPE_CHECKING, Protocol, TypeAlias

from generator.survey.withheld.plain import BREAK, Plain
from generator.survey.withheld.values import standing

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

Span = tuple[int, int]
"""From where to where in a text's `spaced`."""
Ordinary: TypeAlias = Callable[[str], bool]
"""Whether a word is nobody's secret."""

SHORTEST_WORD, SHORTEST_NUMBER = 4, 6
LONG_WORD = 7  # a name this long is a name in small letters too: shorter ones (mark, rose) may be ordinary words there
STRONG = 8  # letters or digits in a row that stand nowhere by chance, however they are parted
TAILS = (8, 7, 6)  # last digits of a telephone number that are told apart from others
APART = 5  # words from one telling word to the next of the same sentence
RUN = 5  # words in a row of one sentence, one of them telling
LONG_RUN = 7  # the same where none is telling
_SEP = rf"(?: {BREAK} |[ -])?"
_NEAR = "[ -]?"


class Form(Protocol):
    """One way of recognising a value."""

    @property
    def strong(self) -> bool:
        """Whether it stands nowhere by chance, so that it is looked for in bytes that are no text as well."""

    def spans(self, text: Plain, ordinary: Ordinary) -> Iterator[Span]:
        """Where it stands in a text."""


def _pattern(letters: str, between: str) -> re.Pattern[str]:
    return re.compile(between.join(map(re.escape, letters)))


@dataclass(frozen=True)
class Number:
    """A number of six digits or more: by its last eight, or by seven or six that stand close together, with or without what is dialled before."""

    digits: str
    strong: bool = True

    @cached_property
    def _national(self) -> str:
        return self.digits.lstrip("0")

    @cached_property
    def _sought(self) -> tuple[str, ...]:
        whole = self._national
        if len(whole) < SHORTEST_NUMBER or len(set(whole)) < 3:
            return (self.digits,)
        tails = [whole[-length:] for length in TAILS] if len(whole) > STRONG else []
        return (whole, *(each for each in tails if len(set(each)) > 2 and not _is_month(each)))

    def spans(self, text: Plain, ordinary: Ordinary) -> Iterator[Span]:
        """Where it stands, as a number of its own: not where it is part of a longer one."""
        del ordinary
        for tail in self._sought:
            if tail in text.figures:
                yield from self._found(tail, text.spaced)

    def _found(self, tail: str, spaced: str) -> Iterator[Span]:
        loose = len(tail) >= STRONG
        for match in _pattern(tail, _SEP if loose else _NEAR).finditer(spaced):
            start, end = match.span()
            while spaced[start - 1].isdigit():
                start -= 1
            before = spaced[start : match.start()]
            if spaced[end].isdigit() or not self._dialled(before, tail):
                continue
            groups = re.split(f"[ -]|{BREAK}", spaced[start:end])
            if BREAK in match[0] and min(map(len, filter(None, groups))) < 3:
                continue
            if loose or (len(groups) <= 3 and min(map(len, groups)) > 1):
                head = self._national[: -len(tail)].removesuffix(before.lstrip("0"))
                yield self._with_what_is_dialled(spaced, start, head), end

    def _dialled(self, before: str, tail: str) -> bool:
        """Whether the digits right before the last ones are those of the number, or what is dialled before it."""
        if len(set(self._national)) < 3:
            return not before
        head, said = self._national[: -len(tail)], before.lstrip("0")
        if not said or head.endswith(said):
            return len(before) - len(said) <= 2
        country = before.removesuffix(head)
        return before.endswith(head) and len(country.removeprefix("00")) <= 3

    def _with_what_is_dialled(self, spaced: str, start: int, left: str) -> int:
        """Where the number begins, with the groups before its last digits that are its own or the trunk's noughts."""
        while (group := re.search(r"(\d+)[ -]$", spaced[max(0, start - 12) : start])) is not None:
            said = group[1].lstrip("0")
            if not left.endswith(said) or (not said and not left):
                break
            left = left.removesuffix(said)
            start -= len(group[0])
        return start


def _is_month(digits: str) -> bool:
    return len(digits) == 6 and digits[:2] in ("19", "20") and "01" <= digits[4:] <= "12"


@dataclass(frozen=True)
class Id:
    """Letters and digits mixed: a serial, a beacon's id. `words` are those it was written in."""

    words: tuple[str, ...]

    @property
    def strong(self) -> bool:
        """Whether it is long enough to stand nowhere by chance."""
        return len(self._whole) >= STRONG

    @cached_property
    def _whole(self) -> str:
        return "".join(self.words)

    def spans(self, text: Plain, ordinary: Ordinary) -> Iterator[Span]:
        """Where it stands; in other groups than its own only where it holds enough that is no ordinary word."""
        whole = self._whole
        if whole not in text.squeezed:
            return
        core = "".join(word for word in self.words if word.isdigit() or not ordinary(word))
        free = len(core) >= SHORTEST_NUMBER and len(set(core)) > 2
        anywhere = len(core) > STRONG and len(set(core)) > 3
        for match in _pattern(whole, _SEP if free else _NEAR).finditer(text.spaced):
            start, end = match.span()
            if not anywhere and (
                _goes_on(text.spaced, start - 1, start) or _goes_on(text.spaced, end - 1, end)
            ):
                continue
            groups = tuple(re.split("[ -]", match[0])) if not free else self.words
            as_written = groups == self.words and len(core) >= SHORTEST_WORD
            if free or " " not in match[0] or as_written:
                yield start, end


def _goes_on(spaced: str, left: int, right: int) -> bool:
    """Whether a word of one kind of sign goes on between two neighbours."""
    one, other = spaced[left], spaced[right]
    return one.isalnum() and other.isalnum() and one.isdigit() == other.isdigit()


@dataclass(frozen=True)
class Words:
    """A value of letters as a whole: a name, one word, a sentence; letter by letter, in any groups."""

    words: tuple[str, ...]
    name: bool = False

    @property
    def strong(self) -> bool:
        """Whether it is long enough to stand nowhere by chance."""
        return len(self._whole) >= STRONG

    @cached_property
    def _whole(self) -> str:
        return "".join(self.words)

    def spans(self, text: Plain, ordinary: Ordinary) -> Iterator[Span]:
        """Where all of it stands, unless it is made of ordinary words alone."""
        whole = self._whole
        if len(whole) < SHORTEST_WORD or whole not in text.squeezed or self._nobodys(ordinary):
            return
        for match in _pattern(whole, _SEP).finditer(text.spaced):
            start, end = match.span()
            if text.spaced[start - 1].isalnum() or text.spaced[end].isalnum():
                continue
            groups = re.split(f"[ -]|{BREAK}", match[0])
            own = tuple(filter(None, groups)) == self.words
            tight = " " not in match[0] or max(map(len, groups)) == 1
            if own or tight or (len(whole) >= STRONG and BREAK not in match[0]):
                yield start, end

    def _nobodys(self, ordinary: Ordinary) -> bool:
        if self.name and len(self.words) > 1:
            return _is_ours(self.words)
        return len(self.words) < LONG_RUN and all(len(word) < 3 or ordinary(word) for word in self.words)


def _is_ours(words: Iterable[str]) -> bool:
    """Whether the program's own text has these words in a row."""
    return f" {' '.join(words)} " in standing().spaced


@dataclass(frozen=True)
class NameWords:
    """The words of a person's name, each by itself, in groups too, and all of them in another order."""

    words: tuple[str, ...]

    @property
    def strong(self) -> bool:
        """They are short: in bytes that are no text they may stand by chance."""
        return False

    def spans(self, text: Plain, ordinary: Ordinary) -> Iterator[Span]:
        """Where one of them stands that is no ordinary word, or all of them side by side."""
        for word in self.words:
            if len(word) > SHORTEST_WORD:
                grouped = Words((word,)).spans(text, ordinary)
                yield from ((start, end) for start, end in grouped if end - start > len(word))
        there = [word for word in self.words if word in text.words]
        if not there:
            return
        telling = {word for word in there if len(word) >= SHORTEST_WORD and not ordinary(word)}
        if telling:
            for word, start, end in text.tokens:
                if word in telling and (len(word) >= LONG_WORD or text.is_capital(start)):
                    yield start, end
        if len(self.words) > 1 and len(set(there)) == len(set(self.words)) and not all(map(ordinary, there)):
            yield from _side_by_side(text, frozenset(there))


def _side_by_side(text: Plain, words: frozenset[str]) -> Iterator[Span]:
    tokens = text.tokens
    for number, (word, start, _) in enumerate(tokens):
        if word in words:
            group = tokens[number : number + len(words)]
            if {each for each, _, _ in group} == words:
                yield start, group[-1][2]


@dataclass(frozen=True)
class Sentence:
    """Words of a sentence: some in a row, two telling ones near each other, one that names an illness or its remedy."""

    words: tuple[str, ...]

    @property
    def strong(self) -> bool:
        """Its words are short: in bytes that are no text they may stand by chance."""
        return False

    def spans(self, text: Plain, ordinary: Ordinary) -> Iterator[Span]:
        """Where enough of it stands to tell what it says."""
        there = {word for word in self.words if word in text.words}
        telling = {
            word for word in there if len(word) >= SHORTEST_WORD and not word.isdigit() and not ordinary(word)
        }
        if not telling and len(there) < LONG_RUN:
            return
        tokens = text.tokens
        places = [number for number, (word, _, _) in enumerate(tokens) if word in telling]
        for number in places:
            if _ILLNESS.search(tokens[number][0]):
                yield tokens[number][1], tokens[number][2]
        for one, other in pairwise(places):
            if other - one <= APART and self._in_order(tokens[one][0], tokens[other][0]):
                yield tokens[one][1], tokens[other][2]
        starts = [number for number, (word, _, _) in enumerate(tokens) if word in there]
        for first, last in {self._run(tokens, number) for number in starts}:
            long = last - first + 1
            said = (word for word, _, _ in tokens[first : last + 1])
            if long >= (RUN if telling else LONG_RUN) and not _is_ours(said):
                yield tokens[first][1], tokens[last][2]

    def _in_order(self, one: str, other: str) -> bool:
        """Whether a word stands before another in the sentence too, not far from it."""
        return any(
            other in self.words[at + 1 : at + 1 + APART] for at, word in enumerate(self.words) if word == one
        )

    def _run(self, tokens: tuple[tuple[str, int, int], ...], number: int) -> tuple[int, int]:
        """The longest row of words round one of them that stands so in the sentence."""
        best = (number, number)
        for at, word in enumerate(self.words):
            if word != tokens[number][0]:
                continue
            first, last = number, number
            while (
                at + first - number > 0
                and first > 0
                and tokens[first - 1][0] == self.words[at + first - number - 1]
            ):
                first -= 1
            while (
                at + last - number + 1 < len(self.words)
                and last + 1 < len(tokens)
                and tokens[last + 1][0] == self.words[at + last - number + 1]
            ):
                last += 1
            if last - first > best[1] - best[0]:
                best = first, last
        return best


@dataclass(frozen=True)
class Day:
    """A day, in figures or with its month in words, in any of the usual orders."""

    year: int
    month: int
    day: int
    months: tuple[str, ...]
    strong: bool = False

    @cached_property
    def _written(self) -> tuple[re.Pattern[str], ...]:
        year, short = f"{self.year:04}", f"{self.year % 100:02}"
        day, month = f"0?{self.day}", f"0?{self.month}"
        words = "|".join({each for name in self.months for each in (name, name[:3])})
        sep, th = "(?:[ -])", "(?:st|nd|rd|th)?"
        figures = (f"{year}{sep}?{self.month:02}{sep}?{self.day:02}", f"{self.day:02}{sep}?{self.month:02}{sep}?{year}",
                   f"{day}{sep}{month}{sep}(?:{year}|{short})", f"{month}{sep}{day}{sep}(?:{year}|{short})",
                   f"{self.month:02}{sep}?{self.day:02}{sep}?{year}")  # fmt: skip
        worded = (f"{day}{th}{sep}?(?:of{sep})?(?:{words}){sep}?(?:{year}|{short})", f"(?:{words}){sep}?{day}{th}{sep}?{year}",
                  f"{year}{sep}?(?:{words}){sep}?{day}")  # fmt: skip
        return tuple(re.compile(rf"(?<![^\W_]){each}(?![^\W_])") for each in (*figures, *worded))

    def spans(self, text: Plain, ordinary: Ordinary) -> Iterator[Span]:
        """Where it stands."""
        del ordinary
        if f"{self.year % 100:02}" not in text.squeezed:
            return
        for each in self._written:
            for match in each.finditer(text.spaced):
                yield match.span()


# Illnesses, remedies and what goes with them, by the stems that most European languages share.
_ILLNESS = re.compile(
    "diabet|insulin|asthm|inhal|epilep|seizur|convuls|allerg|anaphyl|adrenalin|epinephrin|penicillin|cillin|mycin|cyclin"
    "|statin$|sartan|olol$|azole$|warfarin|coagul|heparin|aspirin|ibuprofen|paracetamol|codein|morphin|opioid|methadon|pacemaker"
    "|stent$|angina|cardi|infarct|arrhythm|fibrill|hypert|thromb|h[a]?emo(?:ph|gl|di)|an[a]?emi|leuk|cancer|carcino"
    "|tumou?r|oncolog|chemoth|hepatit|tubercul|pregnan|miscarr|schizo|bipolar|psych|depressi|suicid|alcoholi|addict|narcolep"
    "|migr[ae]in|glaucom|dialys|nephr|crohn|colitis|itis$|osis$|opath|algia$|ectomy$|steroid|cortiso|thyro|prosthe|amput|dementi"
    "|alzheim|parkins|scleros|dyslex|autis|claustroph|vertigo|lupus|copd$|hiv$|celiac|coeliac|gluten|lactose|hernia|ulcer"
)
