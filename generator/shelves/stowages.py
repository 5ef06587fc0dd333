"""Which stowages and holds there are, and which rafts go with which: the table on the shelf of procedures."""

from __future__ import annotations

import functools
from dataclasses import dataclass

from generator.reading.nodes import plain
from generator.reading.tree import read_file
from generator.shelves.folder import templates_folder

FILE = "combinations.yaml"


@dataclass(frozen=True)
class Stowage:
    """A place for a raft: what it may be packed in and held by there. `float_free` is yes, no or depends."""

    name: str
    containers: tuple[str, ...]
    holds: tuple[str, ...]
    float_free: str
    source: str
    standing: str


@functools.cache
def stowages() -> dict[str, Stowage]:
    """Every stowage of the table by name, in its order."""
    return {
        each["stowage"]: Stowage(
            each["stowage"],
            tuple(each["container"]),
            tuple(each["held-by"]),
            each["float-free"],
            each["source"],
            each["standing"],
        )
        for each in _table()["stowages"]
    }


def holds() -> tuple[str, ...]:
    """Everything that may hold a raft."""
    return tuple(_table()["holds"])


def float_free_containers() -> tuple[str, ...]:
    """What a raft that releases itself is packed in."""
    return tuple(_table()["float-free-containers"])


@functools.cache
def _table():
    path = templates_folder() / "procedures" / FILE
    tree, findings = read_file(path, path.name)
    if tree is None or findings:
        raise ValueError(f"{path.name}: {findings[0].place}: {findings[0].message}")
    return plain(tree)
