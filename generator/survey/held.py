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
    "contacts": ("contacts.rescue-centre", "contacts.unreachable", "medical.advice-not-told"),
    "escape": ("capsize.held-inside", "capsize.raft-under-her", "capsize.reached-in-a-room", "escape.one-only", "escape.inverted", "placed.way-past-battery", "placed.way-past-fire"),
    Vessel.gas.key: ("gas.not-described",),
    "gear": (
        "bill.alarm-unsounded", "capsize.reached-elsewhere", "carriage.lacking", "fire.engine-unprotected", "fire.galley-only-blanket",
        "gear.aids-too-few", "gear.missing-for-step", "gear.one-oar",
        "gear.unlit", "grab-bag.elsewhere", "beacon.device-unseen", "radio.nothing-without-mast", "steering.two-places", "watches.nobody-sees", "water.short", "words.not-aboard",
    ),
    "grab-bags": (
        "gear.aids-too-few", "capsize.reached-elsewhere", "carriage.lacking", "gear.grab-bag-missing", "grab-bag.elsewhere", "grab-bag.not-inside",
        "grab-bag.only-in-the-raft", "grab-bag.short", "raft.pack", "water.short", "words.not-aboard",
        "raft.no-beacon",
    ),
    "lifejackets": ("carriage.lacking", "gear.jackets-not-worn", "placed.jackets-far", "voyage.infants"),
    "medical": ("medical.advice-not-told", "medical.two-places"),
    "people": ("changed.role-renamed", "people.nobody-left", "people.nobody-trained", "people.second-in-command", "watches.nobody-able", "watches.unknown-role", "words.nobody", "raft.nobody-able", "raft.hands-uneven", "raft.none-if-gone"),
    "pumps": ("carriage.lacking", "pumps.none-from-deck", "pumps.too-few"),
    "radio": (
        "capsize.open-boat-calls", "capsize.reached-elsewhere", "carriage.lacking", "grab-bag.elsewhere", "grab-bag.not-described", "radio.beacon-missing",
        "radio.dies-with-batteries", "radio.handheld", "radio.long-range", "radio.nothing-on-the-body", "radio.nothing-without-mast", "beacon.device-unseen", "radio.unexplained", "watches.nobody-sees",
        "raft.beacons-fewer", "raft.no-beacon",
    ),
    "rafts": (
        "capsize.reached-elsewhere", "carriage.lacking", "grab-bag.short", "notes.unknown-procedure", "raft.missing",
        "raft.reached-inverted", "raft.unheld", "release.not-holding", "water.short", "words.not-aboard",
        "raft.no-beacon", "raft.none-if-gone", "raft.order-gap",
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
    "kind": ("words.no-channel",),
    "quantity": ("carriage.lacking", "grab-bag.short"),
    "volume": ("grab-bag.only-in-the-raft", "grab-bag.short", "raft.pack", "water.short"),
}
"""By the key of a thing in a list: the checks that go by it over all things aboard, and cannot while one of them is lost."""
_LISTS = ("gear[", "grab-bags[", "lifejackets[", "radio.sets[")
OF_PERSONS = ("bill.one-lost", "grab-bag.two-carriers", "raft.party-differs", "watches.duty-below")
"""Checks that speak of somebody by the role: not of one who is nobody aboard."""
ONE_OF = (
    ("deferral.long-past", "deferral.too-far"),
    ("words.name-elsewhere", "words.other-end"),
    ("fire.stops-alike", "words.other-deed"),
    ("deferral.belied", "gear.plug"),
    ("capsize.reached-in-a-room", "capsize.reached-elsewhere"),
    ("bill.one-waits", "bill.call-away"),
    ("placed.batteries", "radio.power-low"),
    ("words.box-elsewhere", "through-hulls.plug-far"),
    ("towing.weak-point", "words.other-space"),
    ("raft.strong-point-rail", "words.other-space"),
    ("placed.across-flames", "words.by-another"),
    ("words.name-elsewhere", "placed.in-the-open"),
    ("anchor.rode-short", "anchor.out-of-proportion"),
    ("anchor.line-useless", "anchor.out-of-proportion"),
    ("pumps.handle-in-a-locker", "placed.buried"),
    ("recovery.hoist-weak", "words.other-deed"),
    ("words.dangerous-deed", "words.no-answer"),
    ("words.other-end", "anchor.not-at-the-bow"),
    ("words.one-box", "words.by-another"),
    ("words.not-aboard", "placed.buried"),
    ("escape.nobody-there", "placed.way-out"),
    ("placed.ladder-shut-in", "placed.recovery"),
    ("placed.no-way-of-own", "placed.way-past-battery"),
    ("placed.kept", "fire.in-a-store"),
    ("words.name-elsewhere", "fire.in-a-store"),
    ("fire.galley-only-blanket", "fire.in-a-store"),
    ("fire.in-a-store", "fire.galley-far"),
    ("beacon.shut-in", "placed.held-down"),
)
"""Checks that may find one mistake both: of two at one place, the first one's or one beside it, that is told that weighs more, of equal ones the first."""
SAID_WITH = {"people.worn-by": "gear.jackets-not-worn"}
"""A check that tells of who is no role aboard, and the weightier one that gives that as its cause at the same place."""
FREED = {
    "bill.helper-busy": ("bill.one-waits", "bill.substitute-bound"),
    "escape.one-way": ("placed.way-past-fire", "placed.no-way-of-own"),
    "escape.none-inverted": ("capsize.held-inside",),
    "spelling.hull-type": (
        "words.other-space", "words.name-elsewhere", "escape.none-inverted", "escape.companionway", "fire.helm-far", "gear.jackets-not-worn",
    ),
}  # fmt: skip
"""A check, and those that go by what it says is wrong: by whoever is free until another helper is named, by the plan of another type."""
MOVED = (
    "placed.launching", "placed.at-the-raft", "placed.knife", "raft.strong-point-far", "raft.exposed", "placed.raft-level", "words.other-space",
)  # fmt: skip
"""Checks that hold the parts of a raft against its own place, the one that is told first."""
_OF_A_RAFT = re.compile(r"rafts\[[^\]]*\]")
_MOST_APART = 2
"""Of more parts of a raft that lie elsewhere it is the raft's own place that differs, and one of them is told."""
_TELLING = frozenset(("name", "role", "what", "sets", "beacons", "items", "spaces"))
_QUOTED = re.compile(r"'([^']+)' is no role aboard")
_WHOLE = ("deferral.unused", "file.private-unused")


