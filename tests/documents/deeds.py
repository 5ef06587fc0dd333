"""templates/deeds/README.md: what no text may tell anybody to do, and how things are not worked."""

from __future__ import annotations

from documents.markdown import page, table
from generator.shelves.deeds import DEEDS
from generator.shelves.handling import HANDLING

INTRODUCTION = """\
`dangers.yaml`: deeds that cost lives, the words in which people tell somebody to do them, and what is written in their place; the check
`words.dangerous-deed` reads every text of a boat's own against them. `handling.yaml`: how things are not worked that a step names; read by
`words.other-deed`. A word in capitals stands for a list of words of the same file. The head of each file explains its keys."""


def document() -> str:
    """The whole page."""
    dangers = [each for file in DEEDS.files() for each in file.block.dangers]
    handled = [each for file in HANDLING.files() for each in file.block.handled]
    return page(
        "Deeds",
        "`dangers.yaml`, `handling.yaml`",
        INTRODUCTION,
        "## What no text may tell anybody",
        table(
            ("deed", "wordings", "why", "instead", "source", "standing"),
            [(e.danger, str(len(e.said)), e.why, e.instead, e.source, e.standing) for e in dangers],
        ),
        "## How things are not worked",
        table(
            ("what", "then", "wordings", "labels", "how it is worked"),
            [(e.handled, e.fails, str(len(e.otherwise)), str(len(e.labels)), e.example) for e in handled],
        ),
    )
