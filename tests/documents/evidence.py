"""tests/evidence/README.md: published failures against our checks, published instructions against our steps, wordings to confirm."""

from __future__ import annotations

from collections.abc import Iterable

from evidence.lists import Failure, Finding, Item, Rule, failures, reading, rules

from documents.markdown import codes, page, table
from generator.manual.procedures import Procedure, Step
from generator.shelves.languages import catalogue
from generator.shelves.procedure_files import AT_HAND, BEFORE_PUBLISHING
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
        f"## A professional's reading\n\n{reading().reading} `reading.yaml` against steps, checks and pages; a test holds that each is there, "
        "that some boat gets each step, and that what was wrong is said no more.",
        table(
            ("", "what was found", "mended by"),
            [(each.row, each.finding, _mended_by(each)) for each in reading().findings],
        ),
        "## Wordings to be confirmed\n\nA professional (survival instructor, service station, doctor, fire officer) is asked to confirm "
        "these words, or to mend them. A step's standing is the lowest of all it says.",
        "### Before publishing\n\nSteps marked `confirm: before publishing` on the shelf: a life hangs on the words.",
        confirm_table(BEFORE_PUBLISHING),
        "### When someone qualified is at hand\n\nSteps marked `confirm: at hand`, and all that rest on memory alone.",
        confirm_table(AT_HAND),
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


def _mended_by(row: Finding) -> str:
    where = ", ".join(
        filter(None, (codes(row.steps), codes(row.checks), f"page {row.page}" if row.page else ""))
    )
    return "; ".join(filter(None, (where, str(row.reason or ""), str(row.source or ""))))


def to_confirm(
    procedures: Iterable[Procedure | ShelfProcedure], when: str = ""
) -> tuple[Step | ShelfStep, ...]:
    """The steps, of the shelf or composed, whose wording a professional is asked to confirm: then, or whenever."""
    return tuple(
        step for one in procedures for step in one.steps if step.confirm and when in ("", step.confirm)
    )


def confirm_table(when: str) -> str:
    """The steps on one of the lists to confirm: every wording that some boat gets, its exceptions, standing and source."""
    rows = [
        (f"`{name}`", text, standing, source)
        for step in to_confirm(shelf(), when)
        for name, text, standing, source in wordings(step)
    ]
    return table(("step", "wording", "standing", "source"), rows)


def wordings(step: Step | ShelfStep) -> list[tuple[str, str, str, str]]:
    """What a step of the shelf says, and in which other words, each once: (name, text, standing, source)."""
    if isinstance(step, Step):
        raise TypeError("a step of a boat has one wording")
    words = catalogue().procedures[step.words_in].steps
    found: dict[str, tuple[str, str, str, str]] = {}
    for name, left_out, standing, source in (
        (step.id, (), "", ""),
        *((each.words or step.id, each.leaves_out, each.standing, each.source) for each in step.other_words),
    ):
        said = {key: text for key, text in words[name].texts.items() if key not in left_out}
        unless = f" *Unless* {said['unless']}" if said.get("unless") else ""
        caution = f" ({said['caution']})" if said.get("caution") else ""
        text = f"{said['do']}{unless}{caution}"
        found.setdefault(text, (name, text, standing or step.standing, source or step.source))
    return list(found.values())
