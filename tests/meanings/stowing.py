"""Where things of each kind may lie: in which sorts of spaces a thing is as well placed as in any other of them."""

from __future__ import annotations

import re

from generator.manual.drawing.spaces import Space

ROOM, OPEN, LOCKER, EXPOSED, SHUT, ALOFT, LOW = (
    "room",
    "open deck",
    "deck locker",
    "exposed",
    "shut in",
    "aloft",
    "engine space or bilge",
)
ANCHOR = "anchor locker"
_SHUT = re.compile(r"gas locker|tank|steering space|centreboard")
_ANCHOR = re.compile(r"chain|anchor locker")
_LOW = re.compile(r"engine|bilge")
_ALOFT = re.compile(r"\bmast\b|trampoline|\bnet\b|roof|coachroof|gunwale|upper deck|flybridge|sprayhood")
ANYWHERE = (ROOM, OPEN, LOCKER, EXPOSED, ALOFT, LOW)
DRY = (ROOM, LOCKER)
ON_DECK = (OPEN, LOCKER, ALOFT)


def sort_of(space: Space) -> str:
    """The sort of a space: a room, the open deck, a locker on deck, one where seas break, one nobody opens at sea, one nobody stands on."""
    name = space.name.lower()
    if space.engine or _LOW.search(name):
        return LOW
    if _ANCHOR.search(name):
        return ANCHOR
    if _SHUT.search(name):
        return SHUT
    if space.stows and space.level != "below":
        return LOCKER
    if _ALOFT.search(name):
        return ALOFT
    if space.exposed or "foredeck" in name:
        return EXPOSED
    if space.level == "below" or space.inside:
        return ROOM
    return LOCKER if re.search(r"locker|lazarette", name) else OPEN


