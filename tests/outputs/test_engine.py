"""The PDF engine: what it would have kept quiet about becomes a record."""

import pytest

from generator.machine import fonts
from generator.outputs import EngineMissing
from generator.outputs.setting import engine
from generator.outputs.setting.paper import sheets

BLANK = '<!DOCTYPE html><html lang="en"><head><title>x</title></head><body>{}</body></html>'
pytestmark = pytest.mark.usefixtures("pdf_engine")


def kinds(records):
    return {record.kind for record in records}


def test_a_plain_page_in_our_letters_has_no_record():
    layout = engine.lay_out(BLANK.format("<h1>Mayday</h1><p>Once, twice.</p>"), sheets("book", "A4"))
    written, records = engine.write(layout, "x.pdf")
    assert records == []
    assert written.startswith(b"%PDF-1.7")
    assert 0 < layout.filled < 0.2


def test_how_full_a_page_is_grows_with_its_text():
    short, long = (
        engine.lay_out(BLANK.format("<p>line</p>" * lines), sheets("book", "A4")) for lines in (10, 60)
    )
    assert short.pages == 1
    assert long.pages == 2
    assert short.filled < 1 < long.filled < 2


def test_a_letter_taken_from_a_font_of_the_machine_is_a_record():
    layout = engine.lay_out(BLANK.format("<p>set in whatever is there</p>"), ("body { font-family: serif }",))
    assert "foreign-font" in kinds(engine.write(layout, "x.pdf")[1])


def test_pages_bare_of_letters_are_a_record(monkeypatch):
    """As the engine writes them where its copies of the fonts have been cleared away."""
    layout = engine.lay_out(BLANK.format("<p>gone</p>"), sheets("book", "A4"))
    monkeypatch.setattr(engine, "_base_font", lambda _part: "")
    assert "foreign-font" in kinds(engine.write(layout, "x.pdf")[1])


def test_an_engine_that_cannot_use_the_fonts_is_not_begun_with(monkeypatch):
    monkeypatch.setattr(
        fonts, "faces_css_for_paper", lambda: "@font-face { font-family: x; src: url(gone.ttf) }"
    )
    with pytest.raises(EngineMissing, match="cannot use the fonts"):
        engine._engine.__wrapped__()


@pytest.mark.parametrize(("html", "said"), [
    ('<a href="#gone">x</a>', "gone"),
    ('<img src="picture.png" alt="a picture">', "picture.png"),
    ('<img src="file:///etc/hostname" alt="a file of the machine">', "hostname"),
    ('<img src="http://127.0.0.1:9/x.png" alt="a page of the net">', "127.0.0.1"),
])  # fmt: skip
def test_whatever_the_engine_warns_of_is_a_record(html, said):
    layout = engine.lay_out(BLANK.format(html), sheets("book", "A4"))
    assert [
        record
        for record in engine.write(layout, "x.pdf")[1]
        if record.kind == "engine-warning" and said in record.text
    ]


@pytest.mark.parametrize("html", [
    '<p style="white-space: nowrap">' + "long " * 60 + "</p>",
    '<div style="overflow: hidden; width: 40pt; white-space: nowrap">cut off at the edge of its box</div>',
    '<table><tr><td style="width: 30pt; overflow-wrap: normal">unbreakableness</td><td>x</td></tr></table>',
    '<div style="position: absolute; left: 190mm">beyond the paper on the right</div>',
])  # fmt: skip
def test_text_that_is_cut_off_is_a_record(html):
    layout = engine.lay_out(BLANK.format(html), sheets("book", "A4"))
    assert "clipped-text" in kinds(engine.write(layout, "x.pdf")[1])


def test_without_the_engine_the_message_says_what_brings_it(monkeypatch):
    monkeypatch.setattr(engine.readiness, "engine_missing", lambda: "bring it with: this")
    engine._engine.cache_clear()
    try:
        with pytest.raises(EngineMissing, match="bring it with: this"):
            engine.lay_out(BLANK.format("x"), ())
    finally:
        engine._engine.cache_clear()
        engine._sheet.cache_clear()
