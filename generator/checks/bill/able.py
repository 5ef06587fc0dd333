"""Who can do it: age, need of help and abilities of all who are told off for something, who stand in, carry or help."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

from generator.manual.crew import the
from generator.shelves.procedures import apart, hinders
from generator.survey.hands import Hand, clash, hands, idle, improvable, unable
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    HELP,
    LIFE,
    RECOMMENDATION,
    Finds,
    Found,
    Sight,
    check,
)

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping

    from generator.manual.bill import Duty, Emergency
    from generator.reading.findings import Place


def _lacks(duty: Duty, who: str, crew: Mapping[str, Hand], engaged: Collection[str]) -> str:
    """Why somebody is not taught what a duty needs, in words after "the mate", while others may be who are not engaged; "" where they are."""
    told = crew[who].abilities if who in crew else ()
    others = [hand for role, hand in crew.items() if role != who]
    if not duty.needs or who not in crew or duty.needs in told:
        return ""
    if told and any(not hand.abilities or duty.needs in hand.abilities for hand in others):
        return f"has not the ability '{duty.needs}'"
    free = [hand for hand in others if hand.aboard and hand.role not in engaged]
    if any(duty.needs in hand.abilities and not hand.why_not(duty) for hand in free):
        return f"is not said to have the ability '{duty.needs}', and others are"
    return ""


@check("bill.unable", LIFE, "46 CFR 122.514(c) (duties like the person's regular work)", COMPOSITION)
def whoever_calls_or_commands_can(sight: Sight) -> Finds:
    """Whoever has the call or the command, or stands in for it, is able to do it.

    Why: a radio nobody taught is no radio.
    Remedy: give the duty to somebody who can, or teach the person and add the ability under 'people'.
    """
    crew, bill = hands(sight), sight.vessel.station_bill
    told: dict[tuple[str, str], list[Found]] = {}
    for emergency in sight.manual.bill.emergencies:
        engaged = {role for duty in emergency.duties for role in duty.who}
        for duty in emergency.duties:
            about = f"{emergency.id}, {duty.id}"
            for who in duty.who:
                if (why := _lacks(duty, who, crew, engaged)) and not crew[who].why_not(duty):
                    weight = None if crew[who].abilities else RECOMMENDATION
                    found = Found(duty.place, f"{about}: {the(who)} {why}", item=about, weight=weight)
                    told.setdefault((who, why), []).append(found)
            who = duty.substitute
            if (
                (why := _lacks(duty, who, crew, engaged))
                and not crew[who].why_not(duty)
                and _others(duty, crew)
            ):
                place = bill[emergency.id][duty.id].place("substitute")
                weight = None if crew[who].abilities else RECOMMENDATION
                found = Found(place, f"{about}: {the(who)}, who stands in, {why}", item=about, weight=weight)
                told.setdefault((who, why), []).append(found)
    for (who, why), found_of in told.items():
        yield from _as_one(sight, who, why, found_of) if len(found_of) > 2 else found_of


def _as_one(sight: Sight, who: str, why: str, found: list[Found]) -> Finds:
    """The same of one person in several emergencies: what was taken from the person's abilities, or never taught, is the cause."""
    person = next(each for each in sight.vessel.people if each.role == who)
    duties = "; ".join(each.item for each in found)
    weighs = found[0].weight is None
    yield Found(
        person.place("abilities"),
        f"{the(who)} {why}: {duties}",
        "teach the person and add the ability there, or give these duties to somebody who can",
        who,
        found[0].weight,
        tuple(each.place for each in found),
        explains=frozenset((person.place("abilities"), sight.vessel.key_place("people")))
        if weighs
        else frozenset(),
    )


def _others(duty: Duty, crew: Mapping[str, Hand]) -> bool:
    """Whether somebody else could stand in for a duty, who is taught what it needs."""
    return any(
        not each.why_not(duty) and (not duty.needs or duty.needs in each.abilities)
        for role, each in crew.items()
        if role not in duty.who and role != duty.substitute
    )


