"""Several rafts beside each other: which goes first, which gets bag and beacon, and what follows if one is gone."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.manual.crew import the
from generator.manual.parties import ELSEWHERE, LOCATES, told
from generator.manual.raft_gone import if_gone
from generator.manual.told import one_for_each
from generator.reading.values import Counted
from generator.shelves.procedure_files import BEACON
from generator.survey.registry import ADVICE, COMMON_PRACTICE, HELP, NOTICE, TRUTH, Finds, Sight, check, of
from generator.vessel.people import heads, meant_by

if TYPE_CHECKING:
    from collections.abc import Iterable

    from generator.vessel.radio import Beacon


@check("raft.none-if-gone", NOTICE, "46 CFR 28.120 (aggregate capacity for all aboard)")
def others_take_the_people_of_a_lost_raft(sight: Sight) -> Finds:
    """If one of several rafts is gone, the others are approved for all who go into it.

    Why: fire, wreckage or a torn painter takes one raft of two; the card then says for whom no place is left.
    Remedy: carry rafts with places to spare, or know the card 'if the raft is gone'; who is named there comes in all the same.
    """
    rafts = sight.vessel.rafts
    if len(rafts) < 2 or not all(raft.carries or raft.says_none("carries") for raft in rafts):
        return
    loads = [(raft, sum(meant_by(who, sight.vessel.people) for who in raft.carries or ())) for raft in rafts]
    if sum(load for _, load in loads) != heads(sight.vessel.people):
        return  # told where somebody is in none, or in two
    if any(isinstance(raft.persons, int) and load > raft.persons for raft, load in loads):
        return  # told where a raft is overloaded
    lost = [gone for raft in rafts if (gone := if_gone(raft, sight.vessel)).over]
    if lost and all(str(who) in sight.roles for gone in lost for who in gone.over):
        said = (
            f"without the {gone.raft.name} the others are approved for {gone.over_heads} too few: {_listed(gone.over)}"
            for gone in lost
        )
        yield of(
            lost[0].raft,
            "persons",
            "; ".join(said),
            also=tuple(each.raft.place("persons") for each in lost[1:]),
        )


def _listed(over: Iterable[str]) -> str:
    """Roles in a row, each with how many of it are meant."""
    return ", ".join(
        f"{who} ({who.number})" if isinstance(who, Counted) and who.number is not None else str(who)
        for who in over
    )


@check("raft.order-gap", HELP, COMMON_PRACTICE)
def the_order_of_rafts_begins_with_one(sight: Sight) -> Finds:
    """Where the order of launching is told, one raft is the first, and none follows one that there is not.

    Why: the card sends everybody to the raft with the lowest number, and it may be the one that was meant to wait.
    Remedy: number the rafts 1, 2 and so on, or leave the order out.
    """
    rafts = sight.vessel.rafts
    numbers = {raft.first_to_launch for raft in rafts if isinstance(raft.first_to_launch, int)}
    for raft in rafts if len(rafts) > 1 else ():
        number = raft.first_to_launch
        if isinstance(number, int) and 1 < number <= len(rafts) and number - 1 not in numbers:
            yield of(
                raft,
                "first-to-launch",
                f"it is launched as number {number}, and none is told to be number {number - 1}",
            )


@check("raft.spare-first", HELP, COMMON_PRACTICE)
def a_spare_raft_waits(sight: Sight) -> Finds:
    """A raft into which nobody goes is not launched before one that carries people.

    Why: hands and seconds go to a raft that nobody needs yet.
    Remedy: give the raft that carries people the lower number under 'first-to-launch'.
    """
    rafts = sight.vessel.rafts
    for raft in rafts if len(rafts) > 1 else ():
        number = raft.first_to_launch
        if not raft.says_none("carries") or not isinstance(number, int):
            continue
        later = [
            each
            for each in rafts
            if each.carries and isinstance(each.first_to_launch, int) and each.first_to_launch > number
        ]
        if later:
            yield of(
                raft,
                "first-to-launch",
                f"nobody goes into it, and it is launched before the {later[0].name}, which carries {', '.join(map(str, later[0].carries))}",
                also=(later[0].place("first-to-launch"),),
            )


def _beacons(sight: Sight) -> list[Beacon]:
    radio = sight.vessel.radio
    return [each for each in radio.beacons if each.kind in LOCATES] if radio is not None else []


def _many(beacon: Beacon) -> int:
    return beacon.quantity if isinstance(beacon.quantity, int) else 1


@check("raft.beacons-fewer", HELP, COMMON_PRACTICE)
def no_more_parties_bring_beacons_than_there_are(sight: Sight) -> Finds:
    """No more parties of rafts are told to bring a beacon than there are EPIRBs, PLBs and SARTs.

    Why: the card sends somebody for a beacon that is in the other raft already.
    Remedy: describe the beacon that is meant under 'radio', or take 'beacon' out of one party.
    """
    beacons = _beacons(sight)
    if any(one_for_each(each.spot, each.carried_by) for each in beacons):
        return
    bringing = [raft for raft in sight.vessel.rafts if told(raft, BEACON)]
    there = sum(map(_many, beacons))
    if len(bringing) > there and bringing[-1].party is not None:
        yield of(
            bringing[-1],
            BEACON,
            f"{len(bringing)} part{'ies bring' if bringing[1:] else 'y brings'} a beacon, and {there or 'none'} that is found from afar {'is' if there < 2 else 'are'} described",
            part=bringing[-1].party,
        )


@check("raft.no-beacon", ADVICE, COMMON_PRACTICE)
def beacons_are_shared_between_rafts(sight: Sight) -> Finds:
    """Of several rafts each gets a beacon, where there are as many beacons as rafts that carry people.

    Why: rafts drift apart in the first night; two beacons in one raft find one raft.
    Remedy: say who of this raft brings one: 'party', its 'beacon'; take it out of the other raft's bag.
    """
    beacons = _beacons(sight)
    carrying = [party for party in sight.reckoning.parties if party.going]
    if len(sight.vessel.rafts) < 2 or sum(map(_many, beacons)) < len(carrying):
        return
    for party in carrying:
        if party.raft.carries and party.share(BEACON).why == ELSEWHERE:
            names = " and ".join(f"the {each.what}" for each in beacons)
            yield of(
                party.raft,
                "carries",
                f"no beacon goes into it: {names} go into the other{'s' if carrying[2:] else ''}",
                also=tuple(each.place("spot") for each in beacons[:1]),
            )


@check("raft.beacon-differs", TRUTH, COMMON_PRACTICE)
def a_beacon_is_brought_by_whoever_carries_it(sight: Sight) -> Finds:
    """Whoever brings a raft's beacon by its party is the one who carries that beacon by its own entry.

    Why: it hangs on one person, and the card sends another for it.
    Remedy: write the same role under 'beacon' of the party and under 'carried-by' of the beacon.
    """
    for party in sight.reckoning.parties:
        named, beacon = told(party.raft, BEACON), party.beacon
        carrier = beacon.carried_by if beacon is not None else None
        if not named or party.raft.party is None or beacon is None or not isinstance(carrier, str):
            continue
        if str(carrier) in sight.roles and str(carrier) not in map(str, named):
            yield of(
                party.raft,
                BEACON,
                f"its party, beacon: {', '.join(named)}; the {beacon.what} is carried by {the(str(carrier))}",
                part=party.raft.party,
                also=(beacon.place("carried-by"),),
            )
