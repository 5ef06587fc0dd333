"""What has outlived its usual life, is dated further ahead than such things last, has no date, or runs out soon."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.calc.expiry import add_months
from generator.manual.deadlines import USUAL_CHECK
from generator.reading.values import Stamp, sure, untold
from generator.survey.limits import months, most
from generator.survey.passed import good, span
from generator.survey.registry import (
    COMMON_PRACTICE,
    LIFE,
    UPKEEP,
    Finds,
    Found,
    Sight,
    at,
    check,
    of,
)
from generator.vessel.alarms import Alarm
from generator.vessel.gear import Gear, GrabItem, gear_kind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.manual.deadlines import Thing
    from generator.reading.block import Block
    from generator.reading.findings import Place
    from generator.shelves.lives import Line


@check(
    "dates.life",
    UPKEEP,
    "templates/lives/lives.yaml, where each life stands with its source and standing",
)
def nothing_has_outlived_its_usual_life(sight: Sight) -> Finds:
    """Nothing has outlived what is usual for its kind.

    Why: webbing, hoses, batteries and alarms fail with age, and nothing on them says so.
    Remedy: renew it, have it tested, or write under its 'lives' what its own maker says and where.
    """
    for each in sight.deadlines:
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
            about=each.thing.block,
        )


@check("dates.missing", UPKEEP, "templates/lives/lives.yaml, where each need stands with its source")
def what_ages_has_a_date(sight: Sight) -> Finds:
    """What ages has a date to tell its age by.

    Why: without one nobody notices when it is over, and on the day it is needed it fails.
    Remedy: read the date on the thing or its papers and write the key the message names; with none to be found, renew the thing.
    """
    for thing in sight.things:
        for line in thing.kind.lines:
            if line.needs and all(
                untold(thing.block.__dict__.get(key.replace("-", "_"))) for key in line.needs.one_of
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
    for thing in sight.things:
        last, due = (thing.block.__dict__.get(name) for name in ("last_service", "next_service"))
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
    for thing in sight.things:
        own = max(
            (round(sure(each.life)) for each in thing.block.__dict__.get("lives", ()) if each.known("life")),
            default=0,
        )
        for line in thing.kind.lines:
            for key in line.marked:
                stamp = thing.block.__dict__.get(key.replace("-", "_"))
                if not isinstance(stamp, Stamp) or key == "until":
                    continue
                furthest, said = _furthest(thing, line, key, usual)
                if furthest and stamp.first_day > add_months(sight.as_of, max(furthest, own)):
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


def _furthest(thing: Thing, line: Line, key: str, usual: int | None) -> tuple[int | None, str]:
    """How many months ahead a marked date can lie, and who says so."""
    kind = thing.block.gear_kind if isinstance(thing.block, Alarm) else None
    if isinstance(thing.block, (Gear, GrabItem)):
        kind = gear_kind(thing.block)
    if kind is not None and kind.longest_months and key == "expires":
        return kind.longest_months, "as such things are marked from their making"
    found = line.furthest(key)
    return (found.months, found.said) if found is not None else (usual, COMMON_PRACTICE)


@check("dates.soon", UPKEEP, "ready notice of 30 and 90 days, our own choice")
def nothing_runs_out_soon(sight: Sight) -> Finds:
    """Nothing runs out within the next weeks.

    Why: stations and chandlers need time; the day it runs out the manual is no longer good.
    Remedy: order or book it now; write the new date when it is aboard.
    """
    at_once_days = most(sight.vessel, "order at once")
    for each in sight.deadlines:
        if not each.routine and sight.until <= each.last_day <= sight.lead_day:
            days = (each.last_day - sight.until).days
            urgent = ": order it or book the service today" if days <= at_once_days else ""
            yield Found(
                each.place,
                f"{good(each, sight)}, only {span(sight.until, each.last_day)} beyond {sight.until}{urgent}",
                item=each.item,
                about=each.thing.block,
            )
