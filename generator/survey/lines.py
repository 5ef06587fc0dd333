"""The line that belongs to a remedy: which key it is about, and how it reads once it is mended, as far as that can be said."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from generator.reading.fields import Choice, Compound, Dated, Many, Named, Texts, YesNo
from generator.reading.values import Stamp
from generator.shelves.gear import gear_names
from generator.survey.hands import duty_of, offered
from generator.survey.held import ROLES, SPACES
from generator.vessel.vessel import Vessel

if TYPE_CHECKING:
    from datetime import date
    from typing import Any

    from generator.reading.block import Block
    from generator.reading.fields import Field
    from generator.survey.sight import Sight

_GIVES_ONE = re.compile(r"\b[a-z][a-z-]*: \S")
_AHEAD = re.compile(r"expire|next|until")
_READ_ON_IT = frozenset(("made", "fitted", "built"))
_MOST_WORDS, _MOST_KEYS = 9, 5
_TOLD = frozenset(("where", "how"))
_TAKES_HANDS = frozenset(("substitute", "carried-by", "helper", "who"))


def with_line(remedy: str, about: Block | None, item: str, path: str, sight: Sight) -> str:
    """A remedy that gives the line: "write cockpit?" as "write muster-place: cockpit?", and what gives none with the line behind it."""
    field, key = field_at(path), path.rpartition(".")[2]
    if entry := _entry(remedy, item):
        return f"{remedy.rstrip('.')}; paste: {entry}"
    if field is None or isinstance(field, (Compound, Texts)) or field.reader != "guest":
        return remedy
    if not isinstance(field, Choice) and key not in ROLES | SPACES:
        pass  # a word in a text of her own is not the whole of it
    elif match := re.match(r"write (one of: |[^:,;?]+\?)", remedy):
        rest = remedy.removeprefix("write ")
        return f"write {key}: and {rest}" if match[1] == "one of: " else f"write {key}: {rest}"
    if _GIVES_ONE.search(remedy) or not (line := _line(field, remedy, about, sight)):
        return remedy
    said = remedy.rstrip(".")
    if "write" in said.partition(", or ")[0]:
        return f"{said} ({line})"
    return f"{said}; {'' if line.startswith('for example') else 'then write '}{line}"


def _line(field: Field[Any], remedy: str, about: Block | None, sight: Sight) -> str:
    """How the key is written: by the value it cannot keep, or by an example; "" where only looking tells."""
    key = field.key
    value = about.__dict__.get(field.name) if about is not None else None
    if isinstance(field, YesNo) and isinstance(value, bool) and "write" in remedy:
        return f"{key}: {'no' if value else 'yes'}"
    if isinstance(field, Choice) and re.search(rf"(?:correct|write|under) '{key}'", remedy):
        others = [word for word in field.choices if word != value]
        those = "" if len(others) == 1 else "and one of "
        return f"{key}: {those}{', '.join(others)}" if len(others) <= _MOST_WORDS else ""
    if isinstance(field, Dated) and key not in _READ_ON_IT:
        looked_to = max(sight.as_of, sight.until)
        if _AHEAD.search(key) and isinstance(value, Stamp) and value.last_day > looked_to:
            return ""  # it is not too early, and how late it may be is said in words
        return f"for example {key}: {_month(key, value, looked_to)}"
    if key in ROLES:
        others = [role for role in _able(about, key, sight) if role != value]
        return f"{key}: and one of {', '.join(others)}" if 0 < len(others) <= _MOST_WORDS else ""
    return ""  # a figure is measured, a name is read: an example would be copied


def _able(about: Block | None, key: str, sight: Sight) -> list[str]:
    """The roles that may stand under a key: of a duty whoever may have it and has not, else who can carry and help."""
    if key not in _TAKES_HANDS:
        return list(sight.roles)
    named = re.fullmatch(r"station-bill\.([^.]+)\.([^.]+)", about.path) if about is not None else None
    duty = duty_of(named[1], named[2]) if named else None
    told = about.__dict__.get("who") or () if about is not None and duty is not None else ()
    return [role for role in offered(sight, duty) if role not in told]


def _entry(remedy: str, item: str) -> str:
    """An entry of the list that a remedy names, to be pasted under it: what the remedy says, and the rest unknown till it is found out."""
    named = re.search(r"(?:list|describe|tell|write)[^.;]* under '([a-z-]+)'", remedy)
    field = Vessel.fields.get(named[1]) if named else None
    if not isinstance(field, Many) or "{" in remedy:
        return ""
    found = re.findall(r"\b(what|kind|power): ([a-zA-Z ]+?)(?=[,;.:]| and | or |$)", remedy)
    given: dict[str, str] = dict(reversed(found))
    if "by that name" in remedy and item in gear_names():
        given.setdefault("what", item)
    keys = [each.key for each in field.block.fields.values() if each.required or each.key in _TOLD]
    keys = [*(key for key in given if key in field.block.fields), *(key for key in keys if key not in given)]
    parts = (f"{key}: {given.get(key, 'unknown')}" for key in keys[:_MOST_KEYS])
    return f"- {{{', '.join(parts)}}}" if given else ""


def _month(key: str, value: object, as_of: date) -> str:
    """A month as it may be marked: of what runs out a year ahead or later; else of today."""
    if not _AHEAD.search(key):
        return f"{as_of.year}-{as_of.month:02}"
    marked = value.last_day.month if isinstance(value, Stamp) else as_of.month
    return f"{as_of.year + 1}-{marked:02}"


def field_at(path: str) -> Field[Any] | None:
    """The field at a key path of a vessel's file; None for what is none of hers."""
    block: type[Block] | None = Vessel
    field: Field[Any] | None = None
    for step in re.sub(r"\[[^\]]*\]", "", path).split("."):
        if block is not None and step not in block.fields and isinstance(field, Named):
            continue  # a name that the file or a shelf gives
        if block is None or step not in block.fields:
            return None
        field = block.fields[step]
        block = field.blocks if isinstance(field, Compound) else None
    return field
