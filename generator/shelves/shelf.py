"""A shelf: files of one kind below templates/, read as blocks by the one loader; its faults told all at once."""

from __future__ import annotations

import itertools
import re
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property, lru_cache
from pathlib import Path
from typing import Any, Generic, TypeVar

from generator.reading.block import Block
from generator.reading.fields import Choice, Dated, Field, Many, Misread, Named, Schema, Texts, YesNo
from generator.reading.findings import Finding, Place, Weight, in_order
from generator.reading.loader import Loader
from generator.reading.measures import AnyMeasure, Count, Measured
from generator.reading.names import Figure, Known, Reference, unresolved
from generator.reading.nearest import meant
from generator.reading.nodes import OF_A_SHELF, Node, Source
from generator.reading.nodes import Mapping as Tree
from generator.reading.schema import Writer
from generator.reading.tree import read, read_file
from generator.reading.values import Keyed
from generator.shelves.faults import ShelfFault
from generator.shelves.folder import templates_folder

B = TypeVar("B", bound=Block)
T = TypeVar("T")

Names = Mapping[str, Iterable[str]]
"""Names by what references call their kind: {"duty": ["launch", …]}."""


class Files(tuple[T, ...]):
    """The files of a shelf as read; told apart as one thing, so that what is worked out of them is found again at once."""

    __slots__ = ()
    __hash__ = object.__hash__

    def __eq__(self, other: object) -> bool:
        return self is other


@dataclass(frozen=True, eq=False)
class File(Generic[B]):
    """One file of a shelf: its stem, its path below templates/ and what stands in it.

    `whole` is false where a name that others may refer to can be lost, for something could not be read; `told` are the keys
    of which something was said already, "*" if of any, `unread` lines and columns of what could not be read.
    """

    path: str
    block: B
    whole: bool = True
    told: frozenset[str] = frozenset()
    unread: frozenset[tuple[int, int]] = frozenset()

    @cached_property
    def stem(self) -> str:
        """The name of the file without its folder and ending."""
        return Path(self.path).stem


