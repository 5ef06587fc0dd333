"""What a boat of her type and waters needs: to bail, to float full of water, to row, to anchor, to stop, to keep warm."""

from __future__ import annotations

from generator.shelves.gear import kinds_that
from generator.shelves.spaces import BAILS
from generator.survey.registry import (
    COMMON_PRACTICE,
    DEFECT,
    HELP,
    LIFE,
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


@check("gear.for-her-type", HELP, COMMON_PRACTICE)
def what_her_type_needs_is_aboard(sight: Sight) -> Finds:
    """What a boat of her type needs is in the gear list: in an open boat what bails, buoyancy, oars or a paddle, an anchor.

    Why: an open boat fills from one wave, and drifts ashore when her one engine stops.
    Remedy: bring it aboard and list it under 'gear' by that name; tanks or foam built in may stand under capsize instead, buoyancy: [side tank].
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    for what in one.hull.asks_for if one and vessel.gear else ():
        built_in = what == _KEEPS_HER_AFLOAT and vessel.capsize is not None and bool(vessel.capsize.buoyancy)
        if not built_in and not any(does(item, what) for item in vessel.gear):
            names = " nor ".join(kind.name for kind in kinds_that(what))
            said = f"neither {names} is" if " nor " in names else f"no {names} is"
            yield Found(
                vessel.key_place("gear"),
                f"she is of the type {one.type if one else ''}, and {said} in the gear list",
                item=what,
                weight=DEFECT if what == BAILS else None,
            )


@check("gear.tied-in", HELP, COMMON_PRACTICE)
def what_bails_is_tied_in(sight: Sight) -> Finds:
    """In a boat that is bailed, what bails is tied in.

    Why: when she fills or turns over, what is loose floats away, and it is wanted just then.
    Remedy: tie it in with a line long enough to work with, then write tied-in: yes.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    bailers = [item for item in vessel.gear if does(item, BAILS)] if one and one.hull.is_bailed else []
    loose = [item for item in bailers if item.tied_in is False]
    if loose or (bailers and not any(item.tied_in is True for item in bailers)):
        first = (loose or bailers)[0]
        yield of(
            first,
            "tied-in",
            "it is not tied in" if first.tied_in is False else "nothing says that it is tied in",
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


@check("gear.kill-cord-spare", HELP, COMMON_PRACTICE)
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


@check("gear.polar-suits", LIFE, COMMON_PRACTICE)
def suits_are_aboard_in_polar_waters(sight: Sight) -> Finds:
    """In polar waters that are not sheltered immersion suits are in the gear list.

    Why: in the water there nobody lives long enough in clothes to be reached.
    Remedy: bring one for everybody, hang them where people muster, and list them under 'gear' with what: immersion suits.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    if not one or one.climate != "polar" or one.waters == "sheltered" or not vessel.gear:
        return
    if not any(does(item, "suit against cold") for item in vessel.gear):
        message = (
            f"the sea there is polar, and no immersion suit is in the gear list for {one.persons} persons"
        )
        yield at(one, "climate", message, item="immersion suits")
