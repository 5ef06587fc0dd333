"""The grab bag: one list, one place, one carrier, and enough in it."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

from generator.manual.bill import assigned_to
from generator.manual.crew import the
from generator.manual.told import in_grab_bag
from generator.reading.values import Given, Quantity, Stamp, known
from generator.shelves.gear import before_comma, kind_of
from generator.shelves.procedure_files import GRAB_BAG
from generator.survey.hands import hands
from generator.survey.limits import most
from generator.survey.registry import (
    ADVICE,
    COMMON_PRACTICE,
    COMPOSITION,
    DEFECT,
    HELP,
    LIFE,
    NOTICE,
    RECOMMENDATION,
    TRUTH,
    Finds,
    Found,
    Sight,
    at,
    check,
    of,
)
from generator.survey.shortfalls import SOURCE, shortfalls
from generator.survey.sight import once
from generator.vessel.gear import CUTS, does, gear_kind
from generator.vessel.particulars import FAR
from generator.vessel.radio import Beacon
from generator.vessel.raft import Raft

if TYPE_CHECKING:
    from generator.vessel.gear import Gear, GrabBag, GrabItem
    from generator.vessel.radio import RadioSet
    from generator.vessel.vessel import Vessel


@check("grab-bag.short", ADVICE, SOURCE, COMPOSITION)
def bag_and_raft_together_are_enough(sight: Sight) -> Finds:
    """Grab bag and raft pack together hold what the rule sets ask for; far out, a bag without a single distress signal is a defect.

    Why: in the raft nobody can fetch anything any more.
    Remedy: pack it into the grab bag and list it there; only of SOLAS packs it is known from the name what they hold, so ask
    the service station for the list of any other.
    """
    one, bags = sight.vessel.vessel, sight.vessel.grab_bags
    far = one is not None and one.waters in FAR
    shown = any(does(item, "shows distress") for bag in bags for item in bag.items)
    for each in shortfalls(sight, lambda row: not row.drinking_water and row.key == "grab-bags"):
        # rules of packs bind the raft's maker; the bag makes good what the pack lacks
        unseen = far and "flare" in each.item and not shown
        yield replace(each, weight=DEFECT if unseen else RECOMMENDATION)


@check(
    "grab-bag.only-in-the-raft",
    NOTICE,
    "raft pack and grab bag counted together (offshore grab-bag advice, secondary)",
    COMPOSITION,
)
def nothing_lies_in_the_packed_raft_alone(sight: Sight) -> Finds:
    """Nothing that the rule sets ask for lies inside the packed raft alone.

    Why: nobody reaches it before the raft is inflated, nobody sees whether it is there, and it goes where the raft goes.
    Remedy: put some of it into the grab bag too; what stays in the raft only the service station can look at.
    """
    lost = [row for row in sight.manual.carriage if row.needs_the_raft]
    packed = [thing.block for row in lost for thing in row.things if thing.in_raft]
    raft = next((each for each in sight.vessel.rafts if packed and each is packed[0]), None)
    if raft:
        yield at(
            raft,
            "pack",
            f"only inside the packed raft: {', '.join(dict.fromkeys(row.rule.item for row in lost))}",
            item=str(raft.name),
        )


@once
def _bagged(sight: Sight) -> tuple[Gear | Beacon | RadioSet, ...]:
    """What says of itself that it is in the grab bag."""
    radio = sight.vessel.radio
    listed: list[Gear | Beacon | RadioSet] = [*sight.vessel.gear]
    if radio:
        listed = [*radio.sets, *radio.beacons, *listed]
    return tuple([each for each in listed if in_grab_bag(each.spot) and isinstance(each.what, str)])


def _in_bags(vessel: Vessel, name: Given) -> list[GrabItem]:
    """The lines of the grab bags with that name."""
    own, kind = before_comma(name), kind_of(name)
    kind = None if kind is None or kind.words else kind
    return [
        item
        for bag in vessel.grab_bags
        for item in bag.items
        if isinstance(item.what, str)
        and (
            before_comma(item.what).partition(" in ")[0] in (own, own.partition(" in ")[0])
            or (kind is not None and gear_kind(item) is kind)
        )
    ]


@check("grab-bag.not-inside", LIFE, COMMON_PRACTICE)
def what_is_in_the_bag_is_on_its_list(sight: Sight) -> Finds:
    """What says that it is in the grab bag is on the bag's list.

    Why: whoever packs the bag by its list leaves it out.
    Remedy: list it under the bag's 'items' by the same name, or write where it really is.
    """
    for each in _bagged(sight):
        if sight.vessel.grab_bags and not _in_bags(sight.vessel, each.what):
            yield of(each, "spot", f"it says '{each.spot}', and no bag's list has it")


@check("grab-bag.elsewhere", LIFE, COMMON_PRACTICE)
def what_is_in_the_bag_is_where_the_bag_is(sight: Sight) -> Finds:
    """What is in the grab bag is where the bag hangs.

    Why: pages that give two places for one thing send two people to one of them.
    Remedy: write the bag's space and side there too.
    """
    for each in _bagged(sight):
        listed = _in_bags(sight.vessel, each.what)
        bags = [bag for bag in sight.vessel.grab_bags if any(item in bag.items for item in listed)]
        bags = bags or list(sight.vessel.grab_bags)
        if bags and (str(each.where), str(each.side)) not in {
            (str(bag.where), str(bag.side)) for bag in bags
        }:
            lists = (
                "the bag that has it on its list" if len(bags) < len(sight.vessel.grab_bags) else "the bag"
            )
            yield of(
                each,
                "where",
                f"it is in the grab bag, and lies in the {each.where or 'place not told'}, {each.side or 'no side'}; {lists} hangs "
                f"elsewhere",
                also=tuple(bag.place("where") for bag in bags),
            )


@check("grab-bag.counted-twice", LIFE, COMMON_PRACTICE)
def a_beacon_is_in_the_bag_or_elsewhere(sight: Sight) -> Finds:
    """A beacon or radio on the grab bag's list is one that says that it is in the bag; what hangs elsewhere is not counted there too.

    Why: whoever takes the bag thinks that the EPIRB is in it, and it goes down in its bracket.
    Remedy: where it hangs in its bracket take it off the bag's list; of one that is in the bag correct the place under radio.
    """
    for item in (item for bag in sight.vessel.grab_bags for item in bag.items):
        meant = _elsewhere(sight, item)
        if meant is not None:
            yield of(
                item,
                "what",
                f"it is on the grab bag's list, and lies {meant.spot}, in the {meant.where}",
                also=(meant.place("spot"),),
            )


def _elsewhere(sight: Sight, item: GrabItem) -> Beacon | RadioSet | None:
    """The beacon or radio that a line of a bag means, where she has none of that name or kind in a bag."""
    meant = _on_the_air(sight).get(before_comma(item.what))
    return meant[0] if meant and all(_told_elsewhere(each) for each in meant) else None


@once
def _on_the_air(sight: Sight) -> dict[str, list[Beacon | RadioSet]]:
    """Her beacons and radios by name and by kind, in small letters."""
    radio = sight.vessel.radio
    described: list[Beacon | RadioSet] = [*radio.beacons, *radio.sets] if radio else []
    found: dict[str, list[Beacon | RadioSet]] = {}
    for each in described:
        for name in {before_comma(each.what), str(each.kind).lower()}:
            found.setdefault(name, []).append(each)
    return found


def _told_elsewhere(each: Beacon | RadioSet) -> bool:
    """Whether a beacon or radio, of which there is one, tells a place that is not the bag."""
    more = isinstance(each, Beacon) and isinstance(each.quantity, int) and each.quantity > 1
    if more or not isinstance(each.spot, str) or not isinstance(each.where, str):
        return False
    return not in_grab_bag(each.spot) and (not _A_BAG.search(each.spot) or bool(_IN_A_RAFT.search(each.spot)))


_IN_A_RAFT = re.compile(
    r"\b(?:in|inside|packed (?:in|into)) (?:the |its |our )?(?:port |starboard )?(?:life ?-?)?raft(?:['’]s)?(?: (?:container|canister|valise))?(?=$|[,.;])",
    re.IGNORECASE,
)
_A_BAG = re.compile(
    r"\b(?:bags?|sack|holdall|duffel|keg|pack|rucksack|barrel|drum|container|canister|raft)\b", re.IGNORECASE
)


@check("grab-bag.two-dates", TRUTH, COMMON_PRACTICE)
def a_beacon_in_the_bag_has_one_date(sight: Sight) -> Finds:
    """A beacon in the grab bag has one expiry, not two.

    Why: one of the two dates is wrong, and the wrong one may be the later.
    Remedy: read the date on it, and write it in both lines.
    """
    for each in _bagged(sight):
        battery = getattr(each, "battery_expires", None)
        for line in _in_bags(sight.vessel, each.what):
            if isinstance(battery, Stamp) and isinstance(line.expires, Stamp) and line.expires != battery:
                yield of(
                    line,
                    "expires",
                    f"{line.expires} in the grab bag's list, {battery} among the beacons",
                    also=(each.place("battery-expires"),),
                )


@check("grab-bag.two-carriers", TRUTH, COMMON_PRACTICE)
def one_person_carries_the_bag(sight: Sight) -> Finds:
    """The grab bag is carried by whoever has that duty on the bill.

    Why: each of the two thinks that the other has it.
    Remedy: write the same role in 'carried-by' and at the duty 'grab-bag'.
    """
    duty = assigned_to(sight.vessel, GRAB_BAG)
    bearers = [bag.carried_by for bag in sight.vessel.grab_bags if isinstance(bag.carried_by, str)]
    carriers = set(bearers)
    if not duty or not carriers or len(carriers) < len(bearers) == len(duty.who) == len(sight.vessel.rafts):
        return  # of two bags with one bearer the raft that gets none is told
    for who in duty.who:
        if who not in carriers:
            yield Found(
                duty.place("who"),
                f"the bill gives the grab bag to {the(who)}, and 'carried-by' to {' and '.join(map(the, sorted(carriers)))}",
                item="grab bag",
                also=tuple(bag.place("carried-by") for bag in sight.vessel.grab_bags),
            )


@check("grab-bag.not-described", HELP, COMMON_PRACTICE)
def what_calls_for_help_from_the_bag_is_described(sight: Sight) -> Finds:
    """A radio or beacon on the grab bag's list is described under 'radio'.

    Why: otherwise no page says how it is switched on, and its battery is in no list of dates.
    Remedy: describe it under 'sets' or 'beacons' by the same name, with spot: in the grab bag.
    """
    radio = sight.vessel.radio
    described: list[Beacon | RadioSet] = [*radio.beacons, *radio.sets] if radio else []
    known = {str(each.what).lower() for each in described}
    for bag in sight.vessel.grab_bags:
        for item in bag.items:
            told = (
                before_comma(item.what).partition(" in ")[0] in known or _elsewhere(sight, item) is not None
            )
            if does(item, "calls for help") and not told:
                yield of(
                    item,
                    "what",
                    "it is on the grab bag's list, and 'radio' does not describe it under 'beacons' or 'sets'",
                )


@check("grab-bag.heavy", LIFE, COMMON_PRACTICE)
def its_carrier_can_lift_the_bag(sight: Sight) -> Finds:
    """Whoever carries the grab bag can lift it.

    Why: a bag that is too heavy for one stays where it hangs, with the water and the radio in it.
    Remedy: share it between two bags and two carriers, or give it to somebody stronger.
    """
    lifts = {str(person.role): person.lifts for person in sight.vessel.people}
    for bag in sight.vessel.grab_bags:
        able = lifts.get(str(bag.carried_by))
        if isinstance(bag.mass, Quantity) and isinstance(able, Quantity) and bag.mass > able:
            yield at(
                bag,
                "mass",
                f"it weighs {bag.mass}, and {the(str(bag.carried_by))} lifts {able}",
                item="grab bag",
            )


@check("grab-bag.carrier-unable", LIFE, COMMON_PRACTICE)
def the_bag_is_carried_by_somebody_who_can(sight: Sight) -> Finds:
    """Whoever carries a grab bag is grown, and needs no help.

    Why: the bag has the radio, the water and the flares; it is left where its carrier is.
    Remedy: write under 'carried-by' somebody who can carry it.
    """
    crew = hands(sight)
    for bag in sight.vessel.grab_bags:
        hand = crew.get(known(bag.carried_by) or "")
        why = hand.weak if hand is not None else ""
        if hand is not None and why:
            yield at(bag, "carried-by", f"{the(hand.role)}, who carries it, {why}", item="grab bag")


def _told_too_heavy(vessel: Vessel, bag: GrabBag) -> bool:
    """Whether it is known what its carrier lifts: then that is told."""
    return any(isinstance(each.lifts, Quantity) for each in vessel.people if each.role == bag.carried_by)


@check("grab-bag.figures", HELP, COMMON_PRACTICE)
def the_bag_weighs_what_such_a_bag_weighs(sight: Sight) -> Finds:
    """The grab bag weighs more than the water in it, and no more than one person carries.

    Why: whoever is told off for it finds out on the ladder that it cannot be carried; or the water is not in it.
    Remedy: weigh it packed, and look at the unit; share what is too much between two bags.
    """
    heaviest = most(sight.vessel, "mass of a grab bag")
    for bag in sight.vessel.grab_bags:
        water = sum(float(item.volume) for item in bag.items if isinstance(item.volume, Quantity))
        if not isinstance(bag.mass, Quantity):
            continue
        if bag.mass < water:
            message = f"it weighs {bag.mass} packed, and {water:g} l of water are in it"
            yield at(bag, "mass", message, item="grab bag")
        elif bag.mass > heaviest and not _told_too_heavy(sight.vessel, bag):
            message = f"it weighs {bag.mass} packed; one person carries {heaviest:g} kg at most"
            yield at(bag, "mass", message, item="grab bag", weight=LIFE.weight)


_SHARP = re.compile(
    r"\b(?:sharp(?:ly)?[- ]?(?:point(?:ed)?|tip(?:ped)?)|(?:sharp|long|needle|dagger|fine|acute) (?:point|tip)|pointed|point[- ]ended|dagger|stiletto|machete|bayonet|filleting|boning|carving|hunting|bowie|throwing|kitchen|steak|"
    r"diver['’]?s?|diving|combat|bush)\b",
    re.IGNORECASE,
)
_BLUNT = re.compile(
    r"\b(?:blunt|round(?:ed)?|no point|not pointed|without (?:a )?point|sheep['’]?s?[- ]?foot|safety|line cutter|hook)",
    re.IGNORECASE,
)


@check("grab-bag.sharp", LIFE, COMMON_PRACTICE)
def the_knife_of_the_bag_does_no_harm_in_the_raft(sight: Sight) -> Finds:
    """A knife that goes into the raft has a blunt tip.

    Why: in a tumbling raft a point goes through the tube, or through somebody.
    Remedy: take it out, and put one in whose tip is blunt: knife with a blunt tip.
    """
    for bag in sight.vessel.grab_bags:
        for item in bag.items:
            said = str(item.what)
            if (
                (does(item, CUTS) or Raft.knife.key in said.lower())
                and _SHARP.search(said)
                and not _BLUNT.search(said)
            ):
                yield of(item, "what", "its point goes through a raft")


_BURNS = re.compile(
    r"\b(?:stoves?|camping gas|gas cartridges?|burners?|candles?|petrol|spirit|lighter fuel|paraffin|barbecue)\b(?! ?-?(?:proof|free))",
    re.IGNORECASE,
)
_THIRSTY = re.compile(
    r"\b(?:salt(?:ed|y)|dried meat|jerky|biltong|stock ?fish|crisps|peanuts|pretzels|bacon|ham|sausages?|crackers with salt|instant soup|stock cubes)\b(?! ?-?free)",
    re.IGNORECASE,
)


@check("grab-bag.burns", LIFE, COMMON_PRACTICE)
def nothing_in_the_bag_burns_the_raft(sight: Sight) -> Finds:
    """No stove, candle or fuel goes into the raft.

    Why: tubes and canopy melt in a second, and nobody puts a flame out there.
    Remedy: take it out of the bag, and off its list.
    """
    for bag in sight.vessel.grab_bags:
        for item in bag.items:
            if isinstance(item.what, str) and _BURNS.search(item.what):
                yield of(item, "what", "it burns what people sit in")


@check("grab-bag.thirsty", HELP, "a maritime survival guide, no protein without a litre a day (secondary)")
def food_in_the_bag_causes_no_thirst(sight: Sight) -> Finds:
    """Food in the grab bag is not salt, nor meat or fish.

    Why: salt and protein take from the body the water that is short.
    Remedy: pack sugar and starch, and write: food that causes no thirst.
    """
    for bag in sight.vessel.grab_bags:
        for item in bag.items:
            if isinstance(item.what, str) and _THIRSTY.search(item.what):
                yield of(item, "what", "it makes thirsty, and water is what runs out first")
