"""Every emergency, for a fixed sample of boats and four crews: what must hold does, and each invariant can fail."""

import medical_emergency_invariants
import no_raft_invariants
import pytest
import sea_emergency_invariants
import second_card_invariants
import single_emergency_invariants
from emergency_case import cases
from emergency_invariants import BUT, INVARIANTS, SPOILT
from fact_sample import CREWS

from generator.shelves.procedures import shelf

OF_SOME = (
    second_card_invariants,
    single_emergency_invariants,
    medical_emergency_invariants,
    sea_emergency_invariants,
    no_raft_invariants,
)
FAILS = (AssertionError, ValueError, IndexError, KeyError)


def test_every_emergency_and_every_crew_is_looked_at():
    seen = {(case.one.id, case.crew) for case in cases()}
    for one in shelf():
        if one.emergency and one.per == "vessel":
            crews = {crew for name, crew in seen if name == one.id}
            assert (
                crews == set(CREWS) if "several persons" not in one.when else crews == set(CREWS) - {"alone"}
            ), one.id
    assert len(INVARIANTS) >= 90
    where = {each.__module__ for each in INVARIANTS.values()}
    assert {each.__name__ for each in OF_SOME} < where


@pytest.mark.parametrize("name", INVARIANTS)
def test_the_invariant_holds(name):
    for case in cases():
        try:
            INVARIANTS[name](case)
        except FAILS as error:
            so = sorted(fact for fact, true in case.facts.items() if true)
            pytest.fail(
                f"{name}: {INVARIANTS[name].__doc__}\n{case.one.id}, {case.crew}: {error!r}\n{case.ids}\n{so}"
            )


@pytest.mark.parametrize("name", INVARIANTS)
def test_the_invariant_can_fail_and_is_explained(name):
    assert "xception" in INVARIANTS[name].__doc__, "it names its exceptions, or says that there is none"
    noticed = 0
    for case in cases():
        spoilt = SPOILT[name](case)
        if spoilt is None:
            continue
        try:
            INVARIANTS[name](spoilt)
        except FAILS:
            noticed += 1
            break
    assert noticed, "nothing that spoils a case is noticed"


def fails(name, case):
    """Whether an invariant does not hold for a case."""
    try:
        INVARIANTS[name](case)
    except FAILS:
        return True
    return False


@pytest.mark.parametrize(("name", "start"), [(name, start) for name, but in BUT.items() for start in but])
def test_every_exception_is_still_needed(name, start, monkeypatch):
    known = {step.id for one in shelf() for step in one.steps} | {one.id for one in shelf()}
    assert any(each.startswith(start) for each in known)
    monkeypatch.setitem(BUT, name, {each: why for each, why in BUT[name].items() if each != start})
    assert any(fails(name, case) for case in cases()), "it holds without it"
