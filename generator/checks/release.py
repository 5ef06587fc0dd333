"""What holds a raft and lets it go: hydrostatic release, weak link, painter joint, and whatever lies in the way."""

from __future__ import annotations

from generator.calc.expiry import add_months, last_of_month
from generator.checks.passed import passed
from generator.reading.values import Band, Quantity, Stamp
from generator.shelves.limits import limits
from generator.shelves.stowages import stowages
from generator.survey.registry import COMMON_PRACTICE, DEFECT, RECOMMENDATION, Found, at, check

DEPTH_M = (1.5, 4.0)


def _float_free(vessel):
    """The rafts held by an HRU."""
    return [raft for raft in vessel.rafts if "HRU" in raft.held_by]


def _of(raft, key, message, **more) -> Found:
    return at(raft, key, f"{raft.name}: {message}", item=str(raft.name), **more)


@check(
    "release.expired",
    DEFECT,
    "46 CFR 28.140 (replace on or before expiry); two years from fitting or four from making (a maker's "
    "manual, secondary)",
    deferrable=False,
)
def release_is_in_date(sight):
    """The HRU is in date for the whole passage.

    Why: an old HRU may not cut, and the raft goes down with the boat.
    Remedy: fit a new one, strike month and year on it, then write made, fitted and expires.
    """
    yield from passed(sight, "release.expired")


@check(
    "release.life",
    RECOMMENDATION,
    "AMSA Working Boats, May 2020 (two years); SOLAS III/20.9 (12 months between services, 17 at most)",
)
def release_is_not_trusted_too_long(sight):
    """The HRU's expiry lies no further from its fitting than usual.

    Why: a disposable HRU is good for two years from fitting; a later mark is often the date of making or a slip of the pen.
    Remedy: compare with the mark on the unit; if the maker gives a longer life, defer this and say so.
    """
    for raft in sight.vessel.rafts:
        unit = raft.release
        if not unit or not isinstance(unit.fitted, Stamp) or not isinstance(unit.expires, Stamp):
            continue
        months = {"disposable": 24, "serviceable": 17}.get(unit.kind)
        if months and unit.expires.last_day > last_of_month(add_months(unit.fitted.last_day, months)):
            yield at(
                unit,
                "expires",
                f"{raft.name}: the HRU was fitted {unit.fitted.when} and is marked {unit.expires}, more than "
                f"{months} months later",
                item=str(raft.name),
            )


@check("release.unfitted", DEFECT, COMMON_PRACTICE)
def hru_named_is_described(sight):
    """An HRU that holds the raft is described.

    Why: without its dates nobody knows whether it will cut.
    Remedy: write 'release' with kind, made, fitted and expires, or take HRU out of 'held-by'.
    """
    for raft in _float_free(sight.vessel):
        if not raft.release:
            yield _of(raft, "held-by", "held-by names an HRU, and 'release' does not describe one")


@check("release.not-holding", DEFECT, COMMON_PRACTICE)
def hru_described_holds_the_raft(sight):
    """An HRU that is described also holds the raft.

    Why: one of the two lines is wrong, and the launch steps follow 'held-by'.
    Remedy: write HRU into 'held-by' at its turn, or take 'release' out.
    """
    for raft in sight.vessel.rafts:
        if raft.release and "HRU" not in raft.held_by:
            yield _of(raft, "release", "an HRU is described, and held-by does not name it")


@check(
    "release.weak-link-missing",
    DEFECT,
    "MGN 343; C.R.C. c. 1436 Sch. VIII s. 7 (read in the 2006-2023 text)",
    deferrable=False,
)
def float_free_raft_has_a_weak_link(sight):
    """A raft held by an HRU has a weak link.

    Why: without one the sinking boat drags the inflated raft down by its painter.
    Remedy: fit the weak link that belongs to the HRU between painter and strong point, then write 'weak-link'.
    """
    for raft in sight.vessel.rafts:
        if raft.weak_link:
            continue
        if "HRU" in raft.held_by:
            yield _of(raft, "held-by", "an HRU holds it, and no weak link is described")
        elif raft.painter and raft.painter.fast_to == "weak link":
            yield at(
                raft.painter,
                "fast-to",
                f"{raft.name}: the painter is fast to a weak link that is not described",
                item=str(raft.name),
            )


