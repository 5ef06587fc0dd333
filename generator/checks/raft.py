"""Rafts: enough of them, rightly kept, within reach, in date. What frees them is in release.py."""

from __future__ import annotations

import re

from generator.calc.expiry import add_months
from generator.calc.lifting import team_capability_kg
from generator.calc.release import painter_least_m
from generator.checks.passed import passed
from generator.reading.values import Quantity, Stamp
from generator.shelves.limits import limits
from generator.survey.registry import COMMON_PRACTICE, DEFECT, NOTE, RECOMMENDATION, at, check

FAR = ("offshore", "ocean")
THROWN_BY_HAND_KG = 185.0
LIFTED_WITHOUT_AID_KG = 90.7


@check(
    "raft.missing",
    DEFECT,
    "Offshore Special Regulations 4.20.1 (quoted text), for offshore waters; otherwise common practice",
)
def a_raft_is_aboard(sight):
    """Offshore there is a liferaft.

    Why: where no ship and no shore is near, the raft is all that is left when she sinks or burns.
    Remedy: describe the raft under 'rafts', or write the waters she really sails; defer it with a reason if she sails without.
    """
    one = sight.vessel.vessel
    if one and one.waters in FAR and not sight.vessel.known("rafts"):
        yield at(one, "waters", f"she sails {one.waters} and no liferaft is described")


@check("raft.capacity", DEFECT, "46 CFR 28.120 (aggregate capacity for all aboard)", deferrable=False)
def rafts_hold_everybody(sight):
    """The rafts together hold everybody aboard.

    Why: whoever has no place in the raft stays in the water.
    Remedy: take fewer persons, or a raft for more.
    """
    one, rafts = sight.vessel.vessel, sight.vessel.rafts
    if (
        not rafts
        or not one
        or not isinstance(one.persons, int)
        or any(not isinstance(raft.persons, int) for raft in rafts)
    ):
        return
    places = sum(raft.persons for raft in rafts)
    if places < one.persons:
        carried = f"the {rafts[0].name} holds" if len(rafts) == 1 else f"the {len(rafts)} rafts together hold"
        yield at(
            one,
            "persons",
            f"{one.persons} persons may be aboard, and {carried} {places}",
            also=tuple(raft.place("persons") for raft in rafts),
        )


@check("raft.service-due", DEFECT, "46 CFR 28.140; SOLAS III/20.8 and the maker's interval for others")
def raft_service_is_in_date(sight):
    """The raft's service is in date for the whole passage.

    Why: a leaking tube or an empty cylinder shows only at the service station or when the raft is needed.
    Remedy: have it serviced, then write the new dates under 'service'.
    """
    yield from passed(sight, "raft.service-due")


@check("raft.contents-expired", DEFECT, "MSC.388(94), dated contents of liferafts")
def raft_contents_are_in_date(sight):
    """What is packed in the raft is in date for the whole passage.

    Why: flares, water and tablets inside cannot be looked at or changed aboard.
    Remedy: have the station renew them, then write the new 'contents-expire'.
    """
    yield from passed(sight, "raft.contents-expired")


@check("raft.contents-before-service", RECOMMENDATION, "MSC.388(94), dated contents of liferafts")
def raft_contents_outlive_the_next_service(sight):
    """What is packed in the raft outlives the next service.

    Why: the station should have renewed what runs out before the raft is opened again; the raft must go back early.
    Remedy: bring the next service forward to that date, or ask the station what it packed.
    """
    for raft in sight.vessel.rafts:
        service = raft.service
        if (
            service
            and service.known("contents_expire", "next")
            and sight.until <= service.contents_expire.last_day < service.next.first_day
        ):
            yield at(
                service,
                "contents-expire",
                f"{raft.name}: what is packed in it runs out {service.contents_expire.when}, "
                f"before the next service {service.next.when}",
                item=str(raft.name),
            )


