"""What must hold for one emergency or a few, whatever the facts of the boat: the order that lives hang on."""

import re
from dataclasses import replace

from emergency_invariants import before, first, invariant, last, only, saying


@invariant(only("fire", "gas", "flooding", "man-overboard"))
def people_come_first(case):
    """With several aboard, the first thing is to shout or to throw, and everybody leaves the danger. Exception: whoever is alone."""
    if case.one.id in ("fire", "gas", "flooding", "man-overboard") and case.persons > 1:
        assert re.match(r"(Shout|Throw|Look)", case.lines[0].do), case.ids[0]


@invariant(only("fire-starve", spoil=first("fixed")))
def fixed_gas_goes_in_last(case):
    """Gas, fuel and air are shut before a fixed extinguisher is released. Exception: what is not there."""
    if case.one.id == "fire-starve":
        assert before(case, ("gas", "fuel", "close"), ("fixed", "automatic"))


@invariant(only("fire-starve", spoil=lambda case: replace(case, intro="It burns.")))
def batteries_go_off_behind_the_call(case):
    """Whoever comes to the switch that silences the fixed radio has read that help is called, and to call first. Exception: a boat without such a radio."""
    if case.one.id == "fire-starve":
        assert re.search(r"help (is )?called", case.intro), case.intro
        for number in case.at("batteries", "lithium-batteries"):
            radio = case.facts["fixed vhf"] or case.facts["mf/hf"]
            assert ("Call first" in case.lines[number].caution) == radio


@invariant(
    lambda case: (
        replace(case, lines=tuple(replace(line, unless="") for line in case.lines))
        if case.at("lithium-batteries")
        else replace(case, lines=tuple(line for line in case.lines if line.id != "fire.lithium"))
        if case.at("lithium$")
        else None
    )
)
def a_burning_battery_is_left_before_any_switch(case):
    """Who would go to a switch beside a lithium battery has read on the first card to leave its space, and reads it there again. Exception: no lithium."""
    if case.one.id == "fire" and case.facts["lithium"]:
        assert case.at("lithium$")
    if case.one.id == "fire-starve" and case.at("lithium-batteries"):
        assert "battery itself" in case.lines[case.at("lithium-batteries")[0]].unless


@invariant(only("gas", "gas-air", spoil=saying("do", "Call for help on the radio.")))
def nothing_sparks_in_gas(case):
    """No step in gas uses radio, telephone, flare, torch or an electric pump. Exception: to leave it as it is."""
    if case.one.id in ("gas", "gas-air"):
        for line in case.lines:
            if re.search(r"\b(radio|telephone|flare|torch|electric|switch)\b", line.do, re.IGNORECASE):
                assert line.do.startswith("Leave") or "touch no" in line.do, line.id


@invariant(only("gas", "gas-air", spoil=first("bottle", "pump")))
def people_leave_before_the_bottle_is_closed(case):
    """Everybody is out before anybody goes to the bottle, and it is aired before it is pumped. No exception."""
    if case.one.id == "gas":
        assert case.at("bottle") and case.at("muster", "go-on-deck", "go-upwind")
        assert before(case, ("muster", "go-on-deck", "go-upwind"), ("bottle",))
    if case.one.id == "gas-air":
        assert case.at("ventilate")
        assert before(case, ("ventilate",), ("pump", "leave-electric-pump"))


@invariant(only("flooding", spoil=last("electric-pump", "hand-pump", "bail")))
def pumps_run_while_the_hole_is_sought(case):
    """Pumps are set going before anybody lifts floorboards, and the hole is found before it is stopped. Exception: what one pair of hands does by hand comes last."""
    if case.one.id == "flooding":
        by_hand = ("hand-pump", "bail")
        assert before(case, ("electric-pump", "engine-pump"), ("find", "look", "seacocks", "hole"))
        if case.facts["one left"]:
            assert before(case, ("find", "look", "seacocks", "plug", "hole"), by_hand)
        else:
            assert before(case, by_hand, ("find", "look", "seacocks", "hole"))
        assert before(case, ("find", "look"), ("seacocks", "plug", "hole"))


@invariant(only("man-overboard", spoil=last("throw")))
def what_floats_is_thrown_first(case):
    """Whatever floats goes over the side before anything but the shout. No exception."""
    if case.one.id == "man-overboard":
        assert min(case.at("throw")) <= 1
        assert before(case, ("throw", "point", "look-back"), ("stop", "mark", "call"))


@invariant(only("man-overboard-return", spoil=last("clip-on", "hold-on", "tie-on")))
def nobody_leans_out_loose(case):
    """Whoever recovers is clipped on or held before a line is thrown. No exception."""
    if case.one.id == "man-overboard-return":
        assert case.at("clip-on", "hold-on", "tie-on")
        assert before(case, ("clip-on", "hold-on", "tie-on"), ("line", "any-line"))


@invariant(only("abandon-ship", spoil=last("lifejackets")))
def lifejackets_before_the_water(case):
    """Lifejackets are on before the count, the launch and the order. No exception."""
    if case.one.id == "abandon-ship":
        assert case.at("lifejackets")
        assert before(case, ("lifejackets",), ("count",))


