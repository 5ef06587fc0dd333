"""What is held back: a finding that only follows from a value, a block or a file that could not be read, which has been told."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.reading.nodes import Mapping

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from collections.abc import Mapping as Map

    from generator.reading.findings import Finding
    from generator.vessel.vessel import Vessel

ROLES = frozenset(
    (
        "who",
        "substitute",
        "carries",
        "carried-by",
        "worn-by",
        "helper",
        "opened-by",
        "launch",
        "hold",
        "cut",
        "bag",
    )
)
SPACES = frozenset(("where", "berth", "muster-place", "bottles", "place", "from", "to", "buoyancy"))
NAMES: Map[str, tuple[str, ...]] = {
    **dict.fromkeys(ROLES, ("people",)),
    **dict.fromkeys(SPACES, ("deck", "vessel.type")),
    "role": ("people", "rafts"),
    "abandon-order": ("people",),
}
"""By the last key of its path: under which blocks stands what is named there."""
LOOKS_FOR: Map[str, tuple[str, ...]] = {
    "alarms": ("fire.carbon-monoxide-alarm-missing", "fire.smoke-alarm-missing", "carriage.lacking"),
    "capsize": ("capsize.not-said",),
    "contacts": ("contacts.rescue-centre", "contacts.unreachable"),
    "escape": ("escape.one-only", "escape.inverted"),
    "gas": ("gas.not-described",),
    "gear": (
        "bill.alarm-unsounded", "capsize.reached-elsewhere", "carriage.lacking", "fire.engine-unprotected", "gear.missing-for-step",
        "grab-bag.elsewhere", "steering.two-places", "water.short", "words.not-aboard",
    ),
    "grab-bags": (
        "capsize.reached-elsewhere", "carriage.lacking", "gear.grab-bag-missing", "grab-bag.elsewhere", "grab-bag.not-inside",
        "grab-bag.only-in-the-raft", "grab-bag.short", "raft.pack", "water.short", "words.not-aboard",
    ),
    "lifejackets": ("carriage.lacking",),
    "medical": ("medical.two-places",),
    "people": ("people.second-in-command", "watches.nobody-able", "watches.unknown-role", "words.nobody"),
    "pumps": ("carriage.lacking", "pumps.too-few"),
    "radio": (
        "capsize.reached-elsewhere", "carriage.lacking", "grab-bag.elsewhere", "grab-bag.not-described", "radio.beacon-missing",
        "radio.handheld", "radio.unexplained",
    ),
    "rafts": (
        "capsize.reached-elsewhere", "carriage.lacking", "grab-bag.short", "notes.unknown-procedure", "raft.missing",
        "raft.reached-inverted", "raft.unheld", "release.not-holding", "water.short", "words.not-aboard",
    ),
    "recovery": ("carriage.lacking", "recovery.incomplete", "recovery.missing"),
    "station-bill": ("bill.no-substitute", "bill.one-lost", "bill.too-few", "bill.unassigned", "watches.duty-below"),
    "steering": ("steering.tiller-unknown", "steering.two-places"),
    "stops": (
        "fire.battery-switch-missing", "fire.engine-without-stop", "fire.fan-runs-on", "gear.kill-cord", "gear.stop-missing",
        "notes.unknown-procedure",
    ),
    "through-hulls": ("through-hulls.missing", "through-hulls.no-seacock"),
    "vessel.type": ("bill.unassigned", "capsize.not-said", "deck.side-missing", "escape.inverted", "gear.missing-for-step", "raft.reached-inverted"),
}  # fmt: skip
"""By block: the checks that look for something in it, and speak of its lack elsewhere. What they say at the block itself need not stand here."""
SAY_SO: Map[str, tuple[str, ...]] = {
    "alarms": ("fire.carbon-monoxide-alarm-missing", "fire.smoke-alarm-missing"),
    "grab-bags": ("gear.grab-bag-missing",),
    "pumps": ("pumps.too-few",),
    "rafts": ("raft.missing",),
    "recovery": ("recovery.missing",),
    "stops": ("gear.stop-missing",),
}
"""By block: the checks that say that a boat without it must have one; the others that look for something in it then wait."""
BESIDE = {"deck.side-missing": "side"}
"""What a check misses at a key of the same block, where that may stand in a form that could not be read."""
_CALLED = ("", ".name", ".role", ".what")
_WHOLE = ("deferral.unused", "file.private-unused")


def held_back(vessel: Vessel, findings: Iterable[Finding]) -> Iterator[Finding]:
    """Those of the findings that follow from what could not be read, or that another of them gives the cause of.

    The finding on what could not be read is never among them. Where the class file is lost, so is all that the boat's own
    file does not say.
    """
    found = list(findings)
    explained = {place: each for each in found for place in each.explains}
    doubted = {each.place.key for each in found if each.explains}
    saying = {each.check for each in found}
    missing = {
        block: checks
        for block, checks in SAY_SO.items()
        if not vessel.says(block) and saying.intersection(checks)
    }
    lost = _Lost(vessel, frozenset((*doubted, *missing)))
    kept = {check for checks in missing.values() for check in checks}
    for each in found:
        cause = explained.get(each.place)
        if each.explains or each.check in kept:
            continue
        if cause is not None or lost.is_cause_of(each):
            yield each


class _Lost:
    """What of a boat could not be read."""

    def __init__(self, vessel: Vessel, doubted: frozenset[str]) -> None:
        self.paths = vessel.unread | doubted
        self.own = vessel.node.entries if vessel.class_lost and isinstance(vessel.node, Mapping) else None
        self.looking = {name for block in LOOKS_FOR if self.lacks(block) for name in LOOKS_FOR[block]}
        if any(self.has(block) for block in type(vessel).fields):
            self.looking.update(_WHOLE)

    def has(self, key: str) -> bool:
        """Whether what stands at a key path, or the block it stands in, was lost."""
        if any(key == path or key.startswith((f"{path}.", f"{path}[")) for path in self.paths):
            return True
        return self.own is not None and bool(key) and key != "based-on" and not _says(self.own, key)

    def lacks(self, block: str) -> bool:
        """Whether a block, or the name of something in it, was lost."""
        return self.has(block) or any(
            path.startswith(f"{block}[") and path.rpartition("]")[2] in _CALLED for path in self.paths
        )

    def is_cause_of(self, finding: Finding) -> bool:
        """Whether a finding only follows from what was lost."""
        key = finding.place.key
        if finding.subject == "file" and finding.check not in (*_WHOLE, "file.checked-aboard"):
            return self.own is not None and finding.check in _OF_LACK and not _says(self.own, key)
        if finding.check in self.looking or self.has(key):
            return True
        last = re.sub(r"\[[^\]]*\]$", "", key).rpartition(".")[2]
        if any(self.lacks(block) for block in NAMES.get(last, ())):
            return True
        beside = BESIDE.get(finding.check)
        return beside is not None and f"{key.rpartition('.')[0]}.{beside}" in self.paths


_OF_LACK = ("file.missing-key", "file.not-known-yet")


def _says(entries: Map[str, object], key: str) -> bool:
    """Whether a boat's own file has a key; what lies in a list is her own as soon as the list is."""
    for step in key.partition("[")[0].split("."):
        if step not in entries:
            return False
        inner = entries[step]
        if not isinstance(inner, Mapping):
            return True
        entries = inner.entries
    return True
