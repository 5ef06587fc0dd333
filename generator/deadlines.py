"""Deadlines: every dated thing aboard with the last day on which it is good, and which of its dates says so."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from generator.calc.expiry import governing, months_later
from generator.findings import Place
from generator.vessel.values import Stamp

# HRU, disposable: two years from fitting or four from making, whichever first (a maker's manual, secondary; the two years
# also common practice).
RELEASE_LIFE_MONTHS, RELEASE_SHELF_MONTHS = 24, 48


@dataclass(frozen=True)
class Deadline:
    """`item` is good until `last_day`; `governs` names the date that says so, `stamp` the marking as written.

    `check` is the id of the check that speaks of it when it has passed.
    """

    item: str
    what: str
    last_day: date
    governs: str
    place: Place
    check: str
    stamp: str = ""


def deadlines_of(vessel) -> tuple[Deadline, ...]:
    """All deadlines of a vessel, the earliest first."""
    found = [*_rafts(vessel), *_beacons(vessel), *_gear(vessel), *_lifejackets(vessel), *_bags(vessel), *_gas(vessel)]
    return tuple(sorted(found, key=lambda each: (each.last_day, each.item, each.what)))


def _marked(block, **keys):
    """(what, stamp, key) of each date given in a block."""
    return [(what, getattr(block, name), name.replace("_", "-")) for name, what in keys.items()
            if isinstance(getattr(block, name), Stamp)]


def _line(item, what, block, dates, check):
    """One deadline out of several dates (what, Stamp, key) and (what, day, key): the earliest governs."""
    chosen = governing([(what_date, day) for what_date, day, _, _ in dates])
    if chosen is None:
        return []
    key, stamp = next((key, stamp) for name, day, key, stamp in dates if (name, day) == chosen)
    return [Deadline(item, what, chosen[1], chosen[0], block.place(key), check, stamp)]


def _as_dates(marked):
    return [(what, stamp.last_day, key, stamp.stamp or str(stamp)) for what, stamp, key in marked]


def _rafts(vessel):
    lines = []
    for raft in vessel.rafts:
        name = str(raft.name)
        if raft.service:
            lines += _line(name, "service", raft.service, _as_dates(_marked(raft.service, next="next service")), "raft.service-due")
            lines += _line(name, "contents", raft.service, _as_dates(_marked(raft.service, contents_expire="first of the pack to expire")),
                           "raft.contents-expired")
            lines += _line(name, "cylinder", raft.service, _as_dates(_marked(raft.service, cylinder_test="cylinder test")), "raft.cylinder-test")
        if raft.release:
            dates = _as_dates(_marked(raft.release, expires="marked expiry"))
            if raft.release.kind == "disposable":
                dates += _lives(raft.release, ("fitted", RELEASE_LIFE_MONTHS, "fitted and two years"),
                                ("made", RELEASE_SHELF_MONTHS, "made and four years"))
            lines += _line(f"{name}: HRU", "replacement", raft.release, dates, "release.expired")
    return lines


def _lives(block, *lives):
    made = []
    for name, months, what in lives:
        stamp = getattr(block, name)
        if isinstance(stamp, Stamp):
            made.append((what, months_later(stamp.first_day, stamp.exact, months), name, stamp.stamp or str(stamp)))
    return made


def _beacons(vessel):
    lines = []
    for beacon in vessel.radio.beacons if vessel.radio else ():
        name = str(beacon.what)
        lines += _line(name, "battery", beacon, _as_dates(_marked(beacon, battery_expires="battery expiry")), "radio.battery-expired")
        lines += _line(name, "HRU", beacon, _as_dates(_marked(beacon, release_expires="expiry of its HRU")), "radio.battery-expired")
    return lines


def _gear(vessel):
    lines = []
    for item in vessel.gear:
        dates = _as_dates(_marked(item, expires="marked expiry", next_service="next service"))
        if isinstance(item.last_service, Stamp) and isinstance(item.service_interval, float):
            dates += _lives(item, ("last_service", round(item.service_interval), "last service and its interval"))
        lines += _line(str(item.what), "", item, dates, "gear.expired")
    return lines


def _lifejackets(vessel):
    lines = []
    for each in vessel.lifejackets:
        name = f"{each.size} lifejackets"
        lines += _line(name, "service", each, _as_dates(_marked(each, next_service="next service")), "gear.expired")
        lines += _line(name, "firing head", each, _as_dates(_marked(each, head_expires="expiry of the firing head")), "gear.expired")
    return lines


def _bags(vessel):
    lines = []
    for bag in vessel.grab_bags:
        for item in bag.items:
            lines += _line(f"grab bag: {item.what}", "", item, _as_dates(_marked(item, expires="marked expiry")), "gear.expired")
    return lines


def _gas(vessel):
    if not vessel.gas:
        return []
    return _line("gas hose", "", vessel.gas, _as_dates(_marked(vessel.gas, hose_expires="marked expiry")), "gear.expired")
