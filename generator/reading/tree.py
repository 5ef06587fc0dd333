"""YAML text to a tree of text with places. The only module that knows YAML; it knows no boat words."""

from __future__ import annotations

import codecs
import re
import stat
from functools import lru_cache
from pathlib import Path

import yaml

from generator.reading.findings import Finding, Place, Weight

SIZE_LIMIT_BYTES = 1_000_000
DEPTH_LIMIT = 24
EVENT_LIMIT = 60_000  # keys, values, starts and ends of blocks; a full vessel file has some 4,000
_PARSER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_BREAK = re.compile(r"\r\n|\r|\n")
# What an editor does not show: control and formatting characters, other line breaks, what stands for a lost character.
_UNSEEN = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u00ad\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u2064\u2066-\u2069\ufeff\ufffd-\uffff]"
    "|^[ ]*[\u00a0\u2000-\u200a\u202f\u3000]+",
    re.MULTILINE,
)
_UNSEEN_LIMIT = 100
_BLANKS = "\u00a0\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u3000"


class Source:
    """One file: its name as the user gave it, and whether what it holds may be quoted."""

    __slots__ = ("file", "private")

    def __init__(self, file: str, private: bool = False):
        self.file = file
        self.private = private


class Scalar:
    """A value as typed. `line` and `column` count from 0."""

    __slots__ = ("column", "line", "plain", "source", "text")

    def __init__(self, text, line, column, plain, source):
        self.text = text
        self.line = line
        self.column = column
        self.plain = plain
        self.source = source


class Refused(Scalar):
    """Stands for a value in a form that is refused (an alias): it has been told, nothing more is to be said of it."""

    __slots__ = ()


class Mapping:
    """Keys and values; `keys` holds the place of each key as a Scalar."""

    __slots__ = ("column", "entries", "keys", "line", "source")

    def __init__(self, line, column, source):
        self.entries: dict = {}
        self.keys: dict = {}
        self.line = line
        self.column = column
        self.source = source


class Listing:
    """Values in order."""

    __slots__ = ("column", "items", "line", "source")

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
        raise Unreadable(
            _refuse(
                source,
                0,
                0,
                f"the file is larger than {SIZE_LIMIT_BYTES // 1000:,} kB, the most a vessel file may have",
                "keep only the description of one vessel in it; photos are named, not pasted",
            )
        )
    encoding = "utf-16" if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)) else "utf-8-sig"
    try:
        text = data.decode(encoding)
    except UnicodeDecodeError as error:
        before = error.object[: error.start].decode("utf-8", "replace") if encoding == "utf-8-sig" else ""
        raise Unreadable(
            _refuse(
                source,
                *_line_and_column(before, len(before)),
                "a character here is not UTF-8 text",
                "save the file as UTF-8 (every editor can), then look at this line again",
            )
        ) from None
    if "\x00" in text:
        raise Unreadable(
            _refuse(
                source,
                *_line_and_column(text, text.index("\x00")),
                "the file holds bytes that are no text",
                "save it again as plain text in UTF-8, not as a document of a word processor",
            )
        )
    return text


def read(text: str, source: Source) -> tuple[Mapping | None, list[Finding]]:
    """The tree of a file and what is wrong with its form; None where there is no tree."""
    findings: list[Finding] = []
    if not text.replace("\n", "").isprintable() or "\ufffd" in text:
        text = _without_unseen(text, source, findings)
    try:
        tree = _build(text, source, findings)
    except Unreadable as error:
        tree = None
        findings.append(error.finding)
    except yaml.YAMLError as error:
        tree, told = None, _explain(error, text, source)
        if told not in findings:
            findings.append(told)
    return tree, findings


