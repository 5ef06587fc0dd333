"""Sides: words and plan say the same one, and what lies in a wide space says which."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.manual.drawing.spaces import find_space
from generator.reading.block import Block
from generator.shelves.gear import before_comma
from generator.survey.places import space_at
from generator.survey.registry import COMMON_PRACTICE, COMPOSITION, HELP, LIFE, Finds, Found, Sight, check

if TYPE_CHECKING:
    from generator.manual.inventory import Item

WIDE_M = 0.9  # a space no wider is overlooked at a glance
FEW = 4  # so many without a side have a line each; more are one line with their places


@check("deck.wrong-side", LIFE, COMMON_PRACTICE, COMPOSITION, deferrable=False)
def text_and_plan_say_the_same_side(sight: Sight) -> Finds:
    """Words and plan say the same side.

    Why: at night people go to the side the words say.
    Remedy: go and look, then correct 'side', 'where' or 'point'.
    """
    wrong = sight.manual.plan.wrong_side
    helm = sight.vessel.vessel.helm if sight.vessel.vessel else None
    there = [
        each for each in sight.manual.items if each.side and each.aft_m is None and _at_the_helm(sight, each)
    ]
    steered = [item for item in wrong if isinstance(helm, Block) and _at_the_helm(sight, item)]
    if isinstance(helm, Block) and len(steered) > 2 and len(steered) == len(there):
        side = steered[0].side
        yield Found(
            helm.place("side"),
            f"the helm is said to be to {helm.__dict__.get('side')}, and everything at the helm to {side}: {', '.join(each.what for each in steered)}",
            f"go and look where she is steered; if to {side}, write side: {side} here",
            "helm",
            also=tuple(each.block.place("side") for each in steered),
        )
        wrong = tuple(each for each in wrong if each not in steered)
    for item in wrong:
        key = "side" if item.side else "point" if item.aft_m is not None else "where"
        yield Found(
            item.block.place(key),
            f"{item.what}: the side '{item.side or 'in its place'}' is not where its place on the plan lies",
            item=item.what,
        )


def _at_the_helm(sight: Sight, item: Item) -> bool:
    """Whether a thing is said to be at the helm, by that word."""
    space = space_at(sight, item.where)
    return space is not None and space.steering


@check("deck.side-missing", HELP, COMMON_PRACTICE, COMPOSITION)
def what_lies_in_a_wide_space_says_which_side(sight: Sight) -> Finds:
    """What lies in a space that she has on both sides, or that is wide, says on which side.

    Why: whoever searches the wrong side first loses a minute, and in the dark more.
    Remedy: write 'side': port, starboard or centre.
    """
    lost = sight.manual.plan.side_missing
    found = [(item, f"'{item.where}' lies on both sides, and nothing says on which it is") for item in lost]
    found += [
        (item, f"nothing says on which side of the {item.where} it is")
        for item in sight.manual.items
        if item not in lost and _in_a_wide_space(item, sight)
    ]
    if len(found) <= FEW:
        for item, what in found:
            yield Found(item.block.place("where"), f"{item.what}: {what}", item=item.what)
        return
    places = [(item, item.block.place("where")) for item, _ in found]
    places.sort(key=lambda each: (each[1].file, each[1].line))
    named = ", ".join(
        f"{before_comma(item.what)} ({item.where}, line {place.line})" for item, place in places
    )
    yield Found(places[0][1], f"of these {len(found)} nothing says on which side they are: {named}")


def _in_a_wide_space(item: Item, sight: Sight) -> bool:
    """Whether a thing that says no side lies in a space too wide to be overlooked at a glance."""
    if not item.where or item.side or item.aft_m is not None:
        return False
    space = find_space(sight.spaces, item.where)[0]
    wide = space is not None and space.starboard_m - space.port_m > WIDE_M
    return wide and not any(side in item.where for side in ("port", "starboard"))
