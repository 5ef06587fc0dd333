"""The distress call is made on the sets that can do it: every combination of what each set can do gives true steps."""

import re

import pytest
from call_invariants import FAULTS, HOLDS, SPOILT
from calls_made import FACES, NAMED, called_with, every_call, named_call


@pytest.mark.thorough
def test_what_must_hold_does_for_every_combination_of_sets():
    assert len({(each.sets, each.beacons, each.numbers, each.persons) for each in every_call()}) > 1000
    for case in every_call():
        for name, holds in HOLDS.items():
            try:
                holds(case)
            except FAULTS as error:
                pytest.fail(f"{name}: {holds.__doc__}\n{case.sets} {case.beacons} {case.persons}: {error!r}")


@pytest.mark.parametrize("name", NAMED)
def test_what_must_hold_does_for_what_boats_carry(name):
    for holds in HOLDS.values():
        holds(named_call(name))


@pytest.mark.parametrize("name", HOLDS)
def test_each_of_them_can_fail(name):
    noticed = 0
    for told in NAMED:
        spoilt = SPOILT[name](named_call(told))
        if spoilt is None:
            continue
        try:
            HOLDS[name](spoilt)
        except FAULTS:
            noticed += 1
    assert noticed, "nothing that spoils a case is noticed"


def test_there_are_enough_of_them():
    assert len(HOLDS) >= 12
    assert all(each.__doc__ for each in HOLDS.values())


def names(case, face=FACES[0]):
    """The names of the steps of a card."""
    return [line.name for line in case.on(face)]


def test_of_two_fixed_sets_the_one_that_makes_the_call_is_used():
    case = called_with("fixed 001", "fixed 110")
    steps = {line.name: line for line in case.on("distress-call")}
    assert steps["power"].place.endswith("on the shelf of fixed 110")
    assert "under the flap of fixed 110" in steps["button"].text
    assert "off the fixed 001" in steps["position-elsewhere"].text
    assert "position on the screen of fixed 001" in steps["position-elsewhere"].place


def test_the_handheld_with_the_button_comes_before_the_fixed_set_without():
    case = called_with("fixed 000", "handheld 111")
    assert names(case)[:3] == ["button-handheld-first", "power", "channel"]
    assert case.lines[0].place.endswith(
        "on the shelf of handheld 111 (press the knob of handheld 111; distress button under the flap of handheld 111)"
    )


def test_the_sets_follow_each_other_where_nobody_answers():
    everything = names(named_call("everything"), "call-unheard")
    assert everything == [
        "again", "handheld", "shortwave-button", "shortwave-after-button", "shortwave-further", "satellite", "sart", "device",
    ]  # fmt: skip
    assert names(called_with("satellite 000"), "call-unheard") == ["ring-again"]
    assert names(called_with("handheld 000", "shortwave 000"), "call-unheard") == [
        "again", "shortwave", "shortwave-further", "telephone-unnumbered",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("who", "said", "caution"),
    [
        ({}, "“Call sign EIXZ7. MMSI 250000000. MAYDAY Gorse”", True),
        ({"mmsi": None}, "“Call sign EIXZ7. MAYDAY Gorse”", True),
        ({"call_sign": None}, "“MMSI 250000000. MAYDAY Gorse”", True),
        ({"call_sign": None, "mmsi": None}, "“MAYDAY Gorse”", False),
    ],
)
def test_she_says_who_she_is_by_what_she_has(who, said, caution):
    case = called_with("fixed 001", **who)
    (line,) = [each for each in case.lines if each.name == "identity"]
    assert (line.text, bool(line.caution)) == (f"Say: {said}.", caution)


def test_no_waiting_time_is_printed():
    told = " ".join(line.said for name in NAMED for line in named_call(name).lines)
    assert not re.search(r"\b(seconds|minutes)\b", told)
