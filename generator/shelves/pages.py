"""Pages: the standing text of a language, in Markdown, each page with the places of its slots."""

from __future__ import annotations

import functools
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.reading.findings import Finding, Place, Weight
from generator.reading.names import condition
from generator.reading.nodes import OF_A_SHELF
from generator.reading.tree import read_prose
from generator.shelves.words import BRACE, SLOT

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from pathlib import Path

FOLDER = "pages"
WHEN = re.compile(r"[ \t]*<!-- when: ([^<>]*?) -->")
"""At the end of a line: the facts of which all must be so for it to be printed. A blank line parts nothing there."""


@dataclass(frozen=True)
class Page:
    """A page as it stands in its file, which findings call `file`."""

    file: str
    text: str

    def place(self, at: int = 0) -> Place:
        """Where a character of the text stands."""
        line_start = self.text.rfind("\n", 0, at) + 1
        return Place(self.file, self.text.count("\n", 0, at) + 1, at - line_start + 1)

    @property
    def slots(self) -> dict[str, Place]:
        """The slots of the text, and where each stands first."""
        found: dict[str, Place] = {}
        for match in SLOT.finditer(self.text):
            found.setdefault(match[1], self.place(match.start()))
        return found

    @property
    def conditions(self) -> dict[str, Place]:
        """The facts that its lines name, and where each stands first."""
        found: dict[str, Place] = {}
        for match in WHEN.finditer(self.text):
            for said in match[1].split(","):
                found.setdefault(condition(said.strip())[0], self.place(match.start(1)))
        return found

    def printed(self, facts: Mapping[str, bool]) -> str:
        """The text without the lines that do not hold."""
        return "\n".join(WHEN.sub("", line) for line in self.text.split("\n") if all(_true(line, facts)))

    def faults(self) -> Iterator[Finding]:
        """What no page may be: blank, or with braces that are no slot."""
        if not self.text.strip():
            yield Finding(
                "file.blank-value", Weight.DEFECT, "the page is blank", self.place(), "write its text"
            )
        in_slots = {at for match in SLOT.finditer(self.text) for at in (match.start(), match.end() - 1)}
        for match in BRACE.finditer(self.text):
            if match.start() not in in_slots:
                yield Finding(
                    "file.bad-value",
                    Weight.DEFECT,
                    "a brace stands here that is of no slot",
                    self.place(match.start()),
                    "write a slot in small letters, without blanks at its ends: {boat}",
                )


def _true(line: str, facts: Mapping[str, bool]) -> Iterator[bool]:
    for match in WHEN.finditer(line):
        for said in match[1].split(","):
            name, wanted = condition(said.strip())
            yield facts[name] == wanted


@functools.lru_cache(maxsize=64)
def pages_in(folder: Path, shown: str) -> tuple[dict[str, Page], tuple[Finding, ...]]:
    """The pages of the language in a folder, which findings call `shown`, by their files, and what is wrong with them."""
    pages: dict[str, Page] = {}
    findings: list[Finding] = []
    for path in sorted((folder / FOLDER).glob("*")):
        if path.name.startswith("."):
            continue
        name = f"{FOLDER}/{path.name}"
        text, found = read_prose(path, f"{shown}/{name}", OF_A_SHELF)
        findings += found
        if text is not None:
            pages[name] = Page(f"{shown}/{name}", text)
            findings += pages[name].faults()
    return pages, tuple(findings)
