"""Tree to Vessel: every value read by its field, class file and private values filled in, all errors collected."""

from __future__ import annotations

import os
from pathlib import Path

from generator.findings import Finding, Place, Weight
from generator.reading import Listing, Mapping, Scalar, place_of, read_file
from generator.vessel.block import Block
from generator.vessel.fields import ESTIMATE, NEEDED, Many, Misread, Named, One, Texts, nearest
from generator.vessel.people import Voyage
from generator.vessel.values import BASES, PRIVATE, UNKNOWN, Stamp
from generator.vessel.vessel import FORMAT, Vessel

_EFFECT = {
    NEEDED: (Weight.DEFECT, "a step or an essential check needs it, so nothing is published without it"),
    ESTIMATE: (Weight.RECOMMENDATION, "the estimate that needs it is left out and 'ask the maker' is printed"),
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

    def block(self, kind, node, path: str) -> Block:
        """A block of `kind` from its node; `path` is the key path that findings name."""
        block = kind(node, path)
        if node.__class__ is Scalar and kind.shorthand:
            wrapped = Mapping(node.line, node.column, node.source)
            wrapped.entries[kind.shorthand] = node
            block.__dict__["_node"] = node = wrapped
        if node.__class__ is not Mapping:
            self._bad(node, path, "a value stands where keys belong" if node.__class__ is Scalar
                      else "a list stands where keys belong", f"write its keys, indented: {_some(kind.fields)}")
            return block
        fields, values, entries = kind.fields, block.__dict__, node.entries
        for key, child in entries.items():
            field = fields.get(key)
            if field is None:
                self._unknown_key(kind, node, key, path)
                continue
            if child.__class__ is Scalar and field.scalar:
                text = child.text
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
                self.findings.append(Finding(
                    "file.missing-key", Weight.DEFECT, f"'{field.key}' is missing: {field.question}",
                    Place(node.source.file, node.line + 1, node.column + 1, f"{path}.{field.key}".lstrip(".")),
                    f"write {_sample(field)}, or {field.key}: unknown"))
        return block

    def _other(self, field, node, path, block):
        """The value of a field that holds blocks or lists, or of a scalar field written as {value, from, stamp}."""
        if node.__class__ is Scalar and node.text in _SPECIAL and not isinstance(field, Texts):
            return self._special(field, node, path.rpartition(".")[0], field.key) or field.blank
        if isinstance(field, Many):
            return self._many(field, node, path)
        if isinstance(field, Named):
            return self._named(field, node, path)
        if isinstance(field, One):
            return self.block(field.block, node, path)
        if isinstance(field, Texts):
            items = node.items if node.__class__ is Listing else [node]
            return tuple(value for item in items if (value := self._text(field, item, path)))
        return self._with_basis(field, node, path, block)

    def _many(self, field, node, path):
        if node.__class__ is not Listing:
            self._bad(node, path, "one thing stands where a list belongs", "start each entry with '- ', also a single one")
            return ()
        if not node.items:
            self._bad(node, path, "the list is empty", f"remove '{field.key}' if there is none, or write unknown",
                      "file.blank-value")
        made = []
        for number, item in enumerate(node.items):
            called = item.entries.get(field.block.called) if item.__class__ is Mapping else None
            name = called.text if called.__class__ is Scalar else number
            made.append(self.block(field.block, item, f"{path}[{name}]"))
        return made

    def _named(self, field, node, path):
        made = Keyed()
        made.places = {}
        if node.__class__ is not Mapping:
            self._bad(node, path, "a list or value stands where named entries belong", "write 'name:' and what belongs to it below")
            return made
        for key, child in node.entries.items():
            inner = f"{path}.{key}"
            made.places[key] = place_of(node.keys[key], inner)
            made[key] = (self._named(field.block, child, inner) if isinstance(field.block, Named)
                         else self.block(field.block, child, inner))
        return made

    def _text(self, field, node, path):
        if node.__class__ is not Scalar:
            self._bad(node, path, "a list or block stands where a word belongs", "write [one, two] or a single word")
            return None
        if node.text in _SPECIAL:
            parent, _, key = path.rpartition(".")
            self._special(field, node, parent, key)
            return None
        try:
            return field.of.read(node.text)
        except Misread as error:
            self._misread(error, field, node, path.rpartition(".")[0], field.key)
            return None

    def _with_basis(self, field, node, path, block):
        value = node.entries.get("value") if node.__class__ is Mapping else None
        if value.__class__ is not Scalar:
            self._bad(node, path, f"a list or block stands where a {field.kind} belongs", f"write {_sample(field)}")
            return UNKNOWN
        for key, child in node.entries.items():
            if key not in ("value", "from", "stamp"):
                self.findings.append(Finding("file.unknown-key", Weight.DEFECT, f"'{key}' is no key here",
                                             place_of(node.keys[key], f"{path}.{key}"), nearest(key, ("value", "from", "stamp"))))
            elif key == "from" and (child.__class__ is not Scalar or child.text not in BASES):
                self._bad(child, f"{path}.from", "this says no source of the value", nearest(getattr(child, "text", ""), BASES))
            elif key == "from":
                block.__dict__.setdefault("_basis", {})[field.key] = child.text
        parent, _, key = path.rpartition(".")
        if value.text in _SPECIAL:
            return self._special(field, value, parent, key)
        try:
            read = field.read(value.text)
        except Misread as error:
            self._misread(error, field, value, parent, key)
            return UNKNOWN
        stamp = node.entries.get("stamp")
        if stamp.__class__ is Scalar and isinstance(read, Stamp):
            read.stamp = stamp.text
        return read

    def _special(self, field, node, path, key):
        """What `unknown`, `private` and a blank do."""
        text, full = node.text, f"{path}.{key}".lstrip(".")
        if text == "unknown":
            weight, effect = _EFFECT.get(field.unknown, (Weight.NOTE, "it is printed as not known"))
            self.findings.append(Finding(
                "file.not-known-yet", weight, f"'{key}' is not known yet: {field.question} ({effect})", place_of(node, full),
                f"find out and write {_sample(field)}"))
            return UNKNOWN
        if text == "private" and field.reader != "guest":
            return self._private(field, node, full)
        if text == "private" and text in getattr(field, "choices", ()):
            return text
        if text == "private":
            self._bad(node, full, f"'{key}' is printed for guests, so it cannot be private", f"write {_sample(field)}")
            return UNKNOWN
        what = "a bare '?' stands here" if text else "the value is blank"
        self._bad(node, full, f"{what}: {field.question}", f"write {_sample(field)}; write unknown if it is not known yet; "
                  "remove the key if there is none", "file.blank-value")
        return UNKNOWN

    def _private(self, field, node, full):
        if self.private is None:
            self.lacks_private = True
            return PRIVATE
        found = self.private.entries.get(full)
        if found.__class__ is not Scalar or not found.text:
            self._bad(node, full, "the value stands as private, but private.yaml has no such line",
                      f"write into private.yaml: {full}: and the value", "file.private-missing")
            return PRIVATE
        self.used_private.add(full)
        try:
            return field.read(found.text)
        except Misread:
            self._bad(found, full, f"the private value is not {field.kind}", f"write it like {field.example}")
            return PRIVATE

    def _misread(self, error, field, node, path, key):
        full = f"{path}.{key}".lstrip(".")
        if node.source.private or field.reader != "guest":
            self._bad(node, full, f"the value of '{key}' is not {field.kind}", f"write it like {field.example}")
        else:
            self._bad(node, full, error.message, error.remedy)

    def _bad(self, node, path, message, remedy, check="file.bad-value"):
        self.findings.append(Finding(check, Weight.DEFECT, message, place_of(node, path), remedy))

    def _unknown_key(self, kind, node, key, path):
        self.findings.append(Finding(
            "file.unknown-key", Weight.DEFECT, f"'{key}' is no key {'of ' + path if path else 'of a vessel file'}",
            place_of(node.keys[key], f"{path}.{key}".lstrip(".")), nearest(key, kind.fields)))


_SPECIAL = frozenset(("", "?", "unknown", "private", "~", "null"))


def _some(fields):
    keys = [key for key, field in fields.items() if field.required] or list(fields)
    return ", ".join(keys[:5])


def _sample(field):
    if isinstance(field, One):
        return f"the keys of '{field.key}'"
    return f"{field.key}: {field.example}" if field.example else field.key


def load(folder: Path, shown: str | None = None) -> tuple[Vessel | None, list[Finding]]:
    """The vessel in `folder` (vessel.yaml, with voyage.yaml and private.yaml if there) and what reading it found.

    `shown` is the folder's name in findings. None where vessel.yaml is no tree or has another format.
    """
    shown = shown if shown is not None else str(folder)
    name = _joined(shown, "vessel.yaml")
    tree, findings = read_file(folder / "vessel.yaml", name)
    if tree is None:
        return None, findings
    wrong = _wrong_format(tree, name)
    if wrong:
        return None, [*findings, wrong]
    findings += _fill_from_class(tree, folder, shown)
    private, more = _optional(folder, shown, "private.yaml", private=True)
    loader = Loader(private)
    vessel = loader.block(Vessel, tree, "")
    vessel.__dict__["slug"] = folder.resolve().name
    vessel.__dict__["lacks_private"] = loader.lacks_private
    findings += [*more, *loader.findings, *_unused_private(private, loader)]
    voyage_tree, more = _optional(folder, shown, "voyage.yaml")
    findings += more
    if voyage_tree is not None:
        voyage_tree.entries.pop("format", None)
        voyage_loader = Loader(private)
        vessel.__dict__["voyage"] = voyage_loader.block(Voyage, voyage_tree, "")
        findings += voyage_loader.findings
    return vessel, findings


def _joined(shown, name):
    return os.path.normpath(os.path.join(shown, name)).replace(os.sep, "/")


def _optional(folder, shown, name, private=False):
    if not (folder / name).exists():
        return None, []
    return read_file(folder / name, _joined(shown, name), private)


def _wrong_format(tree, name):
    node = tree.entries.get("format")
    if node.__class__ is Scalar and node.text == FORMAT:
        return None
    if node is None:
        return Finding("file.format", Weight.DEFECT, "the file does not say which format it has",
                       Place(name, 1, 1, "format"), f"write as its first line: format: {FORMAT}")
    return Finding("file.format", Weight.DEFECT,
                   f"this program reads format {FORMAT}; the file says {getattr(node, 'text', 'something else')}",
                   place_of(node, "format"),
                   f"if the file is older, compare it with a new one from 'musterbook commission' and then write format: {FORMAT}; "
                   "if it is newer, install a newer musterbook")


def _fill_from_class(tree, folder, shown):
    """Adds what the class file says and the vessel file does not; its nodes keep their own file and line."""
    named = tree.entries.get("based-on")
    if named is None:
        return []
    if named.__class__ is not Scalar or not named.text:
        return [Finding("file.bad-value", Weight.DEFECT, "'based-on' names no class file", place_of(named, "based-on"),
                        "write the path of the class file, seen from this file: ../classes/name.yaml")]
    path = folder / named.text
    if not path.is_file():
        return [Finding("file.class-file", Weight.DEFECT, f"there is no class file '{named.text}'", place_of(named, "based-on"),
                        "write its path as seen from this file, for example ../classes/name.yaml")]
    base, findings = read_file(path, _joined(shown, named.text))
    if base is None:
        return findings
    if "based-on" in base.entries:
        findings.append(Finding("file.class-file", Weight.DEFECT, "a class file cannot be based on another one",
                                place_of(base.keys["based-on"], "based-on"), "remove the line"))
    _merge(tree, base)
    return findings


def _merge(tree, base):
    for key, node in base.entries.items():
        if key not in tree.entries:
            tree.entries[key] = node
            tree.keys[key] = base.keys[key]
        elif tree.entries[key].__class__ is Mapping and node.__class__ is Mapping:
            _merge(tree.entries[key], node)


def _unused_private(private, loader):
    if private is None:
        return []
    return [Finding("file.private-unused", Weight.RECOMMENDATION, f"private.yaml holds '{key}', which nothing in vessel.yaml asks for",
                    place_of(node, key), "write the word private at that key of vessel.yaml, or delete the line")
            for key, node in private.keys.items() if key != "format" and key not in loader.used_private]
