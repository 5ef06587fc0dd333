"""The knife that cuts a raft loose: what is packed in the raft is none, and one knife is none for two rafts."""

import pytest
from boat_file import Boat, changed
from open_boats import surveyed
from specimens import VESSELS

from generator.checks.placed.deck import _PACKED
from generator.manual.procedures import compose_procedures
from generator.manual.reckoning import Reckoning
from generator.shelves.languages import catalogue


@pytest.mark.parametrize(
    "spot",
    [
        "in the canister",
        "in the raft",
        "inside the liferaft",
        "in the container",
        "in its container",
        "packed in the raft",
        "in it",
        "inside the life raft's pack",
        "in the emergency pack",
        "in the port raft",
        "within the valise",
        "in the liferaft itself",
        "in the canister, port end",
        "part of the raft's equipment",
        "by the raft's entrance",
        "inside the canopy",
        "in the pack with the flares",
        "sealed in the valise",
        "In the Raft Pack",
        "in the liferaft canister",
    ],
)
def test_what_is_packed_in_the_raft_is_seen(spot):
    assert _PACKED.search(spot)


@pytest.mark.parametrize(
    "spot",
    [
        "in the raft locker",
        "in its sheath on the container",
        "on the canister",
        "in the sheath at the raft",
        "inside the raft recess",
        "in the raft's cradle",
        "under the raft",
        "in the sheath inside the lid",
        "not in the raft but on its cradle",
        "in its sheath, starboard foot of the cradle",
        "in the box",
        "in the sheath taped to the canister",
        "in the winch handle pocket",
        "beside the raft",
        "in the container's cradle",
        "in the grab bag",
        "near the gate",
        "in the pocket under the raft",
        "in the liferaft bracket",
        "on a lanyard by the raft, under the lid",
    ],
)
def test_what_hangs_outside_of_it_is_not(spot):
    assert not _PACKED.search(spot)


KNIFE = "knife: {where: coachroof, side: port, spot: on the foot of the cradle}"


def test_no_step_names_a_knife_that_is_not_there(tmp_path):
    vessel, _ = Boat(tmp_path)(changed(KNIFE, "knife: none"))
    composed, gaps = compose_procedures(Reckoning(vessel), catalogue())
    steps = {step.id: step for one in composed for step in one.steps}
    assert gaps == []
    assert "none is kept here, bring one" in steps["boarding.knife"].text
    assert not any("knife" in step.text and "foot of the cradle" in step.text for step in steps.values())


def test_one_knife_is_none_for_two_rafts_that_lie_apart(tmp_path):
    text = (VESSELS / "nordgyllen" / "vessel.yaml").read_text(encoding="utf-8")
    theirs = "knife: {where: pushpit, side: starboard, spot: in the sheath on the bracket}"
    for spot, found in (("in the sheath at the ladder", True), ("in the sheath on its bracket", False)):
        same = f"knife: {{where: pushpit, side: centre, spot: {spot}}}"
        both = changed(theirs, same, changed(theirs.replace("starboard", "port"), same, text))
        said = [each.message for each in surveyed(both, tmp_path).findings if each.check == "placed.knife"]
        assert any("is that of the port liferaft too" in each for each in said) == found, said
