"""The station bill: every duty has its people, and nobody is in two places."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

from generator.manual.crew import the
from generator.reading.nearest import meant, nearest
from generator.reading.values import untold
from generator.shelves.procedure_files import LAUNCH
from generator.shelves.procedures import shelf
from generator.shelves.stowages import DROPS, SLIDES
from generator.survey.hands import clash, duty_of, hands, improvable, offered, short, spared
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    HELP,
    LIFE,
    TRUTH,
    Finds,
    Found,
    Sight,
    check,
)

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from generator.manual.bill import Duty, Emergency
    from generator.reading.findings import Place
    from generator.survey.hands import Hand
    from generator.vessel.people import Assignment
    from generator.vessel.raft import Raft
    from generator.vessel.vessel import Vessel

_SUBSTITUTES = "SOLAS III/37 (substitutes for key persons); IMO code text 14.10.14"


def _assignments(vessel: Vessel) -> Iterator[tuple[str, str, Assignment]]:
    """(emergency, duty, assignment) of all that the file assigns."""
    for emergency, duties in vessel.station_bill.items():
        for duty, assignment in duties.items():
            yield emergency, duty, assignment


@check("bill.unknown-person", TRUTH, COMMON_PRACTICE)
def duties_name_people_aboard(sight: Sight) -> Finds:
    """The bill names roles that are aboard.

    Why: a duty of somebody who is not aboard is nobody's duty.
    Remedy: write one of the roles under 'people', or add the role there.
    """
    roles = sight.roles
    for emergency, duty, assignment in (
        _assignments(sight.vessel) if roles else ()
    ):  # else no role is told at all
        about = f"{emergency}, {duty}"
        beside = {*assignment.who, assignment.substitute}
        if beside - {None} <= {*roles}:
            continue
        line = duty_of(emergency, duty)
        able = [role for role in (offered(sight, line) if line else roles) if role not in beside]
        for who in assignment.who:
            if who not in roles:
                yield Found(
                    assignment.place("who"),
                    f"{about}: '{who}' is no role aboard",
                    nearest(who, able or roles, taken=[each for each in roles if each in beside]),
                    about,
                )
        if isinstance(assignment.substitute, str) and assignment.substitute not in roles:
            yield Found(
                assignment.place("substitute"),
                f"{about}: the substitute '{assignment.substitute}' is no role aboard",
                nearest(assignment.substitute, able)
                if able
                else "nobody else aboard may have it: write substitute: none",
                about,
            )


@check("bill.unknown-emergency", TRUTH, COMMON_PRACTICE)
def the_bill_is_for_emergencies_there_are(sight: Sight) -> Finds:
    """The bill is for emergencies the manual has.

    Why: under a misspelt name the duties never reach a card.
    Remedy: write the name the message proposes.
    """
    names = [one.id for one in shelf() if one.duties]
    bill = sight.vessel.station_bill
    for emergency in bill:
        if emergency not in names:
            yield Found(
                bill.places[emergency],
                f"there is no station bill for '{emergency}'",
                nearest(emergency, names),
                emergency,
            )


@check("bill.unknown-duty", TRUTH, COMMON_PRACTICE)
def the_bill_names_duties_there_are(sight: Sight) -> Finds:
    """The bill names duties the emergency has.

    Why: under a misspelt name the person never reads of it.
    Remedy: write the duty the message proposes.
    """
    names = {one.id: [line.id for line in one.duties] for one in shelf() if one.duties}
    for emergency, duties in sight.vessel.station_bill.items():
        for duty in duties:
            if emergency in names and duty not in names[emergency]:
                yield Found(
                    duties.places[duty],
                    f"{emergency} has no duty '{duty}'",
                    nearest(duty, names[emergency]),
                    f"{emergency}, {duty}",
                )


def _duties(sight: Sight) -> Iterator[tuple[Emergency, Duty, str]]:
    for emergency in sight.manual.bill.emergencies:
        for duty in emergency.duties:
            yield emergency, duty, f"{emergency.id}, {duty.id}"


@check("bill.unassigned", LIFE, "46 CFR 199.80(b)", COMPOSITION, deferrable=False)
def essential_duties_are_assigned(sight: Sight) -> Finds:
    """Every essential duty has a person.

    Why: what is nobody's duty is not done.
    Remedy: write under 'station-bill' who does it; on a small crew one person may do several that follow each other.
    """
    bill = sight.vessel.station_bill
    known = {one.id: [line.id for line in one.duties] for one in shelf() if one.duties}
    for emergency in sight.manual.bill.emergencies:
        place, open_duties = (
            _place(sight.vessel, emergency.id),
            [duty for duty in emergency.duties if duty.essential and not duty.who],
        )
        if emergency.id in bill:
            assigned = bill[emergency.id]
            for duty in open_duties:
                # The word unknown, or a blank, is found by reading.
                if duty.id not in assigned and not _misspelt(duty.id, assigned, known[emergency.id]):
                    yield Found(
                        place,
                        f"{emergency.id}: nobody has the duty '{duty.id}' ({duty.text})",
                        item=f"{emergency.id}, {duty.id}",
                    )
        elif open_duties and not _misspelt(emergency.id, bill, list(known)):
            duties = ", ".join(f"'{duty.id}' ({duty.text})" for duty in open_duties)
            yield Found(
                place,
                f"{emergency.id}: nobody has a duty; it takes: {duties}",
                f"write under 'station-bill': {emergency.id}, and "
                f"below it for each duty: {open_duties[0].id}: {{who: skipper, substitute: mate}}",
                emergency.id,
            )


def _misspelt(name: str, written: Iterable[str], known: Iterable[str]) -> bool:
    """Whether `name` stands under a wrong name, which is found by itself: it is missing where something unknown is written."""
    words = list(known)
    return name not in written and any(each not in words and meant(each, words) == name for each in written)


def _place(vessel: Vessel, emergency: str) -> Place:
    bill = vessel.station_bill
    return bill.places[emergency] if emergency in bill else vessel.key_place("station-bill")


@check(
    "bill.two-places",
    LIFE,
    "MGN 71 Amendment 1 Annex 2.4 (one duty, or a series within one party)",
    COMPOSITION,
)
def nobody_is_in_two_places(sight: Sight) -> Finds:
    """Nobody has two duties that cannot be done at once, where the people aboard could share them out.

    Why: whoever looks at the person in the water cannot also haul, whoever fights the fire cannot call; one of the two is left.
    Remedy: give one of them to somebody else.
    """
    crew = hands(sight)
    for emergency in sight.manual.bill.emergencies:
        pairs = [pair for pair in itertools.combinations(emergency.duties, 2) if clash(*pair, crew)]
        for first, duty in pairs if pairs and improvable(emergency, crew) else ():
            both = " and ".join(the(who) for who in duty.who if who in first.who)
            yield Found(
                duty.place,
                f"{emergency.id}: {both} has '{first.id}' and '{duty.id}', and nobody can do both at once",
                item=f"{emergency.id}, {duty.id}",
                also=(first.place,),
            )


@check("bill.no-substitute", LIFE, _SUBSTITUTES, COMPOSITION)
def key_duties_have_a_substitute(sight: Sight) -> Finds:
    """Every key duty has a substitute, who is somebody else, where somebody else aboard is able.

    Why: the person may be the one who is hurt or overboard.
    Remedy: write 'substitute' with another role; where nobody else is old enough or able, none is asked for.
    """
    if len(sight.manual.bill.roles) < 2:
        return
    assigned, crew = sight.vessel.station_bill, hands(sight)
    for emergency, duty, about in _duties(sight):
        if not duty.key or not duty.who or spared(duty, crew):
            continue
        if not any(who in crew for who in duty.who):
            continue  # first it is to be said who has it
        block = assigned[emergency.id][duty.id]
        if untold(block.substitute):
            if not _another(duty, crew):
                continue
            yield Found(
                duty.place,
                f"{about}: if the {' and the '.join(duty.who)} cannot, nobody takes over",
                item=about,
            )
        elif block.substitute in duty.who:
            yield Found(
                block.place("substitute"),
                f"{about}: the {block.substitute} would stand in for the {block.substitute}",
                item=about,
            )


def _another(duty: Duty, crew: Mapping[str, Hand]) -> bool:
    """Whether somebody aboard who has not a duty is old enough and able to take it over."""
    return any(not hand.why_not(duty) for role, hand in crew.items() if role not in duty.who and hand.aboard)


@check("bill.one-lost", HELP, _SUBSTITUTES, COMPOSITION)
def one_person_lost_leaves_every_duty_done(sight: Sight) -> Finds:
    """With any one person lost, every essential duty still has somebody, where somebody else aboard is able.

    Why: in the emergency that matters most one person is in the water or hurt.
    Remedy: write a substitute who is another person.
    """
    if len(sight.manual.bill.roles) < 2:
        return
    assigned, crew = sight.vessel.station_bill, hands(sight)
    for emergency, duty, about in _duties(sight):
        if not duty.essential or duty.key or len(set(duty.who)) != 1 or not _another(duty, crew):
            continue
        if spared(duty, crew):
            continue
        block = assigned[emergency.id][duty.id]
        if untold(block.substitute) or block.substitute in duty.who:
            same = block.substitute in duty.who
            who = the(duty.who[0])
            message = (
                f"{about}: {who} would stand in for {who}"
                if same
                else f"{about}: without {who} nobody does it"
            )
            place = block.place("substitute") if same else duty.place
            yield Found(place, message, item=about, weight=LIFE.weight if same else None, about=block)


@check("bill.too-few", HELP, "46 CFR 199.130(a)(5) and common practice", COMPOSITION)
def duties_have_hands_enough(sight: Sight) -> Finds:
    """A duty that takes several persons has as many, where there are as many free.

    Why: one person does not get a raft over the rail, or somebody out of the water.
    Remedy: write several roles: who: [mate, deckhand].
    """
    crew, slid = hands(sight), all(map(_goes_by_itself, sight.vessel.rafts))
    for emergency in sight.manual.bill.emergencies:
        few = [
            duty
            for duty in emergency.duties
            if duty.who and not (slid and duty.id == LAUNCH) and short(duty, crew)
        ]
        for duty in few if few and improvable(emergency, crew) else ():
            about = f"{emergency.id}, {duty.id}"
            there = sum(crew[who].heads if who in crew else 1 for who in set(duty.who))
            twice = next((who for who in duty.who if duty.who.count(who) > 1), "")
            message = f"it takes {duty.persons} persons and has {there}"
            yield Found(
                duty.place,
                f"{about}: {the(twice)} is named twice, and {message}" if twice else f"{about}: {message}",
                item=about,
                weight=LIFE.weight if twice else None,
            )


def _goes_by_itself(raft: Raft) -> bool:
    """Whether a raft slides or drops over the side where it lies, so that one person launches it."""
    return raft.lift_needed is False and raft.kept is not None and raft.kept.goes_over in (SLIDES, DROPS)
