"""Steps for a boat: composed without a gap whatever she has or lacks, in her own words, short enough to be read."""

import re
from pathlib import Path

import pytest
from checks.survey_patch import survey_boat

from generator.manual.bill import compose_bill
from generator.manual.facts import gear_called
from generator.manual.inventory import list_items
from generator.manual.measuring import pieces
from generator.manual.procedures import compose_procedures
from generator.manual.reckoning import Reckoning
from generator.reading.findings import Weight
from generator.reading.values import UNKNOWN
from generator.shelves.languages import catalogue, slots
from generator.shelves.procedures import shelf
from generator.vessel.loading import load

VESSELS = Path(__file__).resolve().parent.parent / "vessels"
BOATS = ["saltmeadow", "ombrelune", "zilte-wind", "nordgyllen", "tresmare", "kelpwren", "tansywade"]
VESSEL_WIDE = ["distress-call", "man-overboard", "fire", "flooding", "gas"]
MOST_WORDS = 20
PROCEDURES = {one.id: one for one in shelf()}


def boat(name="saltmeadow", **changed):
    """A vessel of the shelf with values of its blocks replaced: `vessel__engine="none"`, `rafts=[]`."""
    vessel, _ = load(VESSELS / name, name)
    for path, value in changed.items():
        *blocks, last = path.split("__")
        holder = vessel
        for each in blocks:
            holder = getattr(holder, each)
        holder.__dict__[last] = value
    return vessel


def composed(vessel):
    """Its procedures by id and the gaps."""
    procedures, gaps = compose_procedures(Reckoning(vessel), catalogue())
    return {one.id: one for one in procedures}, gaps


def without_gear(*names):
    """The gear list of the specimen less what is called so."""
    vessel = boat()
    gone = {item.block.path for name in names for item in gear_called(list_items(vessel), name)}
    return [item for item in vessel.gear if item.path not in gone]


def renamed_gear(old, new):
    """The gear list of the specimen with one thing called otherwise."""
    vessel = boat()
    for item in vessel.gear:
        if str(item.what) == old:
            item.__dict__["what"] = new
            return vessel.gear
    raise AssertionError(f"the specimen has no {old}")


def sets(*kinds, dsc=False):
    """The specimen's radios of these kinds."""
    kept = [each for each in boat().radio.sets if each.kind in kinds]
    for each in kept:
        each.__dict__.update(dsc=dsc, distress_button="under the red flap" if dsc else None)
    return kept


def stop_called(old, new):
    """The specimen's stops with one of another kind."""
    stops = boat().stops
    for each in stops:
        if each.what == old:
            each.__dict__["what"] = new
    return stops


def recovery(**changed):
    """The specimen's recovery with values replaced."""
    block = boat().recovery
    block.__dict__.update(changed)
    return block


def lithium():
    """The specimen's batteries as lithium ones."""
    banks = boat().batteries
    for each in banks:
        each.__dict__["chemistry"] = "lithium"
    return banks


INVENTED = {
    "as she is": {},
    "two aboard": {"vessel__persons": 2},
    "alone": {"vessel__persons": 1},
    "without an engine": {"vessel__engine": "none", "stops": []},
    "outboard with a kill cord": {"vessel__engine": "outboard", "stops": stop_called("engine", "kill cord")},
    "petrol with a ventilation stop": {
        "vessel__engine": "inboard petrol",
        "stops": stop_called("gas", "ventilation"),
    },
    "no stops": {"stops": []},
    "motor vessel": {"vessel__type": "motor vessel", "vessel__rig": "none"},
    "catamaran": {"vessel__type": "catamaran"},
    "open boat with a raft": {"vessel__type": "open boat"},
    "open boat, alone": {"vessel__type": "open boat", "vessel__persons": 1, "rafts": [], "grab_bags": []},
    "open boat, no gear": {"vessel__type": "open boat", "gear": [], "pumps": [], "rafts": []},
    "dayboat": {"vessel__type": "dayboat", "vessel__engine": "outboard", "rafts": [], "pumps": []},
    "no raft": {"rafts": [], "grab_bags": []},
    "no gas": {"gas": None},
    "gas without a detector": {"gas__detector": False},
    "lithium batteries": {"batteries": lithium()},
    "lithium and no stops": {"batteries": lithium(), "stops": []},
    "handheld only": {"radio__sets": sets("handheld VHF")},
    "handheld with a button": {"radio__sets": sets("handheld VHF", dsc=True)},
    "fixed set without a button": {"radio__sets": sets("VHF")},
    "no radio, no beacon": {"radio__sets": [], "radio__beacons": []},
    "fixed extinguisher": {"gear": renamed_gear("automatic extinguisher", "fixed extinguisher")},
    "no extinguisher": {"gear": without_gear("fire extinguisher", "automatic extinguisher", "fire blanket")},
    "no extinguisher, no bucket": {"gear": without_gear("fire extinguisher", "bucket")},
    "danbuoy only": {"gear": without_gear("lifebuoy", "throwing line")},
    "lifebuoy only": {"gear": without_gear("danbuoy")},
    "nothing to throw": {"gear": without_gear("danbuoy", "lifebuoy")},
    "no parachute flares": {"gear": without_gear("parachute flares")},
    "no flares": {"gear": without_gear("parachute flares", "red hand flares")},
    "no gear at all": {"gear": []},
    "no pumps": {"pumps": []},
    "one pump of each kind": {"pumps": boat().pumps[1:]},
    "no through-hulls": {"through_hulls": []},
    "no plugs": {"gear": without_gear("softwood plugs")},
    "no hoist": {"recovery": recovery(hoist=None)},
    "no way back aboard": {"recovery": None},
    "polar": {"vessel__climate": "polar"},
}


