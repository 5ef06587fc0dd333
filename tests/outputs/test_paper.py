"""Book and cards, read back from their PDF: what must stand in them, and what must not."""

import datetime as dt
import io
import re
from dataclasses import replace
from pathlib import Path

import pypdf
import pytest
from documents.evidence import to_confirm

from generator.machine.fonts import FAMILY
from generator.manual.composing import compose
from generator.manual.printing import first_printer
from generator.outputs import Job, Made, book, cards
from generator.outputs.setting import engine
from generator.reading.fields import Text
from generator.shelves.languages import catalogue
from generator.shelves.stations import stations
from generator.vessel.loading import load

VESSELS = Path(__file__).resolve().parents[2] / "vessels"
AS_OF, LATER = dt.date(2026, 6, 1), dt.date(2029, 1, 1)
PT_PER_PX = 0.75
pytestmark = pytest.mark.usefixtures("pdf_engine")


def manual_of(folder, as_of=AS_OF, *, proof=False):
    vessel, _ = load(folder)
    return compose(vessel, as_of, as_of, catalogue(), proof)[0]


def patched(tmp_path, *changes):
    text = (VESSELS / "saltmeadow/vessel.yaml").read_text(encoding="utf-8")
    for old, new in changes:
        assert text.count(old) >= 1, old
        text = text.replace(old, new, 1)
    folder = tmp_path / "saltmeadow"
    folder.mkdir()
    (folder / "vessel.yaml").write_text(text, encoding="utf-8")
    return manual_of(folder)


def read(made, name):
    return pypdf.PdfReader(io.BytesIO(made.files[name]))


def text_of(pdf):
    return "\n".join(page.extract_text() for page in pdf.pages)


def squeezed(text):
    """Without blanks: where a line breaks is no matter here."""
    return re.sub(r"\s+", "", text)


def kinds(records):
    return {record.kind for record in records}


def marks_of(pdf, outline=None):
    """The bookmarks of a PDF, whatever their level, with the page each leads to."""
    found = []
    for each in pdf.outline if outline is None else outline:
        found += (
            marks_of(pdf, each)
            if isinstance(each, list)
            else [(each.title, pdf.get_destination_page_number(each) + 1)]
        )
    return found


def cards_in_smallest_type(manual):
    """The cards without looking for their size: their words, marks and letters are the same."""
    page = cards._Page(Job(manual, "guest"))
    fitted = [cards.Set(card, page.smallest_pt, 1) for card in cards.cards(manual, "guest")]
    written, records = engine.write(engine.lay_out(page.html(fitted), page.sheets), cards.FILE)
    return Made({cards.FILE: written}, records)


@pytest.fixture(scope="module")
def saltmeadow():
    return manual_of(VESSELS / "saltmeadow")


@pytest.fixture
def book_pdf(specimen):
    return specimen("saltmeadow").pdf("crew/book.pdf")


@pytest.fixture
def cards_pdf(specimen):
    return specimen("saltmeadow").pdf("guest/cards.pdf")


@pytest.fixture
def book_texts(specimen):
    """The text of each page."""
    return specimen("saltmeadow").texts("crew/book.pdf")


@pytest.fixture
def cards_texts(specimen):
    """The text of each face."""
    return specimen("saltmeadow").texts("guest/cards.pdf")


@pytest.mark.parametrize("paper", ["A5", "Letter"])
@pytest.mark.parametrize(
    ("output", "reader", "name"), [(book, "crew", "book.pdf"), (cards, "guest", "cards.pdf")]
)
def test_other_papers_are_written_without_a_record(saltmeadow, output, reader, name, paper):
    made = output.write(Job(saltmeadow, reader, paper))
    assert made.records == []
    width = float(read(made, name).pages[0].mediabox.width)
    assert round(width) == {"A5": 420, "Letter": 612}[paper]
    if output is book:
        cover, contents = (read(made, name).pages[number].extract_text() for number in (0, 1))
        assert "Saltmeadow" in cover and "The survey checked this description" in cover, (
            "the cover is one page"
        )
        assert "Contents" in contents


def test_a_paper_nobody_sells_is_refused(saltmeadow):
    with pytest.raises(ValueError, match=r"B5.*A4, A5, Letter"):
        book.write(Job(saltmeadow, "crew", "B5"))


def test_the_book_holds_every_step_with_its_source(saltmeadow, book_texts):
    text = squeezed("\n".join(book_texts))
    for procedure in saltmeadow.procedures:
        assert squeezed(procedure.title) in text
        for step in procedure.steps:
            assert squeezed(step.text) in text, step.id
            assert not step.unless or squeezed(step.unless) in text, step.id
    sources = text[text.rindex(squeezed("Where each step comes from")) :]
    for step in (step for procedure in saltmeadow.procedures for step in procedure.steps):
        assert squeezed(step.source) in sources, step.id
    asked = sources[sources.index(squeezed("To be confirmed by a professional")) :]
    assert to_confirm(saltmeadow.procedures)
    for step in to_confirm(saltmeadow.procedures):
        assert squeezed(step.text) in asked[: asked.index(squeezed("Sources of the steps"))], step.id


