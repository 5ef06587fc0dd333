"""YAML text to a tree of text with places. The only module that knows YAML; it knows no boat words."""

from __future__ import annotations

import codecs
from pathlib import Path

import yaml
from yaml.events import (
    AliasEvent,
    DocumentStartEvent,
    MappingEndEvent,
    MappingStartEvent,
    NodeEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
)

from generator.machine.opening import Bounds, NotPlain, content
from generator.reading import bare_marks
from generator.reading.complaints import (
    BACKSLASH,
    LINES_IN_KEY,
    NO_KEY,
    Complaint,
    bare_mark,
    explain,
    refuse,
    rows,
)
from generator.reading.findings import Finding, Weight
from generator.reading.layout import Laid
from generator.reading.nearest import shortened
from generator.reading.nodes import (
    OF_A_VESSEL,
    At,
    Listing,
    Mapping,
    Node,
    Refused,
    Scalar,
    Sort,
    Source,
    place_of,
)
from generator.reading.unseen import UNSEEN, line_and_column, without_unseen

SIZE_LIMIT_BYTES = 1_000_000
DEPTH_LIMIT = 24
LONGEST_KEY = 1000  # private.yaml's keys hold the names of things
EVENT_LIMIT = 60_000  # keys, values, starts and ends of blocks; a full vessel file has some 4,000
_ASCII = bytes(range(128))
_PARSER = yaml.CSafeLoader if yaml.__with_libyaml__ else yaml.SafeLoader


class Unreadable(Exception):
    """The text is no tree at all; holds the one finding that says why."""

    def __init__(self, finding: Finding):
        super().__init__(finding.message)
        self.finding = finding


def decode(data: bytes, source: Source) -> str:
    """Bytes to text: UTF-8 with or without a byte-order mark, or UTF-16 with one."""
    if len(data) > SIZE_LIMIT_BYTES:
        raise Unreadable(
            refuse(
                source,
                0,
                0,
                f"the file is larger than {SIZE_LIMIT_BYTES // 1000:,} kB, the most {source.sort.called} may have",
                source.sort.too_large,
            )
        )
    encoding = "utf-16" if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)) else "utf-8-sig"
    try:
        text = data.decode(encoding)
    except UnicodeDecodeError as error:
        before = error.object[: error.start].decode("utf-8", "replace") if encoding == "utf-8-sig" else ""
        raise Unreadable(
            refuse(
                source,
                *line_and_column(before, len(before)),
                "a character here is not UTF-8 text",
                "save the file as UTF-8 (every editor can), then look at this line again",
            )
        ) from None
    if "\x00" in text:
        raise Unreadable(
            refuse(
                source,
                *line_and_column(text, text.index("\x00")),
                "the file holds bytes that are no text",
                "save it again as plain text in UTF-8, not as a document of a word processor",
            )
        )
    return text


def read(text: str, source: Source) -> tuple[Mapping | None, list[Finding]]:
    """The tree of a file and what is wrong with its form; None where there is no tree."""
    findings: list[Finding] = []
    if not text.replace("\n", "").isprintable() or "\ufffd" in text:
        text = without_unseen(text, source, findings)
    if "?" in text and (past := _past_marks(text, source, findings)):
        return past, findings
    try:
        tree = _build(text, source, findings)
    except Unreadable as error:
        tree = None
        findings.append(error.finding)
    except yaml.YAMLError as error:
        tree, told = None, explain(_complaint(error), text, source)
        if told not in findings:
            findings.append(told)
    return tree, findings


def _past_marks(text: str, source: Source, findings: list[Finding]) -> Mapping | None:
    """The tree of a text in which bare question marks stand for values; None where there are none, or it reads in no way."""
    readable, marks = bare_marks.put_out(text)
    more: list[Finding] = []
    try:
        tree = _build(readable, source, more) if marks else None
    except (Unreadable, yaml.YAMLError):
        return None
    if tree is None or not bare_marks.put_back(tree, marks):
        return None
    findings += more
    return tree


def _complaint(error: yaml.YAMLError) -> Complaint:
    """What the parser says, without the parser's own classes."""
    if not isinstance(error, yaml.MarkedYAMLError):
        return Complaint(str(error))
    mark = error.problem_mark or error.context_mark
    began = error.context_mark or mark
    return Complaint(
        error.problem or str(error),
        error.context or "",
        *((mark.line, mark.column) if mark else (0, 0)),
        (began.line, began.column) if began else (0, 0),
    )


