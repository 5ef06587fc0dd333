"""Block: the values under one key of a vessel file, and where each of them stands."""

from __future__ import annotations

from generator.reading.fields import READERS, Field, Many, Named, One
from generator.reading.findings import Place
from generator.reading.tree import place_of
from generator.reading.values import NotKnown


class Block:
    """Values by field; an absent key is None, `unknown` is UNKNOWN.

    `called` names the field that tells one block of a list from the others.
    `shorthand` names the field that a bare value stands for, if any.
    """

    fields: dict[str, Field] = {}
    called: str = ""
    shorthand: str = ""

    def __init_subclass__(cls):
        cls.fields = dict(cls.fields)
        for field in vars(cls).values():
            if isinstance(field, Field):
                cls.fields[field.key] = field
        cls.needed = tuple(field for field in cls.fields.values() if field.required)

    def __init__(self, node, path: str):
        self.__dict__["_node"] = node
        self.__dict__["_path"] = path

    def place(self, key: str = "") -> Place:
        """Where the value of `key` stands (kebab-case, as in the file); else where the block starts."""
        node, path = self._node, self._path
        entries = getattr(node, "entries", {})
        if key in entries:
            return place_of(entries[key], f"{path}.{key}".lstrip("."))
        return place_of(node, f"{path}.{key}".strip("."))

    def key_place(self, key: str) -> Place:
        """Where the key itself stands."""
        keys = getattr(self._node, "keys", {})
        return place_of(keys[key], f"{self._path}.{key}".lstrip(".")) if key in keys else self.place(key)

    def basis(self, key: str) -> str:
        """Where a value comes from: label, certificate, measured, assumed; "" if not said."""
        return self.__dict__.get("_basis", {}).get(key, "")

    def known(self, *names: str) -> bool:
        """Whether all of these attributes are given and known."""
        return all(
            self.__dict__.get(name) is not None and not isinstance(self.__dict__.get(name), NotKnown)
            for name in names
        )

    @property
    def path(self) -> str:
        """The key path of the block in its file."""
        return self._path


def for_reader(block: Block, reader: str) -> Block:
    """A copy without what `reader` may not see: guests see guest fields, shore sees shore's and guests', crew all."""
    allowed = {"guest": ("guest",), "shore": ("guest", "shore"), "crew": READERS}[reader]
    copy = object.__new__(type(block))
    for name, value in block.__dict__.items():
        field = type(block).fields.get(name.rstrip("_").replace("_", "-"))
        if field is not None:
            if field.reader not in allowed:
                continue
            if isinstance(field, Many):
                value = [for_reader(each, reader) for each in value] if isinstance(value, list) else value
            elif isinstance(field, Named):
                value = _named_for_reader(value, reader)
            elif isinstance(field, One):
                value = for_reader(value, reader) if isinstance(value, Block) else value
        elif isinstance(value, Block):  # the voyage, which has a file of its own
            value = for_reader(value, reader)
        copy.__dict__[name] = value
    return copy


def _named_for_reader(value, reader):
    """Named entries, of any depth, as a reader may see them."""
    if isinstance(value, dict):
        return {key: _named_for_reader(each, reader) for key, each in value.items()}
    return for_reader(value, reader) if isinstance(value, Block) else value
