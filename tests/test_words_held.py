"""Words held against fields: no sound wording of the tables is told, each contradiction is, at its key."""

import copy
from datetime import date

import pytest
from checks.survey_patch import VESSELS
from words_held import AGAINST, SOUND
from words_held_too import AGAINST_TOO, SOUND_TOO
from words_honest import HONEST

from generator.survey.registry import Sight, all_checks
from generator.vessel.loading import load

DAY = date(2026, 6, 1)
READ = tuple(
    one
    for one in all_checks().values()
    if one.id.startswith("words.")
    or one.id in ("bill.alarm-unsounded", "voyage.alarm-day", "medical.two-places")
)
UNREAD = {"Use the fire hose immediately."}
"""What is no gear of the shelf, and so is not looked for."""


@pytest.fixture(scope="module")
def boats():
    return {path.parent.name: load(path.parent, "")[0] for path in VESSELS.glob("*/vessel.yaml")}


def put(boats, row):
    """Where the words of a row go: the block and the name of the value; notes and deferrals are laid beside those there are."""
    boat, path, key, words = row
    vessel = boats[boat]
    if path in ("notes", "deferred"):
        several, like = (
            ("notes", boats["nordgyllen"].notes[0])
            if path == "notes"
            else (
                "deferred_defects",
                boats["tresmare"].deferred_defects[0],
            )
        )
        one = copy.copy(like)
        one.__dict__ = {
            **like.__dict__,
            **({"beside": key, "text": words} if path == "notes" else {key: words}),
        }
        return vessel, several, [*getattr(vessel, several), one]
    apart = {
        "base": vessel.charter_base,
        "voyage": vessel.voyage,
        "medical": vessel.medical,
        "tender": vessel.tender,
    }
    block = apart.get(path) or next(each for each in vessel.inner() if each.path == path)
    return block, key, words


def without(boats, boat, read=READ, kept={}):  # noqa: B006
    """What they say of a specimen as she is."""
    if (boat, read) not in kept:
        sight = Sight(boats[boat], DAY, DAY)
        kept[boat, read] = {(one.id, each.message) for one in read for each in one.find(sight)}
    return kept[boat, read]


def told(boats, row, read=READ):
    """What the checks that read words say with the words of a row and not without, each by its check."""
    vessel = boats[row[0]]
    before = without(boats, row[0], read)
    block, name, value = put(boats, row)
    kept = dict(block.__dict__)
    block.__dict__[name] = value
    try:
        sight = Sight(vessel, DAY, DAY)
        found = [(one.id, each) for one in read for each in one.find(sight)]
    finally:
        block.__dict__.clear()
        block.__dict__.update(kept)
    return [(check, each) for check, each in found if (check, each.message) not in before]


@pytest.mark.thorough
def test_no_sound_wording_is_told(boats):
    rows = (*SOUND, *SOUND_TOO, *HONEST)
    assert len(rows) > 150
    assert [(row, check) for row in rows for check, _ in told(boats, row)] == []


@pytest.mark.thorough
def test_each_contradiction_is_told(boats):
    rows = (*AGAINST, *AGAINST_TOO)
    assert len(rows) > 140
    assert {row[3] for row in rows if not told(boats, row)} == UNREAD


@pytest.mark.parametrize("row", AGAINST[:10], ids=lambda row: row[3])
def test_a_contradiction_is_told_once_and_at_its_key(boats, row):
    ((_, found),) = told(boats, row)
    assert found.place.key == f"{row[1]}.{row[2].replace('_', '-')}"
