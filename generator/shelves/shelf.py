"""A shelf: files of one kind below templates/, read as blocks by the one loader; its faults told all at once."""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path
from typing import Any, Generic, TypeVar

from generator.reading.block import Block
from generator.reading.fields import Count, Many, Named, Schema, Texts
from generator.reading.findings import Finding, Weight, in_order
from generator.reading.loader import Loader
from generator.reading.names import Known, unresolved
from generator.reading.nodes import Mapping as Tree
from generator.reading.nodes import Source
from generator.reading.schema import Writer
from generator.reading.tree import read, read_file
from generator.reading.values import Keyed
from generator.shelves.faults import ShelfFault
from generator.shelves.folder import templates_folder

B = TypeVar("B", bound=Block)

Names = Mapping[str, Iterable[str]]
"""Names by what references call their kind: {"duty": ["launch", …]}."""


@dataclass(frozen=True)
class File(Generic[B]):
    """One file of a shelf: its stem, its path below templates/ and what stands in it."""

    path: str
    block: B

    @property
    def stem(self) -> str:
        """The name of the file without its folder and ending."""
        return Path(self.path).stem


@dataclass(frozen=True)
class Shelf(Generic[B]):
    """Files of one `kind` of block: `pattern` is a glob below templates/, or below the folder that `root` names.

    `gives` says which names others may refer to; `holds_together` yields what is wrong between its files, `agrees` what is
    wrong with what they say of names that others give, where a plain reference cannot say it. Its schema lies beside its
    files, or in the folder that `schema_in` names.
    """

    name: str
    pattern: str
    kind: type[B]
    about: str
    gives: Callable[[Sequence[File[B]]], Names] = field(default=lambda _files: {})
    holds_together: Callable[[Sequence[File[B]]], Iterable[Finding]] = field(default=lambda _files: ())
    agrees: Callable[[Sequence[File[B]], Known], Iterable[Finding]] = field(default=lambda _files, _known: ())
    root: str = "templates"
    schema_in: str = ""

    def read(self, folder: Path) -> tuple[tuple[File[B], ...], tuple[Finding, ...]]:
        """Every file of the shelf below a folder of templates, by path, and what is wrong with each of them."""
        files: list[File[B]] = []
        findings: list[Finding] = []
        for path in sorted(folder.glob(self.pattern)):
            name = path.relative_to(folder).as_posix()
            tree, found = read_file(path, f"{self.root}/{name}")
            findings += found
            if tree is not None:
                file, wrong = self.read_tree(tree, name)
                files.append(file)
                findings += wrong
        return tuple(files), tuple(findings)

    def read_text(self, text: str, name: str) -> tuple[File[B] | None, tuple[Finding, ...]]:
        """The same for one file given as text."""
        tree, findings = read(text, Source(f"{self.root}/{name}"))
        if tree is None:
            return None, tuple(findings)
        file, found = self.read_tree(tree, name)
        return file, (*findings, *found)

    def read_tree(self, tree: Tree, name: str) -> tuple[File[B], tuple[Finding, ...]]:
        """The same for one file whose tree was read."""
        loader = ShelfLoader()
        block = loader.block(self.kind, tree, "")
        found = miscounted(block, block.tally) if isinstance(block, Tallied) else ()
        return File(name, block), (*loader.findings, *found)

    def files(self) -> tuple[File[B], ...]:
        """The files of the shelf as installed; raises ShelfFault."""
        files, findings = as_installed(self, templates_folder())
        if findings:
            raise ShelfFault(findings)
        return files

    def readable(self) -> tuple[File[B], ...]:
        """The same as far as they can be read: for what must be known of them while the faults of all shelves are told."""
        files, _ = as_installed(self, templates_folder())
        return files

    @property
    def schema_path(self) -> str:
        """Where its schema lies, below the folder that `root` names: the innermost folder that holds all its files."""
        parts = self.pattern.split("/")[:-1]
        folder = self.schema_in or "/".join(itertools.takewhile(lambda part: "*" not in part, parts))
        return f"{folder}/{self.name.replace(' ', '-')}.schema.json".lstrip("/")

    def schema(self) -> Schema:
        """The JSON Schema of a file of the shelf, for editors."""
        title = f"A file of the shelf of {self.name}"
        return Writer().whole(self.kind, title, self.about)


