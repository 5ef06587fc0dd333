"""What a starter file calls the things of which every file has one, until somebody names them otherwise."""

RAFT = "rafts[liferaft]"
FIXED = "radio.sets[fixed VHF]"
HANDHELD = "radio.sets[handheld VHF]"
BEACON = "radio.beacons[EPIRB]"
JACKETS = "lifejackets[adult]"
RELEASE = f"{RAFT}.release"
HELD_BY = f"{RAFT}.held-by"
KINDS = {"fixed VHF": "VHF", "handheld VHF": "handheld VHF", "EPIRB": "EPIRB"}
"""Of which kind they are, as their key `kind` says it."""
