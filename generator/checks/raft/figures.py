"""The figures of a raft belong together: mass, size, height, painter, water, for so many persons of such a standard."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.reading.values import Quantity
from generator.shelves.packs import brings_water
from generator.shelves.spaces import BELOW, DECK, UPPER
from generator.survey.limits import least, most
from generator.survey.places import space_at
from generator.survey.registry import TRUTH, Finds, Sight, check, of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.manual.drawing.spaces import Space
    from generator.survey.registry import Found
    from generator.vessel.raft import Raft

STOREY_M = 3.0  # what a raft may lie above the deck it is kept on
SHORTEST_M = 3.2  # half of the shortest painter in makers' data sheets: common practice
STERN_M = 1.0  # what reaches so far forward of the transom is no platform at the waterline
_DENSITY_KG_M3 = (110, 650)
_FEWEST, _EACH = "mass of a raft, however few it is for", "mass of a raft, more for each person"


@check(
    "raft.figures",
    TRUTH,
    "dimensions and masses in makers' data sheets (secondary); the limits on the shelf, each with its source",
)
def figures_of_the_raft_belong_together(sight: Sight) -> Finds:
    """Mass, persons, size, height, painter and water of a raft are of an order that rafts have, the height that of the level it stands on.

    Why: a slipped point or a wrong unit makes every estimate and the lifting plan wrong: who is told off cannot lift it, or the painter ends short.
    Remedy: read the label again, and the unit with it; measure the height from the water up to where the raft lies.
    """
    for raft in sight.vessel.rafts:
        yield from _mass(raft, sight)
        yield from _height(raft, sight)
        yield from _painter(raft, sight)
        yield from _water(raft, sight)
        sill, highest = raft.sill, most(sight.vessel, "highest sill")
        if isinstance(sill, Quantity) and sill > highest:
            yield of(
                raft,
                "sill",
                f"it is to be lifted over a sill of {sill}; nobody lifts a raft over more than {highest:g} m",
            )


def _mass(raft: Raft, sight: Sight) -> Iterator[Found]:
    """Of such a mass for so many persons; no heavier and no lighter than is packed into such a size."""
    mass, persons, size = raft.mass, raft.persons, raft.packed_size
    if isinstance(mass, Quantity) and isinstance(persons, int) and isinstance(raft.standard, str):
        low, high = (
            limit(sight.vessel, _FEWEST, raft) + persons * limit(sight.vessel, _EACH, raft)
            for limit in (least, most)
        )
        if not low <= mass <= high:
            yield of(
                raft,
                "mass",
                f"{mass} for {persons} person{'s' * (persons > 1)}; such rafts ({raft.standard}) weigh {low:.0f} to {high:.0f} kg",
            )
            return
    if isinstance(mass, Quantity) and isinstance(size, tuple):
        density = mass / (size[0] * size[1] * size[2])
        if not _DENSITY_KG_M3[0] <= density <= _DENSITY_KG_M3[1]:
            yield of(
                raft,
                "packed-size",
                f"{mass} in this size is {density:.0f} kg a cubic metre; packed rafts have {_DENSITY_KG_M3[0]} to {_DENSITY_KG_M3[1]}",
                also=(raft.place("mass"),),
            )


def _height(raft: Raft, sight: Sight) -> Iterator[Found]:
    one = sight.vessel.vessel
    if one and isinstance(raft.height, Quantity) and isinstance(one.freeboard, Quantity):
        space = space_at(
            sight, raft.where if isinstance(raft.where, str) else raft.kept.where if raft.kept else None
        )
        least_m, most_m = heights_m(space, one.freeboard)
        above = raft.kept is not None and not raft.kept.compartment and not raft.kept.below
        if (
            above
            and space is not None
            and ((raft.kept is not None and raft.kept.where) or space.fore_m > STERN_M)
        ):
            least_m = max(least_m, one.freeboard / 2)  # its bracket stands on deck
        if not least_m <= raft.height <= most_m:
            level = space.level if space is not None else DECK
            yield of(
                raft,
                "height",
                f"it lies {raft.height} above the water, at the level '{level}' of the plan; her freeboard is {one.freeboard}",
            )
        elif isinstance(one.air_draft, Quantity) and raft.height >= one.air_draft:
            yield of(
                raft,
                "height",
                f"it lies {raft.height} above the water, and she is {one.air_draft} high",
                also=(one.place("air-draft"),),
            )


def heights_m(space: Space | None, freeboard_m: float) -> tuple[float, float]:
    """Between which heights above the water a raft lies that is kept in a space: the upper deck is a storey above the deck.

    At the transom and below a raft may lie at the waterline.
    """
    if space is not None and space.level == UPPER:
        return freeboard_m, freeboard_m + 2 * STOREY_M
    if space is not None and space.name.endswith("roof"):
        return freeboard_m, freeboard_m + STOREY_M
    by_the_water = space is None or space.level == BELOW or space.aft_m <= 0
    return 0.0 if by_the_water else freeboard_m / 2, freeboard_m + STOREY_M


def _painter(raft: Raft, sight: Sight) -> Iterator[Found]:
    painter = raft.painter
    if painter is None:
        return
    longest = most(sight.vessel, "longest painter", raft)
    if isinstance(painter.length, Quantity) and painter.length < SHORTEST_M:
        yield of(
            raft,
            "length",
            f"its painter is said to be {painter.length} long; those of rafts are twice as long and more",
            part=painter,
        )
    if isinstance(painter.length, Quantity) and painter.length > longest:
        yield of(
            raft,
            "length",
            f"its painter is said to be {painter.length} long; such rafts have {longest:g} m at most",
            part=painter,
        )
    load, (low, high) = (
        painter.strength,
        (limit(sight.vessel, "load of a painter") for limit in (least, most)),
    )
    if isinstance(load, Quantity) and not low <= load <= high:
        yield of(
            raft,
            "strength",
            f"its painter is said to bear {load}; painters of rafts bear {low / 1000:g} to {high / 1000:g} kN",
            part=painter,
        )


def _water(raft: Raft, sight: Sight) -> Iterator[Found]:
    """No more water than is packed for so many, and some where the pack has it."""
    water, persons = raft.pack_water, raft.persons
    if not isinstance(water, Quantity) or not isinstance(persons, int):
        return
    high = most(sight.vessel, "water packed in a raft a person") * persons
    low = least(sight.vessel, "water a person") / 2 * persons
    if water > high or (water < low and isinstance(raft.pack, str) and brings_water(raft.pack)):
        yield of(
            raft,
            "pack-water",
            f"{water} of water for {persons} person{'s' * (persons > 1)} in a pack '{raft.pack}'; packs with water hold {low:g} to {high:g} l",
            also=(raft.place("pack"),),
        )
