"""Estimates of a specimen's raft: figures against published limits, withheld where an input is unknown, honest where nothing holds."""

from pathlib import Path
from xml.etree import ElementTree

import pytest

from generator.manual.drawing.sinking import STAGES, draw_sinking
from generator.manual.estimates import estimates_of
from generator.reading.values import UNKNOWN, Band, Quantity
from generator.shelves.languages import catalogue
from generator.vessel.loading import load

VESSELS = Path(__file__).parent.parent / "vessels"


@pytest.fixture
def boat():
    vessel, _ = load(VESSELS / "saltmeadow", "saltmeadow")
    return vessel


def rows(boat, lifters=(25.0, 25.0)):
    return {row.key: row for row in estimates_of(boat, boat.rafts[0], lifters).rows}


def figure(row, name):
    return float(dict(row.figures)[name].replace(" ", ""))


def test_the_release_band_is_the_hrus_own(boat):
    """AMSA safety alert Dec 2021: HRUs operate between 1.5 and 4 m; 15 and 40 kPa by p = density x g x depth, to 1 kPa."""
    row = rows(boat)["release"]
    assert (figure(row, "low"), figure(row, "high")) == (1.5, 4.0)
    assert figure(row, "low-kpa") == pytest.approx(15.08, abs=0.5)
    assert figure(row, "high-kpa") == pytest.approx(40.21, abs=0.5)


def test_depths_of_water_are_counted_from_the_mount_above_the_keel(boat):
    """Geometry: draft and height added to the depth of release and to the painter; to the printed decimal."""
    above = float(boat.vessel.draft) + float(boat.rafts[0].height)
    found = rows(boat)
    assert figure(found["release-water"], "never") == pytest.approx(1.5 + above, abs=0.051)
    assert figure(found["taut-water"], "depth") == pytest.approx(
        float(boat.rafts[0].painter.length) + above, abs=0.051
    )


def test_a_rated_weak_link_lies_in_order(boat):
    """2.2 +- 0.4 kN (Canada, LSE Regulations Sch. VIII s. 7(2)(c)); 150 N to fire (IMO MSC.81(70) Pt 2 5.1.2)."""
    row = rows(boat)["link"]
    assert (figure(row, "low"), figure(row, "high"), figure(row, "pull")) == (1800, 2600, 150)
    assert row.holds is True


def test_a_link_stronger_than_the_painter_is_out_of_order(boat):
    boat.rafts[0].painter.__dict__["strength"] = Quantity(2000.0, "2 kN", "kN")
    assert rows(boat)["link-outlasts-painter"].holds is False


@pytest.mark.parametrize(
    ("rated_n", "persons", "key"), [(500.0, 6, "link-parts-early"), (3400.0, 4, "link-drags-down")]
)
def test_the_condition_that_fails_is_named(boat, rated_n, persons, key):
    """150 N fires (IMO MSC.81(70) Pt 2 5.1.2); 0.096 m3 a person lifts four and 30 kg by 3,566 N (course manual p. 60)."""
    boat.rafts[0].weak_link.__dict__["strength"] = Quantity(rated_n, f"{rated_n / 1000:g} kN", "kN")
    boat.rafts[0].painter.__dict__["strength"] = Quantity(9000.0, "9 kN", "kN")
    boat.rafts[0].__dict__["persons"] = persons
    assert rows(boat)[key].holds is False


@pytest.mark.parametrize(
    ("persons", "mass_kg", "size"), [(12, 110, (1.2, 0.6, 0.55)), (25, 185, (1.5, 0.7, 0.7))]
)
def test_the_common_link_serves_large_rafts_too(boat, persons, mass_kg, size):
    """2.2 +- 0.4 kN holds for a raft of any size: Canada, LSE Regulations Sch. VIII s. 7(2); MGN 343."""
    raft = boat.rafts[0]
    raft.__dict__["persons"], raft.__dict__["packed_size"] = persons, size
    raft.__dict__["mass"] = Quantity(float(mass_kg), f"{mass_kg} kg", "kg")
    row = rows(boat)["link-fires-first"]
    assert row.holds is None
    assert figure(row, "packed") > figure(row, "high")


def test_a_container_that_sinks_is_not_said_to_float(boat):
    boat.rafts[0].__dict__["packed_size"] = (0.4, 0.3, 0.3)
    found = rows(boat)
    assert "floats-up" not in found
    assert found["floats-up-not-predictable"].holds is False


