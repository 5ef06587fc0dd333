"""The common form of emergencies as composed for a vessel: their order for her, when one is left for another, when it is over."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from generator.manual.steps import Leave, Link, Procedure, holds
from generator.shelves.emergency_form import HOURS
from generator.shelves.procedures import shelf

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from generator.shelves.procedures import ShelfProcedure

_LAST = HOURS + 1  # of what does not say how urgent it is


def in_order_of_need(composed: Iterable[Procedure], facts: Mapping[str, bool]) -> tuple[Procedure, ...]:
    """Procedures as all outputs list them: emergencies by urgency, those likelier for her first, then by their order on the shelf.

    What follows an emergency stands behind the one under whose bill it belongs, in its own order; the rest comes last.
    """
    kinds = {one.id: one for one in shelf()}

    def need(one: ShelfProcedure) -> tuple[int, bool, int, str]:
        likely = holds((), one.form.likely_where, facts) if one.form.likely_where else False
        return one.form.urgency or _LAST, not likely, one.order, one.id

    emergencies = sorted((one for one in kinds.values() if one.emergency), key=need)
    rank = {one.id: number for number, one in enumerate(emergencies)}

    def place(one: Procedure) -> tuple[int, bool, int, str]:
        leader = one.kind if one.emergency else one.bill
        return rank.get(leader, len(rank)), not one.emergency, kinds[one.kind].order, one.kind

    return tuple(sorted(composed, key=place))


def joined(composed: Sequence[Procedure], first_raft: str) -> tuple[Procedure, ...]:
    """The procedures with what each is left for: as far as she has the other, of a raft's those of `first_raft`, where one is first.

    Where no raft is first all are named, and whoever reads chooses; so they are of what happens otherwise, for it may be any of them.
    """
    by_kind: dict[str, list[Procedure]] = {}
    for one in composed:
        by_kind.setdefault(one.kind, []).append(one)
    over = next((_link(one) for one in composed if one.when_over), None)

    def reached(leave: Leave, own: Procedure) -> Leave:
        there = by_kind.get(leave.kind, [])
        if leave.other_raft:
            return replace(leave, to=tuple(_link(one) for one in there if one.raft is not own.raft))
        same = [one for one in there if own.raft is not None and one.raft is own.raft]
        first = [
            one
            for one in there
            if one.raft is not None and str(one.raft.name) == first_raft and not one.aside
        ]
        return replace(leave, to=tuple(map(_link, same or first or there)))

    made = []
    for one in composed:
        leaves = tuple(each for leave in one.leaves if (each := reached(leave, one)).to)
        made.append(replace(one, leaves=leaves, over=over if one.end else None))
    return tuple(made)


def _link(one: Procedure) -> Link:
    return Link(one.id, one.title, bool(one.cards), at_once=one.urgency == 1)
