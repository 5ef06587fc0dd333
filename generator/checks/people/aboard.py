"""People: roles, helpers, lifejackets and suits."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.calc.expiry import add_months
from generator.checks.people.numbers import CHILD_AT_MOST, grown_ups_without
from generator.manual.crew import the
from generator.manual.wearing import fits, named
from generator.reading.nearest import nearest
from generator.reading.values import Given, Quantity, all_known, known
from generator.survey.registry import (
    ADVICE,
    COMMON_PRACTICE,
    DEFECT,
    HELP,
    LIFE,
    RECOMMENDATION,
    TRUTH,
    UPKEEP,
    Finds,
    Sight,
    at,
    check,
)
from generator.vessel.gear import Gear, does
from generator.vessel.particulars import FAR
from generator.vessel.people import ADULT, heads, jacket_sizes

if TYPE_CHECKING:
    from generator.manual.deadlines import Thing
    from generator.shelves.lives import Life
    from generator.vessel.people import Person


SKIPPER = "skipper"
"""What steps and pages call the role that orders."""


@check(
    "people.suit-test",
    UPKEEP,
    "MSC/Circ.1114 and MGN 529 (three years, two years for suits over ten; secondary)",
)
def suits_are_tested_in_time(sight: Sight) -> Finds:
    """Immersion suits are tested every three years, every two when they are over ten years old.

    Why: a seam that lets water in turns a suit into wet clothes.
    Remedy: have them tested, and write the shorter 'service-interval' and the new dates.
    """
    suits = {id(item) for item in sight.vessel.gear_that("suit against cold")}
    for thing in sight.things if suits else ():
        item = thing.block
        if (
            id(item) not in suits
            or not isinstance(item, Gear)
            or not isinstance(item.service_interval, Quantity)
            or (life := _tested(thing)) is None
        ):
            continue
        _, over, fewer = life.aged or ("", 0, life.months)
        made = known(item.made)
        old = made if made and add_months(made.last_day, over) < sight.as_of else None
        if item.service_interval > (fewer if old else life.months):
            since = f" (made {old.when})" if old else ""
            yield at(
                item,
                "service-interval",
                f"{item.what}{since}: tested every {item.service_interval}",
                item=str(item.what),
            )


def _tested(thing: Thing) -> Life | None:
    """The life of a thing that is counted from its last test."""
    return next(
        (life for line in thing.kind.lines for life in line.lives if Gear.tested.key in life.since), None
    )


_SMALL = {"child": ("child", "children"), "infant": ("infant", "infants")}


SMALL_CHILD = 10
"""Under which age, in years, no adult's jacket fits: common practice."""


@check("people.child-lifejacket", LIFE, "33 CFR 175.15(c)")
def a_child_of_the_crew_list_has_its_size(sight: Sight) -> Finds:
    """Where a role is that of a child or an infant, there is a lifejacket of that size.

    Why: a child slips out of an adult's jacket.
    Remedy: bring one aboard and list it under 'lifejackets' with its size.
    """
    jackets = sight.vessel.lifejackets
    for size in ("child", "infant"):
        small = [person for person in sight.vessel.people if size in jacket_sizes(person)]
        needed = sum(jacket_sizes(person).count(size) for person in small)
        there = sum(each.quantity for each in jackets if each.size == size and isinstance(each.quantity, int))
        if small and jackets and needed > there:
            last = small[min(there, len(small) - 1)]
            yield at(
                last,
                "role",
                f"{needed} {_SMALL[size][needed != 1]} aboard, and {there or 'no'} "
                f"{'lifejacket' if there == 1 else 'lifejackets'} of the size '{size}'",
                item=str(last.role),
            )
    for person in sight.vessel.people:
        young = [age for age in person.age if isinstance(age, int) and age <= CHILD_AT_MOST]
        if young and "" in jacket_sizes(person):
            sizes = ", ".join(["child"] * len(person.age))
            yield at(
                person,
                "age",
                f"{person.role}: {' and '.join(map(str, young))} years old, and nothing says which size of lifejacket fits",
                remedy="try one on, and write lifejacket: child, infant or adult"
                if len(person.age) == 1
                else f"try them on, and write which fits each, for example lifejacket: [{sizes}]",
                item=str(person.role),
            )


@check("people.small-in-adults", LIFE, "33 CFR 175.15(c); common practice for the age")
def a_small_child_wears_no_adults_jacket(sight: Sight) -> Finds:
    """No child under ten is given an adult's lifejacket.

    Why: it slips off over the head, or holds the child face down.
    Remedy: try on a child's jacket and write lifejacket: child; if an adult's really holds the child, defer this and say who tried it.
    """
    for person in sight.vessel.people:
        told = person.lifejacket
        small = [age for age in person.age if isinstance(age, int) and age < SMALL_CHILD]
        if small and len(small) == len(person.age) and ADULT in told:
            yield at(
                person,
                "lifejacket",
                f"{person.role}: {' and '.join(map(str, small))} years old, in an adult's lifejacket",
                item=str(person.role),
            )


