"""Whether there are rafts enough, of the kind that her waters and her crew ask for."""

from __future__ import annotations

from generator.calc.expiry import add_months
from generator.checks.raft.service import LONGEST_SERVICE
from generator.reading.values import Counted, Quantity, Stamp, all_known
from generator.shelves.gear import mentions
from generator.shelves.packs import brings_food, brings_water
from generator.survey.limits import least, months
from generator.survey.registry import (
    COMMON_PRACTICE,
    DEFECT,
    HELP,
    LIFE,
    TRUTH,
    UPKEEP,
    Finds,
    Sight,
    at,
    check,
    of,
)
from generator.vessel.gear import does
from generator.vessel.particulars import FAR, WATERS
from generator.vessel.people import meant_by
from generator.vessel.raft import Raft


@check(
    "raft.overloaded",
    LIFE,
    "46 CFR 28.120 (aggregate capacity for all aboard); " + COMMON_PRACTICE,
    deferrable=False,
)
def no_raft_carries_too_many(sight: Sight) -> Finds:
    """No raft carries more than it is approved for.

    Why: an overloaded raft lies deep, takes water and may capsize.
    Remedy: share the people otherwise between the rafts; a child counts as a person.
    """
    rafts, people = sight.vessel.rafts, sight.vessel.people
    named = [str(who) for raft in rafts for who in set(raft.carries)]
    for raft in rafts:
        # A role named for several rafts without its numbers is told as such, and one of it at least goes into each.
        there = sum(
            1 if named.count(who) > 1 and not isinstance(who, Counted) else meant_by(who, people)
            for who in set(raft.carries)
        )
        if isinstance(raft.persons, int) and there > raft.persons:
            yield of(
                raft,
                "carries",
                f"it is approved for {raft.persons} persons, and {there} are to go into it",
            )


@check(
    "raft.missing",
    LIFE,
    "Offshore Special Regulations 4.20.1 (quoted text), for offshore waters; otherwise common practice",
)
def a_raft_is_aboard(sight: Sight) -> Finds:
    """Offshore there is a liferaft.

    Why: where no ship and no shore is near, the raft is all that is left when she sinks or burns.
    Remedy: describe the raft under 'rafts', or write the waters she really sails; defer it with a reason if she sails without.
    """
    one = sight.vessel.vessel
    if one and one.waters in FAR and not sight.vessel.rafts:
        none = sight.vessel.says_none("rafts")
        what = "'rafts' says that there is none" if none else "no liferaft is described"
        also = (sight.vessel.place("rafts"),) if none else ()
        yield at(one, "waters", f"she sails {one.waters} and {what}", also=also)


@check("raft.capacity", LIFE, "46 CFR 28.120 (aggregate capacity for all aboard)", deferrable=False)
def rafts_hold_everybody(sight: Sight) -> Finds:
    """The rafts together hold everybody aboard.

    Why: whoever has no place in the raft stays in the water.
    Remedy: take fewer persons, or a raft for more.
    """
    one, rafts = sight.vessel.vessel, sight.vessel.rafts
    holds = all_known(raft.persons for raft in rafts)
    if not holds or not one or not isinstance(one.persons, int):
        return
    places = sum(holds)
    if places < one.persons:
        carried = f"the {rafts[0].name} holds" if len(rafts) == 1 else f"the {len(rafts)} rafts together hold"
        yield at(
            one,
            "persons",
            f"{one.persons} persons may be aboard, and {carried} {places}",
            also=tuple(raft.place("persons") for raft in rafts),
        )


@check("raft.old", UPKEEP, "ISO 18079-2 (secondary)")
def an_old_raft_is_tested_every_year(sight: Sight) -> Finds:
    """Of a raft over ten years old a pressure test is told; of one that has been to its station since without one, it is a defect.

    Why: seams and fabric age; from the tenth year on a raft is tested under over-pressure every year.
    Remedy: ask the station for the yearly test, then write its day under 'pressure-test'; and think of a new raft.
    """
    old = months(sight.vessel, "age of a raft")
    for raft in sight.vessel.rafts:
        tested = raft.service and raft.service.pressure_test  # then raft.pressure-test speaks of it
        if not old or tested or not isinstance(raft.made, Stamp):
            continue
        if add_months(raft.made.last_day, old) < sight.as_of and not _older_than_any(sight, raft.made):
            untested = add_months(raft.made.last_day, old + LONGEST_SERVICE) < sight.as_of
            yield of(
                raft,
                "made",
                f"made {raft.made.when}, more than {'thirteen' if untested else 'ten'} years ago, and no pressure test is told",
                weight=DEFECT if untested else None,
            )