@check(
    "raft.cylinder-test",
    RECOMMENDATION,
    "IMO servicing conditions for inflatable liferafts: gas inflation every five years",
)
def raft_cylinder_is_tested(sight):
    """The test of the raft's cylinder is in date.

    Why: a corroded cylinder bursts or is empty.
    Remedy: have it tested at the next service, then write the new 'cylinder-test'.
    """
    yield from passed(sight, "raft.cylinder-test")


@check(
    "raft.service-interval",
    RECOMMENDATION,
    "SOLAS III/20.8 (12 months, 17 if impracticable); Offshore Special Regulations "
    "4.20.4 (quoted text: ISO raft three years, hired valise one)",
)
def raft_service_interval_is_usual(sight):
    """The time between two services is no longer than usual for this raft.

    Why: an interval that was stretched, or a mistyped year, looks like a raft in date.
    Remedy: look at the certificate; if the maker or the flag state allows the longer time, defer this and say so.
    """
    for raft in sight.vessel.rafts:
        service = raft.service
        if not service or not service.known("last", "next") or not raft.standard:
            continue
        row = min(
            limits("service", sight.vessel, raft), key=lambda each: each.figures["months"], default=None
        )
        if row and service.next.first_day > add_months(service.last.last_day, int(row.figures["months"])):
            yield at(
                service,
                "next",
                f"{raft.name}: from {service.last} to {service.next} is more than "
                f"{row.figures['months']:g} months ({row.source}; {row.standing})",
                item=str(raft.name),
            )


@check("raft.old", NOTE, "ISO 18079-2 (secondary)")
def an_old_raft_is_tested_every_year(sight):
    """A raft over ten years old is noted.

    Why: seams and fabric age; from the tenth year on a raft is tested under over-pressure every year.
    Remedy: ask the station for the yearly test, then write its day under 'pressure-test'; and think of a new raft.
    """
    for raft in sight.vessel.rafts:
        tested = raft.service and raft.service.pressure_test  # then raft.pressure-test speaks of it
        if isinstance(raft.made, Stamp) and not tested and add_months(raft.made.last_day, 120) < sight.as_of:
            yield at(
                raft,
                "made",
                f"{raft.name}: made {raft.made.when}, more than ten years ago",
                item=str(raft.name),
            )


@check(
    "raft.stowage-height",
    DEFECT,
    "ISO 9650-1:2022 scope (6 m); C.R.C. c. 1436 Sch. VIII s. 1(2) (18 m, read in the 2006-2023 "
    "text); ISO 9650 type 2 (4 m, secondary: a recommendation)",
)
def raft_lies_no_higher_than_it_may_drop(sight):
    """The raft lies no higher than it may be dropped from.

    Why: dropped from higher the container or what is in it breaks, and the raft does not inflate.
    Remedy: stow it lower, or take a raft made for that height; measure again if the figure is wrong.
    """
    for raft in sight.vessel.rafts:
        row = min(
            limits("highest-stowage", sight.vessel, raft), key=lambda each: each.figures["most"], default=None
        )
        if row and isinstance(raft.height, Quantity) and raft.height > row.figures["most"]:
            yield at(
                raft,
                "height",
                f"{raft.name}: it lies {raft.height} above the water; a raft of its standard may drop "
                f"{row.figures['most']:g} m at most ({row.source}; {row.standing})",
                item=str(raft.name),
                weight=None if row.read else RECOMMENDATION,
            )


@check(
    "raft.painter-reach",
    RECOMMENDATION,
    "C.R.C. c. 1436 Sch. VIII s. 4(1)(b) (read in the 2006-2023 text): twice the height; "
    "15 m at least for SOLAS rafts",
)
def painter_reaches_the_water(sight):
    """The painter is long enough for the height the raft lies at.

    Why: with a painter too short the raft hangs at the side, or fires against the hull.
    Remedy: have the station fit a longer painter; look at the label again if the figure is wrong.
    """
    for raft in sight.vessel.rafts:
        length_m = raft.painter.length if raft.painter else None
        if not isinstance(length_m, Quantity) or not isinstance(raft.height, Quantity):
            continue
        needs = [(_painter_m(row, raft.height), row) for row in limits("painter-least", sight.vessel, raft)]
        needed_m, row = max(needs, key=lambda each: each[0], default=(0.0, None))
        if length_m < needed_m:
            short = length_m <= raft.height
            reach = (
                "does not reach the water"
                if short
                else f"should be {needed_m:g} m at least ({row.source}; {row.standing})"
            )
            yield at(
                raft.painter,
                "length",
                f"{raft.name}: the painter of {length_m} {reach}; the raft lies {raft.height} high",
                item=str(raft.name),
                weight=DEFECT if short else None,
            )


