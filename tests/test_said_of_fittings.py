"""What steps print of stops that spark, pumps on deck, alarms, gates, drives, and of a boat that lies full of water or upside down."""

import re
from datetime import date

import pytest
from open_boats import DAYBOAT, OPEN_BOAT, changed, said, surveyed
from specimens import VESSELS

from generator.manual.composing import Manual
from generator.publishing import Order, survey
from generator.reading.findings import Weight

# A motor yacht with two engines, cooking gas, and a boat's usual closed spaces; no specimen is one.
YACHT = changed(
    DAYBOAT,
    ("type: dayboat", "type: motor vessel"),
    ("rig: gaff sloop", "rig: none"),
    ("engine: outboard", "engine: inboard petrol"),
    ("sets:\n    - {what: handheld VHF, kind: handheld VHF, dsc: no, where: cuddy", "sets:\n    - {what: handheld VHF, kind: handheld VHF, dsc: no, where: saloon"),
    ("fire extinguisher, kind: fire, quantity: 1, where: cuddy", "fire extinguisher, kind: fire, quantity: 1, where: saloon"),
    ("replaced: 2026-05, where: cuddy", "replaced: 2026-05, where: saloon"),
    ("thermal protective aids, kind: lifesaving, quantity: 3, where: cuddy", "thermal protective aids, kind: lifesaving, quantity: 3, where: saloon"),
    ("  - {what: kill cord, where: helm, side: centre, how: pull the red cord off its switch, spare: {where: helm, side: port, spot: on the hook}}\n", """\
  - {what: engine, where: helm, side: centre, electric: yes, how: press both stop buttons}
  - {what: gas, where: galley, side: port, electric: yes, how: press the button of the valve}
  - {what: fuel, where: engine space, side: port, from-outside: no, how: turn the tap across}
engines:
  - {what: port engine, kind: inboard petrol, drive: sterndrive, where: engine space, side: port}
  - {what: starboard engine, kind: inboard petrol, drive: sterndrive, where: engine space, side: starboard}
gas: {fuel: butane, bottles: gas locker, detector: yes, hose-expires: 2029-10}
pumps:
  - {what: bilge pump, power: electric, where: bilge, side: centre, handle: {where: helm, spot: the switch marked BILGE}}
"""),
)  # fmt: skip


def lines_of(manual: Manual) -> dict[str, str]:
    """Everything a step or duty says, by its id."""
    return dict(said(manual))


def places_of(manual: Manual) -> dict[str, str]:
    """What stands beside each step as its place, by its id."""
    return {step.id: step.place for one in manual.procedures for step in one.steps}


def defects(surveyed_boat):
    return [
        f"{each.check}: {each.message}" for each in surveyed_boat.findings if each.weight is Weight.DEFECT
    ]


def specimen(name, tmp_path, *pairs):
    """A specimen with parts of its text changed, where it lies, so that its class file is found."""
    if not pairs:
        return survey(VESSELS / name, name, Order(date(2026, 6, 1)))
    text = changed((VESSELS / name / "vessel.yaml").read_text(encoding="utf-8"), *pairs)
    return surveyed(text, tmp_path)


def test_a_motor_yacht_touches_no_electric_stop_where_gas_is(tmp_path):
    boat = surveyed(YACHT, tmp_path)
    lines = lines_of(boat.manual)
    gas = [step.id for one in boat.manual.procedures if one.id.startswith("gas") for step in one.steps]
    assert {
        "gas.leave-electric-stop",
        "gas-air.leave-electric-engine-stop",
        "gas-air.leave-electric-pump",
    } <= set(gas)
    assert not {
        "gas.close",
        "gas-air.engine",
        "gas-air.pump",
        "gas-air.pumps",
        "gas-air.pump-from-deck",
    } & set(gas)
    assert gas.index("gas.leave-electric-stop") < gas.index("gas.bottle")
    for step in (
        "gas.leave-electric-stop",
        "gas-air.leave-electric-engine-stop",
        "gas-air.leave-electric-pump",
    ):
        assert lines[step].startswith("Leave the electric ")
        assert "it makes a spark" in lines[step]
    assert not any(re.search(r"press|button", lines[step]) for step in gas)
    assert lines["gas: ventilate"] == "Open every hatch, and leave every pump alone"


@pytest.mark.parametrize(
    ("said_of_it", "step", "unless"),
    [("electric: no, ", "gas.close-by-hand", False), ("", "gas.close", True), ("electric: unknown, ", "gas.close", True)],
)  # fmt: skip
def test_a_stop_that_is_not_electric_needs_no_exception(tmp_path, said_of_it, step, unless):
    text = changed(
        YACHT, ("electric: yes, how: press the button of the valve", f"{said_of_it}how: turn the tap")
    )
    lines = lines_of(surveyed(text, tmp_path).manual)
    assert {"gas.close", "gas.close-by-hand"} & lines.keys() == {step}
    assert lines[step].startswith("If you pass it on the way out, close the gas: turn the tap.")
    assert ("that is an electric switch" in lines[step]) == unless


