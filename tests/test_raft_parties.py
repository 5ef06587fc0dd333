"""Each raft has its party, for boats of one to three rafts and up to twenty people: what must hold does, and each invariant can fail."""

from dataclasses import replace
from types import SimpleNamespace

import pytest
from raft_parties import BAG, BEACON, CUT, HOLD, LAUNCH, VESSELS, boats

from generator.manual.composing import compose
from generator.manual.parties import (
    BY_THE_BILL,
    ELSEWHERE,
    IN_THE_FILE,
    NO_BAG,
    NO_BEACON,
    NO_HANDS,
    NOBODY,
    PROPOSED,
    SPARE,
    UNTOLD,
    Share,
    parties_of,
    told,
)
from generator.manual.party_sheets import parts_by_role, party_sheets
from generator.manual.printing import Printer
from generator.manual.raft_gone import Gone, Load, if_gone
from generator.manual.reckoning import Reckoning
from generator.reading.values import Counted
from generator.shelves.languages import catalogue
from generator.shelves.procedure_files import LEAD, PARTS
from generator.vessel.loading import load

BOATS = boats(300)
INVARIANTS, SPOILT = {}, {}


def invariant(spoil):
    """Registers an invariant of a boat and one of her parties, with what spoils the party."""

    def register(function):
        INVARIANTS[function.__name__], SPOILT[function.__name__] = function, spoil
        return function

    return register


def with_share(part, who, known=PROPOSED, why=""):
    """Gives a part to somebody else."""

    def spoilt(party):
        shares = tuple(Share(part, who, known, why) if each.part == part else each for each in party.shares)
        return replace(party, shares=shares)

    return spoilt


@invariant(with_share(HOLD, (), NOBODY))
def every_part_is_somebodys_or_says_why_not(boat, party):
    """Launch, hold, cut, bag, beacon and lead each have somebody, or a reason."""
    assert [share.part for share in party.shares] == [*PARTS, LEAD]
    for share in party.shares:
        assert bool(share.who) != bool(share.why), share
        assert (share.known == NOBODY) == (not share.who), share


@invariant(with_share(CUT, ("somebody else",)))
def whoever_has_a_part_goes_into_that_raft(boat, party):
    """Nobody at a raft sits in another one; into a spare nobody goes, and of some nobody says who."""
    for share in party.shares:
        assert not party.going or set(map(str, share.who)) <= set(map(str, party.going)), share


@invariant(with_share(HOLD, ("a child",)))
def nobody_is_proposed_who_cannot(boat, party):
    """No child and nobody who needs help is proposed for anything."""
    able = set(map(str, boat.able(party)))
    for share in party.shares:
        assert share.known != PROPOSED or set(map(str, share.who)) <= able, share


@invariant(with_share(LAUNCH, (), NOBODY, NO_HANDS))
def no_hands_means_that_there_are_none(boat, party):
    """Nobody holds, cuts or launches only where nobody in it can."""
    for part in (LAUNCH, HOLD, CUT, LEAD):
        share = party.share(part)
        assert share.why in ("", NO_HANDS, SPARE, UNTOLD)
        assert share.why != NO_HANDS or not boat.able(party), share


@invariant(lambda party: with_share(HOLD, ("nobody of them",))(party) if told(party.raft, HOLD) else None)
def what_the_file_says_stands(boat, party):
    """A part that the file names is never dealt out anew."""
    for part in PARTS:
        if said := told(party.raft, part):
            assert (party.share(part).who, party.share(part).known) == (said, IN_THE_FILE)


@invariant(
    lambda party: (
        with_share(CUT, party.share(HOLD).who)(party)
        if party.share(HOLD).known == PROPOSED and party.share(CUT).known == PROPOSED
        else None
    )
)
def the_knife_and_the_painter_are_in_two_pairs_of_hands(boat, party):
    """Whoever is proposed to cut does not hold it, where two in it can work."""
    hold, cut = party.share(HOLD), party.share(CUT)
    hands = sum(boat.heads(next(who for who in party.going if who == one)) for one in boat.able(party))
    if cut.known == PROPOSED and hands > 1 and len(hold.who) == 1:
        one = next(who for who in party.going if str(who) == str(hold.who[0]))
        assert str(cut.who[0]) != str(one) or boat.heads(one) > 1


