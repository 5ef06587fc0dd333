"""Wordings of honest skippers pass and useless ones are found: the tables in data/words, all specimens, the example of each field."""

from datetime import date
from pathlib import Path

import pytest
from checks.survey_patch import VESSELS

from generator.manual.forms import asks, misfit, unfamiliar
from generator.manual.own_words import own_words
from generator.reading.worded import DOING, PLACE, SIGNAL, THING, Worded
from generator.survey.registry import DEFECT, Sight, all_checks
from generator.vessel.loading import load

TABLES = Path(__file__).parent / "data" / "words"
DAY = date(2026, 6, 1)
SAYS = {"doing": DOING, "place": PLACE, "signal": SIGNAL, "thing": THING}
USELESS = {DOING: "see the plate", PLACE: "see the plate", SIGNAL: "see the plate", THING: "see the photo"}


def rows(name):
    lines = (TABLES / f"{name}.txt").read_text(encoding="utf-8").splitlines()
    return [tuple(part.strip() for part in line.split("|", 1)) for line in lines if not line.startswith("#")]


def in_sentences(name):
    return [(kind, text) for kind, text in rows(name) if kind.rstrip("?") in SAYS]


@pytest.fixture(scope="module")
def boats():
    folders = sorted(each.parent for each in VESSELS.glob("*/vessel.yaml"))
    return {folder.name: load(folder, "")[0] for folder in folders}


def test_the_tables_are_long_enough_to_mean_something():
    assert len(rows("sound")) >= 220
    assert len(rows("bad")) >= 300
    assert {kind.rstrip("?") for kind, _ in rows("sound")} == {*SAYS, "name"}
    doubtful = [text for kind, text in in_sentences("sound") if kind.endswith("?")]
    assert len(doubtful) <= 0.01 * len(rows("sound"))


@pytest.mark.parametrize(("kind", "text"), in_sentences("sound"))
def test_what_an_honest_skipper_writes_passes(kind, text):
    wrong = misfit(SAYS[kind.rstrip("?")], text)
    assert not asks(text)
    assert (wrong is not None) == kind.endswith("?"), wrong
    assert wrong is None or not wrong.sure


@pytest.mark.parametrize(("kind", "text"), in_sentences("bad"))
def test_what_says_nothing_is_found(kind, text):
    wrong = misfit(SAYS[kind.rstrip("?")], text)
    assert asks(text) or (wrong is not None and wrong.sure != kind.endswith("?"))


@pytest.mark.parametrize(("kind", "text"), rows("rubbish"))
def test_what_is_neither_thing_nor_place_is_found(kind, text):
    says = SAYS[kind.rstrip("?")]
    wrong = misfit(says, text)
    assert wrong is not None or (kind.endswith("?") and unfamiliar(says, text))
    assert wrong is None or wrong.sure


@pytest.mark.parametrize(("kind", "text"), [*rows("unusual"), *in_sentences("sound")])
def test_what_is_unusual_stops_nothing(kind, text):
    says = SAYS[kind.rstrip("?")]
    wrong = misfit(says, text)
    assert wrong is None or (kind.endswith("?") and not wrong.sure)
    assert not unfamiliar(says, text)


@pytest.mark.parametrize("name", ["sound", "bad"])
def test_short_answers(boats, name):
    vessel = boats["saltmeadow"]
    particulars = next(each for each in vessel.inner() if each.path == "vessel")
    before, found = particulars.hull_colour, {}
    for kind, text in rows(name):
        if kind == "name":
            particulars.__dict__["hull_colour"] = text
            found[text] = [
                each.place.key for each in all_checks()["words.no-answer"].find(Sight(vessel, DAY, DAY))
            ]
    particulars.__dict__["hull_colour"] = before
    assert len(found) > 10
    assert {
        text: said for text, said in found.items() if said != ["vessel.hull-colour"] * (name == "bad")
    } == {}


def test_no_specimen_says_what_it_should_not(boats):
    said = [each for vessel in boats.values() for each in own_words(vessel.inner()) if each.says in USELESS]
    assert len(said) > 400
    assert [(each.text, misfit(each.says, each.text)) for each in said if misfit(each.says, each.text)] == []
    assert [each.text for each in said if unfamiliar(each.says, each.text)] == []


def test_the_example_of_each_field_is_what_it_asks_for(boats):
    kinds = {type(block) for vessel in boats.values() for block in vessel.inner()}
    fields = {
        field
        for kind in kinds
        for field in kind.fields.values()
        if isinstance(field, Worded) and field.says in USELESS and field.example != field.usual
    }
    assert len(fields) > 15
    assert [(field.key, field.example) for field in fields if misfit(field.says, field.example)] == []


def test_every_field_is_read(boats):
    """Of each field whose words stand in a sentence, in whichever boat has it: what says nothing there stops publishing, once."""
    seen = set()
    for vessel in boats.values():
        for each in list(own_words(vessel.inner())):
            if each.says not in USELESS or each.field in seen:
                continue
            seen.add(each.field)
            each.block.__dict__[each.field.name] = USELESS[each.says]
            sight = Sight(vessel, DAY, DAY)
            found = [
                (one.place.key, one.weight)
                for name in (
                    "words.no-thing",
                    "words.no-place",
                    "words.no-doing",
                    "words.no-signal",
                    "words.broken-sentence",
                )
                for one in all_checks()[name].find(sight)
            ]
            each.block.__dict__[each.field.name] = each.text
            assert found == [(f"{each.block.path}.{each.field.key}", DEFECT)]
    assert len(seen) > 15


@pytest.mark.parametrize(
    ("words", "clear"),
    [
        ("nothing at all", True),
        ("Nothing above it", True),
        ("only the open sky", True),
        ("clear sky over it", True),
        ("nothing but the boom", False),
        ("the arch", False),
        ("clear of the boom", False),
    ],
)
def test_what_is_above_a_raft_is_nothing_in_many_words(boats, words, clear):
    vessel = boats["saltmeadow"]
    raft, before = vessel.rafts[0], vessel.rafts[0].overhead
    raft.__dict__["overhead"] = words
    found = list(all_checks()["release.overhead"].find(Sight(vessel, DAY, DAY)))
    raft.__dict__["overhead"] = before
    assert (found == []) == clear
