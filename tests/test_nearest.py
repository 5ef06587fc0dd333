"""What a misspelt word may mean: never another meaning, all that are equally near, nothing that is taken already."""

import pytest

from generator.reading.nearest import alike, at_the_other_side, near, nearest

ENGINES = ("inboard diesel", "inboard petrol", "outboard", "none")
STOWAGES = (
    "deck cradle",
    "coachroof cradle",
    "pushpit bracket",
    "deck locker",
    "cockpit locker",
    "below deck",
    "davit",
)
ROLES = ("skipper 1", "skipper 2", "mate", "guest 1", "guest 2")


@pytest.mark.parametrize(("text", "words", "meant"), [
    ("outbord", ENGINES, ["outboard"]),
    ("outboard petrol", ENGINES, ["outboard"]),
    ("petrol inboard", ENGINES, ["inboard petrol"]),
    ("inbord diesel", ENGINES, ["inboard diesel"]),
    ("inboard", ENGINES, ["inboard diesel", "inboard petrol"]),
    ("diesel", ENGINES, ["inboard diesel"]),
    ("outboard diesel inboard", ENGINES, ["inboard diesel", "outboard"]),
    ("electric", ENGINES, []),
    ("on deck", STOWAGES, ["deck cradle", "deck locker", "below deck"]),
    ("pushpit", STOWAGES, ["pushpit bracket"]),
    ("coach roof cradel", STOWAGES, ["coachroof cradle"]),
    ("cockpit loker", STOWAGES, ["cockpit locker"]),
    ("foredeck", STOWAGES, []),
    ("skipper", ROLES, ["skipper 1", "skipper 2"]),
    ("skiper 2", ROLES, ["skipper 2"]),
    ("guest1", ROLES, ["guest 1"]),
    ("guest 3", ROLES, []),
    ("day boat", ("dayboat", "open boat"), ["dayboat"]),
    ("motor boat", ("motor vessel", "open boat"), []),
    ("lenght", ("length", "beam"), ["length"]),
    ("Hull_colr", ("hull-colour", "deck-colour"), ["hull-colour"]),
    ("", ROLES, []),
    ("x" * 90, ROLES, []),
])  # fmt: skip
def test_a_word_of_theirs_is_no_slip_for_another(text, words, meant):
    assert near(text, words) == meant


def test_what_is_equally_near_is_named_and_what_is_taken_is_not_proposed():
    assert nearest("skipper", ROLES).startswith("write skipper 1 or skipper 2? ")
    assert nearest("skipper", ROLES, taken=["skipper 2"]).startswith("write skipper 1? ")
    assert nearest("mat", ROLES, taken=["mate"]).startswith("write one of: skipper 1")


@pytest.mark.parametrize(
    ("said", "word", "apart"),
    [
        ("starboard raft locker", "port raft locker", True),
        ("port hull", "starboard hull", True),
        ("aft cabin", "forward cabin", True),
        ("starboard raft locker", "starboard raft lokcer", False),
        ("raft locker", "port raft locker", False),
        ("port side", "port and starboard side", False),
        ("portside locker", "port locker", False),
    ],
)
def test_the_other_side_is_no_slip(said, word, apart):
    assert at_the_other_side(said, word) == apart
    assert (word in near(said, [word])) <= (not apart)
    assert (word in alike(said, [word])) <= (not apart)
