"""What the service station wrote, and until when the raft and what is packed in it are good."""

from __future__ import annotations

from generator.calc.expiry import add_months
from generator.reading.values import Stamp, known
from generator.survey.limits import strictest
from generator.survey.passed import overdue, passed
from generator.survey.registry import ADVICE, LIFE, UPKEEP, Finds, Sight, check, of
from generator.vessel.raft import Raft, Service


@check(
    "raft.pressure-test",
    UPKEEP,
    "IMO servicing conditions for inflatable liferafts: over-pressure every year after the tenth",
)
def an_old_raft_had_its_pressure_test(sight: Sight) -> Finds:
    """The yearly pressure test of a raft over ten years old is not itself over a year old.

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
            yield of(raft, "pressure-test", message, part=service)


@check(
    "raft.service-incomplete",
    UPKEEP,
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


@check("raft.station", ADVICE, "advice on raft service (secondary)")
def the_station_knows_this_raft(sight: Sight) -> Finds:
    """The raft's maker has approved the service station.

    Why: without the maker's parts and instructions a raft is packed, not serviced.
    Remedy: have the next service done by a station the maker names.
    """
    for raft in sight.vessel.rafts:
        if raft.service and raft.service.station_approved is False:
            yield of(raft, "station-approved", "its maker has not approved the station", part=raft.service)


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
    """The time between two services is no longer than usual for this raft.

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
            )
