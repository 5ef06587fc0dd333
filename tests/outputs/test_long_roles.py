"""A role of one long word, up to the longest that the field takes, is broken in the bill's column and runs out of none."""

import re

import pytest
from open_boats import OPEN_BOAT, surveyed

from generator.outputs import Job, book, cards
from generator.outputs.setting.pages import MOST_LETTERS, SOFT_HYPHEN, breakable
from generator.reading.letters import LONGEST_WORD


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("skipper", "skipper"),
        ("granddaughter", "grandda|ughter"),
        ("mate of the watch", "mate of the watch"),
        ("deckhand 12", "deckhand 12"),
        ("a" * 23, "aaaaaaaa|aaaaaaaa|aaaaaaa"),
    ],
)
def test_long_words_are_broken_in_parts_of_one_length(text, told):
    assert breakable(text) == told.replace("|", SOFT_HYPHEN)
    assert max(map(len, re.split(rf"[{SOFT_HYPHEN} ]", breakable(text)))) <= MOST_LETTERS


@pytest.mark.thorough
@pytest.mark.parametrize("output", [book, cards], ids=lambda each: each.__name__.rpartition(".")[2])
def test_the_longest_role_stays_on_the_paper(output, tmp_path):
    roles = re.findall(r"role: ([\w ]+)", OPEN_BOAT)
    long = ("Grandmother" * 6)[:LONGEST_WORD]
    text = re.sub(rf"\b{roles[-1]}\b", long, OPEN_BOAT)
    boat = surveyed(text, tmp_path)
    made = output.write(Job(boat.manual, "guest", "A5"))
    assert [
        each.kind for each in made.records if each.kind in ("clipped-text", "missing-glyph", "engine-warning")
    ] == []
