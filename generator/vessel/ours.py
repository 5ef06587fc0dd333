"""Which files are vessel files: they say their format. Of any other nothing is quoted, for nobody knows what it is."""

from __future__ import annotations

import codecs
import re

from generator.reading.complaints import BREAK
from generator.reading.findings import Finding, Place, Weight
from generator.reading.nodes import Mapping, Node, Scalar, place_of
from generator.vessel.particulars import Particulars
from generator.vessel.people import Voyage
from generator.vessel.vessel import FORMAT, Vessel

_FORMAT_LINE = re.compile(
    r"""(?:\{[ \t]*)?(["']?)format\1[ \t]*:[ \t]*(["']?)([0-9]{1,3})\2[ \t]*(?:[#,}].*)?"""
)


def says_format(tree: Mapping | None, data: bytes) -> Node | str | None:
    """Which format a file says it has, at its top: where it stands or, in a file that is no tree, the figure alone. None: it says none.

    A file that says none is no vessel file, and nothing of it may be quoted.
    """
    if tree is not None:
        return tree.entries.get("format")
    wide = data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE))
    text = data.decode("utf-16" if wide else "utf-8-sig", "replace")
    return next((match[3] for line in BREAK.split(text) if (match := _FORMAT_LINE.fullmatch(line))), None)


def is_ours(said: Node | str | None) -> bool:
    """Whether what says_format gave is the format that this program reads."""
    return said == FORMAT or (isinstance(said, Scalar) and said.text.strip() == FORMAT)


def of_old(tree: Mapping | None, kind: type[Vessel | Voyage]) -> bool:
    """Whether a class file or voyage.yaml that says no format is one of ours nevertheless: once they said none.

    It is where every key at its top is one of ours, and what tells it from any other list of things aboard is there.
    """
    if tree is None or not tree.entries.keys() <= kind.fields.keys():
        return False
    if kind is Voyage:
        return tree.entries.keys() >= {key for key, field in kind.fields.items() if field.required}
    hers = tree.entries.get("vessel")
    return isinstance(hers, Mapping) and 1 < len(hers.entries) == len(
        hers.entries.keys() & Particulars.fields.keys()
    )


def said_none(place: Place, called: str) -> Finding:
    """A file of old that says no format was read as format 1."""
    return Finding(
        "file.no-format",
        Weight.NOTE,
        f"{called} says no format; it was read as format {FORMAT}",
        place,
        f"write as its first line: format: {FORMAT}",
    )


def wrong_format(said: Node | str | None, place: Place, called: str, *, readable: bool = True) -> Finding:
    """Another format, or none: then it is not known what the file is, and nothing of it is quoted.

    `readable` says whether it is keys and values at all.
    """
    if said is None:
        return Finding(
            "file.format" if readable else "file.unreadable",
            Weight.DEFECT,
            f"{called} is no vessel file of musterbook: no line of it says 'format: {FORMAT}'",
            place,
            f"if it is meant to be one, write as its first line: format: {FORMAT}",
        )
    figure = _figure(said)
    return Finding(
        "file.format",
        Weight.DEFECT,
        f"this program reads format {FORMAT}; {called} says {figure or 'something else'}",
        place_of(said, "format") if figure and isinstance(said, Scalar) else place,
        f"if the file is older, compare it with a new one from 'musterbook commission' and then write format: {FORMAT}; "
        "if it is newer, install a newer musterbook",
    )


def _figure(said: Node | str) -> str:
    """The number of a format; "" where something else stands there, which may be anything."""
    text = said if isinstance(said, str) else said.text.strip() if isinstance(said, Scalar) else ""
    return text if text.isdecimal() and len(text) < 4 else ""
