"""Words of the trade in the questions of a vessel's file, each told in a line for whoever never heard it."""

import re
from collections.abc import Iterable

_TOLD = """
abandon: to leave the boat for the raft, on the order of whoever commands
AGM: a sealed lead-acid battery whose acid is held in glass mat
AIS: automatic identification system: sends a vessel's, or a person's, place to the plotters of ships near
beacon: a device that, switched on, tells rescuers that and where somebody is in distress
beam: her greatest width
bilge: the lowest part inside the hull, where water gathers
canister: a hard container for a raft, for stowing on deck
canopy: the roof of a raft
cradle: the frame on deck that a raft lies in
crotch strap: the strap between the legs that keeps a lifejacket from riding up
draft: how deep she goes below the water
drogue: a small sea anchor that slows a raft and keeps it upright
DSC: digital selective calling: a distress call at the press of a button, heard by every set in range
EPIRB: emergency position-indicating radio beacon: tells satellites that this boat is in distress
freeboard: how high the deck edge is above the water
GNSS: global navigation satellite system: the receiver that knows the position
grab bag: the bag that goes into the raft: what its pack has not
HRU: hydrostatic release unit: cuts or opens the raft's lashing by itself when some metres under water
ISO: the International Organization for Standardization: here its standards for small craft
JPEG: a form of picture file, as cameras write it
kill cord: the cord from the helmsman to the engine's switch: pulled out, the engine stops
knife: the raft's own or one beside it, that cuts the painter; kept where a hand finds it in the dark
MF/HF: medium and high frequency: radio that reaches beyond the horizon
MMSI: maritime mobile service identity: the nine digits by which a radio set calls and is called
muster: to gather and count everybody
pack: what lies inside a raft from the factory or the service station: water, flares and so on
painter: the line between raft and boat; a hard pull on its last part inflates the raft
PLB: personal locator beacon: as an EPIRB, worn by one person
PNG: a form of picture file, as drawing programs write it
pushpit: the rail around the stern
righting: turning over a raft that has inflated upside down
SART: search and rescue transponder: shows on ships' radar, or AIS, where a raft is
seacock: the valve that closes a hole in the hull
Senhouse slip: a hinged hook with a ring over it: the ring knocked back, it lets go under load
SOLAS: the international Convention for the Safety of Life at Sea, and the packs named by it
station bill: the list of who does what in each emergency
strong point: the fitting on the hull that the painter's end is made fast to
TAC: type approval certificate: the number by which a beacon's model is known
transom: the flat after end of the hull
valise: a soft bag for a raft, for stowing in a locker
VHF: very high frequency: radio to about the horizon, with channel 16 for distress
weak link: the part that breaks after a raft has inflated, so that a sinking boat does not drag it down
"""
TERMS = dict(line.split(": ", 1) for line in _TOLD.strip().splitlines())
"""What each means, in the sense that a file uses it in."""


def used_in(words: Iterable[str]) -> dict[str, str]:
    """The terms that occur in any of these texts, in the order of the alphabet; a plural's s, hyphens and capitals do not matter."""
    text = " ".join(words).replace("-", " ").lower()
    return {
        term: meaning
        for term, meaning in TERMS.items()
        if re.search(rf"\b{re.escape(term.lower())}s?\b", text)
    }
