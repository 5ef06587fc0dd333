"""Tree to Vessel: class file, voyage and private values filled in; what `unknown` and `private` do."""

from __future__ import annotations

import os
import re
from pathlib import Path
from typing import Any

from generator.reading.block import B, Block
from generator.reading.fields import ESTIMATE, NEEDED, Dated, Field, Misread, Single, Text
from generator.reading.findings import Finding, Place, Weight
from generator.reading.loader import NO_VALUE, Loader
from generator.reading.nearest import nearest, shortened
from generator.reading.nodes import Mapping, Node, Refused, Scalar, place_of
from generator.reading.remedies import like, private_remedy, sample
from generator.reading.tree import read_file
from generator.reading.values import BASES, PRIVATE, UNKNOWN, Stamp
from generator.vessel.people import Voyage
from generator.vessel.vessel import FORMAT, OWN_KEYS, Vessel

_EFFECT = {
    NEEDED: (Weight.DEFECT, "a step or an essential check needs it, so nothing is published without it"),
    ESTIMATE: (
        Weight.RECOMMENDATION,
        "what is worked out from it is left out, and it is printed as not known",
    ),
}


class VesselLoader(Loader):
    """Reads a boat's files: values may stand as `unknown`, as `private`, or with where they come from."""

    special = NO_VALUE | {"unknown", "Unknown", "UNKNOWN", "private", "Private", "PRIVATE"}
    whole = "a vessel file"
    open_answer = "unknown"

    def __init__(self, private: Mapping | None = None):
        super().__init__()
        self.private = private
        self.used_private: set[str] = set()
        self.lacks_private = False

    def wrapped(self, field: Single[Any], node: Node, path: str, block: Block) -> Any:
        """The value of a field written as {value, from, stamp}."""
        value = node.entries.get("value") if isinstance(node, Mapping) else None
        if not isinstance(node, Mapping) or not isinstance(value, Scalar) or isinstance(value, Refused):
            if not isinstance(value, Refused):
                self.bad(
                    node,
                    path,
                    f"a list or block stands where a {field.kind} belongs",
                    f"write {sample(field)}, or {field.key}: {{value: {field.example}, from: label}}",
                )
            return UNKNOWN
        self._note_source(field, node, path, block)
        parent, _, key = path.rpartition(".")
        if self.is_special(value):
            return self.special_word(field, value, parent, key)
        try:
            read = field.read(value.text.strip())
        except Misread as error:
            self.misread(error, field, value, parent, key)
            return UNKNOWN
        stamp = node.entries.get("stamp")
        if isinstance(stamp, Scalar) and isinstance(read, Stamp):
            read.stamp = stamp.text
        return read

    def _note_source(self, field: Single[Any], node: Mapping, path: str, block: Block) -> None:
        """Keeps where a value comes from, and tells of keys and words that say nothing of it."""
        for key, child in node.entries.items():
            text = child.text if isinstance(child, Scalar) else ""
            if key not in ("value", "from", "stamp"):
                self.findings.append(
                    Finding(
                        "file.unknown-key",
                        Weight.DEFECT,
                        f"'{shortened(key)}' is no key here",
                        place_of(node.keys[key], f"{path}.{key}"),
                        nearest(key, ("value", "from", "stamp")),
                    )
                )
            elif key == "from" and text not in BASES:
                self.bad(child, f"{path}.from", "this says no source of the value", nearest(text, BASES))
            elif key == "from":
                block.__dict__.setdefault("_basis", {})[field.key] = text
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
        called = kind.fields.get(kind.called)
        for block in made:
            if isinstance(called, Text) and block.__dict__.get(called.name) in (None, UNKNOWN):
                block.__dict__[called.name] = path
        return made

    def special_word(self, field: Field[Any], node: Node, path: str, key: str) -> Any:
        """What `unknown`, `private` and a blank do."""
        text = node.text.strip().lower() if isinstance(node, Scalar) else ""
        full = f"{path}.{key}".lstrip(".")
        if text == "unknown":
            weight, effect = _EFFECT.get(field.unknown, (Weight.NOTE, "it is printed as not known"))
            self.findings.append(
                Finding(
                    "file.not-known-yet",
                    weight,
                    f"'{full}' is not known yet: {field.question} ({effect})",
                    place_of(node, full),
                    f"find out and write it{like(field)}",
                )
            )
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
            return UNKNOWN
        return super().special_word(field, node, path, key)

    def _private(self, field: Field[Any], node: Node, full: str) -> Any:
        if self.private is None:
            self.lacks_private = True
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
                else f"is not {field.kind}"
            )
            self.bad(node, full, f"the value of '{key}' {what}", private_remedy(field))
        else:
            super().misread(error, field, node, path, key)


