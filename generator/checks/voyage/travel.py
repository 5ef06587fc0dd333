"""The voyage: who travels, what they need, and that everything lasts until its end."""

from __future__ import annotations

import calendar
import contextlib
import itertools
import re
from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING

from generator.calc.expiry import add_months
from generator.manual.bill import assigned_to
from generator.manual.crew import the
from generator.reading.values import Stamp, all_known, known
from generator.shelves.procedure_files import GRAB_BAG, PARTS
from generator.survey.hands import Hand, clash, hands, improvable
from generator.survey.limits import months, most
from generator.survey.passed import good, span
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    DEFECT,
    HELP,
    LIFE,
    RECOMMENDATION,
    TRUTH,
    UPKEEP,
    Finds,
    Found,
    Sight,
    at,
    check,
)
from generator.vessel.people import Traveller, meant_by

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from generator.manual.bill import Duty, Emergency
    from generator.reading.findings import Place

CHILD = "age of a child"
_OVERDUE_DAYS = 3  # a voyage that ends late by calm or head winds; later the alarm helps nobody
_MONTHS = {name.lower(): number for number, name in enumerate(calendar.month_name) if name}
_DAY_MONTH = re.compile(rf"\b(\d{{1,2}})(?:st|nd|rd|th)? (?:of )?({'|'.join(_MONTHS)})(?:,? (\d{{4}}))?\b")
_ISO = re.compile(r"\b(\d{4})-(\d{2})-(\d{2})\b")


@check(
    "voyage.adult-lifejackets",
    LIFE,
    "33 CFR 175.15; SOR/2010-91 s. 204(a) (a lifejacket of the right size for each)",
    COMPOSITION,
    deferrable=False,
)
def grown_ups_have_their_size(sight: Sight) -> Finds:
    """There is an adult's lifejacket for every grown-up on the voyage.

    Why: a child's jacket does not hold a grown-up's head above water.
    Remedy: bring lifejackets of the adult size aboard.
    """
    voyage, jackets = sight.vessel.voyage, sight.vessel.lifejackets
    counts = all_known(each.quantity for each in jackets if each.size not in ("child", "infant"))
    if not voyage or not jackets or counts is None:
        return
    adults = sum(not _is_child(sight, each) for each in voyage.persons)
    if adults > sum(counts):
        yield Found(
            voyage.key_place("persons"),
            f"grown-ups on the voyage: {adults}; lifejackets of the adult size: {sum(counts)}",
        )


@check("voyage.not-briefed", UPKEEP, "46 CFR 26.03-1 (before getting under way)")
def everybody_was_shown_round(sight: Sight) -> Finds:
    """Once she has left, everybody on the voyage has been shown round and briefed.

    Why: a guest who never put a lifejacket on does not find its buckle in the water.
    Remedy: show them round by the first page, then write the day under 'briefed'.
    """
    voyage = sight.vessel.voyage
    if (
        not voyage
        or not isinstance(voyage.departs, Stamp)
        or voyage.departs.last_day > sight.as_of
        or not isinstance(voyage.until, Stamp)
    ):
        return
    if voyage.until.last_day >= sight.as_of and not voyage.briefed:
        yield at(voyage, "departs", f"she left on {voyage.departs}, and nothing says that they were briefed")


@check("voyage.too-many", LIFE, "46 CFR 28.120 (aggregate capacity for all aboard)", deferrable=False)
def no_more_travel_than_fit(sight: Sight) -> Finds:
    """No more people travel than may be aboard and the rafts hold.

    Why: raft, lifejackets and water are counted for the most persons.
    Remedy: leave somebody ashore, or describe what was added for them.
    """
    voyage, one, rafts = sight.vessel.voyage, sight.vessel.vessel, sight.vessel.rafts
    if not voyage or not one:
        return
    limits = [(one.persons, "may be aboard")] if isinstance(one.persons, int) else []
    places = all_known(raft.persons for raft in rafts)
    if rafts and places is not None:
        limits.append((sum(places), "have a place in a raft"))
    for places_for, what in limits:
        if len(voyage.persons) > places_for:
            yield Found(
                voyage.key_place("persons"), f"{len(voyage.persons)} people travel, and {places_for} {what}"
            )
            return


