"""Keys taken out of a boat's file, or answered unknown there: every block that stands in it, and both changes of its text."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import yaml

from generator.reading.block import Block
from generator.reading.fields import ASKED, Compound, Field, Named
from generator.vessel.asking import ONLY_WHERE
from generator.vessel.vessel import Vessel


@dataclass(frozen=True)
class Standing:
    """A block where it stands in a boat's file."""

    kind: type[Block]
    node: yaml.MappingNode
    text: str

    def says(self, key: str) -> bool:
        """Whether the key is there."""
        return any(name.value == key for name, _ in self.node.value)

    def without(self, key: str) -> str | None:
        """The text without a key and its value; None where the block holds nothing else."""
        pairs = self.node.value
        at = next((number for number, (name, _) in enumerate(pairs) if name.value == key), None)
        if at is None:
            return self.text
        name, value = pairs[at]
        if at + 1 < len(pairs):
            return self.text[: name.start_mark.index] + self.text[pairs[at + 1][0].start_mark.index :]
        if at == 0:
            return None
        end = value.end_mark.index
        if self.node.flow_style:
            return self.text[: pairs[at - 1][1].end_mark.index] + self.text[end:]
        return f"{self.text[: name.start_mark.index].rstrip()}\n{self.text[end:].lstrip(chr(10))}"

    def unknown(self, key: str) -> str:
        """The text with the key answered unknown, whether it was there or not."""
        for name, value in self.node.value:
            if name.value == key:
                start, end = value.start_mark.index, value.end_mark.index
                end = start + len(self.text[start:end].rstrip())
                return f"{self.text[:start]}unknown{self.text[end:]}"
        first = self.node.value[0][0].start_mark
        between = ", " if self.node.flow_style else "\n" + " " * first.column
        return f"{self.text[: first.index]}{key}: unknown{between}{self.text[first.index :]}"


def standing(text: str, root: type[Block] = Vessel) -> Iterator[Standing]:
    """Every block of a file, written with keys."""
    yield from _blocks(yaml.compose(text), root, text)


def _blocks(node: yaml.MappingNode, kind: type[Block], text: str) -> Iterator[Standing]:
    yield Standing(kind, node, text)
    for name, value in node.value:
        field = kind.fields.get(name.value)
        if isinstance(field, Compound):
            yield from _below(field, value, text)


def _below(field: Compound, value: yaml.Node, text: str) -> Iterator[Standing]:
    if isinstance(field, Named):
        for _, each in value.value:
            if isinstance(field.inner, Named):
                yield from _below(field.inner, each, text)
            elif isinstance(each, yaml.MappingNode) and not isinstance(field.inner, Field):
                yield from _blocks(each, field.inner, text)
        return
    for each in value.value if isinstance(value, yaml.SequenceNode) else [value]:
        if isinstance(each, yaml.MappingNode) and field.blocks is not None:
            yield from _blocks(each, field.blocks, text)


def kinds(root: type[Block]) -> dict[type[Block], None]:
    """A kind of block and every kind within it, in the order of the file."""
    found: dict[type[Block], None] = {root: None}
    for field in root.fields.values():
        if isinstance(field, Compound) and field.blocks is not None and field.blocks not in found:
            found |= kinds(field.blocks)
    return found


def always_asked() -> set[str]:
    """Keys that are asked for in whatever block they stand, under no condition."""
    fields = [field for kind in kinds(Vessel) for field in kind.fields.values()]
    sometimes = {
        each.key for each in fields if not each.single or each.unknown not in ASKED or each in ONLY_WHERE
    }
    return {each.key for each in fields} - sometimes
