"""What has outlived its usual life, is dated further ahead than such things last, has no date, or runs out soon."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.calc.expiry import add_months, is_beyond
from generator.manual.deadlines import USUAL_CHECK
from generator.reading.values import Stamp, sure, untold
from generator.survey.limits import months, most
from generator.survey.passed import good, span
from generator.survey.placing import vital
from generator.survey.registry import (
    COMMON_PRACTICE,
    DEFECT,
    LIFE,
    RECOMMENDATION,
    UPKEEP,
    Finds,
    Found,
    Sight,
    at,
    check,
    of,
)
from generator.survey.sight import once
from generator.vessel.alarms import Alarm
from generator.vessel.gear import Gear, GrabItem, Lifejackets, does, gear_kind
from generator.vessel.installed import Gas

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.manual.deadlines import Deadline, Thing
    from generator.reading.block import Block
    from generator.reading.findings import Place
    from generator.shelves.lives import Line


@check(
    "dates.life",
    UPKEEP,
    "templates/lives/lives.yaml, where each life stands with its source and standing",
)
def nothing_has_outlived_its_usual_life(sight: Sight) -> Finds:
    """Nothing has outlived what is usual for its kind; three lives over, it is a defect.

    Why: webbing, hoses, batteries and alarms fail with age, and nothing on them says so.
    Remedy: renew it, have it tested, or write under its 'lives' what its own maker says and where.
    """
    for each in sight.near:
        if each.check != USUAL_CHECK or each.last_day >= sight.until:
            continue
        ended = (
            f"ended on {each.last_day}, {span(each.last_day, sight.as_of)} ago"
            if each.last_day < sight.as_of
            else f"ends on {each.last_day}, before {sight.until}"
        )
        yield Found(
            each.place,
            f"{each.item}: its {each.what} {ended} ({each.governs}, {each.stamp}; {each.source})",
            item=each.item,
            weight=DEFECT if done_for(sight, each) else None,
            about=each.thing.block,
        )


def done_for(sight: Sight, each: Deadline) -> bool:
    """Whether a thing has outlived its usual life by so much that nobody relies on it."""
    return _long_over(sight, each) or _long_past(sight, each)


def _long_over(sight: Sight, each: Deadline) -> bool:
    """Whether a thing is three times as old as such things become, where they last two years or more: it holds nothing any more."""
    began = each.thing.block.__dict__.get(each.place.key.rpartition(".")[2].replace("-", "_"))
    if not isinstance(began, Stamp):
        return False
    life_days = (each.last_day - began.last_day).days
    return life_days > LASTING_DAYS and (sight.as_of - began.last_day).days >= OVER * life_days


LASTING_DAYS, OVER = 700, 3
"""Of what lasts longer than so many days, how many lives over it is done for: common practice."""


_LONG_PAST_DAYS = 5 * 365
"""How long after its usual life what saves, or carries gas, is no longer merely old: common practice."""


def _long_past(sight: Sight, each: Deadline) -> bool:
    """Whether a life hangs on a thing that has outlived its usual life by years."""
    saves = vital(each.thing.block) or isinstance(each.thing.block, Gas)
    return saves and (sight.as_of - each.last_day).days > _LONG_PAST_DAYS


@check("dates.missing", UPKEEP, "templates/lives/lives.yaml, where each need stands with its source")
def what_ages_has_a_date(sight: Sight) -> Finds:
    """What ages has a date to tell its age by; inflatable lifejackets without a single one are a defect.

    Why: without one nobody notices when it is over, and on the day it is needed it fails.
    Remedy: read the date on the thing or its papers and write the key the message names; with none to be found, renew the thing.
    """
    for thing in sight.things:
        if _of_no_age(thing):
            yield at(
                thing.block,
                type(thing.block).called,
                f"{thing.name}: nothing tells how old they are, nor when they were looked into: neither 'next-service', 'last-service' nor 'head-expires' is given",
                item=thing.name,
                weight=DEFECT,
            )
            continue
        needy = thing.kind.needy
        for line in needy if needy and not _charged(thing.block) else ():
            if (
                line.needs
                and not _own_life_runs(thing)
                and all(untold(thing.block.__dict__.get(attribute)) for attribute in line.needed_in)
            ):
                keys = " nor ".join(f"'{key}'" for key in line.needs.one_of)
                neither = f"neither {keys} is given" if len(line.needs.one_of) > 1 else f"{keys} is not given"
                about = f" ({line.what})" if line.what else ""
                yield at(
                    thing.block,
                    type(thing.block).called,
                    f"{thing.name}{about}: {neither} ({line.needs.source})",
                    item=thing.name,
                )


def _own_life_runs(thing: Thing) -> bool:
    """Whether a life of its own is told, from a date that it has: an expiry follows from that."""
    return any(
        life.known("from_", "life")
        and not untold(thing.block.__dict__.get(str(life.from_).replace("-", "_")))
        for life in thing.block.__dict__.get("lives") or ()
    )


def _of_no_age(thing: Thing) -> bool:
    """Whether nothing at all tells how old inflatable lifejackets are, or when somebody last looked into them."""
    if not isinstance(thing.block, Lifejackets) or thing.block.kind != "inflatable":
        return False
    told = thing.block.__dict__
    return all(untold(told.get(key)) for key in ("last_service", "next_service", "head_expires", "made"))


def _charged(thing: Block) -> bool:
    """Whether a lamp is charged, and has no batteries that run out by a date."""
    if not isinstance(thing, Gear) or not does(thing, "lights the way"):
        return False
    return any(isinstance(each, str) and _CHARGED.search(each) for each in (thing.what, thing.spot))


_CHARGED = re.compile(r"\b(?:re)?charg(?:e|ed|er|ers|ing|eable)\b|\b(?:solar|wind-?up|usb)\b", re.IGNORECASE)


@check(
    "dates.stretched",
    LIFE,
    "fire authorities: smoke alarms ten years from making; Offshore Special Regulations 4.23: signals "
    "four years (secondary)",
)
def a_marked_expiry_fits_the_making(sight: Sight) -> Finds:
    """No marked expiry lies further from the making, and no service further from the last, than is usual for such a thing.

    Why: a year read wrong, or a date made up, keeps in the list what is long dead.
    Remedy: read both dates on the thing again.
    """
    bagged = (each for bag in sight.vessel.grab_bags for each in bag.items)
    items: tuple[Alarm | Gear | GrabItem, ...] = (*sight.vessel.gear, *sight.vessel.alarms, *bagged)
    for item in items:
        kind = item.gear_kind if isinstance(item, Alarm) else gear_kind(item)
        months = kind.longest_months if kind is not None else None
        if (
            months
            and isinstance(item.made, Stamp)
            and isinstance(item.expires, Stamp)
            and (item.expires.first_day > add_months(item.made.last_day, months))
        ):
            yield of(
                item,
                "made",
                f"made {item.made.when} and good until {item.expires}, more than {months // 12} years",
                also=(item.place("expires"),),
            )
    yield from _stretched_services(sight)


def _stretched_services(sight: Sight) -> Iterator[Found]:
    """Services further apart than such things wait; one too far ahead of today is told as that."""
    usual = months(sight.vessel, "time ahead of a marked date")
    for thing in _dated(sight):
        values = thing.block.__dict__
        last, due = values.get("last_service"), values.get("next_service")
        if not isinstance(last, Stamp) or not isinstance(due, Stamp):
            continue
        line = next((each for each in thing.kind.lines if "next-service" in each.marked), None)
        if line is None:
            continue
        furthest, said = _furthest(thing, line, "next-service", usual)
        if furthest and add_months(last.last_day, furthest) < due.first_day <= add_months(
            sight.as_of, furthest
        ):
            yield at(
                thing.block,
                "next-service",
                f"{thing.name}: last serviced {last.when}, and next {due.when}, {span(last.last_day, due.first_day)} later; such things "
                f"wait {furthest} months at most ({said})",
                item=thing.name,
                also=(thing.block.place("last-service"),),
            )


@check(
    "dates.too-far",
    LIFE,
    "templates/lives/lives.yaml and the shelf of gear, where each figure stands with its source; common practice",
)
def no_date_lies_further_ahead_than_a_new_thing_has(sight: Sight) -> Finds:
    """No expiry, service or test is marked further ahead than even a new thing of its kind is good for.

    Why: a year misread or mistyped keeps in the list, for ten years, what is dead in one.
    Remedy: read the date on the thing or its papers again; where its maker does give it longer, say so under its 'lives', with the source.
    """
    usual = months(sight.vessel, "time ahead of a marked date")
    told: set[tuple[Block | None, Place]] | None = None
    for thing in _dated(sight):
        values = thing.block.__dict__
        for line in thing.kind.lines:
            for attribute, key in line.marked_in:
                stamp = values.get(attribute)
                if not isinstance(stamp, Stamp) or key == "until" or stamp.first_day <= sight.as_of:
                    continue
                furthest, said = _furthest(thing, line, key, usual)
                if furthest and is_beyond(stamp.first_day, sight.as_of, max(furthest, _own_life(thing))):
                    if told is None:
                        told = {(each.about, each.place) for each in a_marked_expiry_fits_the_making(sight)}
                    if (thing.block, thing.block.place("made")) in told and key == "expires":
                        continue
                    yield at(
                        thing.block,
                        key,
                        f"{thing.name}: '{key}' says {stamp}, {span(sight.as_of, stamp.first_day)} ahead; even of a new one it lies "
                        f"{furthest} months ahead at most ({said})",
                        item=thing.name,
                    )


@once
def _dated(sight: Sight) -> tuple[Thing, ...]:
    """The things of which a date is told."""
    dated = {block for block, _ in sight.stamped}
    return tuple(thing for thing in sight.things if thing.block in dated)


def _own_life(thing: Thing) -> int:
    """The months that a thing's own maker gives it, the most of several; 0 where that is not told."""
    lives = thing.block.__dict__.get("lives", ())
    return max((round(sure(each.life)) for each in lives if each.known("life")), default=0)


