"""The party of each raft: who of those it carries launches and holds it, cuts it loose, brings bag and beacon, and who leads in it.

What the file says stands. What it leaves open is dealt out by one rule, which is printed with it: first whoever has such a duty in the
station bill, or carries such a thing, and goes into this raft; then whoever of those it carries has hands free, those used to the deck first.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.manual.bill import assigned_to
from generator.manual.crew import COMMAND
from generator.manual.told import in_grab_bag, one_for_each
from generator.reading.values import NotKnown, untold
from generator.shelves.procedure_files import BAG, BEACON, CUT, GRAB_BAG, HOLD, LAUNCH, LEAD, PARTS, RAFT
from generator.shelves.procedures import shelf
from generator.vessel.people import ADULT, jacket_sizes, meant_by

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence

    from generator.vessel.people import Assignment, Person
    from generator.vessel.radio import Beacon
    from generator.vessel.raft import Raft
    from generator.vessel.vessel import Vessel

IN_THE_FILE, BY_THE_BILL, PROPOSED, NOBODY = "in the file", "by the bill", "proposed", "nobody"
"""How it is known who has a part."""
NO_HANDS, NO_BAG, NO_BEACON, ELSEWHERE, SPARE = "no hands", "no bag", "no beacon", "elsewhere", "spare"
UNTOLD = "untold"
"""Why nobody has a part: nobody in it is grown and sound; she has no such thing; another raft gets it; nobody goes into it, or nobody says who."""
WORKS, AGED = 14, 75
"""From which age, in years, somebody works at a raft, and from which others are asked first: common practice."""
DECK, RADIO = "deck", "radio"
"""Abilities: of whoever is used to the deck; of whoever sends the distress call."""
LOCATES = ("EPIRB", "PLB", "SART")
"""The beacons by which a raft is found, the one that reaches furthest first."""


@dataclass(frozen=True)
class Share:
    """A part of a raft's party: who has it, how that is known, and why nobody has it, "" where somebody does."""

    part: str
    who: tuple[str, ...]
    known: str
    why: str = ""


@dataclass(frozen=True)
class RaftParty:
    """Who does what at one raft. `going` are those it carries; `beacon` is the one it gets, None if none."""

    raft: Raft
    going: tuple[str, ...]
    shares: tuple[Share, ...]
    beacon: Beacon | None = None

    def share(self, part: str) -> Share:
        """One part of it."""
        return next(each for each in self.shares if each.part == part)

    def parts_of(self, role: str) -> tuple[str, ...]:
        """The parts that a role has in it."""
        return tuple(each.part for each in self.shares if role in each.who)


def parties_of(vessel: Vessel) -> tuple[RaftParty, ...]:
    """The party of each raft, in the order of the file."""
    people = _People(vessel)
    beacons = _beacons(vessel, people)
    return tuple(_party(raft, vessel, people, beacons) for raft in vessel.rafts)


def told(raft: Raft, part: str) -> tuple[str, ...]:
    """Who has a part by the raft's own `party` in the file; nobody where it does not say."""
    who = raft.party.__dict__.get(part) if raft.party is not None else None
    return () if who is None or isinstance(who, NotKnown) else tuple(who)


def going_into(raft: Raft, vessel: Vessel) -> tuple[str, ...]:
    """Who goes into a raft: those it carries, everybody into the only one; nobody into a spare, or where several are there and nobody says who."""
    if raft.carries and not isinstance(raft.carries, NotKnown):
        return tuple(raft.carries)
    if raft.says_none("carries") or len(vessel.rafts) > 1:
        return ()
    return tuple(str(person.role) for person in vessel.people if person.role)


def works(person: Person) -> bool:
    """Whether somebody of a role has hands for a raft: grown enough, and without need of help, as far as is said."""
    if not untold(person.needs_help):
        return False
    ages = [age for age in person.age if isinstance(age, int)]
    if ages:
        return min(ages) >= WORKS
    return all(size == ADULT for size in jacket_sizes(person))


class _People:
    """The people of a vessel as a raft's party is made up of them."""

    def __init__(self, vessel: Vessel) -> None:
        self.all = tuple(vessel.people)
        self.by_role = {str(person.role): person for person in vessel.people}
        self.calls = billed(vessel, RADIO)
        self.commanding = billed(vessel, COMMAND)

    def able(self, going: Iterable[str]) -> list[str]:
        """Those of them who can work at a raft, those used to the deck first and the aged last; a role that is nobody aboard is none."""
        known = [who for who in going if who in self.by_role and works(self.by_role[who])]
        return sorted(known, key=lambda who: (self._aged(who), DECK not in self.by_role[who].abilities))

    def _aged(self, who: str) -> bool:
        return any(isinstance(age, int) and age >= AGED for age in self.by_role[who].age)

    def commands(self, who: str) -> bool:
        """Whether somebody of a role can take the command."""
        return who in self.by_role and COMMAND in self.by_role[who].abilities

    def hands(self, who: str, going: Sequence[str]) -> int:
        """How many hands of a role go there."""
        return meant_by(next((one for one in going if one == who), who), self.all)


