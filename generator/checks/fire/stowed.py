"""What burns and comes as gear: petrol cans, outboards with their tank, heaters; each where its vapour does no harm."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.shelves.spaces import BELOW
from generator.survey.places import space_at
from generator.survey.placing import in_the_open, lies
from generator.survey.registry import COMMON_PRACTICE, COMPOSITION, LIFE, Finds, Sight, check, of
from generator.vessel.gear import does

if TYPE_CHECKING:
    from generator.vessel.gear import Gear

_PETROL = re.compile(
    r"\b(?:petrol|gasoline|two[- ]stroke|outboard fuel|fuel for the outboard)\b(?! (?:engine|stove|alarm|vapour|gauge|filter|tap|hose|funnel|detector|pump))"
    r"|\bspare fuel\b(?=.*\boutboard\b)",
    re.IGNORECASE,
)
_EMPTY = re.compile(
    r"\b(?:empty|no petrol|without (?:petrol|fuel|its tank)|drained|diesel|electric|hose|funnel)\b",
    re.IGNORECASE,
)


def is_petrol(name: str) -> bool:
    """Whether the name of a thing says that there is petrol in it."""
    return _PETROL.search(name) is not None and _EMPTY.search(name) is None


@check("fire.petrol-stowed", LIFE, COMMON_PRACTICE, COMPOSITION)
def petrol_is_kept_where_its_vapour_blows_away(sight: Sight) -> Finds:
    """Petrol in cans, or in the tank of an outboard that is stowed, is on open deck or in a locker of its own on deck.

    Why: its vapour is heavier than air and fills the cabin or the bilge; a switch, a battery or a cooker lights it with people asleep above it.
    Remedy: lash it at the rail or in a locker that drains overboard with nothing electric in it, then write where, side and spot.
    """
    for item in sight.vessel.gear:
        name = f"{item.what} {item.for_ or ''}" if isinstance(item.for_, str) else str(item.what)
        here = lies(sight, item) if is_petrol(name) else None
        if here is None or here.space.unlike or in_the_open(here.space):
            continue
        if here.space.level == BELOW or here.space.inside or here.space.engine:
            yield of(item, "where", f"petrol in the {here}, where its vapour cannot get out")
            continue
        beside = _lights_it(sight, item)
        if beside:
            yield of(item, "where", f"petrol in the {here}, with {beside}")


def _lights_it(sight: Sight, item: Gear) -> str:
    """What in the same locker lights petrol, or is burnt with it; "" where nothing is there."""
    vessel, space = sight.vessel, space_at(sight, item.where)
    if any(space_at(sight, bank.where) is space for bank in vessel.batteries):
        return "the batteries"
    if any(stop.what == "batteries" and space_at(sight, stop.where) is space for stop in vessel.stops):
        return "the battery switch"
    others = (each for each in vessel.gear if each is not item and space_at(sight, each.where) is space)
    saves = next(
        (each for each in others if does(each, "feeds a fire") or does(each, "discharged by hand")), None
    )
    return f"the {saves.what}" if saves is not None else ""


_HEATS = re.compile(r"\b(?:heaters?|stoves?|charcoal|barbecue|grill|lanterns?|oil lamps?)\b", re.IGNORECASE)
_COLD_HEAT = re.compile(
    r"\b(?:electric|water|immersion|oil[- ]filled|fan|battery|led|solar|meals?|food)\b", re.IGNORECASE
)


def burners(sight: Sight) -> list[Gear]:
    """The things of the gear list that burn something inside her: heaters, stoves, charcoal."""
    found = []
    for item in sight.vessel.gear:
        name = str(item.what)
        space = space_at(sight, item.where)
        if (
            _HEATS.search(name)
            and not _COLD_HEAT.search(name)
            and space is not None
            and not in_the_open(space)
        ):
            found.append(item)
    return found


_IN = r"\b(?:in|inside|with|among|beside|next to|under|below|on top of|on|behind|against|by|near)\b (?:the |our |a |its )?(?:[\w-]+ ){0,2}?"
_FLARES = re.compile(
    rf"{_IN}(?:flares?|rockets?|pyrotechnics?|signals?|smoke signals?)(?:['’]s?)?\b(?! (?:cards?|mirror|flags?|horn|lamp|book|code|halyard|locker door))",
    re.IGNORECASE,
)
_FUEL = re.compile(
    rf"{_IN}(?:(?:petrol|gasoline|diesel|fuel|spirit|paraffin|paint|solvent|oil|grease) (?:cans?|jerry ?cans?|canisters?|bottles?|tins?|drums?|pots?|locker)|jerry ?cans?|jerrycans?|petrol|gas (?:bottles?|cylinders?|cartridges?))\b(?! (?:of|for|with) water)",
    re.IGNORECASE,
)
_OXYGEN = re.compile(rf"{_IN}oxygen\b", re.IGNORECASE)


@check("fire.feeds-another", LIFE, COMMON_PRACTICE)
def what_feeds_a_fire_lies_apart(sight: Sight) -> Finds:
    """Oxygen lies apart from flares and from fuel, oil and paint; flares lie apart from oxygen and from fuel.

    Why: oxygen makes grease and powder burn by themselves; one flare that goes off in that box lights all that is beside it.
    Remedy: give the oxygen, or the flares, a place of their own, and write where and spot.
    """
    for item in sight.vessel.gear:
        spot = item.spot if isinstance(item.spot, str) and does(item, "feeds a fire") else ""
        signals = does(item, "must be dated")
        words = spot and (_FUEL.search(spot) or (_OXYGEN if signals else _FLARES).search(spot))
        if words:
            yield of(item, "spot", f"'{spot}': the one feeds the fire of the other")