def read_file(
    path: Path, name: str, private: bool = False, sort: Sort = OF_A_VESSEL, bounds: Bounds | None = None
) -> tuple[Mapping | None, list[Finding]]:
    """The tree of the file at `path`, called `name` in findings; it must lie in `bounds`, where there are any. Raises Outside."""
    source = Source(name, private, sort)
    data, findings = bytes_of(path, source, bounds)
    return (None, findings) if data is None else read_bytes(data, source)


def read_bytes(data: bytes, source: Source) -> tuple[Mapping | None, list[Finding]]:
    """The tree of what stands in a file, and what is wrong with its letters and its form; None where there is no tree."""
    told = b"\\" not in data  # behind which any letter may be written by its number
    source.ascii = told and data.isascii()
    try:
        text = decode(data, source)
        if told:
            source.letters = frozenset(text.encode().translate(None, _ASCII).decode())
        return read(text, source)
    except Unreadable as error:
        return None, [error.finding]


def read_prose(path: Path, name: str, sort: Sort) -> tuple[str | None, list[Finding]]:
    """The text of a file that is no YAML, and what is wrong with its letters; None where it is no text."""
    source = Source(name, sort=sort)
    data, findings = bytes_of(path, source, None)
    if data is None:
        return None, findings
    try:
        text = decode(data, source)
    except Unreadable as error:
        return None, [error.finding]
    if not text.replace("\n", "").isprintable() or "\ufffd" in text:
        text = without_unseen(text, source, findings)
    return text, findings


def bytes_of(path: Path, source: Source, bounds: Bounds | None) -> tuple[bytes | None, list[Finding]]:
    """What stands in a file, not more than may, or why it cannot be read. Raises Outside."""
    try:
        return content(path, bounds, SIZE_LIMIT_BYTES), []
    except NotPlain as error:
        return None, [
            refuse(
                source,
                0,
                0,
                f"this is {error}, and a text file belongs here",
                "rename it, and write the file in its place",
            )
        ]
    except OSError as error:
        gone = isinstance(error, FileNotFoundError) and path.is_symlink()
        why = "it is a link, and what it points to is not there" if gone else error.strerror
        return None, [
            refuse(
                source, 0, 0, f"the file cannot be opened: {why}", "check the path and that you may read it"
            )
        ]


def _build(text: str, source: Source, findings: list[Finding]) -> Mapping:  # noqa: C901, PLR0912, PLR0915 - calls cost here
    """One pass over the parser's events, without recursion, so that depth and aliases cannot hurt."""
    stack: list[tuple[Mapping | Listing | None, str | None]] = []
    root: Node | None = None
    top: Mapping | Listing | None = None
    entries: dict[str, Node] | None = None  # of `top`, where it is a block
    items: list[Node] | None = None  # of `top`, where it is a list
    at: dict[str, At] = {}  # where its keys stand
    pending: str | None = None  # the key waiting for its value; "" where the key was refused
    marked = any(sign in text for sign in "&!*")  # else nothing can have an anchor or a tag
    node: Node
    for number, event in enumerate(iter(_PARSER(text).get_event, None)):
        kind, mark = event.__class__, event.start_mark
        if kind is ScalarEvent:
            if marked and (event.anchor is not None or event.tag is not None):
                _refused_form(event, source, findings)
            if number > EVENT_LIMIT:
                what = f"the file holds more than {EVENT_LIMIT:,} keys and values up to here"
                raise Unreadable(refuse(source, mark.line, mark.column, what, source.sort.too_long))
            value = event.value
            if pending is None and entries is not None:
                if value not in at and 0 < len(value) <= LONGEST_KEY and value.isprintable():
                    at[value] = (mark.line, mark.column, not event.style)
                    pending = value
                    continue  # as nearly every key is
                node = Scalar(value, mark.line, mark.column, not event.style, source)
                if not value.isprintable():
                    _make_plain(node, event, findings)
                pending = _key(node, at, findings, text)
                continue
            node = Scalar(value, mark.line, mark.column, not event.style, source)
            if not value.isprintable():
                _make_plain(node, event, findings)
            if entries is not None:
                if pending:
                    entries[pending] = node
                pending = None
            elif items is not None:
                items.append(node)
            else:
                root = node
            continue
        if kind is MappingStartEvent or kind is SequenceStartEvent:
            if event.anchor is not None or event.tag is not None:
                _refused_form(event, source, findings)
            if len(stack) >= DEPTH_LIMIT:
                what = f"lists and keys lie more than {DEPTH_LIMIT} deep here"
                raise Unreadable(refuse(source, mark.line, mark.column, what, source.sort.too_deep))
            node = (Mapping if kind is MappingStartEvent else Listing)(mark.line, mark.column, source)
        elif kind is MappingEndEvent or kind is SequenceEndEvent:
            top, pending = stack.pop()
            entries, at = (top.entries, top.at) if isinstance(top, Mapping) else (None, at)
            items = top.items if isinstance(top, Listing) else None
            continue
        elif kind is AliasEvent:
            _refused_form(event, source, findings)
            node = Refused("", mark.line, mark.column, True, source)
        elif kind is DocumentStartEvent and root is not None:
            what = "a second document starts here ('---')"
            raise Unreadable(refuse(source, mark.line, mark.column, what, source.sort.one))
        else:
            continue
        if items is not None:
            items.append(node)
        elif entries is None:
            root = node
        elif pending is None:
            pending = _key(node, at, findings, text)
        else:
            if pending:
                entries[pending] = node
            pending = None
        if isinstance(node, Scalar):
            continue
        stack.append((top, pending))
        top, pending = node, None
        entries, at = (node.entries, node.at) if isinstance(node, Mapping) else (None, at)
        items = node.items if isinstance(node, Listing) else None
    if root is None or (type(root) is Scalar and not root.text.strip()):
        raise Unreadable(refuse(source, 0, 0, "the file is empty", source.sort.empty))
    if not isinstance(root, Mapping):
        raise Unreadable(
            refuse(
                source,
                root.line,
                root.column,
                f"the file does not start with {source.sort.first_key}",
                f"write keys and values, with a blank after each colon; {source.sort.keyless}",
            )
        )
    return root