@check("raft.older-than-any", TRUTH, "templates/limits/rafts.yaml: age that no raft reaches")
def a_raft_is_no_older_than_rafts_are(sight: Sight) -> Finds:
    """No raft is older than rafts become.

    Why: the day was misread, and its service and tests are counted from it; or nothing in it holds air.
    Remedy: read the day on the raft's own label or in its papers and correct 'made'; if it is right, take another raft.
    """
    for raft in sight.vessel.rafts:
        if isinstance(raft.made, Stamp) and _older_than_any(sight, raft.made):
            years = (months(sight.vessel, "age that no raft reaches") or 0) // 12
            yield of(raft, "made", f"made {raft.made.when}, and no raft lasts {years} years")


def _older_than_any(sight: Sight, made: Stamp) -> bool:
    most = months(sight.vessel, "age that no raft reaches")
    return most is not None and add_months(made.last_day, most) < sight.as_of


@check("raft.climate", LIFE, "ISO 9650-1:2005 groups A and B (secondary)")
def raft_suits_the_cold(sight: Sight) -> Finds:
    """In cold waters the raft keeps the cold out.

    Why: a single floor takes the heat out of people within hours, and a raft tested to 0 degrees may not inflate in frost.
    Remedy: take a group A raft with a double floor for these waters.
    """
    one = sight.vessel.vessel
    if not one or one.climate not in ("cold", "polar"):
        return
    for raft in sight.vessel.rafts:
        if raft.standard in ("ISO 9650-1 type 1 group B", "ISO 9650-1 type 2"):
            yield of(
                raft,
                "standard",
                f"{raft.standard} is made for 0 degrees and above; she sails {one.climate} waters",
            )
        elif raft.floor == "single":
            yield of(raft, "floor", f"it has a single floor; she sails {one.climate} waters")


@check("raft.canopy", LIFE, COMMON_PRACTICE)
def a_raft_keeps_the_weather_out(sight: Sight) -> Finds:
    """In cold waters, and offshore, the raft has a canopy, and everywhere one whose standard asks for it.

    Why: wet and wind kill within hours where nothing is between them and the people.
    Remedy: look at the raft's leaflet; one without a canopy is changed for one that has it.
    """
    one = sight.vessel.vessel
    for raft in sight.vessel.rafts:
        if one and raft.canopy is False and (one.waters in FAR or one.climate in ("cold", "polar")):
            yield of(raft, "canopy", f"it has no canopy; she sails {one.climate} {one.waters} waters")
        elif raft.canopy is False and str(raft.standard).startswith(("ISO 9650-1", "SOLAS")):
            message = f"it has no canopy, and its standard is {raft.standard}, of which every raft has one"
            remedy = "look at the raft's leaflet and label: write canopy: yes, or the standard that is marked on it"
            yield of(raft, "canopy", message, remedy=remedy, also=(raft.place("standard"),))


@check("raft.waters", LIFE, "ISO 9650 type 2: coastal use, moderate conditions (secondary)")
def raft_suits_the_waters(sight: Sight) -> Finds:
    """The raft is made for the waters she sails.

    Why: a coastal raft is made for moderate conditions and early help.
    Remedy: take a type 1 or SOLAS raft offshore, or write the waters she really sails.
    """
    one = sight.vessel.vessel
    for raft in sight.vessel.rafts:
        if one and one.waters in FAR and raft.standard == "ISO 9650-1 type 2":
            yield of(raft, "standard", f"a type 2 raft is made for coastal waters; she sails {one.waters}")


@check("raft.pack", LIFE, "offshore racing grab-bag list: 0.5 l of water a person (secondary)")
def pack_and_grab_bag_bring_water(sight: Sight) -> Finds:
    """Offshore the raft has a pack, and pack or grab bag bring water.

    Why: a pack for under 24 hours holds no water or food.
    Remedy: put half a litre for each person into the grab bag, or have an over-24-hours pack fitted.
    """
    one = sight.vessel.vessel
    if not one or one.waters not in FAR or not isinstance(one.persons, int):
        return
    for raft in sight.vessel.rafts:
        if raft.pack == "none":
            yield of(
                raft, "pack", f"nothing is packed in it, and she sails {one.waters}", remedy=_HAVE_PACKED
            )
        elif raft.pack in WATERS and raft.pack not in FAR:
            message = f"its pack is one for {raft.pack} waters, and she sails {one.waters}"
            yield of(raft, "pack", message, remedy=_HAVE_PACKED)
    items = [
        item for bag in sight.vessel.grab_bags for item in bag.items if mentions(item.what, "drinking water")
    ]
    volumes_l = all_known(item.volume for item in items)
    if volumes_l is None:
        return
    water_l = sum(volumes_l)
    needed_l = least(sight.vessel, "water a person") * one.persons
    for raft in sight.vessel.rafts:
        if raft.pack == "none" or not isinstance(raft.pack, str) or brings_water(raft.pack):
            continue
        if water_l < needed_l:
            yield of(
                raft,
                "pack",
                f"its pack ({raft.pack}) brings no water and the grab bag {water_l:g} l; "
                f"{one.persons} persons need {needed_l:g} l at least",
            )


