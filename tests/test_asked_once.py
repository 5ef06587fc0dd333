"""What checks and steps ask of a boat in a shorter way is what the long way gives: blocks of a kind, texts under a key, words that speak of something."""

from datetime import date
from pathlib import Path

import pytest

from generator.manual import sieves
from generator.manual.printed import Printed, Words
from generator.manual.printing import first_printer
from generator.manual.reckoning import Reckoning
from generator.manual.said import Missing
from generator.reading.block import Block
from generator.reading.nodes import Source
from generator.reading.tree import read_bytes
from generator.shelves.gear import EVERY_PROPERTY, kind_begun, kind_renamed, kinds_joined, named_as_asked
from generator.survey.registry import all_checks
from generator.survey.sight import Sight, once_composed
from generator.vessel.fittings import Kept, Located
from generator.vessel.gear import Gear, GrabItem, does, gear_kind
from generator.vessel.loading import load

VESSELS = Path(__file__).resolve().parent.parent / "vessels"
BOATS = sorted(path.parent for path in VESSELS.glob("*/vessel.yaml"))


@pytest.fixture(params=BOATS, ids=lambda path: path.name)
def reckoning(request):
    return Reckoning(load(request.param, request.param.name)[0])


@pytest.mark.parametrize("kinds", [(Gear,), (GrabItem, Gear), (Located, Kept), (Block,)], ids=str)
def test_blocks_of_a_kind_stand_in_the_order_of_the_file(reckoning, kinds):
    assert reckoning.all_of(*kinds) == tuple(each for each in reckoning.blocks if isinstance(each, kinds))


@pytest.mark.parametrize("name", ["what", "where", "spot", "serial"])
def test_texts_under_a_key_are_those_of_all_blocks(reckoning, name):
    values = [(each, each.__dict__.get(name)) for each in reckoning.blocks]
    assert list(reckoning.texts(name)) == [(each, said) for each, said in values if isinstance(said, str)]


def test_every_block_is_found_that_lies_in_another(reckoning):
    def within(value):
        if isinstance(value, Block):
            yield value
            value = [each for name, each in value.__dict__.items() if name != "_original"]
        elif isinstance(value, dict):
            value = list(value.values())
        for each in value if isinstance(value, list) else ():
            yield from within(each)

    assert list(map(id, reckoning.blocks)) == list(map(id, within(reckoning.vessel)))


def test_a_sieve_lets_through_what_it_would_word_by_word(reckoning):
    all_checks()
    asked = list(sieves._SIEVES)
    assert len(asked) > 10
    for each in asked:
        assert list(reckoning.words_through(each)) == [
            said for said in reckoning.own_words if each(said.text)
        ]


@pytest.fixture
def sieves_of_its_own(monkeypatch):
    """Sieves that are gone after the test, as none ever is in the program."""
    monkeypatch.setattr(sieves, "_SIEVES", list(sieves._SIEVES))
    sieves._through.cache_clear()
    yield
    sieves._through.cache_clear()


@pytest.mark.usefixtures("sieves_of_its_own")
def test_a_sieve_that_comes_later_is_asked_too(reckoning):
    reckoning.words_through(sieves.sieve(lambda text: "a" in text))
    later = sieves.sieve(lambda text: "b" in text)
    assert list(reckoning.words_through(later)) == [said for said in reckoning.own_words if "b" in said.text]


def test_names_that_are_alike_are_one_thing():
    one, same, other = (sieves.names_alike(names) for names in (("a", "b"), ("a", "b"), ("b", "a")))
    assert one is same
    assert one != other
    assert (*one,) == ("a", "b")


def test_words_are_printed_when_one_asks_and_only_once(reckoning):
    words = Words(reckoning.words, first_printer())
    beside = Words({}, first_printer(), words)
    for slot, said in reckoning.words.items():
        assert words[slot] is words[slot] is beside[slot]
        assert words[slot] is said if isinstance(said, Missing) else isinstance(words[slot], Printed)
    assert list(words) == list(reckoning.words) == list(beside)
    assert len(beside) == len(reckoning.words)
    assert beside.get("no such word") is None


def test_keys_have_their_places_whenever_they_are_asked_for():
    tree, found = read_bytes(b'a: 1\n"b": {c: 2}\n', Source("vessel.yaml"))
    assert not found
    places = {name: (key.text, key.line, key.column, key.plain) for name, key in tree.keys.items()}
    assert places == {"a": ("a", 0, 0, True), "b": ("b", 1, 0, False)}
    assert tree.keys["a"] is tree.keys["a"]
    tree.at["d"] = (2, 0, True)
    assert list(tree.keys) == ["a", "b", "d"]
    tree.keys = {}
    assert not tree.keys


def test_what_goes_by_the_manual_is_found_for_each_manual(reckoning):
    first = Sight(reckoning.vessel, date(2026, 6, 1), date(2026, 6, 1), reckoning=reckoning)
    asked = []

    @once_composed
    def manual(sight):
        asked.append(sight)
        return sight.manual

    one, other = first.composed("one"), first.composed("other")
    assert [manual(one), manual(one), manual(other)] == ["one", "one", "other"]
    assert asked == [one, other]


def test_gear_by_what_it_is_for_is_what_is_found_thing_by_thing(reckoning):
    vessel = reckoning.vessel
    every = sorted(EVERY_PROPERTY)
    for asked in (
        (),
        *((each,) for each in every),
        ("carried to a fire", "guards the engine space"),
        tuple(every),
    ):
        assert list(vessel.gear_that(*asked)) == [
            item for item in vessel.gear if any(does(item, each) for each in asked)
        ]
    with pytest.raises(LookupError, match="no such"):
        vessel.gear_that("no such")


def test_gear_of_a_readers_copy_is_the_copys_own(reckoning):
    before = [*reckoning.vessel.gear_that("lights the way")]
    seen = reckoning.vessel.seen_by("guest")
    assert [item.original for item in seen.gear_that("lights the way")] == before
    assert all(item in seen.gear for item in seen.gear_that("lights the way"))


def test_a_name_of_which_something_may_be_said_is_never_passed_over(reckoning):
    for item in (*reckoning.vessel.gear, Gear(reckoning.vessel.node, "gear[1]")):
        kind = gear_kind(item)
        said = (
            kind_renamed(item.what),
            kinds_joined(item.what),
            kind_begun(item.what),
            kind and kind.written_as,
        )
        assert named_as_asked(item.what) is not any(said)


def test_deadlines_until_a_day_are_those_of_all_that_end_by_then(reckoning):
    for day in (date(1990, 1, 1), date(2026, 6, 1), date(2027, 12, 31), date(2100, 1, 1)):
        near = [each for each in reckoning.deadlines if each.last_day <= day]
        assert list(reckoning.deadlines_until(day)) == near
    assert reckoning.deadlines_until(date(2100, 1, 1))


@pytest.mark.parametrize(
    ("text", "letters"),
    [
        ("a: x", ""),
        ("a: hélàs  # ø", "éàø"),
        ('a: "h\\u00e9"', None),
    ],
)
def test_the_letters_of_a_file_are_known_where_none_is_written_by_its_number(text, letters):
    source = Source("vessel.yaml")
    read_bytes(text.encode(), source)
    assert source.letters == (None if letters is None else frozenset(letters))
