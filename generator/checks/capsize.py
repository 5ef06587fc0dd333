"""Swamping and capsize: whether it is said how she floats, and that what is said to be reached then is."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.manual.fitting_facts import reached_inverted
from generator.reading.values import untold
from generator.survey.registry import COMMON_PRACTICE, DEFECT, RECOMMENDATION, Finds, Sight, at, check
from generator.vessel.capsize import FLOATS
from generator.vessel.particulars import FAR

if TYPE_CHECKING:
    from generator.vessel.fittings import Fitting
    from generator.vessel.raft import Raft

_ARTICLES = ("the", "a", "an", "of", "for")


@check("capsize.not-said", RECOMMENDATION, COMMON_PRACTICE)
def it_is_said_how_she_floats_full_of_water(sight: Sight) -> Finds:
    """A boat that is open, or a multihull offshore, says how she floats when she is full of water.

    Why: whether to stay with her or to leave her hangs on it, and in the water nobody finds that out in time.
    Remedy: ask the builder, look at her plate, or fill her in shallow water; then write capsize: {swamped: ...}.
    """
    one, told = sight.vessel.vessel, sight.vessel.capsize
    if one is None or not (not one.hull.closed_in or (one.hull.multihull and one.waters in FAR)):
        return
    if told is None:
        yield at(
            one,
            "type",
            f"she is of the type {one.type}, and nothing says how she lies full of water",
            item="capsize",
        )
    elif not told.known("swamped"):
        yield at(told, "swamped", "'swamped' does not say how she lies full of water", item="capsize")


@check("capsize.not-reached", DEFECT, COMMON_PRACTICE)
def what_is_reached_upside_down_is_reached(sight: Sight) -> Finds:
    """What is listed as reached when she lies upside down is said nowhere else to be out of reach.

    Why: whoever swims for it under an upturned hull does not come back.
    Remedy: go and look at the mooring how it is got at from below; correct 'reached' or the raft's 'reached-inverted'.
    """
    for thing in reached_inverted(sight.vessel):
        for raft in sight.vessel.rafts:
            if raft.reached_inverted is False and _is_of(thing, raft):
                yield at(
                    thing,
                    "what",
                    f"'{thing.what}' is said to be reached upside down, and the {raft.name} is not",
                    item=str(thing.what),
                    also=(raft.place("reached-inverted"),),
                )


def _is_of(thing: Fitting, raft: Raft) -> bool:
    """Whether a thing is the raft by its name, or its knife where that is kept with the raft."""
    words = [word for word in re.findall(r"\w+", str(thing.what).lower()) if word not in _ARTICLES]
    named = words == re.findall(r"\w+", str(raft.name).lower())
    knife = raft.knife
    kept_there = knife is not None and knife.where == raft.where and thing.where == raft.where
    return named or (kept_there and knife is not None and thing.known("spot") and thing.spot == knife.spot)


@check("capsize.righted", RECOMMENDATION, COMMON_PRACTICE)
def how_she_is_righted_is_said_of_one_that_can_be(sight: Sight) -> Finds:
    """Where it is said how she is turned upright, it is said too that her own people can.

    Why: without it no step prints it.
    Remedy: write righted: yes if it was tried, or take 'righted-how' out.
    """
    told = sight.vessel.capsize
    if told is not None and told.known("righted_how") and told.righted is not True:
        key = "righted-how" if untold(told.righted) else "righted"
        yield at(
            told, key, "it says how she is turned upright, and not that her own people can", item="capsize"
        )


@check("capsize.buoyancy", RECOMMENDATION, COMMON_PRACTICE)
def a_boat_that_floats_full_has_buoyancy(sight: Sight) -> Finds:
    """A boat that sinks when she is full is not said to have buoyancy built in, without a word why.

    Why: one of the two is wrong, and people stay with her or leave her by it.
    Remedy: ask the builder; buoyancy that does not carry her is no buoyancy: take it out, or correct 'swamped'.
    """
    told = sight.vessel.capsize
    if told is not None and told.buoyancy and told.known("swamped") and told.swamped not in FLOATS:
        yield at(
            told,
            "swamped",
            "she is said to sink when full of water, and to have buoyancy built in",
            item="capsize",
            also=(told.place("buoyancy"),),
        )
