"""A file as a tree of text: each value and key with its place. It knows no boat words."""

from __future__ import annotations

from generator.reading.findings import Place


class Source:
    """One file: its name as the user gave it, and whether what it holds may be quoted."""

    __slots__ = ("file", "private")

    def __init__(self, file: str, private: bool = False):
        self.file = file
        self.private = private


class Scalar:
    """A value as typed. `line` and `column` count from 0."""

    __slots__ = ("column", "line", "plain", "source", "text")

    def __init__(self, text: str, line: int, column: int, plain: bool, source: Source):
        self.text = text
        self.line = line
        self.column = column
        self.plain = plain
        self.source = source


class Refused(Scalar):
    """Stands for a value in a form that is refused (an alias): it has been told, nothing more is to be said of it."""

    __slots__ = ()


class Mapping:
    """Keys and values; `keys` holds the place of each key as a Scalar."""

    __slots__ = ("column", "entries", "keys", "line", "source")

    def __init__(self, line: int, column: int, source: Source):
        self.entries: dict[str, Node] = {}
        self.keys: dict[str, Scalar] = {}
        self.line = line
        self.column = column
        self.source = source


class Listing:
    """Values in order."""

    __slots__ = ("column", "items", "line", "source")

    def __init__(self, line: int, column: int, source: Source):
        self.items: list[Node] = []
        self.line = line
        self.column = column
        self.source = source


Node = Scalar | Mapping | Listing


def place_of(node: Node, key: str = "") -> Place:
    """The place of a node, counted from 1."""
    return Place(node.source.file, node.line + 1, node.column + 1, key)
