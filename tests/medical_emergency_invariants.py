"""What must hold where somebody is hurt, cold, sick, missing or shut in, whatever the facts of the boat and whoever is left."""

import re
from dataclasses import replace

from emergency_invariants import before, excepted, first, invariant, last, only, saying

REVIVED = ("drowned", "not-breathing")
CARED_FOR = (*REVIVED, "bleeding", "burned", "chilled", "head-injury", "sick-for-days", "radio-doctor")


def without(*parts):
    """Takes the steps of such names away."""

    def spoilt(case):
        gone = set(case.at(*parts))
        kept = tuple(line for number, line in enumerate(case.lines) if number not in gone)
        return replace(case, lines=kept) if gone and kept else None

    return spoilt


@invariant(only("drowned", spoil=last("five")))
def whoever_drowned_gets_breaths_first(case):
    """Air is what they lack: airway, five breaths, then the chest, and no water is pressed out. No exception."""
    if case.one.id == "drowned":
        assert case.at("airway") and case.at("five")
        assert before(case, ("lay", "airway"), ("five",))
        assert before(case, ("five",), ("press", "breathe", "call-late", "shock"))
        assert "Do not press water" in case.lines[case.at("lay")[0]].said


@invariant(only("not-breathing", spoil=last("airway")))
def breathing_is_looked_for_before_the_chest_is_pressed(case):
    """Nobody who breathes is pressed: airway and a look come first, and those who breathe are rolled on the side. No exception."""
    if case.one.id in REVIVED:
        assert case.at("airway") and case.at("press")
        assert before(case, ("airway",), ("press", "breathe", "five"))
        assert "breathe normally" in case.lines[case.at("airway")[0]].unless


@invariant(only("drowned", "trapped", spoil=last("send")))
def somebody_else_calls_at_once(case):
    """Where there are hands for both, one goes to call before anybody breathes for them, presses, opens or breaks anything. Exception: one alone is left."""
    if case.one.id in ("drowned", "trapped") and case.at("send"):
        assert before(case, ("send",), ("five", "press", "hatch", "window", "break"))


@invariant(only(*REVIVED, spoil=first("shock")))
def a_defibrillator_never_delays_the_chest(case):
    """It is fetched and switched on when presses and breaths go on already. Exception: none aboard."""
    if case.one.id in REVIVED:
        assert before(case, ("press", "breathe"), ("shock",))


@invariant(only("drowned", spoil=first("call-late", "send")))
def who_is_alone_with_the_drowned_breathes_before_the_call(case):
    """One pair of hands: a minute of breaths and presses first; where there are two, one goes to call. No exception."""
    if case.one.id == "drowned":
        if case.facts["one left"]:
            assert before(case, ("five", "press", "breathe"), ("call-late", "shock-alone"))
            assert not case.at("send")
        else:
            assert not case.at("call-late")


@invariant(only(*REVIVED, spoil=without("go-on")))
def whoever_is_revived_goes_to_hospital_and_nobody_stops_by_reflex(case):
    """Somebody goes on until they breathe or a doctor says stop, and hospital stands at the end. No exception."""
    if case.one.id in REVIVED:
        assert case.at("go-on")
        assert "hospital" in case.end


@invariant(only("bleeding", spoil=last("press")))
def a_wound_is_pressed_before_anything_is_fetched(case):
    """Pressing takes no gear: it comes before packing, binding, a band and any call; what sticks in stays in. No exception."""
    if case.one.id == "bleeding":
        assert before(case, ("press",), ("pack", "bind", "tourniquet", "band", "send", "call"))
        assert "leave it in" in case.lines[case.at("press")[0]].unless


@invariant(
    only(
        "bleeding",
        spoil=lambda case: saying("do", "Twist a band tight.")(first("band", "tourniquet")(case) or case),
    )
)
def a_band_round_a_limb_is_timed_and_not_loosened(case):
    """The time is written and nobody loosens it. Exception: no band, where its step is not printed."""
    if case.one.id == "bleeding":
        assert case.at("band", "tourniquet")
        for number in case.at("band", "tourniquet"):
            line = case.lines[number]
            assert "spurts" in line.do, line.id
            assert "time" in line.caution and "not loosen" in line.caution, line.id


