"""What the file says of parties, ways out, masses, numbers, colours and signatures stands where it is read."""

from dataclasses import replace
from datetime import date

import pytest
from open_boats import OPEN_BOAT, changed, surveyed
from specimens import VESSELS

from generator.manual.bill import assigned_to
from generator.manual.composing import compose, lifters
from generator.manual.crew import the
from generator.outputs import Job, book, cards
from generator.outputs.setting.pages import marks
from generator.reading.values import Quantity
from generator.shelves.languages import catalogue
from generator.shelves.procedure_files import RAFT
from generator.survey.registry import DESCRIPTION, Sight, run
from generator.vessel.loading import load
from generator.vessel.raft import Party

AS_OF = date(2026, 6, 1)


def composed(name, change=lambda vessel: None):
    vessel = load(VESSELS / name, name)[0]
    change(vessel)
    return compose(vessel, AS_OF, AS_OF, catalogue())


def with_party(raft, *launch):
    """The raft with a party of its own that launches it."""
    party = object.__new__(Party)
    party.__dict__.update(raft.party.__dict__ if raft.party is not None else {})
    party.__dict__.update(launch=launch)
    raft.__dict__["party"] = party


def test_each_raft_is_lifted_by_its_own_party_or_else_by_whom_the_bill_names():
    vessel = load(VESSELS / "nordgyllen", "nordgyllen")[0]
    for number, person in enumerate(vessel.people):
        person.__dict__["lifts"] = Quantity(20.0 + number)
    able = {str(person.role): 20.0 + number for number, person in enumerate(vessel.people)}
    first, second, third = list(able)[:3]
    port, starboard = vessel.rafts[:2]
    with_party(port, first, second)
    with_party(starboard, third)
    assert lifters(vessel, port) == (able[first], able[second])
    assert lifters(vessel, starboard) == (able[third],)
    port.__dict__["party"] = None
    billed = assigned_to(vessel, RAFT).who
    assert lifters(vessel, port) == tuple(able[who] for who in billed)


def test_the_check_of_the_lift_asks_the_party_and_says_how_it_counts():
    vessel = load(VESSELS / "nordgyllen", "nordgyllen")[0]
    raft = vessel.rafts[0]
    first, second = [person for person in vessel.people if isinstance(person.lifts, Quantity)][:2]
    raft.__dict__.update(mass=Quantity(80.0), lift_needed=True)
    with_party(raft, str(first.role), str(second.role))
    for person in (first, second):
        person.__dict__["lifts"] = Quantity(25.0)
    said = [
        each.message for each in run(DESCRIPTION, Sight(vessel, AS_OF, AS_OF)) if each.check == "raft.lift"
    ]
    assert any(
        f"{first.role} and {second.role} together lift about 33 kg: two lift two thirds of the 50 kg" in each
        for each in said
    )


def test_the_way_out_upside_down_says_how_it_opens_and_asks_where_it_does_not():
    manual, gaps = composed("tresmare")
    (step,) = [
        step for one in manual.procedures for step in one.steps if step.id == "capsized-multihull.hatch"
    ]
    assert step.caution == "Open it slowly: break the seal, turn both handles and pull the hatch in."
    assert not gaps
    _, gaps = composed("tresmare", lambda vessel: vessel.escape[0].__dict__.update(how=None))
    assert [each.check for each in gaps] == ["steps.gap"]
    assert "escape" in gaps[0].message


def test_a_signature_that_lacks_is_the_one_that_is_named(tmp_path):
    manual = surveyed(OPEN_BOAT, tmp_path).manual
    assert marks(manual).not_yet_checked == ""
    walked = surveyed(
        changed(OPEN_BOAT, ("approved: {by: the skipper, date: 2026-05-16}\n", "")), tmp_path
    ).manual
    assert marks(walked).not_yet_checked == "not yet approved"
    neither = changed(OPEN_BOAT, ("checked-aboard: {by: the skipper, date: 2026-05-16}\n", ""))
    assert marks(surveyed(neither, tmp_path).manual).not_yet_checked == "not yet checked aboard"


def test_a_role_with_a_number_has_no_article():
    assert (the("mate"), the("guest 3"), the("child")) == ("the mate", "guest 3", "the child")


def test_the_underside_stands_on_the_card_to_be_read_into_the_radio(tmp_path):
    boat = changed(OPEN_BOAT, ("hull-colour: grey", "hull-colour: grey\n  underside-colour: red"))
    manual = surveyed(boat, tmp_path).manual
    (card,) = [each for each in cards.cards(manual, "guest") if each.blocks[0].template == "script.html"]
    page = cards._Page(Job(manual, "guest")).html([cards.Set(card, 20.0, 1)])
    assert "grey, underside red" in page
    assert "dismasted" not in page


@pytest.mark.thorough
def test_masses_and_numbers_of_beacons_stand_in_the_book(tmp_path):
    boat = changed(OPEN_BOAT, ("volume: 5 l,", "volume: 5 l, mass: 5.5 kg,"))
    assert "Weighs: 5.5 kg" in book.html(Job(surveyed(boat, tmp_path).manual, "crew"))
    manual, _ = composed("tresmare")
    assert "man-overboard beacon</b> × " in book.html(replace(Job(manual, "guest"), reader="crew"))


def test_the_head_of_a_rafts_card_says_its_name_once():
    manual, _ = composed("ombrelune")
    page = cards._Page(Job(manual, "guest"))
    hung = next(each for each in cards.cards(manual, "guest") if each.station == "raft")
    assert "At the liferaft</b> ·" in page.html([cards.Set(hung, 20.0, 1)])
