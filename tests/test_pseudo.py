"""Nothing printed stands outside the language shelf: every boat published in a pseudo-language, and what is left over.

One exception has a name: beside a deferred defect stands what the survey said of it, a quotation in English, marked so.
"""

import shutil
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from pseudo import bracketed, citations, leftover, own_words, said_in, write_language

from generator.manual.composing import compose
from generator.manual.deadlines import things
from generator.manual.printing import Printer
from generator.outputs import Job, book, cards
from generator.outputs.setting import pages
from generator.publishing import Order, survey, write
from generator.shelves.folder import templates_folder
from generator.vessel.loading import load

VESSELS = Path(__file__).resolve().parent.parent / "vessels"
SPOILT = "saltmeadow"  # her words are looked at in a file full of gaps
BOATS = sorted(path.parent.name for path in VESSELS.glob("*/vessel.yaml") if path.parent.name != SPOILT)
ON_SCREENS = ("site", "one-file", "calendar")
AS_OF, LATER = date(2026, 6, 1), date(2029, 1, 1)
pytestmark = pytest.mark.thorough


@pytest.fixture(scope="module")
def words(tmp_path_factory):
    """The pseudo-language."""
    templates = tmp_path_factory.mktemp("templates")
    shutil.copytree(templates_folder() / "text" / "en", templates / "text" / "en")
    catalogue = write_language(templates)
    assert not catalogue.findings
    return catalogue


def unexplained(vessel, words, as_of=AS_OF, only=(), deferred=None):
    """What the outputs say that is neither bracketed nor the boat's own, by file."""
    manual = replace(compose(vessel, as_of, as_of, words, proof=True)[0], deferred=deferred or {})
    known = own_words(manual) | citations(manual)
    found = {}
    written = {
        f"{output}: {name}": data
        for output, made in write(manual, Order(as_of, only=only, proof=True)).items()
        for name, data in made.files.items()
    }
    for name, data in (written | (not_laid_out(manual) if only == ON_SCREENS else {})).items():
        if left := leftover(said_in(name, data), known):
            found[name] = left
    return found


def not_laid_out(manual):
    """What book and cards say, before it is laid out."""
    page = cards._Page(Job(manual, "guest", "A4"))
    sets = [cards.Set(each, 12, 1) for each in cards.cards(manual, "guest")]
    return {
        "book: book.html": book.html(Job(manual, "crew", "A4")).encode(),
        "cards: cards.html": page.html(sets).encode(),
    }


@pytest.mark.one_in(2, "boat")
@pytest.mark.parametrize("boat", BOATS)
def test_every_printed_word_is_the_languages_or_the_boats_own(boat, words, one_in, pdf_engine):
    """What goes on paper is read before it is laid out, and of one boat in six from the paper; of all with --all-mutants."""
    from_paper = (BOATS.index(boat) + 4) % one_in(6) == 0
    assert unexplained(load(VESSELS / boat)[0], words, only=() if from_paper else ON_SCREENS) == {}


def test_a_word_planted_on_paper_is_seen_before_it_is_laid_out(words, monkeypatch):
    monkeypatch.setattr(Printer, "quantity", lambda _, value: f"about {value}")
    found = unexplained(load(VESSELS / "kelpwren")[0], words, only=ON_SCREENS)
    assert {"book: book.html", "cards: cards.html"} <= found.keys()


