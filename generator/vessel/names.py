"""The names that a vessel file gives to the shelves: paths of its lists and keys, and the words that keys take."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from generator.reading.fields import Choice, Compound, Field, Many, Named, One, Texts
from generator.shelves.countables import KEY, LIST
from generator.vessel.vessel import Vessel

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.reading.block import Block
    from generator.reading.names import Known


def names_of_a_vessel() -> Known:
    """What shelves may refer to by its path in a vessel file, by the kind that references name: lists, keys, words of a key."""
    lists: list[str] = []
    keys: list[str] = []
    words: dict[str, tuple[str, ...]] = {}
    for path, field in _fields(Vessel, ""):
        if isinstance(field, Many):
            lists.append(path)
        elif not isinstance(field, Compound) or isinstance(field, One):
            keys.append(path)
            if isinstance(field, (Choice, Texts)) and field.choices:
                words[f"word of {path}"] = field.choices
    return {LIST: lists, KEY: keys, **words}


def _fields(kind: type[Block], before: str) -> Iterator[tuple[str, Field[Any]]]:
    """Every field of a block and of the blocks below it, with its path."""
    for key, field in kind.fields.items():
        path = f"{before}.{key}".lstrip(".")
        yield path, field
        if isinstance(field, Compound) and not isinstance(field, Named) and field.blocks:
            yield from _fields(field.blocks, path)
