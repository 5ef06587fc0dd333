"""Whether the survey notices a mutant: something new at, or naming, what was changed."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from meanings.boats import VOYAGE, Boat
from meanings.factory import voyage_of
from meanings.mutant import Mutant

from generator.publishing import Order, survey
from generator.reading.findings import Finding

AS_OF = date(2026, 6, 1)
UNTOLD = ("steps.too-long",)
"""What tells of words alone: a finding of it is none of the meaning."""


class Judge:
    """One boat laid out in a folder; each mutant is written there, surveyed, and taken back."""

    def __init__(self, boat: Boat, folder: Path) -> None:
        self.boat, self.folder = boat, folder / boat.name
        for name, data in boat.files.items():
            path = self.folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(data.encode() if isinstance(data, str) else data)
        self.sound = {file: self._known() for file in ("",)}

    def _known(self) -> set[tuple[str, str]]:
        return {(each.check, each.message) for each in self._surveyed()}

    def _surveyed(self) -> list[Finding]:
        return survey(self.folder, "", Order(AS_OF)).findings

    def new(self, mutant: Mutant) -> list[Finding]:
        """The findings that the sound boat has not; those of the whole survey only where reading and description are silent."""
        lent = mutant.file == VOYAGE and VOYAGE not in self.boat.files
        path = self.folder / mutant.file
        sound = voyage_of(self.boat) if lent else self.boat.text(mutant.file)
        if lent and VOYAGE not in self.sound:
            path.write_text(sound, encoding="utf-8")
            self.sound[VOYAGE] = self._known()
        known = self.sound[VOYAGE] if lent else self.sound[""]
        path.write_text(mutant.text(sound), encoding="utf-8")
        try:
            return [each for each in self._surveyed() if (each.check, each.message) not in known]
        finally:
            path.unlink() if lent else path.write_text(sound, encoding="utf-8")


def points_at(finding: Finding, mutant: Mutant) -> bool:
    """Whether a finding stands at the changed thing, or names it, or the family it belongs to."""
    if finding.check in UNTOLD:
        return False
    if mutant.anywhere:
        return True
    for place in (finding.place, *finding.also):
        if place.file.endswith(mutant.file.rpartition("/")[2]) and any(
            place.line in one.lines() for one in mutant.things
        ):
            return True
    said = f"{finding.message} {finding.item} {finding.remedy}".lower()
    return any(name.lower() in said for name in mutant.names)


def noticed(judge: Judge, mutant: Mutant) -> bool:
    """Whether the survey notices it."""
    return any(points_at(each, mutant) for each in judge.new(mutant))
