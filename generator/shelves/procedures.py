"""Procedures and their steps as the shelf of templates/procedures has them, those of every file that adds to one together."""

from __future__ import annotations

import functools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TypeVar

from generator.reading.block import Block, Fault
from generator.reading.fields import Choice, Count, Many, Text, Texts, YesNo
from generator.reading.findings import Finding, Place, Weight
from generator.reading.names import Name, Reference, references, standing
from generator.reading.nearest import nearest
from generator.reading.values import NotKnown
from generator.shelves.faults import ShelfFault
from generator.shelves.shelf import File, Names, Shelf, Tallied, twice
from generator.shelves.signs import Sign

RAFT, GRAB_BAG = "raft", "grab bag"
"""What a duty may take over the side."""

V = TypeVar("V")


class StepRow(Block):
    """One step: when it holds, in which order it comes, who does it, with what, where; and who says so."""

    called = "id"
    id = Name("What is it called: the file's name, a dot, a word or two?", required=True)
    phase = Count("In which part of the procedure does it come?", required=True)
    when = references("Which facts must all be so?", to="fact", negatable=True)
    when_any = references("Of which facts must one be so?", to="fact", negatable=True)
    after = Texts("Behind which steps does it always come?", of=Name("Behind which step?"))
    duty = Name("Whose duty is it, if not everybody's?")
    hold = Reference("What does it take off the raft?", to="hold")
    gear = references("What is taken for it?", to="gear")
    place_ = Reference("Where is it done?", to="word")
    confirm = YesNo("Is a professional asked to confirm its wording?")
    source = Text("Who says so?", required=True)
    standing = standing()


class DutyRow(Block):
    """One line of a station bill. A continuous duty keeps its person where he is; a key one needs a substitute."""

    called = "id"
    id = Name("What is it called?", required=True)
    essential = YesNo("Must somebody have it?", required=True)
    key = YesNo("Must somebody stand in for whoever has it?", required=True)
    continuous = YesNo("Does it keep its person where he is?", required=True)
    persons = Count("How many persons does it take?", low=1, high=10, required=True)
    needs = Reference("Which ability does it need?", to="ability")
    takes = Choice("What does it take over the side?", (RAFT, GRAB_BAG))
    when = references("Which facts must all be so?", to="fact", negatable=True)


class ProcedureFile(Tallied):
    """A procedure with its duties and steps, or steps that are added to another file's procedure."""

    procedure = Name("Which procedure is it?")
    adds_to = Reference("To which procedure does it add steps?", to="procedure")
    order = Count("Which place has it in the manual?")
    per = Choice("Is there one for the vessel, or for each raft?", ("vessel", "raft"))
    ground = Choice("On which ground is it printed?", ("plain", "lifesaving", "fire"))
    sign = Sign("What is drawn beside its title?")
    bill = Reference("Under which procedure's station bill are its duties, if not its own?", to="procedure")
    emergency = YesNo("Is it an emergency, one tap away?")
    own_people = YesNo("Do only those whom the raft carries act in it?")
    aside = YesNo("Is it what happens otherwise, to which nobody is sent on?")
    call_script = YesNo("Do the words of the call for help stand with it?")
    drilled = references("On boats of which facts is it drilled?", to="fact", negatable=True)
    cards = references("At which stations does it hang?", to="station")
    when = references("Which facts must all be so?", to="fact", negatable=True)
    when_any = references("Of which facts must one be so?", to="fact", negatable=True)
    duties = Many(DutyRow, "Which duties has it?", distinct=True)
    steps = Many(StepRow, "Which steps has it?", distinct=True, required=True)

    def faults(self) -> Iterator[Fault]:
        """A file is a procedure or adds to one; only a procedure has a place in the manual and duties."""
        if (self.procedure is None) == (self.adds_to is None):
            yield Fault(
                "procedure" if self.procedure is not None else "",
                "a file is either a procedure or adds to one",
                "write 'procedure' with its name, or 'adds-to' with the name of the procedure",
            )
        elif self.adds_to is not None:
            for key in (
                "order",
                "ground",
                "sign",
                "per",
                "bill",
                "emergency",
                "own-people",
                "aside",
                "call-script",
            ):
                yield from self._without(key)
            for key in ("drilled", "cards", "duties"):
                yield from self._without(key)
        else:
            for key in ("order", "ground", "sign"):
                if getattr(self, key) is None:
                    yield Fault("", f"'{key}' is missing: {type(self).fields[key].question}", f"write {key}")
        for step in self.steps:
            if self.when_any and step.when_any:
                message = f"the step '{step.id}' has when-any under a file's own"
                yield Fault("when-any", message, "say one of the two with a fact of its own")

    def _without(self, key: str) -> Iterator[Fault]:
        if getattr(self, key.replace("-", "_")) not in (None, (), []):
            yield Fault(key, f"'{key}' belongs to the procedure, not to a file that adds to it", "remove it")


