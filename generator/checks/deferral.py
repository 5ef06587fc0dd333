"""Deferred defects: which findings the skipper knowingly sails with, and which of the entries don't hold."""

from __future__ import annotations

from datetime import date

from generator.reading.findings import Finding
from generator.reading.nearest import nearest
from generator.reading.values import Stamp
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    DEFECT,
    RECOMMENDATION,
    all_checks,
    describe,
)

describe(
    "deferral.unused",
    RECOMMENDATION,
    COMPOSITION,
    COMMON_PRACTICE,
    """Every deferred defect is still found.
    Why: an entry left behind would silently cover the next fault of the same kind.
    Remedy: delete the entry, or correct the item it names.""",
)
describe(
    "deferral.expired",
    DEFECT,
    COMPOSITION,
    COMMON_PRACTICE,
    """No deferral has run out.
    Why: it was to be mended by then; a deferral that renews itself is no decision.
    Remedy: mend it and delete the entry, or decide again and write a new 'until' with who and why.""",
)
describe(
    "deferral.not-allowed",
    DEFECT,
    COMPOSITION,
    COMMON_PRACTICE,
    """Nothing is deferred that cannot be.
    Why: with these nobody may sail knowingly, or the manual would have a hole.
    Remedy: mend it and delete the entry.""",
)
describe(
    "deferral.unknown-check",
    DEFECT,
    COMPOSITION,
    COMMON_PRACTICE,
    """Every deferral names a check there is.
    Why: an entry for a misspelt check covers nothing.
    Remedy: write the id that stands in the finding, as 'musterbook why --all' lists it.""",
)


def defer(vessel, findings: list[Finding], as_of: date) -> tuple[list[Finding], list[Finding], list[Finding]]:
    """The findings that remain, those deferred, and what is wrong with the entries under `deferred-defects`.

    An entry covers the findings of its check; with an item only those about that item. It must say reason, who and
    until, not have run out on `as_of`, and name a check that may be deferred.
    """
    remaining, deferred, more = list(findings), [], []
    for entry in vessel.deferred_defects:
        covered = [finding for finding in findings if _covers(entry, finding)]
        fault = _fault(entry, bool(covered), as_of)
        if fault:
            more.append(fault)
        elif entry.known("reason", "who", "until"):
            deferred += [finding for finding in covered if finding not in deferred]
            remaining = [finding for finding in remaining if finding not in covered]
    return remaining, deferred, more


def _covers(entry, finding):
    if finding.check != entry.check:
        return False
    if not isinstance(entry.item, str):
        return True
    item = entry.item.lower()
    return (
        item == finding.item.lower() or item in finding.message.lower() or item in finding.place.key.lower()
    )


def _fault(entry, covers, as_of):
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
    if not covers:
        return _said(entry, "check", "deferral.unused", f"the deferral of {about} covers no finding")
    return None


def _said(entry, key, name, message, remedy=""):
    one = all_checks()[name]
    item = str(entry.item) if isinstance(entry.item, str) else str(entry.check)
    return Finding(name, one.weight, message, entry.place(key), remedy or one.remedy, item)
