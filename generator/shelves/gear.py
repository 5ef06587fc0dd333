"""The shelf of kinds of gear: what things are called that steps, rule sets, packs, checks and lives ask for, and what they do."""

from __future__ import annotations

import functools
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.reading.values import Given, sure
from generator.shelves import lives
from generator.shelves.gear_rows import GEAR, PROPERTIES, GearFile, GearKind, SmallWords, blocks_of, own_names
from generator.shelves.recognising import Naming, Recogniser, key_of, small_words, tokens

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from generator.shelves.shelf import File


def before_comma(what: Given) -> str:
    """The name of a thing: what stands before the first comma, in small letters; "" where it is not known."""
    return what.partition(",")[0].strip().lower() if isinstance(what, str) else ""


@dataclass(frozen=True, eq=False)
class Kind:
    """A kind of gear as it is asked for; names are in small letters, except its own `name` as the shelf writes it.

    `purpose` is what it is for, "" where its name does not say so. It lasts as the kind `lasts_as` of the shelf of lives, or as it says itself: `lasts`.
    `at_most` is how many pieces a boat has at most, and how many for each person (the more of the two counts); None where nothing is said.
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
    also_for: frozenset[str] = frozenset()
    written_as: tuple[str, ...] = ()
    at_most: tuple[int, int] | None = None

    def does(self, what: str) -> bool:
        """Whether it has a property; LookupError where there is no such property."""
        if what not in self.properties:
            _known(what)
            return False
        return True


def _known(what: str) -> None:
    if what not in EVERY_PROPERTY:
        raise LookupError(f"there is no property '{what}' of gear")


EVERY_PROPERTY = frozenset(PROPERTIES)
"""What gear may be or do."""


class Kinds(tuple[Kind, ...]):
    """All kinds of one shelf in its order; told apart as one thing, so that what is worked out of them is found again at once."""

    __slots__ = ()
    __hash__ = object.__hash__

    def __eq__(self, other: object) -> bool:
        return self is other


class _Kinds:
    """All kinds of one folder of templates, and which kind each name that was asked for means."""

    def __init__(self, files: Sequence[File[GearFile]]) -> None:
        blocks = list(blocks_of(files))
        self.all = Kinds(_kind(block) for block in blocks)
        self.that = {what: tuple(each for each in self.all if each.does(what)) for what in PROPERTIES}
        self.called: dict[str, Kind] = {}
        for kind in reversed(self.all):
            if not kind.words:
                self.called[kind.name.lower()] = kind
        lists: dict[str, set[str]] = {key.replace("-", "_"): set() for key in SmallWords.fields}
        for file in files:
            for name in lists if file.block.small_words else ():
                lists[name] |= {str(word).lower() for word in getattr(file.block.small_words, name)}
        self._recogniser = Recogniser(
            (naming for number, block in enumerate(blocks) for naming in _namings(number, block)),
            small_words(lists),
        )
        self._meant: dict[str, Kind | None] = {}
        self._others: dict[str, Kind | None] = {}
        self._second: dict[str, tuple[Kind, ...]] = {}
        self._begun: dict[str, Kind | None] = {}
        self._as_asked: dict[str, bool] = {}
        self._all_meant: dict[str, tuple[Kind, ...]] = {}

    def meant(self, what: str) -> Kind | None:
        if what not in self._meant:
            self._meant[what] = self._read(what)
        return self._meant[what]

    def all_meant(self, what: str) -> tuple[Kind, ...]:
        """Every kind that a text means."""
        if what not in self._all_meant:
            found = dict.fromkeys(self.all[each.index] for each in self._recogniser.all_meant(what))
            one = self.meant(what)
            self._all_meant[what] = tuple(found) or ((one,) if one is not None else ())
        return self._all_meant[what]

    def other(self, what: str) -> Kind | None:
        """The kind that a name means by another name than its own, one that people are told to write otherwise."""
        if what not in self._others:
            found = self._recogniser.meant(what)
            self._others[what] = self.all[found.index] if found is not None and not found.own else None
        return self._others[what]

    def second(self, what: str) -> tuple[Kind, ...]:
        """The kinds that a name means besides the first: "lifebuoy and danbuoy"."""
        if what not in self._second:
            self._second[what] = tuple(self.all[each.index] for each in self._recogniser.also_meant(what))
        return self._second[what]

    def begun(self, what: str) -> Kind | None:
        """The kind whose name stands in what is of none, or of one by a word in it alone."""
        if what not in self._begun:
            found = self._recogniser.begun(what) if self._recogniser.meant(what) is None else None
            self._begun[what] = self.all[found.index] if found is not None else None
        return self._begun[what]

    def as_asked(self, what: str) -> bool:
        """Whether a name is the own name of one kind, or of none at all: nobody is told to write it otherwise."""
        if what not in self._as_asked:
            one = self.meant(what)
            told = self.other(what) is not None or self.second(what) or self.begun(what) is not None
            self._as_asked[what] = not told and not (one is not None and one.written_as)
        return self._as_asked[what]

    def _read(self, what: str) -> Kind | None:
        found = self._recogniser.meant(what)
        if found is not None or self._recogniser.is_part(what):
            return self.all[found.index] if found is not None else None
        return next((kind for kind in self.all if kind.words and kind.words.search(what.lower())), None)


def _namings(number: int, block: GearKind) -> Iterator[Naming]:
    """The names of a kind, its own first; what stands under 'also' only tells which one it is, so nobody is told to rename it."""
    not_before = frozenset(key_of((word,)) for word in map(str.lower, block.not_before))
    alone = {name.lower() for name in block.alone}
    for name in (*(own_names(block) if not block.words else ()), *map(str.lower, block.other_names)):
        own = name not in map(str.lower, block.other_names)
        yield Naming(number, tokens(name), own, not_before, name in alone)


def _kind(block: GearKind) -> Kind:
    words = [re.escape(word.lower()) for word in block.words]
    return Kind(
        sure(block.kind),
        tuple(own_names(block)),
        tuple(map(str.lower, block.other_names)),
        re.compile(rf"\b(?:{'|'.join(words)})\b") if words else None,
        frozenset(block.is_),
        tuple(map(str.lower, block.serves_as)),
        sure(block.lasts_as) if block.lasts_as is not None else "",
        sure(block.marked_for.months) if block.marked_for else None,
        sure(block.for_) if block.for_ is not None else "",
        lives.of_gear(sure(block.kind), block.lines) if block.lines else None,
        frozenset(block.also_for),
        tuple(map(str, block.written_as)),
        (sure(block.at_most.pieces), block.at_most.a_person or 0) if block.at_most else None,
    )


@functools.lru_cache(maxsize=64)
def _kinds(files: tuple[File[GearFile], ...]) -> _Kinds:
    return _Kinds(files)


def _shelf() -> _Kinds:
    files = GEAR.files()
    if not _LAST or _LAST[0][0] is not files:
        _LAST[:] = [(files, _kinds(files))]
    return _LAST[0][1]


_LAST: list[tuple[tuple[File[GearFile], ...], _Kinds]] = []
"""The files last asked for, and their kinds: checks ask some hundred times a boat."""


def kinds() -> Kinds:
    """Every kind of gear, in the order of the shelf."""
    return _shelf().all


def gear_names() -> tuple[str, ...]:
    """What steps and rule sets may ask for by name."""
    return _gear_names(GEAR.readable())


@functools.lru_cache(maxsize=64)
def _gear_names(files: tuple[File[GearFile], ...]) -> tuple[str, ...]:
    return tuple(kind.kind for kind in blocks_of(files) if isinstance(kind.kind, str) and not kind.words)


def kinds_that(what: str) -> tuple[Kind, ...]:
    """The kinds that have a property, in the order of the shelf; LookupError where there is no such property."""
    _known(what)
    return _shelf().that[what]


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
    """The kind of which `what` is another name: steps find it, and call it otherwise."""
    return _shelf().other(what) if isinstance(what, str) else None


def named_as_asked(what: Given) -> bool:
    """Whether nothing is to be said of how a thing is called: its name is the own one of one kind, or has nothing of any."""
    return not isinstance(what, str) or _shelf().as_asked(what)


def kinds_joined(what: Given) -> tuple[Kind, ...]:
    """The kinds that one name means besides the first, where it joins several: "lifebuoy and danbuoy"."""
    return _shelf().second(what) if isinstance(what, str) else ()


def kind_begun(what: Given) -> Kind | None:
    """The kind whose name stands in `what`, though it is of none: it may be one, or something else."""
    return _shelf().begun(what) if isinstance(what, str) else None


def answers_to(what: Given) -> frozenset[str]:
    """The names, in small letters, by which steps and rule sets find a thing called `what`: its own, its kind's, what that serves as."""
    name, kind = before_comma(what), kind_of(what)
    if kind is None or kind.words:
        return frozenset((name,))
    return frozenset((name, kind.name.lower(), *kind.serves_as))


def kinds_in(what: Given) -> tuple[Kind, ...]:
    """Every kind that a thing in a bag means: there several stand in one name, "whistle and mirror"."""
    return _shelf().all_meant(what) if isinstance(what, str) else ()


def mentions(what: Given, property_: str) -> bool:
    """Whether a thing in a bag is of a kind with a property, or one of several that are."""
    if property_ not in EVERY_PROPERTY:
        raise LookupError(f"there is no property '{property_}' of gear")
    return any(property_ in kind.properties for kind in kinds_in(what))


def is_called(what: Given, name: str) -> bool:
    """Whether a thing in a bag is what rule sets and packs call `name`; what is no kind of gear is looked for among its words."""
    if not isinstance(what, str):
        return False
    kind = _shelf().called.get(name.lower())
    if kind is None:
        return re.search(rf"\b{re.escape(name.lower())}s?\b", what.lower()) is not None
    return any(each is kind or kind.name.lower() in each.serves_as for each in kinds_in(what))
