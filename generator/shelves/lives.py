"""The shelf of lives: how long each kind of thing lasts, from which of its dates, and who says so."""

from __future__ import annotations

import functools
import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path

from generator.reading.nodes import plain
from generator.reading.tree import read_file
from generator.shelves.folder import templates_folder

BLOCKS = ("gear", "service", "release", "beacon", "set", "lifejackets", "gas", "through-hull")
STANDINGS = ("read", "secondary", "common practice", "from memory, unverified")
_ONLY_RECOMMEND = STANDINGS[2:]
# What speaks for dates that a line names no check for: what is marked has passed; what is usual has passed.
MARKED_CHECK, USUAL_CHECK = "gear.expired", "dates.life"


@dataclass(frozen=True)
class Life:
    """A life of `months` from the first given of the keys `since`; left out where a key of `unless` is given or `when` fails.

    `firm` says that what has outlived it stops publishing; `aged` is (key, months, life in months) for things older than so
    many months at the date counted from.
    """

    since: tuple[str, ...]
    months: int
    source: str
    edition: str
    standing: str
    firm: bool
    unless: tuple[str, ...] = ()
    when: dict = field(default_factory=dict)
    year_end: bool = False
    aged: tuple[str, int, int] | None = None


@dataclass(frozen=True)
class Needs:
    """One of these keys must be given."""

    one_of: tuple[str, ...]
    source: str


@dataclass(frozen=True)
class Window:
    """Months either side of the day due in which a service counts as done in time."""

    months: int
    when: dict
    source: str


@dataclass(frozen=True)
class Line:
    """One thing looked at: `marked` are keys that are last days themselves; `routine` ends nothing, it is done again."""

    what: str
    check: str
    marked: tuple[str, ...]
    lives: tuple[Life, ...]
    needs: Needs | None
    window: Window | None
    routine: bool


@dataclass(frozen=True)
class Kind:
    """A kind of thing and its lines."""

    name: str
    block: str
    names: tuple[str, ...]
    words: re.Pattern | None
    with_: str
    when: dict
    lines: tuple[Line, ...]

    def is_called(self, what: str) -> bool:
        """Whether a thing of this name is of this kind."""
        if not self.names and self.words is None:
            return True
        called = any(what == name or what.startswith(f"{name},") for name in self.names)
        return (called or bool(self.words and self.words.search(what))) and self.with_ in what


@dataclass(frozen=True)
class Shelf:
    """Every kind by the block it belongs to, in the order of the file."""

    kinds: dict[str, tuple[Kind, ...]]


@functools.cache
def shelf() -> Shelf:
    """The shelf as it stands in templates/lives."""
    return read_shelf(templates_folder() / "lives" / "lives.yaml")


def read_shelf(path: Path) -> Shelf:
    """The shelf in a file; raises ValueError where the file is not as its head says."""
    tree, findings = read_file(path, path.name)
    if tree is None or findings:
        raise ValueError(f"{path.name}: {findings[0].message if findings else 'no tree'}")
    data = plain(tree)
    kinds = [_kind(each) for each in data["kinds"]]
    return Shelf({block: tuple(kind for kind in kinds if kind.block == block) for block in BLOCKS})


def _kind(data):
    name = data.get("kind", "?")
    _only(data, ("kind", "block", "names", "words", "with", "when", "lines"), name)
    if data["block"] not in BLOCKS:
        raise ValueError(f"{name}: there is no block '{data['block']}'")
    words = [re.escape(each.lower()) for each in data.get("words", ())]
    pattern = re.compile(rf"\b(?:{'|'.join(words)})\b") if words else None
    names = tuple(each.lower() for each in data.get("names", ()))
    return Kind(
        name,
        data["block"],
        names,
        pattern,
        data.get("with", ""),
        data.get("when", {}),
        tuple(_line(each, data["block"], name) for each in data["lines"]),
    )


def _line(data, block, name):
    _only(data, ("what", "check", "marked", "lives", "needs", "window", "routine"), name)
    marked = data.get("marked", ("expires", "next-service") if block == "gear" else ())
    needs, window = data.get("needs"), data.get("window")
    if needs:
        _only(needs, ("one-of", "source"), name)
    return Line(
        data.get("what", ""),
        data.get("check", MARKED_CHECK),
        tuple(marked),
        tuple(_life(each, name) for each in data.get("lives", ())),
        Needs(tuple(needs["one-of"]), needs["source"]) if needs else None,
        Window(int(window["months"]), window["when"], window["source"]) if window else None,
        data.get("routine") == "yes",
    )


def _life(data, name):
    _only(
        data,
        ("from", "months", "unless", "when", "year-end", "aged", "source", "edition", "standing", "weight"),
        name,
    )
    if data["standing"] not in STANDINGS or data["weight"] not in ("defect", "recommendation"):
        raise ValueError(
            f"{name}: a life has a standing ({', '.join(STANDINGS)}) and a weight (defect, recommendation)"
        )
    firm = data["weight"] == "defect"
    if firm and data["standing"] in _ONLY_RECOMMEND:
        raise ValueError(f"{name}: a life that is {data['standing']} only ever recommends")
    aged = data.get("aged")
    unless = data.get("unless", ())
    return Life(
        tuple(data["from"]),
        int(data["months"]),
        data["source"],
        data["edition"],
        data["standing"],
        firm,
        tuple(unless),
        data.get("when", {}),
        data.get("year-end") == "yes",
        (aged["since"], int(aged["over"]), int(aged["months"])) if aged else None,
    )


def _only(data, keys, name):
    unknown = set(data) - set(keys)
    if unknown:
        raise ValueError(f"{name}: no key is called {', '.join(sorted(unknown))}")


def kind_of(block: str, what: str, owners: Iterable) -> Kind | None:
    """The first kind of `block` that a thing called `what` belongs to; `owners` are asked for the values of `when`."""
    return next((kind for kind in _called(block, what) if not kind.when or holds(kind.when, owners)), None)


@functools.lru_cache(maxsize=4096)  # sister ships call their gear alike
def _called(block, what):
    name = what.lower()
    return tuple(kind for kind in shelf().kinds[block] if kind.is_called(name))


def holds(when: dict, owners: Iterable) -> bool:
    """Whether each value of `when` is that of the first of `owners` that has such a key."""
    return not when or all(
        _value(key, owners).lower() in [each.lower() for each in allowed] for key, allowed in when.items()
    )


def _value(key, owners):
    name = key.replace("-", "_")
    for owner in owners:
        if owner is not None and key in type(owner).fields:
            return str(getattr(owner, name) or "")
    return ""
