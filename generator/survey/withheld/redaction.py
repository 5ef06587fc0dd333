"""Redaction: nothing that is kept from guests passes into what is told of a boat, on the terminal, in reports, in a trace."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from generator.survey.withheld.matching import Matcher
from generator.survey.withheld.plain import placed, plain
from generator.survey.withheld.values import Kept, everywhere, kept_from
from generator.vessel.private_file import lines_in

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from generator.reading.findings import Finding, Place
    from generator.vessel.vessel import Vessel

IN_PLACE = "[private]"


class Redactor:
    """Writes IN_PLACE where a value stands that is kept back. What is known of a boat is looked up once there is something to tell."""

    def __init__(self, *boats: tuple[Path, Vessel | None]) -> None:
        self._boats = boats
        self._matcher: Matcher | None = None

    @property
    def matcher(self) -> Matcher:
        """What finds the values."""
        if self._matcher is None:
            self._matcher = Matcher(everywhere(kept_back_of(*boat) for boat in self._boats))
        return self._matcher

    def text(self, text: str) -> str:
        """A text without them."""
        if not text.strip() or next(self.matcher.found(plain(text)), None) is None:
            return text
        letters = placed(text)
        for start, end in reversed(self.matcher.spans(letters)):
            before = text[: letters.at[start]].removesuffix("+")
            text = before + IN_PLACE + text[letters.at[end - 1] + 1 :]
        return text

    def findings(self, findings: Iterable[Finding]) -> list[Finding]:
        """Findings without them, in their words, the name of their thing and their key paths."""
        told = list(findings)
        if not told or next(self.matcher.found(plain("\f".join(map(_all_said, told)))), None) is None:
            return told
        return [self._finding(each) for each in told]

    def place(self, place: Place) -> Place:
        """A place without them; the path that was given on the command line stays, and so does every name the program gives."""
        return replace(place, file=self._file(place.file), key=self.text(place.key))

    def _file(self, file: str) -> str:
        before, mark, name = file.rpartition("/")
        return f"{before}{mark}{self.text(name)}"

    def _finding(self, finding: Finding) -> Finding:
        return replace(
            finding,
            message=self.text(finding.message),
            remedy=self.text(finding.remedy),
            item=self.text(finding.item),
            place=self.place(finding.place),
            also=tuple(map(self.place, finding.also)),
        )


def kept_back_of(folder: Path, vessel: Vessel | None) -> Kept:
    """What is kept from guests of a boat: of her description as far as it could be read, and everything in her private.yaml."""
    return kept_from("guest", vessel, lines_in(folder))


def _all_said(finding: Finding) -> str:
    places = (finding.place, *finding.also)
    return "\f".join(
        (
            finding.message,
            finding.remedy,
            finding.item,
            *(part for each in places for part in (each.file, each.key)),
        )
    )