@check("voyage.unknown-role", TRUTH, COMMON_PRACTICE)
def travellers_have_roles_of_the_bill(sight: Sight) -> Finds:
    """Everybody on the voyage has one of the roles of the vessel's file, and each role no more persons than that says.

    Why: duties hang on roles; whoever has another role has no duty and no substitute.
    Remedy: write one of the roles under 'people' in vessel.yaml, or add the role there.
    """
    roles = sight.roles
    taken: dict[str, list[Traveller]] = {}
    for traveller in sight.vessel.voyage.persons if sight.vessel.voyage else ():
        role = traveller.role
        if isinstance(role, str) and role not in roles:
            yield at(
                traveller, "role", f"'{role}' is no role aboard; there are: {', '.join(roles)}", item=role
            )
        elif isinstance(role, str):
            taken.setdefault(role, []).append(traveller)
    for role, those in taken.items():
        many = meant_by(role, sight.vessel.people)
        if len(those) > many:
            said = "two travel" if many == 1 and not those[2:] else f"{len(those)} travel"
            there = f", and there are {many} of them aboard" if many > 1 else ""
            yield at(
                those[many],
                "role",
                f"{said} as '{role}'{there}",
                item=role,
                also=tuple(each.place("role") for each in those[:many][:1]),
            )


@check("voyage.overstays", LIFE, COMMON_PRACTICE)
def everything_lasts_the_voyage(sight: Sight) -> Finds:
    """Nothing runs out before the voyage ends.

    Why: what runs out under way cannot be renewed.
    Remedy: renew it before she leaves, or end the voyage earlier.
    """
    voyage = sight.vessel.voyage
    if not voyage or not isinstance(voyage.until, Stamp):
        return
    for each in sight.reckoning.deadlines_until(voyage.until.last_day):
        if each.firm and sight.until <= each.last_day < voyage.until.last_day:
            yield Found(
                each.place,
                f"{good(each, sight)}; the voyage lasts until {voyage.until}",
                item=each.item,
                also=(voyage.place("until"),),
            )


@check("voyage.over", TRUTH, COMMON_PRACTICE)
def the_voyage_is_not_over(sight: Sight) -> Finds:
    """The voyage described is not over.

    Why: names, helpers and the hour of alarm are those of people who went ashore.
    Remedy: write the next voyage, or take voyage.yaml away.
    """
    voyage = sight.vessel.voyage
    if voyage and isinstance(voyage.until, Stamp) and voyage.until.last_day < sight.as_of:
        yield at(voyage, "until", f"the voyage was over on {voyage.until}")


@check("voyage.too-long", TRUTH, COMMON_PRACTICE)
def the_voyage_is_one_voyage(sight: Sight) -> Finds:
    """A voyage begins within a year, and lasts no longer.

    Why: everything must be good through its last day, and whoever waits ashore waits till then; a year mistyped makes them wait for years.
    Remedy: write when she leaves and until when at the latest those named are aboard; then a new file for those who follow.
    """
    voyage, longest = sight.vessel.voyage, months(sight.vessel, "length of a voyage")
    if not voyage or not longest:
        return
    begins = voyage.departs if isinstance(voyage.departs, Stamp) else None
    first = begins.last_day if begins else sight.as_of
    if begins and begins.first_day > add_months(sight.as_of, longest):
        key, said = "departs", f"she leaves on {begins}, {span(sight.as_of, begins.first_day)} from now"
    elif isinstance(voyage.until, Stamp) and voyage.until.first_day > add_months(first, longest):
        key, said = "until", f"the voyage lasts until {voyage.until}, {span(first, voyage.until.first_day)}"
    else:
        return
    later = frozenset(
        (voyage.place("briefed"), *(each.place for each in sight.deadlines if each.last_day >= sight.as_of))
    )
    yield replace(
        at(voyage, key, said, also=(voyage.place("departs"),) if begins and key == "until" else ()),
        explains=later,
    )


