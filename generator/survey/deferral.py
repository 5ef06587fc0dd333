"""Deferred defects: which findings the skipper knowingly sails with, in a list or on the thing, and which entries don't hold."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.manual.naming import lifejackets_of_size
from generator.reading.findings import Finding, Weight
from generator.reading.nearest import alike, nearest
from generator.reading.values import Stamp, untold
from generator.shelves.lives import BEACON_CHECK, MARKED_CHECK, USUAL_CHECK
from generator.survey.registry import all_checks
from generator.vessel.gear import Lifejackets

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from datetime import date

    from generator.reading.block import Block
    from generator.vessel.alarms import Alarm
    from generator.vessel.gear import Gear, GrabItem, StillCarried
    from generator.vessel.particulars import Deferred
    from generator.vessel.radio import Beacon
    from generator.vessel.vessel import Vessel

    _Carried = Alarm | Beacon | Gear | GrabItem | Lifejackets

_PAST_A_DATE = (MARKED_CHECK, BEACON_CHECK, USUAL_CHECK)


def defer(
    vessel: Vessel, findings: list[Finding], as_of: date, until: date | None = None
) -> tuple[list[Finding], dict[Block, list[Finding]], list[Finding]]:
    """The findings that remain, those deferred by their entry, and what is wrong with the entries of `deferred-defects`.

    An entry covers the findings of its check about the one thing that its item names, exactly, by its name, in the words with which
    the message begins, or by the key path of the finding; where several things go by that, none. It must say reason, who and until, not have run out on `as_of`, and
    name a check that may be deferred. One that ends before `until`, the day everything must last to, is found too.
    """
    remaining, more = list(findings), []
    deferred: dict[Block, list[Finding]] = {}
    for entry in vessel.deferred_defects:
        found = [finding for finding in findings if finding.check == entry.check]
        covered = _meant(entry.item, found) if isinstance(entry.item, str) else []
        fault = _fault(entry, found, covered, as_of)
        if fault:
            more.append(fault)
        elif entry.known("reason", "who", "until"):
            deferred[entry] = covered
            more += _ends_early(entry, covered, until)
            remaining = [finding for finding in remaining if finding not in covered]
    for thing, beside in past_their_date(vessel):
        covered = [each for each in remaining if each.about is thing and each.check in _PAST_A_DATE]
        fault = _fault_beside(thing, beside, covered, as_of)
        if fault:
            more.append(fault)
        elif beside.known("reason", "who", "until"):
            deferred[beside] = covered
            more += _ends_early(beside, covered, until)
            remaining = [finding for finding in remaining if finding not in covered]
    return remaining, deferred, more


def _ends_early(
    entry: Deferred | StillCarried, covered: Sequence[Finding], until: date | None
) -> Iterator[Finding]:
    """That a deferral ends before the day everything must last to."""
    end = entry.until
    if until is not None and isinstance(end, Stamp) and end.last_day < until and covered:
        one, item = all_checks()["deferral.expired"], covered[0].item or covered[0].check
        message = f"{item}: its deferral ends on {end.last_day}, before {until}, the day to last to"
        remedy = "mend it before, or decide again and write a later 'until' with who and why"
        yield Finding(one.id, one.weight, message, entry.place("until"), remedy, item, (), entry)


def past_their_date(vessel: Vessel) -> Iterator[tuple[_Carried, StillCarried]]:
    """What the file says is past its date and still carried, and why."""
    things: list[_Carried] = [*vessel.gear, *vessel.alarms, *vessel.lifejackets]
    things += vessel.radio.beacons if vessel.radio else ()
    for bag in vessel.grab_bags:
        things += bag.items
    for each in things:
        if "still_carried" in each.__dict__ and each.still_carried is not None:
            yield each, each.still_carried


def _fault_beside(
    thing: _Carried, entry: StillCarried, covered: Sequence[Finding], as_of: date
) -> Finding | None:
    """What keeps an entry that stands on the thing itself from meaning what was found."""
    if isinstance(entry.until, Stamp) and entry.until.last_day < as_of:
        name, key, message = (
            "deferral.expired",
            "until",
            f"was to be carried until {entry.until.last_day} only",
        )
    elif not covered:
        name, key, message = "deferral.unused", "", "is not past its date; it says why it is still carried"
    else:
        return None
    one = all_checks()[name]
    remedy = one.remedy if covered else "remove 'still-carried'"
    named = lifejackets_of_size(thing) if isinstance(thing, Lifejackets) else thing.what
    item = entry.place().key if untold(named) else str(named)
    return Finding(name, one.weight, f"{item}: {message}", entry.place(key), remedy, item, (), entry)


def _read(name: str) -> str:
    """A name as it is compared: whole, with blanks in a row as one; capitals do not matter."""
    return " ".join(name.split()).casefold()


def _names(finding: Finding) -> tuple[str, ...]:
    """What an entry may call the thing of a finding: its item, its key path."""
    return tuple(name for name in (finding.item, finding.place.key) if name.strip())


def _covers(name: str, finding: Finding) -> bool:
    """Whether a name is that of the finding's thing or its key path; a blank is neither."""
    return _read(name) in map(_read, _names(finding))


