"""Deferred defects: which findings the skipper knowingly sails with, and which of the entries don't hold."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.reading.findings import Finding
from generator.reading.nearest import nearest
from generator.reading.values import Stamp
from generator.survey.registry import all_checks

if TYPE_CHECKING:
    from datetime import date

    from generator.vessel.particulars import Deferred
    from generator.vessel.vessel import Vessel


def defer(
    vessel: Vessel, findings: list[Finding], as_of: date
) -> tuple[list[Finding], list[Finding], list[Finding]]:
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


def _covers(entry: Deferred, finding: Finding) -> bool:
    if finding.check != entry.check:
        return False
    if not isinstance(entry.item, str):
        return True
    item = entry.item.lower()
    return (
        item == finding.item.lower() or item in finding.message.lower() or item in finding.place.key.lower()
    )


def _fault(entry: Deferred, covers: bool, as_of: date) -> Finding | None:
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


def _said(entry: Deferred, key: str, name: str, message: str, remedy: str = "") -> Finding:
    one = all_checks()[name]
    item = str(entry.item) if isinstance(entry.item, str) else str(entry.check)
    return Finding(name, one.weight, message, entry.place(key), remedy or one.remedy, item)
