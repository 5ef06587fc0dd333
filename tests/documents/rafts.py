"""templates/rafts/README.md: where rafts are kept and what holds them."""

from __future__ import annotations

from documents.markdown import codes, page, table
from generator.reading.fields import YesNo
from generator.shelves.packs import packs
from generator.shelves.stowages import Hold, Stowage, float_free_containers, holds, stowages

STOWAGES = """\
`stowages.yaml` says where a raft may be kept, what goes with each place, and what the place means; `holds.yaml` what may hold it and how that
lets go. Nothing in the program knows one by name. Their steps stand in [`templates/procedures/`](../procedures/README.md), in a file each."""


def document() -> str:
    """The whole page."""
    return page(
        "Rafts",
        "the files beside it",
        STOWAGES,
        "## Stowages\n\n`floats free`: `depends` means that it turns on how the place is built, and the survey asks.",
        table(("stowage", "container", "held by", "floats free", "means", "source", "standing"), _stowages()),
        f"What a release lets go floats up and fires itself in: {', '.join(float_free_containers())}.",
        "## Holds",
        table(("hold", "means", "frees"), _holds()),
        "## Packs\n\nWhat is known to be in a packed raft by the name of its pack; `packs.yaml`.",
        table(("pack", "contents", "brings", "source", "standing"), _packs()),
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


def _packs() -> list[tuple[str, ...]]:
    return [
        (
            f"`{name}`",
            ", ".join([*([str(each.contents)] if each.contents else []), *each.holds]) or "not known",
            ", ".join(key for key in ("water", "food") if getattr(each, key)) or "neither water nor food",
            str(each.source),
            str(each.standing),
        )
        for name, each in packs().items()
    ]


def _means(row: Stowage | Hold) -> list[str]:
    """The properties that a row has."""
    return [
        key
        for key, field in type(row).fields.items()
        if isinstance(field, YesNo) and getattr(row, field.name)
    ]
