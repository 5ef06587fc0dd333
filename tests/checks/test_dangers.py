"""Dangerous deeds in words of her own: each is told in many wordings, and honest words of the same things are left alone."""

import re

import pytest
from deeds_honest import HONEST
from deeds_honest_too import HONEST_TOO
from deeds_told import DANGEROUS

from generator.checks.words.dangers import _told_in, told
from generator.shelves.deeds import DEEDS, deeds
from generator.shelves.folder import templates_folder
from generator.shelves.handling import HANDLED, HANDLING, handled


@pytest.mark.parametrize(("beside", "words"), DANGEROUS, ids=lambda each: each)
def test_a_dangerous_deed_is_told(beside, words):
    assert told(words, beside, deeds()) is not None


@pytest.mark.parametrize(("beside", "words"), [*HONEST, *HONEST_TOO], ids=lambda each: each)
def test_honest_words_are_left_alone(beside, words):
    assert told(words, beside, deeds()) is None


@pytest.mark.parametrize(
    ("beside", "words"), [each for each in DANGEROUS if ":" not in each[1]], ids=lambda each: each
)
def test_whoever_forbids_it_is_left_alone(beside, words):
    assert told(f"Never {words[:1].lower()}{words[1:].partition('. ')[0]}", beside, deeds()) is None


def test_of_several_deeds_the_first_of_the_shelf_is_told_whatever_order_sets_have():
    several = 0
    for _, words in DANGEROUS:
        if not re.search(r"[.;!?] ", words):
            orders = [form.order for form, _ in _told_in(words, deeds())]
            assert orders == sorted(orders), words
            several += len(orders) > 1
    assert several > 10


def test_every_danger_is_told_in_one_wording_at_least():
    found = {told(words, beside, deeds()).danger.danger for beside, words in DANGEROUS}
    shelf = {each.danger for file in DEEDS.files() for each in file.block.dangers}
    assert shelf == found


@pytest.mark.parametrize(
    ("shelf", "old", "new", "message"),
    [
        (DEEDS, "THROW ~ WATER .. ON ~ FAT", "THROW ~ WATERS .. ON ~ FAT", "no words are called 'WATERS'"),
        (DEEDS, "{name: RUB,", "{name: RUBS,", "no words are called 'RUB'"),
        (DEEDS, "{name: HURRIES,", "{name: HASTENS,", "no words are called 'HURRIES'"),
        (HANDLING, '"LIFTS NOBODY"', '"guardwire"', "nothing asks for 'LIFTS NOBODY'"),
        (HANDLING, "handled: hatch", "handled: gate", "gate"),
    ],
)
def test_a_shelf_that_does_not_hold_together_says_so(shelf, old, new, message):
    text = (templates_folder() / shelf.pattern).read_text(encoding="utf-8")
    assert old in text
    file, found = shelf.read_text(text.replace(old, new, 1), shelf.pattern)
    told_of = [*found, *(shelf.holds_together((file,)) if file else ())]
    assert any(message in each.message for each in told_of)


def test_all_that_is_worked_stands_on_the_shelf():
    assert all(handled(each) for each in HANDLED)
