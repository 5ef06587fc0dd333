"""The word none: said of a thing that she has not got it means what the key left out means, and nobody asks for it again."""

import pytest
from boat_file import SOUND

from generator.manual.printing import Printer
from generator.manual.procedures import compose_procedures
from generator.manual.reckoning import Reckoning
from generator.reading.absent import takes_none
from generator.reading.fields import Compound, One
from generator.reading.nodes import Source
from generator.reading.tree import read
from generator.shelves.languages import catalogue
from generator.vessel.base import Base
from generator.vessel.gear import Recovery
from generator.vessel.installed import Pump
from generator.vessel.loading import VesselLoader, load
from generator.vessel.particulars import Particulars, Steering
from generator.vessel.people import Person, Voyage
from generator.vessel.radio import Radio
from generator.vessel.raft import Raft
from generator.vessel.vessel import Vessel


def kinds(kind, seen):
    if kind not in seen:
        seen.add(kind)
        for field in kind.fields.values():
            if isinstance(field, Compound) and field.blocks:
                kinds(field.blocks, seen)
    return seen


KINDS = sorted(
    set().union(*(kinds(each, set()) for each in (Vessel, Voyage, Base))), key=lambda kind: kind.__name__
)
MAY_BE = [(kind, field) for kind in KINDS for field in kind.fields.values() if takes_none(field)]
MUST_BE = [
    (kind, field)
    for kind in KINDS
    for field in kind.fields.values()
    if isinstance(field, One) and not takes_none(field)
]


def loaded(kind, key, word):
    tree, _ = read(f"{key}: {word}\n", Source("vessel.yaml"))
    loader = VesselLoader()
    block = loader.block(kind, tree, "")
    return block, [each for each in loader.findings if each.place.key == key], loader.left_open


def named(each):
    return each.__name__ if isinstance(each, type) else each.key


@pytest.mark.parametrize(("kind", "field"), MAY_BE, ids=named)
def test_of_what_she_may_have_none_of_none_is_read_as_that(kind, field):
    for word in ("none", "None"):
        block, found, left_open = loaded(kind, field.key, word)
        assert found == []
        assert block.says_none(field.key)
        assert not block.__dict__[field.name]
        assert field not in [each.field for each in left_open]


def test_things_of_which_an_honest_skipper_may_have_none_take_it():
    may_be = {field for _, field in MAY_BE}
    assert may_be.issuperset([
        Recovery.hoist, Recovery.ladder, Recovery.gate, Steering.emergency_tiller, Particulars.fire_port_place, Pump.handle,
        Raft.slip, Raft.release, Raft.weak_link, Raft.party, Person.helper, Person.berth, Radio.call_sign, Radio.mmsi,
        Vessel.tender, Vessel.medical, Vessel.gas, Vessel.rafts, Vessel.radio,
    ])  # fmt: skip
    assert may_be.isdisjoint(
        [Particulars.general_alarm, Recovery.place_, Recovery.side, Raft.where, Particulars.muster_place]
    )


@pytest.mark.parametrize(("kind", "field"), MUST_BE, ids=named)
def test_where_there_must_be_one_none_is_told_as_that_once(kind, field):
    _, (found,), left_open = loaded(kind, field.key, "none")
    assert found.check == "file.bad-value"
    assert found.message == f"'none' stands here, and there must be one: {field.question}"
    assert found.remedy.endswith(f"until there is one, {field.key}: unknown")
    assert field not in [each.field for each in left_open]


def procedures(tmp_path, old, new):
    assert SOUND.count(old) == 1, old
    (tmp_path / "vessel.yaml").write_text(SOUND.replace(old, new), encoding="utf-8")
    vessel, _ = load(tmp_path)
    composed, gaps = compose_procedures(Reckoning(vessel), catalogue())
    return vessel, {step.id: step for one in composed for step in one.steps}, gaps


HOIST = "  hoist: {what: the spare main halyard, where: cockpit, side: starboard, spot: on its winch}\n"


def test_without_a_hoist_no_step_tells_to_hoist(tmp_path):
    vessel, steps, gaps = procedures(tmp_path, HOIST, "  hoist: none\n")
    assert gaps == []
    assert "back-aboard.hoist" not in steps
    assert "lift them flat in a sail" in steps["back-aboard.lift"].text
    assert not any(
        "halyard" in step.text
        for step in steps.values()
        if step.id.startswith(("man-overboard.", "back-aboard."))
    )
    assert Printer(catalogue()).value(vessel.recovery, "hoist") == "none"


def test_the_net_that_lifts_by_hand_is_shown_with_its_place(tmp_path):
    text = SOUND.replace(
        "\ngear:\n",
        "\ngear:\n  - {what: recovery net, kind: lifesaving, quantity: 1, where: cockpit locker, side: port}\n",
    )
    (tmp_path / "vessel.yaml").write_text(text.replace(HOIST, "  hoist: none\n"), encoding="utf-8")
    vessel, _ = load(tmp_path)
    composed, _ = compose_procedures(Reckoning(vessel), catalogue())
    steps = {step.id: step for one in composed for step in one.steps}
    (net,) = steps["back-aboard.lift-with-net"].gear
    assert (str(net.name), str(net.where)) == ("recovery net", "cockpit locker")
    assert "back-aboard.lift" not in steps


def test_a_pump_without_a_handle_of_its_own_is_worked_where_it_stands(tmp_path):
    handle = "handle: {where: cockpit, side: port, spot: in the clip beside it}"
    _, steps, gaps = procedures(tmp_path, handle, "handle: none")
    assert gaps == []
    assert "cockpit" in steps["flooding.hand-pumps"].text
