"""The kind that a thing's name says, against the kind that its field says."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.reading.nearest import shortened
from generator.survey.registry import COMMON_PRACTICE, LIFE, Finds, Found, Sight, at, check
from generator.vessel.installed import Battery, Engine, Pump
from generator.vessel.particulars import Contact
from generator.vessel.radio import Beacon, RadioSet

if TYPE_CHECKING:
    from generator.reading.block import Block

_Words = tuple[tuple[re.Pattern[str], tuple[str, ...]], ...]


def _words(*pairs: tuple[str, str]) -> _Words:
    """Words of names, each with the kinds of which such a thing may be, bars between them."""
    return tuple(
        (re.compile(rf"\b(?:{said})\b", re.IGNORECASE), tuple(kinds.split("|"))) for said, kinds in pairs
    )


_SAY: dict[type[Block], tuple[str, _Words]] = {
    RadioSet: (
        "kind",
        _words(
            ("hand-?held|portable|walkie-talkie", "handheld VHF|satellite telephone"),
            ("satellite (?:tele)?phone|sat-?phone", "satellite telephone"),
            ("short-?wave|short wave|SSB|MF/HF|MF|HF", "MF/HF"),
            ("VHF", "VHF|handheld VHF"),
            ("fixed", "VHF|MF/HF|satellite telephone"),
        ),
    ),
    Beacon: (
        "kind",
        _words(
            ("EPIRB", "EPIRB"),
            ("PLB|personal locator beacon", "PLB"),
            ("radar transponder", "SART"),
            ("SART", "SART|AIS man-overboard device"),
            ("man[ -]overboard (?:beacon|device)|MOB (?:beacon|device)", "AIS man-overboard device|PLB"),
        ),
    ),
    Contact: (
        "kind",
        _words(
            ("medical|doctor|hospital|physician", "medical advice|rescue centre|other"),
            ("medical advice", "medical advice"),
            ("insurer|insurance|underwriters?", "insurer"),
            ("rescue centre|coast-?guard|[MJ]?RCC", "rescue centre|medical advice|other"),
        ),
    ),
    Pump: (
        "power",
        _words(
            ("hand|manual", "hand"),
            ("electric|electrical", "electric"),
            ("engine-driven|engine driven|driven by the engine", "engine"),
        ),
    ),
    Engine: (
        "kind",
        _words(
            ("outboard", "outboard|electric"),
            ("diesel", "inboard diesel"),
            ("petrol|gasoline", "inboard petrol|outboard"),
            ("electric motor", "electric"),
        ),
    ),
    Battery: (
        "chemistry",
        _words(("lithium", "lithium"), ("AGM", "AGM"), ("gel", "gel"), ("lead-acid", "lead-acid|AGM|gel")),
    ),
}
"""What names say of the kind, by the block and the key that tells it."""
_WORKED = _words(
    (r"\w+ tap|seacock|across the pipe|petcock", "fuel|gas"),
    ("kill ?cord|cord off|lanyard", "kill cord"),
    ("flaps? shut|(?:close|shut) (?:the |both )?flaps?|fans?|louvres?", "ventilation"),
    ("battery|batteries|isolators?", "batteries"),
)
"""What the way of working a stop says of what it stops."""


@check("words.other-stop", LIFE, COMMON_PRACTICE)
def stops_are_worked_as_their_kind_is(sight: Sight) -> Finds:
    """How a stop is worked says no other kind of stop than its field.

    Why: the step "shut the fuel" then sends somebody to the battery switch, and the fuel runs on.
    Remedy: go and look which of the two it is, and correct 'what' or 'how'.
    """
    for stop in sight.vessel.stops:
        how, told = stop.how, stop.what
        if not isinstance(how, str) or not isinstance(told, str):
            continue
        meant = {kind for said, kinds in _WORKED if said.search(how) for kind in kinds}
        if meant and told not in meant:
            place = stop.place("what")
            yield Found(
                place,
                f"'{shortened(how)}' is how {_NAMED[min(meant)]} is worked, and what says {told}",
                remedy=f"go and look; write what: {min(meant)}, or correct 'how'",
                item=told,
                also=(stop.place("how"),),
                about=stop,
                explains=frozenset((place,)),
            )


_NAMED = {
    "fuel": "a fuel or gas tap",
    "gas": "a fuel or gas tap",
    "kill cord": "a kill cord",
    "ventilation": "a shut-off of the ventilation",
    "batteries": "a battery switch",
}


@check("words.other-kind", LIFE, COMMON_PRACTICE)
def names_say_no_other_kind(sight: Sight) -> Finds:
    """The name of a radio, a beacon, a pump, an engine, a battery or a contact says no other kind than its field.

    Why: the steps follow the field: for a handheld told as a fixed set they look for its breaker, and an insurer told as a base is called first.
    Remedy: go and look which of the two it is, and correct the name or the field.
    """
    for block in sight.all_of(*_SAY):
        if type(block) not in _SAY:
            continue
        key, words = _SAY[type(block)]
        name = block.__dict__.get(type(block).called)
        told = block.__dict__.get(key)
        if not isinstance(name, str) or not isinstance(told, str):
            continue
        meant = next((kinds for said, kinds in words if said.search(name) and told not in kinds), None)
        if meant is not None:
            yield at(
                block,
                key,
                f"'{shortened(name)}' says what is no '{told}', and {key} says it is",
                remedy=f"go and look; write {key}: {meant[0]}, or another name",
                item=name,
            )
