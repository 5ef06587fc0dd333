"""What a boat's file tells is printed where a hand needs it: radios, lifejackets worn, stops, the hoist, helpers, roles of several."""

import re
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from open_boats import DAYBOAT, OPEN_BOAT, changed, surveyed
from specimens import VESSELS
from test_said_of_fittings import YACHT

from generator.manual.composing import Manual, compose
from generator.manual.procedures import Step
from generator.outputs import Job, book, cards, site
from generator.publishing import Surveyed
from generator.reading.findings import Weight
from generator.shelves.languages import catalogue
from generator.vessel.loading import load

AS_OF = date(2026, 6, 1)
SETS = "    - {what: handheld VHF, kind: handheld VHF, dsc: no, where: saloon, side: starboard, power: turn the top knob to the right}\n"
SHORTWAVE = "    - {what: shortwave radio, kind: MF/HF, dsc: yes, where: helm, side: port, distress-button: under the red flap, power: press PWR}\n"
SILENT = SHORTWAVE.replace("dsc: yes", "dsc: no").replace("distress-button: under the red flap, ", "")
SATELLITE = "    - {what: satellite telephone, kind: satellite telephone, dsc: no, where: saloon, side: starboard, power: hold the green key}\n"
FAR = ("waters: sheltered", "waters: offshore")
JACKETS = "{size: adult, kind: inflatable, quantity: 4, where"


def steps_of(manual: Manual, procedure: str) -> dict[str, Step]:
    """The steps of a procedure by the last part of their ids."""
    return {
        step.id.partition(".")[2]: step
        for one in manual.procedures
        if one.kind == procedure
        for step in one.steps
    }


def yacht(tmp_path: Path, *pairs: tuple[str, str]) -> Manual:
    manual = surveyed(changed(YACHT, *pairs), tmp_path).manual
    assert manual is not None
    return manual


def open_boat(tmp_path: Path, *pairs: tuple[str, str]) -> Manual:
    manual = surveyed(changed(OPEN_BOAT, *pairs), tmp_path).manual
    assert manual is not None
    return manual


@pytest.mark.parametrize(
    ("sets", "step", "text", "place"),
    [
        (SHORTWAVE, "shortwave-button", "Hold the distress button of the shortwave radio.", "helm, port (press PWR; distress button under the red flap)"),
        (SILENT, "shortwave", "Say the whole call on 2182 kHz, on the shortwave radio.", "helm, port (press PWR)"),
        (SATELLITE, "satellite-unnumbered", "Call the rescue centre on the satellite telephone.", "saloon, starboard (hold the green key)"),
        ("", "telephone-unnumbered", "If a telephone has a signal, call the coastguard.", ""),
    ],
)  # fmt: skip
def test_after_the_vhf_the_other_sets_call(tmp_path, sets, step, text, place):
    steps = steps_of(yacht(tmp_path, (SETS, SETS + sets), FAR), "call-unheard")
    assert (steps[step].text, steps[step].place) == (text, place)
    assert next(iter(steps)) == "again"


def test_without_a_vhf_the_shortwave_set_makes_the_whole_call(tmp_path):
    steps = steps_of(yacht(tmp_path, (SETS, SHORTWAVE + SATELLITE)), "distress-call")
    assert list(steps)[:4] == ["power-shortwave", "button-shortwave", "channel-shortwave", "mayday"]
    assert (steps["power-shortwave"].text, steps["power-shortwave"].place) == (
        "Turn on the shortwave radio.",
        "helm, port (press PWR)",
    )
    assert steps["button-shortwave"].place == "under the red flap"
    steps = steps_of(yacht(tmp_path, (SETS, SILENT)), "distress-call")
    assert "button-shortwave" not in steps


NUMBER = "+353 20 915 0147"


@pytest.mark.parametrize("phone", [NUMBER, "private"])
def test_the_rescue_centre_s_number_stands_where_it_is_dialled_unless_it_is_private(tmp_path, phone):
    centre = next(line for line in YACHT.splitlines() if "kind: rescue centre" in line)
    told = centre.replace("}", f", phone: {phone}}}")
    (tmp_path / "private.yaml").write_text(f"format: 1\ncontacts[the rescue centre].phone: {NUMBER}\n")
    found = surveyed(changed(YACHT, (SETS, SETS + SATELLITE), FAR, (centre, told)), tmp_path)
    assert found.manual is not None
    said = steps_of(found.manual, "call-unheard")
    read = "".join(
        data.decode()
        for name, data in site.write(Job(found.manual, "guest")).files.items()
        if name.endswith(".html")
    )
    if phone == NUMBER:
        assert said["satellite"].text == f"Call the rescue centre: {NUMBER}."
        assert read.count(NUMBER) > 2
    else:
        assert "satellite-unnumbered" in said
        assert NUMBER not in read


