"""The pictures of README.md show what the program makes today."""

import io
import re
from pathlib import Path

import pytest
from documents import pictures
from documents.pictures import FOLDER, MOST_BYTES, MOST_DIFFERENCE, Picture, as_file, difference, words_of
from PIL import Image, ImageChops

README = Path(__file__).parent.parent / "README.md"
COMMAND = "pytest tests/test_pictures.py --renew"
NAMES = ("card.png", "plan.png", "phone.png")


@pytest.fixture(scope="module")
def drawn(specimen, browser, pdftoppm_path):
    return pictures.draw(specimen("saltmeadow").folder / "guest", pdftoppm_path, browser)


@pytest.mark.parametrize("name", NAMES)
def test_a_picture_is_current(drawn, name, renew):
    """Words exactly, points within a tolerance: rasterisers of other versions draw letters a little otherwise."""
    file = FOLDER / name
    if renew and not (file.is_file() and current(file, drawn[name])):
        file.parent.mkdir(exist_ok=True)
        file.write_bytes(as_file(drawn[name]))
    assert words_of(file) == drawn[name].words, f"{name} is out of date; renew it with: {COMMAND}"
    assert current(file, drawn[name]), f"{name} is out of date; renew it with: {COMMAND}"


def current(file: Path, picture: Picture) -> bool:
    with Image.open(file) as kept:
        apart = difference(kept.convert("RGB"), Image.open(io.BytesIO(picture.png)))
    return words_of(file) == picture.words and apart <= MOST_DIFFERENCE


@pytest.mark.parametrize("name", NAMES)
def test_a_picture_is_small(name):
    assert (FOLDER / name).stat().st_size <= MOST_BYTES


def test_no_other_picture_lies_there_and_the_readme_shows_them_all():
    assert {path.name for path in FOLDER.iterdir()} == set(NAMES)
    shown = re.findall(r"!\[([^\]]+)\]\(vessels/pictures/([^)]+)\)", README.read_text(encoding="utf-8"))
    assert {name for _, name in shown} == set(NAMES)
    assert all(len(says) > 20 for says, _ in shown)


@pytest.mark.parametrize("moved", [(0, 6), (6, 0)])
def test_a_page_set_otherwise_is_noticed(moved):
    with Image.open(FOLDER / "card.png") as kept:
        card = kept.convert("RGB")
    assert difference(card, card) == 0
    assert difference(card, ImageChops.offset(card, *moved)) > 2 * MOST_DIFFERENCE
