"""The shelf of kinds of gear: what things are called that steps, rule sets, packs, checks and lives ask for, and what they do."""

from __future__ import annotations

import functools
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.reading.block import Block, Fault
from generator.reading.fields import Choice, Many, One, Text, Texts
from generator.reading.measures import Count
from generator.reading.names import Name, OtherName, Reference, references, standing
from generator.reading.values import Given, sure
from generator.shelves import lives
from generator.shelves.life_rows import GEAR as OF_GEAR
from generator.shelves.life_rows import LineBlock, lines_agree
from generator.shelves.lives import dates_there_are
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
USED_THERE = ("flooding", "rig", "tool", "other")
"""What is also wanted in the engine space, the bilge or the anchor locker itself."""
PROPERTIES = (
    "thrown to somebody",
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
    "drinking water",
    "food",
    "bails water",
    "keeps her afloat",
    "moves her by hand",
    "holds her to the ground",
    "lifts a person by hand",
)
"""What a kind may be or do; the head of the shelf says what each of them means."""


def before_comma(what: Given) -> str:
    """The name of a thing: what stands before the first comma, in small letters; "" where it is not known."""
    return what.partition(",")[0].strip().lower() if isinstance(what, str) else ""


class MarkedFor(Block):
    """How far a marked expiry may lie from the making."""

    months = Count("How many months at most?", low=1, high=600, required=True)
    source = Text("Who says so?", required=True)
    standing = standing()


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
    for_ = Choice("What is it for, if its name says so?", PURPOSES)
    serves_as = references("For which kinds does it do as well?", "gear")
    lasts_as = Reference("Which life of templates/lives has it?", "life of gear")
    lines = Many(LineBlock, "How does it last, if as nothing in templates/lives?")
    marked_for = One(MarkedFor, "How far may a marked expiry lie from the making?")

    def faults(self) -> Iterator[Fault]:
        """It does not serve as itself, and lasts in one way."""
        if self.kind in self.serves_as:
            yield Fault("serves-as", f"'{self.kind}' serves as itself", "name other kinds, or remove the key")
        if self.lasts_as is not None and self.lines:
            yield Fault("lines", "'lasts-as' says already how it lasts", "keep the one that is true")


class GearFile(Tallied):
    """A file of kinds of gear."""

    kinds = Many(GearKind, "Which kinds of gear are there?", required=True)


def _gives(files: Sequence[File[GearFile]]) -> Names:
    return {"gear": [str(each.kind) for each in _blocks(files) if not each.words]}


def _blocks(files: Sequence[File[GearFile]]) -> Iterator[GearKind]:
    for each in files:
        yield from each.block.kinds


def _holds_together(files: Sequence[File[GearFile]]) -> Iterator[Finding]:
    """No name or word means two kinds, and nobody is told to rename what is called rightly."""
    kinds = list(_blocks(files))
    own = {(id(kind), name) for kind in kinds for name in _own_names(kind)}
    named = [(name, place) for kind in kinds for name, place in _own_places(kind)]
    named += [
        (name.lower(), kind.place_in("other-names", number))
        for kind in kinds
        for number, name in enumerate(kind.other_names)
        if (id(kind), name.lower()) not in own
    ]
    seen: dict[str, Place] = {}
    for name, place in named:
        if name in seen:
            message, remedy = (
                f"two are called '{name}'",
                "give each its own name, or keep the one that is true",
            )
            yield contradiction(place, message, remedy, seen[name])
        seen.setdefault(name, place)
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
    for kind in _blocks(files):
        for line in kind.lines:
            yield from dates_there_are(line, OF_GEAR, known)


def _own_names(kind: GearKind) -> list[str]:
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


@dataclass(frozen=True, eq=False)
class Kind:
    """A kind of gear as it is asked for; names are in small letters, except its own `name` as the shelf writes it.

    `purpose` is what it is for, "" where its name does not say so. It lasts as the kind `lasts_as` of the shelf of lives, or as it says itself: `lasts`.
    """

    name: str
    names: tuple[str, ...]
    other_names: tuple[str, ...]
    words: re.Pattern[str] | None
    properties: frozenset[str]
    serves_as: tuple[str, ...]
    lasts_as: str
    longest_months: int | None
    purpose: str = ""
    lasts: lives.Kind | None = None

    def does(self, what: str) -> bool:
        """Whether it has a property; LookupError where there is no such property."""
        if what not in PROPERTIES:
            raise LookupError(f"there is no property '{what}' of gear")
        return what in self.properties


