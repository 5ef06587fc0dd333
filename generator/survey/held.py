"""What is held back: a finding that only follows from a value, a block or a file that could not be read, which has been told."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.reading.findings import Weight
from generator.reading.nodes import Mapping
from generator.vessel.capsize import Capsize
from generator.vessel.raft import Party
from generator.vessel.vessel import Vessel

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from collections.abc import Mapping as Map

    from generator.reading.findings import Finding, Place

ROLES = frozenset(
    ("who", "substitute", "carries", "carried-by", "worn-by", "helper", "opened-by", *Party.fields)
)
SPACES = frozenset(
    (
        "where",
        "berth",
        "muster-place",
        "bottles",
        "place",
        "from",
        "to",
        Capsize.buoyancy.key,
        "watches",
        "sounds-in",
    )
)
NAMES: Map[str, tuple[str, ...]] = {
    **dict.fromkeys(ROLES, ("people",)),
    **dict.fromkeys(SPACES, ("deck", "vessel.type")),
    "role": ("people", "rafts"),
    "abandon-order": ("people",),
}
"""By the last key of its path: under which blocks stands what is named there."""
LOOKS_FOR: Map[str, tuple[str, ...]] = {
    "alarms": ("alarms.one-hull", "fire.carbon-monoxide-alarm-missing", "fire.smoke-alarm-missing", "carriage.lacking"),
    "capsize": ("capsize.not-said",),
    "contacts": ("contacts.rescue-centre", "contacts.unreachable"),
    "escape": ("escape.one-only", "escape.inverted", "placed.way-past-fire"),
    Vessel.gas.key: ("gas.not-described",),
    "gear": (
        "bill.alarm-unsounded", "capsize.reached-elsewhere", "carriage.lacking", "fire.engine-unprotected", "fire.galley-only-blanket",
        "gear.aids-too-few", "gear.missing-for-step", "gear.one-oar",
        "gear.unlit", "grab-bag.elsewhere", "steering.two-places", "water.short", "words.not-aboard",
    ),
    "grab-bags": (
        "gear.aids-too-few", "capsize.reached-elsewhere", "carriage.lacking", "gear.grab-bag-missing", "grab-bag.elsewhere", "grab-bag.not-inside",
        "grab-bag.only-in-the-raft", "grab-bag.short", "raft.pack", "water.short", "words.not-aboard",
    ),
    "lifejackets": ("carriage.lacking", "gear.jackets-not-worn", "placed.jackets-far", "voyage.infants"),
    "medical": ("medical.two-places",),
    "people": ("changed.role-renamed", "people.second-in-command", "watches.nobody-able", "watches.unknown-role", "words.nobody"),
    "pumps": ("carriage.lacking", "pumps.none-from-deck", "pumps.too-few"),
    "radio": (
        "capsize.reached-elsewhere", "carriage.lacking", "grab-bag.elsewhere", "grab-bag.not-described", "radio.beacon-missing",
        "radio.handheld", "radio.long-range", "radio.unexplained",
    ),
    "rafts": (
        "capsize.reached-elsewhere", "carriage.lacking", "grab-bag.short", "notes.unknown-procedure", "raft.missing",
        "raft.reached-inverted", "raft.unheld", "release.not-holding", "water.short", "words.not-aboard",
    ),
    "recovery": ("carriage.lacking", "recovery.incomplete", "recovery.missing"),
    "station-bill": ("bill.no-substitute", "bill.one-lost", "bill.too-few", "bill.unassigned", "watches.duty-below"),
    "steering": ("steering.tiller-unknown", "steering.two-places"),
    "stops": (
        "fire.battery-switch-missing", "fire.engine-without-stop", "fire.fan-runs-on", "fire.petrol-vapour", "gear.kill-cord", "gear.stop-missing",
        "notes.unknown-procedure",
    ),
    "through-hulls": ("through-hulls.missing", "through-hulls.no-seacock"),
    "vessel.type": (
        "bill.unassigned", "capsize.not-said", "capsize.reached-elsewhere", "deck.side-missing", "deck.unknown-preset",
        "deck.unlocated-space", "escape.inverted", "gear.for-her-type", "gear.missing-for-step", "gear.tied-in", "raft.reached-inverted",
        "vessel.proportions",
    ),
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
_CLASS = "based-on"
BESIDE = {"deck.side-missing": "side"}
"""What a check misses at a key of the same block, where that may stand in a form that could not be read."""
COUNTS: Map[str, tuple[str, ...]] = {
    "quantity": ("carriage.lacking", "grab-bag.short"),
    "volume": ("grab-bag.only-in-the-raft", "grab-bag.short", "raft.pack", "water.short"),
}
"""By the key of a figure: the checks that add it up over the things aboard, and cannot while one of them is lost."""
_LISTS = ("gear[", "grab-bags[", "lifejackets[")
OF_PERSONS = ("bill.one-lost", "grab-bag.two-carriers", "raft.party-differs", "watches.duty-below")
"""Checks that speak of somebody by the role: not of one who is nobody aboard."""
_TELLING = frozenset(("name", "role", "what", "sets", "beacons", "items", "spaces"))
_QUOTED = re.compile(r"'([^']+)' is no role aboard")
_WHOLE = ("deferral.unused", "file.private-unused")


def held_back(vessel: Vessel, findings: Iterable[Finding]) -> Iterator[Finding]:
    """Those of the findings that follow from what could not be read, or that another of them gives the cause of.

    The finding on what could not be read is never among them, and it is a defect: nothing is published while any is held back.
    Where the class file is lost, so is all that the boat's own
    file does not say.
    """
    found = list(findings)
    stopping = [each for each in found if each.weight is Weight.DEFECT]
    lost = _Lost(vessel, stopping)
    for block, checks in SAY_SO.items():
        said = [each.weight for each in found if each.check in checks]
        if said and not vessel.answers(block) and not lost.has(block):
            lost.missing[block] = min(said)
    explained = {place for each in stopping for place in each.explains}
    kept = {check for block in lost.missing for check in SAY_SO[block]}
    nobody = {
        word
        for each in found
        if each.check == "bill.unknown-person"
        for word in _QUOTED.findall(each.message)
    }
    for each in found:
        if each.explains or each.check in kept:
            continue
        if (
            each.place in explained
            or lost.is_cause_of(each)
            or (
                each.check in OF_PERSONS
                and any(re.search(rf"\b{re.escape(word)}\b", each.message) for word in nobody)
            )
        ):
            yield each


class _Lost:
    """What of a boat could not be read."""

    def __init__(self, vessel: Vessel, told: Iterable[Finding]) -> None:
        doubted = {each.place.key for each in told if each.explains}
        named = any(each.place.key == _CLASS for each in told)
        at = {_spot(each.place) for each in told if each.subject == "file"}
        self.paths = doubted | {path for path, place in vessel.unread.items() if _spot(place) in at}
        self.own = (
            vessel.node.entries if vessel.class_lost and isinstance(vessel.node, Mapping) and named else None
        )
        self.missing: dict[str, Weight] = {}
        self.looking = {name for block in LOOKS_FOR if self.lacks(block) for name in LOOKS_FOR[block]}
        figures = {path.rpartition(".")[2] for path in self.paths if path.startswith(_LISTS)}
        self.looking.update(name for key in COUNTS if key in figures for name in COUNTS[key])
        if doubted or any(self.has(block) for block in type(vessel).fields):
            self.looking.update(_WHOLE)

    def has(self, key: str) -> bool:
        """Whether what stands at a key path, or the block it stands in, was lost."""
        if any(key == path or key.startswith((f"{path}.", f"{path}[")) for path in self.paths):
            return True
        return self.own is not None and bool(key) and key != _CLASS and not _says(self.own, key)

    def lacks(self, block: str) -> bool:
        """Whether a block, a list in it, or the name of something in it was lost."""
        return self.has(block) or any(
            path.startswith((f"{block}[", f"{block}."))
            and (path.endswith("]") or re.split(r"[.\]]", path)[-1] in _TELLING)
            for path in self.paths
        )

    def is_cause_of(self, finding: Finding) -> bool:
        """Whether a finding only follows from what was lost."""
        key = finding.place.key
        if finding.subject == "file" and finding.check not in (*_WHOLE, "file.checked-aboard"):
            return self.own is not None and finding.check in _OF_LACK and not _says(self.own, key)
        if finding.check in self.looking or self.has(key) or self._is_for_want(finding):
            return True
        last = re.sub(r"\[[^\]]*\]$", "", key).rpartition(".")[2]
        if any(self.lacks(block) for block in NAMES.get(last, ())):
            return True
        beside = BESIDE.get(finding.check)
        return beside is not None and f"{key.rpartition('.')[0]}.{beside}" in self.paths

    def _is_for_want(self, finding: Finding) -> bool:
        """Whether it looks for something in a list that she has not, where what says so weighs as much."""
        return any(
            finding.weight >= weight
            and (finding.check in LOOKS_FOR[block] or finding.place.key.startswith(block))
            for block, weight in self.missing.items()
        )


def _spot(place: Place) -> tuple[str, int, int]:
    return place.file, place.line, place.column


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
