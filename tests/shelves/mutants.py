"""Mutants of the shelves: one file with one thing deleted, misspelt or given a wrong value, and whether reading tells of it.

A mutant is made in the tree of a file and taken back when it has been looked at. Of prose (a source, a note, a text of a
language) wrong is what is blank, says nothing or has a slot misspelt: other words may be right. What people also call a thing has besides only
signs that no name has. A value that could be true, another word of the list or a figure within its bounds, is no mutant.
"""

from __future__ import annotations

import zlib
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from evidence import lists

from generator.manual.soundness import faults_among
from generator.manual.wording import gaps
from generator.reading.block import Block
from generator.reading.fields import Choice, Dated, Field, Many, Named, One, Single, Text, Texts, YesNo
from generator.reading.findings import Finding
from generator.reading.measures import AnyMeasure, Measured
from generator.reading.names import Name, OtherName, Reference
from generator.reading.nodes import Listing, Mapping, Node, Scalar
from generator.reading.tree import read_file
from generator.shelves.folder import templates_folder
from generator.shelves.index import SHELVES
from generator.shelves.languages import Catalogue
from generator.shelves.pages import pages_in
from generator.shelves.shelf import ReadShelves, Shelf, faults, read_below
from generator.shelves.words import FIRST_LANGUAGE, SLOT, Said, slots
from generator.survey.registry import all_checks

DELETED, ENTRY_DELETED, MISSPELT, NAME_MISSPELT = "deleted", "entry deleted", "misspelt", "name misspelt"
WRONG = "wrong value"
NOT_ON_THE_LIST, OUT_OF_BOUNDS = "a word not on the list", "out of bounds"
ALL = (*SHELVES, *lists.SHELVES)  # those of the program, and the evidence that is read as they are
OPERATORS = (DELETED, ENTRY_DELETED, MISSPELT, NAME_MISSPELT, WRONG)
SLOT_MISSPELT = "a slot misspelt"
NOTHING = "qwxz vlk"  # a word that no list has and nothing is called by

Way = Callable[[], Callable[[], None]]
"""Spoils a tree; what it gives takes that back."""


@dataclass(frozen=True)
class Mutant:
    """One thing spoilt: `how`, at which key path and line of which file of which shelf."""

    shelf: Shelf[Any]
    file: str
    path: str
    how: str
    line: int
    tree: Mapping
    way: Way

    @property
    def name(self) -> str:
        """What the lists of survivors call it."""
        return f"{self.file}: {self.path}: {self.how}"

    @property
    def operator(self) -> str:
        """The kind of change."""
        return self.how if self.how in OPERATORS else WRONG

    @property
    def number(self) -> int:
        """A number that is the same in each run, by which some are chosen."""
        return zlib.crc32(f"{self.name} {self.line}".encode())

    @contextmanager
    def made(self) -> Iterator[Mapping]:
        """The spoilt tree, whole again afterwards."""
        back = self.way()
        try:
            yield self.tree
        finally:
            back()


def mutants(shelf: Shelf[Any]) -> Iterator[Mutant]:
    """Every mutant of every file of a shelf, in the order of the files and their lines."""
    folder = folder_of(shelf)
    for path in sorted(folder.glob(shelf.pattern)):
        name = path.relative_to(folder).as_posix()
        tree, findings = read_file(path, f"{shelf.root}/{name}")
        assert tree is not None and not findings
        for key, how, node, way in _of_block(shelf.kind, tree, ""):
            yield Mutant(shelf, name, key, how, node.line + 1, tree, way)


def folder_of(shelf: Shelf[Any]) -> Path:
    """The folder below which the files of a shelf stand."""
    return templates_folder() if shelf in SHELVES else lists.HERE


class Judge:
    """Tells what is found when a mutant of a shelf is read: in its own file, else with all other shelves as the program does."""

    def __init__(self, shelf: Shelf[Any]) -> None:
        self.shelves = SHELVES if shelf in SHELVES else lists.SHELVES
        self.sound = read_below(self.shelves, folder_of(shelf))
        self.checks = tuple(all_checks())

    def found(self, mutant: Mutant) -> list[Finding]:
        """The findings that are not there without it; the sound shelves have none at all."""
        with mutant.made() as tree:
            file, findings = mutant.shelf.read_tree(tree, mutant.file)
            if findings:
                return list(findings)
            return self.between(
                [
                    (shelf, tuple(file if each.path == file.path else each for each in files), ())
                    if shelf is mutant.shelf
                    else (shelf, files, ())
                    for shelf, files, _ in self.sound
                ]
            )

    def between(self, shelves: ReadShelves) -> list[Finding]:
        """What is wrong with shelves that were read."""
        if self.shelves is not SHELVES:
            return faults(shelves, lists.known())
        words = Catalogue(FIRST_LANGUAGE, templates_folder(), shelves)
        return faults_among(shelves, self.checks) or [*gaps(words, shelves)]


