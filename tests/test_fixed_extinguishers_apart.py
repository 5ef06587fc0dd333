"""Of several fixed extinguishers the step says which handle serves which space, and of which the gas suffocates."""

import pytest
from checks.survey_patch import VESSELS, survey_boat

from generator.outputs import Job, book

BOAT = "nordgyllen"
FIRST = 'what: "fixed extinguisher, for the engine space", kind: fire, quantity: 1, where: engine space, side: centre, agent: clean agent'
SECOND = "  - {{what: {what}, kind: fire, quantity: 1, where: lazarette, side: port, agent: {agent}, {also}next-service: 2027-11}}\n"


def released(
    tmp_path, *, first="clean agent", second="clean agent", what='"fixed extinguisher, lazarette"', also=""
):
    """The step that releases fixed extinguishers of a boat that has two."""
    text = (VESSELS / BOAT / "vessel.yaml").read_text(encoding="utf-8")
    assert text.count(FIRST) == 1
    text = text.replace(FIRST, FIRST.replace("clean agent", first))
    line = next(each for each in text.splitlines(keepends=True) if "fixed extinguisher" in each)
    text = text.replace(line, line + SECOND.format(what=what, agent=second, also=also))
    boat = tmp_path / BOAT
    boat.mkdir()
    (boat / "vessel.yaml").write_text(text, encoding="utf-8")
    fire = next(one for one in survey_boat(boat).manual.procedures if one.id == "fire-starve")
    (step,) = [step for step in fire.steps if step.id.startswith("fire-starve.fixed")]
    return step


@pytest.mark.parametrize(
    "named",
    [
        {"what": '"fixed extinguisher, lazarette"'},
        {"what": '"fixed extinguisher, for the lazarette"'},
        {"what": "fixed extinguisher", "also": "for: the lazarette, "},
    ],
)
def test_each_handle_stands_behind_what_it_serves(tmp_path, named):
    step = released(tmp_path, **named)
    assert (
        "engine space – wheelhouse, starboard, red handle behind the glass; lazarette – lazarette, port"
        in step.place
    )
    assert "release that extinguisher" in step.text
    assert "CO2" not in step.caution


@pytest.mark.parametrize(
    ("first", "second", "said", "silent"),
    [
        ("CO2", "clean agent", "CO2 suffocates: engine space.", "lazarette"),
        ("clean agent", "CO2", "CO2 suffocates: lazarette.", "engine space"),
        ("CO2", "CO2", "CO2 suffocates.", ":"),
        ("CO2", "unknown", "CO2 suffocates: engine space.", "lazarette"),
    ],
)
def test_co2_is_said_of_the_one_that_sends_it_out(tmp_path, first, second, said, silent):
    caution = released(tmp_path, first=first, second=second).caution
    assert said in caution
    assert silent not in caution
    assert "open" in caution, "the space stays shut"


def test_two_that_say_the_same_are_not_told_apart(tmp_path):
    step = released(tmp_path, what='"fixed extinguisher, for the engine space"')
    assert "–" not in step.place
    assert "release the fixed extinguisher" in step.text


def test_what_gear_is_for_stands_in_the_book(tmp_path):
    text = (VESSELS / BOAT / "vessel.yaml").read_text(encoding="utf-8")
    boat = tmp_path / BOAT
    boat.mkdir()
    (boat / "vessel.yaml").write_text(
        text.replace("clean agent, released", "clean agent, for: engine space and lazarette, released"),
        encoding="utf-8",
    )
    manual = survey_boat(boat).manual
    assert "For: engine space and lazarette" in book.html(Job(manual, "crew"))
