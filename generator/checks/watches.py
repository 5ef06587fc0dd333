"""Watches: every hour has somebody on deck who can command or call, nobody is there all day or alone who should not be."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.manual.crew import the
from generator.manual.watches import Stretch, stretches
from generator.manual.wearing import wearers
from generator.reading.clock import DAY_MIN
from generator.reading.nearest import nearest
from generator.shelves.procedure_files import HALF_GROWN
from generator.survey.ailments import limits_in
from generator.survey.hands import sole
from generator.survey.limits import most
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    DEFECT,
    HELP,
    LIFE,
    RECOMMENDATION,
    TRUTH,
    Finds,
    Sight,
    at,
    check,
)
from generator.survey.sight import once
from generator.vessel.particulars import FAR
from generator.vessel.people import heads, meant_by

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from generator.vessel.people import Person

_MORNING, _EVENING, _MOST_OF_A_DAY = 5 * 60, 23 * 60, 8 * 60
"""Watches that leave out as much as that of the day alone, in minutes, are those of the nights: by day all are up."""
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
        by_day = all(each.begins >= _MORNING and each.ends <= _EVENING for each in empty)
        nights_alone = by_day and sum(each.lasts_min for each in empty) >= _MOST_OF_A_DAY
        yield at(
            sight.vessel,
            "watches",
            f"no watch is kept {_at(empty)}",
            remedy="where all are up by day, write that as a watch of all of them" if nights_alone else "",
            item="watches",
            weight=RECOMMENDATION if nights_alone else None,
        )


@check("watches.doubled", TRUTH, COMMON_PRACTICE)
def nobody_keeps_two_watches_at_once(sight: Sight) -> Finds:
    """Nobody stands in two watches at one time.

    Why: one of the two is short of the person that the list gives it.
    Remedy: correct the times, or name somebody else in one of them.
    """
    by_two: dict[int, tuple[Stretch, list[str]]] = {}
    for role, stretch in _doubled(sight).items():
        second = [each for each in stretch.watches if role in each.who][1]
        by_two.setdefault(id(second), (stretch, []))[1].append(role)
    for stretch, roles in by_two.values():  # of one wrong hour, whomever it concerns
        twice = [each for each in stretch.watches if roles[0] in each.who]
        stand = "stands" if len(roles) == 1 else "stand"
        yield at(
            twice[1],
            "who",
            f"{' and '.join(map(the, roles))} {stand} in two watches {_at([stretch])}",
            item=", ".join(roles),
            also=(twice[0].place("who"),),
        )


@once
def _doubled(sight: Sight) -> dict[str, Stretch]:
    """Who stands in two watches at once, each with the first stretch in which."""
    found: dict[str, Stretch] = {}
    for stretch in _day(sight):
        for role in stretch.on:
            if sum(role in each.who for each in stretch.watches) > 1:
                found.setdefault(role, stretch)
    return found


@check("watches.nobody-able", LIFE, COMMON_PRACTICE)
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


@check("watches.no-rest", LIFE, COMMON_PRACTICE)
def nobody_is_on_watch_all_day(sight: Sight) -> Finds:
    """Nobody is on watch all round the clock, nor for more than eighteen hours of it, nor for more than twelve on end.

    Why: whoever never sleeps falls asleep on watch.
    Remedy: give each of them six hours below at least, or name who is on call under another watch.
    """
    people, most_min = _people(sight), 60 * most(sight.vessel, "hours of watch in a day")
    for role, person in people.items():
        if role in _doubled(sight):
            continue  # of one wrong hour that is told
        kept = [each for each in _day(sight) if role in each.on]
        single = person.quantity is None and len(people) > 1
        kept_min = sum(each.lasts_min for each in kept)
        turns_min = sum(each.lasts_min / (len(each.on) if _by_turns(each) else 1) for each in kept)
        if kept_min <= _UP_MIN and turns_min <= _SLEEPLESS_MIN:
            continue  # by day all are up, and sleep by turns
        on_end = _on_end(_day(sight), role) if single else 0
        if single and kept_min > most_min:
            how = "all round the clock" if kept_min >= DAY_MIN else f"{kept_min / 60:g} hours of the day"
        elif on_end > _ON_END_MIN:
            how = f"{on_end / 60:g} hours on end"
        else:
            continue
        weight = RECOMMENDATION if kept_min <= most_min and on_end <= _SLEEPLESS_MIN else None
        yield at(kept[0].watches[0], "who", f"{the(role)} is on watch {how}", item=role, weight=weight)


_BY_TURNS_MIN, _ON_END_MIN, _SLEEPLESS_MIN, _UP_MIN = 10 * 60, 12 * 60, 16 * 60, 20 * 60
"""In minutes, by common practice: a watch of several that is so long is kept by turns; how long somebody stands one on end at most, and
from where on he sleeps at it."""


def _on_end(day: Sequence[Stretch], role: str) -> int:
    """The longest time, in minutes, that somebody is on watch without a break, past midnight too."""
    longest = run = 0
    for each in (*day, *day):
        run = run + each.lasts_min if role in each.on and not _by_turns(each) else 0
        longest = max(longest, run)
    return min(longest, DAY_MIN)


def _by_turns(stretch: Stretch) -> bool:
    """Whether several have a part of the day so long that they take turns in it, or all are up."""
    return not stretch.below or (len(stretch.on) > 1 and stretch.lasts_min >= _BY_TURNS_MIN)


@check("watches.with-a-child", HELP, COMMON_PRACTICE)
def a_small_child_is_no_second_hand(sight: Sight) -> Finds:
    """Where others keep their watch by two or more, none has a child under twelve for its second hand.

    Why: whoever is alone with a child leaves it alone on deck to go below, and counts on a hand that is none.
    Remedy: put a grown person into that watch too, or take the child out of it.
    """
    people = _people(sight)
    day = [each for each in _day(sight) if each.on and all(role in people for role in each.on)]
    by_two = any(sum(not _small(people[role]) for role in each.on) > 1 for each in day)
    lone = [
        each
        for each in day
        if len(each.on) > 1
        and by_two
        and sum(heads([people[role]]) for role in each.on if not _small(people[role])) == 1
    ]
    if lone:
        child = next(role for role in lone[0].on if _small(people[role]))
        grown = next(role for role in lone[0].on if not _small(people[role]))
        ages = " and ".join(map(str, people[child].child_ages))
        yield at(
            lone[0].watches[0],
            "who",
            f"{the(grown)} is on watch with nobody but {the(child)}, who is {ages} years old, {_at(lone)}",
            item=lone[0].span,
        )


def _small(person: Person) -> bool:
    """Whether all who have a role are told to be less than half grown."""
    return bool(person.age) and all(isinstance(age, int) and age < HALF_GROWN for age in person.age)


@check("watches.alone", LIFE, COMMON_PRACTICE)
def whoever_needs_help_is_not_alone_on_watch(sight: Sight) -> Finds:
    """No child, and nobody who needs help, is alone on watch.

    Why: alone on deck nobody sees them fall, and nobody does what they cannot.
    Remedy: put somebody grown and able into that watch with them.
    """
    people = _people(sight)
    for role, person in people.items():
        ails = isinstance(person.medical, str) and "alone" in limits_in(person.medical)
        weak = person.a_child or isinstance(person.needs_help, str) or ails
        alone = [each for each in _day(sight) if each.on == (role,)] if weak else []
        if alone and person.quantity is None:
            why = "is a child" if person.a_child else "needs help"
            if ails and not person.a_child and not isinstance(person.needs_help, str):
                why = "is not to be alone, by what stands under 'medical'"
            yield at(
                alone[0].watches[0],
                "who",
                f"{the(role)} {why}, and is alone on watch {_at(alone)}",
                item=role,
            )


_DARK, _LIGHT = 22 * 60, 4 * 60
"""Between these, in minutes of the day, it is dark in most waters and seasons in which boats keep watches."""


@check("watches.sees-nothing", LIFE, COMMON_PRACTICE)
def whoever_looks_out_at_night_sees(sight: Sight) -> Finds:
    """By night each watch has two at least who see in the dark, or one who keeps it alone does.

    Why: of two on deck one goes below, sails or steers by the compass, and then nobody sees the ship.
    Remedy: change watches with somebody who sees at night, or put a third into that watch.
    """
    people = _people(sight)
    blind = {
        role
        for role, person in people.items()
        if isinstance(person.medical, str) and not _UNSEEING.isdisjoint(limits_in(person.medical))
    }
    for role in sorted(blind):
        dark = [
            each
            for each in _day(sight)
            if role in each.on
            and (each.begins >= _DARK or each.ends <= _LIGHT or each.ends > DAY_MIN - 60)
            and sum(meant_by(who, sight.vessel.people) for who in each.on if who not in blind) < _SEEING
        ]
        if dark:
            yield at(
                dark[0].watches[0],
                "who",
                f"{the(role)}, by what stands under 'medical', does not see at night, and is on watch {_at(dark)}",
                item=role,
                also=(people[role].place("medical"),),
            )


_UNSEEING, _SEEING = frozenset(("see", "see-at-night")), 2


@check("watches.duty-below", HELP, COMMON_PRACTICE, COMPOSITION)
def a_duty_of_the_first_moment_has_its_person_on_deck(sight: Sight) -> Finds:
    """What must be done at once on deck is somebody's who is there in every watch, or whose substitute is.

    Why: whoever comes up from a berth comes a minute too late to keep an eye on a head in the water.
    Remedy: in the station bill name roles of different watches as 'who' and 'substitute'.
    """
    day, people = [each for each in _day(sight) if each.on], _people(sight)
    for emergency in sight.manual.bill.emergencies if day else ():
        for duty in emergency.duties:
            able = {*duty.who, duty.substitute}
            lost = [each for each in day if able.isdisjoint(each.on)]
            led = not any(
                person.abilities for person in people.values()
            )  # nothing is told of who can command
            leaderless = (
                duty.id == "helm"
                and not led
                and any(
                    not any("command" in people[role].abilities for role in each.on if role in people)
                    for each in lost
                )
            )
            if duty.at_once and duty.who and lost:
                yield at(
                    lost[0].watches[0],
                    "who",
                    f"{emergency.title}: '{duty.text}' is the duty of {', '.join(duty.who)}"
                    f"{f' or {duty.substitute}' if duty.substitute and duty.substitute not in duty.who else ''}, none of them on deck {_at(lost)}"
                    f"{', and nobody there who commands' if leaderless else ''}",
                    weight=DEFECT if leaderless else None,
                    item=f"{emergency.id}.{duty.id}",
                    also=(duty.place,),
                )


@check("watches.nobody-sees", HELP, COMMON_PRACTICE)
def whoever_is_alone_on_deck_is_missed(sight: Sight) -> Finds:
    """Offshore whoever is alone on watch is clipped on, or wears what calls when it is in the water.

    Why: nobody sees that person go, and the hour is not known from which to search.
    Remedy: carry tethers and list them under 'gear', or a man-overboard device or PLB for each, under 'beacons'.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    if one is None or one.waters not in FAR or not vessel.watches or not vessel.gear or one.persons == 1:
        return
    worn = vessel.radio is not None and any(
        each.kind in ("PLB", "AIS man-overboard device") for each in vessel.radio.beacons
    )
    if worn or bool(vessel.gear_that("clips somebody on")):
        return
    alone = [each for each in _day(sight) if sum(meant_by(who, vessel.people) for who in each.on) == 1]
    if alone:
        message = (
            f"one is alone on deck {_at(alone)}, with nothing to be clipped on by and nothing that calls"
        )
        yield at(alone[0].watches[0], "who", message, item="alone on deck")


