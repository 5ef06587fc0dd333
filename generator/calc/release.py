"""Automatic release of a float-free raft: pressures, buoyancies, the painter's reach and the weak link.

All results are estimates for still water; bands come out where bands go in. Densities in kg/m3, lengths in m, forces in N.
"""

from __future__ import annotations

import math

G_M_S2 = 9.80665  # standard gravity, ISO 80000-3
SEA_KG_M3 = 1025.0  # nominal sea water; 64 lb/cu ft in US Army TM 55-1915-200
FRESH_KG_M3 = 1000.0
ATMOSPHERE_KPA = 101.325
PULL_N = 150.0  # most force to pull the painter and start inflation, IMO MSC.81(70) Pt 2 5.1.2
TUBE_M3_A_PERSON = 0.096  # least tube volume a person, survival-craft course manual p. 60 (secondary)
SWAMPED_SHARE = 0.2  # assumed share of the container that fills with water before it floats up


def gauge_pressure_kpa(depth_m: float, density_kg_m3: float = SEA_KG_M3) -> float:
    """Pressure of the water alone at a depth, in kPa.

    Limits: 0 to 100 m (incompressible water), else ValueError. Source: p = density x g x depth; checked in tests against
    TEOS-10 and against 64 lb/cu ft (US Army TM 55-1915-200-SDC p. 8-1: 0.444 psi a foot).

    >>> round(gauge_pressure_kpa(4.0), 2)
    40.21
    """
    _within("depth_m", depth_m, 0, 100)
    return density_kg_m3 * G_M_S2 * depth_m / 1000


def depth_at_same_pressure_m(depth_m: float, density_kg_m3: float = FRESH_KG_M3) -> float:
    """The depth in other water at which an HRU set for `depth_m` of sea water releases: it feels pressure, not depth.

    >>> round(depth_at_same_pressure_m(4.0), 3)
    4.1
    """
    _within("depth_m", depth_m, 0, 100)
    return depth_m * SEA_KG_M3 / density_kg_m3


def net_buoyancy_n(
    mass_kg: float, volume_m3: float, swamped_share: float = 0.0, density_kg_m3: float = SEA_KG_M3
) -> float:
    """Upward force on a packed raft held under water, in N; negative where it sinks.

    `swamped_share` is the part of the container's outer volume filled with water. Limits: mass and volume above 0, share 0
    to below 1, else ValueError. Source: Archimedes.

    >>> round(net_buoyancy_n(45, 0.168), 1)
    1247.4
    """
    _within("mass_kg", mass_kg, 0.1, 2000)
    _within("volume_m3", volume_m3, 0.001, 10)
    _within("swamped_share", swamped_share, 0, 0.99)
    return (density_kg_m3 * volume_m3 * (1 - swamped_share) - mass_kg) * G_M_S2


def packed_buoyancy_band_n(mass_kg: float, volume_m3: float) -> tuple[float, float]:
    """Net buoyancy with `SWAMPED_SHARE` of the container flooded, and with a dry one, in N."""
    return net_buoyancy_n(mass_kg, volume_m3, SWAMPED_SHARE), net_buoyancy_n(mass_kg, volume_m3)


def inflated_buoyancy_n(persons: int, mass_kg: float, depth_m: float = 0.0) -> float:
    """Upward force on an inflated raft pulled fully under, in N, for the least tube volume its capacity allows.

    At `depth_m` the gas is squeezed by Boyle's law (no over-pressure, an assumption). Limits: 1 to 150 persons.
    Source: 0.096 m3 a person, a survival-craft course manual p. 60 (secondary).

    >>> round(inflated_buoyancy_n(4, 30))
    3566
    """
    _within("persons", persons, 1, 150)
    volume = TUBE_M3_A_PERSON * persons * ATMOSPHERE_KPA / (ATMOSPHERE_KPA + gauge_pressure_kpa(depth_m))
    return (SEA_KG_M3 * volume - mass_kg) * G_M_S2


def weak_link_never_parts_below_m(persons: int, mass_kg: float, link_n: float) -> float | None:
    """The depth below which a snagged raft, inflating late, no longer parts the weak link, in m; None where it always does
    down to 100 m.

    >>> round(weak_link_never_parts_below_m(6, 45, 2600), 1)
    9.1
    """
    volume = (link_n / G_M_S2 + mass_kg) / SEA_KG_M3
    squeezed = TUBE_M3_A_PERSON * persons * ATMOSPHERE_KPA / volume - ATMOSPHERE_KPA
    depth = squeezed * 1000 / (SEA_KG_M3 * G_M_S2)
    return depth if 0 <= depth <= 100 else (None if depth > 100 else 0.0)


def attachment_above_keel_m(draft_m: float, height_m: float) -> float:
    """How high the painter's attachment lies above the keel, in m, the boat upright and level (an assumption)."""
    _within("draft_m", draft_m, 0, 15)
    _within("height_m", height_m, 0, 20)
    return draft_m + height_m


def grounds_before_taut_m(painter_m: float, attachment_above_keel: float, drift_m: float = 0.0) -> float:
    """The depth of water below which the boat grounds before the painter comes taut, in m.

    There the raft floats packed: the rest of the painter is pulled by hand. `drift_m` is how far the container drifts
    sideways. Source: geometry; 46 CFR 180.130(a)(1) has the same case (waters not as deep as the painter is long).

    >>> round(grounds_before_taut_m(9, 3.2), 1)
    12.2
    """
    _within("painter_m", painter_m, 1, 100)
    if not 0 <= drift_m < painter_m:
        raise ValueError(f"drift_m must be from 0 to below the painter's {painter_m} m, got {drift_m}")
    return math.sqrt(painter_m**2 - drift_m**2) + attachment_above_keel


def releases_below_m(band_m: tuple[float, float], attachment_above_keel: float) -> tuple[float, float]:
    """The depths of water (never below the first, surely from the second) at which a boat on the bottom, upright, has taken
    the HRU to its depth, in m.
    """
    return band_m[0] + attachment_above_keel, band_m[1] + attachment_above_keel


def left_to_haul_m(painter_m: float, attachment_depth_m: float, drift_m: float = 0.0) -> float:
    """The painter still to pull out by hand once the boat has come to rest, in m; 0 where it has come taut.

    >>> round(left_to_haul_m(9, 4.8), 1)
    4.2
    """
    return max(0.0, painter_m - math.hypot(attachment_depth_m, drift_m))


def painter_least_m(height_m: float, least_m: float, times_height: float = 0.0, plus_m: float = 0.0) -> float:
    """The least painter a rule set asks for at a mount's height: the largest of `least_m`, `times_height` x height and
    `plus_m` + height (where above 0), in m.

    Source: Canada, Life Saving Equipment Regulations Sch. VIII s. 4(1)(b) as in force to 2023: the greater of 15 m and twice
    the height.

    >>> painter_least_m(10, 15, times_height=2)
    20.0
    """
    _within("height_m", height_m, 0, 50)
    return max(float(least_m), float(times_height * height_m), plus_m + height_m if plus_m else 0.0)


def _within(name: str, value: float, low: float, high: float) -> None:
    if not low <= value <= high:
        raise ValueError(f"{name} must be from {low} to {high}, got {value}")
