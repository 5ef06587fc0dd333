"""A boat's own words: those that are sound bring nothing, what contradicts is found; every key with words is read, or apart on purpose."""

from datetime import date
from types import SimpleNamespace

import pytest
from checks.survey_patch import VESSELS

from generator.manual.own_words import APART, OwnWords, as_meant
from generator.manual.said import Several, Word
from generator.manual.words import RAFT_WORDS, vessel_words
from generator.reading.fields import Compound, Text
from generator.reading.worded import NAME, Worded
from generator.survey.registry import DEFECT, Sight, all_checks
from generator.vessel.fittings import Located
from generator.vessel.loading import load
from generator.vessel.vessel import Vessel

DAY = date(2026, 6, 1)
STOP, KEYS, RAFT_GEAR = "stops[gas]", "stops[batteries]", "rafts[liferaft]"
# Of Saltmeadow: the gas stop lies in the galley to port, the engine stop in the cockpit to starboard, the blanket in the galley.
SPOTS = (
    """
under the port settee|beside the fire port|on the port side of the starboard locker|opposite the starboard settee|facing the starboard bunk
between the port and starboard berths|not the starboard one|below the deck|behind the steps|in the locker beside the saloon|at the foot of the mast
port side, behind the cooker|to port of the cooker|under the lid, left hand|inside the door|in the bag with the flares|in port hands the key
beside the usb port|by the cockpit bulkhead|under the cockpit sole|in the galley, under the sink|forward of the chart table|seen from the saloon
in the locker under the port berth|next to the starboard engine's twin, to port|port|on the bulkhead|in the red box marked GAS|in 2 parts in the box
beside the fire extinguisher|behind the liferaft's strap|near the knife|in the cupboard, port|top shelf, port|port, under the step|in its own bag
in the saloon end of the galley|in the galley locker|in the chart table drawer's neighbour|under the floorboards|with the other tools
never behind the starboard door|if the port locker is full, in the saloon locker|in the cockpit locker's neighbour, the galley
""".replace("\n", "|")
    .strip("|")
    .split("|")
)
WAYS = (
    """
pull the red knob right out|turn the brass tap across the pipe|push the lever to starboard|turn to starboard
press and hold for five seconds|under the seat, turn the red key|at the helm: pull it|from outside, lift the lever and turn|with both hands, pull
lift the lid, then press|quarter turn clockwise|hold down 3 s|turn it as the label beside it shows|pull up|open the lid and press the red button
by hand: turn the wheel until it stops|up and out|off at the panel, then the key|break the glass, pull the ring|two turns to the right
use the bolt cutters if it sticks|take the fire blanket and smother it|call the skipper, then turn the tap|the lever on the left down: shut
no key needed: turn it|shut it; the mate has the spare key|with the knife cut the cord|lower the liferaft last|turn it gently, do not force it|squeeze, then pull
unlock it with the key of the base|turn the key instead of the tender's cord|throw the lifebuoy clear first|pull with a fire pump, if there is one
switch the VHF off first|turn the tap, as in the drill|push in and turn left|slide the guard, press both keys|turn it to port, then shut it
""".replace("\n", "|")
    .strip("|")
    .split("|")
)
SIGNALS = (
    """
seven short blasts and one long on the foghorn|one long blast on the whistle|the skipper calls 'All hands' three times|three knocks on the deck
ring the bell|on the foghorn: seven short blasts and one long|shout "Fire! Fire!"|continuous blast on the horn|by voice: everybody shouts it on
blow the whistle until somebody comes|the mate bangs the saucepan|seven short, one long
""".replace("\n", "|")
    .strip("|")
    .split("|")
)
PLACES = (
    """
under the red flap, right of the screen|top left|below the screen|switch panel, top row|red key, lower right|on its back|in the bottom line
front, under the cover|left side, red|beside the knob|turn of the bilge, port|hold locker
""".replace("\n", "|")
    .strip("|")
    .split("|")
)
NOTES = (
    """
**If she is upside down she still floats.**|Take the fire blanket in the galley.|There is no tender: do not wait for one.|The crew know what to do.
Ask the charter base for a distress flag.|The owner's brother has the papers.|If there is a fire pump, use it.|Without an axe, use the bolt cutters.
Never trust the radar reflector.|The mate's cabin stays shut.|Guests sit down.|The water cans float.|Fill the sink with water.
""".replace("\n", "|")
    .strip("|")
    .split("|")
)
WORDS = [name for name in all_checks() if name.startswith("words.")]


