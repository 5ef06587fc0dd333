"""What is done in an emergency stands on one page of the book, or lies open on two: nobody turns a page in the middle of it."""

import datetime as dt
from dataclasses import replace
from pathlib import Path

import pytest

from generator.manual.composing import compose
from generator.manual.procedures import slug
from generator.outputs import Job, book
from generator.outputs.setting import one_page
from generator.outputs.setting.one_page import Setting, height_of_rem, setting_of
from generator.outputs.setting.paper import room_rem
from generator.shelves.languages import catalogue
from generator.vessel.loading import load

VESSELS = Path(__file__).resolve().parents[2] / "vessels"
AS_OF = dt.date(2026, 6, 1)
PX_A_REM = {"A4": 16.0, "A5": 9.5 / 0.75}
OFF = 0.08
"""By how much of a page the estimate is off at most: words of one line wrap in the engine and not in the estimate, or the other way round."""
SOME = (
    "distress-call",
    "man-overboard",
    "flooding",
    "grounding",
    "bleeding",
    "fire-engine",
    "skipper-down",
    "lightning",
    "raft-launch",
    "co-alarm",
)
pytestmark = [pytest.mark.thorough, pytest.mark.usefixtures("pdf_engine")]


def job_of(boat, paper):
    vessel, _ = load(VESSELS / boat)
    manual = compose(vessel, AS_OF, AS_OF, catalogue())[0]
    kept = tuple(each for each in manual.procedures if each.kind in SOME)
    linked = {each.id for each in kept}
    kept = tuple(
        replace(
            each,
            over=None,
            leaves=tuple(one for one in each.leaves if {link.id for link in one.to} <= linked),
        )
        for each in kept
    )
    return Job(replace(manual, procedures=kept), "crew", paper)


def lies_open(layout, procedure):
    first, last = (layout.page_of(name) for name in (slug(procedure.id), f"end-{slug(procedure.id)}"))
    return first == last or first % 2 == 0


@pytest.mark.parametrize(("boat", "paper"), [("saltmeadow", "A4"), ("kelpwren", "A5")])
def test_it_lies_open_and_is_as_high_as_was_thought(boat, paper):
    job = job_of(boat, paper)
    settings, layout = book.settings_of(job), book.lay_out(job)
    _, room = room_rem(paper)
    several = 0
    for procedure in job.manual.procedures:
        assert lies_open(layout, procedure), procedure.id
        setting = settings[procedure.id]
        if setting is Setting.OPENING:
            continue
        several += 1
        number = layout.page_of(slug(procedure.id))
        anchors = layout.document.pages[number - 1].anchors
        high = (anchors[f"end-{slug(procedure.id)}"][1] - anchors[slug(procedure.id)][1]) / PX_A_REM[paper]
        first = any(part.chapters[0].id == procedure.id for part in book.parts(job.manual, "crew"))
        thought = height_of_rem(procedure, paper, setting) + first * one_page.PART_MARK_REM
        assert abs(thought - high) <= OFF * room, (procedure.id, thought, high)
    assert several >= 3


@pytest.mark.parametrize(("boat", "paper"), [("nordgyllen", "A4"), ("saltmeadow", "A5")])
def test_the_words_to_say_lie_open_beside_the_distress_call(boat, paper):
    layout = book.lay_out(job_of(boat, paper))
    first, last, words = map(layout.page_of, ("distress-call", "end-distress-call", "chapter-distress"))
    assert (first % 2, words) == (0, last + 1)
    assert paper != "A4" or first == last


def test_what_was_thought_to_fit_and_does_not_gets_more_room(monkeypatch):
    job = job_of("saltmeadow", "A4")
    first, *others = job.manual.procedures
    steps = tuple(replace(step, number=number) for number, step in enumerate(first.steps * 3, 1))
    job = replace(job, manual=replace(job.manual, procedures=(replace(first, steps=steps), *others)))
    monkeypatch.setattr(book, "setting_of", lambda *_, **__: Setting.DENSE)
    layout = book.lay_out(job)
    longer = [
        each
        for each in job.manual.procedures
        if layout.page_of(slug(each.id)) != layout.page_of(f"end-{slug(each.id)}")
    ]
    assert longer
    assert all(lies_open(layout, each) for each in job.manual.procedures)


def test_type_in_the_hand_keeps_to_the_floor():
    """CAP 676 chapter 7 (secondary): 10 pt; the small book's own size is below it already, and is made no smaller."""
    job = job_of("saltmeadow", "A5")
    assert {setting_of(each, "A5", heads_part=False) for each in job.manual.procedures} <= {
        Setting.PAGE,
        Setting.TIGHT,
        Setting.OPENING,
    }
    sizes = [one_page._MEASURES[each].small * 12 for each in one_page._MEASURES]
    assert min(sizes) >= one_page.LEAST_PT
