"""What each of several rafts takes along: one that drifts off alone must call and show itself alone."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.manual.parties import told
from generator.manual.told import one_for_each
from generator.shelves.packs import brings_light, brings_water, packs
from generator.shelves.procedure_files import BAG, BEACON
from generator.survey.hands import hands
from generator.survey.registry import (
    COMMON_PRACTICE,
    DEFECT,
    HELP,
    LIFE,
    RECOMMENDATION,
    Finds,
    Sight,
    check,
    of,
)
from generator.vessel.gear import does
from generator.vessel.particulars import FAR

if TYPE_CHECKING:
    from generator.vessel.gear import GrabBag, GrabItem
    from generator.vessel.radio import Beacon, RadioSet
    from generator.vessel.raft import Raft

_CARRIED = ("EPIRB", "PLB", "SART", "handheld VHF", "satellite telephone")
"""What calls for help over more than the next mile, by its kind."""


@check("raft.calls-not", LIFE, COMMON_PRACTICE)
def each_raft_has_something_that_calls(sight: Sight) -> Finds:
    """Where each of several rafts gets a bag, something that calls for help goes into each, and signals go into each if into one.

    Why: rafts drift apart in the first night; the one whose bag has water and biscuits is not found.
    Remedy: share radios, beacons and flares between the bags, and list each under the 'items' of the bag it is in.
    """
    rafts, bags = sight.vessel.rafts, sight.vessel.grab_bags
    if len(rafts) < 2 or len(bags) < 2 or not all(raft.carries for raft in rafts):
        return
    own = {raft: [bag for bag in bags if _goes_into(bag, raft)] for raft in rafts}
    if not all(own.values()):
        return  # of a raft without a bag another check speaks
    for what, words, weight in (
        ("calls for help", "calls for help", None),
        ("shows distress", "is a distress signal", RECOMMENDATION),
    ):
        items = {
            raft: [item for bag in own[raft] for item in bag.items if does(item, what)] for raft in rafts
        }
        for raft in rafts:
            carried = what == "calls for help" and (_carried(sight, raft) or bool(told(raft, BEACON)))
            others = [item for other in rafts if other is not raft for item in items[other]]
            if not items[raft] and not carried and others:
                yield of(
                    raft,
                    "carries",
                    f"nothing in the bag that goes into it {words}; in the other bag: {', '.join(_named(others))}",
                    weight=weight,
                    also=tuple(each.place("items") for each in own[raft])
                    + tuple(each.place("what") for each in others),
                )


@check("raft.nothing-brought", HELP, COMMON_PRACTICE)
def each_raft_gets_a_bag(sight: Sight) -> Finds:
    """Of several rafts each gets a grab bag, where one does, and with bag or pack water, a light and something that calls; with none of it, far out, it is a defect.

    Why: rafts drift apart in the first night; in the one without a bag nobody drinks, shows a light or is found with the other.
    Remedy: pack a second bag and write who of that raft carries it: 'carried-by', and 'bag' in its 'party'; a raft whose pack a rule lists needs none.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    if len(vessel.rafts) < 2 or not vessel.grab_bags:
        return
    parties = {id(party.raft): party for party in sight.reckoning.parties}
    for raft in vessel.rafts:
        own = [bag for bag in vessel.grab_bags if _goes_into(bag, raft)]
        if not raft.carries or _listed(raft) or (told(raft, BAG) and not own):
            continue
        calls = _carried(sight, raft) or _each_has_one(sight) or parties[id(raft)].beacon is not None
        lacking = _lacking(raft, own)
        if own and not lacking:
            continue
        if (second := _second(sight, raft)) is not None:
            bag, other = second
            yield of(
                bag,
                "carried-by",
                f"it goes into the {other.name} with another bag, and whoever goes into the {raft.name} brings none",
                remedy=f"write carried-by: {_bearer(sight, raft)}, and give the duty 'grab-bag' to the same person",
                weight=DEFECT,
                also=(raft.place("carries"),),
            )
            continue
        lacking = [*([] if own else ["bag"]), *lacking, *([] if own or calls else ["beacon or radio"])]
        alone = not own and not calls and _WET in lacking and one is not None and one.waters in FAR
        yield of(
            raft,
            "carries",
            f"whoever goes into it brings no {' and no '.join(lacking)}",
            remedy=(
                f"pack it into the bag that goes into the {raft.name}, and list it there"
                if own
                else f"pack a second bag with water, a torch and a radio: carried-by: {_bearer(sight, raft)}; "
                f"then write that bearer as 'bag' of the {raft.name}'s 'party'"
            ),
            weight=DEFECT if alone else None,
            also=(vessel.grab_bags[0].place("carried-by"),),
        )


