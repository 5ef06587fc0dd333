"""People: roles, helpers, lifejackets, and those aboard on a voyage."""

from __future__ import annotations

from generator.checks.passed import deadlines, good
from generator.reading.values import Stamp
from generator.survey.registry import COMMON_PRACTICE, DEFECT, NOTE, RECOMMENDATION, Found, at, check


def roles_of(vessel) -> list[str]:
    """The roles aboard, in the order of the file."""
    return [str(person.role) for person in vessel.people if person.role]


@check("people.same-role", DEFECT, COMMON_PRACTICE)
def every_role_is_one_person(sight):
    """No two people have the same role.

    Why: the station bill gives duties to roles; with two of one name each thinks the other does it.
    Remedy: number them: guest 1, guest 2.
    """
    seen = {}
    for person in sight.vessel.people:
        role = person.role.lower() if isinstance(person.role, str) else None
        if role in seen:
            yield at(
                person,
                "role",
                f"two people have the role '{person.role}'",
                item=str(person.role),
                also=(seen[role].place("role"),),
            )
        elif role:
            seen[role] = person


@check("people.too-many", DEFECT, COMMON_PRACTICE)
def no_more_roles_than_persons(sight):
    """No more roles are listed than persons may be aboard.

    Why: raft, lifejackets and water are counted for the most persons; a role more is a person without a place.
    Remedy: correct 'persons', or take out the role that is never aboard together with the others.
    """
    one, people = sight.vessel.vessel, sight.vessel.people
    if one and isinstance(one.persons, int) and len(people) > one.persons:
        yield at(
            people[one.persons],
            "role",
            f"{len(people)} roles are listed, and {one.persons} persons at most are aboard",
            also=(one.place("persons"),),
        )


@check("people.helper", DEFECT, "SOLAS III/8 and MGN 71 Amendment 1 (duties towards those who need help)")
def whoever_needs_help_has_a_helper(sight):
    """Whoever needs help has a helper with a name on the bill.

    Why: in the dark everybody thinks that somebody else has gone for that person.
    Remedy: write under 'helper' the role that comes for this person, never that person's own.
    """
    roles = roles_of(sight.vessel)
    travellers = sight.vessel.voyage.persons if sight.vessel.voyage else ()
    for person in (*sight.vessel.people, *travellers):
        who = str(person.role or "somebody aboard")
        if person.needs_help is None and person.helper:
            yield at(
                person,
                "helper",
                f"{who}: a helper is named, and 'needs-help' does not say for what",
                item=who,
                weight=RECOMMENDATION,
            )
        if person.helper is None and person.needs_help:
            yield at(person, "needs-help", f"{who}: needs help, and no helper is named", item=who)
        elif isinstance(person.helper, str) and person.helper == person.role:
            yield at(person, "helper", f"{who}: is named as the own helper", item=who)
        elif isinstance(person.helper, str) and person.helper not in roles:
            yield at(
                person,
                "helper",
                f"{who}: the helper '{person.helper}' is no role aboard; there are: {', '.join(roles)}",
                item=who,
            )


@check(
    "people.second-in-command",
    RECOMMENDATION,
    "MGN 280 Annex 7 (a second person briefed); SOLAS III/37 (substitutes for key persons)",
)
def somebody_can_take_over(sight):
    """Somebody besides the skipper can take command.

    Why: the skipper may be the one who is overboard or hurt.
    Remedy: brief a second person, then write command among that role's abilities.
    """
    people = sight.vessel.people
    told = [person for person in people if person.abilities]
    if len(people) > 1 and told and sum("command" in person.abilities for person in told) < 2:
        yield Found(sight.vessel.key_place("people"), "fewer than two of the people aboard can take command")


@check("people.lifejackets", DEFECT, "33 CFR 175.15", deferrable=False)
def everybody_has_a_lifejacket(sight):
    """There is a lifejacket for everybody aboard.

    Why: whoever has none is the one who goes overboard.
    Remedy: bring more lifejackets aboard, or take fewer persons.
    """
    one, jackets = sight.vessel.vessel, sight.vessel.lifejackets
    counts = [each.quantity for each in jackets]
    if (
        not one
        or not isinstance(one.persons, int)
        or not jackets
        or not all(isinstance(count, int) for count in counts)
    ):
        return
    if sum(counts) < one.persons:
        yield at(
            jackets[0],
            "quantity",
            f"{sum(counts)} lifejackets for {one.persons} persons",
            also=(one.place("persons"),),
        )


