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

_SPACES = ("deck", "vessel", "vessel.type")
NAMES: Map[str, tuple[str, ...]] = {
    **dict.fromkeys(
        ("who", "substitute", "carries", "carried-by", "worn-by", "helper", "opened-by", "launch", "hold", "cut", "bag"), ("people",)
    ),
    **dict.fromkeys(("where", "berth", "muster-place", "place", "from", "to", "buoyancy"), _SPACES),
    "role": ("people", "rafts"),
}  # fmt: skip
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
    "vessel": ("bill.unassigned", "escape.inverted", "gear.missing-for-step", "raft.reached-inverted"),
}  # fmt: skip
"""By block: the checks that look for something in it, and speak of its lack elsewhere. What they say at the block itself need not stand here."""
_WHOLE = ("deferral.unused", "file.private-unused")


def held_back(vessel: Vessel, findings: Iterable[Finding]) -> Iterator[Finding]:
    """Those of the findings that follow from what could not be read, or that another of them gives the cause of.

    The finding on what could not be read is never among them. Where the class file is lost, so is all that the boat's own
    file does not say.
    """
    found = list(findings)
    explained = {place: each for each in found for place in each.explains}
    lost = _Lost(vessel)
    for each in found:
        cause = explained.get(each.place)
        if (cause is not None and cause.check != each.check) or lost.is_cause_of(each):
            yield each


class _Lost:
    """What of a boat could not be read."""

    def __init__(self, vessel: Vessel) -> None:
        self.paths = vessel.unread
        self.own = vessel.node.entries if vessel.class_lost and isinstance(vessel.node, Mapping) else None
        self.looking = {name for block in LOOKS_FOR if self.has(block) for name in LOOKS_FOR[block]}
        if any(self.has(block) for block in type(vessel).fields):
            self.looking.update(_WHOLE)

    def has(self, key: str) -> bool:
        """Whether what stands at a key path, or the block it stands in, was lost."""
        if any(key == path or key.startswith((f"{path}.", f"{path}[")) for path in self.paths):
            return True
        return self.own is not None and bool(key) and key != "based-on" and not _says(self.own, key)

    def is_cause_of(self, finding: Finding) -> bool:
        """Whether a finding only follows from what was lost."""
        key = finding.place.key
        if finding.subject == "file" and finding.check not in _WHOLE:
            return self.own is not None and finding.check in _OF_LACK and not _says(self.own, key)
        if finding.check in self.looking or self.has(key):
            return True
        last = re.sub(r"\[[^\]]*\]$", "", key).rpartition(".")[2]
        return any(self.has(block) for block in NAMES.get(last, ()))


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
