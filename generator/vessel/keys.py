"""The keys of the files that describe a vessel, told from the fields themselves: what `musterbook keys` prints."""

from __future__ import annotations

import textwrap
from dataclasses import dataclass
from typing import Any

from generator.reading.absent import takes_none
from generator.reading.block import Block
from generator.reading.fields import (
    CHECKED,
    ESTIMATE,
    NEEDED,
    OPEN,
    Choice,
    Compound,
    Field,
    Many,
    Named,
    Texts,
    YesNo,
)
from generator.vessel.asking import ONLY_WHERE
from generator.vessel.base import Base
from generator.vessel.base_file import FILE
from generator.vessel.people import Voyage
from generator.vessel.terms import used_in
from generator.vessel.vessel import Vessel

_EFFECTS = {
    NEEDED: "stops publishing",
    ESTIMATE: "is asked for",
    CHECKED: "is asked for by the step or check that needs it",
    OPEN: "costs nothing",
}
_READ_BY = {"guest": "everybody", "crew": "the crew alone", "shore": "crew and shore contact"}
FREEING = (
    "What not everybody reads may be written as private, with its line in private.yaml; one value is freed for guests on "
    "purpose by 'for: guests' beside it: phone: {value: private, for: guests}. The survey names each that is. The number of a "
    "rescue centre is everybody's, and stands on the cards, unless it is written as private."
)
_WIDTH = 100


@dataclass(frozen=True)
class Key:
    """A key of a block: `unknown` is what it does that it says unknown or is left out; `leads_to` names the block under it, if any."""

    name: str
    must: bool
    question: str
    written: str
    unknown: str
    read_by: str
    leads_to: str = ""


@dataclass(frozen=True)
class KeyBlock:
    """A block: its key path in its file (for the file itself, the file's name), what it is, and its keys.

    `form` says how it stands there; `also` are the other paths where the same block stands.
    """

    name: str
    form: str
    says: str
    keys: tuple[Key, ...]
    also: tuple[str, ...] = ()


def key_blocks() -> tuple[KeyBlock, ...]:
    """Every block of vessel.yaml, voyage.yaml and base.yaml, each once, in the order of the files."""
    paths: dict[type[Block], list[tuple[str, str, str]]] = {}
    for file, kind in (("vessel.yaml", Vessel), ("voyage.yaml", Voyage), (FILE, Base)):
        paths[kind] = [(file, "file", file)]
        _walk(kind, "", file, paths)
    first = {kind: places[0][0] for kind, places in paths.items()}
    return tuple(
        KeyBlock(
            places[0][0],
            places[0][1],
            " ".join((kind.__doc__ or "").partition("\n\n")[0].split()),
            tuple(_key(field, first) for field in kind.fields.values()),
            tuple(path for path, _, _ in places[1:]),
        )
        for kind, places in paths.items()
    )


def _walk(
    kind: type[Block], path: str, file: str, paths: dict[type[Block], list[tuple[str, str, str]]]
) -> None:
    """Notes under each kind of block the paths where it stands, going into each kind once."""
    for key, field in kind.fields.items():
        inner = _inner(field)
        if inner is None:
            continue
        here = f"{path}.{key}".lstrip(".")
        known = inner in paths
        paths.setdefault(inner, []).append((here, _form(field), file))
        if not known:
            _walk(inner, here, file, paths)


def _inner(field: Field[Any]) -> type[Block] | None:
    """The block that stands under a key, under names or not."""
    return field.blocks if isinstance(field, Compound) else None


def _form(field: Field[Any]) -> str:
    if isinstance(field, Named):
        return "by emergency and duty"
    return "list" if isinstance(field, Many) else "block"


def _key(field: Field[Any], first: dict[type[Block], str]) -> Key:
    inner = _inner(field)
    return Key(
        field.key,
        field.required,
        field.question,
        _written(field) + " · none" * takes_none(field),
        _effect(field),
        _READ_BY[field.reader],
        first[inner] if inner is not None else "",
    )


def _effect(field: Field[Any]) -> str:
    where = ONLY_WHERE.get(field)
    return f"{_EFFECTS[field.unknown]}{f' where {where.words}' if where else ''}"


def _written(field: Field[Any]) -> str:
    if isinstance(field, Named):
        return "emergencies, in each its duties, at each the block"
    if isinstance(field, Many):
        return "list of blocks"
    if isinstance(field, Compound):
        return "block"
    if isinstance(field, (Choice, YesNo)):
        return " · ".join(field.choices)
    if isinstance(field, Texts) and field.choices:
        return "list of: " + " · ".join(field.choices)
    return str(field.example)


def find(name: str) -> KeyBlock | None:
    """The block of that key path, or the first whose path ends in that key; None where there is none."""
    blocks = key_blocks()
    wanted = name.strip().lower()
    for one in blocks:
        if wanted in (one.name, *one.also):
            return one
    return next(
        (one for one in blocks if any(path.rpartition(".")[2] == wanted for path in (one.name, *one.also))),
        None,
    )


def names() -> tuple[str, ...]:
    """What may be asked for, in the order of the files."""
    return tuple(one.name for one in key_blocks())


def listing() -> str:
    """All blocks, one line each."""
    blocks = key_blocks()
    wide = max(len(one.name) for one in blocks)
    lines = [f"{one.name:<{wide}}  {one.says.partition('. ')[0].rstrip('.')}" for one in blocks]
    return "\n".join([*lines, "", "The keys of one: musterbook keys BLOCK"])


def text(block: KeyBlock) -> str:
    """A block for people: what it is, then each key with its question, how it is written, what it does that it says unknown or is left out."""
    head = block.name if block.form == "file" else f"{block.name} ({block.form})"
    lines = [*_wrapped(f"{head}: {block.says}", "")]
    if block.also:
        lines += _wrapped(f"The same stands under: {', '.join(block.also)}.", "")
    for key in block.keys:
        under = f" (musterbook keys {key.leads_to})" if key.leads_to else ""
        lines += ["", *_wrapped(f"{key.name}{' (must be there)' if key.must else ''}: {key.question}", "  ")]
        lines += _wrapped(
            f"written {key.written}{under}; unknown or left out {key.unknown}; read by {key.read_by}",
            "      ",
        )
    if any(key.read_by != _READ_BY["guest"] for key in block.keys):
        lines += ["", *_wrapped(FREEING, "  ")]
    terms = used_in(words_of(block))
    if terms:
        lines += ["", "  Words:"]
        lines += [line for term, says in terms.items() for line in _wrapped(f"{term}: {says}", "    ")]
    return "\n".join(lines)


def words_of(block: KeyBlock) -> tuple[str, ...]:
    """All that is said of a block: its name, what it is, its keys, their questions and what they take."""
    keys = (part for key in block.keys for part in (key.name, key.question, key.written))
    return (block.name.rpartition(".")[2], block.says, *keys)


def _wrapped(line: str, indent: str) -> list[str]:
    return textwrap.wrap(
        line,
        _WIDTH,
        initial_indent=indent,
        subsequent_indent=indent + "  " * bool(indent),
        break_on_hyphens=False,
    )