def _without_unseen(text, source, findings):
    """The text with a blank for each character that nobody sees, each of them told."""

    def told(match):
        row = match[0]
        if len(findings) < _UNSEEN_LIMIT:
            line, column = _line_and_column(text, match.end() - 1)
            letter = row[-1]
            indents = len(row) > 1 or letter in _BLANKS
            what = (
                "the line is indented with a blank that is no plain space"
                if indents
                else "a character was lost here"
                if letter == "\ufffd"
                else f"an invisible character stands here (U+{ord(letter):04X})"
            )
            findings.append(_refuse(source, line, column, what, "delete it and type it anew"))
        return " " * len(row)

    return _UNSEEN.sub(told, text)


@lru_cache(maxsize=1)
def _rows(text):
    return _BREAK.split(text)


def _line_and_column(text, at):
    """Line and column, from 0, of a character of the text."""
    rows = _BREAK.split(text[:at])
    return len(rows) - 1, len(rows[-1])


def read_file(path: Path, name: str, private: bool = False) -> tuple[Mapping | None, list[Finding]]:
    """The tree of the file at `path`, called `name` in findings."""
    source = Source(name, private)
    try:
        if not stat.S_ISREG(path.stat().st_mode):
            what = "this is a folder" if path.is_dir() else "this is no plain file"
            return None, [
                _refuse(
                    source,
                    0,
                    0,
                    f"{what}, and a text file belongs here",
                    "rename it, and write the file in its place",
                )
            ]
        with path.open("rb") as file:
            data = file.read(SIZE_LIMIT_BYTES + 1)
        text = decode(data, source)
    except OSError as error:
        gone = isinstance(error, FileNotFoundError) and path.is_symlink()
        why = "it is a link, and what it points to is not there" if gone else error.strerror
        return None, [
            _refuse(
                source, 0, 0, f"the file cannot be opened: {why}", "check the path and that you may read it"
            )
        ]
    except Unreadable as error:
        return None, [error.finding]
    return read(text, source)


def _build(text, source, findings):
    """One pass over the parser's events, without recursion, so that depth and aliases cannot hurt."""
    stack: list = []
    root = top = pending = None  # pending: the key waiting for its value; "" where the key was refused
    for number, event in enumerate(yaml.parse(text, _PARSER)):
        kind = event.__class__
        mark = event.start_mark
        if kind is yaml.ScalarEvent:
            if event.anchor is not None or event.tag is not None:
                _refused_form(event, source, findings)
            node = Scalar(event.value, mark.line, mark.column, not event.style, source)
            if event.style == '"' and _UNSEEN.search(node.text):
                findings.append(_refuse(source, mark.line, mark.column, *_BACKSLASH))
                node.text = " ".join(_UNSEEN.sub(" ", node.text).split())
            if number > EVENT_LIMIT:
                raise Unreadable(
                    _refuse(
                        source,
                        mark.line,
                        mark.column,
                        f"the file holds more than {EVENT_LIMIT:,} keys and values up to here",
                        "keep only the description of one vessel in it",
                    )
                )
        elif kind is yaml.MappingStartEvent or kind is yaml.SequenceStartEvent:
            if event.anchor is not None or event.tag is not None:
                _refused_form(event, source, findings)
            if len(stack) >= DEPTH_LIMIT:
                raise Unreadable(
                    _refuse(
                        source,
                        mark.line,
                        mark.column,
                        f"lists and keys lie more than {DEPTH_LIMIT} deep here",
                        "a vessel file is at most six deep; check brackets and indentation",
                    )
                )
            node = (Mapping if kind is yaml.MappingStartEvent else Listing)(mark.line, mark.column, source)
        elif kind is yaml.MappingEndEvent or kind is yaml.SequenceEndEvent:
            top, pending = stack.pop()
            continue
        elif kind is yaml.AliasEvent:
            _refused_form(event, source, findings)
            node = Refused("", mark.line, mark.column, True, source)
        elif kind is yaml.DocumentStartEvent and root is not None:
            raise Unreadable(
                _refuse(
                    source,
                    mark.line,
                    mark.column,
                    "a second document starts here ('---')",
                    "one file describes one vessel: remove the line '---'",
                )
            )
        else:
            continue
        scalar = kind is yaml.ScalarEvent or kind is yaml.AliasEvent
        if top is None:
            root = node
        elif top.__class__ is Listing:
            top.items.append(node)
        elif pending is None:
            pending = _key(node, top, findings, text)
            if scalar:
                continue
        else:
            if pending:
                top.entries[pending] = node
            pending = None
        if not scalar:
            stack.append((top, pending))
            top, pending = node, None
    if root is None or (root.__class__ is Scalar and not root.text.strip()):
        raise Unreadable(
            _refuse(source, 0, 0, "the file is empty", "start one with: musterbook commission NAME")
        )
    if root.__class__ is not Mapping:
        raise Unreadable(
            _refuse(
                source,
                root.line,
                root.column,
                "the file does not start with a key such as 'format:'",
                "write keys and values, with a blank after each colon; a starter file comes from: musterbook commission NAME",
            )
        )
    return root


