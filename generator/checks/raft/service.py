"""What the service station wrote, and until when the raft and what is packed in it are good."""

from __future__ import annotations

import re

from generator.calc.expiry import add_months
from generator.reading.values import Stamp, known
from generator.survey.limits import months, strictest
from generator.survey.passed import overdue, passed
from generator.survey.registry import ADVICE, COMMON_PRACTICE, DEFECT, LIFE, UPKEEP, Finds, Sight, check, of
from generator.vessel.raft import Raft, Service


@check(
    "raft.pressure-test",
    UPKEEP,
    "IMO servicing conditions for inflatable liferafts: over-pressure every year after the tenth",
)
def an_old_raft_had_its_pressure_test(sight: Sight) -> Finds:
    """The yearly pressure test of a raft over ten years old is not itself over a year old; it was done since the raft was last due at its station.

    Why: seams and fabric age; from the tenth year on only this test shows whether they hold.
    Remedy: have it tested, then write the new day under 'pressure-test'.
    """
    for each in overdue(sight, "raft.pressure-test"):
        raft, service = each.thing.kept, each.thing.block
        if (
            isinstance(raft, Raft)
            and isinstance(service, Service)
            and isinstance(raft.made, Stamp)
            and isinstance(service.pressure_test, Stamp)
        ):
            message = f"made {raft.made.when}, last tested under pressure {service.pressure_test.when}"
            tested = service.pressure_test.last_day
            never = tested < add_months(raft.made.last_day, months(sight.vessel, "age of a raft") or 0)
            long_ago = add_months(tested, LONGEST_SERVICE + OVERDUE) < sight.as_of
            yield of(
                raft,
                "pressure-test",
                f"{message}{', before it was ten years old' if never else ''}",
                part=service,
                weight=DEFECT if long_ago else None,
            )


LONGEST_SERVICE = 36
"""The months after which every raft has been to its station once more: Offshore Special Regulations 4.20.4, quoted."""
OVERDUE = 12
"""The months beyond the longest time between services after which a test is not late, but left out: common practice."""


@check(
    "raft.service-incomplete",
    LIFE,
    "marine accident reports on rafts with empty cylinders and missing ballast (secondary)",
)
def the_certificate_names_what_was_looked_at(sight: Sight) -> Finds:
    """The certificate says that the cylinder was weighed and the ballast bags were there.

    Why: a raft without gas stays a parcel, one without ballast bags blows over.
    Remedy: ask the station in writing; if it was not done, have it done.
    """
    for raft in sight.vessel.rafts:
        for key, what in (
            ("cylinder-weighed", "that the gas cylinder was weighed"),
            ("ballast-bags", "that the ballast bags were all there"),
        ):
            if raft.service and getattr(raft.service, key.replace("-", "_")) is False:
                yield of(raft, key, f"the certificate does not say {what}", part=raft.service)


_OURSELVES = re.compile(
    r"\b(?:himself|herself|myself|ourselves|themselves|self-(?:packed|serviced|done)|own work|by (?:me|us|hand)|in the garden|at home|a friend|nobody|no one|none)\b",
    re.IGNORECASE,
)
"""Words for whoever packed a raft without a station."""


@check("raft.station", LIFE, "advice on raft service (secondary)")
def the_station_knows_this_raft(sight: Sight) -> Finds:
    """The raft's maker has approved the service station.

    Why: without the maker's parts and instructions a raft is packed, not serviced, and may not open.
    Remedy: have it serviced by a station that the maker names; to sail until then, defer this with reason and date.
    """
    aboard = {role.lower() for role in sight.roles}
    for raft in sight.vessel.rafts:
        if raft.service and raft.service.station_approved is False:
            yield of(raft, "station-approved", "its maker has not approved the station", part=raft.service)
        elif raft.service and isinstance(raft.service.station, str):
            said = raft.service.station
            if _OURSELVES.search(said) or said.lower().removeprefix("the ") in aboard:
                yield of(raft, "station", f"'{said}' is no service station", part=raft.service)


