"""What a hand is told to do against what it is to bring about: a stop is not started, a beacon not switched off, a hatch not shut."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from generator.reading.nearest import shortened
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
_TAP = r"(?:(?:the|both|all|its|red|brass|yellow|blue|black|small|big|\w+['’]s)\s+)*(?:tap|valve|cock|seacock|lever|petcock)s?\b"
_KEEPS_GOING: dict[str, re.Pattern[str]] = {
    kind: re.compile(words, re.IGNORECASE)
    for kind, words in {
        "engine": r"\bchoke\b|\bprimer?\b|\bprime the\b|\bstarter\b|\bstart (?:the|her|it)\b|\b(?:push|open|move|put|turn) (?:up )?the throttles? "
        r"(?:up|forward|ahead|open|wide|full)\b|\bopen (?:up )?the throttles?\b|\bfull (?:throttle|ahead)\b|\bthrottles? (?:up|wide open)\b",
        "fuel": rf"\bchoke\b|\bthrottles?\b|\b(?:squeeze|pump) the (?:primer|bulb|\w+ bulb)\b|\bprime the\b|\b(?:open|turn on|switch on) {_TAP}"
        r"|\b(?:push|plug|put|press|clip|snap|connect) (?:the )?(?:hose|fuel line) (?:on|onto|in|into|to)\b",
        "gas": rf"\b(?:open|turn on|switch on) {_TAP}|\blight (?:the|a) (?:burner|cooker|stove|match)\b",
        "batteries": r"\b(?:switch|turn) (?:the |both |all |it |them )?(?:\w+ )?(?:keys? |switch(?:es)? |isolators? )?on\b|\bto (?:BOTH|1\+2|ALL)\b",
        "ventilation": r"^(?:then )?(?:open|unscrew|lift) (?:the |both |all |each )?(?:\w+ )?(?:flaps?|vents?|louvres?|dampers?|cowls?)\b|\b(?:start|switch on|turn on) the (?:fans?|blowers?)\b"
        r"|\b(?:pull|push|swing|fold) (?:the |both |all )?(?:\w+ )?(?:flaps?|louvres?) open\b",
        "kill cord": r"\b(?:clip|plug|push|put|hook|fasten|attach|press|slip) (?:the |its |a )?(?:\w+ )?(?:cord|lanyard|clip) (?:back )?(?:on|onto|in|into|to|over|round|around)\b",
    }.items()
}  # fmt: skip
"""By what a stop ends: what a hand does that sets or keeps it going."""
_OPENED = re.compile(rf"\b(?:open|turn on) {_TAP}", re.IGNORECASE)
_SWITCHED_OFF = re.compile(
    r"\b(?:switch|turn|power)(?:ed)? (?:it |the (?:set|radio|beacon|power|breaker|switch) )?off\b|\b(?:stow|fold|push) (?:in |away |down )?the aerial(?: down| in| away)?\b"
    r"|\bput it back\b",
    re.IGNORECASE,
)
_TESTED = re.compile(
    r"(?<!not )\b(?:to |press |hold |hold down |push |button marked |marked )(?:the )?['\"“‘]?TEST\b"
)
_SHUTS = re.compile(
    r"^(?:then )?(?:shut|close|lock|bolt|fasten|secure|dog|screw down|batten|latch|(?:pull|push|slide|swing) (?:the |both |it )?(?:\w+ ){0,2}shut(?=$|[,.;]| and))\b",
    re.IGNORECASE,
)
_HOOKS_ON = re.compile(
    r"^(?:then )?(?:hook|clip|shackle|lash|make|set up|screw) (?:(?:the|both|it|all|its|upper|lower|wires?|hooks?|lines?|gate|lanyards?) )*(?:on|up|fast|shut|closed|in)\b",
    re.IGNORECASE,
)
_OTHER_SET = {
    "VHF": re.compile(r"(?:MF/HF|MF|HF|SSB|SAT|SATPHONE)"),
    "MF/HF": re.compile(r"(?:VHF|SAT|SATPHONE)"),
}
"""By the kind of a set: labels of breakers of another."""
_LABEL = re.compile(
    r"\b(?:marked|labelled|called|named|reads?|says)\s+['\"“‘]?([A-Z][A-Z0-9]*(?:[ /-][A-Z0-9]+)*)\b"
)
"""What a switch is marked with, in capitals."""
_OTHERS = r"(?:NAV(?:IGATION)? |DECK |CABIN |MAST(?:HEAD)? |STEAMING |ANCHOR |TRICOLOU?R |RUNNING )?LIGHT(?:S|ING)?|LAMPS?|FRIDGE|FREEZER|HORN|WIPERS?|HEAT(?:ER|ING)|SHOWER|TOILET|HEADS|WATER PRESSURE|FRESH ?WATER|STEREO|MUSIC|TV|WINDLASS|THRUSTER|BOW THRUSTER|INVERTER|CHARGER|SOCKETS?|USB|FANS?|WATER HEATER|DECK ?WASH|SPREADERS?"
_MARKED_FOR_ELSE: dict[str, re.Pattern[str]] = {
    "radio": re.compile(rf"(?:{_OTHERS}|BILGE(?: PUMP)?(?: \w+)?|PUMPS?|AUTOPILOT|PILOT|RADAR|PLOTTER|FUEL(?: PUMP)?|ENGINE)"),
    "pump": re.compile(rf"(?:{_OTHERS}|VHF|RADIO|HF|SSB|AIS|RADAR|GPS|NAV|INSTRUMENTS?|AUTOPILOT|PILOT|PLOTTER|ENGINE|GAS|FUEL PUMP|FUEL)"),
    "stop": re.compile(rf"(?:{_OTHERS}|VHF|RADIO|HF|SSB|AIS|RADAR|GPS|NAV|INSTRUMENTS?|AUTOPILOT|PILOT|PLOTTER|BILGE(?: PUMP)?)"),
}  # fmt: skip
"""By what it is to work: labels of switches for something else."""
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
    Remedy: go and work it once, and write what the hand does and where it ends: turn the red lever across the pipe.
    """
    for block, key, part, wrong in _told(sight):
        words = part.__dict__[key]
        yield Found(
            part.place(key),
            f"'{shortened(words)}' {wrong}",
            item=str(block.__dict__.get(type(block).called) or block.path),
            about=part,
        )