@check("people.lifejacket-fittings", RECOMMENDATION, "Offshore Special Regulations 5.01 (secondary)")
def lifejackets_stay_on_and_are_seen(sight):
    """Lifejackets have crotch straps and lights.

    Why: without a crotch strap the jacket rides up over the head; without a light nobody is found at night.
    Remedy: fit them, then write yes.
    """
    for each in sight.vessel.lifejackets:
        for key, what in (("crotch-straps", "crotch straps"), ("lights", "lights")):
            if getattr(each, key.replace("-", "_")) is False:
                yield at(
                    each, key, f"the {each.size} lifejackets have no {what}", item=f"{each.size} lifejackets"
                )


@check("voyage.too-many", DEFECT, "46 CFR 28.120 (aggregate capacity for all aboard)", deferrable=False)
def no_more_travel_than_fit(sight):
    """No more people travel than may be aboard and the rafts hold.

    Why: raft, lifejackets and water are counted for the most persons.
    Remedy: leave somebody ashore, or describe what was added for them.
    """
    voyage, one, rafts = sight.vessel.voyage, sight.vessel.vessel, sight.vessel.rafts
    if not voyage or not one:
        return
    limits = [(one.persons, "may be aboard")] if isinstance(one.persons, int) else []
    if rafts and all(isinstance(raft.persons, int) for raft in rafts):
        limits.append((sum(raft.persons for raft in rafts), "have a place in a raft"))
    for most, what in limits:
        if len(voyage.persons) > most:
            yield Found(
                voyage.key_place("persons"), f"{len(voyage.persons)} people travel, and {most} {what}"
            )
            return


@check("voyage.unknown-role", DEFECT, COMMON_PRACTICE)
def travellers_have_roles_of_the_bill(sight):
    """Everybody on the voyage has one of the roles of the vessel's file, and each role one person.

    Why: duties hang on roles; whoever has another role has no duty and no substitute.
    Remedy: write one of the roles under 'people' in vessel.yaml, or add the role there.
    """
    roles, taken = roles_of(sight.vessel), {}
    for traveller in sight.vessel.voyage.persons if sight.vessel.voyage else ():
        role = traveller.role
        if isinstance(role, str) and role not in roles:
            yield at(
                traveller, "role", f"'{role}' is no role aboard; there are: {', '.join(roles)}", item=role
            )
        elif isinstance(role, str) and role in taken:
            yield at(
                traveller, "role", f"two travel as '{role}'", item=role, also=(taken[role].place("role"),)
            )
        elif isinstance(role, str):
            taken[role] = traveller


@check("voyage.overstays", DEFECT, COMMON_PRACTICE)
def everything_lasts_the_voyage(sight):
    """Nothing runs out before the voyage ends.

    Why: what runs out under way cannot be renewed.
    Remedy: renew it before she leaves, or end the voyage earlier.
    """
    voyage = sight.vessel.voyage
    if not voyage or not isinstance(voyage.until, Stamp):
        return
    for each in deadlines(sight.vessel):
        if each.firm and sight.until <= each.last_day < voyage.until.last_day:
            yield Found(
                each.place,
                f"{good(each, sight)}; the voyage lasts until {voyage.until}",
                item=each.item,
                also=(voyage.place("until"),),
            )


@check("voyage.over", NOTE, COMMON_PRACTICE)
def the_voyage_is_not_over(sight):
    """The voyage described is not over.

    Why: names, helpers and the hour of alarm are those of people who went ashore.
    Remedy: write the next voyage, or take voyage.yaml away.
    """
    voyage = sight.vessel.voyage
    if voyage and isinstance(voyage.until, Stamp) and voyage.until.last_day < sight.as_of:
        yield at(voyage, "until", f"the voyage was over on {voyage.until}")


@check("voyage.children", DEFECT, "33 CFR 175.15(c)", deferrable=False)
def children_have_their_size(sight):
    """There is a child's lifejacket for every child on the voyage.

    Why: a child slips out of an adult's jacket.
    Remedy: bring lifejackets of the child's size aboard.
    """
    voyage, jackets = sight.vessel.voyage, sight.vessel.lifejackets
    counts = [each.quantity for each in jackets if each.size in ("child", "infant")]
    if not voyage or not all(isinstance(count, int) for count in counts):
        return
    children = sum(isinstance(each.age, int) and each.age < 13 for each in voyage.persons)
    if children > sum(counts):
        yield Found(
            voyage.key_place("persons"),
            f"children under 13 on the voyage: {children}; lifejackets of their size: {sum(counts)}",
        )
