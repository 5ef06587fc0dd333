"""Readers: no reader gets what is not meant for them."""

from __future__ import annotations

import re
from html import unescape
from typing import TYPE_CHECKING

from generator.reading.fields import Compound
from generator.reading.findings import Place
from generator.reading.values import NotKnown
from generator.survey.registry import (
    COMMON_PRACTICE,
    DEFECT,
    INSPECTION,
    NOTE,
    Finds,
    Found,
    Sight,
    check,
    describe,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from generator.vessel.vessel import Vessel

_OWN = "this program's file format"
_TEXTS = (".html", ".htm", ".svg", ".js", ".css", ".txt", ".ics", ".json", ".webmanifest")
_ALLOWED = {"guest": ("guest",), "shore": ("guest", "shore"), "crew": ("guest", "crew", "shore")}
SHORTEST = 4


describe(
    "reader.skipped",
    NOTE,
    INSPECTION,
    _OWN,
    """Every output asked for is written.
    Why: values that stand as private lie in private.yaml; without it a crew's copy would have holes where numbers belong.
    Remedy: lay private.yaml beside vessel.yaml and publish again.""",
)


def private_values(vessel: Vessel, reader: str) -> dict[str, str]:
    """What `reader` may not see, as value: key path. Values that also stand where the reader may see them are left out."""
    hidden, open_ = {}, set()
    for path, who, value in _leaves(vessel):
        if who in _ALLOWED[reader]:
            open_.add(value)
        elif len(value) >= SHORTEST:
            hidden[value] = path
    return {value: path for value, path in hidden.items() if value not in open_}


def _leaves(vessel: Vessel) -> Iterator[tuple[str, str, str]]:
    """The key path, the first reader and the text of every value."""
    for block in vessel.inner():
        for field in type(block).fields.values():
            value = getattr(block, field.name)
            if (
                not isinstance(field, Compound)
                and value is not None
                and not isinstance(value, (NotKnown, bool))
            ):
                for each in value if isinstance(value, tuple) and not hasattr(value, "written") else (value,):
                    yield f"{block.path}.{field.key}".lstrip("."), field.reader, str(each)


@check("reader.private-leak", DEFECT, COMMON_PRACTICE, INSPECTION, deferrable=False)
def readers_get_only_what_is_theirs(sight: Sight) -> Finds:
    """No copy holds what is not meant for its reader.

    Why: guests' copies lie open and are passed on; telephone numbers, medical facts and beacon ids do not belong there.
    Remedy: if the value stands in words of your own (a note, a place, a name), take it out there; else report it.
    """
    for made in sight.written.values():
        reader = made.reader or "guest"
        hidden = private_values(sight.vessel, reader)
        if not hidden:
            continue
        pattern = re.compile(
            "|".join(rf"(?<!\w){_loose(value)}(?!\w)" for value in sorted(hidden, key=len, reverse=True))
        )
        by_plain = {_plain(value): path for value, path in hidden.items()}
        for name, data in sorted(made.files.items()):
            if not name.endswith(_TEXTS):
                continue
            text = unescape(data.decode("utf-8"))
            for found in dict.fromkeys(_plain(match[0]) for match in pattern.finditer(text)):
                yield Found(
                    Place(f"{reader}/{name}"),
                    f"this copy is for: {reader}; it holds the value of '{by_plain[found]}', which is not",
                    item=by_plain[found],
                )


def _plain(value: str) -> str:
    return re.sub(r"\s+", "", value)


def _loose(value: str) -> str:
    """The value with any white space between its words."""
    return r"\s*".join(map(re.escape, value.split()))
