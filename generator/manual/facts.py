"""Facts of a boat: the fixed list that procedures may name, each with what is so where it is true.

A procedure file names facts, it never holds an expression. Those of a raft are in raft_facts.py.
"""

from __future__ import annotations

import functools
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from generator.manual import calling
from generator.manual.alarms import that_warn
from generator.manual.dinghy import DINGHY_FACTS
from generator.manual.drawing.spaces import spaces_of
from generator.manual.fitting_facts import FITTING_FACTS
from generator.manual.handling_facts import HANDLING_FACTS
from generator.manual.left_to_act import LEFT, able, left
from generator.manual.place_facts import PLACE_FACTS
from generator.manual.raft_facts import kept_below
from generator.reading.values import untold
from generator.shelves.gear import gear_names, mentions
from generator.shelves.packs import brings_food, brings_water
from generator.vessel.alarms import WARNS_OF_GAS
from generator.vessel.gear import does
from generator.vessel.installed import Stop

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from generator.manual.drawing.spaces import Space
    from generator.manual.inventory import Item
    from generator.manual.place_facts import Placed_
    from generator.vessel.gear import Gear
    from generator.vessel.installed import Pump
    from generator.vessel.particulars import Particulars
    from generator.vessel.radio import Beacon, RadioSet
    from generator.vessel.raft import Raft
    from generator.vessel.vessel import Vessel


@dataclass(frozen=True)
class Aboard:
    """A vessel with her gear list, as facts and words look at her."""

    vessel: Vessel
    items: tuple[Item, ...]
    laid: Mapping[str, Space] | None = None

    @cached_property
    def spaces(self) -> Mapping[str, Space]:
        """Her spaces by folded name: as `laid`, where they are worked out already."""
        return spaces_of(self.vessel) if self.laid is None else self.laid

    @property
    def one(self) -> Particulars:
        """Her particulars; a LookupError where there are none, for nothing can be said of such a boat."""
        if self.vessel.vessel is None:
            raise LookupError("the vessel has no particulars")
        return self.vessel.vessel

    @property
    def sets(self) -> Iterable[RadioSet]:
        """Her radios."""
        return self.vessel.radio.sets if self.vessel.radio else ()

    @property
    def beacons(self) -> Iterable[Beacon]:
        """Her beacons."""
        return self.vessel.radio.beacons if self.vessel.radio else ()

    @cached_property
    def stops(self) -> frozenset[str]:
        """What can be stopped."""
        return frozenset(str(stop.what) for stop in self.vessel.stops)

    @cached_property
    def gear(self) -> frozenset[str]:
        """The names by which steps find what is in the gear list."""
        return frozenset().union(*(item.answers_to for item in self.items))

    def pumps(self, power: str) -> list[Pump]:
        """The bilge pumps driven by `power`."""
        return [each for each in self.vessel.pumps if each.power == power]

    def has_set(self, kind: str) -> bool:
        """Whether there is a radio of a kind."""
        return any(each.kind == kind for each in self.sets)

    def has_beacon(self, kind: str) -> bool:
        """Whether there is a beacon of a kind."""
        return any(each.kind == kind for each in self.beacons)

    @property
    def first_raft(self) -> Raft | None:
        """The raft that the file says is launched first; None where it leaves that to wind and side."""
        numbered = [
            (raft.first_to_launch, number, raft)
            for number, raft in enumerate(self.vessel.rafts)
            if isinstance(raft.first_to_launch, int)
        ]
        return min(numbered)[2] if numbered else None

    @property
    def food(self) -> bool:
        """Whether a raft's pack or a grab bag holds food."""
        return any(brings_food(raft.pack) for raft in self.vessel.rafts) or any(
            mentions(item.what, "food") for bag in self.vessel.grab_bags for item in bag.items
        )


@dataclass(frozen=True)
class Fact:
    """A fact of the vessel: its name, what is so where it is true, and how that is seen."""

    name: str
    said: str
    true: Callable[[Aboard], bool]


def gear_called(items: Iterable[Item], name: str) -> list[Item]:
    """The items of the gear list that are `name`, or serve as that."""
    asked = name.lower()
    return [item for item in items if asked in item.answers_to]


def facts_of(
    vessel: Vessel, items: tuple[Item, ...], laid: Mapping[str, Space] | None = None
) -> dict[str, bool]:
    """The facts of the vessel by name; `laid` are her spaces, where they are worked out already."""
    aboard = Aboard(vessel, items, laid)
    return {fact.name: fact.true(aboard) for fact in vessel_facts()}


def vessel_facts() -> tuple[Fact, ...]:
    """Every fact of a vessel; those of stops and gear are as many as there are kinds of them."""
    return _vessel_facts(gear_names())


@functools.lru_cache(maxsize=64)
def _vessel_facts(gear_kinds: tuple[str, ...]) -> tuple[Fact, ...]:
    stops = [
        Fact(f"{what} stop", f"A stop for this is described: {what}", _stop(what))
        for what in Stop.what.choices
    ]
    gear = [Fact(f"has {name}", f"The gear list names this: {name}", _gear(name)) for name in gear_kinds]
    fitted = [
        Fact(name, said, _fitted(true))
        for name, said, true in (*FITTING_FACTS, *HANDLING_FACTS, *DINGHY_FACTS)
    ]
    placed = [Fact(name, said, _placed(true)) for name, said, true in PLACE_FACTS]
    return (*_VESSEL, *fitted, *placed, *stops, *gear)