@once
def _day(sight: Sight) -> tuple[Stretch, ...]:
    return stretches(sight.vessel)


@once
def _people(sight: Sight) -> Mapping[str, Person]:
    return {str(person.role): person for person in sight.vessel.people if isinstance(person.role, str)}


_STEERED_INSIDE = ("wheelhouse", "pilothouse", "deckhouse")


@check("watches.no-jacket", LIFE, COMMON_PRACTICE)
def whoever_is_on_watch_wears_a_jacket(sight: Sight) -> Finds:
    """Offshore, where some are said to wear a lifejacket all the time, all do who keep a watch in the open; nobody is alone on one where jackets are said to be worn by none.

    Why: whoever falls in at night has nothing that keeps the head up until the boat is back.
    Remedy: wear them on deck, and name all who keep a watch: worn-by: all.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    told = [jackets for jackets in vessel.lifejackets if jackets.worn_by]
    under_a_roof = any(
        (space.steering and space.inside) or space.name in _STEERED_INSIDE for space in sight.spaces.values()
    ) or any(where.lower() in _STEERED_INSIDE for _, where in sight.texts("where"))
    if one is None or one.waters not in FAR or under_a_roof or sole(sight):
        return
    if not told:
        yield from _worn_by_none(sight)
        return
    worn = {role for jackets in told for role in wearers(jackets, vessel.people)}
    for stretch in stretches(vessel):
        bare = [role for role in stretch.on if role not in worn]
        if (
            worn
            and bare
            and not worn.isdisjoint(str(each.role) for each in vessel.people)
            and len(stretch.on) < heads(vessel.people)
        ):
            yield at(
                told[0],
                "worn-by",
                f"on watch from {stretch.begins} to {stretch.ends} without one on: {', '.join(bare)}",
                item="lifejackets",
                also=tuple(each.place("who") for each in stretch.watches),
            )
            return


def _worn_by_none(sight: Sight) -> Finds:
    """Of jackets that are said to be worn by none, where somebody is alone on deck."""
    vessel = sight.vessel
    none = next((jackets for jackets in vessel.lifejackets if jackets.says_none("worn-by")), None)
    lone = [each for each in _day(sight) if sum(meant_by(who, vessel.people) for who in each.on) == 1]
    if none is not None and lone:
        message = f"alone on watch {_at(lone[:1])}, and lifejackets are worn by none"
        who = tuple(each.place("who") for each in lone[0].watches)
        yield at(none, "worn-by", message, item="lifejackets", also=who)
