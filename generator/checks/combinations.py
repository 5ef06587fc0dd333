"""Combinations: a raft goes with its stowage, and everybody goes into one raft."""

from __future__ import annotations

from generator.checks.people import roles_of
from generator.reading.nearest import nearest
from generator.shelves.stowages import stowages
from generator.survey.registry import COMMON_PRACTICE, DEFECT, at, check


@check("raft.combination", DEFECT, "the table of stowages, each row with its source")
def raft_goes_with_its_stowage(sight):
    """What the raft is packed in, and what holds it, goes with where it is kept.

    Why: for a raft that cannot lie there as described, the steps on its card would be wrong.
    Remedy: look at the raft again and write what is there; the message lists what goes with the stowage.
    """
    for raft in sight.vessel.rafts:
        row = stowages().get(raft.stowage) if isinstance(raft.stowage, str) else None
        if row is None:
            continue
        about = {"item": str(raft.name)}
        if isinstance(raft.container, str) and raft.container not in row.containers:
            others = [name for name, one in stowages().items() if raft.container in one.containers]
            yield at(
                raft,
                "container",
                f"{raft.name}: a {raft.container} does not go with the stowage '{row.name}'",
                remedy=f"with '{row.name}' goes: {', '.join(row.containers)}; a {raft.container} goes with: {', '.join(others)}",
                **about,
            )
        # An HRU where nothing floats free is found by release.closed-in.
        wrong = [
            hold
            for hold in raft.held_by
            if hold not in row.holds and not (hold == "HRU" and row.float_free == "no")
        ]
        if wrong:
            yield at(
                raft,
                "held-by",
                f"{raft.name}: {' and '.join(wrong)} does not go with the stowage '{row.name}'",
                remedy=f"with '{row.name}' goes: {', '.join(row.holds)}, or nothing",
                **about,
            )


@check("bill.no-raft-for", DEFECT, "46 CFR 28.265(d)(1), the raft to which each individual is assigned")
def everybody_has_a_raft(sight):
    """With several rafts, everybody has one, and only one.

    Why: in the dark each raft believes the missing person to be in the other.
    Remedy: name each role once, under 'carries' of one raft.
    """
    rafts = sight.vessel.rafts
    if len(rafts) < 2 or not any(raft.carries for raft in rafts):
        return
    if any(raft.carries is not None and not isinstance(raft.carries, (list, tuple)) for raft in rafts):
        return
    roles, seen = roles_of(sight.vessel), {}
    for raft in rafts:
        for who in map(str, raft.carries or ()):
            if who not in roles:
                yield at(
                    raft,
                    "carries",
                    f"{raft.name}: '{who}' is no role aboard",
                    remedy=nearest(who, roles),
                    item=who,
                )
            elif who in seen:
                yield at(
                    raft,
                    "carries",
                    f"the {who} goes into the {seen[who].name} and into the {raft.name}",
                    item=who,
                    also=(seen[who].place("carries"),),
                )
            seen.setdefault(who, raft)
    for person in sight.vessel.people:
        if person.role and str(person.role) not in seen:
            yield at(person, "role", f"no raft carries the {person.role}", item=str(person.role))


@check(
    "raft.overloaded",
    DEFECT,
    "46 CFR 28.120 (aggregate capacity for all aboard); " + COMMON_PRACTICE,
    deferrable=False,
)
def no_raft_carries_too_many(sight):
    """No raft carries more than it is approved for.

    Why: an overloaded raft lies deep, takes water and may capsize.
    Remedy: share the people otherwise between the rafts; a child counts as a person.
    """
    for raft in sight.vessel.rafts:
        if (
            isinstance(raft.carries, (list, tuple))
            and isinstance(raft.persons, int)
            and len(set(raft.carries)) > raft.persons
        ):
            yield at(
                raft,
                "carries",
                f"{raft.name}: it is approved for {raft.persons} persons, and {len(set(raft.carries))} are to go into it",
                item=str(raft.name),
            )
