"""The texts in a file as written, whatever its form: what a reader sees of it, and what only a program finds in it."""

from __future__ import annotations

import base64
import binascii
import re
import zlib
from dataclasses import dataclass
from functools import lru_cache
from html import unescape
from itertools import compress
from typing import TYPE_CHECKING
from urllib.parse import unquote

from generator.machine.fonts import site_font_files

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

_INLINE = frozenset(
    ("a", "abbr", "b", "bdi", "bdo", "cite", "code", "data", "del", "dfn", "em", "font", "i", "ins", "kbd", "mark", "q", "s",
     "samp", "small", "span", "strong", "sub", "sup", "time", "u", "var", "wbr")
)  # fmt: skip
_BETWEEN = frozenset(("br", "tspan", "img"))
_TAG = re.compile(r"(<[^<>]*>)")
_TAG_NAME = re.compile(r"</?([A-Za-z][\w:-]*)")
_ADDRESS = re.compile(r"data:([^,\"'()\s<>]*),([^\"'()<>]*)")
_DRAWN = re.compile(r""" (?:d|points|transform|viewBox)=(?:"[-\d.,\sA-Za-z()]*"|'[-\d.,\sA-Za-z()]*')""")
_STREAM = re.compile(rb"stream\r?\n(.*?)\r?\n?endstream", re.DOTALL)
_STRING = re.compile(rb"\(((?:[^\\()]|\\.)*)\)|<([Ff][Ee][Ff][Ff](?:[0-9A-Fa-f\s])*)>", re.DOTALL)
_ESCAPE = re.compile(rb"\\([0-7]{1,3}|\r\n|.)", re.DOTALL)
_NAMED = {b"n": b"\n", b"r": b"\r", b"t": b"\t", b"b": b"\b", b"f": b"\f"}
_RUN = re.compile(rb"(?:[\x20-\x7e]|[\xc3-\xc5][\x80-\xbf]){5,}")
_WIDE = re.compile(rb"(?:[\x20-\x7e]\x00){5,}")
_FONT = re.compile(rb"/FontFile|/Length1|/OpenType|/CIDFontType0C|/Type1C")
_FOLD = re.compile(r"\r?\n[ \t]")
_BACKSLASH = re.compile(r"((?:\\u[0-9A-Fa-f]{4})+)|\\(.)")
_TEXTS = (".svg", ".js", ".css", ".txt", ".ics", ".json", ".webmanifest", ".xml", ".csv", ".md")


@dataclass(frozen=True)
class Part:
    """A text of a file; `is_text` is False for what may be letters by chance: the bytes of a picture."""

    text: str
    is_text: bool = True


class Seen:
    """What stood in files looked at before: pages share most of theirs, and one file holds all of them once more."""

    def __init__(self) -> None:
        self._blocks: set[tuple[str, str]] = set()
        self._tags: set[str] = set()

    def new_blocks(self, text: str) -> str:
        """The blocks of a text that did not yet stand one behind the other, each with the one before it."""
        blocks = text.split("\f")
        pairs = list(zip(["", *blocks], blocks, strict=False))
        fresh = [pair not in self._blocks for pair in pairs]
        self._blocks.update(pairs)
        wanted = [now or later for now, later in zip(fresh, [*fresh[1:], False], strict=True)]
        return text if all(fresh) else "\f".join(compress(blocks, wanted))

    def new_tags(self, tags: Iterable[str]) -> list[str]:
        """The tags that did not yet stand in any."""
        fresh = [tag for tag in tags if tag not in self._tags]
        self._tags.update(fresh)
        return fresh


def parts_of(name: str, data: bytes, drawn: str = "", seen: Seen | None = None) -> Iterator[Part]:
    """Every text of a file, its name among them; `drawn` is what was laid out on its pages, where it is a PDF.

    What was `seen` in another file of the same reader is left out.
    """
    yield from _readings(name)
    if drawn:
        yield from _readings(drawn)
    if name.lower().endswith((".html", ".htm", ".xhtml", ".svg")):
        yield from _of_markup(data.decode("utf-8", errors="replace"), seen or Seen())
    elif name.lower().endswith(_TEXTS):
        yield from _of_text(data.decode("utf-8", errors="replace"))
    else:
        yield from _of_bytes(data)


def _of_text(text: str) -> Iterator[Part]:
    """A text file: as it is, and with folded lines joined."""
    text, found = _without_addresses(text)
    yield from found
    yield from _readings(text)
    if "\n " in text:
        yield from _readings(_FOLD.sub("", text))


def _readings(text: str) -> Iterator[Part]:
    """A text, and what it comes to once tags and codes typed in it are obeyed."""
    yield Part(text)
    read = unescape(text) if "&" in text else text
    read = _TAG.sub("", read) if "<" in read else read
    read = unquote(read) if "%" in read else read
    read = _BACKSLASH.sub(_unslashed, read) if "\\" in read else read
    if read != text:
        yield Part(read)


