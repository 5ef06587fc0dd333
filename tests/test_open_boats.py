"""Open boats and dayboats: a sound file of each, no word of what is not there, no question for what she cannot have, one for what she needs."""

import re

import pytest
from open_boats import DAYBOAT, OPEN_BOAT, changed, said, surveyed

from generator.outputs.cards import cards
from generator.reading.findings import Weight

NOT_THERE = re.compile(
    r"\b(below|hatch(es)?|doors?|ports|cabins?|companionway|floorboards|bedding|deck|deckhead|cockpit|clip(ped)? on|tethers?|inside|"
    r"way out|seacocks?|guardwires?)\b"
)
"""What no open boat has: nobody is sent there, and nobody is told to shut it."""
OF_THE_RAFT_ITSELF = {"boarding.help", "righting.climb"}
NOT_IN_A_DAYBOAT = re.compile(r"\b(cabins?|floorboards|bedding|clip(ped)? on|tethers?|seacocks?|on deck)\b")
ALONE = (
    ("persons: 4", "persons: 1"),
    ("  - {role: mate, abilities: [command, radio]}\n  - {role: guest 1}\n  - {role: guest 2}\n", ""),
)
GAS = "gas: {fuel: butane, bottles: foredeck locker, hose-expires: 2028-05}\nstops:\n  - {what: gas, where: stern locker, side: port, how: turn the tap}\n"
GAS_BILL = (
    "station-bill:\n  gas: {command: {who: skipper, substitute: mate}, shut-off: {who: mate, substitute: skipper},"
    " ventilate: {who: guest 1, substitute: guest 2}}\n"
)
PUMP = "pumps:\n  - {what: hand pump, power: hand, where: stern sheets, side: port, handle: {where: stern sheets, side: port}}\ngear:\n"
TWO_PUMPS = PUMP.replace(
    "gear:", "  - {what: second hand pump, power: hand, where: bottom boards, side: port}\ngear:"
)
BUCKET = "  - {what: bucket, kind: flooding, quantity: 1, where: stern sheets, side: port, tied-in: yes}\n"
INBOARD = ("engine: outboard", "engine: inboard diesel")
STOPS = ("stops:\n", "stops:\n  - {what: engine, where: helm, side: port, how: pull the black knob out}\n")

RAFT = """\
rafts:
  - name: liferaft
    standard: ISO 9650-1 type 2
    persons: 4
    mass: 24 kg
    container: valise
    stowage: cockpit locker
    where: stern sheets
    side: port
    height: 0.3 m
    held-by: [strap]
    painter: {length: 9 m, fast-to: strong point}
    strong-point: {what: ring bolt, where: stern sheets, side: port}
    launch-from: {what: the gunwale, where: side bench, side: port}
    board-from: {what: the gunwale, where: side bench, side: port}
    lift-needed: yes
    knife: {where: stern sheets, side: port}
    righting: strap
    boarding: ladder
    service: {last: 2025-05, next: 2028-05}
    pack: coastal
gear:
"""

OPEN_BOATS = {
    "as she is": (),
    "with a hand pump": (("gear:\n", PUMP),),
    "with two hand pumps and gas": (("gear:\n", TWO_PUMPS), ("stops:\n", GAS), ("station-bill:\n", GAS_BILL)),
    "with a bailer": ((BUCKET, BUCKET.replace("bucket", "bailer")),),
    "with nothing to bail": ((BUCKET, ""),),
    "with an engine in a box": (INBOARD, STOPS),
    "with an outboard that has a stop": (STOPS,),
    "with an automatic extinguisher": (
        INBOARD,
        ("gear:\n", "gear:\n  - {what: automatic extinguisher, kind: fire, quantity: 1, where: engine box, expires: 2028-01}\n"),
    ),
    "without an extinguisher": (("  - {what: fire extinguisher,", "  - {what: sand box,"),),
    "without either": (("  - {what: fire extinguisher,", "  - {what: sand box,"), (BUCKET, "")),
    "with gas": (("stops:\n", GAS), ("station-bill:\n", GAS_BILL)),
    "with gas and a detector": (
        ("stops:\n", GAS.replace("butane", "butane, detector: yes")),
        ("station-bill:\n", GAS_BILL),
    ),
    "with a raft": (("gear:\n", RAFT),),
    "under sail": (("rig: none", "rig: lugger"),),
}  # fmt: skip


def on_their_own(boats):
    """The same boats with nobody but the skipper."""
    return {**boats, **{f"{name}, alone": (*ALONE, *pairs) for name, pairs in boats.items()}}


@pytest.mark.parametrize("pairs", on_their_own(OPEN_BOATS).values(), ids=on_their_own(OPEN_BOATS))
def test_an_open_boat_is_told_of_nothing_that_is_not_there(tmp_path, pairs):
    text = changed(OPEN_BOAT, *pairs)
    if "persons: 1" in text:
        text = re.sub(r"station-bill:\n(  .*\n)+", "", text)
    done = surveyed(text, tmp_path)
    assert done.manual is not None
    spoken = {where: text for where, text in said(done.manual) if NOT_THERE.search(text)}
    assert spoken.keys() - OF_THE_RAFT_ITSELF == set(), spoken


