"""Every number of a vessel's file has a lowest and a highest value, and the message that refuses one says why."""

import re

import pytest
from asked import kinds

from generator.reading.fields import Misread
from generator.reading.measures import Count, Dimensions, Measured, OffCentre, Range
from generator.vessel.people import Voyage
from generator.vessel.vessel import Vessel

NUMBERS = {
    f"{kind.__name__}.{field.key}": field
    for kind in {**kinds(Vessel), **kinds(Voyage)}
    for field in kind.fields.values()
    if isinstance(field, (Count, Measured))
}


def written(field, figure, unit):
    """The figure as the file has it, in the form of the field."""
    number = f"{figure:.9f}".rstrip("0").rstrip(".")
    if isinstance(field, Count):
        return number
    if isinstance(field, Range):
        return f"{number}-{number} {unit}"
    if isinstance(field, Dimensions):
        return f"{number} x {number} x {number} {unit}"
    return f"{number} {unit} port" if isinstance(field, OffCentre) else f"{number} {unit}"


def units(field):
    return {"": 1} if isinstance(field, Count) else field.units


def test_there_are_as_many_as_the_file_has():
    assert len(NUMBERS) > 50
    assert {type(field).__name__ for field in NUMBERS.values()} == {
        "Count", "Measure", "Range", "Dimensions", "OffCentre"
    }  # fmt: skip


@pytest.mark.parametrize("name", NUMBERS)
def test_both_bounds_stand_with_their_reason(name):
    field = NUMBERS[name]
    assert 0 <= field.low < field.high < (10**5 if isinstance(field, Count) else 10**6)
    assert len(field.why.split()) >= 3
    assert field.why[0].islower() and not field.why.endswith(".")
    field.read(written(field, 1, "m") if isinstance(field, OffCentre) else field.example)


@pytest.mark.parametrize("name", NUMBERS)
def test_just_inside_is_read_and_just_outside_refused(name):
    field = NUMBERS[name]
    step = 1 if isinstance(field, Count) else field.low / 100 or field.high / 1000
    for unit, factor in units(field).items():
        lowest, highest = field.low / factor, field.high / factor
        inside = (field.low, field.high) if isinstance(field, Count) else (lowest * 1.0001, highest * 0.9999)
        for figure in inside:
            field.read(written(field, figure, unit))
        outside = [(field.high + step) / factor, *([(field.low - step) / factor] if field.low else [])]
        for figure in outside:
            with pytest.raises(Misread) as refused:
                field.read(written(field, figure, unit))
            assert refused.value.message.endswith(f", {field.why}")
            named = re.search(
                r"outside what can be: ([0-9.]+) to ([0-9.]+)(?: ([^,]+))?,", refused.value.message
            )
            assert named, refused.value.message
            for bound in named.groups()[:2]:
                field.read(written(field, float(bound), named[3] if named[3] in units(field) else unit))


@pytest.mark.parametrize("name", NUMBERS)
def test_below_nothing_is_refused(name):
    field = NUMBERS[name]
    unit = next(iter(units(field)))
    with pytest.raises(Misread):
        field.read(f"-{written(field, field.high / units(field)[unit], unit)}")


# Boats that there are: as low and as high as each figure goes on them.
REAL = {
    "Particulars.length": ("4.2 m", "7 m", "40 m"),
    "Particulars.beam": ("1.5 m", "2.2 m", "16 m"),
    "Particulars.draft": ("0.2 m", "0.25 m", "5.5 m"),
    "Particulars.freeboard": ("0.35 m", "3.4 m"),
    "Particulars.displacement": ("180 kg", "900 kg", "240 t"),
    "Particulars.fuel": ("5 l", "12 l", "42000 l"),
    "Raft.mass": ("12 kg", "36 kg", "180 kg"),
    "Raft.persons": ("4", "25"),
    "Raft.packed-size": ("0.55 x 0.35 x 0.2 m", "70 x 45 x 28 cm", "1.6 x 0.8 x 0.8 m"),
    "Raft.height": ("0 m", "0.3 m", "8 m"),
    "Raft.sill": ("0 m", "0.4 m"),
    "Painter.length": ("6 m", "11 m", "36 m"),
    "ThroughHull.diameter": ("8 mm", "1/2 in".replace("1/2", "0.5"), "250 mm"),
    "Lifejackets.cylinder-mass": ("24 g", "138 g", "1.2 kg"),
    "Pump.flow": ("4 l/min", "60 l/min", "30 m3/h"),
    "Gear.volume": ("0.5 l", "18 l"),
    "GrabItem.volume": ("125 ml", "6 l"),
    "RadioSet.power-w": ("1 W", "25 W", "400 W"),
    "Person.lifts": ("5 kg", "45 kg"),
    "Release.depth": ("1.5-4 m", "5 to 13 ft"),
}


@pytest.mark.parametrize(("name", "text"), [(name, text) for name, texts in REAL.items() for text in texts])
def test_what_real_boats_have_is_read(name, text):
    NUMBERS[name].read(text)


@pytest.mark.parametrize(
    ("name", "text", "message"),
    [
        ("Particulars.length", "120 m", "120 m is outside what can be: 4 to 40 m, hulls that this manual draws and words"),
        ("Particulars.length", "12 ft", "12 ft is outside what can be: 13.2 to 131 ft, hulls that this manual draws and words"),
        ("Raft.mass", "36 t", "36 t is outside what can be: 0.008 to 0.6 t, from the lightest raft in a valise to the heaviest in a canister"),
        ("ThroughHull.diameter", "600 mm", "600 mm is outside what can be: 5 to 300 mm, from the hole of a transducer to that of a thruster"),
        ("Gear.quantity", "0", "0 is outside what can be: 1 to 500, as many pieces as somebody counts one by one"),
    ],
)  # fmt: skip
def test_the_message_is_in_the_unit_that_was_written(name, text, message):
    with pytest.raises(Misread) as refused:
        NUMBERS[name].read(text)
    assert refused.value.message == message
