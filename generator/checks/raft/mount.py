"""How a raft is mounted, as its drawing shows it: lid, sill, strap, slip and strong point agree with each other and the stowage."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.manual.drawing.spaces import gap_m
from generator.reading.values import UNKNOWN, Quantity
from generator.shelves.stowages import SLIDES
from generator.survey.places import space_at
from generator.survey.registry import (
    COMMON_PRACTICE,
    HELP,
    LIFE,
    NOTICE,
    RECOMMENDATION,
    TRUTH,
    Finds,
    Sight,
    check,
    of,
)
from generator.vessel.fittings import Fitting
from generator.vessel.raft import ENDS, Raft, Slip

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.reading.block import Block

_REACH = {"lid-hinge": "forward, aft, port, starboard or none", "strong-point-reached": "yes or no"}
_STRAPS, _SLIP = frozenset(("strap", "lashing")), "Senhouse slip"


@check("raft.sill", TRUTH, COMMON_PRACTICE)
def a_raft_with_a_sill_is_lifted(sight: Sight) -> Finds:
    """A raft that is not lifted has no sill before it.

    Why: the step says to slide it over, and two people find out in the dark that they must lift it.
    Remedy: try it; write lift-needed: yes, or sill: 0 m where it slides out over nothing.
    """
    for raft in sight.vessel.rafts:
        if raft.lift_needed is False and isinstance(raft.sill, Quantity) and raft.sill > 0:
            yield of(
                raft,
                "sill",
                f"it need not be lifted, and there is a sill of {raft.sill} to lift it over",
                also=(raft.place("lift-needed"),),
            )


_RAIL = re.compile(
    r"\b(?:pushpit|pulpit|guard ?-?(?:rail|wire|line)s?|life ?lines?|rails?|bulwarks?|coamings?|toe ?rails?)\b",
    re.IGNORECASE,
)
_OPENED = re.compile(
    r"\b(?:gates?|gateway|opening|gap|door|let down|lowered|unhooked|folded|between|under)\b", re.IGNORECASE
)


@check("raft.rail-lifted", LIFE, COMMON_PRACTICE)
def a_raft_over_a_rail_is_lifted(sight: Sight) -> Finds:
    """A raft that two slide from where it lies is not launched over a rail, unless that is opened, or the raft is lifted.

    Why: the step says to slide it, and two people stand with a raft against a rail as high as their hips.
    Remedy: name the gate it is slid through; or try to lift it over, and say that it must be lifted.
    """
    for raft in sight.vessel.rafts:
        over, kept = raft.launch_from, raft.kept
        slid = (
            raft.lift_needed is False
            and kept is not None
            and kept.goes_over == SLIDES
            and kept.one_side is not True
        )
        if not slid or not isinstance(over, Fitting) or not isinstance(over.what, str):
            continue
        words = f"{over.what}; {over.spot or ''}; {over.how or ''}"
        found = _RAIL.search(over.what)
        if found is not None and not _OPENED.search(words):
            yield of(
                raft,
                "launch-from",
                f"it need not be lifted, and goes over '{over.what}', a rail that nothing opens",
                also=(raft.place("lift-needed"),),
            )


@check("raft.lid", TRUTH, COMMON_PRACTICE)
def only_a_closed_place_has_a_lid(sight: Sight) -> Finds:
    """A raft with a lid over it is kept in a locker, recess or slot, not in an open cradle or bracket.

    Why: a lid in the drawing of an open cradle makes people look for one; a lid that is there keeps the raft from floating free.
    Remedy: go and look; take 'lid-hinge' out, or write the stowage that is there.
    """
    for raft in sight.vessel.rafts:
        row = raft.kept
        if raft.lid_hinge in ENDS and row is not None and not (row.compartment or row.below):
            yield of(
                raft,
                "lid-hinge",
                f"its lid is hinged {raft.lid_hinge}, and a {row.name} is open",
                also=(raft.place("stowage"),),
            )


@check("raft.slip-side", LIFE, COMMON_PRACTICE)
def slip_and_fixed_end_are_two_ends(sight: Sight) -> Finds:
    """The slip is not on the side on which the strap is fixed to the boat.

    Why: a strap has two ends, and the drawing shows the hand at the one that does not open.
    Remedy: go and look at which end the slip is, and correct 'slip: {side: ...}' or 'strap-fixed'.
    """
    for raft in sight.vessel.rafts:
        if raft.slip and isinstance(raft.slip.side, str) and raft.slip.side == raft.strap_fixed:
            yield of(
                raft,
                "side",
                f"the slip is said to be on the side to {raft.slip.side}, and the strap to be fixed there",
                part=raft.slip,
                also=(raft.place("strap-fixed"),),
            )


@check("raft.strong-point-far", LIFE, COMMON_PRACTICE)
def painter_reaches_from_its_strong_point(sight: Sight) -> Finds:
    """From its strong point the painter reaches to the raft, and from there to the water.

    Why: on a line too short the raft fires on deck or hangs above the water.
    Remedy: go and look where the painter is made fast, and write that space; else have the strong point moved.
    """
    for raft in sight.vessel.rafts:
        point, painter = raft.strong_point, raft.painter
        here, there = space_at(sight, raft.where), space_at(sight, point.where if point else None)
        if here is None or there is None or not painter or not isinstance(painter.length, Quantity):
            continue
        away_m = gap_m(here, there)
        down_m = float(raft.height) if isinstance(raft.height, Quantity) else 0.0
        short = away_m > 0 and away_m + down_m > painter.length
        if short or away_m > painter.length / 2:
            left = "does not reach the water" if short else "has less than half its length left"
            yield of(
                raft,
                "strong-point",
                f"the painter of {painter.length} is fast at the {there.name}, {away_m:.1f} m from the raft at the "
                f"{here.name}, and {left}",
                weight=None if short or painter.length - away_m < 2 * down_m else RECOMMENDATION,
                also=(painter.place("length"),),
            )


def _stowed_behind(raft: Raft) -> bool:
    """Whether it fills a closed place out of which it goes at one side: what lies behind it is out of reach."""
    return raft.kept is not None and raft.kept.compartment is True and raft.kept.one_side is True


@check("raft.reach-not-told", HELP, COMMON_PRACTICE)
def what_lies_before_and_behind_a_stowed_raft_is_told(sight: Sight) -> Finds:
    """Of a raft in a recess or slot is told whether a lid closes it, and whether a hand reaches the strong point behind it.

    Why: the steps say to open a cover if there is one, and to tie the painter to what may lie behind a raft that two people cannot move.
    Remedy: go and look with the raft in its place; write lid-hinge, none where there is no lid, and strong-point-reached: yes or no.
    """
    for raft in sight.vessel.rafts:
        lacks = [key for key in ("lid-hinge", "strong-point-reached") if _open(raft, key)]
        if _stowed_behind(raft) and lacks:
            yield of(
                raft,
                "name",
                f"how it is got at in its {raft.stowage} is not told: {', '.join(lacks)}",
                remedy="go and look with the raft in its place, and write "
                + " and ".join(f"{key}: {_REACH[key]}" for key in lacks),
            )


@check("raft.strong-point-behind", HELP, COMMON_PRACTICE)
def the_strong_point_is_reached_with_the_raft_in_its_place(sight: Sight) -> Finds:
    """A hand reaches the strong point of the painter while the raft lies in its place.

    Why: the painter is checked or tied before the raft is moved; a knot that nobody sees may hold nothing.
    Remedy: lead the painter, or a strong tail from the strong point, to where a hand reaches it; then write strong-point-reached: yes.
    """
    for raft in sight.vessel.rafts:
        if raft.strong_point_reached is False:
            yield of(
                raft, "strong-point-reached", "nobody reaches what its painter is tied to before it is out"
            )


@check("raft.mount-not-told", NOTICE, COMMON_PRACTICE)
def the_mount_is_told_for_its_drawing(sight: Sight) -> Finds:
    """What the drawing of a raft's mount shows is told: how it lies, where its painter comes out, strap, slip, lid, sill, strong point.

    Why: the drawing leaves out what is not told, and whoever frees the raft in the dark feels for it.
    Remedy: go and look, and write each of the keys that the message names; lid-hinge: none where there is no lid.
    """
    for raft in sight.vessel.rafts:
        lacks = list(_not_told(raft))
        if lacks:
            block, key = lacks[0]
            here = "name" if block is raft else key
            keys = (
                key if block is raft else f"{block.path.rpartition('.')[2]}.{key}" for block, key in lacks
            )
            yield of(
                raft,
                here,
                f"its drawing is not told: {', '.join(keys)}",
                part=block,
                remedy=f"go and look, and write what is there, for example {key}: {type(block).fields[key].example}",
            )


def _not_told(raft: Raft) -> Iterator[tuple[Block, str]]:
    """Block and key of each thing that the drawing of this mount shows and the file does not tell."""
    closed = raft.kept is not None and (raft.kept.compartment or raft.kept.below)
    shown = {"lies": True, "painter-end": True, "strap-fixed": not _STRAPS.isdisjoint(raft.held_by)}
    lid = closed and not _stowed_behind(raft)  # of that, more is asked
    for key, fits in {**shown, "lid-hinge": lid, "sill": closed}.items():
        if fits and _open(raft, key):
            yield raft, key
    if _SLIP in raft.held_by and raft.slip is None and not raft.says_none("slip"):
        yield raft, "slip"
    elif isinstance(raft.slip, Slip) and _open(raft.slip, "side"):
        yield raft.slip, "side"
    point = raft.strong_point
    if isinstance(point, Fitting) and not point.sides_told and _open(point, "side"):
        yield point, "side"


def _open(block: Block, key: str) -> bool:
    """Whether a key is left out or says unknown; what cannot be read has been told."""
    value = block.__dict__.get(type(block).fields[key].name)
    return value is None or value is UNKNOWN
