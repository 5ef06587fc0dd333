"""The hull: holes, seacocks, plugs and pumps; and whether her figures are those of a boat."""

from __future__ import annotations

from generator.reading.values import Quantity
from generator.survey.registry import COMMON_PRACTICE, DEFECT, RECOMMENDATION, Found, at, check


@check(
    "pumps.too-few",
    RECOMMENDATION,
    "ISO 15083 5.1.3 (a second pump, read in an excerpt); common practice offshore",
)
def there_are_pumps_enough(sight):
    """There is a bilge pump; offshore there are two.

    Why: the one pump chokes on what floats in the bilge.
    Remedy: list each under 'pumps'; fit a second that drains all of her.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    needed = 2 if one and one.waters in ("offshore", "ocean") else 1
    if one and isinstance(one.waters, str) and len(vessel.pumps) < needed:
        place = vessel.key_place("pumps") if vessel.pumps else one.place("waters")
        yield Found(
            place,
            f"she sails {one.waters} waters, and {len(vessel.pumps) or 'no'} bilge pump{' is' if len(vessel.pumps) < 2 else 's are'} described",
        )


@check("through-hulls.missing", RECOMMENDATION, COMMON_PRACTICE)
def holes_of_an_engine_are_listed(sight):
    """With an inboard engine the holes in the hull are listed.

    Why: whoever looks for the leak in the dark needs to know where holes are.
    Remedy: list each hole under 'through-hulls', beginning with the engine's cooling inlet.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    if one and str(one.engine).startswith("inboard") and not vessel.through_hulls:
        yield at(one, "engine", "she has an inboard engine, and no hole in the hull is listed")


@check("through-hulls.no-seacock", RECOMMENDATION, COMMON_PRACTICE)
def every_hole_can_be_closed(sight):
    """Every hole in the hull can be closed.

    Why: when its hose comes off nothing else stops the water.
    Remedy: write under 'closes' how it is closed; if nothing closes it, fit a seacock.
    """
    for each in sight.vessel.through_hulls:
        if each.closes is None:
            yield at(each, "what", f"{each.what}: nothing says how it is closed", item=str(each.what))


@check("through-hulls.plug-too-small", DEFECT, COMMON_PRACTICE)
def plugs_are_wider_than_their_holes(sight):
    """A plug is wider at its thick end than the hole it is for.

    Why: it goes through, and is gone.
    Remedy: tie a larger one there and write its size.
    """
    for each in sight.vessel.through_hulls:
        if (
            isinstance(each.plug_size, Quantity)
            and isinstance(each.diameter, Quantity)
            and each.plug_size <= each.diameter
        ):
            yield at(
                each,
                "plug-size",
                f"{each.what}: the plug is {each.plug_size} wide and the hole {each.diameter}",
                item=str(each.what),
            )


@check("vessel.proportions", RECOMMENDATION, "proportions of yachts; common practice")
def her_figures_are_those_of_a_boat(sight):
    """Length, beam, draft, freeboard, air draft and displacement belong to one boat.

    Why: a slipped point or a wrong unit goes into plan, estimates and what rescuers are told.
    Remedy: look at the figure and its unit again.
    """
    one = sight.vessel.vessel
    if not one or not one.known("length", "beam"):
        return
    length, beam = one.length, one.beam
    if not 0.17 <= beam / length <= (0.8 if one.type in ("catamaran", "trimaran") else 0.5):
        yield at(one, "beam", f"she is {length} long and {beam} wide")
    for key, low, high in (("draft", 0.01, 0.3), ("freeboard", 0.03, 0.3)):
        figure = getattr(one, key)
        if isinstance(figure, Quantity) and not low <= figure / length <= high:
            yield at(one, key, f"she is {length} long, and her {key} is {figure}")
    air = one.air_draft
    if isinstance(air, Quantity) and not 0.1 <= air / length <= 2.5:
        yield at(one, "air-draft", f"she is {length} long, and her air draft is {air}")
    mass = one.displacement
    if isinstance(mass, Quantity) and not 1.2 <= mass / length**3 <= 40:
        yield at(one, "displacement", f"she is {length} long, and weighs {mass}")
