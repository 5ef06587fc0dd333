"""The calendar: each date as an event with alarms 90 and 30 days ahead.

It is written as RFC 5545 has it, of one boat or of a whole base.
"""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from typing import TYPE_CHECKING

from generator.manual.deadlines import Deadline
from generator.manual.printing import Printer
from generator.outputs import Job, Made
from generator.outputs.setting.pages import marks
from generator.shelves.life_rows import DECISION

if TYPE_CHECKING:
    from icalendar import Alarm, Event

READER = "crew"
FILE = "calendar.ics"
ALARM_DAYS = (90, 30)
ROUTINE_ALARM_DAYS = (1,)  # what is done each month needs no word three months ahead
DECIDED_ALARM_DAYS = (30, 7)  # what is put off is put off for weeks mostly
_EPOCH = date(2020, 1, 1)


@dataclass(frozen=True)
class Entry:
    """One deadline of one boat; `slug` is the name of her folder, `warnings` what every page of her manual warns of."""

    boat: str
    slug: str
    deadline: Deadline
    warnings: tuple[str, ...] = ()


def write(job: Job) -> Made:
    """The file `calendar.ics` of one boat."""
    manual = job.manual
    boat, standing = manual.boat, marks(manual)
    entries = [Entry(boat, manual.slug, each, standing.warnings) for each in manual.dates]
    title = manual.printer.say("calendar.of", boat=boat)
    about = ". ".join((*standing.warnings, standing.surveyed_on, standing.disclaimer))
    return Made({FILE: calendar_of(entries, title, about, manual.as_of, manual.printer)})


def base_calendar(entries: Iterable[Entry], as_of: date, printer: Printer) -> bytes:
    """The calendar of several boats in one file."""
    about = ". ".join(
        (printer.say("mark.surveyed-on", date=printer.day(as_of)), printer.say("disclaimer.short"))
    )
    return calendar_of(entries, printer.say("calendar.of-all"), about, as_of, printer)


def calendar_of(entries: Iterable[Entry], title: str, about: str, as_of: date, printer: Printer) -> bytes:
    """An iCalendar stream with an event an entry. DTSTAMP and SEQUENCE come from `as_of`, so the same day gives the same bytes."""
    from icalendar import Calendar

    made = Calendar()
    made.add("prodid", f"-//musterbook//calendar//{printer.language.upper()}")
    made.add("version", "2.0")
    made.add("calscale", "GREGORIAN")
    made.add("x-wr-calname", title)
    made.add("x-wr-caldesc", about)
    for uid, entry in _with_uids(entries):
        made.add_component(_event(uid, entry, as_of, printer))
    written: bytes = made.to_ical()
    return written


def _with_uids(entries: Iterable[Entry]) -> list[tuple[str, Entry]]:
    """Each entry with its UID: of boat, thing and what of it, never of the date, so that a new date moves the event.

    Things of one name are told apart by their place, and those of one place by their order in the file.
    """
    entries = sorted(
        entries,
        key=lambda each: (each.slug, each.deadline.place.file, each.deadline.place.line, each.deadline.what),
    )
    alike: Counter[tuple[str, ...]] = Counter(_named(entry) for entry in entries)
    seen: Counter[tuple[str, ...]] = Counter()
    rows = []
    for entry in entries:
        name: tuple[str, ...] = _named(entry)
        if alike[name] > 1:
            name = (*name, entry.deadline.where)
        seen[name] += 1
        text = "\n".join(name if seen[name] == 1 else (*name, str(seen[name])))
        rows.append((f"{hashlib.sha256(text.encode()).hexdigest()[:32]}@musterbook", entry))
    return sorted(rows, key=lambda row: (row[1].deadline.last_day, row[1].slug, row[0]))


def _named(entry: Entry) -> tuple[str, str, str]:
    return (entry.slug, entry.deadline.path, entry.deadline.what)


def _event(uid: str, entry: Entry, as_of: date, printer: Printer) -> Event:
    from icalendar import Event

    each = entry.deadline
    summary = _summary(entry, printer)
    event = Event()
    event.add("uid", uid)
    event.add("dtstamp", datetime(as_of.year, as_of.month, as_of.day, tzinfo=UTC))
    event.add("sequence", max(0, (as_of - _EPOCH).days))
    event.add("dtstart", each.last_day)
    event.add("dtend", each.last_day + timedelta(days=1))
    event.add("summary", summary)
    event.add("description", "\n".join(_described(entry, printer)))
    if each.at is not None:
        event.add("location", f"{entry.boat}: {printer.whereabouts(each.at, exactly=False)}")
    event.add("categories", [entry.boat, printer.say(f"calendar.kind.{each.kind}")])
    event.add("transp", "TRANSPARENT")
    for days in _alarm_days(each):
        words = (
            printer.say("calendar.ahead", days=days, summary=summary)
            if days > 1
            else printer.say("calendar.tomorrow", summary=summary)
        )
        event.add_component(_alarm(days, words))
    return event


def _alarm(days: int, words: str) -> Alarm:
    from icalendar import Alarm

    alarm = Alarm()
    alarm.add("action", "DISPLAY")
    alarm.add("description", words)
    alarm.add("trigger", timedelta(days=-days))
    return alarm


def _alarm_days(deadline: Deadline) -> tuple[int, ...]:
    if deadline.kind == DECISION:
        return DECIDED_ALARM_DAYS
    return ROUTINE_ALARM_DAYS if deadline.routine else ALARM_DAYS


def _summary(entry: Entry, printer: Printer) -> str:
    thing = printer.dated(entry.deadline)
    return printer.say(f"calendar.summary.{entry.deadline.kind}", boat=entry.boat, thing=thing)


def _described(entry: Entry, printer: Printer) -> Iterator[str]:
    each = entry.deadline
    yield from entry.warnings
    yield printer.say("calendar.governs", date=each.counted, stamp=each.stamp)
    if source := printer.source_of(each):
        yield printer.say("calendar.source", source=source)
    if each.window:
        yield printer.say(
            "calendar.window", first=printer.day(each.window[0]), last=printer.day(each.window[1])
        )
