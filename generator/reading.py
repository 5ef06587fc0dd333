"""YAML text to a tree of text with places. The only module that knows YAML; it knows no boat words."""

from __future__ import annotations

import codecs
import re
from pathlib import Path

import yaml

from generator.findings import Finding, Place, Weight

SIZE_LIMIT_BYTES = 1_000_000
DEPTH_LIMIT = 24
_PARSER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


class Source:
    """One file: its name as the user gave it, and whether what it holds may be quoted."""

    __slots__ = ("file", "private")

    def __init__(self, file: str, private: bool = False):
        self.file = file
        self.private = private


class Scalar:
    """A value as typed. `line` and `column` count from 0."""

    __slots__ = ("text", "line", "column", "plain", "source")

    def __init__(self, text, line, column, plain, source):
        self.text = text
        self.line = line
        self.column = column
        self.plain = plain
        self.source = source


class Mapping:
    """Keys and values; `keys` holds the place of each key as a Scalar."""

    __slots__ = ("entries", "keys", "line", "column", "source")

    def __init__(self, line, column, source):
        self.entries: dict = {}
        self.keys: dict = {}
        self.line = line
        self.column = column
        self.source = source


class Listing:
    """Values in order."""

    __slots__ = ("items", "line", "column", "source")

    def __init__(self, line, column, source):
        self.items: list = []
        self.line = line
        self.column = column
        self.source = source


def place_of(node, key: str = "") -> Place:
    """The place of a node, counted from 1."""
    return Place(node.source.file, node.line + 1, node.column + 1, key)


class Unreadable(Exception):
    """The text is no tree at all; holds the one finding that says why."""

    def __init__(self, finding: Finding):
        super().__init__(finding.message)
        self.finding = finding


def _refuse(source, line, column, message, remedy, check="file.unreadable"):
    place = Place(source.file, line + 1, column + 1)
    return Finding(check, Weight.DEFECT, message, place, remedy)


def decode(data: bytes, source: Source) -> str:
    """Bytes to text: UTF-8 with or without a byte-order mark, or UTF-16 with one."""
    if len(data) > SIZE_LIMIT_BYTES:
        raise Unreadable(_refuse(
            source, 0, 0, f"the file is larger than {SIZE_LIMIT_BYTES // 1000:,} kB, the most a vessel file may have",
            "keep only the description of one vessel in it; photos are named, not pasted"))
    try:
        if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
            return data.decode("utf-16")
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start)
        raise Unreadable(_refuse(
            source, line, 0, "a character here is not UTF-8 text",
            "save the file as UTF-8 (every editor can), then look at this line again")) from None
    if "\x00" in text:
        raise Unreadable(_refuse(source, text.count("\n", 0, text.index("\x00")), 0,
                                 "the file holds bytes that are no text", "save it again as plain UTF-8 text"))
    return text


def read(text: str, source: Source) -> tuple[Mapping | None, list[Finding]]:
    """The tree of a file and what is wrong with its form; None where there is no tree."""
    findings: list[Finding] = []
    try:
        tree = _build(text, source, findings)
    except Unreadable as error:
        return None, [*findings, error.finding]
    except yaml.YAMLError as error:
        return None, [*findings, _explain(error, text, source)]
    return tree, findings


def read_file(path: Path, name: str, private: bool = False) -> tuple[Mapping | None, list[Finding]]:
    """The tree of the file at `path`, called `name` in findings."""
    source = Source(name, private)
    try:
        with path.open("rb") as file:
            data = file.read(SIZE_LIMIT_BYTES + 1)
        text = decode(data, source)
    except OSError as error:
        return None, [_refuse(source, 0, 0, f"the file cannot be opened: {error.strerror}",
                              "check the path and that you may read it")]
    except Unreadable as error:
        return None, [error.finding]
    return read(text, source)


def _build(text, source, findings):
    """One pass over the parser's events, without recursion, so that depth and aliases cannot hurt."""
    stack: list = []
    root = top = pending = None  # pending: the key waiting for its value; "" where the key was refused
    for event in yaml.parse(text, _PARSER):
        kind = event.__class__
        mark = event.start_mark
        if kind is yaml.ScalarEvent:
            if event.anchor is not None or event.tag is not None:
                _refused_form(event, source, findings)
            node = Scalar(event.value, mark.line, mark.column, not event.style, source)
        elif kind is yaml.MappingStartEvent or kind is yaml.SequenceStartEvent:
            if event.anchor is not None or event.tag is not None:
                _refused_form(event, source, findings)
            if len(stack) >= DEPTH_LIMIT:
                raise Unreadable(_refuse(source, mark.line, mark.column,
                                         f"lists and keys lie more than {DEPTH_LIMIT} deep here",
                                         "a vessel file is at most six deep; check brackets and indentation"))
            node = (Mapping if kind is yaml.MappingStartEvent else Listing)(mark.line, mark.column, source)
        elif kind is yaml.MappingEndEvent or kind is yaml.SequenceEndEvent:
            top, pending = stack.pop()
            continue
        elif kind is yaml.AliasEvent:
            _refused_form(event, source, findings)
            node = Scalar("unknown", mark.line, mark.column, True, source)
        elif kind is yaml.DocumentStartEvent and root is not None:
            raise Unreadable(_refuse(source, mark.line, mark.column, "a second document starts here ('---')",
                                     "one file describes one vessel: remove the line '---'"))
        else:
            continue
        scalar = node.__class__ is Scalar
        if top is None:
            root = node
        elif top.__class__ is Listing:
            top.items.append(node)
        elif pending is None:
            pending = _key(node, top, findings)
            if scalar:
                continue
        else:
            if pending:
                top.entries[pending] = node
            pending = None
        if not scalar:
            stack.append((top, pending))
            top, pending = node, None
    if root is None or (root.__class__ is Scalar and not root.text):
        raise Unreadable(_refuse(source, 0, 0, "the file is empty", "start one with: musterbook commission NAME"))
    if root.__class__ is not Mapping:
        raise Unreadable(_refuse(source, root.line, root.column, "the file does not start with a key such as 'format:'",
                                 "write the description as keys and values; see the README for a starter file"))
    return root


