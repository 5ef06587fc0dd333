"""templates/lives/README.md: how long each kind of thing lasts, and who says so."""

from __future__ import annotations

from documents.markdown import page, table
from generator.shelves.gear import lives_among
from generator.shelves.gear_rows import GEAR
from generator.shelves.lives import LIVES, Kind, Life, Line

INTRODUCTION = """\
How long things last: by kind of thing the dates that count, the lives counted from them, and their sources. Of several dates the earliest
governs. What the maker of a boat's own thing says (`lives` in her file) goes before. A life that is common practice or from memory only ever
recommends; one that is read or secondary may say `weight: defect`. The head of `lives.yaml` explains each key; what
a kind of gear says of itself (`lines` in [`templates/gear/`](../gear/README.md)) is listed at the end."""


def all_lives() -> tuple[Kind, ...]:
    """Every kind of thing that ages: those of the shelf of lives, and the gear that says itself how it lasts."""
    return lives_among(GEAR.files(), LIVES.files())


def document() -> str:
    """The whole page."""
    rows = [row for kind in all_lives() for line in kind.lines for row in _rows(kind, line)]
    return page(
        "Lives",
        "`lives.yaml`",
        INTRODUCTION,
        table(
            ("kind", "of", "looked at", "told by", "counted", "life", "outlived", "source", "standing"), rows
        ),
    )


def _rows(kind: Kind, line: Line) -> list[tuple[str, ...]]:
    head = (kind.name, kind.block, line.what + (" (to do again)" if line.routine else ""), f"`{line.check}`")
    rows = [
        (
            *head,
            _from(life),
            _life(life),
            "defect" if life.firm else "recommendation",
            _source(life),
            life.standing,
        )
        for life in line.lives
    ]
    if line.marked:
        rows.insert(0, (*head, "as marked: " + ", ".join(line.marked), "", "", "", ""))
    return rows


def _from(life: Life) -> str:
    unless = f", unless {', '.join(life.unless)} is given" if life.unless else ""
    return "from " + " or ".join(life.since) + unless + _when(life.when)


def _when(when: dict[str, list[str]]) -> str:
    return "".join(f"; {key}: {' or '.join(values)}" for key, values in when.items())


def _life(life: Life) -> str:
    aged = f"; {life.aged[2]} months once over {life.aged[1]} months from {life.aged[0]}" if life.aged else ""
    later = f", not before {life.not_before[1]} months from {life.not_before[0]}" if life.not_before else ""
    return f"{life.months} months" + (", to the year's end" if life.year_end else "") + aged + later


def _source(life: Life) -> str:
    return f"{life.source}; edition {life.edition}"