@pytest.mark.parametrize(
    ("words", "on"),
    [
        ("always on", True),
        ("It is always on", True),
        ("never switched off", True),
        ("always on the shelf", False),
    ],
)
def test_a_set_that_is_always_on_is_not_switched_on(tmp_path, words, on):
    told = "power: turn the top knob to the right", f"power: {words}"
    far = SHORTWAVE.replace("power: press PWR", f"power: {words}, position-shown: in the bottom line")
    found = surveyed(changed(YACHT, (SETS, SETS.replace(*told) + far), FAR), tmp_path)
    wrong = [each for each in found.findings if each.check == "words.no-doing"]
    steps = steps_of(found.manual, "distress-call") | steps_of(found.manual, "call-unheard")
    assert (len(wrong) == 2, steps["power-handheld"].text == "Go to the handheld VHF: it is always on.") == (
        not on,
        on,
    )
    if on:
        assert steps["shortwave-button"].place == "helm, port (always on; distress button under the red flap)"


def test_a_set_of_which_only_the_place_is_told_is_no_gap(tmp_path):
    bare = SATELLITE.replace(", power: hold the green key", "")
    found = surveyed(changed(YACHT, (SETS, SETS + bare)), tmp_path)
    assert not [each for each in found.findings if each.check == "steps.gap"]
    assert steps_of(found.manual, "call-unheard")["satellite-unnumbered"].place == "saloon, starboard"


def test_who_wears_a_lifejacket_is_not_sent_to_the_locker(tmp_path):
    worn = {"all": "skipper, mate, guest 1, guest 2", "some": "skipper, mate", "nobody": ""}
    said = {}
    for who, roles in worn.items():
        jackets = JACKETS.replace("where", f"worn-by: [{roles}], where") if roles else JACKETS
        manual = open_boat(tmp_path, (JACKETS, jackets))
        steps = steps_of(manual, "abandon-ship")
        (step,) = (each for name, each in steps.items() if name.startswith("lifejackets"))
        said[who] = step.text, step.place
        assert bool(steps_of(manual, "man-overboard-return")["hold-on"].place) == (who != "all")
    locker = "foredeck locker"
    assert said == {
        "all": ("Check every strap of your lifejacket.", ""),
        "some": ("If you wear no lifejacket, put one on.", locker),
        "nobody": ("Put on your lifejacket and do up every strap.", locker),
    }


@pytest.mark.parametrize("words", ["all", "everybody", "all whom it fits", "[All]"])
def test_where_everybody_wears_a_lifejacket_no_words_send_for_one(tmp_path, words):
    jackets = JACKETS.replace("where", f"worn-by: {words}, where")
    found = surveyed(changed(OPEN_BOAT, (JACKETS, jackets)), tmp_path)
    assert not [each for each in found.findings if each.check == "people.worn-by"]
    manual = found.manual
    steps = steps_of(manual, "man-overboard-return")
    (lean,) = (steps[name].text for name in ("hold-on", "clip-on") if name in steps)
    assert re.match(r"Lean out only (clipped on|held), your lifejacket done up", lean)
    assert (
        steps_of(manual, "abandon-ship")["dress"].unless
        == "fire or water leaves no time: then go in the lifejacket that you wear."
    )
    said = [
        text
        for one in manual.procedures
        for step in one.steps
        for text in (step.text, step.unless, step.caution)
    ]
    bill = [duty.text for one in manual.bill.emergencies for duty in one.duties]
    assert "With your lifejacket on, get the person aboard" in bill
    assert not [
        text
        for text in (*said, *bill)
        if re.search("put on (a|your) lifejacket|take the lifejacket", text, re.IGNORECASE)
    ]


def test_with_fewer_jackets_than_wearers_the_words_send_for_one(tmp_path):
    jackets = JACKETS.replace("4, where", "3, worn-by: all, where")
    manual = open_boat(tmp_path, (JACKETS, jackets))
    assert "Lean out only in a lifejacket" in steps_of(manual, "man-overboard-return")["hold-on"].text
    assert "lifejackets-not-worn-in-the-open" in steps_of(manual, "abandon-ship")


