"""What must be aboard, rightly counted and rated, and what the steps ask for."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.manual.bill import alone
from generator.manual.facts import gear_called
from generator.manual.own_words import called
from generator.reading.nearest import nearest
from generator.reading.values import Quantity, known, untold
from generator.shelves.gear import kinds_that
from generator.shelves.procedures import shelf
from generator.shelves.spaces import BAILS
from generator.survey.hands import offered
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    DEFECT,
    FORM,
    HELP,
    LIFE,
    RECOMMENDATION,
    Finds,
    Found,
    Sight,
    at,
    check,
    of,
)
from generator.vessel.fittings import told
from generator.vessel.gear import gear_kind
from generator.vessel.particulars import FAR

if TYPE_CHECKING:
    from generator.reading.findings import Weight
    from generator.vessel.vessel import Vessel

PLUGS = "softwood plugs"


@check("gear.ratings-mixed", FORM, COMMON_PRACTICE)
def extinguishers_are_rated_in_one_system(sight: Sight) -> Finds:
    """Portable extinguishers carry ratings of one system.

    Why: 13A/113B and 5-B are measured on different fires; neither can be turned into the other, so they cannot be added up.
    Remedy: write the ratings as marked; where both are marked, write the one that her rule set uses.
    """
    rated = [
        (item, item.rating)
        for item in sight.vessel.gear_that("discharged by hand")
        if isinstance(item.rating, str)
    ]
    for item, rating in rated[1:]:
        first, firsts = rated[0]
        if _american(rating) != _american(firsts):
            yield of(
                item,
                "rating",
                f"{rating} is of another system than {firsts} of {first.what}",
                also=(first.place("rating"),),
            )
            return


def _american(rating: str) -> bool:
    """Whether a rating is of the American system: by its signs, or, written in one, by a figure before B C that no European label has."""
    compact = re.search(r"(\d+)\s*B\s*C\b", rating.upper())
    return "-" in rating or ":" in rating or (compact is not None and int(compact[1]) not in _EUROPEAN_B)


_EUROPEAN_B = (8, 13, 21, 34, 55, 70, 89, 113, 144, 183, 233)
"""Test fires of class B by EN 3-7 (from memory, unverified)."""


@check("gear.extinguisher-missing", LIFE, "33 CFR 175.320")
def there_is_a_fire_extinguisher(sight: Sight) -> Finds:
    """There is a fire extinguisher.

    Why: a fire is put out in its first minute or not at all.
    Remedy: list each one: what: fire extinguisher, galley.
    """
    vessel = sight.vessel
    if vessel.gear and not vessel.gear_that("discharged by hand") and not _nothing_burns(vessel):
        yield Found(vessel.key_place("gear"), "no fire extinguisher is in the gear list")


_BURNS = re.compile(
    r"\b(?:outboards?|petrol|fuel|diesel|paraffin|kerosene|alcohol|spirit|stoves?|heaters?|lamp oil|generators?)\b",
    re.IGNORECASE,
)


def _nothing_burns(vessel: Vessel) -> bool:
    """Whether an open boat is said to have neither engine nor gas nor batteries, and carries nothing else that burns."""
    one = vessel.vessel
    if one is None or one.hull.has_rooms or one.engine != "none":
        return False
    told_none = vessel.says_none("gas") and (not vessel.batteries) and not vessel.tender
    return told_none and not any(_BURNS.search(str(item.what)) for item in vessel.gear)


@check("gear.rated-for-fuel", LIFE, "EN 2, classes of fire (from memory, unverified); common practice")
def an_extinguisher_puts_out_fuel(sight: Sight) -> Finds:
    """With fuel aboard one extinguisher at least is rated for burning liquids.

    Why: one for solids alone spreads burning fuel.
    Remedy: look at the label again; with no B on it, bring one aboard that is rated for class B.
    """
    one = sight.vessel.vessel
    rated = [
        (item, item.rating)
        for item in sight.vessel.gear_that("discharged by hand")
        if isinstance(item.rating, str)
    ]
    hand = sight.vessel.gear_that("discharged by hand")
    all_told = bool(rated) and len(rated) == len(hand)
    if (
        one
        and one.engine not in (None, "none")
        and all_told
        and not any("B" in rating.upper() for _, rating in rated)
    ):
        item, rating = rated[0]
        yield of(item, "rating", f"rated {rating}: for burning fuel there is none")


@check("gear.float-missing", LIFE, "33 CFR 175.15(b) (one throwable device at 16 feet and over)")
def something_can_be_thrown(sight: Sight) -> Finds:
    """There is something to throw to a person in the water, where somebody is left aboard to throw it.

    Why: a swimmer in clothes goes under before the boat is back.
    Remedy: list it: what: lifebuoy, danbuoy or throwing line.
    """
    vessel = sight.vessel
    if vessel.gear and not alone(vessel) and not vessel.gear_that("thrown to somebody"):
        named = " nor a ".join(kind.name for kind in kinds_that("thrown to somebody"))
        yield Found(vessel.key_place("gear"), f"neither a {named} is in the gear list")


@check("gear.carrier", LIFE, "RYA advice on grab bags: one person carries it (secondary)")
def the_grab_bag_has_a_carrier_aboard(sight: Sight) -> Finds:
    """The grab bag is carried by a role that is aboard.

    Why: a bag that is nobody's is left behind.
    Remedy: write one of the roles under 'people'.
    """
    roles = sight.roles
    for bag in sight.vessel.grab_bags:
        if isinstance(bag.carried_by, str) and bag.carried_by not in roles:
            yield at(
                bag,
                "carried-by",
                f"the grab bag is carried by '{bag.carried_by}', which is no role aboard",
                remedy=nearest(bag.carried_by, offered(sight)),
                item="grab bag",
            )


@check("gear.grab-bag-missing", HELP, "offshore racing grab-bag list (secondary)")
def there_is_a_grab_bag(sight: Sight) -> Finds:
    """Offshore there is a grab bag beside the raft.

    Why: what is packed in the raft is little, and nothing of it calls for help by radio.
    Remedy: pack one, give it a carrier and describe it under 'grab-bags'.
    """
    one, vessel = sight.vessel.vessel, sight.vessel
    if one and one.waters in FAR and vessel.rafts and not vessel.known("grab_bags"):
        yield at(one, "waters", f"she sails {one.waters} with a raft, and no grab bag is described")


@check("gear.grab-bag-afloat", HELP, "RYA advice on grab bags (secondary)")
def the_grab_bag_floats_and_clips_on(sight: Sight) -> Finds:
    """The grab bag floats and has a line with a clip.

    Why: in the jump it goes into the water, and drifts away.
    Remedy: take out weight or add buoyancy, tie on a line with a clip, then write yes.
    """
    for bag in sight.vessel.grab_bags:
        for key, what in (("floats", "does not float when packed"), ("lanyard", "has no line and clip")):
            if getattr(bag, key) is False:
                yield at(bag, key, f"the grab bag {what}", item="grab bag", weight=_afloat(sight, key))


def _afloat(sight: Sight, key: str) -> Weight | None:
    """Far from land nobody brings what went down with the bag."""
    one = sight.vessel.vessel
    return DEFECT if key == "floats" and one is not None and one.waters in FAR else None


@check("gear.stop-missing", LIFE, COMMON_PRACTICE)
def what_burns_can_be_shut_off(sight: Sight) -> Finds:
    """The shut-offs of what burns are described: gas, and of an inboard engine its fuel and its stop.

    Why: fire fed from a bottle or a tank does not go out.
    Remedy: write where each is and how it is worked, under 'stops'.
    """
    vessel = sight.vessel
    there = {stop.what for stop in vessel.stops}
    if vessel.gas and vessel.gas.fuel in ("butane", "propane") and "gas" not in there:
        yield at(
            vessel.gas, "fuel", f"{vessel.gas.fuel} is aboard, and no gas shut-off is described", item="gas"
        )
    one = vessel.vessel
    if one and one.inboard_engine and "fuel" not in there:
        yield at(
            one,
            "engine",
            "she has an inboard engine, and no fuel shut-off is described",
            item="fuel",
            weight=RECOMMENDATION if one.engine == "electric" else None,
        )
    if one and one.inboard_engine and len(vessel.engines) < 2 and "engine" not in there:
        yield at(
            one,
            "engine",
            "she has an inboard engine, and nothing says how it is stopped",
            item="engine",
            weight=RECOMMENDATION,
        )


BAILED_M = 8.0
"""Up to which length, in m, buckets keep up with a leak where no pump works by hand: common practice."""


@check("gear.hand-pump", LIFE, "Offshore Special Regulations 3.23 (from memory, unverified)")
def a_pump_works_without_current(sight: Sight) -> Finds:
    """A bilge pump works by hand.

    Why: water that comes in reaches the batteries first.
    Remedy: fit one and list it under 'pumps' with power: hand.
    """
    one, vessel = sight.vessel.vessel, sight.vessel
    if one and one.hull.is_bailed and bool(vessel.gear_that(BAILS)):
        return
    if sight.vessel.pumps and not any(pump.power == "hand" for pump in sight.vessel.pumps):
        small = one is not None and not (isinstance(one.length, Quantity) and one.length > BAILED_M)
        bailed = small and one is not None and one.waters not in FAR
        bailed = bailed and bool(vessel.gear_that(BAILS))
        yield Found(
            sight.vessel.key_place("pumps"),
            "none of the pumps works by hand",
            weight=RECOMMENDATION if bailed else None,
        )


_NO_PLUG = re.compile(
    r"\b(?:elephant )?trunk|\bself-?bailer|\bfreeing|\bscupper|\bthruster|\btunnel|\b(?:bung|drain plug)s?$",
    re.IGNORECASE,
)
"""Holes without hose and seacock, made to let water out or too wide for any plug, and plugs themselves."""


_ABOVE = re.compile(
    r"\b(?:ends?|comes? up|open|reach(?:es)?) (?:well |just )?above (?:the )?water ?-?line\b", re.IGNORECASE
)
"""Of a tube for rudder or cable: nothing closes it, and no water comes in by it."""


@check("gear.plug", HELP, "Offshore Special Regulations 4.03 (from memory, unverified)")
def every_opening_has_its_plug(sight: Sight) -> Finds:
    """Every hole in the hull has its plug beside it.

    Why: when a hose comes off and the seacock is stuck, a plug at hand is the only thing quick enough.
    Remedy: tie one of the right size there and write where it is under 'plug'.
    """
    named = [each for each in sight.vessel.through_hulls if not _ABOVE.search(str(known(each.closes) or ""))]
    holes = [each for each in named if not _NO_PLUG.search(str(each.what or ""))]
    if holes and all(each.says_none("plug") for each in holes) and not _has_plugs(sight):
        others = tuple(each.place("plug") for each in holes[1:])
        message = "no plug is aboard: none is kept beside a hole, and no softwood plugs are in the gear list"
        yield of(holes[0], "plug", message, also=others)
        return
    for each in holes:
        if untold(each.plug):
            none = each.says_none("plug")
            yield of(
                each,
                "plug" if none else "what",
                "it has no plug" if none else "nothing says where its plug is",
                weight=DEFECT
                if none and each.says_none("closes") and (known(each.below_water) or 0) > 0
                else None,
            )


def _has_plugs(sight: Sight) -> bool:
    """Whether plugs for any hole are in the gear list."""
    return any((kind := gear_kind(item)) is not None and kind.name == PLUGS for item in sight.vessel.gear)


@check("gear.missing-for-step", HELP, COMMON_PRACTICE, COMPOSITION)
def steps_find_their_gear(sight: Sight) -> Finds:
    """What a step asks for is in the gear list.

    Why: the reader looks for it where it is not.
    Remedy: list it under 'gear' by that name, alone or followed by a comma and more.
    """
    printed = {step.id for one in sight.manual.procedures for step in one.steps}
    lost: dict[str, str] = {}
    for one in shelf():
        for step in one.steps:
            if (
                step.id in printed
                and step.gear
                and not any(gear_called(sight.manual.items, name) for name in step.gear)
            ):
                lost.setdefault(step.gear[0], step.id)
    steering = sight.vessel.steering
    one_boat = sight.vessel.vessel
    sails = (
        one_boat is not None
        and one_boat.waters in FAR
        and isinstance(one_boat.rig, str)
        and one_boat.rig != "none"
    )
    tethers = {name for kind in kinds_that("clips somebody on") for name in kind.names}
    for name, asking in lost.items():
        if name in called("steering") and steering is not None and told(steering.emergency_tiller):
            continue  # its place is told there
        if sails and one_boat is not None and one_boat.hull.has_rooms and name in tethers:
            continue  # which another check says, with what it costs
        yield Found(
            sight.vessel.key_place("gear"),
            f"the step '{asking}' asks for '{name}', and the gear list has none",
            item=name,
        )
