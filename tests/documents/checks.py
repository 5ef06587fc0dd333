"""generator/checks/README.md: the table of all checks, written from the registry."""

from __future__ import annotations

from documents.markdown import page, table
from generator.survey.registry import Check, all_checks

INTRODUCTION = """\
One function a check: it looks at the vessel or at the manual composed from her and yields what it finds, with its place. Its id says what
it is about and is never renamed; it stands in the file, or the folder, of the id's family. Its docstring is what `musterbook why CHECK` prints: title, `Why:`,
`Remedy:`. `musterbook why --all` lists them all.

A *defect* stops publishing, a *recommendation* should be mended, a *note* informs; the weight is no part of the id, and a finding may weigh
otherwise than its check where the check says so. Stages: *description* (the file), *composition* (steps, bill, plan and cards as
composed), *inspection* (the bytes written). What is read only from memory, or unverified, never makes a defect. A check enters as a
recommendation for one release, unless lives hang on it. How to add one stands in [DEVELOPERS](../../DEVELOPERS.md)."""


def document() -> str:
    """The whole page."""
    return page("Checks", "the registry of checks", INTRODUCTION, checks_table())


def checks_table() -> str:
    """All checks: id, weight, stage, title, source, and whether a finding may be deferred."""
    rows = [_row(one) for one in all_checks().values()]
    return table(("check", "weight", "stage", "what must hold", "source", "may be deferred"), rows)


def _row(one: Check) -> tuple[str, ...]:
    return f"`{one.id}`", one.weight.word, one.stage, one.title, one.source, "yes" if one.deferrable else "no"
