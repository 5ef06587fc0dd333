"""tests/evidence/README.md: published failures against our checks, published instructions against our steps, wordings to confirm."""

from __future__ import annotations

from collections.abc import Iterable

from evidence.lists import Failure, Item, Rule, failures, rules

from documents.markdown import codes, page, table
from generator.manual.procedures import Procedure, Step
from generator.shelves.languages import catalogue
from generator.shelves.procedures import ShelfProcedure, ShelfStep, shelf

INTRODUCTION = """\
Evidence for whoever changes steps and checks; nothing of it ships with the program. Rows are in our own words; a standing is how far the
list itself was read, and is never raised without reading it."""


def document() -> str:
    """The whole page."""
    return page(
        "Evidence",
        "the lists beside it, the checks and the steps",
        INTRODUCTION,
        "## Failures looked for\n\nWhat published accounts say goes wrong, and which check looks for it; a row without one has its reason.",
        "\n\n".join(_subject(subject, rows) for subject, rows in failures().items()),
        "## What published instructions ask for\n\n`coverage.yaml` against the steps; a test holds that every step and page named is there.",
        "\n\n".join(_rule(rule) for rule in rules()),
        "## Wordings to be confirmed\n\nSteps marked `confirm: yes` on the shelf: a survival instructor or a service station is asked to "
        "confirm these words, or to mend them. A step's standing is the lowest of all it says.",
        confirm_table(),
    )


def _subject(subject: str, rows: tuple[Failure, ...]) -> str:
    looked_for = sum(bool(row.checks) for row in rows)
    return (
        f"**{subject[:1].upper()}{subject[1:]}**: {len(rows)} failures, {looked_for} looked for by checks.\n\n"
        + table(
            ("", "what goes wrong", "source", "looked for by"),
            [
                (
                    str(number),
                    row.failure,
                    row.source,
                    "; ".join(filter(None, (codes(row.checks), str(row.reason or "")))),
                )
                for number, row in enumerate(rows, 1)
            ],
        )
    )


def _rule(rule: Rule) -> str:
    said = sum(bool(item.steps or item.page) for item in rule.items)
    rest = len(rule.items) - said
    more = f", {rest} with a reason" if rest else ""
    return (
        f"**{rule.rule}** ({rule.standing}): {said} of {len(rule.items)} items in steps or on a page{more}.\n\n"
        + table(("asked for", "said by"), [(item.item, _said_by(item)) for item in rule.items])
    )


def _said_by(item: Item) -> str:
    where = ", ".join(filter(None, (codes(item.steps), f"page {item.page}" if item.page else "")))
    return "; ".join(filter(None, (where, str(item.reason or ""))))


def to_confirm(procedures: Iterable[Procedure | ShelfProcedure]) -> tuple[Step | ShelfStep, ...]:
    """The steps, of the shelf or composed, whose wording a professional is asked to confirm."""
    return tuple(step for one in procedures for step in one.steps if step.confirm)


def confirm_table() -> str:
    """The steps on the list to confirm: their words, exceptions, standing and source."""
    words = catalogue().procedures
    rows = []
    for step in to_confirm(shelf()):
        text = words[step.words_in].steps[step.id]
        unless = f" *Unless* {text.unless}" if text.unless else ""
        caution = f" ({text.caution})" if text.caution else ""
        rows.append((f"`{step.id}`", f"{text.do}{unless}{caution}", step.standing, step.source))
    return table(("step", "wording", "standing", "source"), rows)
