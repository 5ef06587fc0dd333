"""A role of several persons loses one and still does its duty; what is said of several is said of several."""

import pytest
from open_boats import OPEN_BOAT, changed, surveyed

TEN = (
    ("persons: 4", "persons: 12"),
    ("  - {role: guest 1}\n  - {role: guest 2}\n", "  - {role: guests, quantity: 10}\n"),
    (
        "quantity: 4, where: foredeck locker, side: centre",
        "quantity: 12, where: foredeck locker, side: centre",
    ),
)


def bill_of(tmp_path, *pairs):
    """What the checks of the bill say of the open boat with ten guests in one line."""
    text = changed(OPEN_BOAT, *TEN)
    text = text.replace("guest 1", "guests").replace("guest 2", "guests")
    return {
        each.check: each.message
        for each in surveyed(changed(text, *pairs), tmp_path).findings
        if each.check.startswith("bill.")
    }


def test_of_ten_guests_nine_are_left(tmp_path):
    found = bill_of(tmp_path)  # throw, look out and pump: guests, substitute: guests
    assert "bill.one-lost" not in found
    assert "bill.no-substitute" not in found


@pytest.mark.parametrize(("number", "lost"), [(1, True), (2, False)])
def test_of_one_alone_nobody_is_left(tmp_path, number, lost):
    found = bill_of(tmp_path, ("{role: guests, quantity: 10}", f"{{role: guests, quantity: {number}}}"))
    assert ("bill.one-lost" in found) is lost


def test_children_are_several(tmp_path):
    found = bill_of(
        tmp_path,
        ("{role: guests, quantity: 10}", "{role: guests, quantity: 7}\n  - {role: children, age: [4, 7, 12], lifejacket: [infant, child, child], helper: guests}"),
        ("fight: {who: mate, substitute: skipper}", "fight: {who: children, substitute: skipper}"),
    )  # fmt: skip
    assert found["bill.unfit"].startswith("the children are as young as 4 and have: fire, fight")