@invariant(
    lambda party: with_share(BAG, (), NOBODY, NO_BAG)(party) if party.share(BAG).why == ELSEWHERE else None
)
def a_bag_or_a_beacon_that_is_not_there_says_so(boat, party):
    """'Elsewhere' and 'none aboard' are each said where that is so."""
    bags, beacons = bool(boat.vessel.grab_bags), bool(boat.vessel.radio.beacons)
    for part, there, lacking in ((BAG, bags, NO_BAG), (BEACON, beacons, NO_BEACON)):
        why = party.share(part).why
        assert why in ("", SPARE, UNTOLD, NO_HANDS, ELSEWHERE if there else lacking), (part, why)


@invariant(
    lambda party: (
        with_share(LAUNCH, (), NOBODY, NO_HANDS)(party) if party.share(LAUNCH).known == BY_THE_BILL else None
    )
)
def the_bill_comes_before_a_proposal(boat, party):
    """Whoever launches by the bill and goes into it launches it, unless the file says otherwise."""
    assigned = (boat.vessel.station_bill.get("abandon-ship") or {}).get("launch")
    billed = {str(who) for who in assigned.who} if assigned is not None else set()
    here = billed.intersection(map(str, party.going))
    if here and not told(party.raft, LAUNCH):
        assert set(map(str, party.share(LAUNCH).who)) == here


@pytest.mark.parametrize("name", INVARIANTS)
def test_the_invariant_holds_for_every_raft(name):
    for boat in BOATS:
        for party in boat.parties:
            try:
                INVARIANTS[name](boat, party)
            except AssertionError as error:
                pytest.fail(
                    f"boat {boat.number}: {INVARIANTS[name].__doc__}\n{error}\n{party.going} {party.shares}"
                )


@pytest.mark.parametrize("name", INVARIANTS)
def test_the_invariant_can_fail(name):
    for boat in BOATS:
        for party in boat.parties:
            spoilt = SPOILT[name](party) if party.going else None
            if spoilt is not None:
                try:
                    INVARIANTS[name](boat, spoilt)
                except AssertionError:
                    return
    pytest.fail("nothing that spoils a party is noticed")


def test_the_boats_are_of_all_kinds():
    seen = {share.why for boat in BOATS for party in boat.parties for share in party.shares}
    assert seen == {"", NO_HANDS, NO_BAG, NO_BEACON, ELSEWHERE, SPARE, UNTOLD}
    assert {len(boat.vessel.rafts) for boat in BOATS} == {1, 2, 3}
    assert {1, 2, 20} <= {boat.vessel.vessel.persons for boat in BOATS}


def test_one_beacon_goes_into_one_raft_and_none_is_without_where_one_is_left():
    for boat in BOATS:
        given = [id(party.beacon) for party in boat.parties if party.beacon is not None]
        assert len(given) == len(set(given)), boat.number
        free = [each for each in boat.vessel.radio.beacons if each.carried_by is None and each.spot is None]
        carrying = [party for party in boat.parties if party.going]
        if len(free) >= len(carrying):
            assert all(party.beacon is not None for party in carrying), boat.number


def gone_cases():
    """Every raft of every boat, lost."""
    for boat in BOATS:
        if len(boat.vessel.rafts) > 1:
            for party in boat.parties:
                yield boat, party, if_gone(party.raft, boat.vessel)


def heads(shares, vessel):
    """How many persons some shares of roles are, by role."""
    found = {}
    for who in shares:
        number = who.number if isinstance(who, Counted) else None
        many = (
            number
            if isinstance(number, int)
            else sum(each.quantity or 1 for each in vessel.people if each.role == who)
        )
        found[str(who)] = found.get(str(who), 0) + many
    return found


def nobody_is_lost_or_doubled(boat, party, gone):
    """Everybody who was to go into it goes into one other, or is told to be over."""
    there = [who for load in gone.loads for who in load.comes]
    assert heads([*there, *gone.over], boat.vessel) == heads(party.going, boat.vessel)