def test_where_people_sleep_below_nobody_is_taken_to_wear_one_always(tmp_path):
    jackets = "{size: adult, kind: foam, quantity: 3, "
    manual = yacht(tmp_path, (jackets, jackets + "worn-by: [skipper, mate, guest], "))
    step = steps_of(manual, "abandon-ship")["lifejackets-not-worn"]
    assert (step.text, step.place) == (
        "If you wear no lifejacket, put one on.",
        "cockpit locker, port",
    )


def test_a_wearer_is_printed_with_the_size_that_fits(tmp_path):
    manual = open_boat(
        tmp_path,
        ("{role: guest 2}", "{role: guest 2, age: 9, lifejacket: child}"),
        ("size: adult, kind: inflatable, quantity: 4,", "size: {adult: 3, child: 1}, kind: inflatable, worn-by: [skipper, guest 2],"),
    )  # fmt: skip
    assert {str(each.size): manual.wearers(each) for each in manual.vessel.lifejackets} == {
        "adult": ("skipper",),
        "child": ("guest 2",),
    }


@pytest.mark.parametrize(
    ("boat", "otherwise"), [(OPEN_BOAT, "paddle or row back"), (DAYBOAT, "come back under sail")]
)
def test_the_spare_kill_cord_has_a_step_of_its_own_and_who_has_none_is_told_what_to_do(
    tmp_path, boat, otherwise
):
    with_spare = steps_of(surveyed(boat, tmp_path).manual, "man-overboard")
    spare = next(re.finditer(r", spare: {where: helm, side: (\w+), spot: on the hook}", boat))
    without = steps_of(surveyed(changed(boat, (spare[0], "")), tmp_path).manual, "man-overboard")
    step = with_spare["spare-kill-cord"]
    assert step.text.endswith(f"take the spare: helm, {spare[1]}, on the hook.")
    assert "propeller" in step.caution
    assert "no-spare-kill-cord" not in with_spare
    assert otherwise in without["no-spare-kill-cord"].text
    assert "distress call" in without["no-spare-kill-cord"].caution
    assert step.number < next(
        each.number for name, each in with_spare.items() if name.startswith("stop-under")
    )


def test_where_no_kill_cord_is_no_step_speaks_of_one(tmp_path):
    cord = next(line for line in OPEN_BOAT.splitlines(keepends=True) if "what: kill cord" in line)
    assert not [step for step in steps_of(open_boat(tmp_path, (cord, "")), "man-overboard") if "cord" in step]


TWO_STOPS = """\
  - {what: engine, where: helm, side: port, serves: port engine, electric: no, how: pull the knob}
  - {what: engine, where: helm, side: starboard, serves: starboard engine, electric: yes, how: HOW}
"""


def test_of_several_stops_each_is_said_with_what_it_serves(tmp_path):
    one = "  - {what: engine, where: helm, side: centre, electric: yes, how: press both stop buttons}\n"
    step = steps_of(yacht(tmp_path, (one, TWO_STOPS.replace("HOW", "press it"))), "fire-engine")["stop-one"]
    assert step.text.endswith("the one that burns: port engine – pull the knob; starboard engine – press it.")
    assert step.place == "port engine – helm, port; starboard engine – helm, starboard (makes a spark)"
    alike = steps_of(yacht(tmp_path, (one, TWO_STOPS.replace("HOW", "pull the knob"))), "fire-engine")["stop"]
    assert alike.text.endswith("Stop every engine: pull the knob.")
    assert alike.place == step.place
    gas = steps_of(yacht(tmp_path, (one, TWO_STOPS.replace("HOW", "press it"))), "gas-air")
    assert gas["engines-by-hand"].text == "Stop any engine that runs: port engine – pull the knob."
    assert gas["leave-electric-engine-stop"].place == "starboard engine – helm, starboard"
    alone = steps_of(yacht(tmp_path), "fire-engine")["stop"]
    assert (alone.text.endswith("Stop every engine: press both stop buttons."), alone.place) == (
        True,
        "helm (makes a spark)",
    )


def test_the_side_of_lifting_is_printed(tmp_path):
    hoist = "hoist: {what: the mainsheet, where: cockpit, side: port}, side: port"
    steps = steps_of(
        yacht(tmp_path, (hoist, "hoist: {what: the main halyard, where: mast}, side: starboard")),
        "back-aboard",
    )
    assert steps["hoist"].text.endswith("with the main halyard (mast).")
    assert steps["hoist"].place == "cockpit, starboard"