def test_of_two_stops_only_the_one_worked_by_hand_is_named(tmp_path):
    text = changed(YACHT, ("electric: yes, how: press both stop buttons", "how: pull both knobs"))
    text = changed(
        text,
        ("  - {what: fuel, where", "  - {what: engine, where: cockpit, side: port, electric: yes, how: press it}\n  - {what: fuel, where"),
    )  # fmt: skip
    lines = lines_of(surveyed(text, tmp_path).manual)
    assert "Stop any engine that runs: pull both knobs." in lines["gas-air.engine"]
    assert "press it" not in lines["gas-air.engine"]
    assert "press it" not in lines["gas-air.engine"]
    assert "pull both knobs; press it" in lines["fire-engine.stop"]


def test_a_stop_reached_by_opening_its_space_says_so(tmp_path):
    lines = lines_of(surveyed(YACHT, tmp_path).manual)
    assert "shut its fuel: turn the tap across (its space must be opened)." in lines["fire-engine.fuel"]
    outside = changed(YACHT, ("from-outside: no", "from-outside: yes"))
    assert (
        "shut its fuel: turn the tap across."
        in lines_of(surveyed(outside, tmp_path).manual)["fire-engine.fuel"]
    )


@pytest.mark.parametrize(
    ("drives", "step", "text"),
    [
        (("sterndrive", "sterndrive"), "line-clear-of-propellers", "Keep out of gear while the person is near the stern: port engine (sterndrive); starboard engine (sterndrive)."),
        (("jet", "sterndrive"), "line-clear-of-propellers", "Keep out of gear while the person is near the stern: port engine (jet); starboard engine (sterndrive)."),
        (("jet", "jet"), "line-clear-of-jets", "Keep stopped while the person is near, for a jet draws in what floats: port engine (jet); starboard engine (jet)."),
    ],
)  # fmt: skip
def test_what_her_engines_turn_is_said_before_the_person_is_near(tmp_path, drives, step, text):
    port, starboard = drives
    boat = changed(
        YACHT,
        ("drive: sterndrive, where: engine space, side: port", f"drive: {port}, where: engine space, side: port"),
        ("drive: sterndrive, where: engine space, side: starboard", f"drive: {starboard}, where: engine space, side: starboard"),
    )  # fmt: skip
    lines = lines_of(surveyed(boat, tmp_path).manual)
    assert text in lines[f"man-overboard-return.{step}"]
    assert [
        name
        for name in lines
        if name.startswith(("man-overboard-return.line", "man-overboard-return.any-line"))
    ] == [f"man-overboard-return.{step}"]


def test_engines_of_which_nothing_is_told_keep_their_words(tmp_path):
    bare = changed(YACHT, ("drive: sterndrive, where: engine space, side: port", "where: engine space, side: port"),
                   ("drive: sterndrive, where: engine space, side: starboard", "where: engine space, side: starboard"))  # fmt: skip
    lines = lines_of(surveyed(bare, tmp_path).manual)
    assert (
        "Keep the propeller out of gear while the person is near the stern."
        in lines["man-overboard-return.line"]
    )


def test_pumps_are_worked_from_deck_or_left(tmp_path):
    hand = ("  - {what: bilge pump, power: electric, where: bilge, side: centre, handle: {where: helm, spot: the switch marked BILGE}}",
            "  - {what: hand pump aft, power: hand, where: cockpit, side: port, from-deck: ANSWER, handle: beside it}")  # fmt: skip
    told = {}
    for answer in ("yes", "no", "unknown"):
        lines = lines_of(surveyed(changed(YACHT, hand).replace("ANSWER", answer), tmp_path).manual)
        told[answer] = sorted(name for name in lines if name.startswith("gas-air.pump"))
        told[f"{answer} duty"] = lines["gas: ventilate"]
    assert told == {
        "yes": ["gas-air.pump-from-deck"],
        "yes duty": "Open every hatch and work the hand pump",
        "no": ["gas-air.pumps-below"],
        "no duty": "Open every hatch, and leave every pump alone",
        "unknown": ["gas-air.pump"],
        "unknown duty": "Open every hatch and work the hand pump",
    }