def _painter_m(row, height_m):
    """What a row asks of a painter at a mount's height, in metres."""
    asked = row.figures
    return painter_least_m(
        float(height_m),
        asked.get("least", 0.0),
        asked.get("times-height", 0.0),
        asked.get("plus-height", 0.0),
    )


_RAIL = re.compile(
    r"\b(rails?|guard-?rails?|guard-?wires?|pushpit|pulpit|stanchions?|lifelines?|toerail)\b", re.IGNORECASE
)


@check("raft.strong-point-rail", DEFECT, COMMON_PRACTICE)
def painter_is_fast_to_the_hull(sight):
    """The painter is fast to a strong point of the hull, not to a rail.

    Why: rails and guardwires tear out when the inflated raft snatches in a sea, and the raft is gone.
    Remedy: make it fast to a through-bolted eye, a cleat or a chainplate, and write where that is.
    """
    for raft in sight.vessel.rafts:
        if isinstance(raft.strong_point, str) and (match := _RAIL.search(raft.strong_point)):
            yield at(
                raft,
                "strong-point",
                f"{raft.name}: the strong point '{raft.strong_point}' names a {match[0].lower()}, "
                "which is no part of the hull",
                item=str(raft.name),
            )
        if raft.painter and raft.painter.fast_to == "rail":
            yield at(
                raft.painter, "fast-to", f"{raft.name}: the painter is fast to a rail", item=str(raft.name)
            )


@check(
    "raft.painter-loose",
    DEFECT,
    "CHIRP Maritime, liferaft painters not secured to the ship",
    deferrable=False,
)
def painter_is_made_fast(sight):
    """The painter is made fast.

    Why: a raft whose painter is fast to nothing does not inflate and drifts away; it is often forgotten after a service.
    Remedy: make it fast as the maker shows, then write what it is fast to; a valise may stand unfastened till it is launched.
    """
    for raft in sight.vessel.rafts:
        if raft.painter and raft.painter.fast_to == "nothing" and raft.container != "valise":
            yield at(
                raft.painter, "fast-to", f"{raft.name}: the painter is fast to nothing", item=str(raft.name)
            )


@check(
    "raft.painter-unchecked",
    RECOMMENDATION,
    "CHIRP Maritime, liferaft painters not secured to the ship; Nautical Institute MARS 200037",
)
def rig_is_checked_after_service(sight):
    """Painter and joints were looked at after the raft came back from service.

    Why: rafts come back with the painter on the wrong eye, or on none.
    Remedy: look at painter, weak link and strong point, then write the day under 'checked'.
    """
    for raft in sight.vessel.rafts:
        if (
            raft.painter
            and raft.service
            and raft.container == "canister"
            and isinstance(raft.service.last, Stamp)
            and (raft.painter.checked is None or isinstance(raft.painter.checked, Stamp))
            and not (raft.painter.checked and raft.painter.checked.last_day >= raft.service.last.first_day)
        ):
            seen = (
                f"was last looked at {raft.painter.checked.when}"
                if raft.painter.checked
                else "was not looked at since, as far as is written"
            )
            yield at(
                raft.painter,
                "checked",
                f"{raft.name}: it came back from service {raft.service.last.when}, and its painter {seen}",
                item=str(raft.name),
            )


