"""Who can do it: age, need of help and abilities of all who are told off for something, who stand in, carry or help."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

from generator.manual.crew import COMMAND, the
from generator.reading.values import Quantity
from generator.shelves.procedure_files import GROWN
from generator.shelves.procedures import apart, hinders
from generator.survey.hands import OLD, Hand, clash, hands, idle, improvable, unable
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
    from generator.reading.values import NotKnown


def _lacks(duty: Duty, who: str, crew: Mapping[str, Hand], emergency: Emergency) -> str:
    """Why somebody is not taught what a duty needs, in words after "the mate", while others may be who are free for it; "" where they are."""
    told = crew[who].abilities if who in crew else ()
    others = [hand for role, hand in crew.items() if role != who]
    if not duty.needs or who not in crew or duty.needs in told:
        return ""
    if told and any(not hand.abilities or duty.needs in hand.abilities for hand in others):
        return f"has not the ability '{duty.needs}'"
    able = [
        hand for hand in others if hand.aboard and duty.needs in hand.abilities and not hand.why_not(duty)
    ]
    # Who leads does not lay it down for what else he does.
    leads = duty.needs == COMMAND and who in duty.who and able
    if leads or any(_may_take(duty, who, hand.role, emergency) for hand in able):
        return f"is not said to have the ability '{duty.needs}', and others are"
    return ""


def _may_take(duty: Duty, who: str, other: str, emergency: Emergency) -> bool:
    """Whether somebody else could have a duty beside what he has in that emergency, or pass that on where he stands in for one who is lost."""
    if who in duty.who:
        return not any(
            one is not duty and other in one.who and hinders(duty, one) for one in emergency.duties
        )
    lost = {other, *duty.who}
    bound = [one for one in emergency.duties if one is not duty and other in one.who and apart(duty, one)]
    return other not in duty.who and not any(_left(one, lost) for one in bound)


@check("bill.unable", LIFE, "46 CFR 122.514(c) (duties like the person's regular work)", COMPOSITION)
def whoever_calls_or_commands_can(sight: Sight) -> Finds:
    """Whoever has the call or the command, or stands in for it, is able to do it.

    Why: a radio nobody taught is no radio.
    Remedy: give the duty to somebody who can, or teach the person and add the ability under 'people'.
    """
    crew, bill = hands(sight), sight.vessel.station_bill
    told: dict[tuple[str, str], list[Found]] = {}
    for emergency in sight.manual.bill.emergencies:
        for duty in emergency.duties if any(duty.needs for duty in emergency.duties) else ():
            about = f"{emergency.id}, {duty.id}"
            for who in duty.who:
                if (why := _lacks(duty, who, crew, emergency)) and not crew[who].why_not(duty):
                    found = Found(duty.place, f"{about}: {the(who)} {why}", item=about)
                    told.setdefault((who, why), []).append(found)
            who = duty.substitute
            if (
                who not in duty.who
                and (why := _lacks(duty, who, crew, emergency))
                and not crew[who].why_not(duty)
                and _others(duty, crew)
            ):
                place = bill[emergency.id][duty.id].place("substitute")
                weight = None if crew[who].abilities or duty.key else RECOMMENDATION
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


@check("bill.elderly", LIFE, COMMON_PRACTICE, COMPOSITION)
def whoever_hauls_is_not_very_old(sight: Sight) -> Finds:
    """Nobody of seventy-five or more, of eighty if it is said what he lifts, hauls or launches together with another, or stands by to go in next, where somebody younger could.

    Why: it takes the strength of both at the same moment; one who lets go has the other over the side.
    Remedy: change places with somebody younger, who steers, looks out or counts instead.
    """
    crew = hands(sight)
    lifting = {str(person.role) for person in sight.vessel.people if isinstance(person.lifts, Quantity)}
    known_old = {
        str(person.role) for person in sight.vessel.people if any(_reaches(each) for each in person.age)
    }
    told: dict[str, list[tuple[Duty, str]]] = {}
    for emergency in sight.manual.bill.emergencies:
        for duty in emergency.duties if any(_old(each) for each in crew.values()) else ():
            for who in duty.who if duty.persons > 1 or _goes_in_next(emergency, duty) else ():
                if (
                    who in crew
                    and _old(crew[who], STRONG_FOR if who in lifting else 0)
                    and not crew[who].why_not(duty)
                ):
                    younger = _changes_places(emergency, duty, crew[who], crew)
                    if younger:
                        told.setdefault(who, []).append((duty, younger))
    for who, those in told.items():
        duties = "; ".join(f"{duty.emergency}, {duty.id}" for duty, _ in those)
        yield Found(
            those[0][0].place,
            f"{the(who)} is {crew[who].oldest} years old and has: {duties}",
            f"let {the(those[0][1])} do that, and {the(who)} what is done there instead",
            item=who,
            weight=RECOMMENDATION
            if who in lifting & known_old or all(duty.persons == 1 for duty, _ in those)
            else None,
            also=tuple(duty.place for duty, _ in those[1:]),
        )


LITTLE_KG, TWICE = 12.0, 1.5
"""What somebody lifts at most, in kg, of whom it is said that he is not strong, and how many times that another lifts who is stronger: common practice."""


@check("bill.not-strong", LIFE, COMMON_PRACTICE, COMPOSITION)
def whoever_hauls_has_the_strength(sight: Sight) -> Finds:
    """Nobody of whom it is said that he lifts little fights the fire, recovers somebody or launches the raft while somebody stronger has nothing to do.

    Why: a man in the water with his clothes full is hauled by those who lift least, and the strong stand beside it.
    Remedy: change places with somebody who lifts more and has nothing to do in that emergency.
    """
    crew = hands(sight)
    lifts = {
        str(person.role): float(person.lifts)
        for person in sight.vessel.people
        if isinstance(person.lifts, Quantity)
    }
    helpers = {str(person.helper) for person in sight.vessel.people if person.helper}
    for emergency in sight.manual.bill.emergencies if lifts and min(lifts.values()) <= LITTLE_KG else ():
        for duty in emergency.duties:
            if not duty.strength or len(set(duty.who)) > duty.persons:
                continue
            for who in duty.who:
                if lifts.get(who, LITTLE_KG + 1) > LITTLE_KG or crew[who].why_not(duty):
                    continue
                free = [*idle(emergency, duty, crew, helpers), *_stands_by(emergency, duty, crew, helpers)]
                stronger = [
                    role for role in free if _grown(crew[role]) and lifts.get(role, 0) >= TWICE * lifts[who]
                ]
                if stronger:
                    yield Found(
                        duty.place,
                        f"{emergency.id}, {duty.id}: {the(who)} lifts {lifts[who]:g} kg, and {the(stronger[0])}, who lifts {lifts[stronger[0]]:g} kg, has nothing to do",
                        f"give '{duty.id}' to {the(stronger[0])}",
                        item=f"{emergency.id}, {duty.id}",
                    )


def _goes_in_next(emergency: Emergency, duty: Duty) -> bool:
    """Whether a duty is to stand by for one that takes strength, and to take it over where it stands."""
    return not duty.seated and any(one.strength and duty.id in one.apart_from for one in emergency.duties)


STRONG_FOR = 5
"""How many years longer somebody hauls of whom it is said what he lifts: common practice."""


def _reaches(age: int | NotKnown | None) -> bool:
    return isinstance(age, int) and age >= OLD


def _old(hand: Hand, longer: int = 0) -> bool:
    return hand.oldest is not None and hand.oldest >= OLD + longer and hand.heads == 1


def _changes_places(emergency: Emergency, duty: Duty, old: Hand, crew: Mapping[str, Hand]) -> str:
    """Who could do a duty in place of somebody old, who then does what that one leaves; "" for nobody."""
    for role, hand in crew.items():
        if role in duty.who or _old(hand) or hand.weak or not hand.aboard or hand.why_not(duty):
            continue
        left = [one for one in emergency.duties if role in one.who and apart(one, duty)]
        if all(
            one.persons == 1 and (not one.needs or one.needs in old.abilities) and not old.why_not(one)
            for one in left
        ):
            return role
    return ""


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
    busy |= {duty.substitute, *duty.who, *helpers}
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
    """Nobody whom a duty keeps where he is has another one, while a grown-up who could do it has nothing to do; where a life hangs on both, it is a defect.

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
            vital = later.id in steady.worse_with
            able = [role for duty in (later, steady) for role in idle(emergency, duty, crew, helpers)]
            if vital:
                able += [
                    role for duty in (later, steady) for role in _stands_by(emergency, duty, crew, helpers)
                ]
            free = [role for role in dict.fromkeys(able) if _grown(crew[role])]
            if free:
                yield Found(
                    later.place,
                    f"{emergency.id}: {' and '.join(map(the, both))} has '{steady.id}', which cannot be left, and '{later.id}' too; "
                    f"nothing to do has: {', '.join(free)}",
                    f"give '{later.id}' or '{steady.id}' to {the(free[0])}",
                    item=f"{emergency.id}, {later.id}",
                    weight=LIFE.weight if vital else None,
                    also=(steady.place,),
                )


def _grown(hand: Hand) -> bool:
    """Whether somebody is not said to be younger than grown: what the half-grown do is left to whoever keeps the bill."""
    return hand.age is None or hand.age >= GROWN


def _stands_by(
    emergency: Emergency, duty: Duty, crew: Mapping[str, Hand], helpers: Collection[str]
) -> list[str]:
    """Who stands in for a duty, could do it, and has nothing else to do in that emergency."""
    who = duty.substitute
    hand = crew.get(who)
    busy = any(who in one.who for one in emergency.duties) or who in helpers
    return [who] if hand is not None and hand.heads == 1 and hand.could(duty) and not busy else []