def no_raft_is_overloaded(boat, party, gone):
    """Into no raft go more than it is approved for, but those who are over."""
    assert all(load.persons <= load.approved for load in gone.loads if load.comes)


def nobody_is_over_while_there_is_room(boat, party, gone):
    """Somebody is over only where all other rafts are full."""
    if gone.over:
        assert all(load.persons >= load.approved for load in gone.loads)


def children_and_the_helped_come_first(boat, party, gone):
    """No child, and nobody who needs help, is over while somebody grown and sound found a place, but a helper."""
    able = set(map(str, boat.able(party)))
    helpers = {str(each.helper) for each in boat.vessel.people if each.helper}
    placed = {str(who) for load in gone.loads for who in load.comes}
    if any(str(who) not in able for who in gone.over):
        assert not (placed & able) - helpers


GONE = (
    nobody_is_lost_or_doubled,
    no_raft_is_overloaded,
    nobody_is_over_while_there_is_room,
    children_and_the_helped_come_first,
)


@pytest.mark.parametrize("holds", GONE, ids=lambda each: each.__name__)
def test_what_holds_if_a_raft_is_gone(holds):
    looked = 0
    for boat, party, gone in gone_cases():
        looked += bool(gone.over)
        try:
            holds(boat, party, gone)
        except AssertionError as error:
            pytest.fail(f"boat {boat.number}, {party.raft.name}: {holds.__doc__}\n{error}\n{gone}")
    assert looked > 20


def test_what_must_hold_if_a_raft_is_gone_can_fail():
    noticed = set()
    for boat, party, gone in gone_cases():
        if not party.going:
            continue
        full = tuple(replace(load, persons=99, comes=("somebody",)) for load in gone.loads)
        empty = tuple(replace(load, persons=0, comes=()) for load in gone.loads)
        turned = (Load(gone.loads[0].raft, tuple(boat.able(party)), 1, 9),)
        weak = tuple(who for who in party.going if who not in boat.able(party))
        for spoilt in (
            Gone(gone.raft, full),
            Gone(gone.raft, empty, party.going),
            Gone(gone.raft, turned, weak),
            Gone(gone.raft, ()),
        ):
            for holds in GONE:
                try:
                    holds(boat, party, spoilt)
                except AssertionError:
                    noticed.add(holds)
    assert noticed == set(GONE)


def test_whoever_needs_help_goes_with_the_helper():
    for boat, party, gone in gone_cases():
        for person in boat.vessel.people:
            both = {str(person.role), str(person.helper)}
            if (
                person.helper
                and person.quantity is None
                and both <= set(map(str, party.going))
                and not gone.over
            ):
                single = (
                    next(each for each in boat.vessel.people if each.role == person.helper).quantity is None
                )
                with_it = [load for load in gone.loads if str(person.role) in load.comes]
                roomy = all(load.approved - load.persons >= 2 for load in gone.loads)
                if single and with_it and roomy:
                    assert str(person.helper) in with_it[0].comes, (boat.number, party.raft.name)


def test_every_part_is_printed_with_whoever_has_it_or_why_nobody_does():
    printer = Printer(catalogue())
    for boat in BOATS[:120]:
        roles = tuple(str(each.role) for each in boat.vessel.people)
        reckoning = SimpleNamespace(vessel=boat.vessel, parties=boat.parties, roles=roles)
        sheets, alone = party_sheets(reckoning, printer), boat.vessel.vessel.persons == 1
        assert len(sheets) == (0 if alone else len(boat.parties))
        assert not alone or not parts_by_role(reckoning, printer)
        for sheet, party in zip(sheets, boat.parties, strict=False):
            lines = {line.about: line for line in sheet.lines}
            for share in party.shares:
                if share.part == LEAD and len(boat.parties) < 2:
                    continue
                line = lines[printer.say(f"raft.party-{share.part}")]
                assert all(str(who) in line.who for who in share.who)
                assert bool(line.note) == (share.known in (PROPOSED, NOBODY)), (boat.number, share)
            shown = {share.known for share in party.shares if share.part != LEAD or len(boat.parties) > 1}
            assert bool(sheet.rule) == (PROPOSED in shown)


