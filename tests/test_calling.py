"""The distress call is made on the sets that can do it: every combination of what each set can do gives true steps."""

from itertools import product

import pytest
from open_boats import OPEN_BOAT, changed

from generator.manual.procedures import compose_procedures
from generator.manual.reckoning import Reckoning
from generator.shelves.languages import catalogue
from generator.vessel.loading import load

KINDS = {"VHF": "fixed", "handheld VHF": "handheld", "MF/HF": "shortwave", "satellite telephone": "satellite"}
CAN = [*product((True, False), (True, False), (True, False))]
"""What a set can do: whether it makes a digital distress call, knows the position by itself, shows it."""
OLD = "    - {what: handheld VHF, kind: handheld VHF, dsc: no, where: helm, side: starboard, power: turn the top knob to the right}\n"


def _can(kind):
    """What is tried of a kind: of a telephone no step asks for the first two, of shortwave none for the second."""
    return [
        each
        for each in CAN
        if not (kind == "satellite telephone" and each[0])
        and not (kind not in ("VHF", "handheld VHF") and each[1])
    ]


def _line(kind, dsc, gnss, shows):
    name, yes = f"{KINDS[kind]} {dsc:d}{gnss:d}{shows:d}", {True: "yes", False: "no"}
    button = f", distress-button: under the flap of {name}" if dsc else ""
    shown = f", position-shown: on the screen of {name}" if shows else ""
    return (
        f"    - {{what: {name}, kind: {kind}, dsc: {yes[dsc]}, gnss: {yes[gnss]}, where: helm, side: port, spot: on the shelf of {name}, "
        f"power: press the knob of {name}{button}{shown}}}\n"
    )


@pytest.fixture(scope="module")
def boat(tmp_path_factory):
    """A boat with a set of every kind and ability, to choose from."""
    folder = tmp_path_factory.mktemp("boat")
    lines = "".join(_line(kind, *can) for kind in KINDS for can in _can(kind))
    (folder / "vessel.yaml").write_text(
        changed(OPEN_BOAT, (OLD, lines), ("call-sign: EIXZ7", "call-sign: EIXZ7\n  mmsi: 250000000")),
        encoding="utf-8",
    )
    vessel, findings = load(folder)
    assert vessel is not None, findings
    return vessel, {str(each.what): each for each in vessel.radio.sets}


def called_with(boat, *names):
    """The steps of the call of the boat with these sets alone, by the last part of their ids, in order."""
    vessel, sets = boat
    vessel.radio.__dict__["sets"] = tuple(sets[each] for each in names)
    procedures, gaps = compose_procedures(Reckoning(vessel), catalogue())
    assert [each.message for each in gaps if "radio" in each.message or "set" in each.message] == []
    (call,) = [one for one in procedures if one.id == "distress-call"]
    return {step.id.partition(".")[2]: step for step in call.steps}


def _all_said(step):
    return " ".join((step.text, step.place, step.unless or "", step.caution or "", step.why or ""))


def _choices(kind):
    return [None, *(f"{KINDS[kind]} {dsc:d}{gnss:d}{shows:d}" for dsc, gnss, shows in _can(kind))]


@pytest.mark.thorough
def test_every_combination_of_what_sets_can_do_gives_true_steps(boat):
    for fixed, handheld, shortwave, satellite in product(*map(_choices, KINDS)):
        names = [each for each in (fixed, handheld, shortwave, satellite) if each]
        _true(called_with(boat, *names), fixed, handheld, shortwave, satellite)


def _true(steps, fixed, handheld, shortwave, satellite):
    sets = [each for each in (fixed, handheld, shortwave, satellite) if each]
    told = {name: _all_said(step) for name, step in steps.items()}
    order = list(steps)
    # each set has its step, and none is named that is not aboard
    for each in sets:
        assert any(each in text for text in told.values()), (sets, each)
    # the button that is pressed is one that sends a call, and its place is said
    dsc = [each for each in (fixed, handheld, shortwave) if each and each[-3] == "1"]
    pressed = [
        text for name, text in told.items() if "distress button" in text and not name.startswith("power")
    ]
    assert bool(pressed) is bool(dsc), sets
    for text in pressed:
        assert any(f"under the flap of {each}" in text for each in dsc), (sets, text)
    by_voice = fixed or handheld
    vhf_dsc = next((each for each in (fixed, handheld) if each and each[-3] == "1"), None)
    if vhf_dsc:
        (button,) = [name for name in order if name.startswith("button")]
        (power,) = [name for name in order if name.startswith("power") and vhf_dsc in told[name]]
        assert f"under the flap of {vhf_dsc}" in told[button]
        assert f"on the shelf of {vhf_dsc}" in told[power]
        assert order.index(power) < order.index(button) < order.index("channel")
    # the call is said on the VHF that carries farthest, which is switched on last before it
    if by_voice:
        spoken = [name for name in order[: order.index("channel")] if name.startswith("power")]
        assert by_voice in told[spoken[-1]], sets
    # the position is read off a set that shows it: that in hand, or else another, with its place
    shows = [each for each in sets if each[-1] == "1"]
    in_hand = by_voice or shortwave
    read = [name for name in order if "position" in name]
    if in_hand is None:
        assert read == []
    elif by_voice and in_hand in shows:
        assert read == ["position-shown"]
        assert f"off the {in_hand} (on the screen of {in_hand})" in told["position-shown"]
    elif in_hand in shows:
        assert read == []
        assert (
            f"on the screen of {in_hand}" in told["shortwave-with-button" if in_hand in dsc else "shortwave"]
        )
    elif shows:
        (name,) = read
        assert name == ("position-elsewhere" if by_voice else "read-position")
        assert f"off the {shows[0]} (on the screen of {shows[0]})" in told[name]
        assert f"on the shelf of {shows[0]}" in steps[name].place
        assert order.index(name) < order.index(
            "nature" if by_voice else next(n for n in order if n.startswith("shortwave"))
        )
    else:
        assert read == (["position"] if by_voice else [])
        assert not any("Read latitude" in text for text in told.values())


def test_of_two_fixed_sets_the_one_that_makes_the_call_is_used(boat):
    steps = called_with(boat, "fixed 001", "fixed 110")
    assert steps["power"].place.endswith("on the shelf of fixed 110")
    assert "under the flap of fixed 110" in steps["button"].text
    assert "off the fixed 001 (on the screen of fixed 001)" in steps["position-elsewhere"].text


def test_the_handheld_with_the_button_comes_before_the_fixed_set_without(boat):
    steps = called_with(boat, "fixed 000", "handheld 111")
    assert list(steps)[:4] == ["power-handheld-first", "button-handheld-first", "power", "channel"]
    assert "on the shelf of handheld 111" in steps["power-handheld-first"].place
