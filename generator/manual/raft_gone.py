"""If a raft is gone: who of those it was to carry goes into which other, what it was to get, and who finds no place in any."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from generator.manual.parties import going_into, works
from generator.reading.values import Counted, untold
from generator.shelves.procedure_files import BAG, BEACON
from generator.vessel.people import meant_by

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from generator.manual.parties import RaftParty
    from generator.vessel.people import Person
    from generator.vessel.raft import Raft
    from generator.vessel.vessel import Vessel


@dataclass(frozen=True)
class Load:
    """A raft that takes others in: those who come into it besides its own, how many are then in it, for how many it is approved."""

    raft: Raft
    comes: tuple[str, ...]
    persons: int
    approved: int | None


@dataclass(frozen=True)
class Gone:
    """What follows if one raft is gone. `over` are those for whom the others are not approved, each with how many of a role."""

    raft: Raft
    loads: tuple[Load, ...]
    over: tuple[str, ...] = ()

    @property
    def over_heads(self) -> int:
        """How many find no place, as far as is said of each role."""
        return sum(
            one.number if isinstance(one, Counted) and isinstance(one.number, int) else 1 for one in self.over
        )


@dataclass
class _Room:
    """What is left of a raft's places while they are given out; None where nobody says for how many it is."""

    raft: Raft
    own: tuple[str, ...]
    left: int | None
    in_it: int
    comes: list[tuple[str, int]] = field(default_factory=list)

    def holds(self, number: int) -> bool:
        return self.left is None or self.left >= number

    def take(self, who: str, number: int) -> None:
        self.comes.append((who, number))
        self.in_it += number
        self.left = None if self.left is None else self.left - number


def if_gone(raft: Raft, vessel: Vessel) -> Gone:
    """Who goes where if a raft is gone: whoever needs help with the helper first, then the others, each into the raft with most room.

    Small children and whoever needs help never go over: those who find no place are the last of the others.
    """
    people = {str(person.role): person for person in vessel.people}
    rooms = [_room(each, vessel) for each in vessel.rafts if each is not raft]
    going = going_into(raft, vessel) if len(vessel.rafts) > 1 else ()
    over: list[tuple[str, int]] = []
    for unit in _units(going, people):
        sizes = [(who, meant_by(who, vessel.people)) for who in unit]
        together = sum(number for _, number in sizes)
        target = _roomiest(rooms, together, _near(unit, rooms, people))
        if target is not None:
            for who, number in sizes:
                target.take(who, number)
        else:
            over += _one_by_one(sizes, rooms)
    loads = tuple(
        Load(
            each.raft,
            tuple(_share(who, number, people) for who, number in _summed(each.comes)),
            each.in_it,
            each.raft.persons if isinstance(each.raft.persons, int) else None,
        )
        for each in rooms
    )
    return Gone(raft, loads, tuple(_share(who, number, people) for who, number in _summed(over)))


def _room(raft: Raft, vessel: Vessel) -> _Room:
    own = going_into(raft, vessel)
    there = sum(meant_by(who, vessel.people) for who in own)
    left = max(0, raft.persons - there) if isinstance(raft.persons, int) else None
    return _Room(raft, own, left, there)


def _units(going: Sequence[str], people: Mapping[str, Person]) -> list[tuple[str, ...]]:
    """Those who go together, whoever needs help with the helper first, children next, then the others as the file lists them."""
    there = {str(who): who for who in going}
    weak = [who for who in going if str(who) in people and not works(people[str(who)])]
    units: list[list[str]] = []
    used: set[str] = set()
    for who in weak:
        if str(who) in used:
            continue
        helper = people[str(who)].helper
        own = there.get(str(helper)) if not untold(helper) else None
        group = next((unit for unit in units if own is not None and str(own) in map(str, unit)), None)
        if group is not None:
            group.append(who)
        else:
            units.append([who, *([own] if own is not None and str(own) not in used else [])])
        used.update(map(str, units[-1] if group is None else group))
    return [*map(tuple, units), *((who,) for who in going if str(who) not in used)]


def _near(unit: Iterable[str], rooms: Iterable[_Room], people: Mapping[str, Person]) -> list[_Room]:
    """The rafts into which a helper of one of them goes."""
    helpers = {str(people[str(who)].helper) for who in unit if str(who) in people}
    return [room for room in rooms if helpers.intersection(map(str, room.own))]


def _roomiest(rooms: Sequence[_Room], number: int, first: Sequence[_Room]) -> _Room | None:
    """The raft with most room for so many, one of the first if one of them has it."""
    for among in (first, rooms):
        fit = [room for room in among if room.holds(number)]
        if fit:
            return max(fit, key=lambda room: room.left if room.left is not None else 0)
    return None


def _one_by_one(sizes: Iterable[tuple[str, int]], rooms: Sequence[_Room]) -> list[tuple[str, int]]:
    """The same of people for whom together no raft has room: each into whichever has; those left over, with how many."""
    over = []
    for who, number in sizes:
        for _ in range(number):
            target = _roomiest(rooms, 1, ())
            if target is not None:
                target.take(who, 1)
            else:
                over.append((who, 1))
    return over


def _summed(shares: Iterable[tuple[str, int]]) -> list[tuple[str, int]]:
    found: dict[str, int] = {}
    for who, number in shares:
        found[str(who)] = found.get(str(who), 0) + number
    return list(found.items())


def _share(who: str, number: int, people: Mapping[str, Person]) -> str:
    """A role with how many of it are meant, where that is not all of it."""
    person = people.get(who)
    many = person.quantity if person is not None and isinstance(person.quantity, int) else 1
    return Counted(who, number) if many > 1 else who


def brought_elsewhere(party: RaftParty) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """What those who were to go into a raft that is gone bring to the other: bag and beacon, each with who has it."""
    return tuple(
        (part, share.who)
        for part in (BAG, BEACON)
        if (share := party.share(part)).who and (part == BAG or party.beacon is not None)
    )