def test_the_book_lists_every_item_and_every_deadline(saltmeadow, book_texts):
    text = squeezed("\n".join(book_texts))
    for item in saltmeadow.items:
        assert squeezed(item.what) in text
    for deadline in saltmeadow.deadlines:
        assert squeezed(first_printer().day(deadline.last_day)) in text
        assert squeezed(deadline.item) in text


def test_outline_and_contents_lead_to_the_chapters(saltmeadow, book_pdf):
    pages = dict(marks_of(book_pdf))
    chapters = [chapter for part in book.parts(saltmeadow, "crew") for chapter in part.chapters]
    contents = book_pdf.pages[1 : first_to_turn_to(book_pdf)]
    links = {link.get_object()["/Dest"] for page in contents for link in page["/Annots"]}
    assert len(links) == len(chapters)
    lines = " ".join(page.extract_text().replace("\n", " ") for page in contents) + " "
    for title in ("Fire", "Man overboard", "Gear list", "Grab bag", "Amendments"):
        assert re.search(rf"{title}\s+{pages[title]} ", lines), title
    assert {procedure.title for procedure in saltmeadow.procedures} <= set(pages)


def first_to_turn_to(book_pdf):
    """Where, from 0, the page behind the contents stands."""
    found = (
        number
        for number, page in enumerate(book_pdf.pages)
        if squeezed(catalogue().say("book.act-now")) in squeezed(page.extract_text())
    )
    return next(found)


def test_the_first_page_to_turn_to_leads_to_every_emergency(saltmeadow, book_pdf):
    pages = dict(marks_of(book_pdf))
    text = squeezed(book_pdf.pages[first_to_turn_to(book_pdf)].extract_text())
    for procedure in saltmeadow.procedures:
        if procedure.emergency:
            assert squeezed(f"{procedure.title} Page {pages[procedure.title]}") in text


def test_the_gutter_is_on_the_binding_side(saltmeadow):
    pages = book.lay_out(
        replace(Job(saltmeadow, "crew"), manual=replace(saltmeadow, procedures=saltmeadow.procedures[:4]))
    ).document.pages
    margins = [(page._page_box.margin_left, page._page_box.margin_right) for page in pages]
    right, left = set(margins[0::2]), set(margins[1::2])
    assert right == {tuple(reversed(next(iter(left))))}
    assert len(left) == 1
    ((binding, outer),) = right
    assert binding > outer > 10 / 25.4 * 96


def test_both_are_tagged_named_and_dated_by_the_survey(book_pdf, cards_pdf):
    for pdf in (book_pdf, cards_pdf):
        assert pdf.trailer["/Root"]["/MarkInfo"]["/Marked"]
        assert pdf.trailer["/Root"]["/Lang"] == "en"
        assert "Saltmeadow" in pdf.metadata.title
        assert pdf.metadata["/CreationDate"].startswith("D:20260601")
        assert pdf.metadata["/ModDate"].startswith("D:20260601")


def test_every_page_says_until_when_it_is_good(saltmeadow, book_texts, cards_texts):
    wanted = [
        "surveyed on 1 June 2026",
        f"good until {first_printer().day(saltmeadow.good_until)}",
        "to be done by then: EPIRB, test",
        "30 September 2027",
        "Specimen: no real vessel",
        "Does not replace the maker's instructions",
    ]
    for texts in (book_texts, cards_texts):
        for number, text in enumerate(map(squeezed, texts), 1):
            assert not [each for each in wanted if squeezed(each) not in text], number


@pytest.mark.parametrize(
    ("write", "name", "holds"),
    [
        (lambda manual: book.write(Job(manual, "crew")), "book.pdf", lambda one: True),
        (cards_in_smallest_type, "cards.pdf", lambda one: bool(one.cards)),
    ],
    ids=["book", "cards"],
)
def test_a_proof_copy_says_so_on_every_page_and_keeps_its_steps(write, name, holds):
    manual = manual_of(VESSELS / "saltmeadow", LATER, proof=True)
    texts = [page.extract_text() for page in read(write(manual), name).pages]
    assert all("Proof copy" in text for text in texts)
    text = squeezed("\n".join(texts))
    expired = [item for item in manual.items if manual.expired(item)]
    assert expired
    assert squeezed("expired, do not rely on it") in text
    held = [one for one in manual.procedures if holds(one)]
    assert {"fire", "man-overboard", "abandon-ship", "raft-launch"} <= {one.id for one in held}
    assert not [step.id for one in held for step in one.steps if squeezed(step.text) not in text]


def test_a_boat_nobody_checked_aboard_says_so(tmp_path):
    manual = patched(
        tmp_path,
        (
            "checked-aboard: {by: the skipper, date: 2026-05-24}",
            "checked-aboard: {by: the skipper, date: unknown}",
        ),
    )
    pdf = read(cards_in_smallest_type(manual), "cards.pdf")
    assert all("not yet checked aboard" in page.extract_text() for page in pdf.pages)


def fonts_in(pdf):
    found = set()
    for page in pdf.pages:
        for font in (page["/Resources"].get("/Font") or {}).values():
            found.add(font.get_object()["/BaseFont"])
    return found