def _make_plain(node: Scalar, event: ScalarEvent, findings: list[Finding]) -> None:
    """Takes out of a value what a code in double quotes made, and writes a tab as the blank it is printed as."""
    if event.style == '"' and UNSEEN.search(node.text):
        findings.append(refuse(node.source, node.line, node.column, *BACKSLASH))
        node.text = " ".join(UNSEEN.sub(" ", node.text).split())
    node.text = node.text.replace("\r\n", "\n").replace("\r", "\n").replace("\t", " ")


def _key(node: Node, at: dict[str, At], findings: list[Finding], text: str) -> str:
    """The text of a key; "" where it cannot be one, so that its value is dropped."""
    if isinstance(node, Refused):
        return ""
    if not isinstance(node, Scalar):
        findings.append(
            refuse(
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
    if name and name not in at and len(name) <= LONGEST_KEY and "\n" not in name:
        at[name] = (node.line, node.column, node.plain)
    elif not name:
        before = rows(text)[node.line][: node.column]
        findings.append(
            bare_mark(node.source, node.line, before.rindex("?"))
            if node.plain and "?" in before
            else refuse(node.source, node.line, node.column, *NO_KEY, "file.blank-value")
        )
    elif "\n" in name:
        findings.append(refuse(node.source, node.line, node.column, *LINES_IN_KEY, "file.bad-value"))
        return ""
    elif len(name) > LONGEST_KEY:
        what = f"a key of {len(name):,} letters stands here, and {LONGEST_KEY} are the most"
        findings.append(
            refuse(node.source, node.line, node.column, what, "write it shorter", "file.bad-value")
        )
        return ""
    else:
        first, shown = Scalar(name, *at[name], node.source), "" if node.source.private else shortened(name)
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
    return name


def _refused_form(event: NodeEvent, source: Source, findings: list[Finding]) -> None:
    if isinstance(event, AliasEvent) or event.anchor is not None:
        what = f"anchors and aliases ('&', '*') are not used in {source.sort.called}"
        remedy = f"{source.sort.instead_of_alias}; text that starts with & or * goes in quotes"
    else:
        what = f"tags ('!') are not used in {source.sort.called}"
        remedy = "remove the word with '!'; text that starts with ! goes in quotes"
    mark = event.start_mark
    assert mark is not None, "the parser says where each event starts"
    findings.append(refuse(source, mark.line, mark.column, what, remedy, "file.refused-form"))


def laid_out(text: str) -> Laid:
    """Where each key and value of a text that reads without a complaint begins and ends."""
    starts = [0]
    for row in text.splitlines(keepends=True):
        starts.append(starts[-1] + len(row))
    root = yaml.compose(text, Loader=_PARSER)
    assert root is not None, "a text that reads holds something"
    return _laid(root, starts)


def _laid(node: yaml.Node, starts: list[int]) -> Laid:
    first, last = (starts[mark.line] + mark.column for mark in (node.start_mark, node.end_mark))
    laid = Laid(first, last, node.start_mark.column)
    if isinstance(node, yaml.MappingNode):
        laid.flow = node.flow_style is True
        laid.keys = {key.value: _laid(value, starts) for key, value in node.value}
    elif isinstance(node, yaml.SequenceNode):
        laid.flow = node.flow_style is True
        laid.items = [_laid(value, starts) for value in node.value]
    else:
        laid.text = node.value
    return laid
