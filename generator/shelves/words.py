"""The words of a language as blocks: labels, the words the program offers, spaces, lives, rule sets, steps, spelling, trade."""

from __future__ import annotations

import functools
import re
from typing import TYPE_CHECKING, Any, Unpack

from generator.reading.answers import may_be_label, says_nothing
from generator.reading.block import Block, Fault
from generator.reading.fields import Misread, Named, One, Options, Single, Texts
from generator.reading.findings import Finding, Weight
from generator.reading.measures import Count
from generator.reading.nearest import shortened
from generator.reading.values import Keyed, given
from generator.shelves.rows import contradiction
from generator.shelves.shelf import Shelf, miscounted
from generator.shelves.spotting import Spotter

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from generator.reading.findings import Place
    from generator.shelves.shelf import File

FIRST_LANGUAGE = "en"
LONGEST_EXPLANATION = 160
"""Letters: what is read in one breath, and takes two lines of a card at most; a test holds the first language to fewer."""
_LETTERS, _FIGURES = "abcdefghijklmnopqrstuvwxyz", "0123456789"
SLOT = re.compile(r"\{([a-z0-9][a-z0-9 -]*)\}")
BRACE = re.compile(r"[{}]")


def slots(text: str) -> list[str]:
    """The slots of a text, {boat} in "Emergency manual of {boat}", in their order."""
    return SLOT.findall(text)


class Said(Single[str]):
    """A text as it is printed, with {slots} for what the program fills in.

    Words such as unknown or yes, which elsewhere are no text, are one where `answers` names the keys that they stand under.
    """

    kind = "text"
    usual = "words as they are printed"

    def __init__(self, question: str, *, answers: Sequence[str] = (), **options: Unpack[Options]):
        super().__init__(question, **options)
        self.answers = tuple(answers)

    def read(self, text: str) -> str:
        """The text; refuses braces that are no slot, and words that say nothing."""
        if len(BRACE.findall(text)) != 2 * len(slots(text)):
            raise Misread(
                f"'{shortened(text)}' has braces that are no slot",
                "write a slot in small letters, without blanks at its ends: {boat}",
            )
        if not self.answers and says_nothing(text):
            raise Misread(_no_text(text), _IN_WORDS)
        return text


class Spoken(Said):
    """A text that is spoken or printed as it stands."""

    def read(self, text: str) -> str:
        """The text; refuses slots, for nothing fills them."""
        if slots(text):
            raise Misread(f"'{shortened(text)}' has a slot, and nothing fills it", "write the words alone")
        return super().read(text)


_IN_WORDS = "write the words that are to be printed"


def _no_text(text: str) -> str:
    return f"'{text}' would be printed as it stands, and says nothing"


class Words(Block):
    """A file of words. Only the first language tallies its own; the others are compared with it, text by text."""

    tally = Named(
        Count("How often does each key that may be left out stand in this file?", high=10_000),
        "How many entries and optional keys has this file?",
    )


class Labels(Words):
    """The labels, each under the key by which templates ask for it."""

    months = Texts("What are the months called, in a row?", of=Spoken("Which?"), required=True)
    texts = Named(
        Said(
            "What is printed?",
            answers=("none", "not-known", "yes-word", "no-word", "none-word", "thing.unnamed"),
        ),
        "What is printed for each key?",
        required=True,
    )

    def faults(self) -> Iterator[Fault]:
        """A year has twelve months."""
        if self.months and len(self.months) != 12:
            yield Fault("months", f"{len(self.months)} months are named", "name all twelve, in their order")


class Choices(Words):
    """The words that the program offers under the keys of a vessel file."""

    texts = Named(
        Named(
            Said("What is printed?", answers=("none", "nothing", "private")), "What is printed for each word?"
        ),
        "What is printed for each word of each key?",
        required=True,
    )


class Spaces(Words):
    """The names of the spaces of all presets."""

    texts = Named(Said("What is it called?"), "What is each space called?", required=True)


