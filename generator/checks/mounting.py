"""How a raft is mounted: fit, slip, lead of the painter, what shares its place, and whether it can be reached on the bad day."""

from __future__ import annotations

from generator.calc.expiry import add_months
from generator.checks.deck import spaces_in
from generator.manual.drawing.spaces import find_space
from generator.reading.values import Band, Quantity, Stamp
from generator.survey.registry import COMMON_PRACTICE, DEFECT, RECOMMENDATION, Found, at, check

FAR = ("offshore", "ocean")
CLOSED = ("transom recess", "deck locker", "under-cockpit slot", "cockpit locker")
MULTIHULLS = ("catamaran", "trimaran")
READY_S = 15.0  # Offshore Special Regulations 4.20.3


def _of(raft, block, key, message, **more) -> Found:
    return at(block, key, f"{raft.name}: {message}", item=str(raft.name), **more)


@check(
    "raft.loose-in-cradle",
    RECOMMENDATION,
    "marine accident report on a fishing vessel lost in 2012 (secondary)",
)
def container_sits_snugly(sight):
    """The container sits snugly where it is stowed.

    Why: with play it chafes its strap through in a sea, or jams across its cradle when it should rise.
    Remedy: have the cradle fitted to the container, then write snug: yes.
    """
    for raft in sight.vessel.rafts:
        if raft.snug is False:
            yield _of(raft, raft, "snug", f"the {raft.container} has play in its {raft.stowage}")


@check("release.strap-tension", RECOMMENDATION, "AMSA safety alert, December 2021 (taut, not over-tight)")
def strap_of_the_hru_is_hand_tight(sight):
    """The strap that an HRU holds is hand-tight.

    Why: too tight or too slack, the strap does not come away when the HRU has cut.
    Remedy: set it taut by hand, without bar or winch, then write strap: hand-tight.
    """
    for raft in sight.vessel.rafts:
        if raft.release and raft.release.strap in ("slack", "overtight"):
            yield _of(raft, raft.release, "strap", f"the strap that the HRU holds is {raft.release.strap}")


@check(
    "release.painter-trapped",
    DEFECT,
    "CHIRP Maritime, liferaft painters not secured to the ship",
    deferrable=False,
)
def painter_runs_clear(sight):
    """The painter runs clear of straps and container.

    Why: led through a strap or under the container it stays caught when the raft leaves.
    Remedy: lead it free from the container to its end, then write lead: clear.
    """
    for raft in sight.vessel.rafts:
        if raft.painter and raft.painter.lead in ("through the strap", "under the container"):
            yield _of(raft, raft.painter, "lead", f"the painter runs {raft.painter.lead}")


@check(
    "raft.painter-unmarked",
    RECOMMENDATION,
    "MGN 343 (some rafts have more than one line out of the container)",
)
def painter_is_told_from_other_lines(sight):
    """Where several lines come out of the container, the painter is marked.

    Why: made fast by the wrong line the raft neither fires nor stays.
    Remedy: tie a tag to the painter at the container, then write marked: yes.
    """
    for raft in sight.vessel.rafts:
        if raft.painter and raft.painter.marked is False:
            yield _of(
                raft,
                raft.painter,
                "marked",
                "several lines come out of the container, and the painter is not marked",
            )


@check(
    "release.slip-stuck",
    DEFECT,
    "a safety study of 2004 found almost a third of slips not easily released (secondary); common practice",
)
def slip_opens(sight):
    """The slip opens by hand.

    Why: corroded, cracked or caught in a loop it does not let the raft go.
    Remedy: free, grease or renew it, rig it so that its arm swings right open, then write what you found.
    """
    for raft in sight.vessel.rafts:
        slip = raft.slip
        if slip and slip.opens_clear is False:
            yield _of(raft, slip, "opens-clear", "the arm of the slip does not swing clear when it opens")
        if slip and slip.condition in ("stiff", "corroded", "cracked"):
            yield _of(
                raft,
                slip,
                "condition",
                f"the slip is {slip.condition}",
                weight=RECOMMENDATION if slip.condition == "stiff" else None,
            )


@check(
    "release.slip-unchecked",
    RECOMMENDATION,
    "a safety alert on slips: monthly aboard ships (secondary); once a year on a private boat: "
    "common practice",
)
def slip_was_opened_lately(sight):
    """The slip was opened and greased lately: within a year, on a commercial or charter boat within a month.

    Why: slips seize, and nobody sees it until the raft is needed.
    Remedy: open it, grease it, close it, then write the day under 'checked'.
    """
    use = sight.vessel.vessel.use if sight.vessel.vessel else None
    months = 12 if use == "private" else 1
    for raft in sight.vessel.rafts:
        if (
            raft.slip
            and isinstance(raft.slip.checked, Stamp)
            and add_months(raft.slip.checked.last_day, months) < sight.as_of
        ):
            yield _of(raft, raft.slip, "checked", f"the slip was last opened {raft.slip.checked.when}")