@check(
    "release.weak-link-band",
    DEFECT,
    "C.R.C. c. 1436 Sch. VIII s. 7(2)(c) (read in the 2006-2023 text); MGN 343",
)
def weak_link_parts_in_its_band(sight):
    """The weak link parts at 2.2 kN, within 0.4 kN.

    Why: a weaker one parts before the raft is inflated, a stronger one lets the boat drag it down.
    Remedy: fit the weak link that belongs to the HRU; look at its marking again if the figure is wrong.
    """
    for raft in sight.vessel.rafts:
        link = raft.weak_link
        for row in (
            limits("weak-link", sight.vessel, raft) if link and isinstance(link.strength, Quantity) else ()
        ):
            low_n, high_n = row.figures["low"], row.figures["high"]
            if not low_n - 1e-6 <= link.strength <= high_n + 1e-6:
                yield at(
                    link,
                    "strength",
                    f"{raft.name}: the weak link parts at {link.strength}; it should be between "
                    f"{low_n / 1000:g} and {high_n / 1000:g} kN ({row.source})",
                    item=str(raft.name),
                    weight=None if row.read else RECOMMENDATION,
                )


@check("release.weak-link-home-made", DEFECT, "MGN 343")
def weak_link_is_made_for_it(sight):
    """The weak link is no odd piece of line.

    Why: nobody knows where thin line parts, least of all after two summers on deck.
    Remedy: fit the weak link that belongs to the HRU.
    """
    for raft in sight.vessel.rafts:
        if raft.weak_link and raft.weak_link.made_by == "home-made":
            yield at(
                raft.weak_link, "made-by", f"{raft.name}: the weak link is home-made", item=str(raft.name)
            )


@check(
    "release.weak-link-joins",
    DEFECT,
    "Nautical Institute MARS 200037; CHIRP Maritime, hydrostatic non-release unit",
)
def weak_link_joins_painter_to_hull(sight):
    """The weak link joins the painter to the strong point.

    Why: joined to cradle or HRU it holds nothing once these have let go: the raft drifts off uninflated.
    Remedy: lead it to the strong point on the hull, as the HRU's leaflet shows.
    """
    for raft in sight.vessel.rafts:
        if raft.weak_link and raft.weak_link.joins in ("cradle", "HRU"):
            yield at(
                raft.weak_link,
                "joins",
                f"{raft.name}: the weak link joins the painter to the {raft.weak_link.joins}",
                item=str(raft.name),
            )


@check(
    "release.weak-link-stronger",
    DEFECT,
    "C.R.C. c. 1436 Sch. VIII s. 7 (read in the 2006-2023 text): the link breaks, not the painter",
)
def weak_link_is_weaker_than_the_painter(sight):
    """The weak link is weaker than the painter.

    Why: if the painter parts first, it parts anywhere, perhaps before the raft is inflated.
    Remedy: read both figures again on label and leaflet; have the station change the painter if they are true.
    """
    for raft in sight.vessel.rafts:
        link, painter = raft.weak_link, raft.painter
        if (
            link
            and painter
            and isinstance(link.strength, Quantity)
            and isinstance(painter.strength, Quantity)
            and link.strength >= painter.strength
        ):
            yield at(
                link,
                "strength",
                f"{raft.name}: the weak link parts at {link.strength}, the painter already at {painter.strength}",
                item=str(raft.name),
                also=(painter.place("strength"),),
            )


@check(
    "release.painter-bypasses",
    DEFECT,
    "Nautical Institute MARS 200037; USCG 'Lost at Sea' report",
    deferrable=False,
)
def painter_does_not_bypass_the_weak_link(sight):
    """With an HRU the painter ends at the weak link, not at the strong point.

    Why: made fast past the weak link, the raft inflates and is then dragged down with the boat.
    Remedy: make the painter fast to the weak link, and that to the strong point; by hand it is fastened only for a launch.
    """
    for raft in _float_free(sight.vessel):
        if raft.painter and raft.painter.fast_to == "strong point":
            yield at(
                raft.painter,
                "fast-to",
                f"{raft.name}: an HRU holds it, and the painter is fast straight to the strong point",
                item=str(raft.name),
            )


@check(
    "release.painter-joint",
    DEFECT,
    "Nautical Institute MARS 200037; CHIRP Maritime, hydrostatic non-release unit",
    deferrable=False,
)
def painter_is_not_fast_to_what_lets_go(sight):
    """The painter is not fast to the cradle or the HRU.

    Why: on the cradle the raft goes down with it; on the HRU it drifts off uninflated once that has cut.
    Remedy: with an HRU make it fast to the weak link, else to the strong point.
    """
    for raft in sight.vessel.rafts:
        if raft.painter and raft.painter.fast_to in ("cradle", "HRU"):
            yield at(
                raft.painter,
                "fast-to",
                f"{raft.name}: the painter is fast to the {raft.painter.fast_to}",
                item=str(raft.name),
            )


