"""The shelf of lives: how long each kind of thing lasts, from which of its dates, and who says so."""

from __future__ import annotations

import functools
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from generator.reading.block import Block
from generator.reading.fields import Many
from generator.reading.findings import Finding, Place, Weight
from generator.reading.nearest import nearest
from generator.reading.values import sure
from generator.shelves.life_rows import (
    AGAIN,
    BLOCKS,
    GEAR,
    AgedBlock,
    AheadBlock,
    KindBlock,
    LifeBlock,
    LineBlock,
    NeedsBlock,
    NotBeforeBlock,
    WindowBlock,
    each_taken,
    lines_agree,
)
from generator.shelves.shelf import File, Names, Shelf, Tallied, twice

# What speaks for dates that a line names no check for: what is marked has passed; what is usual has passed.
MARKED_CHECK, BEACON_CHECK, USUAL_CHECK = "gear.expired", "radio.battery-expired", "dates.life"
_MARKED_ON_GEAR = ("expires", "next-service")
# A last day that one of these says or that is counted from one brings a test or service; every other ends a life.
_DONE_AGAIN = frozenset(("next", "next-service", "cylinder-test", "last", "last-service", "tested"))

_OF_A_RAFT = ("service", "release", "slip")

When = Mapping[str, Sequence[str]]
"""Values that must hold, by key."""


class LivesFile(Tallied):
    """A file of lives."""

    kinds = Many(KindBlock, "Which kinds of things age?", required=True)


def _gives(files: Sequence[File[LivesFile]]) -> Names:
    kinds = list(_blocks(files))
    return {"life of gear": [sure(kind.kind) for kind in kinds if kind.block == GEAR]}


def _blocks(files: Sequence[File[LivesFile]]) -> Iterator[KindBlock]:
    for each in files:
        yield from each.block.kinds


def _holds_together(files: Sequence[File[LivesFile]]) -> Iterator[Finding]:
    """Each kind has its own name, and one of gear takes all the rest."""
    yield from twice((str(kind.kind), kind, "kind") for kind in _blocks(files))
    others = [kind for kind in _blocks(files) if kind.for_others]
    for kind in others[1:]:
        yield _bad(kind.place("for-others"), "two kinds are for all other gear", "keep the one that is true")
    if files and not others:
        yield _bad(
            files[0].block.place("kinds"), "no kind is for all other gear", "write for-others: yes at one"
        )
    yield from each_taken(list(_blocks(files)))
    for kind in _blocks(files):
        yield from lines_agree(kind.lines)


def _bad(place: Place, message: str, remedy: str) -> Finding:
    return Finding("file.bad-value", Weight.DEFECT, message, place, remedy)


def _agrees(files: Sequence[File[LivesFile]], known: Mapping[str, Collection[str]]) -> Iterator[Finding]:
    """Every date and value is one that the entries of a vessel file have."""
    for kind in _blocks(files):
        yield from dates_there_are(kind, str(kind.block), known)


def dates_there_are(
    block: KindBlock | LineBlock, about: str, known: Mapping[str, Collection[str]]
) -> Iterator[Finding]:
    """What is wrong with the dates and values that lines name: those that `about`, gear and so on, has not."""
    own = sorted(known.get(f"key of {about}", ()))
    of_raft = sorted(known.get("key of raft", ())) if about in _OF_A_RAFT else []
    for inner in block.inner():
        yield from _dated(inner, about, own + of_raft if isinstance(inner, NotBeforeBlock) else own)
        if isinstance(inner, (KindBlock, LifeBlock, WindowBlock)):
            yield from _conditions(inner, about, known)


def _dated(block: Block, about: str, keys: list[str]) -> Iterator[Finding]:
    """What is wrong with the dates that a block names: keys that its entry has not."""
    for key, named in _dates_of(block):
        for number, said in enumerate(named):
            if said not in keys:
                place = block.place_in(key, number)
                yield _bad(place, f"a {about} has no key '{said}'", nearest(said, keys))


def _dates_of(block: Block) -> Iterator[tuple[str, Sequence[str]]]:
    if isinstance(block, LifeBlock):
        yield from (("from", block.from_), ("unless", block.unless))
    elif isinstance(block, NeedsBlock):
        yield "one-of", block.one_of
    elif isinstance(block, LineBlock):
        yield "marked", block.marked
    elif isinstance(block, AheadBlock):
        yield "of", block.of
    elif isinstance(block, (AgedBlock, NotBeforeBlock)):
        yield "since", (sure(block.since),)