@check("raft.climate", RECOMMENDATION, "ISO 9650-1:2005 groups A and B (secondary)")
def raft_suits_the_cold(sight):
    """In cold waters the raft keeps the cold out.

    Why: a single floor takes the heat out of people within hours, and a raft tested to 0 degrees may not inflate in frost.
    Remedy: take a group A raft with a double floor for these waters.
    """
    one = sight.vessel.vessel
    if not one or one.climate not in ("cold", "polar"):
        return
    for raft in sight.vessel.rafts:
        if raft.standard in ("ISO 9650-1 type 1 group B", "ISO 9650-1 type 2"):
            yield at(
                raft,
                "standard",
                f"{raft.name}: {raft.standard} is made for 0 degrees and above; she sails {one.climate} waters",
                item=str(raft.name),
            )
        elif raft.floor == "single":
            yield at(
                raft,
                "floor",
                f"{raft.name}: it has a single floor; she sails {one.climate} waters",
                item=str(raft.name),
            )


@check("raft.waters", RECOMMENDATION, "ISO 9650 type 2: coastal use, moderate conditions (secondary)")
def raft_suits_the_waters(sight):
    """The raft is made for the waters she sails.

    Why: a coastal raft is made for moderate conditions and early help.
    Remedy: take a type 1 or SOLAS raft offshore, or write the waters she really sails.
    """
    one = sight.vessel.vessel
    for raft in sight.vessel.rafts if one and one.waters in FAR else ():
        if raft.standard == "ISO 9650-1 type 2":
            yield at(
                raft,
                "standard",
                f"{raft.name}: a type 2 raft is made for coastal waters; she sails {one.waters}",
                item=str(raft.name),
            )


@check("raft.pack", RECOMMENDATION, "offshore racing grab-bag list: 0.5 l of water a person (secondary)")
def pack_and_grab_bag_bring_water(sight):
    """Offshore, the raft's pack or the grab bag brings water.

    Why: a pack for under 24 hours holds no water or food.
    Remedy: put half a litre for each person into the grab bag, or have an over-24-hours pack fitted.
    """
    one = sight.vessel.vessel
    if not one or one.waters not in FAR or not isinstance(one.persons, int):
        return
    items = [
        item
        for bag in sight.vessel.grab_bags
        for item in bag.items
        if item.what and "water" in str(item.what).lower().split()
    ]
    if any(not isinstance(item.volume, Quantity) for item in items):
        return
    water_l = sum(item.volume for item in items)
    for raft in sight.vessel.rafts:
        if raft.pack in ("under 24 h", "coastal", "none", "SOLAS B") and water_l < 0.5 * one.persons:
            yield at(
                raft,
                "pack",
                f"{raft.name}: its pack ({raft.pack}) brings no water and the grab bag {water_l:g} l; "
                f"{one.persons} persons need {0.5 * one.persons:g} l at least",
                item=str(raft.name),
            )


@check(
    "raft.lift",
    RECOMMENDATION,
    "46 CFR 180.130(c) (90.7 kg and a lift); team lifting at two thirds for two, half for more (secondary)",
)
def launch_crew_can_lift_the_raft(sight):
    """Those told off to launch the raft can lift it.

    Why: a raft that two people cannot lift over the rail stays aboard.
    Remedy: stow it where it slides or drops, or give the launch more hands.
    """
    assigned = (sight.vessel.station_bill.get("abandon-ship") or {}).get("launch")
    people = {person.role: person.lifts for person in sight.vessel.people if person.role}
    for raft in sight.vessel.rafts:
        if raft.lift_needed is not True or not isinstance(raft.mass, Quantity):
            continue
        if raft.mass > LIFTED_WITHOUT_AID_KG and raft.stowage != "davit":
            yield at(
                raft,
                "mass",
                f"{raft.name}: it weighs {raft.mass} and must be lifted; over 90.7 kg that takes a launching aid",
                item=str(raft.name),
            )
            continue
        lifts = [people.get(who) for who in assigned.who] if assigned else []
        if lifts and all(isinstance(each, Quantity) for each in lifts):
            team_kg = team_capability_kg([float(each) for each in lifts[:4]])
            if raft.mass > team_kg:
                told = (
                    f"{' and '.join(assigned.who)} together lift"
                    if len(lifts) > 1
                    else f"{assigned.who[0]} alone lifts"
                )
                yield at(
                    raft,
                    "mass",
                    f"{raft.name}: it weighs {raft.mass} and must be lifted; {told} about {team_kg:.0f} kg",
                    item=str(raft.name),
                    also=(assigned.place("who"),),
                )


