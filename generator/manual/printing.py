"""Printing: the one place where a value becomes text, in a language and for a reader; a gap in the language is told first."""

from __future__ import annotations

import functools
import re
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Protocol, TypeAlias

from generator.reading.block import Block
from generator.reading.fields import Choice, Field, Text, Texts
from generator.reading.values import PRIVATE, UNKNOWN, UNREAD, Band, NotKnown, Quantity, Stamp
from generator.shelves.languages import Catalogue, catalogue
from generator.shelves.words import FIRST_LANGUAGE
from generator.vessel.fittings import Located

if TYPE_CHECKING:
    from collections.abc import Sequence

    Printable: TypeAlias = "str | float | date | Stamp | Band | NotKnown | Phrase | Sequence[str] | None"

FEET_M, POUNDS_KG = 0.3048, 0.45359237
_SIDES = ("port", "starboard")
_SAID_BY_LABEL: dict[bool | NotKnown, str] = {
    True: "yes-word",
    False: "no-word",
    UNKNOWN: "not-known",
    UNREAD: "not-known",
    PRIVATE: "contact.private",
}


@dataclass(frozen=True)
class Phrase:
    """What the program itself calls a thing: a label, and what fills its slots. The boat's own words are plain text."""

    label: str
    words: tuple[tuple[str, Name], ...] = ()

    def __str__(self) -> str:
        """In the first language, as findings and whoever keeps the file name it."""
        return _in_first_language(self)


@functools.lru_cache(maxsize=4096)
def _in_first_language(phrase: Phrase) -> str:
    return first_printer().named(phrase)


Name = str | Phrase
"""A name of a thing: the boat's own words, or the program's."""


class Situated(Protocol):
    """What lies in a space of the vessel, on a side."""

    @property
    def where(self) -> str | NotKnown | None:
        """The space."""

    @property
    def side(self) -> str | NotKnown | None:
        """port, starboard or centre."""


class Dated(Protocol):
    """A thing that is good until some day, what of it is looked at, and who says how long it lasts."""

    @property
    def called(self) -> Name:
        """The thing."""

    @property
    def lines(self) -> tuple[Phrase, ...]:
        """What of it; none where it is the whole thing."""

    @property
    def said_by(self) -> str:
        """Who says so."""

    @property
    def standing(self) -> str:
        """How far that was verified."""


