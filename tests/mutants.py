"""Mutants: a demo boat's file with one value deleted, left blank, garbled or made absurd, and whether the survey points there."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

import yaml

from generator.reading.fields import (
    CHECKED,
    OPEN,
    Choice,
    Compound,
    Dated,
    Digits,
    Listed,
    Many,
    Named,
    Text,
    YesNo,
)
from generator.reading.measures import Count, Dimensions, Measure, OffCentre, Range
from generator.vessel.asking import ONLY_WHERE
from generator.vessel.vessel import Vessel

# Words that name something described elsewhere: what they name must exist.
REFERENCES = {
    "where",
    "berth",
    "bottles",
    "place",
    "muster-place",
    "who",
    "substitute",
    "carried-by",
    "helper",
    "carries",
    "emergency",
    "beside",
    "rule-set",
    "took-part",
}
FREE = (
    "contacts",
    "radio.beacons",
)  # whose words are free: persons and things ashore, whoever carries a beacon
# Dates that end something: long past they must be noticed.
ENDS = {
    "expires",
    "next",
    "battery-expires",
    "release-expires",
    "next-service",
    "head-expires",
    "hose-expires",
    "contents-expire",
    "cylinder-test",
    "tested",
    "registered",
    "date",
    "made",
}
# What a check asks for of some kinds of things, or by some rule sets alone.
SELDOM = {
    "made", "rating", "led-by", "phone", "abilities", "flow", "tested", "reached-inverted", "strong-point-reached", "expires", "next-service", "last-service",
    "fitted", "replaced", "how", "gate", "opened-by", "righted", "righted-how",
}  # fmt: skip
# What may be left out, and the file means the same: the bill says who does it at every raft; the stowage says where; a way over
# the side stands open; a duty that may be left open needs no substitute.
SAME = re.compile(
    r"rafts\[\d+\]\.(party(\.\w+)?|where|(launch-from|board-from)\.how)"
    r"|station-bill\.(fire\.backup|gas\.muster|flooding\.prepare-raft)\.substitute"
)
TYPED = (Choice, YesNo, Count, Dated, Digits, Dimensions, Measure, OffCentre, Range)


@dataclass(frozen=True)
class Mutant:
    """One changed file: `how` it was changed, at which key of which block, on which line."""

    boat: str
    how: str
    path: str
    key: str
    line: int
    block_line: int
    text: str = field(repr=False)

    @property
    def name(self) -> str:
        """What the list of those not found calls it."""
        return f"{self.boat}: {self.path}.{self.key}: {self.how}"


@dataclass
class _Leaf:
    path: str
    key: str
    field: object
    pairs: list
    at: int
    block: object


def mutants(boat: str, text: str) -> list[Mutant]:
    """Every mutant of a boat's file, in the order of its lines."""
    made = []
    for leaf in _leaves(yaml.compose(text), Vessel, ""):
        made += [
            Mutant(
                boat,
                how,
                leaf.path,
                leaf.key,
                leaf.pairs[leaf.at][0].start_mark.line + 1,
                leaf.block.start_mark.line + 1,
                changed,
            )
            for how, changed in _changes(text, leaf)
            if not (
                how in ("deleted", "unknown")
                and (_named_kind(leaf) or SAME.fullmatch(f"{leaf.path}.{leaf.key}"))
            )
        ]
    return made


def _named_kind(leaf):
    """Whether it is the kind of a piece of gear: without it that is what the name says, or something other."""
    return leaf.key == "kind" and leaf.path.startswith("gear")


def _leaves(node, block, path):
    """Every scalar, or list of scalars, under a key that the vessel's blocks know."""
    pairs = node.value
    for at, (key_node, value) in enumerate(pairs):
        found = block.fields.get(key_node.value)
        if key_node.value in ("format", "based-on", "base", "specimen", "deferred-defects") or found is None:
            continue
        here = f"{path}.{key_node.value}".lstrip(".")
        if isinstance(found, Compound):
            yield _Leaf(path, key_node.value, found, pairs, at, node)
        if isinstance(found, Named):
            yield from _named(value, found, here)
        elif isinstance(found, Compound):
            for number, each in enumerate(value.value if isinstance(value, yaml.SequenceNode) else [value]):
                if isinstance(each, yaml.MappingNode):
                    yield from _leaves(
                        each, found.blocks, f"{here}[{number}]" if isinstance(found, Many) else here
                    )
        else:
            yield _Leaf(path, key_node.value, found, pairs, at, node)


