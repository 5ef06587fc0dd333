"""The station bill: who does what in each emergency, as the file assigns it."""

from __future__ import annotations

import functools
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from generator.manual import crew
from generator.manual.left_to_act import able, left
from generator.manual.printing import Printer
from generator.manual.steps import Procedure, holds
from generator.reading.values import Counted
from generator.shelves.procedure_files import GROWN, RAFT
from generator.shelves.procedures import ShelfDuty, shelf

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping, Sequence

    from generator.manual.reckoning import Reckoning
    from generator.reading.findings import Place
    from generator.shelves.languages import Catalogue
    from generator.vessel.people import Assignment, Person
    from generator.vessel.raft import Raft
    from generator.vessel.vessel import Vessel


@dataclass(frozen=True)
class Duty:
    """One line of the bill. `continuous` duties cannot be shared with another one; `key` ones need a substitute.

    `needs` is the ability it takes, "" if none; `at_once` ones are done on deck in the first moment; a continuous one leaves its
    person free for what `goes_with` it; nobody has what it is `worse_with` while somebody else is idle.
    `from_age` in years, `seated`, `senses`, `strength`: who can do it.
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
    takes: str = ""
    worse_with: tuple[str, ...] = ()
    strength: bool = False


@dataclass(frozen=True)
class Emergency:
    """A column of the bill; `outside`: all gather in the open air then, for the muster place is inside."""

    id: str
    title: str
    duties: tuple[Duty, ...]
    outside: bool = False


@dataclass(frozen=True)
class Bill:
    """People by emergencies. `roles` in the order of the file, each with its names (from the voyage) for crew copies.

    `called` is each role as it is printed, with its number where several have it; `shares` the same of a part of a role, by role and
    number; `aged` how old its children are, `idle` what it does where it has no duty, `idle_outside` the same where all gather in the open, `helps`
    whom it helps and for what, "" for nobody; `helps_briefly` without for what, for cards; `at_rafts` its parts in the rafts' parties.
    """

    roles: tuple[str, ...]
    emergencies: tuple[Emergency, ...]
    called: Mapping[str, str]
    shares: Mapping[tuple[str, int], str]
    aged: Mapping[str, str]
    idle: Mapping[str, str]
    idle_outside: Mapping[str, str]
    helps: Mapping[str, str]
    helps_briefly: Mapping[str, str]
    at_rafts: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    def beside(self, role: str, emergency: Emergency) -> tuple[str, ...]:
        """What a role does at the rafts beside its duties: in the emergency in which she is left."""
        launches = any(duty.takes == RAFT for duty in emergency.duties)
        return self.at_rafts.get(role, ()) if launches else ()

    def waits(self, role: str, emergency: Emergency) -> str:
        """What a role does that has no duty in an emergency."""
        return self.idle_outside[role] if emergency.outside else self.idle[role]

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
    kinds, hands = {one.kind: one for one in composed}, able(vessel)
    known_kinds = {one.id: one for one in shelf()}
    emergencies = []
    for one in (known_kinds[kind] for kind in kinds):
        if one.duties and not alone(vessel):
            words, known = catalogue.procedures[one.id].duties, facts | left(hands, one.form.counts_out)
            assigned: Mapping[str, Assignment] = vessel.station_bill.get(one.id) or {}
            duties = tuple(
                _duty(line, one.id, words[_name_of_words(line, known)], assigned.get(line.id), vessel)
                for line in one.duties
                if holds(line.when, (), known)
            )
            emergencies.append(
                Emergency(
                    one.id, kinds[one.id].title, duties, one.form.outside and bool(facts["muster inside"])
                )
            )
    people, printer = vessel.people, Printer(catalogue)
    roles = reckoning.roles

    def by_role(said: Callable[[str, Sequence[Person], Printer], str]) -> dict[str, str]:
        return {role: said(role, people, printer) for role in roles}

    shares = {
        (str(who), who.number): crew.called(who, people, printer)
        for raft in vessel.rafts
        for who in raft.carries or ()
        if isinstance(who, Counted) and isinstance(who.number, int)
    }
    return Bill(
        roles,
        tuple(emergencies),
        by_role(crew.called),
        shares,
        by_role(crew.aged),
        by_role(crew.without_a_duty),
        by_role(functools.partial(crew.without_a_duty, outside=True)),
        by_role(crew.helps),
        by_role(functools.partial(crew.helps, briefly=True)),
    )


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
        line.takes,
        line.worse_with,
        line.strength,
    )