def of_boat(name):
    """A specimen with her manual."""
    vessel, _ = load(VESSELS / name)
    day = vessel.specimen.as_of.first_day
    reckoning = Reckoning(vessel)
    return vessel, reckoning, compose(vessel, day, day, catalogue(), reckoning=reckoning)[0]


def test_each_raft_prints_its_own_people_on_every_step_of_a_party():
    vessel, reckoning, manual = of_boat("nordgyllen")
    for party in reckoning.parties:
        own = [one for one in manual.procedures if one.raft is party.raft]
        steps = {step.id: step for one in own for step in one.steps}
        for name, part in (
            ("boarding.alongside", HOLD),
            ("boarding.knife", CUT),
            ("boarding.crew", LEAD),
            ("boarding.last-here", HOLD),
            ("in-the-raft.cut", CUT),
            ("in-the-raft.beacon", BEACON),
        ):
            assert steps[name].who == party.share(part).who, name
        bag, beacon = steps.get("boarding.bag"), steps.get("boarding.beacon")
        assert (bag is None) == (beacon is not None) == (not party.share(BAG).who)
        assert (bag or beacon).who == tuple(
            dict.fromkeys((*party.share(BAG).who, *party.share(BEACON).who))
        ), "bag and beacon go in together"
    assert parties_of(vessel)[0].beacon is not parties_of(vessel)[1].beacon


def test_if_a_raft_is_gone_her_people_are_sent_into_the_other_with_bag_and_beacon():
    _, _, manual = of_boat("nordgyllen")
    one = next(each for each in manual.procedures if each.id == "raft-gone-port-liferaft")
    said = {step.id: step for step in one.steps}
    assert said["raft-gone.go"].text.endswith("starboard liferaft – skipper, deckhand 1, cook, guest 1.")
    assert said["raft-gone.go"].caution == "Starboard liferaft: 8 in it then, approved for 8."
    assert said["raft-gone.bring"].text.endswith("grab bag – cook; spare EPIRB – cook.")
    assert said["raft-gone.help"].who == ("deckhand 1",)
    assert "raft-gone.over" not in said


def test_those_without_a_place_are_named():
    vessel, _ = load(VESSELS / "nordgyllen")
    for raft in vessel.rafts:
        raft.__dict__["persons"] = 6
    day = vessel.specimen.as_of.first_day
    manual = compose(vessel, day, day, catalogue())[0]
    one = next(each for each in manual.procedures if each.id == "raft-gone-port-liferaft")
    said = {step.id: step for step in one.steps}
    assert said["raft-gone.over"].text.endswith("approved for fewer: cook, guest 1.")
    assert said["raft-gone.go"].text.endswith("starboard liferaft – skipper, deckhand 1.")
    assert "by turns" in said["raft-gone.over"].unless


def test_the_only_raft_gone_leaves_the_boat_and_what_floats():
    _, _, manual = of_boat("saltmeadow")
    one = next(each for each in manual.procedures if each.kind == "raft-gone")
    assert [step.id for step in one.steps] == [
        "raft-gone.stay",
        "raft-gone.no-swim",
        "raft-gone.say",
        "raft-gone.float",
        "raft-gone.together",
    ]
    assert [link.id for leave in one.leaves for link in leave.to] == ["in-the-water"]


def test_the_bill_says_what_each_does_at_which_raft():
    _, _, manual = of_boat("nordgyllen")
    leaving = next(each for each in manual.bill.emergencies if each.id == "abandon-ship")
    other = next(each for each in manual.bill.emergencies if each.id == "fire")
    assert manual.bill.beside("cook", leaving) == ("Port liferaft: bring the bag, bring the beacon",)
    assert manual.bill.beside("cook", other) == ()
    _, _, single = of_boat("saltmeadow")
    leaving = next(each for each in single.bill.emergencies if each.id == "abandon-ship")
    assert single.bill.beside("deckhand", leaving) == ("Liferaft: hold it alongside",)
    assert single.bill.beside("mate", leaving) == (), "bag and call are duties of the bill"
