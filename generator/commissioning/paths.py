"""Key paths as answers name them: vessel.use, rafts[aft raft].painter.length, station-bill.fire.command.who."""

from __future__ import annotations

import functools
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, NamedTuple

from generator.commissioning.refusal import Refusal
from generator.reading.editing import Entry, Key, Step, scalar
from generator.reading.fields import Compound, Field, Many, Misread, Named, One, Single
from generator.reading.nearest import alike, either, near, shortened
from generator.shelves.procedures import shelf
from generator.vessel.vessel import Vessel

if TYPE_CHECKING:
    from collections.abc import Iterable

    from generator.reading.block import Block

_PART = re.compile(r"([^.\[\]=]+)(?:\[([^\[\]]*)\](?:\[([1-9][0-9]?)\])?)?")
_BY_THE_PROGRAM = {
    "format": "the program writes it",
    "vessel.name": "NAME says it: musterbook commission NAME",
}


@dataclass(frozen=True)
class Target:
    """A key that an answer fills in: the path as findings name it, the field of the key, and the steps down to it.

    `read_by` is the field that reads it: another where words may stand for a whole block.
    """

    path: str
    field: Field[Any]
    read_by: Field[Any]
    steps: tuple[Step, ...]

    @property
    def entry(self) -> tuple[str, Entry] | None:
        """The list and the entry of it that the path leads through first; None where it leads through none."""
        names: list[str] = []
        for step in self.steps:
            if isinstance(step, Entry):
                return ".".join(names), step
            names.append(step.name)
        return None


def target(text: str) -> Target:
    """The key that a path names; raises Refusal with the nearest there is."""
    path = text.strip()
    parts = _parts(path) if path.isprintable() else None
    if parts is None:
        raise Refusal(
            f"'{shortened(path)}' is no key path; write it like vessel.use or rafts[liferaft].persons"
        )
    return _Walk(path, parts).end()


def answered(text: str) -> Target:
    """The key that an answer names; raises Refusal as `target` does, and for what the program says itself."""
    one = target(text)
    if one.path in _BY_THE_PROGRAM:
        raise Refusal(f"{one.path} takes no answer; {_BY_THE_PROGRAM[one.path]}")
    return one


def holds_keys(text: str) -> bool:
    """Whether a path leads to one block, whose keys may be answered together."""
    path = text.strip()
    parts = _parts(path)
    if parts is None:
        return False
    walk = _Walk(path, parts)
    try:
        field, kind = walk.down()
    except Refusal:
        return False
    return kind is not None and (not isinstance(field, Many) or isinstance(walk.steps[-1], Entry))


def list_at(text: str) -> Many[Any] | None:
    """The list that a path leads to, as a whole; None where it leads to anything else."""
    path = text.strip()
    parts = _parts(path)
    if parts is None:
        return None
    walk = _Walk(path, parts)
    try:
        field, _ = walk.down()
    except Refusal:
        return None
    return field if isinstance(field, Many) and not isinstance(walk.steps[-1], Entry) else None


class _Part(NamedTuple):
    """A key of a path, the name in its brackets, None where there are none, and which of that name is meant."""

    key: str
    name: str | None
    which: int


def _parts(path: str) -> list[_Part] | None:
    """The parts of a path; None where it is no path."""
    found, at = [], 0
    while at < len(path):
        match = _PART.match(path, at)
        if match is None:
            return None
        name = None if match[2] is None else " ".join(match[2].split())
        found.append(_Part(match[1].strip(), name, int(match[3] or 1)))
        at = match.end()
        if at < len(path):
            if path[at] != "." or at + 1 == len(path):
                return None
            at += 1
    return found or None