@dataclass(frozen=True, eq=False)
class Shelf(Generic[B]):
    """Files of one `kind` of block: `pattern` is a glob below templates/, or below the folder that `root` names.

    `gives` says which names others may refer to; `holds_together` yields what is wrong between its files, `agrees` what is
    wrong with what they say of names that others give, where a plain reference cannot say it. Its schema lies beside its
    files, or in the folder that `schema_in` names. A pattern without a star must find its file, any other one at least one,
    except where `complete` says that another tells of files that are missing.
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
    complete: bool = True
    _sound: list[tuple[Path, tuple[File[B], ...]]] = field(default_factory=list, init=False, repr=False)
    """The files last asked for, with their folder: checks ask some hundred times a boat."""

    def read(self, folder: Path) -> tuple[tuple[File[B], ...], tuple[Finding, ...]]:
        """Every file of the shelf below a folder of templates, by path, and what is wrong with each of them."""
        files: list[File[B]] = []
        findings: list[Finding] = []
        for path in sorted(folder.glob(self.pattern)):
            name = path.relative_to(folder).as_posix()
            tree, found = read_file(path, f"{self.root}/{name}", sort=OF_A_SHELF)
            findings += found
            if tree is not None:
                file, wrong = self.read_tree(tree, name, sound=not found)
                files.append(file)
                findings += wrong
        if self.complete and not files and not findings:
            findings.append(self._nothing_there())
        return Files(files), tuple(findings)

    def _nothing_there(self) -> Finding:
        """That none of the files is there which the pattern must find."""
        one = "*" not in self.pattern
        name = f"{self.root}/{self.pattern if one else self.folder}"
        message = f"{name} is not there" if one else f"there is no {Path(self.pattern).suffix} file in {name}"
        return Finding(
            "file.unreadable", Weight.DEFECT, message, Place(name), "put back the file as installed"
        )

    def read_text(self, text: str, name: str) -> tuple[File[B] | None, tuple[Finding, ...]]:
        """The same for one file given as text."""
        tree, findings = read(text, Source(f"{self.root}/{name}", sort=OF_A_SHELF))
        if tree is None:
            return None, tuple(findings)
        file, found = self.read_tree(tree, name, sound=not findings)
        return file, (*findings, *found)

    def read_tree(self, tree: Tree, name: str, sound: bool = True) -> tuple[File[B], tuple[Finding, ...]]:
        """The same for one file whose tree was read; `sound` if nothing was wrong with its form."""
        loader = ShelfLoader()
        block = loader.block(self.kind, tree, "")
        whole = sound and not loader.lost
        told = frozenset({*loader.told, *_keys_of(loader.findings), *(() if sound else ("*",))})
        found = miscounted(block, block.tally, told) if isinstance(block, Tallied) else ()
        return File(name, block, whole, told, frozenset(loader.unread)), (*loader.findings, *found)

    def files(self) -> tuple[File[B], ...]:
        """The files of the shelf as installed; raises ShelfFault."""
        folder = templates_folder()
        if self._sound and self._sound[0][0] is folder:
            return self._sound[0][1]
        files, findings = as_installed(self, folder)
        if findings:
            raise ShelfFault(findings)
        self._sound[:] = [(folder, files)]
        return files

    def readable(self) -> tuple[File[B], ...]:
        """The same as far as they can be read: for what must be known of them while the faults of all shelves are told."""
        files, _ = as_installed(self, templates_folder())
        return files

    @property
    def folder(self) -> str:
        """The innermost folder that holds all its files, below the folder that `root` names."""
        return "/".join(itertools.takewhile(lambda part: "*" not in part, self.pattern.split("/")[:-1]))

    @property
    def schema_path(self) -> str:
        """Where its schema lies, below the folder that `root` names."""
        return f"{self.schema_in or self.folder}/{self.name.replace(' ', '-')}.schema.json".lstrip("/")

    def schema(self) -> Schema:
        """The JSON Schema of a file of the shelf, for editors."""
        title = f"A file of the shelf of {self.name}"
        return Writer().whole(self.kind, title, self.about)


class ShelfLoader(Loader):
    """Reads a file of a shelf: every word is a value, and a blank is none."""

    whole = OF_A_SHELF.called

    def __init__(self) -> None:
        super().__init__()
        self.lost = 0  # what others may refer to
        self.told: set[str] = set()
        self.unread: set[tuple[int, int]] = set()

    def bad(self, node: Node, path: str, message: str, remedy: str, check: str = "file.bad-value") -> None:
        """The same; what stands there is lost."""
        super().bad(node, path, message, remedy, check)
        self.unread.add((node.line + 1, node.column + 1))
        self.lost += 1

    def misread(self, error: Misread, field: Field[Any], node: Node, path: str, key: str) -> None:
        """The same; a value that is no name of anything is no loss to others."""
        super().misread(error, field, node, path, key)
        self.lost -= _names_nothing(field)

    def special_word(self, field: Field[Any], node: Node, path: str, key: str) -> Any:
        """The same."""
        self.lost -= _names_nothing(field)
        return super().special_word(field, node, path, key)

    def _missing(self, field: Field[Any], node: Node, path: str) -> None:
        super()._missing(field, node, path)
        self.lost += not _names_nothing(field)

    def _unknown_key(self, kind: type[Block], node: Tree, key: str, path: str) -> None:
        super()._unknown_key(kind, node, key, path)
        near = meant(key, kind.fields)
        self.lost += not (near and _names_nothing(kind.fields[near]))
        self.told.update([near] if near else kind.fields)


def _names_nothing(field: Field[Any]) -> bool:
    """Whether no other can refer to what stands there."""
    return isinstance(field.of if isinstance(field, Texts) else field, _NO_NAMES)


_NO_NAMES = (Choice, YesNo, Count, Dated, Figure, Measured, AnyMeasure, Reference)


def _keys_of(findings: Iterable[Finding]) -> Iterator[str]:
    """The keys of which findings speak, each with those it stands below; "*" where what stands below could not be read."""
    for each in findings:
        yield from re.sub(r"\[[^\]]*\]", "", each.place.key).split(".")
        if " stands where " in each.message and each.check == "file.bad-value":
            yield "*"


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
        values = each.__dict__
        for key, name, listed in _tallied(type(each)):
            value = values.get(name)
            if value is not None:
                totals[key] += _entries(value) if listed else 1
    return dict(sorted(totals.items()))


_TALLIED: dict[type[Block], tuple[tuple[str, str, bool], ...]] = {}


def _tallied(kind: type[Block]) -> tuple[tuple[str, str, bool], ...]:
    """The keys of a kind of block that are counted, their attributes, and whether their entries are."""
    if kind not in _TALLIED:
        lists = {key: isinstance(of, (Many, Named, Texts)) for key, of in kind.fields.items()}
        _TALLIED[kind] = tuple(
            (key, of.name, lists[key])
            for key, of in kind.fields.items()
            if key != "tally" and (lists[key] or not of.required)
        )
    return _TALLIED[kind]


def _entries(value: object) -> int:
    """How many entries a list has, or how many names, with what is listed or named below them."""
    if isinstance(value, Keyed):
        return len(value) + sum(map(_entries, value.values()))
    return len(value) if isinstance(value, (list, tuple)) else 0


def miscounted(block: Block, said: Keyed[int], told: frozenset[str] = frozenset()) -> Iterator[Finding]:
    """A finding for each key whose number is not the one that the file itself gives; none for those told of already."""
    there = counted(block)
    for name in sorted({*said, *there} - told) if "*" not in told else ():
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
    """The shelves below a folder of templates, read once, and what lies among their files and is none of them."""
    strays = _strays(shelves, folder)
    return tuple(
        (shelf, files, (*found, *strays.get(shelf.name, ())))
        for shelf in shelves
        for files, found in [as_installed(shelf, folder)]
    )


def _strays(shelves: Sequence[Shelf[Any]], folder: Path) -> dict[str, list[Finding]]:
    """By the name of a shelf the files in its folder that belong to no shelf; pages, READMEs and schemas may lie there."""
    of_shelves = {path for shelf in shelves for path in folder.glob(shelf.pattern)}
    strays: dict[str, list[Finding]] = {}
    for shelf in shelves:
        if not shelf.folder or not shelf.complete:
            continue
        among = (folder / shelf.folder).glob("**/*" if "**" in shelf.pattern else "*")
        for path in sorted(each for each in among if each not in of_shelves and not each.is_dir()):
            if path.name == "README.md" or path.name.startswith(".") or path.name.endswith(_NO_STRAYS):
                continue
            of_shelves.add(path)
            endings = sorted({Path(each.pattern).suffix for each in shelves if each.folder == shelf.folder})
            strays.setdefault(shelf.name, []).append(
                Finding(
                    "file.unreadable",
                    Weight.DEFECT,
                    f"this is no file of this shelf; its files end in {' or '.join(endings)}"
                    if path.suffix not in endings
                    else "this is no file of this shelf",
                    Place(f"{shelf.root}/{path.relative_to(folder).as_posix()}"),
                    "rename it, or take it away",
                )
            )
    return strays


_NO_STRAYS = (".schema.json", ".html")


def whole(read_shelves: ReadShelves) -> bool:
    """Whether no name can be lost on shelves that were read: what they say of each other can be looked at."""
    return all(_whole(*each) for each in read_shelves)


def _whole(shelf: Shelf[Any], files: Iterable[File[Any]], found: Iterable[Finding]) -> bool:
    there = {f"{shelf.root}/{each.path}": each.whole for each in files}
    return all(there.values()) and all(each.place.file in there for each in found)


def on(shelf: Shelf[B], read_shelves: ReadShelves) -> tuple[File[B], ...]:
    """The files of one of the shelves that were read."""
    return next(files for each, files, _ in read_shelves if each is shelf)


def faults(read_shelves: ReadShelves, known: Names) -> list[Finding]:
    """What is wrong on shelves that were read, in order: in their files, between them, and names that nothing has.

    `known` are the names that the program itself gives, besides those of the shelves. Where a name can be lost, for something
    could not be read, only that is told: nothing is said of those who refer to it, nor of a value that could not be read.
    """
    names: dict[str, set[str]] = {kind: set(given) for kind, given in known.items()}
    findings: list[Finding] = [each for _, _, found in read_shelves for each in found]
    unread = {
        (f"{shelf.root}/{each.path}", *at)
        for shelf, files, _ in read_shelves
        for each in files
        for at in each.unread
    }
    lost: set[str] = set()
    between: list[Finding] = []
    for shelf, files, found in read_shelves:
        sound = _whole(shelf, files, found)
        between += shelf.holds_together(files) if sound else ()
        for kind, given in shelf.gives(files).items():
            names.setdefault(kind, set()).update(given)
            lost.update(() if sound else (kind,))
    all_whole = whole(read_shelves)
    lost.update(() if all_whole else {*known} - _NOT_FROM_SHELVES)
    for shelf, files, _ in read_shelves:
        between += shelf.agrees(files, names) if all_whole else ()
        for each in files:
            between += unresolved(each.block, names, lost)
    findings += (
        each for each in between if (each.place.file, each.place.line, each.place.column) not in unread
    )
    return in_order(findings)


_NOT_FROM_SHELVES = {"check", "ability"}  # the other names of the program come from shelves in part


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
