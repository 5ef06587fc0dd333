"""The shortest file that is still sound: whatever the survey can do without is taken out of a boat's file, block by block, key by key."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

import yaml

from generator.reading.fields import Compound, Field, Many
from generator.vessel.vessel import Vessel

FOLDER = Path(__file__).parent / "shortest"
SOUND, CLEAN = FOLDER / "sound.yaml", FOLDER / "nothing-to-say.yaml"
"""What is left of the open boat's file while it is sound, and while the survey finds nothing at all in it."""
KEEPS = ("vessel.name", "vessel.type", "vessel.length", "vessel.waters", "vessel.use", "vessel.persons")
"""What tells which boat it is: with another type, length or fewer people she would be another boat, not the same one told shorter."""


@dataclass(frozen=True)
class Piece:
    """A key with its value, or an item of a list: where in the text it stands, and its path."""

    path: str
    start: int
    end: int


def bare(text: str) -> str:
    """The text without comments and empty lines."""
    lines = (re.sub(r"(^|\s+)#.*$", "", line).rstrip() for line in text.splitlines())
    return "".join(f"{line}\n" for line in lines if line)


def pieces(text: str) -> list[Piece]:
    """Everything that can be taken out of a text, what holds most first."""
    root = yaml.compose(text)
    found = list(_pieces(text, root, "")) if root is not None else []
    return sorted(found, key=lambda each: (each.start - each.end, each.start))


def _pieces(text: str, node: yaml.Node, path: str) -> Iterator[Piece]:
    if isinstance(node, yaml.MappingNode):
        for at, (key, value) in enumerate(node.value):
            here = f"{path}.{key.value}".lstrip(".")
            following = node.value[at + 1][0].start_mark.index if at + 1 < len(node.value) else None
            yield _piece(text, here, key.start_mark.index, value, following, node)
            yield from _pieces(text, value, here)
    elif isinstance(node, yaml.SequenceNode):
        for at, value in enumerate(node.value):
            here = f"{path}[{at}]"
            if len(node.value) > 1:
                following = node.value[at + 1].start_mark.index if at + 1 < len(node.value) else None
                yield _piece(text, here, value.start_mark.index, value, following, node)
            yield from _pieces(text, value, here)


def _piece(
    text: str, path: str, start: int, value: yaml.Node, following: int | None, holder: yaml.CollectionNode
) -> Piece:
    end = start + len(text[start : max(start, value.end_mark.index)].rstrip())
    if not holder.flow_style:
        first = text.rfind("\n", 0, start) + 1
        if isinstance(holder, yaml.MappingNode) and text[first:start].strip() and following is not None:
            return Piece(path, start, following)  # the dash before it is the item's
        return Piece(path, first, text.find("\n", end) + 1)
    if following is not None:
        return Piece(path, start, following)
    comma = text.rfind(",", 0, start)
    return Piece(path, comma if comma > text.rfind("{", 0, start) else start, end)


def shortest(text: str, holds: Callable[[str], bool]) -> str:
    """What is left of a text when nothing more can be taken out of it: without any one piece, or the same key of every item of a list, what `holds` of it holds no more."""
    text = bare(text)
    while True:
        before, tried = text, set[str]()
        while rest := [each for each in pieces(text) if each.path not in tried and each.path not in KEEPS]:
            tried.add(rest[0].path)
            less = _without(text, rest[:1])
            if holds(less):
                text = less
        for key in dict.fromkeys(_key(each) for each in pieces(text)):
            alike = [each for each in pieces(text) if _key(each) == key]
            if len(alike) > 1 and holds(less := _without(text, alike)):
                text = less
        if text == before:
            return text


def _key(piece: Piece) -> str:
    """The path without which item of a list it is; an item itself keeps its number."""
    holder, _, last = piece.path.rpartition(".")
    return f"{re.sub(r'[0-9]+(?=[]])', '', holder)}.{last}"


def _without(text: str, taken: list[Piece]) -> str:
    """The text without pieces of which none lies in another."""
    for each in sorted(taken, key=lambda piece: -piece.start):
        text = text[: each.start] + text[each.end :]
    return text


def explained(text: str, duties: Mapping[str, str]) -> str:
    """The text with, behind each line, the question that it answers; behind a line of the bill, what is to be done."""
    lines, path = [], list[str]()
    wide = max(len(line) for line in text.splitlines() if len(line) < _LONG)
    for line in text.splitlines():
        inner = line.lstrip()
        path = [*path[: (len(line) - len(inner)) // 2], inner.removeprefix("- ").partition(":")[0]]
        asked = duties.get(".".join(path[1:])) if path[0] == "station-bill" and path[1:] else _question(path)
        lines.append(f"{line:<{wide}}  # {asked}" if asked else line)
    return "\n".join(lines) + "\n"


_LONG = 64  # a longer line answers what its list has asked already


def _question(path: list[str]) -> str:
    """What the key at the end of a path asks; nothing of what its list has asked."""
    fields, asked = Vessel.fields, ""
    for name in path:
        if name not in fields:
            return ""
        asked, fields = fields[name].question, _inside(fields[name])
    return asked


def _inside(found: Field) -> Mapping[str, Field]:
    """The fields of the block behind a field, if it is no list: of the items of a list their list has asked."""
    return found.blocks.fields if isinstance(found, Compound) and not isinstance(found, Many) else {}