def test_alarms_are_found_whichever_way_they_are_told(tmp_path):
    listed = surveyed(
        changed(YACHT, ("gear:\n", "gear:\n  - {what: smoke alarm, kind: fire, quantity: 1, where: saloon, side: port, made: 2024-01}\n")),
        tmp_path,
    )  # fmt: skip
    told = surveyed(
        changed(YACHT, ("gear:\n", "alarms:\n  - {what: smoke, where: saloon, side: port, watches: [saloon, engine space], made: 2024-01}\ngear:\n")),
        tmp_path,
    )  # fmt: skip
    for boat in (listed, told):
        assert "fire.smoke-alarm-missing" not in {each.check for each in boat.findings}
        (alarm,) = [item for item in boat.manual.items if "smoke alarm" in item.answers_to]
        assert (alarm.what, alarm.kind, alarm.where, alarm.quantity) == ("smoke alarm", "fire", "saloon", 1)
        (end,) = [each for each in boat.manual.deadlines if each.item == "smoke alarm"]
        assert end.last_day == date(2034, 1, 31)
    assert "fire.shout" in lines_of(listed.manual)
    shout = lines_of(told.manual)["fire.shout-by-the-alarm"]
    assert "The smoke alarm watches the saloon and the engine space, and sounds from the saloon." in shout
    assert "Two breaths of smoke can take your senses." in shout


def test_a_gas_alarm_is_a_detector(tmp_path):
    without = changed(YACHT, ("detector: yes, ", ""))
    alarm = changed(without, ("gear:\n", "alarms:\n  - {what: gas, where: galley, side: port, spot: low, made: 2024-01}\ngear:\n"))  # fmt: skip
    assert "gas.detector-missing" in {each.check for each in surveyed(without, tmp_path).findings}
    boat = surveyed(alarm, tmp_path)
    assert "gas.detector-missing" not in {each.check for each in boat.findings}
    heard = "gas-air.stay-out-detector"
    assert heard in lines_of(boat.manual) and heard not in lines_of(surveyed(without, tmp_path).manual)


def test_the_bilge_alarm_says_where_it_listens_and_where_it_is_heard():
    lines = lines_of(specimen("ombrelune", None).manual)
    step = lines["flooding.find-by-the-alarm"]
    assert (
        "The bilge alarm watches the port engine space and the starboard engine space, and sounds from the "
        in step
    )
    assert "the chart table and the cockpit." in step
    assert "Now: rising water hides holes." in step
    assert "flooding.find" not in lines


def test_an_alarm_that_sounds_where_it_listens_is_told_once():
    lines = lines_of(specimen("ombrelune", None).manual)
    assert "The smoke alarm watches the port hull and the starboard hull." in lines["fire.shout-by-the-alarm"]


def test_alarms_of_one_kind_are_told_apart_by_their_spaces():
    items = specimen("ombrelune", None).manual.items
    assert [item.what for item in items if item.what.startswith(("smoke", "gas alarm"))] == [
        "smoke alarm, port hull",
        "smoke alarm, starboard hull",
        "gas alarm",
    ]


def test_a_catamaran_says_what_serves_upside_down():
    manual = specimen("ombrelune", None).manual
    lines, places = lines_of(manual), places_of(manual)
    assert "it still floats, level: stay with it" in lines["abandon-ship.stay"]
    hatch = "capsized-multihull.hatch"
    assert places[hatch] == "port aft cabin; starboard aft cabin"
    assert "while the air is good" in lines[hatch]
    assert "the line along each keel" in places["capsized-multihull.outside"]
    assert places["capsized-multihull.gather"] == "the raft (transom recess, starboard)"
    assert "abandon-ship.way-out-upside-down" not in lines


CAPSIZE = """\
capsize:
  swamped: gunwale awash
  buoyancy: [side tank]
  righted: yes
  righted-how: pull the line round her bottom
  hold-on: [{what: the line, where: gunwale}]
  reached: [{what: the anchor, where: anchor locker}]
"""


def test_an_open_boat_without_a_raft_says_so_where_she_is_left(tmp_path):
    boat = surveyed(changed(OPEN_BOAT, ("capsize: {swamped: level}\n", CAPSIZE)), tmp_path)
    assert [f"{each.check}: {each.message}" for each in boat.findings] == []
    lines, places = lines_of(boat.manual), places_of(boat.manual)
    assert "it still floats, with the gunwale awash" in lines["abandon-ship.stay-no-raft"]
    assert "upright: pull the line round her bottom." in lines["turned-over.right"]
    assert places["turned-over.climb"] == "the line (gunwale)"
    assert places["turned-over.call"] == "the anchor (anchor locker)"


