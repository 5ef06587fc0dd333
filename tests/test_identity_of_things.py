"""Things of one name keep their own dates from the file to book, site, calendar and rule sets."""

import re
from datetime import date

import pytest
from checks.survey_patch import VESSELS

from generator.manual.carriage import compare
from generator.manual.composing import compose
from generator.manual.printing import first_printer
from generator.manual.reckoning import Reckoning
from generator.outputs import Job, book, site
from generator.shelves.languages import catalogue
from generator.vessel.loading import load

AS_OF = date(2026, 6, 1)
SOONER, LATER = date(2029, 3, 31), date(2031, 5, 31)
TWO = """\
  - {what: fire extinguisher, kind: fire, quantity: 1, where: saloon, side: port, expires: 2029-03}
  - {what: fire extinguisher, kind: fire, quantity: 1, where: cockpit, side: port, expires: 2031-05}
"""


@pytest.fixture(scope="module")
def vessel(tmp_path_factory):
    text = (VESSELS / "saltmeadow" / "vessel.yaml").read_text(encoding="utf-8")
    text = text.replace("\ngear:\n", f"\ngear:\n{TWO}", 1)
    folder = tmp_path_factory.mktemp("boat")
    (folder / "vessel.yaml").write_text(text, encoding="utf-8")
    made, _ = load(folder, "boat")
    assert [each.where for each in made.gear][:2] == ["saloon", "cockpit"]
    return made


@pytest.fixture(scope="module")
def manual(vessel):
    return compose(vessel, AS_OF, AS_OF, catalogue())[0]


def pair(manual):
    return [item for item in manual.items if item.what == "fire extinguisher"][-2:]


def test_both_have_one_name_and_one_path(manual):
    first, second = pair(manual)
    assert first.block.path == second.block.path
    assert first.block is not second.block


def test_each_has_its_own_deadline(manual):
    first, second = pair(manual)
    assert [each.last_day for each in manual.deadlines_for(first)] == [SOONER]
    assert [each.last_day for each in manual.deadlines_for(second)] == [LATER]


def test_only_the_one_past_its_date_is_expired(vessel):
    day = date(2030, 1, 1)
    manual, _ = compose(vessel, day, day, catalogue())
    assert [manual.expired(item) for item in pair(manual)] == [True, False]


def test_only_the_one_in_date_counts_for_a_rule_set(vessel):
    counted = {}
    for day in (AS_OF, date(2030, 1, 1), date(2032, 1, 1)):
        rows = [row for row in compare(Reckoning(vessel), day) if row.rule.counts == ("fire extinguisher",)]
        assert rows, "no rule set asks for extinguishers any more"
        named = [thing for thing in rows[0].things if thing.what == "fire extinguisher"]
        counted[day] = sorted(each.last_day for each in named)
    assert list(counted.values()) == [[SOONER, LATER], [LATER], []]


def said_at(html, item, upto):
    """The text from the line of an item of the gear list to the next."""
    at = html.index(item)
    return re.sub(r"<[^>]+>", " ", html[at : html.index(upto, at + 1)])


def test_the_site_prints_each_its_own_date(manual):
    page = next(
        text for name, text in site.write(Job(manual, "guest")).files.items() if name == "gear.html"
    ).decode()
    for item, day in zip(pair(manual), (SOONER, LATER), strict=True):
        assert first_printer().day(day) in said_at(page, f'id="gear-{item.number}"', "</tr>")


def test_the_book_prints_each_its_own_date(manual):
    text = book.html(Job(manual, "crew"))
    rows = [row for row in re.findall(r"<tr>.*?</tr>", text, re.DOTALL) if "<b>fire extinguisher</b>" in row]
    assert [next(day for day in (SOONER, LATER) if first_printer().day(day) in row) for row in rows[-2:]] == [
        SOONER,
        LATER,
    ]


def test_a_copy_for_a_reader_is_still_the_same_thing(vessel, manual):
    for reader in ("guest", "shore", "crew"):
        seen = vessel.seen_by(reader).seen_by("guest")
        for own, copy in zip(vessel.gear, seen.gear, strict=True):
            assert copy.original is own
            assert copy is not own
        assert all(each.original is not each for each in seen.inner())
    assert vessel.original is vessel


def test_what_lies_in_a_bag_is_dated_on_the_line_of_the_bag(manual):
    bag = next(item for item in manual.items if item.what == "grab bag")
    inside = {id(each) for each in bag.block.items}
    found = manual.deadlines_for(bag)
    assert found
    assert all(id(each.thing.block) in inside for each in found)
