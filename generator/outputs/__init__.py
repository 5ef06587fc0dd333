"""The shelf of outputs: one file an output; each turns a Job into files in memory."""

from __future__ import annotations

from dataclasses import dataclass, field

PAPERS = ("A4", "A5", "Letter")


@dataclass(frozen=True)
class Job:
    """What is to be written: the manual, for which reader, on which paper."""

    manual: object
    reader: str
    paper: str = "A4"


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
    """Files by path inside the reader's folder, and what writing them showed; `reader` says for whom ("": not said)."""

    files: dict[str, bytes] = field(default_factory=dict)
    records: list[Record] = field(default_factory=list)
    reader: str = ""


class EngineMissing(Exception):
    """The PDF engine cannot run on this machine; the message says what brings what is missing."""
