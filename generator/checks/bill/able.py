"""Who can do it: age, need of help and abilities of all who are told off for something, who stand in, carry or help."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.reading.values import known
from generator.survey.hands import Hand, hands, improvable, unable
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    LIFE,
    Finds,
    Found,
    Sight,
    at,
    check,
    of,
)

if TYPE_CHECKING:
    from generator.manual.bill import Duty
    from generator.reading.findings import Place
    from generator.vessel.people import Person, Traveller

DONE_BY = ("launch", "hold", "cut", "bag")


def _lacks(duty: Duty, who: str, crew: dict[str, Hand]) -> bool:
    """Whether it is said what somebody can do, what the duty needs is not among it, and others may be able."""
    told = crew[who].abilities if who in crew else ()
    return (
        bool(duty.needs and told)
        and duty.needs not in told
        and any(not hand.abilities or duty.needs in hand.abilities for hand in crew.values())
    )


@check("bill.unable", LIFE, "46 CFR 122.514(c) (duties like the person's regular work)", COMPOSITION)
def whoever_calls_or_commands_can(sight: Sight) -> Finds:
    """Whoever has the call or the command, or stands in for it, is able to do it.

    Why: a radio nobody taught is no radio.
    Remedy: give the duty to somebody who can, or teach the person and add the ability under 'people'.
    """
    crew, bill = hands(sight), sight.vessel.station_bill
    for emergency in sight.manual.bill.emergencies:
        for duty in emergency.duties:
            about = f"{emergency.id}, {duty.id}"
            for who in duty.who:
                if _lacks(duty, who, crew) and not crew[who].why_not(duty):
                    yield Found(
                        duty.place, f"{about}: the {who} has not the ability '{duty.needs}'", item=about
                    )
            who = duty.substitute
            if _lacks(duty, who, crew) and not crew[who].why_not(duty) and _others(duty, crew):
                yield Found(
                    bill[emergency.id][duty.id].place("substitute"),
                    f"{about}: the {who}, who stands in, has not the ability '{duty.needs}'",
                    item=about,
                )


def _others(duty: Duty, crew: dict[str, Hand]) -> bool:
    """Whether somebody else could stand in for a duty, who is taught what it needs."""
    return any(
        not each.why_not(duty) and (not duty.needs or duty.needs in each.abilities)
        for role, each in crew.items()
        if role not in duty.who and role != duty.substitute
    )


@check("bill.unfit", LIFE, "MGN 71 Amendment 1 Annex 2.4; common practice for ages", COMPOSITION)
def whoever_has_a_duty_can_do_it(sight: Sight) -> Finds:
    """Whoever has a duty, or stands in for a key one, is old enough for it and sound of limb, where somebody else could have it.

    Why: a child told off to haul, or somebody who cannot climb, stands at the rail in the worst minute.
    Remedy: give the duty to somebody who can; leave to the person what is done sitting down, or nothing.
    """
    crew, bill = hands(sight), sight.vessel.station_bill
    told: dict[str, list[tuple[str, Place]]] = {}
    stands_in: dict[str, list[tuple[str, Place]]] = {}
    reasons: dict[str, str] = {}
    for emergency in sight.manual.bill.emergencies:
        better: bool | None = None
        for duty in emergency.duties:
            for who, why in unable(duty, crew).items():
                reasons.setdefault(who, why)
                better = improvable(emergency, crew) if better is None else better
                if better:
                    told.setdefault(who, []).append((f"{emergency.id}, {duty.id}", duty.place))
            hand = crew.get(duty.substitute)
            if (
                hand is not None
                and duty.key
                and duty.substitute not in duty.who
                and hand.why_not(duty)
                and _others(duty, crew)
            ):
                place = bill[emergency.id][duty.id].place("substitute")
                about = f"{emergency.id}, {duty.id} (as substitute)"
                stands_in.setdefault(duty.substitute, []).append((about, place))
                reasons.setdefault(duty.substitute, hand.why_not(duty))
    for who in dict.fromkeys((*told, *stands_in)):
        duties = [*told.get(who, []), *stands_in.get(who, [])]
        yield Found(
            duties[0][1],
            f"the {who} {reasons[who]} and has: {'; '.join(about for about, _ in duties)}",
            item=who,
            also=tuple(place for _, place in duties[1:]),
        )


@check("people.nobody-able", LIFE, "MGN 280 Annex 7 (a second person briefed); common practice")
def somebody_can_command_and_call(sight: Sight) -> Finds:
    """Where it is said what people can do, somebody aboard can command, and somebody can call for help.

    Why: with the one who could ashore, nobody decides and nobody is heard.
    Remedy: take somebody along who can, or teach one and write it under 'abilities'.
    """
    crew = [hand for hand in hands(sight).values() if hand.aboard]
    told = [hand for hand in crew if hand.abilities]
    for ability, words in (("command", "take command"), ("radio", "make the distress call")):
        if len(told) == len(crew) and crew and not any(ability in hand.abilities for hand in told):
            whom = "of those on the voyage nobody" if sight.vessel.voyage else "nobody"
            block = sight.vessel.voyage or sight.vessel
            key = "persons" if sight.vessel.voyage else "people"
            yield Found(
                block.key_place(key), f"{whom} can {words}: no role has the ability '{ability}'", item=ability
            )


@check(
    "people.helper-unable",
    LIFE,
    "SOLAS III/8 and MGN 71 Amendment 1 (duties towards those who need help); common practice",
)
def helpers_can_help(sight: Sight) -> Finds:
    """Whoever helps another is aboard, grown, needs no help, and goes into the same raft.

    Why: the one who cannot climb waits for somebody who cannot lift, is ashore, or sits in the other raft.
    Remedy: write as 'helper' a grown person of the same raft who is aboard.
    """
    crew = hands(sight)
    carried = {str(who): raft for raft in sight.vessel.rafts for who in raft.carries}
    voyage = sight.vessel.voyage
    needing: list[Person | Traveller] = [*sight.vessel.people, *(voyage.persons if voyage else ())]
    seen: set[tuple[str, str]] = set()
    for person in needing:
        role, helper = str(person.role), person.helper
        hand = crew.get(helper) if isinstance(helper, str) else None
        if hand is None or (role, hand.role) in seen or hand.role == role:
            continue
        seen.add((role, hand.role))
        why = hand.unfit
        if not why and carried.get(role) is not carried.get(hand.role):
            raft = carried.get(hand.role)
            why = f"goes into the {raft.name}" if raft is not None else "has no raft"
        if why and crew.get(role, hand).aboard:
            yield at(person, "helper", f"the {hand.role}, who helps the {role}, {why}", item=role)


@check("raft.party-unable", LIFE, COMMON_PRACTICE)
def a_rafts_party_can_do_it(sight: Sight) -> Finds:
    """Whoever launches, holds or cuts a raft, or brings the bag to it, is grown, and needs no help.

    Why: a raft is lifted, held and cut in a sea; who cannot is no hand at it.
    Remedy: write under 'party' somebody who can.
    """
    crew = hands(sight)
    for raft in sight.vessel.rafts:
        parts: dict[str, list[str]] = {}
        for part in DONE_BY if raft.party is not None else ():
            for who in raft.party.__dict__.get(part) or ():
                parts.setdefault(str(who), []).append(part)
        for who, done in parts.items():
            why = crew[who].weak if who in crew else ""
            if why and raft.party is not None:
                yield of(raft, done[0], f"its party, {' and '.join(done)}: the {who} {why}", part=raft.party)


@check("grab-bag.carrier-unable", LIFE, COMMON_PRACTICE)
def the_bag_is_carried_by_somebody_who_can(sight: Sight) -> Finds:
    """Whoever carries a grab bag is grown, and needs no help.

    Why: the bag has the radio, the water and the flares; it is left where its carrier is.
    Remedy: write under 'carried-by' somebody who can carry it.
    """
    crew = hands(sight)
    for bag in sight.vessel.grab_bags:
        hand = crew.get(known(bag.carried_by) or "")
        why = hand.weak if hand is not None else ""
        if hand is not None and why:
            yield at(bag, "carried-by", f"the {hand.role}, who carries it, {why}", item="grab bag")


@check(
    "voyage.duty-ashore",
    LIFE,
    "MGN 71 Amendment 1 Annex 2.4 (the bill is brought up to date before sailing; secondary)",
    COMPOSITION,
)
def duties_of_the_voyage_are_done_by_those_aboard(sight: Sight) -> Finds:
    """Every essential duty has somebody who is on the voyage, if only the substitute.

    Why: the card sends for somebody who stayed ashore, and all wait.
    Remedy: give the duty, in the boat's file, to roles that are on the voyage, or take somebody along for it.
    """
    crew, voyage = hands(sight), sight.vessel.voyage
    left = []
    for emergency in sight.manual.bill.emergencies if voyage else ():
        for duty in emergency.duties:
            told = [who for who in (*duty.who, duty.substitute) if who in crew]
            if duty.essential and told and not any(crew[who].aboard for who in told):
                left.append((f"{emergency.id}, {duty.id} ({', '.join(dict.fromkeys(told))})", duty.place))
    if voyage is not None and left:
        yield Found(
            voyage.key_place("persons"),
            f"nobody on the voyage has: {'; '.join(about for about, _ in left)}",
            item="voyage",
            also=tuple(place for _, place in left),
        )
