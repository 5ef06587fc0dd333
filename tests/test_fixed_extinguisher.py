"""Where a fixed extinguisher sends out CO2, the step that releases it says so, and has everybody out first."""

import pytest
from checks.survey_patch import VESSELS, survey_boat

BOAT = "nordgyllen"
AGENT = "side: centre, agent: clean agent, released-from"


def released(agent, folder):
    """The steps that release the fixed extinguisher of a boat whose system sends that out."""
    text = (VESSELS / BOAT / "vessel.yaml").read_text(encoding="utf-8")
    assert text.count(AGENT) == 1
    boat = folder / BOAT
    boat.mkdir()
    (boat / "vessel.yaml").write_text(
        text.replace(AGENT, AGENT.replace("clean agent", agent)), encoding="utf-8"
    )
    manual = survey_boat(boat).manual
    fire = next(one for one in manual.procedures if one.id == "fire-starve")
    return [step for step in fire.steps if step.id.startswith("fire-starve.fixed")]


def test_co2_is_named_and_everybody_is_out_first(tmp_path):
    (step,) = released("CO2", tmp_path)
    assert "CO2 suffocates." in step.caution
    assert "anybody is in that space" in step.unless
    assert "wheelhouse" in step.place


@pytest.mark.parametrize("agent", ["clean agent", "aerosol", "unknown"])
def test_of_another_agent_nothing_is_said_that_is_not_so(agent, tmp_path):
    (step,) = released(agent, tmp_path)
    assert "CO2" not in f"{step.text} {step.unless} {step.caution}"
    assert "anybody is in that space" in step.unless