def spoilt_pages() -> Iterator[tuple[str, str, bytes | None]]:
    """Every way to spoil a page of the first language: its file, how, and what then stands in it; None: it is gone."""
    folder = templates_folder() / "text" / FIRST_LANGUAGE
    for name, page in pages_in(folder, "en")[0].items():
        data = page.text.encode()
        yield name, "blank", b" \n"
        yield name, DELETED, None
        for at in range(0, len(data), max(1, len(data) // 8)):
            yield name, f"byte {at} spoilt", data[:at] + b"\xff" + data[at + 1 :]
        if page.slots:
            yield name, SLOT_MISSPELT, slot_misspelt(page.text).encode()
        yield name, "a slot too many", data + b"\n{qwxz}\n"
        for slot in page.slots:
            yield name, f"without the slot {slot}", page.text.replace(f"{{{slot}}}", "it").encode()


Spoilt = tuple[str, str, Node, Way]
"""A key path, how it is spoilt, where it stands, the way to spoil it."""


def _of_block(kind: type[Block], node: Mapping, path: str) -> Iterator[Spoilt]:
    for key in list(node.entries):
        here = f"{path}.{key}".lstrip(".")
        yield from _of_key(node, key, here)
        yield from _of_value(kind.fields[key], node, key, here)


def _of_key(node: Mapping, key: str, path: str, misspelt: str = MISSPELT) -> Iterator[Spoilt]:
    yield path, DELETED, node.keys[key], lambda: _without(node, key)
    spelt = next(each for each in _misspellings(key) if each not in node.entries)
    yield path, misspelt, node.keys[key], lambda: _renamed(node, key, spelt)


def _of_value(field: Field[Any], holder: Mapping | Listing, at: str | int, path: str) -> Iterator[Spoilt]:
    """Wrong values of what stands under a key or in a list, and what is spoilt within."""
    node = _at(holder, at)
    for how, other in _wrong(field, node):
        yield path, how, node, lambda other=other: _put(holder, at, other)
    if isinstance(field, Texts):
        if isinstance(node, Listing):
            yield from _entries(node, path)
            for number in range(len(node.items)):
                yield from _of_value(field.of, node, number, f"{path}[{number + 1}]")
        else:
            yield from _of_value(field.of, holder, at, path)
    elif isinstance(field, Named):
        for key in list(node.entries):
            yield from _of_key(node, key, f"{path}.{key}", NAME_MISSPELT)
            inside = _of_value if isinstance(field.inner, Field) else _of_entry
            yield from inside(field.inner, node, key, f"{path}.{key}")
    elif isinstance(field, Many):
        yield from _entries(node, path)
        for number, item in enumerate(list(node.items)):
            called = _called(field.block, item) or number + 1
            yield from _of_entry(field.block, node, number, f"{path}[{called}]")
    elif isinstance(field, One):
        yield from _of_entry(field.block, holder, at, path)


def _of_entry(kind: type[Block], holder: Mapping | Listing, at: str | int, path: str) -> Iterator[Spoilt]:
    """What is spoilt of a block that stands under a key, a name or in a list."""
    node = _at(holder, at)
    if isinstance(node, Mapping):
        yield from _of_block(kind, node, path)
    else:
        yield from _of_value(kind.fields[kind.shorthand], holder, at, path)


def _called(kind: type[Block], node: Node) -> str:
    """The name by which an entry of a list is told from the others, if it has one."""
    called = node.entries.get(kind.called) if isinstance(node, Mapping) else None
    return called.text if isinstance(called, Scalar) else ""


def _entries(node: Listing, path: str) -> Iterator[Spoilt]:
    for number, item in enumerate(node.items):
        yield f"{path}[{number + 1}]", ENTRY_DELETED, item, lambda number=number: _taken_out(node, number)


def _wrong(field: Field[Any], node: Node) -> Iterator[tuple[str, Node]]:
    """What cannot stand at a field, and how it is wrong."""
    word = _word(NOTHING, node)
    if isinstance(field, Single):
        yield from ((how, _word(text, node)) for how, text in _wrong_words(field, node))
    elif isinstance(field, (Texts, Many)):
        yield "a block", _block(node, word)
        yield "an empty list", Listing(node.line, node.column, node.source)
    elif isinstance(field, (Named, One)):
        yield "a word", word
        yield "an empty block", _block(node)
    else:
        raise TypeError(f"no way to spoil {field}")


def _wrong_words(field: Single[Any], node: Node) -> Iterator[tuple[str, str]]:
    """What cannot stand at a field of one value."""
    if field.kind == "text" or isinstance(field, Name):
        yield "left blank", ""
    if isinstance(field, Name):
        yield "a sign that names cannot have", "?!*"
        if isinstance(node, Scalar) and not isinstance(field, OtherName):
            yield NAME_MISSPELT, next(_misspellings(node.text))
    elif isinstance(field, (Choice, YesNo)):
        yield NOT_ON_THE_LIST, NOTHING
    elif isinstance(field, Reference):
        yield "a name nothing has", NOTHING
    elif field.kind != "text":
        yield "a wrong word", NOTHING
    if isinstance(field, (Said, Text)):
        yield "a word that says nothing", "tbd"
    if isinstance(field, Said) and isinstance(node, Scalar) and slots(node.text):
        yield SLOT_MISSPELT, slot_misspelt(node.text)
    if isinstance(field, AnyMeasure):
        yield "another dimension", "7 kW"
    elif isinstance(field, Measured):
        unit, factor = next(iter(field.units.items()))
        yield OUT_OF_BOUNDS, f"{field.high / factor * 10:.0f} {unit}"
    elif isinstance(field, Dated):
        yield OUT_OF_BOUNDS, "2026-13"
    elif hasattr(field, "high"):
        yield OUT_OF_BOUNDS, _beyond(field, node)


def _word(text: str, node: Node) -> Scalar:
    return Scalar(text, node.line, node.column, True, node.source)


def _block(node: Node, *words: Scalar) -> Mapping:
    made = Mapping(node.line, node.column, node.source)
    for word in words:
        made.keys[word.text] = made.entries[word.text] = word
    return made


def _beyond(field: Any, node: Node) -> str:
    """A figure, or a stretch, higher than any that the field takes."""
    high = f"{int(field.high) + 1}"
    return f"{field.low:g} to {high}" if isinstance(node, Scalar) and " to " in node.text else high


def slot_misspelt(text: str) -> str:
    """A text whose first slot has another name."""
    return SLOT.sub(lambda match: f"{{{next(_misspellings(match[1]))}}}", text, count=1)


def _misspellings(word: str) -> Iterator[str]:
    """A word with two of its letters swapped, else with one of them doubled."""
    for at in range(len(word) // 2, len(word) - 1):
        if word[at] != word[at + 1] and word[at : at + 2].isalnum():
            yield f"{word[:at]}{word[at + 1]}{word[at]}{word[at + 2 :]}"
    yield word + word[-1:]


def _at(holder: Mapping | Listing, at: Any) -> Node:
    return holder.entries[at] if isinstance(holder, Mapping) else holder.items[at]


def _put(holder: Mapping | Listing, at: Any, other: Node) -> Callable[[], None]:
    held: Any = holder.entries if isinstance(holder, Mapping) else holder.items
    before, held[at] = held[at], other

    def back() -> None:
        held[at] = before

    return back


def _taken_out(listing: Listing, at: int) -> Callable[[], None]:
    item = listing.items.pop(at)
    return lambda: listing.items.insert(at, item)


def _without(mapping: Mapping, key: str) -> Callable[[], None]:
    return _keyed(mapping, {each: each for each in mapping.entries if each != key})


def _renamed(mapping: Mapping, key: str, spelt: str) -> Callable[[], None]:
    return _keyed(mapping, {(spelt if each == key else each): each for each in mapping.entries})


def _keyed(mapping: Mapping, names: dict[str, str]) -> Callable[[], None]:
    """Gives a mapping other keys for the values it has."""
    entries, keys = mapping.entries, mapping.keys
    mapping.entries = {name: entries[key] for name, key in names.items()}
    mapping.keys = {name: keys[key] for name, key in names.items()}

    def back() -> None:
        mapping.entries, mapping.keys = entries, keys

    return back
