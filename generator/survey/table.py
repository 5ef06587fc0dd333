"""The table of all checks for the documents, written from the registry."""

from __future__ import annotations

from generator.survey.registry import all_checks


def table() -> str:
    """All checks as a Markdown table: id, weight, stage, title, source, and whether a defect may be deferred."""
    rows = [
        "| check | weight | stage | what must hold | source | may be deferred |",
        "| --- | --- | --- | --- | --- | --- |",
    ]
    rows += [
        f"| `{one.id}` | {one.weight.word} | {one.stage} | {_cell(one.title)} | {_cell(one.source)} | "
        f"{'yes' if one.deferrable else 'no'} |"
        for one in all_checks().values()
    ]
    return "\n".join(rows)


def _cell(text):
    return text.replace("|", "\\|")
