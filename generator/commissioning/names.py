"""What a starter file calls the things of which every file has one, until somebody names them otherwise."""

import re

RAFT = "rafts[liferaft]"
FIXED = "radio.sets[fixed VHF]"
HANDHELD = "radio.sets[handheld VHF]"
BEACON = "radio.beacons[EPIRB]"
JACKETS = "lifejackets[adult]"
RELEASE = f"{RAFT}.release"
HELD_BY = f"{RAFT}.held-by"
KINDS = {"fixed VHF": "VHF", "handheld VHF": "handheld VHF", "EPIRB": "EPIRB"}
"""Of which kind they are, as their key `kind` says it."""

_SAID = tuple(
    (re.compile(rf"\b(?:{words})\b", re.IGNORECASE), kind)
    for words, kind in (
        ("EPIRB", "EPIRB"),
        ("PLB|personal locator beacon", "PLB"),
        ("AIS|man[ -]overboard|MOB", "AIS man-overboard device"),
        ("SART|radar transponder", "SART"),
        ("sat(?:ellite)?[ -]?(?:tele)?phone", "satellite telephone"),
        ("MF/HF|SSB|short[ -]?wave", "MF/HF"),
        ("hand-?held|portable", "handheld VHF"),
        ("VHF", "VHF"),
    )
)


def kind_of(name: str) -> str:
    """The kind of set or beacon that a name says: EPIRB, masthead VHF; "" where it says none."""
    return next((kind for words, kind in _SAID if words.search(name)), "")