@check("raft.too-heavy", RECOMMENDATION, "C.R.C. c. 1436 Sch. VIII s. 3 (read in the 2006-2023 text)")
def raft_can_be_thrown_over(sight):
    """A raft over 185 kg has a launching device.

    Why: it cannot be thrown over by hand.
    Remedy: describe it as stowed in a davit if it is, or share the persons between lighter rafts.
    """
    for raft in sight.vessel.rafts:
        if isinstance(raft.mass, Quantity) and raft.mass > THROWN_BY_HAND_KG and raft.stowage != "davit":
            yield at(
                raft,
                "mass",
                f"{raft.name}: it weighs {raft.mass}, more than the 185 kg that go over the side by hand",
                item=str(raft.name),
            )


@check("raft.below-deck", RECOMMENDATION, "a sailing magazine on raft stowage (secondary)")
def raft_is_on_deck(sight):
    """The raft is not kept below deck.

    Why: fire, smoke or water below leave it below; carrying it up takes the strongest people out of everything else.
    Remedy: give it a place on deck or in a locker that opens to the cockpit.
    """
    for raft in sight.vessel.rafts:
        if raft.stowage == "below deck":
            yield at(raft, "stowage", f"{raft.name}: it is kept below deck", item=str(raft.name))


@check("raft.valise-exposed", RECOMMENDATION, "Offshore Special Regulations 4.20.3 (2008 text, secondary)")
def valise_is_kept_dry(sight):
    """A valise is kept in a locker, not on deck.

    Why: its fabric lets spray and sun at the raft and the cylinder.
    Remedy: keep it in a rigid compartment that holds nothing else, or have the raft packed in a canister.
    """
    for raft in sight.vessel.rafts:
        if raft.container == "valise" and raft.stowage in (
            "deck cradle",
            "coachroof cradle",
            "pushpit bracket",
        ):
            yield at(
                raft, "stowage", f"{raft.name}: a valise lies open in a {raft.stowage}", item=str(raft.name)
            )


@check("raft.righting-gear", RECOMMENDATION, "C.R.C. c. 1436 Sch. VIII s. 14(2) (read in the 2006-2023 text)")
def one_person_can_right_the_raft(sight):
    """The raft can be turned upright by one person.

    Why: rafts inflate upside down, and the first one there is alone.
    Remedy: look at the raft's leaflet; most have straps across the bottom. If it has none, ask the station.
    """
    for raft in sight.vessel.rafts:
        if raft.righting == "none":
            yield at(
                raft, "righting", f"{raft.name}: nothing on it helps to turn it upright", item=str(raft.name)
            )


@check("raft.boarding-gear", RECOMMENDATION, "C.R.C. c. 1436 Sch. VIII s. 13 (read in the 2006-2023 text)")
def somebody_in_the_water_can_climb_in(sight):
    """Somebody in the water can climb into the raft.

    Why: in wet clothes nobody pulls himself over a tube by his arms.
    Remedy: look at the raft's leaflet for ramp or ladder; if it has none, plan who pulls the others in.
    """
    for raft in sight.vessel.rafts:
        if raft.boarding == "none":
            yield at(raft, "boarding", f"{raft.name}: it has neither ramp nor ladder", item=str(raft.name))
        elif raft.boarding is None:
            yield at(
                raft,
                "name",
                f"{raft.name}: 'boarding' does not say what helps somebody in the water to climb in",
                item=str(raft.name),
            )


@check("raft.launch-order", DEFECT, COMMON_PRACTICE)
def rafts_have_an_order(sight):
    """No two rafts are launched in the same place of the order.

    Why: two crews at the same gate hinder each other.
    Remedy: number them 1, 2 and so on under 'first-to-launch'.
    """
    seen = {}
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
        elif isinstance(number, int):
            seen[number] = raft
