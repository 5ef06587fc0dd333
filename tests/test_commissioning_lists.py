"""Answers for a whole list, as a file has it or as people say it; and what a boat without a rig is told of rigs."""

import pytest

from generator.commissioning.crew import roles
from generator.commissioning.entries import apart
from generator.commissioning.given import Given
from generator.commissioning.refusal import Refusal
from generator.commissioning.writing import commission
from generator.vessel.loading import load

SIX_AND_TWO = {"lifejackets[adult].quantity": "6", "lifejackets[child].quantity": "2"}
EVENING = {"watches[1].from": "20:00", "watches[1].to": "24:00", "watches[1].who": "skipper"}
NIGHT = {"watches[2].from": "00:00", "watches[2].to": "04:00", "watches[2].who": "mate, cook"}


@pytest.mark.parametrize(("key", "said", "wanted"), [
    ("lifejackets", "{adult: 6, child: 2}", SIX_AND_TWO), ("lifejackets", "6 adults, 2 children", SIX_AND_TWO),
    ("lifejackets", "adult x 6 and child x 2", SIX_AND_TWO), ("lifejackets", "{size: {adult: 6, child: 2}}", SIX_AND_TWO),
    ("lifejackets", "[{size: adult, quantity: 6, kind: foam}]",
     {"lifejackets[adult].size": "adult", "lifejackets[adult].quantity": "6", "lifejackets[adult].kind": "foam"}),
    ("lifejackets", "[{size: adult, kind: foam}, {size: adult, kind: inflatable}]",
     {"lifejackets[adult].size": "adult", "lifejackets[adult].kind": "foam",
      "lifejackets[adult][2].size": "adult", "lifejackets[adult][2].kind": "inflatable"}),
    ("watches", "skipper 20-24, mate and cook 00-04", EVENING | NIGHT), ("watches", "20:00 to 24:00 skipper; 0000-0400 mate, cook", EVENING | NIGHT),
    ("watches", "{skipper: 20-24}", EVENING), ("watches", '[{from: "20:00", to: "24:00", who: skipper}]', EVENING),
    ("watches", "{from: 20:00, to: 24:00, who: skipper}", EVENING), ("watches", "none", {"watches": "none"}),
    ("people", "{skipper: 1, guest: 3}", {"people": "1 skipper, 3 guest"}), ("gear", "bucket, flares", {"gear": "bucket, flares"}),
    ("radio", "{beacons: [{what: EPIRB, where: cockpit}]}", {"radio.beacons[EPIRB].what": "EPIRB", "radio.beacons[EPIRB].where": "cockpit"}),
])  # fmt: skip
def test_what_can_be_understood_is_taken(key, said, wanted):
    assert dict(apart(key, said)) == wanted


@pytest.mark.parametrize(("key", "said", "form"), [
    ("lifejackets", "8", "lifejackets='{adult: 6, child: 2}'"), ("lifejackets", "{kind: foam, quantity: 6}", "lifejackets='{adult: 6, child: 2}'"),
    ("watches", "4 on, 8 off", "watches='skipper 20-24, mate 00-04'"), ("watches", "20-24", "watches[1].who=skipper"),
    ("watches", "[skipper, mate]", "watches='skipper 20-24, mate 00-04'"), ("rafts", "{liferaft: 6}", "rafts='[{name: ..."),
])  # fmt: skip
def test_what_cannot_is_answered_with_the_form(key, said, form):
    with pytest.raises(Refusal) as refused:
        Given({key: said})
    assert form in " ".join(refused.value.reasons)


def test_the_file_has_what_was_taken(tmp_path):
    answers = {"lifejackets": "{adult: 6, child: 2}", "watches": "skipper 20-24, mate 00:00-04:00"}
    done = commission("Linnet", answers, tmp_path)
    vessel, _ = load(done.path.parent, "linnet")
    assert {each.size: each.quantity for each in vessel.lifejackets} == {"adult": 6, "child": 2}
    assert [(str(each.from_), str(each.to), list(each.who)) for each in vessel.watches] == [
        ("20:00", "24:00", ["skipper"]),
        ("00:00", "04:00", ["mate"]),
    ]


@pytest.mark.parametrize("who", ["Brigitte", "Una, Kit", "sailor, mate", "line cutter tender", "baby of 0"])
def test_people_of_like_names_are_people(who):
    assert roles(who)


@pytest.mark.parametrize(
    ("answers", "asked"),
    [
        ({"type": "motor vessel"}, False),
        ({"type": "motor vessel", "rig": "unknown"}, False),
        ({"type": "open boat", "engine": "petrol outboard", "rig": "unknown"}, False),
        ({"type": "open boat", "engine": "none"}, True),
        ({"type": "open boat", "engine": "petrol outboard", "rig": "standing lug"}, True),
        ({"type": "monohull", "engine": "diesel inboard"}, True),
    ],
)
def test_nothing_is_said_of_a_rig_she_has_not(tmp_path, answers, asked):
    done = commission("Linnet", {f"vessel.{key}": text for key, text in answers.items()}, tmp_path)
    assert ("  rig:" in done.path.read_text(encoding="utf-8")) is asked
