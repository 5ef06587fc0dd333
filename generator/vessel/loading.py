"""Tree to Vessel: class file, voyage and private values filled in; what `unknown` and `private` do."""

from __future__ import annotations

import os
import re
from collections.abc import Collection, Sequence
from pathlib import Path
from typing import Any

from generator.machine.opening import Outside
from generator.reading.absent import NONE, takes_none
from generator.reading.block import B, Block
from generator.reading.fields import ASKED, Compound, Dated, Field, Listed, Misread, Single
from generator.reading.findings import Finding, Place, Weight
from generator.reading.loader import NO_VALUE, Keys, Loader, N
from generator.reading.nearest import meant, nearest, shortened
from generator.reading.nodes import Listing, Mapping, Node, Refused, Scalar, Source, place_of
from generator.reading.remedies import private_remedy, sample
from generator.reading.slips import MANY, put_right, said_of
from generator.reading.tree import bytes_of, read_bytes
from generator.reading.values import BASES, FREED, PRIVATE, UNKNOWN, UNREAD, NotKnown, Stamp, untold
from generator.vessel.asking import LeftOpen, asked, lacking
from generator.vessel.base import Base
from generator.vessel.base_file import KEY, base_of, fill_in
from generator.vessel.class_file import fill_from_class
from generator.vessel.confines import Confines, confines_of, joined
from generator.vessel.ours import is_ours, of_old, said_none, says_format, wrong_format
from generator.vessel.people import Voyage
from generator.vessel.private_file import NAME, lines_of
from generator.vessel.vessel import Vessel

VOYAGE = "voyage.yaml"
_BESIDE = ("value", "from", "stamp")
_NAMELESS = (None, UNKNOWN, UNREAD)


