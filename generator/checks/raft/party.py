"""The party of a raft: whom the station bill names too, and that no one pair of hands is asked for twice at once."""

from __future__ import annotations

from generator.manual.bill import assigned_to
from generator.manual.crew import the
from generator.reading.values import NotKnown
from generator.shelves.procedure_files import HOLD, LAUNCH, PARTS, TAKEN_BY
from generator.survey.hands import hands
from generator.survey.registry import (
    COMMON_PRACTICE,
    DEFECT,
    HELP,
    LIFE,
    TRUTH,
    Finds,
    Sight,
    at,
    check,
    of,
)
from generator.vessel.people import heads, meant_by
from generator.vessel.raft import Raft


@check(
    "raft.party-differs",
    TRUTH,
    "46 CFR 199.80(b) (the duties of each, posted); MGN 71 Amendment 1 Annex 2.4",
)
def bill_and_party_name_the_same(sight: Sight) -> Finds:
    """Whom a raft's party has launch it, and bring the bag, has that duty in the station bill, and the other way round.

    Why: one reads the bill, another the raft's card; two stand at one raft, and nobody at the other.
    Remedy: write the same roles in the station bill and in the parties of the rafts together.
    """
    rafts = sight.vessel.rafts
    for takes, part in TAKEN_BY.items():
        assigned = assigned_to(sight.vessel, takes)
        parties = [(raft, who) for raft in rafts if (who := _told(raft, part))]
        billed = tuple(assigned.who or ()) if assigned is not None else ()
        if assigned is None or not billed:
            continue
        for raft, party in parties:
            others = [who for who in party if who not in billed]
            if others and raft.party is not None:
                yield of(
                    raft,
                    part,
                    f"its party, {part}: {', '.join(others)}; in the station bill that is the duty of {', '.join(billed)}",
                    part=raft.party,
                    weight=DEFECT if part == LAUNCH and len(others) == len(party) else None,
                    also=(assigned.place("who"),),
                )
        named = {who for _, party in parties for who in party}
        idle = [who for who in billed if who not in named]
        if part == LAUNCH and idle and len(parties) == len(rafts) and named.intersection(billed):
            yield at(
                assigned,
                "who",
                f"{' and '.join(idle)} launch a raft by the station bill, and no raft's party names them",
                item=", ".join(idle),
                also=tuple(raft.place("party") for raft, _ in parties),
            )


@check("raft.party-alone", HELP, COMMON_PRACTICE)
def nobody_lifts_and_holds_alone(sight: Sight) -> Finds:
    """A raft that must be lifted is not launched and held alongside by one person alone, where there are others.

    Why: whoever lifts a raft over the side has no hand for its painter.
    Remedy: name another role under 'launch' or 'hold' of its party; a role of several persons may have both.
    """
    aboard = sight.vessel.people
    for raft in sight.vessel.rafts:
        launch, hold = _told(raft, LAUNCH), _told(raft, HOLD)
        named = {str(who): who for who in raft.carries or ()}  # with how many of them go into this one
        hands = sum(meant_by(named.get(who, who), aboard) for who in launch)
        if raft.party and raft.lift_needed is True and launch == hold and hands == 1 and heads(aboard) > 2:
            yield of(
                raft,
                HOLD,
                f"{the(launch[0])} alone lifts it over the side and holds it alongside",
                part=raft.party,
                also=(raft.party.place(LAUNCH),),
            )


def _told(raft: Raft, part: str) -> tuple[str, ...]:
    """Who has a part in a raft's party; nobody where the file does not say it."""
    who = raft.party.__dict__.get(part) if raft.party else None
    return () if who is None or isinstance(who, NotKnown) else tuple(who)


@check("raft.party-unable", LIFE, COMMON_PRACTICE)
def a_rafts_party_can_do_it(sight: Sight) -> Finds:
    """Whoever launches, holds or cuts a raft, or brings the bag to it, is grown, and needs no help.

    Why: a raft is lifted, held and cut in a sea; who cannot is no hand at it.
    Remedy: write under 'party' somebody who can.
    """
    crew = hands(sight)
    for raft in sight.vessel.rafts:
        parts: dict[str, list[str]] = {}
        for part in PARTS if raft.party is not None else ():
            for who in raft.party.__dict__.get(part) or ():
                parts.setdefault(str(who), []).append(part)
        for who, done in parts.items():
            why = crew[who].weak if who in crew else ""
            if why and raft.party is not None:
                yield of(raft, done[0], f"its party, {' and '.join(done)}: {the(who)} {why}", part=raft.party)
