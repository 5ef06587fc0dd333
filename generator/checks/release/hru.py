"""The hydrostatic release unit: in date, rightly fitted, deep enough, and the raft freed by hand without it."""

from __future__ import annotations

from generator.calc.expiry import add_months, last_of_month
from generator.reading.values import Quantity, Stamp, known
from generator.shelves.stowages import holds
from generator.survey.limits import least, months, most
from generator.survey.passed import passed
from generator.survey.rafts import held_by_hru
from generator.survey.registry import (
    COMMON_PRACTICE,
    HELP,
    LIFE,
    Finds,
    Sight,
    check,
    of,
)

_ROUNDED_M = 0.02
"""What the turning of feet into metres and back may add: 4.9 ft are 1.49 m."""


@check(
    "release.expired",
    LIFE,
    "46 CFR 28.140 (replace on or before expiry); two years from fitting or four from making (a maker's "
    "manual, secondary)",
    deferrable=False,
)
def release_is_in_date(sight: Sight) -> Finds:
    """The HRU is in date for the whole passage.

    Why: an old HRU may not cut, and the raft goes down with the boat.
    Remedy: fit a new one, strike month and year on it, then write made, fitted and expires.
    """
    yield from passed(sight, "release.expired")


@check(
    "release.life",
    LIFE,
    "AMSA Working Boats, May 2020 (two years); SOLAS III/20.9 (12 months between services, 17 at most)",
)
def release_is_not_trusted_too_long(sight: Sight) -> Finds:
    """The HRU's expiry lies no further from its fitting than usual.

    Why: a disposable HRU is good for two years from fitting; a later mark is often the date of making or a slip of the pen.
    Remedy: compare with the mark on the unit; if the maker gives a longer life, defer this and say so.
    """
    for raft in sight.vessel.rafts:
        unit = raft.release
        if not unit or not isinstance(unit.fitted, Stamp) or not isinstance(unit.expires, Stamp):
            continue
        longest = months(sight.vessel, "time a release is trusted", raft, str(unit.kind or ""))
        if longest and unit.expires.last_day > last_of_month(add_months(unit.fitted.last_day, longest)):
            yield of(
                raft,
                "expires",
                f"the HRU was fitted {unit.fitted.when} and is marked {unit.expires}, more than "
                f"{longest} months later",
                part=unit,
            )


@check("release.unfitted", LIFE, COMMON_PRACTICE)
def hru_named_is_described(sight: Sight) -> Finds:
    """An HRU that holds the raft is described.

    Why: without its dates nobody knows whether it will cut.
    Remedy: write 'release' with kind, made, fitted and expires, or take HRU out of 'held-by'.
    """
    for raft in held_by_hru(sight.vessel):
        if not raft.release:
            yield of(raft, "held-by", "held-by names an HRU, and 'release' does not describe one")


@check("release.not-holding", LIFE, COMMON_PRACTICE)
def hru_described_holds_the_raft(sight: Sight) -> Finds:
    """An HRU that is described also holds the raft.

    Why: one of the two lines is wrong, and the launch steps follow 'held-by'.
    Remedy: write HRU into 'held-by' at its turn, or take 'release' out.
    """
    for raft in sight.vessel.rafts:
        told = bool(raft.held_by) or raft.says_none("held-by")
        if raft.release and not raft.hydrostatic and told:
            yield of(raft, "release", "an HRU is described, and held-by does not name it")


@check("release.shared", LIFE, "AMSA safety alert, December 2021", deferrable=False)
def one_release_holds_one_raft(sight: Sight) -> Finds:
    """Each HRU holds one raft.

    Why: the unit is made for the pull of one raft; with two, one hangs on the other's straps.
    Remedy: give each raft its own HRU, strap and weak link.
    """
    for raft in sight.vessel.rafts:
        if raft.release and isinstance(raft.release.serves, int) and raft.release.serves > 1:
            yield of(raft, "serves", f"its HRU holds {raft.release.serves} rafts", part=raft.release)


@check(
    "release.valise",
    LIFE,
    "Small Vessel Regulations SOR/2010-91 s. 21(c) (a coastal raft in a valise is not float-free)",
)
def a_valise_has_no_release(sight: Sight) -> Finds:
    """A valise is not held by an HRU.

    Why: a valise is not made to float up and pull its own painter out.
    Remedy: have the raft packed in a canister, or launch it by hand and take HRU out of 'held-by'.
    """
    for raft in held_by_hru(sight.vessel):
        if raft.container == "valise":
            yield of(raft, "container", "an HRU holds it, and it is packed in a valise")


