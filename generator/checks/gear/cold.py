"""Cold water: for everybody something warm, and in an open boat a lifejacket that is worn before it is wanted."""

from __future__ import annotations

from generator.manual.wearing import wearers
from generator.survey.registry import COMMON_PRACTICE, HELP, LIFE, Finds, Sight, at, check, of
from generator.vessel.gear import does

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
    if any(does(item, "suit against cold") for item in vessel.gear):
        return  # of too few suits another check speaks
    items = [item for item in vessel.gear if does(item, "keeps warm")]
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
    """In an open boat where the water is cold, everybody wears a lifejacket all the time, where some are said to.

    Why: cold water takes the breath away at once; nobody puts a jacket on in it.
    Remedy: wear them, and name under 'worn-by' everybody whom each size fits: worn-by: all.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    if one is None or one.hull.closed_in or one.climate not in COLD:
        return
    worn = {role for jackets in vessel.lifejackets for role in wearers(jackets, vessel.people)}
    bare = [str(person.role) for person in vessel.people if str(person.role) not in worn]
    told = [jackets for jackets in vessel.lifejackets if jackets.worn_by]
    if bare and worn and told:
        yield at(
            told[0],
            "worn-by",
            f"she is open and the sea {one.climate}, and without one on: {', '.join(bare)}",
            item="lifejackets",
        )


@check("gear.one-oar", HELP, COMMON_PRACTICE)
def oars_are_a_pair(sight: Sight) -> Finds:
    """A boat that is rowed has two oars at least, or a paddle.

    Why: with one oar she goes round in a circle.
    Remedy: bring the other aboard; of one that is sculled over the stern say so: oar, for sculling.
    """
    moving = [item for item in sight.vessel.gear if does(item, "moves her by hand")]
    if len(moving) == 1 and moving[0].quantity == 1:
        words = f"{moving[0].what} {moving[0].spot or ''} {moving[0].for_ or ''}".lower()
        if "oar" in words and not any(each in words for each in ("scull", "pair", "paddle", "yuloh")):
            yield of(moving[0], "quantity", "there is one, and nothing else to row or paddle with")
