"""The words of the trade that a vessel's file is asked in are told, and none that it is not asked in."""

import re

import pytest

from generator.__main__ import main
from generator.vessel.keys import key_blocks, words_of
from generator.vessel.terms import TERMS, used_in

SAID = [part for block in key_blocks() for part in words_of(block)]


def test_every_abbreviation_of_the_questions_is_told():
    asked = {each for part in SAID for each in re.findall(r"\b[A-Z]{3,}\b", part)}
    assert {"HRU", "DSC", "MMSI"} <= asked <= set(TERMS)


def test_every_term_is_asked_for():
    assert set(used_in(SAID)) == set(TERMS)


def test_terms_stand_in_the_order_of_the_alphabet():
    assert list(TERMS) == sorted(TERMS, key=lambda term: term.lower().replace("-", ""))


@pytest.mark.parametrize(
    ("text", "terms"),
    [
        ("Which weak links has it?", ["weak link"]),
        ("weak-link.strength", ["weak link"]),
        ("What is her mmsi?", ["MMSI"]),
        ("packed size", []),
        ("unpack it", []),
    ],
)
def test_a_term_is_found_as_a_word(text, terms):
    assert list(used_in([text])) == terms


def test_the_keys_of_a_block_are_followed_by_their_terms(capsys):
    assert main(["keys", "rafts.painter"]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert f"Words: HRU: {TERMS['HRU']}" in said.replace(f"cradle: {TERMS['cradle']} ", "")
    assert f"painter: {TERMS['painter']}" in said
    assert "seacock" not in said