@check("bill.unfit", LIFE, "MGN 71 Amendment 1 Annex 2.4; common practice for ages", COMPOSITION)
def whoever_has_a_duty_can_do_it(sight: Sight) -> Finds:
    """Whoever has a duty, or stands in for one, is old enough for it and sound of limb, where somebody else could have it.

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
                and duty.substitute not in duty.who
                and hand.why_not(duty)
                and _others(duty, crew)
            ):
                place = bill[emergency.id][duty.id].place("substitute")
                about = f"{emergency.id}, {duty.id} (as substitute)"
                those = stands_in.setdefault(duty.substitute, [])
                those.insert(
                    0 if duty.key and not any(key == about for key, _ in those) else len(those),
                    (about, place),
                )
                reasons.setdefault(duty.substitute, hand.why_not(duty))
    for who in dict.fromkeys((*told, *stands_in)):
        duties = [*told.get(who, []), *stands_in.get(who, [])]
        yield Found(
            duties[0][1],
            f"{the(who)} {reasons[who]} and {'have' if crew[who].heads > 1 else 'has'}: {'; '.join(about for about, _ in duties)}",
            item=who,
            also=tuple(place for _, place in duties[1:]),
        )


@check("bill.substitute-bound", HELP, COMMON_PRACTICE, COMPOSITION)
def whoever_stands_in_is_free(sight: Sight) -> Finds:
    """Whoever stands in for a duty is not bound by another in the same emergency, where somebody else is free.

    Why: with one hurt two duties fall to one pair of hands, nobody takes over the other, and it is left.
    Remedy: write as 'substitute' somebody who has nothing to do in that emergency that cannot be left.
    """
    crew, bill = hands(sight), sight.vessel.station_bill
    helpers = {str(person.helper) for person in sight.vessel.people if person.helper}
    for emergency in sight.manual.bill.emergencies:
        for duty in emergency.duties:
            who = duty.substitute
            if (
                who not in crew
                or crew[who].heads > 1
                or duty.who[1:]
                or who in duty.who
                or crew[who].why_not(duty)
            ):
                continue
            bound = [
                one
                for one in emergency.duties
                if one is not duty and who in one.who and apart(duty, one) and _left(one, {who, *duty.who})
            ]
            free = _free(emergency, duty, crew, helpers) if bound and (duty.essential or duty.key) else []
            if free:
                yield Found(
                    bill[emergency.id][duty.id].place("substitute"),
                    f"{emergency.id}, {duty.id}: {the(who)}, who stands in, has '{bound[0].id}' too, and nobody can do both at once; "
                    f"free is: {', '.join(free)}",
                    f"write substitute: {free[0]}"
                    if len(free) == 1
                    else f"write substitute: and one of {', '.join(free)}",
                    item=f"{emergency.id}, {duty.id}",
                    also=(bound[0].place,),
                )


def _free(emergency: Emergency, duty: Duty, crew: Mapping[str, Hand], helpers: Collection[str]) -> list[str]:
    """Who could stand in: for a key duty whoever has none beside which it cannot be done, for another only who has none at all."""
    if not duty.key:
        return idle(emergency, duty, crew, helpers)
    busy = {role for one in emergency.duties if one is not duty and apart(duty, one) for role in one.who}
    busy |= {duty.substitute, *duty.who}
    return [role for role, hand in crew.items() if role not in busy and hand.could(duty)]


def _left(duty: Duty, gone: set[str]) -> bool:
    """Whether a duty is left by those who are hurt or stand in elsewhere: nobody else has it, nor stands in for it."""
    return gone.issuperset(duty.who) and (not duty.substitute or duty.substitute in gone)


@check(
    "bill.one-waits",
    HELP,
    "MGN 71 Amendment 1 Annex 2.4 (one duty, or a series within one party)",
    COMPOSITION,
)
def nobody_has_two_while_another_has_none(sight: Sight) -> Finds:
    """Nobody whom a duty keeps where he is has another one, while somebody who could do it has nothing to do.

    Why: what the same hands do afterwards is done minutes later, and somebody stands by and looks on.
    Remedy: give one of the two to whoever is free.
    """
    crew = hands(sight)
    helpers = {str(person.helper) for person in sight.vessel.people if person.helper}
    told_off = {who for each in sight.manual.bill.emergencies for duty in each.duties for who in duty.who}
    if not told_off <= crew.keys():
        return  # whoever waits may be the one who is misspelt there
    for emergency in sight.manual.bill.emergencies:
        for one, other in itertools.combinations(emergency.duties, 2):
            both = [who for who in other.who if who in one.who]
            if not both or apart(one, other) or not clash(one, other, crew, hinders):
                continue
            steady, later = (one, other) if one.continuous else (other, one)
            free = idle(emergency, later, crew, helpers) or idle(emergency, steady, crew, helpers)
            if free:
                yield Found(
                    later.place,
                    f"{emergency.id}: {' and '.join(map(the, both))} has '{steady.id}', which cannot be left, and '{later.id}' too; "
                    f"nothing to do has: {', '.join(free)}",
                    f"give '{later.id}' or '{steady.id}' to {the(free[0])}",
                    item=f"{emergency.id}, {later.id}",
                    also=(steady.place,),
                )
