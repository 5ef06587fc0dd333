"""Dates that contradict each other or the calendar, what has outlived its usual life, and what falls due soon."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.calc.expiry import add_months
from generator.manual.deadlines import USUAL_CHECK
from generator.reading.values import Stamp, untold
from generator.survey.limits import most
from generator.survey.passed import good, span
from generator.survey.registry import (
    COMMON_PRACTICE,
    LIFE,
    TRUTH,
    UPKEEP,
    Finds,
    Found,
    Sight,
    at,
    check,
    of,
)
from generator.vessel.alarms import Alarm
from generator.vessel.gear import gear_kind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.reading.block import Block
    from generator.vessel.gear import Gear, GrabItem
    from generator.vessel.particulars import Drill, Posted, Signed
    from generator.vessel.vessel import Vessel

# What has happened cannot lie ahead; of each pair the first comes before the second.
_HAPPENED = (
    "made",
    "last",
    "fitted",
    "checked",
    "tested",
    "registered",
    "last_service",
    "replaced",
    "hose_made",
    "hose_fitted",
    "regulator_made",
    "battery_replaced",
    "release_fitted",
)
_IN_ORDER = (
    ("made", "fitted"),
    ("made", "expires"),
    ("fitted", "expires"),
    ("last", "next"),
    ("last_service", "next_service"),
    ("made", "last_service"),
    ("made", "next_service"),
    ("departs", "until"),
    ("made", "tested"),
    ("made", "replaced"),
    ("hose_made", "hose_fitted"),
)


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
    """No marked expiry lies further from the making than is usual for such a thing.

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


def _called(block: Block) -> str:
    words = getattr(block, type(block).called, "") if type(block).called else ""
    return str(words or block.path or "voyage")


@check("dates.in-future", TRUTH, COMMON_PRACTICE)
def what_happened_lies_behind(sight: Sight) -> Finds:
    """What is said to have happened lies in the past.

    Why: a service that has not taken place yet makes everything after it look in date; mostly it is a slip of the pen.
    Remedy: correct the year or the month; write it when it has happened.
    """
    for block in sight.blocks:
        for name in _HAPPENED:
            stamp = block.__dict__.get(name)
            if isinstance(stamp, Stamp) and stamp.first_day > sight.as_of:
                key = name.replace("_", "-")
                yield at(
                    block,
                    key,
                    f"{_called(block)}: '{key}' says {stamp}, which is still to come on {sight.as_of}",
                    item=_called(block),
                )
    for block, key in _signed(sight.vessel):
        if isinstance(block.date, Stamp) and block.date.first_day > sight.as_of:
            yield at(block, "date", f"{key}: {block.date} is still to come on {sight.as_of}", item=key)


def _signed(vessel: Vessel) -> Iterator[tuple[Signed | Drill | Posted, str]]:
    if vessel.checked_aboard:
        yield vessel.checked_aboard, "checked-aboard"
    if vessel.approved:
        yield vessel.approved, "approved"
    yield from ((drill, f"drill {drill.emergency or drill.path}") for drill in vessel.drills)
    yield from ((card, f"card {card.station or card.path}") for card in vessel.posted)


@check("dates.reversed", TRUTH, COMMON_PRACTICE)
def dates_stand_in_their_order(sight: Sight) -> Finds:
    """Dates of one thing stand in their order.

    Why: a thing fitted before it was made, or due before it was last serviced, has a wrong date, and either may be the wrong one.
    Remedy: compare both with label and certificate and correct the wrong one.
    """
    for block in sight.blocks:
        for first, second in _IN_ORDER:
            early, late = block.__dict__.get(first), block.__dict__.get(second)
            if isinstance(early, Stamp) and isinstance(late, Stamp) and early.first_day > late.last_day:
                first_key, second_key = first.replace("_", "-"), second.replace("_", "-")
                yield at(
                    block,
                    second_key,
                    f"{_called(block)}: '{second_key}' ({late}) lies before '{first_key}' ({early})",
                    item=_called(block),
                    also=(block.place(first_key),),
                )


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