@check("people.suits", LIFE, COMMON_PRACTICE)
def suits_are_enough_for_all(sight: Sight) -> Finds:
    """Where immersion suits are carried there is one for everybody.

    Why: in cold water whoever has none is lost before the others.
    Remedy: bring as many as persons may be aboard, or plan who gets what.
    """
    one = sight.vessel.vessel
    counted = [
        (item, item.quantity)
        for item in sight.vessel.gear
        if does(item, "suit against cold") and isinstance(item.quantity, int)
    ]
    suits, there = [item for item, _ in counted], sum(quantity for _, quantity in counted)
    if one and isinstance(one.persons, int) and suits and there < one.persons:
        yield at(
            suits[0],
            "quantity",
            f"{there} immersion suits for {one.persons} persons",
            item=str(suits[0].what),
            weight=None if one.climate in ("cold", "polar") else RECOMMENDATION,
            also=(one.place("persons"),),
        )
        return
    grown = sum(jacket_sizes(person).count(ADULT) for person in sight.vessel.people)
    fitting = sum(quantity for item, quantity in counted if not _told(item, _FOR_CHILDREN))
    for item in suits if one else ():
        small = _told(item, _FITS_NOBODY) or (fitting < grown and _told(item, _FOR_CHILDREN))
        if small:
            yield at(
                item,
                "spot" if small in str(item.spot) else "what",
                f"'{small}': of the suits for {grown} grown people some are said not to fit",
                item=str(item.what),
                remedy="try them on; carry one that fits for everybody, and write how many of which size in lines of their own",
            )


_FITS_NOBODY = re.compile(
    r"\btoo (?:small|tight|short|large|big)\b(?: for [a-z ]+)?|\bfits? (?:nobody|no one)\b", re.IGNORECASE
)
_FOR_CHILDREN = re.compile(
    r"\b(?:child(?:ren)?|kid|junior|youth)(?:['’]?s)?['’]? sizes?\b|\bsizes? (?:child|children|junior|xs)\b|\bsmall(?: sizes?)? only\b|\bonly small\b|\bfor (?:the )?children\b",
    re.IGNORECASE,
)


def _told(suit: Gear, find: re.Pattern[str]) -> str:
    """What the words of a suit say of its size; "" where they say nothing of the kind."""
    found = find.search(f"{suit.what}; {suit.spot or ''}")
    return found[0] if found else ""


@check("people.same-role", TRUTH, COMMON_PRACTICE)
def every_role_is_one_person(sight: Sight) -> Finds:
    """No two people have the same role.

    Why: the station bill gives duties to roles; with two of one name each thinks the other does it.
    Remedy: number them: guest 1, guest 2.
    """
    seen: dict[str, Person] = {}
    for person in sight.vessel.people:
        role = person.role.lower() if isinstance(person.role, str) else ""
        if role in seen:
            yield at(
                person,
                "role",
                f"two people have the role '{person.role}'",
                item=str(person.role),
                also=(seen[role].place("role"),),
            )
        elif role:
            seen[role] = person


@check("people.too-many", LIFE, COMMON_PRACTICE)
def no_more_roles_than_persons(sight: Sight) -> Finds:
    """No more roles are listed than persons may be aboard.

    Why: raft, lifejackets and water are counted for the most persons; a role more is a person without a place.
    Remedy: correct 'persons', or take out the role that is never aboard together with the others.
    """
    one, people = sight.vessel.vessel, sight.vessel.people
    if one and isinstance(one.persons, int) and heads(people) > one.persons:
        yield at(
            people[min(one.persons, len(people) - 1)],
            "role",
            f"{heads(people)} people are listed, and {one.persons} persons at most are aboard",
            also=(one.place("persons"),),
        )


@check("people.lifejackets", LIFE, "33 CFR 175.15", deferrable=False)
def everybody_has_a_lifejacket(sight: Sight) -> Finds:
    """There is a lifejacket for everybody aboard.

    Why: whoever has none is the one who goes overboard.
    Remedy: bring more lifejackets aboard, or take fewer persons.
    """
    one, jackets = sight.vessel.vessel, sight.vessel.lifejackets
    counts = all_known(each.quantity for each in jackets)
    if not one or not isinstance(one.persons, int) or not jackets or counts is None:
        return
    if sum(counts) < one.persons:
        yield at(
            jackets[0],
            "quantity",
            f"{sum(counts)} lifejackets for {one.persons} persons",
            also=(one.place("persons"),),
        )


