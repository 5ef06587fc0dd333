"""What falls short of the rule sets she is kept by, in the words of every check that says so."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.manual.carriage import SHORT, Row
from generator.survey.registry import DEFECT, RECOMMENDATION, Finds, Found, Sight, all_checks

if TYPE_CHECKING:
    from collections.abc import Callable

    from generator.reading.findings import Place
    from generator.vessel.vessel import Vessel

SOURCE = "the rule sets of templates/carriage; each row has its source"


def shortfalls(sight: Sight, concerns: Callable[[Row], bool]) -> Finds:
    """What falls short of the rows that concern a check; what another check says already is left out."""
    for row in sight.manual.carriage:
        # Where only its date keeps a thing from counting, the finding about that date says it all.
        if row.state == SHORT and concerns(row) and not row.enough_with_past and not _told(row, sight):
            weight = DEFECT if row.rule.standing == "read" else RECOMMENDATION
            past = sum(each.amount for each in row.past)
            late = f", and {counted(past, row)} past the date, which count for nothing" if past else ""
            listed = (
                ""
                if row.rule.counts == (row.rule.item,)
                else f"; what counts is called: {', '.join(row.rule.counts)}"
            )
            yield Found(
                _place(row, sight.vessel),
                f"{asked(row)}: {_there(row)} {counted(row.aboard, row)}{late}{listed}",
                item=row.rule.item,
                weight=weight,
            )


def _there(row: Row) -> str:
    return "in grab bag and raft pack" if row.key == "grab-bags" else "aboard"


def asked(row: Row) -> str:
    """What a row asks for, of which rule set, by which source: "lifebuoy: ... asks for 2 (...)"."""
    standing = "" if row.rule.standing in row.rule.source else f"; {row.rule.standing}"
    return (
        f"{row.rule.item}: {row.rule_set} asks for {counted(row.required, row)} ({row.rule.source}{standing})"
    )


def counted(amount: float, row: Row) -> str:
    """An amount in the unit of a row."""
    return f"{amount:g}{f' {row.rule.unit}' if row.rule.unit else ''}"


def _place(row: Row, vessel: Vessel) -> Place:
    return (
        row.things[0].block.place("quantity")
        if row.things and not row.things[0].in_raft
        else vessel.key_place(row.key)
    )


def _told(row: Row, sight: Sight) -> bool:
    """Whether one of the checks that the row names speaks of the same lack already."""
    checks = all_checks()
    looks = [look for name in row.rule.told_by if (look := checks[name].find)]
    return any(True for look in looks for _ in look(sight))
