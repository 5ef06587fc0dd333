"""Whether people were made ready: shown round, drilled, and whether the card hangs where the raft is."""

from __future__ import annotations

from generator.checks.people import roles_of
from generator.reading.nearest import nearest
from generator.reading.values import Stamp
from generator.survey.registry import COMMON_PRACTICE, RECOMMENDATION, Found, at, check

DRILLED = ("abandon-ship", "fire", "man-overboard")


@check("voyage.not-briefed", RECOMMENDATION, "46 CFR 26.03-1 (before getting under way)")
def everybody_was_shown_round(sight):
    """Once she has left, everybody on the voyage has been shown round and briefed.

    Why: a guest who never put a lifejacket on does not find its buckle in the water.
    Remedy: show them round by the first page, then write the day under 'briefed'.
    """
    voyage = sight.vessel.voyage
    if (
        not voyage
        or not isinstance(voyage.departs, Stamp)
        or voyage.departs.last_day > sight.as_of
        or not isinstance(voyage.until, Stamp)
    ):
        return
    if voyage.until.last_day >= sight.as_of and not voyage.briefed:
        yield at(voyage, "departs", f"she left on {voyage.departs}, and nothing says that they were briefed")


@check(
    "drills.missing",
    RECOMMENDATION,
    "46 CFR 28.270; 46 CFR 199.180 (fire and abandon-ship drills); common practice for man overboard",
)
def working_boats_drill(sight):
    """A boat that works or is let has drilled abandon ship, fire and man overboard.

    Why: what was never done by daylight is not done in the dark.
    Remedy: hold the drill, then write it under 'drills' with its day.
    """
    vessel, one = sight.vessel, sight.vessel.vessel
    held = {drill.emergency for drill in vessel.drills}
    lacking = [each for each in DRILLED if each not in held and (each != "abandon-ship" or vessel.rafts)]
    if one and one.use == "commercial" and lacking:
        place = vessel.key_place("drills") if vessel.drills else one.place("use")
        yield Found(place, f"no drill is written for: {', '.join(lacking)}", item=", ".join(lacking))


@check("drills.incomplete", RECOMMENDATION, "SOLAS III/19.5 (what a record of drills holds, secondary)")
def a_drill_says_who_led_it_and_who_took_part(sight):
    """On a boat that works, a drill says who led it; whoever took part has a role aboard.

    Why: a record without names does not show who still has to be drilled.
    Remedy: write 'led-by', and 'took-part' with roles of 'people'.
    """
    vessel, roles = sight.vessel, roles_of(sight.vessel)
    for drill in vessel.drills:
        if vessel.vessel and vessel.vessel.use == "commercial" and drill.led_by is None:
            yield at(
                drill,
                "emergency",
                f"the drill '{drill.emergency}' does not say who led it",
                item=str(drill.emergency),
            )
        for who in drill.took_part:
            if who not in roles and who != "all":
                yield at(
                    drill,
                    "took-part",
                    f"the drill '{drill.emergency}' names '{who}', which is no role aboard",
                    remedy=nearest(who, roles),
                    item=str(drill.emergency),
                )


@check("people.child-lifejacket", RECOMMENDATION, "33 CFR 175.15(c)")
def a_child_of_the_crew_list_has_its_size(sight):
    """Where a role is that of a child or an infant, there is a lifejacket of that size.

    Why: a child slips out of an adult's jacket.
    Remedy: bring one aboard and list it under 'lifejackets' with its size.
    """
    jackets = sight.vessel.lifejackets
    for size in ("child", "infant"):
        small = [person for person in sight.vessel.people if size in str(person.role).lower().split()]
        there = sum(each.quantity for each in jackets if each.size == size and isinstance(each.quantity, int))
        if small and jackets and len(small) > there:
            yield at(
                small[there],
                "role",
                f"{len(small)} with the role of {'an' if size == 'infant' else 'a'} {size}, and {there} lifejackets of "
                "that size",
                item=str(small[there].role),
            )


@check("people.suits", RECOMMENDATION, COMMON_PRACTICE)
def suits_are_enough_for_all(sight):
    """Where immersion suits are carried there is one for everybody.

    Why: in cold water whoever has none is lost before the others.
    Remedy: bring as many as persons may be aboard, or plan who gets what.
    """
    one = sight.vessel.vessel
    suits = [
        item
        for item in sight.vessel.gear
        if str(item.what).lower().startswith("immersion suits") and isinstance(item.quantity, int)
    ]
    there = sum(item.quantity for item in suits)
    if one and isinstance(one.persons, int) and suits and there < one.persons:
        yield at(
            suits[0],
            "quantity",
            f"{there} immersion suits for {one.persons} persons",
            item=str(suits[0].what),
            also=(one.place("persons"),),
        )


@check(
    "posted.raft-card-missing",
    RECOMMENDATION,
    "LSA Code and SOLAS III/9 (instructions at survival craft, secondary)",
)
def a_card_hangs_at_the_raft(sight):
    """Where posted cards are recorded, one hangs at the raft.

    Why: at the raft nobody has the book in hand.
    Remedy: hang the card 'at the raft', then record it under 'posted'.
    """
    vessel = sight.vessel
    if (
        vessel.posted
        and vessel.rafts
        and not any("raft" in str(card.station).lower() for card in vessel.posted)
    ):
        yield Found(vessel.key_place("posted"), "no card is recorded as hanging at the raft")
