"""What to find out first: the survey's own findings in the order of what saves lives, in plain words with their keys."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterable
from dataclasses import dataclass

from generator.commissioning.paths import target
from generator.commissioning.refusal import Refusal
from generator.reading.editing import Key
from generator.reading.findings import Finding, Weight, defects
from generator.survey.listing import COLUMNS

MOST = 5
OPEN = ("file.not-known-yet", "file.missing-key", "steps.gap")
"""The checks that tell of what is still to be found out."""
_MOST_KEYS = 3
_NUMBER = re.compile(r"\[[1-9][0-9]*\]")
"""How an entry without a name is told."""
_OPEN_BLOCK = " is not known yet: "
"""What the finding of a whole block puts before its question."""
# What the findings are about, by their keys, what saves lives first.
_ORDER = (
    (
        "the raft",
        r"rafts(\[[^\]]*\](\.(stowage|where|side|container|held-by|launch-from|persons))?)?",
    ),
    ("the raft's painter", r"rafts\[[^\]]*\]\.(painter|strong-point|knife|weak-link)(\..*)?"),
    ("the raft's dates", r"rafts\[[^\]]*\]\.(release|service)(\..*)?"),
    ("alarm, order to abandon and muster place", r"vessel\.(general-alarm|abandon-order|muster-place)"),
    ("the radio", r"radio\.(sets|mmsi|call-sign)\b.*"),
    ("the beacon", r"radio\.beacons\b.*"),
    ("who does what", r"(people|station-bill)\b.*"),
    ("the lifejackets", r"lifejackets\b.*"),
    ("getting into the raft", r"rafts\[[^\]]*\]\.(board-from|boarding|righting|entrances)(\..*)?"),
    ("getting somebody back aboard", r"recovery\b.*"),
    ("what ends a fire or a leak", r"(stops|gas|pumps|through-hulls|gear|escape|grab-bags)\b.*"),
    ("the boat", r"vessel\.(type|persons|waters|climate|engine|use)"),
    ("the rest", r".*"),
)


@dataclass(frozen=True)
class Thing:
    """One thing to find out: what it is about, the questions or findings, and the keys that answer them."""

    about: str
    asked: tuple[str, ...]
    keys: tuple[str, ...]

    @property
    def words(self) -> str:
        """All of it in a line: "its painter: How long is it (on the container's label)?"."""
        return f"{self.about}: {' '.join(self.asked)}"


def first_things(findings: Iterable[Finding]) -> list[Thing]:
    """The first things that stop publishing, in the order of what saves lives."""
    groups: dict[str, list[Finding]] = {}
    for each in findings:
        if each.weight is Weight.DEFECT:
            about = next(name for name, keys in _ORDER if re.fullmatch(keys, each.place.key, re.DOTALL))
            groups.setdefault(about, []).append(each)
    return [_thing(name, groups[name]) for name, _ in _ORDER if name in groups][:MOST]


def opening(findings: Iterable[Finding]) -> list[str]:
    """How the survey of a boat begins of which most is still to be found out: the lines of the first things; none for others."""
    stopping = defects(findings)
    still_open = [each for each in stopping if each.check in OPEN]
    if len(still_open) <= MOST or 2 * len(still_open) < len(stopping):
        return []
    lines = ["Find out next:"]
    for number, thing in enumerate(first_things(still_open), 1):
        keys = "".join(f" {key}" for key in thing.keys)
        words = f"{number}. {thing.words} Write:{keys}"
        lines += textwrap.wrap(words, COLUMNS, subsequent_indent="   ", break_on_hyphens=False)
    return [*lines, ""]


def _thing(about: str, found: list[Finding]) -> Thing:
    asked: dict[str, list[str]] = {}
    for each in found:
        asked.setdefault(_words(each), []).append(each.place.key)
    first = list(asked.items())[:_MOST_KEYS]
    keys = tuple(dict.fromkeys(key for _, keys in first for key in keys))
    return Thing(about, tuple(words for words, _ in first), keys)


def _words(finding: Finding) -> str:
    """The question that an open key asks; else what was found."""
    if finding.check in OPEN:
        try:
            one = target(_NUMBER.sub("[it]", finding.place.key))
        except Refusal:
            question = finding.message.partition(_OPEN_BLOCK)[2]
            return question or f"{finding.message}."
        part = (
            one.steps[-2] if len(one.steps) > 3 else None
        )  # a block within an entry: its painter, its service
        return f"{part.name}: {one.field.question}" if isinstance(part, Key) else one.field.question
    return f"{finding.message[0].upper()}{finding.message[1:]}."