def test_only_our_family_is_embedded(book_pdf, cards_pdf):
    for pdf in (book_pdf, cards_pdf):
        assert fonts_in(pdf)
        assert all(FAMILY.replace(" ", "-") in name for name in fonts_in(pdf)), fonts_in(pdf)


def test_a_letter_the_family_lacks_is_a_record_with_the_letter(tmp_path):
    manual = patched(tmp_path, ("name: Saltmeadow", "name: Ř漢"))
    records = cards_in_smallest_type(manual).records
    assert "漢 (U+6F22)" in {record.text for record in records if record.kind == "missing-glyph"}


def test_a_card_that_cannot_be_both_complete_and_legible_is_a_record(tmp_path, monkeypatch):
    monkeypatch.setattr(Text, "longest", 5_000)  # longer than a vessel file may say it
    long = "the U-bolt " + "beside the other one " * 150
    manual = patched(tmp_path, ("strong-point: ", f"strong-point: {long}# "))
    made = cards.write(Job(manual, "guest"))
    assert [record for record in made.records if record.kind == "too-small" and "14 pt" in record.text]


def test_letters_on_cards_are_as_large_as_the_reading_distance_asks(saltmeadow):
    page = cards._Page(Job(saltmeadow, "guest"))
    for card in cards.cards(saltmeadow, "guest"):
        fitted = page.fit(card)
        assert fitted.sides <= cards.SIDES
        layout = engine.lay_out(page.html([fitted]), page.sheets)
        assert layout.pages == fitted.sides
        for sheet in layout.document.pages:
            body = next(box for box in sheet._page_box.children if type(box).__name__ != "MarginBox")
            for box in body.descendants():
                if type(box).__name__ == "TextBox" and box.text.strip() and box.style["font_size"] > 2:
                    size_pt = box.style["font_size"] * PT_PER_PX
                    word = box.text.isupper() or box.style["font_weight"] >= 700
                    assert size_pt >= (9 if word else cards.SMALLEST_PT["A4"]) - 0.01, box.text


def test_cards_hang_at_every_station_and_say_what_must_be_done_there(saltmeadow, cards_pdf, cards_texts):
    here = {(card.station, block.title) for card in cards.cards(saltmeadow, "guest") for block in card.blocks}
    assert {station for station, _ in here} == {station.name for station in stations()}
    for procedure in saltmeadow.procedures:
        assert {(station, procedure.title) for station in procedure.cards} <= here
    text = squeezed("\n".join(cards_texts))
    for words in ("Sierra", "Whiskey", "Zulu", "MAYDAY", "Persons aboard", "Station bill"):
        assert squeezed(words) in text
    assert len(marks_of(cards_pdf)) == len(cards.cards(saltmeadow, "guest"))


def test_the_code_of_a_card_follows_its_words_not_its_dates(saltmeadow, tmp_path):
    codes = {(card.station, card.title): card.code for card in cards.cards(saltmeadow, "guest")}
    assert len(set(codes.values())) == len(codes)
    assert all(re.fullmatch("[2-9A-HJ-NP-Z]{3}-[2-9A-HJ-NP-Z]{3}", code) for code in codes.values())
    later = manual_of(VESSELS / "saltmeadow", LATER, proof=True)
    assert {(card.station, card.title): card.code for card in cards.cards(later, "guest")} == codes
    moved = patched(tmp_path, ("turn the brass tap across the pipe", "turn the red tap across the pipe"))
    changed, kept = set(), set()
    for card in cards.cards(moved, "guest"):
        of_one = kept if codes[card.station, card.title] == card.code else changed
        of_one |= {(card.station, block.title) for block in card.blocks}
    assert {("galley", "Fire in the galley"), ("helm", "The fire burns on")} <= changed
    assert ("helm", "Man overboard") in kept


def test_guests_never_see_what_is_for_the_crew(tmp_path):
    manual = patched(
        tmp_path,
        (
            "{role: skipper,",
            "{role: skipper, name: Ada Quill, phone: +44 7700 900999, medical: peanuts kill,",
        ),
    )
    secrets = [
        "Ada Quill",
        "7700",
        "peanuts",
        "SPECIMEN-0001",
        "SPECIMEN-C-17",
        "SPECIMEN-12",
        "1D04000000FFBFF",
        "1632",
    ]
    crew = book.html(Job(manual, "crew"))
    assert [each for each in secrets if each not in crew] == ["peanuts"]
    for text in (text_of(read(cards_in_smallest_type(manual), "cards.pdf")), book.html(Job(manual, "guest"))):
        assert [each for each in secrets if each in text] == []


def test_estimates_are_for_the_crew_alone(saltmeadow, book_texts, cards_texts):
    words = squeezed("these estimates are for reading ashore")
    assert words in squeezed("\n".join(book_texts))
    assert words not in squeezed(book.html(Job(saltmeadow, "guest")))
    assert words not in squeezed("\n".join(cards_texts))
    assert not [word for word in ("estimate", "kPa", " kN") if word in "\n".join(cards_texts)]
