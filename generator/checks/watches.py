"""Watches: every hour has somebody on deck who can command or call, nobody is there all day or alone who should not be."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.manual.crew import the
from generator.manual.watches import Stretch, stretches
from generator.reading.clock import DAY_MIN
from generator.reading.nearest import nearest
from generator.survey.limits import most
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    HELP,
    LIFE,
    TRUTH,
    Finds,
    Sight,
    at,
    check,
)
from generator.survey.sight import once

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from generator.vessel.people import Person

_ABLE = ("command", "radio")


def _at(these: Iterable[Stretch]) -> str:
    """When these are, in words: from 00:00 to 04:00, from 20:00 to 24:00."""
    return ", ".join(f"from {each.begins} to {each.ends}" for each in these)


@check("watches.unknown-role", TRUTH, COMMON_PRACTICE)
def watches_are_kept_by_people_aboard(sight: Sight) -> Finds:
    """Whoever is on watch is aboard.

    Why: the watch that a misspelt role keeps is kept by nobody.
    Remedy: write the role as it stands under 'people', or add it there.
    """
    for watch in sight.vessel.watches:
        for role in watch.who or ():
            if role not in sight.roles:
                remedy = nearest(role, sight.roles, taken=watch.who)
                yield at(watch, "who", f"'{role}' is no role aboard", remedy=remedy, item=role)


@check("watches.gap", LIFE, COMMON_PRACTICE)
def every_hour_has_a_watch(sight: Sight) -> Finds:
    """Every hour of the day has somebody on deck.

    Why: a ship seen too late, a man overboard seen by nobody: both happen in the hour that two watches leave between them.
    Remedy: write the watch that is kept then, or let the watch before it go on until the next begins.
    """
    empty = [each for each in _day(sight) if not each.watches]
    if empty:
        yield at(sight.vessel, "watches", f"no watch is kept {_at(empty)}", item="watches")


@check("watches.doubled", TRUTH, COMMON_PRACTICE)
def nobody_keeps_two_watches_at_once(sight: Sight) -> Finds:
    """Nobody stands in two watches at one time.

    Why: one of the two is short of the person that the list gives it.
    Remedy: correct the times, or name somebody else in one of them.
    """
    told: set[str] = set()
    for stretch in _day(sight):
        for role in stretch.on:
            twice = [each for each in stretch.watches if role in each.who]
            if len(twice) > 1 and role not in told:
                told.add(role)
                yield at(
                    twice[1],
                    "who",
                    f"{the(role)} stands in two watches {_at([stretch])}",
                    item=role,
                    also=(twice[0].place("who"),),
                )


@check("watches.nobody-able", HELP, COMMON_PRACTICE)
def each_watch_has_somebody_who_leads_or_calls(sight: Sight) -> Finds:
    """Each watch has somebody who can command or make the distress call.

    Why: until the others are awake the watch is alone with whatever happens.
    Remedy: put somebody with the ability command or radio into that watch, or teach one of it and write it under 'abilities'.
    """
    people = _people(sight)
    if not any(person.abilities for person in people.values()):
        return
    lost = [
        each
        for each in _day(sight)
        if each.on
        and all(role in people for role in each.on)
        and not any(able in people[role].abilities for role in each.on for able in _ABLE)
    ]
    if lost:
        message = f"{_at(lost)} nobody on deck can command or make the distress call"
        yield at(lost[0].watches[0], "who", message, item=lost[0].span)


@check(
    "watches.no-rest",
    HELP,
    COMMON_PRACTICE,
)
def nobody_is_on_watch_all_day(sight: Sight) -> Finds:
    """Nobody is on watch all round the clock, nor for more than eighteen hours of it.

    Why: whoever never sleeps falls asleep on watch.
    Remedy: give each of them six hours below at least, or name who is on call under another watch.
    """
    people, most_min = _people(sight), 60 * most(sight.vessel, "hours of watch in a day")
    for role, person in people.items():
        kept = [each for each in _day(sight) if role in each.on]
        single = person.quantity is None and len(people) > 1
        kept_min = sum(each.lasts_min for each in kept)
        if single and kept_min > most_min:
            how = "all round the clock" if kept_min >= DAY_MIN else f"{kept_min / 60:g} hours of the day"
            yield at(kept[0].watches[0], "who", f"{the(role)} is on watch {how}", item=role)


@check("watches.alone", LIFE, COMMON_PRACTICE)
def whoever_needs_help_is_not_alone_on_watch(sight: Sight) -> Finds:
    """No child, and nobody who needs help, is alone on watch.

    Why: alone on deck nobody sees them fall, and nobody does what they cannot.
    Remedy: put somebody grown and able into that watch with them.
    """
    people = _people(sight)
    for role, person in people.items():
        weak = bool(person.age) or isinstance(person.needs_help, str)
        alone = [each for each in _day(sight) if each.on == (role,)] if weak else []
        if alone and person.quantity is None:
            why = "is a child" if person.age else "needs help"
            yield at(
                alone[0].watches[0],
                "who",
                f"{the(role)} {why}, and is alone on watch {_at(alone)}",
                item=role,
            )


@check("watches.duty-below", HELP, COMMON_PRACTICE, COMPOSITION)
def a_duty_of_the_first_moment_has_its_person_on_deck(sight: Sight) -> Finds:
    """What must be done at once on deck is somebody's who is there in every watch, or whose substitute is.

    Why: whoever comes up from a berth comes a minute too late to keep an eye on a head in the water.
    Remedy: in the station bill name roles of different watches as 'who' and 'substitute'.
    """
    day = [each for each in _day(sight) if each.on]
    for emergency in sight.manual.bill.emergencies if day else ():
        for duty in emergency.duties:
            able = {*duty.who, duty.substitute}
            lost = [each for each in day if able.isdisjoint(each.on)]
            if duty.at_once and duty.who and lost:
                yield at(
                    lost[0].watches[0],
                    "who",
                    f"{emergency.title}: '{duty.text}' is the duty of {', '.join(duty.who)}"
                    f"{f' or {duty.substitute}' if duty.substitute else ''}, none of them on deck {_at(lost)}",
                    item=f"{emergency.id}.{duty.id}",
                    also=(duty.place,),
                )


@once
def _day(sight: Sight) -> tuple[Stretch, ...]:
    return stretches(sight.vessel)


@once
def _people(sight: Sight) -> Mapping[str, Person]:
    return {str(person.role): person for person in sight.vessel.people if isinstance(person.role, str)}
