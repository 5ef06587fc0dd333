"""The form of emergencies as composed for a boat: in order of need, left for what she has, over when it is, printed so everywhere."""

import datetime as dt
from dataclasses import replace
from pathlib import Path

import pytest

from generator.manual.composing import compose
from generator.manual.emergencies import in_order_of_need
from generator.manual.procedures import compose_procedures
from generator.manual.reckoning import Reckoning
from generator.outputs import Job, book, one_file, site
from generator.shelves.languages import catalogue
from generator.shelves.procedures import shelf
from generator.vessel.loading import load

VESSELS = Path(__file__).resolve().parent.parent / "vessels"
DAY = dt.date(2026, 6, 1)
KINDS = {one.id: one for one in shelf()}


def composed(name, **raft):
    """The procedures of a specimen by id, in their order; values of her first raft overridden."""
    vessel, _ = load(VESSELS / name)
    if raft:
        vessel.rafts[0].__dict__.update(raft)
    procedures, gaps = compose_procedures(Reckoning(vessel), catalogue())
    assert gaps == []
    return {one.id: one for one in procedures}


def need(one, facts):
    """By what an emergency is ranked."""
    form = KINDS[one.kind].form
    likely = any(facts[name] for name in form.likely_where if not name.startswith("not "))
    likely |= any(not facts[name[4:]] for name in form.likely_where if name.startswith("not "))
    return form.urgency, not likely, KINDS[one.kind].order


@pytest.mark.parametrize("name", ["saltmeadow", "ombrelune", "zilte-wind", "kelpwren"])
def test_emergencies_come_by_urgency_then_likelihood_then_order(name):
    vessel, _ = load(VESSELS / name)
    facts = Reckoning(vessel).facts
    ranks = [need(one, facts) for one in composed(name).values() if one.emergency]
    assert len(ranks) > 3
    assert ranks == sorted(ranks)


def test_what_is_likelier_for_her_comes_first():
    found = tuple(composed("saltmeadow").values())
    facts = Reckoning(load(VESSELS / "saltmeadow")[0]).facts
    names = ("sails", "inboard engine", "fuel-burning cooker", "petrol", "lithium")
    asked = {"sails": ["collision", "fire-galley"], "fuel-burning cooker": ["fire-galley", "collision"]}
    for so, wanted in asked.items():
        ordered = in_order_of_need(found, facts | dict.fromkeys(names, False) | {so: True})
        assert [one.id for one in ordered if one.id in wanted] == wanted


def test_what_follows_an_emergency_stands_behind_it_and_what_follows_all_stands_last():
    names = list(composed("saltmeadow"))
    at = names.index("man-overboard")
    assert names[at + 1 : at + 3] == ["man-overboard-return", "back-aboard"]
    for first, second in (("fire", "fire-starve"), ("flooding", "flooding-rises"), ("gas", "gas-air")):
        assert names.index(second) == names.index(first) + 1
    assert names.index("raft-launch") > names.index("abandon-ship")
    assert names[-1] == "stand-down"
    launch = [name for name in composed("nordgyllen") if name.startswith("raft-launch")]
    assert launch == ["raft-launch-port-liferaft", "raft-launch-starboard-liferaft"]


def test_a_card_is_left_for_what_she_has():
    def to(procedure):
        return [[link.id for link in leave.to] for leave in procedure.leaves]

    assert to(composed("saltmeadow")["leaving"]) == [["raft-launch"], ["raft-gone"], ["man-overboard"]]
    assert to(composed("saltmeadow")["abandon-ship"]) == [["ready-to-leave"], ["leaving"], ["upside-down"]]
    both = ["raft-launch-port-liferaft", "raft-launch-starboard-liferaft"]
    assert to(composed("nordgyllen")["leaving"])[0] == both, "whoever reads chooses"
    first = to(composed("nordgyllen", first_to_launch=1)["leaving"])
    assert first[0] == both[:1]
    gone = ["raft-gone-port-liferaft", "raft-gone-starboard-liferaft"]
    assert first[1] == gone, "either may be the one that is gone"
    own = [["raft-inflate-starboard-liferaft"], gone[1:]]
    assert to(composed("nordgyllen")["raft-trouble-starboard-liferaft"]) == own
    without = [["ready-to-leave"], ["into-the-water"], ["full-of-water"], ["upside-down"]]
    assert to(composed("tansywade")["abandon-ship"]) == without, "she has no raft"
    assert to(composed("tansywade")["ready-to-leave"]) == [["into-the-water"], ["man-overboard"]]
    for name in ("saltmeadow", "nordgyllen", "ombrelune", "tansywade"):
        there = composed(name)
        titles = {one.id: one.title for one in there.values()}
        for one in there.values():
            assert all(titles[link.id] == link.title for leave in one.leaves for link in leave.to)
            assert all(leave.to for leave in one.leaves)


