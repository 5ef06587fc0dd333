"""What hangs on something that she has not: a table of what may be missing, and of what cannot be there then."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, NamedTuple

from generator.reading.values import untold
from generator.shelves.stowages import holds
from generator.survey.hanging import (
    by_current,
    for_grab_bags,
    for_rafts,
    of_bottled_gas,
    of_engines,
    of_inboard_engines,
    of_sails,
)
from generator.survey.registry import (
    COMMON_PRACTICE,
    NOTICE,
    RECOMMENDATION,
    TRUTH,
    Finds,
    Found,
    Sight,
    check,
    of,
)
from generator.vessel.particulars import FAR

if TYPE_CHECKING:
    from generator.reading.findings import Place, Weight
    from generator.survey.hanging import Hangs
    from generator.vessel.installed import Engine


class Gone(NamedTuple):
    """That she has not something: where the file says so, or would say so, in words, and how much it weighs if it is not meant."""

    place: Place
    says: str
    weight: Weight | None = None


@dataclass(frozen=True)
class Relation:
    """Something she may not have, how that shows, what hangs on it, and what to do."""

    what: str
    gone: Callable[[Sight], Gone | None]
    hangs: Callable[[Sight], Iterator[Hangs]]
    remedy: str = field(kw_only=True)
    words_tell: bool = False
    """Whether the words of what hangs on it are held against it too: this is the cause of that."""


def _gas(sight: Sight) -> Gone | None:
    """Without butane or propane; a shut-off where nothing at all is said of gas is told as gas that is not described."""
    vessel, gas = sight.vessel, sight.vessel.gas
    if gas:
        if gas.fuel in ("butane", "propane") or untold(gas.fuel):
            return None
        return Gone(gas.place("fuel"), f"gas: {{fuel: {gas.fuel}}} says that nothing in bottles is burnt")
    if any(stop.what == "gas" for stop in vessel.stops):
        return None
    if vessel.says_none("gas"):
        return Gone(vessel.place("gas"), "'gas' says that there is none")
    return None if vessel.answers("gas") else Gone(vessel.place("gas"), "no gas is described")


def _engine(sight: Sight) -> Gone | None:
    """Without an engine; where engines are listed, that the two differ is told already."""
    one = sight.vessel.vessel
    if not one or one.engine != "none" or sight.vessel.engines:
        return None
    return Gone(one.place("engine"), "it says that she has no engine")


def _inboard(sight: Sight) -> Gone | None:
    """With outboards alone."""
    one = sight.vessel.vessel
    others = any(engine.kind != "outboard" for engine in sight.vessel.engines)
    if not one or one.engine != "outboard" or others:
        return None
    return Gone(one.place("engine"), "it says that her engine is an outboard")


def _rig(sight: Sight) -> Gone | None:
    one = sight.vessel.vessel
    if not one or not (one.rig == "none" or one.says_none("rig")):
        return None
    return Gone(one.place("rig"), "it says that she has no rig")


def _batteries(sight: Sight) -> Gone | None:
    """Without batteries: said so, or not said, where it is asked for alone."""
    vessel = sight.vessel
    if vessel.batteries or (vessel.answers("batteries") and not vessel.says_none("batteries")):
        return None
    if vessel.says_none("batteries"):
        return Gone(vessel.place("batteries"), "'batteries' says that there are none")
    return Gone(vessel.place("batteries"), "no battery is described", RECOMMENDATION)


def _rafts(sight: Sight) -> Gone | None:
    """Without a raft; where help is far, that there is none is told already."""
    vessel = sight.vessel
    if _far(sight) or vessel.rafts or (vessel.answers("rafts") and not vessel.says_none("rafts")):
        return None
    said = "'rafts' says that there are none" if vessel.says_none("rafts") else "no raft is described"
    return Gone(vessel.place("rafts"), said)


def _bags(sight: Sight) -> Gone | None:
    """Without a grab bag; where help is far, that there is none beside a raft is told already."""
    vessel = sight.vessel
    told = bool(vessel.rafts) and _far(sight)
    if told or vessel.grab_bags or (vessel.answers("grab-bags") and not vessel.says_none("grab-bags")):
        return None
    said = (
        "'grab-bags' says that there is none" if vessel.says_none("grab-bags") else "no grab bag is described"
    )
    return Gone(vessel.place("grab-bags"), said)


def _far(sight: Sight) -> bool:
    return sight.vessel.vessel is not None and sight.vessel.vessel.waters in FAR


RELATIONS = (
    Relation(
        "gas",
        _gas,
        of_bottled_gas,
        remedy="go and look: write gas: {fuel: butane} with its bottles, or take out what hangs on gas",
    ),
    Relation(
        "engine",
        _engine,
        of_engines,
        remedy="go and look: write engine: inboard diesel, or outboard, where she has that; or take what hangs on an engine out",
    ),
    Relation(
        "inboard engine",
        _inboard,
        of_inboard_engines,
        remedy="go and look: write engine: inboard diesel where she has that, or take out what an outboard has not",
    ),
    Relation(
        "rig",
        _rig,
        of_sails,
        remedy="go and look: write rig: sloop, or the one she has; or tell what serves instead",
        words_tell=True,
    ),
    Relation(
        "batteries",
        _batteries,
        by_current,
        remedy="list each bank under 'batteries' with what: house; or take out what lives on them",
    ),
    Relation(
        "rafts",
        _rafts,
        for_rafts,
        remedy="describe the raft under 'rafts', or take out what is there for one",
    ),
    Relation(
        "grab bag",
        _bags,
        for_grab_bags,
        remedy="describe the bag under 'grab-bags' with where, carried-by and items; or take out what is there for one",
    ),
)
"""What cannot stand alone."""
_MOST = 4


def _slips() -> tuple[str, ...]:
    """The holds that one hand opens and that free others: slips, whatever they are called."""
    return tuple(name for name, row in holds().items() if row.one_action is True and row.frees)


@check("changed.left-over", TRUTH, COMMON_PRACTICE)
def nothing_hangs_on_what_she_has_not(sight: Sight) -> Finds:
    """Nothing in the file hangs on gas, an engine, a rig, batteries, a raft or a grab bag that she is said not to have.

    Why: one of the two is out of date: steps send somebody to a tap that is gone, or leave out the engine that burns.
    Remedy: go and look which of the two is so, and correct the other.
    """
    if sight.vessel.class_lost:
        return  # what her class says of it is not known
    for relation in RELATIONS:
        gone = relation.gone(sight)
        found = [] if gone is None else list(relation.hangs(sight))
        if gone is None or not found:
            continue
        names = list(dict.fromkeys(each.says for each in found))
        also = tuple(dict.fromkeys(each.block.place(each.key) for each in found))
        more = f" and {len(names) - _MOST} more" if len(names) > _MOST else ""
        yield Found(
            gone.place,
            f"{gone.says}, and the file has what hangs on it: {', '.join(names[:_MOST])}{more}",
            remedy=relation.remedy,
            item=relation.what,
            weight=gone.weight,
            also=also,
            explains=_explains(relation, gone, also),
        )


def _explains(relation: Relation, gone: Gone, also: tuple[Place, ...]) -> frozenset[Place]:
    """Where it is the cause of what else is found: at the list that she has not; for lack of a rig, at the words that name its parts."""
    if relation.words_tell:
        return frozenset(also)
    return frozenset() if "." in gone.place.key or gone.weight else frozenset((gone.place,))


_OF_INFLATED = ("head-expires", "cylinder-mass", "cylinder-minimum")
"""What only a lifejacket has that a cylinder fills."""


@check("changed.part-left", TRUTH, COMMON_PRACTICE)
def nothing_is_told_of_a_part_that_is_not_there(sight: Sight) -> Finds:
    """Nothing is told of a part that its thing is said not to have: a distress button without DSC, water in no pack, a slip that holds nothing.

    Why: whoever reads on looks for it, or believes that it is there.
    Remedy: go and look which of the two is so, and correct the other.
    """
    radio = sight.vessel.radio
    for each in radio.sets if radio else ():
        if each.kind == "satellite telephone":
            if each.dsc is True:
                yield of(
                    each,
                    "dsc",
                    "a satellite telephone makes no digital call (DSC), and dsc says yes",
                    remedy="write dsc: no, or the kind that it is",
                    also=(each.place("kind"),),
                )
        elif each.dsc is False and each.known("distress_button"):
            yield of(
                each,
                "dsc",
                "dsc says no, and it is said where the distress button is",
                remedy="press nothing, look at the set: write dsc: yes, or take 'distress-button' out",
                also=(each.place("distress-button"),),
            )
    yield from (*_of_foam(sight), *_worked_by_hand(sight))
    for raft in sight.vessel.rafts:
        if raft.pack == "none":
            inside = float(raft.pack_water) if isinstance(raft.pack_water, (int, float)) else 0.0
            if inside > 0:
                yield of(
                    raft,
                    "pack",
                    "pack says none, and pack-water that there is water in it",
                    remedy="read the label or ask the station: write the pack that is inside, or pack-water: 0 l",
                    also=(raft.place("pack-water"),),
                )
        if raft.slip and raft.held_by and not any(each in _slips() for each in raft.held_by):
            place, message = raft.place("held-by"), "its slip is described, and held-by has none"
            also, explains = (raft.place("slip"),), frozenset((place,))
            yield Found(
                place,
                f"{raft.name}: {message}",
                f"go and look: write held-by: [{_slips()[0]}, {', '.join(raft.held_by)}], or take 'slip' out",
                item=str(raft.name),
                also=also,
                about=raft,
                explains=explains,
            )


def _worked_by_hand(sight: Sight) -> Finds:
    """Beacons released by hand of whose own HRU the dates are told."""
    radio = sight.vessel.radio
    for beacon in radio.beacons if radio else ():
        told = [key for key in ("release-fitted", "release-expires") if beacon.known(key.replace("-", "_"))]
        if beacon.release == "by hand" and told:
            yield of(
                beacon,
                "release",
                f"release says by hand, and it tells {' and '.join(repr(each) for each in told)} of an HRU",
                remedy=f"look at its bracket: write release: float-free, or take {' and '.join(repr(each) for each in told)} out",
                also=tuple(beacon.place(each) for each in told),
            )


def _of_foam(sight: Sight) -> Finds:
    """Lifejackets of foam of which is told what only those have that a cylinder fills."""
    for jackets in sight.vessel.lifejackets:
        inflated = [key for key in _OF_INFLATED if jackets.known(key.replace("-", "_"))]
        if jackets.kind == "foam" and inflated:
            yield of(
                jackets,
                "kind",
                f"lifejackets of foam, and it tells their {' and '.join(each.replace('-', ' ') for each in inflated)}",
                remedy=f"look at them: write kind: inflatable, or take {' and '.join(repr(each) for each in inflated)} out",
                also=tuple(jackets.place(each) for each in inflated),
            )


@check("changed.private-base", NOTICE, COMMON_PRACTICE)
def a_private_boat_with_a_base_is_told(sight: Sight) -> Finds:
    """Of a boat that is used privately and has a base, it is told what follows if the base lets her out.

    Why: a base may look after a private boat; of one that it lets out, what is asked of a boat with guests is then not asked.
    Remedy: if the base looks after her, nothing; if it lets her out, write use: charter; if she is not of that base, write base: none.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    if one and one.use == "private" and vessel.charter_base is not None:
        message = "it says that she is used privately, and a base file tells of a base: it looks after her, and does not let her out"
        yield Found(one.place("use"), message, item="use", also=(vessel.place("base"),), about=one)


