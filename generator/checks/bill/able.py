"""Who can do it: age, need of help and abilities of all who are told off for something, who stand in, carry or help."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.manual.crew import the
from generator.reading.nearest import either
from generator.shelves.procedures import apart
from generator.survey.hands import Hand, hands, improvable, unable
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    HELP,
    LIFE,
    Finds,
    Found,
    Sight,
    check,
)

if TYPE_CHECKING:
    from generator.manual.bill import Duty
    from generator.reading.findings import Place


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
                        duty.place, f"{about}: {the(who)} has not the ability '{duty.needs}'", item=about
                    )
            who = duty.substitute
            if _lacks(duty, who, crew) and not crew[who].why_not(duty) and _others(duty, crew):
                yield Found(
                    bill[emergency.id][duty.id].place("substitute"),
                    f"{about}: {the(who)}, who stands in, has not the ability '{duty.needs}'",
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
            f"{the(who)} {reasons[who]} and has: {'; '.join(about for about, _ in duties)}",
            item=who,
            also=tuple(place for _, place in duties[1:]),
        )


@check("bill.substitute-bound", HELP, COMMON_PRACTICE, COMPOSITION)
def whoever_stands_in_is_free(sight: Sight) -> Finds:
    """Whoever stands in for a key duty is not bound by another in the same emergency, where somebody else is free.

    Why: with one hurt two duties fall to one pair of hands, nobody takes over the other, and it is left.
    Remedy: write as 'substitute' somebody who has nothing to do in that emergency that cannot be left.
    """
    crew, bill = hands(sight), sight.vessel.station_bill
    for emergency in sight.manual.bill.emergencies:
        for duty in emergency.duties:
            who = duty.substitute
            holds = [one for one in emergency.duties if one is not duty and apart(duty, one)]
            bound = [
                one for one in holds if who in one.who and not duty.who[1:] and _left(one, {who, *duty.who})
            ]
            busy = {role for one in holds for role in one.who} | {who, *duty.who}
            free = [role for role, hand in crew.items() if role not in busy and _could(hand, duty)]
            if duty.key and who in crew and crew[who].heads == 1 and bound and free:
                yield Found(
                    bill[emergency.id][duty.id].place("substitute"),
                    f"{emergency.id}, {duty.id}: {the(who)}, who stands in, has '{bound[0].id}' too, and nobody can do both at once; "
                    f"free is: {', '.join(free)}",
                    f"write substitute: {either(free)}",
                    item=f"{emergency.id}, {duty.id}",
                    also=(bound[0].place,),
                )


def _left(duty: Duty, gone: set[str]) -> bool:
    """Whether a duty is left by those who are hurt or stand in elsewhere: nobody else has it, nor stands in for it."""
    return gone.issuperset(duty.who) and (not duty.substitute or duty.substitute in gone)


def _could(hand: Hand, duty: Duty) -> bool:
    """Whether somebody of whom it is said what they can do is able to do a duty."""
    taught = not duty.needs or duty.needs in hand.abilities
    return bool(hand.abilities) and hand.aboard and not hand.why_not(duty) and not hand.needs_help and taught