def test_the_end_is_said_in_words_that_are_true_for_her():
    assert "everybody" in composed("saltmeadow")["abandon-ship"].end.words
    vessel, _ = load(VESSELS / "saltmeadow")
    vessel.vessel.__dict__["persons"] = 1
    alone = {one.id: one for one in compose_procedures(Reckoning(vessel), catalogue())[0]}
    assert alone["abandon-ship"].end.words.endswith("or you have left it.")
    for one in composed("saltmeadow").values():
        assert (one.over is not None) == (one.end is not None)
        if one.emergency:
            assert (one.over.id, one.over.title) == ("stand-down", "When it is over")


def test_the_first_minute_ends_where_the_next_part_begins():
    one = composed("saltmeadow")["flooding"]
    phases = {step.id: step.phase for step in KINDS["flooding"].steps}
    last = KINDS["flooding"].form.first_minute
    assert [phases[step.id] <= last for step in one.steps] == [step.number < one.then for step in one.steps]
    assert 1 < one.then < len(one.steps)
    assert replace(one, first_minute=0).then == 0
    assert replace(one, first_minute=len(one.steps)).then == 0, (
        "where nothing comes then, nothing is told apart"
    )


def test_the_site_prints_the_form():
    manual = compose(load(VESSELS / "saltmeadow")[0], DAY, DAY, catalogue())[0]
    page = site.write(Job(manual, "guest")).files["flooding.html"].decode()
    one = next(each for each in manual.procedures if each.id == "flooding")
    wanted = [
        one.title,
        one.intro,
        "In the first minute",
        f'id="flooding-step-{one.then}"',
        ">Then<",
        one.steps[-1].text,
        one.leaves[0].words,
        'href="flooding-rises.html"',
        one.end.words,
        'href="stand-down.html"',
    ]
    places = [page.index(each, page.index("<h1>")) for each in wanted]
    assert places == sorted(places)
    sources = site.write(Job(manual, "guest")).files["sources.html"].decode()
    assert one.leaves[0].words in sources
    assert one.end.words in sources
    whole = one_file.write(Job(manual, "guest")).files[one_file.FILE].decode()
    assert 'href="#stand-down"' in whole


def test_the_first_page_of_the_book_leads_to_all_however_many_there_are():
    manual = compose(load(VESSELS / "saltmeadow")[0], DAY, DAY, catalogue())[0]
    emergencies = [one for one in manual.procedures if one.emergency]
    more = tuple(
        replace(one, id=f"{one.id}-{number}", call_script=False) for number in range(5) for one in emergencies
    )
    few = tuple(one for one in manual.procedures if one not in emergencies[6:])
    for procedures, shown in ((few, "choices"), ((*manual.procedures, *more), "choices many most")):
        text = book.html(Job(replace(manual, procedures=procedures), "crew"))
        assert f'<div class="{shown}">' in text
        for one in (each for each in procedures if each.emergency):
            assert f'<a href="#{one.id}">{one.title}</a>' in text


@pytest.mark.thorough
def test_book_and_cards_print_the_form(specimen):
    published, there = specimen("saltmeadow"), composed("saltmeadow")
    one, back, over = there["flooding"], there["flooding-rises"], there["stand-down"]
    leaves = f"{one.leaves[0].words} {back.title}"
    said = [one.intro, "In the first minute", one.steps[0].text, "Then", leaves, one.end.words]
    said = ["".join(each.split()) for each in said]
    printed = "".join("".join(published.texts("guest/cards.pdf")).split())
    start = printed.index(said[0])
    places = [printed.index(each, start) for each in said]
    assert places == sorted(places)
    pages = ["".join(text.split()) for text in published.texts("crew/book.pdf")]
    for words, other in ((said[4], back), (f"{said[5]}{over.title}", over)):
        page = next(number for number, text in enumerate(pages, 1) if "".join(other.intro.split()) in text)
        assert any(f"{''.join(words.split())}Page{page}" in text for text in pages), (words, page)
