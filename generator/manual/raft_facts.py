"""Facts of one raft: the fixed list that the procedures of a raft may name besides those of the vessel.

The names of stowages and holds are facts too, for the files of their own; whatever several places or holds have in common is a
fact of its own, which comes from their rows on the shelf.
"""

from __future__ import annotations

import functools
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.reading.values import NotKnown, untold
from generator.shelves.packs import brings_food
from generator.shelves.procedure_files import BAG, GRAB_BAG
from generator.shelves.procedures import shelf
from generator.shelves.stowages import (
    DROPS,
    LIFTED,
    comes_loose,
    float_free_containers,
    holds,
    hydrostatic,
    stowages,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from generator.vessel.raft import Raft
    from generator.vessel.vessel import Vessel

"""Packs that hold water for days, and food."""


@dataclass(frozen=True)
class RaftFact:
    """A fact of one raft: its name, what is so where it is true, and how that is seen."""

    name: str
    said: str
    true: Callable[[Raft], bool]


def float_free(raft: Raft) -> bool:
    """Whether the raft is rigged to leave by itself: held by what lets go under water, or by nothing; its painter on a weak link."""
    free = raft.hydrostatic or (
        _held_by_nothing(raft)
        and raft.container in float_free_containers()
        and raft.kept is not None
        and raft.kept.float_free == "yes"
    )
    return free and raft.painter is not None and raft.painter.fast_to == "weak link"


def _held_by_nothing(raft: Raft) -> bool:
    """Whether nothing holds it: nothing is said to, and the file does not say that it is unknown."""
    return not raft.held_by and (raft.answers("held-by") or not raft.says("held-by"))


@dataclass(frozen=True)
class AmongRafts:
    """A fact of one raft beside the others: its name, what is so where it is true, and how that is seen of her."""

    name: str
    said: str
    true: Callable[[Raft, Vessel], bool]


def raft_facts_of(raft: Raft, vessel: Vessel) -> dict[str, bool]:
    """The facts of one raft by name; they join those of the vessel."""
    alone = {fact.name: fact.true(raft) for fact in raft_facts()}
    return alone | {fact.name: fact.true(raft, vessel) for fact in AMONG_RAFTS}


@functools.cache
def raft_facts() -> tuple[RaftFact, ...]:
    """Every fact of a raft; the names of stowages and holds are among them. Raises ShelfFault."""
    kept = [RaftFact(name, f"It is kept in this place: {name}", _kept(name)) for name in stowages()]
    held = [
        RaftFact(name, f"This is what holds it, or a part of it: {name}", _held(name)) for name in holds()
    ]
    loose = [
        RaftFact(comes_loose(name), f"Another hold frees this one: {name}", _freed(name)) for name in holds()
    ]
    return (*kept, *held, *loose, *RAFT_FACTS)


def _kept(name: str) -> Callable[[Raft], bool]:
    return lambda raft: raft.stowage == name


def _held(name: str) -> Callable[[Raft], bool]:
    return lambda raft: name in raft.held_by


def _freed(name: str) -> Callable[[Raft], bool]:
    return lambda raft: any(name in holds()[each].frees for each in raft.held_by if each in holds())


def _names_a_side(raft: Raft) -> bool:
    way = raft.launch_from
    return way is not None and len(way.sides_told) == 1 and "lee" not in way.words.lower().split()


def kept_below(raft: Raft) -> bool:
    """Whether it is kept under deck."""
    return raft.kept is not None and raft.kept.below is True


RAFT_FACTS = (
    RaftFact("below", "It is kept under deck", kept_below),
    RaftFact(
        "outside the cockpit",
        "Whoever works at it stands on deck, outside the cockpit",
        lambda raft: raft.kept is not None and raft.kept.clip_on is True,
    ),
    RaftFact(
        "one side only",
        "It always goes over at the same place",
        lambda raft: raft.kept is not None and raft.kept.one_side is True,
    ),
    RaftFact(
        "launching aid",
        "A davit or another device takes it over",
        lambda raft: raft.launching_aid,
    ),
    RaftFact(
        "drops",
        "It drops over the side where it need not be lifted",
        lambda raft: raft.kept is not None and raft.kept.goes_over == DROPS,
    ),
    RaftFact(
        "reached upside down",
        "On a multihull it is reached when she floats upside down",
        lambda raft: (
            raft.kept is not None
            and raft.kept.reached_inverted is True
            and raft.reached_inverted is not False
        ),
    ),
    RaftFact(
        "out of reach upside down",
        "The file says that it is not reached when she floats upside down",
        lambda raft: raft.reached_inverted is False,
    ),
    RaftFact("canister", "It is packed in a canister", lambda raft: raft.container == "canister"),
    RaftFact("valise", "It is packed in a valise", lambda raft: raft.container == "valise"),
    RaftFact("nothing holds it", "Nothing holds it", _held_by_nothing),
    RaftFact(
        "hydrostatic", "It is held by what lets go by itself under water", lambda raft: raft.hydrostatic
    ),
    RaftFact(
        "hydrostatic only",
        "It is held by nothing but what lets go by itself under water",
        lambda raft: raft.hydrostatic and set(raft.held_by) <= set(hydrostatic()),
    ),
    RaftFact(
        "painter on strong point",
        "The painter as rigged is fast to a strong point",
        lambda raft: raft.painter is not None and raft.painter.fast_to == "strong point",
    ),
    RaftFact(
        "gate to launch",
        "The file says how the gate is opened at which it goes over",
        lambda raft: raft.launch_from is not None and not untold(raft.launch_from.how),
    ),
    RaftFact(
        "gate to board",
        "The file says how the gate is opened at which people step in, and it is another",
        lambda raft: (
            raft.board_from is not None
            and not untold(raft.board_from.how)
            and (raft.launch_from is None or raft.board_from.words != raft.launch_from.words)
        ),
    ),
    RaftFact("launch side named", "The file says on which side it goes over", _names_a_side),
    RaftFact("float-free", "It is rigged to leave by itself", float_free),
    RaftFact(
        "lift",
        "It must be lifted to go over the side",
        lambda raft: (
            raft.lift_needed is not False or (raft.kept is not None and raft.kept.goes_over == LIFTED)
        ),
    ),
    RaftFact(
        "ramp",
        "A ramp helps somebody in the water to climb in",
        lambda raft: raft.boarding in ("ramp", "ramp and ladder"),
    ),
    RaftFact(
        "boarding ladder",
        "A ladder helps somebody in the water to climb in",
        lambda raft: raft.boarding in ("ladder", "ramp and ladder"),
    ),
    RaftFact(
        "righting gear",
        "A strap or a ladder turns it upright",
        lambda raft: isinstance(raft.righting, str) and raft.righting != "none",
    ),
    RaftFact(
        "cylinder side marked",
        "The side of the gas cylinder is marked on its bottom",
        lambda raft: raft.cylinder_side == "marked",
    ),
    RaftFact("canopy", "It has a canopy", lambda raft: raft.canopy is True),
    RaftFact("without a canopy", "The file says that it has no canopy", lambda raft: raft.canopy is False),
    RaftFact("spare", "The file says that nobody goes into it", lambda raft: raft.says_none("carries")),
    RaftFact("drogue by hand", "The drogue goes out by hand", lambda raft: raft.drogue != "streams itself"),
    RaftFact(
        "single floor",
        "Its floor is single, or not said",
        lambda raft: raft.floor in (None, "single") or isinstance(raft.floor, NotKnown),
    ),
    RaftFact(
        "two entrances",
        "It has several entrances",
        lambda raft: isinstance(raft.entrances, int) and raft.entrances > 1,
    ),
    RaftFact("food in the pack", "Its pack holds food", lambda raft: brings_food(raft.pack)),
)


def _elsewhere(raft: Raft, vessel: Vessel, brought_by: Iterable[str | NotKnown | None]) -> bool:
    """Whether, of several rafts, what these roles bring goes into another: nobody goes into this one, or none of them."""
    if len(vessel.rafts) < 2:
        return False
    if raft.says_none("carries"):
        return True
    roles = [str(who) for who in brought_by if not untold(who)]
    return bool(raft.carries and roles) and set(roles).isdisjoint(map(str, raft.carries))


def _bag_elsewhere(raft: Raft, vessel: Vessel) -> bool:
    if len(vessel.rafts) < 2 or (raft.party is not None and getattr(raft.party, BAG)):
        return False
    named: list[str | NotKnown | None] = [bag.carried_by for bag in vessel.grab_bags]
    for one in shelf():
        told = vessel.station_bill.get(one.id)
        for line in one.duties if told else ():
            if line.takes == GRAB_BAG and told and line.id in told:
                named += [*map(str, told[line.id].who or ()), told[line.id].substitute]
    return _elsewhere(raft, vessel, named)


def _beacon_elsewhere(kind: str) -> Callable[[Raft, Vessel], bool]:
    def true(raft: Raft, vessel: Vessel) -> bool:
        beacons = vessel.radio.beacons if vessel.radio else ()
        first = next((each for each in beacons if each.kind == kind), None)
        return first is not None and _elsewhere(raft, vessel, (first.carried_by,))

    return true


AMONG_RAFTS = (
    AmongRafts("grab bag elsewhere", "Of several rafts another gets the grab bag", _bag_elsewhere),
    AmongRafts("epirb elsewhere", "Of several rafts another gets the EPIRB", _beacon_elsewhere("EPIRB")),
    AmongRafts(
        "plb elsewhere", "Of several rafts another gets the personal locator beacon", _beacon_elsewhere("PLB")
    ),
)
