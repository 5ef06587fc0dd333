"""The size of type on the cards: as large as fits, found with few layouts; the cards joined are one sound document."""

import datetime as dt
import io
from pathlib import Path

import pypdf
import pytest

from generator.manual.composing import compose
from generator.outputs import Job, cards
from generator.outputs.setting import engine, fitting
from generator.shelves.languages import catalogue
from generator.vessel.loading import load

VESSELS = Path(__file__).resolve().parents[2] / "vessels"
AS_OF = dt.date(2026, 6, 1)
BOATS = sorted(path.parent.name for path in VESSELS.glob("*/vessel.yaml"))
HALF_A_POINT = 0.5
LAYOUTS_A_CARD = 2.0
pytestmark = pytest.mark.usefixtures("pdf_engine")


class Counted(cards._Page):
    """Counts the layouts that finding the sizes took."""

    def __init__(self, job):
        super().__init__(job)
        self.layouts = 0

    def _layout(self, card, size_pt):
        self.layouts += 1
        return super()._layout(card, size_pt)


def fitted(boat, paper="A4"):
    vessel, _ = load(VESSELS / boat)
    manual = compose(vessel, AS_OF, AS_OF, catalogue())[0]
    page = Counted(Job(manual, "guest", paper))
    return page, [each for card in cards.cards(manual, "guest") for each in page.hung(card)]


@pytest.fixture(scope="module")
def saltmeadow():
    return fitted("saltmeadow")


def fits(page, each, size_pt, sides):
    layout = page._layout(each.card, size_pt)
    return layout.pages <= sides and not engine.clipped(layout)


@pytest.mark.one_in(3, "boat")
@pytest.mark.parametrize(
    ("boat", "paper"),
    [
        *((boat, "A4") for boat in BOATS if boat != "zilte-wind"),
        ("saltmeadow", "A5"),
        ("zilte-wind", "Letter"),
    ],
)
def test_every_card_is_in_the_largest_type_that_fits(boat, paper):
    page, sets = fitted(boat, paper)
    assert page.layouts <= LAYOUTS_A_CARD * len(sets)
    for each in {one.card.blocks: one for one in sets}.values():
        assert page.smallest_pt <= each.size_pt <= cards.LARGEST_PT
        assert each.layout.pages == each.sides <= cards.SIDES
        assert engine.clipped(each.layout) == []
        larger = each.size_pt + HALF_A_POINT
        assert larger > cards.LARGEST_PT or not fits(page, each, larger, each.sides), each.card.title
        assert each.sides == 1 or not fits(page, each, page.smallest_pt, 1), each.card.title


def test_a_card_at_two_stations_has_one_size():
    _, sets = fitted("tansywade")
    sizes = {}
    for each in sets:
        assert sizes.setdefault(each.card.blocks, each.size_pt) == each.size_pt
    assert len(sizes) < len(sets)


def test_the_estimate_of_a_procedure_is_near_what_the_engine_makes_of_it(saltmeadow):
    page, sets = saltmeadow
    for each in sets:
        if each.card.blocks[0].template == "procedure.html" and each.sides == 1:
            pieces = fitting.pieces_of(page.html([each]))
            a_line = fitting.LINE_EM * each.size_pt / (page.room_mm[1] * fitting.PT_PER_MM)
            assert fitting.sides_taken(pieces, each.size_pt, *page.room_mm) == pytest.approx(
                each.layout.filled, rel=0.03, abs=1.2 * a_line
            )  # or one line that breaks a letter earlier


def test_the_room_of_an_estimate_is_that_of_the_page(saltmeadow):
    for boat, paper in (("saltmeadow", "A4"), ("saltmeadow", "A5"), ("saltmeadow", "Letter")):
        page = saltmeadow[0] if paper == "A4" else fitted_page(boat, paper)
        sheet = page._layout(saltmeadow[1][0].card, page.smallest_pt).document.pages[0]._page_box
        assert (sheet.width * 25.4 / 96, sheet.height * 25.4 / 96) == pytest.approx(page.room_mm, abs=0.1)


def fitted_page(boat, paper):
    vessel, _ = load(VESSELS / boat)
    return Counted(Job(compose(vessel, AS_OF, AS_OF, catalogue())[0], "guest", paper))


def test_words_wrap_and_pieces_stay_whole():
    word = fitting.Text([4.0, None, 4.0, None, 4.0], 0.0, 1.2, 0.0)
    assert [word.height_em(width) for width in (12.7, 12.5, 8.4, 4.1)] == pytest.approx([1.2, 2.4, 2.4, 3.6])
    half = fitting.Piece([[word]], fixed_em=0.0, fixed_mm=60.0)
    assert fitting.sides_taken([half, half, half], 1.0, 100.0, 150.0) == pytest.approx(1.4, abs=0.01)
    headed = fitting.Piece([[word]], fixed_mm=60.0, with_next=True)
    assert fitting.sides_taken([half, headed, half], 1.0, 100.0, 150.0) == pytest.approx(1.8, abs=0.02)


def tags(pdf):
    """The kinds of the structure tree, each with those below it."""

    def below(element):
        kids = element.get("/K", [])
        kids = kids if isinstance(kids, list) else [kids]
        kids = [kid.get_object() for kid in kids]
        return [(kid["/S"], below(kid)) for kid in kids if isinstance(kid, dict) and "/S" in kid]

    return below(pdf.trailer["/Root"]["/StructTreeRoot"])


def marks_of(pdf):
    return [(each.title, pdf.get_destination_page_number(each)) for each in pdf.outline]


def test_the_cards_joined_are_the_document_they_would_be_in_one(saltmeadow):
    page, sets = saltmeadow
    written, records = engine.write(engine.join([each.layout for each in sets]), "cards.pdf")
    at_once, _ = engine.write(engine.lay_out(page.html(sets), page.sheets), "cards.pdf")
    assert records == []
    joined, whole = (pypdf.PdfReader(io.BytesIO(each)) for each in (written, at_once))
    assert [each.extract_text() for each in joined.pages] == [each.extract_text() for each in whole.pages]
    assert tags(joined) == tags(whole) != []
    assert marks_of(joined) == marks_of(whole) != []
    assert joined.metadata == whole.metadata
    for name in ("/Lang", "/MarkInfo", "/ViewerPreferences"):
        assert joined.trailer["/Root"][name] == whole.trailer["/Root"][name]
    assert [each["/StructParents"] for each in joined.pages] == list(range(len(joined.pages)))
