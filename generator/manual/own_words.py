"""The boat's own words, wherever a file holds any: which of them say how things are, sentence by sentence, for checks to hold against fields."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import TYPE_CHECKING

from generator.manual.printing import first_printer
from generator.reading.fields import Text
from generator.reading.worded import NAME, Worded
from generator.vessel.base import Base
from generator.vessel.gear import StillCarried
from generator.vessel.lives import Life
from generator.vessel.particulars import Contact, Deferred, Drill, Posted, Signed

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from generator.reading.block import Block

APART = (Base, Signed, Contact, Posted, Drill, Deferred, StillCarried, Life)
"""Blocks that tell of people and papers ashore, of the past, or of what is not aboard yet."""
TOLD_OF = (Signed, Contact, Drill, Deferred, StillCarried)
"""Of these, the blocks that name people."""
_END = re.compile(r"[.!?;]+(?=[\s*_]|$)|\n")
_WORDS = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)?")

_RULED_OUT = re.compile(
    r"(?:,|;| –| -)?(?: and| but)? (?:never|not|instead of|rather than) "
    r"(?:to|on|in|at|from|over|by|with|under|behind|into|the|an?|through)\b[^,;:]*$"
    r"|(?:,|;| –| -) (?:do not|don['’]t|never|nobody|no one|nothing)\b[^;:]*$"
    r"|,? (?:so that|because|lest|for fear|in order that|in case)\b[^;:]*$"
    r"|, where (?:the|our|her|we|its|it|he|she|they) (?!can\b|is possible)[^;:]*$",
    re.IGNORECASE,
)
_SIGNAL = r"(?:signals?|alarms?|order|bell|horn|whistle|siren|blasts?|rings?|called|sinks?|sunk|goes down|founders?|goes under|is lost|capsizes?|turns? over|called for)"
_AT_A_SIGNAL = re.compile(
    rf"(?:,? ?\b(?:when|whenever|once|as soon as|if|should|until)\b[^,;:]*?\b{_SIGNAL}\b(?: (?:is given|sounds?|rings?|under|is heard|comes|is called|goes))?)",
)


@dataclass(slots=True)
class OwnWords:
    """The words under one key of a block, that everybody may read."""

    block: Block
    field: Text
    text: str

    @property
    def says(self) -> str:
        """What they are in a sentence; "" where no step prints them."""
        return self.field.says

    @property
    def of_itself(self) -> bool:
        """Whether they tell of the thing whose block they stand in, not of a part that may lie elsewhere."""
        return isinstance(self.field, Worded) and not self.field.elsewhere

    @property
    def names_itself(self) -> bool:
        """Whether they are the name of the thing; what belongs to it may stand there: "danbuoy, with light and second lifebuoy"."""
        return self.field.key in (type(self.block).called, "what")

    @property
    def meant(self) -> str:
        """The words with the bare names in them that only the procedure beside which a note stands tells whole: beside gas the tap is the gas tap."""
        beside = self.block.__dict__.get("beside")
        return as_meant(self.text, beside) if isinstance(beside, str) else self.text

    @property
    def told(self) -> tuple[str, ...]:
        """See `told_in`."""
        return told_in(self.meant)


@lru_cache(maxsize=8192)
def told_in(text: str) -> tuple[str, ...]:
    """The sentences of `sentences_in` in small letters."""
    return tuple(sentence.lower() for sentence in sentences_in(text))


@lru_cache(maxsize=8192)
def sentences_in(text: str) -> tuple[str, ...]:
    """The sentences that say how something is, as they stand: none that denies, puts a condition or sends for something.

    What one goes on to rule out is left away: to port, never to starboard.
    """
    denials = listed("reads.denials")
    heads = (_RULED_OUT.sub("", sentence) for sentence in _END.split(text))
    return tuple(
        sentence
        for sentence in heads
        if sentence and denials.isdisjoint(_WORDS.findall(sentence.lower().replace("at once", "")))
    )


@lru_cache(maxsize=8192)
def orders_in(text: str) -> tuple[str, ...]:
    """The sentences of `told_in`, also those that say at which signal, order or loss of the boat something is done, without that."""
    return tuple(
        sentence
        for each in _END.split(text.lower())
        for sentence in told_in(_AT_A_SIGNAL.sub(" ", each).strip(" ,"))
    )


@lru_cache(maxsize=8192)
def as_meant(text: str, beside: str) -> str:
    """Words of a note with the bare names in them whole, as the procedure beside which they stand has them: beside gas the tap is the gas tap."""
    for of in ("any", beside.partition("-")[0]):
        for bare, whole in _bare(of):
            text = bare.sub(rf"\1 {whole}", text)
    return text


@cache
def _bare(of: str) -> tuple[tuple[re.Pattern[str], str], ...]:
    """What finds bare names in the notes beside a sort of procedure, each with its whole name."""
    pairs = (each.partition("/") for each in called(f"bare.{of}"))
    return tuple(
        (re.compile(rf"\b(the|our|its|all|both|two of the|some of the) {bare}\b", re.IGNORECASE), whole)
        for bare, _, whole in pairs
    )


def own_words(blocks: Iterable[Block]) -> Iterator[OwnWords]:
    """All words in blocks of hers that are no name; what the crew or the shore alone may read is left out, and so never quoted."""
    for block in blocks:
        values, path = block.__dict__, block.path
        for name, field in fields_read(type(block)):
            text = values.get(name)
            if isinstance(text, str) and text != path:
                yield OwnWords(block, field, text)


def about_people(blocks: Iterable[Block]) -> Iterator[OwnWords]:
    """What is told in blocks apart of who did, decided or is called: names too, such as those of drills, approvals, contacts."""
    for block in blocks:
        if isinstance(block, TOLD_OF):
            for key in ("by", "who", "led-by"):
                field = type(block).fields.get(key)
                text = block.__dict__.get(field.name) if field is not None else None
                if isinstance(field, Text) and field.reader == "guest" and isinstance(text, str):
                    yield OwnWords(block, field, text)


@cache
def listed(*words: str) -> frozenset[str]:
    """A list of words, by which the boat's own are read: the label `words`; of several labels the words of all."""
    return frozenset(word for each in words for word in in_order(each))


@cache
def in_order(words: str) -> tuple[str, ...]:
    """The same list in its order: of numbers, from one on."""
    return tuple(first_printer().say(words).split())


@cache
def called(of: str) -> tuple[str, ...]:
    """What people call a thing beside its own name, by the end of its label; nothing where no label is there for it."""
    words = first_printer().catalogue.labels.get(f"called.{of}", "")
    return tuple(each.strip() for each in words.split(",") if each.strip())


_READ: dict[type[Block], tuple[tuple[str, Text], ...]] = {}


def fields_read(kind: type[Block]) -> tuple[tuple[str, Text], ...]:
    """The fields of a kind of block that hold such words, by their attributes; none of what stands apart."""
    if kind not in _READ:
        _READ[kind] = tuple(
            (field.name, field)
            for field in (kind.fields.values() if not issubclass(kind, APART) else ())
            if isinstance(field, Text) and field.reader == "guest" and field.says != NAME
        )
    return _READ[kind]
