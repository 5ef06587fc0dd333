"""The names that the blocks of a vessel file give to the shelves: lists, keys, the words keys take, waters, standards."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from generator.reading.fields import Choice, Compound, Field, Many, Named, Texts
from generator.shelves.countables import KEY, LIST, WORD
from generator.vessel.particulars import WATERS
from generator.vessel.radio import Beacon
from generator.vessel.raft import STANDARDS
from generator.vessel.vessel import Vessel

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.reading.block import Block
    from generator.reading.names import Known


def names_of_a_vessel() -> Known:
    """What shelves may refer to in a vessel file, by the kind that references name."""
    lists: list[str] = []
    keys: list[str] = []
    words: list[str] = []
    for path, field in _fields(Vessel, ""):
        if isinstance(field, Many):
            lists.append(path)
        elif not isinstance(field, Compound):
            keys.append(path)
            words += field.choices or () if isinstance(field, (Choice, Texts)) else ()
    return {
        LIST: lists,
        KEY: keys,
        WORD: words,
        "waters": WATERS,
        "standard of rafts": STANDARDS,
        "kind of beacon": Beacon.kind.choices,
    }


def _fields(kind: type[Block], before: str) -> Iterator[tuple[str, Field[Any]]]:
    """Every field of a block and of the blocks below it, with its path."""
    for key, field in kind.fields.items():
        path = f"{before}.{key}".lstrip(".")
        yield path, field
        if isinstance(field, Compound) and not isinstance(field, Named) and field.blocks:
            yield from _fields(field.blocks, path)
