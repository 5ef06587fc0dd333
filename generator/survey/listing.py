"""The listing of findings for people: a list of what to do, in the order of what matters."""

from __future__ import annotations

import os
import re
import textwrap
from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import groupby
from pathlib import PurePosixPath

from generator.reading.block import Block
from generator.reading.fields import Compound
from generator.reading.findings import Finding, Place, Weight, in_order
from generator.reading.visible import visible
from generator.vessel.vessel import Vessel

_COLOURS = {Weight.DEFECT: "\033[1;31m", Weight.RECOMMENDATION: "\033[33m", Weight.NOTE: "\033[36m"}
_PLAIN = "\033[0m"
_HEADS = {
    Weight.DEFECT: "Before anything is published",
    Weight.RECOMMENDATION: "Then, so that nothing is left out or goes unchecked",
    Weight.NOTE: "For information",
}
_SOONER = tuple(
    re.compile(keys)
    for keys in (
        r"rafts(?:\[[^\]]*\](?:\.(?:stowage|where|side|height|container|held-by|slip|strap-fixed)(?:[.\[].*)?)?)?",
        r"rafts\[[^\]]*\]\.(?:painter|strong-point|weak-link|release)(?:[.\[].*)?",
        r"rafts\[[^\]]*\]\.service(?:\..*)?",
        r"rafts\[[^\]]*\]\.(?:launch-from|knife|lift-needed|party)(?:[.\[].*)?",
    )
)
"""Of a raft, what comes before the rest: what holds it, what fires it and ties it, whether it opens at all, how it gets into the water."""
_CALLS = "Alarm, order to abandon, muster place"
_GATHERS = frozenset(("vessel.general-alarm", "vessel.abandon-order", "vessel.muster-place"))
"""What everybody aboard must know first, before how long she is."""
SCREENS, ROWS, COLUMNS = 2, 50, 100
"""What a survey of many faults fits on."""
_ALL_OF_THEM = re.compile(r" \((?:or one of|it takes): [^)]{24,}\)")
_FIRST, _LAST = ("", "format", "based-on"), ("specimen", "checked-aboard", "approved")
_SAVES = tuple(Vessel.fields)[tuple(Vessel.fields).index("rafts") : tuple(Vessel.fields).index("tender")]
# The order of the file is that of what saves lives, but for her length and beam; what makes it a file comes first, who answers
# for it last.
_ORDER = tuple(dict.fromkeys((*_FIRST, *_SAVES, *(key for key in Vessel.fields if key not in _LAST), *_LAST)))
_BLOCKS = {
    "vessel": "The vessel",
    "checked-aboard": "Checked aboard and approved",
    "approved": "Checked aboard and approved",
}
_SUBJECTS = {
    "file": "The file",
    "bill": "Station bill",
    "deck": "Deck plan",
    "deferral": "Deferred defects",
    "reader": "Readers",
    "output": "Outputs",
    "program": "The program",
}


