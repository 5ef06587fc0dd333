"""templates/procedures/README.md: procedures, duties, the facts and words they may name."""

from __future__ import annotations

from collections import Counter

from documents.markdown import codes, page, table
from generator.manual.facts import vessel_facts
from generator.manual.raft_facts import AMONG_RAFTS, RAFT_FACTS
from generator.manual.words import RAFT_WORDS, vessel_words
from generator.shelves.languages import catalogue
from generator.shelves.procedures import ShelfProcedure, shelf

INTRODUCTION = """\
One file a procedure; the files of `stowage/` and `held-by/` add to a raft's launch what her place and what holds her need (`adds-to`,
`when`). A step has an `id`, a `phase`, conditions on facts (`when`: all of them, `when-any`: one of them, `not …` turns one round), `after`
(steps it never comes before), `duty`, `gear`, `place`, `source` and `standing`; its words stand under the same id in
[`templates/text/`](../text/README.md). A file names facts, it never holds an expression: what needs one is a function with a test.
Steps run by phase, steps that take off a hold in the order in which the boat's file lists them, each behind all it comes `after`. A
standing (read, secondary, common practice, from memory, unverified) is the lowest of all that the step says, and is never raised without
reading the source; `confirm` puts its wording on a list in [`tests/evidence/`](../../tests/evidence/README.md): `before publishing` where
a life hangs on it, else `at hand`, when someone qualified is.

A procedure says by its keys what it means to the rest of the program: `emergency` (one tap away), `aside` (it says what happens otherwise),
`call-script` (the words of the call stand with it), `sign` (its shapes in SVG, 48 by 48),
`drilled` (on boats of which facts), `cards` (the stations of
[`templates/cards/stations.yaml`](../cards/stations.yaml)).

An emergency has the common form: `urgency` (1 seconds, 2 minutes, 3 hours; the index goes by it, then by `likely-where`, of whose facts
one makes it likelier for her, then by `order`), a condition line (`intro`: when this one, when another), `first-minute` (the last phase that
belongs to it; the rest is "Then"), `leaves` (when it is left for which other; printed where that one holds for her; `stays: yes` where for none),
`end` (when it is over, and who says so). `counts-out` says how many cannot act in it: the facts `nobody left`, `one left`, `two left` and
`more than two left` count those aboard without them, without small children and those who need help; the steps for one and two are written for them.
`when-over` marks what follows every emergency. Budgets, of what is written in fixed words: title 26 characters, condition line, end, unless and caution 102,
a line on which it is left 48, an act 51; nine steps and 225 words for any boat.

Every file ends with its `tally`, which notices a line or a word that is gone."""


def document() -> str:
    """The whole page."""
    return page(
        "Procedures",
        "the shelf itself",
        INTRODUCTION,
        table(
            (
                "procedure",
                "for each",
                "urgency",
                "left for",
                "holds when",
                "on the cards",
                "steps",
                "by standing",
            ),
            map(_row, shelf()),
        ),
        "## Duties\n\nA key duty needs a substitute; a continuous one keeps its person where he is. `needs` is the ability it takes, "
        "`takes` what goes over the side with whoever has it.",
        table(
            ("emergency", "duty", "words", "essential", "key", "continuous", "persons", "needs", "takes"),
            _duties(),
        ),
        "## Facts of the vessel",
        table(("fact", "so where"), ((f"`{fact.name}`", fact.said) for fact in vessel_facts())),
        "## Facts of one raft\n\nIn procedures with `per: raft` these may be named too, and the name of every stowage and of every hold "
        "(its own file does), and of each hold with *comes loose*: another one frees it. What several of them have in common is a fact "
        "that comes from their rows in [`templates/rafts/`](../rafts/README.md).",
        table(("fact", "so where"), ((f"`{fact.name}`", fact.said) for fact in (*RAFT_FACTS, *AMONG_RAFTS))),
        "## Words\n\nWhat steps may print of the vessel: "
        + codes(slot.name for slot in vessel_words())
        + ".",
        "Of one raft: " + codes(slot.name for slot in RAFT_WORDS) + ".",
    )


def _row(one: ShelfProcedure) -> tuple[str, ...]:
    conditions = [*one.when, " or ".join(one.when_any)]
    standings = Counter(step.standing for step in one.steps)
    return (
        f"`{one.id}`",
        one.per,
        str(one.form.urgency or ""),
        ", ".join(dict.fromkeys(leave.to for leave in one.form.leaves)),
        ", ".join(filter(None, conditions)) or "always",
        ", ".join(one.cards),
        str(len(one.steps)),
        "; ".join(
            f"{number} {standing}"
            for standing, number in sorted(standings.items(), key=lambda each: -each[1])
        ),
    )


def _duties() -> list[tuple[str, ...]]:
    return [
        (
            f"`{one.id}`",
            f"`{duty.id}`",
            catalogue().procedures[one.id].duties[duty.id],
            *("yes" if said else "" for said in (duty.essential, duty.key, duty.continuous)),
            str(duty.persons),
            duty.needs,
            duty.takes,
        )
        for one in shelf()
        for duty in one.duties
    ]