def _told(sight: Sight) -> Iterator[tuple[Block, str, Block, str]]:
    """(thing, key, the block that the key stands in, what is wrong with its words) of all that is worked otherwise than it is for."""
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
        of_what = block.__dict__.get("what")
        if isinstance(block, RadioSet):  # of one whose very name is that of another kind, that is told
            named = set(str(of_what).upper().split())
            of_what = (
                block.kind if named.isdisjoint(_LABEL.findall(words)) or str(block.kind) in named else ""
            )
        wrong = wrongly_worked(_WORKED_AS[type(block)], str(of_what or ""), words)
        if not wrong and isinstance(block, Pump):
            wrong = _of_another(block, words)
        if wrong:
            yield block, key, part, wrong
    yield from ((stop, "how", stop, wrong) for stop, wrong in _hands_crossed(vessel.stops))


@lru_cache(maxsize=4096)
def wrongly_worked(kind: str, what: str, words: str) -> str:
    """What is wrong with how a thing of a kind is worked; "" where nothing is."""
    plain = _ONE_KEY_FOR_BOTH.sub(" ", words)
    if kind == "stop":
        keeps = _KEEPS_GOING.get(what)
        if _ends(plain) == "going" or (keeps is not None and keeps.search(plain)):
            return f"does not {_ENDS.get(what, 'end it')}"
        return "" if what == "batteries" else _marked(plain, "stop", what)
    if kind == "hole":
        return "leaves it open" if _ends(plain) == "going" or _OPENED.match(plain) else ""
    if kind == "hatch":
        return "does not open it" if _SHUTS.search(plain) or _ends(plain) == "rest" else ""
    if kind == "pump":
        return _marked(plain, "pump", "pump")
    if kind == "set":
        last = _ends(plain)
        if last == "rest" or (last != "going" and (_SWITCHED_OFF.search(plain) or _TESTED.search(plain))):
            return "does not switch it on"
        other = _OTHER_SET.get(what)
        if other is not None and any(other.fullmatch(label) for label in _LABEL.findall(words)):
            return f"is the switch of another set than the {what}"
        return _marked(plain, "radio", "set")
    if kind == "gate":
        return (
            "does not open it"
            if _SHUTS.search(plain) or _HOOKS_ON.search(plain) or _ends(plain) == "rest"
            else ""
        )
    return ""


_WORKED_AS: dict[type[Block], str] = {
    Stop: "stop",
    ThroughHull: "hole",
    Hatch: "hatch",
    Pump: "pump",
    RadioSet: "set",
    Beacon: "set",
    Raft: "gate",
    Recovery: "gate",
}
_ENDS = {
    "engine": "stop the engine",
    "fuel": "shut the fuel",
    "gas": "shut the gas",
    "batteries": "cut the batteries off",
    "ventilation": "shut the air off",
    "kill cord": "stop the engine",
}


def _ends(words: str) -> str:
    """Whether the last end that a hand is told to bring a thing to sets it going or brings it to rest; "" where none is told."""
    going = [found.end() for found in _SETS_GOING.finditer(words) if not found["left"]]
    rest = [found.end() for found in _BRINGS_TO_REST.finditer(words) if not found["left"]]
    if not going and not rest:
        return ""
    return "going" if max(going, default=-1) > max(rest, default=-1) else "rest"


def _marked(words: str, purpose: str, what: str) -> str:
    """What a switch is marked with, where that is of something else."""
    for label in _LABEL.findall(words):
        if _MARKED_FOR_ELSE[purpose].fullmatch(label):
            return f"is the switch of something else than the {what}"
    return ""


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
        elif worked and any(hand == worked and _same_but_serves(each, stop) for each, hand in alike):
            yield stop, "is also how the stop of another engine is worked"


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
