"""templates/gear/README.md: the kinds of gear, what they are called, what they are and do."""

from __future__ import annotations

from documents.markdown import page, table
from generator.shelves.gear_rows import GEAR, GearKind

INTRODUCTION = """\
Every name that steps, rule sets, packs, checks and lives ask for, once. A thing of the gear list or of a grab bag has the name that stands before its
first comma. Steps and rule sets find it by the kind's own name; dates and checks know it under the names beside it too; whoever writes one of
the other names is told the right one. What a kind is and does decides which checks look at it. The head of `gear.yaml` explains each key."""


def document() -> str:
    """The whole page."""
    kinds = [kind for each in GEAR.files() for kind in each.block.kinds]
    return page(
        "Kinds of gear",
        "`gear.yaml`",
        INTRODUCTION,
        table(
            ("kind", "known as well", "other names", "is", "lasts as", "marked for at most"),
            [
                (
                    str(kind.kind),
                    ", ".join(kind.also) or ", ".join(f"… {word} …" for word in kind.words),
                    ", ".join(kind.other_names),
                    ", ".join(kind.is_),
                    str(kind.lasts_as or ("as it says itself" if kind.lines else "")),
                    _marked(kind),
                )
                for kind in kinds
            ],
        ),
    )


def _marked(kind: GearKind) -> str:
    longest = kind.marked_for
    return f"{longest.months} months ({longest.source}; {longest.standing})" if longest else ""
