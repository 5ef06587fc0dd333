"""What a hand is told to do against what it is to bring about: a stop is not started, a beacon not switched off, a hatch not shut."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from generator.reading.nearest import shortened
from generator.shelves.handling import handled
from generator.shelves.worded_forms import plain
from generator.survey.registry import COMMON_PRACTICE, LIFE, Finds, Found, Sight, check
from generator.vessel.deck import Hatch
from generator.vessel.gear import Recovery
from generator.vessel.installed import Pump, Stop, ThroughHull
from generator.vessel.radio import Beacon, RadioSet
from generator.vessel.raft import Raft

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from generator.reading.block import Block

_ONE_KEY_FOR_BOTH = re.compile(
    r"\b[A-Z0-9]+\s?[/|]\s?[A-Z0-9]+\b|\b(?:ON-OFF|OFF-ON|START-STOP|STOP-START)\b"
)
"""One button that does both, START/STOP, and a knob that is volume too: nothing follows from its name."""
_LEFT_BEHIND = (
    r"\b(?:from|past|without|instead of|away from|out of|unlike|than|(?:not|never|no longer|(?:open|shut|closed) (?:when|if|while))(?:\s+\w+){0,3}?)"
    r"\s+(?:the\s+|to\s+|at\s+)?['\"“‘]?"
)
"""What stands before the end that a hand leaves, or keeps away from."""
_PIPE = (
    r"(?:(?:the|its|each|both|fuel|gas|copper)\s+)*(?:pipe|hose|tube|tubing|piping|fuel line|gas line)s?\b"
)
_END_OF_CLAUSE = r"(?=\s*(?:$|[,.;:)'\"”’]|and\b|then\b|position\b|end\b|mark\b))"
_SETS_GOING = re.compile(
    rf"(?P<left>{_LEFT_BEHIND})?(?:\b(?:ON|START|RUN|OPEN)\b|\bto (?:the )?(?:on|start|run|open){_END_OF_CLAUSE}"
    rf"|\b(?:along|in line with|parallel (?:to|with)|lengthways? (?:of|with|to)) {_PIPE})"
)
_BRINGS_TO_REST = re.compile(
    rf"(?P<left>{_LEFT_BEHIND})?(?:\b(?:OFF|STOP|SHUT|CLOSED?|LOCK(?:ED)?|STANDBY)\b"
    rf"|\bto (?:the )?(?:off|stop|shut|closed|locked|stand-?by){_END_OF_CLAUSE}"
    rf"|\b(?:across|square to|at right angles to) {_PIPE}|\bcross(?:wise|ways)\b)"
)  # fmt: skip
"""Where a hand brings a thing to: an end by its label in capitals or behind "to", a lever by its pipe."""
_OTHER_SET = {
    "VHF": re.compile(r"(?:MF/HF|MF|HF|SSB|SAT|SATPHONE)"),
    "MF/HF": re.compile(r"(?:VHF|SAT|SATPHONE)"),
}
"""By the kind of a set: labels of breakers of another."""
_LABEL = re.compile(
    r"\b(?:marked|labelled|called|named|reads?|says)\s+['\"“‘]?([A-Z][A-Z0-9]*(?:[ /-][A-Z0-9]+)*)\b"
)
"""What a switch is marked with, in capitals."""
_HAND = re.compile(
    r"\b(?:the |its )?(left|right)(?:[- ]hand)?(?: (?!out|in|off|down|up|away|to|round|back|across|until|and|of)\w+){1,3}",
    re.IGNORECASE,
)
_SPOT = re.compile(r"^(?:to the |on the |at the |the )?(left|right)(?:[- ]hand)?\b", re.IGNORECASE)
_SIDE = re.compile(r"\b(PORT|STARBOARD|STBD)\b")
_WORKED = re.compile(
    r"\b(?:knobs?|buttons?|keys?|levers?|handles?|switch|cords?|taps?|valves?|pulls?|rings?)\b", re.IGNORECASE
)


@check("words.other-deed", LIFE, COMMON_PRACTICE)
def what_a_hand_does_brings_about_what_it_is_for(sight: Sight) -> Finds:
    """How a thing is worked does what it is for: a stop stops, a tap shuts, a hatch opens, a set or a beacon comes on.

    Why: these words are printed as the step, and done as they stand: "turn the key to START" with somebody in the propeller.
    Remedy: go and work it once, and write what the hand does and where it ends.
    """
    for block, key, part, wrong, example in _told(sight):
        words = part.__dict__[key]
        yield Found(
            part.place(key),
            f"'{shortened(words)}' {wrong}",
            remedy=f"go and work it once; then write what the hand does and where it ends, as in: {key}: {example}"
            if example
            else "",
            item=str(block.__dict__.get(type(block).called) or block.path),
            about=part,
        )


def _told(sight: Sight) -> Iterator[tuple[Block, str, Block, str, str]]:
    """(thing, key, the block that the key stands in, what is wrong with its words, how such a thing is worked) of all that is worked otherwise than it is for."""
    vessel, radio = sight.vessel, sight.vessel.radio
    worked: list[tuple[Block, str, Block | None]] = [(stop, "how", stop) for stop in vessel.stops]
    worked += [(each, "closes", each) for each in vessel.through_hulls]
    worked += [(each, "how", each) for each in vessel.escape]
    worked += [(each, "power", each) for each in (radio.sets if radio else ())]
    worked += [(each, "use", each) for each in (radio.beacons if radio else ())]
    worked += [(raft, "how", raft.launch_from) for raft in vessel.rafts]
    worked += [(each, "how", each.gate) for each in ((vessel.recovery,) if vessel.recovery else ())]
    worked += [(each, "spot", each.handle) for each in vessel.pumps if each.power == "electric"]
    for block, key, part in worked:
        words = part.__dict__.get(key) if part is not None else None
        if part is None or not isinstance(words, str):
            continue
        kind = _WORKED_AS[type(block)]
        of_what = str(block.__dict__.get("what") or "")
        if isinstance(block, RadioSet):  # of one whose very name is that of another kind, that is told
            named = set(of_what.upper().split())
            own = named.isdisjoint(_LABEL.findall(words)) or str(block.kind) in named
            of_what = str(block.kind) if own else ""
        wrong = wrongly_worked(kind, of_what, words)
        if isinstance(block, Pump):
            wrong = "" if _is_its_own(block, words) else wrong
            wrong = wrong or _of_another(block, words)
        if wrong:
            yield block, key, part, wrong, _example(kind, of_what)
    hoist = vessel.recovery.hoist if vessel.recovery else None
    if vessel.recovery and hoist is not None and isinstance(hoist.what, str):
        wrong = wrongly_worked("hoist", "", hoist.what)
        if wrong:
            yield vessel.recovery, "what", hoist, wrong, _example("hoist", "")
    for stop, wrong in _hands_crossed(vessel.stops):
        yield stop, "how", stop, wrong, ""


def _example(kind: str, what: str) -> str:
    """How such a thing is worked, for whoever mends the words."""
    one = handled(what if kind == "stop" else kind)
    return one.example if one is not None else ""


def _is_its_own(pump: Pump, words: str) -> bool:
    """Whether a switch is marked with what its pump is called, or with its space: ENGINE, of the engine space pump."""
    label = set(" ".join(_LABEL.findall(words)).lower().split())
    return bool(label) and label <= set(re.findall(r"[a-z0-9]+", f"{pump.what} {pump.where}".lower()))


@lru_cache(maxsize=4096)
def wrongly_worked(kind: str, what: str, words: str) -> str:
    """What is wrong with how a thing of a kind is worked; "" where nothing is."""
    words = _ONE_KEY_FOR_BOTH.sub(" ", words)
    one = handled(what if kind == "stop" else kind)
    if one is None:
        return ""
    last = _ends(words)
    otherwise = any(one.not_worked(plain(each)) for each in _PARTS.split(words)) and not (
        kind in ("set", "beacon") and last == "going"
    )
    if kind in _COMES_ON:
        other = _OTHER_SET.get(what)
        if last == "rest" or otherwise:
            return one.fails
        if other is not None and any(other.fullmatch(label) for label in _LABEL.findall(words)):
            return f"is the switch of another set than the {what}"
    elif otherwise or last == ("rest" if kind in _OPENS else "going"):
        return one.fails
    named = what if kind == "stop" else kind
    if any(one.marked_for_else(label) for label in _LABEL.findall(words)):
        return f"is the switch of something else than the {named}"
    return ""


_COMES_ON, _OPENS = ("set", "beacon"), ("hatch", "gate", "pump", "hoist")
_PARTS = re.compile(r"[.!?;]+(?=\s|$)")
_WORKED_AS: dict[type[Block], str] = {
    Stop: "stop",
    ThroughHull: "hole",
    Hatch: "hatch",
    Pump: "pump",
    RadioSet: "set",
    Beacon: "beacon",
    Raft: "gate",
    Recovery: "gate",
}


def _ends(words: str) -> str:
    """Whether the last end that a hand is told to bring a thing to sets it going or brings it to rest; "" where none is told."""
    going, rest = _ends_of(words)
    if not going and not rest:
        return ""
    return "going" if max(going, default=-1) > max(rest, default=-1) else "rest"


def ends_told(words: str) -> tuple[bool, bool]:
    """Whether a hand is told to bring something to an end that sets it going, and to one that brings it to rest."""
    going, rest = _ends_of(_ONE_KEY_FOR_BOTH.sub(" ", words))
    return bool(going), bool(rest)


def _ends_of(words: str) -> tuple[list[int], list[int]]:
    """Where ends stand that set a thing going, and those that bring it to rest."""
    return (
        [found.end() for found in _SETS_GOING.finditer(words) if not found["left"]],
        [found.end() for found in _BRINGS_TO_REST.finditer(words) if not found["left"]],
    )


def _of_another(pump: Pump, words: str) -> str:
    """Where a pump on one side has the switch that is marked with the other."""
    side = pump.side if pump.side in ("port", "starboard") else ""
    label = next(iter(_LABEL.findall(words)), "")
    told = {found.replace("STBD", "STARBOARD").lower() for found in _SIDE.findall(label)}
    return (
        f"is marked for {min(told)}, and the pump is to {side}" if side and told and side not in told else ""
    )


def _hands_crossed(stops: Sequence[Stop]) -> Iterator[tuple[Stop, str]]:
    """Stops whose own words have them on the left and their knob on the right, or the other way round; and two engines on one knob."""
    told: list[tuple[Stop, str, str]] = []
    for stop in stops:
        worked = _hand(stop.how) if isinstance(stop.how, str) else ""
        lies = _SPOT.match(stop.spot) if isinstance(stop.spot, str) else None
        told.append((stop, worked, lies[1].lower() if lies else ""))
    for stop, worked, spot in told:
        alike = [
            (each, hand)
            for each, hand, _ in told
            if each is not stop and each.what == stop.what and each.where == stop.where
        ]
        together = any(each.spot == stop.spot and hand and hand != worked for each, hand in alike)
        if worked and spot and worked != spot and not together:
            yield stop, f"works what is on the {worked}, and spot has it on the {spot}"
        twins = [each for each, hand in alike if worked and hand == worked and _same_but_serves(each, stop)]
        if (
            twins
            and not (worked and spot and worked != spot and not together)
            and _is_the_wrong(stop, twins, worked)
        ):
            yield stop, f"is also how the stop of the {twins[0].serves} is worked"


def _is_the_wrong(stop: Stop, twins: Sequence[Stop], worked: str) -> bool:
    """Whether, of stops worked alike, it is this one whose words are wrong: it serves the other side, or, where none does, it is the last."""
    against = [each for each in (stop, *twins) if _OTHER_HAND[worked] in str(each.serves).lower().split()]
    return (
        stop in against if against else all(each.place("how").line < stop.place("how").line for each in twins)
    )


_OTHER_HAND = {"left": "starboard", "right": "port"}
"""Of a knob on that hand, the side of an engine that it is not expected to serve."""


@lru_cache(maxsize=1024)
def _hand(how: str) -> str:
    """Which of two knobs a hand is told to work: left, right, or "" where it says neither, or both."""
    found = {each[1].lower() for each in _HAND.finditer(how) if _WORKED.search(each[0])}
    return found.pop() if len(found) == 1 else ""


def _same_but_serves(one: Stop, other: Stop) -> bool:
    """Whether two stops of different engines are in one place."""
    return (
        isinstance(one.serves, str)
        and isinstance(other.serves, str)
        and one.serves != other.serves
        and (one.side, one.spot) == (other.side, other.spot)
    )
