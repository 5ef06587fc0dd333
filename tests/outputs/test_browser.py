"""The site in a real browser: opened from a folder, on a phone and on a desk, with scripts on and off, and on paper."""

import datetime as dt
import io
import re
from pathlib import Path

import pytest

from generator.machine.fonts import FAMILY
from generator.manual.composing import compose
from generator.outputs import Job, one_file, site
from generator.shelves.languages import catalogue
from generator.vessel.loading import load

VESSELS = Path(__file__).resolve().parents[2] / "vessels"
AS_OF = dt.date(2026, 6, 1)
PHONE, DESK = (390, 844), (1280, 800)
A4_INSIDE_MARGINS_PX = 665  # 210 mm less the margins of the print style, at 96 px an inch
LEAST_CONTRAST = 4.5  # WCAG 2.2, 1.4.3, for text
LEAST_TARGET_PX, LEAST_LETTERS_PX = 48, 18
SEEN_ON_A_PHONE = 20  # of the emergencies, by need: more than that no thumb could tell apart on one screen

CONTRASTS = """() => {
  const light = text => { const c = text.match(/[\\d.]+/g).map(Number); if (c.length > 3 && c[3] === 0) return null;
    const [r, g, b] = c.map(v => (v /= 255) <= .04045 ? v / 12.92 : ((v + .055) / 1.055) ** 2.4);
    return .2126 * r + .7152 * g + .0722 * b; };
  const found = [];
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walk.nextNode(); node; node = walk.nextNode()) {
    const element = node.parentElement;
    if (!node.data.trim() || element.closest('svg') || !element.checkVisibility()) continue;
    let under = element, paper = null;
    while (under && (paper = light(getComputedStyle(under).backgroundColor)) === null) under = under.parentElement;
    const ink = light(getComputedStyle(element).color); paper = paper ?? 1;
    found.push([node.data.trim().slice(0, 40), (Math.max(ink, paper) + .05) / (Math.min(ink, paper) + .05),
                parseFloat(getComputedStyle(element).fontSize)]);
  }
  return found;
}"""
TARGETS = """() => [...document.querySelectorAll('a')].filter(a => a.checkVisibility() && !a.matches('.skip'))
  .map(a => [a.textContent.trim() || a.getAttribute('aria-label'), a.getBoundingClientRect().width, a.getBoundingClientRect().height])"""
OVERFLOW = "() => document.scrollingElement.scrollWidth - innerWidth"
CUT = """() => [...document.querySelectorAll('main *')].filter(e => !e.closest('svg') && e.checkVisibility()
  && e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).display !== 'inline' && !e.matches('.unseen')).map(e => e.outerHTML.slice(0, 90))"""


@pytest.fixture(scope="module")
def manual():
    vessel, _ = load(VESSELS / "saltmeadow")
    return compose(vessel, AS_OF, AS_OF, catalogue())[0]


@pytest.fixture(scope="module")
def folder(manual, tmp_path_factory):
    """The guest's site and the manual in one file, in a folder with a blank in its name, as on a stick."""
    root = tmp_path_factory.mktemp("a stick") / "guest"
    for name, content in {
        **site.write(Job(manual, "guest")).files,
        **one_file.write(Job(manual, "guest")).files,
    }.items():
        path = root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    return root


@pytest.fixture
def look(browser):
    """Opens a page without a network; at the end nothing may have been asked for elsewhere, failed or complained."""
    contexts, wrong = [], []

    def opened(path, size=PHONE, *, scripts=True, **options):
        context = browser.new_context(
            viewport=dict(zip(("width", "height"), size, strict=True)),
            java_script_enabled=scripts,
            offline=True,
            **options,
        )
        contexts.append(context)
        page = context.new_page()
        page.on(
            "request",
            lambda request: (
                wrong.append(request.url) if not request.url.startswith(("file:", "data:")) else None
            ),
        )
        # a page left before its fonts have come takes its requests back: that is no failure
        page.on(
            "requestfailed",
            lambda request: (
                wrong.append(f"failed: {request.url}")
                if request.failure != "net::ERR_ABORTED" and request.url != page.url
                else None
            ),
        )
        # some versions' inspector asks for the page's own source again, which a file may not be asked for: page.goto fails by itself
        page.on(
            "console",
            lambda message: (
                wrong.append(message.text)
                if message.type in ("error", "warning")
                and not message.text.startswith(
                    f"Unsafe attempt to load URL {page.url} from frame with URL {page.url}"
                )
                else None
            ),
        )
        page.on("pageerror", lambda error: wrong.append(str(error)))
        page.goto(path.as_uri())
        return page

    yield opened
    for context in contexts:
        context.close()
    assert not wrong