def billed(vessel: Vessel, ability: str) -> frozenset[str]:
    """Who has the duties that need an ability in the bill under which a raft is launched."""
    for one in shelf():
        if any(line.takes == RAFT for line in one.duties):
            assigned: Mapping[str, Assignment] = vessel.station_bill.get(one.id) or {}
            duties = [line.id for line in one.duties if line.needs == ability and line.id in assigned]
            return frozenset(str(who) for duty in duties for who in assigned[duty].who or ())
    return frozenset()


def _of_bill(vessel: Vessel, takes: str, going: Collection[str]) -> tuple[str, ...]:
    assigned = assigned_to(vessel, takes)
    there = {str(who): who for who in going}
    billed = map(str, assigned.who or ()) if assigned is not None else ()
    return tuple(there[who] for who in billed if who in there)


def _party(raft: Raft, vessel: Vessel, people: _People, beacons: Mapping[int, Beacon]) -> RaftParty:
    going = going_into(raft, vessel)
    beacon = beacons.get(id(raft))
    why = SPARE if raft.says_none("carries") else "" if going else UNTOLD
    shares = _unassigned(raft, vessel, why) if why else _Dealing(raft, vessel, people, going).dealt(beacon)
    return RaftParty(raft, going, tuple(shares), beacon)


def _unassigned(raft: Raft, vessel: Vessel, why: str) -> Iterator[Share]:
    """The parts of a raft into which nobody goes, or nobody says who: what the file names, and who launches by the bill."""
    billed = assigned_to(vessel, RAFT)
    for part in (*PARTS, LEAD):
        named = told(raft, part)
        if not named and part == LAUNCH and billed is not None and billed.who:
            yield Share(part, tuple(map(str, billed.who)), BY_THE_BILL)
        else:
            yield Share(part, named, IN_THE_FILE if named else NOBODY, "" if named else why)


