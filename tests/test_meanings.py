"""What a careful surveyor would want caught is noticed when the meaning of a file is changed; what is not, has a class with its reason.

A run looks at one mutant in sixty, always the same; `pytest tests/test_meanings.py --all-mutants --renew` looks at all of them (some ten
minutes) and keeps the figures.
"""

import pytest
from meanings import figures
from meanings.boats import boats
from meanings.classes import RULES
from meanings.factory import mutants
from meanings.judging import Judge

EVERY = 60
GOAL = 0.97
SLACK = 0.04
"""What a sample may differ by from another."""
BOATS = {boat.name: boat for boat in boats()}
pytestmark = pytest.mark.thorough


@pytest.fixture
def look(once, tmp_path, one_in):
    """The figures of a boat, once in a run."""
    every = one_in(EVERY)

    def seen(name):
        made = once(
            f"meanings-{name}", lambda: figures.plain(figures.looked_at(BOATS[name], tmp_path, every))
        )
        return figures.read(made)

    return seen


@pytest.mark.parametrize("boat", BOATS)
def test_whatever_is_not_noticed_has_a_class_with_a_reason(boat, look):
    seen = look(boat)
    assert seen.whole.made
    assert figures.OTHER not in seen.classes, seen.examples.get(figures.OTHER)


def test_as_many_are_noticed_as_when_the_figures_were_kept(look, record_property, renew):
    """The share may only grow: `--renew` writes the new one down, with how many were looked at."""
    seen = figures.Figures(every=look(next(iter(BOATS))).every)
    for boat in BOATS:
        seen.add(look(boat))
    record_property("figure", f"{seen.whole.made} mutants of meanings, {seen.whole.share:.2%} noticed")
    if renew:
        figures.keep(seen)
    assert seen.whole.share >= min(GOAL, figures.kept().whole.share) - SLACK


def test_there_are_thousands_by_every_operator_and_none_is_the_boat_itself():
    count = 0
    operators = set()
    for boat in BOATS.values():
        for mutant in mutants(boat):
            assert all(end >= start for start, end, _ in mutant.edits)
            assert any(new for *_, new in mutant.edits) or mutant.operator in (
                "removed", "block removed", "stays ashore", "two stay ashore",
            ), mutant.name  # fmt: skip
            operators.add(mutant.operator)
            count += 1
    assert count > 10_000
    assert operators == set(figures.kept().operators)


def test_the_figures_kept_are_of_all_and_reach_the_goal():
    """What stands in the document was counted over every mutant of every boat, and whatever nobody noticed has its class."""
    kept = figures.kept()
    assert kept.every == 1
    assert kept.whole.made > 20_000
    assert kept.whole.share >= GOAL
    assert figures.OTHER not in kept.classes
    assert set(kept.classes) - {""} <= {rule.name for rule in RULES}


def test_the_same_mutants_are_made_each_time():
    boat = BOATS["teasel"]
    first, again = (
        [(each.name, each.text(boat.text(each.file))) for each in mutants(boat) if each.file in boat.files]
        for _ in range(2)
    )
    assert first == again


def test_every_class_has_its_reason_and_none_its_name_twice():
    assert all(len(rule.why) > 20 for rule in RULES)
    assert len({rule.name for rule in RULES}) == len(RULES)


def test_a_mutant_is_taken_back(tmp_path):
    judge = Judge(BOATS["zilte-wind"], tmp_path)
    before = {path: path.read_bytes() for path in judge.folder.rglob("*") if path.is_file()}
    for mutant in list(mutants(judge.boat))[::300]:
        judge.noticed(mutant)
    assert {path: path.read_bytes() for path in judge.folder.rglob("*") if path.is_file()} == before


def test_a_fault_that_is_told_is_noticed_and_one_that_is_not_is_not(tmp_path):
    """The judge itself: a place that she has not, and a torch in another cupboard."""
    judge = Judge(BOATS["saltmeadow"], tmp_path)
    found = {each.name: each for each in mutants(judge.boat)}
    aged = next(each for name, each in found.items() if "age: 3" in name and "skipper" in name)
    assert judge.noticed(aged)
    torch = next(name for name in found if "(torch, waterproof): side: starboard" in name)
    assert not judge.noticed(found[torch])
    assert judge.rule(found[torch]).harmless
