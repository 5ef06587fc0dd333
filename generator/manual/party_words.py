"""Words of a raft's party, and of what follows if the raft is gone: who goes where, with what, and who finds no place."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.manual.crew import called
from generator.manual.parties import parties_of
from generator.manual.raft_gone import brought_elsewhere, if_gone
from generator.manual.said import Missing, Together, crew_word, given_word, place_word
from generator.shelves.procedure_files import BAG

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from generator.manual.parties import RaftParty
    from generator.manual.printing import Printer
    from generator.manual.raft_gone import Gone
    from generator.manual.said import Said
    from generator.vessel.people import Person
    from generator.vessel.raft import Raft
    from generator.vessel.vessel import Vessel


def party_of(raft: Raft, vessel: Vessel) -> RaftParty:
    """The party of one raft of a vessel."""
    return next(each for each in parties_of(vessel) if each.raft is raft)


def in_a_list(roles: Iterable[str], people: Sequence[Person], printer: Printer) -> str:
    """Roles one after the other, each as it is counted and called."""
    return ", ".join(called(role, people, printer) for role in roles)


@dataclass(frozen=True, eq=False)
class Moves(Together):
    """Who of a lost raft goes into which other."""

    gone: Gone
    people: tuple[Person, ...]

    def said_by(self, printer: Printer) -> str:
        """Each raft that takes some in, with whom."""
        return "; ".join(
            printer.say(
                "row.serves",
                serves=printer.without_article(str(load.raft.name)),
                said=in_a_list(load.comes, self.people, printer),
            )
            for load in self.gone.loads
            if load.comes
        )


@dataclass(frozen=True, eq=False)
class Loads(Together):
    """How many are then in each raft that takes some in, and for how many it is approved."""

    gone: Gone

    def said_by(self, printer: Printer) -> str:
        """One sentence a raft."""
        taking = [load for load in self.gone.loads if load.comes and load.approved is not None]
        names = [str(load.raft.name) for load in taking]
        return " ".join(
            printer.say(
                "row.load",
                raft=f"{name[:1].upper()}{name[1:]}",
                persons=load.persons,
                approved=load.approved or 0,
            )
            for name, load in zip(names, taking, strict=True)
        )


@dataclass(frozen=True, eq=False)
class Over(Together):
    """Those for whom the other rafts are not approved."""

    gone: Gone
    people: tuple[Person, ...]

    def said_by(self, printer: Printer) -> str:
        """The roles in a row."""
        return in_a_list(self.gone.over, self.people, printer)


@dataclass(frozen=True, eq=False)
class Brings(Together):
    """What a lost raft was to get, with who brings it now to the other."""

    party: RaftParty
    people: tuple[Person, ...]

    def said_by(self, printer: Printer) -> str:
        """Each thing, with who brings it."""
        return "; ".join(
            printer.say(
                "row.serves",
                serves=thing_of(self.party, part, printer),
                said=in_a_list(who, self.people, printer),
            )
            for part, who in brought_elsewhere(self.party)
        )


def thing_of(party: RaftParty, part: str, printer: Printer) -> str:
    """What is brought to a raft: its bag, or its beacon by its name."""
    if part == BAG or party.beacon is None:
        return printer.say("thing.grab-bag")
    return printer.without_article(printer.in_step(party.beacon, "what"))


def _untold(vessel: Vessel) -> Missing | None:
    """What the file does not say of who goes into which raft, without which nobody can be sent into another."""
    found = (crew_word(raft, vessel.people) for raft in vessel.rafts if not raft.says_none("carries"))
    return next((each for each in found if isinstance(each, Missing)), None)


def moves_word(raft: Raft, vessel: Vessel) -> Said:
    """Who goes into which other raft if this one is gone, or Missing."""
    return _untold(vessel) or Moves(if_gone(raft, vessel), tuple(vessel.people))


def loads_word(raft: Raft, vessel: Vessel) -> Said:
    """How full the others are then, or Missing."""
    return _untold(vessel) or Loads(if_gone(raft, vessel))


def over_word(raft: Raft, vessel: Vessel) -> Said:
    """Who finds no place in the others, or Missing."""
    return _untold(vessel) or Over(if_gone(raft, vessel), tuple(vessel.people))


def brings_word(raft: Raft, vessel: Vessel) -> Said:
    """What it was to get."""
    return Brings(party_of(raft, vessel), tuple(vessel.people))


def beacon_word(raft: Raft, vessel: Vessel, name: str = "what") -> Said:
    """The beacon that it gets, or where that is, or how it is switched on."""
    beacon = party_of(raft, vessel).beacon
    if beacon is not None and name == "where":
        return place_word(beacon)
    return given_word(beacon, name, raft, "party.beacon")