@pytest.fixture(scope="module")
def names(folder):
    return sorted(path.name for path in folder.glob("*.html"))


@pytest.mark.parametrize("size", [PHONE, DESK], ids=["phone", "desk"])
@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_no_page_is_wider_than_the_screen(look, folder, names, size, scripts):
    page = look(folder / "index.html", size, scripts=scripts)
    for name in names:
        page.goto((folder / name).as_uri())
        assert page.evaluate(OVERFLOW) <= 0, name
        if size == PHONE:
            assert not page.evaluate(CUT), name


@pytest.mark.parametrize("size", [PHONE, DESK], ids=["phone", "desk"])
@pytest.mark.parametrize("file", ["index.html", "manual.html"])
def test_each_emergency_is_one_tap_from_the_front_page(look, folder, manual, size, file, one_in):
    """In the one file, which takes a while to open, one in six is tapped; with --all-mutants each."""
    page = look(folder / file, size, scripts=False, has_touch=True)
    tapped = one_in(12) if file == "manual.html" else 1
    emergencies = [one for one in manual.procedures if one.emergency]
    titles = page.locator("#start .plates").first.locator(".title").all_inner_texts()
    assert titles == [one.title for one in emergencies], "in the order of need, nothing between them"
    plates = [
        page.locator("#start .plate", has=page.get_by_text(one.title, exact=True)) for one in emergencies
    ]
    for number, (procedure, plate) in enumerate(zip(emergencies, plates, strict=True)):
        box = plate.bounding_box()
        bottom = box["y"] + box["height"]
        if size == DESK or number < SEEN_ON_A_PHONE:
            assert bottom <= size[1], f"{procedure.title} is seen without scrolling"
        assert bottom <= 2 * size[1], f"{procedure.title} is seen on the next screen"
    for procedure, plate in list(zip(emergencies, plates, strict=True))[::tapped]:
        page.goto((folder / file).as_uri())
        plate.tap()
        head = page.locator(f"article#{procedure.id} h1")
        head.wait_for()
        page.wait_for_load_state("load")
        assert head.inner_text() == procedure.title
        assert -1 <= head.bounding_box()["y"] < size[1] / 2, "its first words are at the top of the screen"


def test_from_every_page_the_start_and_every_emergency_are_one_tap_away(look, folder, manual, names):
    page = look(folder / "index.html", scripts=False)
    wanted = {f"{one.id}.html" for one in manual.procedures if one.emergency} | {"index.html"}
    for name in set(names) - {"manual.html", "index.html"}:
        page.goto((folder / name).as_uri())
        seen = page.evaluate(
            "() => [...document.querySelectorAll('a')].filter(a => a.checkVisibility()).map(a => a.getAttribute('href'))"
        )
        assert wanted - {name} <= set(seen), name


@pytest.mark.parametrize("file", ["index.html", "fire.html", "plan.html", "manual.html"])
def test_every_letter_is_drawn_from_our_family(look, folder, file):
    page = look(folder / file)
    page.evaluate("() => document.fonts.ready.then(() => true)")
    assert page.evaluate(f"() => document.fonts.check('700 20px \"{FAMILY}\"')")
    assert page.evaluate("() => [...document.fonts].filter(f => f.status === 'error').length") == 0
    session = page.context.new_cdp_session(page)
    session.send("DOM.enable")
    session.send("CSS.enable")
    root = session.send("DOM.getDocument", {"depth": -1})["root"]
    main = session.send("DOM.querySelector", {"nodeId": root["nodeId"], "selector": "main"})["nodeId"]
    used = []
    for node in session.send(
        "DOM.querySelectorAll", {"nodeId": main, "selector": "h1, h2, p, strong, td, dd, svg text"}
    )["nodeIds"][:150]:
        used += session.send("CSS.getPlatformFontsForNode", {"nodeId": node})["fonts"]
    assert used
    assert all(font["isCustomFont"] and font["familyName"].startswith(FAMILY) for font in used), used


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_words_are_large_and_stand_out(look, folder, names, scheme):
    page = look(folder / "index.html", color_scheme=scheme)
    for name in names:
        page.goto((folder / name).as_uri())
        found = page.evaluate(CONTRASTS)
        assert found
        assert not [each for each in found if each[1] < LEAST_CONTRAST], name
        assert not [each for each in found if each[2] < LEAST_LETTERS_PX], name