def test_two_thirds_of_two_are_too_few_for_a_heavy_raft(boat):
    """Network Rail, "Lifting and handling in teams": two lift two thirds of their sum, here 33 kg, less than the raft's mass."""
    assert figure(rows(boat)["lift-too-heavy"], "team") == 33


@pytest.mark.parametrize(
    ("name", "key"),
    [
        ("mass", "floats-up"),
        ("height", "taut-water"),
        ("packed_size", "floats-up"),
        ("pack_water", "water"),
        ("persons", "link"),
        ("persons", "late"),
    ],
)
def test_an_unknown_input_withholds_what_needs_it(boat, name, key):
    boat.rafts[0].__dict__[name] = UNKNOWN
    row = rows(boat)[key]
    assert row.figures == ()
    assert name.replace("_", "-") in row.lacking


def test_someone_whose_strength_is_not_known_withholds_the_lift(boat):
    assert rows(boat, (25.0, None))["lift"].lacking == ("people.lifts",)


def test_a_raft_that_is_not_float_free_has_no_release_estimates(boat):
    boat.rafts[0].__dict__["held_by"] = ("strap",)
    found = estimates_of(boat, boat.rafts[0], (25.0, 25.0))
    assert found.sequence is None
    assert {row.key for row in found.rows} == {"by-hand", "carry", "lift-too-heavy", "water", "food-none"}


def test_a_wide_band_is_not_predictable(boat):
    boat.rafts[0].__dict__["mass"] = Quantity(130.0, "130 kg", "kg")
    boat.rafts[0].__dict__["packed_size"] = (0.8, 0.6, 0.35)
    assert "floats-up-not-predictable" in rows(boat)


def test_every_row_has_its_sentence_and_every_assumption(boat):
    words = catalogue()
    for row in rows(boat).values():
        assert words.say(
            f"estimates.{row.key}", **{key.replace("-", "_"): value for key, value in row.figures}
        )
        assert all(words.say(f"estimates.assumption.{name}") for name in row.assumptions)


def test_the_drawing_is_to_scale():
    """The distance from the surface to the painter's end at stage 4 and to the release at stage 2 keep their proportion."""
    drawing = ElementTree.fromstring(draw_sinking(1.7, 2.0, 3.8, 11.0, Band(1.5, 4.0), "title"))
    lines = list(drawing.iter("{http://www.w3.org/2000/svg}line"))
    surface = float(lines[0].get("y1"))
    dashed = sorted(float(line.get("y1")) - surface for line in lines if line.get("stroke-dasharray"))
    assert dashed[1] / dashed[0] == pytest.approx(4.0 / 1.5, rel=0.01)
    assert dashed[2] / dashed[1] == pytest.approx(11.0 / 4.0, rel=0.01)
    numerals = [
        element.text
        for element in drawing.iter("{http://www.w3.org/2000/svg}text")
        if element.get("text-anchor") == "middle"
    ]
    assert numerals == [str(number) for number in range(1, STAGES + 1)]


def test_the_way_and_the_time_of_a_drill(boat):
    """The skipper's own words and time; without a timed drill none is made up."""
    assert figure_text(rows(boat)["carry"], "time") == str(boat.rafts[0].ready_in)
    boat.rafts[0].__dict__.pop("ready_in")
    assert "carry" not in rows(boat)
    assert figure_text(rows(boat)["carry-untimed"], "to") == boat.rafts[0].launch_from.what


def figure_text(row, name):
    return dict(row.figures)[name]


def test_a_team_is_as_small_as_will_do(boat):
    """Network Rail, "Lifting and handling in teams": two thirds of 25 and 25 kg are enough for 30 kg, one alone is not."""
    boat.rafts[0].__dict__["mass"] = Quantity(30.0, "30 kg", "kg")
    assert figure_text(rows(boat)["lift"], "needed") == "2"


def test_food_of_a_solas_a_pack(boat):
    """10,000 kJ a person (C.R.C. c. 1436 Sch. I s. 1, as in force to 2023) at 3350 kJ a day (46 CFR 160.046-9): three days, to a decimal."""
    raft = boat.rafts[0]
    raft.__dict__.update(pack="SOLAS A", persons=boat.vessel.persons)
    assert figure(rows(boat)["food"], "days") == pytest.approx(3.0, abs=0.05)
    raft.__dict__["pack"] = "over 24 h"
    assert "food" not in rows(boat)
    assert rows(boat)["food-untold"].lacking == ()
    raft.__dict__["pack"] = UNKNOWN
    assert rows(boat)["food"].lacking == ("pack",)
