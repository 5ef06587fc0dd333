"""What a boat says that she has not, no step counts on: a raft out of reach, a canopy, a spare raft's people, plugs."""

import re
import shutil
from datetime import date

import pytest
from boat_file import SOUND
from specimens import VESSELS

from generator.manual.composing import compose
from generator.manual.procedures import compose_procedures
from generator.manual.reckoning import Reckoning
from generator.shelves.languages import catalogue
from generator.vessel.loading import load


def text_of(name):
    return (VESSELS / name / "vessel.yaml").read_text(encoding="utf-8")


def compose_manual(vessel):
    day = date(2026, 6, 1)
    return compose(vessel, day, day, catalogue())[0]


@pytest.fixture
def steps(tmp_path):
    """The steps of a text by raft and id, and the gaps: steps(text) -> ({(raft, id): step}, gaps)."""

    shutil.copytree(VESSELS / "classes", tmp_path / "classes")
    (tmp_path / "boat").mkdir()

    def composed(text):
        (tmp_path / "boat" / "vessel.yaml").write_text(text, encoding="utf-8")
        vessel, _ = load(tmp_path / "boat")
        procedures, gaps = compose_procedures(Reckoning(vessel), catalogue())
        named = {
            (str(one.raft.name) if one.raft else "", step.id): step
            for one in procedures
            for step in one.steps
        }
        return named, gaps

    return composed


def words(step):
    return f"{step.text} {step.unless} {step.caution}"


def test_a_raft_out_of_reach_is_not_launched_from_the_bottom(steps):
    assert "reached-inverted: yes" in text_of("ombrelune")
    reached, _ = steps(text_of("ombrelune"))
    said, gaps = steps(text_of("ombrelune").replace("reached-inverted: yes", "reached-inverted: no"))
    assert gaps == []
    ids = {each for _, each in said}
    assert {"raft-trouble.upside-down-reach", "raft-trouble.upside-down-painter"} <= {
        each for _, each in reached
    }
    assert not ids & {"raft-trouble.upside-down-reach", "raft-trouble.upside-down-painter"}
    told = next(step for (_, name), step in said.items() if name == "raft-trouble.capsized-multihull")
    assert "launch" not in words(told)
    assert "cannot be reached" in told.caution
    assert "get clear together" in told.unless


@pytest.mark.parametrize(
    ("canopy", "step"),
    [("yes", "close"), ("no", "shelter"), ("unknown", "close-or-shelter"), (None, "close-or-shelter")],
)
def test_what_is_not_known_of_the_canopy_is_no_answer(steps, canopy, step):
    line = "    canopy: yes\n"
    assert SOUND.count(line) == 1
    said, _ = steps(SOUND.replace(line, f"    canopy: {canopy}\n" if canopy else ""))
    ends = {name.removeprefix("in-the-raft.") for _, name in said if name.startswith("in-the-raft.")}
    assert ends & {"close", "shelter", "close-or-shelter"} == {step}


def test_a_spare_raft_has_nobody_and_no_bag_of_anothers(steps):
    text = text_of("nordgyllen")
    carried = re.findall(r"(?m)^    carries: .*\n", text)
    assert len(carried) == 2
    everybody = ", ".join(line.split("[")[1].split("]")[0] for line in carried)
    text = text.replace(carried[0], f"    carries: [{everybody}]\n").replace(
        carried[1], "    carries: none\n"
    )
    party = re.findall(r"(?m)^    party: .*\n", text)[1]
    text = text.replace(party, "")
    said, gaps = steps(text)
    assert gaps == []
    first, spare = (re.findall(r"(?m)^  - name: (.*liferaft)", text)[number] for number in (0, 1))
    assert f"{spare[:1].upper()}{spare[1:]}: nobody, it is a spare." in said[("", "leaving.own-raft")].caution
    assert (first, "boarding.bag") in said
    assert (spare, "boarding.bag") not in said
    assert (first, "in-the-raft.beacon") in said
    assert not {(spare, f"in-the-raft.{each}") for each in ("beacon", "epirb", "plb")} & set(said)
    assert "grab bag" not in said[(spare, "in-the-raft.tie-in")].text
    assert said[(spare, "boarding.crew")].text.startswith("If another liferaft is lost")
    assert said[(spare, "boarding.count-here")].text == "Count everybody in the liferaft, aloud."
    assert said[(spare, "boarding.alongside")].who


