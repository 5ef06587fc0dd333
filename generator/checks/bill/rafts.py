"""Who goes into which raft: everybody into one, and of a role of several each raft says how many it takes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.manual.crew import the
from generator.reading.nearest import meant, nearest
from generator.reading.values import UNREAD, Counted, all_known
from generator.survey.registry import LIFE, Finds, Sight, at, check
from generator.vessel.people import heads, meant_by

if TYPE_CHECKING:
    from collections.abc import Sequence

    from generator.vessel.people import Person
    from generator.vessel.raft import Raft


@check("bill.no-raft-for", LIFE, "46 CFR 28.265(d)(1), the raft to which each individual is assigned")
def everybody_has_a_raft(sight: Sight) -> Finds:
    """With several rafts, everybody has one, and only one.

    Why: in the dark each raft believes the missing person to be in the other.
    Remedy: name each role once, under 'carries' of one raft; a role of several may be shared: guests: 6 in one, guests: 4 in another.
    """
    rafts = sight.vessel.rafts
    several = len(rafts) > 1
    if not any(raft.carries or raft.says_none("carries") for raft in rafts):
        return
    places: dict[str, list[tuple[Raft, str]]] = {}
    mistaken: set[str] = set()
    for raft in rafts:
        for who in raft.carries or ():
            if who in sight.roles:
                places.setdefault(str(who), []).append((raft, who))
            elif several:
                mistaken.add(_role_in(who, sight.roles))
                yield at(
                    raft,
                    "carries",
                    f"{raft.name}: '{who}' is no role aboard",
                    remedy=_named_so(who, sight.roles),
                    item=who,
                )
    for person in sight.vessel.people:
        there = places.get(str(person.role), [])
        if person.role in mistaken:  # told where it is misnamed
            continue
        if there and (several or any(isinstance(who, Counted) for _, who in there)):
            yield from _shared_out(person, there, sight)
        elif several and person.role and not there:
            yield at(person, "role", f"no raft carries {the(str(person.role))}", item=str(person.role))


def _named_so(who: str, roles: Sequence[str]) -> str:
    """What to write for a role that is none; "6 guests" is taken for six of the guests."""
    number, _, rest = who.partition(" ")
    near = _role_in(rest, roles) if number.isdigit() else ""
    return f"write {near}: {number}" if near else nearest(who, roles)


def _role_in(who: str, roles: Sequence[str]) -> str:
    """The role that is meant by one that there is not, with a number before it or not; "" for none."""
    number, _, rest = who.partition(" ")
    return meant(rest if number.isdigit() else who, roles)


def _shared_out(person: Person, there: Sequence[tuple[Raft, str]], sight: Sight) -> Finds:
    """Of a role that rafts share, each raft says how many it takes, and together they take all of it."""
    role, (first, _), (last, _) = str(person.role), there[0], there[-1]
    many = 1 if person.quantity is None else person.quantity
    numbers = all_known(who.number if isinstance(who, Counted) else None for _, who in there)
    also = () if first is last else (first.place("carries"),)
    if len({id(raft) for raft, _ in there}) < len(there):
        yield at(
            last,
            "carries",
            f"the {last.name} names {the(role)} twice",
            remedy="name the role once",
            item=role,
        )
    elif any(isinstance(who, Counted) and who.number is UNREAD for _, who in there):
        return  # told where it stands
    elif len(there) > 1 and numbers is None:
        how = f"write how many of them go into each, for example {role}: {max(heads([person]) // len(there), 1)}"
        yield at(
            last,
            "carries",
            f"{the(role) if many == 1 else f'the role {role}'} goes into the {first.name} and into the {last.name}",
            remedy=how if many != 1 else "",
            item=role,
            also=also,
        )
    elif numbers and isinstance(many, int) and sum(numbers) != many:
        more = many - sum(numbers)
        raft, said = next(((raft, number + more) for (raft, _), number in zip(there, numbers, strict=True)
                           if number + more > 0 and _room(raft, sight) >= more), (last, 0))  # fmt: skip
        yield at(
            raft,
            "carries",
            f"{many} {'have' if many > 1 else 'has'} the role {role}, and {' and '.join(map(str, numbers))} go into rafts",
            remedy=f"write {role}: {said} under 'carries' of the {raft.name}, if that is so" if said else "",
            item=role,
            also=(
                person.place("quantity"),
                *(each.place("carries") for each, _ in there if each is not raft),
            ),
        )


def _room(raft: Raft, sight: Sight) -> int:
    """For how many more a raft has places."""
    taken = sum(meant_by(who, sight.vessel.people) for who in raft.carries)
    return raft.persons - taken if isinstance(raft.persons, int) else 0
