"""The shelf of kinds of gear as it is written: its keys, and what must hold between its files."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.reading.block import Block, Fault
from generator.reading.fields import Choice, Many, One, Text, Texts
from generator.reading.measures import Count
from generator.reading.names import Name, OtherName, Reference, references, standing
from generator.shelves.life_rows import GEAR as OF_GEAR
from generator.shelves.life_rows import LineBlock, lines_agree
from generator.shelves.lives import dates_there_are
from generator.shelves.recognising import key_of, tokens
from generator.shelves.rows import contradiction
from generator.shelves.shelf import File, Names, Shelf, Tallied

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator, Mapping, Sequence

    from generator.reading.findings import Finding, Place

PURPOSES = (
    "lifesaving",
    "signal",
    "fire",
    "flooding",
    "navigation",
    "medical",
    "rig",
    "tool",
    "water and food",
    "other",
)
"""What gear may be for."""
AT_ONCE = ("signal", "medical")
SAVES = ("lifesaving", *AT_ONCE)
"""What is wanted in the first minutes, and what else a life hangs on."""
VITAL = (*SAVES, "fire")
"""What a life hangs on if it is found at once."""
AGAINST_WATER = "flooding"
FETCHED = (*VITAL, AGAINST_WATER)
"""What somebody goes for while she burns or fills."""
USED_THERE = ("flooding", "rig", "tool", "other")
"""What is also wanted in the engine space, the bilge or the anchor locker itself."""
PROPERTIES = (
    "an aerial without the mast",
    "for the first minutes",
    "thrown to somebody",
    "carries a light",
    "lights the way",
    "is rigged on deck",
    "clips somebody on",
    "discharged by hand",
    "carried to a fire",
    "guards the engine space",
    "knows the position",
    "floods a space",
    "loses pressure",
    "must be dated",
    "warns of smoke",
    "warns of carbon monoxide",
    "warns of gas",
    "warns of water",
    "suit against cold",
    "steers without the wheel",
    "sounds an alarm",
    "makes a sound signal",
    "shows distress",
    "calls for help",
    "keeps warm",
    "drinking water",
    "food",
    "bails water",
    "keeps her afloat",
    "moves her by hand",
    "holds her to the ground",
    "lifts a person by hand",
    "brought to somebody alongside",
    "feeds a fire",
    "is fixed in the open",
    "is steered by",
    "cuts a line",
    "slows her astern",
    "steers by itself",
)
"""What a kind may be or do; the head of the shelf says what each of them means."""


class MarkedFor(Block):
    """How far a marked expiry may lie from the making."""

    months = Count("How many months at most?", low=1, high=600, required=True)
    source = Text("Who says so?", required=True)
    standing = standing()


class AtMost(Block):
    """How many pieces of a kind a boat has at most: so many, or so many for each person where that is more."""

    called = "pieces"
    shorthand = "pieces"
    pieces = Count("How many pieces?", low=1, high=500, required=True)
    a_person = Count("How many for each person?", low=1, high=100)


class GearKind(Block):
    """A kind of gear."""

    called = "kind"
    kind = Name("What do steps and rule sets call it?", required=True)
    also = Texts("Under which names do dates and checks know it as well?", of=OtherName("Which name?"))
    other_names = Texts(
        "What do people also call it, who are told the right name?", of=OtherName("Which name?")
    )
    words = Texts("Which words anywhere in a name mean it?", of=OtherName("Which word?"))
    is_ = Texts("What is it, or what does it do?", PROPERTIES)
    not_before = Texts("Which words before its name make another thing of it?", of=OtherName("Which word?"))
    alone = Texts(
        "Which of its names mean it only where no other word stands before them?", of=OtherName("Which name?")
    )
    for_ = Choice("What is it for, if its name says so?", PURPOSES)
    also_for = Texts("What else may somebody rightly say that it is for?", PURPOSES)
    written_as = references("As which kinds is it to be written, so that steps find it?", "gear")
    serves_as = references("For which kinds does it do as well?", "gear")
    lasts_as = Reference("Which life of templates/lives has it?", "life of gear")
    lines = Many(LineBlock, "How does it last, if as nothing in templates/lives?")
    marked_for = One(MarkedFor, "How far may a marked expiry lie from the making?")
    at_most = One(AtMost, "How many of them has a boat at most?")

    def faults(self) -> Iterator[Fault]:
        """It does not serve as itself, and lasts in one way."""
        if self.kind in self.serves_as:
            yield Fault("serves-as", f"'{self.kind}' serves as itself", "name other kinds, or remove the key")
        if self.lasts_as is not None and self.lines:
            yield Fault("lines", "'lasts-as' says already how it lasts", "keep the one that is true")
        if self.for_ in self.also_for:
            yield Fault(
                "also-for", f"'{self.for_}' stands under 'for' already", "name what else it may be for"
            )


class SmallWords(Block):
    """The small words of names of gear."""

    joins = Texts("Which words join two names?", of=OtherName("Which word?"))
    behind = Texts("With which words begins what tells which one it is?", of=OtherName("Which word?"))
    measures = Texts("Which words count what follows them?", of=OtherName("Which word?"))
    which = Texts(
        "Which words tell which one it is, and may stand behind its name?", of=OtherName("Which word?")
    )
    another = Texts("Which words before any name make another thing of it?", of=OtherName("Which word?"))
    parts = Texts("Which words name what only belongs to such a thing?", of=OtherName("Which word?"))


class GearFile(Tallied):
    """A file of kinds of gear."""

    small_words = One(SmallWords, "Which small words stand in names of gear?")
    kinds = Many(GearKind, "Which kinds of gear are there?", required=True)


def _gives(files: Sequence[File[GearFile]]) -> Names:
    return {"gear": [str(each.kind) for each in blocks_of(files) if not each.words]}


def blocks_of(files: Sequence[File[GearFile]]) -> Iterator[GearKind]:
    """Every kind of some files, in their order."""
    for each in files:
        yield from each.block.kinds


def _holds_together(files: Sequence[File[GearFile]]) -> Iterator[Finding]:
    """No name or word means two kinds, and nobody is told to rename what is called rightly."""
    kinds = list(blocks_of(files))
    own = {(id(kind), name) for kind in kinds for name in own_names(kind)}
    named = [(name, place) for kind in kinds for name, place in _own_places(kind)]
    named += [
        (name.lower(), kind.place_in("other-names", number))
        for kind in kinds
        for number, name in enumerate(kind.other_names)
        if (id(kind), name.lower()) not in own
    ]
    seen: dict[str, Place] = {}
    for name, place in named:
        key = key_of(tokens(name))
        if key in seen:
            message, remedy = (
                f"two are called '{name}'",
                "give each its own name, or keep the one that is true; plural, hyphen and blank make no other name",
            )
            yield contradiction(place, message, remedy, seen[key])
        seen.setdefault(key, place)
    yield from _words_found(kinds)
    for kind in kinds:
        yield from lines_agree(kind.lines)


def _words_found(kinds: Sequence[GearKind]) -> Iterator[Finding]:
    """Words are looked for in the order of the shelf: none has a word of an earlier kind in it, for that is found first."""
    earlier: list[tuple[str, Place]] = []
    for kind in kinds:
        words = [(word.lower(), kind.place_in("words", number)) for number, word in enumerate(kind.words)]
        for word, place in words:
            for other, first in earlier:
                if re.search(rf"\b{re.escape(other)}\b", word):
                    message = f"'{word}' is never looked for: '{other}' above means another kind"
                    yield contradiction(place, message, "keep the word at the kind that it means", first)
                    break
        earlier += words


def _own_places(kind: GearKind) -> Iterator[tuple[str, Place]]:
    yield str(kind.kind).lower(), kind.place("kind")
    yield from ((name.lower(), kind.place_in("also", number)) for number, name in enumerate(kind.also))


def _agrees(files: Sequence[File[GearFile]], known: Mapping[str, Collection[str]]) -> Iterator[Finding]:
    """The dates that lines name are those of gear."""
    for kind in blocks_of(files):
        for line in kind.lines:
            yield from dates_there_are(line, OF_GEAR, known)


def own_names(kind: GearKind) -> list[str]:
    """The names under which a kind is known, in small letters."""
    return [name.lower() for name in (str(kind.kind), *kind.also)]


GEAR: Shelf[GearFile] = Shelf(
    "kinds of gear",
    "gear/*.yaml",
    GearFile,
    "What things are called that steps, rule sets, packs, checks and lives ask for, and what they are and do.",
    _gives,
    _holds_together,
    _agrees,
)