def _key(node, parent, findings, text) -> str:
    """The text of a key; "" where it cannot be one, so that its value is dropped."""
    if node.__class__ is Refused:
        return ""
    if node.__class__ is not Scalar:
        findings.append(
            _refuse(
                node.source,
                node.line,
                node.column,
                "a list or mapping stands where a key belongs",
                "put the text in quotes if it is meant as text",
                "file.bad-value",
            )
        )
        return ""
    name = node.text
    if not name:
        before = _rows(text)[node.line][: node.column]
        findings.append(
            _bare_mark(node.source, node.line, before.rindex("?"))
            if node.plain and "?" in before
            else _refuse(node.source, node.line, node.column, *_NO_KEY, "file.blank-value")
        )
    elif name in parent.keys:
        first, shown = parent.keys[name], "" if node.source.private else _short(name)
        called = f"'{shown}'" if shown else "this key"
        findings.append(
            Finding(
                "file.duplicate-key",
                Weight.DEFECT,
                f"{called} stands twice in the same block, first on line {first.line + 1}",
                place_of(node, shown),
                "keep the one that is true and delete the other",
                also=(place_of(first, shown),),
            )
        )
        return ""
    else:
        parent.keys[name] = node
    return name


def _refused_form(event, source, findings):
    if event.__class__ is yaml.AliasEvent or event.anchor is not None:
        what = "anchors and aliases ('&', '*') are not used in a vessel file"
        remedy = (
            "write the value out, or put what sister ships share into a class file and name it in 'based-on'; "
            "text that starts with & or * goes in quotes"
        )
    else:
        what = "tags ('!') are not used in a vessel file"
        remedy = "remove the word with '!'; text that starts with ! goes in quotes"
    mark = event.start_mark
    findings.append(_refuse(source, mark.line, mark.column, what, remedy, "file.refused-form"))


_BACKSLASH = (
    "a backslash in double quotes makes a sign that cannot be printed",
    r"write the text in single quotes: 'C:\boats'",
)
_NO_KEY = (
    "there is no key before the colon",
    "write a key, or put the text in quotes if it is meant as a value",
)


def _bare_mark(source, line, column):
    return _refuse(
        source,
        line,
        column,
        "a bare '?' stands here",
        "write the word unknown for what is not known yet",
        "file.blank-value",
    )


def _short(text):
    return text if len(text) <= 60 else f"{text[:60]} ..."


