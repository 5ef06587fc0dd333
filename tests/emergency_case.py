"""An emergency as printed for a boat of some facts and a crew, in fixed words: what the invariants of emergencies look at."""

import functools
from dataclasses import dataclass, field

from fact_sample import CREWS, boats, steps_for, words_of
from raft_sample import rafts

from generator.manual.left_to_act import left
from generator.manual.procedures import holds
from generator.shelves.languages import catalogue
from generator.shelves.procedures import ShelfProcedure, shelf

EACH = 40
"""Boats of each crew."""


@dataclass(frozen=True)
class Line:
    """A step: what it says, where it stands, what it waits for."""

    id: str
    phase: int
    after: tuple[str, ...]
    duty: str
    place: str
    gear: tuple[str, ...]
    do: str
    unless: str = ""
    caution: str = ""
    why: str = ""

    @property
    def said(self):
        """All that it prints."""
        return f"{self.do} {self.unless} {self.caution} {self.why}"


@dataclass(frozen=True)
class Case:
    """One emergency of one boat. `leaves` are those whose facts hold, each with where it leads; `there` the procedures she has."""

    crew: str
    persons: int
    able: int
    facts: dict[str, bool]
    one: ShelfProcedure
    lines: tuple[Line, ...]
    title: str
    intro: str
    leaves: tuple[tuple[str, str], ...]
    end: str
    there: frozenset[str] = field(default=frozenset())

    @property
    def ids(self):
        """The names of its steps, in order."""
        return [line.id for line in self.lines]

    @property
    def told(self):
        """Every text with its name."""
        yield "intro", self.intro
        yield "end", self.end
        yield from (("leave", words) for words, _ in self.leaves)
        yield from ((line.id, line.said) for line in self.lines)

    def at(self, *parts):
        """Where the steps stand, from 0, whose names begin so after the dot, or are that where it ends in $."""
        return [
            number
            for number, name in enumerate(self.ids)
            if any(f"{name.partition('.')[2]}$".startswith(part) for part in parts)
        ]


@functools.cache
def cases():
    """Every emergency, and what follows it in the same form, of every boat of the sample."""
    formed = [one for one in shelf() if one.emergency or one.form.ends]
    return tuple(
        made
        for per, sample in (("vessel", boats), ("raft", rafts))
        for crew, facts in sample(EACH)
        for one in formed
        if one.per == per and (made := case(one, crew, facts)) is not None
    )


def case(one, crew, facts):
    """One of them, None where she has it not."""
    persons, able = CREWS[crew]
    steps = steps_for(one, facts, able)
    if steps is None:
        return None
    known = facts | left(able, one.form.counts_out)
    page = catalogue().procedures[one.id]
    intro = next((name for when, name in one.other_intro if holds(when, (), known)), "")
    end = next((each for each in one.form.ends if holds(each.when, (), known)), None)
    lines = []
    for step in steps:
        name, left_out = words_of(step, known)
        texts = catalogue().procedures[step.words_in].steps[name].texts
        said = {key: text for key, text in texts.items() if key not in left_out}
        lines.append(Line(step.id, step.phase, step.after, step.duty, step.place, step.gear, **said))
    there = {
        each.id
        for each in shelf()
        if (facts["raft"] if each.per == "raft" else holds(each.when, each.when_any, facts))
    }
    return Case(
        crew,
        persons,
        able,
        known,
        one,
        tuple(lines),
        str(page.title),
        str(page.intros[intro] if intro else page.intro or ""),
        tuple((page.leaves[each.words], each.to) for each in one.form.leaves if holds(each.when, (), known)),
        str(page.ends[end.words] if end.words else page.end) if end else "",
        frozenset(there),
    )
