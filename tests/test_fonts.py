"""The family: its faces on paper and screen, the glyphs it has, and its licence wherever it goes."""

from io import BytesIO

import pytest
from fontTools.ttLib import TTFont

from generator.machine import fonts

FILES = [face.path.name for face in fonts.FACES]


def test_there_are_four_faces_and_each_is_a_file():
    assert {(face.weight, face.style) for face in fonts.FACES} == {
        (400, "normal"),
        (400, "italic"),
        (700, "normal"),
        (700, "italic"),
    }
    for face in fonts.FACES:
        assert TTFont(face.path)["name"].getBestFamilyName() == fonts.FAMILY


def test_a_face_is_as_heavy_as_it_says():
    for face in fonts.FACES:
        assert TTFont(face.path)["OS/2"].usWeightClass == face.weight


def test_the_site_has_the_faces_as_they_were_published():
    files = fonts.site_font_files()
    assert {name: data for name, data in files.items() if name != fonts.LICENCE_FILE} == {
        face.path.name: face.path.read_bytes() for face in fonts.FACES
    }


def test_advances_are_those_of_the_face():
    regular, bold = fonts.advances_em(400), fonts.advances_em(700)
    assert set(regular) >= set("AZaz09 éÅß")
    assert regular["i"] < regular["n"] < regular["m"]
    assert bold["n"] > regular["n"]
    font = TTFont(fonts.FACES[0].path)
    assert regular["n"] == font["hmtx"]["n"][0] / font["head"].unitsPerEm


def test_the_licence_travels_beside_and_inside_the_site_fonts():
    files = fonts.site_font_files()
    text = files[fonts.LICENCE_FILE].decode("utf-8")
    assert "SIL OPEN FONT LICENSE Version 1.1" in text
    assert text.startswith("Copyright 2020 Braille Institute of America")
    for name in FILES:
        names = TTFont(BytesIO(files[name]))["name"]
        assert "Braille Institute" in names.getDebugName(0)
        assert "Open Font License" in names.getDebugName(13)


def test_no_name_is_reserved_so_a_subset_in_a_pdf_may_keep_it():
    assert "with Reserved Font Name" not in fonts.licence_text().split("PREAMBLE")[0]


def test_style_sheets_name_every_face():
    paper, site, one_file = (
        fonts.faces_css_for_paper(),
        fonts.faces_css_for_site("fonts/"),
        fonts.faces_css_for_one_file(),
    )
    for css in (paper, site, one_file):
        assert css.count("@font-face") == 4
        assert css.count(f'"{fonts.FAMILY}"') == 4
        assert "unicode-range" not in css
    for face in fonts.FACES:
        assert face.path.as_uri() in paper
        assert f'url("fonts/{face.path.name}")' in site
    assert 'url("data:font/ttf;base64,' in one_file
    assert "file:" not in site + one_file
    assert "Open Font License" in one_file


@pytest.mark.parametrize("character", "AZaz09 éÅßñøł½°×–—“”’…•·²≤≥−€")
def test_characters_the_manual_uses_are_there(character):
    assert character in fonts.covered_characters()


def test_missing_characters_are_found_once_each_in_order():
    assert fonts.missing_characters("漢 and → and 漢\n\tplain") == ["→", "漢"]
    assert fonts.missing_characters("Port side, 3 m × 2 m") == []


def test_a_letter_with_a_combining_accent_counts_as_the_composed_letter():
    assert fonts.missing_characters("cafe\u0301") == []


def test_a_character_three_faces_have_counts_as_missing(monkeypatch):
    real = TTFont.getBestCmap

    def without_a_in_bold(font):
        drawn = dict(real(font))
        if font["OS/2"].usWeightClass == 700:
            drawn.pop(ord("a"))
        return drawn

    monkeypatch.setattr(TTFont, "getBestCmap", without_a_in_bold)
    fonts.covered_characters.cache_clear()
    try:
        assert fonts.missing_characters("ab") == ["a"]
    finally:
        fonts.covered_characters.cache_clear()
