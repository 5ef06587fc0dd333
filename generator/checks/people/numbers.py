"""For everybody one: lifejackets of a grown-up's size, berths, tethers, places for those of each size aboard."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.manual.crew import the
from generator.manual.handling_facts import sailing
from generator.manual.watches import stretches
from generator.manual.wearing import fits, wearers
from generator.reading.nearest import folded
from generator.reading.values import all_known
from generator.survey.registry import (
    COMMON_PRACTICE,
    HELP,
    LIFE,
    RECOMMENDATION,
    Finds,
    Found,
    Sight,
    at,
    check,
)
from generator.vessel.fittings import Berth
from generator.vessel.particulars import FAR
from generator.vessel.people import ADULT, heads, jacket_sizes, meant_by

if TYPE_CHECKING:
    from generator.vessel.people import Person

_FOR_SEVERAL = re.compile(
    r"\b(?:double|both|wide|shared|two|bunks|berths|bed|beds|all|cot beside)\b", re.IGNORECASE
)


CHILD_AT_MOST = 12
"""Up to which age, in years, the size of the jacket is asked (33 CFR 175.15(c))."""


@check("people.adult-lifejackets", LIFE, "33 CFR 175.15", deferrable=False)
def every_grown_up_has_the_size(sight: Sight) -> Finds:
    """There is an adult's lifejacket for every grown-up of the crew list.

    Why: counted together there are enough, and one of the grown-ups stands there with a child's.
    Remedy: bring as many of the size adult aboard, then write their quantity.
    """
    short = grown_ups_without(sight) if sight.vessel.voyage is None else None
    if short is None:
        return
    grown, there = short
    jackets = sight.vessel.lifejackets
    first = next((each for each in jackets if fits(each, ADULT)), jackets[0])
    yield at(
        first,
        "quantity",
        f"{grown} of the crew list are grown up, and there are {there} lifejackets of their size",
        item="adult lifejackets",
        also=tuple(each.place("quantity") for each in jackets if each is not first),
    )


def grown_ups_without(sight: Sight) -> tuple[int, int] | None:
    """How many of the crew list take an adult's lifejacket, and how many there are, where that is too few for them.

    None also where there are too few for all together, which is told of them all.
    """
    one, jackets = sight.vessel.vessel, sight.vessel.lifejackets
    counts = all_known(each.quantity for each in jackets)
    if not jackets or counts is None or one is None:
        return None
    if isinstance(one.persons, int) and sum(counts) < one.persons:
        return None
    grown = sum(_grown(person) for person in sight.vessel.people)
    there = sum(each.quantity for each in jackets if fits(each, ADULT) and isinstance(each.quantity, int))
    return (grown, there) if there < grown else None


def _grown(person: Person) -> int:
    """How many of those who have a role take an adult's lifejacket: as told, or by their age."""
    sizes = jacket_sizes(person)
    young = any(isinstance(age, int) and age <= CHILD_AT_MOST for age in person.age)
    return sizes.count(ADULT) + (0 if young else sizes.count(""))


@check("people.one-berth", HELP, COMMON_PRACTICE)
def no_two_sleep_in_one_bunk(sight: Sight) -> Finds:
    """No two people have the same single berth, unless one of them is always on watch.

    Why: whoever is missing is looked for in the wrong bunk, and somebody sleeps where no lee cloth holds him.
    Remedy: write each bunk by its own spot; of one wide enough for two say so: spot: double berth.
    """
    turns = [set(each.on) for each in stretches(sight.vessel)]
    seen: dict[tuple[str, ...], Person] = {}
    for person in sight.vessel.people:
        berth = person.berth
        if not isinstance(berth, Berth) or not isinstance(berth.spot, str) or _FOR_SEVERAL.search(berth.spot):
            continue
        first = seen.setdefault(
            tuple(folded(str(each or "")) for each in (berth.where, berth.side, berth.spot)), person
        )
        by_turns = turns and all(on & {str(first.role), str(person.role)} for on in turns)
        if first is person and heads([person]) > 1:
            yield at(
                berth,
                "spot",
                f"{heads([person])} have the role {person.role}, and one berth: {berth.words}",
                item=str(person.role),
            )
        elif first is not person and not by_turns:
            message = f"{the(str(person.role))} and {the(str(first.role))} sleep in one berth: {berth.words}"
            yield at(berth, "spot", message, item=str(person.role), also=(first.place("berth"),))


@check("people.tethers", LIFE, COMMON_PRACTICE)
def everybody_on_watch_can_clip_on(sight: Sight) -> Finds:
    """Where tethers are carried, and far out under sail everywhere, there is one for everybody of the largest watch.

    Why: whoever has none moves about unclipped, at night, with one hand for the boat.
    Remedy: bring as many aboard as are on deck at once, then write their quantity.
    """
    items = sight.vessel.gear_that("clips somebody on")
    one = sight.vessel.vessel
    far = one is not None and one.waters in FAR
    if (
        far
        and one is not None
        and not items
        and sight.vessel.gear
        and one.hull.has_rooms
        and sailing(sight.vessel)
    ):
        yield Found(
            sight.vessel.key_place("gear"),
            f"no tether is in the gear list, and she sails {one.waters}",
            item="tethers",
        )
        return
    counts = all_known(item.quantity for item in items)
    if not items or counts is None:
        return
    people, one = sight.vessel.people, sight.vessel.vessel
    largest = max(stretches(sight.vessel), key=lambda each: len(each.on), default=None)
    on_deck = sum(meant_by(role, people) for role in largest.on) if largest is not None else 0
    far = one is not None and one.waters in FAR and one.hull.has_rooms
    worn = {role for jackets in sight.vessel.lifejackets for role in wearers(jackets, people)}
    clipped = far or bool(sight.vessel.gear_that("is rigged on deck"))
    wanted = heads(people) if far else len(worn)
    if largest is None and clipped and sum(counts) < min(_TWO, wanted):
        yield at(
            items[0],
            "quantity",
            f"{sum(counts)} tether, and {len(worn) if len(worn) > 1 else 'two or more'} are on deck at once",
            item=str(items[0].what),
        )
    if sum(counts) < on_deck:
        yield at(
            items[0],
            "quantity",
            f"{sum(counts)} tether{'s' * (sum(counts) != 1)}, and {on_deck} are on deck {largest.span if largest else ''}",
            item=str(items[0].what),
            weight=None if far else RECOMMENDATION,
        )


_TWO = 2
"""How many are on deck at once at least where nothing says who keeps which watch: one steers, one works the sails."""
