"""templates/limits/README.md: the limits, what each holds for, and who says so."""

from __future__ import annotations

from documents.markdown import page, table
from generator.shelves.limits import LIMITS, Limit, RowBlock, all_limits

INTRODUCTION = """\
What published rules and practice set: figures that checks ask for by the limit's name. A row holds for the standards it names (by their
beginning), the container, kind, use, waters, rule set and length; naming none it holds for all. Of several rows the strictest counts, and the
finding names it. Only what was read can make a defect. The head of `rafts.yaml` explains each key."""
_CONDITIONS = ("standards", "container", "kinds", "use", "waters", "rule-set", "length-from", "length-below")


def document() -> str:
    """The whole page."""
    rows = [
        (name, _figures(row), _for(row.block), row.source, row.standing)
        for name, limits in all_limits().items()
        for row in limits
    ]
    files = ", ".join(f"`{each.path.rpartition('/')[2]}`" for each in LIMITS.files())
    return page(
        "Limits",
        files,
        INTRODUCTION,
        table(("limit", "figures", "holds for", "source", "standing"), rows),
    )


def _figures(row: Limit) -> str:
    block = row.block
    said = (("least", block.least), ("most", block.most), ("plus-height", block.plus_height))
    figures = [f"{key} {figure}" for key, figure in said if figure is not None]
    return ", ".join(figures + ([f"times-height {row.times_height:g}"] if row.times_height else []))


def _for(block: RowBlock) -> str:
    parts = []
    for key in _CONDITIONS:
        value = block.__dict__.get(RowBlock.fields[key].name)
        if value:
            said = ", ".join(value) if isinstance(value, tuple) else str(value)
            parts.append(f"{key}: {said}" if key.startswith("length") else said)
    return "; ".join(parts) or "all"
