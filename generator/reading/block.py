"""Block: the values under one key of a file, and where each of them stands."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any, ClassVar, Self, TypeVar

from generator.reading.fields import ASKED, READERS, Compound, Dated, Field, Plain, Single, Text
from generator.reading.findings import Place
from generator.reading.nodes import Listing, Mapping, Node, Scalar, place_of
from generator.reading.values import Keyed, NotKnown, Quantity, Stamp

B = TypeVar("B", bound="Block")


READS = {"guest": ("guest",), "shore": ("guest", "shore"), "crew": READERS}
"""Whose fields a reader sees."""


class Fault(Exception):
    """What a block says of itself that cannot be: at which key, what, and what to write instead."""

    def __init__(self, key: str, message: str, remedy: str):
        super().__init__(message)
        self.key, self.message, self.remedy = key, message, remedy


class Block:
    """Values by field; an absent key is None, `unknown` is UNKNOWN.

    `read_by` has for each key its field, the attribute, and what reads it where it has one value.
    `holding` are the attributes that hold blocks, `dated` those that hold a date.
    `needed` are the fields that must be there, `asked` those of one answer that is asked for where it is not known;
    `asked_in` has for each of these its attribute and whether a value that stands there can only be an answer: no block, nor any word as typed.
    `called` names the field that tells one block of a list from the others, `called_in` is its attribute where that is a text.
    `shorthand` names the field that a bare value stands for, if any. `several` names the field of the number where one
    entry of a list may stand for several things that share all else, `either_side` whether for as many on both sides.
    """

    fields: ClassVar[dict[str, Field[Any]]] = {}
    read_by: ClassVar[dict[str, tuple[Field[Any], str, Callable[[str], Any] | None]]] = {}
    holding: ClassVar[frozenset[str]] = frozenset()
    dated: ClassVar[frozenset[str]] = frozenset()
    needed: ClassVar[tuple[Field[Any], ...]] = ()
    asked: ClassVar[tuple[Field[Any], ...]] = ()
    asked_in: ClassVar[tuple[tuple[str, bool, Field[Any]], ...]] = ()
    called: ClassVar[str] = ""
    called_in: ClassVar[str] = ""
    shorthand: ClassVar[str] = ""
    several: ClassVar[str] = ""
    either_side: ClassVar[bool] = False
    examined: ClassVar[bool] = False
    completed: ClassVar[bool] = False

    def __init_subclass__(cls) -> None:
        cls.fields = dict(cls.fields)
        for field in vars(cls).values():
            if isinstance(field, Field):
                cls.fields[field.key] = field
        cls.read_by = {
            key: (field, field.name, field.read if isinstance(field, Single) else None)
            for key, field in cls.fields.items()
        }
        cls.holding = frozenset(each.name for each in cls.fields.values() if isinstance(each, Compound))
        cls.dated = frozenset(each.name for each in cls.fields.values() if isinstance(each, Dated))
        cls.needed = tuple(field for field in cls.fields.values() if field.required)
        cls.asked = tuple(field for field in cls.fields.values() if field.single and field.unknown in ASKED)
        cls.asked_in = tuple(
            (field.name, isinstance(field, Single) and not isinstance(field, Plain), field)
            for field in cls.asked
        )
        named = cls.fields.get(cls.called)
        cls.called_in = named.name if isinstance(named, Text) else ""
        cls.examined = cls.faults is not Block.faults
        cls.completed = cls.complete is not Block.complete

    def __init__(self, node: Node, path: str):
        self.__dict__["_node"] = node
        self.__dict__["_path"] = path

    def faults(self) -> Iterator[Fault]:
        """What does not go together within the block; a kind that has such rules yields them."""
        yield from ()

    def complete(self) -> None:
        """Fills in what follows from what else is said of it; a kind that has such values does so."""

    def place(self, key: str = "") -> Place:
        """Where the value of `key` stands (kebab-case, as in the file); else where the block starts.

        What a thing shares with others in one entry stands, for each of them, at its own name.
        """
        values = self.__dict__
        node, path = values["_node"], values["_path"]
        full = f"{path}.{key}" if path and key else key or path.strip(".")
        if key and isinstance(node, Mapping) and key in node.entries and key not in node.shared:
            node = node.entries[key]
        return Place(node.source.file, node.line + 1, node.column + 1, full)

    def place_in(self, key: str, number: int) -> Place:
        """Where the value with that number, from 0, of a list under `key` stands."""
        node = self.node.entries.get(key) if isinstance(self.node, Mapping) else None
        if isinstance(node, Listing) and isinstance(self.node, Mapping) and key in self.node.shared:
            return self.place(key)
        if isinstance(node, Listing) and number < len(node.items):
            return place_of(node.items[number], f"{self._path}.{key}".lstrip("."))
        return self.place(key)

    def says(self, key: str) -> bool:
        """Whether the file has the key, with whatever value."""
        return isinstance(self.node, Mapping) and key in self.node.entries

    def answers(self, key: str) -> bool:
        """Whether the file has the key with anything but the word unknown, which tells no more than the key left out."""
        node = self.node.entries.get(key) if isinstance(self.node, Mapping) else None
        if isinstance(node, Listing) and len(node.items) == 1:
            node = node.items[0]
        return node is not None and not (isinstance(node, Scalar) and node.text.strip().lower() == "unknown")

    def says_none(self, key: str) -> bool:
        """Whether the file says that there is none of what stands under a key; its value is that of a key left out."""
        return key in self.__dict__.get("_none", ())

    def key_place(self, key: str) -> Place:
        """Where the key itself stands."""
        keys, shared = (self.node.keys, self.node.shared) if isinstance(self.node, Mapping) else ({}, ())
        if key not in keys or key in shared:
            return self.place(key)
        return place_of(keys[key], f"{self._path}.{key}".lstrip("."))

    def basis(self, key: str) -> str:
        """Where a value comes from: label, certificate, measured, assumed; "" if not said."""
        bases: dict[str, str] = self.__dict__.get("_basis", {})
        return bases.get(key, "")

    @property
    def freed(self) -> tuple[Field[Any], ...]:
        """The fields whose values were freed for guests on purpose."""
        keys: set[str] | None = self.__dict__.get("_freed")
        return tuple(type(self).fields[key] for key in sorted(keys)) if keys else ()

    def is_freed(self, field: Field[Any]) -> bool:
        """Whether what stands under a key was freed for guests on purpose."""
        return field.key in self.__dict__.get("_freed", ())

    def readable(self, field: Field[Any], reader: str) -> bool:
        """Whether `reader` may see what stands under a key: by its field, or because it was freed for guests."""
        return field.reader in READS[reader] or self.is_freed(field)

    def known(self, *names: str) -> bool:
        """Whether all of these attributes are given and known."""
        values = self.__dict__
        for name in names:
            value = values.get(name)
            if value is None or value.__class__ is NotKnown:
                return False
        return True

    def inner(self) -> Iterator[Block]:
        """The block itself and every block in it, in the order of the file."""
        found: list[Block] = [self]
        _look_in(self.__dict__, found)  # also at what its file does not say: a vessel's voyage and base
        return iter(found)

    @property
    def path(self) -> str:
        """The key path of the block in its file."""
        path: str = self.__dict__["_path"]
        return path

    @property
    def node(self) -> Node:
        """The tree it was read from."""
        node: Node = self.__dict__["_node"]
        return node

    @property
    def _path(self) -> str:
        path: str = self.__dict__["_path"]
        return path

    @property
    def original(self) -> Block:
        """The block as it was read: what a reader's copy was made of, else the block itself. It tells things apart."""
        original: Block = self.__dict__.get("_original", self)
        return original

    def seen_by(self, reader: str) -> Self:
        """A copy without what `reader` may not see: guests see guest fields, shore sees shore's and guests', crew all."""
        return _seen_by(self, READS[reader])


