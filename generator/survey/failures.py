"""Published failures against our checks: each has a check that looks for it, or a reason why not."""

from __future__ import annotations

from dataclasses import dataclass

from generator.reading.nodes import plain
from generator.reading.tree import read_file
from generator.shelves.folder import templates_folder

SUBJECTS = ("raft", "station-bill", "carriage", "radio")


@dataclass(frozen=True)
class Failure:
    """Something that goes wrong, who says so, the checks that look for it, and what else there is to say."""

    failure: str
    source: str
    checks: tuple[str, ...] = ()
    reason: str = ""


def failures() -> dict[str, tuple[Failure, ...]]:
    """The failures of templates/failures by subject, in their order. Raises ValueError where a file is not as it must be."""
    found = {}
    for name in SUBJECTS:
        path = templates_folder() / "failures" / f"{name}.yaml"
        tree, findings = read_file(path, path.name)
        if tree is None or findings:
            raise ValueError(f"{path.name}: {findings[0].place}: {findings[0].message}")
        data = plain(tree)
        found[data["subject"]] = tuple(
            Failure(row["failure"], row["source"], tuple(row.get("checks", ())), row.get("reason", ""))
            for row in data["failures"]
        )
    return found


def failures_table() -> str:
    """All failures as Markdown tables, one a subject, the rows numbered."""
    parts = []
    for subject, rows in failures().items():
        looked_for = sum(bool(row.checks) for row in rows)
        lines = [
            f"| {number} | {_cell(row.failure)} | {_cell(row.source)} | {_cell(_answer(row))} |"
            for number, row in enumerate(rows, 1)
        ]
        parts.append(
            f"**{subject[:1].upper()}{subject[1:]}**: {len(rows)} failures, {looked_for} looked for by checks.\n\n"
            "| | what goes wrong | source | looked for by |\n| --- | --- | --- | --- |\n" + "\n".join(lines)
        )
    return "\n\n".join(parts)


def _answer(row):
    checks = ", ".join(f"`{each}`" for each in row.checks)
    return "; ".join(part for part in (checks, row.reason) if part)


def _cell(text):
    return text.replace("|", "\\|")
