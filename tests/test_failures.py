"""Every published failure has a check that there is, or a reason that holds."""

import re
from pathlib import Path

import pytest
from evidence.lists import failures

ROOT = Path(__file__).parent.parent
# How many failures each researched list has; a row that is dropped is a row forgotten.
ROWS = {
    "the raft, its mount and its release": 53,
    "the station bill, cards and manual": 65,
    "gear, dates and what must be aboard": 68,
    "radio identities and beacons": 42,
    "anchor, steering and tow": 12,
}
ALL = [(subject, number, row) for subject, rows in failures().items() for number, row in enumerate(rows, 1)]


def test_no_row_is_forgotten_and_none_stands_twice():
    assert {subject: len(rows) for subject, rows in failures().items()} == ROWS
    for rows in failures().values():
        assert len({row.failure for row in rows}) == len(rows)


@pytest.mark.parametrize(("subject", "number", "row"), ALL, ids=lambda value: str(value)[:20])
def test_each_failure_has_its_checks_or_a_reason(subject, number, row):
    assert row.checks or len(str(row.reason)) > 20
    for path in re.findall(r"tests/[a-z_/]+\.py", str(row.reason or "")):
        assert (ROOT / path).is_file(), path


def test_most_failures_are_looked_for_and_not_explained_away():
    looked_for = sum(bool(row.checks) for _, _, row in ALL)
    assert looked_for / len(ALL) > 0.85