@invariant(only("burned", spoil=first("cover")))
def a_burn_is_cooled_before_it_is_covered(case):
    """Cool water first, then film; no ice, no fat. No exception."""
    if case.one.id == "burned":
        assert case.at("cool") and case.at("cover")
        assert before(case, ("out", "cool"), ("rings", "cover", "breath", "send", "ask"))
        assert re.search(r"No ice", case.lines[case.at("cool")[0]].caution)


@invariant(only("burned", "not-breathing", spoil=without("lay", "out")))
def nobody_touches_what_current_runs_through(case):
    """Whoever pulls somebody out, or lays them down, has read to switch current off first. Exception: whoever is hurt and alone."""
    if case.one.id in ("burned", "not-breathing") and not case.facts["nobody left"]:
        assert any("current" in line.unless and "before you touch" in line.unless for line in case.lines)


@invariant(only("chilled", spoil=last("flat", "call-alone")))
def whoever_is_cold_lies_before_anything_is_done_with_them(case):
    """They lie flat and are wrapped before they are warmed and drink, and do not walk. Exception: whoever is alone calls first."""
    if case.one.id == "chilled":
        if case.facts["nobody left"]:
            assert not case.facts["radio aboard"] or case.at("call-alone") == [0]
        else:
            assert case.at("flat") == [0]
            assert before(case, ("flat", "inside", "windbreak"), ("wet", "wrap", "warm", "drink"))
            assert before(case, ("wet", "wrap"), ("drink",))
            assert "do not walk" in case.lines[0].caution


@invariant(only("chilled", spoil=saying("do", "Give hot drink and rub the arms.")))
def nobody_is_rubbed_or_made_to_drink(case):
    """No rubbing; drink only for those who are awake and swallow. Exception: whoever is alone drinks by himself."""
    if case.one.id == "chilled":
        for line in case.lines:
            assert "rub" not in line.do, line.id
            if "drink" in line.do.lower():
                assert "awake" in line.do or case.facts["nobody left"], line.id


@invariant(only(*CARED_FOR, spoil=saying("do", "Give them brandy and alcohol.")))
def nobody_is_given_alcohol(case):
    """Alcohol is named to whoever cares for somebody only to be refused. No exception."""
    if case.one.id in CARED_FOR:
        for name, text in case.told:
            for sentence in re.split(r"[.;]", text):
                if re.search(r"alcohol|brandy|rum\b|spirits", sentence, re.IGNORECASE):
                    assert re.search(r"\bno\b", sentence, re.IGNORECASE), name


@invariant(
    only(*CARED_FOR, spoil=saying("do", "Give a tablet against the pain.")),
    sick_for_days__tablet="the tablet that is given before sailing too; its leaflet says for whom not",
)
def no_medicine_is_given_without_a_doctor(case):
    """No step gives a medicine: a doctor by radio does. Exceptions: see there."""
    if case.one.id in CARED_FOR:
        for line in case.lines:
            if not excepted("no_medicine_is_given_without_a_doctor", line.id):
                gives = re.search(
                    r"\b(give|take|swallow)\b.*\b(tablets?|drugs?|medicines?|painkillers?)\b",
                    line.do,
                    re.IGNORECASE,
                )
                assert not gives, line.id


@invariant(only("head-injury", spoil=without("wake", "clock-alone")))
def whoever_hit_the_head_is_woken(case):
    """A head that was struck is watched by the hour, stands no watch, and is not moved by the neck. No exception."""
    if case.one.id == "head-injury":
        assert case.at("wake", "clock-alone")
        assert "hour" in case.end
        if not case.facts["nobody left"]:
            assert case.at("still") == [0]
            assert before(case, ("still", "side"), ("wound", "ask", "wake"))
            assert case.at("duty")


