"""The shortest file that is still sound: whatever the survey can do without is taken out of a boat's file, block by block, key by key."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

import yaml

from generator.reading.fields import Compound, Field, Many, Named
from generator.vessel.vessel import Vessel

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
        return Piece(path, first, text.find("\n", end) + 1)
    if following is not None:
        return Piece(path, start, following)
    comma = text.rfind(",", 0, start)
    return Piece(path, comma if comma > text.rfind("{", 0, start) else start, end)


def shortest(text: str, holds: Callable[[str], bool]) -> str:
    """What is left of a text when nothing more can be taken out of it: without any one piece, what `holds` of it holds no more."""
    text = bare(text)
    while True:
        before, tried = text, set[str]()
        while rest := [each for each in pieces(text) if each.path not in tried and each.path not in KEEPS]:
            tried.add(rest[0].path)
            less = text[: rest[0].start] + text[rest[0].end :]
            if holds(less):
                text = less
        if text == before:
            return text


def explained(text: str) -> str:
    """The text with, behind each line, the question that it answers."""
    lines, path = [], []
    wide = max(len(line) for line in text.splitlines())
    for line in text.splitlines():
        inner = line.lstrip()
        path = [*path[: (len(line) - len(inner)) // 2], inner.removeprefix("- ").partition(":")[0]]
        asked = _question(path, inner)
        lines.append(f"{line:<{wide}}  # {asked}" if asked else line)
    return "\n".join(lines) + "\n"


def _question(path: list[str], line: str) -> str:
    """What the key at the end of a path asks; of an item of a list nothing, its list has asked."""
    fields, asked = Vessel.fields, ""
    for name in path:
        found = fields.get(name)
        if found is None:
            return asked if not line.startswith("- ") else ""
        asked = found.question
        fields = _inside(found)
    return asked


def _inside(found: Field) -> dict[str, Field]:
    while isinstance(found, Named):
        found = found.inner
    return dict(found.blocks.fields) if isinstance(found, Compound | Many) else {}
