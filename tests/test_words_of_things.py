"""Words against fields: where notes and spots say a thing of hers is, and which figures they say, held against its own entry."""

from datetime import date

import pytest
from checks.survey_patch import VESSELS

from generator.reading.values import given
from generator.survey.registry import DEFECT, Sight, all_checks
from generator.vessel.gear import GrabBag
from generator.vessel.loading import load
from generator.vessel.particulars import Note

DAY = date(2026, 6, 1)
WORDS = [name for name in all_checks() if name.startswith("words.")]


def listed(text):
    return [each for line in text.strip().splitlines() for each in line.split("|")]


# Of Nordgyllen: rafts on the pushpit, grab bag, sets, lifejackets and defibrillator in the wheelhouse to port, EPIRB on its roof.
ASTRAY = listed("""
The defibrillator is in the forepeak.|The fire blanket hangs on the foredeck.|The lifejackets lie in the forward cabin.|The EPIRB stands on the foredeck.
The grab bag is kept in the lazarette.|The hand pump below stands in the forepeak.|Both rafts are on the foredeck.|Our liferafts lie on the foredeck.
In the forepeak hangs the defibrillator.|The forepeak holds the lifejackets.|You find the lifejackets in the forepeak.|Fetch the grab bag from the forepeak.
The satellite telephone lies in the forepeak.|The battery switch is in the engine room.|The dinghy hangs on the pushpit.|Lifejackets: in the forepeak.
There is a defibrillator in the aft cabin.|The medical oxygen stands under the bunk of the forward cabin.|Bring the grab bag up from the saloon.
Remember that the carbon monoxide alarm is in the forepeak.|**The defibrillator is always kept in the lazarette.**|The bolt cutters hang in the forepeak.
The immersion suits and tethers are in the forepeak.|The immersion suits for guests are stowed in the forward cabin.|The port liferaft lies on the starboard side.
The grab bag with the flares hangs in the saloon.|The defibrillator can be found in the forepeak.|The defibrillator has its place in the forepeak.
The lifejackets (10) are in the forepeak.|The fire blanket: forepeak.|Fire blanket in the forepeak.|The battery switch is to be found in the engine room.
The fire blanket is on the starboard side of the galley.|The defibrillator hangs to starboard.|The emergency tiller is in the forepeak.
Take the bolt cutters on the port side of the lazarette.|All extinguishers are at the pulpit.|The orange smoke is in the forepeak, port.
""")
WRONG_FIGURES = listed("""
Our MMSI is 257000009.|Her MMSI number: 257 000 009.|The boat's MMSI is 257000001.|Our call sign is LAZZ8.|The call sign is LAZZ1.|The painter is 20 m long.
The port liferaft has a 20 m painter.|The painter measures 60 feet.|The raft takes 6 persons.|Each raft is for six people.|It is a 4-person raft.
The muster place is the foredeck.|Muster at the foredeck.|We muster in the forepeak.|Everybody gathers on the foredeck.|Mayday: call on VHF 72.|Call for help on VHF channel 6.
Muster on the foredeck with the suits on.|Send the distress call on VHF 13.|Use channel 72 for the distress call.|Call for help on channel 9 at once.
""")
SOUND = listed("""
The cook of a rescue ship will have soup.|The captain of the lifeboat gives the orders then.|The engineer at the base knows the pumps.|The helicopter's captain decides.
The mate of the tanker throws a line.|The skipper of the ferry waits.|The bosun on another ship may lower a net.|The purser ashore has the list.
The defibrillator is in the wheelhouse.|The fire extinguisher in the galley is for the cooker.|The lifejackets lie in the hanging locker of the wheelhouse.
Bring the grab bag to the cockpit.|Launch the port raft from the pushpit.|Hold the raft at the side deck.|The raft then lies alongside the foredeck.|Take the EPIRB into the raft.
The key of the medical chest is at the chart table.|The bracket of the EPIRB is on the wheelhouse roof.|Put the lifejackets on in the saloon.|Use the handheld VHF in the cockpit.
The spare EPIRB is in the wheelhouse.|The locker beside the fire blanket is in the galley.|Whoever fetches the lifejackets is in the saloon.|The old flares lie in the lazarette.
The person with the throwing line stands on the foredeck.|Water stands in the forepeak first.|We muster in the wheelhouse.|Everybody gathers in the wheelhouse.
Gather the guests in the saloon.|If the wheelhouse is full of smoke, muster in the cockpit.|Our MMSI is 257000000.|Our call sign is LAZZ9.|The call sign is written beside the set.
The rescue centre's MMSI is 002570300.|The painter is 11 m long.|Pull out 5 m of painter first.|The painter measures 36 feet.|The raft takes 8 persons.
The raft takes 4 people at a time.|Call on VHF 16.|Call the marina on VHF 80.|The weather forecast comes on VHF 67.|Each raft is for eight people.|An 8-person raft is heavy.
The satellite telephone lies in the wheelhouse.|The fixed extinguisher is released in the wheelhouse.|The hand pump in the cockpit is the larger.|The dinghy lies on the foredeck.
The electric bilge pump is in the engine space.|Its switch is in the wheelhouse.|Guests stay in the forward cabin until called.|Shut the door of the galley.
The battery switch is in the wheelhouse, under the chart drawer.|The lifebuoy hangs on the side deck.|Throw the lifebuoy from the cockpit.|A spare fire blanket lies in the forepeak.
Carry the throwing line to the foredeck.|The parachute flares and the EPIRB come along into the raft.|Nobody sleeps in the forepeak.|The EPIRB's aerial points up.
Count heads in the cockpit.|The grab bag hangs in the wheelhouse, port.|Keep a fire extinguisher at hand in the galley.|Wait with the lifejackets in the cockpit.
The lifejackets for guests are in the wheelhouse.|With the flares in hand go to the foredeck.|The rafts are on the pushpit.|Both rafts lie on the pushpit, one on each side.
The starboard liferaft is to starboard.|The port liferaft is on the port side.|The smoke is thick in the forepeak.|Fight the fire from the cockpit.|The VHF is in the wheelhouse.
Speak to ships near you on VHF 6.|After the Mayday on 16 the harbour listens on channel 12 too.|Call for help on channel 16 and wait.|The coastguard answers on VHF 16.|The bolt cutters are in the lazarette, starboard.|The emergency tiller fits in the cockpit.
Stand by the raft on the pushpit.|The emergency tiller lies in the lazarette.|Cover the defibrillator in the cockpit.|Shade the raft at the foredeck.|Buckets stand in the lazarette.
The extinguisher in the engine space is a fixed one.|The EPIRB floats free on its own.|Check the EPIRB on the wheelhouse roof.|No lifejackets are in the forepeak.
Take the throwing line from the cockpit to the foredeck.|Guests muster with the mate.|Call the skipper first, then on VHF 16.|The grab bag goes into the port liferaft first.
The lifebuoy goes over from the side deck.|The painter must stay fast.|Everybody musters with a lifejacket.|Read the call sign aloud: LAZZ9.|The mate stands at the wheelhouse door.
The smoke alarm sounds in the wheelhouse.|Hang the radar transponder in the raft.|The medical chest is in the aft cabin.|The suits are warm.|Muster place: wheelhouse.
""")


