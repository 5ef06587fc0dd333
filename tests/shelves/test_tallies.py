"""The tally of a file: every optional key, every entry, word and name is counted, wherever it stands."""

import pytest
from shelves.tallies import renewed

from generator.reading.block import Block
from generator.reading.fields import Many, Named, One, Text, Texts
from generator.shelves.shelf import Shelf, Tallied


class Inner(Block):
    called = "name"
    name = Text("What is it called?", required=True)
    words = Texts("Which words?")
    note = Text("What else?")


class Outer(Tallied):
    title = Text("What is it about?", required=True)
    one = One(Inner, "Which one?")
    several = Many(Inner, "Which?", required=True)
    named = Named(Texts("Which words?"), "Which words for each name?")


SHELF = Shelf("samples", "samples/*.yaml", Outer, "Samples.")
TEXT = """\
title: sample
one: {name: a, words: [x, y]}
several:
  - {name: b, words: z}
  - {name: c, note: n}
named: {p: [q, r], s: t}
tally: {named: 5, note: 1, one: 1, several: 2, words: 3}
"""


def told(text):
    return [(each.place.line, each.message, each.remedy) for each in SHELF.read_text(text, "sample.yaml")[1]]


def test_words_entries_and_names_are_counted():
    assert told(TEXT) == []


@pytest.mark.parametrize(
    ("old", "new", "key", "said", "there"),
    [
        ("[x, y]", "[x]", "words", 3, 2),
        (", words: z", "", "words", 3, 2),
        ("  - {name: c, note: n}\n", "  - {name: c}\n", "note", 1, 0),
        ("[q, r]", "[r]", "named", 5, 4),
        (", s: t", "", "named", 5, 3),
        ("one: {name: a, words: [x, y]}", "one: {name: a, words: [x, y], note: m}", "note", 1, 2),
    ],
)
def test_what_is_gone_or_too_many_is_told_with_the_number_to_write(old, new, key, said, there):
    assert old in TEXT
    text = TEXT.replace(old, new)
    (finding,) = told(text)
    assert finding == (
        text.count("\n"),
        f"the tally says {said} times '{key}', and it stands here {there} times",
        f"look for what is gone or too many; if all is as meant, write {key}: {there}",
    )
    assert told(renewed(SHELF, text)) == []
