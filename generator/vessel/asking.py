"""Asking: what is not known of a thing that is there, told alike whether the file says unknown or leaves the key out.

A field says what hangs on it (`unknown`); where it matters only under a condition, that stands in ONLY_WHERE.
A whole block that nothing asks for where it is left out asks no more where it is unknown: what she needs of it, a check tells both ways.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any, NamedTuple

from generator.reading.block import Block
from generator.reading.fields import ESTIMATE, NEEDED, Field
from generator.reading.findings import Finding, Place, Weight
from generator.reading.remedies import like
from generator.shelves.gear import mentions
from generator.shelves.procedure_files import RAFT
from generator.shelves.procedures import shelf
from generator.shelves.stowages import DROPS, SLIDES
from generator.vessel.gear import Gear, GrabItem, Lifejackets
from generator.vessel.installed import Gas
from generator.vessel.particulars import Particulars
from generator.vessel.people import Assignment, Person
from generator.vessel.radio import Beacon
from generator.vessel.raft import Painter, Raft, Service
from generator.vessel.vessel import Vessel

WEIGHTS = {NEEDED: Weight.DEFECT, ESTIMATE: Weight.RECOMMENDATION}
"""How much it counts that a value is not known, by what hangs on it."""


class Where(NamedTuple):
    """A condition under which a field matters: in words, and of its block and the vessel."""

    words: str
    holds: Callable[[Any, Vessel], bool]


def _has_a_rig(one: Particulars, _: Vessel) -> bool:
    return one.hull.motor is not True and one.hull.closed_in


def _not_alone(one: Particulars, _: Vessel) -> bool:
    return one.persons != 1


def _in_a_canister(raft: Raft, _: Vessel) -> bool:
    return raft.container == "canister"


def _in_a_compartment(raft: Raft, _: Vessel) -> bool:
    return raft.kept is not None and raft.kept.compartment is True


def _may_slide(raft: Raft, _: Vessel) -> bool:
    return raft.kept is not None and raft.kept.goes_over in (SLIDES, DROPS)


def _let_go_under_water(raft: Raft, _: Vessel) -> bool:
    return raft.hydrostatic


def _ends_at_a_weak_link(painter: Painter, _: Vessel) -> bool:
    return painter.fast_to == "weak link"


def _lifts_the_raft(person: Person, vessel: Vessel) -> bool:
    lifted = [raft for raft in vessel.rafts if raft.lift_needed is True]
    return bool(lifted) and (
        any(raft.party is not None and person.role in raft.party.launch for raft in lifted)
        or any(person.role in duty.who for duty in _launching(vessel))
    )


def _launching(vessel: Vessel) -> Iterator[Assignment]:
    """Who takes a raft over the side, as the bill of all rafts has it."""
    for one in shelf():
        duties: Mapping[str, Assignment] = vessel.station_bill.get(one.id) or {}
        yield from (duties[line.id] for line in one.duties if line.takes == RAFT and line.id in duties)


def _has_a_pack(service: Service, vessel: Vessel) -> bool:
    return not any(raft.service is service and raft.pack == "none" for raft in vessel.rafts)


def _sends_to_satellites(beacon: Beacon, _: Vessel) -> bool:
    return beacon.kind in ("EPIRB", "PLB") and beacon.quantity in (None, 1)


def _in_a_bracket(beacon: Beacon, _: Vessel) -> bool:
    return beacon.kind == "EPIRB"


def _is_water(thing: Gear | GrabItem, _: Vessel) -> bool:
    return isinstance(thing.what, str) and mentions(thing.what, "drinking water")


def _out_of_shelter(_: Lifejackets, vessel: Vessel) -> bool:
    return vessel.vessel is None or vessel.vessel.waters != "sheltered"


def _gas_in_bottles(gas: Gas, _: Vessel) -> bool:
    return gas.fuel in ("butane", "propane")


ONLY_WHERE: Mapping[Field[Any], Where] = {
    Particulars.rig: Where("boats of her type have a rig", _has_a_rig),
    Particulars.general_alarm: Where("more than one person may be aboard", _not_alone),
    Particulars.abandon_order: Where("more than one person may be aboard", _not_alone),
    Raft.lift_needed: Where("it may go over from where it is kept without being lifted", _may_slide),
    Raft.snug: Where("the raft is in a canister", _in_a_canister),
    Raft.drains_down: Where("the raft is in a canister", _in_a_canister),
    Raft.compartment_drains: Where("it is kept in a locker or recess of its own", _in_a_compartment),
    Raft.overhead: Where("an HRU holds it", _let_go_under_water),
    Painter.strength: Where("it ends at a weak link", _ends_at_a_weak_link),
    Person.lifts: Where("this role launches a raft that must be lifted", _lifts_the_raft),
    Service.contents_expire: Where("the raft has a pack", _has_a_pack),
    Beacon.hex_id: Where("it is one EPIRB or PLB", _sends_to_satellites),
    Beacon.release: Where("it is an EPIRB", _in_a_bracket),
    Gear.volume: Where("it is drinking water", _is_water),
    GrabItem.volume: Where("it is drinking water", _is_water),
    Lifejackets.crotch_straps: Where("she leaves sheltered waters", _out_of_shelter),
    Lifejackets.lights: Where("she leaves sheltered waters", _out_of_shelter),
    Gas.bottles: Where("butane or propane is burnt", _gas_in_bottles),
}
"""The fields that matter only under a condition; the others with anything hanging on them matter wherever their block stands."""


class LeftOpen(NamedTuple):
    """A field of a block whose value is not known, and where the word stands that says so; None where the key is left out."""

    block: Block
    field: Field[Any]
    place: Place | None = None


def asked(vessel: Vessel, left_open: Iterable[LeftOpen]) -> Iterator[Finding]:
    """A finding for each field of a block that is not known and matters there."""
    for block, field, place in left_open:
        where = ONLY_WHERE.get(field)
        if where is None or where.holds(block, vessel):
            yield from lacking(field, place or block.place(field.key), says_so=block.says(field.key))


def lacking(field: Field[Any], place: Place, *, says_so: bool, weighs: str = "") -> Iterator[Finding]:
    """The finding on a value that is not known, if anything hangs on it: what the field says, or `weighs`.

    `says_so` is whether its key stands in the file.
    """
    hangs = weighs or field.unknown
    if hangs not in WEIGHTS:
        return
    yield Finding(
        "file.missing-key" if field.required and not says_so else "file.not-known-yet",
        WEIGHTS[hangs],
        f"'{place.key}' is not known yet: {field.question}",
        place,
        f"find out and write {field.key}{like(field)}",
    )