_WET = "water to drink"


def _listed(raft: Raft) -> bool:
    """Whether a rule lists what is in a raft's pack: then all of it is there."""
    pack = packs().get(str(raft.pack))
    return pack is not None and pack.contents is not None and brings_water(raft.pack)


def _lacking(raft: Raft, bags: list[GrabBag]) -> list[str]:
    """What of water and light neither these bags nor the raft's pack bring, as far as is told of the pack."""
    items = [item for bag in bags for item in bag.items]
    if not raft.known("pack"):
        return []
    inside = raft.pack_water if isinstance(raft.pack_water, (int, float)) else 0.0
    wet = inside > 0 or brings_water(raft.pack) or any(does(item, "drinking water") for item in items)
    lit = brings_light(raft.pack) or any(does(item, "lights the way") for item in items)
    return [*([] if wet else [_WET]), *([] if lit else ["lamp"])]


def _each_has_one(sight: Sight) -> bool:
    """Whether everybody carries a beacon or a radio on the body."""
    radio = sight.vessel.radio
    things: list[RadioSet | Beacon] = [*radio.sets, *radio.beacons] if radio else []
    return any(one_for_each(each.spot, each.__dict__.get("carried_by")) for each in things)


def _bearer(sight: Sight, raft: Raft) -> str:
    """Who of those it carries can bring a bag; the first of them, where nobody is known to be able."""
    crew, going = hands(sight), [str(who) for who in raft.carries or ()]
    return next((who for who in going if who not in crew or not crew[who].weak), going[0])


def _second(sight: Sight, raft: Raft) -> tuple[GrabBag, Raft] | None:
    """Of the bags the second that goes into one raft while nobody brings one into `raft`, with that raft."""
    bags, own = sight.vessel.grab_bags, [bag for bag in sight.vessel.grab_bags if _goes_into(bag, raft)]
    for other in sight.vessel.rafts if not own else ():
        there = [bag for bag in bags if _goes_into(bag, other)]
        if len(there) > 1:
            return there[-1], other
    return None


def _goes_into(bag: GrabBag, raft: Raft) -> bool:
    """Whether somebody who goes into a raft brings a bag, as its carrier or by the raft's party."""
    party = raft.party.__dict__.get(BAG) if raft.party is not None else None
    brings = (
        {str(who) for who in party} if isinstance(party, (tuple, list)) and bag.carried_by is None else set()
    )
    return str(bag.carried_by) in {*map(str, raft.carries or ()), *brings}


def _carried(sight: Sight, raft: Raft) -> bool:
    """Whether somebody who goes into a raft carries a beacon or a radio."""
    radio = sight.vessel.radio
    going = set(map(str, raft.carries or ()))
    things: list[RadioSet | Beacon] = [*radio.sets, *radio.beacons] if radio else []
    for each in things:
        who = each.__dict__.get("carried_by")
        told = {str(one) for one in who} if isinstance(who, (tuple, list)) else {str(who)}
        if each.kind in _CARRIED and not told.isdisjoint(going):
            return True
    return False


def _named(items: list[GrabItem]) -> list[str]:
    return list(dict.fromkeys(str(item.what) for item in items))