@check("raft.drain-holes", RECOMMENDATION, "a raft maker's manual (secondary)")
def container_drains(sight):
    """The drain holes of the container point down.

    Why: water that cannot leave rots the raft and freezes in its valve.
    Remedy: turn the container, then write drains-down: yes; ask the station first if water stood in it.
    """
    for raft in sight.vessel.rafts:
        if raft.drains_down is False:
            yield _of(raft, raft, "drains-down", "the drain holes of the container do not point down")


@check("raft.compartment-wet", RECOMMENDATION, "Offshore Special Regulations 4.20.3 (2008 text, secondary)")
def compartment_of_the_raft_drains(sight):
    """A locker or recess with a raft in it drains overboard by itself.

    Why: a raft that stands in water is a raft that may not inflate.
    Remedy: give the compartment a drain, then write compartment-drains: yes.
    """
    for raft in sight.vessel.rafts:
        if raft.compartment_drains is False and raft.stowage in CLOSED:
            yield _of(raft, raft, "compartment-drains", f"its {raft.stowage} does not drain")


@check(
    "raft.compartment-shared", RECOMMENDATION, "Offshore Special Regulations 4.20.3 (2008 text, secondary)"
)
def compartment_holds_the_raft_alone(sight):
    """The raft has its locker or recess for itself.

    Why: whatever lies on it or beside it is in the way when seconds count.
    Remedy: move the other things, and write their new place.
    """
    vessel = sight.vessel
    for raft in vessel.rafts:
        if raft.stowage not in CLOSED or not isinstance(raft.where, str):
            continue
        beside = [item for item in vessel.gear if (item.where, item.side) == (raft.where, raft.side)]
        for item in beside:
            yield Found(
                item.place("where"),
                f"{item.what}: it lies with the {raft.name} in the {raft.where}",
                item=str(item.what),
                also=(raft.place("where"),),
            )


@check("raft.label-height", DEFECT, "LSA Code 4.2.6.3 (the label states the greatest stowage height)")
def raft_lies_no_higher_than_its_label_says(sight):
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
            yield _of(
                raft,
                raft,
                "label-height",
                f"it lies {raft.height} above the water, and its label allows {raft.label_height}",
                also=(raft.place("height"),),
            )


@check("raft.reached-heeled", RECOMMENDATION, COMMON_PRACTICE)
def raft_is_reached_when_she_heels(sight):
    """The raft can be reached and sent over when she lies on her side or is down by the stern.

    Why: a sinking boat is seldom upright, and a locker under water does not open.
    Remedy: give it another place, or plan when it is brought out early; then write what is so.
    """
    for raft in sight.vessel.rafts:
        if raft.reached_heeled is False:
            yield _of(
                raft,
                raft,
                "reached-heeled",
                "it cannot be reached when she lies on her side or is down by the stern",
            )


@check(
    "raft.reached-inverted",
    RECOMMENDATION,
    "advice on raft stowage (secondary); common practice for multihulls offshore",
)
def raft_of_a_multihull_is_reached_upside_down(sight):
    """Offshore, the raft of a multihull can be reached when she floats upside down.

    Why: a capsized multihull floats; those on her bottom need the raft that hangs under her.
    Remedy: stow it where it can be reached from both sides and write reached-inverted: yes.
    """
    one = sight.vessel.vessel
    for raft in sight.vessel.rafts if one and one.type in MULTIHULLS and one.waters in FAR else ():
        if raft.reached_inverted is None:
            yield _of(
                raft,
                raft,
                "stowage",
                "nothing says whether it can be reached when she floats upside down",
                remedy="think it through at the mooring: how is it got out from below? Then write reached-inverted: yes or no",
            )
        elif raft.reached_inverted is False:
            yield _of(raft, raft, "reached-inverted", "it cannot be reached when she floats upside down")