@pytest.fixture(scope="module")
def vessel():
    return load(VESSELS / "nordgyllen", "")[0]


def found(vessel, block, **values):
    """What the checks of words say of a boat with other words at one place."""
    before = {name: block.__dict__.get(name) for name in values}
    block.__dict__.update(values)
    try:
        sight = Sight(vessel, DAY, DAY)
        return [(name, each) for name in WORDS for each in all_checks()[name].find(sight)]
    finally:
        block.__dict__.update(before)


def noted(vessel, text, beside="distress-call"):
    """What they say of a note."""
    note = next(each for each in vessel.notes if isinstance(each, Note))
    return found(vessel, note, text=text, beside=beside)


def block_at(vessel, path):
    return next(each for each in vessel.inner() if each.path == path)


@pytest.mark.parametrize("text", ASTRAY)
def test_a_note_that_sends_elsewhere_is_found(vessel, text):
    said = noted(vessel, text, "fire")
    assert {name for name, _ in said} == {"words.elsewhere"}
    assert said[0][1].place.key == "notes[1].text"
    assert said[0][1].also


@pytest.mark.parametrize("text", WRONG_FIGURES)
def test_a_note_with_another_figure_is_found(vessel, text):
    said = noted(vessel, text)
    assert {name for name, _ in said} == {"words.other-figure"}
    assert said[0][1].place.key == "notes[1].text"


@pytest.mark.parametrize("text", SOUND)
def test_a_note_that_is_sound_brings_nothing(vessel, text):
    assert [f"{name}: {each.message}" for name, each in noted(vessel, text)] == []


@pytest.mark.parametrize(
    ("text", "finds"),
    [
        ("in the sheath on the bracket", False),
        ("on the foredeck", True),
        ("at the pulpit", True),
        ("in the sheath in the forepeak", True),
        ("under the bunk of the forward cabin", True),
        ("under the lid of the forepeak", True),
        ("at the foot of the mast", False),
        ("behind the door of the wheelhouse", False),
        ("opposite the hatch of the forepeak", False),
        ("forward of the wheelhouse", False),
    ],
)
def test_a_spot_elsewhere_is_found_whatever_stands_before_the_space(vessel, text, finds):
    said = found(vessel, block_at(vessel, "rafts[port liferaft].knife"), spot=text)
    assert [name for name, _ in said] == (["words.other-space"] if finds else [])


def test_a_spot_on_another_level_is_found_though_the_plan_shows_both_in_one_place(vessel):
    epirb = next(each for each in vessel.radio.beacons if given(each.where, "") == "wheelhouse roof")
    assert [name for name, _ in found(vessel, epirb, spot="in the saloon")] == ["words.other-space"]
    assert found(vessel, epirb, spot="above the wheelhouse") == []
    switch = block_at(vessel, "stops[batteries]")
    said = found(vessel, switch, how="turn all three keys in the engine room to OFF")
    assert [(name, each.weight is DEFECT) for name, each in said] == [("words.other-space", True)]


@pytest.mark.parametrize("role", ["port guest", "starboard guest", "whoever lies in the port berth"])
def test_a_role_that_holds_a_side_is_read_for_none(vessel, role):
    bag = next(each for each in vessel.inner() if isinstance(each, GrabBag))
    assert found(vessel, bag, carried_by=role) == []
