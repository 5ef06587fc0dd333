"""Procedures and their steps as the shelf of templates/procedures has them, those of every file that adds to one together."""

from __future__ import annotations

import functools
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

from generator.reading.findings import Finding
from generator.reading.values import given
from generator.shelves.faults import ShelfFault
from generator.shelves.procedure_faults import faults_between
from generator.shelves.procedure_files import (
    AT_HAND,
    GROWN,
    HALF_GROWN,
    MEMORY,
    DutyRow,
    Files,
    Placed,
    ProcedureFile,
    faces,
    together,
)
from generator.shelves.shelf import Names, Shelf

CARD = "station with a card"
"""What references call the stations at which procedures hang."""


@dataclass(frozen=True)
class ShelfWords:
    """Other words of a step: where all of `when` hold, those under `words` without `leaves_out`; "" is what the step has itself."""

    when: tuple[str, ...]
    words: str = ""
    leaves_out: tuple[str, ...] = ()
    source: str = ""
    standing: str = ""


@dataclass(frozen=True)
class ShelfStep:
    """A step as the shelf has it; `phase` orders steps of several files, `after` names steps that come before it.

    `part` is whose part it is in the raft's own party, where that is not said by what its duty takes over the side.
    `hold` names what the step takes off a raft: steps of one phase follow the order in which the boat's file lists its holds.
    `standing` is the lowest of all that the step says; `confirm` says when a professional is asked to confirm it, "" if never.
    """

    id: str
    phase: int
    source: str
    standing: str
    when: tuple[str, ...] = ()
    when_any: tuple[str, ...] = ()
    after: tuple[str, ...] = ()
    duty: str = ""
    gear: tuple[str, ...] = ()
    place: str = ""
    position: int = 0
    words_in: str = ""
    hold: str = ""
    confirm: str = ""
    part: str = ""
    other_words: tuple[ShelfWords, ...] = ()


class Steady(Protocol):
    """What says of a duty whether somebody can have another one beside it."""

    @property
    def id(self) -> str:
        """Its name."""

    @property
    def continuous(self) -> bool:
        """Whether it keeps its person where he is."""

    @property
    def apart_from(self) -> tuple[str, ...]:
        """The duties that nobody can do at the same time."""

    @property
    def goes_with(self) -> tuple[str, ...]:
        """The duties that are done before it, after it or beside it, where it is steady."""


def apart(one: Steady, other: Steady) -> bool:
    """Whether nobody can do two duties of an emergency at the same time: both are steady, or the shelf says so of one of them."""
    return (one.continuous and other.continuous) or other.id in one.apart_from or one.id in other.apart_from


def hinders(one: Steady, other: Steady) -> bool:
    """Whether one of two duties waits where a single person has both: they are apart, or one is steady and the other does not go with it."""
    return (
        apart(one, other)
        or (one.continuous and other.id not in one.goes_with)
        or (other.continuous and one.id not in other.goes_with)
    )


@dataclass(frozen=True)
class ShelfDuty:
    """A line of the bill as the shelf has it; `needs` is the ability it takes, `takes` what goes over the side with it.

    `apart_from`: the duties of the same emergency that nobody can do at the same time; `goes_with` those that a steady one leaves
    its person free for; `worse_with`: those that nobody has too while another is idle; `strength` it takes that of a grown-up; `from_age` in years; `seated`: somebody
    can do it who cannot move about; `senses` that it takes. `other_words`: under which name its words stand where all of these facts hold; the first that does is taken.
    """

    id: str
    essential: bool
    key: bool
    continuous: bool
    persons: int
    needs: str
    takes: str
    when: tuple[str, ...]
    other_words: tuple[tuple[tuple[str, ...], str], ...] = ()
    at_once: bool = False
    apart_from: tuple[str, ...] = ()
    from_age: int = GROWN
    seated: bool = False
    senses: tuple[str, ...] = ()
    goes_with: tuple[str, ...] = ()
    worse_with: tuple[str, ...] = ()
    strength: bool = False


@dataclass(frozen=True)
class ShelfLeave:
    """When a procedure is left for another one: under which name its words stand, for which, where all of `when` hold; that of another raft."""

    words: str
    to: str
    when: tuple[str, ...]
    source: str
    standing: str
    other_raft: bool = False


@dataclass(frozen=True)
class ShelfEnd:
    """Who says when it is over; `when` and `words` of one that is said in other words somewhere."""

    source: str
    standing: str
    when: tuple[str, ...] = ()
    words: str = ""


@dataclass(frozen=True)
class ShelfForm:
    """The common form of an emergency; of a procedure that has none, nothing is said.

    `urgency`: 1 seconds, 2 minutes, 3 hours, 0 not said; `likely_where`: one of these facts makes it likelier; `counts_out`: how many
    cannot act; `first_minute`: the last phase that belongs to it, 0 not said; `ends`: the first whose `when` holds, the general one last.
    `outside`: all gather in the open air then.
    """

    urgency: int = 0
    likely_where: tuple[str, ...] = ()
    counts_out: int = 0
    first_minute: int = 0
    leaves: tuple[ShelfLeave, ...] = ()
    ends: tuple[ShelfEnd, ...] = ()
    outside: bool = False


