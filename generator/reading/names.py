"""Fields for the program's own shelves: names of things, references to them by others, plain figures, standings."""

from __future__ import annotations

import functools
import re
from collections.abc import Callable, Collection, Iterator, Mapping
from functools import partial
from typing import TYPE_CHECKING, Any, Unpack

from generator.reading.fields import Choice, Field, Misread, Named, Options, Schema, Single, Texts
from generator.reading.findings import Finding, Place, Weight
from generator.reading.nearest import nearest, shortened
from generator.reading.values import Keyed

if TYPE_CHECKING:
    from generator.reading.block import Block

STANDINGS = ("read", "quoted", "secondary", "common practice", "from memory, unverified")
"""How far a row was verified: in the rule itself, in another's quotation of it, at second hand, or not; none is law's word."""

_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ,/&().+-]*")


class Name(Single[str]):
    """What a thing is called by: letters, figures, blanks and hyphens, so that others can refer to it."""

    kind = "name"
    usual = "a name"

    def read(self, text: str) -> str:
        """The name as typed."""
        if not _NAME.fullmatch(text):
            raise Misread(
                f"'{shortened(text)}' is no name", "write it in letters, figures, blanks and hyphens"
            )
        return text


class OtherName(Name):
    """What people call a thing, or a part of what they call it: nothing refers to it, so that nothing can tell a slip of the pen."""


class Figure(Single[float]):
    """A plain number from `low` to `high`."""

    kind = "number"
    usual = "1"

    def __init__(self, question: str, *, low: float = 0.0, high: float = 1e6, **options: Unpack[Options]):
        super().__init__(question, **options)
        self.low, self.high = low, high

    def read(self, text: str) -> float:
        """The number."""
        if not re.fullmatch(r"-?[0-9]+(\.[0-9]+)?", text):
            raise Misread(
                f"'{shortened(text)}' is not a number", f"write it in figures, for example {self.example}"
            )
        value = float(text)
        if not self.low <= value <= self.high:
            raise Misread(
                f"{text} is outside what can be: {self.low:g} to {self.high:g}", "look at the figure again"
            )
        return value

    def schema(self) -> Schema:
        """A number in its range."""
        return {"type": "number", "minimum": self.low, "maximum": self.high}


class Reference(Single[str]):
    """The name of something that stands elsewhere: `to` says what kind, or which kinds, with "or" between them.

    `negatable` ones may be preceded by "not".
    """

    def __init__(self, question: str, to: str, *, negatable: bool = False, **options: Unpack[Options]):
        super().__init__(question, **options)
        self.to, self.negatable = to, negatable
        self.kind = to

    def read(self, text: str) -> str:
        """The name as typed; whether there is such a thing is seen when all shelves are read."""
        return text

    def bare(self, said: str) -> str:
        """The name without its "not"."""
        return condition(said)[0] if self.negatable else said


@functools.lru_cache(maxsize=4096)
def condition(said: str) -> tuple[str, bool]:
    """The name in a condition, and whether it is to be so: ("raft", False) of "not raft"."""
    name = said.removeprefix("not ")
    return name, name == said


def references(question: str, to: str, *, negatable: bool = False, **options: Unpack[Options]) -> Texts:
    """A list of names of things of one kind, or a single one."""
    return Texts(question, of=Reference(question, to, negatable=negatable), **options)


def standing(question: str = "How far was it verified?", **options: Unpack[Options]) -> Choice:
    """The one field for standings."""
    options.setdefault("required", True)
    return Choice(question, STANDINGS, **options)


Known = Mapping[str, Collection[str]]
"""The names there are, by the kind that references name."""


def unresolved(block: Block, known: Known, lost: Collection[str] = ()) -> Iterator[Finding]:
    """A finding for each name in a block, and in the blocks within, that nothing is called by.

    Nothing is said of kinds of which names may be `lost`.
    """
    for each in block.inner():
        for field in _referring(type(each)):
            for reference, said, place in _referred(each, field):
                kinds = reference.to.split(" or ")
                names = [known.get(kind, ()) for kind in kinds]
                if not any(kind in lost for kind in kinds) and not any(
                    reference.bare(said) in those for those in names
                ):
                    yield Finding(
                        "file.bad-value",
                        Weight.DEFECT,
                        f"there is no {reference.to} '{shortened(reference.bare(said))}'",
                        place(),
                        nearest(reference.bare(said), sorted({name for those in names for name in those})),
                    )


_REFER: dict[type[Block], tuple[Field[Any], ...]] = {}


def _referring(kind: type[Block]) -> tuple[Field[Any], ...]:
    """The fields of a kind of block under which names of other things may stand."""
    if kind not in _REFER:
        _REFER[kind] = tuple(
            field
            for field in kind.fields.values()
            if isinstance(field, (Reference, Named))
            or (isinstance(field, Texts) and isinstance(field.of, Reference))
        )
    return _REFER[kind]


_Where = Callable[[], Place]
"""Tells a place when it is asked for: of most names, which there are, nobody asks it."""


def _referred(block: Block, field: Field[Any]) -> Iterator[tuple[Reference, str, _Where]]:
    """Every name that a field of a block refers by, with its place."""
    value = block.__dict__.get(field.name)
    if value is None:
        return
    if isinstance(field, Reference) and isinstance(value, str):
        yield field, value, partial(block.place, field.key)
    elif isinstance(field, Texts) and isinstance(field.of, Reference):
        for number, said in enumerate(value):
            yield field.of, said, partial(block.place_in, field.key, number)
    elif isinstance(field, Named) and isinstance(value, Keyed):
        yield from _named(field, value)


def _named(field: Named[Any], value: Keyed[Any]) -> Iterator[tuple[Reference, str, _Where]]:
    if field.names is not None:
        for name in value:
            yield field.names, name, partial(value.places.__getitem__, name)
    inner = field.inner
    for name, each in value.items():
        if isinstance(inner, Named) and isinstance(each, Keyed):
            yield from _named(inner, each)
        elif isinstance(inner, Reference) and isinstance(each, str):
            yield inner, each, partial(value.places.__getitem__, name)
        elif isinstance(inner, Texts) and isinstance(inner.of, Reference):
            yield from ((inner.of, said, partial(value.places.__getitem__, name)) for said in each)
