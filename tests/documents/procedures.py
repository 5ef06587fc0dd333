"""templates/procedures/README.md: procedures, duties, the facts and words they may name, stowages and holds."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

from documents.markdown import codes, page, table
from generator.manual.facts import facts_of, raft_facts_of
from generator.manual.inventory import list_items
from generator.manual.procedures import ShelfProcedure, shelf
from generator.shelves.languages import catalogue, slots
from generator.shelves.stowages import float_free_containers, holds, stowages
from generator.vessel.loading import load

SPECIMEN = Path(__file__).resolve().parents[2] / "vessels" / "saltmeadow"

INTRODUCTION = """\
One file a procedure; the files of `stowage/` and `held-by/` add to a raft's launch what her place and what holds her need (`adds-to`,
`when`). A step has an `id`, a `phase`, conditions on facts (`when`: all of them, `when-any`: one of them, `not …` turns one round), `after`
(steps it never comes before), `duty`, `gear`, `place`, `source` and `standing`; its words stand under the same id in
[`templates/text/`](../text/README.md). A file names facts, it never holds an expression: what needs one is a function with a test.
Steps run by phase, steps that take off a hold in the order in which the boat's file lists them, each behind all it comes `after`. A
standing (read, secondary, common practice, from memory, unverified) is the lowest of all that the step says, and is never raised without
reading the source; `confirm: yes` puts its wording on the list to confirm in [`tests/evidence/`](../../tests/evidence/README.md)."""


def document() -> str:
    """The whole page."""
    vessel, findings = load(SPECIMEN)
    if vessel is None or findings:
        raise ValueError(findings)
    return page(
        "Procedures",
        "the shelf itself",
        INTRODUCTION,
        table(
            ("procedure", "for each", "emergency", "holds when", "on the cards", "steps", "by standing"),
            map(_row, shelf()),
        ),
        "## Duties\n\nA key duty needs a substitute; a continuous one keeps its person where he is.",
        table(("emergency", "duty", "words", "essential", "key", "continuous", "persons"), _duties()),
        "## Facts\n\nOf the vessel: " + codes(sorted(facts_of(vessel, list_items(vessel)))) + ".",
        "Of one raft, in procedures with `per: raft`: " + codes(sorted(raft_facts_of(vessel.rafts[0]))) + ".",
        "## Words\n\nThe slots that the steps' words use: " + codes(_slots()) + ".",
        "## Stowages\n\n`combinations.yaml` says which there are and what goes with what; `depends`: the survey asks how it is built.",
        table(("stowage", "container", "held by", "floats free", "source", "standing"), _stowages()),
        f"Holds: {', '.join(holds())}. What a release lets go floats up and fires itself in: {', '.join(float_free_containers())}.",
    )


def _row(one: ShelfProcedure) -> tuple[str, ...]:
    conditions = [*one.when, " or ".join(one.when_any)]
    standings = Counter(step.standing for step in one.steps)
    return (
        f"`{one.id}`",
        one.per,
        "yes" if one.emergency else "",
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
            f"`{duty['id']}`",
            catalogue().procedures[one.id].duties[duty["id"]],
            *("yes" if duty.get(key) == "yes" else "" for key in ("essential", "key", "continuous")),
            str(duty.get("persons", "1")),
        )
        for one in shelf()
        for duty in one.duties
    ]


def _slots() -> list[str]:
    found: set[str] = set()
    for words in catalogue().procedures.values():
        texts = [words.title or "", words.intro or ""]
        texts += [text for step in words.steps.values() for text in step.texts.values()]
        found |= {slot for text in texts for slot in slots(text)}
    return sorted(found)


def _stowages() -> list[tuple[str, ...]]:
    return [
        (
            each.name,
            ", ".join(each.containers),
            ", ".join(each.holds),
            each.float_free,
            each.source,
            each.standing,
        )
        for each in stowages().values()
    ]