# In which sorts a thing serves, by its path, its name and its kind; the first pattern that fits counts. Where more than the sort counts, as
# how far from the raft or the helm it is, the survey tells what is too far, and the sorts are those of the rest.
WHERE: tuple[tuple[str, str, tuple[str, ...]], ...] = (
    ("gear.released-from", r"", (ROOM, OPEN)),
    # A second lifebuoy may hang forward; the sling is wanted minutes later, when somebody is alongside.
    ("gear", r"lifebuoy|danbuoy", (*ON_DECK, EXPOSED)),
    ("gear", r"rescue sling", (*ON_DECK, ROOM)),
    ("gear", r"throwing line", ON_DECK),
    ("gear", r"\bat the bow\b", (EXPOSED, ANCHOR)),
    ("gear", r"\banchor|drogue|storm|\bice ", (*ANYWHERE, ANCHOR)),
    ("gear", r"\bbell\b", (OPEN, EXPOSED, ROOM, ALOFT)),
    ("gear", r"foghorn|whistle|horn", (OPEN, ROOM, LOCKER, ALOFT)),
    ("gear", r"automatic extinguisher", (LOW,)),
    ("gear", r"fixed extinguisher", (ROOM, LOCKER, LOW)),
    ("gear", r"extinguisher|fire blanket|\baxe\b|fire pump", (ROOM, OPEN, LOCKER)),
    ("gear", r"smoke alarm", (ROOM, LOW)),
    ("gear", r"alarm|detector", (ROOM,)),
    ("gear", r"jackstays", (OPEN, EXPOSED, ALOFT)),
    ("gear", r"buoyancy", (SHUT, LOCKER, ROOM)),
    (
        "gear",
        r"oars|paddle|bucket|bailer|anchor|boathook|ice |timber|drogue|bolt cutters|storm|plugs|sling|knife",
        ANYWHERE,
    ),
    ("gear", r"steering compass", (OPEN, ROOM)),
    ("gear", r"emergency tiller", (*ON_DECK, ROOM)),
    ("gear", r"searchlight", (OPEN, ROOM, LOCKER, ALOFT)),
    ("gear", r"tethers|compass|torch|floating line", (OPEN, ROOM, LOCKER, LOW)),
    ("gear", r"", DRY),
    ("lifejackets", r"", DRY),
    ("radio.sets", r"handheld|satellite", (ROOM, OPEN, LOCKER)),
    ("radio.sets", r"", (ROOM, OPEN)),
    ("radio.beacons", r"", (ROOM, OPEN, LOCKER, ALOFT)),
    ("batteries", r"", (ROOM, LOCKER, LOW)),
    ("grab-bags", r"", (ROOM, OPEN, LOCKER)),
    ("medical.key", r"", DRY),
    ("medical", r"", (ROOM,)),
    ("people", r"", (ROOM,)),
    ("tender", r"", (OPEN, EXPOSED, LOCKER, ROOM, ALOFT)),
    ("vessel.tow-point", r"", (OPEN, EXPOSED, ANCHOR)),
    ("vessel.muster-place", r"", (OPEN, ALOFT)),
    ("vessel.helm", r"", (OPEN, ROOM)),
    ("vessel.fire-port", r"", (ROOM, OPEN, LOCKER)),
    ("recovery.place", r"", (OPEN,)),
    ("recovery.gate", r"", (OPEN, EXPOSED)),
    ("recovery", r"", ON_DECK),
    ("alarms.where", r"^smoke|^co\b", (ROOM, LOW)),
    ("alarms.where", r"", (ROOM, LOW, LOCKER)),
    ("alarms.watches", r"", (ROOM, LOW, LOCKER)),
    ("alarms.sounds-in", r"", (ROOM, OPEN, LOCKER)),
    ("stops.spare", r"", (ROOM, OPEN, LOCKER)),
    ("stops", r"^ventilation", (ROOM, OPEN, LOCKER, LOW, ALOFT)),
    ("stops", r"^batteries", DRY),
    ("stops", r"^fuel", (ROOM, OPEN, LOCKER, LOW)),
    ("stops", r"^engine|^kill cord|^gas", (ROOM, OPEN, LOCKER)),
    ("pumps.handle", r"", (ROOM, OPEN, LOCKER, LOW)),
    ("pumps", r"", (ROOM, OPEN, LOCKER, LOW)),
    # Under the cockpit's sole is the hull, and into the cockpit its own drain opens; of open deck elsewhere the survey tells.
    ("through-hulls", r"sounder|cockpit drain", (ROOM, LOCKER, LOW, OPEN)),
    ("through-hulls", r"", (ROOM, LOCKER, LOW)),
    ("escape", r"", (ROOM, LOW)),
    ("engines", r"", (LOW, LOCKER)),
    ("steering.fits", r"", (OPEN, LOCKER, ROOM)),
    ("steering", r"", (OPEN, LOCKER, ROOM)),
    ("gas.bottles", r"", (OPEN, ALOFT, LOCKER)),
    ("rafts.knife", r"", (OPEN, LOCKER, ALOFT)),
    ("rafts.strong-point", r"", (OPEN, ALOFT)),
    ("rafts.launch-from", r"", (OPEN, LOCKER, ALOFT)),
    ("rafts.board-from", r"", (OPEN, LOCKER)),
    ("capsize.buoyancy", r"", (SHUT, LOCKER, ROOM)),
    ("capsize.reached", r"", (OPEN, LOCKER, EXPOSED)),
    ("capsize.hold-on", r"", (OPEN, EXPOSED)),
)
# In an open boat nothing is inside: what is dry in a bag or box lies on the bottom boards as well as in a locker.
IN_OPEN_BOATS = (OPEN, LOCKER, EXPOSED)


def sorts_for(path: str, name: str, *, open_boat: bool = False) -> tuple[str, ...]:
    """The sorts of spaces in which a thing of that path and name serves; () where it is placed by more than that."""
    for at, pattern, sorts in WHERE:
        if path.startswith(at) and re.search(pattern, name.lower()):
            return (*sorts, *IN_OPEN_BOATS) if open_boat and LOCKER in sorts else sorts
    return ()