@check(
    "release.inverted",
    RECOMMENDATION,
    "AMSA safety alert, December 2021 (1.5 to 4 m); an estimate: she is taken to float as deep inverted",
)
def release_trips_upside_down(sight):
    """Under a multihull that floats upside down the HRU lies deep enough to release.

    Why: a capsized multihull does not sink; an HRU less than its depth under water never lets go.
    Remedy: plan to free the raft by hand from below, and drill it; or stow it where it is reached.
    """
    one = sight.vessel.vessel
    for raft in sight.vessel.rafts if one and one.type in MULTIHULLS else ():
        depth = raft.release.depth if raft.release else None
        if (
            "HRU" in raft.held_by
            and isinstance(depth, Band)
            and isinstance(raft.height, Quantity)
            and raft.height < depth[0]
        ):
            yield _of(
                raft,
                raft,
                "height",
                f"upside down the HRU lies about {raft.height:.1f} m deep, and it releases at {depth}",
                also=(raft.release.place("depth"),),
            )


@check("raft.exposed", RECOMMENDATION, "46 CFR 180.130(a)(8) (sheltered from breaking seas)")
def raft_is_sheltered_from_seas(sight):
    """The raft is not kept on the foredeck.

    Why: green water takes it away, and whoever fetches it goes where the seas break.
    Remedy: give it a place at or behind the mast.
    """
    spaces = spaces_in(sight.vessel) if sight.vessel.vessel and sight.vessel.rafts else {}
    for raft in sight.vessel.rafts:
        space = find_space(spaces, raft.where)[0] if isinstance(raft.where, str) else None
        if space is not None and space.name in (
            "foredeck",
            "pulpit",
            "anchor locker",
            "foredeck locker",
            "trampoline",
        ):
            yield _of(raft, raft, "where", f"it is kept at the {raft.where}, where the seas break")


@check(
    "raft.launch-slow",
    RECOMMENDATION,
    "Offshore Special Regulations 4.20.3 (quoted text: 15 seconds to the lifelines or launched)",
)
def raft_is_ready_soon(sight):
    """In a drill the raft lay ready to go over within fifteen seconds.

    Why: a stowage that takes minutes in harbour takes longer on a wet deck in the dark.
    Remedy: look what held it up: lid, lashing, weight. Change that, try again and write the new time.
    """
    for raft in sight.vessel.rafts:
        if isinstance(raft.ready_in, Quantity) and raft.ready_in > READY_S:
            yield _of(raft, raft, "ready-in", f"it took {raft.ready_in} until it lay ready, more than 15 s")


@check("raft.two-sides", RECOMMENDATION, COMMON_PRACTICE)
def raft_is_boarded_where_it_is_launched(sight):
    """The raft is boarded on the side where it goes over.

    Why: half the crew waits on the wrong side.
    Remedy: write the same side in 'launch-from' and 'board-from', or name neither and say: the lee side.
    """
    for raft in sight.vessel.rafts:
        sides = [_side(raft.launch_from), _side(raft.board_from)]
        if all(sides) and sides[0] != sides[1]:
            yield _of(
                raft,
                raft,
                "board-from",
                f"it goes over to {sides[0]} and is boarded to {sides[1]}",
                also=(raft.place("launch-from"),),
            )


def _side(words):
    named = {
        each
        for each in ("port", "starboard")
        if isinstance(words, str) and each in words.lower().replace(",", " ").split()
    }
    return named.pop() if len(named) == 1 else ""


@check("raft.figures", RECOMMENDATION, "dimensions and masses in makers' data sheets (secondary)")
def figures_of_the_raft_belong_together(sight):
    """Mass, persons, size and height of a raft are of an order that rafts have.

    Why: a slipped point or a wrong unit makes every estimate and the lifting plan wrong.
    Remedy: read the label again, and the unit with it.
    """
    one = sight.vessel.vessel
    for raft in sight.vessel.rafts:
        mass, persons, size = raft.mass, raft.persons, raft.packed_size
        if isinstance(mass, Quantity) and isinstance(persons, int) and not 2.0 <= mass / persons <= 25.0:
            yield _of(
                raft,
                raft,
                "mass",
                f"{mass} for {persons} persons is {mass / persons:.0f} kg a person; rafts have 2 to 25",
            )
        if (
            isinstance(mass, Quantity)
            and isinstance(size, tuple)
            and not 80 <= mass / (size[0] * size[1] * size[2]) <= 900
        ):
            yield _of(
                raft,
                raft,
                "packed-size",
                f"{mass} in this size is {mass / (size[0] * size[1] * size[2]):.0f} kg a cubic metre; "
                "packed rafts have 80 to 900",
            )
        if (
            one
            and isinstance(raft.height, Quantity)
            and isinstance(one.freeboard, Quantity)
            and raft.height > one.freeboard + 3
        ):
            yield _of(
                raft, raft, "height", f"it lies {raft.height} above the water, and her deck {one.freeboard}"
            )