def _conditions(
    block: KindBlock | LifeBlock | WindowBlock, about: str, known: Mapping[str, Collection[str]]
) -> Iterator[Finding]:
    """What is wrong with a `when`: keys that neither the entry nor its owners have, words that a key does not take."""
    asked = (about, *(("raft",) if about in _OF_A_RAFT else ()), "vessel")
    for key, said in block.when.items():
        place = block.when.places[key]
        owner = next((each for each in asked if key in known.get(f"key of {each}", ())), None)
        if owner is None:
            names = sorted({name for each in asked for name in known.get(f"key of {each}", ())})
            yield _bad(place, f"neither a {' nor a '.join(asked)} has a key '{key}'", nearest(key, names))
            continue
        allowed = known.get(f"word of {owner}.{key}")
        for word in said if allowed is not None else ():
            if word not in (allowed or ()):
                yield _bad(place, f"'{word}' is none of the words of '{key}'", nearest(word, allowed or ()))


LIVES: Shelf[LivesFile] = Shelf(
    "lives",
    "lives/*.yaml",
    LivesFile,
    "How long things last, from which of their dates, and who says so.",
    _gives,
    _holds_together,
    _agrees,
)


@dataclass(frozen=True)
class Life:
    """A life of `months` from the first given of the keys `since`; left out where a key of `unless` is given or `when` fails.

    `firm` says that what has outlived it stops publishing; `aged` is (key, months, life in months) for things older than so
    many months at the date counted from; `not_before` is (key of it or of its raft, months): it ends no earlier than so long after.
    """

    since: tuple[str, ...]
    months: int
    source: str
    edition: str
    standing: str
    firm: bool
    unless: tuple[str, ...]
    when: When
    year_end: bool
    aged: tuple[str, int, int] | None
    not_before: tuple[str, int] | None = None

    @functools.cached_property
    def since_in(self) -> tuple[tuple[str, str], ...]:
        """The keys of `since`, each behind the attribute of a block in which its date stands."""
        return tuple((_attribute(key), key) for key in self.since)


@dataclass(frozen=True)
class Needs:
    """One of these keys must be given."""

    one_of: tuple[str, ...]
    source: str


@dataclass(frozen=True)
class Window:
    """Months either side of the day due in which a service counts as done in time."""

    months: int
    when: When
    source: str


@dataclass(frozen=True)
class Ahead:
    """How many months ahead of today the dates `keys` can lie, all marked ones where none is named; `said` is who says so, and its standing."""

    keys: tuple[str, ...]
    months: int
    said: str


@dataclass(frozen=True)
class Line:
    """One thing looked at: `marked` are keys that are last days themselves; `routine` ends nothing, it is done again.

    `still_counts`: what passes is to be looked at, and the thing counts as aboard all the same. `brings` is "" where the
    dates say themselves what their last day brings.
    """

    what: str
    check: str
    marked: tuple[str, ...]
    lives: tuple[Life, ...]
    needs: Needs | None
    window: Window | None
    routine: bool
    still_counts: bool = False
    brings: str = ""
    ahead: tuple[Ahead, ...] = ()

    @functools.cached_property
    def marked_in(self) -> tuple[tuple[str, str], ...]:
        """The keys of `marked`, each behind the attribute of a block in which its date stands."""
        return tuple((_attribute(key), key) for key in self.marked)

    @functools.cached_property
    def dates(self) -> frozenset[str]:
        """The attributes whose dates its last days come from; a thing that has none of them has no last day by it, unless by a life of its own."""
        counted = (attribute for life in self.lives for attribute, _ in life.since_in)
        marked = (attribute for attribute, _ in self.marked_in)
        return frozenset((*marked, *counted, *(("last_service",) if "next-service" in self.marked else ())))

    @functools.cached_property
    def needed_in(self) -> tuple[str, ...]:
        """The attributes of one of which a value must be given; empty where nothing is needed."""
        return tuple(map(_attribute, self.needs.one_of)) if self.needs else ()

    def furthest(self, key: str) -> Ahead | None:
        """How far ahead the marked date `key` can lie; None where nothing is said of it."""
        return next((each for each in self.ahead if key in (each.keys or self.marked)), None)

    def brought_by(self, key: str) -> str:
        """What the last day brings that the date `key` says: again, decision, over; "" where it ends a life."""
        return self.brings or (AGAIN if self.routine or key in _DONE_AGAIN else "")


