"""What must hold between the first card of an emergency and those that follow it under its bill, whatever the facts of the boat."""

import re
from dataclasses import replace

from emergency_invariants import before, first, invariant, last, only, saying
from fact_sample import steps_for

from generator.manual.procedures import holds
from generator.shelves.procedures import shelf

FOLLOWS = {
    "fire": "fire-starve",
    "flooding": "flooding-rises",
    "gas": "gas-air",
    "man-overboard": "man-overboard-return",
}
"""The first card of an emergency, and the one that it is left for when that was not enough."""


@invariant(only(*FOLLOWS, spoil=lambda case: replace(case, leaves=())))
def a_first_card_leads_to_its_second(case):
    """Whoever has done what the first card says finds the way to the second, and that boat has it. No exception."""
    if case.one.id in FOLLOWS:
        assert FOLLOWS[case.one.id] in {to for _, to in case.leaves}
        assert FOLLOWS[case.one.id] in case.there


@invariant(only(*FOLLOWS, spoil=lambda case: replace(case, lines=())))
def no_duty_of_the_bill_is_without_an_act(case):
    """Each duty that somebody must have is done on one of the cards under its bill. Exception: of what is shut off nothing is told but that it is there."""
    if case.one.id in FOLLOWS and case.persons > 1:
        done = {line.duty for line in case.lines}
        for other in shelf():
            if other.bill == case.one.id and other.id != case.one.id:
                done |= {step.duty for step in steps_for(other, case.facts, case.able) or ()}
        for duty in case.one.duties:
            told = any(case.facts[each] for each in ("gas", "engine", "fuel stop", "batteries stop"))
            if duty.essential and holds(duty.when, (), case.facts) and (told or duty.id != "shut-off"):
                assert duty.id in done, duty.id


@invariant(only("fire", spoil=saying("do", "Close every hatch once all are out.")))
def the_card_of_those_who_get_out_closes_nothing(case):
    """While people still come out nobody reads to close or to shut off; that stands on the second card, which says that all are out. No exception."""
    if case.one.id == "fire":
        for line in case.lines:
            assert not re.match(r"(If .*, )?(Close|Shut|close|shut)\b", line.do), line.id


@invariant(only("fire-starve", "gas-air", spoil=lambda case: replace(case, intro="Then go on.")))
def the_second_card_says_that_people_are_out(case):
    """Nobody starves a fire or airs gas before everybody is out: its condition line says so. No exception."""
    if case.one.id in ("fire-starve", "gas-air"):
        assert re.search(r"\bout\b", case.intro, re.IGNORECASE), case.intro


@invariant(only("fire", "fire-starve", "man-overboard-return", spoil=lambda case: replace(case, intro="It burns.", lines=tuple(replace(each, caution="") for each in case.lines))))  # fmt: skip
def whoever_is_left_alone_reads_what_never_to_do(case):
    """One pair of hands: no second try in smoke, never back in, never into the water. Exceptions: a boat nobody can be inside, or without a VHF to call with."""
    if not case.facts["one left"]:
        return
    said = " ".join([case.intro, *(line.caution for line in case.lines)])
    if case.one.id == "man-overboard-return":
        assert "Never go in" in said
    if case.one.id == "fire-starve" and case.facts["closed in"]:
        assert "Never go back in" in said
    if case.one.id == "fire" and (case.facts["fixed vhf"] or case.facts["handheld vhf"]):
        assert "No second try" in said


@invariant(only("man-overboard", spoil=lambda case: replace(case, lines=(*case.lines, *case.lines[-1:]))))
def one_call_is_made_and_from_where_the_helm_is(case):
    """There is one call; where one is left it is made by what lies at hand, or waits until the person is reached. No exception."""
    if case.one.id == "man-overboard":
        (number,) = case.at("call")
        line = case.lines[number]
        if case.facts["one left"] and case.facts["handheld vhf"]:
            assert line.place == "handheld-place"
        elif case.facts["one left"] and case.facts["fixed vhf"]:
            assert "out of reach of the helm" in line.unless


@invariant(only("man-overboard-return", spoil=first("line", "any-line")))
def the_boat_is_beside_them_before_a_line_is_thrown(case):
    """Who leans out is held and the boat has come up before the line. No exception."""
    if case.one.id == "man-overboard-return":
        assert case.at("approach") and case.at("line", "any-line")
        assert before(case, ("clip-on", "hold-on"), ("approach",))
        assert before(case, ("approach",), ("line", "any-line"))


@invariant(only("back-aboard", spoil=last("tie", "engine")))
def nobody_is_lifted_loose_or_beside_a_propeller(case):
    """The person is tied and the engine stopped before anybody climbs or is lifted; breaths come before warmth. Exception: no engine."""
    if case.one.id == "back-aboard":
        assert case.at("tie") and bool(case.at("engine")) == case.facts["engine"]
        assert before(case, ("tie", "engine"), ("gate", "ladder", "hoist", "lift"))
        assert before(case, ("ladder", "hoist", "lift"), ("breathe",))
        assert before(case, ("breathe",), ("care",))


@invariant(only("flooding-rises", spoil=last("call")))
def the_call_comes_first_where_water_still_rises(case):
    """Where it rises still, the call goes out first of all, for the radio drowns with the batteries; the raft is up before it is made ready. No exception."""
    if case.one.id == "flooding-rises":
        assert case.at("call") == [0]
        assert bool(case.at("fetch-raft")) == case.facts["raft below"]
        assert before(case, ("fetch-raft",), ("raft",))
        assert before(case, ("hole", "lift", "slow"), ("shallow", "raft", "no-raft"))


@invariant(only("flooding", "flooding-rises", spoil=lambda case: replace(case, lines=tuple(line for line in case.lines if "hole" not in line.id))))  # fmt: skip
def a_hole_is_stopped_on_one_of_the_two_cards(case):
    """What is done at a hole in the hull stands on one card or the other, never on both and never on none. No exception."""
    if case.one.id in ("flooding", "flooding-rises"):
        here = bool(case.at("hole"))
        assert here == ((case.one.id == "flooding") != case.facts["through-hulls"])