@check("voyage.briefed-early", UPKEEP, "46 CFR 26.03-1 (before getting under way)")
def they_were_briefed_for_this_voyage(sight: Sight) -> Finds:
    """Those on the voyage were briefed for it, not for one long before.

    Why: the day of the last voyage's briefing was left in the file; those who come now have seen nothing.
    Remedy: show them round by the first page, then write the day under 'briefed'.
    """
    voyage, before = sight.vessel.voyage, months(sight.vessel, "briefed before a voyage")
    if not voyage or not before or not isinstance(voyage.briefed, Stamp):
        return
    begins = voyage.departs if isinstance(voyage.departs, Stamp) else None
    first = begins.first_day if begins else sight.as_of
    if voyage.briefed.last_day < first and add_months(voyage.briefed.last_day, before) < first:
        said = f"they were briefed {voyage.briefed.when}, {span(voyage.briefed.last_day, first)} before she leaves"
        yield at(voyage, "briefed", said, also=(voyage.place("departs"),) if begins else ())


@check("voyage.alarm-day", LIFE, COMMON_PRACTICE)
def the_alarm_is_raised_when_she_is_overdue(sight: Sight) -> Finds:
    """The day on which the shore contact raises the alarm is that of the voyage's end, or soon after.

    Why: people in a raft wait for an alarm that is raised weeks later, or one is raised while she still sails.
    Remedy: write under 'raise-alarm' the day and hour after which no message means that something happened; or correct 'until'.
    """
    voyage = sight.vessel.voyage
    if not voyage or not isinstance(voyage.raise_alarm, str) or not isinstance(voyage.until, Stamp):
        return
    last = voyage.until.last_day
    days = days_in(voyage.raise_alarm, last.year)
    if not days:
        return
    late, early = (days[0] - last).days, (last - days[-1]).days
    if late > _OVERDUE_DAYS:
        message = f"the alarm is raised {late} days after {voyage.until}, when the voyage ends"
        yield at(voyage, "raise-alarm", message, also=(voyage.place("until"),))
    elif early > 0:
        begins = voyage.departs if isinstance(voyage.departs, Stamp) else None
        over = early >= _OF_ANOTHER_YEAR_DAYS or (begins is not None and days[-1] < begins.first_day)
        told = "nobody waits for it this time" if over else "when the voyage may still last"
        message = f"the alarm is raised {early} days before {voyage.until}, {told}"
        weight = None if over else RECOMMENDATION
        yield at(voyage, "raise-alarm", message, also=(voyage.place("until"),), weight=weight)


_OF_ANOTHER_YEAR_DAYS = 60
"""How many days before a voyage's end a day for the alarm is one of another voyage: common practice."""


@check("voyage.children", LIFE, "33 CFR 175.15(c)", deferrable=False)
def children_have_their_size(sight: Sight) -> Finds:
    """There is a child's lifejacket for every child on the voyage.

    Why: a child slips out of an adult's jacket.
    Remedy: bring lifejackets of the child's size aboard.
    """
    voyage, jackets = sight.vessel.voyage, sight.vessel.lifejackets
    counts = all_known(each.quantity for each in jackets if each.size in ("child", "infant"))
    if not voyage or counts is None:
        return
    children = sum(_is_child(sight, each) for each in voyage.persons)
    if children > sum(counts):
        yield Found(
            voyage.key_place("persons"),
            f"children under {most(sight.vessel, CHILD) + 1:g} on the voyage: {children}; lifejackets of their size: {sum(counts)}",
        )


def days_in(text: str, year: int) -> list[date]:
    """The days that words name, in order: 21 June 2026, 21 June (of `year`), 2026-06-21; what is no day is left out."""
    small = text.lower()
    told = [(int(y or year), _MONTHS[month], int(day)) for day, month, y in _DAY_MONTH.findall(small)]
    told += [(int(y), int(month), int(day)) for y, month, day in _ISO.findall(small)]
    found = []
    for y, month, day in told:
        with contextlib.suppress(ValueError):
            found.append(date(y, month, day))
    return sorted(found)


def _is_child(sight: Sight, person: Traveller) -> bool:
    """Whether somebody on the voyage is of an age at which a lifejacket of a child's size is asked for."""
    return isinstance(person.age, int) and person.age <= most(sight.vessel, CHILD)