def _unslashed(match: re.Match[str]) -> str:
    """What a backslash and what follows it stand for in JSON and in a calendar."""
    if match[1] is not None:
        return bytes.fromhex(match[1].replace("\\u", "")).decode("utf-16-be", "replace")
    return " " if match[2] in "nNrt" else match[2]


def _of_markup(text: str, seen: Seen) -> Iterator[Part]:
    """What is read, with what stands side by side joined; then what only stands in tags."""
    text, found = _without_addresses(text)
    yield from found
    pieces = _TAG.split(text)
    tags = dict.fromkeys(pieces[1::2])
    stands_for = {tag: _parting(tag) for tag in tags}
    pieces[1::2] = [stands_for[tag] for tag in pieces[1::2]]
    read = seen.new_blocks(unescape("".join(pieces)))
    yield from _readings(read)
    told = [_DRAWN.sub("", tag)[1:-1] for tag in seen.new_tags(tags) if "=" in tag or tag.startswith("<!")]
    yield from _readings(unescape("\f".join(told)))


def _parting(tag: str) -> str:
    """What parts the texts before and behind a tag: nothing, a blank, or the end of a block."""
    match = _TAG_NAME.match(tag)
    name = match[1].lower() if match else ""
    return "" if name in _INLINE or not name else " " if name in _BETWEEN else "\f"


def _without_addresses(text: str) -> tuple[str, list[Part]]:
    """The text without the addresses that hold their data themselves, and what is in these."""
    found: list[Part] = []

    def taken_out(match: re.Match[str]) -> str:
        kind, data = match[1], match[2]
        if kind.endswith("base64"):
            found.extend(_of_address(data))
        else:
            found.append(Part(unquote(data)))
        return "data:"

    return (_ADDRESS.sub(taken_out, text) if "data:" in text else text), found


@lru_cache(maxsize=256)
def _of_address(data: str) -> tuple[Part, ...]:
    try:
        return tuple(_of_bytes(base64.b64decode(unquote(data) + "==")))
    except (binascii.Error, ValueError):
        return (Part(data),)


def _of_bytes(data: bytes) -> Iterator[Part]:
    """What is no text file: a PDF by its strings, a picture by whatever could be letters; our own fonts hold nothing of a boat."""
    if data in _own_fonts():
        return
    if data.startswith(b"%PDF"):
        yield from _of_pdf(data)
        return
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError:
        text = "\0"
    if "\0" not in text:
        yield from _of_markup(text, Seen()) if text.lstrip().startswith("<") else _of_text(text)
        return
    yield Part("\f".join(each.decode("utf-8", "replace") for each in _RUN.findall(data)), is_text=False)
    if wide := _WIDE.findall(data) + _WIDE.findall(data[1:]):
        yield Part("\f".join(each[::2].decode("ascii") for each in wide), is_text=False)


@lru_cache(maxsize=1)
def _own_fonts() -> frozenset[bytes]:
    return frozenset(each for each in site_font_files().values() if not each.isascii())


def _of_pdf(data: bytes) -> Iterator[Part]:
    """The strings of a PDF (titles, bookmarks, words for what is drawn, links, dates) and its streams that are texts, unpacked."""
    strings: list[str] = []
    end = 0
    for match in _STREAM.finditer(data):
        before = data[end : match.start()]
        end = match.end()
        head = before[before.rfind(b" obj") :]
        strings += _strings(before)
        stream = _unpacked(match[1]) if b"/FlateDecode" in head else match[1]
        if _FONT.search(head):
            continue
        if b"/Image" in head or b"/EmbeddedFile" in head:
            yield from _of_bytes(stream)
        elif stream.lstrip()[:1] == b"<":
            yield from _of_markup(stream.decode("utf-8", "replace"), Seen())
        elif b"/XRef" not in head:
            strings += _strings(stream)
    strings += _strings(data[end:])
    yield from _readings("\f".join(dict.fromkeys(strings)))


def _unpacked(data: bytes) -> bytes:
    """What was packed, as far as it goes: the line's end before `endstream` may be the data's own."""
    try:
        return zlib.decompressobj().decompress(data)
    except zlib.error:
        return data


def _strings(data: bytes) -> list[str]:
    return (
        [_string(*match.groups()) for match in _STRING.finditer(data)] if b"(" in data or b"<" in data else []
    )


def _string(typed: bytes | None, coded: bytes | None) -> str:
    """A string of a PDF (ISO 32000-1, 7.3.4 and 7.9.2): typed in brackets, or in hexadecimal digits."""
    if coded is not None:
        digits = re.sub(rb"\s", b"", coded)
        held = bytes.fromhex((digits + b"0" * (len(digits) % 2)).decode("ascii"))
    else:
        held = _ESCAPE.sub(_unescaped, typed or b"")
    return held[2:].decode("utf-16-be", "replace") if held.startswith(b"\xfe\xff") else held.decode("latin-1")


def _unescaped(match: re.Match[bytes]) -> bytes:
    said = match[1]
    if said.isdigit():
        return bytes((int(said, 8) & 255,))
    return b"" if said in (b"\n", b"\r", b"\r\n") else _NAMED.get(said, said)
