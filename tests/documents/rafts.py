"""templates/rafts/README.md: where rafts are kept and what holds them, and the limits for rafts."""

from __future__ import annotations

from documents.markdown import codes, page, table
from generator.reading.fields import YesNo
from generator.shelves.limits import Limit, shelf
from generator.shelves.stowages import Hold, Stowage, float_free_containers, holds, stowages

STOWAGES = """\
`stowages.yaml` says where a raft may be kept, what goes with each place, and what the place means; `holds.yaml` what may hold it and how that
lets go. Nothing in the program knows one by name. Their steps stand in [`templates/procedures/`](../procedures/README.md), in a file each."""
LIMITS = """\
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
        "Rafts",
        "the files beside it",
        STOWAGES,
        "## Stowages\n\n`floats free`: `depends` means that it turns on how the place is built, and the survey asks.",
        table(("stowage", "container", "held by", "floats free", "means", "source", "standing"), _stowages()),
        f"What a release lets go floats up and fires itself in: {', '.join(float_free_containers())}.",
        "## Holds",
        table(("hold", "means", "frees"), _holds()),
        f"## Limits\n\n{LIMITS}",
        table(("limit", "figures", "holds for", "source", "standing"), rows),
    )


def _figures(row: Limit) -> str:
    return ", ".join(f"{name} {figure:g} {_UNITS[name]}".strip() for name, figure in row.figures.items())


def _for(row: Limit) -> str:
    return (
        "; ".join(filter(None, (", ".join(row.standards), row.container, row.use, row.rule_set)))
        or "every raft"
    )


def _stowages() -> list[tuple[str, ...]]:
    return [
        (
            f"`{each.name}`",
            ", ".join(each.container),
            ", ".join(each.held_by),
            str(each.float_free),
            codes([*_means(each), f"goes-over: {each.goes_over}"]),
            str(each.source),
            str(each.standing),
        )
        for each in stowages().values()
    ]


def _holds() -> list[tuple[str, ...]]:
    return [(f"`{each.name}`", codes(_means(each)), ", ".join(each.frees)) for each in holds().values()]


def _means(row: Stowage | Hold) -> list[str]:
    """The properties that a row has."""
    return [
        key
        for key, field in type(row).fields.items()
        if isinstance(field, YesNo) and getattr(row, field.name)
    ]
