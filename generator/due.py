"""What falls due: the deadlines of one boat or a whole base by date, as a table, CSV or calendar."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from generator.fleet import Fleet, Stopped, guarded
from generator.manual.deadlines import Deadline, deadlines_of, in_time
from generator.manual.good_until import ends_of_deferrals, good_until
from generator.manual.printing import Printer
from generator.outputs.calendar import Entry, base_calendar
from generator.publishing import Order, days_of
from generator.reading.block import Block
from generator.reading.findings import Finding, in_order
from generator.reading.values import known
from generator.reading.visible import cell, visible
from generator.shelves.languages import catalogue
from generator.survey.deferral import defer, past_their_date
from generator.survey.registry import COMPOSITION, DESCRIPTION, all_checks, run
from generator.survey.sight import Sight
from generator.survey.withheld.redaction import Redactor
from generator.vessel.loading import load
from generator.vessel.vessel import Vessel

FORMS = (".csv", ".ics")
_COLUMNS = (
    "date",
    "days",
    "boat",
    "item",
    "what",
    "where",
    "governs",
    "as marked",
    "source",
    "then",
    "key",
    "file",
    "line",
    "deferred until",
)
# What a last day brings, by the kind of the deadline.
_THEN = {
    "ends": "no longer good",
    "usual": "usual life over",
    "again": "do it again",
    "decision": "deferral ends",
    "over": "voyage over",
}


@dataclass(frozen=True)
class Row:
    """One deadline of a boat as looked at on `as_of`; `deferred` is the end of its deferral where it is past and deferred."""

    boat: str
    slug: str
    deadline: Deadline
    as_of: date
    specimen: bool = False
    deferred: date | None = None

    @property
    def days(self) -> int:
        """Days from the as-of day to the last good day; negative when it has passed."""
        return (self.deadline.last_day - self.as_of).days

    @property
    def overdue(self) -> bool:
        """Whether something is no longer good and not deferred, not merely past its usual life or to be done again."""
        return self.deadline.firm and self.days < 0 and self.deferred is None

    @property
    def then(self) -> str:
        """What the day brings: no longer good, its usual life over, to be done again, a deferral or the voyage over."""
        return _THEN[self.deadline.kind]


@dataclass(frozen=True)
class Due:
    """The rows by date; `unread` holds name and first finding of each vessel whose file is no tree, `stopped` those whose
    dates cannot be told for another reason.
    """

    rows: tuple[Row, ...]
    unread: tuple[tuple[str, Finding], ...] = ()
    stopped: tuple[Stopped, ...] = ()


def fall_due(fleet: Fleet, order: Order, within_days: int | None = None) -> Due:
    """What has passed and what falls due within so many days (None: everything), over all vessels of a fleet."""
    rows: list[Row] = []
    unread: list[tuple[str, Finding]] = []
    stopped: list[Stopped] = []
    for entry in fleet.entries:
        found = entry if isinstance(entry, Stopped) else guarded(_dates, *entry, order)
        if isinstance(found, Stopped):
            stopped.append(found)
        elif isinstance(found, Finding):
            unread.append((str(Path(found.place.file).parent), found))
        else:
            rows += [row for row in found if within_days is None or row.days <= within_days]
    rows.sort(key=lambda row: (row.deadline.last_day, row.boat, row.deadline.item, row.deadline.what))
    return Due(tuple(rows), tuple(unread), tuple(stopped))


def _dates(folder: Path, shown: str, order: Order) -> list[Row] | Finding:
    """Every deadline of a vessel, or the first finding where her file is no tree."""
    vessel, findings = load(folder, shown)
    hush = Redactor((folder, vessel))
    if vessel is None:
        return hush.findings(findings[:1])[0]
    as_of, _ = days_of(vessel, order)
    name = visible(str(vessel.vessel.name or shown) if vessel.vessel else shown)
    own = deadlines_of(vessel)
    covered = _deferred(vessel, findings, order)
    deadlines = in_time((*own, *ends_of_deferrals(vessel, own, covered, as_of)))
    past = {id(each.deadline): each.until for each in good_until(deadlines, covered, as_of).past}
    return [
        Row(name, vessel.slug, each, as_of, vessel.specimen is not None, past.get(id(deadline)))
        for deadline, each in zip(deadlines, _hushed(deadlines, hush), strict=True)
    ]


def _deferred(vessel: Vessel, findings: list[Finding], order: Order) -> dict[Block, list[Finding]]:
    """What is deferred, by its entry: only where there is one is the description surveyed for it, and nothing is composed.

    Of what shows only in the composed manual it is taken that the entry covers it.
    """
    if not vessel.vessel or not (vessel.deferred_defects or any(past_their_date(vessel))):
        return {}
    as_of, until = days_of(vessel, order)
    found = [*findings, *run(DESCRIPTION, Sight(vessel, as_of, until))]
    covered = defer(vessel, in_order(found), as_of, until)[1]
    for entry in vessel.deferred_defects:
        one = all_checks().get(str(entry.check))
        end = known(entry.until)
        if one is not None and one.stage == COMPOSITION and end is not None and end.last_day >= as_of:
            covered.setdefault(entry, [])
    return covered


@dataclass(frozen=True)
class _At:
    """Where a thing lies, in words that may be told."""

    where: str
    side: str


def _hushed(deadlines: Sequence[Deadline], hush: Redactor) -> list[Deadline]:
    """Deadlines without what guests may not read."""
    said = "\f".join(
        part
        for each in deadlines
        for part in (each.item, each.where, each.stamp, each.said_by, each.place.key)
    )
    if hush.text(said) == said:
        return list(deadlines)
    return [
        replace(
            each,
            called=each.called if hush.text(each.item) == each.item else hush.text(each.item),
            place=hush.place(each.place),
            stamp=hush.text(each.stamp),
            said_by=hush.text(each.said_by),
            at=_At(hush.text(str(each.at.where or "")), str(each.at.side or ""))
            if each.at is not None
            else None,
        )
        for each in deadlines
    ]


def text(rows: tuple[Row, ...], within_days: int | None = None) -> str:
    """The rows as a table for the terminal."""
    if not rows:
        return "nothing falls due" + (
            f" within {within_days} days; --within all shows everything dated"
            if within_days is not None
            else ""
        )
    cells = [
        tuple(
            map(
                visible,
                (
                    str(row.deadline.last_day),
                    _when(row),
                    row.then,
                    row.boat,
                    _thing(row.deadline),
                    f"{row.deadline.governs} ({row.deadline.stamp})",
                    f"{row.deadline.place}",
                ),
            )
        )
        for row in rows
    ]
    widths = [max(len(line[column]) for line in cells) for column in range(6)]
    return "\n".join(
        "  ".join([*(cell.ljust(width) for cell, width in zip(line, widths, strict=False)), line[6]])
        for line in cells
    )


def _thing(deadline: Deadline) -> str:
    return f"{deadline.item}, {deadline.what}" if deadline.what else deadline.item


def _when(row: Row) -> str:
    if row.deferred is not None:
        return f"deferred until {row.deferred}"
    if row.days < 0:
        return f"{'OVERDUE' if row.overdue else 'passed'} {-row.days} d"
    return f"in {row.days} d"


def as_csv(rows: tuple[Row, ...]) -> str:
    """The rows as CSV (RFC 4180) with a heading; `days` counts from the as-of day."""
    out = io.StringIO()
    writer = csv.writer(out, quoting=csv.QUOTE_NONNUMERIC)
    writer.writerow(_COLUMNS)
    for row in rows:
        each = row.deadline
        writer.writerow(
            [
                each.last_day,
                row.days,
                *map(
                    cell,
                    (row.boat, each.item, each.what, each.where, each.governs, each.stamp, each.source),
                ),
                row.then,
                cell(each.place.key),
                cell(each.place.file),
                each.place.line,
                row.deferred or "",
            ]
        )
    return out.getvalue()


def for_file(name: str, rows: tuple[Row, ...], order: Order) -> bytes:
    """The rows for a file, its form chosen by the ending: .csv or .ics. Raises ValueError."""
    check_form(name)
    if name.lower().endswith(".csv"):
        return as_csv(rows).encode("utf-8")
    printer = Printer(catalogue(order.language))
    warning = (printer.say("mark.specimen"),)
    entries = [Entry(row.boat, row.slug, row.deadline, warning if row.specimen else ()) for row in rows]
    return base_calendar(
        entries, max((row.as_of for row in rows), default=order.as_of or order.today), printer
    )


def check_form(name: str) -> None:
    """Raises ValueError where the ending of a file's name says no form of this report."""
    if not name.lower().endswith(FORMS):
        raise ValueError(f"--report {name}: the ending says the form: {' or '.join(FORMS)}")
