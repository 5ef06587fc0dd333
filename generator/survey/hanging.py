"""What hangs on gas, an engine, a rig, batteries, a raft or a grab bag: found in the file by kind, key and name."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, NamedTuple

from generator.shelves.procedure_files import GRAB_BAG, RAFT
from generator.shelves.procedures import shelf
from generator.survey.places import space_at
from generator.vessel.gear import does

if TYPE_CHECKING:
    from collections.abc import Mapping

    from generator.reading.block import Block
    from generator.survey.sight import Sight
    from generator.vessel.installed import Stop
    from generator.vessel.people import Assignment


class Hangs(NamedTuple):
    """A thing that cannot be there alone: its block, the key that tells it, and what it is called."""

    block: Block
    key: str
    says: str


_BURNS_GAS = re.compile(r"\bgas (?:cooker|stove|hob|oven|grill|heater|bottles?)\b|\b(?:butane|propane|LPG)\b", re.IGNORECASE)  # fmt: skip
_OTHER_GAS = re.compile(r"horn|jacket|raft|lighter|blow ?torch|solder|extinguish|CO2|nitrogen", re.IGNORECASE)
_ENGINE = re.compile(r"\b(?:engine|engine's|gearbox|saildrive|stern ?gland|stern tube|propeller shaft)\b", re.IGNORECASE)  # fmt: skip
_COOLS = re.compile(r"\b(?:engine|saildrive|stern ?gland|stern tube|propeller shaft)\b", re.IGNORECASE)
_SAILS = re.compile(
    r"\b(?:(?:main|spinnaker|jib|genoa|staysail) ?halyards?|halyards?|topping lift|main ?sheet|spinnaker pole)\b", re.IGNORECASE
)  # fmt: skip
_SPARS = re.compile(r"\b(?:boom|main ?mast)\b", re.IGNORECASE)
_A_SAIL = re.compile(r"\b(?:storm jib|trysail|mainsail|spinnaker|spare (?:jib|genoa|mainsail)|rigging cutters?)\b", re.IGNORECASE)  # fmt: skip
_FOR_A_RAFT = re.compile(
    r"\b(?:hydrostatic release(?: unit)?|HRU|(?:life ?)?raft (?:knife|painter|cradle|lashing|straps?))\b", re.IGNORECASE
)  # fmt: skip
_OTHER_BURNERS = re.compile(r"generator|heater|heating|cooker|stove", re.IGNORECASE)


def of_bottled_gas(sight: Sight) -> Iterator[Hangs]:
    """Bottles, shut-off, detector, hose and whatever burns it. An alarm may warn of petrol vapour where petrol is burnt."""
    vessel, gas, one = sight.vessel, sight.vessel.gas, sight.vessel.vessel
    if gas:
        if gas.known("bottles"):
            yield Hangs(gas, "bottles", "the space of its bottles")
        if gas.detector is True:
            yield Hangs(gas, "detector", "a gas detector")
        hoses = [
            key for key in ("hose_expires", "hose_made", "hose_fitted", "regulator_made") if gas.known(key)
        ]
        if hoses:
            yield Hangs(gas, hoses[0].replace("_", "-"), "the dates of hose or regulator")
    yield from (Hangs(stop, "what", "a gas shut-off") for stop in vessel.stops if stop.what == "gas")
    if not (one and one.petrol):
        yield from (Hangs(each, "what", "a gas alarm") for each in vessel.alarms if each.what == "gas")
        yield from (Hangs(each, "what", f"the {each.what}") for each in vessel.gear_that("warns of gas"))
    for item in vessel.gear:
        name = str(item.what or "")
        if _BURNS_GAS.search(name) and not _OTHER_GAS.search(name):
            yield Hangs(item, "what", f"the {name}")


def _by_name(things: Iterable[Block], names: re.Pattern[str]) -> Iterator[Hangs]:
    """The things whose own name is one of these."""
    for thing in things:
        name = thing.__dict__.get(type(thing).called)
        if isinstance(name, str) and names.search(name):
            yield Hangs(thing, type(thing).called, f"the {name}")


def _serves_another(stop: Stop) -> bool:
    """Whether a stop is for something that burns fuel and is no engine."""
    return bool(_OTHER_BURNERS.search(f"{stop.serves or ''} {stop.spot or ''} {stop.how or ''}"))


def of_engines(sight: Sight) -> Iterator[Hangs]:
    """Stops, fuel, inlets, start batteries, extinguishers and pumps of an engine; what serves a generator or a heater is none."""
    vessel, one = sight.vessel, sight.vessel.vessel
    said = {"engine": "an engine stop", "fuel": "a fuel shut-off", "kill cord": "a kill cord"}
    for stop in vessel.stops:
        if isinstance(stop.what, str) and stop.what in said and not _serves_another(stop):
            yield Hangs(stop, "what", said[stop.what])
    burns = any(_serves_another(stop) for stop in vessel.stops) or any(
        _OTHER_BURNERS.search(str(item.what or "")) for item in vessel.gear
    )
    if one and one.known("fuel") and not burns:
        yield Hangs(one, "fuel", "fuel")
    yield from _in_the_engine_space(sight)
    yield from _by_name(vessel.batteries, _ENGINE)


def of_inboard_engines(sight: Sight) -> Iterator[Hangs]:
    """What an outboard has not: stops in an engine space, a fire port, cooling inlets, a pump on its shaft, an extinguisher in its space."""
    for stop in sight.vessel.stops:
        space = space_at(sight, stop.where)
        if (
            stop.what in ("engine", "fuel")
            and space is not None
            and space.engine
            and not _serves_another(stop)
        ):
            yield Hangs(stop, "where", f"the {stop.what} stop in the {space.name}")
    yield from _in_the_engine_space(sight)


def _in_the_engine_space(sight: Sight) -> Iterator[Hangs]:
    vessel, one = sight.vessel, sight.vessel.vessel
    if one and one.fire_port is True:
        yield Hangs(one, "fire-port", "a fire port")
    yield from _by_name(vessel.gear_that("guards the engine space"), _ENGINE)
    yield from (
        Hangs(item, "where", f"the {item.what} in the {item.where}")
        for item in vessel.gear
        if does(item, "guards the engine space")
        and not _ENGINE.search(str(item.what))
        and (space := space_at(sight, item.where)) is not None
        and space.engine
    )
    yield from _by_name(vessel.through_hulls, _COOLS)
    yield from (Hangs(pump, "power", f"the {pump.what}") for pump in vessel.pumps if pump.power == "engine")


def of_sails(sight: Sight) -> Iterator[Hangs]:
    """Halyards and sheets that lift somebody, sails, a mark on one; a boom too, but of a motor vessel, that may have a derrick."""
    vessel, one = sight.vessel, sight.vessel.vessel
    hoist = vessel.recovery.hoist if vessel.recovery else None
    what = str(hoist.what) if hoist else ""
    spars = one is not None and one.hull.motor is not True
    if hoist and (_SAILS.search(what) or (spars and _SPARS.search(what))):
        yield Hangs(hoist, "what", f"{what} as hoist")
    if one and one.known("sail_mark"):
        yield Hangs(one, "sail-mark", "a mark on her sail")
    yield from _by_name(vessel.gear, _A_SAIL)


def by_current(sight: Sight) -> Iterator[Hangs]:
    """What lives on batteries, or switches them: their switch, electric pumps, alarms; fixed radios where they are said not to be there."""
    vessel = sight.vessel
    yield from (Hangs(stop, "what", "a battery switch") for stop in vessel.stops if stop.what == "batteries")
    yield from (Hangs(pump, "power", f"the {pump.what}") for pump in vessel.pumps if pump.power == "electric")
    yield from (
        Hangs(each, "fed-by", f"an alarm on the boat's batteries ({each.what})")
        for each in vessel.alarms
        if each.fed_by == "the boat's batteries"
    )
    if vessel.says_none("batteries") and vessel.radio:
        yield from (
            Hangs(each, "kind", f"the {each.what}")
            for each in vessel.radio.sets
            if each.kind in ("VHF", "MF/HF")
        )


def for_rafts(sight: Sight) -> Iterator[Hangs]:
    """Who launches it, and gear that is there for a raft alone."""
    yield from _duties_over_the_side(sight, RAFT)
    yield from _by_name(sight.vessel.gear, _FOR_A_RAFT)


def for_grab_bags(sight: Sight) -> Iterator[Hangs]:
    """Who carries it, and who brings it to which raft."""
    yield from _duties_over_the_side(sight, GRAB_BAG)
    for raft in sight.vessel.rafts:
        if raft.party is not None and raft.party.bag:
            yield Hangs(raft.party, "bag", f"who brings the bag to the {raft.name}")


def _duties_over_the_side(sight: Sight, takes: str) -> Iterator[Hangs]:
    for one in shelf():
        duties: Mapping[str, Assignment] = sight.vessel.station_bill.get(one.id) or {}
        for line in one.duties:
            if line.id in duties and line.takes == takes:
                yield Hangs(duties[line.id], "who", f"the duty {one.id}, {line.id}")
