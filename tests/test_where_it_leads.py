"""Where a procedure leads on, as fresh readers asked: to the raft that is there, to what is done within seconds, into the open air."""

from datetime import date

import pytest
from specimens import VESSELS

from generator.outputs.cards import left_on_a_card
from generator.publishing import Order, survey

DAY = date(2026, 6, 1)


@pytest.fixture(scope="module")
def manual():
    return survey(VESSELS / "nordgyllen", "nordgyllen", Order(DAY)).manual


def test_from_a_raft_that_is_gone_it_goes_into_another(manual):
    gone = [one for one in manual.procedures if one.kind == "raft-gone"]
    assert len(gone) == len(manual.vessel.rafts) == 2
    for one in gone:
        (board,) = [leave for leave in one.leaves if leave.kind == "boarding"]
        assert [link.title for link in board.to] == [
            f"Into the {raft.name}" for raft in manual.vessel.rafts if raft is not one.raft
        ]


def test_a_card_leads_to_what_is_done_within_seconds_though_that_hangs_nowhere(manual):
    (down,) = [one for one in manual.procedures if one.kind == "skipper-down"]
    leads = {leave.kind: leave.to[0] for leave in left_on_a_card(down)}
    assert leads["not-breathing"].at_once
    assert not leads["not-breathing"].on_card


def test_in_gas_nobody_without_a_duty_gathers_inside(manual):
    said = {one.id: manual.bill.waits("guest 1", one) for one in manual.bill.emergencies}
    assert "open air" in said["gas"]
    assert all("muster place" in words for kind, words in said.items() if kind != "gas")
    open_deck = survey(VESSELS / "saltmeadow", "saltmeadow", Order(DAY)).manual.bill
    assert all("muster place" in open_deck.waits("guest 1", one) for one in open_deck.emergencies)


def test_the_anchor_that_is_let_go_as_it_lies_is_named_first(manual):
    places = [step.place for one in manual.procedures for step in one.steps if "anchor locker" in step.place]
    assert len(places) > 3
    assert all(place.startswith("anchor locker") for place in places)


def test_sails_that_only_steady_her_are_not_handled(manual):
    (overboard,) = [one for one in manual.procedures if one.kind == "man-overboard"]
    assert not any("wind" in step.text for step in overboard.steps)
