"""Deferred defects: what may be wrong with an entry. `survey/deferral.py` looks at them."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.calc.expiry import add_months
from generator.checks.dates.lives import done_for
from generator.reading.nearest import shortened
from generator.reading.values import Stamp
from generator.shelves.gear_rows import VITAL
from generator.survey.deferral import past_their_date
from generator.survey.limits import months
from generator.survey.passed import span
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    FORM,
    LIFE,
    RECOMMENDATION,
    TRUTH,
    Finds,
    Sight,
    at,
    check,
    describe,
)
from generator.vessel.alarms import Alarm
from generator.vessel.gear import Gear, GrabItem, Lifejackets, gear_kind
from generator.vessel.radio import Beacon

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.manual.deadlines import Deadline
    from generator.reading.block import Block
    from generator.vessel.gear import StillCarried
    from generator.vessel.particulars import Deferred

describe(
    "deferral.unused",
    FORM,
    COMPOSITION,
    COMMON_PRACTICE,
    """Every deferred defect is still found.
    Why: an entry left behind would silently cover the next fault of the same kind.
    Remedy: delete the entry, or correct the item it names.""",
)


describe(
    "deferral.inexact",
    TRUTH,
    COMPOSITION,
    COMMON_PRACTICE,
    """Every deferral names one thing.
    Why: an entry that fits several things silently covers one that nobody has looked at.
    Remedy: write under 'item' the item or the key path that the message names, an entry for each thing.""",
)


describe(
    "deferral.expired",
    LIFE,
    COMPOSITION,
    COMMON_PRACTICE,
    """No deferral has run out, or ends before the day everything must last to.
    Why: it was to be mended by then; a deferral that renews itself is no decision.
    Remedy: mend it and delete the entry, or decide again and write a new 'until' with who and why.""",
)


describe(
    "deferral.not-allowed",
    LIFE,
    COMPOSITION,
    COMMON_PRACTICE,
    """Nothing is deferred that cannot be.
    Why: with these nobody may sail knowingly, or the manual would have a hole.
    Remedy: mend it and delete the entry.""",
)


describe(
    "deferral.unknown-check",
    TRUTH,
    COMPOSITION,
    COMMON_PRACTICE,
    """Every deferral names a check there is.
    Why: an entry for a misspelt check covers nothing.
    Remedy: write the id that stands in the finding, as 'musterbook why --all' lists it.""",
)


@check("deferral.too-far", LIFE, COMMON_PRACTICE, deferrable=False)
def a_deferral_ends_in_sight(sight: Sight) -> Finds:
    """No deferral reaches further ahead than the lay-up after the next season.

    Why: what is put off for years is not put off but given up, and its line in the manual is read over.
    Remedy: write an 'until' within a year and a half, and decide again then; or mend it and delete the entry.
    """
    usual, longest = (
        months(sight.vessel, name) or 0 for name in ("time a defect is deferred", "longest deferral")
    )
    entries: list[tuple[Deferred | StillCarried, str]] = [
        (entry, f"{entry.check}{f', {entry.item}' if isinstance(entry.item, str) else ''}")
        for entry in sight.vessel.deferred_defects
    ]
    entries += [
        (entry, str(getattr(thing, type(thing).called))) for thing, entry in past_their_date(sight.vessel)
    ]
    for entry, name in entries:
        end = entry.until
        if isinstance(end, Stamp) and end.first_day > add_months(sight.as_of, usual):
            yield at(
                entry,
                "until",
                f"{name}: deferred until {end}, {span(sight.as_of, end.first_day)} ahead",
                item=name,
                weight=None if end.first_day > add_months(sight.as_of, longest) else RECOMMENDATION,
            )


@check("deferral.long-past", LIFE, COMMON_PRACTICE, deferrable=False)
def what_is_long_past_its_date_is_not_carried_on(sight: Sight) -> Finds:
    """What a life hangs on is not carried on, knowingly, for more than a year past its date; of several kept, the old are not relied on.

    Why: a battery, a gas charge, powder or a flare of years ago fails when it is switched on or struck, and nobody has another.
    Remedy: renew it before she sails, write the new date and take the entry out; old ones beside new ones go ashore.
    """
    longest = months(sight.vessel, "time carried past a date") or 0
    for entry, over in _knowingly(sight):
        end = entry.until.last_day if isinstance(entry.until, Stamp) else sight.as_of
        last = over.last_day
        limit = add_months(last, longest) if over.firm else last
        if end <= limit or not (over.firm or done_for(sight, over)):
            continue
        fresh = _another_in_date(sight, over)
        yield at(
            entry,
            "until",
            f"{over.item}: {f'its {over.what} ' if over.what else ''}ran out on {last}, and is to be relied on until {end}, {span(last, end)} later"
            + (", beside others that are in date" if fresh else ", and no other aboard is in date"),
            item=over.item,
            weight=RECOMMENDATION if fresh and end <= add_months(last, AMONG_NEW * longest) else None,
            also=(over.place,),
        )


AMONG_NEW = 3
"""How many times as long an old one may lie beside those in date before it only deceives: common practice."""


def _knowingly(sight: Sight) -> Iterator[tuple[Deferred | StillCarried, Deadline]]:
    """What a life hangs on, has run out and is carried on all the same, with the entry that says so."""
    beside: dict[Block, StillCarried] = dict(past_their_date(sight.vessel))
    listed = {
        (entry.check, _bare(entry.item)): entry
        for entry in sight.vessel.deferred_defects
        if isinstance(entry.check, str) and isinstance(entry.item, str)
    }
    for each in sight.deadlines if beside or listed else ():
        if each.routine or each.brings == "decision" or each.last_day >= sight.as_of or not _saves(each):
            continue
        entry = beside.get(each.thing.block) or next(
            (
                found
                for name in (each.item, each.place.key)
                if (found := listed.get((each.check, _bare(name)))) is not None
            ),
            None,
        )
        if entry is not None:
            yield entry, each


def _bare(name: str) -> str:
    """A name as it is compared: without its article, blanks in a row as one."""
    return " ".join(name.split()).casefold().removeprefix("the ")


def _saves(each: Deadline) -> bool:
    """Whether a life may hang on a dated thing: all but gear for other purposes."""
    block = each.thing.block
    return not isinstance(block, Gear) or block.kind in VITAL


def _another_in_date(sight: Sight, over: Deadline) -> bool:
    """Whether another thing of the same sort aboard has not run out."""
    past = {each.thing.block for each in sight.deadlines if each.firm and each.last_day < sight.as_of}
    block, sort = over.thing.block, _sort(over.thing.block)
    return sort is not None and any(
        each.block is not block and each.block not in past and _sort(each.block) == sort
        for each in sight.things
    )


def _sort(block: Block) -> tuple[str, str] | None:
    """What one thing is asked for beside another: its kind of gear, of alarm or beacon."""
    if isinstance(block, (Gear, GrabItem)):
        kind = gear_kind(block)
        bag = "bag" if isinstance(block, GrabItem) else "aboard"
        return (bag, kind.name) if kind is not None else None
    if isinstance(block, Alarm):
        return ("alarm", f"{block.what} {block.where}")
    if isinstance(block, Beacon):
        return ("beacon", str(block.kind))
    return ("lifejackets", str(block.size)) if isinstance(block, Lifejackets) else None


_SERVES = r"(?:hangs?|lies|lie|stands? by|is (?:tied|kept|held|at hand|beside|ready|hung|there)|are (?:tied|kept|at hand|ready)|serves|stays|is used|goes in)"


@check("deferral.belied", LIFE, COMMON_PRACTICE)
def what_a_deferral_relies_on_is_there(sight: Sight) -> Finds:
    """What the reason of a deferral has in place until then is not said to be missing by the thing's own entry.

    Why: she sails with the fault because of the plug that hangs beside the hole, and there is none.
    Remedy: go and look; put it there and write where, or take the reason back: mend the defect, or write what really serves until then.
    """
    for entry in sight.vessel.deferred_defects:
        reason = entry.reason.lower() if isinstance(entry.reason, str) else ""
        for block in sight.blocks if reason and isinstance(entry.item, str) else ():
            if entry.item not in (block.path, block.__dict__.get(type(block).called or "")):
                continue
            for field in type(block).fields.values():
                word = re.escape(field.key.replace("-", " "))
                if block.says_none(field.key) and re.search(
                    rf"\b(?:the|its|a|with) {word}s? {_SERVES}\b|\bwith (?:the|its|a) {word}\b", reason
                ):
                    yield at(
                        entry,
                        "reason",
                        f"{entry.item}: she sails with it because of the {field.key.replace('-', ' ')}, and its entry says that there is none",
                        item=str(entry.item),
                        also=(block.place(field.key),),
                    )


_DONE = re.compile(
    r"\b(?:was|were|has been|have been|had|got) (?:since |now |then |already )?(?:fitted|mended|renewed|replaced|repaired|serviced|refilled|tested|corrected|put right|set right|installed|bought|brought aboard)\b"
)
_NOT_DONE = re.compile(
    r"\b(?:not|never|no|nothing|until|if|ordered|wrong|only|but|half|next|again|temporar\w+|provisional\w*|last)\b"
)


@check("deferral.done-already", TRUTH, COMMON_PRACTICE)
def a_deferral_waits_for_something(sight: Sight) -> Finds:
    """No reason of a deferral says that the thing has been mended: what is mended is no defect.

    Why: either the entry is old, and the crew are warned of what is sound; or the reason was copied, and the defect is there with nobody to mend it.
    Remedy: go and look; if it is mended, write that in the thing's own entry and take the deferral out, or write why she sails with it.
    """
    for entry in sight.vessel.deferred_defects:
        reason = entry.reason.lower() if isinstance(entry.reason, str) else ""
        if _DONE.search(reason) and not _NOT_DONE.search(reason):
            yield at(
                entry,
                "reason",
                f"'{shortened(str(entry.reason))}' has it mended, and the defect is deferred until {entry.until}",
                item=str(entry.item),
            )
