"""What those aboard can do: somebody besides the one who orders and calls, a child nothing it is too young for, the ill and the engine looked after."""

from __future__ import annotations

from generator.checks.people.left import BUTTON, one_alone
from generator.manual.crew import the
from generator.manual.left_to_act import able as able_hands
from generator.shelves.procedure_files import HALF_GROWN
from generator.survey.ailments import limits_in
from generator.survey.hands import hands
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    HELP,
    LIFE,
    RECOMMENDATION,
    Finds,
    Found,
    Sight,
    at,
    check,
)
from generator.vessel.particulars import FAR

RADIO = "radio"
_DONE_WITH = {"command": "take command", RADIO: "make the distress call"}
"""The abilities that a life hangs on, with what is done by them."""


@check(
    "people.second-in-command",
    LIFE,
    "MGN 280 Annex 7 (a second person briefed); SOLAS III/37 (substitutes for key persons)",
)
def somebody_can_take_over(sight: Sight) -> Finds:
    """Somebody besides the skipper can take command, and somebody besides whoever calls for help can call.

    Why: that one may be the one who is overboard or hurt, and the others look at a radio nobody showed them.
    Remedy: brief a second person, then write command and radio among that role's abilities.
    """
    crew = list(hands(sight).values())
    told = [hand for hand in crew if hand.abilities]
    alone: dict[str, list[str]] = {}
    calls = sight.vessel.radio is not None and bool(sight.vessel.radio.sets)
    for ability, words in _DONE_WITH.items():
        able = [hand for hand in told if ability in hand.abilities]
        with_others = len(crew) > 1 or (ability == RADIO and calls and able_hands(sight.vessel) > 1)
        if len(able) == 1 and able[0].heads == 1 and with_others:
            alone.setdefault(able[0].role, []).append(words)
    for role, done in alone.items():
        others = [hand.role for hand in crew if hand.role != role and not hand.weak]
        if not others and one_alone(sight):
            continue  # of whoever has nobody to brief but children another check speaks
        yield Found(
            sight.vessel.key_place("people"),
            f"nobody besides {the(role)} can {' or '.join(done)}",
            f"brief a second person, {the(others[0])} for example, then write command and radio among that role's abilities"
            if others
            else "",
            "" if done[0] == _DONE_WITH["command"] else RADIO,
            None if others else RECOMMENDATION,
        )


@check("people.nobody-able", LIFE, "MGN 280 Annex 7 (a second person briefed); common practice")
def somebody_can_command_and_call(sight: Sight) -> Finds:
    """Where it is said what people can do, somebody aboard can command, and somebody can call for help.

    Why: with the one who could ashore, nobody decides and nobody is heard.
    Remedy: take somebody along who can, or teach one and write it under 'abilities'.
    """
    crew = [hand for hand in hands(sight).values() if hand.aboard]
    told = [hand for hand in crew if hand.abilities]
    for ability, words in _DONE_WITH.items():
        if told and not any(ability in hand.abilities for hand in told):
            whom = "of those on the voyage nobody" if sight.vessel.voyage else "nobody"
            block = sight.vessel.voyage or sight.vessel
            key = "persons" if sight.vessel.voyage else "people"
            yield Found(
                block.key_place(key), f"{whom} can {words}: no role has the ability '{ability}'", item=ability
            )


@check("people.nobody-trained", HELP, COMMON_PRACTICE)
def the_ill_and_the_engine_are_looked_after(sight: Sight) -> Finds:
    """Where it is said what people can do, somebody knows first aid where help is hours away, and somebody the engine that is built in.

    Why: nobody there stops a bleeding or breathes for somebody who turns blue, or gets the engine going again off a lee shore; none of it is learnt from a page in that minute.
    Remedy: take somebody along who can, or teach one, then write first aid or engine among that role's abilities.
    """
    one = sight.vessel.vessel
    told = [hand for hand in hands(sight).values() if hand.abilities]
    if one is None or not told:
        return
    far, built_in = one.waters in FAR, one.inboard_engine
    asked = (("first aid", far, f"she sails {one.waters}"), ("engine", built_in, f"she has an {one.engine}"))
    for ability, wanted, why in asked:
        if wanted and not any(ability in hand.abilities for hand in told):
            yield Found(
                sight.vessel.key_place("people"),
                f"no role has the ability '{ability}', and {why}",
                item=ability,
                weight=LIFE.weight if far and ability == "first aid" else None,
            )


@check("people.child-able", LIFE, COMMON_PRACTICE)
def a_child_is_not_said_to_command(sight: Sight) -> Finds:
    """Nobody is said to be able to command or call who is not yet half grown; to call from eight on where one alone can act for all.

    Why: the bill counts on those of whom it is said, and a small child does neither.
    Remedy: take it out of that role's abilities; if the age is wrong, correct it.
    """
    alone = one_alone(sight)
    for person in sight.vessel.people:
        ages = person.child_ages
        calls = alone and bool(ages) and min(ages) >= BUTTON
        told = (
            [each for each in _DONE_WITH if each in person.abilities and not (each == RADIO and calls)]
            if len(ages) == len(person.age) > 0
            else []
        )
        if told and max(ages) < HALF_GROWN:
            yield at(
                person,
                "abilities",
                f"{person.role}: {' and '.join(map(str, ages))} years old, with the "
                f"{'abilities' if len(told) > 1 else 'ability'} {' and '.join(repr(each) for each in told)}",
                item=str(person.role),
                also=(person.place("age"),),
            )


@check("people.able-unable", LIFE, COMMON_PRACTICE, COMPOSITION)
def nobody_can_what_his_entry_denies(sight: Sight) -> Finds:
    """Nobody has an ability that 'medical' or 'needs-help' of the same person denies.

    Why: the bill counts on a swimmer, a voice at the radio or an ear that is not there.
    Remedy: ask, then take the ability out, or correct what stands under 'medical' or 'needs-help'.
    """
    for person in sight.vessel.people:
        for key in ("medical", "needs-help"):
            told = person.__dict__.get(key.replace("-", "_"))
            limits = limits_in(told) if isinstance(told, str) else frozenset()
            those = [each for each in person.abilities if not _DENIES.get(each, _NONE).isdisjoint(limits)]
            denied = next((each for each in those if each not in _counted_on(sight, str(person.role))), "")
            if denied:
                yield at(
                    person,
                    "abilities",
                    f"{the(str(person.role))} has the ability '{denied}', and what stands under '{key}' denies it",
                    item=str(person.role),
                    also=(person.place(key),),
                )
                break


def _counted_on(sight: Sight, role: str) -> set[str]:
    """The abilities that duties of somebody take: that he has such a duty and is not fit for it the bill's own check tells."""
    duties = (duty for emergency in sight.manual.bill.emergencies for duty in emergency.duties)
    return {duty.needs for duty in duties if role in duty.who or role == duty.substitute}


_NONE: frozenset[str] = frozenset()
_DENIES = {
    "command": frozenset(("mind",)),
    RADIO: frozenset(("hear", "speak", "mind")),
    "first aid": frozenset(("see", "mind")),
    "engine": frozenset(("see", "mind")),
    "deck": frozenset(("see", "move", "mind")),
    "swim": frozenset(("swim", "mind")),
}
"""What each ability is denied by, as `ailments.LIMITS` has it."""
