"""Which values a reader may not see, and which words are nobody's secret."""

from __future__ import annotations

import functools
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from generator.reading.block import READS, Block
from generator.reading.fields import Compound, Dated, Digits, Field
from generator.reading.measures import Count
from generator.reading.nodes import Listing, Mapping, Node, Scalar
from generator.reading.values import NotKnown
from generator.shelves.folder import templates_folder
from generator.survey.withheld.plain import Plain as Letters
from generator.survey.withheld.plain import plain, squeezed

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from collections.abc import Mapping as Map

    from generator.vessel.vessel import Vessel

NOBODY = ""
NO_VALUES = frozenset(("", "?", "~", "null", "unknown", "private"))
_OWN_TEXTS = (".yaml", ".md", ".html", ".j2", ".css")
_CAPITAL = re.compile(r"[^\W\d_]+")
_KEY_PATH = re.compile(r"[a-z-]+(\[[^\]]*\])?(\.[a-z-]+(\[[^\]]*\])?)+")
_KEY = re.compile(r"[a-z-]+")
MOST_OF_A_ROLE = 2  # words: more are no name of a role
_FAULTY = re.compile(r"line \d+\.\d+")
_NAMED = re.compile(r"\[([^\]]*)\]")


@dataclass(frozen=True)
class Withheld:
    """A value that a reader may not see, and the key path it stands under; `name`: it is what a person is called."""

    value: str
    key: str
    name: bool = False


@dataclass(frozen=True)
class Kept:
    """What is kept from a reader, and what stands in the way of an alarm.

    `shown` are values of a fixed form that the reader sees anyway (numbers, dates, words of a list), come to their letters;
    `own` the words that name the boat, her places and her roles.
    """

    values: tuple[Withheld, ...]
    shown: frozenset[str] = frozenset()
    own: frozenset[str] = frozenset()


def kept_from(reader: str, vessel: Vessel | None, lines: Map[str, str]) -> Kept:
    """What `reader` may not see of a vessel; `lines` are those of private.yaml, by key path, that are to be kept back besides."""
    found: dict[Withheld, None] = {}
    shown: set[str] = set()
    own = _own_words(vessel) if vessel is not None else []
    for block, field, readable in _fields(vessel, reader) if vessel is not None else ():
        if not readable:
            key = f"{block.path}.{field.key}".lstrip(".")
            found.update((Withheld(text, key, field.key == "name"), None) for text in _texts(block, field))
            continue
        said: dict[str, None] = {}
        _as_read(block.__dict__.get(field.name), said)
        shown.update(squeezed(plain(text).spaced) for text in said)
        own += said if block.is_freed(field) else ()
    for key, value in lines.items():
        found.update(dict.fromkeys(_of_line(key, value)))
    return Kept(tuple(found), frozenset(shown), plain(" ".join(own)).words)


def _fields(vessel: Vessel, reader: str) -> Iterator[tuple[Block, Field[Any], bool]]:
    """The fields with plain values that the reader may not see, or sees in a fixed form or because they are freed; and whether he may."""
    beside = (vessel.voyage, vessel.charter_base)  # which have files of their own
    waiting: list[tuple[Block, bool]] = [
        (vessel, True),
        *((each, True) for each in beside if each is not None),
    ]
    while waiting:
        block, open_ = waiting.pop()
        held = block.__dict__
        inner, closed, fixed = _sorted(type(block), reader if open_ else NOBODY)
        for field in inner:
            if field.name in held:
                readable = open_ and block.readable(field, reader)
                waiting += [(each, readable) for each in _blocks(held[field.name])]
        for field in closed:
            if field.key in _keys_of(block) or field.name in held:
                yield block, field, open_ and block.is_freed(field)
        for field in fixed:
            if field.name in held:
                yield block, field, True


_Fields = tuple[Field[Any], ...]
_SORTED: dict[tuple[type[Block], str], tuple[_Fields, _Fields, _Fields]] = {}