_BARE = frozenset((str, tuple, bool, int, Mapping, type(None), NotKnown, Quantity, Stamp))
"""What holds no block: most values, passed over quickly."""


def _gather(value: object, found: list[Block]) -> None:
    """Notes the blocks that a value of a block is made of, each before those in it."""
    if isinstance(value, Block):
        found.append(value)
        if not value.holding.isdisjoint(value.__dict__):
            _look_in(value.__dict__, found)
    elif isinstance(value, (dict, list)):
        for each in value.values() if isinstance(value, dict) else value:
            if each.__class__ not in _BARE:
                _gather(each, found)


def _look_in(values: dict[str, object], found: list[Block]) -> None:
    for name, each in values.items():
        if each.__class__ not in _BARE and name != "_original":
            _gather(each, found)


def _seen_by(block: B, allowed: tuple[str, ...]) -> B:
    copy = object.__new__(type(block))
    copy.__dict__["_original"] = block.original
    for name, value in block.__dict__.items():
        if name == "_original":
            continue
        field = type(block).fields.get(name.rstrip("_").replace("_", "-"))
        if field is not None:
            if field.reader not in allowed and not block.is_freed(field):
                continue
            if isinstance(field, Compound):
                value = _held_for(value, allowed)  # noqa: PLW2901 - the value as this reader may see it
        elif isinstance(value, Block):  # the voyage and the base, which have files of their own
            value = _seen_by(value, allowed)  # noqa: PLW2901 - same
        copy.__dict__[name] = value
    return copy


def _held_for(value: Any, allowed: tuple[str, ...]) -> Any:
    """Blocks, lists of them and named entries, of any depth, as a reader may see them."""
    if isinstance(value, Block):
        return _seen_by(value, allowed)
    if isinstance(value, Keyed):
        kept = Keyed({key: _held_for(each, allowed) for key, each in value.items()})
        kept.places = value.places
        return kept
    return [_held_for(each, allowed) for each in value] if isinstance(value, list) else value
