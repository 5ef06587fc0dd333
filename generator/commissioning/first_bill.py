"""A first station bill for the people she names: a proposal made by rule, to be changed by whoever knows them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from generator.manual.bill import alone
from generator.manual.left_to_act import able, left
from generator.manual.reckoning import Reckoning
from generator.manual.steps import holds
from generator.reading.editing import scalar
from generator.reading.values import Given
from generator.shelves.procedures import ShelfDuty, apart, shelf
from generator.vessel.people import ABILITIES, Assignment, Person

_COMMAND = ABILITIES[0]
_SPARED = 2  # duties that the others have more before a guest gets one
_KNOW_HER = 2  # of the roles, in the order of the file: usually skipper and mate


@dataclass(frozen=True)
class ProposedDuty:
    """Who is proposed for a duty, and who takes over; "" where nobody is left to."""

    id: str
    who: tuple[str, ...]
    substitute: str

    @property
    def line(self) -> str:
        """The duty as it stands in a vessel file."""
        names = [scalar(each) for each in self.who]
        who = names[0] if len(names) == 1 else f"[{', '.join(names)}]"
        after = f", substitute: {scalar(self.substitute)}" if self.substitute else ""
        return f"{self.id}: {{who: {who}{after}}}"


@dataclass(frozen=True)
class Proposal:
    """The duties proposed for one emergency."""

    id: str
    duties: tuple[ProposedDuty, ...]


def propose(reckoning: Reckoning) -> list[Proposal]:
    """The duties of every emergency that she may have, given to the roles aboard; none where she never carries more than one.

    What the file assigns already stays as it is. Nobody gets two duties at once that cannot be left as long as there are
    people for both; whoever helps another gets none of those, whoever needs help gets nothing while others are free, a child nothing.
    """
    vessel, facts = reckoning.vessel, reckoning.facts
    people = {str(person.role): person for person in vessel.people if person.role and not _a_child(person)}
    if alone(vessel) or not people:
        return []
    helpers = {person.helper for person in vessel.people}
    found, hands = [], able(vessel)
    for one in shelf():
        known = facts | left(hands, one.form.counts_out)
        duties = [
            line for line in one.duties if holds(line.when, (), known) and not _of_another_boat(line, known)
        ]
        if duties and holds(one.when, one.when_any, known):
            given: Mapping[str, Assignment] = vessel.station_bill.get(one.id) or {}
            found.append(Proposal(one.id, tuple(Shares(people, helpers).all_of(duties, given))))
    return found


def _of_another_boat(line: ShelfDuty, facts: Mapping[str, bool]) -> bool:
    """Whether a duty that may stay open is called by what she has not: whoever makes ready to leave prepares no raft.

    Its words then stand under another name, which does not begin with its own.
    """
    words = next((words for when, words in line.other_words if holds(when, (), facts)), line.id)
    return not line.essential and not words.startswith(line.id)


@dataclass
class Shares:
    """How the duties of one emergency are shared out, one after the other."""

    people: Mapping[str, Person]
    helpers: Iterable[Given]
    held: dict[str, list[ShelfDuty]] = field(default_factory=dict)
    commanding: set[str] = field(default_factory=set)
    load: dict[str, int] = field(default_factory=dict)
    stands_in: dict[str, list[tuple[ShelfDuty, Sequence[str]]]] = field(default_factory=dict)

    def all_of(self, duties: Sequence[ShelfDuty], given: Mapping[str, Assignment]) -> list[ProposedDuty]:
        """Everybody who has a duty, in the order of the shelf; those who must be able to do it, or cannot leave it, go first."""
        who: dict[str, tuple[str, ...]] = {}
        for line in duties:
            if line.id in given and given[line.id].who:
                who[line.id] = tuple(given[line.id].who)
                self._take(line, who[line.id])
        order = sorted(duties, key=lambda line: (not line.essential, line.needs != _COMMAND, not line.continuous,
                                                 not line.key, not line.needs))  # fmt: skip
        for line in order:
            if line.id not in who and (chosen := self._chosen(line)):
                who[line.id] = chosen
                self._take(line, chosen)
        held = [line for line in duties if line.id in who]
        after = {
            line.id: self._substitute(line, who[line.id], given.get(line.id))
            for line in sorted(held, key=lambda line: not line.needs)
        }
        return [ProposedDuty(line.id, who[line.id], after[line.id]) for line in held]

    def _take(self, line: ShelfDuty, who: Iterable[str]) -> None:
        for each in who:
            self.load[each] = self.load.get(each, 0) + 1
            self.held.setdefault(each, []).append(line)
            if line.needs == _COMMAND:
                self.commanding.add(each)

    def _bound(self, role: str, line: ShelfDuty) -> bool:
        """Whether somebody has a duty already beside which nobody can do this one."""
        return any(apart(line, other) for other in self.held.get(role, ()))

    def _chosen(self, line: ShelfDuty) -> tuple[str, ...]:
        """As many as the duty takes; of a key duty one is left over to take it on. One that may stay open gets whoever is free."""
        free = [role for role in self.people if line.essential or not self.load.get(role)]
        most = len(self.people) - 1 if line.key and len(self.people) > 1 else len(self.people)
        ranked = sorted(free, key=lambda role: self._cost(role, line))
        hands = [role for role in ranked if not (self._bound(role, line))] or ranked[:1]
        return tuple(hands[: min(line.persons, max(most, 1))])

    def _cost(self, role: str, line: ShelfDuty) -> tuple[int, ...]:
        """How little a person suits a duty, the weightiest first; the roles named first are taken to be those who know her."""
        person = self.people[role]
        place = list(self.people).index(role)
        able = line.needs in person.abilities or (not place and not person.abilities)
        return (
            self._bound(role, line),
            bool(person.needs_help),
            line.continuous and role in self.helpers,
            bool(line.needs) and bool(person.abilities) and not able,
            line.continuous and role in self.commanding,
            0 if not line.needs or able else 1 if place < _KNOW_HER else 2,
            any(other.continuous and line.id not in other.goes_with for other in self.held.get(role, ())),
            self.load.get(role, 0) + (_SPARED if _guest(role) else 0),
            place,
        )

    def _substitute(self, line: ShelfDuty, who: Sequence[str], given: Assignment | None) -> str:
        """Who takes a duty over: of those taught what it needs, where anybody is; and nobody in whose place one of `who` is then wanted."""
        chosen = given.substitute if given is not None and isinstance(given.substitute, str) else ""
        if not chosen:
            others = [role for role, each in self.people.items() if role not in who and not each.needs_help]
            taught = [role for role in others if line.needs in self.people[role].abilities]
            wanted = {
                lost
                for role in who
                for other, those in self.stands_in.get(role, ())
                if apart(line, other)
                for lost in those
            }
            ranked = sorted(taught or others, key=lambda role: (role in wanted, *self._stand_in(role, line)))
            chosen = ranked[0] if ranked else ""
        self.stands_in.setdefault(chosen, []).append((line, who))
        return chosen

    def _stand_in(self, role: str, line: ShelfDuty) -> tuple[int, ...]:
        """How little a person suits to take a duty over: whoever can leave their own, and for a key duty whoever knows her best."""
        *unsuited, load, place = self._cost(role, line)
        return (*unsuited, *((_guest(role), place) if line.key else (load, place)))


def _a_child(person: Person) -> bool:
    """Whether somebody is told to be a child, by age or jacket or the name of the role."""
    small = person.a_child or not {"child", "infant"}.isdisjoint(person.lifejacket)
    return (
        small or re.match(r"(?i)(child|kid|infant|baby|toddler|boy|girl)s?\b", str(person.role)) is not None
    )


def _guest(role: str) -> bool:
    """Whether a role is named like somebody who does not sail her."""
    return re.match(r"(?i)(guest|passenger)s?\b", role) is not None
