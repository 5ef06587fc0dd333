"""The painter: long enough, made fast, told from other lines, and pulled out by the raft."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.calc.release import painter_least_m
from generator.reading.values import Quantity, Stamp, untold
from generator.shelves.limits import Limit
from generator.survey.limits import limits_for
from generator.survey.rafts import fallen_short
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    HELP,
    LIFE,
    RECOMMENDATION,
    Finds,
    Sight,
    check,
    of,
)
from generator.survey.strong_points import OF_THE_HULL, RAILS, a_rail, gives_way, itself

if TYPE_CHECKING:
    from generator.reading.block import Block
    from generator.vessel.raft import Raft

_ON_RAIL = re.compile(
    rf"\b(?:on|onto|to|round|around) (?:the |its )?(?:\w+ ){{0,2}}({RAILS})(?! (?:foot|base))\b",
    re.IGNORECASE,
)


_ON_A_LID = re.compile(
    r"\b(?:on|onto|to|in) (?:the |its )?(?:\w+ ){0,2}?(lid|cover|door|washboards?|table)\b(?! (?:frame|jamb|coaming|leg))",
    re.IGNORECASE,
)
"""What opens, lifts off or is screwed to the furniture."""


@check(
    "raft.floats-too-weakly",
    LIFE,
    "IMO MSC.81(70) Part 2, 5.1.2 (150 N at most to pull the painter); our estimate of the lift",
    COMPOSITION,
)
def packed_raft_pulls_its_painter_out(sight: Sight) -> Finds:
    """The packed raft floats up strongly enough to pull out its painter.

    Why: a raft that hangs at its painter without pulling it out never fires.
    Remedy: look at mass and size on the label again; if they are right, ask the maker whether it may be held by an HRU.
    """
    for raft, row in fallen_short(sight, "floats-up-too-weak", "floats-up-not-predictable"):
        sure = row.key == "floats-up-not-predictable"
        yield of(
            raft,
            "packed-size",
            f"packed it {'does not pull' if sure else 'may not pull'} the 150 N that its painter takes",
            weight=None if sure else RECOMMENDATION,
        )


@check(
    "raft.painter-unmarked",
    HELP,
    "MGN 343 (some rafts have more than one line out of the container)",
)
def painter_is_told_from_other_lines(sight: Sight) -> Finds:
    """Where several lines come out of the container, the painter is marked.

    Why: made fast by the wrong line the raft neither fires nor stays.
    Remedy: tie a tag to the painter at the container, then write marked: yes.
    """
    for raft in sight.vessel.rafts:
        if raft.painter and raft.painter.marked is False:
            yield of(
                raft,
                "marked",
                "several lines come out of the container, and the painter is not marked",
                part=raft.painter,
            )


@check(
    "raft.painter-reach",
    LIFE,
    "C.R.C. c. 1436 Sch. VIII s. 4(1)(b) (read in the 2006-2023 text): twice the height; "
    "15 m at least for SOLAS rafts",
)
def painter_reaches_the_water(sight: Sight) -> Finds:
    """The painter is long enough for the height the raft lies at.

    Why: with a painter too short the raft hangs at the side, or fires against the hull.
    Remedy: have the station fit a longer painter; look at the label again if the figure is wrong.
    """
    for raft in sight.vessel.rafts:
        painter = raft.painter
        length_m = painter.length if painter else None
        if painter is None or not isinstance(length_m, Quantity) or not isinstance(raft.height, Quantity):
            continue
        needs = [(_painter_m(row, raft.height), row) for row in limits_for(sight.vessel, "painter", raft)]
        if not needs:
            continue
        needed_m, row = max(needs, key=lambda each: each[0])
        if length_m < needed_m:
            short = length_m <= raft.height
            reach = (
                "does not reach the water"
                if short
                else f"should be {needed_m:g} m at least ({row.source}; {row.standing})"
            )
            yield of(
                raft,
                "length",
                f"the painter of {length_m} {reach}; the raft lies {raft.height} high",
                part=painter,
                weight=RECOMMENDATION if _nearly(raft, length_m, needs) else None,
            )


_USUAL_M = 6.0
"""A painter longer than this, that is shorter than small-craft rafts are made with, may be cut down, and fires clear of her all the same: common practice."""


def _nearly(raft: Raft, length_m: float, needs: list[tuple[float, Limit]]) -> bool:
    """Whether a small-craft raft's painter falls short of nothing but what such rafts usually have, and of that by little."""
    usual = not str(raft.standard).startswith("SOLAS") and length_m > _USUAL_M
    return usual and all(length_m >= needed_m for needed_m, row in needs if row.times_height)


