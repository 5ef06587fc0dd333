"""The first bill that commission writes for the people named gives no defect of the bill, whoever they are and whatever she has."""

from datetime import date

import pytest

from generator.commissioning.first_bill import Shares
from generator.commissioning.writing import commission
from generator.publishing import Order, survey
from generator.reading.findings import Weight
from generator.reading.nodes import Mapping, Source
from generator.shelves.procedures import ShelfDuty
from generator.shelves.spaces import hull_types
from generator.vessel.people import Person, heads

DAY = date(2026, 6, 1)
RAFT = {
    "rafts[liferaft].stowage": "deck locker", "rafts[liferaft].where": "cockpit", "rafts[liferaft].side": "port",
    "rafts[liferaft].persons": "12", "rafts[liferaft].held-by": "strap",
}  # fmt: skip
BOATS = {
    "a raft, gas, an engine": RAFT | {"gas.fuel": "butane", "vessel.engine": "inboard diesel"},
    "no raft, an outboard": {"rafts[liferaft].stowage": "none", "gas.fuel": "none", "vessel.engine": "outboard"},
    "two rafts and a grab bag": {
        "rafts[port raft].persons": "6", "rafts[starboard raft].persons": "6", "grab-bags[1].where": "cockpit", "grab-bags[1].carried-by": "skipper",
    },
}  # fmt: skip


def bill_of(tmp_path, answers):
    done = commission("Tern", answers, tmp_path)
    surveyed = survey(done.path.parent, "tern", Order(DAY))
    return surveyed, [each for each in surveyed.findings if each.check.startswith("bill.")], done


@pytest.mark.parametrize("boat", BOATS)
@pytest.mark.parametrize("crew", [1, 2, 3, 4, 6, 10])
def test_no_defect_of_the_bill(tmp_path, crew, boat):
    surveyed, found, done = bill_of(tmp_path, BOATS[boat] | {"people": str(crew)})
    assert [each for each in found if each.weight is Weight.DEFECT] == []
    assert heads(surveyed.vessel.people) == crew
    assert bool(done.roles) == (crew > 1)
    assert bool(surveyed.vessel.station_bill) == (crew > 1)
    if crew >= 4:
        assert found == []
    without, found, _ = bill_of(tmp_path / "none", BOATS[boat])
    assert {each.check for each in found} >= {"bill.unassigned"}
    assert without.vessel.station_bill == {}


@pytest.mark.parametrize("hull", hull_types())
def test_on_every_hull(tmp_path, hull):
    _, found, _ = bill_of(tmp_path, RAFT | {"vessel.type": hull, "people": "skipper, 4 guests"})
    assert found == []


def test_whoever_can_is_taken_and_whoever_needs_help_or_helps_is_spared(tmp_path):
    answers = {
        "people": "owner, cook, engineer, grandmother, guest", "people[owner].abilities": "deck", "people[engineer].abilities": "command, radio",
        "people[grandmother].needs-help": "cannot climb a ladder alone", "people[grandmother].helper": "cook",
    }  # fmt: skip
    surveyed, found, _ = bill_of(tmp_path, RAFT | answers)
    assert found == []
    bill = surveyed.vessel.station_bill
    assert bill["fire"]["command"].who == ("engineer",)
    assert {
        duties["call"].substitute for duties in bill.values() if "engineer" not in duties["call"].who
    } == {"engineer"}
    assert not [duty for duties in bill.values() for duty in duties.values() if "grandmother" in duty.who]


def test_what_an_answer_assigns_stays(tmp_path):
    answers = {
        "people": "4",
        "station-bill.fire.fight.who": "guest 2",
        "station-bill.fire.call.substitute": "guest 1",
    }
    surveyed, found, _ = bill_of(tmp_path, RAFT | answers)
    assert [each for each in found if each.weight is Weight.DEFECT] == []
    fire = surveyed.vessel.station_bill["fire"]
    assert fire["fight"].who == ("guest 2",)
    assert fire["call"].substitute == "guest 1"


def test_the_bill_says_that_it_is_a_proposal(tmp_path):
    text = commission("Tern", {"people": "2"}, tmp_path).path.read_text(encoding="utf-8")
    assert "# A first proposal, made by rule for the roles above: change it." in text
    assert "there is nobody to share duties with" in commission(
        "Alone", {"people": "1"}, tmp_path
    ).path.read_text(encoding="utf-8")


def duty(name, *, key=False, continuous=False, persons=1, essential=True):
    return ShelfDuty(name, essential, key, continuous, persons, "", "", ())


def shared_out(roles, *duties):
    people = {each: Person(Mapping(0, 0, Source("x")), "") for each in roles}
    return {each.id: (each.who, each.substitute) for each in Shares(people, ()).all_of(duties, {})}


def test_a_key_duty_never_takes_everybody():
    assert shared_out(("one", "two"), duty("a", key=True, persons=2)) == {"a": (("one",), "two")}
    assert shared_out(("one", "two"), duty("a", persons=2)) == {"a": (("one", "two"), "")}
    assert shared_out(("one",), duty("a", key=True, persons=2)) == {"a": (("one",), "")}


def test_whoever_cannot_leave_a_duty_gets_no_other_of_that_kind():
    found = shared_out(
        ("one", "two", "three"), duty("a", continuous=True, key=True), duty("b", continuous=True, persons=3)
    )
    assert found["a"][0] == ("one",)
    assert found["b"][0] == ("two", "three")


def test_what_may_stay_open_is_given_to_whoever_is_free():
    assert set(shared_out(("one", "two"), duty("a"), duty("b"), duty("c", essential=False))) == {"a", "b"}
    assert set(shared_out(("one", "two", "three"), duty("a"), duty("b"), duty("c", essential=False))) == {
        "a",
        "b",
        "c",
    }
