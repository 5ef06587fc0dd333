"""The kind that a thing's name says, against the kind that its field says."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.reading.nearest import shortened
from generator.survey.registry import COMMON_PRACTICE, LIFE, Finds, Sight, at, check
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


@check("words.other-kind", LIFE, COMMON_PRACTICE)
def names_say_no_other_kind(sight: Sight) -> Finds:
    """The name of a radio, a beacon, a pump, an engine, a battery or a contact says no other kind than its field.

    Why: the steps follow the field: for a handheld told as a fixed set they look for its breaker, and an insurer told as a base is called first.
    Remedy: go and look which of the two it is, and correct the name or the field.
    """
    for block in sight.blocks:
        key, words = _SAY.get(type(block), ("", ()))
        name = block.__dict__.get(type(block).called)
        told = block.__dict__.get(key)
        if not key or not isinstance(name, str) or not isinstance(told, str):
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