def _named(node, found, path):
    for key_node, value in node.value:
        here = f"{path}.{key_node.value}"
        if isinstance(found.inner, Named):
            yield from _named(value, found.inner, here)
        elif isinstance(value, yaml.MappingNode):
            yield from _leaves(value, found.inner, here)


def _changes(text, leaf):
    """(how, changed text) of a value: only such changes as take away or falsify what somebody aboard relies on."""
    one, (_, value) = leaf.field, leaf.pairs[leaf.at]
    start, end = value.start_mark.index, value.end_mark.index
    end = start + len(text[start:end].rstrip())

    def put(words):
        return f"{text[:start]}{words}{text[end:]}"

    if _is_asked(one):
        deleted = _without(text, leaf)
        if deleted is not None:
            yield "deleted", deleted
    yield "left blank", put("")
    if isinstance(one, Compound):
        return
    plain = value if isinstance(value, yaml.ScalarNode) else None
    if plain is not None and plain.value in ("private", "unknown"):
        return
    if _is_asked(one):
        yield "unknown", put("unknown")
    kind = one.of if isinstance(one, Listed) else one
    if isinstance(kind, TYPED) or (leaf.key in REFERENCES and not leaf.path.startswith(FREE)):
        yield "garbled", put("[qwxz vlk]" if isinstance(one, Listed) else "qwxz vlk")
    if isinstance(one, Dated) and leaf.key in ENDS:
        yield "long past", put("1999-01")
    if (
        isinstance(one, Measure)
        and not isinstance(one, (Range, Dimensions))
        and plain is not None
        and one.unknown != OPEN
        and (not plain.value.startswith("0 "))
    ):
        yield (
            "a thousandfold",
            put(
                re.sub(
                    r"[0-9]+(\.[0-9]+)?", lambda match: f"{float(match[0]) * 1000:g}", plain.value, count=1
                )
            ),
        )
    if isinstance(one, Count) and one.required:
        yield (
            "a hundredfold",
            put(str(int(plain.value) * 100) if plain is not None and plain.value.isdigit() else "0"),
        )
    if isinstance(one, Text) and plain is not None and len(plain.value) > 4 and one.required:
        yield "no answer", put("tbd")


def _is_asked(one):
    """Whether the survey asks for it wherever its block stands: under no condition, and of no kind of thing alone."""
    if one.required or one.unknown == OPEN or one in ONLY_WHERE:
        return one.required
    return one.unknown != CHECKED or one.key not in SELDOM


def _without(text, leaf):
    """The text without a key and its value; None where its block holds nothing else."""
    key_node, value = leaf.pairs[leaf.at]
    if leaf.at + 1 < len(leaf.pairs):
        return text[: key_node.start_mark.index] + text[leaf.pairs[leaf.at + 1][0].start_mark.index :]
    if leaf.at == 0:
        return None
    before = leaf.pairs[leaf.at - 1][1].end_mark.index
    before = len(text[:before].rstrip())
    end = value.end_mark.index if leaf.block.flow_style else len(text[: value.end_mark.index].rstrip())
    return text[:before] + text[end:]


def points_at(finding, mutant: Mutant) -> bool:
    """Whether a finding stands on or beside the mutated key: on its line or the next, at a key of its name, or where its block begins.

    What is taken out has no place of its own any more: there a finding counts that names the key.
    """
    if mutant.how == "deleted" and f"'{mutant.key}'" in finding.message + finding.remedy:
        return True
    for place in (finding.place, *finding.also):
        if not place.file.endswith("vessel.yaml"):
            continue
        last = place.key.rpartition(".")[2]
        if abs(place.line - mutant.line) <= 1 or last == mutant.key or place.line == mutant.block_line:
            return True
    return False