@pytest.fixture(scope="module")
def vessel():
    return load(VESSELS / "saltmeadow", "")[0]


def at_path(vessel, path):
    return next(block for block in vessel.inner() if block.path == path)


def found(vessel, path, **values):
    """What the checks of words say of a boat with other words at one place."""
    block = at_path(vessel, path)
    before = {name: block.__dict__.get(name) for name in values}
    block.__dict__.update(values)
    try:
        sight = Sight(vessel, DAY, DAY)
        return [(name, each) for name in WORDS for each in all_checks()[name].find(sight)]
    finally:
        block.__dict__.update(before)


SOUND = [
    *((STOP, "spot", each) for each in SPOTS),
    *((STOP, "how", each) for each in WAYS),
    (KEYS, "how", "turn both red keys to OFF"),
    *(("vessel", "general_alarm", each) for each in SIGNALS),
    *(("radio.sets[fixed VHF]", "distress_button", each) for each in PLACES),
]


@pytest.mark.parametrize(("path", "name", "text"), SOUND, ids=lambda value: str(value)[:40])
def test_what_is_sound_brings_nothing(vessel, path, name, text):
    as_well = {"electric": None} if path == STOP else {}  # how it is worked says it
    assert [
        f"{check}: {each.message}" for check, each in found(vessel, path, **{name: text}, **as_well)
    ] == []


@pytest.mark.parametrize("text", NOTES)
def test_notes_that_are_sound_bring_nothing(vessel, text):
    said = [(name, each.message) for name, each in found(vessel, RAFT_GEAR, overhead=text)]
    assert [message for name, message in said if name != "words.no-answer"] == []


@pytest.mark.parametrize(
    ("path", "name", "text", "check", "defect"),
    [
        (STOP, "spot", "under the starboard settee", "words.other-side", True),
        (STOP, "spot", "starboard, behind the cooker", "words.other-side", True),
        (STOP, "spot", "on the starboard side of the cooker", "words.other-side", False),
        (STOP, "how", "turn the tap under the starboard lid", "words.other-side", True),
        (STOP, "spot", "in the forepeak", "words.other-space", True),
        (STOP, "spot", "in the forepeak, under the lid", "words.other-space", True),
        (STOP, "how", "turn the tap in the forward cabin", "words.other-space", True),
        (STOP, "how", "smother it with the distress flag", "words.not-aboard", False),
        (STOP, "how", "take the dinghy", "words.not-aboard", False),
        (STOP, "how", "pump with the fire pump until it is out", "words.not-aboard", False),
        (STOP, "how", "fetch the fire blanket from the forward cabin", "words.elsewhere", True),
        (STOP, "how", "wait until the boatswain shuts it; the bosun has the key", "words.nobody", False),
        ("vessel", "abandon_order", "guest 4 rings the bell", "words.nobody", False),
        (STOP, "how", "in the locker", "words.no-doing", True),
        (STOP, "how", "by lifting the lid, then turning", "words.no-doing", False),
        (STOP, "how", "somebody turns it", "words.no-doing", False),
        (STOP, "how", "consult the maker's manual", "words.no-doing", True),
        (STOP, "how", "turn the tap, see the maker's manual", "words.broken-sentence", False),
        (STOP, "spot", "see page 12", "words.no-place", True),
        ("radio.sets[fixed VHF]", "distress_button", "press it", "words.no-place", True),
        ("radio.sets[fixed VHF]", "what", "by the chart table", "words.no-thing", True),
        ("vessel", "general_alarm", "as usual", "words.no-signal", True),
    ],
)
def test_what_contradicts_is_found_at_its_key(vessel, path, name, text, check, defect):
    said = [each for one, each in found(vessel, path, **{name: text}) if one == check]
    assert [each.place.key for each in said] == [f"{path}.{name.replace('_', '-')}"]
    weight = said[0].weight if said[0].weight is not None else all_checks()[check].weight
    assert (weight is DEFECT) == defect


