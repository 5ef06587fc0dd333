"""What words have lying on, over or across another thing, or locked: read from spots, names and notes, for the checks of rafts, ways out and hoists."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from generator.manual.own_words import told_in
from generator.manual.sieves import sieve
from generator.reading.nearest import folded
from generator.survey.placing import lies, lies_at
from generator.survey.sight import once
from generator.vessel.gear import Gear, Tender
from generator.vessel.installed import Battery
from generator.vessel.particulars import Note
from generator.vessel.raft import Raft

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.manual.own_words import OwnWords
    from generator.reading.block import Block
    from generator.survey.sight import Sight
    from generator.vessel.deck import Hatch

_LAID = (
    r"(?:lashed|strapped|stowed|stacked|tied|secured|chained|piled|heaped|laid|lies|lying|rests?|resting|sits|stands?|carried|kept|made fast|clamped|bolted|"
    r"bottom up|upside[- ]down|keel up|face down|right way up|inverted|folded|rolled|flaked|on (?:its |her )?(?:edge|side|end))"
)
_DET = r"(?:(?:the|our|its|her|both|each|a) )?"
_WORDS = r"(?:[a-z'’-]+ ){0,3}?"
_ON = r"(?:(?P<over>over|across|above)|(?P<on>on top of|atop|on to|onto|on the (?:lid|cover|hatch|door) (?:of|over)|(?<=lashed )to|(?<=strapped )to|(?<=chained )to|over the (?:lid|cover|hatch|door|mouth) of|on)|(?P<before>in front of|before|against|blocking))"
_RAFT = r"(?:life ?-?raft|raft|canister|cradle)(?:['’]?s)?(?: (?:canister|container|cradle|bracket|locker|recess|lid|slot))?"
_WAY = r"(?:fore ?-?hatch|hatch|hatchway|skylight|companionway|way out|escape(?: hatch)?|wash ?boards?|door)"
_TAIL = r"(?: (?:of|to|in|over|above|from) (?:the |our )?(?P<of>[a-z][a-z -]*[a-z]))?"
_GATE = r"(?:gate|gateway|gangway opening|opening (?:in|of) the (?:rail|bulwark|guardrail)s?|ladder|boarding place)"
_BEACON = r"(?:epirb|(?:distress |float[- ]free )?beacon)(?:['’]?s)?(?: (?:bracket|housing|box|canister))?"
_LIES_ON = {
    "gate": re.compile(rf"(?:(?P<laid>{_LAID})[\w ]{{0,12}}?\b)?\b(?:{_ON} {_DET}(?P<target>{_WORDS}{_GATE})|(?P<across>across|athwart) {_DET}(?P<floor>{_WORDS}platform))(?=$|[,.;:)]| (?!winch|locker|pin|latch)[a-z]+)"),
    "beacon": re.compile(rf"(?:(?P<laid>{_LAID})[\w ]{{0,12}}?\b)?\b{_ON} {_DET}(?P<target>{_WORDS}{_BEACON})(?=$|[,.;:)]| [a-z]+)"),
    "raft": re.compile(rf"(?:(?P<laid>{_LAID})[\w ]{{0,12}}?\b)?\b{_ON} {_DET}(?:(?:port|starboard|forward|after|first|second|big|small|coachroof|pushpit|deck) )*(?P<target>{_RAFT})(?=$|[,.;:)]| (?!knife|painter|drill|card)[a-z]+)"),
    "way": re.compile(rf"(?:(?P<laid>{_LAID})[\w ]{{0,12}}?\b)?\b{_ON} {_DET}(?P<target>{_WORDS}{_WAY}){_TAIL}"),
}  # fmt: skip
_BARRED = re.compile(
    r"\b(?:raft|liferaft|canister|cradle|hatch|forehatch|hatchway|skylight|companionway|way out|escape|washboards?|door|gate|gateway|opening|ladder|"
    r"boarding place|platform|epirb|beacon)\b"
)
_HANGS = re.compile(r"\b(?:hangs?|hanging|hung|slung|swung|hoisted)\b")
_LIGHT = re.compile(
    r"\b(?:lights?|lamps?|torch(?:es)?|kni(?:fe|ves)|alarms?|detectors?|labels?|cards?|signs?|whistles?|bell|compass|mirror|painter|lanyard|"
    r"slip|instructions?|aerial|antenna|camera|buoys?|lifebuoy|horseshoe|epirb|beacon|name|steps?|ladder|cord|key|handle)\b",
    re.IGNORECASE,
)
"""What hangs on or over a raft or a hatch and bars nothing."""
_HEAVY = re.compile(
    r"\b(?:cans?|jerry ?cans?|drums?|barrels?|containers?|sails?|genoa|jib|spinnaker|gennaker|trysail|kayaks?|canoe|paddle ?boards?|surf ?boards?|bicycles?|"
    r"batter(?:y|ies)|(?:battery|house|start|engine|domestic|service|bow) ?banks?|tool ?box(?:es)?|tool chest|suitcases?|luggage|generator|washing machine|"
    r"gangway|passerelle|anchor|kedge|warps?|fenders?|crates?|outboard|sail ?bags?|dinghy|tender)\b",
    re.IGNORECASE,
)
"""What nobody pushes up with a hatch from below."""
_UPRIGHT = re.compile(r"\b(?:companionway|wash ?boards?|door|way out|escape)\b")
"""A way out that one walks or climbs through, so that what stands before it bars it."""
_IS = re.compile(
    r"\b(?:is|are|lies?|stands?|hangs?|stays?|sits?|rests?|goes|gets|belongs?|lash|stow|strap|stack|tie|keep|carry|put|lay)\b"
)
_LOCKS = re.compile(
    r"\b(?:the|our|her|each|both|all|every) (?P<what>[a-z][a-z' -]{2,40}?) (?:(?:is|are|stays?|remains?|gets?|must be|has to be|have to be|will be)"
    r"(?: (?:always|usually|kept|also|both|then|shut and|closed and))*|kept|stays?) (?:locked|padlocked|chained|under lock|screwed (?:shut|down|tight|up)|nailed (?:shut|up)|bolted from outside)(?! (?:open|in place|off|on(?! (?:passage|deck|watch))|back|up with it)\b)"
    r"|\b(?:keep|keeps|leave|have) (?:the|our|her|both|all|every) (?P<kept>[a-z][a-z' -]{2,40}?) (?:locked|padlocked|chained)(?! (?:open|in place|off|on(?! (?:passage|deck|watch))|back)\b)"
    r"|^\W*(?:please |always |we )?(?:pad)?lock (?:the|our|her|both|all|every) (?P<locked>[a-z][a-z' -]{2,40}?)(?=$|[,.;:)]| (?:at|with|by|before|after|every|and|from|in|as)\b)"
)
_LOCK = re.compile(r"lock(?:ed)?\b|chained|screwed|nailed|bolted")
_IN_HARBOUR = re.compile(
    r"\b(?:harbours?|harbors?|in port|marinas?|alongside|ashore|moored|moorings?|quay|pontoon|winter|laid up|yard|nobody is aboard|unattended|from (?:the )?inside|inside|unlocked|never)\b"
)


class Burden(NamedTuple):
    """Something that lies where another thing must come out: whose words say so, the words that name the target, whether it only hangs over it."""

    said: OwnWords
    target: str
    of: str
    hangs: bool


@once
def on_rafts(sight: Sight) -> tuple[Burden, ...]:
    """What words have lying on, over or before a raft; nothing of the raft itself."""
    return tuple(each for each in _burdens(sight, "raft") if not _of_raft(sight, each.said.block))


@once
def on_gates(sight: Sight) -> tuple[Burden, ...]:
    """What words have lying across the gate, the ladder or the platform by which people come aboard."""
    return tuple(each for each in _burdens(sight, "gate") if not each.hangs)


@once
def on_beacons(sight: Sight) -> tuple[Burden, ...]:
    """What words have lying on, over or before a beacon."""
    return tuple(_burdens(sight, "beacon"))


def _of_raft(sight: Sight, block: Block) -> bool:
    return any(block is raft or block.path.startswith(f"{raft.path}.") for raft in sight.vessel.rafts)


@once
def on_ways(sight: Sight) -> tuple[tuple[Burden, Hatch], ...]:
    """What words have lying on, over or before a way out, with the way that is meant."""
    if not sight.vessel.escape:
        return ()
    found = ((each, _way_meant(sight, each)) for each in _burdens(sight, "way"))
    return tuple((each, hatch) for each, hatch in found if hatch is not None)


@sieve
def _may_bar(text: str) -> bool:
    return _BARRED.search(text.lower()) is not None


@sieve
def _may_lock(text: str) -> bool:
    return _LOCK.search(text.lower()) is not None


@once
def _of_what_may_bar(sight: Sight) -> tuple[OwnWords, ...]:
    """What notes, and the entries of what is stowed about the decks, say of a raft, a way out, a gate or a beacon."""
    return tuple(
        said
        for said in sight.words_through(_may_bar)
        if isinstance(said.block, Note)
        or (isinstance(said.block, (Gear, Tender, Raft, Battery)) and said.of_itself)
    )


def _burdens(sight: Sight, on: str) -> Iterator[Burden]:
    for said in _of_what_may_bar(sight):
        block = said.block
        note = isinstance(block, Note)
        name = str(block.__dict__.get(type(block).called or "what") or "")
        bulky = isinstance(block, (Tender, Raft))
        for sentence in told_in(said.text):
            found = _read(sentence, on, note=note)
            if found is None or _LIGHT.search(sentence[: sentence.find(found[0])] if note else name):
                continue
            target, of, how, laid = found
            heavy = on == "way" and (isinstance(block, Battery) or _HEAVY.search(name) is not None)
            if (how == "on" and not (laid or heavy or isinstance(block, Tender))) or not (
                bulky or laid or note or heavy
            ):
                continue
            if how == "before" and not (
                isinstance(block, Tender) or laid or (heavy and _UPRIGHT.search(target))
            ):
                continue
            yield Burden(said, target, of, bool(_HANGS.search(sentence)) or how == "above")
            break


@lru_cache(maxsize=8192)
def _read(sentence: str, on: str, *, note: bool) -> tuple[str, str, str, bool] | None:
    """Target, what it belongs to, how it lies there, and whether a word says that it was laid there; None where the words say nothing of the kind."""
    if _IN_HARBOUR.search(sentence) or (note and not _IS.search(sentence)):
        return None
    found = _LIES_ON[on].search(sentence)
    if found is None:
        return None
    parts = found.groupdict()
    if parts.get("across"):
        return parts["floor"], "", "over", bool(parts["laid"])
    how = next(key for key in ("over", "on", "before") if parts[key])
    if how == "over" and parts["over"] == "above":
        how = "above"
    laid = bool(parts["laid"]) or "on top" in (parts["on"] or "")
    if note and not laid:
        return None
    return parts["target"], parts.get("of") or "", how, laid


def _way_meant(sight: Sight, burden: Burden) -> Hatch | None:
    """The way out that words mean: by the name of its space, by forward or after, or as the only one at the place of what lies there."""
    ways = [(hatch, at) for hatch in sight.vessel.escape if (at := lies_at(sight, hatch.where)) is not None]
    words = f"{burden.target} {burden.of}".strip()
    for hatch, way in ways:
        names = (way.space.name, *way.space.also)
        if any(re.search(rf"\b{re.escape(name.lower())}\b", words) for name in names):
            side = next((each for each in ("port", "starboard") if each in words.split()), "")
            if not side or not way.side or side == way.side:
                return hatch
    if any(re.search(rf"\b{re.escape(folded(space.name))}\b", words) for space in sight.spaces.values()):
        return None  # the hatch of a space that has no way out
    if burden.of or not _PLAIN.issuperset(re.findall(r"[a-z]+", words)):
        return None
    deck = sorted((each for each in ways if not each[1].space.unlike), key=lambda each: each[1].space.aft_m)
    if re.search(r"\b(?:fore|forward|foredeck|bow)\b|forehatch", words):
        return deck[-1][0] if len(deck) > 1 else None
    if re.search(r"\b(?:aft|after|stern)\b", words):
        return deck[0][0] if len(deck) > 1 else None
    here = lies(sight, burden.said.block)
    if "companionway" in words or here is None:
        return None
    under = [hatch for hatch, way in ways if way.apart_m(here) <= 0]
    return under[0] if len(under) == 1 else None


_PLAIN = frozenset(
    [
        "the",
        "our",
        "her",
        "its",
        "fore",
        "forward",
        "foredeck",
        "bow",
        "aft",
        "after",
        "stern",
        "main",
        "big",
        "small",
        "large",
        "other",
        "second",
        "deck",
        "forehatch",
        "hatch",
        "hatchway",
        "skylight",
        "companionway",
        "way",
        "out",
        "escape",
        "wash",
        "boards",
        "board",
        "washboards",
        "washboard",
        "door",
    ]
)
"""Words of a hatch that name no space which it might belong to."""


class Locked(NamedTuple):
    """What a note has locked, and the note."""

    said: OwnWords
    what: str


@once
def locked_things(sight: Sight) -> tuple[Locked, ...]:
    """What notes say to be locked at sea, each in the note's own small letters."""
    found = []
    for said in sight.words_through(_may_lock):
        if isinstance(said.block, Note):
            for sentence in told_in(said.text):
                locks = None if _IN_HARBOUR.search(sentence) else _LOCKS.search(sentence)
                if locks is not None:
                    found.append(Locked(said, str(locks["what"] or locks["kept"] or locks["locked"])))
    return tuple(found)
