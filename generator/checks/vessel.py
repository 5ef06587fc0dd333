"""The vessel: her figures are those of a boat."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.reading.values import Band, Quantity, given, known
from generator.survey.limits import most
from generator.survey.registry import (
    COMMON_PRACTICE,
    HELP,
    TRUTH,
    Finds,
    Sight,
    at,
    check,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.survey.registry import Found
    from generator.vessel.installed import Engine
    from generator.vessel.particulars import Particulars

# Parts of the length between which a figure lies; of boats that sail (a mast, a keel or a board), and of others.
_DRAFT, _DRAFT_OF_OPEN, _DRAFT_OF_OTHERS = Band(0.02, 0.315), Band(0.02, 0.36), Band(0.015, 0.2)
_DRAFT_OF_HULLS, _DRAFT_OF_BOATS = Band(0.02, 0.28), Band(0.015, 0.15)
"""The same of several hulls, boards down, and of open boats without sails."""
_AIR_DRAFT, _AIR_DRAFT_OF_OTHERS = Band(0.6, 2.2), Band(0.1, 1.7)
_FREEBOARD, _FREEBOARD_OF_OPEN = Band(0.04, 0.25), Band(0.03, 0.25)
_NARROW, _NARROW_M = 0.085, Band(1.95, 2.25)
"""Of boats built for locks of 7 ft: least beam to length, and beam in metres. Common practice."""
_MASS = Band(0.6, 40)  # kg, to the cube of the length in metres
_BLOCK = Band(0.01, 0.9)  # what she displaces, to length x beam x draft
_FUEL = Band(0.015, 1.0)  # litres, to the cube of the length in metres: of an engine inside her
_FUEL_OF_OTHERS = Band(0.03, 3.0)
_WATER_KG_M3 = 1025
_FUEL_KG_L, _FUEL_OF_MASS = 0.8, 0.3
"""What a litre of fuel weighs, and the part of her displacement that fuel is at most."""


@check("vessel.proportions", HELP, "proportions of yachts, workboats and open boats; common practice")
def her_figures_are_those_of_a_boat(sight: Sight) -> Finds:
    """Length, beam, draft, freeboard, air draft, displacement, fuel and persons belong to one boat.

    Why: a slipped point or a wrong unit goes into plan, estimates and what rescuers are told.
    Remedy: look at the figure and its unit again, feet or metres, pounds or kilogrammes, gallons or litres.
    """
    one = sight.vessel.vessel
    if not one or not isinstance(one.length, Quantity) or not isinstance(one.beam, Quantity):
        return
    length, beam = one.length, one.beam
    least, widest = given(one.hull.breadth, Band(0.0, 1.0))
    narrow = one.waters == "sheltered" and least > 0 and _NARROW_M[0] <= beam <= _NARROW_M[1]
    if narrow and _NARROW <= beam / length <= least:
        return  # a boat of the narrow canals: the other parts are not those of a seagoing boat
    if not least <= beam / length <= widest:
        yield at(one, "beam", f"she is {length} long and {beam} wide")
        return
    yield from _along_her(one, length)
    yield from _her_mass(one, length, beam)
    if (
        isinstance(one.persons, int)
        and one.persons > most(sight.vessel, "persons a metre of her length") * length
    ):
        yield at(one, "persons", f"she is {length} long, and {one.persons} persons are to be aboard")


def _sails(one: Particulars) -> bool:
    """Whether she has a mast and a keel or board to sail by; steadying sails are none."""
    rig = str(known(one.rig) or "none").lower()
    return not any(word in rig for word in ("none", "steadying", "motor", "no rig"))


def _draft(one: Particulars, closed: bool, sails: bool) -> Band:
    """The parts of her length between which the draft of such a boat lies."""
    if sails:
        return _DRAFT_OF_OPEN if not closed else _DRAFT_OF_HULLS if one.hull.multihull else _DRAFT
    return _DRAFT_OF_OTHERS if closed else _DRAFT_OF_BOATS


def _along_her(one: Particulars, length: Quantity) -> Iterator[Found]:
    sails, closed = _sails(one), one.hull.closed_in
    bands = {
        "draft": _draft(one, closed, sails),
        "freeboard": _FREEBOARD if closed else _FREEBOARD_OF_OPEN,
        "air-draft": _AIR_DRAFT if sails else _AIR_DRAFT_OF_OTHERS,
    }
    rigged = f", rigged as {one.rig}" if sails else ""
    for key, (low, high) in bands.items():
        figure = getattr(one, key.replace("-", "_"))
        name = key.replace("-", " ")
        if isinstance(figure, Quantity) and not low <= figure / length <= high:
            said = rigged if key != "freeboard" else ""
            yield at(one, key, f"she is {length} long{said}, and her {name} is {figure}")
        elif (
            key == "air-draft"
            and isinstance(figure, Quantity)
            and isinstance(one.freeboard, Quantity)
            and figure < one.freeboard
        ):
            yield at(
                one,
                key,
                f"her air draft is {figure}, and her deck edge lies {one.freeboard} above the water",
                also=(one.place("freeboard"),),
            )


def _her_mass(one: Particulars, length: Quantity, beam: Quantity) -> Iterator[Found]:
    mass, draft, fuel = one.displacement, one.draft, one.fuel
    if isinstance(mass, Quantity) and not _MASS[0] <= mass / length**3 <= _MASS[1]:
        yield at(one, "displacement", f"she is {length} long, and weighs {mass}")
    elif isinstance(mass, Quantity) and isinstance(draft, Quantity):
        block = mass / _WATER_KG_M3 / (length * beam * draft)
        if not _BLOCK[0] <= block <= _BLOCK[1]:
            yield at(
                one,
                "displacement",
                f"she is {length} long, {beam} wide and draws {draft}, and weighs {mass}",
                also=(one.place("draft"),),
            )
    low, high = _FUEL if _sails(one) else _FUEL_OF_OTHERS
    if isinstance(fuel, Quantity):
        part = fuel / length**3
        heavy = isinstance(mass, Quantity) and fuel * _FUEL_KG_L > _FUEL_OF_MASS * mass
        if part > high or heavy or (one.inboard_engine and part < low):
            weighs = f", weighs {mass}" if heavy else ""
            yield at(one, "fuel", f"she is {length} long{weighs}, and holds {fuel} of fuel")


@check("vessel.engine-differs", TRUTH, COMMON_PRACTICE)
def her_engine_is_one_of_those_listed(sight: Sight) -> Finds:
    """Where engines are listed, one of them is of the kind that the vessel is said to have.

    Why: the steps against fire and flooding go by that kind.
    Remedy: go and look, and correct the one that is wrong.
    """
    one, engines = sight.vessel.vessel, sight.vessel.engines
    kinds = [str(each.kind) for each in engines if isinstance(each.kind, str)]
    if one and one.engine == "outboard" and any(map(_electric_outboard, engines)):
        return
    if one and isinstance(one.engine, str) and kinds and one.engine not in kinds:
        yield at(
            one,
            "engine",
            f"it says {one.engine}; of the engines listed there is {', '.join(dict.fromkeys(kinds))}",
            also=(engines[0].place("kind"),),
        )


def _electric_outboard(engine: Engine) -> bool:
    return engine.kind == "electric" and engine.drive == "outboard leg"


@check("vessel.built-later", TRUTH, COMMON_PRACTICE)
def she_was_built_before_today(sight: Sight) -> Finds:
    """The year in which she was built is not still to come.

    Why: lives that run from her building are counted from it, and a rescue centre asks for it.
    Remedy: read the year again from her papers.
    """
    one = sight.vessel.vessel
    if one and isinstance(one.built, int) and one.built > sight.as_of.year:
        yield at(one, "built", f"she was built in {one.built}, and today is {sight.as_of}")