def held_back(vessel: Vessel, findings: Iterable[Finding]) -> Iterator[Finding]:
    """Those of the findings that follow from what could not be read, or that another of them gives the cause of.

    The finding on what could not be read is never among them, and it is a defect: nothing is published while any is held back for it.
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
    twice = {*_told_twice(found), *_given_as_cause(found), *_of_moved_rafts(found)}
    told = {each.check for each in stopping}
    waiting = {check for cause, checks in FREED.items() if cause in told for check in checks}
    for each in found:
        if each.explains or each.check in kept:
            continue
        if (
            each in twice
            or each.check in waiting
            or each.place in explained
            or lost.is_cause_of(each)
            or (
                each.check in OF_PERSONS
                and any(re.search(rf"\b{re.escape(word)}\b", each.message) for word in nobody)
            )
        ):
            yield each


def _told_twice(found: Iterable[Finding]) -> Iterator[Finding]:
    """Of every two findings of ONE_OF at one place the one that is not told."""
    at: dict[tuple[str, Place], Finding] = {(each.check, each.place): each for each in found}
    for first, second in ONE_OF:
        for one in (each for each in at.values() if each.check == first):
            for place in (one.place, *one.also):
                if other := at.get((second, place)):
                    yield one if other.weight < one.weight else other


def _of_moved_rafts(found: Iterable[Finding]) -> Iterator[Finding]:
    """Of a raft whose parts lie elsewhere than itself all findings of MOVED but the first, where one of them stops publishing."""
    apart: dict[str, list[Finding]] = {}
    for each in found:
        raft = _OF_A_RAFT.match(each.place.key) if each.check in MOVED else None
        if raft is not None:
            apart.setdefault(raft[0], []).append(each)
    for those in apart.values():
        if len(those) > _MOST_APART and any(each.check == MOVED[0] for each in those):
            yield from sorted(those, key=lambda each: (each.weight, MOVED.index(each.check)))[1:]


def _given_as_cause(found: Iterable[Finding]) -> Iterator[Finding]:
    """Of the findings of SAID_WITH those whose every unknown role the other one names at the same place."""
    found = list(found)
    causes = {
        (each.check, each.place, word)
        for each in found
        if each.check in SAID_WITH.values()
        for word in _QUOTED.findall(each.message)
    }
    for each in found:
        words = _QUOTED.findall(each.message) if each.check in SAID_WITH else ()
        if words and all((SAID_WITH[each.check], each.place, word) in causes for word in words):
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
