"""A file as a tree of text: each value and key with its place. It knows no boat words."""

from __future__ import annotations

from dataclasses import dataclass

from generator.reading.findings import Place


@dataclass(frozen=True)
class Sort:
    """A sort of file: what findings call it, and what they advise where its form is wrong."""

    called: str
    empty: str
    keyless: str
    first_key: str
    one: str
    too_large: str
    too_long: str
    too_deep: str
    instead_of_alias: str


OF_A_VESSEL = Sort(
    called="a vessel file",
    empty="start one with: musterbook commission NAME",
    keyless="a starter file comes from: musterbook commission NAME",
    first_key="a key such as 'format:'",
    one="one file describes one vessel: remove the line '---'",
    too_large="keep only the description of one vessel in it; photos are named, not pasted",
    too_long="keep only the description of one vessel in it",
    too_deep="a vessel file is at most six deep; check brackets and indentation",
    instead_of_alias="write the value out, or put what sister ships share into a class file and name it in 'based-on'",
)
OF_A_SHELF = Sort(
    called="a file of this shelf",
    empty="put back the file as installed, or write its keys",
    keyless="the schema beside the file says which",
    first_key="a key",
    one="everything stands in one document: remove the line '---'",
    too_large="put back the file as installed, or take out what does not belong in it",
    too_long="put back the file as installed, or take out what does not belong in it",
    too_deep="check brackets and indentation",
    instead_of_alias="write the value out",
)


class Source:
    """One file: its name as the user gave it, whether what it holds may be quoted, its sort, and whether all of it is known to be ASCII.

    `letters` are those beyond ASCII that may stand in its values, each once; None where that is not known.
    """

    __slots__ = ("ascii", "file", "letters", "private", "sort")

    def __init__(self, file: str, private: bool = False, sort: Sort = OF_A_VESSEL):
        self.file = file
        self.private = private
        self.sort = sort
        self.ascii = False
        self.letters: frozenset[str] | None = None


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


At = tuple[int, int, bool]
"""Line and column of a key, and whether it stands without quotes."""


class Mapping:
    """Keys and values; `keys` holds the place of each key as a Scalar, `shared` the keys that it shares with other things.

    `at` is where keys stand of which nobody has asked yet: most never are.
    """

    __slots__ = ("_keys", "at", "column", "entries", "line", "shared", "source")

    def __init__(self, line: int, column: int, source: Source):
        self.entries: dict[str, Node] = {}
        self.at: dict[str, At] = {}
        self._keys: dict[str, Scalar] = {}
        self.shared: frozenset[str] = frozenset()
        self.line = line
        self.column = column
        self.source = source

    @property
    def keys(self) -> dict[str, Scalar]:
        """The keys by name, as they stand in the file."""
        if self.at:
            source = self.source
            for name, (line, column, plain) in self.at.items():
                self._keys[name] = Scalar(name, line, column, plain, source)
            self.at = {}
        return self._keys

    @keys.setter
    def keys(self, keys: dict[str, Scalar]) -> None:
        self.at, self._keys = {}, keys


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


def breaks_off(node: Mapping, key: str) -> bool:
    """Whether a key in { } is none at all, but what follows the comma of a text: no colon stands between it and its blank."""
    at, value = node.keys[key], node.entries[key]
    return isinstance(value, Scalar) and (value.text, value.line, value.column) == (
        "",
        at.line,
        at.column + len(key),
    )
