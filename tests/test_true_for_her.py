"""What is printed for guests is true for the boat: no word of sails, mast, raft, gas, fixed radio or rooms below where she has none."""

import re

import pytest
from open_boats import DAYBOAT, OPEN_BOAT, changed, said, surveyed
from specimens import VESSELS

from generator.outputs import Job, cards, site
from generator.publishing import Order, survey

FOAM = ("kind: inflatable, quantity: 4", "kind: foam, quantity: 4")
NO_BUOY = ("  - {what: lifebuoy, kind: lifesaving, quantity: 1, where: stern sheets, side: starboard}\n", "")
BARE = changed(OPEN_BOAT, FOAM, NO_BUOY)
ALONE = changed(
    BARE,
    ("persons: 4", "persons: 1"),
    ("  - {role: mate, abilities: [command, radio]}\n  - {role: guest 1}\n  - {role: guest 2}\n", ""),
)

# The words that name what no open motor boat without raft, gas, fixed radio and inflatable lifejackets has.
NOT_THERE = {
    "sails": r"sails?|trysail|jib|reef",
    "mast": r"mast|boom|dismasted|rigging|rig",
    "raft": r"(?:life)?rafts?|painter",
    "gas": r"gas",
    "fixed radio": r"fixed radio|leave the radio",
    "rooms below": r"below|deckhead|cabins?|bunks?|hatch(?:es)?|companionway|floorboards",
    "inflatable lifejackets": r"inflate[sd]?|inflating",
    "lifebuoy or danbuoy": r"lifebuoys?|danbuoys?",
    "searchlight": r"searchlights?",
    "seacocks": r"seacocks?",
    "grab bag": r"grab bags?",
    "several engines": r"engines",
}
REASONED = ("before the boat sails again", "rig none", "rig to rig")
"""What is said of every vessel: to sail is to leave; that she has no rig, among her particulars, and what that word means."""


def _words(html):
    """The text of a page without its tags, in small letters."""
    plain = re.sub(r"<[^>]+>", " ", re.sub(r"(?s)<(style|script).*?</\1>", " ", html))
    return re.sub(r"\s+", " ", plain).lower()


def printed_for_guests(manual):
    """All that guests read: every page of the site, and what stands on the cards."""
    made = site.write(Job(manual, "guest"))
    texts = [_words(data.decode("utf-8")) for name, data in made.files.items() if name.endswith(".html")]
    said_on = [say for card in cards.cards(manual, "guest") for block in card.blocks for say in block.says]
    return [*texts, *(str(say).lower() for say in said_on)]


def named(texts, pattern):
    """Where one of the words stands, with some of the text before and behind it."""
    return [
        text[max(0, match.start() - 60) : match.end() + 30]
        for text in texts
        for match in re.finditer(rf"\b(?:{pattern})\b", text)
        if not any(each in text[max(0, match.start() - 30) : match.end() + 12] for each in REASONED)
    ]


@pytest.mark.thorough
@pytest.mark.parametrize("text", [BARE, ALONE], ids=["four aboard", "alone"])
def test_no_word_names_what_an_open_motor_boat_has_not(tmp_path, text):
    texts = printed_for_guests(surveyed(text, tmp_path).manual)
    found = {what: named(texts, pattern) for what, pattern in NOT_THERE.items()}
    assert {what: where for what, where in found.items() if where} == {}


@pytest.mark.thorough
def test_the_same_words_stand_where_the_boats_have_it_all():
    texts = []
    for name in ("saltmeadow", "ombrelune", "nordgyllen"):
        texts += printed_for_guests(survey(VESSELS / name, name, Order(None)).manual)
    assert {what for what, pattern in NOT_THERE.items() if not named(texts, pattern)} == set()


def every(manual):
    return " ".join(" ".join(text for _, text in said(manual)).lower().split())


@pytest.mark.parametrize(
    ("changes", "there", "gone"),
    [
        ((), "light a red hand flare. outboard, away from people", "liferaft and people"),
        ((("rig: none", "rig: gaff sloop"),), "away from sails and people", "liferaft and people"),
        ((NO_BUOY,), "throw whatever floats", "throw the lifebuoy"),
        ((), "throw the lifebuoy", "danbuoy"),
        ((), "bring water, flares and blankets", "a knife"),
        ((FOAM,), "put on your lifejacket", "inflate"),
        ((("engine: outboard", "engine: none"),), "come back to the person", "out of gear"),
        ((), "before anybody climbs, stop the engine", "stop every engine"),
        ((), "the boat is safer than the water", "any liferaft"),
        ((), "shut engine and fuel", "shut gas"),
    ],
)  # fmt: skip
def test_words_follow_the_facts(tmp_path, changes, there, gone):
    text = every(surveyed(changed(OPEN_BOAT, *changes), tmp_path).manual)
    assert there in text
    assert gone not in text


def test_the_engine_is_stopped_before_anybody_climbs_or_is_lifted(tmp_path):
    (back,) = [one for one in surveyed(OPEN_BOAT, tmp_path).manual.procedures if one.id == "back-aboard"]
    ids = [step.id for step in back.steps]
    assert ids.index("back-aboard.engine") < min(
        ids.index("back-aboard.ladder"), ids.index("back-aboard.hoist")
    )


def test_in_a_shelter_nobody_is_sent_below_and_nobody_inflates_inside(tmp_path):
    boat = changed(DAYBOAT, ("kind: foam, quantity: 3", "kind: inflatable, quantity: 3"))
    text = every(surveyed(boat, tmp_path).manual)
    assert "do not inflate it inside: it would hold you under the roof." in text
    assert "below deck" not in text
    assert "inflate" not in every(surveyed(DAYBOAT, tmp_path).manual)


@pytest.mark.parametrize(
    ("gone", "said_of_it"),
    [
        (r"red hand flares", "bring water and blankets"),
        (r"water cans", "bring flares and blankets"),
        (r"(?:red hand flares|water cans|thermal protective aids)", "bring what keeps you alive"),
    ],
)
def test_only_what_the_gear_list_has_is_to_be_brought(tmp_path, gone, said_of_it):
    text = re.sub(rf"  - \{{what: {gone}.*\n", "", OPEN_BOAT)
    assert said_of_it in every(surveyed(text, tmp_path).manual)
