"""What a step prints inside its sentence: words that break it are defects, with an example that reads; good words bring nothing."""

from datetime import date

import pytest
from checks.survey_patch import VESSELS

from generator.manual.orders import orders, somebody
from generator.survey.registry import DEFECT, Sight, all_checks
from generator.vessel.fittings import Fitting
from generator.vessel.loading import load

DAY = date(2026, 6, 1)
FORMS = ("words.no-thing", "words.no-place", "words.no-doing", "words.no-signal")


def listed(text):
    return [each for line in text.strip().splitlines() for each in line.split("|")]


THINGS = listed("""
the gate on the lee side|swim platform|swim ladder|the jump seat|lifting strop|step ladder|forward gate|aft cleat|inside steering rail|hook on the mast
after hatch|lower step of the ladder|hold-down ring|pull cord|push rail|a ladder over the transom|both rings|three strands of the rail|tie bar
open rail beside the mast|walk-through transom|climbing net|hoist on the boom|the skipper's chair|her stern ladder|swing gate|lift gate to port
slide under the bench|carry strap of the seat|upper rail|its lowest step|our gate|near rail|outside shower rail|drop-nose pin|turn button|launch ramp
""")
BROKEN_THINGS = listed("""
straight aft over the transom|jump down from the bow|we pull together|tie it on|swim to the bow|unfold it and climb|over the side|hold the rail
everybody climbs up|aft of the mast|forward|climb over the pushpit|go aft and step down|pull the strap|lift it over|lash it to the rail|on|yes|here
forward over the rail|they lift her|from the cockpit|when she rolls, the gate|lower them down|under the boom|let go the hook
""")
PLACES = listed("""
top left|below the lid|in the sheath on the cradle|turn of the bilge|hold locker|lower shelf|on its back|clip beside it|slide-out drawer|open shelf
hook behind the door|up at the deckhead|press-stud pocket|switch panel, top row|lift-up seat, underneath|step, port end|port|hanging locker
""")
BROKEN_PLACES = listed(
    "press it|unfold it and climb|pull it out|on|yes|take the left one|turn the lid|climb down and look|jump in|go below|reach in"
)
WAYS = listed("""
pull|press|up and out|two turns to the right|quarter turn|off at the panel, then the key|the lever on the left down: shut|by hand: turn the wheel
unscrew lid|release pin and push|red knob right out|both handles round|squeeze|lever down|under the seat, turn the key|key to OFF, left
all stand on the keel|all lean back on the centreboard|the crew sits on the float|everybody hangs on the line|two people climb onto the keel
on the panel press OFF|stand on the centreboard and lean back on the righting line|use the spare key|twist|yank hard
""")
BROKEN_WAYS = listed(
    "it is on the left|they are under the seat|the key is red|all on the keel|in the galley|tap|on|the red tap|under the seat|lever|at the panel|inside the locker|off|switch|red switch|behind the steps|key"
)
SIGNALS = listed("""
on the horn three long blasts|over the loudspeaker the skipper's voice|from the bridge the bell is rung|into the cabins by shouting
shout three times|sound the horn|ring the bell|everybody shouts it on|three long|jump: the skipper calls it|the gong
""")
BROKEN_SIGNALS = listed(
    "straight aft over the transom|jump down from the bow|swim to the raft|over the side|on|in the cockpit|go forward"
)
FIELDS = [
    *(("rafts[liferaft].launch-from", "what", each) for each in (THINGS, BROKEN_THINGS)),
    *(("rafts[liferaft].board-from", "what", each) for each in (THINGS, BROKEN_THINGS)),
    *(("rafts[liferaft].strong-point", "what", each) for each in (THINGS, BROKEN_THINGS)),
    *(("recovery.hoist", "what", each) for each in (THINGS, BROKEN_THINGS)),
    *(("rafts[liferaft].knife", "spot", each) for each in (PLACES, BROKEN_PLACES)),
    *(("recovery.ladder", "spot", each) for each in (PLACES, BROKEN_PLACES)),
    *(("radio.sets[fixed VHF]", "distress_button", each) for each in (PLACES, BROKEN_PLACES)),
    *(("stops[gas]", "how", each) for each in (WAYS, BROKEN_WAYS)),
    *(("radio.sets[fixed VHF]", "power", each) for each in (WAYS, BROKEN_WAYS)),
    *(("vessel", "general_alarm", each) for each in (SIGNALS, BROKEN_SIGNALS)),
    *(("vessel", "abandon_order", each) for each in (SIGNALS, BROKEN_SIGNALS)),
]
CASES = [
    (path, name, text, texts in (BROKEN_THINGS, BROKEN_PLACES, BROKEN_WAYS, BROKEN_SIGNALS))
    for path, name, texts in FIELDS
    for text in texts
]


@pytest.fixture(scope="module")
def vessel():
    return load(VESSELS / "saltmeadow", "")[0]


def found(vessel, path, **values):
    """What the checks of forms say of a boat with other words at one place."""
    block = next(each for each in vessel.inner() if each.path == path)
    before = {name: block.__dict__.get(name) for name in values}
    block.__dict__.update(values)
    try:
        sight = Sight(vessel, DAY, DAY)
        return [each for name in FORMS for each in all_checks()[name].find(sight)]
    finally:
        block.__dict__.update(before)


@pytest.mark.parametrize(("path", "name", "text", "broken"), CASES, ids=lambda value: str(value)[:40])
def test_what_breaks_a_step_is_a_defect_and_nothing_else_is(vessel, path, name, text, broken):
    said = found(vessel, path, **{name: text})
    assert [each.weight is DEFECT for each in said] == ([True] if broken else [])
    if broken:
        assert said[0].place.key == f"{path}.{name.replace('_', '-')}"
        assert ", for example " in said[0].remedy
        example = said[0].remedy.partition(": ")[2]
        assert len(example) > 5
        assert not somebody(example)
        assert orders(example) == (name in ("how", "power") and "breaker" not in example)


def test_the_example_is_that_of_the_field_that_holds_the_fitting(vessel):
    hoist = found(vessel, "recovery.hoist", what="we pull together")[0]
    assert "what: the main halyard" in hoist.remedy
    point = found(vessel, "rafts[liferaft].strong-point", what="tie it on")[0]
    assert "what: the U-bolt" in point.remedy


def test_a_fitting_in_words_alone_wants_its_article(vessel):
    path = "rafts[liferaft].launch-from"
    alone = {"where": None, "side": None, "spot": None}
    bare = found(vessel, path, what="lee side", **alone)
    assert [each.weight is DEFECT for each in bare] == [False]
    assert "no article" in bare[0].message
    assert found(vessel, path, what="the lee side", **alone) == []
    assert found(vessel, path, what="lee side", **{**alone, "where": "side deck"}) == []
    assert found(vessel, path, what="the skipper's rail", **alone) == []
    assert isinstance(next(each for each in vessel.inner() if each.path == path), Fitting)