@dataclass(frozen=True)
class Kind:
    """A kind of thing and its lines."""

    name: str
    block: str
    with_: str
    when: When
    for_others: bool
    lines: tuple[Line, ...]

    @functools.cached_property
    def needy(self) -> tuple[Line, ...]:
        """The lines that need a date."""
        return tuple(line for line in self.lines if line.needs)


@dataclass(frozen=True)
class Lives:
    """Every kind by the block it belongs to, in the order of the files."""

    kinds: Mapping[str, tuple[Kind, ...]]

    @functools.cached_property
    def gear(self) -> Mapping[str, Kind]:
        """The kinds of gear by their names."""
        return {each.name: each for each in self.kinds[GEAR]}

    @functools.cached_property
    def other_gear(self) -> Kind:
        """How gear lasts of which nothing else is said."""
        return next(each for each in self.kinds[GEAR] if each.for_others)


def _attribute(key: str) -> str:
    return key.replace("-", "_")


def shelf() -> Lives:
    """The shelf as it stands in templates/lives; raises ShelfFault."""
    return lives_of(LIVES.files())


@functools.lru_cache(maxsize=64)
def lives_of(files: tuple[File[LivesFile], ...]) -> Lives:
    """The lives of files that are without fault."""
    kinds = [_kind(block) for block in _blocks(files)]
    return Lives({block: tuple(kind for kind in kinds if kind.block == block) for block in BLOCKS})


def _kind(block: KindBlock) -> Kind:
    marked = _MARKED_ON_GEAR if block.block == GEAR else ()
    plain = Line("", MARKED_CHECK, marked, (), None, None, routine=False)
    return Kind(
        sure(block.kind),
        sure(block.block),
        str(block.with_ or "").lower(),
        block.when,
        bool(block.for_others),
        tuple(_line(line, marked) for line in block.lines) or (plain,),
    )


def of_gear(name: str, lines: Iterable[LineBlock]) -> Kind:
    """How gear lasts whose own shelf says so."""
    return Kind(
        name, GEAR, "", {}, for_others=False, lines=tuple(_line(each, _MARKED_ON_GEAR) for each in lines)
    )


def _line(block: LineBlock, marked: tuple[str, ...]) -> Line:
    needs, window = block.needs, block.window
    return Line(
        str(block.what or ""),
        str(block.check or MARKED_CHECK),
        block.marked or marked,
        tuple(_life(life) for life in block.lives),
        Needs(needs.one_of, sure(needs.source)) if needs else None,
        Window(sure(window.months), window.when, sure(window.source)) if window else None,
        bool(block.routine),
        bool(block.still_counts),
        str(block.brings or ""),
        tuple(Ahead(each.of, sure(each.months), f"{each.source}; {each.standing}") for each in block.ahead),
    )


def _life(block: LifeBlock) -> Life:
    aged, later = block.aged, block.not_before
    return Life(
        block.from_,
        sure(block.months),
        sure(block.source),
        sure(block.edition),
        sure(block.standing),
        block.weight == "defect",
        block.unless,
        block.when,
        bool(block.year_end),
        (sure(aged.since), sure(aged.over), sure(aged.months)) if aged else None,
        (sure(later.since), sure(later.months)) if later else None,
    )


def kind_of_gear(what: str, lasts_as: str) -> Kind:
    """How a thing of the gear list lasts that is called `what` and lasts as the kind of this name, if as any."""
    kinds = shelf()
    found = kinds.gear.get(lasts_as)
    return found if found is not None and found.with_ in what.lower() else kinds.other_gear


def kind_of(block: str, owners: Iterable[Block | None]) -> Kind | None:
    """The first kind of a `block` other than gear; `owners` are asked for the values of `when`."""
    asked = tuple(owners)
    for kind in shelf().kinds[block]:
        if not kind.when or holds(kind.when, asked):
            return kind
    return None


def holds(when: When, owners: Iterable[Block | None]) -> bool:
    """Whether each value of `when` is that of the first of `owners` that has such a key."""
    if not when:
        return True
    asked = tuple(owners)
    for key, allowed in when.items():
        value = _value(key, asked).lower()
        if not any(value == each.lower() for each in allowed):
            return False
    return True


def _value(key: str, owners: Iterable[Block | None]) -> str:
    for owner in owners:
        if owner is not None and key in type(owner).fields:
            return str(getattr(owner, type(owner).fields[key].name) or "")
    return ""