def _key(node, parent, findings) -> str:
    """The text of a key; "" where it cannot be one, so that its value is dropped."""
    if node.__class__ is not Scalar:
        findings.append(_refuse(node.source, node.line, node.column, "a list or mapping stands where a key belongs",
                                "put the text in quotes if it is meant as text", "file.bad-value"))
        return ""
    text = node.text
    if not text:
        findings.append(_refuse(node.source, node.line, node.column, "a bare '?' or an empty key stands here",
                                "write the word unknown for what is not known yet", "file.blank-value"))
    elif text in parent.keys:
        first = parent.keys[text]
        findings.append(Finding(
            "file.duplicate-key", Weight.DEFECT,
            f"'{text}' stands twice in the same block, first on line {first.line + 1}", place_of(node, text),
            "keep the one that is true and delete the other", also=(place_of(first, text),)))
        return ""
    else:
        parent.keys[text] = node
    return text


def _refused_form(event, source, findings):
    if event.__class__ is yaml.AliasEvent or event.anchor is not None:
        what = "anchors and aliases ('&', '*') are not used in a vessel file"
        remedy = "write the value out, or put what sister ships share into a class file and name it in 'based-on'; " \
                 "text that starts with & or * goes in quotes"
    else:
        what = "tags ('!') are not used in a vessel file"
        remedy = "remove the word with '!'; text that starts with ! goes in quotes"
    mark = event.start_mark
    findings.append(_refuse(source, mark.line, mark.column, what, remedy, "file.refused-form"))


def _explain(error, text, source) -> Finding:
    """The parser's complaint in a skipper's words."""
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    line, column = (mark.line, mark.column) if mark else (0, 0)
    lines = text.splitlines()
    shown = lines[line] if line < len(lines) else ""
    before = lines[:line + 1]
    tab = next((n for n, each in enumerate(before) if re.match(r" *\t", each)), None)
    problem = getattr(error, "problem", "") or str(error)
    if tab is not None or "\\t" in problem:
        line, column = (tab, lines[tab].index("\t")) if tab is not None else (line, column)
        return _refuse(source, line, column, "the line is indented with a tab",
                       "indent with spaces; set the editor to write spaces for the Tab key")
    if "mapping keys are not allowed" in problem:
        return _refuse(source, line, column, "a bare '?' cannot stand here", "write the word unknown instead")
    if "mapping values are not allowed" in problem:
        return _refuse(source, line, column, "there is a second ': ' on this line, or the line above is not finished",
                       'put text that holds ": " in quotes: name: "Anna: the second"')
    if "unexpected end of stream" in problem or "found unexpected document" in problem:
        return _refuse(source, line, column, "a quote or bracket is opened and never closed",
                       "look for the line with a single \" or ' or [ or { and close it")
    if re.search(r"[‘’“”]", shown):
        return _refuse(source, line, column, "curly quotes stand where straight ones belong", 'type straight quotes: "text"')
    if "could not find expected ':'" in problem:
        return _refuse(source, max(line - 1, 0), 0, "this line, or the one below it, has no ': ' after its key",
                       "write 'key: value' with a space after the colon")
    if "did not find expected" in problem and "indicator" in problem or "block" in problem:
        return _refuse(source, line, column, "this line does not line up with the ones above it",
                       "keys of one block start in the same column; list items start with '- '")
    if "special characters" in problem or "control characters" in problem:
        return _refuse(source, line, column, "there is an invisible control character in the file",
                       "delete and retype the line")
    if "cannot start any token" in problem:
        return _refuse(source, line, column, f"a value cannot start with '{shown[column:column + 1]}'",
                       "put the value in quotes")
    return _refuse(source, line, column, f"the line cannot be read ({problem})", "check quotes, brackets and colons here")


def plain(node):
    """The tree as dict, list and text, for the program's own shelves."""
    if node.__class__ is Scalar:
        return node.text
    if node.__class__ is Listing:
        return [plain(item) for item in node.items]
    return {key: plain(value) for key, value in node.entries.items()}