@dataclass(frozen=True)
class ShelfProcedure:
    """A procedure with the steps of its own file and of all files that add to it, but those that another takes, and what it takes.

    `own_people`: once in a raft, only those whom it carries can act in it. `aside`: nobody is sent on to it.
    `drilled`: on boats of which facts it is drilled; nothing: it is not. `sign`: the shapes drawn beside its title, as SVG.
    `when_over`: it follows every emergency.
    """

    id: str
    order: int
    per: str
    ground: str
    sign: str
    bill: str
    emergency: bool
    cards: tuple[str, ...]
    when: tuple[str, ...]
    when_any: tuple[str, ...]
    duties: tuple[ShelfDuty, ...]
    steps: tuple[ShelfStep, ...]
    own_people: bool = False
    aside: bool = False
    call_script: bool = False
    drilled: tuple[str, ...] = ()
    other_intro: tuple[tuple[tuple[str, ...], str], ...] = ()
    form: ShelfForm = ShelfForm()
    when_over: bool = False


def _named(files: Files) -> Names:
    return {
        "procedure": [str(each.block.procedure) for each in files if each.block.procedure is not None],
        "step": [str(step.id) for each in files for step in each.block.steps],
        CARD: sorted({station for each in files for station in each.block.cards}),
    }


@functools.lru_cache(maxsize=4)
def _faults_between(files: Files) -> tuple[Finding, ...]:
    return tuple(faults_between(files))


PROCEDURES = Shelf(
    "procedures",
    "procedures/**/*.yaml",
    ProcedureFile,
    "A procedure of the manual, or steps that a stowage or a hold adds to one.",
    gives=_named,
    holds_together=_faults_between,
)


@functools.cache
def shelf() -> tuple[ShelfProcedure, ...]:
    """All procedures of templates/procedures in their order; raises ShelfFault."""
    files = PROCEDURES.files()
    if faults := _faults_between(files):
        raise ShelfFault(faults)
    printed = faces(files)
    made = [_procedure(main.block, printed[str(main.block.procedure)]) for main, _ in together(files)]
    return tuple(sorted(made, key=lambda one: (one.order, one.id)))


def _procedure(main: ProcedureFile, printed: Sequence[Placed]) -> ShelfProcedure:
    name = str(main.procedure)
    return ShelfProcedure(
        name,
        given(main.order, 0),
        given(main.per, "vessel"),
        given(main.ground, "plain"),
        given(main.sign, ""),
        given(main.bill, name),
        main.emergency is True,
        main.cards,
        main.when,
        main.when_any,
        tuple(map(_duty, main.duties)),
        tuple(_step(each, number) for number, each in enumerate(printed)),
        main.own_people is True,
        main.aside is True,
        main.call_script is True,
        main.drilled,
        tuple((other.when, given(other.words, "")) for other in main.other_intro),
        _form(main),
        main.when_over is True,
    )


def _form(main: ProcedureFile) -> ShelfForm:
    end = main.end
    source, standing = (given(end.source, ""), given(end.standing, "")) if end is not None else ("", "")
    others = [
        ShelfEnd(given(each.source, source), given(each.standing, standing), each.when, given(each.words, ""))
        for each in main.other_end
    ]
    return ShelfForm(
        given(main.urgency, 0),
        main.likely_where,
        given(main.counts_out, 0),
        given(main.first_minute, 0),
        tuple(
            ShelfLeave(
                given(row.words, ""),
                given(row.to, ""),
                row.when,
                given(row.source, ""),
                given(row.standing, ""),
                given(row.other_raft, False),
            )
            for row in main.leaves
        ),
        (*others, ShelfEnd(source, standing)) if end is not None else (),
        main.outside is True,
    )


def confirmed(when: str, standing: str) -> str:
    """When a professional confirms a wording: as its file says, and what rests on memory alone when someone qualified is at hand."""
    return when or (AT_HAND if standing == MEMORY else "")


def _step(placed: Placed, position: int) -> ShelfStep:
    """A step of a file; what a file that adds asks of the boat, each of its steps does."""
    file, row, phase = placed
    adds = file.block.adds_to is not None
    when, when_any = (file.block.when, file.block.when_any) if adds else ((), ())
    return ShelfStep(
        given(row.id, ""),
        phase,
        given(row.source, ""),
        given(row.standing, ""),
        (*when, *row.when),
        when_any or row.when_any,
        row.after,
        given(row.duty, ""),
        row.gear,
        given(row.place_, ""),
        position,
        file.stem,
        given(row.hold, ""),
        confirmed(given(row.confirm, ""), given(row.standing, "")),
        given(row.part, ""),
        tuple(
            ShelfWords(
                each.when,
                given(each.words, ""),
                each.leaves_out,
                given(each.source, ""),
                given(each.standing, ""),
            )
            for each in row.other_words
        ),
    )


def _duty(row: DutyRow) -> ShelfDuty:
    return ShelfDuty(
        given(row.id, ""),
        row.essential is True,
        row.key is True,
        row.continuous is True,
        given(row.persons, 1),
        given(row.needs, ""),
        given(row.takes, ""),
        row.when,
        tuple((other.when, given(other.words, "")) for other in row.other_words),
        row.at_once is True,
        tuple(row.apart_from),
        given(row.from_age, GROWN if row.key is True or row.needs else HALF_GROWN),
        row.seated is True,
        tuple(row.senses),
        tuple(row.goes_with),
        tuple(row.worse_with),
        row.strength is True,
    )
