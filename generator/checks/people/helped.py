"""Who helps whom."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.checks.bill.helping import SEATED_WITH
from generator.manual.crew import the
from generator.reading.values import Quantity, untold
from generator.survey.hands import OLD, hands
from generator.survey.placing import lies
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    LIFE,
    RECOMMENDATION,
    Finds,
    Sight,
    at,
    check,
)
from generator.vessel.people import ADULT, heads, jacket_sizes

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


_DEAF = re.compile(
    r"\b(?:deaf|hard of hearing|hears? (?:nothing|no |neither|not|badly|hardly|poorly|little)|(?:can ?not|can['’]t|does not|doesn['’]t) hear)\b",
    re.IGNORECASE,
)
_SEEN_OR_FELT = re.compile(
    r"\b(?:lights?|lamps?|flash\w*|strobe|blink\w*|shak\w+|vibrat\w+|pillow)\b", re.IGNORECASE
)


_WAKES = re.compile(r"\b(?:wakes?|woken|waking)\b", re.IGNORECASE)
_NOTHING_HEARD = re.compile(
    r"\b(?:deaf|hears nothing|hears no alarms?|(?:can ?not|can['’]t|does not|doesn['’]t) hear)\b(?! (?:in|on) (?:one|the (?:left|right)))",
    re.IGNORECASE,
)


@check("people.deaf-asleep", LIFE, COMMON_PRACTICE)
def who_does_not_hear_is_woken(sight: Sight) -> Finds:
    """Whoever does not hear sleeps where the helper sleeps, or is woken by a light or something that shakes.

    Why: horn, bell and smoke alarm wake everybody else, and nobody thinks of the one who sleeps on.
    Remedy: let the helper sleep in the same cabin, and write both berths so; or carry an alarm that flashes or shakes and name it under 'general-alarm' or 'gear'.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    if not any(isinstance(each.needs_help, str) and _DEAF.search(each.needs_help) for each in vessel.people):
        return
    berths = {str(person.role): lies(sight, person.berth) for person in vessel.people}
    warns = [str(one.general_alarm) if one is not None else ""]
    warns += [str(item.what) for item in vessel.gear if re.search(r"\balarm", str(item.what).lower())]
    warns += [f"{alarm.what} {alarm.spot}" for alarm in vessel.alarms]
    seen = any(_SEEN_OR_FELT.search(each) for each in warns)
    for person in vessel.people if not seen else ():
        here, there = berths.get(str(person.role)), berths.get(str(person.helper))
        needs = person.needs_help if isinstance(person.needs_help, str) else ""
        deaf = _DEAF.search(needs) and not _WAKES.search(needs)
        if not deaf or (here is not None and there is not None and here.space is there.space):
            continue
        if here is not None and there is not None:
            apart = f"sleeps in the {here}, and {the(str(person.helper))}, who helps, in the {there}"
        elif person.helper and one is not None and one.hull.has_rooms and _NOTHING_HEARD.search(needs):
            apart = "and no words say who or what wakes somebody who hears no alarm"
        else:
            continue
        yield at(
            person,
            "needs-help" if here is None or there is None else "helper",
            f"{the(str(person.role))} {needs}, {apart}",
            item=str(person.role),
            also=(person.place("needs-help"),),
        )


_CARRIED = re.compile(
    r"\b(?:carried|lifted|in arms|in the arms|in a sling)\b(?! (?:only )?if)", re.IGNORECASE
)
_BY_OTHERS = re.compile(
    r"\b(?:carried|lifted)\b[^.;]*? by (?:(?:two|three|four)\b|(?:the )?[a-z-]+(?: \d+)? and\b)",
    re.IGNORECASE,
)
"""That two or more lift: two of us, the skipper and the mate."""
_GROWN_UP_KG = 20
"""What somebody lifts at least who carries a grown person with another's help: common practice."""