@dataclass(frozen=True)
class ShelfStep:
    """A step as the shelf has it; `phase` orders steps of several files, `after` names steps that come before it.

    `hold` names what the step takes off a raft: steps of one phase follow the order in which the boat's file lists its holds.
    `standing` is the lowest of all that the step says; `confirm` marks a wording that a professional is asked to confirm.
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
    confirm: bool = False


@dataclass(frozen=True)
class ShelfDuty:
    """A line of the bill as the shelf has it; `needs` is the ability it takes, `takes` what goes over the side with it."""

    id: str
    essential: bool
    key: bool
    continuous: bool
    persons: int
    needs: str
    takes: str
    when: tuple[str, ...]


@dataclass(frozen=True)
class ShelfProcedure:
    """A procedure with the steps of its own file and of all files that add to it.

    `own_people`: once in a raft, only those whom it carries can act in it. `aside`: nobody is sent on to it.
    `drilled`: on boats of which facts it is drilled; nothing: it is not. `sign`: the shapes drawn beside its title, as SVG.
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


Files = Sequence[File[ProcedureFile]]


def together(files: Files) -> Iterator[tuple[File[ProcedureFile], Files]]:
    """Each procedure's own file, and it with those that add to it."""
    for each in files:
        if each.block.procedure is not None:
            name = str(each.block.procedure)
            yield each, [each, *(other for other in files if other.block.adds_to == name)]


def _named(files: Files) -> Names:
    return {
        "procedure": [str(each.block.procedure) for each in files if each.block.procedure is not None],
        "step": [str(step.id) for each in files for step in each.block.steps],
    }


def _hold_together(files: Files) -> Iterator[Finding]:
    own = {str(each.block.procedure): each.block for each, _ in together(files)}
    for each, _ in together(files):
        if each.block.procedure != each.stem:
            message = f"the file of '{each.block.procedure}' is called {each.stem}.yaml"
            yield _fault(each.block.place("procedure"), message, "call both the same: its words do too")
    yield from twice((name, each.block, "procedure") for each, _ in together(files) for name in _names(each))
    yield from twice((f"{each.stem}.yaml", each.block, "") for each in files)
    yield from twice((str(step.id), step, "id") for each in files for step in each.block.steps)
    for each in files:
        for step in each.block.steps:
            if not str(step.id).startswith(f"{each.stem}."):
                yield _fault(
                    step.place("id"),
                    f"'{step.id}' is no name of a step in {each.path.rpartition('/')[2]}",
                    f"begin it with '{each.stem}.': its words stand in the file of that name",
                )
    for main, parts in together(files):
        yield from _bill_has_the_duties(main.block, parts, own)
        yield from _order_can_be_kept([step for part in parts for step in part.block.steps])


def _names(file: File[ProcedureFile]) -> tuple[str, ...]:
    return (str(file.block.procedure),)


