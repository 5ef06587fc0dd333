"""Wording: the standing text of a language, from templates/text/<language>; no printed sentence lives in Python."""

from __future__ import annotations

import functools
import re
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

from generator.reading.block import Block
from generator.reading.findings import Finding, Place, Weight
from generator.reading.nearest import nearest
from generator.reading.values import Keyed
from generator.shelves.faults import ShelfFault
from generator.shelves.folder import templates_folder
from generator.shelves.pages import FOLDER as PAGES
from generator.shelves.pages import Page, pages_in
from generator.shelves.shelf import ReadShelves, read_below
from generator.shelves.words import (
    FIRST_LANGUAGE,
    SLOT,
    Labels,
    ProcedureWords,
    Spelling,
    TradeWords,
    Words,
    shelves_of,
    slots,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from markdown_it import MarkdownIt

W = TypeVar("W", bound=Words)

LABELS, SPELLING, TRADE = "labels.yaml", "spelling.yaml", "trade.yaml"
_OPENS, _CLOSES = "\ue000", "\ue001"  # of nobody's alphabet
_SIGN = re.compile(f"{_OPENS}(\\d+){_CLOSES}")
_OWN = {SPELLING: "doubled."}  # what each language has of its own, as no other has it


@dataclass(frozen=True)
class Entry:
    """A text of a language and where it stands."""

    text: str
    place: Place


@dataclass(frozen=True)
class Sheet:
    """One file of a language: its texts by their keys joined with dots, and where each of its blocks begins."""

    block: Words
    texts: Mapping[str, Entry]
    blocks: Mapping[str, Place]

    def nearest_place(self, key: str) -> Place:
        """Where a text that is missing would stand: at the innermost block of its key that is there."""
        while key:
            key = key.rpartition(".")[0]
            if key in self.blocks:
                return self.blocks[key]
        return self.block.place()


class Catalogue:
    """The texts of one language: labels by key, the words of the procedures by their files, pages, spelling.

    A label of another file than labels.yaml has the file before its key: `choices.type.monohull`.
    """

    def __init__(self, language: str, templates: Path, shelves: ReadShelves | None = None) -> None:
        """Of the files below a folder of templates, or of `shelves` that were read already."""
        self.language = language
        self.folder = templates / "text" / language
        self.findings: list[Finding] = []
        self.sheets: dict[str, Sheet] = {}
        for shelf, files, findings in shelves or read_below(shelves_of(language), templates):
            if issubclass(shelf.kind, Words):
                self.findings += [*findings, *shelf.holds_together(files)]
                for file in files:
                    self.sheets[file.path.removeprefix(f"text/{language}/")] = _sheet(file.block)
                if language == FIRST_LANGUAGE and not files and not findings and "*" not in shelf.pattern:
                    self.findings.append(_not_there(f"templates/{shelf.pattern}"))
        self.pages, findings = pages_in(self.folder, f"templates/text/{language}")
        """The pages of standing text (Markdown) by their files."""
        self.findings += findings
        self.labels = {
            _label(name, key): entry.text
            for name, sheet in self.sheets.items()
            if not isinstance(sheet.block, (Spelling, ProcedureWords, TradeWords))
            for key, entry in sheet.texts.items()
        }

    @functools.cached_property
    def procedures(self) -> Mapping[str, ProcedureWords]:
        """The words of the procedures, and of what adds to them, by the stems of their files."""
        return {
            Path(name).stem: sheet.block
            for name, sheet in self.sheets.items()
            if isinstance(sheet.block, ProcedureWords)
        }

    def sheet_of(self, procedure: ProcedureWords) -> Sheet:
        """The same words with the place of each."""
        return _sheet(procedure)

    @property
    def told(self) -> frozenset[str]:
        """The files of which something is found."""
        return frozenset(each.place.file for each in self.findings)

    @functools.cached_property
    def months(self) -> tuple[str, ...]:
        """The names of the months."""
        return self._one(LABELS, Labels).months

    @functools.cached_property
    def spelling(self) -> Spelling:
        """The spelling alphabet."""
        return self._one(SPELLING, Spelling)

    @functools.cached_property
    def trade(self) -> TradeWords:
        """The words of the trade, explained."""
        return self._one(TRADE, TradeWords)

    def _one(self, name: str, kind: type[W]) -> W:
        block = self.sheets[name].block
        assert isinstance(block, kind)
        return block

    def shown(self, name: str) -> str:
        """A file of the language as findings name it."""
        return f"templates/text/{self.language}/{name}"

    def place_of(self, label: str) -> Place:
        """Where a label stands, or would stand if it were there."""
        file = label.partition(".")[0] + ".yaml"
        name, key = (file, label.partition(".")[2]) if file in self.sheets else (LABELS, label)
        sheet = self.sheets.get(name)
        if sheet is None:
            return Place(self.shown(name))
        key = f"texts.{key}" if "texts" in sheet.blocks else key
        return sheet.texts[key].place if key in sheet.texts else sheet.nearest_place(key)

    def say(self, key: str, **words: object) -> str:
        """The label of `key` with `words` filled in; raises KeyError where there is none, or a word is not given."""
        if key not in self.labels:
            raise KeyError(f"{self.language}: no label '{key}'")
        return fill(self.labels[key], _given(words))

    def page(self, name: str, facts: Mapping[str, bool], **words: object) -> str:
        """A page of standing text (Markdown) as HTML, its lines as far as they are so; raises KeyError where there is none."""
        file = f"{PAGES}/{name}.md"
        if file not in self.pages:
            raise KeyError(f"{self.language}: no page '{name}'")
        return filled_page(self.pages[file].printed(facts), _given(words))


def _given(words: Mapping[str, object]) -> Callable[[str], str]:
    return lambda slot: str(words[slot.replace("-", "_").replace(" ", "_")])


def _label(name: str, key: str) -> str:
    before = "" if name == LABELS else f"{Path(name).stem}."
    return before + key.removeprefix("texts.")


@functools.lru_cache(maxsize=256)
def _sheet(block: Words) -> Sheet:
    """The texts of a file, whatever its blocks, by their keys."""
    texts: dict[str, Entry] = {}
    blocks: dict[str, Place] = {}

    def add(path: str, value: Any, place: Place) -> None:
        if isinstance(value, str):
            texts[path] = Entry(value, place)
        elif isinstance(value, tuple):
            texts[path] = Entry(" ".join(value), place)
        elif isinstance(value, Keyed):
            blocks[path] = place
            for name, each in value.items():
                add(f"{path}.{name}", each, value.places[name])
        elif isinstance(value, Block):
            blocks[path] = place
            within(value, f"{path}.")

    def within(of: Block, before: str) -> None:
        for key, field in type(of).fields.items():
            value = of.__dict__.get(field.name)
            if key != "tally" and value is not None:
                add(before + key, value, of.key_place(key) if isinstance(value, Keyed) else of.place(key))

    within(block, "")
    return Sheet(block, texts, blocks)


@functools.cache
def catalogue(language: str = FIRST_LANGUAGE) -> Catalogue:
    """The catalogue of a language; raises ShelfFault with all that it lacks, has too much or says otherwise."""
    if language not in languages():
        place = Place(f"templates/text/{language}/{LABELS}")
        message = f"there is no language '{language}'; there are: {', '.join(languages())}"
        raise ShelfFault([_finding("file.unreadable", message, place, "write the language's folder")])
    read = Catalogue(language, templates_folder())
    faults = list(read.findings)
    if language != FIRST_LANGUAGE:
        faults += differences(catalogue(FIRST_LANGUAGE), read)
    if faults:
        raise ShelfFault(faults)
    return read


def languages() -> list[str]:
    """The languages on the shelf: each has a folder."""
    folders = (path for path in (templates_folder() / "text").glob("[!._]*") if path.is_dir())
    return sorted(path.name for path in folders)


def differences(first: Catalogue, other: Catalogue) -> Iterator[Finding]:
    """Every text that `first` has and `other` has not, the other way round, and every one whose slots differ."""
    for name in sorted({*first.sheets, *first.pages, *other.sheets, *other.pages}):
        told = other.shown(name) in other.told
        if name not in other.sheets and name not in other.pages:
            what = f"{len(first.sheets[name].texts)} texts" if name in first.sheets else "a page"
            yield from () if told else (_no_file(first, other, name, what),)
        elif name not in first.sheets and name not in first.pages:
            yield _too_much(first, other, name)
        elif name in first.sheets:
            yield from _between(name, first, other)
        elif not told:
            yield from _between_pages(first.pages[name], other.pages[name])


def _between_pages(ours: Page, theirs: Page) -> Iterator[Finding]:
    """What differs between the slots of a page in two languages."""
    if ours.slots.keys() != theirs.slots.keys():
        odd = [place for slot, place in theirs.slots.items() if slot not in ours.slots]
        yield _other_slots("the page", ours.text, theirs.text, odd[0] if odd else theirs.place())
    if ours.conditions.keys() != theirs.conditions.keys():
        listed = ", ".join(sorted(ours.conditions)) or "none"
        odd = [place for fact, place in theirs.conditions.items() if fact not in ours.conditions]
        yield _finding(
            "file.bad-value",
            f"the lines of the page hold by other facts than in the first language: {listed}",
            odd[0] if odd else theirs.place(),
            "end each line with the same <!-- when: ... --> as there",
        )


def _finding(check: str, message: str, place: Place, remedy: str) -> Finding:
    return Finding(check, Weight.DEFECT, message, place, remedy)


def _not_there(file: str) -> Finding:
    return _finding("file.missing-key", f"{file} is not there", Place(file), "write it")


def _no_file(first: Catalogue, other: Catalogue, name: str, what: str) -> Finding:
    message = f"the file is not there; {first.shown(name)} has {what}"
    return _finding("file.missing-key", message, Place(other.shown(name)), "write it")


def _too_much(first: Catalogue, other: Catalogue, name: str) -> Finding:
    message = f"nothing prints this file: {first.shown(name)} is not there"
    return _finding("file.unknown-key", message, Place(other.shown(name)), "remove it, or name it as there")


def _between(name: str, first: Catalogue, other: Catalogue) -> Iterator[Finding]:
    """What differs between a file of two languages."""
    own, shown = _OWN.get(name), first.shown(name)
    ours, theirs = first.sheets[name].texts, other.sheets[name].texts
    told = {each.place.key for each in other.findings if each.place.file == other.shown(name)}
    for key, entry in ours.items():
        if key in told or (own and key.startswith(own)):
            continue
        if key not in theirs:
            message = f"'{key.removeprefix('texts.')}' is missing; {shown} says: {entry.text}"
            place = other.sheets[name].nearest_place(key)
            yield _finding("file.missing-key", message, place, "write the text")
        elif sorted(set(slots(entry.text))) != sorted(set(slots(theirs[key].text))):
            what = f"'{key.removeprefix('texts.')}'"
            yield _other_slots(what, entry.text, theirs[key].text, theirs[key].place)
    for key, entry in theirs.items():
        if key not in ours and not (own and key.startswith(own)):
            said = key.removeprefix("texts.")
            message = f"nothing prints '{said}': {shown} has no such text"
            alike = nearest(said, [each.removeprefix("texts.") for each in ours])
            yield _finding("file.unknown-key", message, entry.place, alike)


def _other_slots(what: str, first: str, other: str, place: Place) -> Finding:
    def listed(text: str) -> str:
        return ", ".join(f"{{{slot}}}" for slot in sorted(set(slots(text)))) or "none"

    message = f"{what} has the slots {listed(other)} where the first language has {listed(first)}"
    return _finding("file.bad-value", message, place, "give it the same slots, in any order")


def fill(text: str, word: Callable[[str], str]) -> str:
    """`text` with each {slot} replaced by word(slot)."""
    return text if "{" not in text else SLOT.sub(lambda match: word(match[1]), text)


def filled_page(text: str, word: Callable[[str], str]) -> str:
    """Markdown with slots as HTML. What fills them is text: the boat's words are shown as typed, never obeyed."""
    from markdown_it.common.utils import escapeHtml

    # A slot becomes a sign that Markdown takes for a letter, as what fills it is; that comes in when all is HTML.
    words: list[str] = []

    def sign(slot: str) -> str:
        words.append(escapeHtml(word(slot)))
        return f"{_OPENS}{len(words) - 1}{_CLOSES}"

    return _SIGN.sub(lambda match: words[int(match[1])], markdown(fill(text, sign)))


def markdown(text: str) -> str:
    """Markdown as HTML; tags are shown as typed, never obeyed."""
    return str(_markdown().render(text))


@functools.cache
def _markdown() -> MarkdownIt:
    from markdown_it import MarkdownIt

    return MarkdownIt("commonmark", {"html": False})
