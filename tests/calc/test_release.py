"""Release arithmetic against published limits, tables and a reference library; the source stands beside each check."""

import gsw
import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.calc import release

# TEOS-10 (gsw) for standard sea water at 15 degrees: absolute salinity 35.16504 g/kg. Nominal density is within 0.2 % of it.
SALINITY, TEMPERATURE = 35.16504, 15.0


def test_the_nominal_density_of_sea_water_against_teos_10():
    assert gsw.rho(SALINITY, TEMPERATURE, 0) == pytest.approx(release.SEA_KG_M3, rel=0.002)


@pytest.mark.parametrize("depth_m", [1.5, 2.0, 4.0, 4.572, 7.62])
def test_pressure_against_teos_10(depth_m):
    """0.6 %: TEOS-10 takes the ocean's colder and denser standard column, and latitude."""
    dbar = gsw.p_from_z(-depth_m, 45)
    assert release.gauge_pressure_kpa(depth_m) == pytest.approx(dbar * 10, rel=0.006)


@pytest.mark.parametrize(("feet", "psi"), [(1, 0.444), (9, 3.9996)])
def test_pressure_against_the_army_manual(feet, psi):
    """US Army TM 55-1915-200-SDC p. 8-1, sea water of 64 lb/cu ft; 0.2 % for its rounded figures."""
    assert release.gauge_pressure_kpa(feet * 0.3048) == pytest.approx(psi * 6.894757, rel=0.002)


def test_fresh_water_needs_more_depth():
    """The HRU is a pressure switch: 1.5 to 4 m of sea water are 1.537 to 4.100 m of fresh water (ratio of densities)."""
    assert release.depth_at_same_pressure_m(1.5) == pytest.approx(1.5375, abs=5e-4)
    assert release.depth_at_same_pressure_m(4.0) == pytest.approx(4.1, abs=5e-4)


def test_buoyancy_is_what_archimedes_says():
    """A body of sea water's own density neither rises nor sinks."""
    assert release.net_buoyancy_n(102.5, 0.1) == pytest.approx(0, abs=1e-6)
    assert release.net_buoyancy_n(30, 0.12375) == pytest.approx((1025 * 0.12375 - 30) * 9.80665)


def test_the_us_release_range_brackets_a_plausible_raft():
    """46 CFR 160.062-3(b): an HRU must release loads of 200 lbf (890 N) to 3,750 lbf; a 45 kg canister of 168 l lies within,
    also with a fifth flooded."""
    low, high = release.packed_buoyancy_band_n(45, 0.168)
    assert 200 * 4.4482216 <= low < high <= 3750 * 4.4482216


@pytest.mark.parametrize(("persons", "mass_kg"), [(4, 30), (6, 45), (8, 60), (12, 110), (16, 135)])
def test_an_inflated_raft_parts_a_rated_weak_link(persons, mass_kg):
    """Weak link 2.2 +- 0.4 kN (Canada, LSE Regulations Sch. VIII s. 7(2)(c)); MGN 343: the inflated raft's buoyancy breaks it."""
    assert release.inflated_buoyancy_n(persons, mass_kg) > 2600


def test_a_raft_held_down_does_not_part_it():
    """The deeper it fires the less it lifts; at the limit it lifts just the link's load."""
    depth = release.weak_link_never_parts_below_m(6, 45, 2600)
    assert release.inflated_buoyancy_n(6, 45, depth) == pytest.approx(2600, rel=1e-9)
    assert release.inflated_buoyancy_n(6, 45, depth + 1) < 2600


def test_shallow_water_is_where_the_painter_is_longer_than_the_water_is_deep():
    """46 CFR 180.130(a)(1): no link is needed on waters not as deep as the painter is long; with the attachment at the
    keel our depth is just the painter's length."""
    assert release.grounds_before_taut_m(11, 0) == 11


@pytest.mark.parametrize(
    ("height_m", "least_m"), [(1.2, 15), (5, 15), (7.5, 15), (8, 16), (10, 20), (12, 24)]
)
def test_the_canadian_painter_rule(height_m, least_m):
    """Canada, LSE Regulations Sch. VIII s. 4(1)(b) (in force to 2023): the greater of 15 m and twice the height."""
    assert release.painter_least_m(height_m, 15, times_height=2) == pytest.approx(least_m)


@given(st.floats(1, 60), st.floats(0, 10), st.floats(0, 0.99))
def test_drift_only_helps(painter_m, above_keel_m, share):
    """A container that drifts aside comes taut earlier, never later."""
    straight = release.grounds_before_taut_m(painter_m, above_keel_m)
    assert release.grounds_before_taut_m(painter_m, above_keel_m, share * painter_m) <= straight


@given(st.floats(1, 60), st.floats(0, 60))
def test_at_the_limit_nothing_is_left_to_haul(painter_m, depth_m):
    """Hauling what is left brings the painter taut."""
    left = release.left_to_haul_m(painter_m, depth_m)
    assert left == pytest.approx(max(0.0, painter_m - depth_m))


@pytest.mark.parametrize(
    "call",
    [
        lambda: release.gauge_pressure_kpa(-1),
        lambda: release.net_buoyancy_n(0, 0.1),
        lambda: release.net_buoyancy_n(10, 0.1, 1.0),
        lambda: release.inflated_buoyancy_n(0, 10),
        lambda: release.grounds_before_taut_m(9, 1, 9),
        lambda: release.painter_least_m(-1, 15),
    ],
)
def test_figures_outside_what_can_be_are_refused(call):
    with pytest.raises(ValueError, match="must be"):
        call()