@check(
    "dates.own-life",
    LIFE,
    "templates/lives/lives.yaml and the shelf of gear, where each life stands with its source; common practice",
)
def no_maker_gives_twice_what_is_usual(sight: Sight) -> Finds:
    """No life that a thing's own maker is said to give it is more than twice what such things last.

    Why: with one made-up figure an alarm, a beacon or a jacket of twenty years ago is in date, in every list.
    Remedy: read it again in the maker's papers, months or years; with none to be found take 'lives' out, and go by what is usual.
    """
    for thing in sight.things:
        if "lives" not in thing.block.__dict__ or thing.block.says_none("lives"):
            continue
        for own in thing.block.__dict__["lives"] or ():
            if not own.known("from_", "life"):
                continue
            given, since = round(sure(own.life)), sure(own.from_)
            usual = _usual_months(thing, since)
            longest = max(TWICE * usual, SEALED_MONTHS if _SHINES.search(thing.name) else 0)
            if usual and given > longest:
                yield at(
                    own,
                    "life",
                    f"{thing.name}: said to last {given} months from '{since}', and such things last {usual}",
                    item=thing.name,
                    weight=None
                    if vital(thing.block) or isinstance(thing.block, (Alarm, GrabItem, Gas))
                    else RECOMMENDATION,
                )