@check("changed.engine-served", TRUTH, COMMON_PRACTICE)
def each_engine_has_what_another_has(sight: Sight) -> Finds:
    """Where holes in the hull, or batteries, are named after engines, each inboard engine of the list has its own.

    Why: whoever looks for the leak or the fire goes to the one that is named, and the other one is forgotten.
    Remedy: list it with the name of that engine: engine cooling inlet, engine start; one that serves all is named after none.
    """
    vessel = sight.vessel
    engines = [each for each in vessel.engines if isinstance(each.what, str) and each.kind != "outboard"]
    for things, what in ((vessel.through_hulls, "hole in the hull"), (vessel.batteries, "battery")):
        named = {
            engine: [thing for thing in things if _names(str(thing.what), str(engine.what))]
            for engine in engines
        }
        without = [engine for engine, those in named.items() if not those]
        first = next((those[0] for those in named.values() if those), None)
        if first is None or not without or any(_for_all(str(thing.what), engines) for thing in things):
            continue
        for engine in without:
            message = f"no {what} is named after it, and another engine has one: {first.what}"
            under = "through-hulls" if things is vessel.through_hulls else "batteries"
            name = f"{engine.what} {'cooling inlet' if under == 'through-hulls' else 'start'}"
            yield Found(
                engine.place("what"),
                f"{engine.what}: {message}",
                remedy=f"go and look; list it under '{under}' with what: {name}; one that serves all is named after none",
                item=str(engine.what),
                also=(first.place("what"),),
                about=engine,
            )


def _names(text: str, engine: str) -> bool:
    return bool(re.search(rf"\b{re.escape(engine)}\b", text, re.IGNORECASE))


def _for_all(text: str, engines: list[Engine]) -> bool:
    """Whether a name speaks of engines, of none by its name."""
    return bool(re.search(r"\bengines?\b", text, re.IGNORECASE)) and not any(
        _names(text, str(each.what)) for each in engines
    )
