"""Cold water: for everybody something warm, and in an open boat a lifejacket that is worn before it is wanted."""

from __future__ import annotations

from generator.manual.wearing import fits, named, wearers
from generator.reading.nearest import nearest
from generator.survey.registry import COMMON_PRACTICE, HELP, LIFE, RECOMMENDATION, Finds, Sight, at, check, of
from generator.vessel.gear import does
from generator.vessel.people import jacket_sizes

COLD = ("cold", "polar")


@check("gear.aids-too-few", LIFE, COMMON_PRACTICE)
def everybody_is_kept_warm(sight: Sight) -> Finds:
    """Where the water is cold and no suits are carried, there is a thermal protective aid for everybody, gear list and bags together.

    Why: whoever comes wet into the wind without one is lost before the others, within sight of help.
    Remedy: bring as many as persons may be aboard, and write their quantity.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    if (
        one is None
        or one.climate not in COLD
        or one.waters == "sheltered"
        or not isinstance(one.persons, int)
    ):
        return
    if vessel.gear_that("suit against cold"):
        return  # of too few suits another check speaks
    items = vessel.gear_that("keeps warm")
    packed = [item for bag in vessel.grab_bags for item in bag.items if does(item, "keeps warm")]
    counts = [*(item.quantity for item in items), *(item.quantity for item in packed)]
    there = sum(number for number in counts if isinstance(number, int))
    if counts and all(isinstance(number, int) for number in counts) and there < one.persons:
        yield of(
            (items or packed)[0],
            "quantity",
            f"{there} for {one.persons} persons, and the sea there is {one.climate}",
            also=(one.place("persons"),),
        )


@check(
    "gear.jackets-not-worn",
    LIFE,
    COMMON_PRACTICE,
)
def jackets_are_worn_in_an_open_boat(sight: Sight) -> Finds:
    """In a boat without rooms children, those who need help and whoever helps them wear a lifejacket all the time, where some are said to; where the water is cold, everybody does.

    Why: cold water takes the breath away at once, and nobody puts a jacket on in it; whoever cannot put it on alone goes in without.
    Remedy: wear them, and name under 'worn-by' everybody whom each size fits: worn-by: all.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    if one is None or one.hull.has_rooms:
        return
    worn = {role for jackets in vessel.lifejackets for role in wearers(jackets, vessel.people)}
    bare = [person for person in vessel.people if str(person.role) not in worn]
    told = [jackets for jackets in vessel.lifejackets if jackets.worn_by]
    helped = [person for person in bare if person.a_child or isinstance(person.needs_help, str)]
    helpers = {str(person.helper) for person in vessel.people if person.helper}
    in_cold = one.climate in COLD and not one.hull.closed_in
    open_sea = (
        not one.hull.closed_in and one.climate != "tropical"
    )  # no deck holds the water out, nothing to go down into
    those = (
        bare
        if in_cold or open_sea
        else [each for each in bare if each in helped or str(each.role) in helpers]
    )
    if those and worn and told:
        where = f"she is open and the sea {one.climate}" if in_cold else "she has no rooms to be safe in"
        sizes = set(jacket_sizes((helped or those)[0]))
        theirs = [each for each in vessel.lifejackets if any(fits(each, size) for size in sizes)]
        jackets = theirs[0] if theirs else told[0]
        roles = [str(person.role) for person in vessel.people]
        unknown = [who for who in named(jackets, vessel.people) if who not in roles]
        cause = "".join(f"'{who}' is no role aboard; " for who in unknown)
        yield at(
            jackets,
            "worn-by",
            f"{cause}{where}, and without one on: {', '.join(str(person.role) for person in those)}",
            remedy=nearest(unknown[0], roles, taken=[*jackets.worn_by]) if unknown else "",
            item="lifejackets",
            weight=None if in_cold or open_sea or helped else RECOMMENDATION,
        )


@check("gear.one-oar", HELP, COMMON_PRACTICE)
def oars_are_a_pair(sight: Sight) -> Finds:
    """A boat that is rowed has two oars at least, or a paddle.

    Why: with one oar she goes round in a circle.
    Remedy: bring the other aboard; of one that is sculled over the stern say so: oar, for sculling.
    """
    moving = sight.vessel.gear_that("moves her by hand")
    if len(moving) == 1 and moving[0].quantity == 1:
        words = f"{moving[0].what} {moving[0].spot or ''} {moving[0].for_ or ''}".lower()
        if "oar" in words and not any(each in words for each in ("scull", "pair", "paddle", "yuloh")):
            yield of(moving[0], "quantity", "there is one, and nothing else to row or paddle with")
