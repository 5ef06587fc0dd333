"""What is worked out once: of a boat on a day by all checks, and what lasts as long as the program by none of them again."""

import gc
from datetime import date
from pathlib import Path

import pytest

from generator.checks.file import plain
from generator.machine.surroundings import lasting
from generator.reading.nodes import Source
from generator.reading.tree import read_bytes
from generator.survey.hands import hands
from generator.survey.sight import Sight, once
from generator.vessel.loading import load

VESSELS = Path(__file__).resolve().parent.parent / "vessels"
DAY = date(2026, 6, 1)


@pytest.fixture(scope="module")
def vessel():
    return load(VESSELS / "saltmeadow", "boat")[0]


def test_what_checks_share_is_worked_out_once_for_each_day(vessel):
    asked = []

    @once
    def day(sight):
        asked.append(sight.as_of)
        return sight.as_of

    first, other = Sight(vessel, DAY, DAY), Sight(vessel, date(2027, 6, 1), date(2027, 6, 1))
    assert [day(first), day(first), day(other), day(first.composed(None))] == [DAY, DAY, other.as_of, DAY]
    assert asked == [DAY, other.as_of]
    assert hands(first) is hands(first) is not hands(other)


def test_garbage_is_looked_for_again_when_all_that_lasts_is_there():
    gc.unfreeze()
    try:
        with lasting():
            assert not gc.isenabled()
        assert gc.isenabled()
        assert gc.get_freeze_count()
        with lasting():  # a second time nothing lasts that was not there
            assert gc.isenabled()
    finally:
        gc.unfreeze()


@pytest.mark.parametrize(
    "words", ["Łódź", r'"\u0141\u00f3d\u017a"', r'"a\\b"', "plain", "{ą: a}", "[a, [ą]]"]
)
def test_letters_are_looked_at_wherever_a_file_may_hold_others(words):
    tree, found = read_bytes(f"name: {words}\n".encode(), Source("vessel.yaml"))
    assert not found
    assert plain(tree) is (words in ("plain", r'"a\\b"'))


def test_of_a_block_from_two_files_each_is_looked_at():
    ours, other = (
        read_bytes(text.encode(), Source(name))[0]
        for text, name in (("a: b\n", "one"), ("c: [ą]\n", "other"))
    )
    ours.entries |= other.entries
    assert not plain(ours)