class Counted(Block):
    """How a day is named that is counted from a date."""

    month = Said("What is said of a month?", required=True)
    months = Said("What is said of months?", required=True)
    years = Said("What is said of years?", required=True)
    interval = Said("What is said of the interval of a thing's own service?", required=True)


class LivesWords(Words):
    """How the dates and lives of things are named."""

    dates = Named(Said("What is printed?"), "What is each date called?", required=True)
    counted = One(Counted, "How is a day named that is counted from a date?", required=True)
    usual = Said("What is a usual life called?", required=True)
    lines = Named(Said("What is printed?"), "What is each thing called that is looked at?", required=True)
    standings = Named(Said("What is printed?"), "How far was a life verified?", required=True)


class RuleSetWords(Words):
    """What rule sets ask for, their notes and what they mean by length."""

    items = Named(Said("What is printed?"), "What is each thing called that is asked for?", required=True)
    notes = Named(Said("What is printed?"), "What does each note say?", required=True)
    lengths = Named(Said("What is printed?"), "Which length is meant?", required=True)


class Spelling(Words):
    """How letters and figures are spoken, one by one."""

    letters = Named(Spoken("What is spoken?"), "What is spoken for each letter?", required=True)
    figures = Named(Spoken("What is spoken?"), "What is spoken for each figure?", required=True)
    doubled = Named(Spoken("Which letters?"), "Which letters stand for one that has no word?")
    space = Spoken("What is spoken for a space?", required=True)
    hyphen = Spoken("What is spoken for a hyphen?", required=True)
    stop = Spoken("What is spoken for a full stop?", required=True)

    def faults(self) -> Iterator[Fault]:
        """Every letter and figure is spoken, and nothing else; what stands for other letters is none of these, and spoken so."""
        for key, spoken, wanted in (("letters", self.letters, _LETTERS), ("figures", self.figures, _FIGURES)):
            if "".join(sorted(spoken)) != wanted:
                odd = ", ".join(sorted(set(spoken) ^ set(wanted)))
                yield Fault(key, f"missing or too much: {odd}", f"write each of {wanted} once")
        for letter, others in self.doubled.items():
            if len(letter) != 1 or letter in _LETTERS + _FIGURES:
                yield Fault(
                    "doubled", f"'{letter}' is no letter without a word", "write such a letter: letters"
                )
            if not set(others) <= set(_LETTERS):
                yield Fault("doubled", f"'{others}' is not spoken", f"write some of {_LETTERS}")


class StepWords(Block):
    """The words of a step."""

    do = Said("What is to be done?", required=True)
    unless = Said("When not?")
    caution = Said("What is to be feared?")
    why = Said("Why?")

    @property
    def texts(self) -> dict[str, str]:
        """What it says, by key, in the order of the keys."""
        return {name: str(text) for name in type(self).fields if (text := getattr(self, name))}


class ProcedureWords(Words):
    """The words of a file of procedures: of a procedure, or of steps that add to one."""

    title = Said("What is it called?")
    intro = Said("When does it apply?")
    intros = Named(Said("When does it apply?"), "What does each other introduction say?")
    leaves = Named(
        Said("When is it left for another procedure?"), "What does each line say on which it is left?"
    )
    end = Said("When is it over?")
    ends = Named(Said("When is it over?"), "What does each other end say?")
    duties = Named(Said("What is it?"), "What is each duty?")
    steps = Named(StepWords, "What does each step say?")


class Explanation(Block):
    """How a word of the trade may stand in a text, and what it means."""

    listed = Spoken("Under what is it listed?", required=True)
    forms = Texts("How may it stand in a text?", of=Spoken("Which form?"), required=True)
    means = Spoken("What does it mean, in one short sentence without another such word?", required=True)
    others = Named(Spoken("What does it mean there?"), "What does it mean on other boats, by their names?")

    @property
    def meanings(self) -> Iterator[str]:
        """What is said of it, on whatever boat."""
        yield from (given(self.means, ""), *map(str, self.others.values()))

    def faults(self) -> Iterator[Fault]:
        """An explanation is one sentence and short."""
        for said in filter(None, self.meanings):
            if len(said) > LONGEST_EXPLANATION or not said.endswith(".") or ". " in said:
                yield Fault(
                    "means" if said == self.means else "others",
                    f"'{shortened(said)}' is no short sentence",
                    f"write one sentence of {LONGEST_EXPLANATION} letters at most, with its stop",
                )


