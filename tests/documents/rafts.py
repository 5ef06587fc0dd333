"""templates/rafts/README.md: the limits for rafts."""

from __future__ import annotations

from documents.markdown import page, table
from generator.shelves.limits import Limit, shelf

INTRODUCTION = """\
Limits on which published rules differ. A row holds for the standards it names (by their beginning; none: all) and, where it names them, for a
container, a use and a rule set. Of several rows the strictest counts, and the finding names it. Only what was read can make a defect."""
_UNITS = {
    "least": "m",
    "plus-height": "m",
    "most": "m",
    "low": "N",
    "high": "N",
    "months": "",
    "times-height": "",
}


def document() -> str:
    """The whole page."""
    rows = [
        (kind, _figures(row), _for(row), row.source, row.standing)
        for kind, limits in shelf().items()
        for row in limits
    ]
    return page(
        "Limits for rafts",
        "`limits.yaml`",
        INTRODUCTION,
        table(("limit", "figures", "holds for", "source", "standing"), rows),
    )


def _figures(row: Limit) -> str:
    return ", ".join(f"{name} {figure:g} {_UNITS[name]}".strip() for name, figure in row.figures.items())


def _for(row: Limit) -> str:
    return (
        "; ".join(filter(None, (", ".join(row.standards), row.container, row.use, row.rule_set)))
        or "every raft"
    )