HELPED = (
    "{role: guest 2}",
    "{role: guest 2, quantity: 3, needs-help: cannot climb a ladder alone, helper: mate}",
)


def test_the_bill_says_who_goes_with_whom(tmp_path):
    manual = open_boat(tmp_path, HELPED)
    bill = manual.bill
    assert bill.called["guest 2"] == "guest 2 (3)"
    assert bill.idle["guest 2"] == "go to the muster place with mate (helper)"
    assert bill.idle["guest 1"] == "go to the muster place and follow the skipper"
    assert bill.helps["mate"] == "helps: guest 2 (3) (cannot climb a ladder alone)"
    assert bill.helps_briefly["mate"] == "helps: guest 2 (3)"
    assert not bill.helps["skipper"]


def test_the_outputs_print_helper_help_and_number(tmp_path):
    manual = open_boat(tmp_path, HELPED)
    job = Job(manual, "guest")
    page = site.write(job).files["bill.html"].decode()
    table = book.html(replace(job, reader="crew"))
    hung = [each for each in cards.cards(manual, "guest") if each.blocks[0].template == "bill.html"]
    card = cards._Page(job).html([cards.Set(each, 20.0, 1) for each in hung])
    for text in ("guest 2 (3)", "go to the muster place with mate (helper)", "helps: guest 2 (3)"):
        assert text in card
    assert "helps: guest 2 (3) (cannot climb a ladder alone)" in table
    assert "go to the muster place with mate (helper)" in table
    for text in ("guest 2 (3)", "go to the muster place with mate (helper)", "helps: guest 2 (3)"):
        assert text in page
    need = "cannot climb a ladder alone"
    assert not any(
        need in data.decode() for name, data in site.write(job).files.items() if name.endswith(".html")
    )
    assert need in site.write(replace(job, reader="crew")).files["bill.html"].decode()


def test_a_raft_calls_and_counts_a_role_of_several_with_its_number():
    vessel, _ = load(VESSELS / "nordgyllen", "nordgyllen")
    guest = next(person for person in vessel.people if person.role == "guest 1")
    guest.__dict__["quantity"] = 3
    manual, gaps = compose(vessel, AS_OF, AS_OF, catalogue())
    assert not gaps
    crew = "skipper, deckhand 1, cook, guest 1 (3)"
    said = [
        step.text
        for one in manual.procedures
        for step in one.steps
        if step.id in ("boarding.crew", "boarding.count-here") and "guest 1" in step.text
    ]
    assert len(said) == 2
    assert all(text.endswith(f": {crew}.") for text in said)
    assert f"{crew}." in steps_of(manual, "leaving")["own-raft"].caution
    pages = site.write(Job(manual, "guest")).files
    assert any(crew in pages[name].decode() for name in pages if name.startswith("liferaft"))


STILL = "still-carried: {reason: the new one is ordered, who: the skipper, until: 2026-06-20}"


def saltmeadow(old: str, new: str, tmp_path: Path) -> Surveyed:
    """The specimen with a part of her text changed."""
    text = (VESSELS / "saltmeadow" / "vessel.yaml").read_text(encoding="utf-8")
    return surveyed(changed(text, (old, new)), tmp_path)


@pytest.mark.parametrize(
    ("key", "past", "check", "item"),
    [
        ("head-expires: 2028-04", "head-expires: 2026-03", "gear.expired", "adult lifejackets"),
        (
            "battery-expires: 2029-01",
            "battery-expires: 2026-03",
            "radio.battery-expired",
            "radar transponder",
        ),
    ],
)
def test_lifejackets_and_beacons_past_their_date_may_be_carried(tmp_path, key, past, check, item):
    def defects(found: Surveyed) -> list[str]:
        return [each.check for each in found.findings if each.weight is Weight.DEFECT]

    assert check in defects(saltmeadow(key, past, tmp_path))
    carried = saltmeadow(key, f"{past}, {STILL}", tmp_path)
    assert check not in defects(carried)
    assert "deferral.unused" not in [each.check for each in carried.findings]
    assert item in [carried.manual.deferred_by(entry)[0].item for entry in carried.manual.still_carried]
    idle = saltmeadow(key, f"{key}, {STILL}", tmp_path)
    assert [each.message for each in idle.findings if each.check == "deferral.unused"] == [
        f"{item}: is not past its date; it says why it is still carried"
    ]