@check("people.lifejacket-fittings", ADVICE, "Offshore Special Regulations 5.01 (secondary)")
def lifejackets_stay_on_and_are_seen(sight: Sight) -> Finds:
    """Lifejackets have crotch straps and lights.

    Why: without a crotch strap the jacket rides up over the head, and a child slips out; without a light nobody is found at night.
    Remedy: fit them, then write yes; who is never out after dark defers it and says so.
    """
    one = sight.vessel.vessel
    for each in sight.vessel.lifejackets:
        for key, what in (("crotch-straps", "crotch straps"), ("lights", "lights")):
            if getattr(each, key.replace("-", "_")) is False:
                unseen = key == "lights" and one is not None and one.waters != "sheltered"
                slips = key == "crotch-straps" and (
                    each.size in _SMALL or (one is not None and one.waters in FAR)
                )
                yield at(
                    each,
                    key,
                    f"the {each.size or 'other'} lifejackets have no {what}",
                    item=f"{each.size or 'other'} lifejackets",
                    weight=DEFECT if unseen or slips else None,
                )


@check("people.worn-by", HELP, COMMON_PRACTICE)
def lifejackets_are_worn_by_people_aboard(sight: Sight) -> Finds:
    """Whoever wears a lifejacket all the time is aboard, and of the size of that jacket: on one of another size nobody floats face up.

    Why: the manual takes those named to be wearing theirs, and nobody fetches one for them.
    Remedy: write under 'worn-by' roles of 'people', or 'all' for everybody whom it fits, for each size in a line of its own.
    """
    people = {str(person.role): person for person in sight.vessel.people if person.role}
    for jackets in sight.vessel.lifejackets:
        wearing = named(jackets, people.values()) if people else ()
        for who in wearing:
            if who not in people:
                weight = None
                message, remedy = f"'{who}' is no role aboard", nearest(who, people, taken=[*jackets.worn_by])
            elif isinstance(jackets.size, str) and not any(
                fits(jackets, each) for each in jacket_sizes(people[who])
            ):
                message = (
                    f"{the(who)} wears a lifejacket of the size '{jackets.size}', and takes another size"
                )
                remedy, weight = "", LIFE.weight
            else:
                continue
            yield at(jackets, "worn-by", message, remedy=remedy, item=who, weight=weight)
        worn = sum(
            fits(jackets, each) for who in wearing if who in people for each in jacket_sizes(people[who])
        )
        if (
            isinstance(jackets.quantity, int)
            and worn > jackets.quantity
            and not _too_few(sight, jackets.size)
        ):
            yield at(
                jackets,
                "quantity",
                f"{worn} persons wear one of these all the time, and there are {jackets.quantity}",
                remedy="write how many there are, or under 'worn-by' only who has one",
                item=f"{jackets.size or 'other'} lifejackets",
                also=(jackets.place("worn-by"),),
            )


def _too_few(sight: Sight, size: Given) -> bool:
    """Whether it is told already that of a size there are not enough aboard."""
    if size == ADULT and grown_ups_without(sight) is not None:
        return True
    needed = sum(jacket_sizes(person).count(str(size)) for person in sight.vessel.people)
    there = sum(
        each.quantity
        for each in sight.vessel.lifejackets
        if each.size == size and isinstance(each.quantity, int)
    )
    return size in ("child", "infant") and needed > there


@check("people.several-skippers", TRUTH, COMMON_PRACTICE)
def one_role_is_the_skipper(sight: Sight) -> Finds:
    """No two roles are told apart by a number alone where one of them orders.

    Why: pages and cards say "listen to the skipper" and "only the skipper orders"; where two are called so, two give orders.
    Remedy: call whoever commands 'skipper', and the other 'mate', 'second skipper' or 'watch leader'.
    """
    people = [person for person in sight.vessel.people if _is_a_skipper(str(person.role))]
    if any(str(person.role).lower() == SKIPPER and person.quantity in (None, 1) for person in people):
        return
    many = sum(person.quantity if isinstance(person.quantity, int) else 1 for person in people)
    if many > 1:
        told = " and ".join(f"'{person.role}'" for person in people)
        yield at(
            people[0],
            "role",
            f"{many} are called skipper ({told}), and the manual says 'the skipper' for the one who orders",
            item=str(people[0].role),
            also=tuple(person.place("role") for person in people[1:]),
        )


def _is_a_skipper(role: str) -> bool:
    return re.fullmatch(rf"{SKIPPER}(?:\s+(?:\d+|[a-z]))?", role.lower()) is not None