class _Walk:
    """One walk down a path."""

    def __init__(self, path: str, parts: list[_Part]) -> None:
        self.path, self.parts = path, parts
        self.steps: list[Step] = []
        self.said = ""

    def end(self) -> Target:
        """Where it ends."""
        return self._target(*self.down())

    def down(self) -> tuple[Field[Any], type[Block] | None]:
        """The last field, and the kind of block that it or its entry holds, if any."""
        kind: type[Block] | None = Vessel
        field: Field[Any] | None = None
        while self.parts:
            key, name, which = self.parts.pop(0)
            if kind is None:
                raise Refusal(f"{self.path}: {self.said} takes one value, and no key stands below it")
            field = self._field(kind, key)
            inner = field.block if isinstance(field, One) else None
            self.said = f"{self.said}.{field.key}".lstrip(".")
            order = tuple(Vessel.fields) if kind is Vessel else ()
            self.steps.append(Key(field.key, _needed(inner), order, kind.shorthand))
            if isinstance(field, Many):
                kind = self._entry(field, name, which)
                continue
            if name is not None:
                raise Refusal(f"{self.path}: {self.said} is no list; write it without [{name}]")
            kind = self._named(field) if isinstance(field, Named) else inner
        assert field is not None, "a path has a part"
        return field, kind

    def _target(self, field: Field[Any], kind: type[Block] | None) -> Target:
        """What the last key takes: words that stand for a whole block go to the key they stand for."""
        if isinstance(field, Many) and isinstance(self.steps[-1], Entry):
            keys = ", ".join(f"{self.said}.{each}" for each in list(field.block.fields)[:4])
            raise Refusal(f"{self.path}: a whole entry takes no answer; name a key of it: {keys}")
        if kind is not None and kind.shorthand and not isinstance(field, Many):
            if isinstance(field, Named):
                self.steps.append(Key(kind.shorthand))
                self.said = f"{self.said}.{kind.shorthand}"
                field = kind.fields[kind.shorthand]
            return Target(self.said, field, kind.fields[kind.shorthand], tuple(self.steps))
        if kind is not None and isinstance(field, (One, Named)):
            keys = ", ".join(f"{self.said}.{each}" for each in list(kind.fields)[:4])
            raise Refusal(f"{self.path}: a whole block takes no answer; name a key of it: {keys}")
        return Target(self.said, field, field, tuple(self.steps))

    def _field(self, kind: type[Block], key: str) -> Field[Any]:
        if key in kind.fields:
            return kind.fields[key]
        before = f"{self.said}." if self.said else ""
        close = near(key, kind.fields)
        if close:
            rest = ".".join(each.key for each in self.parts)
            raise Refusal(
                f"'{shortened(self.path)}' is no key of a vessel file; write {either([before + each + ('.' if rest else '') + rest for each in close])}?"
            )
        last = self.parts[-1].key if self.parts else key
        likely = [path for path in key_paths() if path.rpartition(".")[2] == last] or alike(
            self.path, key_paths()
        )
        block = f" {self.said.split('[')[0]}" if self.said else ""
        write = f"write one of: {', '.join(likely[:5])}" if likely else f"look it up: musterbook keys{block}"
        raise Refusal(f"'{shortened(self.path)}' is no key of a vessel file; {write}")

    def _entry(self, field: Many[Any], name: str | None, which: int) -> type[Block]:
        """Steps into an entry of a list, if one is named."""
        block, called = field.block, field.block.called
        if name is None:
            if self.parts:
                like = f"[{_name_like(block)}]" if called else "[1]"
                rest = ".".join(each.key for each in self.parts)
                raise Refusal(
                    f"{self.path}: of {self.said} there may be several; write which: {self.said}{like}.{rest}"
                )
            return block
        if not called:
            if not re.fullmatch("[1-9][0-9]?", name):
                raise Refusal(
                    f"{self.path}: entries of {self.said} have no names; write the number: {self.said}[1]"
                )
            self.steps.append(Entry("", name, _needed(block), block.shorthand))
        else:
            name = self._called(block, name)
            self.steps.append(
                Entry(called, name, _needed(block), block.shorthand, scalar(name), block.several, which)
            )
        self.said = f"{self.said}[{name}]" + (f"[{which}]" if which > 1 else "")
        return block

    def _called(self, block: type[Block], name: str) -> str:
        """What an entry is called, as its own field has it."""
        if re.fullmatch("[0-9]+", name):
            like = f"{self.said}[{_name_like(block)}]"
            raise Refusal(
                f"{self.path}: entries are told apart by their names; write it like {like}, of two of one name the second {like}[2]"
            )
        field = block.fields[block.called]
        assert isinstance(field, Single), "a name is one value"
        try:
            return str(field.read(name))
        except Misread as error:
            raise Refusal(f"{self.path}: {error.message}; {error.remedy}") from None

    def _named(self, field: Field[Any]) -> type[Block]:
        """Steps into entries under names; those of the station bill are emergencies and duties that there are."""
        duties = {one.id: [line.id for line in one.duties] for one in shelf() if one.duties}
        names: Iterable[str] = duties
        while isinstance(field, Named):
            if not self.parts:
                raise Refusal(f"{self.path}: write it to the end, like {self.said}.{_bill_like()}")
            name = self.parts.pop(0).key
            if name not in names:
                close = near(name, names)
                said = either([f"{self.said}.{each}" for each in close])
                write = f"write {said}?" if close else f"it has: {', '.join(names)}"
                raise Refusal(f"{self.path}: {self.said} has no '{name}'; {write}")
            names = duties.get(name, ())
            self.steps.append(Key(name))
            self.said = f"{self.said}.{name}"
            if not isinstance(field.inner, Named):
                break
            field = field.inner
        block = field.blocks if isinstance(field, Named) else None
        assert block is not None, "a block stands under the names"
        last = self.steps.pop()
        assert isinstance(last, Key), "names are keys"
        self.steps.append(Key(last.name, _needed(block)))
        return block


def _needed(block: type[Block] | None) -> tuple[str, ...]:
    return tuple(field.key for field in block.needed) if block is not None else ()


def _name_like(block: type[Block]) -> str:
    return str(block.fields[block.called].example).split(",")[0]


def _bill_like() -> str:
    one = next(one for one in shelf() if one.duties)
    return f"{one.id}.{one.duties[0].id}.who"


@functools.cache
def key_paths() -> tuple[str, ...]:
    """Every key that an answer may fill in, lists with [NAME] or [NUMBER], named entries with the names there are."""
    return tuple(path for path in _below(Vessel, "") if path not in _BY_THE_PROGRAM)


def _below(kind: type[Block], before: str) -> list[str]:
    found = []
    for key, field in kind.fields.items():
        path = f"{before}{key}"
        if isinstance(field, Many):
            found += _below(field.block, f"{path}[{'NAME' if field.block.called else 'NUMBER'}].")
        elif isinstance(field, Named):
            assert field.blocks is not None, "a block stands under the names"
            for one in shelf():
                for line in one.duties:
                    found += _below(field.blocks, f"{path}.{one.id}.{line.id}.")
        elif isinstance(field, One):
            found += _below(field.block, f"{path}.")
        else:
            assert not isinstance(field, Compound), "there is no other kind of field that holds blocks"
            found.append(path)
    return found