@invariant(only("abandon-ship", spoil=lambda case: replace(case, lines=case.lines[:-1])))
def everybody_is_counted_before_the_order(case):
    """People are counted before the card on which the order is given. Exception: whoever is alone."""
    if case.one.id == "abandon-ship" and case.persons > 1:
        assert case.ids[-1] == "abandon-ship.count"


@invariant(only("leaving", "into-the-water", spoil=last("engine", "kill-cord")))
def the_engine_stops_before_raft_or_people_go_over(case):
    """A turning propeller cuts rafts and people. Exception: no engine."""
    if case.one.id in ("leaving", "into-the-water") and case.facts["engine"]:
        assert case.at("engine", "kill-cord")
        assert before(case, ("engine", "kill-cord"), ("launch", "order", "leave-alone", "down"))


@invariant(only("abandon-ship", spoil=lambda case: replace(case, lines=case.lines[1:])))
def she_is_left_last_of_all(case):
    """The first line says to stay aboard unless she sinks or burns. No exception."""
    if case.one.id == "abandon-ship":
        assert case.ids[0].startswith("abandon-ship.stay")


@invariant(only("distress-call", spoil=last("button")))
def the_button_comes_before_the_voice(case):
    """The button takes a second and says who and where; the voice follows. Exception: a set without one."""
    if case.one.id == "distress-call":
        assert before(case, ("button",), ("channel", "mayday"))
        assert before(case, ("mayday",), ("position", "nature", "listen"))


@invariant(
    only(
        "distress-call",
        spoil=lambda case: (
            replace(case, lines=(case.lines[0],)) if len(case.lines) > 1 and case.facts["fixed vhf"] else None
        ),
    )
)
def the_voice_says_where_and_what(case):
    """A call by voice says who, where and what. Exception: no VHF."""
    if case.one.id == "distress-call" and (case.facts["fixed vhf"] or case.facts["handheld vhf"]):
        for part in ("mayday", "identity", "position", "nature", "listen"):
            assert case.at(part), part


OF_THE_SPACE = ("stop", "fuel", "vents", "flaps")
"""Steps that shut what feeds a fire in the engine's space."""


@invariant(only("fire-engine", spoil=first("fixed", "automatic", "port", "small-hole", "wait")))
def the_engine_space_is_shut_before_anything_goes_into_it(case):
    """Engine, fuel and air are stopped before an extinguisher goes in, and waiting comes last. Exception: what is not there."""
    if case.one.id == "fire-engine":
        assert before(case, ("keep-",), (*OF_THE_SPACE, "fixed", "automatic", "port", "small-hole"))
        assert before(case, OF_THE_SPACE, ("fixed", "automatic", "port", "small-hole", "wait"))
        assert case.at("wait") == [len(case.lines) - 1]


@invariant(only("fire-battery", spoil=last("out", "smoke")))
def nobody_goes_to_a_burning_battery(case):
    """Everybody is out, and told not to go back, before a switch, a plug or a lid is named; each of these says when not. No exception."""
    if case.one.id == "fire-battery":
        assert before(case, ("out", "smoke"), ("small", "charger", "bank", "shut", "cool"))
        for number in case.at("small", "charger", "bank", "cool"):
            line = case.lines[number]
            assert "smok" in f"{line.do} {line.unless}", line.id


@invariant(only("helicopter", spoil=first("crewman", "lifted")))
def the_line_of_a_helicopter_is_never_fast(case):
    """The line has touched the sea, and is known to go fast to nothing, before anybody pulls it or is lifted. No exception."""
    if case.one.id == "helicopter":
        assert case.at("line$") and case.at("never-fast")
        assert before(case, ("line$", "never-fast"), ("crewman", "lifted"))


@invariant(only("transfer", spoil=last("lifejackets")))
def nobody_climbs_to_a_ship_without_a_lifejacket_and_a_line(case):
    """Lifejackets are on and a line is round whoever climbs before the step across. No exception."""
    if case.one.id == "transfer":
        assert case.at("lifejackets") and case.at("weakest", "line-alone")
        assert before(case, ("lifejackets",), ("weakest", "line-alone"))
        assert before(case, ("weakest", "line-alone"), ("top",))


@invariant(only("false-alert", spoil=last("reset", "epirb", "plb", "beacons")))
def what_sends_is_stopped_before_it_is_taken_back(case):
    """Set and beacon are stopped first, then everybody is told; somebody is always told. No exception."""
    if case.one.id == "false-alert":
        assert case.at("tell")
        assert before(case, ("reset", "epirb", "plb", "beacons"), ("say", "tell", "satellite"))


@invariant(
    only("urgent-call", "distress-seen", spoil=saying("do", "Press the red distress button.")),
)
def the_distress_button_is_left_for_her_own_distress(case):
    """Neither an urgent call nor the distress of others is sent with the red button. No exception."""
    if case.one.id in ("urgent-call", "distress-seen"):
        for line in case.lines:
            assert "button" not in line.do, line.id
            if "button" in line.caution:
                assert re.search(r"\b(not|never)\b", line.caution, re.IGNORECASE), line.id