class ShelfLoader(Loader):
    """Reads a file of a shelf: every word is a value, and a blank is none."""

    whole = "a file of this shelf"


class Tallied(Block):
    """A file that says how often each of its optional keys stands in it, and how many entries its lists have together.

    Such a control total notices what no other rule can: a line, or a word of a list, that somebody deleted.
    """

    tally = Named(
        Count("How often does each key that may be left out stand in this file?", high=10_000),
        "How many entries and optional keys has this file?",
        required=True,
    )


def counted(block: Block) -> dict[str, int]:
    """How often each optional key stands in a block and those within; of lists, words and named values their entries."""
    totals: Counter[str] = Counter()
    for each in block.inner():
        for name, of in type(each).fields.items():
            value = each.__dict__.get(of.name)
            if value is None or name == "tally":
                continue
            if isinstance(of, (Many, Named, Texts)):
                totals[name] += _entries(value)
            elif not of.required:
                totals[name] += 1
    return dict(sorted(totals.items()))


def _entries(value: object) -> int:
    """How many entries a list has, or how many names, with what is listed or named below them."""
    if isinstance(value, Keyed):
        return len(value) + sum(map(_entries, value.values()))
    return len(value) if isinstance(value, (list, tuple)) else 0


def miscounted(block: Block, said: Keyed[int]) -> Iterator[Finding]:
    """A finding for each key whose number is not the one that the file itself gives."""
    there = counted(block)
    for name in sorted({*said, *there}):
        if said.get(name, 0) != there.get(name, 0):
            place = said.places.get(name, block.place("tally"))
            yield Finding(
                "file.bad-value",
                Weight.DEFECT,
                f"the tally says {said.get(name, 0)} times '{name}', and it stands here {there.get(name, 0)} times",
                place,
                f"look for what is gone or too many; if all is as meant, write {name}: {there.get(name, 0)}",
            )


@lru_cache(maxsize=64)
def as_installed(shelf: Shelf[B], folder: Path) -> tuple[tuple[File[B], ...], tuple[Finding, ...]]:
    """The files of a shelf below a folder of templates and what is wrong with each of them, read once."""
    return shelf.read(folder)


ReadShelves = Sequence[tuple[Shelf[Any], tuple[File[Any], ...], tuple[Finding, ...]]]
"""Shelves, the files of each and what is wrong with each of these."""


def read_below(shelves: Sequence[Shelf[Any]], folder: Path) -> ReadShelves:
    """The shelves below a folder of templates, read once."""
    return tuple((shelf, *as_installed(shelf, folder)) for shelf in shelves)


def on(shelf: Shelf[B], read_shelves: ReadShelves) -> tuple[File[B], ...]:
    """The files of one of the shelves that were read."""
    return next(files for each, files, _ in read_shelves if each is shelf)


def faults(read_shelves: ReadShelves, known: Names) -> list[Finding]:
    """What is wrong on shelves that were read, in order: in their files, between them, and names that nothing has.

    `known` are the names that the program itself gives, besides those of the shelves.
    """
    names: dict[str, set[str]] = {kind: set(given) for kind, given in known.items()}
    findings: list[Finding] = []
    for shelf, files, found in read_shelves:
        findings += [*found, *shelf.holds_together(files)]
        for kind, given in shelf.gives(files).items():
            names.setdefault(kind, set()).update(given)
    for shelf, files, _ in read_shelves:
        findings += shelf.agrees(files, names)
        for each in files:
            findings += unresolved(each.block, names)
    return in_order(findings)


def twice(blocks: Iterable[tuple[str, Block, str]]) -> Iterator[Finding]:
    """A finding for each (name, block, key) whose name an earlier one has."""
    seen: dict[str, Block] = {}
    for name, block, key in blocks:
        if name in seen:
            yield Finding(
                "file.bad-value",
                Weight.DEFECT,
                f"two are called '{name}'",
                block.place(key),
                "give each its own name, or keep the one that is true",
                also=(seen[name].place(key),),
            )
        seen.setdefault(name, block)
