"""What the service station wrote, and what the arithmetic says of the raft as it was packed."""

from __future__ import annotations

from generator.calc.expiry import add_months
from generator.reading.values import Quantity, Stamp
from generator.survey.registry import COMPOSITION, DEFECT, RECOMMENDATION, at, check


@check(
    "raft.pressure-test",
    RECOMMENDATION,
    "IMO servicing conditions for inflatable liferafts: over-pressure every year after the tenth",
)
def an_old_raft_had_its_pressure_test(sight):
    """The yearly pressure test of a raft over ten years old is not itself over a year old.

    Why: seams and fabric age; from the tenth year on only this test shows whether they hold.
    Remedy: have it tested, then write the new day under 'pressure-test'.
    """
    for raft in sight.vessel.rafts:
        service = raft.service
        if (
            service
            and isinstance(service.pressure_test, Stamp)
            and isinstance(raft.made, Stamp)
            and add_months(raft.made.last_day, 120) < sight.as_of
            and add_months(service.pressure_test.last_day, 12) < sight.as_of
        ):
            yield at(
                service,
                "pressure-test",
                f"{raft.name}: made {raft.made.when}, last tested under pressure {service.pressure_test.when}",
                item=str(raft.name),
            )


@check(
    "raft.service-incomplete",
    RECOMMENDATION,
    "marine accident reports on rafts with empty cylinders and missing ballast (secondary)",
)
def the_certificate_names_what_was_looked_at(sight):
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
                yield at(
                    raft.service,
                    key,
                    f"{raft.name}: the certificate does not say {what}",
                    item=str(raft.name),
                )


@check("raft.station", RECOMMENDATION, "advice on raft service (secondary)")
def the_station_knows_this_raft(sight):
    """The raft's maker has approved the service station.

    Why: without the maker's parts and instructions a raft is packed, not serviced.
    Remedy: have the next service done by a station the maker names.
    """
    for raft in sight.vessel.rafts:
        if raft.service and raft.service.station_approved is False:
            yield at(
                raft.service,
                "station-approved",
                f"{raft.name}: its maker has not approved the station",
                item=str(raft.name),
            )


def _estimate(sight, *keys):
    for each in sight.manual.estimates:
        for row in each.rows:
            if row.key in keys and row.holds is False:
                yield each.raft, row


@check(
    "raft.floats-too-weakly",
    DEFECT,
    "IMO MSC.81(70) Part 2, 5.1.2 (150 N at most to pull the painter); our estimate of the lift",
    COMPOSITION,
)
def packed_raft_pulls_its_painter_out(sight):
    """The packed raft floats up strongly enough to pull out its painter.

    Why: a raft that hangs at its painter without pulling it out never fires.
    Remedy: look at mass and size on the label again; if they are right, ask the maker whether it may be held by an HRU.
    """
    for raft, row in _estimate(sight, "floats-up-too-weak", "floats-up-not-predictable"):
        sure = row.key == "floats-up-not-predictable"
        yield at(
            raft,
            "packed-size",
            f"{raft.name}: packed it {'does not pull' if sure else 'may not pull'} the 150 N that its painter takes",
            item=str(raft.name),
            weight=None if sure else RECOMMENDATION,
        )


@check(
    "release.weak-link-out-of-order",
    RECOMMENDATION,
    "our estimate from the figures of C.R.C. c. 1436 Sch. VIII s. 7",
    COMPOSITION,
)
def weak_link_lies_between_its_neighbours(sight):
    """The weak link is stronger than the packed raft's lift and weaker than the inflated one's.

    Why: too weak it parts before the raft is inflated, too strong the boat takes the raft down.
    Remedy: look at the markings of link and raft again; then ask the maker for the link that belongs to this raft.
    """
    for raft, row in _estimate(sight, "link-out-of-order"):
        figures, painter = dict(row.figures), raft.painter.strength if raft.painter else None
        if isinstance(painter, Quantity) and raft.weak_link.strength >= painter:
            continue  # release.weak-link-stronger speaks of that
        yield at(
            raft.weak_link,
            "strength",
            f"{raft.name}: the link parts at {figures['low']} to {figures['high']} N; the inflated raft lifts "
            f"about {figures['inflated']} N",
            item=str(raft.name),
        )
