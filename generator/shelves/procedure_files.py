"""Files of procedures as they are written, and what must hold between them for every duty, step and procedure to be found."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.reading.block import Block, Fault
from generator.reading.fields import Choice, Many, Text, Texts, YesNo
from generator.reading.findings import Finding, Place, Weight
from generator.reading.measures import Count
from generator.reading.names import Name, Reference, references, standing
from generator.reading.nearest import nearest
from generator.shelves.rows import alike, contradiction
from generator.shelves.shelf import File, Tallied, twice
from generator.shelves.signs import Sign

RAFT, GRAB_BAG = "raft", "grab bag"
GROWN, HALF_GROWN = 16, 12
"""From which age, in years, somebody has a key duty or one that is taught, and from which another, where no duty says otherwise:
common practice."""
SENSES = ("sight", "hearing", "speech")
"""What a duty may take of whoever cannot move about."""
"""What a duty may take over the side."""
PARTS = LAUNCH, HOLD, CUT, BAG = ("launch", "hold", "cut", "bag")
"""The parts of a raft's own party: who launches it, holds it alongside, cuts it loose, brings the bag."""
TAKEN_BY = {RAFT: LAUNCH, GRAB_BAG: BAG}
"""Whose part it is where a step says nothing else: by what its duty takes over the side."""
LAST_PHASE = 99
"""The last part of a procedure, and the last place in the manual: two figures, the first for a part, the second within it."""


class OtherWords(Block):
    """Where a duty or an introduction is said in other words, because some of its own would be untrue there."""

    when = references("Which facts must all be so?", to="fact", negatable=True, required=True)
    words = Name("Under which name do its words stand there?", required=True)


class OtherStepWords(Block):
    """Where a step is said in other words, or without some, because its own would be untrue there."""

    when = references("Which facts must all be so?", to="fact", negatable=True, required=True)
    words = Name("Under which name do its words stand there, if not under its own?")
    leaves_out = Texts("Which parts of its words are left out there?", ("unless", "caution", "why"))
    source = Text("Who says so, if not the step's own source?")
    standing = standing(required=False)

    def faults(self) -> Iterator[Fault]:
        """It changes something; a standing of its own comes with its source."""
        if self.words is None and not self.leaves_out:
            yield Fault("", "nothing is said otherwise there", "write 'words' or 'leaves-out'")
        if (self.source is None) != (self.standing is None):
            here = "source" if self.standing is None else "standing"
            yield Fault(here, "source and standing come together", "write both, or neither")


class StepRow(Block):
    """One step: when it holds, in which order it comes, who does it, with what, where; and who says so."""

    called = "id"
    id = Name("What is it called: the file's name, a dot, a word or two?", required=True)
    phase = Count("In which part of the procedure does it come?", low=1, high=LAST_PHASE, required=True)
    when = references("Which facts must all be so?", to="fact", negatable=True)
    when_any = references("Of which facts must one be so?", to="fact", negatable=True)
    after = Texts("Behind which steps does it always come?", of=Name("Behind which step?"))
    duty = Name("Whose duty is it, if not everybody's?")
    part = Choice("Whose part is it where the file names the raft's own party?", PARTS)
    hold = Reference("What does it take off the raft?", to="hold")
    gear = references("What is taken for it?", to="gear")
    place_ = Reference("Where is it done?", to="word")
    other_words = Many(OtherStepWords, "Where is it said in other words, the first that holds?")
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
    at_once = YesNo("Is it done on deck in the first moment, before anybody comes up?")
    apart_from = Texts(
        "Which duties of the same emergency can nobody do at the same time?", of=Name("Which duty?")
    )
    goes_with = Texts(
        "Where it keeps its person: which duties are done before it, after it or beside it?",
        of=Name("Which duty?"),
    )
    from_age = Count("From which age can a child do it, if before it is grown?", low=4, high=GROWN - 1)
    seated = YesNo("Can somebody do it who cannot move about the boat?")
    senses = Texts("Which senses does it take?", SENSES)
    persons = Count("How many persons does it take?", low=1, high=10, required=True)
    needs = Reference("Which ability does it need?", to="ability")
    takes = Choice("What does it take over the side?", (RAFT, GRAB_BAG))
    when = references("Which facts must all be so?", to="fact", negatable=True)
    other_words = Many(OtherWords, "Where is it said in other words, the first that holds?")


class ProcedureFile(Tallied):
    """A procedure with its duties and steps, or steps that are added to another file's procedure."""

    procedure = Name("Which procedure is it?")
    adds_to = Reference("To which procedure does it add steps?", to="procedure")
    order = Count("Which place has it in the manual?", low=1, high=LAST_PHASE)
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
    other_intro = Many(OtherWords, "Where is its introduction said in other words, the first that holds?")
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
            for key in ("drilled", "cards", "duties", "other-intro"):
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


Files = Sequence[File[ProcedureFile]]


def together(files: Files) -> Iterator[tuple[File[ProcedureFile], Files]]:
    """Each procedure's own file, and it with those that add to it."""
    for each in files:
        if each.block.procedure is not None:
            name = str(each.block.procedure)
            yield each, [each, *(other for other in files if other.block.adds_to == name)]


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
    for main, parts in together(files):
        yield from _bill_has_the_duties(main.block, parts, own)
        yield from _order_can_be_kept([step for part in parts for step in part.block.steps])
    yield from _duties_are_apart_from_duties(files)
    yield from _each_in_its_place(files)
    yield from _every_duty_is_done(files, own)
    yield from _each_is_reached(files)


def _duties_are_apart_from_duties(files: Files) -> Iterator[Finding]:
    """What a duty cannot, or can, be done beside is another duty of the same procedure."""
    for file in files:
        names = [str(duty.id) for duty in file.block.duties]
        for duty in file.block.duties:
            told = [("apart-from", *each) for each in enumerate(duty.apart_from)]
            told += [("goes-with", *each) for each in enumerate(duty.goes_with)]
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
        if alone and block.emergency is not True and not block.cards:
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
