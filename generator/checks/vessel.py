"""The vessel: her figures are those of a boat."""

from __future__ import annotations

from generator.reading.values import Band, Quantity, given
from generator.survey.registry import (
    COMMON_PRACTICE,
    HELP,
    TRUTH,
    Finds,
    Sight,
    at,
    check,
)


@check("vessel.proportions", HELP, "proportions of yachts; common practice")
def her_figures_are_those_of_a_boat(sight: Sight) -> Finds:
    """Length, beam, draft, freeboard, air draft and displacement belong to one boat.

    Why: a slipped point or a wrong unit goes into plan, estimates and what rescuers are told.
    Remedy: look at the figure and its unit again.
    """
    one = sight.vessel.vessel
    if not one or not isinstance(one.length, Quantity) or not isinstance(one.beam, Quantity):
        return
    length, beam = one.length, one.beam
    least, most = given(one.hull.breadth, Band(0.0, 1.0))
    if not least <= beam / length <= most:
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


@check("vessel.engine-differs", TRUTH, COMMON_PRACTICE)
def her_engine_is_one_of_those_listed(sight: Sight) -> Finds:
    """Where engines are listed, one of them is of the kind that the vessel is said to have.

    Why: the steps against fire and flooding go by that kind.
    Remedy: go and look, and correct the one that is wrong.
    """
    one, engines = sight.vessel.vessel, sight.vessel.engines
    kinds = [str(each.kind) for each in engines if isinstance(each.kind, str)]
    if one and isinstance(one.engine, str) and kinds and one.engine not in kinds:
        yield at(
            one,
            "engine",
            f"it says {one.engine}; of the engines listed there is {', '.join(dict.fromkeys(kinds))}",
            also=(engines[0].place("kind"),),
        )


@check("vessel.built-later", TRUTH, COMMON_PRACTICE)
def she_was_built_before_today(sight: Sight) -> Finds:
    """The year in which she was built is not still to come.

    Why: lives that run from her building are counted from it, and a rescue centre asks for it.
    Remedy: read the year again from her papers.
    """
    one = sight.vessel.vessel
    if one and isinstance(one.built, int) and one.built > sight.as_of.year:
        yield at(one, "built", f"she was built in {one.built}, and today is {sight.as_of}")