def test_what_is_tapped_is_large_enough_for_a_wet_thumb(look, folder, names):
    page = look(folder / "index.html", has_touch=True)
    for name in set(names) - {"manual.html"}:
        page.goto((folder / name).as_uri())
        small = [each for each in page.evaluate(TARGETS) if min(each[1:]) < LEAST_TARGET_PX - 0.5]
        assert not small, name


def test_the_keyboard_shows_where_it_is_and_reaches_the_first_emergency(look, folder):
    page = look(folder / "index.html", DESK, scripts=False)
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    focused = page.evaluate(
        "() => { const e = document.activeElement, s = getComputedStyle(e);"
        " return [e.className, s.outlineStyle, parseFloat(s.outlineWidth)]; }"
    )
    assert focused == ["plate", "solid", 4]
    page.keyboard.press("Enter")
    page.wait_for_url("**/distress-call.html")


def test_a_tap_on_the_plan_makes_it_larger_and_back(look, folder):
    page = look(folder / "plan.html", scripts=False, has_touch=True)
    drawing = page.locator("#plan-narrow svg")
    before = drawing.bounding_box()["width"]
    page.locator("#plan-narrow .larger").tap(position={"x": 150, "y": 60})
    assert drawing.bounding_box()["width"] > 2 * before
    assert page.evaluate(OVERFLOW) <= 0
    page.locator("#plan-narrow .smaller").tap()
    assert drawing.bounding_box()["width"] == before


def test_no_meaning_hangs_on_red_or_green_alone(look, folder, manual):
    page = look(folder / "index.html", scripts=False)
    for procedure in manual.procedures:
        plate = page.locator("#start .plate", has=page.get_by_text(procedure.title, exact=True))
        assert plate.locator(".ground svg").count() == 1, "the ground carries a symbol"
        assert plate.locator(".title").inner_text() == procedure.title
        assert (
            page.evaluate("e => getComputedStyle(e).color", plate.locator(".title").element_handle())
            == "rgb(0, 0, 0)"
        )
    reds = page.evaluate("() => [...document.querySelectorAll('.ground-fire .ground')].length")
    fires = [one.id for one in manual.procedures if one.ground == "fire"]
    assert reds == len(fires) and fires == [one.id for one in manual.procedures if one.id.startswith("fire")]


def read_back(pdf):
    pypdf = pytest.importorskip("pypdf", reason="needs tool: pypdf")
    return [" ".join(page.extract_text().split()) for page in pypdf.PdfReader(io.BytesIO(pdf)).pages]


def letters(text):
    """Letters and figures only: a printed line may break inside a word pair."""
    return re.sub(r"\W+", "", text).lower()


def test_on_paper_nothing_is_cut_and_every_step_is_there(look, folder, manual):
    page = look(folder / "manual.html", (A4_INSIDE_MARGINS_PX, 1000))
    page.emulate_media(media="print")
    assert page.evaluate(OVERFLOW) <= 0
    assert not page.evaluate(CUT)
    sheets = read_back(page.pdf(format="A4", prefer_css_page_size=True, print_background=False))
    whole = letters(" ".join(sheets))
    for procedure in manual.procedures:
        assert sum(letters(procedure.title) in letters(sheet)[:200] for sheet in sheets), procedure.id
        for step in procedure.steps:
            for words in (step.text, step.unless, step.caution):
                assert letters(words) in whole, (procedure.id, step.id)
    say, day = manual.printer.say, manual.printer.day
    assert whole.count(letters(say("mark.surveyed-on", date=day(AS_OF)))) == len(site.screens(manual))
    assert letters(say("site.back-to-start")) not in whole, "what can only be tapped is not printed"


def test_each_procedure_begins_on_a_sheet_of_its_own(look, folder, manual):
    page = look(folder / "manual.html", DESK)
    sheets = [letters(sheet) for sheet in read_back(page.pdf(format="A4", prefer_css_page_size=True))]
    start = letters(manual.vessel.vessel.name + manual.catalogue.say("mark.specimen"))
    for procedure in manual.procedures:
        assert any(sheet.startswith(start + letters(procedure.title)) for sheet in sheets), procedure.id


def test_a_single_page_prints_too(look, folder):
    page = look(folder / "fire.html", scripts=False)
    for paper in ("A4", "Letter", "A5"):
        sheets = read_back(page.pdf(format=paper))
        assert 1 <= len(sheets) <= 8
