"""Wording: the standing text of a language, from templates/text/<language>; no printed sentence lives in Python."""

from __future__ import annotations

import functools
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from generator.reading.findings import Finding, Place, Weight
from generator.reading.nearest import nearest
from generator.reading.tree import Mapping as Tree
from generator.reading.tree import Scalar, place_of, plain, read_file
from generator.shelves.faults import ShelfFault
from generator.shelves.folder import templates_folder

if TYPE_CHECKING:
    from markdown_it import MarkdownIt

FIRST_LANGUAGE = "en"
LABELS, SPELLING, PROCEDURES, PAGES = "labels.yaml", "spelling.yaml", "procedures", "pages"
_OWN = {SPELLING: "doubled."}  # what each language has of its own, as no other has it
_SLOT = re.compile(r"\{([a-z0-9][a-z0-9 -]*)\}")


@dataclass(frozen=True)
class Entry:
    """A text of a language and where it stands."""

    text: str
    place: Place


@dataclass(frozen=True)
class Sheet:
    """One file of a language: its texts by their keys joined with dots, and where each of its blocks begins."""

    name: str
    texts: Mapping[str, Entry]
    blocks: Mapping[str, Place]

    def nearest_place(self, key: str) -> Place:
        """Where a text that is missing would stand: at the innermost block of its key that is there."""
        while key:
            key = key.rpartition(".")[0]
            if key in self.blocks:
                return self.blocks[key]
        return self.blocks[""]


class Catalogue:
    """The texts of one language: labels by key, the words of the procedures by their files, pages, spelling.

    A label of another file than labels.yaml has the file before its key: `choices.type.monohull`.
    """

    def __init__(self, language: str, folder: Path):
        self.language = language
        self.folder = folder
        self.findings: list[Finding] = []
        self.sheets: dict[str, Sheet] = {}
        self.procedures: dict[str, dict[str, Any]] = {}
        self.spelling: dict[str, Any] = {}
        for path in sorted(folder.rglob("*.yaml")):
            self._read(path)
        self.labels = {
            _prefix(name) + key: entry.text
            for name, sheet in self.sheets.items()
            if _of_labels(name)
            for key, entry in sheet.texts.items()
        }
        self.pages = {
            path.relative_to(folder).as_posix(): path.read_text(encoding="utf-8")
            for path in sorted((folder / PAGES).glob("*.md"))
        }

    def _read(self, path: Path) -> None:
        name = path.relative_to(self.folder).as_posix()
        tree, findings = read_file(path, self.shown(name))
        self.findings += findings
        if tree is None:
            return
        self.sheets[name] = _sheet(name, tree, self.findings)
        if name == SPELLING:
            self.spelling = plain(tree)
        elif name.startswith(f"{PROCEDURES}/"):
            self.procedures[path.stem] = plain(tree)

    def shown(self, name: str) -> str:
        """A file of the language as findings name it."""
        return f"templates/text/{self.language}/{name}"

    def say(self, key: str, **words: object) -> str:
        """The label of `key` with `words` filled in; raises KeyError where there is none, or a word is not given."""
        if key not in self.labels:
            raise KeyError(f"{self.language}: no label '{key}'")
        return fill(self.labels[key], _given(words))

    def page(self, name: str, **words: object) -> str:
        """A page of standing text (Markdown) as HTML; raises KeyError where there is none."""
        file = f"{PAGES}/{name}.md"
        if file not in self.pages:
            raise KeyError(f"{self.language}: no page '{name}'")
        return markdown(fill(self.pages[file], _given(words)))


def _given(words: Mapping[str, object]) -> Callable[[str], str]:
    return lambda slot: str(words[slot.replace("-", "_").replace(" ", "_")])


def _of_labels(name: str) -> bool:
    return name != SPELLING and not name.startswith(f"{PROCEDURES}/")


def _prefix(name: str) -> str:
    return "" if name == LABELS else name.removesuffix(".yaml").replace("/", ".") + "."


def _sheet(name: str, tree: Tree, findings: list[Finding]) -> Sheet:
    """The texts of a file; what is no text, or blank, is told."""
    texts: dict[str, Entry] = {}
    blocks = {"": place_of(tree)}

    def walk(node: Tree, before: str) -> None:
        for key, value in node.entries.items():
            path = f"{before}{key}"
            if isinstance(value, Tree):
                blocks[path] = place_of(node.keys[key], path)
                walk(value, f"{path}.")
            elif isinstance(value, Scalar) and value.text.strip():
                texts[path] = Entry(value.text, place_of(value, path))
            else:
                findings.append(
                    _finding("file.blank-value", f"'{path}' says nothing", place_of(node.keys[key], path))
                )

    walk(tree, "")
    return Sheet(name, texts, blocks)