class VesselLoader(Loader):
    """Reads a boat's files: values may stand as `unknown`, as `private`, or with where they come from."""

    special = NO_VALUE | {"unknown", "Unknown", "UNKNOWN", "private", "Private", "PRIVATE"}
    whole = "a vessel file"
    open_answer = "unknown"

    def __init__(self, private: Mapping | None = None):
        super().__init__()
        self.private = private
        self.used_private: set[str] = set()
        self.private_at: list[Place] = []
        self.left_open: list[LeftOpen] = []

    def block(self, kind: type[B], node: Node, path: str) -> B:
        """The same; notes which of its questions are left open, by the word unknown or by no word at all."""
        block = super().block(kind, node, path)
        if not kind.asked or not isinstance(block.node, Mapping):
            return block
        entries, values = block.node.entries, block.__dict__
        for name, plain, field in kind.asked_in:
            if plain and (value := values.get(name)) is not None and value.__class__ is not NotKnown:
                continue  # as nearly always
            said = entries.get(field.key)
            word = _unknown(said) if said is not None else None
            if said is not None and word is None:
                continue
            if kind.completed and not untold(values.get(name)):
                continue  # it follows from what else is said
            if block.says_none(field.key) or field.key in _meant(kind, block.node):
                continue  # of the second another key stands there for it, and is told
            place = place_of(word, block.place(field.key).key) if word is not None else None
            self.left_open.append(LeftOpen(block, field, place))
        return block

    def says_none(self, field: Field[Any], node: Node, block: Block) -> bool:
        """Whether the word none stands where it may, which is noted in the block: nobody asks for it again."""
        if not isinstance(node, Scalar) or node.text.strip().lower() != NONE:
            return False
        must_be = field.required and isinstance(field, (Compound, Listed)) and not field.may_be_none
        if must_be and NONE not in (field.choices or ()):
            said = f"'none' stands here, and there must be one: {field.question}"
            shown = sample(field) if field.example == field.usual else f"{field.key}: {field.example}"
            until = f"write {shown}; until there is one, {field.key}: {self.open_answer}"
            self.bad(node, f"{block.path}.{field.key}".lstrip("."), said, until)
        elif not takes_none(field):
            return False
        block.__dict__.setdefault("_none", set()).add(field.key)
        return True

    def _other(self, field: Field[Any], node: Node, path: str, block: Block) -> Any:
        """The same; a list or block that is unknown, all of it or its only entry, has no value, as one left out."""
        alone = node.items[0] if isinstance(node, Listing) and len(node.items) == 1 else node
        if not isinstance(alone, Scalar) or field.single or _unknown(alone) is None:
            return super()._other(field, node, path, block)
        return self.special_word(field, alone, path.rpartition(".")[0], field.key)

    def wrapped(self, field: Single[Any], node: Node, path: str, block: Block) -> Any:
        """The value of a field written as {value, from, stamp, for}."""
        value = node.entries.get("value") if isinstance(node, Mapping) else None
        if not isinstance(node, Mapping) or not isinstance(value, Scalar) or isinstance(value, Refused):
            if not isinstance(value, Refused):
                self.bad(
                    node,
                    path,
                    f"a list or block stands where a {field.kind} belongs",
                    f"write {sample(field)}, or {field.key}: {{value: {field.example}, from: label}}",
                )
            return UNREAD
        self._note_source(field, node, path, block)
        parent, _, key = path.rpartition(".")
        if self.is_special(value):
            return self.special_word(field, value, parent, key)
        try:
            read = field.read(value.text.strip())
        except Misread as error:
            self.misread(error, field, value, parent, key)
            return UNREAD
        stamp = node.entries.get("stamp")
        if isinstance(stamp, Scalar) and isinstance(read, Stamp):
            read.stamp = stamp.text
        return read

    def _note_source(self, field: Single[Any], node: Mapping, path: str, block: Block) -> None:
        """Keeps where a value comes from and for whom it was freed, and tells of keys and words that say nothing of it."""
        for key, child in node.entries.items():
            text = child.text if isinstance(child, Scalar) else ""
            if key not in _BESIDE and key != "for":
                self.findings.append(
                    Finding(
                        "file.unknown-key",
                        Weight.DEFECT,
                        f"'{shortened(key)}' is no key here",
                        place_of(node.keys[key], f"{path}.{key}"),
                        nearest(key, _BESIDE if field.reader == "guest" else (*_BESIDE, "for")),
                    )
                )
            elif key == "from" and text not in BASES:
                self.bad(child, f"{path}.from", "this says no source of the value", nearest(text, BASES))
            elif key == "from":
                block.__dict__.setdefault("_basis", {})[field.key] = text
            elif key == "for":
                self._free(field, child, path, block)
            elif key == "stamp" and (not text.strip() or not isinstance(field, Dated)):
                self.bad(
                    child,
                    f"{path}.stamp",
                    "a stamp is the marking of a date as it is read on the device",
                    "write what is read there"
                    if isinstance(field, Dated)
                    else "remove it here: this value is no date",
                )

    def entry(self, field: Field[Any], kind: type[B], node: Node, path: str) -> list[B]:
        """The same; what has no name, as is told, goes by its place in the file, so that two of them are two things."""
        made = super().entry(field, kind, node, path)
        for block in made if kind.called_in else ():
            if block.__dict__.get(kind.called_in) in _NAMELESS:
                block.__dict__[kind.called_in] = path
        return made

    def _free(self, field: Single[Any], node: Node, path: str, block: Block) -> None:
        """Notes that a value was freed for guests on purpose."""
        text = node.text.strip() if isinstance(node, Scalar) else ""
        if field.reader == "guest":
            what = "everybody may read this value anyway"
            self.bad(node, f"{path}.for", what, "remove 'for' here")
        elif text != FREED:
            what = "this does not say for whom the value is freed"
            self.bad(node, f"{path}.for", what, f"write for: {FREED}, or remove it")
        else:
            block.__dict__.setdefault("_freed", set()).add(field.key)

    def _within_bounds(self, field: Field[Any], items: Sequence[N], path: str) -> Sequence[N]:
        """The same; an unknown entry beside others is told: a list that has a hole is not one that is left out."""
        for node in items if len(items) > 1 and field.unknown not in ASKED and field.partly in ASKED else ():
            if word := _unknown(node):
                self.unreadable[path] = place = place_of(word, path)
                self.findings += lacking(field, place, says_so=True, weighs=field.partly)
        return super()._within_bounds(field, items, path)

    def special_word(self, field: Field[Any], node: Node, path: str, key: str) -> Any:
        """What `unknown`, `private` and a blank do."""
        text = node.text.strip().lower() if isinstance(node, Scalar) else ""
        full = f"{path}.{key}".lstrip(".")
        if text == "unknown":
            if not field.single and (told := list(lacking(field, place_of(node, full), says_so=True))):
                self.unreadable[full] = place_of(node, full)
                self.findings += told
            return UNKNOWN
        if text == "private" and field.reader != "guest":
            return self._private(field, node, full)
        if text == "private" and text in (field.choices or ()):
            return text
        if text == "private":
            self.bad(
                node,
                full,
                f"'{full}' is printed for guests, so it cannot be private",
                f"write {sample(field)}",
            )
            return UNREAD
        return super().special_word(field, node, path, key)

    def _missing(self, field: Field[Any], node: Node, path: str) -> None:
        if not field.single:
            place = place_of(node, f"{path}.{field.key}".lstrip("."))
            self.unreadable[place.key] = place
            self.findings += lacking(field, place, says_so=False)

    def slips(self, node: Mapping, fields: Keys, path: str) -> None:
        """Tells of the keys of a block that are slips of the hand, and reads them as meant."""
        for slip in put_right(node, fields):
            quoted = fields[slip.meant].reader == "guest" and not node.source.private
            message, remedy = said_of(slip, path or self.whole, quoted)
            full = f"{path}.{slip.meant if slip.no_colon else slip.said}".lstrip(".")
            self.told_and_read(node.keys[slip.meant], full, message, remedy, "file.unknown-key")

    def listed_at(self, path: str) -> str:
        """The command that lists the keys of a block."""
        block = re.sub(r"\[[^\]]*\]", "", path)
        return f"musterbook keys {block}".rstrip()

    def _private(self, field: Field[Any], node: Node, full: str) -> Any:
        if self.private is None:
            self.private_at.append(place_of(node, full))
            return PRIVATE
        found = self.private.entries.get(full)
        if not isinstance(found, Scalar) or not isinstance(field, Single) or self.is_special(found):
            self.bad(
                node,
                full,
                "the value stands as private, but private.yaml has no such line with a value",
                f"write into private.yaml: {full}: and the value",
                "file.private-missing",
            )
            return PRIVATE
        if full in self.used_private:
            self.bad(
                node,
                full,
                "two things of one name are private here, and private.yaml cannot tell them apart",
                "give each its own name",
                "file.private-missing",
            )
            return PRIVATE
        self.used_private.add(full)
        try:
            return field.read(found.text.strip())
        except Misread:
            self.bad(found, full, f"the private value is not {field.kind}", private_remedy(field))
            return PRIVATE

    def misread(self, error: Misread, field: Field[Any], node: Node, path: str, key: str) -> None:
        """The same; what may be private is not quoted."""
        full = f"{path}.{key}".lstrip(".")
        if node.source.private or field.reader != "guest":
            what = (
                f"answers nothing, or stands in curly quotes: {field.question}"
                if field.kind == "text"
                else error.unquoted or f"is not {field.kind}"
            )
            self.bad(node, full, f"the value of '{key}' {what}", private_remedy(field))
        else:
            super().misread(error, field, node, path, key)


