"""Tree to blocks: every value read by its field, all errors collected. Boats' files and the program's shelves alike."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from collections.abc import Mapping as Mapping_
from typing import Any, TypeVar

from generator.reading.block import Block
from generator.reading.fields import IF_NONE, IF_OPEN, Field, Listed, Many, Misread, Named, One, Single, T
from generator.reading.findings import Finding, Place, Weight
from generator.reading.measures import Count
from generator.reading.nearest import shortened
from generator.reading.nodes import OF_A_VESSEL, Listing, Mapping, Node, Refused, Scalar, place_of
from generator.reading.remedies import answer, removed, sample, some, wanted
from generator.reading.shares import Shares, in_a_row
from generator.reading.slips import as_keys, as_list, unknown
from generator.reading.together import each_of, is_on_both_sides, told_once
from generator.reading.values import UNKNOWN, UNREAD, Counted, Keyed, NotKnown

B = TypeVar("B", bound=Block)
Keys = Mapping_[str, Field[Any]]
N = TypeVar("N", bound=Node)

NO_VALUE = frozenset(("", "?", "~", "null", "Null", "NULL"))
_SUGGESTIONS = 200  # more unknown keys are none of ours; looking for the nearest of each would take minutes


class Loader:
    """Reads blocks out of trees; what is wrong goes into `findings`, the key paths of what could not be read into `unreadable`.

    `special` are the words that are no plain values, `whole` is what messages call the file, `open_answer` what may stand for a value.
    """

    special: frozenset[str] = NO_VALUE
    whole = "this file"
    open_answer = ""

    def __init__(self) -> None:
        self.findings: list[Finding] = []
        self.unreadable: dict[str, Place] = {}
        self.unknown_keys = 0

    def block(self, kind: type[B], node: Node, path: str) -> B:  # noqa: C901, PLR0912 - calls cost here
        """A block of `kind` from its node; `path` is the key path that findings name."""
        block = kind(node, path)
        if node.__class__ is Scalar and kind.shorthand:
            wrapped = Mapping(node.line, node.column, node.source)
            wrapped.entries[kind.shorthand] = node
            block.__dict__["_node"] = node = wrapped
        if not isinstance(node, Mapping):
            what, meant = "value" if node.__class__ is Scalar else "list", as_keys(node)
            if meant is None:
                if node.__class__ is not Refused:
                    remedy = f"write its keys, indented: {some(kind.fields)}"
                    self.bad(node, path, f"a {what} stands where keys belong", remedy)
                return block
            remedy = "take the '- ' away: its keys stand one below the other"
            self.told_and_read(node, path, f"a {what} stands where keys belong", remedy)
            block.__dict__["_node"] = node = meant
        read_by, values, special = kind.read_by, block.__dict__, self.special
        if not node.entries.keys() <= read_by.keys():
            self.slips(node, kind.fields, path)
        entries = node.entries
        if not entries and not kind.needed:
            self.bad(
                node,
                path,
                "the block is empty",
                f"write its keys ({some(kind.fields)}), or remove it",
                "file.blank-value",
            )
        for key, child in entries.items():
            if (found := read_by.get(key)) is None:
                self._unknown_key(kind, node, key, path)
                continue
            field, name, read = found
            if read is not None and child.__class__ is Scalar:
                text = child.text.strip()
                if text in special:
                    value = self.special_word(field, child, path, key)
                else:
                    try:
                        value = read(text)
                    except Misread as error:
                        value = None if self.says_none(field, child, block) else UNREAD
                        if value is UNREAD:
                            self.misread(error, field, child, path, key)
                values[name] = value
            else:
                value = self._other(field, child, f"{path}.{key}" if path else key, block)
                if field.single or value is not UNKNOWN:
                    values[name] = value
        for field in kind.needed:
            if field.key not in entries:
                self._missing(field, node, path)
        if kind.completed:
            block.complete()
        if kind.examined:
            for fault in block.faults():
                place = block.place(fault.key)
                self.findings.append(
                    Finding("file.bad-value", Weight.DEFECT, fault.message, place, fault.remedy)
                )
        return block

    def special_word(self, field: Field[Any], node: Node, path: str, key: str) -> Any:
        """What stands for no value: a blank, or one of the words of `special`."""
        text, full = _text(node).strip().lower(), f"{path}.{key}".lstrip(".")
        what = f"'{text}' stands where a value belongs" if text else "the value is blank"
        ways = (f"write {answer(field)}", *([IF_OPEN] if self.open_answer else []), *removed(field))
        self.bad(node, full, f"{what}: {field.question}", "; ".join(ways), "file.blank-value")
        return UNREAD

    def says_none(self, field: Field[Any], node: Node, block: Block) -> bool:
        """Whether a word says that there is none of it; a shelf leaves such keys out."""
        del field, node, block
        return False

    def wrapped(self, field: Single[Any], node: Node, path: str, block: Block) -> Any:
        """The value of a field of one value under which a list or keys stand."""
        del block  # a boat's loader notes in it where the value comes from
        if isinstance(node, Refused):
            return UNREAD
        self.bad(node, path, f"a list or block stands where a {field.kind} belongs", f"write {sample(field)}")
        return UNREAD

    def misread(self, error: Misread, field: Field[Any], node: Node, path: str, key: str) -> None:
        """Tells of a value that its field cannot read."""
        moot = ((IF_OPEN,) if not self.open_answer else ()) + ((IF_NONE,) if field.required else ())
        message = error.message.replace(OF_A_VESSEL.called, self.whole)
        remedy = "; ".join(way for way in error.ways if way not in moot)
        self.bad(node, f"{path}.{key}".lstrip("."), message, remedy)

    def listed_at(self, path: str) -> str:
        """Where the keys of the block at a path are listed; "" where nowhere but in the message."""
        del path  # a shelf's keys stand in its schema
        return ""

    def slips(self, node: Mapping, fields: Keys, path: str) -> None:
        """Reads slips of the hand in the keys of a block as meant; of a shelf's files they are told and left."""

    def bad(self, node: Node, path: str, message: str, remedy: str, check: str = "file.bad-value") -> None:
        """A defect at a node, of what cannot be read there."""
        self.unreadable[path] = place_of(node, path)
        self.findings.append(Finding(check, Weight.DEFECT, message, place_of(node, path), remedy))

    def told_and_read(
        self, node: Node, path: str, message: str, remedy: str, check: str = "file.bad-value"
    ) -> None:
        """The same of what is read nevertheless, as it can only be meant."""
        self.bad(node, path, message, remedy, check)
        del self.unreadable[path]

    def is_special(self, node: Node) -> bool:
        """Whether a word stands there that is no plain value."""
        return node.__class__ is Scalar and node.text.strip() in self.special

    def _other(self, field: Field[Any], node: Node, path: str, block: Block) -> Any:
        """The value of a field that holds blocks or lists, or of a scalar field written with more than its value."""
        if node.__class__ is Refused:
            return UNREAD if isinstance(field, Single) else field.blank
        if node.__class__ is Scalar:
            if self.says_none(field, node, block):
                return field.blank
            if self.is_special(node) and not isinstance(field, Listed):
                self.special_word(field, node, path.rpartition(".")[0], field.key)
                return field.blank
        if isinstance(field, Many):
            return self._many(field, node, path)
        if isinstance(field, Named):
            return self._named(field, node, path)
        if isinstance(field, One):
            return self.block(field.block, node, path)
        if isinstance(field, Listed):
            return self._listed(field, node, path)
        assert isinstance(field, Single), "every field that is no list and holds no blocks has one value"
        return self.wrapped(field, node, path, block)

    def _many(self, field: Many[B], node: Node, path: str) -> list[B]:
        if not isinstance(node, Listing):
            meant = as_list(node, field.block.fields)
            tell = self.bad if meant is None else self.told_and_read
            remedy = "start each entry with '- ', also a single one"
            tell(node, path, "one thing stands where a list belongs", remedy)
            if meant is None:
                return []
            node = meant
        if not node.items:
            self._empty(field, node, path)
        made: list[B] = []
        seen: dict[str, Place] = {}
        for number, item in enumerate(
            self._within_bounds(field, self._things(field.block, node, path), path), 1
        ):
            called = item.entries.get(field.block.called) if isinstance(item, Mapping) else None
            name = self._name(field.block, called)
            inner = f"{path}[{name or number}]"
            if field.distinct and name in seen and called is not None:
                message, place = f"two are called '{name}'", place_of(called, inner)
                remedy, also = "give each its own name, or keep the one that is true", (seen[name],)
                self.findings.append(
                    Finding("file.bad-value", Weight.DEFECT, message, place, remedy, also=also)
                )
            elif field.distinct and name and called is not None:
                seen[name] = place_of(called, inner)
            shared, before = isinstance(item, Mapping) and item.shared, len(self.findings)
            made += self.entry(field, field.block, item, inner)
            if shared:
                self.findings[before:] = told_once(self.findings, before)
        return made

    def _things(self, kind: type[Block], node: Listing, path: str) -> list[Node]:
        """The entries of a list, those that stand for several things one by one."""
        if not kind.several:
            return node.items
        things: list[Node] = []
        for number, item in enumerate(node.items, 1):
            named = item.entries.get(kind.called) if isinstance(item, Mapping) else None
            alone = named is None or isinstance(named, Scalar)
            if not isinstance(item, Mapping) or (alone and not (kind.either_side and is_on_both_sides(item))):
                things.append(item)
                continue
            apart, clashes = each_of(item, kind.called, kind.several, either_side=kind.either_side)
            things += apart
            for each in clashes:
                self.bad(each.node, f"{path}[{number}].{each.key}", each.message, each.remedy, each.check)
        return things

    def _name(self, kind: type[Block], called: Node | None) -> str:
        """What findings call an entry of a list; "" where that is not said, or not to be told."""
        if not isinstance(called, Scalar) or called.text.strip() in self.special:
            return ""
        return shortened(called.text) if kind.fields[kind.called].reader == "guest" else ""

    def entry(self, field: Field[Any], kind: type[B], node: Node, path: str) -> list[B]:
        """One entry of a list or of named blocks, as a list; empty where it is blank or unknown."""
        if node.__class__ is Refused:
            return []
        if self.is_special(node) and not kind.shorthand:
            self.special_word(field, node, "", path)
            return []
        return [self.block(kind, node, path)]

    def _empty(self, field: Field[Any], node: Node, path: str) -> None:
        instead = f", or write {self.open_answer}" if self.open_answer else ""
        self.bad(
            node,
            path,
            "the list is empty",
            f"remove '{field.key}' if there is none{instead}",
            "file.blank-value",
        )

    def _named(self, field: Named[Any], node: Node, path: str, question: str = "") -> Keyed[Any]:
        made: Keyed[Any] = Keyed()
        question = question or field.question
        if not isinstance(node, Mapping):
            self.bad(
                node,
                path,
                "a list or value stands where named entries belong",
                "write 'name:' and what belongs to it below",
            )
            return made
        if not node.entries:
            self.bad(
                node,
                path,
                f"the block is empty: {question}",
                "write its entries, or remove it",
                "file.blank-value",
            )
        kept = self._within_bounds(field, [node.keys[key] for key in node.entries], path)
        for key, child in list(node.entries.items())[: len(kept)]:
            inner = f"{path}.{key}"
            made.places[key] = place_of(node.keys[key], inner)
            if not isinstance(field.inner, Field):
                made.update((key, block) for block in self.entry(field, field.inner, child, inner))
            elif child.__class__ is not Refused:
                self._named_value(made, field, child, path, key, question)
        return made

    def _named_value(
        self, made: Keyed[Any], field: Named[Any], node: Node, path: str, key: str, question: str
    ) -> None:
        """One named entry that is no block: a value, words, or named entries again."""
        inner, full = field.inner, f"{path}.{key}"
        if isinstance(inner, Listed):
            made[key] = self._listed(inner, node, full)
        elif self.is_special(node):
            self.special_word(field, node, path, key)
        elif isinstance(inner, Named):
            made[key] = self._named(inner, node, full, question)
        elif not isinstance(node, Scalar) or not isinstance(inner, Single):
            self.bad(
                node, full, "a list or block stands where a value belongs", f"write {key}: and one value"
            )
        else:
            try:
                made[key] = inner.read(node.text.strip())
            except Misread as error:
                self.misread(error, field, node, path, key)

    def _listed(self, field: Listed[T], node: Node, path: str) -> tuple[T, ...]:
        if isinstance(node, Listing) and not node.items:
            self._empty(field, node, path)
        items = node.items if isinstance(node, Listing) else [node]
        if isinstance(node, Scalar) and (parts := in_a_row(field.of, node.text)[: field.most]):
            several, written = "words" if field.choices else "values", ", ".join(map(str, parts))
            self.bad(node, path, f"several {several} stand here as one", f"write {field.key}: [{written}]")
            return tuple(parts)
        read: list[T] = []
        for item in self._within_bounds(field, items, path):
            if item.__class__ is Scalar and (text := item.text.strip()) not in self.special:
                try:
                    read.append(field.of.read(text))
                except Misread as error:
                    parent, _, key = path.rpartition(".")
                    self.misread(error, field, item, parent, field.key or key)
            else:
                read += [value for value in self._values(field, item, path) if value is not None]
        return tuple(read)

    def _values(self, field: Listed[Any], node: Node, path: str) -> Iterator[Any]:
        """One entry of a list of values; of words with numbers behind them it may hold several."""
        if isinstance(node, Mapping) and isinstance(field, Shares):
            for key, child in node.entries.items():
                if word := self._value(field, node.keys[key], path):
                    yield Counted(word, self._number(field.number, child, path, key))
        else:
            yield self._value(field, node, path)

    def _number(self, field: Count, node: Node, path: str, key: str) -> int | NotKnown | None:
        """How many of a word are meant."""
        text = _text(node).strip()
        if self.open_answer and text.lower() == self.open_answer:
            return UNKNOWN
        if text in NO_VALUE and node.__class__ is not Refused:
            self.bad(node, f"{path}.{key}", "no number stands here", f"write {key}: {field.example}")
        elif text not in NO_VALUE:
            try:
                return field.read(text)
            except Misread as error:
                self.misread(error, field, node, path, key)
        return UNREAD

    def _within_bounds(self, field: Field[Any], items: Sequence[N], path: str) -> Sequence[N]:
        """The entries that a list takes; those beyond its bound are told of and left unread."""
        if len(items) > field.most:
            self.told_and_read(
                items[field.most],
                path,
                f"{len(items):,} entries stand here, and {field.most:,} are the most",
                "keep those that are true, and put what is alike into one entry with its number",
            )
        return items[: field.most]

    def _value(self, field: Listed[T], node: Node, path: str) -> T | None:
        if node.__class__ is Refused:
            return None
        if not isinstance(node, Scalar):
            self.bad(
                node, path, "a list or block stands where a word belongs", "write [one, two] or a single word"
            )
            return None
        parent, _, key = path.rpartition(".")
        if self.is_special(node):
            self.special_word(field, node, parent, key)
            return None
        try:
            return field.of.read(node.text.strip())
        except Misread as error:
            self.misread(error, field, node, parent, field.key or key)
            return None

    def _missing(self, field: Field[Any], node: Node, path: str) -> None:
        full = f"{path}.{field.key}".lstrip(".")
        self.unreadable[full] = place_of(node, full)
        instead = f", or {field.key}: {self.open_answer}" if self.open_answer else ""
        self.findings.append(
            Finding(
                "file.missing-key",
                Weight.DEFECT,
                f"'{full}' is missing: {field.question}",
                place_of(node, full),
                f"write {wanted(field)}{instead}",
            )
        )

    def _unknown_key(self, kind: type[Block], node: Mapping, key: str, path: str) -> None:
        self.unknown_keys += 1
        where, near = path or self.whole, self.unknown_keys <= _SUGGESTIONS
        message, remedy = unknown(node, key, where, kind.fields, self.listed_at(path), suggested=near)
        place = place_of(node.keys[key], f"{path}.{key}".lstrip("."))
        self.findings.append(Finding("file.unknown-key", Weight.DEFECT, message, place, remedy))


def _text(node: Node) -> str:
    return node.text if isinstance(node, Scalar) else ""
