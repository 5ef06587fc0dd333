"""Whether the survey notices a mutant: something new at, or naming, what was changed, or a subject of which the file is silent now."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path

from generator.manual.composing import compose
from generator.manual.unsaid import not_said
from generator.reading.findings import Finding, in_order
from generator.shelves.languages import catalogue
from generator.survey.deferral import defer
from generator.survey.registry import COMPOSITION, DESCRIPTION, Sight, run
from generator.vessel.loading import load
from meanings.boats import OWN, VOYAGE, Boat
from meanings.classes import Rule, rule_of
from meanings.factory import voyage_of
from meanings.mutant import Mutant
from meanings.things import Thing, things

AS_OF = date(2026, 6, 1)
UNTOLD = ("steps.too-long",)
"""What tells of words alone: a finding of it is none of the meaning."""


class Judge:
    """One boat laid out in a folder; each mutant is written there, surveyed stage by stage, and taken back."""

    def __init__(self, boat: Boat, folder: Path) -> None:
        self.boat, self.folder = boat, folder / boat.name
        for name, data in boat.files.items():
            path = self.folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(data.encode() if isinstance(data, str) else data)
        self.sight = self._sight()
        self._silent = {each.key for each in not_said(self.sight.vessel)}
        self.own = things(boat.text(), OWN)
        self._known = {"": self._all()}

    def _sight(self) -> Sight:
        vessel, _ = load(self.folder, "")
        assert vessel is not None
        return Sight(vessel, AS_OF, AS_OF)

    def _all(self) -> set[tuple[str, str]]:
        return {(each.check, each.message) for stage in self._stages() for each in stage}

    def _stages(self) -> Iterator[list[Finding]]:
        """The findings stage by stage: whoever has seen enough asks no further. What is deferred counts as found."""
        vessel, findings = load(self.folder, "")
        yield findings
        if vessel is None or not vessel.vessel:
            return
        ends = getattr(vessel.voyage, "until", None) if vessel.voyage else None
        sight = Sight(vessel, AS_OF, max(AS_OF, getattr(ends, "last_day", AS_OF)))
        yield (described := run(DESCRIPTION, sight))
        manual, gaps = compose(vessel, AS_OF, sight.until, catalogue("en"), False, sight.reckoning)
        composed = [*gaps, *run(COMPOSITION, sight.composed(manual))]
        yield [*composed, *defer(vessel, in_order([*findings, *described, *composed]), AS_OF)[2]]

    def silent(self, mutant: Mutant) -> list[str]:
        """The subjects that the survey now tells as not said, where a change of the whole boat or a block that is gone made her silent."""
        gone = mutant.anywhere or mutant.operator == "removed"
        if not gone or mutant.file not in self.boat.files:
            return []
        path, sound = self.folder / mutant.file, self.boat.text(mutant.file)
        path.write_text(mutant.text(sound), encoding="utf-8")
        try:
            vessel, _ = load(self.folder, "")
            return [
                each.key
                for each in (not_said(vessel) if vessel is not None else ())
                if each.key not in self._silent
            ]
        finally:
            path.write_text(sound, encoding="utf-8")

    def noticed(self, mutant: Mutant) -> list[Finding]:
        """The new findings of the first stage that has one at the changed thing, or naming it; none where nothing is noticed."""
        lent = mutant.file == VOYAGE and VOYAGE not in self.boat.files
        path = self.folder / mutant.file
        sound = voyage_of(self.boat) if lent else self.boat.text(mutant.file)
        if lent and VOYAGE not in self._known:
            path.write_text(sound, encoding="utf-8")
            self._known[VOYAGE] = self._all()
        known = self._known[VOYAGE] if lent else self._known[""]
        path.write_text(mutant.text(sound), encoding="utf-8")
        try:
            for stage in self._stages():
                new = [
                    each
                    for each in stage
                    if (each.check, each.message) not in known and points_at(each, mutant)
                ]
                if new:
                    return new
            return []
        finally:
            path.unlink() if lent else path.write_text(sound, encoding="utf-8")

    def rule(self, mutant: Mutant) -> Rule | None:
        """Of which class a mutant is that nobody noticed."""
        there = self.own if mutant.file == OWN else [*self._things(mutant.file), *self.own]
        return rule_of(
            mutant, self.sight, [mutant.thing, *(each for each in there if each.path != mutant.thing.path)]
        )

    def _things(self, file: str) -> list[Thing]:
        return things(self.boat.text(file), file) if file in self.boat.files else []


def points_at(finding: Finding, mutant: Mutant) -> bool:
    """Whether a finding stands at the changed thing, or names it, or the family it belongs to."""
    if finding.check in UNTOLD:
        return False
    if mutant.anywhere:
        return True
    file = mutant.file.rpartition("/")[2]
    lines = {line for one in mutant.things for line in one.lines()}
    if mutant.operator == "doubled":
        lines |= {line + len(mutant.thing.lines()) for line in lines}  # the other of the two
    for place in (finding.place, *finding.also):
        if place.file.endswith(file) and place.line in lines:
            return True
    said = f"{finding.message} {finding.item} {finding.remedy}".lower()
    return any(name.lower() in said for name in mutant.names)