def load(folder: Path, shown: str | None = None) -> tuple[Vessel | None, list[Finding]]:
    """The vessel in `folder` (vessel.yaml, with voyage.yaml and private.yaml if there) and what reading it found.

    `shown` is the folder's name in findings. None where vessel.yaml is no tree, has another format or is none of ours.
    """
    within = confines_of(folder, shown if shown is not None else str(folder))
    tree, findings = _own(folder, within, "vessel.yaml")
    if tree is None:
        return None, findings
    private, more = _optional(folder, within, NAME)
    loader = VesselLoader(private)
    loader.slips(tree, Vessel.fields, "")
    class_file, of_class, class_lost = fill_from_class(tree, folder, within, VesselLoader.special)
    findings += of_class
    base, base_file, told = base_of(tree, folder, within, VesselLoader.special)
    vessel = loader.block(Vessel, tree, "")
    if base is not None and base_file is not None:
        fill_in(vessel, loader.block(Base, base, KEY), base_file)
    vessel.__dict__.update(slug=within.folder.name, folder=folder, confines=within)
    vessel.__dict__.update(class_file=class_file, class_lost=class_lost)
    findings += [*told, *more, *loader.findings]
    voyage_tree, more = _optional(folder, within, VOYAGE)
    findings += more
    if voyage_tree is not None:
        voyage_tree.entries.pop("format", None)
        loader.findings = []
        vessel.__dict__["voyage"] = loader.block(Voyage, voyage_tree, "")
        findings += loader.findings
    findings += asked(vessel, loader.left_open)
    vessel.__dict__["unread"] = loader.unreadable
    vessel.__dict__["lacks_private"] = bool(loader.private_at)
    findings += _no_private(loader.private_at)
    vessel.__dict__["unasked"] = {
        key: text
        for key, text in (lines_of(private) if private else {}).items()
        if key not in loader.used_private
    }
    findings += _unused_private(private, loader.used_private)
    return vessel, findings


