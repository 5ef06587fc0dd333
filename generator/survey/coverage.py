"""What published emergency instructions ask for against our steps, and the wordings a professional is asked to confirm."""

from __future__ import annotations

from dataclasses import dataclass

from generator.manual.procedures import ShelfFault, shelf, to_confirm
from generator.reading.nodes import plain
from generator.reading.tree import read_file
from generator.shelves.folder import templates_folder
from generator.shelves.languages import catalogue


@dataclass(frozen=True)
class Item:
    """One thing a rule asks for: the steps that say it, the page of the book that does, or the reason why not."""

    text: str
    steps: tuple[str, ...]
    page: str
    reason: str


@dataclass(frozen=True)
class Rule:
    """A published list; `standing` is how far it was read."""

    name: str
    standing: str
    items: tuple[Item, ...]


def rules() -> tuple[Rule, ...]:
    """The published lists of templates/procedures/coverage.yaml."""
    path = templates_folder() / "procedures" / "coverage.yaml"
    tree, findings = read_file(path, path.name)
    if tree is None or findings:
        raise ShelfFault(f"{path.name}: {findings[0].place}: {findings[0].message}")
    return tuple(
        Rule(
            rule["rule"],
            rule["standing"],
            tuple(
                Item(item["item"], tuple(item.get("steps", ())), item.get("page", ""), item.get("reason", ""))
                for item in rule["items"]
            ),
        )
        for rule in plain(tree)["coverage"]
    )


def coverage_table() -> str:
    """All rules as Markdown tables, each with the share of its items that steps or pages cover."""
    parts = []
    for rule in rules():
        said = sum(bool(item.steps or item.page) for item in rule.items)
        rest = len(rule.items) - said
        parts.append(
            f"**{rule.name}** ({rule.standing}): {said} of {len(rule.items)} items in steps or on a page"
            + (f", {rest} with a reason" if rest else "")
            + ".\n\n| asked for | said by |\n| --- | --- |\n"
            + "\n".join(f"| {_cell(item.text)} | {_cell(_said_by(item))} |" for item in rule.items)
        )
    return "\n\n".join(parts)


def _said_by(item):
    where = [f"`{step}`" for step in item.steps] + ([f"page {item.page}"] if item.page else [])
    return "; ".join([", ".join(where)] * bool(where) + [item.reason] * bool(item.reason))


def confirm_table() -> str:
    """The steps on the list to confirm as a Markdown table: their words, exceptions, standing and source."""
    words = catalogue().procedures
    rows = ["| step | wording | standing | source |", "| --- | --- | --- | --- |"]
    for step in to_confirm(shelf()):
        text = words[step.words_in]["steps"][step.id]
        said = (
            text["do"]
            + (f" *Unless* {text['unless']}" if "unless" in text else "")
            + (f" ({text['caution']})" if "caution" in text else "")
        )
        rows.append(f"| `{step.id}` | {_cell(said)} | {step.standing} | {_cell(step.source)} |")
    return "\n".join(rows)


def _cell(text):
    return text.replace("|", "\\|")