@check("people.helper-of-two", LIFE, COMMON_PRACTICE)
def nobody_carries_two(sight: Sight) -> Finds:
    """Nobody is to carry two who cannot walk, nor one grown up who hardly lifts anything.

    Why: one of the two is left below while the other is carried up, and nobody goes back through smoke or water.
    Remedy: write another grown person as 'helper' of one of them.
    """
    crew = hands(sight)
    lifts = {str(person.role): person.lifts for person in sight.vessel.people}
    carries: dict[str, Person] = {}
    for person in sight.vessel.people:
        helper, needs = str(person.helper or ""), person.needs_help
        if (
            helper not in crew
            or crew[helper].heads > 1
            or not isinstance(needs, str)
            or not _CARRIED.search(needs)
            or _BY_OTHERS.search(needs)
        ):
            continue
        first, weak = carries.setdefault(helper, person), lifts.get(helper)
        if first is not person:
            message = f"{the(helper)} is to carry {the(str(first.role))} and {the(str(person.role))}"
        elif (
            not person.a_child
            and isinstance(weak, Quantity)
            and weak < _GROWN_UP_KG
            and ADULT in jacket_sizes(person)
        ):
            message = f"{the(helper)} is to carry {the(str(person.role))}, and is said to lift {weak}"
        else:
            continue
        others = [
            each.role for each in crew.values() if each.role not in (helper, person.role) and not each.unfit
        ]
        yield at(
            person,
            "helper",
            message,
            remedy=f"write as 'helper' of one of them another: {', '.join(others)}" if others else "",
            item=str(person.role),
            also=(first.place("helper"),) if first is not person else (),
        )


@check("people.helper-of-three", LIFE, COMMON_PRACTICE, COMPOSITION)
def nobody_holds_three(sight: Sight) -> Finds:
    """Nobody helps three or more while another grown-up, without a duty that cannot be left, helps nobody.

    Why: one has two hands; in the water or on a burning deck the third is let go.
    Remedy: write as 'helper' of one of them somebody who helps nobody yet.
    """
    crew = hands(sight)
    helpers = {person.helper for person in sight.vessel.people if isinstance(person.helper, str)}
    carried = {str(who): raft for raft in sight.vessel.rafts for who in raft.carries}
    duties = (duty for one in sight.manual.bill.emergencies for duty in one.duties)
    bound = {who for duty in duties if duty.continuous for who in duty.who}
    for helper in sorted(helpers):
        those = [
            person
            for person in sight.vessel.people
            if person.helper == helper and crew.get(str(person.role)) and crew[str(person.role)].aboard
        ]
        if helper not in crew or crew[helper].heads > 1 or heads(those) <= SEATED_WITH:
            continue
        free = [
            each.role
            for each in crew.values()
            if each.role not in helpers | bound
            and not (each.unfit or each.needs_help)
            and carried.get(each.role) is carried.get(helper)
        ]
        if free:
            roles = [str(each.role) for each in those]
            yield at(
                those[-1],
                "helper",
                f"{the(helper)} helps {heads(those)}: {', '.join(map(the, roles))}; {' and '.join(map(the, free))} nobody",
                remedy=f"write helper: {free[0]}"
                if len(free) == 1
                else f"write helper: and one of {', '.join(free)}",
                item=roles[-1],
                also=tuple(each.place("helper") for each in those[:-1]),
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


VERY_OLD, BEYOND = OLD + 5, OLD + 10
"""From which age, in years, somebody is asked whether he still helps another, and from which he does not: common practice."""


@check("people.helper-old", LIFE, COMMON_PRACTICE)
def helpers_are_not_very_old(sight: Sight) -> Finds:
    """Nobody of eighty or more helps another, a child above all, where somebody younger is free to.

    Why: she holds on with both hands herself; in smoke or a seaway the child goes its own way, and nobody else is told off for it.
    Remedy: write as 'helper' somebody younger who helps nobody yet.
    """
    crew = hands(sight)
    voyage = sight.vessel.voyage
    needing: list[Person | Traveller] = [*sight.vessel.people, *(voyage.persons if voyage else ())]
    helpers = {str(each.helper) for each in needing if isinstance(each.helper, str)}
    helped: dict[str, list[Person | Traveller]] = {}
    for person in needing:
        old = crew.get(str(person.helper or ""))
        if old is None or old.oldest is None or old.heads > 1 or old.oldest < VERY_OLD or old.unfit:
            continue
        those = helped.setdefault(old.role, [])
        if crew.get(str(person.role), old).aboard and all(each.role != person.role for each in those):
            those.append(person)
    for helper, those in helped.items():
        age, roles = crew[helper].oldest or 0, [str(each.role) for each in those]
        younger = [
            each.role
            for each in crew.values()
            if not each.unfit and each.role not in (*roles, *helpers) and (each.oldest or 0) < OLD
        ]
        if younger and those:
            yield at(
                those[0],
                "helper",
                f"{the(helper)}, who helps {' and '.join(map(the, roles))}, is {age} years old",
                remedy=f"write helper: {younger[0]}"
                if len(younger) == 1
                else f"write helper: and one of {', '.join(younger)}",
                item=roles[0],
                weight=None if age >= BEYOND else RECOMMENDATION,
                also=tuple(each.place("helper") for each in those[1:]),
            )
