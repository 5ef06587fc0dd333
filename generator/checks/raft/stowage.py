"""Where and how a raft is kept: what it is packed in, how high, how dry, how firmly."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.checks.fire.stowed import is_petrol
from generator.manual.drawing.spaces import find_space, gap_m
from generator.reading.values import Quantity, given
from generator.shelves.spaces import FOR_GEAR, UPPER
from generator.shelves.stowages import hydrostatic, stowages
from generator.survey.limits import strictest
from generator.survey.places import space_at
from generator.survey.registry import (
    ADVICE,
    COMMON_PRACTICE,
    COMPOSITION,
    DEFECT,
    LIFE,
    RECOMMENDATION,
    TRUTH,
    Finds,
    Found,
    Sight,
    check,
    of,
)

if TYPE_CHECKING:
    from generator.manual.drawing.spaces import Space
    from generator.shelves.stowages import Stowage
    from generator.vessel.raft import Raft


@check("raft.combination", LIFE, "the table of stowages, each row with its source")
def raft_goes_with_its_stowage(sight: Sight) -> Finds:
    """What the raft is packed in, and what holds it, goes with where it is kept.

    Why: for a raft that cannot lie there as described, the steps on its card would be wrong.
    Remedy: look at the raft again and write what is there; the message lists what goes with the stowage.
    """
    for raft in sight.vessel.rafts:
        row = raft.kept
        if row is None:
            continue
        if isinstance(raft.container, str) and raft.container not in row.container:
            others = [name for name, one in stowages().items() if raft.container in one.container]
            yield of(
                raft,
                "container",
                f"a {raft.container} does not go with the stowage '{row.name}'",
                remedy=f"with '{row.name}' goes: {', '.join(row.container)}; a {raft.container} goes with: {', '.join(others)}",
            )
        one = sight.vessel.vessel
        if row.below is True and one and not one.hull.closed_in:
            yield of(
                raft,
                "stowage",
                f"its stowage is '{row.name}', and a boat of the type {one.type} has nothing below",
                remedy="write the stowage that is there",
            )
        # An HRU where nothing floats free is found by release.closed-in.
        wrong = [
            hold
            for hold in raft.held_by
            if hold not in row.held_by and not (hold in hydrostatic() and row.float_free == "no")
        ]
        if wrong:
            yield of(
                raft,
                "held-by",
                f"{' and '.join(wrong)} does not go with the stowage '{row.name}'",
                remedy=f"with '{row.name}' goes: {', '.join(row.held_by)}, or nothing",
            )


@check(
    "raft.loose-in-cradle",
    LIFE,
    "marine accident report on a fishing vessel lost in 2012 (secondary)",
)
def container_sits_snugly(sight: Sight) -> Finds:
    """The container sits snugly where it is stowed.

    Why: with play it chafes its strap through in a sea, or jams across its cradle when it should rise.
    Remedy: have the cradle fitted to the container, then write snug: yes.
    """
    for raft in sight.vessel.rafts:
        if raft.snug is False:
            yield of(
                raft, "snug", f"the {raft.container or 'raft'} has play in its {raft.stowage or 'stowage'}"
            )


@check("raft.drain-holes", LIFE, "a raft maker's manual (secondary)")
def container_drains(sight: Sight) -> Finds:
    """The drain holes of the container point down.

    Why: water that cannot leave rots the raft and freezes in its valve.
    Remedy: turn the container, then write drains-down: yes; ask the station first if water stood in it.
    """
    for raft in sight.vessel.rafts:
        if raft.drains_down is False:
            yield of(raft, "drains-down", "the drain holes of the container do not point down")


@check("raft.compartment-wet", ADVICE, "Offshore Special Regulations 4.20.3 (2008 text, secondary)")
def compartment_of_the_raft_drains(sight: Sight) -> Finds:
    """A locker or recess with a raft in it drains overboard by itself.

    Why: a raft that stands in water is a raft that may not inflate.
    Remedy: give the compartment a drain, then write compartment-drains: yes.
    """
    for raft in sight.vessel.rafts:
        if raft.compartment_drains is False and raft.kept is not None and raft.kept.compartment is True:
            yield of(raft, "compartment-drains", f"its {raft.stowage or 'stowage'} does not drain")


@check("raft.compartment-shared", ADVICE, "Offshore Special Regulations 4.20.3 (2008 text, secondary)")
def compartment_holds_the_raft_alone(sight: Sight) -> Finds:
    """The raft has its locker or recess for itself.

    Why: whatever lies on it or beside it is in the way when seconds count.
    Remedy: move the other things, and write their new place.
    """
    vessel = sight.vessel
    for raft in vessel.rafts:
        if raft.kept is None or raft.kept.compartment is not True or not isinstance(raft.where, str):
            continue
        beside = [item for item in vessel.gear if (item.where, item.side) == (raft.where, raft.side)]
        for item in beside:
            yield Found(
                item.place("where"),
                f"{item.what}: it lies with the {raft.name} in the {raft.where or 'place not told'}",
                item=str(item.what),
                weight=DEFECT if is_petrol(str(item.what)) else None,
                also=(raft.place("where"),),
            )


@check("raft.label-height", LIFE, "LSA Code 4.2.6.3 (the label states the greatest stowage height)")
def raft_lies_no_higher_than_its_label_says(sight: Sight) -> Finds:
    """The raft lies no higher than its label allows.

    Why: dropped from higher the container or what is in it breaks.
    Remedy: stow it lower, or have a raft packed for that height; measure again if the figure is wrong.
    """
    for raft in sight.vessel.rafts:
        if (
            isinstance(raft.label_height, Quantity)
            and isinstance(raft.height, Quantity)
            and raft.height > raft.label_height
        ):
            yield of(
                raft,
                "label-height",
                f"it lies {raft.height} above the water, and its label allows {raft.label_height}",
                also=(raft.place("height"),),
            )


@check("raft.exposed", ADVICE, "46 CFR 180.130(a)(8) (sheltered from breaking seas)")
def raft_is_sheltered_from_seas(sight: Sight) -> Finds:
    """The raft is not kept on the foredeck.

    Why: green water takes it away, and whoever fetches it goes where the seas break.
    Remedy: give it a place at or behind the mast.
    """
    spaces = sight.spaces if sight.vessel.vessel and sight.vessel.rafts else {}
    for raft in sight.vessel.rafts:
        space = find_space(spaces, raft.where)[0] if isinstance(raft.where, str) else None
        if space is not None and space.exposed:
            yield of(raft, "where", f"it is kept at the {raft.where}, where the seas break")


@check("raft.unheld", LIFE, COMMON_PRACTICE)
def a_raft_that_could_fall_is_held(sight: Sight) -> Finds:
    """A raft in a bracket, recess or slot is held by something.

    Why: a raft that falls out under way fires at its painter and takes its bracket with it.
    Remedy: write under 'held-by' what holds it, in the order you take it off.
    """
    for raft in sight.vessel.rafts:
        if raft.kept is not None and raft.kept.falls_out is True and raft.held_by == ():
            yield of(raft, "stowage", f"nothing is said to hold it in its {raft.stowage}")


@check("raft.hold-not-said", LIFE, COMMON_PRACTICE)
def it_is_said_what_holds_the_raft(sight: Sight) -> Finds:
    """It is said what holds a raft in its cradle or locker, or that nothing does.

    Why: the steps that launch it tell the hand what to open, in its order; of a hold nobody wrote down they say nothing, and the raft
    stays where it is. In a locker or below whoever opens it sees the hold: a recommendation.
    Remedy: go and look; write under 'held-by' what holds it, in the order you take it off, or held-by: none where it lies loose.
    """
    for raft in sight.vessel.rafts:
        row = raft.kept
        if raft.held_by or raft.answers("held-by") or (row is not None and row.falls_out is True):
            continue  # of one that falls out raft.unheld speaks; an answer that cannot be read has been told
        yield of(
            raft,
            "held-by",
            f"nothing says what holds it in its {given(raft.stowage, 'stowage')}, nor that nothing does",
            remedy=f"go and look; write held-by: [{', '.join(_usual(raft, row))}] if that is what holds it, or held-by: none",
            weight=RECOMMENDATION if row is not None and (row.compartment or row.below) else None,
        )


def _usual(raft: Raft, row: Stowage | None) -> tuple[str, ...]:
    """What may hold it as far as the file tells: the HRU that is described, and a strap or what else goes with the stowage."""
    may = row.held_by if row is not None else ("strap",)
    hru = hydrostatic() if raft.release is not None else ()
    return (*hru, "strap" if "strap" in may else may[-1])


@check(
    "raft.stowage-height",
    LIFE,
    "ISO 9650-1:2022 scope (6 m); C.R.C. c. 1436 Sch. VIII s. 1(2) (18 m, read in the 2006-2023 "
    "text); ISO 9650 type 2 (4 m, secondary: a recommendation)",
)
def raft_lies_no_higher_than_it_may_drop(sight: Sight) -> Finds:
    """The raft lies no higher than it may be dropped from.

    Why: dropped from higher the container or what is in it breaks, and the raft does not inflate.
    Remedy: stow it lower, or take a raft made for that height; measure again if the figure is wrong.
    """
    for raft in sight.vessel.rafts:
        row = strictest(sight.vessel, "height of the stowage", raft)
        if row and row.most and isinstance(raft.height, Quantity) and raft.height > row.most:
            yield of(
                raft,
                "height",
                f"it lies {raft.height} above the water; a raft of its standard may drop "
                f"{row.most:g} m at most ({row.source}; {row.standing})",
                weight=None if row.read else RECOMMENDATION,
            )


@check(
    "raft.below-deck", ADVICE, "a sailing magazine on raft stowage (secondary); common practice", COMPOSITION
)
def raft_is_on_deck(sight: Sight) -> Finds:
    """The raft is not kept below deck.

    Why: fire, smoke or water below leave it below; carrying it up takes the strongest people out of everything else.
    Remedy: give it a place on deck or in a locker that opens to the cockpit.
    """
    for raft in sight.vessel.rafts:
        if raft.kept is not None and raft.kept.below is True:
            space = space_at(sight, raft.where)
            ways = [space_at(sight, hatch.where) for hatch in sight.vessel.escape]
            near = space is None or not ways or None in ways
            far = not near and all(
                gap_m(space, way) > BESIDE_M for way in ways if way is not None and space is not None
            )
            if space is not None and (far or space.name.endswith("peak")):
                yield of(
                    raft,
                    "stowage",
                    f"it is kept below deck in the {space.name}, from where nobody carries it up",
                    weight=DEFECT,
                )
            else:
                yield of(raft, "stowage", "it is kept below deck")


BESIDE_M = 2.0
"""How far from a way out a raft below may be kept that is carried up in time: common practice."""


@check("raft.valise-exposed", ADVICE, "Offshore Special Regulations 4.20.3 (2008 text, secondary)")
def valise_is_kept_dry(sight: Sight) -> Finds:
    """A valise is kept in a locker, not on deck.

    Why: its fabric lets spray and sun at the raft and the cylinder.
    Remedy: keep it in a rigid compartment that holds nothing else, or have the raft packed in a canister.
    """
    for raft in sight.vessel.rafts:
        if raft.container == "valise" and raft.kept is not None and raft.kept.exposed is True:
            yield of(raft, "stowage", f"a valise lies open in a {raft.stowage}")


@check("raft.two-places", TRUTH, COMMON_PRACTICE, COMPOSITION)
def stowage_and_space_are_one_place(sight: Sight) -> Finds:
    """A raft's stowage and its space are one place, on one level, and not a locker where it stands in the open.

    Why: 'in the pushpit bracket' and 'on the foredeck' send two people to two ends of the boat.
    Remedy: go and look; correct the one that is wrong, or leave 'where' out where the stowage says it.
    """
    for raft in sight.vessel.rafts:
        said = raft.kept.where if raft.kept is not None else None
        if not isinstance(said, str) or not isinstance(raft.where, str):
            continue
        here, meant = (find_space(sight.spaces, each)[0] for each in (raft.where, said))
        if here is not None and meant is not None and (gap_m(here, meant) > 0 or _unlike(here, meant)):
            yield of(
                raft,
                "where",
                f"it is kept in a {raft.stowage}, and where says {raft.where}",
                also=(raft.place("stowage"),),
            )


@check("raft.stowed-otherwise", TRUTH, COMMON_PRACTICE, COMPOSITION)
def a_raft_in_the_place_of_another_stowage_is_kept_so(sight: Sight) -> Finds:
    """A raft in the space of one stowage is not told to be kept in another that goes over, or comes loose, otherwise: the pushpit takes brackets.

    Why: the steps have people lift what drops by itself, or leave the engine running where the raft comes down at the propeller.
    Remedy: go and look; write stowage: pushpit bracket for what hangs there, or the space in which the raft really lies.
    """
    for raft in sight.vessel.rafts:
        kept, here = (
            raft.kept,
            find_space(sight.spaces, raft.where)[0] if isinstance(raft.where, str) else None,
        )
        if kept is None or here is None or isinstance(kept.where, str) or here.own or _told_of_it(raft, kept):
            continue
        for other in stowages().values():
            at_home = isinstance(other.where, str) and find_space(sight.spaces, other.where)[0] is here
            if at_home and any(getattr(kept, each) != getattr(other, each) for each in GOES):
                yield of(
                    raft,
                    "stowage",
                    f"it is told as kept in a {raft.stowage}, and lies in the {here.name}, as what is kept in a {other.name} does",
                    also=(raft.place("where"),),
                )


def _told_of_it(raft: Raft, kept: Stowage) -> bool:
    """Whether other checks speak of how a raft is kept: below, or in a stowage that does not go with its container or its release."""
    released = any(hold in hydrostatic() for hold in raft.held_by)
    shut_in = released and kept.float_free != "yes"
    valise = raft.container == "valise" and kept.exposed is True
    return kept.below is True or raft.container not in kept.container or shut_in or valise


GOES = ("goes_over", "one_side", "falls_out", "beside_propeller", "compartment")
"""What of a stowage decides how its raft leaves."""


def _unlike(one: Space, other: Space) -> bool:
    """Whether two spaces that touch are two places all the same: of one people are inside, or one is a locker, and of the other they are not."""
    if one.own or other.own or one.unlike or other.unlike:
        return False
    if one.level == other.level == UPPER:
        return False  # a raft in its cradle up there: roof and upper deck are one
    return one.level != other.level or (FOR_GEAR in (one.stows, other.stows) and one.stows != other.stows)