class _Kinds:
    """All kinds of one folder of templates, and which kind each name that was asked for means."""

    def __init__(self, blocks: Iterator[GearKind]) -> None:
        self.all = tuple(_kind(block) for block in blocks)
        self._named = {name: kind for kind in self.all for name in kind.names}
        self._other = {name: kind for kind in self.all for name in kind.other_names}
        self._meant: dict[str, Kind | None] = {}

    def meant(self, what: str) -> Kind | None:
        if what not in self._meant:
            found = self._named.get(before_comma(what))
            self._meant[what] = found or next(
                (kind for kind in self.all if kind.words and kind.words.search(what.lower())), None
            )
        return self._meant[what]

    def other(self, what: str) -> Kind | None:
        return self._other.get(before_comma(what))


def _kind(block: GearKind) -> Kind:
    words = [re.escape(word.lower()) for word in block.words]
    return Kind(
        sure(block.kind),
        tuple(_own_names(block)),
        tuple(map(str.lower, block.other_names)),
        re.compile(rf"\b(?:{'|'.join(words)})\b") if words else None,
        frozenset(block.is_),
        tuple(map(str.lower, block.serves_as)),
        sure(block.lasts_as) if block.lasts_as is not None else "",
        sure(block.marked_for.months) if block.marked_for else None,
        sure(block.for_) if block.for_ is not None else "",
        lives.of_gear(sure(block.kind), block.lines) if block.lines else None,
    )


@functools.lru_cache(maxsize=64)
def _kinds(files: tuple[File[GearFile], ...]) -> _Kinds:
    return _Kinds(_blocks(files))


def _shelf() -> _Kinds:
    return _kinds(GEAR.files())


def kinds() -> tuple[Kind, ...]:
    """Every kind of gear, in the order of the shelf."""
    return _shelf().all


def gear_names() -> tuple[str, ...]:
    """What steps and rule sets may ask for by name."""
    return _gear_names(GEAR.readable())


@functools.lru_cache(maxsize=64)
def _gear_names(files: tuple[File[GearFile], ...]) -> tuple[str, ...]:
    return tuple(kind.kind for kind in _blocks(files) if isinstance(kind.kind, str) and not kind.words)


def kinds_that(what: str) -> tuple[Kind, ...]:
    """The kinds that have a property, in the order of the shelf."""
    return tuple(kind for kind in kinds() if kind.does(what))


def kind_of(what: Given) -> Kind | None:
    """The kind that a thing called `what` is of, by its name or else by words in it; None where it is of none."""
    return _shelf().meant(what) if isinstance(what, str) else None


def lasting(what: str, kind: Kind | None) -> lives.Kind:
    """How a thing of the gear list lasts that is called `what` and is of this kind of gear."""
    if kind is not None and kind.lasts is not None:
        return kind.lasts
    return lives.kind_of_gear(what, kind.lasts_as if kind is not None else "")


def lives_among(
    gear: tuple[File[GearFile], ...], ages: tuple[File[lives.LivesFile], ...]
) -> tuple[lives.Kind, ...]:
    """Every kind of thing that ages: those of the shelf of lives, and the gear that says itself how it lasts."""
    of_shelf = [kind for group in lives.lives_of(ages).kinds.values() for kind in group]
    return (*of_shelf, *(kind.lasts for kind in _kinds(gear).all if kind.lasts is not None))


def kind_renamed(what: Given) -> Kind | None:
    """The kind of which `what` is another name, one that steps do not find it by."""
    return _shelf().other(what) if isinstance(what, str) else None


def answers_to(what: Given) -> frozenset[str]:
    """The names, in small letters, by which steps and rule sets find a thing called `what`: its own, and what it serves as."""
    name, kind = before_comma(what), kind_of(what)
    return frozenset((name, *(kind.serves_as if kind is not None and kind.name.lower() == name else ())))


def mentions(what: Given, property_: str) -> bool:
    """Whether a thing in a bag is of a kind with a property: there names stand inside longer ones."""
    return isinstance(what, str) and any(
        mentioned(kind.name).search(what) is not None for kind in kinds_that(property_)
    )


def mentioned(name: str) -> re.Pattern[str]:
    """Finds `name` in what a thing in a bag is called: there it may stand inside a longer name, "whistle and mirror"."""
    return _inside(name.lower(), GEAR.files())


@functools.lru_cache(maxsize=512)
def _inside(name: str, files: tuple[File[GearFile], ...]) -> re.Pattern[str]:
    kind = _kinds(files).meant(name)
    names = kind.names if kind is not None and kind.name.lower() == name else (name,)
    return re.compile(rf"\b(?:{'|'.join(map(re.escape, names))})s?\b", re.IGNORECASE)