@dataclass(frozen=True)
class Printer:
    """Prints values in the language of `catalogue` for `reader`, who is shown nothing that is not meant for him."""

    catalogue: Catalogue
    reader: str = "crew"

    @property
    def language(self) -> str:
        """The code of its language."""
        return self.catalogue.language

    def say(self, label: str, **words: Printable) -> str:
        """A label with its slots filled in."""
        return self.catalogue.say(label, **{name: self.text(word) for name, word in words.items()})

    def named(self, name: Name) -> str:
        """A name: the boat's own as she writes it, the program's in the language."""
        if isinstance(name, Phrase):
            return self.catalogue.say(name.label, **{key: self.named(word) for key, word in name.words})
        return str(name)

    def text(self, value: object) -> str:
        """A value as it is read: quantities with the other unit, dates with the month in words; absent is "".

        Templates, which know no types, hand it whatever they hold; a function is a slip of theirs, a TypeError.
        """
        if type(value) is str:
            return value
        if callable(value):
            raise TypeError(f"{value!r} is to be printed, which is no value of a vessel")
        if value is None:
            words = ""
        elif isinstance(value, (bool, NotKnown)):
            words = self.catalogue.say(_SAID_BY_LABEL[value])
        elif isinstance(value, (Stamp, date)):
            words = self.day(value)
        elif isinstance(value, Quantity):
            words = self.quantity(value)
        elif isinstance(value, Phrase):
            words = self.named(value)
        elif isinstance(value, Located):
            words = self.fitting(value)
        elif isinstance(value, (list, tuple)) and not isinstance(value, Band):
            words = self._listed(value)
        else:
            words = str(value)
        return words

    def _listed(self, values: Sequence[object]) -> str:
        """Values one after the other; three lengths are the size of a box."""
        if values and all(isinstance(each, float) for each in values):
            return " × ".join(f"{each:.2f}" for each in values) + " m"
        return ", ".join(self.text(each) for each in values)

    def quantity(self, quantity: Quantity) -> str:
        """A quantity as written and, for lengths from 1 m and masses from 1 kg, in the other unit too."""
        value = float(quantity)
        feet = value / FEET_M
        other = {
            "m": f"{feet:.1f} ft" if value < 10 else f"{feet:.0f} ft",
            "ft": f"{value:.1f} m",
            "kg": f"{value / POUNDS_KG:.0f} lb",
            "t": f"{value / POUNDS_KG:.0f} lb",
            "lb": f"{value:.0f} kg",
        }.get(quantity.unit)
        return f"{quantity.written} ({other})" if other and quantity >= 1 else quantity.written

    def day(self, when: Stamp | date) -> str:
        """A date with its month in words; a Stamp to the month or year is printed as far as it goes."""
        months = self.catalogue.months
        if isinstance(when, Stamp) and when.year_alone:
            return str(when.year)
        if when.day is None:
            return f"{months[when.month - 1]} {when.year}"
        return f"{when.day} {months[when.month - 1]} {when.year}"

    def bare(self, block: Block, name: str) -> str:
        """The value of an attribute of a block; a word that the program offers there is printed in the language."""
        field_of = type(block).fields[name.rstrip("_").replace("_", "-")]
        if not block.readable(field_of, self.reader):
            return ""
        value = getattr(block, name)
        if block.says_none(field_of.key):
            return self.catalogue.say("none-word")
        if isinstance(value, (list, tuple)) and isinstance(field_of, Texts) and field_of.choices:
            return ", ".join(self.choice(field_of.key, str(each)) for each in value)
        if isinstance(value, str) and _is_offered(field_of, value, self.catalogue):
            return self.choice(field_of.key, value)
        return self.text(value)

    def value(self, block: Block, name: str) -> str:
        """The same, and whether it is merely assumed."""
        words = self.bare(block, name)
        assumed = words and block.basis(name.rstrip("_").replace("_", "-")) == "assumed"
        return f"{words} ({self.catalogue.say('assumed')})" if assumed else words

    def choice(self, key: str, word: str) -> str:
        """A word that the program offers under `key` of a vessel file."""
        return self.catalogue.say(f"choices.{key}.{word}")

    def in_step(self, block: Block, name: str) -> str:
        """A value inside a sentence: quantities as written, in one unit."""
        value = getattr(block, name)
        return str(value) if isinstance(value, (Quantity, Band)) else self.bare(block, name)

    def without_article(self, name: str) -> str:
        """A name as it follows the article of a step: "my handheld" as "handheld"."""
        first, _, rest = name.partition(" ")
        begins = _words_of(f"{self.say('fitting.articles')} {self.say('fitting.whose')}")
        return rest if rest and first.lower() in begins else name

    def whereabouts(self, thing: Situated, exactly: bool = True) -> str:
        """Space, side and, if `exactly` is asked for, spot of a thing; what space or spot say already is not said twice."""
        where = self.text(thing.where)
        spot = str(getattr(thing, "spot", None) or "") if exactly else ""
        side = self.choice("side", thing.side) if isinstance(thing.side, str) and thing.side in _SIDES else ""
        if side and (str(thing.side) in where or side in where or _by_itself(side, spot)):
            side = ""
        if where and self._within(where, spot):
            return ", ".join(part for part in (spot, side) if part)
        return ", ".join(part for part in (where, side, spot) if part)

    def _within(self, where: str, spot: str) -> bool:
        """Whether a spot names the space itself: under the chart table; not beside the cockpit locker, of what is in the cockpit."""
        if where.lower() not in spot.lower():
            return False
        before = "|".join(_words_of(self.say("fitting.within")))
        articles = "|".join(_words_of(self.say("fitting.articles")))
        named = rf"\b(?:{before}) (?:(?:{articles}) )?{re.escape(where.lower())}(?=$|[,;])"
        return re.search(named, spot.lower()) is not None

    def fitting(self, thing: Located) -> str:
        """A part of the boat with its place, or the place alone of what the sentence names itself."""
        place, what = self.whereabouts(thing), getattr(thing, "what", None)
        if not isinstance(what, str) or not place:
            return what if isinstance(what, str) else place
        begins = _words_of(f"{self.say('fitting.articles')} {self.say('fitting.counted')}")
        article = what.partition(" ")[0].lower() in begins
        return self.say("fitting.told" if article else "fitting.bare", what=what, place=place)

    def dated(self, thing: Dated) -> str:
        """A dated thing and what of it."""
        return ", ".join(part for part in (self.named(thing.called), self.lines(thing)) if part)

    def lines(self, thing: Dated) -> str:
        """What of a dated thing is looked at; "" where it is the whole thing."""
        return ", ".join(map(self.named, thing.lines))

    def source_of(self, thing: Dated) -> str:
        """Who says how long a dated thing lasts, and how far that was verified; "" where its date is marked."""
        standing = self.say(f"lives.standings.{thing.standing}") if thing.standing else ""
        return "; ".join(part for part in (thing.said_by, standing) if part)

    def crew(self, raft: str, crew: str) -> str:
        """Who goes into a raft, as a sentence that begins with it."""
        return self.say("row.crew", raft=f"{raft[:1].upper()}{raft[1:]}", crew=crew)

    def spare(self, raft: str) -> str:
        """That nobody goes into a raft, as a sentence that begins with it."""
        return self.say("row.spare", raft=f"{raft[:1].upper()}{raft[1:]}")

    def in_a_row(self, names: list[str]) -> str:
        """Names one after the other as a sentence says them: "the liferaft and the second raft"."""
        said = self.say("row.one", name=names[0])
        for name in names[1:]:
            said = self.say("row.more", before=said, name=name)
        return said


def _by_itself(side: str, spot: str) -> bool:
    """Whether a spot names a side by itself: under the bunk, starboard; not in the port bunk."""
    return side in spot.lower() and _ending(side).search(spot.lower()) is not None


@functools.cache
def _ending(side: str) -> re.Pattern[str]:
    """What finds a side that stands by itself."""
    return re.compile(rf"(?:^|, ){re.escape(side)}(?=$|[,;])")


@functools.cache
def _words_of(said: str) -> tuple[str, ...]:
    """The words of a label that lists some."""
    return tuple(re.findall(r"\w+", said))


def _is_offered(of: Field[object], word: str, words: Catalogue) -> bool:
    """Whether a word is one that the program offers there, not the boat's own."""
    if isinstance(of, Choice):
        return True
    return isinstance(of, Text) and word in of.answers and f"choices.{of.key}.{word}" in words.labels


@functools.cache
def first_printer() -> Printer:
    """The printer of the first language, in which findings and lists for whoever keeps the file are written."""
    return Printer(catalogue(FIRST_LANGUAGE))
