"""The deck: everything lies in a space she has, inside the hull, on the side it says."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.manual.drawing.likely import instead
from generator.manual.drawing.spaces import find_space, unknown_presets, unlocated_spaces
from generator.reading.nearest import nearest
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    HELP,
    LIFE,
    TRUTH,
    Finds,
    Found,
    Sight,
    at,
    check,
)
from generator.vessel.fittings import Berth, Located

if TYPE_CHECKING:
    from generator.reading.block import Block
    from generator.reading.values import Given

WIDE_M = 0.9  # a space no wider is overlooked at a glance


def _names(sight: Sight) -> list[str]:
    return [space.name for space in sight.spaces.values()]


def _no_space(sight: Sight, block: Block, key: str, where: str, what: str = "", item: str = "") -> Found:
    """That a place, which `what` gives, is no space of hers."""
    said = f"{what}: " if what else ""
    message = f"{said}there is no space '{where}' on her plan"
    return at(block, key, message, remedy=instead(where, list(sight.spaces.values())), item=item)


@check("deck.unknown-space", TRUTH, COMMON_PRACTICE, COMPOSITION)
def gear_lies_in_spaces_she_has(sight: Sight) -> Finds:
    """Everything lies in a space she has.

    Why: it cannot be drawn on the plan, and the reader looks for a place that has another name.
    Remedy: write the name of the space as it is called aboard, or describe the space under 'deck'.
    """
    spaces = list(sight.spaces.values())
    for item in sight.manual.plan.unknown_spaces:
        yield Found(
            item.block.place("where"),
            f"{item.what}: there is no space '{item.where}' on her plan",
            instead(item.where, spaces),
            item.what,
        )


@check("deck.unknown-place", TRUTH, COMMON_PRACTICE, COMPOSITION)
def places_named_are_spaces_she_has(sight: Sight) -> Finds:
    """Hatches, berths, engines, gas bottles, fittings, buoyancy, what alarms listen to and the place for hoisting are spaces she has.

    Why: words for one place that differ from page to page make people stop and think.
    Remedy: write the name the plan has, or describe the space under 'deck'.
    """
    vessel, spaces = sight.vessel, sight.spaces
    named: list[tuple[Block, str, Given, str]] = [
        *((hatch, "where", hatch.where, "the way out") for hatch in vessel.escape),
        *((engine, "where", engine.where, f"{engine.what}") for engine in vessel.engines),
        *(
            (person.berth, "where", person.berth.where, f"{person.role}")
            for person in vessel.people
            if person.berth
        ),
    ]
    if vessel.gas:
        named.append((vessel.gas, "bottles", vessel.gas.bottles, "gas bottles"))
    if vessel.recovery:
        named.append((vessel.recovery, "place", vessel.recovery.place_, "recovery"))
    named += [
        (each, "where", each.where, each.path.rpartition(".")[2].replace("-", " "))
        for each in vessel.inner()
        if isinstance(each, Located) and not isinstance(each, Berth)
    ]
    for alarm in vessel.alarms:
        heard = (("watches", alarm.watches), ("sounds-in", alarm.sounds_in))
        named += [
            (alarm, key, where, f"{alarm.what} alarm") for key, spaces_ in heard for where in spaces_ or ()
        ]
    if vessel.capsize:
        named += [(vessel.capsize, "buoyancy", where, "buoyancy") for where in vessel.capsize.buoyancy or ()]
    for block, key, where, what in named:
        if isinstance(where, str) and find_space(spaces, where)[0] is None:
            yield _no_space(sight, block, key, where, what, item=what)


@check("deck.outside-hull", TRUTH, COMMON_PRACTICE, COMPOSITION)
def points_lie_on_the_hull(sight: Sight) -> Finds:
    """Every point lies on the hull.

    Why: a point beside the boat comes from a wrong figure, and the reader looks in the wrong place.
    Remedy: measure again: 'aft' from the transom, 'off' from the centreline.
    """
    for item in sight.manual.plan.outside:
        yield Found(
            item.block.place("point"), f"{item.what}: its point lies outside the hull", item=item.what
        )


@check("deck.wrong-side", LIFE, COMMON_PRACTICE, COMPOSITION, deferrable=False)
def text_and_plan_say_the_same_side(sight: Sight) -> Finds:
    """Words and plan say the same side.

    Why: at night people go to the side the words say.
    Remedy: go and look, then correct 'side', 'where' or 'point'.
    """
    for item in sight.manual.plan.wrong_side:
        key = "side" if item.side else "point" if item.aft_m is not None else "where"
        yield Found(
            item.block.place(key),
            f"{item.what}: the side '{item.side or 'in its place'}' is not where its place on the plan lies",
            item=item.what,
        )


@check("deck.side-missing", HELP, COMMON_PRACTICE, COMPOSITION)
def what_lies_in_a_wide_space_says_which_side(sight: Sight) -> Finds:
    """What lies in a space that she has on both sides, or that is wide, says on which side.

    Why: whoever searches the wrong side first loses a minute, and in the dark more.
    Remedy: write 'side': port, starboard or centre.
    """
    lost = sight.manual.plan.side_missing
    for item in lost:
        yield Found(
            item.block.place("where"),
            f"{item.what}: '{item.where}' lies on both sides, and nothing says on which it is",
            item=item.what,
        )
    spaces = sight.spaces
    for item in sight.manual.items:
        space = (
            find_space(spaces, item.where)[0]
            if item.where and not item.side and item.aft_m is None and item not in lost
            else None
        )
        if (
            space is not None
            and space.starboard_m - space.port_m > WIDE_M
            and not any(side in item.where for side in ("port", "starboard"))
        ):
            yield Found(
                item.block.place("where"),
                f"{item.what}: nothing says on which side of the {item.where} it is",
                item=item.what,
            )


@check("deck.muster-place", TRUTH, COMMON_PRACTICE, COMPOSITION)
def the_muster_place_is_on_the_plan(sight: Sight) -> Finds:
    """The muster place is a space she has.

    Why: everybody must be able to see where it is.
    Remedy: write the name of one of her spaces.
    """
    one = sight.vessel.vessel
    if one and isinstance(one.muster_place, str) and not sight.manual.plan.muster_drawn:
        yield _no_space(sight, one, "muster-place", one.muster_place)


@check("deck.unknown-preset", TRUTH, COMMON_PRACTICE, COMPOSITION)
def spaces_replaced_are_of_the_preset(sight: Sight) -> Finds:
    """What 'deck' replaces or leaves out is a space of the preset.

    Why: a misspelt name leaves a space on the plan that she has not.
    Remedy: write the name as the preset of her hull type has it.
    """
    lost = set(unknown_presets(sight.vessel))
    deck = sight.vessel.deck
    if not deck:
        return
    for name in deck.without or ():
        if name in lost:
            yield at(
                deck,
                "without",
                f"the preset has no space '{name}'",
                remedy=nearest(name, _names(sight)),
                item=name,
            )
    for space in deck.spaces or ():
        if space.replaces in lost:
            yield at(
                space,
                "replaces",
                f"the preset has no space '{space.replaces}'",
                remedy=nearest(space.replaces, _names(sight)),
                item=str(space.name),
            )


@check("deck.unlocated-space", TRUTH, COMMON_PRACTICE, COMPOSITION)
def own_spaces_say_where_they_are(sight: Sight) -> Finds:
    """A space of her own says where it is.

    Why: it cannot be drawn.
    Remedy: write 'aft' and 'fore', or which space of the preset it 'replaces'.
    """
    for space in unlocated_spaces(sight.vessel):
        yield at(space, "name", f"nothing says where the space '{space.name}' lies", item=str(space.name))


@check("deck.unknown-way", TRUTH, COMMON_PRACTICE, COMPOSITION)
def ways_lead_between_spaces_she_has(sight: Sight) -> Finds:
    """Ways lead between spaces she has.

    Why: a way to nowhere is no way out.
    Remedy: write the names the plan has.
    """
    spaces = sight.spaces
    for way in sight.vessel.deck.ways or () if sight.vessel.deck else ():
        for key, name in (("from", way.from_), ("to", way.to)):
            if isinstance(name, str) and find_space(spaces, name)[0] is None:
                yield _no_space(sight, way, key, name, item=name)