@check("release.held-beside", LIFE, COMMON_PRACTICE)
def nothing_holds_the_raft_beside_its_release(sight: Sight) -> Finds:
    """Of what ties a raft down that an HRU holds, there is one: all of it ends in the unit.

    Why: the unit lets go of what ends in it; a second lashing over the raft holds it down while she sinks.
    Remedy: go and look. Where one lashing is all there is, write it once: held-by: [Senhouse slip, HRU, strap]; a second one comes off;
    where both do end in the unit, defer this and say so.
    """
    for raft in held_by_hru(sight.vessel):
        ties = [hold for hold in raft.held_by if hold in holds() and _ties(hold)]
        if len(ties) > 1:
            yield of(
                raft,
                "held-by",
                f"{' and '.join(f'a {each}' for each in ties)} hold it, and one HRU: whatever does not end in the unit holds it under water",
                also=(raft.release.place("serves"),) if raft.release is not None else (),
            )


def _ties(hold: str) -> bool:
    """Whether a hold goes over the raft or round it, and neither lets go by itself nor in one action."""
    row = holds()[hold]
    return row.hydrostatic is not True and row.one_action is not True


@check(
    "release.by-hand",
    LIFE,
    "46 CFR 180.130(a)(4); C.R.C. c. 1436 s. 145; a ship's safety manual (one swift action, secondary)",
)
def raft_can_be_freed_by_hand(sight: Sight) -> Finds:
    """A raft held by an HRU can also be freed by hand in one swift action.

    Why: fire or a slow sinking needs the raft before the HRU is four metres down.
    Remedy: fit a slip or a pin between HRU and strap, and name it first in 'held-by'.
    """
    for raft in held_by_hru(sight.vessel):
        if not any(holds()[hold].one_action is True for hold in raft.held_by):
            yield of(raft, "held-by", "an HRU holds it, and neither a slip nor a pin lets it go by hand")


@check("release.depth", LIFE, "AMSA safety alert, December 2021 (1.5 to 4 m)")
def release_trips_at_its_depth(sight: Sight) -> Finds:
    """The HRU trips between 1.5 and 4 m.

    Why: one that trips higher lets go in a breaking sea, one that trips deeper may come too late.
    Remedy: read the marking on the unit again; ask the maker if it says so.
    """
    low_m, high_m = least(sight.vessel, "depth of release"), most(sight.vessel, "depth of release")
    for raft in sight.vessel.rafts:
        unit = raft.release
        depth = known(unit.depth) if unit else None
        if unit and depth and (depth[0] < low_m - _ROUNDED_M or depth[1] > high_m + _ROUNDED_M):
            yield of(
                raft,
                "depth",
                f"the HRU releases at {depth}; it should be within {low_m:g} and {high_m:g} m",
                part=unit,
            )


@check("release.strap-tension", LIFE, "AMSA safety alert, December 2021 (taut, not over-tight)")
def strap_of_the_hru_is_hand_tight(sight: Sight) -> Finds:
    """The strap that an HRU holds is hand-tight.

    Why: too tight or too slack, the strap does not come away when the HRU has cut.
    Remedy: set it taut by hand, without bar or winch, then write strap: hand-tight.
    """
    for raft in sight.vessel.rafts:
        if raft.release and raft.release.strap in ("slack", "overtight"):
            yield of(
                raft, "strap", f"the strap that the HRU holds is {raft.release.strap}", part=raft.release
            )


@check(
    "release.inverted",
    HELP,
    "AMSA safety alert, December 2021 (1.5 to 4 m); an estimate: she is taken to float as deep inverted",
)
def release_trips_upside_down(sight: Sight) -> Finds:
    """Under a multihull that floats upside down the HRU lies deep enough to release.

    Why: a capsized multihull does not sink; an HRU less than its depth under water never lets go.
    Remedy: plan to free the raft by hand from below, and drill it; or stow it where it is reached.
    """
    one = sight.vessel.vessel
    for raft in sight.vessel.rafts if one and one.hull.multihull else ():
        unit = raft.release
        depth = known(unit.depth) if unit else None
        if (
            raft.hydrostatic
            and unit
            and depth
            and isinstance(raft.height, Quantity)
            and raft.height < depth[0]
        ):
            yield of(
                raft,
                "height",
                f"upside down the HRU lies about {raft.height:.1f} m deep, and it releases at {depth}",
                also=(unit.place("depth"),),
            )
