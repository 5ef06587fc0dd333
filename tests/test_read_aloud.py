"""What is composed is read aloud by rules: every specimen with four crews, and every emergency of the sample of boats."""

import re

import pytest
from crews import BOATS, CREWS, composed
from emergency_case import cases
from read_aloud import RULES, Said

from generator.manual.left_to_act import able
from generator.manual.reckoning import Reckoning
from generator.shelves.procedure_files import GROWN
from generator.shelves.procedures import shelf
from generator.shelves.words import SLOT

COUNTED_OUT = {one.id: one.form.counts_out for one in shelf()}
BAD = {
    "no_word_twice": Said("do", "Close the the hatch."),
    "every_slot_is_filled": Said("do", "Stop the engine: ."),
    "a_and_an_as_spoken": Said("do", "Switch on a EPIRB."),
    "nobody_is_named_who_is_not_aboard": Said("do", "Tell the mate.", roles=frozenset({"skipper"})),
    "who_is_alone_reads_of_nobody_else": Said("end", "Over when everybody is counted.", persons=1),
    "who_is_left_alone_sends_nobody": Said("do", "Send somebody to call.", left=1),
    "one_engine_or_several": Said("do", "Stop the engine.", engines=2),
    "verbs_agree": Said("caution", "They has to hold on."),
    "marks_are_whole": Said("do", "Say “Mayday three times."),
    "it_begins_and_ends_as_a_sentence": Said("do", "stop the boat"),
    "it_is_said_in_one_breath": Said("do", f"Go {'and go ' * 20}now."),
    "the_boat_is_it": Said("do", "Keep her off the rocks."),
    "its_place_is_said_once": Said("do", "Fetch it (cockpit, port).", place="bow; cockpit, port"),
    "an_act_begins_it": Said("do", "You hold on."),
}
GOOD = [
    Said("do", "Had he an hour, a European on a VHF set had an EPIRB."),
    Said("unless", "smoke bars the way: then leave it.", persons=1, left=0),
    Said("unless", "VHF is silent: then use a flare."),
    Said("do", "Tell the mate (engine off): it does.", roles=frozenset({"skipper", "mate"})),
    Said("do", "Stop every engine.", engines=2),
    Said("do", "Stop the engine.", engines=1, place="cockpit"),
    Said("end", "Over when everybody is counted.", persons=2, left=1),
    Said("title", "The anchor drags"),
    Said("caution", "It lies still if they lie still; let it go, and see that it does."),
]


EXCEPT = {
    ("who_is_alone_reads_of_nobody_else", "flooding.over-the-side"): "guests who came for a day are told too",
    ("who_is_alone_reads_of_nobody_else", "collision end"): "the two boats have each other's names",
    ("who_is_left_alone_sends_nobody", "collision end"): "the same",
    (
        "one_engine_or_several",
        "man-overboard.spare-kill-cord",
    ): "one cord starts one engine, and one is enough to come back",
    ("its_place_is_said_once", "anchoring.let-go"): "it says which of two anchors",
    ("its_place_is_said_once", "capsized-multihull.hatch"): "of two hatches each is named by its place",
    ("its_place_is_said_once", "flooding.hand-pump"): "the handle lies elsewhere than the pump",
    (
        "it_begins_and_ends_as_a_sentence",
        "fire.way-out",
    ): "a list of the boat's own ways out, each behind its name",
    ("it_is_said_in_one_breath", "fire.way-out"): "the same",
}
"""What may be so all the same, by rule and the beginning of a name, with its reason."""


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    """Where the boats are written, once for all."""
    return tmp_path_factory.mktemp("crews")


def found(said):
    """What the rules say of it, by rule."""
    told = {name: list(each(said)) for name, each in RULES.items()}
    return {name: what for name, what in told.items() if what and not excepted(name, said.name)}


def excepted(rule, name):
    """Whether a rule makes an exception for such a name."""
    return any(rule == of and name.startswith(start) for of, start in EXCEPT)


def test_each_rule_notices_what_it_is_for():
    assert BAD.keys() == RULES.keys()
    for name, said in BAD.items():
        assert name in found(said), name


@pytest.mark.parametrize("said", GOOD, ids=lambda said: said.text[:30])
def test_what_reads_well_passes(said):
    assert found(said) == {}


def test_every_exception_is_of_a_rule_and_of_something_said():
    names = {name for one in shelf() for name in (one.id, *(step.id for step in one.steps))}
    for rule, start in EXCEPT:
        assert rule in RULES
        assert any(name.startswith(start.split()[0]) for name in names), start


def spoken(boat, crew, folder):
    """All that the procedures of a specimen say to such a crew."""
    vessel, procedures, gaps = composed(boat, crew, folder)
    assert gaps == []
    roles = frozenset(str(person.role) for person in vessel.people)
    for one in procedures:
        of = {
            "persons": CREWS[crew][0],
            "left": max(able(vessel) - COUNTED_OUT[one.kind], 0),
            "engines": 1 + Reckoning(vessel).facts["several engines"],
            "roles": roles,
        }
        for name, what, text, place in texts(one):
            if text:
                yield Said(what, text, name, place=place, **of)