LONG_D = 7
"""Of how many days a voyage is one on which help may be more than a day away: common practice."""


@check("raft.pack-of-a-day", HELP, "ISO 9650 packs by hours (secondary); common practice")
def the_pack_is_for_as_long_as_help_takes(sight: Sight) -> Finds:
    """On a long voyage on the ocean a raft's pack is not one for a day; water that is told in it is not counted on.

    Why: far out help takes days, and a pack for under 24 hours has neither food nor water; what is written of it is counted on.
    Remedy: have an over-24-hours pack fitted at the next service, and write pack: over 24 h; if the station packed water beside it, defer this and say so.
    """
    one, voyage = sight.vessel.vessel, sight.vessel.voyage
    days = None
    if voyage is not None and isinstance(voyage.departs, Stamp) and isinstance(voyage.until, Stamp):
        days = (voyage.until.last_day - voyage.departs.first_day).days
    for raft in sight.vessel.rafts:
        if (
            one is None
            or not isinstance(raft.pack, str)
            or raft.pack == "none"
            or raft.pack in WATERS
            or brings_water(raft.pack)
            or brings_food(raft.pack)
        ):
            continue
        told = isinstance(raft.pack_water, Quantity) and raft.pack_water > 0
        far = one.waters == "ocean" and days is not None and days > LONG_D
        if far:
            long = f", on a voyage of {days} days" if days is not None and days > 1 else ""
            water = f"; {raft.pack_water} of water is told in it, and such packs hold none" if told else ""
            yield of(
                raft,
                "pack",
                f"its pack is one for a day ({raft.pack}), and she sails {one.waters}{long}{water}",
                also=(raft.place("pack-water"),) if told else (),
            )


@check("raft.nothing-to-drink", HELP, COMMON_PRACTICE)
def something_to_drink_goes_into_the_raft(sight: Sight) -> Finds:
    """Away from sheltered waters something to drink goes into the raft, in its pack or in the bag.

    Why: one night in a raft, seasick and in the sun, and whoever has had nothing to drink does not climb a ladder any more.
    Remedy: put half a litre for each person into the bag, and list it: - {what: water, quantity: 6, volume: 3 l}.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    if one is None or one.waters in (None, "sheltered", *FAR) or not vessel.rafts or not vessel.grab_bags:
        return  # far out raft.pack asks how much
    dry = all(
        (isinstance(raft.pack_water, Quantity) and not raft.pack_water > 0)
        or (raft.pack_water is None and not brings_water(raft.pack))
        for raft in vessel.rafts
    )
    things = (item for bag in vessel.grab_bags for item in bag.items)
    if dry and not any(does(item, "drinking water") for item in things):
        raft = vessel.rafts[0]
        yield of(
            raft,
            "pack-water",
            "neither pack nor bag has anything to drink",
            also=(vessel.grab_bags[0].place("items"),),
        )


_HAVE_PACKED = "have an over-24-hours pack fitted at the next service, and write pack: over 24 h; if another is inside, write that"


@check("raft.launch-order", TRUTH, COMMON_PRACTICE)
def rafts_have_an_order(sight: Sight) -> Finds:
    """No two rafts are launched in the same place of the order, and none in a place beyond the last.

    Why: two crews at the same gate hinder each other, or one waits for a raft that there is not.
    Remedy: number them 1, 2 and so on under 'first-to-launch'.
    """
    seen: dict[int, Raft] = {}
    for raft in sight.vessel.rafts:
        number = raft.first_to_launch
        if isinstance(number, int) and number in seen:
            yield at(
                raft,
                "first-to-launch",
                f"{raft.name} and {seen[number].name} are both launched as number {number}",
                item=str(raft.name),
                also=(seen[number].place("first-to-launch"),),
            )
        elif isinstance(number, int) and number > len(sight.vessel.rafts):
            yield of(
                raft,
                "first-to-launch",
                f"it is launched as number {number}, and {len(sight.vessel.rafts)} raft{'s are' if sight.vessel.rafts[1:] else ' is'} described",
            )
        elif isinstance(number, int):
            seen[number] = raft