@pytest.mark.parametrize("pairs", [(), (("rig: gaff sloop", "rig: none"),)], ids=["sail", "motor"])
def test_a_dayboat_is_told_of_no_more_than_a_cuddy(tmp_path, pairs):
    done = surveyed(changed(DAYBOAT, *pairs), tmp_path)
    assert {where: text for where, text in said(done.manual) if NOT_IN_A_DAYBOAT.search(text)} == {}
    steps = dict(said(done.manual))
    assert "close hatches" in steps["fire-starve.close"]
    assert "man-overboard-return.hold-on" in steps
    assert "flooding.look-in-the-open" in steps


def test_with_tethers_aboard_people_clip_on_in_a_dayboat_too(tmp_path):
    tethers = "gear:\n  - {what: tethers, kind: lifesaving, quantity: 3, where: cuddy, side: port}\n"
    steps = dict(said(surveyed(changed(DAYBOAT, ("gear:\n", tethers)), tmp_path).manual))
    assert "man-overboard-return.clip-on" in steps
    assert "clip on" in steps["man-overboard: recover"]


@pytest.mark.parametrize("text", [OPEN_BOAT, DAYBOAT], ids=["open boat", "dayboat"])
def test_both_are_sound_without_a_recommendation(tmp_path, text):
    assert [f"{each.check}: {each.message}" for each in surveyed(text, tmp_path).findings] == []


@pytest.mark.parametrize(
    ("pairs", "never"),
    [
        ((), {"pumps.too-few", "fire.smoke-alarm-missing", "escape.one-only", "through-hulls.missing"}),
        ((("length: 7 m", "length: 9.5 m"), ("beam: 2.3 m", "beam: 2.8 m")), {"escape.one-only"}),
        ((INBOARD, STOPS), {"escape.one-only", "fire.smoke-alarm-missing"}),
        (
            (("stops:\n", GAS), ("station-bill:\n", GAS_BILL)),
            {"gas.detector-missing", "fire.carbon-monoxide-alarm-missing", "fire.smoke-alarm-missing"},
        ),
        (
            (("gear:\n", "pumps:\n  - {what: electric pump, power: electric, where: bottom boards, side: port}\ngear:\n"),),
            {"gear.hand-pump"},
        ),
    ],
    ids=["as she is", "of 9.5 m", "with an engine in a box", "with gas", "with an electric pump alone"],
)  # fmt: skip
def test_an_open_boat_is_not_asked_for_what_she_cannot_have(tmp_path, pairs, never):
    found = {each.check for each in surveyed(changed(OPEN_BOAT, *pairs), tmp_path).findings}
    assert not found & never, found


def test_what_an_open_boat_is_not_asked_for_a_decked_one_is(tmp_path):
    """The same file as a monohull's brings what the type keeps away."""
    text = changed(
        OPEN_BOAT,
        ("type: open boat", "type: monohull"),
        ("stops:\n", GAS),
        ("station-bill:\n", GAS_BILL),
    )
    found = {each.check for each in surveyed(text, tmp_path).findings}
    assert {
        "pumps.too-few",
        "fire.smoke-alarm-missing",
        "gas.detector-missing",
        "fire.carbon-monoxide-alarm-missing",
    } <= found


@pytest.mark.parametrize("what", ["bucket", "buoyancy", "oars", "anchor"])
def test_an_open_boat_is_asked_for_what_she_needs(tmp_path, what):
    text = re.sub(rf"^  - {{what: {what},.*\n", "", OPEN_BOAT, flags=re.MULTILINE)
    assert text != OPEN_BOAT
    (found,) = [each for each in surveyed(text, tmp_path).findings if each.check == "gear.for-her-type"]
    assert what in found.message
    assert found.weight is (Weight.DEFECT if what == "bucket" else Weight.RECOMMENDATION)


def test_offshore_an_open_boat_has_pumps_like_any_other(tmp_path):
    text = changed(OPEN_BOAT, ("waters: coastal", "waters: offshore"))
    assert "pumps.too-few" in {each.check for each in surveyed(text, tmp_path).findings}


def test_whoever_sleeps_in_a_cuddy_is_woken_by_an_alarm(tmp_path):
    asleep = changed(DAYBOAT, ("{role: guest}", "{role: guest, berth: cuddy}"))
    assert "fire.smoke-alarm-missing" in {each.check for each in surveyed(asleep, tmp_path).findings}


@pytest.mark.parametrize(
    ("text", "pairs", "hangs"),
    [
        (OPEN_BOAT, (), False),
        (OPEN_BOAT, (("stops:\n", GAS), ("station-bill:\n", GAS_BILL)), True),
        (OPEN_BOAT, (("type: open boat", "type: monohull"),), True),
        (DAYBOAT, (), False),
    ],
    ids=["open boat", "open boat with gas", "monohull", "dayboat"],
)
def test_a_card_for_the_galley_hangs_where_somebody_cooks(tmp_path, text, pairs, hangs):
    stations = {card.station for card in cards(surveyed(changed(text, *pairs), tmp_path).manual, "guest")}
    assert ("galley" in stations) is hangs
    assert {"helm", "radio", "muster place"} <= stations


def test_the_bill_of_an_open_boat_closes_nothing(tmp_path):
    open_boat = surveyed(OPEN_BOAT, tmp_path).manual.bill
    duties = {each.id: {duty.id for duty in each.duties} for each in open_boat.emergencies}
    assert "close" not in duties["fire"]
    (tmp_path / "decked").mkdir()
    dayboat = surveyed(DAYBOAT, tmp_path / "decked").manual.bill
    assert "close" in {duty.id for each in dayboat.emergencies if each.id == "fire" for duty in each.duties}
