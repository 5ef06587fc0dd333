"""generator/checks/README.md: the table of all checks, written from the registry."""

from __future__ import annotations

from documents.markdown import page, table
from generator.survey.registry import Check, all_checks
from generator.survey.stakes import Stake

INTRODUCTION = """\
One function a check: it looks at the vessel or at the manual composed from her and yields what it finds, with its place. Its id says what
it is about and is never renamed; it stands in the file, or the folder, of the id's family. Its docstring is what `musterbook why CHECK` prints: title, `Why:`,
`Remedy:`. `musterbook why --all` lists them all.

A *defect* stops publishing, a *recommendation* should be mended, a *note* informs. The weight follows from what hangs on the check, its
*stake*, by the policy below; it is no part of the id. One finding may weigh otherwise than its check, where the check says so: less where its figure
comes from a row that nobody has read, where what is written only suggests the fault, or where so few are aboard that it cannot be helped; more where of
several things that it looks at one is of life. A defect can be deferred, with reason and date, where one may sail with it.

{policy}

Stages: *description* (the file), *composition* (steps, bill, plan and cards as composed), *inspection* (the bytes written). How to add one stands in
[DEVELOPERS](../../DEVELOPERS.md)."""


def document() -> str:
    """The whole page."""
    return page("Checks", "the registry of checks", INTRODUCTION.format(policy=policy()), checks_table())


def policy() -> str:
    """What each stake means, and what it weighs."""
    return table(
        ("stake", "weighs", "if it is true and nobody mends it"),
        [(one.word, one.weight.word, one.cost) for one in Stake],
    )


def checks_table() -> str:
    """All checks: id, stake, weight, stage, title, why it matters, source, and whether a finding may be deferred."""
    rows = [_row(one) for one in all_checks().values()]
    return table(
        ("check", "stake", "weight", "stage", "what must hold", "why", "source", "may be deferred"), rows
    )


def _row(one: Check) -> tuple[str, ...]:
    deferred = "yes" if one.deferrable else "no"
    return f"`{one.id}`", one.stake.word, one.weight.word, one.stage, one.title, one.why, one.source, deferred