ODD = (  # what no specimen has: gaps, guesses, things past their dates, two bags, a stop without a name, a deferral
    ("rig: cutter", "rig: none"),
    ("mass: {value: 42 kg, from: label}", "mass: {value: 42 kg, from: assumed}"),
    ("snug: yes", "snug: unknown"),
    ("engine: inboard diesel", "engine: {value: inboard petrol, from: assumed}"),
    ("spot: on the hook beside the steps", "spot: unknown"),
    ("    carried-by: mate", "    carried-by: unknown"),
    ("size: adult, kind: inflatable", "size: unknown, kind: inflatable"),
    ("{what: engine, where: cockpit", "{what: kill cord, where: cockpit"),
    ("hose-expires: 2029-04", "hose-made: 2020-04, regulator-made: 2015-02"),
    ("  - {what: house, chemistry: AGM", "  - {what: unknown, chemistry: lithium"),
    ("phone: +44 1632 960155", "phone: unknown"),
    (
        "drills:",
        (
            "deferred-defects:\n  - {check: dates.life, item: cooking gas, reason: the new hose is ordered, who: the skipper, "
            "until: 2029-06-01}\ndrills:"
        ),
    ),
    (
        "lifejackets:\n",
        "  - {where: saloon, side: port, carried-by: cook, floats: no, lanyard: no, items: [torch]}\nlifejackets:\n",
    ),
)


@pytest.fixture
def odd_boat(tmp_path):
    """A boat whose file says what no specimen's says."""
    text = (VESSELS / SPOILT / "vessel.yaml").read_text(encoding="utf-8")
    for old, new in ODD:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    (tmp_path / "vessel.yaml").write_text(text, encoding="utf-8")
    return survey(tmp_path, "odd", Order(LATER, LATER))


def test_a_boat_full_of_gaps_prints_nothing_of_the_programs_own_either(odd_boat, words, one_in, pdf_engine):
    assert odd_boat.manual.deferred
    outputs = (*ON_SCREENS, "book") if one_in(2) == 1 else ON_SCREENS
    assert unexplained(odd_boat.vessel, words, LATER, outputs, odd_boat.manual.deferred) == {}


def test_a_word_planted_in_a_template_is_seen(words, tmp_path, monkeypatch):
    shutil.copytree(templates_folder(), tmp_path / "templates")
    page = tmp_path / "templates" / "pages" / "start.html"
    text = page.read_text(encoding="utf-8")
    page.write_text(text.replace("</header>", "<p>Stay calm</p></header>", 1), encoding="utf-8")
    monkeypatch.setattr(pages, "templates_folder", lambda: tmp_path / "templates")
    found = unexplained(load(VESSELS / "saltmeadow")[0], words, only=("site",))
    assert list(found) == ["site: index.html"]
    assert "Stay" in found["site: index.html"][0]


@pytest.mark.parametrize(
    ("method", "planted"),
    [("quantity", lambda _, value: f"about {value}"), ("choice", lambda *given: given[-1])],
)
def test_a_word_planted_in_python_is_seen(words, monkeypatch, method, planted):
    monkeypatch.setattr(Printer, method, planted)
    assert "site: vessel.html" in unexplained(load(VESSELS / "saltmeadow")[0], words, only=("site",))


def test_a_name_planted_in_the_gear_list_is_seen_in_the_calendar_too(words, monkeypatch):
    monkeypatch.setattr(things, "lifejackets_of_size", lambda _: "what keeps you afloat")
    assert "calendar: calendar.ics" in unexplained(load(VESSELS / "saltmeadow")[0], words, only=("calendar",))


def test_brackets_leave_slots_and_figures_as_they_are():
    assert bracketed("Take the {place of lifebuoy}, 2 of 3: don't wait.") == (
        "«Take» «the» {place of lifebuoy}, 2 «of» 3: «don't» «wait»."
    )


@pytest.mark.parametrize(
    ("said", "left"),
    [
        ("«Take» the torch, waterproof", ["the"]),
        ("«Take» «the» torch,\nwaterproof: 2 m (7 ft)", []),
        ("«Take» «the» torchlight", ["torchlight"]),
        ("12.0 m «long» and 3.8 m", ["and"]),
        ("S «Sierra» 7QK-4WF", []),
        ("«Car", ["«", "Car"]),
    ],
)
def test_what_is_left_over(said, left):
    found = leftover(said, ["torch, waterproof", "torch"])
    assert len(found) == len(left)
    assert all(word in near for word, near in zip(left, found, strict=True))
