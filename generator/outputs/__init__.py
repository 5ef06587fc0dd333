"""The shelf of outputs: one file an output; each turns a Job into files in memory."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from generator.manual.composing import Manual
from generator.manual.printing import Printer

PAPERS = ("A4", "A5", "Letter")


@dataclass(frozen=True)
class Job:
    """What is to be written: the manual, for which reader, on which paper."""

    manual: Manual
    reader: str
    paper: str = "A4"

    @property
    def printer(self) -> Printer:
        """Prints in the manual's language for the reader."""
        return replace(self.manual.printer, reader=self.reader)


@dataclass(frozen=True)
class Record:
    """Something the inspection looks at. `kind` is engine-warning, foreign-font, clipped-text, too-small, missing-glyph...

    `file` is the output file's path inside the reader's folder, `text` what was seen.
    """

    kind: str
    file: str
    text: str


@dataclass
class Made:
    """Files by path inside the reader's folder, and what writing them showed; `reader` says for whom ("": not said).

    `drawn` is all text on the pages of a file that does not hold it as text, a form feed between blocks.
    """

    files: dict[str, bytes] = field(default_factory=dict)
    records: list[Record] = field(default_factory=list)
    reader: str = ""
    drawn: dict[str, str] = field(default_factory=dict)


class EngineMissing(Exception):
    """The PDF engine cannot run on this machine; the message says what brings what is missing."""
