"""Fingerprints: what a reader's copy comes from, as one number that tells of nothing its reader may not know.

Two copies of one fingerprint are the same manual for that reader: the same values of the vessel and voyage as that reader
may see them, the same base and mark, the same photos, days, language, words of deferred findings, and the same program. What a reader may not see
does not enter, for a number over a telephone number is soon guessed; how a file is commented or laid out does not either.
"""

from __future__ import annotations

import functools
import hashlib
import json
from pathlib import Path
from typing import TYPE_CHECKING

from generator import __version__
from generator.machine.opening import Outside
from generator.machine.photos import PAGE_PX, Unreadable
from generator.reading.block import Block
from generator.reading.values import Band, Keyed, NotKnown, Quantity, Stamp, known
from generator.shelves.folder import templates_folder
from generator.vessel.mark import mark
from generator.vessel.particulars import Contact
from generator.vessel.photographed import Pictured, photo, photographed

if TYPE_CHECKING:
    from generator.manual.composing import Manual
    from generator.vessel.vessel import Vessel

    Plain = str | int | float | None | list["Plain"]


def fingerprint(manual: Manual, reader: str) -> str:
    """Of the copies for one reader."""
    seen = manual.seen_by(reader)
    whole: list[Plain] = [
        program(),
        reader,
        str(manual.as_of),
        str(manual.until),
        manual.printer.language,
        manual.proof,
        manual.proof and manual.sound,
        manual.slug,
        _plain(seen),
        _plain(seen.voyage),
        _plain(seen.charter_base),
        _mark(seen),
        [[each.check, each.message] for entry in seen.deferred_defects for each in manual.deferred_by(entry)],
        [_photo(seen, each) for each in photographed(seen)],
        # The one thing that a copy tells of what it leaves out: that there is a telephone number.
        [bool(known(each.original.phone)) for each in seen.contacts if isinstance(each.original, Contact)],
    ]
    return hashlib.sha256(json.dumps(whole).encode()).hexdigest()


def _mark(vessel: Vessel) -> str:
    """Of the mark of her base as it is printed; "" of one that is not taken."""
    try:
        found = mark(vessel)
    except (Outside, Unreadable):
        found = None
    return hashlib.sha256(found).hexdigest() if found else ""


def _photo(vessel: Vessel, thing: Pictured) -> str:
    """Of a photo as it is printed; "" of one that is not taken."""
    try:
        found = photo(vessel, thing, PAGE_PX)
    except (Outside, Unreadable):
        found = None
    return hashlib.sha256(found).hexdigest() if found else ""


def _plain(value: object) -> Plain:
    """A value of a vessel, with what it was written like."""
    if isinstance(value, Block):
        return [
            [key, _plain(value.__dict__[field.name]), value.basis(key)]
            for key, field in type(value).fields.items()
            if field.name in value.__dict__
        ]
    if isinstance(value, Keyed):
        return [[key, _plain(each)] for key, each in value.items()]
    if isinstance(value, Quantity):
        return [float(value), value.written, value.unit]
    if isinstance(value, Band):
        return [*value, value.written]
    if isinstance(value, Stamp):
        return [str(value), value.stamp]
    if isinstance(value, NotKnown):
        return ["", value.word]
    if isinstance(value, (list, tuple)):
        return [_plain(each) for each in value]
    if value is None or isinstance(value, (str, int, float)):
        return value
    raise TypeError(f"a {type(value).__name__} is no value of a vessel")


def program() -> str:
    """The fingerprint of the program itself, version, code and templates: an edited template makes another manual.

    What is said to developers beside a shelf does not enter: an installed program comes without it.
    """
    return _program(Path(__file__).parent.parent, templates_folder())


@functools.cache
def _program(code: Path, templates: Path) -> str:
    whole = hashlib.sha256(__version__.encode())
    for top, kind in ((code, "*.py"), (templates, "*")):
        for path in sorted(path for path in top.rglob(kind) if path.is_file()):
            name = path.relative_to(top).as_posix()
            if path.name != "README.md" and not name.startswith((".", "_templates/")):
                whole.update(name.encode() + b"\0" + path.read_bytes() + b"\0")
    return whole.hexdigest()
