"""Wording: the standing text of a language, from templates/text/<language>; no printed sentence lives in Python."""

from __future__ import annotations

import functools
import re
from datetime import date
from pathlib import Path

from generator.reading.nodes import plain
from generator.reading.tree import read_file
from generator.shelves.folder import templates_folder

FIRST_LANGUAGE = "en"
_SLOT = re.compile(r"\{([a-z0-9][a-z0-9 -]*)\}")


class MissingWording(Exception):
    """A text is missing in a language: a fault of the shelf, not of the boat's file."""


class Catalogue:
    """The labels, the procedures' words and the pages of one language."""

    def __init__(self, language: str, folder: Path):
        self.language = language
        self.folder = folder
        self.labels = _flat(_read(folder / "labels.yaml"))
        self.procedures = {path.stem: _read(path) for path in sorted((folder / "procedures").rglob("*.yaml"))}

    def say(self, key: str, **words) -> str:
        """The label of `key` with `words` filled in; raises MissingWording."""
        if key not in self.labels:
            raise MissingWording(f"{self.folder.name}: no label '{key}' in labels.yaml")
        return fill(self.labels[key], lambda slot: str(words[slot.replace("-", "_").replace(" ", "_")]))

    def day(self, when) -> str:
        """A date with its month in words; a Stamp to the month or year is printed as far as it goes."""
        months = self.labels["months"].split()
        if not isinstance(when, date) and when.year_alone:
            return str(when.year)
        if not isinstance(when, date) and when.day is None:
            return f"{months[when.month - 1]} {when.year}"
        return f"{when.day} {months[when.month - 1]} {when.year}"

    def page(self, name: str, **words) -> str:
        """A page of standing text (Markdown) as HTML."""
        path = self.folder / "pages" / f"{name}.md"
        if not path.is_file():
            raise MissingWording(f"{self.folder.name}: no page '{name}'")
        text = path.read_text(encoding="utf-8")
        return markdown(fill(text, lambda slot: str(words[slot.replace("-", "_").replace(" ", "_")])))


@functools.cache
def catalogue(language: str = FIRST_LANGUAGE) -> Catalogue:
    """The catalogue of a language; raises MissingWording where there is none."""
    folder = templates_folder() / "text" / language
    if not (folder / "labels.yaml").is_file():
        raise MissingWording(f"there is no language '{language}'; there are: {', '.join(languages())}")
    return Catalogue(language, folder)


def languages() -> list[str]:
    """The languages on the shelf."""
    return sorted(path.parent.name for path in (templates_folder() / "text").glob("*/labels.yaml"))


def fill(text: str, word) -> str:
    """`text` with each {slot} replaced by word(slot)."""
    return _SLOT.sub(lambda match: word(match[1]), text)


def slots(text: str) -> list[str]:
    """The slots of a text."""
    return _SLOT.findall(text)


def markdown(text: str) -> str:
    """Markdown as HTML; tags are shown as typed, never obeyed."""
    return _markdown().render(text)


@functools.cache
def _markdown():
    from markdown_it import MarkdownIt

    return MarkdownIt("commonmark", {"html": False})


def missing(language: str) -> list[str]:
    """What the first language has and `language` has not: label keys, step ids, the spelling alphabet, pages."""
    first, other = catalogue(FIRST_LANGUAGE), catalogue(language)
    lost = [f"labels: {key}" for key in first.labels if key not in other.labels]
    for name, words in first.procedures.items():
        theirs = _flat(other.procedures.get(name, {}))
        lost += [f"{name}: {key}" for key in _flat(words) if key not in theirs]
    if not (other.folder / "spelling.yaml").is_file():
        lost.append("spelling.yaml")
    pages = {path.name for path in (other.folder / "pages").glob("*.md")}
    return lost + [
        f"page: {path.name}"
        for path in sorted((first.folder / "pages").glob("*.md"))
        if path.name not in pages
    ]


def _read(path):
    tree, findings = read_file(path, path.name)
    if tree is None or findings:
        raise MissingWording(
            f"{path.name} cannot be read: {'; '.join(f'{each.place}: {each.message}' for each in findings)}"
        )
    return plain(tree)


def _flat(tree, before=""):
    flat = {}
    for key, value in tree.items():
        if isinstance(value, dict):
            flat.update(_flat(value, f"{before}{key}."))
        elif isinstance(value, str):
            flat[before + key] = value
    return flat