@invariant(only("radio-doctor", spoil=first("call", "call-handheld", "call-satellite")))
def what_the_doctor_asks_lies_ready_before_the_call(case):
    """Who, how, which medicines, where: written down before the call, and the answer is read back. No exception."""
    if case.one.id == "radio-doctor":
        calls = ("call", "ask", "again")
        assert before(case, ("who", "measure", "medicines", "kit", "chest", "position"), calls)
        assert "distress call" in case.intro, "life in danger is another card"
        assert before(case, calls, ("write",))


@invariant(only("skipper-down", spoil=first("call")))
def a_boat_without_a_skipper_is_stopped_before_the_call(case):
    """Engine, sails and autopilot first, then a look round, then the call; no harbour is tried, and nobody swims. Exception: what is not there."""
    if case.one.id == "skipper-down":
        stops = ("autopilot", "lever", "kill-cord", "sails")
        assert case.at(*stops) or not (case.facts["engine"] or case.facts["sailing"])
        assert before(case, stops, ("look", "call", "anchor"))
        assert before(case, ("look",), ("call",))
        assert case.at("told", "wait")
        assert "harbour" in "".join(case.lines[number].said for number in case.at("told", "wait"))
        assert re.search(r"swims?\b", "".join(line.caution for line in case.lines))


@invariant(only("trapped", spoil=last("not-in")))
def nobody_goes_in_to_whoever_is_shut_in(case):
    """Before any hatch is opened it says to stay out of smoke and rising water; ways are opened from outside. No exception."""
    if case.one.id == "trapped":
        assert case.at("not-in")
        assert before(case, ("not-in",), ("hatch", "window", "break", "pull"))
        for number in case.at("hatch", "window"):
            assert "outside" in case.lines[number].do


@invariant(only("trapped", "somebody-missing", spoil=first("call", "send", "pull", "back")))
def people_are_called_by_name_before_the_radio(case):
    """Somebody shouts and listens before anybody calls, turns back or pulls. No exception."""
    if case.one.id in ("trapped", "somebody-missing"):
        assert case.at("call-name", "voice")
        assert before(case, ("call-name", "voice"), ("call$", "send", "pull", "back"))


@invariant(only("somebody-missing", spoil=last("stop", "neutral", "mark")))
def the_place_is_written_and_the_way_taken_off_before_the_boat_is_searched(case):
    """Each minute under way is a mile of sea to search: time and place, then stop, then look inside. Exception: nothing that drives her."""
    if case.one.id == "somebody-missing":
        assert before(case, ("mark", "neutral", "stop"), ("below", "inside", "over-the-side", "back"))
        for number in case.at("below", "inside"):
            line = case.lines[number]
            assert "smoke" in line.unless and "Two minutes" in line.caution, line.id


@invariant(only("co-alarm", spoil=first("off", "open", "doctor")))
def everybody_is_out_of_the_gas_before_anything_is_switched_off(case):
    """Out first; engine and burners only from outside or on the way, and nobody sleeps there. No exception."""
    if case.one.id == "co-alarm":
        assert before(case, ("out",), ("open", "off", "burners", "count", "doctor"))
        for number in case.at("off"):
            assert "from outside" in case.lines[number].do
        assert case.at("stay-out") and "sleeps aboard" in case.end
        for number in case.at("open"):
            assert "from outside" in case.lines[number].do


@invariant(
    only("bleeding", "burned", "chilled", spoil=saying("do", "Steer with one hand, while you press.")),
)
def who_is_left_alone_does_one_thing_at_a_time(case):
    """Where one can act, no step asks for two things at once. No exception."""
    if case.facts["one left"] or case.facts["nobody left"]:
        for line in case.lines:
            at_once = re.search(
                r"\bwhile you (?!can|still|are|think)|at the same time|with the other hand", line.do
            )
            assert not at_once, line.id
