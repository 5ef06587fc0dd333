"""Escape: the ways out, which open from inside, and also of a hull that floats upside down."""

from __future__ import annotations

from generator.manual.drawing.spaces import find_space
from generator.reading.values import Quantity
from generator.shelves.spaces import DECK
from generator.survey.limits import least
from generator.survey.places import has_cabin, space_at
from generator.survey.registry import (
    COMMON_PRACTICE,
    HELP,
    LIFE,
    RECOMMENDATION,
    Finds,
    Found,
    Sight,
    at,
    check,
)
from generator.vessel.deck import Hatch
from generator.vessel.particulars import FAR


@check("escape.one-way", LIFE, COMMON_PRACTICE)
def ways_out_open_from_inside(sight: Sight) -> Finds:
    """Ways out open from inside.

    Why: a hatch that only opens from outside is no way out for those below.
    Remedy: fit a handle inside, or take it out of 'escape'.
    """
    for hatch in sight.vessel.escape:
        if hatch.opens == "outside":
            yield at(
                hatch,
                "opens",
                f"the hatch in the {hatch.where} opens from outside only",
                item=str(hatch.where),
            )


@check(
    "escape.one-only",
    LIFE,
    "Offshore Special Regulations 3.07 (from memory, unverified): two exits from 8.5 m of length on",
)
def there_are_two_ways_out(sight: Sight) -> Finds:
    """From 8.5 m of length on there are two ways out.

    Why: fire or a fallen mast shuts the one there is.
    Remedy: describe the second under 'escape'; if a hatch opens wide enough for a person, that is one.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    if (
        one
        and isinstance(one.length, Quantity)
        and one.length >= least(vessel, "length with two ways out")
        and has_cabin(vessel)
        and len(vessel.escape) < 2
    ):
        place = vessel.key_place("escape") if vessel.escape else one.place("length")
        yield Found(place, f"{len(vessel.escape) or 'no'} way out is described; she is {one.length} long")


@check(
    "escape.inverted",
    LIFE,
    "Offshore Special Regulations 3.07.2 for multihulls (from memory, unverified)",
)
def each_hull_has_its_way_out(sight: Sight) -> Finds:
    """Offshore, each hull of a catamaran has its own way out.

    Why: she floats upside down, and the companionway is then under water.
    Remedy: describe the escape hatch of each hull under 'escape', the space with its side: port aft cabin.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    if not one or not one.hull.lived_in_hulls or one.waters not in FAR or not vessel.escape:
        return
    for side in ("port", "starboard"):
        if not any(_leads_out_of(hatch, side, sight) for hatch in vessel.escape):
            yield Found(
                vessel.key_place("escape"), f"no way out of the {side} hull is described", item=f"{side} hull"
            )


def _leads_out_of(hatch: Hatch, side: str, sight: Sight) -> bool:
    """Whether a way out is that of people in the hull of a side, and not of its engine space."""
    space = space_at(sight, hatch.where)
    return side in str(hatch.where).lower().split() and not (space is not None and space.engine)


@check(
    "escape.none-inverted",
    LIFE,
    "Offshore Special Regulations 3.07.2 for multihulls (from memory, unverified)",
)
def a_way_out_serves_upside_down(sight: Sight) -> Finds:
    """Offshore, one way out of a multihull serves when she lies upside down.

    Why: she floats so for days, and whoever is shut in drowns or starves of air behind hatches that are under water.
    Remedy: look which hatch is above the water then, and write serves-inverted: yes there; with none, have one fitted.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    if not one or one.hull.multihull is not True or one.waters not in FAR or not vessel.escape:
        return
    if not any(hatch.serves_inverted is True for hatch in vessel.escape):
        said = next((hatch for hatch in vessel.escape if hatch.serves_inverted is False), vessel.escape[0])
        yield at(
            said,
            "serves-inverted",
            "of none it is said that it serves when she lies upside down",
            item="escape",
            weight=None if all(hatch.serves_inverted is False for hatch in vessel.escape) else RECOMMENDATION,
        )


@check("escape.way-up", LIFE, COMMON_PRACTICE)
def a_wheelhouse_has_its_way_out(sight: Sight) -> Finds:
    """A wheelhouse or deckhouse that she uses has its way out.

    Why: the door that everybody knows is not in the list, and another stands there that may be none.
    Remedy: describe it under 'escape': {where: wheelhouse, opens: both, how: ...}.
    """
    vessel, ways = sight.vessel, [space_at(sight, hatch.where) for hatch in sight.vessel.escape]
    if not ways or None in ways or any(each is not None and (each.unlike or each.own) for each in ways):
        return
    used = {
        each for block in sight.blocks if (each := space_at(sight, block.__dict__.get("where"))) is not None
    }
    on_deck = [each for each in used if each.inside and each.level == DECK]
    for each in on_deck:
        if each not in ways:
            yield Found(
                vessel.key_place("escape"), f"no way out of the {each.name} is described", item=each.name
            )


@check("escape.serves-inverted", LIFE, COMMON_PRACTICE)
def ways_out_upside_down_open_from_both_sides(sight: Sight) -> Finds:
    """A way out that serves when she lies upside down opens from inside and from outside.

    Why: then people are on both sides of it: some shut in, some on her bottom who must get in to them.
    Remedy: fit a handle on the other side, then write opens: both; or take 'serves-inverted' out.
    """
    for hatch in sight.vessel.escape:
        if hatch.serves_inverted is True and hatch.opens in ("inside", "outside"):
            yield at(
                hatch,
                "serves-inverted",
                f"the hatch in the {hatch.where} serves upside down, and opens from {hatch.opens} only",
                item=str(hatch.where),
                also=(hatch.place("opens"),),
            )


@check("escape.companionway", HELP, COMMON_PRACTICE)
def the_way_everybody_goes_is_listed(sight: Sight) -> Finds:
    """Where ways out are listed, the one by which everybody goes below is among them.

    Why: it is the way out that most take; how it opens in the dark, with the washboards in, nobody reads.
    Remedy: write under 'escape' for example: {where: companionway, opens: both, how: slide the hatch forward and lift the washboards}
    """
    ways, one = sight.vessel.escape, sight.vessel.vessel
    found = [space for space in one.hull.spaces if space.way_in is True] if one is not None and ways else []
    for way_in in found:
        name = str(way_in.name)
        if find_space(sight.spaces, name)[0] and not any(name in str(each.where or "") for each in ways):
            yield Found(sight.vessel.key_place("escape"), f"her {name} is not among the ways out", item=name)
