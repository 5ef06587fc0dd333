"""A new file fits her: its examples are of her type, its bill of what she has, and the program contradicts itself nowhere."""

import re

import pytest

from generator.__main__ import main
from generator.commissioning.conversation import BrokenOff, Wish, carry_out
from generator.commissioning.questions import questions
from generator.commissioning.writing import commission
from generator.manual.drawing.spaces import find_space, preset_spaces
from generator.shelves.spaces import hull_types

NAMED = re.compile(r"(?:where|replaces|bottles|without|place|muster-place): (?:\{where: |\[)?([a-z][a-z ]*)")


def commissioned(folder, *given):
    """The text of a new file from KEY=VALUE each."""
    commission("Tern", dict(one.split("=", 1) for one in given), folder)
    return (folder / "tern" / "vessel.yaml").read_text(encoding="utf-8")


@pytest.mark.parametrize("hull", hull_types())
def test_what_examples_name_is_a_space_of_her_type(tmp_path, hull):
    text = commissioned(tmp_path, f"vessel.type={hull}")
    spaces = preset_spaces(hull, 8.0, 2.6)
    comments = "\n".join(line.partition("#")[2] for line in text.splitlines() if "Spaces aboard" not in line)
    named = {name.strip() for name in NAMED.findall(comments)} - {"unknown"}
    assert len(named) > 4
    assert sorted(name for name in named if find_space(spaces, name)[0] is None) == []
    for question in questions():
        if question.asks == "place":
            example = question.shown({"vessel.type": hull}).removeprefix("for example ").partition(",")[0]
            assert find_space(spaces, example)[0] is not None, (question.key, example)


@pytest.mark.parametrize("hull", hull_types())
def test_where_all_is_unknown_nothing_contradicts_itself(tmp_path, capsys, hull):
    everything = {key: "unknown" for question in questions() for key in question.keys} | {"vessel.type": hull}
    text = commissioned(tmp_path, *(f"{key}={said}" for key, said in everything.items()))
    assert "\n    release:" not in text
    capsys.readouterr()
    main(["survey", str(tmp_path / "tern")])
    assert "release.not-holding" not in capsys.readouterr().out


def test_an_hru_whose_date_is_known_and_what_holds_the_raft_is_not_is_no_contradiction(tmp_path, capsys):
    commissioned(tmp_path, "rafts[liferaft].release.expires=2029-05", "rafts[liferaft].held-by=unknown")
    main(["survey", str(tmp_path / "tern")])
    told = capsys.readouterr().out
    assert "release.not-holding" not in told and "raft.hold-not-said" in told and "raft.hold-not-said" in told


def test_without_a_raft_nobody_prepares_one(tmp_path):
    boat = ("vessel.type=open boat", "people=skipper, mate, 2 guests")
    assert "prepare-raft" not in commissioned(tmp_path / "none", *boat, "rafts=none")
    assert "prepare-raft" in commissioned(tmp_path / "one", *boat)


def test_the_second_of_one_name_is_told_with_its_number(tmp_path, capsys):
    text = commissioned(
        tmp_path,
        "vessel.type=dayboat",
        "stops[engine].serves=port engine",
        "stops[engine][2].serves=starboard engine",
        "stops[engine][2].where=helm",
        "lifejackets[adult].kind=inflatable",
        "lifejackets[adult][2].kind=foam",
    )
    assert "- {what: engine, where: unknown, how: unknown, serves: port engine}\n" in text
    assert "- {what: engine, where: helm, how: unknown, serves: starboard engine}\n" in text
    assert text.count("size: adult") == 2
    capsys.readouterr()
    lost = ["--set", "stops[engine][2].where=helm"]
    assert main(["commission", "Plover", "--into", str(tmp_path), *lost]) == 2
    assert "nothing is said of the one before; write stops[engine].where too" in capsys.readouterr().err
    twice = ["--set", "stops[engine].where=helm", "--set", "stops[engine].where=cockpit"]
    assert main(["commission", "Plover", "--into", str(tmp_path), *twice]) == 2
    assert "write stops[engine][2].where for the second" in capsys.readouterr().err


@pytest.mark.parametrize(("given", "says"), [
    ("vessel.engine=petrol", "write inboard petrol or outboard?"),
    ("vessel.type=RIB", "write open boat?"),
    ("vessel.rig=a handheld horn", "names no rig"),
    ("people=skipper, 2 children", "how old is '2 children'?"),
    ("stops[engine].where=cockpit locker, starbord", "'starbord' is no side; write cockpit locker, starboard?"),
])  # fmt: skip
def test_by_set_too_what_is_not_taken_says_what_to_write(tmp_path, capsys, given, says):
    assert main(["commission", "Tern", "--into", str(tmp_path), "--set", given]) == 2
    assert says in capsys.readouterr().err


@pytest.mark.parametrize(("given", "line"), [
    ("vessel.engine=outboard petrol", "  engine: outboard "), ("vessel.engine=no", "  engine: none "), ("vessel.rig=no", "  rig: none "),
    ("vessel.length=21 feet", "  length: 21 ft "), ("vessel.persons=six", "  persons: 6 "), ("vessel.flag=don't know", "  flag: unknown "),
    ("rafts[liferaft].held-by=HRU and straps", "    held-by: [HRU, strap]\n"),
])  # fmt: skip
def test_by_set_too_an_answer_is_taken_as_meant(tmp_path, given, line):
    assert line in commissioned(tmp_path, given)


def test_ages_told_on_their_own_are_enough(tmp_path):
    text = commissioned(tmp_path, "people=skipper, child", "people[child].age=6")
    assert "{role: child, age: [6]}" in text


def test_what_is_taken_in_other_words_is_told(tmp_path):
    told = []
    answers = iter(["day boat", "four", "no", "helm starboard"])
    with pytest.raises(BrokenOff):
        carry_out(Wish("Tern", tmp_path), lambda _: next(answers, None) or _ended(), told.append)
    taken = [line.strip() for line in told if "taken as" in line]
    assert taken == [
        "(taken as: dayboat)",
        "(taken as: skipper, mate, 2 guests)",
        "(taken as: none)",
        "(taken as: helm, starboard)",
    ]


def _ended():
    raise EOFError
