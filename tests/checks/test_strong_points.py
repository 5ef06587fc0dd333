"""A strong point: a rail is none, and an eye or a bolt at the foot of one is."""

import pytest
from boat_file import changed
from open_boats import surveyed
from specimens import VESSELS


@pytest.mark.parametrize(
    ("what", "rail"),
    [
        ("the ring bolt at the foot of the after rail", False),
        ("the padeye below the guardrail", False),
        ("the through-bolted eye of the rail foot", False),
        ("the stanchion-side cleat", False),
        ("the U-bolt beside the pushpit", False),
        ("the after rail", True),
        ("the starboard guardrail", True),
        ("the stanchion by the gate", True),
        ("the shackle on the pushpit", True),
        ("a loop round the lower guardwire", True),
    ],
)
def test_a_rail_is_no_strong_point_and_what_stands_below_one_is(tmp_path, what, rail):
    text = (VESSELS / "saltmeadow" / "vessel.yaml").read_text(encoding="utf-8")
    other = changed("strong-point: {what: the U-bolt", f"strong-point: {{what: {what}", text)
    found = surveyed(other, tmp_path).findings
    assert any(each.check == "raft.strong-point-rail" for each in found) == rail
