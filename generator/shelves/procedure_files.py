"""Files of procedures as they are written, those of one procedure together, and which steps each prints."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from generator.reading.block import Block, Fault
from generator.reading.fields import Choice, Many, Text, Texts, YesNo
from generator.reading.measures import Count
from generator.reading.names import STANDINGS, Name, Reference, references, standing
from generator.reading.values import given
from generator.shelves.emergency_form import OF_THE_FORM, Formed
from generator.shelves.shelf import File
from generator.shelves.signs import Sign

RAFT, GRAB_BAG = "raft", "grab bag"
GROWN, HALF_GROWN = 16, 12
"""From which age, in years, somebody has a key duty or one that is taught, and from which another, where no duty says otherwise:
common practice."""
SENSES = ("sight", "hearing", "speech")
"""What a duty may take of whoever cannot move about."""
CONFIRM = BEFORE_PUBLISHING, AT_HAND = ("before publishing", "at hand")
"""When a professional confirms a wording: before anything is published, for a life hangs on it, or when someone qualified is at hand."""
MEMORY = STANDINGS[-1]
"""The standing of what nobody has read anywhere."""
PARTS = LAUNCH, HOLD, CUT, BAG, BEACON = ("launch", "hold", "cut", "bag", "beacon")
"""The parts of a raft's own party: who launches it, holds it alongside, cuts it loose, brings the bag, brings a beacon."""
LEAD = "lead"
"""Who leads in a raft, which follows from who can command."""
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
    part = Choice("Whose part is it in the raft's own party?", (*PARTS, LEAD))
    hold = Reference("What does it take off the raft?", to="hold")
    gear = references("What is taken for it?", to="gear")
    place_ = Reference("Where is it done?", to="word")
    other_words = Many(OtherStepWords, "Where is it said in other words, the first that holds?")
    confirm = Choice("When is a professional asked to confirm its wording?", CONFIRM)
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
    worse_with = Texts(
        "Which duties does nobody have too while somebody else has nothing to do, because a life hangs on both?",
        of=Name("Which duty?"),
    )
    strength = YesNo("Does it take the strength of a grown-up?")
    from_age = Count("From which age can a child do it, if before it is grown?", low=4, high=GROWN - 1)
    seated = YesNo("Can somebody do it who cannot move about the boat?")
    senses = Texts("Which senses does it take?", SENSES)
    persons = Count("How many persons does it take?", low=1, high=10, required=True)
    needs = Reference("Which ability does it need?", to="ability")
    takes = Choice("What does it take over the side?", (RAFT, GRAB_BAG))
    when = references("Which facts must all be so?", to="fact", negatable=True)
    other_words = Many(OtherWords, "Where is it said in other words, the first that holds?")


class TakenRow(Block):
    """A part of the steps of another procedure, printed on the face of this one: what is too long for one face goes on."""

    called = "of"
    of = Reference("Of which procedure does it print steps?", to="procedure", required=True)
    from_ = Count("From which part of that on?", low=1, high=LAST_PHASE)
    to = Count("Up to which part of that?", low=1, high=LAST_PHASE)

    @property
    def parts(self) -> range:
        """The parts that are meant."""
        return range(given(self.from_, 1), given(self.to, LAST_PHASE) + 1)

    def faults(self) -> Iterator[Fault]:
        """It begins before it ends."""
        if not self.parts:
            yield Fault(
                "to", f"it ends with part {self.to} and begins with part {self.from_}", "write the later part"
            )


class ProcedureFile(Formed):
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
    takes = Many(TakenRow, "Which steps of others does it print, in their order, before its own?")
    steps = Many(StepRow, "Which steps has it?", distinct=True)

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
                *OF_THE_FORM,
            ):
                yield from self._without(key)
            for key in ("drilled", "cards", "duties", "other-intro", "takes"):
                yield from self._without(key)
        else:
            for key in ("order", "ground", "sign"):
                if getattr(self, key) is None:
                    yield Fault("", f"'{key}' is missing: {type(self).fields[key].question}", f"write {key}")
            yield from self.faults_of_the_form(self.emergency is True)
        if not self.steps and not self.takes and not self.says("steps"):
            yield Fault("", "'steps' is missing: Which steps has it?", "write steps, or takes")
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


class Placed(NamedTuple):
    """A step where it is printed: `row` of `file`, in which part."""

    file: File[ProcedureFile]
    row: StepRow
    phase: int


def faces(files: Files) -> dict[str, list[Placed]]:
    """The steps that each procedure prints: what it takes of others, one after the other, then its own but what others take.

    What comes of the second of those that it takes from stands in a part behind all of the first, and so on.
    """
    whole = {
        str(main.block.procedure): [
            Placed(part, row, given(row.phase, 0)) for part in parts for row in part.block.steps
        ]
        for main, parts in together(files)
    }
    takers = [
        (str(main.block.procedure), main.block.takes) for main, _ in together(files) if main.block.takes
    ]
    gone = {(str(row.of), phase) for _, takes in takers for row in takes for phase in row.parts}
    made = {name: [each for each in steps if (name, each.phase) not in gone] for name, steps in whole.items()}
    for name, takes in takers:
        taken = [
            each._replace(phase=each.phase + number * LAST_PHASE)
            for number, row in enumerate(takes)
            for each in whole.get(str(row.of), ())
            if each.phase in row.parts
        ]
        behind = len(takes) * LAST_PHASE
        made[name] = taken + [each._replace(phase=each.phase + behind) for each in made[name]]
    return made