@pytest.mark.parametrize("changed", INVENTED.values(), ids=INVENTED)
def test_invented_boats_compose_without_gap(changed):
    procedures, gaps = composed(boat(**changed))
    assert not gaps
    for one in procedures.values():
        assert one.steps, f"{one.id} has no step"
        assert [step.number for step in one.steps] == list(range(1, len(one.steps) + 1))
        for step in one.steps:
            assert "{" not in step.text + step.unless + step.caution + step.why
            assert step.text


@pytest.mark.parametrize("name", BOATS)
def test_steps_of_the_boats_are_short(name):
    procedures, gaps = composed(boat(name))
    assert not gaps
    long = [
        f"{step.id}: {step.text}"
        for one in procedures.values()
        for step in one.steps
        if any(len(piece.split()) > MOST_WORDS for piece in pieces(step.text))
    ]
    assert not long


@pytest.mark.parametrize("changed", INVENTED.values(), ids=INVENTED)
def test_steps_of_invented_boats_are_short(changed):
    procedures, _ = composed(boat(**changed))
    for name in VESSEL_WIDE:
        for step in procedures[name].steps if name in procedures else ():
            assert len(step.text.split()) <= MOST_WORDS, step.text


def test_a_name_of_three_words_still_fits():
    procedures, _ = composed(boat(vessel__name="Wide Salt Meadow"))
    longest = max(procedures["distress-call"].steps, key=lambda step: step.text.count("Wide Salt Meadow"))
    assert longest.text.count("Wide Salt Meadow") == 3
    assert len(longest.text.split()) <= MOST_WORDS


def test_the_bill_in_words_has_the_duties_of_the_shelf():
    for one in shelf():
        named = {name for line in one.duties for name in (line.id, *(words for _, words in line.other_words))}
        assert set(catalogue().procedures[one.id].duties) == named


def test_gas_asks_for_nothing_electric():
    for changed in INVENTED.values():
        procedures, _ = composed(boat(**changed))
        for step in procedures["gas"].steps if "gas" in procedures else ():
            acts = step.text.lower()
            assert not re.search(
                r"switch (on|off)|electric|radio|vhf|distress call|flare|torch|light ", acts
            ), acts


def test_no_waiting_time_between_calls_is_printed():
    text = " ".join(
        " ".join(each.texts.values())
        for name in ("distress-call", "call-unheard")
        for each in catalogue().procedures[name].steps.values()
    )
    assert not re.search(r"\d+ ?(s|seconds|min|minutes)\b|seconds|minutes", text)


def test_the_boats_own_words_are_in_the_steps():
    procedures, _ = composed(boat())
    said = {step.id: step for one in procedures.values() for step in one.steps}
    assert (
        "“MAYDAY, MAYDAY, MAYDAY. This is Saltmeadow, Saltmeadow, Saltmeadow”"
        in said["distress-call.mayday"].text
    )
    assert "MZZZ9" in said["distress-call.identity"].text
    assert "232000000" in said["distress-call.identity"].text
    assert "under the red flap" in said["distress-call.button"].text
    assert said["man-overboard.throw-both"].place == "pushpit, starboard"
    assert "pushpit, port" in said["man-overboard.throw-both"].caution
    assert said["back-aboard.hoist"].text.endswith(
        "the spare main halyard (cockpit, starboard, on its winch)."
    )
    assert said["man-overboard.point"].who == ("guest 1",)
    assert said["fire-starve.gas"].place == "galley, port, beside the cooker"
    assert [item.what for item in said["fire-galley.cover"].gear] == ["fire blanket"]
    assert len(said["fire.fight"].gear) == 3
    assert "the liferaft" in said["fire-starve.raft"].text
    assert said["distress-call.button"].who == ("mate",)


def test_gas_and_man_overboard_only_where_they_can_happen():
    assert "gas" not in composed(boat(gas=None))[0]
    assert "man-overboard" not in composed(boat(vessel__persons=1))[0]
    assert {"gas", "man-overboard"} <= set(composed(boat())[0])


def test_two_rafts_are_both_named():
    procedures, _ = composed(boat("nordgyllen"))
    raft = next(step for step in procedures["fire-starve"].steps if step.id == "fire-starve.raft")
    assert all(str(each.name) in raft.text for each in boat("nordgyllen").rafts)