@check("raft.cylinder-unmarked", ADVICE, COMMON_PRACTICE)
def the_side_to_right_it_by_is_marked(sight: Sight) -> Finds:
    """The side of the raft's bottom on which the gas cylinder hangs is marked.

    Why: a raft that opened upside down is righted standing on the cylinder's side; pulled over from the other, the cylinder falls on whoever rights it.
    Remedy: ask the station to mark it at the next service; until then tell everybody to feel for the cylinder and stand there.
    """
    for raft in sight.vessel.rafts:
        if raft.cylinder_side == "not marked" and raft.righting != "none":
            yield of(raft, "cylinder-side", "nothing on its bottom marks the side of the gas cylinder")


@check("raft.service-due", LIFE, "46 CFR 28.140; SOLAS III/20.8 and the maker's interval for others")
def raft_service_is_in_date(sight: Sight) -> Finds:
    """The raft's service is in date for the whole passage.

    Why: a leaking tube or an empty cylinder shows only at the service station or when the raft is needed.
    Remedy: have it serviced, then write the new dates under 'service'.
    """
    yield from passed(sight, "raft.service-due")


@check("raft.contents-expired", LIFE, "MSC.388(94), dated contents of liferafts")
def raft_contents_are_in_date(sight: Sight) -> Finds:
    """What is packed in the raft is in date for the whole passage.

    Why: flares, water and tablets inside cannot be looked at or changed aboard.
    Remedy: have the station renew them, then write the new 'contents-expire'.
    """
    yield from passed(sight, "raft.contents-expired")


@check("raft.contents-before-service", UPKEEP, "MSC.388(94), dated contents of liferafts")
def raft_contents_outlive_the_next_service(sight: Sight) -> Finds:
    """What is packed in the raft outlives the next service.

    Why: the station should have renewed what runs out before the raft is opened again; the raft must go back early.
    Remedy: bring the next service forward to that date, or ask the station what it packed.
    """
    for raft in sight.vessel.rafts:
        service = raft.service
        ends, due = (known(service.contents_expire), known(service.next)) if service else (None, None)
        if service and ends and due and sight.until <= ends.last_day < due.first_day:
            yield of(
                raft,
                "contents-expire",
                f"what is packed in it runs out {ends.when}, before the next service {due.when}",
                part=service,
            )


@check(
    "raft.cylinder-test",
    LIFE,
    "IMO servicing conditions for inflatable liferafts: gas inflation every five years",
)
def raft_cylinder_is_tested(sight: Sight) -> Finds:
    """The test of the raft's cylinder is in date.

    Why: a corroded cylinder bursts or is empty.
    Remedy: have it tested at the next service, then write the new 'cylinder-test'.
    """
    yield from passed(sight, "raft.cylinder-test")


@check(
    "raft.service-interval",
    UPKEEP,
    "SOLAS III/20.8 (12 months, 17 if impracticable); Offshore Special Regulations "
    "4.20.4 (quoted text: ISO raft three years, hired valise one)",
)
def raft_service_interval_is_usual(sight: Sight) -> Finds:
    """The time between two services is no longer than usual for this raft; by more than a year it is a defect.

    Why: an interval that was stretched, or a mistyped year, looks like a raft in date.
    Remedy: look at the certificate; if the maker or the flag state allows the longer time, defer this and say so.
    """
    for raft in sight.vessel.rafts:
        service = raft.service
        last, due = (known(service.last), known(service.next)) if service else (None, None)
        if not service or not last or not due or not raft.standard:
            continue
        row = strictest(sight.vessel, "time between services", raft)
        if row and row.most and due.first_day > add_months(last.last_day, round(row.most)):
            yield of(
                raft,
                "next",
                f"from {service.last} to {service.next} is more than "
                f"{row.most:g} months ({row.source}; {row.standing})",
                part=service,
                weight=DEFECT
                if due.first_day > add_months(last.last_day, max(round(row.most), LONGEST_SERVICE) + OVERDUE)
                else None,
            )
