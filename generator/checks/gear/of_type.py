"""What a boat of her type and waters needs: to bail, to float full of water, to row, to anchor, to stop, to keep warm."""

from __future__ import annotations

import re

from generator.shelves.gear import kinds_that
from generator.shelves.spaces import BAILS
from generator.survey.places import space_at
from generator.survey.registry import (
    COMMON_PRACTICE,
    COMPOSITION,
    DEFECT,
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
from generator.vessel.fittings import Kept
from generator.vessel.gear import does

_KEEPS_HER_AFLOAT = "keeps her afloat"
_STAYS_OFF = ("moves her by hand", "holds her to the ground")
"""What keeps her off the rocks when her one engine stops: either will do, with neither she drifts ashore."""


@check("gear.for-her-type", HELP, COMMON_PRACTICE)
def what_her_type_needs_is_aboard(sight: Sight) -> Finds:
    """What a boat of her type needs is in the gear list: in an open boat what bails, buoyancy, oars or a paddle, an anchor.

    Why: an open boat fills from one wave, and drifts ashore when her one engine stops.
    Remedy: bring it aboard and list it under 'gear' by that name; tanks or foam built in may stand under capsize instead, buoyancy: [side tank].
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    helpless = one is not None and not any(does(item, each) for item in vessel.gear for each in _STAYS_OFF)
    for what in one.hull.asks_for if one and vessel.gear else ():
        built_in = what == _KEEPS_HER_AFLOAT and vessel.capsize is not None and bool(vessel.capsize.buoyancy)
        if not built_in and not vessel.gear_that(what):
            names = " nor ".join(kind.name for kind in kinds_that(what))
            said = f"neither {names} is" if " nor " in names else f"no {names} is"
            yield Found(
                vessel.key_place("gear"),
                f"she is of the type {one.type if one else ''}, and {said} in the gear list",
                item=what,
                weight=DEFECT if what == BAILS or (helpless and what in _STAYS_OFF) else None,
            )


@check("gear.tied-in", LIFE, COMMON_PRACTICE)
def what_bails_is_tied_in(sight: Sight) -> Finds:
    """In a boat that is bailed, what bails is tied in, and what rows or paddles her is not said to be loose.

    Why: when she fills or turns over, what is loose floats away, and it is wanted just then.
    Remedy: tie it in with a line long enough to work with, then write tied-in: yes.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    bailers = vessel.gear_that(BAILS) if one and one.hull.is_bailed else []
    loose = [item for item in bailers if item.tied_in is False]
    if one and one.hull.is_bailed and not loose:
        rowed = [item for item in vessel.gear if does(item, "moves her by hand") and item.tied_in is False]
        loose = rowed[:1]
    if loose or (bailers and not any(item.tied_in is True for item in bailers)):
        first = (loose or bailers)[0]
        yield of(
            first,
            "tied-in",
            "it is not tied in" if first.tied_in is False else "nothing says that it is tied in",
            weight=None if first.tied_in is False else RECOMMENDATION,
        )


@check("gear.loose-at-the-hatch", LIFE, COMMON_PRACTICE)
def what_is_wanted_upside_down_is_tied_in(sight: Sight) -> Finds:
    """What hangs at the way out that serves when she lies upside down is tied in.

    Why: she fills through that hatch, and the torch that is to be found there in the dark has floated off.
    Remedy: tie it in with a line long enough to work with, then write tied-in: yes.
    """
    ways = [
        space
        for hatch in sight.vessel.escape
        if hatch.serves_inverted is True and (space := space_at(sight, hatch.where))
    ]
    for item in sight.vessel.gear if ways else ():
        if item.tied_in is False and space_at(sight, item.where) in ways:
            yield of(
                item, "tied-in", f"it is not tied in, at the way out that serves upside down: {item.where}"
            )


@check(
    "gear.kill-cord",
    LIFE,
    "good seamanship; kill cord campaigns of rescue services (from memory, unverified)",
)
def the_engine_stops_when_the_helm_is_thrown_out(sight: Sight) -> Finds:
    """Where whoever steers can be thrown out, a kill cord stops a petrol engine.

    Why: the boat drives on in a circle, over whoever fell out of it.
    Remedy: fit one and wear it, then describe it under 'stops' with what: kill cord.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    if (
        one
        and one.hull.kill_cord is True
        and one.petrol
        and not any(stop.what == "kill cord" for stop in vessel.stops)
    ):
        yield at(
            one,
            "engine",
            f"she has an {one.engine} engine, and no kill cord is described",
            item="kill cord",
        )


@check("gear.kill-cord-spare", LIFE, COMMON_PRACTICE)
def a_spare_kill_cord_is_at_hand(sight: Sight) -> Finds:
    """Where several are aboard, a spare kill cord is at the helm.

    Why: whoever goes overboard with the cord on takes it along, and without one the engine that must fetch him does not start.
    Remedy: hang one beside the helm and write its place under 'spare' of that stop: spare: {where: helm, side: port}.
    """
    one = sight.vessel.vessel
    if one is None or one.persons == 1:
        return
    cords = [stop for stop in sight.vessel.stops if stop.what == "kill cord"]
    if cords and not any(isinstance(stop.spare, Kept) for stop in cords):
        yield at(cords[0], "spare", "nothing says where a spare kill cord is", item="kill cord")


_ON_A_BODY = re.compile(
    r"\b(?:his|her|my|their|skipper|master|owner|mate|helm|helmsman|whoever steers)(?:['’]s)? (?:\w+ )?"
    r"(?:pocket|wrist|neck|life ?jacket|jacket|belt|key ?ring)\b"
    r"|\b(?:trouser|coat|jacket|oilskin)s?['’]? pockets?\b|\bround (?:the|his|her|my) (?:neck|wrist)\b",
    re.IGNORECASE,
)


@check("gear.kill-cord-spare-worn", LIFE, COMMON_PRACTICE)
def the_spare_kill_cord_stays_aboard(sight: Sight) -> Finds:
    """A spare kill cord is kept on the boat, not on whoever wears the first one.

    Why: both go overboard with him, and the engine that must fetch him does not start.
    Remedy: hang it beside the helm, and write that: spare: {where: helm, side: port}.
    """
    for stop in sight.vessel.stops:
        spare = stop.spare if stop.what == "kill cord" else None
        if isinstance(spare, Kept) and isinstance(spare.spot, str) and _ON_A_BODY.search(spare.spot):
            yield at(stop, "spare", f"it is kept {spare.spot}, and goes along overboard", item="kill cord")


@check("gear.polar-suits", LIFE, COMMON_PRACTICE)
def suits_are_aboard_in_polar_waters(sight: Sight) -> Finds:
    """In polar waters that are not sheltered immersion suits are in the gear list.

    Why: in the water there nobody lives long enough in clothes to be reached.
    Remedy: bring one for everybody, hang them where people muster, and list them under 'gear' with what: immersion suits.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    if not one or one.climate != "polar" or one.waters == "sheltered" or not vessel.gear:
        return
    if not vessel.gear_that("suit against cold"):
        message = (
            f"the sea there is polar, and no immersion suit is in the gear list for {one.persons} persons"
        )
        yield at(one, "climate", message, item="immersion suits")


@check("gear.autopilot-place", HELP, COMMON_PRACTICE, COMPOSITION)
def the_autopilot_is_where_it_is_switched_off(sight: Sight) -> Finds:
    """The autopilot is listed where it is switched off, not where its drive is.

    Why: the step sends a guest there to switch it off, while she runs on towards the shore.
    Remedy: write the space of its control, such as the helm or the cockpit, and under 'spot' which key it is.
    """
    for item in sight.vessel.gear:
        space = space_at(sight, item.where) if does(item, "steers by itself") else None
        if space is not None and (space.engine or space.stows):
            yield at(
                item, "where", f"{item.what}: nobody switches it off in the {space.name}", item=str(item.what)
            )
