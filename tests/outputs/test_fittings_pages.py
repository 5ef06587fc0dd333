"""What stands on the pages of book and site of alarms, stops, pumps, ways out, gates, the medical chest and a capsized boat."""

import html
import re
from datetime import date

import pytest
from open_boats import OPEN_BOAT, changed, surveyed
from specimens import VESSELS

from generator.outputs import Job, book, site
from generator.publishing import Order, survey


def plain(markup):
    """The words of a page, one blank between them."""
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", markup)).split())


@pytest.fixture(scope="module")
def pages():
    """The book of a specimen as words, laid out once."""
    seen = {}

    def of(name):
        if name not in seen:
            manual = survey(VESSELS / name, name, Order(date(2026, 6, 1))).manual
            seen[name] = plain(book.html(Job(manual, "crew")))
        return seen[name]

    return of


@pytest.mark.parametrize(
    ("boat", "words"),
    [
        ("ombrelune", "Alarms What Where Listens to Also heard in Last tested"),
        ("ombrelune", "smoke its own battery port hull port hull 22 May 2026"),
        ("ombrelune", "gas the boat's batteries saloon, port, beside the cooker galley, bilge 22 May 2026"),
        ("ombrelune", "water in the bilge chart table, port port engine space, starboard engine space cockpit"),
        ("ombrelune", "press both STOP buttons until the engines are silent makes a spark"),
        ("ombrelune", "through the round hole from the aft cabin without opening its space"),
        ("ombrelune", "in the clip beside it worked from on deck"),
        ("ombrelune", "port aft cabin both serves upside down"),
        ("ombrelune", "Full of water level Buoyancy in forepeak Turned upright by her people no"),
        ("ombrelune", "To hold on to upside down the line along each keel Reached upside down the raft"),
        ("saltmeadow", "in the clip beside it not worked from on deck"),
        ("saltmeadow", "Gate to open the gate on the lee side (side deck): let the hook of both wires go"),
        ("saltmeadow", "Chest first-aid chest in the saloon, starboard locker; anyone may open it"),
        ("nordgyllen", "Gate to open the boarding gate (side deck, starboard): lift the pin and swing it inboard"),
        ("nordgyllen", "Chest the medical chest (aft cabin, starboard) May be opened by skipper, mate Key"),
        ("nordgyllen", "Medical advice the rescue centre, on VHF 16 or 2182 kHz"),
        ("nordgyllen", "strapped below the first-aid kit Lasts: 40 min"),
        ("nordgyllen", "defibrillator, with spare pads · pads"),
    ],
)  # fmt: skip
def test_the_book_says(pages, boat, words):
    assert words in pages(boat)


def test_a_guest_reads_what_to_hold_on_to(tmp_path):
    text = changed(OPEN_BOAT, ("capsize: {swamped: level}", "capsize: {swamped: gunwale awash, hold-on: [{what: the line, where: gunwale}]}"))  # fmt: skip
    manual = surveyed(text, tmp_path).manual
    made = site.write(Job(manual, "guest"))
    page = plain(made.files["vessel.html"].decode())
    assert "Full of water with the gunwale awash To hold on to upside down the line (gunwale)" in page


@pytest.mark.parametrize(
    ("boat", "names"),
    [
        ("ombrelune", ("smoke alarm, port hull", "gas alarm", "bilge alarm")),
        ("nordgyllen", ("defibrillator, with spare pads", "medical oxygen")),
    ],
)
def test_alarms_and_the_defibrillator_are_on_the_plan(boat, names):
    manual = survey(VESSELS / boat, boat, Order(date(2026, 6, 1))).manual
    numbers = {item.what: item.number for item in manual.items}
    for name in names:
        assert f">{numbers[name]}</text>" in manual.plan.svg
        assert numbers[name] not in {item.number for item in manual.plan.unplaced}


@pytest.mark.parametrize(("key", "words"), [("hull-colour: grey", "grey"), ("call-sign: EIXZ7", "EIXZ7")])
def test_what_is_not_known_is_not_spoken_on_the_radio(key, words, tmp_path):
    """Nobody says "not known" into a distress call; it is the same whether the key says unknown or is left out."""
    spoken = {}
    for name, line in (("told", key), ("unknown", f"{key.partition(':')[0]}: unknown"), ("left out", "")):
        (tmp_path / name).mkdir()
        manual = surveyed(
            changed(OPEN_BOAT, (f"  {key}\n", f"  {line}\n" if line else "")), tmp_path / name
        ).manual
        on_paper = plain(
            re.search(r'<div class="script">.*?</p>\s*</div>', book.html(Job(manual, "crew")), re.DOTALL)[0]
        )
        page = plain(
            site.write(Job(manual, "guest"))
            .files["distress-call.html"]
            .decode()
            .partition('class="lines"')[2]
            .partition("</ol>")[0]
        )
        spoken[name] = on_paper + page
    assert words in spoken["told"] and "She is: open boat, 7 m" in spoken["told"]
    assert spoken["unknown"] == spoken["left out"]
    assert "not known" not in spoken["unknown"] and words not in spoken["unknown"]
