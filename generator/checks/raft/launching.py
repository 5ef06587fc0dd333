"""Getting the raft over the side, and people into it: who lifts it, how soon, on the bad day too."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.calc.lifting import TEAM_SHARE, team_capability_kg
from generator.manual.bill import assigned_to, launchers
from generator.manual.crew import the
from generator.reading.nearest import nearest
from generator.reading.values import Quantity, all_known, untold
from generator.shelves.procedure_files import LAUNCH, PARTS, RAFT
from generator.survey.hands import offered, sole
from generator.survey.limits import most
from generator.survey.registry import (
    ADVICE,
    COMMON_PRACTICE,
    DEFECT,
    HELP,
    LIFE,
    RECOMMENDATION,
    TRUTH,
    Finds,
    Sight,
    check,
    of,
)
from generator.vessel.fittings import Fitting
from generator.vessel.particulars import FAR

if TYPE_CHECKING:
    from collections.abc import Sequence

    from generator.reading.findings import Place
    from generator.vessel.raft import Raft
    from generator.vessel.vessel import Vessel


@check("raft.reached-heeled", LIFE, COMMON_PRACTICE)
def raft_is_reached_when_she_heels(sight: Sight) -> Finds:
    """The raft can be reached and sent over when she lies on her side or is down by the stern.

    Why: a sinking boat is seldom upright, and a locker under water does not open; a hydrostatic release waits until she has gone down.
    Remedy: give it another place, or plan when it is brought out early; then write what is so.
    """
    others = any(raft.reached_heeled is True for raft in sight.vessel.rafts)
    for raft in sight.vessel.rafts:
        if raft.reached_heeled is False:
            yield of(
                raft,
                "reached-heeled",
                "it cannot be reached when she lies on her side or is down by the stern",
                weight=RECOMMENDATION if raft.hydrostatic and others else None,
            )


@check(
    "raft.reached-inverted",
    LIFE,
    "advice on raft stowage (secondary); common practice for multihulls offshore",
)
def raft_of_a_multihull_is_reached_upside_down(sight: Sight) -> Finds:
    """Offshore, the raft of a multihull can be reached when she floats upside down.

    Why: a capsized multihull floats; those on her bottom need the raft that hangs under her.
    Remedy: stow it where it can be reached from both sides and write reached-inverted: yes.
    """
    one = sight.vessel.vessel
    for raft in sight.vessel.rafts if one and one.hull.multihull and one.waters in FAR else ():
        if untold(raft.reached_inverted):
            yield of(
                raft,
                "stowage",
                "nothing says whether it can be reached when she floats upside down",
                remedy="think it through at the mooring: how is it got out from below? Then write reached-inverted: yes or no",
            )
        elif raft.reached_inverted is False:
            yield of(raft, "reached-inverted", "it cannot be reached when she floats upside down")


@check(
    "raft.launch-slow",
    ADVICE,
    "Offshore Special Regulations 4.20.3 (quoted text: 15 seconds to the lifelines or launched)",
)
def raft_is_ready_soon(sight: Sight) -> Finds:
    """In a drill the raft lay ready to go over within fifteen seconds; two minutes and more are a defect.

    Why: a stowage that takes minutes in harbour takes longer on a wet deck in the dark.
    Remedy: look what held it up: lid, lashing, weight. Change that, try again and write the new time.
    """
    most_s = most(sight.vessel, "time to make a raft ready")
    for raft in sight.vessel.rafts:
        if isinstance(raft.ready_in, Quantity) and raft.ready_in > most_s:
            late = DEFECT if raft.ready_in >= TOO_LATE_S else None
            message = f"it took {raft.ready_in} until it lay ready, more than {most_s:g} s"
            yield of(raft, "ready-in", message, weight=late)


TOO_LATE_S = 120
"""From how many seconds on a raft is made ready too late for a boat that burns or goes down: common practice."""


@check("raft.two-sides", TRUTH, COMMON_PRACTICE)
def raft_is_boarded_where_it_is_launched(sight: Sight) -> Finds:
    """The raft is boarded on the side where it goes over.

    Why: half the crew waits on the wrong side.
    Remedy: write the same side in 'launch-from' and 'board-from', or name neither and say: the lee side.
    """
    for raft in sight.vessel.rafts:
        sides = [_side(raft.launch_from), _side(raft.board_from)]
        if all(sides) and sides[0] != sides[1]:
            yield of(
                raft,
                "board-from",
                f"it goes over to {sides[0]} and is boarded to {sides[1]}",
                also=(raft.place("launch-from"),),
            )


_UPWIND = re.compile(r"\b(?:windward|weather|upwind)\b(?! cloth| helm| deck)", re.IGNORECASE)


@check("raft.to-windward", LIFE, "Transport Canada TP 10038 and RYA on the lee side")
def raft_goes_over_to_leeward(sight: Sight) -> Finds:
    """No raft is told to go over, or to be boarded, to windward.

    Why: the boat drifts down on it, and waves and hull crush whoever boards between them.
    Remedy: write the lee side in 'launch-from' and 'board-from', or the place that serves on both.
    """
    for raft in sight.vessel.rafts:
        for key, place in (("launch-from", raft.launch_from), ("board-from", raft.board_from)):
            told = place.what if place is not None else None
            if isinstance(told, str) and _UPWIND.search(told) and not _EITHER.search(told):
                yield of(raft, key, f"'{told}': the boat drifts down on it")


_EITHER = re.compile(r"\b(?:never|not|no|lee|leeward|or|unless)\b", re.IGNORECASE)


@check("raft.other-side", TRUTH, COMMON_PRACTICE)
def raft_painter_and_launch_place_are_on_one_side(sight: Sight) -> Finds:
    """A raft that lies on one side is made fast there, and goes over there.

    Why: where one of the three was changed and the others were left, whoever launches it stands at the rail without it, or its painter lies across the boat.
    Remedy: go and look, and correct 'side', 'strong-point' or 'launch-from'. Where it is carried across and goes over there, defer this with that reason.
    """
    for raft in sight.vessel.rafts:
        fast, over = _side(raft.strong_point), _side(raft.launch_from)
        here = str(raft.side) if raft.side in _OTHER else ""
        lies = here or over
        other = _OTHER.get(lies, "")
        away = [
            (key, what)
            for key, side, what in (
                ("strong-point", fast, "its strong point"),
                ("launch-from", over, "the place where it goes over"),
            )
            if side and side == other
        ]
        if not away:
            continue
        where = f"it lies to {lies}" if here else f"it goes over to {lies}"
        told = " and ".join(what for _, what in away)
        yield of(
            raft,
            "side" if len(away) > 1 else away[0][0],
            f"{where}, and {told} {'are' if len(away) > 1 else 'is'} to {other}",
            also=tuple(raft.place(key) for key, _ in away) if len(away) > 1 else (raft.place("side"),),
            weight=RECOMMENDATION if raft.lift_needed is True or not here else None,
        )


_OTHER = {"port": "starboard", "starboard": "port"}


@check("raft.painter-across", LIFE, COMMON_PRACTICE)
def the_painter_comes_out_towards_its_strong_point(sight: Sight) -> Finds:
    """A painter that comes out of the container on one side is made fast on that side.

    Why: it lies across under the container or over its strap, and holds the raft down when it is to float up.
    Remedy: go and look; correct 'painter-end' or the side of 'strong-point'. Where it is so, have the container turned round.
    """
    for raft in sight.vessel.rafts:
        fast = _side(raft.strong_point)
        if raft.painter_end in _OTHER and fast and fast == _OTHER[str(raft.painter_end)]:
            yield of(
                raft,
                "painter-end",
                f"its painter comes out to {raft.painter_end}, and its strong point is to {fast}",
                also=(raft.place("strong-point"),),
            )


def _side(thing: Fitting | None) -> str:
    named = thing.sides_told if thing else frozenset()
    return next(iter(named)) if len(named) == 1 else ""


@check(
    "raft.lift",
    HELP,
    "46 CFR 180.130(c) (90.7 kg and a lift); team lifting at two thirds for two, half for more (secondary)",
)
def launch_crew_can_lift_the_raft(sight: Sight) -> Finds:
    """Those told off to launch the raft can lift it.

    Why: a raft that two people cannot lift over the rail stays aboard.
    Remedy: stow it where it slides or drops, or give the launch more hands.
    """
    alone_kg = most(sight.vessel, "mass lifted without aid")
    people = {str(person.role): person.lifts for person in sight.vessel.people if person.role}
    for raft in sight.vessel.rafts:
        if raft.lift_needed is not True or not isinstance(raft.mass, Quantity):
            continue
        if raft.mass > alone_kg and not raft.launching_aid:
            yield of(
                raft,
                "mass",
                f"it weighs {raft.mass} and must be lifted; over {alone_kg:g} kg that takes a launching aid",
            )
            continue
        team = launchers(sight.vessel, raft)[: max(TEAM_SHARE)]
        if only := sole(sight):
            team = (only,)  # with or without a bill
        lifts = all_known(people.get(who) for who in team)
        if team and lifts:
            each_kg = [float(each) for each in lifts]
            if raft.mass > team_capability_kg(each_kg):
                yield of(
                    raft,
                    "mass",
                    f"it weighs {raft.mass} and must be lifted; {_lifted_by(team, each_kg)}",
                    remedy=""
                    if not only
                    else "stow it where it slides or drops, or carry one that can be lifted alone",
                    weight=DEFECT if raft.mass > sum(each_kg) else None,
                    also=(
                        *_named_at(sight.vessel, raft),
                        *(person.place("lifts") for person in sight.vessel.people if person.role in team),
                    ),
                )


def _lifted_by(team: Sequence[str], each_kg: list[float]) -> str:
    """What those who launch a raft lift, and how that is counted."""
    able_kg, all_kg = f"{team_capability_kg(each_kg):.0f} kg", f"{sum(each_kg):.0f} kg"
    if len(team) == 1:
        return f"{team[0]} alone lifts about {able_kg}"
    return f"{' and '.join(team)} together lift about {able_kg}: {_SHARES[len(team)]} the {all_kg} that each lifts alone, added up"


def _named_at(vessel: Vessel, raft: Raft) -> tuple[Place, ...]:
    """Where the file names who launches a raft."""
    if raft.party is not None and raft.party.launch:
        return (raft.party.place(LAUNCH),)
    assigned = assigned_to(vessel, RAFT)
    return (assigned.place("who"),) if assigned is not None else ()


_SHARES = {2: "two lift two thirds of", 3: "three lift half of", 4: "four lift half of"}


@check("raft.too-heavy", LIFE, "C.R.C. c. 1436 Sch. VIII s. 3 (read in the 2006-2023 text)")
def raft_can_be_thrown_over(sight: Sight) -> Finds:
    """A raft over 185 kg has a launching device.

    Why: it cannot be thrown over by hand.
    Remedy: describe it as stowed in a davit if it is, or share the persons between lighter rafts.
    """
    most_kg = most(sight.vessel, "mass thrown by hand")
    for raft in sight.vessel.rafts:
        if isinstance(raft.mass, Quantity) and raft.mass > most_kg and not raft.launching_aid:
            yield of(
                raft,
                "mass",
                f"it weighs {raft.mass}, more than the {most_kg:g} kg that go over the side by hand",
            )


@check("raft.righting-gear", LIFE, "C.R.C. c. 1436 Sch. VIII s. 14(2) (read in the 2006-2023 text)")
def one_person_can_right_the_raft(sight: Sight) -> Finds:
    """The raft can be turned upright by one person.

    Why: rafts inflate upside down, and the first one there is alone.
    Remedy: look at the raft's leaflet; most have straps across the bottom. If it has none, ask the station.
    """
    for raft in sight.vessel.rafts:
        if raft.righting == "none":
            yield of(raft, "righting", "nothing on it helps to turn it upright")


@check("raft.boarding-gear", LIFE, "C.R.C. c. 1436 Sch. VIII s. 13 (read in the 2006-2023 text)")
def somebody_in_the_water_can_climb_in(sight: Sight) -> Finds:
    """Somebody in the water can climb into the raft.

    Why: in wet clothes nobody pulls himself over a tube by his arms.
    Remedy: look at the raft's leaflet for ramp or ladder; if it has none, plan who pulls the others in.
    """
    for raft in sight.vessel.rafts:
        if raft.boarding == "none":
            yield of(raft, "boarding", "it has neither ramp nor ladder")
        elif untold(raft.boarding):
            yield of(raft, "name", "'boarding' does not say what helps somebody in the water to climb in")


@check("raft.party", LIFE, "46 CFR 28.265(d)(1), the raft to which each individual is assigned")
def the_party_of_a_raft_goes_into_it(sight: Sight) -> Finds:
    """Whoever launches, holds or cuts a raft, or brings bag or beacon, is aboard and, of several rafts, goes into that one.

    Why: who is told to launch one raft and sit in another is missing at both.
    Remedy: name roles that stand under 'people' and, with several rafts, under 'carries' of this one.
    """
    several = len(sight.vessel.rafts) > 1
    for raft in sight.vessel.rafts:
        for part in PARTS if raft.party is not None else ():
            for who in getattr(raft.party, part):
                if who not in sight.roles:
                    why, remedy = (
                        f"'{who}' is no role aboard",
                        nearest(who, offered(sight), taken=getattr(raft.party, part)),
                    )
                elif several and raft.carries and who not in raft.carries:
                    why, remedy = (
                        f"{the(who)} goes into another raft",
                        f"name one of: {', '.join(raft.carries)}",
                    )
                else:
                    continue
                yield of(raft, part, f"its party, {part}: {why}", part=raft.party, remedy=remedy)