def on_screen(findings: Iterable[Finding], colour: bool = False, above: int = 0) -> str:
    """The listing as a screen shows it, with so many lines `above` it.

    Where it would be longer than two screens each finding runs on in one paragraph, its files seen from the boat's folder, and
    recommendations are one line each, or only counted.
    """
    found = list(findings)
    room = SCREENS * ROWS - above
    if sum(max(1, -(-len(line) // COLUMNS)) for line in listing(found).split("\n")) <= room:
        return listing(found, colour)
    ordered = sorted(shown(found), key=_matters)
    heavy = [each for each in ordered if each.weight is Weight.DEFECT]
    lines = (
        [_head(heavy), *(line for each in heavy for line in _closely(each, ordered, colour))] if heavy else []
    )
    light = [each for each in ordered if each.weight is not Weight.DEFECT]
    more = [f"{_head(light)}; all of it: --report survey.txt"] if light else []
    if len(lines) + len(light) < room:
        more += [_in_a_line(each, ordered) for each in light]
    elif light:
        counts = [f"{about} {len(list(those))}" for about, those in groupby(light, _about)]
        more += textwrap.wrap(", ".join(counts), COLUMNS, initial_indent="  ", subsequent_indent="  ")
    return "\n".join([*lines, *more, ""])


def _head(found: list[Finding]) -> str:
    return f"{_HEADS[found[0].weight]}: {len(found)} thing{'s' if len(found) > 1 else ''}"


def _from_her_folder(finding: Finding, among: list[Finding]) -> str:
    """The place of a finding, its file as seen from the folder that all of them lie in."""
    files = [PurePosixPath(each.place.file) for each in (finding, *among)]
    like = [str(each.parent) for each in files if each.is_absolute() == files[0].is_absolute()]
    folder = os.path.commonpath(like)  # a page that was made has no folder in common with her files
    return str(finding.place).removeprefix(folder).lstrip("/")


def _closely(finding: Finding, among: list[Finding], colour: bool) -> list[str]:
    """A finding with what to do in one paragraph, without the words it takes besides the one that is meant."""
    said = f"{_from_her_folder(finding, among)} {finding.check}: {finding.message}"
    said += f" -> {_ALL_OF_THEM.sub('', finding.remedy)}" if finding.remedy else ""
    lines = textwrap.wrap(
        said, COLUMNS, initial_indent="  ", subsequent_indent="    ", break_on_hyphens=False
    )
    if colour:
        marked = f"{_COLOURS[finding.weight]}{finding.check}{_PLAIN}"
        lines[0] = lines[0].replace(finding.check, marked, 1)
    return lines


def _in_a_line(finding: Finding, among: list[Finding]) -> str:
    said = f"{_from_her_folder(finding, among)} {finding.check}: {finding.message}"
    return f"  {textwrap.shorten(said, COLUMNS - 2, placeholder=' ...')}"


def listing(findings: Iterable[Finding], colour: bool = False) -> str:
    """What to do, by weight, then by what it is about, what saves lives first, then by place; the same of several things once."""
    lines = []
    for weight, of_weight in groupby(sorted(shown(findings), key=_matters), lambda each: each.weight):
        found = list(of_weight)
        lines.append(f"{_HEADS[weight]}: {len(found)} thing{'s' if len(found) > 1 else ''}")
        for about, group in groupby(found, _about):
            lines.append(f"  {about}")
            lines += _to_do(list(group), colour)
        lines.append("")
    return "\n".join(lines)


def plain_listing(findings: Iterable[Finding], colour: bool = False) -> str:
    """Findings by place, of files that are no boat's."""
    return "\n".join([*_to_do(shown(findings), colour), ""])


def shown(findings: Iterable[Finding]) -> list[Finding]:
    """The findings in order, with nothing in their words that moves the cursor, hides, or begins a line of its own."""
    return [
        replace(
            each,
            message=visible(each.message),
            remedy=visible(each.remedy),
            item=visible(each.item),
            place=_in_sight(each.place),
            also=tuple(map(_in_sight, each.also)),
        )
        for each in in_order(findings)
    ]


def _in_sight(place: Place) -> Place:
    return replace(place, key=visible(place.key))


def _matters(finding: Finding) -> tuple[object, ...]:
    """Sort key: weight; what saves lives first; the place; of one place, the order of the keys."""
    top, place = _top(finding), finding.place
    rank = _ORDER.index(top) if top in _ORDER else len(_ORDER)
    if place.key in _GATHERS:
        rank = _ORDER.index("people")
    sooner = (number for number, keys in enumerate(_SOONER) if top == "rafts" and keys.fullmatch(place.key))
    return (
        finding.weight,
        rank,
        _about(finding),
        next(sooner, len(_SOONER)),
        place.file,
        place.line,
        place.column,
        _steps(place.key),
        finding.order,
    )


def _steps(key: str) -> tuple[int, ...]:
    """Where each key of a path stands among its block's; as far as they are keys of a vessel's file."""
    block: type[Block] | None = Vessel
    steps: list[int] = []
    for each in re.sub(r"\[[^\]]*\]", "", key).split("."):
        fields = block.fields if block is not None else {}
        if each not in fields:
            break
        steps.append(list(fields).index(each))
        field = fields[each]
        block = field.blocks if isinstance(field, Compound) else None
    return tuple(steps)


def _top(finding: Finding) -> str:
    """The block at the top of the file that a finding is about; of one without a key, what its check is about."""
    top = re.split(r"[.\[]", finding.place.key, maxsplit=1)[0]
    return finding.subject if not top and finding.subject != "file" else top


def _about(finding: Finding) -> str:
    top = _top(finding)
    if finding.place.file.endswith("voyage.yaml"):
        return "The voyage"
    if finding.place.key in _GATHERS:
        return _CALLS
    if top in Vessel.fields:
        return _BLOCKS.get(top, top.replace("-", " ").capitalize())
    return _SUBJECTS.get(finding.subject, finding.subject.replace("-", " ").capitalize())


def _to_do(found: list[Finding], colour: bool) -> Iterator[str]:
    """One line for each thing to do with its places, and what to write or do below those of which that is the same."""
    alike: dict[tuple[object, ...], dict[tuple[object, ...], list[Finding]]] = {}
    for each in found:
        group = alike.setdefault((each.check, each.weight, each.remedy), {})
        group.setdefault((_sentence(each), each.also), []).append(each)
    for group in alike.values():
        for first, *others in group.values():
            word = first.weight.word
            told = f"{_COLOURS[first.weight]}{word}{_PLAIN}" if colour else word
            yield f"    {first.place}: {told} {first.check}: {first.message}"
            yield from (f"        and {each.place}: {each.item or each.place.key}" for each in others)
            yield from (f"        see also {place}" for place in first.also)
        if first.remedy:
            yield f"        -> {first.remedy}"


def _sentence(finding: Finding) -> str:
    """What is said, whatever thing it is said of: of several things it is one thing to do."""
    said = finding.message.replace(f"'{finding.place.key}'", "''") if finding.place.key else finding.message
    return said.removeprefix(f"{finding.item}: ") if finding.item else said


def count(findings: Iterable[Finding]) -> str:
    """How many findings of which weight, in words."""
    found = list(findings)
    parts = []
    for weight in Weight:
        number = sum(finding.weight is weight for finding in found)
        if number:
            parts.append(f"{number} {weight.word}{'s' if number > 1 else ''}")
    return ", ".join(parts) or "no findings"