@pytest.mark.parametrize(
    ("changed", "key"),
    [
        ({"vessel__general_alarm": UNKNOWN}, "vessel.general-alarm"),
        ({"vessel__abandon_order": None}, "vessel.abandon-order"),
        ({"gas__bottles": UNKNOWN}, "gas.bottles"),
    ],
)
def test_a_missing_word_is_a_gap_named_once(changed, key):
    _, gaps = composed(boat(**changed))
    about = [gap for gap in gaps if key in gap.message]
    assert len(about) == 1
    assert about[0].check == "steps.gap"
    assert about[0].weight is Weight.DEFECT
    assert about[0].remedy.startswith(f"find out and write {key.rpartition('.')[2]}")
    assert about[0].place.file.endswith("vessel.yaml")
    assert about[0].place.line > 1


@pytest.mark.parametrize("written", ["", "  muster-place: unknown\n"])
def test_of_a_muster_place_that_is_missing_the_file_tells_once(tmp_path, written):
    """It stands beside steps, and in no sentence of theirs: what is told of it is told of the key."""
    text = (VESSELS / "saltmeadow" / "vessel.yaml").read_text(encoding="utf-8")
    assert text.count("  muster-place: cockpit\n") == 1
    text = text.replace("  muster-place: cockpit\n", written)
    (tmp_path / "vessel.yaml").write_text(text, encoding="utf-8")
    (found,) = [
        each for each in survey_boat(tmp_path).findings if "muster-place" in f"{each.place} {each.message}"
    ]
    assert (found.subject, found.weight) == ("file", Weight.DEFECT)


def test_an_unknown_way_of_working_a_stop_is_a_gap():
    vessel = boat()
    vessel.stops[0].__dict__["how"] = UNKNOWN
    _, gaps = composed(vessel)
    assert [gap.place.line for gap in gaps] == [vessel.stops[0].place("how").line]


def test_notes_stand_beside_their_procedure():
    vessel, _ = load(VESSELS / "saltmeadow", "saltmeadow")
    note = type("Note", (), {"beside": "fire", "text": "The *red* hose <b>"})()
    vessel.__dict__["notes"] = [note]
    fire = composed(vessel)[0]["fire"]
    assert fire.notes == ("<p>The <em>red</em> hose &lt;b&gt;</p>\n",)
    assert composed(vessel)[0]["gas"].notes == ()


def test_slots_have_a_word_or_a_guard():
    """What a step prints is either asked of every boat or guarded by a fact: the invented boats prove it, this names them."""
    everywhere = {"boat", "muster-place", "call-sign", "mmsi", "general-alarm", "abandon-order", "persons"}
    for name in VESSEL_WIDE:
        for step in PROCEDURES[name].steps:
            words = catalogue().procedures[step.words_in].steps[step.id].texts
            if set(slots(" ".join(words.values()))) - everywhere:
                assert step.when or step.when_any or step.id == "gas.bottle", step.id


@pytest.mark.parametrize("name", BOATS)
def test_bill_has_words_and_people_for_every_duty(name):
    vessel = boat(name)
    procedures, _ = compose_procedures(Reckoning(vessel), catalogue())
    bill = compose_bill(Reckoning(vessel), procedures, catalogue())
    assert {"man-overboard", "fire", "flooding"} <= {each.id for each in bill.emergencies}
    for emergency in bill.emergencies:
        for duty in emergency.duties:
            assert duty.text
            assert not duty.text.endswith(".")
            assert duty.who or not duty.essential, f"{emergency.id}: nobody for {duty.id}"
            assert duty.persons >= 1


def test_a_boat_without_a_raft_has_no_duty_to_launch_one():
    vessel, _ = load(VESSELS / "saltmeadow", "saltmeadow")
    vessel.__dict__.update(rafts=[], grab_bags=[])
    procedures, _ = compose_procedures(Reckoning(vessel), catalogue())
    bill = compose_bill(Reckoning(vessel), procedures, catalogue())
    duties = {duty.id for each in bill.emergencies if each.id == "abandon-ship" for duty in each.duties}
    assert duties == {"command", "call", "muster"}


def test_where_nothing_can_feed_a_fire_nobody_is_told_off_to_shut_it():
    bare = boat("tansywade", vessel__engine="none", stops=(), batteries=(), gas=None)
    for vessel, asked in ((bare, False), (boat("tansywade"), True)):
        reckoning = Reckoning(vessel)
        bill = compose_bill(reckoning, compose_procedures(reckoning, catalogue())[0], catalogue())
        fire = next(each for each in bill.emergencies if each.id == "fire")
        assert ("shut-off" in {duty.id for duty in fire.duties}) == asked


def test_a_pump_that_an_engine_drives_is_set_going():
    vessel = boat()
    vessel.pumps[2].__dict__["power"] = "engine"
    (step,) = [each for each in composed(vessel)[0]["flooding"].steps if each.id == "flooding.engine-pump"]
    assert step.text == "Start the pump an engine drives: chart table, starboard, the switch marked BILGE."
    assert "flooding.engine-pump" not in {each.id for each in composed(boat())[0]["flooding"].steps}