def kinds_below(kind, seen):
    seen.add(kind)
    for field in kind.fields.values():
        inner = field.blocks if isinstance(field, Compound) else None
        if inner is not None and inner not in seen:
            kinds_below(inner, seen)
    return seen


def test_every_key_with_words_is_read_or_apart_on_purpose(vessel):
    """What is neither is a name, is read by the crew alone, or stands in a block that tells of what is not aboard."""
    read = {(type(each.block), each.field.key) for each in Sight(vessel, DAY, DAY).own_words}
    for kind in kinds_below(Vessel, set()):
        for key, field in kind.fields.items():
            if isinstance(field, Text) and (kind, key) in read:
                assert field.reader == "guest"
                assert not issubclass(kind, APART)
                assert not (isinstance(field, Worded) and field.says == NAME)
    lost = {
        (type(block).__name__, field.key)
        for block in vessel.inner()
        if not isinstance(block, APART)
        for field in type(block).fields.values()
        if isinstance(field, Text)
        and isinstance(block.__dict__.get(field.name), str)
        and (type(block), field.key) not in read
        and field.reader == "guest"
        and not (isinstance(field, Worded) and field.says == NAME)
    }
    assert lost == set()


def test_what_the_crew_alone_reads_is_never_looked_at(vessel):
    person = vessel.people[0]
    person.__dict__["medical"] = "the captain has the distress flag"
    try:
        sight = Sight(vessel, DAY, DAY)
        assert [each for name in WORDS for each in all_checks()[name].find(sight)] == []
        assert not any(each.field.key == "medical" and each.block is person for each in sight.own_words)
    finally:
        person.__dict__["medical"] = None


@pytest.mark.parametrize("boat", ["saltmeadow", "nordgyllen", "ombrelune", "zilte-wind"])
def test_whatever_a_step_prints_in_its_sentence_says_what_it_is_there(boat):
    """Every slot that is filled with words is filled from a key that says what they are in a sentence."""
    vessel = load(VESSELS / boat, "")[0]
    sight = Sight(vessel, DAY, DAY)
    filled = 0
    for said in sight.reckoning.words.values():
        filled += said_of(said)
    for raft in vessel.rafts:
        for slot in RAFT_WORDS:
            filled += said_of(slot.said(raft, vessel))
    assert filled > 20
    assert len(vessel_words()) > filled / 4


def said_of(said):
    """How many keys fill a slot; fails where one holds words of no kind."""
    words = said.words if isinstance(said, Several) else (said,) if isinstance(said, Word) else ()
    for word in words:
        field = type(word.block).fields.get(word.name.rstrip("_").replace("_", "-"))
        inner = field.block if isinstance(field, Compound) else None if word.name else type(word.block)
        texts = [each for each in inner.fields.values() if isinstance(each, Text)] if inner else [field]
        assert inner is None or issubclass(inner, Located)
        for each in texts:
            assert isinstance(each, Worded) or not isinstance(each, Text), f"{word.key}: say what it is"
    return len(words)


@pytest.mark.parametrize(
    ("beside", "text", "meant"),
    [
        (
            "gas",
            "Shut the tap, then the valve on the bottles.",
            "Shut the gas tap, then the gas valve on the gas bottles.",
        ),
        ("gas-air", "Our tap is stiff.", "Our gas tap is stiff."),
        ("man-overboard", "Throw the line that hangs there.", "Throw the throwing line that hangs there."),
        (
            "abandon-ship",
            "The bag goes first; the jackets are on.",
            "the grab bag goes first; the lifejackets are on.",
        ),
        ("fire-galley", "The blanket hangs there.", "the fire blanket hangs there."),
        ("heavy-weather", "The line and the blanket.", "The line and the blanket."),
    ],
)
def test_bare_names_are_whole_beside_their_procedure(beside, text, meant):
    assert as_meant(text, beside).lower() == meant.lower()


def test_sentences_that_deny_say_nothing():
    words = OwnWords(
        SimpleNamespace(), Vessel.fields["medical"], "No tender. Never the port one; take the raft"
    )
    assert list(words.told) == [" take the raft"]
