"""What must hold between the files of procedures for every duty, step and procedure to be found."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.reading.findings import Finding, Place, Weight
from generator.reading.nearest import nearest
from generator.shelves.emergency_form import faults_of_one
from generator.shelves.procedure_files import Files, Placed, ProcedureFile, StepRow, faces, together
from generator.shelves.rows import alike, contradiction
from generator.shelves.shelf import File, twice


def faults_between(files: Files) -> Iterator[Finding]:
    """What is wrong between the files of all procedures."""
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
            for other in (other for other in step.other_words if other.words is not None):
                if not str(other.words).startswith(f"{each.stem}."):
                    yield _fault(
                        other.place("words"),
                        f"'{other.words}' is no name of words in {each.path.rpartition('/')[2]}",
                        f"begin it with '{each.stem}.': they stand in the file of that name",
                    )
    printed = faces(files)
    for main, parts in together(files):
        yield from _bill_has_the_duties(main.block, parts, own)
        yield from _order_can_be_kept([step for part in parts for step in part.block.steps])
        steps = printed[str(main.block.procedure)]
        timed = [(str(each.row.id), each.phase, each.row.after, each.row) for each in steps]
        yield from faults_of_one(main.block, str(main.block.procedure), timed)
    yield from _each_step_is_printed_once(files, own, printed)
    over = [main.block for main, _ in together(files) if main.block.when_over is True]
    for another in over[1:]:
        yield contradiction(
            another.place("when-over"),
            f"'{over[0].procedure}' follows every emergency already",
            "keep the one that is true",
            over[0].place("when-over"),
        )
    yield from _duties_are_apart_from_duties(files)
    yield from _each_in_its_place(files)
    yield from _every_duty_is_done(files, own)
    yield from _each_is_reached(files)


def _each_step_is_printed_once(
    files: Files, own: dict[str, ProcedureFile], printed: dict[str, list[Placed]]
) -> Iterator[Finding]:
    """What a procedure takes from another is there, of the same raft and bill, and taken by no third; something is left of the other."""
    at: dict[tuple[str, int], Place] = {}
    for main, _ in together(files):
        for row in main.block.takes:
            other, here = own.get(str(row.of)), row.place("of")
            if other is None:  # told where references are
                continue
            if other is main.block:
                yield _fault(here, f"'{row.of}' takes steps of itself", "name another procedure")
            elif _parted(other, main.block, own):
                message = f"'{main.block.procedure}' prints steps of '{row.of}', and 'per' or 'bill' is not the same"
                yield contradiction(here, message, "write both alike", other.place("procedure"))
            elif not any(each.phase in row.parts for each in _all_steps(files, str(row.of))):
                yield _fault(here, f"'{row.of}' has no step in these parts", "name parts that have some")
            for phase in row.parts:
                if (first := at.setdefault((str(row.of), phase), here)) is not here:
                    message = f"part {phase} of '{row.of}' is printed on two faces"
                    yield contradiction(here, message, "keep the one that is true", first)
                    break
        if main.block.steps and not printed[str(main.block.procedure)]:
            message = f"all steps of '{main.block.procedure}' are printed elsewhere"
            yield _fault(main.block.place("procedure"), message, "leave it some, or remove it")


def _parted(other: ProcedureFile, one: ProcedureFile, own: dict[str, ProcedureFile]) -> bool:
    """Whether two procedures are not of the same raft and bill; a bill that is none is told where it stands."""
    bills = [own.get(str(each.bill)) for each in (other, one)]
    known = all(bill is not None and bill.duties for bill in bills)
    return other.per != one.per or (known and other.bill != one.bill)


def _all_steps(files: Files, name: str) -> list[StepRow]:
    return [
        step
        for main, parts in together(files)
        if main.block.procedure == name
        for part in parts
        for step in part.block.steps
    ]


def _duties_are_apart_from_duties(files: Files) -> Iterator[Finding]:
    """What a duty cannot, or can, be done beside is another duty of the same procedure."""
    for file in files:
        names = [str(duty.id) for duty in file.block.duties]
        for duty in file.block.duties:
            told = [("apart-from", *each) for each in enumerate(duty.apart_from)]
            told += [("goes-with", *each) for each in enumerate(duty.goes_with)]
            told += [("worse-with", *each) for each in enumerate(duty.worse_with)]
            for key, number, other in told:
                if other not in names or other == duty.id:
                    message = f"'{other}' is no other duty of {file.path.rpartition('/')[2]}"
                    others = [name for name in names if name != duty.id]
                    yield _fault(duty.place_in(key, number), message, nearest(other, others))


def _each_in_its_place(files: Files) -> Iterator[Finding]:
    """No two procedures of one part have one place: the call for help, the emergencies, what follows them."""
    yield from alike(
        (
            ((main.block.order, part_of(main.block)), main.block.place("order"))
            for main, _ in together(files)
            if main.block.order is not None
        ),
        "two procedures have the same place in one part of the manual",
        "give each a place of its own, or nobody knows which comes first",
    )


def part_of(procedure: ProcedureFile) -> str:
    """The part of the manual in which a procedure is printed."""
    if procedure.call_script is True:
        return "call for help"
    return "emergencies" if procedure.emergency is True else "what follows"


def _every_duty_is_done(files: Files, own: dict[str, ProcedureFile]) -> Iterator[Finding]:
    """Whoever has a duty that somebody must have finds a step to do under it, in a procedure of that bill."""
    done: dict[str, set[str]] = {}
    for main, parts in together(files):
        under = done.setdefault(str(main.block.bill or main.block.procedure), set())
        under |= {str(step.duty) for part in parts for step in part.block.steps if step.duty is not None}
    for name, bill in own.items():
        for duty in bill.duties:
            if duty.essential is True and str(duty.id) not in done.get(name, ()):
                yield contradiction(
                    duty.place("id"),
                    f"somebody must have the duty '{duty.id}', and no step under the bill of '{name}' is done by him",
                    f"give the steps that it does duty: {duty.id}, or write essential: no",
                    duty.place("essential"),
                )


def _each_is_reached(files: Files) -> Iterator[Finding]:
    """A procedure is an emergency, hangs on a card, or belongs under another's bill, whose procedures follow each other."""
    for main, _ in together(files):
        block = main.block
        alone = block.bill is None or block.bill == block.procedure
        if alone and block.emergency is not True and block.when_over is not True and not block.cards:
            yield contradiction(
                block.place("procedure"),
                f"nobody is led to '{block.procedure}': it is no emergency, on no card and under no other's bill",
                "write emergency: yes, the stations at which it hangs under 'cards', or the bill that it belongs under",
            )


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