_SHINES = re.compile(r"\b(?:lights?|torch(?:es)?|lamps?|strobes?)\b", re.IGNORECASE)
SEALED_MONTHS = 60
"""How many months a sealed cell lights a lamp that is not switched on: common practice."""
TWICE = 2
"""How many usual lives a maker gives a thing at most: common practice."""


def _usual_months(thing: Thing, since: str) -> int:
    """The most months that such a thing lasts from one of its dates, or is marked for from its making; 0 where nobody says."""
    found = [
        life.months
        for line in thing.kind.lines
        if not line.routine
        for life in line.lives
        if since in life.since
    ]
    kind = thing.block.gear_kind if isinstance(thing.block, Alarm) else None
    if isinstance(thing.block, (Gear, GrabItem)):
        kind = gear_kind(thing.block)
    if kind is not None and kind.longest_months and since == "made":
        found.append(kind.longest_months)
    return max(found, default=0)


def _furthest(thing: Thing, line: Line, key: str, usual: int | None) -> tuple[int | None, str]:
    """How many months ahead a marked date can lie, and who says so."""
    kind = thing.block.gear_kind if isinstance(thing.block, Alarm) else None
    if isinstance(thing.block, (Gear, GrabItem)):
        kind = gear_kind(thing.block)
    if kind is not None and kind.longest_months and key == "expires":
        return kind.longest_months, "as such things are marked from their making"
    found = line.furthest(key)
    return (found.months, found.said) if found is not None else (usual, COMMON_PRACTICE)


@check("dates.life-unbegun", UPKEEP, COMMON_PRACTICE)
def a_life_begins_with_a_date_that_is_told(sight: Sight) -> Finds:
    """A life that is told under 'lives' begins with a date that the thing has.

    Why: it never ends, no page and no calendar says so, and the thing is used until it fails.
    Remedy: read on the thing from which day it counts; write that date, or correct 'from': lives: [{from: made, life: 10 years}].
    """
    for thing in sight.things:
        for life in thing.block.__dict__.get("lives") or ():
            began = life.__dict__.get("from_")
            if isinstance(began, str) and untold(thing.block.__dict__.get(began.replace("-", "_"))):
                yield at(
                    life,
                    "from",
                    f"{thing.name}: its life counts from '{began}', and it has no such date",
                    item=thing.name,
                )


@check("dates.soon", UPKEEP, "ready notice of 30 and 90 days, our own choice")
def nothing_runs_out_soon(sight: Sight) -> Finds:
    """Nothing runs out within the next weeks.

    Why: stations and chandlers need time; the day it runs out the manual is no longer good.
    Remedy: order or book it now; write the new date when it is aboard.
    """
    at_once_days = most(sight.vessel, "order at once")
    for each in sight.near:
        if not each.routine and sight.until <= each.last_day <= sight.lead_day:
            days = (each.last_day - sight.until).days
            urgent = ": order it or book the service today" if days <= at_once_days else ""
            yield Found(
                each.place,
                f"{good(each, sight)}, only {span(sight.until, each.last_day)} beyond {sight.until}{urgent}",
                item=each.item,
                about=each.thing.block,
            )