@check(
    "voyage.duty-ashore",
    LIFE,
    COMMON_PRACTICE,
    COMPOSITION,
)
def duties_of_the_voyage_are_done_by_those_aboard(sight: Sight) -> Finds:
    """Every essential duty, part in a raft's party, bag and watch has somebody who is on the voyage, if only the substitute.

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
    left += _parts_ashore(sight, crew) if voyage else []
    if voyage is not None and left:
        yield Found(
            voyage.key_place("persons"),
            f"nobody on the voyage has: {'; '.join(about for about, _ in left)}",
            item="voyage",
            also=tuple(place for _, place in left),
        )


def _parts_ashore(sight: Sight, crew: Mapping[str, Hand]) -> list[tuple[str, Place]]:
    """What else is left to those who stayed ashore alone: a raft's party, a bag, a watch."""
    vessel = sight.vessel
    told: list[tuple[str, Iterable[str], Place]] = []
    for raft in vessel.rafts:
        party = raft.party
        told += [
            (f"party of the {raft.name}, {part}", party.__dict__.get(part) or (), party.place(part))
            for part in PARTS
            if party is not None
        ]
    takes = assigned_to(vessel, GRAB_BAG)
    instead = known(takes.substitute) if takes is not None else None
    for bag in vessel.grab_bags:
        carrier = known(bag.carried_by)
        told.append(("the grab bag", [who for who in (carrier, instead) if who], bag.place("carried-by")))
    told += [(f"watch from {watch.from_}", watch.who or (), watch.place("who")) for watch in vessel.watches]
    found = []
    for about, those, place in told:
        named = [str(who) for who in those if str(who) in crew]
        if named and not any(crew[who].aboard for who in named):
            found.append((f"{about} ({', '.join(named)})", place))
    return found


@check("voyage.bound-twice", HELP, COMMON_PRACTICE, COMPOSITION)
def substitutes_of_those_ashore_are_free(sight: Sight) -> Finds:
    """Whoever stands in for somebody who stayed ashore has no other duty at the same time, where those aboard could share them out; least of all whoever keeps an eye on the head in the water.

    Why: the bill was right for all; with one ashore two duties fall to one pair of hands.
    Remedy: give one of the duties, in the boat's file, to somebody else who is on the voyage.
    """
    crew, voyage = hands(sight), sight.vessel.voyage
    aboard = {role: hand for role, hand in crew.items() if hand.aboard}
    told: list[tuple[str, Place]] = []
    eyes = False
    for emergency in sight.manual.bill.emergencies if voyage and len(aboard) < len(crew) else ():
        duties = tuple(_of_those_aboard(duty, crew) for duty in emergency.duties)
        now = replace(emergency, duties=duties)
        before = [pair for pair in itertools.combinations(emergency.duties, 2) if clash(*pair, crew)]
        pairs = [pair for pair in itertools.combinations(duties, 2) if clash(*pair, aboard)]
        known_of = {(one.id, other.id) for one, other in before}
        fresh = [
            pair
            for pair in pairs
            if (pair[0].id, pair[1].id) not in known_of and not _passed_on(pair, emergency, aboard)
        ]
        for one, other in fresh if fresh and improvable(now, aboard) else ():
            both = " and ".join(the(who) for who in other.who if who in one.who)
            told.append((f"{emergency.id}: {both} has '{one.id}' and '{other.id}'", other.place))
            eyes = eyes or one.at_once or other.at_once
    if voyage is not None and told:
        yield Found(
            voyage.key_place("persons"),
            f"in place of those ashore: {'; '.join(about for about, _ in told)}",
            item="voyage",
            weight=DEFECT if eyes else None,
            also=tuple(place for _, place in told),
        )


def _passed_on(pair: tuple[Duty, Duty], emergency: Emergency, aboard: dict[str, Hand]) -> bool:
    """Whether one of two duties is passed on in turn, to a substitute who is aboard and has neither."""
    bound = {who for duty in pair for who in duty.who}
    of_old = [
        duty
        for duty in emergency.duties
        if duty.id in (pair[0].id, pair[1].id) and bound.intersection(duty.who)
    ]
    return any(duty.substitute in aboard and duty.substitute not in bound for duty in of_old)


def _of_those_aboard(duty: Duty, crew: Mapping[str, Hand]) -> Duty:
    """A duty as those who are aboard have it: the substitute does it where all others stayed ashore."""
    there = tuple(who for who in duty.who if who not in crew or crew[who].aboard)
    instead = crew.get(duty.substitute)
    if not there and duty.who and instead is not None and instead.aboard:
        there = (duty.substitute,)
    return replace(duty, who=there)
