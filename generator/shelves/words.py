"""The words of a language as blocks: labels, the words the program offers, spaces, lives, rule sets, steps, spelling."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from generator.reading.block import Block, Fault
from generator.reading.fields import Count, Misread, Named, One, Single, Texts
from generator.reading.nearest import shortened
from generator.shelves.shelf import Shelf, miscounted

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from generator.reading.findings import Finding
    from generator.shelves.shelf import File

FIRST_LANGUAGE = "en"
_LETTERS, _FIGURES = "abcdefghijklmnopqrstuvwxyz", "0123456789"
SLOT = re.compile(r"\{([a-z0-9][a-z0-9 -]*)\}")


def slots(text: str) -> list[str]:
    """The slots of a text, {boat} in "Emergency manual of {boat}", in their order."""
    return SLOT.findall(text)


class Said(Single[str]):
    """A text as it is printed, with {slots} for what the program fills in."""

    kind = "text"
    usual = "words as they are printed"

    def read(self, text: str) -> str:
        """The text; refuses braces that are no slot."""
        if len(re.findall(r"[{}]", text)) != 2 * len(slots(text)):
            raise Misread(
                f"'{shortened(text)}' has braces that are no slot",
                "write a slot in small letters, without blanks at its ends: {boat}",
            )
        return text


class Words(Block):
    """A file of words. Only the first language tallies its own; the others are compared with it, text by text."""

    tally = Named(
        Count("How often does each key that may be left out stand in this file?", high=10_000),
        "How many entries and optional keys has this file?",
    )


class Labels(Words):
    """The labels, each under the key by which templates ask for it."""

    months = Texts("What are the months called, in a row?", of=Said("Which?"), required=True)
    texts = Named(Said("What is printed?"), "What is printed for each key?", required=True)

    def faults(self) -> Iterator[Fault]:
        """A year has twelve months."""
        if self.months and len(self.months) != 12:
            yield Fault("months", f"{len(self.months)} months are named", "name all twelve, in their order")


class Choices(Words):
    """The words that the program offers under the keys of a vessel file."""

    texts = Named(
        Named(Said("What is printed?"), "What is printed for each word?"),
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

    letters = Named(Said("What is spoken?"), "What is spoken for each letter?", required=True)
    figures = Named(Said("What is spoken?"), "What is spoken for each figure?", required=True)
    doubled = Named(Said("Which letters?"), "Which letters stand for one that has no word?")
    space = Said("What is spoken for a space?", required=True)
    hyphen = Said("What is spoken for a hyphen?", required=True)
    stop = Said("What is spoken for a full stop?", required=True)

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
    duties = Named(Said("What is it?"), "What is each duty?")
    steps = Named(StepWords, "What does each step say?", required=True)


def _tallied(files: Sequence[File[Words]]) -> Iterator[Finding]:
    """What the files of the first language have more or less of than they say."""
    for file in files:
        if file.path.startswith(f"text/{FIRST_LANGUAGE}/"):
            yield from miscounted(file.block, file.block.tally, file.told)


def shelves_of(language: str) -> tuple[Shelf[Any], ...]:
    """The shelves of the words of one language."""

    def one(name: str, files: str, kind: type[Words], about: str) -> Shelf[Any]:
        return Shelf(
            name,
            f"text/{language}/{files}",
            kind,
            f"{about} in a language.",
            holds_together=_tallied,
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
        one("words of steps", "procedures/**/*.yaml", ProcedureWords, "The words of steps"),
    )


WORDS = shelves_of(FIRST_LANGUAGE)
