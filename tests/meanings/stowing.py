"""Where things of each kind may lie: in which sorts of spaces a thing is as well placed as in any other of them."""

from __future__ import annotations

import re

from generator.manual.drawing.spaces import Space

ROOM, OPEN, LOCKER, EXPOSED, SHUT, ALOFT = "room", "open deck", "deck locker", "exposed", "shut in", "aloft"
_SHUT = re.compile(
    r"engine|bilge|gas locker|chain|anchor locker|tank|float|steering space|centreboard|\bhull\b(?<!port hull)(?<!starboard hull)"
)
_ALOFT = re.compile(r"\bmast\b|trampoline|\bnet\b|roof|coachroof|gunwale|upper deck|flybridge|sprayhood")


def sort_of(space: Space) -> str:
    """The sort of a space: a room, the open deck, a locker on deck, one where seas break, one nobody goes into, one nobody stands on."""
    name = space.name.lower()
    if space.engine or _SHUT.search(name):
        return SHUT
    if _ALOFT.search(name):
        return ALOFT
    if space.exposed or "foredeck" in name:
        return EXPOSED
    if space.level == "below" or name == "wheelhouse":
        return ROOM
    return LOCKER if re.search(r"locker|lazarette|recess", name) else OPEN


# What must lie where, by the name of a thing, its path or its kind; the first pattern that fits counts.
WHERE: tuple[tuple[str, str, tuple[str, ...]], ...] = (
    ("gear", r"lifebuoy|danbuoy|throwing line|rescue sling", (OPEN,)),
    ("gear", r"foghorn|whistle|bell|horn", (OPEN, ROOM)),
    ("gear", r"automatic extinguisher|fixed extinguisher", ()),
    ("gear", r"extinguisher|fire blanket|\baxe\b|fire pump", (ROOM, OPEN, LOCKER)),
    ("gear", r"alarm|detector", (ROOM,)),
    ("gear", r"jackstays", ()),
    ("gear", r"buoyancy", ()),
    ("gear", r"oars|paddle|bucket|bailer|anchor|boathook", (OPEN, LOCKER, EXPOSED)),
    ("gear", r"emergency tiller|steering|drogue|bolt cutters|storm", (LOCKER, OPEN, ROOM)),
    ("gear", r"flares|smoke|light", (ROOM, LOCKER)),
    ("gear", r"tethers|suits", (ROOM,)),
    ("gear", r"", (ROOM, LOCKER)),
    ("lifejackets", r"", (ROOM, LOCKER)),
    ("radio.sets", r"handheld|satellite", (ROOM, OPEN)),
    ("radio.sets", r"", (ROOM,)),
    ("radio.beacons", r"", (ROOM, OPEN)),
    ("batteries", r"", (ROOM, LOCKER, SHUT)),
    ("grab-bags", r"", (ROOM, OPEN)),
    ("medical", r"", (ROOM,)),
    ("people", r"", (ROOM,)),
    ("tender", r"", (OPEN, EXPOSED, LOCKER)),
    ("vessel.muster-place", r"", (OPEN,)),
    ("recovery", r"", (OPEN,)),
    ("alarms.where", r"", (ROOM,)),
    ("alarms.sounds-in", r"", (ROOM, OPEN)),
)


def sorts_for(path: str, name: str) -> tuple[str, ...] | None:
    """The sorts of spaces in which a thing of that path and name serves; None where its place depends on more than the sort."""
    for at, pattern, sorts in WHERE:
        if path.startswith(at) and re.search(pattern, name.lower()):
            return sorts or None
    return None