class _Dealing:
    """The parts of one raft as they are dealt out, one after the other."""

    def __init__(self, raft: Raft, vessel: Vessel, people: _People, going: tuple[str, ...]) -> None:
        self.raft, self.vessel, self.people, self.going = raft, vessel, people, going
        self.able = people.able(going)
        self.taken = [who for part in PARTS for who in told(raft, part)]

    def dealt(self, beacon: Beacon | None) -> list[Share]:
        """Every part, and who leads; whoever has one already comes last for the next."""
        lead = self._lead()
        launch = self._said(LAUNCH) or self._by_bill(LAUNCH, RAFT) or self._proposed(LAUNCH, self._free())
        bag = self._bag()
        carried = self._beacon(beacon, bag)
        hold = self._said(HOLD) or self._proposed(HOLD, self._at_the_painter(launch.who))
        cut = self._said(CUT) or self._proposed(CUT, self._with_the_knife(lead, hold.who))
        known = BY_THE_BILL if lead in self.people.commanding else PROPOSED
        leads = Share(LEAD, (lead,), known) if lead else Share(LEAD, (), NOBODY, NO_HANDS)
        return [launch, hold, cut, bag, carried, leads]

    def _lead(self) -> str:
        """Who leads in it: whoever has the command by the bill, else whoever can take it, else the first who can work."""
        able = self.able
        billed = [who for who in able if who in self.people.commanding]
        return next(iter([*billed, *filter(self.people.commands, able), *able]), "")

    def _said(self, part: str) -> Share | None:
        named = told(self.raft, part)
        return Share(part, named, IN_THE_FILE) if named else None

    def _by_bill(self, part: str, takes: str) -> Share | None:
        who = _of_bill(self.vessel, takes, self.going)
        self.taken += who
        return Share(part, who, BY_THE_BILL) if who else None

    def _proposed(self, part: str, who: str) -> Share:
        self.taken += [who] * bool(who)
        return Share(part, (who,), PROPOSED) if who else Share(part, (), NOBODY, NO_HANDS)

    def _free(self, but: Collection[str] = ()) -> str:
        """Whoever can and has the fewest parts yet, for each of the hands of a role; who sends the call after the others."""

        def busy(who: str) -> tuple[bool, float]:
            return who in self.people.calls, self.taken.count(who) / self.people.hands(who, self.going)

        return min((who for who in self.able if who not in but), key=busy, default="")

    def _at_the_painter(self, launching: tuple[str, ...]) -> str:
        """Who holds it: one of those who launch it; another where one alone must lift it and somebody else is free."""
        there = [who for who in launching if who in self.able]
        hands = sum(self.people.hands(who, self.going) for who in there)
        if hands == 1 and self.raft.lift_needed is True and len(self.able) > 1:
            return self._free(but=there)
        return there[0] if there else self._free()

    def _with_the_knife(self, lead: str, holding: tuple[str, ...]) -> str:
        """Who cuts: whoever leads in it, for he goes last; where he holds it, another."""
        single = [who for who in holding if self.people.hands(who, self.going) == 1]
        return lead if lead and lead not in single else self._free(but=single) or lead

    def _bag(self) -> Share:
        bags = self.vessel.grab_bags
        if share := self._said(BAG):
            return share
        here = tuple(
            dict.fromkeys(
                str(bag.carried_by)
                for bag in bags
                if isinstance(bag.carried_by, str) and str(bag.carried_by) in map(str, self.going)
            )
        )
        if here:
            self.taken += here
            return Share(BAG, here, BY_THE_BILL)
        billed = self._by_bill(BAG, GRAB_BAG)
        if billed and (bags or len(self.vessel.rafts) < 2):
            return billed
        if len(self.vessel.rafts) < 2:
            return self._proposed(BAG, self._free()) if bags else Share(BAG, (), NOBODY, NO_BAG)
        return Share(BAG, (), NOBODY, ELSEWHERE if bags else NO_BAG)

    def _beacon(self, beacon: Beacon | None, bag: Share) -> Share:
        """Who brings its beacon: whoever carries it, the bag in which it is, or has the call; else somebody free."""
        if share := self._said(BEACON):
            return share
        if beacon is None:
            others = any(each.kind in LOCATES for each in _all_beacons(self.vessel))
            return Share(BEACON, (), NOBODY, ELSEWHERE if others else NO_BEACON)
        carrier = beacon.carried_by
        if isinstance(carrier, str) and str(carrier) in map(str, self.going):
            return Share(BEACON, (str(carrier),), BY_THE_BILL)
        if in_grab_bag(beacon.spot) and bag.who:
            return Share(BEACON, bag.who, bag.known)
        calls = tuple(str(who) for who in self.going if str(who) in self.people.calls)
        if calls:
            return Share(BEACON, calls, BY_THE_BILL)
        return self._proposed(BEACON, self._free())


def _all_beacons(vessel: Vessel) -> tuple[Beacon, ...]:
    return tuple(vessel.radio.beacons) if vessel.radio is not None else ()


def _beacons(vessel: Vessel, people: _People) -> dict[int, Beacon]:
    """Which beacon goes into which raft, by the raft's identity: one that somebody of it carries, or has in its bag, before one that is left.

    What is left goes first to a raft whose file names who brings one, then to that of whoever sends the distress call.
    """
    kinds = {kind: rank for rank, kind in enumerate(LOCATES)}
    there = sorted(
        (each for each in _all_beacons(vessel) if each.kind in kinds), key=lambda each: kinds[str(each.kind)]
    )
    found: dict[int, Beacon] = {}
    rafts = [raft for raft in vessel.rafts if not raft.says_none("carries")]
    left = [each for each in there if not one_for_each(each.spot, each.carried_by)]
    for raft in rafts:
        going = {str(who) for who in going_into(raft, vessel)}
        bags = {*told(raft, BAG), *_of_bill(vessel, GRAB_BAG, going)} | {
            str(bag.carried_by) for bag in vessel.grab_bags if str(bag.carried_by) in going
        }
        for beacon in there:
            if one_for_each(beacon.spot, beacon.carried_by):
                found.setdefault(id(raft), beacon)
                continue
            carried = str(beacon.carried_by) in going
            packed = in_grab_bag(beacon.spot) and bool(bags)
            if beacon in left and (carried or packed):
                left.remove(beacon)
                found.setdefault(id(raft), beacon)

    def wants(raft: Raft) -> tuple[bool, bool, bool]:
        going = {str(who) for who in going_into(raft, vessel)}
        return id(raft) in found, not told(raft, BEACON), people.calls.isdisjoint(going)

    for raft in sorted(rafts, key=wants):
        mine = found.get(id(raft))
        better = next(
            (each for each in left if mine is None or kinds[str(each.kind)] < kinds[str(mine.kind)]), None
        )
        if better is not None:
            left.remove(better)
            found[id(raft)] = better
    return found