@pytest.mark.parametrize(
    ("gone", "step"), [("hold-on", "turned-over.climb"), ("reached", "turned-over.call")]
)
def test_what_is_not_told_of_her_upside_down_has_no_place(tmp_path, gone, step):
    told = re.sub(rf"  {gone}: .*\n", "", CAPSIZE)
    boat = surveyed(changed(OPEN_BOAT, ("capsize: {swamped: level}\n", told)), tmp_path)
    assert [
        name for name in ("turned-over.climb", "turned-over.call") if not places_of(boat.manual)[name]
    ] == [step]


@pytest.mark.parametrize("told", ["", "capsize: {righted: no}\n", "capsize: {swamped: unknown}\n"])
def test_an_open_boat_is_asked_how_she_floats(tmp_path, told):
    boat = surveyed(changed(OPEN_BOAT, ("capsize: {swamped: level}\n", told)), tmp_path)
    assert "capsize.not-said" in {each.check for each in boat.findings}
    assert "still floats" not in lines_of(boat.manual)["abandon-ship.stay-no-raft"]


def test_a_boat_that_sinks_full_is_not_told_to_float(tmp_path):
    boat = surveyed(changed(OPEN_BOAT, ("swamped: level", "swamped: sinks")), tmp_path)
    assert "capsize.not-said" not in {each.check for each in boat.findings}
    assert "still floats" not in lines_of(boat.manual)["abandon-ship.stay-no-raft"]


def test_righting_that_says_not_how_is_a_gap(tmp_path):
    boat = surveyed(changed(OPEN_BOAT, ("{swamped: level}", "{swamped: level, righted: yes}")), tmp_path)
    assert any("capsize.righted-how" in each for each in defects(boat))


def test_gates_say_how_they_are_opened(tmp_path):
    lines = lines_of(specimen("saltmeadow", None).manual)
    assert lines["raft-launch.gate"].startswith("Open the way over the side: let the hook of both wires go.")
    assert "then cut the guardwire's lashing" in lines["raft-launch.gate"]
    assert "coachroof-cradle.way" not in lines
    as_words = specimen(
        "saltmeadow",
        tmp_path,
        (
            "{what: the gate on the lee side, where: side deck, how: let the hook of both wires go}",
            "the side gate on the lee side",
        ),
    )  # fmt: skip
    lines = lines_of(as_words.manual)
    assert "raft-launch.gate" not in lines
    assert lines["coachroof-cradle.way"].startswith(
        "Open the way over the side: the side gate on the lee side."
    )


def test_the_gate_for_recovery_is_opened_before_anybody_is_lifted():
    manual = specimen("nordgyllen", None).manual
    steps = [step for one in manual.procedures if one.id == "back-aboard" for step in one.steps]
    ids = [step.id for step in steps]
    gate = next(step for step in steps if step.id == "back-aboard.gate")
    assert gate.text == "Open the gate: lift the pin and swing it inboard."
    assert gate.place == "the boarding gate (side deck, starboard)"
    assert ids.index("back-aboard.gate") < ids.index("back-aboard.hoist")


def test_defibrillator_and_oxygen_are_named_where_somebody_is_cared_for():
    manual = specimen("nordgyllen", None).manual
    steps = {step.id: step for one in manual.procedures for step in one.steps}
    care = steps["back-aboard.care-with-defibrillator-and-oxygen"]
    assert care.text == "Lay them flat, wrapped up; stay with them."
    breathe = steps["back-aboard.breathe-with-defibrillator"]
    assert "five breaths" in breathe.text
    assert "brings the defibrillator" in breathe.caution
    assert steps["drowned.shock"].place == "wheelhouse, port, below the first-aid kit"
    assert {item.what for item in breathe.gear} == {"defibrillator, with spare pads"}
    assert "medical oxygen" in {item.what for item in care.gear}
    assert "back-aboard.care" not in steps
    ends = {(each.item, each.what): each.last_day for each in manual.deadlines}
    assert ends["defibrillator, with spare pads", "pads"] == date(2027, 9, 30)
    assert ends["defibrillator, with spare pads", "battery"] == date(2029, 3, 31)
    assert ends["medical oxygen", "usual life"] == date(2029, 2, 28)


def test_one_called_aed_is_found_too(tmp_path):
    boat = specimen("nordgyllen", tmp_path, ('what: "defibrillator, with spare pads"', "what: AED"))
    assert "back-aboard.care-with-defibrillator-and-oxygen" in lines_of(boat.manual)


@pytest.mark.parametrize(
    "medical", ["the chest in the saloon; anyone may open it", "{what: the chest, where: saloon}"]
)
def test_the_chest_is_told_in_words_or_by_place(tmp_path, medical):
    boat = surveyed(changed(YACHT, ("gear:\n", f"medical: {medical}\ngear:\n")), tmp_path)
    assert not any(each.place.key.startswith("medical") for each in boat.findings)
