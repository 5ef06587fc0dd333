"""templates/gear/README.md: the kinds of gear, what they are called, what they are and do."""

from __future__ import annotations

from documents.markdown import page, table
from generator.shelves.gear_rows import GEAR, GearKind

INTRODUCTION = """\
Every name that steps, rule sets, packs, checks and lives ask for, once. A thing of the gear list or of a grab bag is of the kind that the words before
its first comma end with, in any letter case, singular or plural, with or without hyphens, whatever stands before it or tells which one it is behind it:
"Horseshoe lifebuoy with light", "fire extinguishers 2 kg". Steps, rule sets, checks and the plan find it alike; whoever writes one of the other names is
told the kind's own. What belongs to a thing is another: a lifebuoy light is a light. What a kind is and does decides which checks look at it. The head of
`gear.yaml` explains each key."""


def document() -> str:
    """The whole page."""
    kinds = [kind for each in GEAR.files() for kind in each.block.kinds]
    return page(
        "Kinds of gear",
        "`gear.yaml`",
        INTRODUCTION,
        table(
            ("kind", "known as well", "other names", "not behind", "is", "lasts as", "marked for at most"),
            [
                (
                    str(kind.kind),
                    ", ".join(kind.also) or ", ".join(f"… {word} …" for word in kind.words),
                    ", ".join(kind.other_names),
                    ", ".join(kind.not_before),
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