@check("release.shared", DEFECT, "AMSA safety alert, December 2021", deferrable=False)
def one_release_holds_one_raft(sight):
    """Each HRU holds one raft.

    Why: the unit is made for the pull of one raft; with two, one hangs on the other's straps.
    Remedy: give each raft its own HRU, strap and weak link.
    """
    for raft in sight.vessel.rafts:
        if raft.release and isinstance(raft.release.serves, int) and raft.release.serves > 1:
            yield at(
                raft.release,
                "serves",
                f"{raft.name}: its HRU holds {raft.release.serves} rafts",
                item=str(raft.name),
            )


@check(
    "release.lashed-over",
    DEFECT,
    "MAIB report on the loss of FV Purbeck Isle, 2012 (secondary)",
    deferrable=False,
)
def nothing_is_lashed_over_the_raft(sight):
    """Nothing is lashed, locked or stacked over the raft.

    Why: an HRU that works frees nothing if a second lashing holds; by hand it costs the minutes there are not.
    Remedy: take it off, then write lashed-over: no.
    """
    for raft in sight.vessel.rafts:
        if raft.lashed_over is True:
            yield _of(raft, "lashed-over", "something is lashed, locked or stacked over it")


_NOTHING = ("nothing", "none", "no", "open sky", "the sky", "clear")


@check("release.overhead", DEFECT, "46 CFR 180.130(a)(2)")
def nothing_keeps_a_float_free_raft_down(sight):
    """Nothing above a raft held by an HRU keeps it from floating free.

    Why: the raft rises where the boat sinks; a net, an arch or a cover catches it.
    Remedy: move the raft or what is above it; write overhead: nothing when it is clear.
    """
    for raft in _float_free(sight.vessel):
        if isinstance(raft.overhead, str) and raft.overhead.strip().lower() not in _NOTHING:
            yield _of(raft, "overhead", f"an HRU holds it, and above it is: {raft.overhead}")


@check(
    "release.closed-in",
    DEFECT,
    "46 CFR 180.130(a)(2); Safety Investigation Authority Finland, safety observation of 23 January 2018",
)
def float_free_raft_is_not_closed_in(sight):
    """A raft held by an HRU is not shut in a locker or below deck.

    Why: it cannot float out; whoever relies on it will not fetch it by hand.
    Remedy: take HRU out of 'held-by' and launch by hand, or stow it on deck. In a transom recess, see that no lid closes on it.
    """
    free = ", ".join(name for name, row in stowages().items() if row.float_free == "yes")
    for raft in _float_free(sight.vessel):
        row = stowages().get(raft.stowage) if isinstance(raft.stowage, str) else None
        if row is None or row.float_free == "yes":
            continue
        where = raft.stowage if raft.stowage == "below deck" else f"in a {raft.stowage}"
        yield _of(
            raft,
            "stowage",
            f"an HRU holds it, and it is kept {where}; a raft floats free from: {free}",
            weight=RECOMMENDATION if row.float_free == "depends" else None,
        )


@check(
    "release.valise",
    DEFECT,
    "Small Vessel Regulations SOR/2010-91 s. 21(c) (a coastal raft in a valise is not float-free)",
)
def a_valise_has_no_release(sight):
    """A valise is not held by an HRU.

    Why: a valise is not made to float up and pull its own painter out.
    Remedy: have the raft packed in a canister, or launch it by hand and take HRU out of 'held-by'.
    """
    for raft in _float_free(sight.vessel):
        if raft.container == "valise":
            yield _of(raft, "container", "an HRU holds it, and it is packed in a valise")


@check(
    "release.by-hand",
    RECOMMENDATION,
    "46 CFR 180.130(a)(4); C.R.C. c. 1436 s. 145; a ship's safety manual (one swift action, secondary)",
)
def raft_can_be_freed_by_hand(sight):
    """A raft held by an HRU can also be freed by hand in one swift action.

    Why: fire or a slow sinking needs the raft before the HRU is four metres down.
    Remedy: fit a slip or a pin between HRU and strap, and name it first in 'held-by'.
    """
    for raft in _float_free(sight.vessel):
        if not {"Senhouse slip", "pin"} & set(raft.held_by):
            yield _of(raft, "held-by", "an HRU holds it, and neither a slip nor a pin lets it go by hand")


@check("release.depth", RECOMMENDATION, "AMSA safety alert, December 2021 (1.5 to 4 m)")
def release_trips_at_its_depth(sight):
    """The HRU trips between 1.5 and 4 m.

    Why: one that trips higher lets go in a breaking sea, one that trips deeper may come too late.
    Remedy: read the marking on the unit again; ask the maker if it says so.
    """
    for raft in sight.vessel.rafts:
        depth = raft.release.depth if raft.release else None
        if isinstance(depth, Band) and (depth[0] < DEPTH_M[0] or depth[1] > DEPTH_M[1]):
            yield at(
                raft.release,
                "depth",
                f"{raft.name}: the HRU releases at {depth}; it should be within 1.5 and 4 m",
                item=str(raft.name),
            )
