"""The party of a raft: whom the station bill names too, and that no one pair of hands is asked for twice at once."""

from __future__ import annotations

from generator.checks.raft.hands import able_elsewhere
from generator.manual.bill import assigned_to
from generator.manual.crew import the
from generator.reading.values import NotKnown
from generator.shelves.procedure_files import BAG, CUT, HOLD, LAUNCH, PARTS, RAFT, TAKEN_BY
from generator.survey.hands import hands
from generator.survey.registry import (
    COMMON_PRACTICE,
    DEFECT,
    HELP,
    LIFE,
    RECOMMENDATION,
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
        if any(who not in billed for who in named):
            continue  # told above, with the bill's line
        idle = [who for who in billed if who not in named]
        nobody = [raft for raft in rafts if raft.party is not None and raft.party.says_none(part)]
        if part == BAG and nobody and not parties:
            yield of(
                nobody[0],
                part,
                f"nobody of its party brings the bag, and by the station bill {' and '.join(map(the, billed))} {'does' if len(billed) == 1 else 'do'}",
                part=nobody[0].party,
                remedy=f"write {part}: {', '.join(billed)}",
                weight=RECOMMENDATION,
                also=(assigned.place("who"),),
            )
        if part == LAUNCH and idle and len(parties) == len(rafts) and named.intersection(billed):
            yield at(
                assigned,
                "who",
                f"{' and '.join(idle)} {LAUNCH}{'es' if len(idle) == 1 else ''} a raft by the station bill, and no raft's party names {'that role' if len(idle) == 1 else 'them'}",
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
    """Whoever launches, holds or cuts a raft, or brings bag or beacon to it, is grown, and needs no help.

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


@check("raft.party-none", LIFE, COMMON_PRACTICE)
def somebody_launches_holds_and_cuts(sight: Sight) -> Finds:
    """Somebody launches the raft, holds it alongside and cuts it loose: none of these is said to be nobody's.

    Why: it drifts off while people climb, or is dragged under by the painter that nobody cuts.
    Remedy: name one of those who go into it: party: {launch: mate, hold: mate, cut: skipper}.
    """
    several = heads(sight.vessel.people) > 1
    for raft in sight.vessel.rafts if several else ():
        if raft.says_none("party") and not raft.says_none("carries"):
            yield of(raft, "party", "nobody launches it, holds it alongside or cuts it loose")
    for raft in sight.vessel.rafts:
        nobody = [
            part
            for part in (LAUNCH, HOLD, CUT)
            if several
            and raft.party is not None
            and not raft.says_none("carries")
            and raft.party.says_none(part)
        ]
        if nobody and raft.party is not None:
            done = {LAUNCH: "launches it", **{part: f"{_DONE[part].split()[0]}s it" for part in (HOLD, CUT)}}
            yield of(
                raft,
                nobody[0],
                f"nobody {' and nobody '.join(done[part] for part in nobody)}",
                part=raft.party,
            )


@check("raft.nobody-launches", LIFE, "46 CFR 28.265(d)(1), the raft to which each individual is assigned")
def each_raft_has_its_party(sight: Sight) -> Finds:
    """Of several rafts each has people among those who go into it who launch it, hold it alongside and cut it loose.

    Why: all stand at the one raft that somebody launches; those of the other wait at it.
    Remedy: write under 'party' who of those it carries launches, holds and cuts.
    """
    rafts = sight.vessel.rafts
    assigned = assigned_to(sight.vessel, RAFT)
    billed = set(assigned.who or ()) if assigned is not None else set()
    for raft in rafts if len(rafts) > 1 else ():
        if not raft.carries or any(who not in sight.roles for who in raft.carries):
            continue
        if able_elsewhere(raft, sight):  # told as what it is
            continue
        if billed and not _told(raft, LAUNCH) and billed.isdisjoint(map(str, raft.carries)):
            yield of(
                raft,
                "carries",
                f"{' and '.join(sorted(billed))} launch by the station bill, and none of them goes into it",
                remedy=_a_party(raft, sight),
            )
            continue
        others = [each for each in rafts if each is not raft]
        lacks = [
            part
            for part in (HOLD, CUT)
            if not _told(raft, part)
            and not (raft.party and raft.party.says_none(part))
            and all(_told(each, part) for each in others)
        ]
        if lacks:
            yield of(
                raft,
                "party",
                f"nobody is told to {' and '.join(_DONE[part] for part in lacks)}, and of the other raft somebody is",
                remedy=_a_party(raft, sight),
                weight=RECOMMENDATION,
                also=tuple(each.place("party") for each in others),
            )


def _a_party(raft: Raft, sight: Sight) -> str:
    """A line for those who go into a raft: its party as it is, and whoever of them can for what nobody does yet."""
    able = _able(raft, sight)
    told = {part: _told(raft, part) for part in PARTS}
    done = {who for those in told.values() for who in those}
    free = [who for who in able if who not in done] or able
    launches = told[LAUNCH] or (free[0],)
    cuts = next((who for who in able if who not in launches), able[0])
    party = told | {LAUNCH: launches, HOLD: told[HOLD] or launches[:1], CUT: told[CUT] or (cuts,)}
    line = ", ".join(
        f"{part}: {those[0] if len(those) == 1 else '[' + ', '.join(map(str, those)) + ']'}"
        for part, those in party.items()
        if those
    )
    return f"write a party of those it carries: party: {{{line}}}"


def _able(raft: Raft, sight: Sight) -> list[str]:
    """Those who go into a raft and can work; all, where none can."""
    crew, going = hands(sight), [str(who) for who in raft.carries or sight.roles]
    return [who for who in going if who not in crew or not crew[who].weak] or going


_DONE = {HOLD: "hold it alongside", CUT: "cut it loose"}
