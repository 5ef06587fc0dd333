"""Whom a remedy offers: only who may have it, by age, by what each can do, and by what they have already; and dates that pass."""

import re
from datetime import date

import pytest
from boat_file import SOUND
from open_boats import surveyed

from generator.reading.values import Stamp
from generator.survey.lines import _month

PEOPLE = """\
people:
  - {role: skipper, abilities: [command, radio, engine], lifts: 30 kg}
  - {role: mate, abilities: [command, radio, first aid], lifts: 20 kg}
  - {role: grandson, age: 6, lifejacket: child}
"""


def family(more=lambda text: text):
    """A sound boat with two grown-ups and a small child, who have the duties of everybody else."""
    text = re.sub(r"(?m)^people:\n(?:[ #].*\n|\n)*", PEOPLE + "\n", SOUND)
    return more(text)


def found(tmp_path, text, check):
    return [each for each in surveyed(text, tmp_path).findings if each.check == check]


def bag(text):
    return re.sub(r"carried-by: [\w ]+", "carried-by: stoker", text)


def test_nobody_small_is_offered_to_carry_the_bag(tmp_path):
    (one,) = found(tmp_path, family(bag), "gear.carrier")
    assert "skipper" in one.remedy
    assert "grandson" not in one.remedy


def launched_by_both(text, substitute=""):
    bill = "  abandon-ship:\n    launch: {who: [skipper, mate]" + substitute + "}\n"
    return re.sub(r"(?m)^station-bill:\n(?:[ #].*\n|\n)*", "station-bill:\n" + bill + "\n", text)


@pytest.mark.parametrize("substitute", ["", ", substitute: none"])
def test_two_grown_ups_who_both_launch_need_no_third(tmp_path, substitute):
    text = family(lambda text: launched_by_both(text, substitute))
    assert found(tmp_path, text, "bill.no-substitute") == []
    grown = text.replace("age: 6, lifejacket: child", "age: 30")
    assert [each.item for each in found(tmp_path, grown, "bill.no-substitute")] == ["abandon-ship, launch"]


def test_for_a_duty_only_those_are_offered_who_may_have_it(tmp_path):
    text = family(lambda text: launched_by_both(text, ", substitute: cook"))
    (one,) = [
        each for each in found(tmp_path, text, "bill.unknown-person") if each.item == "abandon-ship, launch"
    ]
    assert one.remedy == "nobody else aboard may have it: write substitute: none"
    alone = text.replace("who: [skipper, mate]", "who: skipper")
    (one,) = [
        each for each in found(tmp_path, alone, "bill.unknown-person") if each.item == "abandon-ship, launch"
    ]
    assert "mate" in one.remedy
    assert "grandson" not in one.remedy


@pytest.mark.parametrize(
    ("failed", "as_of", "told"),
    [
        ((2026, 3), date(2026, 11, 26), "2027-03"),
        ((2026, 11), date(2026, 11, 26), "2027-11"),
        ((2019, 1), date(2026, 11, 26), "2027-01"),
    ],
)
def test_a_date_that_is_offered_is_later_than_the_one_that_failed(failed, as_of, told):
    assert _month("next-service", Stamp(*failed), as_of) == told