def load(folder: Path, shown: str | None = None) -> tuple[Vessel | None, list[Finding]]:
    """The vessel in `folder` (vessel.yaml, with voyage.yaml and private.yaml if there) and what reading it found.

    `shown` is the folder's name in findings. None where vessel.yaml is no tree or has another format.
    """
    shown = shown if shown is not None else str(folder)
    name = _joined(shown, "vessel.yaml")
    tree, findings = read_file(folder / "vessel.yaml", name)
    if tree is None:
        return None, findings
    wrong = _wrong_format(tree.entries.get("format"), name)
    if wrong:
        return None, [*findings, wrong]
    findings += _fill_from_class(tree, folder, shown)
    private, more = _optional(folder, shown, "private.yaml", private=True)
    loader = VesselLoader(private)
    vessel = loader.block(Vessel, tree, "")
    vessel.__dict__["slug"] = folder.resolve().name
    vessel.__dict__["folder"] = folder
    findings += [*more, *loader.findings]
    voyage_tree, more = _optional(folder, shown, "voyage.yaml")
    findings += more
    if voyage_tree is not None:
        node = voyage_tree.entries.pop("format", None)
        wrong = _wrong_format(node, "") if node is not None else None
        loader.findings = [wrong] if wrong else []
        vessel.__dict__["voyage"] = None if wrong else loader.block(Voyage, voyage_tree, "")
        findings += loader.findings
    vessel.__dict__["lacks_private"] = loader.lacks_private
    findings += _unused_private(private, loader.used_private)
    return vessel, findings


def _joined(shown: str, name: str) -> str:
    return os.path.normpath(Path(shown, name)).replace(os.sep, "/")


def _optional(
    folder: Path, shown: str, name: str, private: bool = False
) -> tuple[Mapping | None, list[Finding]]:
    if not os.path.lexists(folder / name):
        return None, []
    return read_file(folder / name, _joined(shown, name), private)


def _wrong_format(node: Node | None, name: str) -> Finding | None:
    if isinstance(node, Scalar) and node.text.strip() == FORMAT:
        return None
    if node is None:
        return Finding(
            "file.format",
            Weight.DEFECT,
            "the file does not say which format it has",
            Place(name, 1, 1, "format"),
            f"write as its first line: format: {FORMAT}",
        )
    said = shortened(node.text) if isinstance(node, Scalar) else ""
    return Finding(
        "file.format",
        Weight.DEFECT,
        f"this program reads format {FORMAT}; the file says {said or 'something else'}",
        place_of(node, "format"),
        f"if the file is older, compare it with a new one from 'musterbook commission' and then write format: {FORMAT}; "
        "if it is newer, install a newer musterbook",
    )


def _fill_from_class(tree: Mapping, folder: Path, shown: str) -> list[Finding]:
    """Adds what the class file says and the vessel file does not; its nodes keep their own file and line."""
    named = tree.entries.get("based-on")
    if named is None or isinstance(named, Refused) or VesselLoader().is_special(named):
        return []
    if not isinstance(named, Scalar):
        return [
            Finding(
                "file.bad-value",
                Weight.DEFECT,
                "'based-on' names no class file",
                place_of(named, "based-on"),
                "write the path of the class file, seen from this file: ../classes/name.yaml",
            )
        ]
    path = folder / named.text
    if not os.path.isfile(path):  # noqa: PTH113 - which says no as well to a name that no disk could hold
        return [
            Finding(
                "file.class-file",
                Weight.DEFECT,
                f"there is no class file '{shortened(named.text)}'",
                place_of(named, "based-on"),
                "write its path as seen from this file, for example ../classes/name.yaml",
            )
        ]
    base, findings = read_file(path, _joined(shown, named.text))
    if base is None:
        return findings
    if "based-on" in base.entries:
        findings.append(
            Finding(
                "file.class-file",
                Weight.DEFECT,
                "a class file cannot be based on another one",
                place_of(base.keys["based-on"], "based-on"),
                "remove the line",
            )
        )
    for key in OWN_KEYS:
        if base.entries.pop(key, None) is not None:
            findings.append(
                Finding(
                    "file.class-file",
                    Weight.DEFECT,
                    f"'{key}' can be said of one vessel only, not of a class",
                    place_of(base.keys[key], key),
                    "move it into the file of the vessel it is true of",
                )
            )
    _merge(tree, base)
    return findings


def _merge(tree: Mapping, base: Mapping) -> None:
    for key, node in base.entries.items():
        if key not in tree.entries:
            tree.entries[key] = node
            tree.keys[key] = base.keys[key]
        elif isinstance(own := tree.entries[key], Mapping) and isinstance(node, Mapping):
            _merge(own, node)


def _unused_private(private: Mapping | None, used: set[str]) -> list[Finding]:
    if private is None:
        return []
    return [
        Finding(
            "file.private-unused",
            Weight.RECOMMENDATION,
            f"{_called(key)} stands in private.yaml, but vessel.yaml does not ask for it",
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