def _finding(check: str, message: str, place: Place, remedy: str = "write the text") -> Finding:
    return Finding(check, Weight.DEFECT, message, place, remedy)


@functools.cache
def catalogue(language: str = FIRST_LANGUAGE) -> Catalogue:
    """The catalogue of a language; raises ShelfFault with all that it lacks, has too much or says otherwise."""
    if language not in languages():
        here = Place(f"templates/text/{language}/{LABELS}")
        message = f"there is no language '{language}'; there are: {', '.join(languages())}"
        raise ShelfFault([_finding("file.unreadable", message, here, "write the language's folder")])
    read = Catalogue(language, templates_folder() / "text" / language)
    faults = [*read.findings]
    if language != FIRST_LANGUAGE:
        faults += differences(catalogue(FIRST_LANGUAGE), read)
    if faults:
        raise ShelfFault(faults)
    return read


def languages() -> list[str]:
    """The languages on the shelf."""
    return sorted(path.parent.name for path in (templates_folder() / "text").glob(f"*/{LABELS}"))


def differences(first: Catalogue, other: Catalogue) -> Iterator[Finding]:
    """Every text that `first` has and `other` has not, the other way round, and every one whose slots differ."""
    for name in sorted({*first.sheets, *other.sheets}):
        if name not in other.sheets:
            yield _no_file(first, other, name, f"{len(first.sheets[name].texts)} texts")
        elif name not in first.sheets:
            yield _too_much(first, other, name)
        else:
            yield from _between(first.sheets[name], other.sheets[name], first.shown(name))
    for name in sorted({*first.pages, *other.pages}):
        if name not in other.pages:
            yield _no_file(first, other, name, "a page")
        elif name not in first.pages:
            yield _too_much(first, other, name)
        elif sorted(set(slots(first.pages[name]))) != sorted(set(slots(other.pages[name]))):
            yield _other_slots("the page", first.pages[name], other.pages[name], Place(other.shown(name)))


def _no_file(first: Catalogue, other: Catalogue, name: str, what: str) -> Finding:
    message = f"the file is not there; {first.shown(name)} has {what}"
    return _finding("file.missing-key", message, Place(other.shown(name)), "write it")


def _too_much(first: Catalogue, other: Catalogue, name: str) -> Finding:
    message = f"nothing prints this file: {first.shown(name)} is not there"
    return _finding("file.unknown-key", message, Place(other.shown(name)), "remove it, or name it as there")


def _between(first: Sheet, other: Sheet, shown: str) -> Iterator[Finding]:
    own = _OWN.get(first.name)
    theirs = {key: entry for key, entry in other.texts.items() if not own or not key.startswith(own)}
    for key, entry in first.texts.items():
        if own and key.startswith(own):
            continue
        if key not in theirs:
            message = f"'{key}' is missing; {shown} says: {entry.text}"
            yield _finding("file.missing-key", message, other.nearest_place(key))
        elif sorted(set(slots(entry.text))) != sorted(set(slots(theirs[key].text))):
            yield _other_slots(f"'{key}'", entry.text, theirs[key].text, theirs[key].place)
        elif key == "months" and len(theirs[key].text.split()) != len(entry.text.split()):
            yield _finding("file.bad-value", "'months' names the twelve months in a row", theirs[key].place)
    for key, entry in theirs.items():
        if key not in first.texts:
            message = f"nothing prints '{key}': {shown} has no such text"
            yield _finding("file.unknown-key", message, entry.place, nearest(key, first.texts))


def _other_slots(what: str, first: str, other: str, place: Place) -> Finding:
    def listed(text: str) -> str:
        return ", ".join(f"{{{slot}}}" for slot in sorted(set(slots(text)))) or "none"

    message = f"{what} has the slots {listed(other)} where the first language has {listed(first)}"
    return _finding("file.bad-value", message, place, "give it the same slots, in any order")


def fill(text: str, word: Callable[[str], str]) -> str:
    """`text` with each {slot} replaced by word(slot)."""
    return _SLOT.sub(lambda match: word(match[1]), text)


def slots(text: str) -> list[str]:
    """The slots of a text."""
    return _SLOT.findall(text)


def markdown(text: str) -> str:
    """Markdown as HTML; tags are shown as typed, never obeyed."""
    return _markdown().render(text)


@functools.cache
def _markdown() -> MarkdownIt:
    from markdown_it import MarkdownIt

    return MarkdownIt("commonmark", {"html": False})