PLUGS = "softwood plugs, spare set"


@pytest.mark.parametrize(
    ("plug", "id_", "told"),
    [
        ("plug: none", "flooding.no-plug", "press cloth into the hole"),
        ("plug: unknown", "flooding.own-plug", "none is kept there"),
        ("plug: tied beside it", "flooding.own-plug", "none fits"),
    ],
)
def test_a_plug_that_is_not_there_is_not_driven_in(steps, plug, id_, told):
    assert SOUND.count(PLUGS) == 1
    text = re.sub(r"plug: (tied|in the bag) beside it", plug, SOUND.replace(PLUGS, "cloths")).replace(
        ", plug-size: 50 mm", ""
    )
    said, gaps = steps(text)
    assert gaps == []
    found = [
        step
        for (_, name), step in said.items()
        if name in ("flooding.no-plug", "flooding.own-plug", "flooding.plug")
    ]
    assert [step.id for step in found] == [id_]
    assert told in words(found[0])
    if plug == "plug: none":
        assert "drive" not in found[0].text


def test_where_one_of_several_holes_has_no_plug_the_step_says_what_then(steps):
    text = SOUND.replace(PLUGS, "cloths").replace("plug: tied beside it", "plug: none", 1)
    said, _ = steps(text)
    assert "none is kept there" in said[("", "flooding.own-plug")].unless


@pytest.mark.parametrize(
    ("role", "told"), [("skipper", "skipper"), ("delivery skipper", "skipper"), ("instructor", "instructor")]
)
def test_whoever_commands_is_called_by_what_they_are(steps, role, told):
    said, _ = steps(re.sub(r"\bskipper\b", role, SOUND))
    assert said[("", "leaving.launch")].text.endswith(f"on the word of the {told}.")


def test_without_beacons_nobody_is_told_to_switch_one_on(tmp_path):
    for text, there in (
        (SOUND, True),
        (re.sub(r"(?m)^  beacons:\n(?:    .*\n|\n)*", "  beacons: none\n", SOUND), False),
    ):
        (tmp_path / "vessel.yaml").write_text(text, encoding="utf-8")
        vessel, _ = load(tmp_path)
        duties = {
            duty.id: duty.text
            for one in compose_manual(vessel).bill.emergencies
            if one.id == "abandon-ship"
            for duty in one.duties
        }
        assert ("beacon" in duties["call"]) == there


def test_a_name_keeps_one_article(steps):
    assert SOUND.count("what: handheld VHF, kind: handheld VHF") == 1
    said, _ = steps(
        SOUND.replace("what: handheld VHF, kind: handheld VHF", "what: my own shortwave, kind: MF/HF")
    )
    assert said[("", "call-unheard.shortwave")].text.endswith("on the own shortwave.")


ADULTS = "  - {size: adult, kind: inflatable, quantity: 8,"


@pytest.mark.parametrize(
    ("where", "told"),
    [
        ("forward cabin", "adult – saloon, port, in the hanging locker; child – forward cabin"),
        ("saloon, side: port, spot: in the hanging locker", "saloon, port, in the hanging locker"),
    ],
)
def test_lifejackets_of_two_sizes_in_two_places_say_which_are_where(steps, where, told):
    assert SOUND.count(ADULTS) == 1
    child = f"  - {{size: child, kind: foam, quantity: 2, where: {where}, crotch-straps: yes, lights: yes}}\n"
    said, _ = steps(SOUND.replace(ADULTS, child + ADULTS))
    place = (
        said[("", "raft-launch.lifejackets")].place
        if ("", "raft-launch.lifejackets") in said
        else said[("liferaft", "raft-launch.lifejackets")].place
    )
    assert set(place.split("; ")) == set(told.split("; "))
