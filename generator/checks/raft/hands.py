"""The hands at each raft: somebody able in each, no pair of hands asked for twice at once."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.manual.crew import the
from generator.manual.parties import RADIO, billed, going_into, told
from generator.shelves.procedure_files import BAG, BEACON, CUT, HOLD, LAUNCH, PARTS
from generator.survey.hands import hands
from generator.survey.registry import COMMON_PRACTICE, HELP, LIFE, Finds, Sight, check, of
from generator.vessel.people import heads, meant_by

if TYPE_CHECKING:
    from collections.abc import Sequence

    from generator.vessel.raft import Raft

FEW_OF, MANY = 3, 3
"""So many go into a raft at least, and so many hands another has to spare, where one pair of hands is too few: common practice."""


@check("raft.nobody-able", LIFE, COMMON_PRACTICE)
def somebody_in_each_raft_has_hands(sight: Sight) -> Finds:
    """Of several rafts each carries somebody who is grown and needs no help.

    Why: those who can neither launch nor hold nor cut are alone with a raft on deck.
    Remedy: share those who can between the rafts under 'carries'.
    """
    for raft in sight.vessel.rafts:
        if able := able_elsewhere(raft, sight):
            yield of(
                raft,
                "carries",
                f"none of those who go into it is grown and needs no help: {', '.join(map(str, raft.carries))}",
                remedy=f"let somebody who can go with them, {the(able[-1])} for example, and take that role out of the other raft",
            )


def able_elsewhere(raft: Raft, sight: Sight) -> list[str]:
    """Of several rafts, those who could work at one into which nobody goes who can; nobody where somebody does."""
    going = list(map(str, going_into(raft, sight.vessel))) if len(sight.vessel.rafts) > 1 else []
    if not going or not raft.carries or not set(going) <= set(sight.roles) or _able(going, sight):
        return []
    return [who for who in _able(sight.roles, sight) if who not in going]


@check("raft.hands-uneven", HELP, COMMON_PRACTICE)
def hands_are_shared_between_rafts(sight: Sight) -> Finds:
    """Of several rafts none has one pair of hands for three people or more, while another has three pairs more.

    Why: one person cannot hold the raft, bring the beacon and hand children in; in the other raft several wait.
    Remedy: let one of the others go into this raft under 'carries'.
    """
    rafts = [raft for raft in sight.vessel.rafts if raft.carries]
    count = {id(raft): _hands(raft, sight) for raft in rafts}
    for raft in rafts if len(rafts) > 1 else ():
        going = going_into(raft, sight.vessel)
        if any(str(who) not in sight.roles for who in going):
            continue
        there = sum(meant_by(who, sight.vessel.people) for who in going)
        other = max((each for each in rafts if each is not raft), key=lambda each: count[id(each)])
        if count[id(raft)] == 1 and there >= FEW_OF and count[id(other)] > MANY:
            spared = _able(going_into(other, sight.vessel), sight)[-1]
            yield of(
                raft,
                "carries",
                f"of the {there} who go into it one can work; of those who go into the {other.name} {count[id(other)]} can",
                remedy=f"let {the(spared)} go into it, if its places allow: name the role here, and take it out of the other",
                also=(other.place("carries"),),
            )


def _able(roles: Sequence[str], sight: Sight) -> list[str]:
    """Those of some roles who can work, as the crew list says."""
    crew = hands(sight)
    return [str(who) for who in roles if str(who) in crew and not crew[str(who)].weak]


def _hands(raft: Raft, sight: Sight) -> int:
    going = going_into(raft, sight.vessel)
    able = set(_able(going, sight))
    return sum(meant_by(who, sight.vessel.people) for who in going if str(who) in able)


def _single(who: str, raft: Raft, sight: Sight) -> bool:
    """Whether a role is one person, as far as it goes into a raft."""
    named = {str(one): one for one in raft.carries or ()}
    return meant_by(named.get(who, who), sight.vessel.people) == 1


def _idle(raft: Raft, sight: Sight) -> list[str]:
    """Who goes into a raft, can work, and has no part in its party and not the call."""
    busy = {str(who) for part in PARTS for who in told(raft, part)} | _callers(sight)
    return [who for who in _able(going_into(raft, sight.vessel), sight) if who not in busy]


def _callers(sight: Sight) -> set[str]:
    """Who sends the distress call when she is left."""
    return set(billed(sight.vessel, RADIO))


def _all_in_one(raft: Raft, sight: Sight) -> str:
    """The one person who launches, holds and cuts a raft, and somebody else could; "" for none."""
    launch, hold, cut = (told(raft, part) for part in (LAUNCH, HOLD, CUT))
    same = launch == hold == cut and len(launch) == 1 and _single(str(launch[0]), raft, sight)
    return str(launch[0]) if same and _idle(raft, sight) else ""


@check("raft.one-for-all", HELP, COMMON_PRACTICE)
def no_one_person_is_the_whole_party(sight: Sight) -> Finds:
    """A raft is not launched, held and cut by one person alone, where somebody else who goes into it has no part.

    Why: where that one falls, nobody at the raft knows what comes next.
    Remedy: give the knife, or the painter, to another role under 'party'.
    """
    for raft in sight.vessel.rafts:
        who = _all_in_one(raft, sight)
        if who and raft.party is not None and heads(sight.vessel.people) > 2 and not _lifts_alone(raft):
            free = _idle(raft, sight)[0]
            yield of(
                raft,
                CUT,
                f"{the(who)} launches it, holds it and cuts it loose, and {the(free)} has no part in it",
                part=raft.party,
                remedy=f"write cut: {free}, or give another part to somebody else",
                also=(raft.party.place(LAUNCH), raft.party.place(HOLD)),
            )


def _lifts_alone(raft: Raft) -> bool:
    """Whether that is told already: one alone lifts and holds it."""
    return raft.lift_needed is True


@check("raft.parts-at-once", HELP, COMMON_PRACTICE)
def nobody_holds_and_fetches(sight: Sight) -> Finds:
    """Whoever holds a raft alongside does not bring bag or beacon to it, where somebody else who goes into it has no part.

    Why: the raft is let go, or the bag stays where it hangs.
    Remedy: name somebody else for one of the two under 'party'.
    """
    for raft in sight.vessel.rafts:
        holds = [str(who) for who in told(raft, HOLD)]
        free = _idle(raft, sight) if raft.party is not None and len(holds) == 1 else []
        if not free or raft.party is None or not _single(holds[0], raft, sight):
            continue
        fetched = [part for part in (BAG, BEACON) if [str(who) for who in told(raft, part)] == holds]
        if fetched:
            yield of(
                raft,
                fetched[0],
                f"{the(holds[0])} holds it alongside and brings {' and '.join(f'the {part}' for part in fetched)}; {the(free[0])} has no part in it",
                part=raft.party,
                remedy=f"write {fetched[0]}: {free[0]}, or hold: {free[0]}",
                also=(raft.party.place(HOLD),),
            )


@check("raft.holds-and-calls", HELP, COMMON_PRACTICE)
def nobody_holds_and_calls(sight: Sight) -> Finds:
    """Whoever sends the distress call does not hold a raft alongside, where somebody else who goes into it has no part.

    Why: the call is made at the radio while the raft is held at the side.
    Remedy: name somebody else under 'hold' of its party.
    """
    callers = _callers(sight)
    for raft in sight.vessel.rafts if callers else ():
        holds = [str(who) for who in told(raft, HOLD)]
        free = _idle(raft, sight) if raft.party is not None and set(holds) <= callers and holds else []
        if free and raft.party is not None and all(_single(who, raft, sight) for who in holds):
            yield of(
                raft,
                HOLD,
                f"{' and '.join(map(the, holds))} holds it alongside, and sends the distress call by the station bill",
                part=raft.party,
                remedy=f"write hold: {free[0]}",
            )
