"""What keeps a raft down: lashings, a roof, lids, a slip that does not open."""

from __future__ import annotations

from generator.manual.orders import words_of
from generator.manual.own_words import listed
from generator.reading.values import Stamp
from generator.shelves.stowages import stowages
from generator.survey.passed import overdue
from generator.survey.rafts import held_by_hru
from generator.survey.registry import LIFE, RECOMMENDATION, UPKEEP, Finds, Sight, check, of
from generator.vessel.raft import Slip


@check(
    "release.lashed-over",
    LIFE,
    "MAIB report on the loss of FV Purbeck Isle, 2012 (secondary)",
    deferrable=False,
)
def nothing_is_lashed_over_the_raft(sight: Sight) -> Finds:
    """Nothing is lashed, locked or stacked over the raft.

    Why: an HRU that works frees nothing if a second lashing holds; by hand it costs the minutes there are not.
    Remedy: take it off, then write lashed-over: no.
    """
    for raft in sight.vessel.rafts:
        if raft.lashed_over is True:
            yield of(raft, "lashed-over", "something is lashed, locked or stacked over it")


@check("release.overhead", LIFE, "46 CFR 180.130(a)(2)")
def nothing_keeps_a_float_free_raft_down(sight: Sight) -> Finds:
    """Nothing above a raft held by an HRU keeps it from floating free.

    Why: the raft rises where the boat sinks; a net, an arch or a cover catches it.
    Remedy: move the raft or what is above it; write overhead: nothing when it is clear.
    """
    for raft in held_by_hru(sight.vessel):
        if isinstance(raft.overhead, str) and not listed("reads.nothing-above").issuperset(
            words_of(raft.overhead)
        ):
            yield of(raft, "overhead", f"an HRU holds it, and above it is: {raft.overhead}")


@check(
    "release.closed-in",
    LIFE,
    "46 CFR 180.130(a)(2); Safety Investigation Authority Finland, safety observation of 23 January 2018",
)
def float_free_raft_is_not_closed_in(sight: Sight) -> Finds:
    """A raft held by an HRU is not shut in a locker or below deck.

    Why: it cannot float out; whoever relies on it will not fetch it by hand.
    Remedy: take HRU out of 'held-by' and launch by hand, or stow it on deck. In a transom recess, see that no lid closes on it.
    """
    free = ", ".join(name for name, row in stowages().items() if row.float_free == "yes")
    for raft in held_by_hru(sight.vessel):
        row = raft.kept
        if row is None or row.float_free == "yes":
            continue
        kept = "kept below deck" if row.below is True else f"kept in a {row.name}"
        yield of(
            raft,
            "stowage",
            f"an HRU holds it, and it is {kept}; a raft floats free from: {free}",
            weight=RECOMMENDATION if row.float_free == "depends" else None,
        )


@check(
    "release.slip-stuck",
    LIFE,
    "a safety study of 2004 found almost a third of slips not easily released (secondary); common practice",
)
def slip_opens(sight: Sight) -> Finds:
    """The slip opens by hand.

    Why: corroded, cracked or caught in a loop it does not let the raft go.
    Remedy: free, grease or renew it, rig it so that its arm swings right open, then write what you found.
    """
    for raft in sight.vessel.rafts:
        slip = raft.slip
        if slip and slip.opens_clear is False:
            yield of(raft, "opens-clear", "the arm of the slip does not swing clear when it opens", part=slip)
        if slip and slip.condition in ("stiff", "corroded", "cracked"):
            yield of(
                raft,
                "condition",
                f"the slip is {slip.condition}",
                weight=RECOMMENDATION if slip.condition == "stiff" else None,
                part=slip,
            )


@check(
    "release.slip-unchecked",
    UPKEEP,
    "a safety alert on slips: monthly aboard ships (secondary); once a year on a private boat: "
    "common practice",
)
def slip_was_opened_lately(sight: Sight) -> Finds:
    """The slip was opened and greased lately: within a year, on a commercial or charter boat within a month.

    Why: slips seize, and nobody sees it until the raft is needed.
    Remedy: open it, grease it, close it, then write the day under 'checked'.
    """
    for each in overdue(sight, "release.slip-unchecked"):
        raft, slip = each.thing.kept, each.thing.block
        if isinstance(slip, Slip) and isinstance(slip.checked, Stamp):
            yield of(raft, "checked", f"the slip was last opened {slip.checked.when}", part=slip)