def _fitted(true: Callable[[Vessel], bool]) -> Callable[[Aboard], bool]:
    return lambda aboard: true(aboard.vessel)


def _placed(true: Placed_) -> Callable[[Aboard], bool]:
    return lambda aboard: true(aboard.vessel, aboard.spaces)


def _stop(what: str) -> Callable[[Aboard], bool]:
    return lambda aboard: what in aboard.stops


def _gear(name: str) -> Callable[[Aboard], bool]:
    asked = name.lower()
    return lambda aboard: asked in aboard.gear


def _left(name: str) -> Callable[[Aboard], bool]:
    return lambda aboard: left(able(aboard.vessel), 0)[name]


_NOTHING_BURNT = (None, "none")
_VESSEL = (
    Fact("always", "It is so on every boat", lambda _: True),
    Fact("multihull", "She has more than one hull", lambda aboard: aboard.one.hull.multihull is True),
    Fact(
        "closed in",
        "People can be inside her: below, or in a shelter",
        lambda aboard: aboard.one.hull.closed_in,
    ),
    Fact("rooms below", "People live below", lambda aboard: aboard.one.hull.has_rooms),
    Fact(
        "somewhere to cook",
        "She has a galley, or burns a fuel to cook with",
        lambda aboard: (
            _burns_fuel(aboard.vessel) or any(space.cooking is True for space in aboard.one.hull.spaces)
        ),
    ),
    Fact("sails", "She has a rig", lambda aboard: bool(aboard.one.rig) and aboard.one.rig != "none"),
    Fact("engine", "She has an engine", lambda aboard: aboard.one.engine not in (None, "none")),
    Fact(
        "fire port",
        "The file says where the hole is through which an extinguisher is discharged into the engine space",
        lambda aboard: aboard.one.fire_port is True and aboard.one.fire_port_place is not None,
    ),
    Fact(
        "several extinguishers",
        "She has more than one extinguisher that a hand carries to the fire",
        lambda aboard: (
            sum(_number(item) for item in aboard.vessel.gear if does(item, "discharged by hand")) > 1
        ),
    ),
    Fact(
        "something to shut off",
        "Gas, an engine, fuel or electricity can feed a fire, or a fixed extinguisher is to be released",
        lambda aboard: (
            _burns_gas(aboard.vessel)
            or aboard.one.engine != "none"
            or bool(aboard.stops)
            or bool(aboard.vessel.batteries)
            or bool(aboard.vessel.gear_that("floods a space"))
        ),
    ),
    Fact("engine pump", "A bilge pump is driven by an engine", lambda aboard: bool(aboard.pumps("engine"))),
    Fact("inboard engine", "Her engine is inboard", lambda aboard: aboard.one.inboard_engine),
    Fact(
        "petrol",
        "She carries petrol",
        lambda aboard: aboard.one.petrol,
    ),
    Fact(
        "cold waters",
        "The sea is cold where she sails",
        lambda aboard: aboard.one.climate in ("cold", "polar"),
    ),
    Fact("charter", "She is let", lambda aboard: aboard.one.use == "charter"),
    Fact("raft", "She has a liferaft", lambda aboard: bool(aboard.vessel.rafts)),
    Fact("several rafts", "She has more than one liferaft", lambda aboard: len(aboard.vessel.rafts) > 1),
    Fact(
        "raft below",
        "A liferaft is kept under deck",
        lambda aboard: any(map(kept_below, aboard.vessel.rafts)),
    ),
    Fact(
        "pack with water",
        "The pack of a liferaft holds water for days",
        lambda aboard: any(brings_water(raft.pack) for raft in aboard.vessel.rafts),
    ),
    Fact("food aboard", "A liferaft's pack or a grab bag holds food", lambda aboard: aboard.food),
    Fact(
        "raft order", "The file says which liferaft goes first", lambda aboard: aboard.first_raft is not None
    ),
    Fact("several persons", "More than one person may be aboard", lambda aboard: _persons(aboard) > 1),
    Fact("two persons", "Two persons may be aboard, no more", lambda aboard: _persons(aboard) == 2),
    Fact("call sign", "The file names a call sign", lambda aboard: _in_radio(aboard, "call_sign")),
    Fact("mmsi", "The file names an MMSI", lambda aboard: _in_radio(aboard, "mmsi")),
    Fact(
        "dsc",
        "A radio makes a digital distress call",
        lambda aboard: any(each.dsc is True for each in aboard.sets),
    ),
    Fact("fixed vhf", "A VHF is fixed aboard", lambda aboard: aboard.has_set("VHF")),
    Fact(
        "fixed dsc",
        "The fixed VHF makes a digital distress call",
        lambda aboard: calling.with_dsc(aboard.vessel, calling.FIXED),
    ),
    Fact(
        "handheld dsc",
        "The handheld VHF makes a digital distress call",
        lambda aboard: calling.with_dsc(aboard.vessel, calling.BY_HAND),
    ),
    Fact(
        "position on the set",
        "The file says where the set that one speaks into shows the position",
        lambda aboard: calling.position_in_hand(aboard.vessel),
    ),
    Fact(
        "position on another set",
        "The file says where another set than that one shows the position",
        lambda aboard: calling.position_elsewhere(aboard.vessel),
    ),
    Fact(
        "vhf always on",
        "The file says that the fixed VHF is always on",
        lambda aboard: calling.always_on(aboard.vessel, calling.FIXED),
    ),
    Fact(
        "handheld vhf always on",
        "The file says that the handheld VHF is always on",
        lambda aboard: calling.always_on(aboard.vessel, calling.BY_HAND),
    ),
    Fact("handheld vhf", "There is a handheld VHF", lambda aboard: aboard.has_set("handheld VHF")),
    Fact("mf/hf", "There is an MF/HF set", lambda aboard: aboard.has_set("MF/HF")),
    Fact(
        "mf/hf dsc",
        "The MF/HF set makes a digital distress call",
        lambda aboard: calling.with_dsc(aboard.vessel, calling.SHORTWAVE),
    ),
    Fact(
        "satellite telephone",
        "There is a satellite telephone",
        lambda aboard: aboard.has_set("satellite telephone"),
    ),
    Fact("epirb", "There is an EPIRB", lambda aboard: aboard.has_beacon("EPIRB")),
    Fact("plb", "There is a personal locator beacon", lambda aboard: aboard.has_beacon("PLB")),
    Fact("sart", "There is a radar transponder", lambda aboard: aboard.has_beacon("SART")),
    Fact(
        "man-overboard device",
        "There is an AIS man-overboard device",
        lambda aboard: aboard.has_beacon("AIS man-overboard device"),
    ),
    Fact("grab bag", "There is a grab bag", lambda aboard: bool(aboard.vessel.grab_bags)),
    Fact("gas", "Butane or propane is burnt", lambda aboard: _burns_gas(aboard.vessel)),
    Fact(
        "gas detector",
        "There is a gas detector",
        lambda aboard: _detects_gas(aboard.vessel),
    ),
    Fact(
        "lithium",
        "A bank of batteries is lithium",
        lambda aboard: any(each.chemistry == "lithium" for each in aboard.vessel.batteries),
    ),
    Fact(
        "ladder",
        "A ladder leads back aboard",
        lambda aboard: aboard.vessel.recovery is not None and bool(aboard.vessel.recovery.ladder),
    ),
    Fact(
        "ladder from the water",
        "Somebody in the water can let the ladder down",
        lambda aboard: (
            aboard.vessel.recovery is not None and aboard.vessel.recovery.ladder_from_water is True
        ),
    ),
    Fact(
        "hoist",
        "Something lifts a helpless person aboard",
        lambda aboard: aboard.vessel.recovery is not None and bool(aboard.vessel.recovery.hoist),
    ),
    Fact("hand pump", "A bilge pump is worked by hand", lambda aboard: bool(aboard.pumps("hand"))),
    Fact("electric pump", "A bilge pump is electric", lambda aboard: bool(aboard.pumps("electric"))),
    Fact("several hand pumps", "Several are worked by hand", lambda aboard: len(aboard.pumps("hand")) > 1),
    Fact("several electric pumps", "Several are electric", lambda aboard: len(aboard.pumps("electric")) > 1),
    Fact(
        "through-hulls", "Holes through the hull are listed", lambda aboard: bool(aboard.vessel.through_hulls)
    ),
    Fact(
        "inflatable lifejackets",
        "Some of her lifejackets inflate",
        lambda aboard: any(each.kind == "inflatable" for each in aboard.vessel.lifejackets),
    ),
    Fact(
        "fuel-burning cooker",
        "She cooks with a fuel that burns",
        lambda aboard: _burns_fuel(aboard.vessel),
    ),
    Fact(
        "needs help",
        "Somebody aboard needs help",
        lambda aboard: any(person.needs_help for person in aboard.vessel.people),
    ),
    *(Fact(name, said, _left(name)) for name, said in LEFT.items()),
)


def _persons(aboard: Aboard) -> int:
    return aboard.one.persons if isinstance(aboard.one.persons, int) else 0


def _number(item: Gear) -> int:
    return item.quantity if isinstance(item.quantity, int) else 1


def _in_radio(aboard: Aboard, name: str) -> bool:
    return bool(aboard.vessel.radio) and not untold(getattr(aboard.vessel.radio, name))


def _detects_gas(vessel: Vessel) -> bool:
    gas = vessel.gas
    return gas is not None and (gas.detector is True or bool(that_warn(vessel, WARNS_OF_GAS)))


def _burns_fuel(vessel: Vessel) -> bool:
    return vessel.gas is not None and vessel.gas.fuel not in _NOTHING_BURNT


def _burns_gas(vessel: Vessel) -> bool:
    return vessel.gas is not None and vessel.gas.fuel in ("butane", "propane")
