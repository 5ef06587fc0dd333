"""Who helps whom, and who can take command and call."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.manual.crew import the
from generator.reading.values import untold
from generator.survey.hands import hands
from generator.survey.registry import (
    LIFE,
    RECOMMENDATION,
    Finds,
    Found,
    Sight,
    at,
    check,
)

if TYPE_CHECKING:
    from generator.vessel.people import Person, Traveller


@check("people.helper", LIFE, "SOLAS III/8 and MGN 71 Amendment 1 (duties towards those who need help)")
def whoever_needs_help_has_a_helper(sight: Sight) -> Finds:
    """Whoever needs help has a helper with a name on the bill.

    Why: in the dark everybody thinks that somebody else has gone for that person.
    Remedy: write under 'helper' the role that comes for this person, never that person's own.
    """
    roles = sight.roles
    travellers = sight.vessel.voyage.persons if sight.vessel.voyage else ()
    everybody: tuple[Person | Traveller, ...] = (*sight.vessel.people, *travellers)
    for person in everybody:
        who = str(person.role or "somebody aboard")
        if untold(person.needs_help) and person.helper:
            yield at(
                person,
                "helper",
                f"{who}: a helper is named, and 'needs-help' does not say for what",
                remedy="write what for, like needs-help: cannot climb the ladder alone; or take 'helper' out",
                item=who,
                weight=RECOMMENDATION,
            )
        if untold(person.helper) and person.needs_help:
            yield at(person, "needs-help", f"{who}: needs help, and no helper is named", item=who)
        elif isinstance(person.helper, str) and person.helper == person.role:
            yield at(person, "helper", f"{who}: is named as the own helper", item=who)
        elif isinstance(person.helper, str) and person.helper not in roles:
            yield at(
                person,
                "helper",
                f"{who}: the helper '{person.helper}' is no role aboard; there are: {', '.join(roles)}",
                item=who,
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
            able = [
                each.role
                for each in crew.values()
                if not each.unfit and each.role != role and carried.get(each.role) is carried.get(role)
            ]
            yield at(
                person,
                "helper",
                f"{the(hand.role)}, who helps {the(role)}, {why}",
                remedy=f"write helper: {able[0]}"
                if len(able) == 1
                else f"write helper: and one of {', '.join(able)}"
                if able
                else "",
                item=role,
            )