def _sorted(kind: type[Block], reader: str) -> tuple[_Fields, _Fields, _Fields]:
    """The fields of a kind of block: those that hold blocks, those with plain values kept from a reader, and the fixed ones that are not."""
    known = _SORTED.get((kind, reader))
    if known is None:
        every = kind.fields.values()
        inner = tuple(each for each in every if isinstance(each, Compound) and each.blocks is not None)
        bare = tuple(each for each in every if each not in inner)
        closed = tuple(each for each in bare if each.reader not in READS.get(reader, ()))
        fixed = tuple(
            each for each in bare if each not in closed and isinstance(each, (Digits, Dated, Count))
        )
        known = _SORTED[kind, reader] = inner, closed, fixed
    return known


def _keys_of(block: Block) -> Map[str, Node]:
    return block.node.entries if isinstance(block.node, Mapping) else {}


def _blocks(value: object) -> Iterator[Block]:
    if isinstance(value, Block):
        yield value
    elif isinstance(value, (list, dict)):
        for each in value.values() if isinstance(value, dict) else value:
            yield from _blocks(each)


def _texts(block: Block, field: Field[Any]) -> Iterator[str]:
    """A value as read and as typed: what could not be read is private all the same."""
    said: dict[str, None] = {}
    _as_read(block.__dict__.get(field.name), said)
    if isinstance(block.node, Mapping):
        _as_typed(block.node.entries.get(field.key), said)
    yield from (each for each in said if each.lower() not in NO_VALUES and each != block.path)


def _as_read(value: object, said: dict[str, None]) -> None:
    if isinstance(value, (list, tuple, dict)) and not hasattr(value, "written"):
        for each in value.values() if isinstance(value, dict) else value:
            _as_read(each, said)
    elif value is not None and not isinstance(value, (NotKnown, bool, Block)):
        said[str(value).strip()] = None


def _as_typed(node: Node | None, said: dict[str, None]) -> None:
    if isinstance(node, Scalar):
        said[node.text.strip()] = None
    elif isinstance(node, Mapping):
        _as_typed(node.entries.get("value"), said)
    elif isinstance(node, Listing):
        for each in node.items:
            _as_typed(each, said)


def _of_line(key: str, value: str) -> Iterator[Withheld]:
    """What a line of private.yaml keeps back: its value and the names in brackets of its key, all of the key where it is no key path."""
    path = _KEY_PATH.fullmatch(key)
    called = _NAMED.sub("[...]", key) if path else "a line of private.yaml"
    if value.strip().lower() not in NO_VALUES:
        yield Withheld(value.strip(), called, key.endswith("name"))
    if path is None and not _KEY.fullmatch(key) and not _FAULTY.fullmatch(key):
        yield Withheld(key.strip(), called)


def _own_words(vessel: Vessel) -> list[str]:
    """The words that name the boat, her places and her roles."""
    one, voyage = vessel.vessel, vessel.voyage
    names = [str(each) for each in (one.name, one.port, one.flag) if each] if one else []
    names += [str(each) for each in (voyage.from_, voyage.to) if each] if voyage else []
    names += [str(contact.who) for contact in vessel.contacts] + [str(raft.name) for raft in vessel.rafts]
    words = [word for name in names for word in _CAPITAL.findall(name) if word[0].isupper()]
    words += [role for person in vessel.people if len((role := str(person.role)).split()) <= MOST_OF_A_ROLE]
    words.append(vessel.slug.replace("-", " "))
    return words


_ONLY_READ = re.compile(r"(?m)^  (?:reads|called)\.[^\n]*\n(?:    [^\n]*\n)*")
"""Lists of words by which own words are read: nothing prints them."""


@functools.cache
def standing() -> Letters:
    """All that the program itself may print, in every language: labels, steps, sources, names of gear and spaces, pages."""
    texts = [
        _ONLY_READ.sub("", path.read_text(encoding="utf-8", errors="replace"))
        for path in sorted(templates_folder().rglob("*"))
        if path.suffix in _OWN_TEXTS and path.is_file()
    ]
    return plain("\n".join(texts))


def everywhere(kept: Iterable[Kept]) -> Kept:
    """What is kept back of several boats at once."""
    several = tuple(kept)
    return Kept(
        tuple(value for one in several for value in one.values),
        frozenset().union(*(one.shown for one in several)),
        frozenset().union(*(one.own for one in several)),
    )
