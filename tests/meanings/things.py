"""The things of a file: blocks and the values in them, each with its place in the text and the field that reads it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

import yaml

from generator.reading.block import Block
from generator.reading.fields import Compound, Field, Many, Named
from generator.vessel.people import Voyage
from generator.vessel.vessel import Vessel

ROOTS: dict[str, type[Block]] = {"voyage.yaml": Voyage}
# What tells of the file, not of the boat.
NOT_OF_THE_BOAT = (
    "format",
    "based-on",
    "base",
    "specimen",
    "deferred-defects",
    "checked-aboard",
    "approved",
    "posted",
)


@dataclass(eq=False)
class Value:
    """What stands under a key: one value, several in a list, or the short form of a block."""

    thing: Thing
    key: str
    field: Field
    node: yaml.Node

    @property
    def texts(self) -> list[yaml.ScalarNode]:
        """The scalars of it."""
        nodes = self.node.value if isinstance(self.node, yaml.SequenceNode) else [self.node]
        return [each for each in nodes if isinstance(each, yaml.ScalarNode)]

    @property
    def text(self) -> str:
        """Its text, where it is one value."""
        return self.node.value if isinstance(self.node, yaml.ScalarNode) else ""


@dataclass(eq=False)
class Thing:
    """A block of the file: `path` as findings name it, `top` the block of the file that it belongs to, `within` what it is part of."""

    path: str
    top: str
    kind: type[Block]
    node: yaml.MappingNode
    within: Thing | None = None
    item_of: yaml.SequenceNode | None = None
    values: dict[str, Value] = field(default_factory=dict)
    parts: list[Thing] = field(default_factory=list)

    def says(self, key: str) -> str:
        """What stands under a key, "" where nothing or no single text does."""
        return self.values[key].text if key in self.values else ""

    @property
    def name(self) -> str:
        """What it is called; for a part without a name, what it is part of."""
        called = self.says(self.kind.called) if self.kind.called else ""
        if called or self.within is None:
            return called
        return self.within.name

    @property
    def own(self) -> Thing:
        """The thing with a line of its own that it is part of: the raft of a painter."""
        return self if self.item_of is not None or self.within is None else self.within.own

    def lines(self) -> range:
        """Its lines in the file, from 1."""
        return range(self.node.start_mark.line + 1, _last_line(self.node) + 1)

    def every(self) -> Iterator[Thing]:
        """It and its parts, in their order."""
        yield self
        for part in self.parts:
            yield from part.every()


def _last_line(node: yaml.Node) -> int:
    """The last line of a node, from 1: a block in lines of its own ends with its last value, not where the next begins."""
    if isinstance(node, yaml.ScalarNode) or node.flow_style or not node.value:
        return int(node.end_mark.line) + 1
    last = node.value[-1]
    return _last_line(last[1] if isinstance(last, tuple) else last)


def things(text: str, file: str) -> list[Thing]:
    """Every thing of a file, in the order of its lines."""
    node = yaml.compose(text)
    assert isinstance(node, yaml.MappingNode)
    root = Thing("", "", ROOTS.get(file, Vessel), node)
    _fill(root)
    return list(root.every())


def _fill(thing: Thing) -> None:
    for key_node, value in thing.node.value:
        key = str(key_node.value)
        found = thing.kind.fields.get(key)
        if found is None or (thing.path == "" and key in NOT_OF_THE_BOAT):
            continue
        path = f"{thing.path}.{key}".lstrip(".")
        _take(thing, path, key, found, value)


def _take(thing: Thing, path: str, key: str, found: Field, value: yaml.Node) -> None:
    if isinstance(found, Named):
        for name, inner in value.value if isinstance(value, yaml.MappingNode) else ():
            at = f"{path}.{name.value}"
            if isinstance(found.inner, Field):
                _take(thing, at, key, found.inner, inner)
            elif isinstance(inner, yaml.MappingNode):
                _add(thing, at, found.inner, inner, None)
    elif isinstance(found, Compound):
        items = value.value if isinstance(value, yaml.SequenceNode) else [value]
        of = value if isinstance(found, Many) and isinstance(value, yaml.SequenceNode) else None
        for number, item in enumerate(items):
            if isinstance(item, yaml.MappingNode):
                _add(thing, f"{path}[{number}]" if of is not None else path, found.blocks, item, of)
            elif isinstance(item, yaml.ScalarNode):
                thing.values.setdefault(key, Value(thing, key, found, value))
    elif not isinstance(value, yaml.MappingNode):
        thing.values[key] = Value(thing, key, found, value)


def _add(
    within: Thing, path: str, kind: type[Block], node: yaml.MappingNode, of: yaml.SequenceNode | None
) -> None:
    top = within.top or path.partition("[")[0].partition(".")[0]
    part = Thing(path, top, kind, node, within if within.path else None, of)
    within.parts.append(part)
    _fill(part)
