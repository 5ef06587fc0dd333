"""The weak link and the joint of the painter: what parts, in its order, and what must not go round it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from generator.reading.values import Quantity, known
from generator.survey.limits import limits_for
from generator.survey.rafts import fallen_short, held_by_hru
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    LIFE,
    RECOMMENDATION,
    TRUTH,
    Finds,
    Sight,
    check,
    of,
)
from generator.vessel.raft import LETS_GO

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.reading.findings import Place
    from generator.vessel.raft import Raft


@check(
    "release.weak-link-out-of-order",
    LIFE,
    "our estimate from the figures of C.R.C. c. 1436 Sch. VIII s. 7 (read in the 2006-2023 text) and MSC.81(70)",
    COMPOSITION,
)
def weak_link_lies_between_its_neighbours(sight: Sight) -> Finds:
    """The weak link is stronger than the pull that fires the raft, and weaker than painter and inflated raft.

    Why: too weak it parts before the raft is inflated, too strong the boat takes the raft down. The lift of the packed raft
    is no bound: one strength serves rafts of every size, since the raft fires as soon as its painter is taut.
    Remedy: look at the markings of link and raft again. Where raft maker and release maker name different links, fit neither on
    your own: have the service station get it in writing from the raft's maker, whose painter the link must suit, launch by hand
    until then, and defer this with that reason and a date.
    """
    short = {
        "link-parts-early": "the raft fires at up to {pull} N, so the link may part first",
        "link-drags-down": "the inflated raft lifts only about {inflated} N, so the boat may drag it down",
        "link-outlasts-painter": "the painter bears only {painter} N, so it may part first",
    }
    for raft, row in fallen_short(sight, *short):
        figures, link = dict(row.figures), raft.weak_link
        parts_at = known(link.strength) if link else None
        painter = known(raft.painter.strength) if raft.painter else None
        if link is None or (painter is not None and parts_at is not None and parts_at >= painter):
            continue  # release.weak-link-stronger speaks of that
        yield of(
            raft,
            "strength",
            f"the link parts at {figures['low']} to {figures['high']} N; {short[row.key].format(**figures)}",
            part=link,
        )


def _of_an_hru(raft: Raft) -> Iterator[Place]:
    """Where other checks would ask the same of a raft that an HRU is said to hold."""
    yield from (raft.place(key) for key in ("overhead", "stowage", "release"))
    if raft.painter:
        yield raft.painter.place("fast-to")


@check(
    "release.weak-link-missing",
    LIFE,
    "MGN 343; C.R.C. c. 1436 Sch. VIII s. 7 (read in the 2006-2023 text)",
    deferrable=False,
)
def float_free_raft_has_a_weak_link(sight: Sight) -> Finds:
    """A raft held by an HRU has a weak link.

    Why: without one the sinking boat drags the inflated raft down by its painter.
    Remedy: fit the weak link that belongs to the HRU between painter and strong point, then write 'weak-link'.
    """
    for raft in sight.vessel.rafts:
        if raft.weak_link:
            continue
        if raft.hydrostatic and not raft.release:
            place = raft.place("held-by")
            yield replace(
                of(
                    raft,
                    "held-by",
                    "held-by names an HRU, and nothing of one is described: no release, no weak link",
                    remedy="go and look what holds it: take HRU out of 'held-by'; or describe 'release' and 'weak-link', with the "
                    "painter fast to that: fast-to: weak link",
                ),
                explains=frozenset((place, *_of_an_hru(raft))),
            )
        elif raft.hydrostatic:
            yield of(raft, "held-by", "an HRU holds it, and no weak link is described")
        elif raft.painter and raft.painter.fast_to == "weak link":
            yield of(
                raft, "fast-to", "the painter is fast to a weak link that is not described", part=raft.painter
            )


@check(
    "release.weak-link-band",
    LIFE,
    "C.R.C. c. 1436 Sch. VIII s. 7(2)(c) (read in the 2006-2023 text); MGN 343",
)
def weak_link_parts_in_its_band(sight: Sight) -> Finds:
    """The weak link parts at 2.2 kN, within 0.4 kN.

    Why: a weaker one parts before the raft is inflated, a stronger one lets the boat drag it down.
    Remedy: look at its marking again; if that is true, have the service station fit the link that raft maker and release maker
    both name. Where they differ, have the service station ask the raft's maker in writing, whose painter it must suit.
    """
    for raft in sight.vessel.rafts:
        link = raft.weak_link
        if link is None or not isinstance(link.strength, Quantity):
            continue
        for row in limits_for(sight.vessel, "strength of the weak link", raft):
            low_n, high_n = row.least, row.most
            if low_n is None or high_n is None:
                continue
            if not low_n - 1e-6 <= link.strength <= high_n + 1e-6:
                yield of(
                    raft,
                    "strength",
                    f"the weak link parts at {link.strength}; it should be between "
                    f"{low_n / 1000:g} and {high_n / 1000:g} kN ({row.source})",
                    weight=None if row.read else RECOMMENDATION,
                    part=link,
                )


@check("release.weak-link-home-made", LIFE, "MGN 343")
def weak_link_is_made_for_it(sight: Sight) -> Finds:
    """The weak link is no odd piece of line.

    Why: nobody knows where thin line parts, least of all after two summers on deck.
    Remedy: fit the weak link that belongs to the HRU.
    """
    for raft in sight.vessel.rafts:
        if raft.weak_link and raft.weak_link.made_by == "home-made":
            yield of(raft, "made-by", "the weak link is home-made", part=raft.weak_link)


@check(
    "release.weak-link-joins",
    LIFE,
    "Nautical Institute MARS 200037; CHIRP Maritime, hydrostatic non-release unit",
)
def weak_link_joins_painter_to_hull(sight: Sight) -> Finds:
    """The weak link joins the painter to the strong point.

    Why: joined to cradle or HRU it holds nothing once these have let go: the raft drifts off uninflated.
    Remedy: lead it to the strong point on the hull, as the HRU's leaflet shows.
    """
    for raft in sight.vessel.rafts:
        if raft.weak_link and raft.weak_link.joins in LETS_GO:
            yield of(
                raft,
                "joins",
                f"the weak link joins the painter to the {raft.weak_link.joins}",
                part=raft.weak_link,
            )


@check(
    "release.weak-link-stronger",
    LIFE,
    "C.R.C. c. 1436 Sch. VIII s. 7 (read in the 2006-2023 text): the link breaks, not the painter",
)
def weak_link_is_weaker_than_the_painter(sight: Sight) -> Finds:
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
            yield of(
                raft,
                "strength",
                f"the weak link parts at {link.strength}, the painter already at {painter.strength}",
                also=(painter.place("strength"),),
                part=link,
            )


@check(
    "release.painter-bypasses",
    LIFE,
    "Nautical Institute MARS 200037; USCG 'Lost at Sea' report",
    deferrable=False,
)
def painter_does_not_bypass_the_weak_link(sight: Sight) -> Finds:
    """With an HRU the painter ends at the weak link, not at the strong point.

    Why: made fast past the weak link, the raft inflates and is then dragged down with the boat.
    Remedy: make the painter fast to the weak link, and that to the strong point; by hand it is fastened only for a launch.
    """
    for raft in held_by_hru(sight.vessel):
        if raft.painter and raft.painter.fast_to == "strong point":
            yield of(
                raft,
                "fast-to",
                "an HRU holds it, and the painter is fast straight to the strong point",
                part=raft.painter,
            )


@check(
    "release.painter-joint",
    LIFE,
    "Nautical Institute MARS 200037; CHIRP Maritime, hydrostatic non-release unit",
    deferrable=False,
)
def painter_is_not_fast_to_what_lets_go(sight: Sight) -> Finds:
    """The painter is not fast to the cradle or the HRU.

    Why: on the cradle the raft goes down with it; on the HRU it drifts off uninflated once that has cut.
    Remedy: with an HRU make it fast to the weak link, else to the strong point.
    """
    for raft in sight.vessel.rafts:
        if raft.painter and raft.painter.fast_to in LETS_GO:
            yield of(raft, "fast-to", f"the painter is fast to the {raft.painter.fast_to}", part=raft.painter)


@check(
    "release.painter-trapped",
    LIFE,
    "CHIRP Maritime, liferaft painters not secured to the ship",
    deferrable=False,
)
def painter_runs_clear(sight: Sight) -> Finds:
    """The painter runs clear of straps and container.

    Why: led through a strap or under the container it stays caught when the raft leaves.
    Remedy: lead it free from the container to its end, then write lead: clear.
    """
    for raft in sight.vessel.rafts:
        if raft.painter and raft.painter.lead in ("through the strap", "under the container"):
            yield of(raft, "lead", f"the painter runs {raft.painter.lead}", part=raft.painter)


@check("release.weak-link-unused", TRUTH, COMMON_PRACTICE)
def a_weak_link_is_in_the_line(sight: Sight) -> Finds:
    """A weak link that is described lies between painter and strong point.

    Why: a link that the painter goes past parts nothing, and one of the two keys tells of a raft rigged otherwise.
    Remedy: look where the painter's own end is fast: to the link, write painter.fast-to: weak link; without one remove 'weak-link'.
    """
    for raft in sight.vessel.rafts:
        if (
            raft.weak_link
            and raft.painter
            and raft.painter.fast_to == "strong point"
            and not raft.hydrostatic
        ):
            yield of(
                raft,
                "fast-to",
                "the painter is fast straight to the strong point, and a weak link is described that joins it to the "
                f"{raft.weak_link.joins or 'boat'}",
                part=raft.painter,
                also=(raft.weak_link.place("joins"),),
            )
