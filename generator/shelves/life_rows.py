"""Kinds of things that age, as they are written: their lines and lives, and what must hold between those of one list."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.reading.block import Block, Fault
from generator.reading.fields import Choice, Many, Named, One, Plain, Text, Texts, YesNo
from generator.reading.findings import Finding
from generator.reading.measures import Count
from generator.reading.names import Name, OtherName, Reference, standing
from generator.shelves.rows import alike, contradiction

BLOCKS = (
    "gear",
    "service",
    "release",
    "slip",
    "beacon",
    "set",
    "lifejackets",
    "gas",
    "through-hull",
    "drill",
    "walk-round",
    "deferral",
    "voyage",
)
GEAR = BLOCKS[0]
AGAIN, DECISION, OVER = BRINGS = ("again", "decision", "over")
"""What a last day brings that is no end of a life: the thing is tested, serviced or held again; decided again; over."""
_ONLY_RECOMMEND = ("common practice", "from memory, unverified")


def _when() -> Named[tuple[str, ...]]:
    return Named(Texts("Which words?", of=Name("Which word?")), "Which values must hold?")


class AgedBlock(Block):
    """What is old already lasts less long."""

    since = Name("From which date is its age counted?", required=True)
    over = Count("Over how many months is it old?", low=1, required=True)
    months = Count("How many months does it then last?", low=1, required=True)


class NotBeforeBlock(Block):
    """What ends no earlier than so long after another date, of the thing or of its raft."""

    since = Name("From which date?", required=True)
    months = Count("How many months?", low=1, high=600, required=True)


class LifeBlock(Block):
    """A life counted from a date."""

    called = "from"
    from_ = Texts("From which dates, the first given, is it counted?", of=Name("Which key?"), required=True)
    months = Count("How many months?", low=1, high=600, required=True)
    unless = Texts("Where which of these is given does it not count?", of=Name("Which key?"))
    when = _when()
    year_end = YesNo("Does it last to 31 December of its last year?")
    aged = One(AgedBlock, "Does what is old already last less long?")
    not_before = One(NotBeforeBlock, "Does it end no earlier than so long after another date?")
    source = Text("Who says so?", required=True)
    edition = Plain("In which edition?", required=True)
    standing = standing()
    weight = Choice("What is it to have outlived it?", ("defect", "recommendation"), required=True)

    def faults(self) -> Iterator[Fault]:
        """What nobody has verified stops no publishing."""
        if self.weight == "defect" and self.standing in _ONLY_RECOMMEND:
            yield Fault(
                "weight",
                f"a life that is {self.standing} only ever recommends",
                "write weight: recommendation, or a standing that was verified",
            )


class NeedsBlock(Block):
    """One of these dates must be given."""

    one_of = Texts("Which dates?", of=Name("Which key?"), required=True)
    source = Text("Who says so?", required=True)


class WindowBlock(Block):
    """How early or late a service counts as in time."""

    months = Count("How many months either side?", low=1, high=12, required=True)
    when = _when()
    source = Text("Who says so?", required=True)


class LineBlock(Block):
    """One thing that is looked at, with its own last day."""

    called = "what"
    what = Name("What is looked at?")
    check = Reference("Which check speaks when it has passed?", "check")
    marked = Texts("Which dates are themselves last days?", of=Name("Which key?"))
    lives = Many(LifeBlock, "Which lives are counted from its dates?")
    needs = One(NeedsBlock, "Which dates must be given?")
    window = One(WindowBlock, "How early or late does a service count as in time?")
    routine = YesNo("Is it a thing to do again that ends nothing?")
    brings = Choice("What does its last day bring, where the dates themselves do not say so?", BRINGS)
    still_counts = YesNo("Does the thing still count as aboard when it has passed?")


class KindBlock(Block):
    """A kind of thing that ages."""

    called = "kind"
    kind = Name("What is it called here?", required=True)
    block = Choice("Which entries of a vessel file?", BLOCKS, required=True)
    with_ = OtherName("Which word must also stand in its name?")
    when = _when()
    for_others = YesNo("Is it for all gear that lasts as nothing else here?")
    lines = Many(LineBlock, "What is looked at separately?")

    def faults(self) -> Iterator[Fault]:
        """Only gear is told by its name; several lines are told apart by theirs."""
        for key, given in (("with", self.with_), ("for-others", self.for_others)):
            if given is not None and self.block != GEAR:
                yield Fault(key, f"'{key}' is for gear alone", "remove it, or write block: gear")
        if self.when and self.block == GEAR:
            yield Fault(
                "when", "gear is told by its name alone, and nobody asks for 'when'", "say it at its lives"
            )
        if self.block != GEAR:
            for number, line in enumerate(self.lines, 1):
                if line.what is None:
                    yield Fault("lines", f"line {number} does not say what it is about", "write what: for it")


def each_taken(kinds: Sequence[KindBlock]) -> Iterator[Finding]:
    """The first kind of a block whose `when` holds is taken: none stands behind one that is taken wherever it would be."""
    for number, kind in enumerate(kinds):
        for earlier in kinds[:number] if kind.block != GEAR else ():
            if earlier.block == kind.block and all(
                key in kind.when and set(kind.when[key]) <= set(said) for key, said in earlier.when.items()
            ):
                yield contradiction(
                    kind.place("kind"),
                    f"'{kind.kind}' is never taken: '{earlier.kind}' above holds wherever it does",
                    "write the narrower kind first, or look at the 'when' of both",
                    earlier.place("kind"),
                )
                break


def lines_agree(lines: Sequence[LineBlock]) -> Iterator[Finding]:
    """What is wrong between lines of one kind: two about one thing, or two lives of the same case and weight."""
    yield from alike(
        ((line.what, line.place("what" if line.what is not None else "")) for line in lines),
        "another line is about the same thing",
        "tell them apart by 'what', or make them one",
    )
    for line in lines:
        yield from alike(
            ((_case(life), life.place("months")) for life in line.lives),
            "another life is counted from the same dates in the same case",
            "keep the one that is true, or say under 'when' for what each holds",
        )


def _case(life: LifeBlock) -> tuple[object, ...]:
    """What a life is counted from, where it counts, and what it is to have outlived it."""
    when = tuple(sorted((key, tuple(sorted(said))) for key, said in life.when.items()))
    return (life.from_, tuple(sorted(life.unless)), when, life.weight)