def _bill_has_the_duties(
    main: ProcedureFile, parts: Files, own: dict[str, ProcedureFile]
) -> Iterator[Finding]:
    """The duties that steps name stand in the procedure's bill; one that has no duties names another's bill."""
    bill = own.get(str(main.bill or main.procedure))
    if bill is None:  # such a name is found where references are
        return
    if main.bill is not None and not bill.duties:
        yield _fault(
            main.place("bill"),
            f"'{main.bill}' has no duties",
            nearest(str(main.bill), [name for name, each in own.items() if each.duties]),
        )
        return
    duties = [str(duty.id) for duty in bill.duties]
    for part in parts:
        for step in part.block.steps:
            if step.duty is not None and step.duty not in duties:
                remedy = nearest(str(step.duty), duties) if duties else "name the bill under 'bill'"
                yield _fault(
                    step.place("duty"), f"the bill of '{bill.procedure}' has no duty '{step.duty}'", remedy
                )


def _order_can_be_kept(steps: Sequence[StepRow]) -> Iterator[Finding]:
    """Steps come after steps of the same procedure, and none waits for itself."""
    known = {str(step.id): step for step in steps}
    for step in steps:
        for number, name in enumerate(step.after):
            if name not in known:
                place = step.place_in("after", number)
                yield _fault(place, f"there is no step '{name}' in this procedure", nearest(name, known))
    waiting = dict(known)
    while waiting:
        ready = [name for name, step in waiting.items() if not set(step.after) & waiting.keys()]
        if not ready:
            ready = _circle(waiting)
            place = waiting[ready[0]].place("after")
            round_ = ", ".join([*ready, ready[0]])
            yield _fault(place, f"steps wait for each other: {round_}", "take one name out of 'after'")
        for name in ready:
            del waiting[name]


def _circle(waiting: dict[str, StepRow]) -> list[str]:
    """Steps each of which comes after the next, and the last after the first."""
    path = [next(iter(waiting))]
    while True:
        following = next(name for name in waiting[path[-1]].after if name in waiting)
        if following in path:
            return path[path.index(following) :]
        path.append(following)


def _fault(place: Place, message: str, remedy: str) -> Finding:
    return Finding("file.bad-value", Weight.DEFECT, message, place, remedy)


@functools.lru_cache(maxsize=4)
def _faults_between(files: Files) -> tuple[Finding, ...]:
    return tuple(_hold_together(files))


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
    made = [_procedure(main.block, parts) for main, parts in together(files)]
    return tuple(sorted(made, key=lambda one: (one.order, one.id)))


def _procedure(main: ProcedureFile, parts: Files) -> ShelfProcedure:
    name = str(main.procedure)
    rows = [(part, row) for part in parts for row in part.block.steps]
    return ShelfProcedure(
        name,
        _known(main.order, 0),
        _known(main.per, "vessel"),
        _known(main.ground, "plain"),
        _known(main.sign, ""),
        _known(main.bill, name),
        main.emergency is True,
        main.cards,
        main.when,
        main.when_any,
        tuple(map(_duty, main.duties)),
        tuple(_step(part, row, number, part.block is not main) for number, (part, row) in enumerate(rows)),
        main.own_people is True,
        main.aside is True,
        main.call_script is True,
        main.drilled,
    )


def _step(file: File[ProcedureFile], row: StepRow, position: int, added: bool) -> ShelfStep:
    """A step of a file; what a file that adds asks of the boat, each of its steps does."""
    when, when_any = (file.block.when, file.block.when_any) if added else ((), ())
    return ShelfStep(
        _known(row.id, ""),
        _known(row.phase, 0),
        _known(row.source, ""),
        _known(row.standing, ""),
        (*when, *row.when),
        when_any or row.when_any,
        row.after,
        _known(row.duty, ""),
        row.gear,
        _known(row.place_, ""),
        position,
        file.stem,
        _known(row.hold, ""),
        row.confirm is True,
    )


def _duty(row: DutyRow) -> ShelfDuty:
    return ShelfDuty(
        _known(row.id, ""),
        row.essential is True,
        row.key is True,
        row.continuous is True,
        _known(row.persons, 1),
        _known(row.needs, ""),
        _known(row.takes, ""),
        row.when,
    )


def _known(value: V | NotKnown | None, otherwise: V) -> V:
    """A value that stands in the file, or what holds where the key is left out."""
    return otherwise if value is None or isinstance(value, NotKnown) else value
