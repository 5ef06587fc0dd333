"""Facts of one raft: the fixed list that the procedures of a raft may name besides those of the vessel.

The names of stowages and holds are facts too, for the files of their own; whatever several places or holds have in common is a
fact of its own, which comes from their rows on the shelf.
"""

from __future__ import annotations

import functools
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.manual.parties import RADIO, billed, parties_of, works
from generator.manual.raft_gone import brought_elsewhere, if_gone
from generator.reading.values import NotKnown, untold
from generator.shelves.packs import brings_food
from generator.shelves.procedure_files import BAG, LAUNCH
from generator.shelves.stowages import (
    DROPS,
    LIFTED,
    comes_loose,
    float_free_containers,
    holds,
    hydrostatic,
    stowages,
)
from generator.vessel.people import meant_by
from generator.vessel.raft import ENDS, NO_LID

if TYPE_CHECKING:
    from collections.abc import Callable

    from generator.manual.parties import RaftParty
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


def _holds_untold(raft: Raft) -> bool:
    """Whether the file says that it is unknown what holds it."""
    return not raft.held_by and not _held_by_nothing(raft)


def float_free_untold(raft: Raft) -> bool:
    """Whether nobody can tell from the file if it leaves by itself: it may, as far as the file says what holds it and its painter."""
    may_let_go = (
        raft.hydrostatic
        or _holds_untold(raft)
        or (_held_by_nothing(raft) and raft.kept is not None and raft.kept.float_free != "no")
    )
    may_part = raft.painter is None or untold(raft.painter.fast_to) or raft.painter.fast_to == "weak link"
    in_what = untold(raft.container) or raft.container in float_free_containers()
    where = raft.kept is None or raft.kept.float_free != "no"
    known = not _holds_untold(raft) and raft.painter is not None and not untold(raft.painter.fast_to)
    return may_let_go and may_part and in_what and where and not known


_STERN = re.compile(r"\b(transom|stern|swim(ming)? platform|bathing platform|sugar scoops?)\b", re.IGNORECASE)
"""Where a boat's end comes down on what lies under it."""


def _boards_at_the_stern(raft: Raft) -> bool:
    way = raft.board_from
    return way is not None and _STERN.search(way.words) is not None


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
    RaftFact("what holds it untold", "The file says that it is unknown what holds it", _holds_untold),
    RaftFact(
        "release untold", "The file does not say whether it is rigged to leave by itself", float_free_untold
    ),
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
        "painter length told",
        "The file says how long its painter is",
        lambda raft: raft.painter is not None and not untold(raft.painter.length),
    ),
    RaftFact(
        "painter end out of reach",
        "The file says that its strong point is not reached while it lies in its place",
        lambda raft: raft.strong_point_reached is False,
    ),
    RaftFact("lid", "A lid lies over it", lambda raft: raft.lid_hinge in ENDS),
    RaftFact(
        "without a lid", "The file says that no lid lies over it", lambda raft: raft.lid_hinge == NO_LID
    ),
    RaftFact("boarded at the stern", "People step into it at the boat's stern", _boards_at_the_stern),
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


def _party(raft: Raft, vessel: Vessel) -> RaftParty | None:
    """The party of one of several rafts; None of the only one."""
    if len(vessel.rafts) < 2:
        return None
    return next(each for each in parties_of(vessel) if each.raft is raft)


def _one_able_in_it(raft: Raft, vessel: Vessel) -> bool:
    """Whether of those who go into one of several rafts one at most can work, who then has nobody to work with."""
    party = _party(raft, vessel)
    if party is None or not party.going:
        return False
    people = {str(person.role): person for person in vessel.people}
    able = [who for who in party.going if str(who) in people and works(people[str(who)])]
    return sum(meant_by(who, vessel.people) for who in able) <= 1


def _bag_elsewhere(raft: Raft, vessel: Vessel) -> bool:
    party = _party(raft, vessel)
    return party is not None and not party.share(BAG).who


def _gets_a_beacon(raft: Raft, vessel: Vessel) -> bool:
    party = _party(raft, vessel)
    return party is not None and party.beacon is not None


def _use_told(raft: Raft, vessel: Vessel) -> bool:
    party = _party(raft, vessel)
    return party is not None and party.beacon is not None and party.beacon.known("use")


def _others_take(raft: Raft, vessel: Vessel) -> bool:
    return any(load.comes for load in if_gone(raft, vessel).loads)


def _others_lack_places(raft: Raft, vessel: Vessel) -> bool:
    return len(vessel.rafts) > 1 and bool(if_gone(raft, vessel).over)


def _brings(raft: Raft, vessel: Vessel) -> bool:
    party = _party(raft, vessel)
    return party is not None and bool(brought_elsewhere(party))


def _launcher_calls(raft: Raft, vessel: Vessel) -> bool:
    """Whether one of those who launch it has to make the distress call too, by the bill."""
    calls = billed(vessel, RADIO)
    if not calls:
        return False
    party = next((each for each in parties_of(vessel) if each.raft is raft), None)
    return party is not None and any(str(who) in calls for who in party.share(LAUNCH).who)


def _launched_by_its_own(raft: Raft, vessel: Vessel) -> bool:
    party = _party(raft, vessel)
    return party is not None and bool(party.share(LAUNCH).who)


AMONG_RAFTS = (
    AmongRafts("launcher calls", "Whoever launches it makes the distress call too", _launcher_calls),
    AmongRafts(
        "one able in it",
        "Of several rafts one of those who go into this one can work, no more",
        _one_able_in_it,
    ),
    AmongRafts("grab bag elsewhere", "Of several rafts another gets the grab bag", _bag_elsewhere),
    AmongRafts("beacon for it", "It is one of several rafts, and a beacon is brought to it", _gets_a_beacon),
    AmongRafts(
        "use of its beacon told",
        "It is one of several rafts, and the file says how its beacon is switched on",
        _use_told,
    ),
    AmongRafts(
        "others take its people",
        "If it is gone, other rafts have places for some of those who go into it",
        _others_take,
    ),
    AmongRafts(
        "others lack places",
        "If it is gone, the other rafts are not approved for all who go into it",
        _others_lack_places,
    ),
    AmongRafts(
        "brings for another",
        "If it is gone, those who go into it bring its bag or beacon into another",
        _brings,
    ),
    AmongRafts(
        "launched by its own", "It is one of several rafts, and somebody launches it", _launched_by_its_own
    ),
)
