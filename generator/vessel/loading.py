"""Tree to Vessel: every value read by its field, class file and private values filled in, all errors collected."""

from __future__ import annotations

import os
import re
from pathlib import Path

from generator.reading.block import Block
from generator.reading.fields import (
    ESTIMATE,
    NEEDED,
    Dated,
    Many,
    Misread,
    Named,
    One,
    Texts,
    nearest,
    shortened,
)
from generator.reading.findings import Finding, Place, Weight
from generator.reading.remedies import like, private_remedy, sample, some, wanted
from generator.reading.tree import Listing, Mapping, Refused, Scalar, place_of, read_file
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


class Keyed(dict):
    """Values by name; `places` says where each name stands."""

    places: dict[str, Place]


class Loader:
    """Reads blocks out of trees; what is wrong goes into `findings`."""

    def __init__(self, private: Mapping | None = None):
        self.findings: list[Finding] = []
        self.private = private
        self.used_private: set[str] = set()
        self.lacks_private = False
        self.unknown_keys = 0

    def block(self, kind, node, path: str) -> Block:
        """A block of `kind` from its node; `path` is the key path that findings name."""
        block = kind(node, path)
        if node.__class__ is Scalar and kind.shorthand:
            wrapped = Mapping(node.line, node.column, node.source)
            wrapped.entries[kind.shorthand] = node
            block.__dict__["_node"] = node = wrapped
        if node.__class__ is not Mapping:
            if node.__class__ is not Refused:
                self._bad(
                    node,
                    path,
                    f"a {'value' if node.__class__ is Scalar else 'list'} stands where keys belong",
                    f"write its keys, indented: {some(kind.fields)}",
                )
            return block
        fields, values, entries = kind.fields, block.__dict__, node.entries
        if not entries and not kind.needed:
            self._bad(
                node,
                path,
                "the block is empty",
                f"write its keys ({some(kind.fields)}), or remove it",
                "file.blank-value",
            )
        for key, child in entries.items():
            field = fields.get(key)
            if field is None:
                self._unknown_key(kind, node, key, path)
                continue
            if child.__class__ is Scalar and field.scalar:
                text = child.text.strip()
                if text in _SPECIAL:
                    value = self._special(field, child, path, key)
                else:
                    try:
                        value = field.read(text)
                    except Misread as error:
                        self._misread(error, field, child, path, key)
                        value = UNKNOWN
                values[field.name] = value
            else:
                values[field.name] = self._other(field, child, f"{path}.{key}" if path else key, block)
        for field in kind.needed:
            if field.key not in entries:
                full = f"{path}.{field.key}".lstrip(".")
                self.findings.append(
                    Finding(
                        "file.missing-key",
                        Weight.DEFECT,
                        f"'{full}' is missing: {field.question}",
                        Place(node.source.file, node.line + 1, node.column + 1, full),
                        f"write {wanted(field)}, or {field.key}: unknown",
                    )
                )
        return block

    def _other(self, field, node, path, block):
        """The value of a field that holds blocks or lists, or of a scalar field written as {value, from, stamp}."""
        if node.__class__ is Refused:
            return UNKNOWN if field.scalar else field.blank
        if _is_special(node) and not isinstance(field, Texts):
            self._special(field, node, path.rpartition(".")[0], field.key)
            return field.blank
        if isinstance(field, Many):
            return self._many(field, node, path)
        if isinstance(field, Named):
            return self._named(field, node, path)
        if isinstance(field, One):
            return self.block(field.block, node, path)
        if isinstance(field, Texts):
            if node.__class__ is Listing and not node.items:
                self._empty(field, node, path)
            items = node.items if node.__class__ is Listing else [node]
            return tuple(value for item in items if (value := self._text(field, item, path)))
        return self._with_basis(field, node, path, block)

    def _many(self, field, node, path):
        if node.__class__ is not Listing:
            self._bad(
                node,
                path,
                "one thing stands where a list belongs",
                "start each entry with '- ', also a single one",
            )
            return ()
        if not node.items:
            self._empty(field, node, path)
        made = []
        for number, item in enumerate(node.items, 1):
            called = item.entries.get(field.block.called) if item.__class__ is Mapping else None
            named = (
                called.__class__ is Scalar
                and not _is_special(called)
                and field.block.fields[field.block.called].reader == "guest"
            )
            made += self._entry(field, item, f"{path}[{shortened(called.text) if named else number}]")
        return made

    def _entry(self, field, node, path):
        """One entry of a list or of named blocks, as a list; empty where it is blank or unknown."""
        if node.__class__ is Refused:
            return []
        if _is_special(node) and not field.block.shorthand:
            self._special(field, node, "", path)
            return []
        return [self.block(field.block, node, path)]

    def _empty(self, field, node, path):
        self._bad(
            node,
            path,
            "the list is empty",
            f"remove '{field.key}' if there is none, or write unknown",
            "file.blank-value",
        )

    def _named(self, field, node, path, question=""):
        made = Keyed()
        made.places = {}
        question = question or field.question
        if node.__class__ is not Mapping:
            self._bad(
                node,
                path,
                "a list or value stands where named entries belong",
                "write 'name:' and what belongs to it below",
            )
            return made
        if not node.entries:
            self._bad(
                node,
                path,
                f"the block is empty: {question}",
                "write its entries, or remove it",
                "file.blank-value",
            )
        for key, child in node.entries.items():
            inner = f"{path}.{key}"
            made.places[key] = place_of(node.keys[key], inner)
            if not isinstance(field.block, Named):
                made.update((key, block) for block in self._entry(field, child, inner))
            elif _is_special(child):
                self._special(field, child, path, key)
            elif child.__class__ is not Refused:
                made[key] = self._named(field.block, child, inner, question)
        return made

    def _text(self, field, node, path):
        if node.__class__ is Refused:
            return None
        if node.__class__ is not Scalar:
            self._bad(
                node, path, "a list or block stands where a word belongs", "write [one, two] or a single word"
            )
            return None
        if _is_special(node):
            parent, _, key = path.rpartition(".")
            self._special(field, node, parent, key)
            return None
        try:
            return field.of.read(node.text.strip())
        except Misread as error:
            self._misread(error, field, node, path.rpartition(".")[0], field.key)
            return None

    def _with_basis(self, field, node, path, block):
        value = node.entries.get("value") if node.__class__ is Mapping else None
        if value.__class__ is not Scalar:
            if value.__class__ is not Refused:
                self._bad(
                    node,
                    path,
                    f"a list or block stands where a {field.kind} belongs",
                    f"write {sample(field)}, or {field.key}: {{value: {field.example}, from: label}}",
                )
            return UNKNOWN
        for key, child in node.entries.items():
            text = child.text if child.__class__ is Scalar else ""
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
                self._bad(child, f"{path}.from", "this says no source of the value", nearest(text, BASES))
            elif key == "from":
                block.__dict__.setdefault("_basis", {})[field.key] = text
            elif key == "stamp" and (not text.strip() or not isinstance(field, Dated)):
                self._bad(
                    child,
                    f"{path}.stamp",
                    "a stamp is the marking of a date as it is read on the device",
                    "write what is read there"
                    if isinstance(field, Dated)
                    else "remove it here: this value is no date",
                )
        parent, _, key = path.rpartition(".")
        if _is_special(value):
            return self._special(field, value, parent, key)
        try:
            read = field.read(value.text.strip())
        except Misread as error:
            self._misread(error, field, value, parent, key)
            return UNKNOWN
        stamp = node.entries.get("stamp")
        if stamp.__class__ is Scalar and isinstance(read, Stamp):
            read.stamp = stamp.text
        return read

    def _special(self, field, node, path, key):
        """What `unknown`, `private` and a blank do."""
        text, full = node.text.strip().lower(), f"{path}.{key}".lstrip(".")
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
        if text == "private" and text in (getattr(field, "choices", None) or ()):
            return text
        if text == "private":
            self._bad(
                node,
                full,
                f"'{full}' is printed for guests, so it cannot be private",
                f"write {sample(field)}",
            )
            return UNKNOWN
        what = f"'{text}' stands where a value belongs" if text else "the value is blank"
        self._bad(
            node,
            full,
            f"{what}: {field.question}",
            f"write {sample(field)}; write unknown if it is not known yet; remove the key if there is none",
            "file.blank-value",
        )
        return UNKNOWN

    def _private(self, field, node, full):
        if self.private is None:
            self.lacks_private = True
            return PRIVATE
        found = self.private.entries.get(full)
        if found.__class__ is not Scalar or _is_special(found):
            self._bad(
                node,
                full,
                "the value stands as private, but private.yaml has no such line with a value",
                f"write into private.yaml: {full}: and the value",
                "file.private-missing",
            )
            return PRIVATE
        if full in self.used_private:
            self._bad(
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
            self._bad(found, full, f"the private value is not {field.kind}", private_remedy(field))
            return PRIVATE

    def _misread(self, error, field, node, path, key):
        full = f"{path}.{key}".lstrip(".")
        if node.source.private or field.reader != "guest":
            what = (
                f"answers nothing, or stands in curly quotes: {field.question}"
                if field.kind == "text"
                else f"is not {field.kind}"
            )
            self._bad(node, full, f"the value of '{key}' {what}", private_remedy(field))
        else:
            self._bad(node, full, error.message, error.remedy)

    def _bad(self, node, path, message, remedy, check="file.bad-value"):
        self.findings.append(Finding(check, Weight.DEFECT, message, place_of(node, path), remedy))

    def _unknown_key(self, kind, node, key, path):
        self.unknown_keys += 1
        self.findings.append(
            Finding(
                "file.unknown-key",
                Weight.DEFECT,
                f"'{shortened(key)}' is no key {'of ' + path if path else 'of a vessel file'}",
                place_of(node.keys[key], f"{path}.{key}".lstrip(".")),
                nearest(key, kind.fields)
                if self.unknown_keys <= _SUGGESTIONS
                else "see the first findings for what it takes",
            )
        )


_SPECIAL = frozenset(
    ("", "?", "unknown", "Unknown", "UNKNOWN", "private", "Private", "PRIVATE", "~", "null", "Null", "NULL")
)
_SUGGESTIONS = (
    200  # a file with more unknown keys is no vessel file; looking for the nearest of each would take minutes
)


def _is_special(node):
    return node.__class__ is Scalar and node.text.strip() in _SPECIAL


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
    loader = Loader(private)
    vessel = loader.block(Vessel, tree, "")
    vessel.__dict__["slug"] = folder.resolve().name
    vessel.__dict__["folder"] = folder
    findings += [*more, *loader.findings]
    voyage_tree, more = _optional(folder, shown, "voyage.yaml")
    findings += more
    if voyage_tree is not None:
        node = voyage_tree.entries.pop("format", None)
        wrong = node is not None and _wrong_format(node, "")
        loader.findings = [wrong] if wrong else []
        vessel.__dict__["voyage"] = None if wrong else loader.block(Voyage, voyage_tree, "")
        findings += loader.findings
    vessel.__dict__["lacks_private"] = loader.lacks_private
    findings += _unused_private(private, loader.used_private)
    return vessel, findings


def _joined(shown, name):
    return os.path.normpath(os.path.join(shown, name)).replace(os.sep, "/")


def _optional(folder, shown, name, private=False):
    if not os.path.lexists(folder / name):
        return None, []
    return read_file(folder / name, _joined(shown, name), private)


def _wrong_format(node, name):
    if node.__class__ is Scalar and node.text.strip() == FORMAT:
        return None
    if node is None:
        return Finding(
            "file.format",
            Weight.DEFECT,
            "the file does not say which format it has",
            Place(name, 1, 1, "format"),
            f"write as its first line: format: {FORMAT}",
        )
    return Finding(
        "file.format",
        Weight.DEFECT,
        f"this program reads format {FORMAT}; the file says {shortened(getattr(node, 'text', '')) or 'something else'}",
        place_of(node, "format"),
        f"if the file is older, compare it with a new one from 'musterbook commission' and then write format: {FORMAT}; "
        "if it is newer, install a newer musterbook",
    )


def _fill_from_class(tree, folder, shown):
    """Adds what the class file says and the vessel file does not; its nodes keep their own file and line."""
    named = tree.entries.get("based-on")
    if named is None or _is_special(named) or named.__class__ is Refused:
        return []
    if named.__class__ is not Scalar:
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
    if not os.path.isfile(path):
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


def _merge(tree, base):
    for key, node in base.entries.items():
        if key not in tree.entries:
            tree.entries[key] = node
            tree.keys[key] = base.keys[key]
        elif tree.entries[key].__class__ is Mapping and node.__class__ is Mapping:
            _merge(tree.entries[key], node)


def _unused_private(private, used):
    if private is None:
        return []
    return [
        Finding(
            "file.private-unused",
            Weight.RECOMMENDATION,
            f"{_called(key)} stands in private.yaml, but vessel.yaml does not ask for it",
            place_of(node),
            "write the word private at that key of vessel.yaml, or delete the line",
        )
        for key, node in private.keys.items()
        if key != "format" and key not in used
    ]


def _called(key):
    """A key of private.yaml as findings may quote it: without names, and not where it could be a value on the wrong side."""
    path = re.sub(r"\[[^\]]*\]", "[...]", key)
    return (
        f"'{path}'" if re.fullmatch(r"[a-z-]+(\[\.\.\.\])?(\.[a-z-]+(\[\.\.\.\])?)+", path) else "this line"
    )