def _explain(error, text, source) -> Finding:
    """The parser's complaint in a skipper's words, placed where the mistake is rather than where the parser noticed it."""
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    opened = getattr(error, "context_mark", None) or mark
    line, column = (mark.line, mark.column) if mark else (0, 0)
    problem, context = getattr(error, "problem", "") or str(error), getattr(error, "context", "") or ""
    rows = _rows(text)
    if not "".join(rows[line:]).strip():  # the parser noticed at the end of the file
        line = next((number for number in range(min(line, len(rows) - 1), -1, -1) if rows[number].strip()), 0)
        column = len(rows[line])
    row = rows[line]
    before, letter = row[:column], row[column : column + 1]
    above = next((number for number in range(line - 1, -1, -1) if rows[number].strip()), line)
    tab = next(
        (number for number in (line, above) if number < len(rows) and re.match(r" *\t", rows[number])), None
    )
    bare = re.search(r"(?:^|[\[{,:-])\s*(\?)\s*(?:$|[,\]}#])", row)

    def told(message, remedy, line=line, column=column):
        return _refuse(source, line, column, message, remedy)

    if tab is not None or "\\t" in problem:
        place = (tab, rows[tab].index("\t")) if tab is not None else (line, column)
        return told(
            "a tab stands where spaces belong",
            "indent with spaces; set the editor to write spaces for the Tab key",
            *place,
        )
    if bare:
        return _bare_mark(source, line, bare.start(1))
    if re.search(r"[‘’“”„]", row) and ("mapping values" in problem or "expected" in problem):
        return told(
            "curly quotes stand where straight ones belong",
            'type straight quotes: "text"',
            line,
            re.search("[‘’“”„]", row).start(),
        )
    if "mapping values are not allowed" in problem:
        if re.search(r":\s", before.lstrip("- ")):
            return told(
                "there is a second ': ' on this line",
                'put text that holds ": " in quotes: name: "Anna: the second"',
            )
        return told(
            "this line is indented further than the one above it, which has its value already",
            "keys of one block start in the same column",
            line,
            len(row) - len(row.lstrip()),
        )
    if "quoted scalar" in context and "escape" not in problem and "hex" not in problem:
        return told(
            "a quote is opened here and never closed",
            "close it on the same line; text that holds \" goes in single quotes, text that holds ' in double ones",
            opened.line,
            opened.column,
        )
    if "escape" in problem or "hex" in problem:
        return told(
            "a backslash in double quotes starts a code here",
            _BACKSLASH[1],
            line,
            max(row.find("\\", max(column - 1, 0)), 0),
        )
    if "could not find expected ':'" in problem:
        return told(
            "this line, or the one below it, has no ': ' after its key",
            "write 'key: value' with a space after the colon",
            opened.line,
            opened.column,
        )
    if "block scalar" in context:
        return told(
            f"a value cannot start with '{rows[opened.line][opened.column]}' on its line",
            "put the value in quotes",
            opened.line,
            opened.column,
        )
    if "cannot start any token" in problem or "node content" in problem:
        return (
            told(f"a value cannot start with '{letter}'", "put the value in quotes")
            if letter
            else told(
                "the file ends before its last bracket or value is finished",
                "close every bracket, and write the value",
            )
        )
    if "flow" in context:
        return told(
            "a bracket is opened here and not closed before the next key",
            "close it; text that holds , [ ] { or } goes in quotes",
            opened.line,
            opened.column,
        )
    if "directive" in problem or "directive" in context or "incompatible YAML" in problem:
        return told(
            "a line that starts with % gives orders to other programs", "remove the line", opened.line, 0
        )
    if letter == ":" and not before.strip():
        return told(*_NO_KEY)
    if before.strip() and not before.strip().strip("-"):
        return told("this line does not line up with the ones above it", _IN_ONE_COLUMN)
    if before.strip():
        return told(
            "text follows a closing quote or bracket",
            "put the whole value in one pair of quotes, and look for a quote left open above",
        )
    if "document start" in problem and rows[above].startswith("..."):
        return told("the line '...' ended the file before this", "remove the line '...'", above, 0)
    if "expected" in problem:
        return told("this line does not line up with the ones above it", _IN_ONE_COLUMN)
    return told(f"the line cannot be read ({problem})", "check quotes, brackets and colons here")


_IN_ONE_COLUMN = "keys of one block start in the same column; list items start with '- ', all in one column"


def plain(node):
    """The tree as dict, list and text, for the program's own shelves."""
    if isinstance(node, Scalar):
        return node.text
    if node.__class__ is Listing:
        return [plain(item) for item in node.items]
    return {key: plain(value) for key, value in node.entries.items()}