class TradeWords(Words):
    """The words of the trade, explained."""

    otherwise = Texts("Where do words stand and mean another thing?", of=Spoken("Where?"), required=True)
    words = Named(Explanation, "What does each word mean?", required=True)

    @functools.cached_property
    def spotter(self) -> Spotter:
        """Finds the words in what is printed."""
        return Spotter({name: each.forms for name, each in self.words.items()}, self.otherwise)

    def contradictions(self) -> Iterator[Finding]:
        """Two words of one form; an explanation that takes another word to understand."""
        named: dict[str, str] = {}
        for name, each in self.words.items():
            for form in each.forms:
                other = named.setdefault(form.lower(), name)
                if other != name:
                    yield contradiction(
                        self.words.places[name],
                        f"'{form}' is a form of '{other}' too",
                        "leave it to the one that it means",
                        self.words.places[other],
                    )
            for said in each.meanings:
                for other in sorted(self.spotter.found_in(said) - {name}):
                    yield contradiction(
                        self.words.places[name],
                        f"'{shortened(said)}' takes the word '{other}' to understand",
                        "say it in words that everybody knows",
                    )


def _hold_together(files: Sequence[File[Words]]) -> Iterator[Finding]:
    """What the files of the first language have more or less of than they say; texts that say nothing; two of one name."""
    first: dict[str, Words] = {}
    for file in files:
        if isinstance(file.block, TradeWords):
            yield from file.block.contradictions()
        if file.path.startswith(f"text/{FIRST_LANGUAGE}/"):
            yield from miscounted(file.block, file.block.tally, file.told)
        for field in type(file.block).fields.values():
            if isinstance(field, Named):
                yield from _saying_nothing(field, file.block.__dict__.get(field.name, Keyed()))
        other = first.setdefault(file.stem, file.block)
        if other is not file.block:
            yield Finding(
                "file.bad-value",
                Weight.DEFECT,
                f"there are two files for '{file.stem}', {other.place().file} the other",
                file.block.place(),
                "keep the one that is true: words are looked up by the name of their file",
                also=(other.place(),),
            )


def _saying_nothing(field: Named[Any], texts: Keyed[Any]) -> Iterator[Finding]:
    """The texts that are such words as unknown or yes, under keys that `answers` does not name."""
    for key, text in texts.items():
        if isinstance(field.inner, Named):
            yield from _saying_nothing(field.inner, text)
        elif isinstance(field.inner, Said) and says_nothing(text):
            if key in field.inner.answers and may_be_label(text):
                continue
            place: Place = texts.places[key]
            yield Finding("file.bad-value", Weight.DEFECT, _no_text(text), place, _IN_WORDS)


@functools.cache
def shelves_of(language: str) -> tuple[Shelf[Any], ...]:
    """The shelves of the words of one language."""

    def one(name: str, files: str, kind: type[Words], about: str) -> Shelf[Any]:
        return Shelf(
            name,
            f"text/{language}/{files}",
            kind,
            f"{about} in a language.",
            holds_together=_hold_together,
            schema_in="text",
            complete=False,
        )

    return (
        one("labels", "labels.yaml", Labels, "The labels of the manual"),
        one("choices", "choices.yaml", Choices, "The words of a vessel file, as printed"),
        one("names of spaces", "spaces.yaml", Spaces, "The names of the presets' spaces"),
        one("words of lives", "lives.yaml", LivesWords, "How dates and lives are named"),
        one("words of rule sets", "rule-sets.yaml", RuleSetWords, "What rule sets ask for"),
        one("spelling", "spelling.yaml", Spelling, "The spelling alphabet"),
        one("explanations", "trade.yaml", TradeWords, "What the words of the trade mean"),
        one("words of steps", "procedures/**/*.yaml", ProcedureWords, "The words of steps"),
    )


WORDS = shelves_of(FIRST_LANGUAGE)
