"""What cannot be, by the answers so far: it is not asked, and has no line in the starter file."""

from __future__ import annotations

import re
from collections.abc import Mapping

from generator.commissioning.answers import NONE, UNKNOWN
from generator.commissioning.names import BEACON, FIXED, HANDHELD, HELD_BY, RAFT, RELEASE
from generator.commissioning.places import type_in
from generator.shelves.spaces import hull
from generator.shelves.stowages import hydrostatic, stowages
from generator.vessel.particulars import INBOARD

MAY_BE_NONE = {
    f"{RAFT}.stowage": RAFT,
    f"{FIXED}.where": FIXED,
    f"{HANDHELD}.where": HANDHELD,
    f"{BEACON}.where": BEACON,
}
"""Where the answer "none" leaves the whole block out."""
LEFT_OUT = ("radio.call-sign", "radio.mmsi", HELD_BY)
"""Where it leaves out the key alone."""
_IDENTITY = ("radio.call-sign", "radio.mmsi")

Answers = Mapping[str, str]


def takes_none(key: str) -> bool:
    """Whether "none" is an answer that no field reads: she has not got it."""
    return key in LEFT_OUT or key in MAY_BE_NONE or key.removesuffix("side") + "where" in MAY_BE_NONE


def says_none(key: str, answers: Answers) -> bool:
    """Whether an answer is that she has none."""
    return answers.get(key, "").strip().lower() == NONE


def moot(key: str, answers: Answers) -> bool:
    """Whether the answers so far leave nothing to ask at a key."""
    if key == "vessel.rig":
        return without_rig(answers)
    if key in _IDENTITY:
        return not has_radio(answers)
    for asked, block in MAY_BE_NONE.items():
        if key.startswith(f"{block}.") and key != asked and says_none(asked, answers):
            return True
    if key.startswith(f"{HANDHELD}."):
        return not says_none(f"{FIXED}.where", answers)
    kept = stowages().get(answers.get(f"{RAFT}.stowage", ""))
    if key == f"{RAFT}.container":
        return kept is not None and len(kept.container) == 1
    return key.startswith(f"{RELEASE}.") and not may_let_go_by_itself(answers)


def has_radio(answers: Answers) -> bool:
    """Whether she may have a radio: not both of the sets that are asked for are none."""
    return not (says_none(f"{FIXED}.where", answers) and says_none(f"{HANDHELD}.where", answers))


def without_rig(answers: Answers) -> bool:
    """Whether boats of her type are driven by their engine alone."""
    return hull(type_in(answers)).motor is True


def has_rig(answers: Answers) -> bool:
    """Whether her file asks for her rig: boats of her type have one, and nobody says that an open boat has an engine and no more."""
    kind = hull(type_in(answers))
    engine = answers.get("vessel.engine", UNKNOWN).strip().lower()
    return kind.motor is not True and (kind.closed_in or engine in (UNKNOWN, NONE))


def inboard(answers: Answers) -> bool:
    """Whether her engine may stand inside her, with fuel and cooling water led through the hull."""
    return answers.get("vessel.engine", UNKNOWN) in (UNKNOWN, *INBOARD)


def driven(answers: Answers) -> bool:
    """Whether she may have an engine at all."""
    return not says_none("vessel.engine", answers)


def may_let_go_by_itself(answers: Answers) -> bool:
    """Whether what holds the raft may let go under water: it does, or nobody has said yet what holds it."""
    held = answers.get(HELD_BY, UNKNOWN).strip() or UNKNOWN
    if held.lower() != UNKNOWN:
        return lets_go_by_itself(held)
    kept = stowages().get(answers.get(f"{RAFT}.stowage", ""))
    return kept is None or any(name in kept.held_by for name in hydrostatic())


def lets_go_by_itself(held: str) -> bool:
    """Whether an answer names a hold that lets go under water."""
    return any(re.search(rf"\b{re.escape(name)}\b", held, re.IGNORECASE) for name in hydrostatic())
