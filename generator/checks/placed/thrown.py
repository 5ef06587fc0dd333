"""What is thrown to somebody in the water, and what brings him alongside: at hand, in the open."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.shelves.spaces import BELOW, FOR_GEAR
from generator.survey.placing import lies, lies_at, no_hand_there, nobody_stands_there, space_of
from generator.survey.registry import COMMON_PRACTICE, COMPOSITION, LIFE, Finds, Sight, check, of
from generator.vessel.gear import BROUGHT, does, gear_kind

if TYPE_CHECKING:
    from generator.manual.drawing.spaces import Space
    from generator.vessel.gear import Gear


@check("placed.thrown", LIFE, COMMON_PRACTICE, COMPOSITION)
def what_is_thrown_lies_at_hand(sight: Sight) -> Finds:
    """What is thrown to somebody in the water is on deck, and one such thing at least in the open; what brings somebody alongside is near.

    Why: after ten seconds the boat is a throw away; nobody goes below or empties a locker in that time.
    Remedy: hang it at the rail near the helm, then write where and side.
    """
    thrown = [(item, space_of(sight, item)) for item in sight.vessel.gear if does(item, "thrown to somebody")]
    one = sight.vessel.vessel
    lived_in = one is not None and one.hull.has_rooms
    out = [(item, space) for item, space in thrown if space is not None and space.stows != FOR_GEAR]
    for item, space in out:
        why = nobody_stands_there(space)
        if not why and space.exposed and lived_in and not _another_at_hand(item, out):
            why = "where the seas break"
        if why:
            yield of(item, "where", f"it is kept in the {space.name}, {why}")
    yield from _brought_alongside(sight)
    if thrown and not out and all(space is not None for _, space in thrown):
        first, shut = thrown[0]
        if shut is not None:
            level = ", below deck" if shut.level == BELOW else ""
            yield of(first, "where", f"all that can be thrown is shut in: this in the {shut.name}{level}")


def _another_at_hand(item: Gear, out: list[tuple[Gear, Space]]) -> bool:
    """Whether another thing of the same kind hangs where people stand and no seas break: a second one may hang forward."""
    kind = gear_kind(item)
    return any(
        each is not item and gear_kind(each) is kind and not (space.exposed or nobody_stands_there(space))
        for each, space in out
    )


ALONGSIDE_M = 2.5
"""How far below deck a sling may be kept from where people are brought in. Common practice."""


def _brought_alongside(sight: Sight) -> Finds:
    """What a person is brought in or lifted with is neither below, away from where people are brought in, nor where the seas break."""
    recovery = sight.vessel.recovery
    place = (
        lies_at(sight, recovery.place_) if recovery is not None and isinstance(recovery.place_, str) else None
    )
    for item in sight.vessel.gear:
        here = lies(sight, item) if does(item, BROUGHT) else None
        if here is None or place is None or here.space.unlike:
            continue
        if here.space.exposed and not (here.space.stows or place.space.exposed):
            yield of(item, "where", f"it is kept in the {here.space.name}, where the seas break")
        if here.space.level != BELOW:
            continue
        gap = place.apart_m(here)
        if gap > ALONGSIDE_M and not no_hand_there(here.space):  # else the check of what is kept speaks
            yield of(
                item,
                "where",
                f"it is kept in the {here.space.name}, below deck, {gap:.0f} m from the {place}, where people are brought in",
            )
