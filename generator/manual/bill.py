"""The station bill: who does what in each emergency, as the file assigns it."""

from __future__ import annotations

import functools
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.manual import crew
from generator.manual.printing import Printer
from generator.manual.procedures import Procedure, holds
from generator.reading.values import Counted
from generator.shelves.procedure_files import GROWN, RAFT
from generator.shelves.procedures import ShelfDuty, shelf

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from generator.manual.reckoning import Reckoning
    from generator.reading.findings import Place
    from generator.shelves.languages import Catalogue
    from generator.vessel.people import Assignment
    from generator.vessel.raft import Raft
    from generator.vessel.vessel import Vessel


@dataclass(frozen=True)
class Duty:
    """One line of the bill. `continuous` duties cannot be shared with another one; `key` ones need a substitute.

    `needs` is the ability it takes, "" if none; `at_once` ones are done on deck in the first moment; a continuous one leaves its
    person free for what `goes_with` it.
    `from_age` in years, `seated`, `senses`: who can do it.
    """

    id: str
    emergency: str
    text: str
    essential: bool
    key: bool
    continuous: bool
    persons: int
    who: tuple[str, ...]
    substitute: str
    place: Place
    needs: str = ""
    at_once: bool = False
    apart_from: tuple[str, ...] = ()
    from_age: int = GROWN
    seated: bool = False
    senses: tuple[str, ...] = ()
    goes_with: tuple[str, ...] = ()


@dataclass(frozen=True)
class Emergency:
    """A column of the bill."""

    id: str
    title: str
    duties: tuple[Duty, ...]


@dataclass(frozen=True)
class Bill:
    """People by emergencies. `roles` in the order of the file, each with its names (from the voyage) for crew copies.

    `called` is each role as it is printed, with its number where several have it; `shares` the same of a part of a role, by role and
    number; `aged` how old its children are, `idle` what it does where it has no duty, `helps`
    whom it helps and for what, "" for nobody; `helps_briefly` without for what, for cards.
    """

    roles: tuple[str, ...]
    emergencies: tuple[Emergency, ...]
    called: Mapping[str, str]
    shares: Mapping[tuple[str, int], str]
    aged: Mapping[str, str]
    idle: Mapping[str, str]
    helps: Mapping[str, str]
    helps_briefly: Mapping[str, str]

    def named(self, roles: Iterable[str]) -> tuple[str, ...]:
        """Roles as they are printed."""
        return tuple(
            self.shares.get((role, role.number), self.called.get(role, role))
            if isinstance(role, Counted) and isinstance(role.number, int)
            else self.called.get(role, role)
            for role in roles
        )

    def cell(self, role: str, emergency: Emergency) -> list[tuple[Duty, bool]]:
        """The duties of a role in an emergency; True marks those taken over as substitute."""
        own = [(duty, False) for duty in emergency.duties if role in duty.who]
        return own + [
            (duty, True) for duty in emergency.duties if duty.substitute == role and role not in duty.who
        ]


def compose_bill(reckoning: Reckoning, composed: Iterable[Procedure], catalogue: Catalogue) -> Bill:
    """The bill of the emergencies composed for the vessel; whoever sails alone has nobody to share duties with, and no bill."""
    vessel, facts = reckoning.vessel, reckoning.facts
    kinds = {one.kind: one for one in composed}
    emergencies = []
    for one in shelf():
        if one.duties and one.id in kinds and not alone(vessel):
            words = catalogue.procedures[one.id].duties
            assigned: Mapping[str, Assignment] = vessel.station_bill.get(one.id) or {}
            duties = tuple(
                _duty(line, one.id, words[_name_of_words(line, facts)], assigned.get(line.id), vessel)
                for line in one.duties
                if holds(line.when, (), facts)
            )
            emergencies.append(Emergency(one.id, kinds[one.id].title, duties))
    people, printer = vessel.people, Printer(catalogue)
    said = (
        crew.called,
        crew.aged,
        crew.without_a_duty,
        crew.helps,
        functools.partial(crew.helps, briefly=True),
    )
    called, *others = ({role: each(role, people, printer) for role in reckoning.roles} for each in said)
    shares = {
        (str(who), who.number): crew.called(who, people, printer)
        for raft in vessel.rafts
        for who in raft.carries or ()
        if isinstance(who, Counted) and isinstance(who.number, int)
    }
    return Bill(reckoning.roles, tuple(emergencies), called, shares, *others)


def assigned_to(vessel: Vessel, takes: str) -> Assignment | None:
    """Who has the duty that takes something over the side (RAFT, GRAB_BAG), as the file assigns it; None if it does not."""
    for one in shelf():
        assigned: Mapping[str, Assignment] = vessel.station_bill.get(one.id) or {}
        for line in one.duties if assigned else ():
            if line.takes == takes and line.id in assigned:
                return assigned[line.id]
    return None


def launchers(vessel: Vessel, raft: Raft) -> tuple[str, ...]:
    """Who launches a raft: its own party's, where the file names one, else whoever has that duty in the bill; each as often as meant."""
    party = tuple(raft.party.launch or ()) if raft.party is not None else ()
    assigned = assigned_to(vessel, RAFT)
    told = party or (tuple(assigned.who or ()) if assigned is not None else ())
    return tuple(who for who in told for _ in range(_many(who)))


def _many(who: str) -> int:
    number = who.number if isinstance(who, Counted) else None
    return number if isinstance(number, int) else 1


def alone(vessel: Vessel) -> bool:
    """Whether she never carries more than one person."""
    return vessel.vessel is not None and vessel.vessel.persons == 1


def _name_of_words(line: ShelfDuty, facts: Mapping[str, bool]) -> str:
    """Under which name the words of a duty stand for a boat of these facts."""
    return next((words for when, words in line.other_words if holds(when, (), facts)), line.id)


def _duty(line: ShelfDuty, emergency: str, text: str, assignment: Assignment | None, vessel: Vessel) -> Duty:
    return Duty(
        line.id,
        emergency,
        text,
        line.essential,
        line.key,
        line.continuous,
        line.persons,
        tuple(assignment.who) if assignment else (),
        str(assignment.substitute or "") if assignment else "",
        assignment.place() if assignment else vessel.place("station-bill"),
        line.needs,
        line.at_once,
        line.apart_from,
        line.from_age,
        line.seated,
        line.senses,
        line.goes_with,
    )