def _painter_m(row: Limit, height_m: float) -> float:
    """What a row asks of a painter at a mount's height, in metres."""
    return painter_least_m(
        float(height_m), row.least or 0.0, row.times_height or 0.0, row.plus_height_m or 0.0
    )


@check("raft.strong-point-rail", LIFE, COMMON_PRACTICE)
def painter_is_fast_to_the_hull(sight: Sight) -> Finds:
    """The painter is fast to a strong point of the hull, not to a rail, the raft's own cradle, or what is rigged or only leads a line.

    Why: rails, guardwires and cradles tear out when the inflated raft snatches in a sea, and the raft is gone.
    Remedy: make it fast to a through-bolted eye, a cleat or a chainplate, and write where that is.
    """
    for raft in sight.vessel.rafts:
        point = raft.strong_point
        what = str(point.what or "") if point is not None else ""
        place = str(point.where) if point is not None and point.known("where") else ""
        fast = _ON_RAIL.search(f"{what} {point.spot or ''}") if point is not None else None
        beside = "" if OF_THE_HULL.search(itself(what)) else a_rail(place)
        lid = _ON_A_LID.search(f"{what}; {point.spot or ''}") if point is not None else None
        loose = fast or lid
        if weak := gives_way(what) or beside or (loose[1].lower() if loose is not None else ""):
            yield of(
                raft,
                "strong-point",
                f"the strong point '{raft.strong_point}' names a {weak}, which is no part of the hull",
                also=(point.place("what"),) if point is not None else (),
            )
        if raft.painter and raft.painter.fast_to == "rail":
            yield of(raft, "fast-to", "the painter is fast to a rail", part=raft.painter)


@check(
    "raft.painter-loose",
    LIFE,
    "CHIRP Maritime, liferaft painters not secured to the ship",
    deferrable=False,
)
def painter_is_made_fast(sight: Sight) -> Finds:
    """The painter is made fast.

    Why: a raft whose painter is fast to nothing does not inflate and drifts away; it is often forgotten after a service.
    Remedy: make it fast as the maker shows, then write what it is fast to; a valise may stand unfastened till it is launched.
    """
    for raft in sight.vessel.rafts:
        if raft.painter and raft.painter.fast_to == "nothing" and raft.container != "valise":
            yield of(raft, "fast-to", "the painter is fast to nothing", part=raft.painter)


@check(
    "raft.painter-unchecked",
    LIFE,
    "CHIRP Maritime, liferaft painters not secured to the ship; Nautical Institute MARS 200037",
)
def rig_is_checked_after_service(sight: Sight) -> Finds:
    """Painter and joints were looked at after the raft came back from service, and after its release was renewed.

    Why: rafts come back with the painter on the wrong eye, or on none; a release is changed by undoing just what holds raft and painter.
    Remedy: look at painter, weak link and strong point, then write the day under 'checked'.
    """
    for raft in sight.vessel.rafts:
        if (
            raft.painter
            and raft.service
            and (raft.container == "canister" or _looked_at_fast(raft))
            and isinstance(raft.service.last, Stamp)
            and (untold(raft.painter.checked) or isinstance(raft.painter.checked, Stamp))
            and not (raft.painter.checked and raft.painter.checked.last_day >= raft.service.last.first_day)
        ):
            seen = (
                f"was last looked at {raft.painter.checked.when}"
                if raft.painter.checked
                else "was not looked at since, as far as is written"
            )
            yield of(
                raft,
                "checked",
                f"it came back from service {raft.service.last.when}, and its painter {seen}",
                part=raft.painter,
            )
        elif (stale := _before_its_release(raft)) is not None and raft.release is not None:
            part, what = stale
            yield of(
                raft,
                "checked",
                f"its release was fitted {raft.release.fitted.when if isinstance(raft.release.fitted, Stamp) else ''}, and {what} was last looked at before that",
                remedy=f"look at {what}, how it is made fast to the new release, then write the day: checked: {sight.as_of.isoformat()}",
                part=part,
                also=(raft.release.place("fitted"),),
            )


def _looked_at_fast(raft: Raft) -> bool:
    """Whether the painter of a raft in a valise is fast to something all the time, and was looked at."""
    return (
        raft.painter is not None
        and raft.painter.known("fast_to", "checked")
        and raft.painter.fast_to != "nothing"
    )


def _before_its_release(raft: Raft) -> tuple[Block, str] | None:
    """The painter, where it was looked at for the last time before the release that it is joined to was fitted."""
    fitted = raft.release.fitted if raft.release is not None else None
    if not isinstance(fitted, Stamp):
        return None
    seen = raft.painter.checked if raft.painter is not None else None
    if raft.painter is not None and isinstance(seen, Stamp) and seen.last_day < fitted.first_day:
        return raft.painter, "its painter"
    return None
