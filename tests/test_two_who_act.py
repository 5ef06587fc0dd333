"""Two who can act: whoever is outside calls from there, and nothing asks for a third hand."""

import pytest
from crews import composed
from specimens import BOATS

COUPLES = ("a couple", "a family with two children")


@pytest.fixture(scope="module")
def steps(tmp_path_factory):
    """The steps of a boat with such a crew, by their names, and the vessel."""
    made = {}

    def of(boat, crew):
        if (boat, crew) not in made:
            vessel, procedures, _ = composed(boat, crew, tmp_path_factory.mktemp("two"))
            made[boat, crew] = vessel, {step.id: step for one in procedures for step in one.steps}
        return made[boat, crew]

    return of


def _handhelds(vessel):
    return [each for each in vessel.radio.sets if each.kind == "handheld VHF"]


@pytest.mark.parametrize("crew", COUPLES)
@pytest.mark.parametrize("boat", BOATS)
def test_the_one_outside_calls_by_the_handheld(steps, boat, crew):
    """Common practice: the fixed set stands in the smoke. Where there is a handheld, its place stands beside the call."""
    vessel, found = steps(boat, crew)
    if not _handhelds(vessel):
        pytest.skip("she has no handheld")
    where = {str(each.where) for each in _handhelds(vessel)}
    for name in ("fire.call-handheld", "fire-engine.call-of-two-by-hand", "fire-battery.call-by-hand"):
        if name.split(".")[0] in {each.split(".")[0] for each in found}:
            assert any(place in str(found[name].place) for place in where), name
    assert not {"fire.call", "fire-engine.call", "fire-engine.call-of-two", "fire-battery.call"} & set(found)


@pytest.mark.parametrize("crew", COUPLES)
@pytest.mark.parametrize("boat", BOATS)
def test_at_the_engine_another_calls_than_shuts_off(steps, boat, crew):
    """Common practice: nobody fights there, so whoever would has the call."""
    _, found = steps(boat, crew)
    calls = [step for name, step in found.items() if name.startswith("fire-engine.call")]
    shuts = [
        step for name, step in found.items() if name.startswith(("fire-engine.stop", "fire-engine.fuel"))
    ]
    for call in calls:
        assert call.who
        assert all(call.who != shut.who for shut in shuts)


@pytest.mark.parametrize("crew", COUPLES)
@pytest.mark.parametrize("boat", BOATS)
def test_nothing_asks_for_a_third_hand(steps, boat, crew):
    """Nobody goes in on a line, and one pump is worked, where two can act."""
    _, found = steps(boat, crew)
    said = {name: f"{step.text} {step.unless} {step.caution}" for name, step in found.items()}
    assert "that another holds" not in said.get("co-alarm.count", "")
    assert "each pump" not in said.get("flooding.hand-pumps", "")


@pytest.mark.parametrize("crew", ["alone", *COUPLES, "twelve"])
def test_a_hatch_low_in_a_hull_comes_last_while_she_moves(steps, crew):
    """Common practice: the sea stands outside it. A boat with none is told nothing of it."""
    _, low = steps("ombrelune", crew)
    _, none = steps("nordgyllen", crew)
    for name in ("fire.way-out", "fire-galley.way-out", "flooding-rises.way-out"):
        assert "low in a hull last" in low[name].unless
        assert name in none
        assert "low in a hull" not in (none[name].unless or "")