def texts(one):
    """The texts of a procedure as (name, kind, text, place)."""
    yield f"{one.kind} title", "title", one.title, ""
    yield f"{one.kind} intro", "intro", one.intro, ""
    for leave in one.leaves:
        yield f"{one.kind} leave", "leave", leave.words, ""
    if one.end is not None:
        yield f"{one.kind} end", "end", one.end.words, ""
    for step in one.steps:
        yield step.id, "do", step.text, step.place
        for what in ("unless", "caution", "why"):
            yield step.id, what, step.__dict__[what], ""


@pytest.mark.parametrize("crew", CREWS)
@pytest.mark.parametrize("boat", BOATS)
def test_what_a_specimen_says_to_a_crew_reads_well(boat, crew, folder):
    heard = list(spoken(boat, crew, folder))
    assert len({said.name for said in heard}) > 200
    assert [(said.name, said.text, wrong) for said in heard if (wrong := found(said))] == []


@pytest.mark.parametrize("crew", CREWS)
def test_whoever_does_a_step_is_aboard(crew, folder):
    doing = 0
    for boat in BOATS:
        vessel, procedures, _ = composed(boat, crew, folder)
        roles = {str(person.role) for person in vessel.people}
        for one in procedures:
            for step in one.steps:
                doing += len(step.who)
                assert {str(role) for role in step.who} <= roles, (boat, step.id)
    assert doing or crew == "alone"


OWN = "red one"
"""What stands where a boat puts her own words in."""


def test_every_emergency_of_the_sample_reads_well():
    heard, wrong = set(), []
    for case in cases():
        of = {
            "persons": case.persons,
            "left": max(case.able - case.one.form.counts_out, 0),
            "engines": 1 + case.facts["several engines"],
        }
        for name, what, text in said_in(case):
            ours = re.sub(r"(?:^|(?<=[.?!]) )\{[^{}]*\}$", "", text)  # without a sentence of the boat's own
            said = Said(what, SLOT.sub(OWN, ours), name, **of)
            if ours and said not in heard:
                heard.add(said)
                wrong += [(case.crew, name, text, told) for told in [found(said)] if told]
    assert len(heard) > 2000
    assert wrong == []


def said_in(case):
    """The texts of a case as (name, kind, text)."""
    yield f"{case.one.id} intro", "intro", case.intro
    yield f"{case.one.id} end", "end", case.end
    yield from ((f"{case.one.id} leave", "leave", words) for words, _ in case.leaves)
    for line in case.lines:
        yield from ((line.id, what, line.__dict__[what]) for what in ("do", "unless", "caution", "why"))


CALLED = {
    "bolt cutters": "cut",
    "storm jib": "storm sails",
    "foghorn": "horn",
    "first-aid kit": "dressing|bandage|medicines",
    "searchlight": "lamp",
    "torch": "lamp|torch",
}
"""What a step calls the thing whose place stands beside it, where not by its own name."""


def test_a_place_beside_a_step_is_that_of_something_the_step_names():
    """On a card the place stands alone: whoever reads it must know what lies there."""
    seen = set()
    for case in cases():
        for line in case.lines:
            thing = line.place.removeprefix("place of ")
            if thing != line.place and case.facts.get(f"has {thing}", True):
                seen.add(thing)
                own = thing.split()[-1].removesuffix("s")
                called = CALLED.get(thing, own)
                assert re.search(called, f"{line.do} {line.caution}", re.IGNORECASE), (
                    line.id,
                    line.do,
                    thing,
                )
    assert len(seen) > 20


NO_SPACE = ("radio-doctor.ask", "turned-over.climb", "capsized-multihull.outside")
"""Beside these stands whom to ask, or what to hold on to under the hull, and no space of the plan."""


def unplaced(place, spaces):
    """The parts of a place that name no space of the boat's plan."""
    return [
        part
        for part in re.split(r"; (?![^(]*\))", place)
        if not any(space.lower() in part.lower() for space in spaces)
    ]


def test_every_place_beside_a_step_is_on_the_plan(folder):
    seen = 0
    for boat in BOATS:
        for crew in CREWS:
            vessel, procedures, _ = composed(boat, crew, folder)
            spaces = [
                name for space in Reckoning(vessel).spaces.values() for name in (space.name, *space.also)
            ]
            assert unplaced("orlop, port", spaces) == ["orlop, port"]
            for step in (step for one in procedures for step in one.steps):
                if step.place and step.id not in NO_SPACE:
                    seen += 1
                    assert unplaced(step.place, spaces) == [], (boat, step.id)
    assert seen > 1000


HELD = {(one.id, duty.id) for one in shelf() for duty in one.duties if duty.continuous}
"""Duties that keep their person where he is."""


@pytest.mark.parametrize("crew", [crew for crew in CREWS if crew != "alone"])
def test_every_duty_of_a_specimen_has_hands_free(crew, folder):
    """Every duty has somebody who is grown; with twelve aboard nobody has two that cannot be left at once."""
    for boat in BOATS:
        vessel, _, _ = composed(boat, crew, folder)
        hands = {str(person.role) for person in vessel.people if not person.age or min(person.age) >= GROWN}
        single = {str(person.role) for person in vessel.people if person.quantity in (None, 1)}
        assert vessel.station_bill
        for emergency, duties in vessel.station_bill.items():
            held = []
            for name, assignment in duties.items():
                who = [str(role) for role in assignment.who]
                assert who and set(who) <= hands, (boat, emergency, name)
                held += [each for each in who if (emergency, name) in HELD and each in single]
            assert crew != "twelve" or len(held) == len(set(held)), (boat, emergency, held)