def _meant(name: str, found: Sequence[Finding]) -> list[Finding]:
    """The findings of the thing that an entry names, else those whose message begins with what it says."""
    return [each for each in found if _covers(name, each)] or [
        each for each in found if _printed_so(name, each)
    ]


def _printed_so(name: str, finding: Finding) -> bool:
    """Whether a message begins with these words, article or not, and the item is among them: the batteries shut-off, of 'batteries'."""
    said, item = _read(name).removeprefix("the "), _read(finding.item).removeprefix("the ")
    begins = _read(finding.message).removeprefix("the ")
    if not item or not begins.startswith(said) or re.match(r"[\w-]", begins[len(said) :]):
        return False
    return re.search(rf"(?<!\w){re.escape(item)}(?!\w)", said) is not None


def _one_thing(findings: Sequence[Finding]) -> bool:
    """Whether these findings are about one and the same thing, or a thing and its parts."""
    first = next(iter(findings), None)
    return first is None or all(_same(first, other) for other in findings[1:])


def _same(one: Finding, other: Finding) -> bool:
    """Whether two findings mean one thing: it has one name, and one block or, where it is nowhere aboard, one place."""
    if not one.item.strip() or _read(one.item) != _read(other.item):
        return False
    if one.about is None or other.about is None:
        return one.place == other.place
    return any(one.about is each for each in other.about.inner()) or any(
        other.about is each for each in one.about.inner()
    )


def _exact_name(finding: Finding, found: Sequence[Finding]) -> str:
    """The item of a finding or else its key path, whichever means its thing alone among what was found; "" for neither."""
    return next(
        (name for name in _names(finding) if _one_thing([each for each in found if _covers(name, each)])), ""
    )


def _to_paste(entry: Deferred, found: Sequence[Finding], of: Sequence[Finding]) -> str:
    """What to write under `item` for one of these, the nearest name first, each as it stands in a file."""
    exact = [_exact_name(each, found) for each in of]
    names = list(dict.fromkeys(filter(None, exact)))
    meant = alike(entry.item, names) if isinstance(entry.item, str) else []
    lines = [f"item: {_quoted(name)}" for name in dict.fromkeys((*meant, *names))]
    others = f" (or, of what was found, {', '.join(lines[1:])})" if lines[1:] else ""
    said = [f"write {lines[0]}{others}"] if lines else []
    if not all(exact):
        said.append("tell those of one name apart, behind a comma, and write an entry for each")
    return "; ".join(said)


def _quoted(name: str) -> str:
    return f'"{name}"' if '"' not in name else "'" + name.replace("'", "''") + "'"


def _fault(
    entry: Deferred, found: Sequence[Finding], covered: Sequence[Finding], as_of: date
) -> Finding | None:
    checks = all_checks()
    if not isinstance(entry.check, str):
        return None
    one = checks.get(entry.check)
    about = f"'{entry.check}'" + (f" at '{entry.item}'" if isinstance(entry.item, str) else "")
    if one is None:
        same = [name for name in checks if name.partition(".")[0] == entry.check.partition(".")[0]]
        return _said(
            entry,
            "check",
            "deferral.unknown-check",
            f"there is no check '{entry.check}'",
            nearest(entry.check, same or sorted({name.partition(".")[0] + ".…" for name in checks})),
        )
    if not one.deferrable:
        return _said(
            entry, "check", "deferral.not-allowed", f"{about} cannot be deferred", f"mend it: {one.remedy}"
        )
    if isinstance(entry.until, Stamp) and entry.until.last_day < as_of:
        return _said(
            entry, "until", "deferral.expired", f"the deferral of {about} ran out on {entry.until.last_day}"
        )
    return _inexact(entry, about, found, covered)


def _inexact(
    entry: Deferred, about: str, found: Sequence[Finding], covered: Sequence[Finding]
) -> Finding | None:
    """What keeps an entry from meaning just one thing that the check found."""
    if not found:
        return _said(entry, "check", "deferral.unused", f"the deferral of {about} covers no finding")
    if not isinstance(entry.item, str) or not entry.item.strip():
        message = f"the deferral of {about} does not say of which thing"
        return _said(entry, "check", "deferral.inexact", message, _to_paste(entry, found, found))
    if not covered:
        message = f"the deferral of {about} covers no finding; the check found other things"
        remedy = _to_paste(entry, found, found)
        return _said(entry, "item", "deferral.unused", message, remedy, weight=Weight.DEFECT)
    if not _one_thing(covered):
        message = f"the deferral of {about} fits {len(covered)} findings about several things"
        remedy = _to_paste(entry, found, covered)
        return _said(entry, "item", "deferral.inexact", message, remedy, also=covered)
    return None


def _said(
    entry: Deferred,
    key: str,
    name: str,
    message: str,
    remedy: str = "",
    *,
    weight: Weight | None = None,
    also: Sequence[Finding] = (),
) -> Finding:
    one = all_checks()[name]
    item = str(entry.item) if isinstance(entry.item, str) else str(entry.check)
    places = tuple(each.place for each in also)
    heavy = one.weight if weight is None else weight
    return Finding(name, heavy, message, entry.place(key), remedy or one.remedy, item, places, entry)
