"""The pictures of the trimaran are what the sketches draw today, small, and each shown beside its thing."""

import io
import itertools

import pytest
from documents.pictures import MOST_DIFFERENCE, difference
from documents.sheet import COLOURS, HAND, HIGH, INK, WIDE, Sheet, between, curve, rounded
from documents.sketches import FOLDER, MOST_BYTES, SKETCHES
from PIL import Image
from specimens import VESSELS

from generator.vessel.loading import load
from generator.vessel.photographed import photographed

COMMAND = "pytest tests/test_sketches.py --renew"


@pytest.mark.thorough
@pytest.mark.parametrize("name", SKETCHES)
def test_a_sketch_is_current_and_small(name, renew):
    """Within a tolerance: another version of the library may draw an edge a little otherwise."""
    file, drawn = FOLDER / name, SKETCHES[name]().png()
    if renew and not (file.is_file() and current(file, drawn)):
        file.parent.mkdir(exist_ok=True)
        file.write_bytes(drawn)
    assert current(file, drawn), f"{name} is out of date; renew it with: {COMMAND}"
    assert file.stat().st_size <= MOST_BYTES


def current(file, drawn):
    with Image.open(file) as kept:
        return (
            difference(kept.convert("RGB"), Image.open(io.BytesIO(drawn)).convert("RGB")) <= MOST_DIFFERENCE
        )


def test_each_is_named_by_one_thing_of_hers_and_no_other_lies_there():
    vessel, _ = load(VESSELS / "tresmare")
    named = [str(each.photo) for each in photographed(vessel)]
    assert sorted(named) == sorted(f"photos/{name}" for name in SKETCHES)
    assert {path.name for path in FOLDER.iterdir()} == set(SKETCHES)


def test_no_two_of_them_are_taken_for_one_another():
    pictures = [Image.open(FOLDER / name).convert("RGB") for name in SKETCHES]
    assert all(
        difference(one, other) > 5 * MOST_DIFFERENCE
        for at, one in enumerate(pictures)
        for other in pictures[at + 1 :]
    )


@pytest.mark.parametrize("name", SKETCHES)
def test_what_a_hand_takes_hold_of_is_seen_in_each(name):
    """On a page the picture is small: the orange still covers enough of it."""
    picture = Image.open(FOLDER / name).convert("RGB")
    assert picture.size == (WIDE, HIGH)
    small = picture.resize((240, 180), Image.Resampling.BOX)
    near = sum(
        all(abs(a - b) < 40 for a, b in zip(point, HAND, strict=True)) for point in small.get_flattened_data()
    )
    assert near > 60


def test_a_shape_goes_from_light_to_dark_along_its_slant():
    sheet = Sheet()
    sheet.shaded(rounded(100, 100, 500, 500, 10), (250, 250, 250), (50, 50, 50), slant=(1, 0), width=0)
    picture = Image.open(io.BytesIO(sheet.png())).convert("L")
    row = [picture.getpixel((x, 300)) for x in (110, 200, 300, 400, 490)]
    assert row == sorted(row, reverse=True)
    assert row[0] - row[-1] > 150
    assert abs(picture.getpixel((300, 120)) - picture.getpixel((300, 480))) < 8
    assert len(picture.getcolors()) <= COLOURS


def test_dashes_leave_gaps_and_a_curve_keeps_to_its_ends():
    sheet = Sheet()
    points = [(100.0 + step, 200.0) for step in range(400)]
    sheet.dashes(points, 6, INK)
    picture = Image.open(io.BytesIO(sheet.png())).convert("L")
    dark = [picture.getpixel((x, 200)) < 128 for x in range(100, 500)]
    changes = sum(one != other for one, other in itertools.pairwise(dark))
    assert 20 < changes < 60
    assert curve((0, 0), (5, 9), (7, 9), (9, 0))[0] == (0, 0)
    assert curve((0, 0), (5, 9), (7, 9), (9, 0))[-1] == (9, 0)
    assert between((0, 0, 0), (10, 20, 30), 0.5) == (5, 10, 15)
