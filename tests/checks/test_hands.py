"""A small crew is judged by what can be done: the least any bill must leave undone, and what this one does.

MGN 71 Amendment 1 Annex 2.4: one duty each, or a series within one party, as far as that can be done.
"""

import pytest

from generator.manual.bill import Duty, Emergency
from generator.reading.findings import Place
from generator.survey.hands import Hand, best, clash, improvable, unable, wanting

LOOKS = {
    "id": "lookout",
    "continuous": True,
    "apart_from": ("recover", "call"),
    "from_age": 8,
    "seated": True,
    "senses": ("sight",),
}
STEERS = {"id": "helm", "continuous": True}
HAULS = {"id": "recover", "persons": 2}
CALLS = {"id": "call", "needs": "radio", "seated": True, "senses": ("hearing", "speech")}


def duty(row, *who, **more):
    told = {"text": "", "essential": True, "key": False, "continuous": False, "persons": 1, **row, **more}
    return Duty(emergency="man-overboard", who=who, substitute="", place=Place("vessel.yaml"), **told)


def emergency(*duties):
    return Emergency("man-overboard", "Man overboard", duties)


def crew(*hands):
    return {hand.role: hand for hand in hands}


SKIPPER, MATE, HAND = Hand("skipper"), Hand("mate"), Hand("hand")
CHILD, TODDLER = Hand("child", age=9), Hand("toddler", age=3)
GUESTS = Hand("guests", heads=6)


@pytest.mark.parametrize(
    ("aboard", "least"),
    [
        ([SKIPPER, MATE, HAND], 0),  # one looks, two come from the helm to haul
        ([SKIPPER, MATE], 1),  # one looks, one hauls: a hand short, whoever does it
        ([SKIPPER], 2),  # who steers and hauls looks away twice
        ([SKIPPER, MATE, CHILD], 0),  # a child can point
        ([SKIPPER, MATE, TODDLER], 1),
        ([SKIPPER, GUESTS], 0),
    ],
)
def test_the_least_that_must_stay_undone(aboard, least):
    asked = emergency(duty(LOOKS, "x"), duty(STEERS, "x"), duty(HAULS, "x"))
    assert best(asked, crew(*aboard)) == least


def test_look_out_and_recovery_clash_unless_others_are_there_to_haul():
    all_of = crew(SKIPPER, MATE, HAND)
    looks = duty(LOOKS, "hand")
    assert clash(looks, duty(HAULS, "mate", "hand"), all_of) == 1
    assert clash(looks, duty(HAULS, "mate", "hand", "skipper"), all_of) == 0
    assert clash(looks, duty(HAULS, "mate", "skipper"), all_of) == 0


def test_a_couple_that_does_what_can_be_done_gets_nothing_and_one_that_does_not_is_told():
    two = crew(SKIPPER, MATE)
    best_of_two = emergency(duty(LOOKS, "mate"), duty(STEERS, "skipper"), duty(HAULS, "skipper"))
    assert wanting(best_of_two, two) == best(best_of_two, two) == 1
    assert not improvable(best_of_two, two)
    assert improvable(emergency(duty(LOOKS, "mate"), duty(STEERS, "mate"), duty(HAULS, "mate")), two)


@pytest.mark.parametrize(
    ("hand", "cannot"),
    [
        (Hand("x", age=9), ("recover", "call", "helm")),
        (Hand("x", age=7), ("recover", "call", "helm", "lookout")),
        (Hand("x", age=12), ("call", "helm")),
        (Hand("x", small=True), ("recover", "call", "helm")),
        (Hand("x", needs_help="has a broken leg"), ("recover", "helm")),
        (Hand("x", needs_help="is blind"), ("recover", "helm", "lookout")),
        (Hand("x", needs_help="is deaf, and is touched on the arm"), ("call",)),
        (Hand("x", needs_help="is deaf and cannot climb"), ("recover", "helm", "call")),
        (Hand("x"), ()),
    ],
)
def test_who_cannot_do_what(hand, cannot):
    rows = ((LOOKS, {}), (HAULS, {"from_age": 12}), (CALLS, {"from_age": 16}), (STEERS, {"from_age": 16}))
    told = [duty(row, "x", **more) for row, more in rows]
    assert {each.id for each in told if unable(each, crew(hand))} == set(cannot)
