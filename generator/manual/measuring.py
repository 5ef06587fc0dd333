"""How long a step is: what stands in brackets, or behind a colon or semicolon, is taken in by itself, and a place that the program says is one word."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

from generator.manual.printed import Printed
from generator.manual.printing import Printer, Situated
from generator.manual.said import Missing, Several, Word
from generator.reading.block import Block
from generator.reading.findings import Finding, Place, Weight
from generator.reading.nodes import Mapping
from generator.shelves.languages import fill
from generator.shelves.words import slots
from generator.vessel.fittings import Located

if TYPE_CHECKING:
    from collections import abc
    from collections.abc import Iterator

MOST_WORDS = 20
"""What can be taken in at one reading: the limit of an instruction in simplified technical English."""
_BRACKETS = re.compile(r"\s*\(([^()]*)\)")
_STOPS = re.compile(r"[:;]\s")
_HERE = "here"
_LIST = "carries"
"""The key of who goes into a raft: a list of any length, which everybody reads for his own name alone; it counts as one word."""


class Measuring(Printer):
    """Prints a place as it counts: space and side, which the reader knows by the plan, as one word, and the spot."""

    def whereabouts(self, thing: Situated, exactly: bool = True) -> str:
        """One word for space and side, and the spot if that is asked for."""
        if not super().whereabouts(thing, exactly=False):
            return super().whereabouts(thing, exactly)
        spot = getattr(thing, "spot", None) if exactly else None
        return f"{_HERE} {spot}" if spot else _HERE


def pieces(text: str) -> tuple[str, ...]:
    """The parts of a step that are taken in one after the other."""
    inside = _BRACKETS.findall(text)
    parts = (part for chunk in (_BRACKETS.sub("", text), *inside) for part in _STOPS.split(chunk))
    return tuple(part.strip() for part in parts if part.strip())


def long_pieces(text: str) -> Iterator[str]:
    """Those of more than MOST_WORDS words."""
    return (piece for piece in pieces(text) if len(piece.split()) > MOST_WORDS)


class Long(NamedTuple):
    """By how many words a step is too long, and what is said of it."""

    over: int
    finding: Finding


THE_STEP, THE_PLACE = "the step", "the place beside the step"
"""What is measured: the sentence of a step, or the line that says where it is done."""


def too_long(
    text: str, words: abc.Mapping[str, Printed | Missing], step: str, printer: Measuring
) -> Iterator[Long]:
    """A finding where the boat's own words carry a step over MOST_WORDS; it names the longest of them, and how many are too many."""
    yield from _over(slots(text), lambda word: fill(text, word), words, (THE_STEP, step), printer)


def place_too_long(
    slot: str, words: abc.Mapping[str, Printed | Missing], step: str, printer: Measuring
) -> Iterator[Long]:
    """The same of the line beside a step that says where it is done, which one word of hers fills."""
    yield from _over([slot], lambda word: word(slot), words, (THE_PLACE, step), printer)


def _over(
    filled: abc.Sequence[str],
    said_with: abc.Callable[[abc.Callable[[str], str]], str],
    words: abc.Mapping[str, Printed | Missing],
    about: tuple[str, str],
    printer: Measuring,
) -> Iterator[Long]:
    own = {
        slot: word
        for slot in filled
        if isinstance(word := words.get(slot), Printed) and word.said is not None
    }
    lists = {slot for slot, word in own.items() if word.key.endswith(_LIST)}
    counted = {
        slot: word.said.said_by(printer) for slot, word in own.items() if word.said and slot not in lists
    }
    said = said_with(lambda slot: _HERE if slot in lists else counted.get(slot) or str(words.get(slot, slot)))
    for piece in long_pieces(said):
        there = [slot for slot, each in counted.items() if own[slot].place and _share(piece, each)]
        longest = max(there, key=lambda slot: _longest(piece, counted[slot]), default=None)
        if longest is None:
            continue
        key, place = _source(own[longest], piece)
        count = len(piece.split())
        over = count - MOST_WORDS
        finding = Finding(
            "steps.too-long",
            Weight.RECOMMENDATION,
            f"with '{own[longest]}' {about[0]} '{about[1]}' has {count} words to be read at once, and {MOST_WORDS} are enough",
            place,
            f"say {key} in fewer words, as people aboard would call it: {over} word{'s' * (over > 1)} less",
        )
        yield Long(over, finding)
        return


def _share(piece: str, words: str) -> bool:
    return any(part in piece or piece in part for part in pieces(words))


def _longest(piece: str, words: str) -> int:
    """How many words of a piece are these."""
    return max(len(part.split()) for part in pieces(words) if part in piece or piece in part)


def _source(word: Printed, piece: str) -> tuple[str, Place]:
    """The key under which the words that are too long stand, and where that is: of a place its spot, of a fitting what, spot or how."""
    for said in word.said.words if isinstance(word.said, Several) else (word.said,):
        if not isinstance(said, Word):
            continue
        value = said.block if not said.name else said.block.__dict__.get(said.name)
        if said.name == "where" or isinstance(value, Located):
            holder: Block = value if isinstance(value, Located) else said.block
            told = {
                name: text for name in ("what", "spot") if isinstance(text := holder.__dict__.get(name), str)
            }
            long = max(
                (name for name in told if told[name] in piece), key=lambda name: len(told[name]), default=""
            )
            if long and isinstance(holder.node, Mapping):
                return f"{holder.path}.{long}", holder.place(long)
        elif str(value) in piece:
            return said.key, said.place
    assert word.place is not None
    return word.key, word.place