def _meant(kind: type[Block], node: Mapping) -> Collection[str]:
    """The keys that stand in a block by names so unlike them that they are not read: what is told of these tells of them."""
    if node.entries.keys() <= kind.fields.keys() or len(node.entries) > MANY:
        return ()
    return {key for said in node.entries.keys() - kind.fields.keys() if (key := meant(said, kind.fields))}


def _unknown(node: Node) -> Scalar | None:
    """The word unknown, where it stands alone or as the value of one that says where it comes from."""
    said = node.entries.get("value") if node.__class__ is Mapping else node
    if said.__class__ is Scalar and len(said.text) > 6 and said.text.strip().lower() == "unknown":
        return said
    return None


def _optional(folder: Path, within: Confines, name: str) -> tuple[Mapping | None, list[Finding]]:
    return _own(folder, within, name) if os.path.lexists(folder / name) else (None, [])


def _own(folder: Path, within: Confines, name: str) -> tuple[Mapping | None, list[Finding]]:
    """One of her own files; the tree of one that is none of ours is not given, and nothing of it is quoted.

    Of private.yaml nothing is ever quoted, and only what vessel.yaml asks for is taken: it need not say its format.
    """
    source = Source(joined(within.shown, name), name == "private.yaml")
    try:
        data, findings = bytes_of(folder / name, source, within.bounds)
    except Outside:
        return None, [
            Finding(
                "file.outside",
                Weight.DEFECT,
                f"{name} lies outside '{within.root_shown}', the folder that hers lies in: a link leads there",
                Place(source.file),
                "lay the file itself here, and name the boat's folder by where it really lies",
            )
        ]
    if data is None:
        return None, findings
    tree, findings = read_bytes(data, source)
    said = says_format(tree, data)
    if source.private and tree is not None:
        return tree, findings
    if not data.strip() or is_ours(said):
        return tree, findings
    if name == VOYAGE and said is None and of_old(tree, Voyage):
        return tree, [*findings, said_none(Place(source.file), "the file")]
    return None, [wrong_format(said, Place(source.file), "the file", readable=tree is not None)]


def _no_private(places: list[Place]) -> list[Finding]:
    """That values stand as private, and the file in which they would stand is not there."""
    if not places:
        return []
    values = f"{len(places)} value{'s stand' if len(places) > 1 else ' stands'}"
    lines = (
        f"format: 1, and below it {places[0].key}: and the value{', and so on' if len(places) > 1 else ''}"
    )
    return [
        Finding(
            "file.no-private",
            Weight.NOTE,
            f"{values} as private and there is no private.yaml: what needs them is neither written nor looked at",
            places[0],
            f"lay private.yaml beside vessel.yaml: {lines}",
            also=tuple(places[1:]),
        )
    ]


def _unused_private(private: Mapping | None, used: set[str]) -> list[Finding]:
    if private is None:
        return []
    ours = is_ours(private.entries.get("format"))
    return [
        Finding(
            "file.private-unused",
            Weight.RECOMMENDATION,
            f"{_called(key) if ours else 'this line'} stands in private.yaml, but vessel.yaml does not ask for it",
            place_of(node),
            "write the word private at that key of vessel.yaml, or delete the line",
            item=f"line {node.line + 1} of private.yaml",
        )
        for key, node in private.keys.items()
        if key != "format" and key not in used
    ]


def _called(key: str) -> str:
    """A key of private.yaml as findings may quote it: without names, and not where it could be a value on the wrong side."""
    path = re.sub(r"\[[^\]]*\]", "[...]", key)
    return (
        f"'{path}'" if re.fullmatch(r"[a-z-]+(\[\.\.\.\])?(\.[a-z-]+(\[\.\.\.\])?)+", path) else "this line"
    )
