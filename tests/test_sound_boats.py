"""Generated boats that are sound bring no defect, and no recommendation but for what they truly lack."""

from datetime import date

import pytest
from meanings.sound import plans
from meanings.sound_file import file_of

from generator.publishing import Order, survey
from generator.reading.findings import Weight

AS_OF = date(2026, 6, 1)
SHARES = 4
# What may be recommended to a sound boat: it is true of her, and somebody may sail so.
TRUE = {
    "raft.nothing-brought": ("one bag goes into one of her rafts", lambda plan: plan.rafts > 1),
    "raft.below-deck": ("a raft is kept below, the worst place", lambda plan: plan.stowage == "below deck"),
}
pytestmark = pytest.mark.thorough


@pytest.mark.parametrize("share", range(SHARES))
def test_a_sound_boat_brings_nothing_but_what_is_true(share, tmp_path):
    boat, wrong = tmp_path / "boat", []
    boat.mkdir()
    for plan in plans()[share::SHARES]:
        (boat / "vessel.yaml").write_text(file_of(plan), encoding="utf-8")
        for each in survey(boat, "boat", Order(AS_OF)).findings:
            _, holds = TRUE.get(each.check, ("", lambda _: False))
            if each.weight is Weight.DEFECT or (each.weight is Weight.RECOMMENDATION and not holds(plan)):
                wrong.append(f"{plan.name}: {each.check}: {each.message}")
    assert wrong == []


def test_they_are_of_every_sort():
    made = plans()
    assert len(made) >= 300
    assert {plan.crew for plan in made} == set(range(1, 21))
    assert {plan.rafts for plan in made} == {0, 1, 2, 3}
    assert len({plan.stowage for plan in made if plan.rafts}) == 9
    assert len({plan.rule_set for plan in made}) >= 8
    assert {plan.imperial for plan in made} == {True, False}
    assert len({plan.name.partition(": ")[2] for plan in made}) > 290
