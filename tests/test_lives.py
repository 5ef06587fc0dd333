"""The shelf of lives: each kind of thing that ages, its names, its dates and the rules that end it."""

import pytest

from generator.manual.deadlines import USUAL_CHECK
from generator.shelves.folder import templates_folder
from generator.shelves.lives import BLOCKS, STANDINGS, read_shelf, shelf
from generator.survey.registry import all_checks

SHELF = templates_folder() / "lives" / "lives.yaml"


def kinds():
    return [kind for group in shelf().kinds.values() for kind in group]


def lives():
    return [(kind, line, life) for kind in kinds() for line in kind.lines for life in line.lives]


def test_each_life_names_its_source_and_standing():
    for kind, _, life in lives():
        assert life.source, kind.name
        assert life.edition, kind.name
        assert life.standing in STANDINGS


def test_what_is_not_verified_only_recommends():
    assert [
        kind.name for kind, _, life in lives() if life.firm and life.standing not in ("read", "secondary")
    ] == []


def test_every_block_has_kinds_and_gear_of_no_kind_keeps_its_marks():
    assert set(shelf().kinds) == set(BLOCKS)
    assert all(shelf().kinds.values())
    assert shelf().kinds["gear"][-1].name == "other gear"
    assert all(kind.names or kind.words for kind in shelf().kinds["gear"][:-1])


def test_no_name_stands_in_two_kinds():
    names = [name for kind in kinds() for name in kind.names]
    assert len(names) == len(set(names))
    assert all(name == name.lower() for name in names)


def test_every_date_named_has_words_and_a_key_of_its_block():
    from generator.vessel import gear as blocks
    from generator.vessel import radio
    from generator.vessel import raft as rafts

    of = {"gear": blocks.Gear, "service": rafts.Service, "release": rafts.Release, "beacon": radio.Beacon, "set": radio.RadioSet,
          "lifejackets": blocks.Lifejackets, "gas": blocks.Gas, "through-hull": blocks.ThroughHull}  # fmt: skip
    for kind in kinds():
        for line in kind.lines:
            keys = {*line.marked, *(line.needs.one_of if line.needs else ())}
            keys |= {key for life in line.lives for key in (*life.since, *life.unless)}
            assert keys <= set(of[kind.block].fields), (kind.name, keys - set(of[kind.block].fields))
            assert {*line.marked, *(key for life in line.lives for key in life.since)} <= set(shelf().words)


def test_every_check_a_line_names_is_there():
    assert {line.check for kind in kinds() for line in kind.lines} | {USUAL_CHECK} <= set(all_checks())


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        (
            "standing: common practice, weight: recommendation",
            "standing: common practice, weight: defect",
            "only ever recommends",
        ),
        ("standing: read, weight: defect", "standing: sure, weight: defect", "has a standing"),
        ("  - kind: food\n    block: gear", "  - kind: food\n    block: larder", "no block 'larder'"),
        ("routine: yes", "rutine: yes", "rutine"),
    ],
)
def test_a_shelf_that_is_not_as_its_head_says_is_refused(tmp_path, old, new, message):
    text = SHELF.read_text(encoding="utf-8")
    assert old in text
    path = tmp_path / "lives.yaml"
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(ValueError, match=message):
        read_shelf(path)


def test_gear_is_known_by_name_alone_or_before_a_comma():
    def kind(what):
        return next(each.name for each in shelf().kinds["gear"] if each.is_called(what.lower()))

    assert kind("Smoke alarm, forward") == "smoke alarm"
    assert kind("lifebuoy, with light and drogue") == "lights of lifebuoys"
    assert kind("lifebuoy") == "other gear"
    assert kind("water pistol") == "other gear"
    assert kind("rocket flares") == "flares and smoke"
    assert kind("CO alarm") == "carbon monoxide alarm"
