"""The common form of an emergency as it is written: how urgent it is, its first minute, when it is left for another one, when it is over."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.reading.block import Block, Fault
from generator.reading.fields import Many, One, Text, YesNo
from generator.reading.findings import Finding, Weight
from generator.reading.measures import Count
from generator.reading.names import Name, Reference, references, standing
from generator.shelves.rows import contradiction
from generator.shelves.shelf import Tallied

SECONDS, HOURS = 1, 3
"""How urgent an emergency is: from one where seconds count, by minutes, to one of hours."""
MOST_COUNTED_OUT = 4
"""How many, at most, an emergency takes away from those who can act: more hurt at once is another emergency."""
FORM = ("urgency", "first-minute", "end")
"""The keys that every emergency has."""


class LeaveRow(Block):
    """When somebody leaves a procedure for another one; printed only where the other holds for her."""

    called = "words"
    words = Name("Under which name do its words stand there?", required=True)
    to = Reference("For which procedure is this one left?", to="procedure", required=True)
    when = references("Which facts must all be so?", to="fact", negatable=True)
    other_raft = YesNo("Is it that of another raft, where the procedure is of one?")
    source = Text("Who says so?", required=True)
    standing = standing()


class EndRow(Block):
    """Who says when it is over; its words stand under the key of the same name."""

    source = Text("Who says so?", required=True)
    standing = standing()


class OtherEnd(Block):
    """Where the end is said in other words, because its own would be untrue there."""

    when = references("Which facts must all be so?", to="fact", negatable=True, required=True)
    words = Name("Under which name do its words stand there?", required=True)
    source = Text("Who says so, if not the end's own source?")
    standing = standing(required=False)

    def faults(self) -> Iterator[Fault]:
        """A standing of its own comes with its source."""
        if (self.source is None) != (self.standing is None):
            here = "source" if self.standing is None else "standing"
            yield Fault(here, "source and standing come together", "write both, or neither")


class Formed(Tallied):
    """What a procedure says of itself in the common form."""

    urgency = Count("Do seconds count (1), minutes (2) or hours (3)?", low=SECONDS, high=HOURS)
    likely_where = references(
        "Of which facts is one so where it is likelier than others of its urgency?",
        to="fact",
        negatable=True,
    )
    counts_out = Count("How many cannot act in it, such as the one in the water?", high=MOST_COUNTED_OUT)
    first_minute = Count("Which is the last part that belongs to the first minute?", low=1, high=99)
    leaves = Many(LeaveRow, "When is it left for which other procedure?", distinct=True)
    stays = YesNo("Is it left for no other procedure?")
    end = One(EndRow, "Who says when it is over?")
    other_end = Many(OtherEnd, "Where is its end said in other words, the first that holds?")
    when_over = YesNo("Is it what follows every emergency once that is over?")
    outside = YesNo("Do all gather in the open air then, even where they muster inside?")

    def faults_of_the_form(self, emergency: bool) -> Iterator[Fault]:
        """An emergency has all keys of the form, and says for which others it is left, or that it is left for none."""
        there = [key for key in FORM if getattr(self, key.replace("-", "_")) is not None]
        if emergency:
            for key in FORM:
                if key not in there:
                    question = type(self).fields[key].question
                    yield Fault(
                        "",
                        f"'{key}' is missing, which every emergency has: {question}",
                        f"write {key}",
                    )
            if not self.leaves and self.stays is not True:
                yield Fault(
                    "",
                    "nothing says for which procedure this emergency is left",
                    "write leaves, or stays: yes",
                )
        if not emergency and self.urgency is not None:
            yield Fault("urgency", "'urgency' belongs to an emergency", "write emergency: yes, or remove it")
        if self.likely_where and self.urgency is None:
            yield Fault(
                "likely-where",
                "'likely-where' orders emergencies of one urgency",
                "write urgency too, or remove it",
            )
        if self.leaves and self.stays is True:
            yield Fault("stays", "it is left for others, and for none", "keep the one that is true")
        if self.other_end and self.end is None:
            yield Fault("other-end", "the end is said in other words, and has none of its own", "write end")
        if self.when_over is True and emergency:
            yield Fault(
                "when-over",
                "what follows every emergency is none itself",
                "write emergency: no, or remove it",
            )


OF_THE_FORM = tuple(key for key in Formed.fields if key not in Tallied.fields)
"""The keys by which a procedure speaks of itself in the common form."""
Timed = Sequence[tuple[str, int, Sequence[str], Block]]
"""Steps by name, phase and what they come after, with their blocks."""


def faults_of_one(procedure: Formed, name: str, steps: Timed) -> Iterator[Finding]:
    """What is wrong between the form of a procedure and the steps of its file and of those that add to it."""
    for leave in procedure.leaves:
        if leave.to == name:
            yield contradiction(leave.place("to"), f"'{name}' is left for itself", "name another procedure")
    last = procedure.first_minute
    if not isinstance(last, int):
        return
    phases = {step: phase for step, phase, _, _ in steps}
    if not any(phase <= last for phase in phases.values()):
        yield contradiction(
            procedure.place("first-minute"),
            f"no step of '{name}' comes in the first minute, which ends with part {last}",
            f"name a part that has steps: {', '.join(str(each) for each in sorted(set(phases.values())))}",
        )
    for step, phase, after, block in steps:
        late = [each for each in after if phase <= last < phases.get(each, 0)]
        if late:
            yield Finding(
                "file.bad-value",
                Weight.DEFECT,
                f"'{step}' belongs to the first minute, and comes after '{late[0]}', which does not",
                block.place("after"),
                "give it a later phase, or take the name out of 'after'",
                also=(procedure.place("first-minute"),),
            )
