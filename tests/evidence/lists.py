"""The lists of this folder, read as the shelves are: what published instructions ask for, what published accounts say goes wrong, what a professional found."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from pathlib import Path

from generator.manual import soundness
from generator.reading.block import Block, Fault
from generator.reading.fields import Many, Text
from generator.reading.names import OtherName, Reference, references, standing
from generator.shelves.faults import ShelfFault
from generator.shelves.folder import templates_folder
from generator.shelves.procedures import PROCEDURES
from generator.shelves.shelf import Shelf, Tallied, as_installed, faults
from generator.survey.registry import all_checks

HERE = Path(__file__).resolve().parent
SHORTEST_REASON = 16


class Answered(Block):
    """A row that is answered by something of ours, or by a reason why not."""

    reason = Text("What else is there to say, or why does nothing of ours answer it?")

    def answers(self) -> tuple[str, ...]:
        """What of ours answers it."""
        raise NotImplementedError

    def faults(self) -> Iterator[Fault]:
        """A row without an answer has a reason that says something."""
        if not self.answers() and len(str(self.reason or "")) < SHORTEST_REASON:
            yield Fault(
                "",
                "nothing answers this row, and no reason says why",
                "name what answers it, or write its reason",
            )


class Item(Answered):
    """One thing a published list asks for: the steps that say it, the page of the book that does, or the reason why not."""

    called = "item"
    item = Text("What is asked for?", required=True)
    steps = references("Which steps say it?", "step")
    page = Reference("Which page of the book says it?", "page")

    def answers(self) -> tuple[str, ...]:
        """Its steps and its page."""
        return (*self.steps, *([self.page] if isinstance(self.page, str) else []))


class Rule(Block):
    """A published list; `standing` is how far it was read."""

    called = "rule"
    rule = Text("Which list is it, in which publication?", required=True)
    standing = standing("How far was the list itself read?")
    items = Many(Item, "What does it ask for?", required=True, distinct=True)


class Coverage(Tallied):
    """Published lists of what emergency instructions must say."""

    coverage = Many(Rule, "Which lists are there?", required=True, distinct=True)


class Failure(Answered):
    """Something that goes wrong, who says so, the checks that look for it, and what else there is to say."""

    called = "failure"
    failure = Text("What goes wrong?", required=True)
    source = Text("Who says so?", required=True)
    checks = references("Which checks look for it?", "check")

    def answers(self) -> tuple[str, ...]:
        """Its checks."""
        return self.checks


class Failures(Tallied):
    """What goes wrong with one subject, as published."""

    subject = Text("What is it about?", required=True)
    failures = Many(Failure, "What goes wrong?", required=True, distinct=True)


class Unsaid(Block):
    """What no composed text may say any more, on boats of which some facts are so."""

    says = Text("Which words does no procedure say, as a pattern?", required=True)
    when = references("Of which boats: which facts must all be so?", to="fact", negatable=True)

    def faults(self) -> Iterator[Fault]:
        """A pattern is one."""
        try:
            re.compile(str(self.says))
        except re.error as fault:
            yield Fault("says", f"'{self.says}' is no pattern: {fault}", "write a regular expression")


class Finding(Answered):
    """One thing that a professional found in the text: what mends it, or who says that it is right as it is."""

    called = "row"
    row = OtherName("Under which letter and number is it told?", required=True)
    finding = Text("What was wrong?", required=True)
    steps = references("Which steps say it now?", "step")
    checks = references("Which checks look for it?", "check")
    page = Reference("Which page of the book says it?", "page")
    never = Many(Unsaid, "What is said no more?")
    source = Text("Who says so, where it was answered and not mended?")

    def answers(self) -> tuple[str, ...]:
        """Its steps, its checks and its page."""
        return (*self.steps, *self.checks, *([self.page] if isinstance(self.page, str) else []))


class Reading(Tallied):
    """What a professional found who read every step."""

    reading = Text("Who read what?", required=True)
    findings = Many(Finding, "What was found?", required=True, distinct=True)


COVERAGE = Shelf(
    "coverage",
    "coverage.yaml",
    Coverage,
    "What published instructions ask for, and where ours say it.",
    root="tests/evidence",
)
FAILURES = Shelf(
    "failures",
    "failures/*.yaml",
    Failures,
    "What goes wrong as published, and what looks for it.",
    root="tests/evidence",
)
READING = Shelf(
    "reading",
    "reading.yaml",
    Reading,
    "What a professional found in the steps, and what mends it.",
    root="tests/evidence",
)
SHELVES = (COVERAGE, FAILURES, READING)
SUBJECTS = ("raft", "station-bill", "carriage", "radio", "handling")


def known() -> dict[str, Sequence[str]]:
    """The names that the lists may refer to: steps, pages of the book, checks."""
    folder = templates_folder()
    steps = PROCEDURES.gives(as_installed(PROCEDURES, folder)[0])["step"]
    pages = [path.stem for pattern in ("book/*.html", "text/en/pages/*.md") for path in folder.glob(pattern)]
    return {**soundness.known(), "step": tuple(steps), "page": pages, "check": tuple(all_checks())}


def rules() -> tuple[Rule, ...]:
    """The published lists of coverage.yaml, in their order. Raises ShelfFault."""
    (file,) = _whole(COVERAGE)
    return tuple(file.block.coverage)


def failures() -> dict[str, tuple[Failure, ...]]:
    """The failures of failures/ by subject, in their order. Raises ShelfFault."""
    files = {each.stem: each.block for each in _whole(FAILURES)}
    return {str(files[name].subject): tuple(files[name].failures) for name in SUBJECTS}


def reading() -> Reading:
    """What reading.yaml holds. Raises ShelfFault."""
    (file,) = _whole(READING)
    return file.block


def _whole(shelf):
    files, findings = shelf.read(HERE)
    if found := faults([(shelf, files, findings)], known()):
        raise ShelfFault(found)
    return files
