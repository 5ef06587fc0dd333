"""The spaces of a hull type, offered where an answer names one, and told where there is none of that name."""

from __future__ import annotations

import re
from collections.abc import Mapping

from generator.manual.drawing.likely import likely
from generator.manual.drawing.spaces import find_space, preset_spaces
from generator.reading.nearest import shortened
from generator.shelves.spaces import LEVELS, hull, hull_types
from generator.vessel.fittings import SIDES

_LENGTH_M, _BEAM_M = 10.0, 3.0  # names alone are looked for


def type_in(answers: Mapping[str, str]) -> str:
    """Her hull type, as answered; "" where that is open."""
    said = answers.get("vessel.type", "").strip().lower()
    return said if said in hull_types() else ""


def spaces_of_type(answers: Mapping[str, str]) -> tuple[tuple[str, ...], ...]:
    """The names of her type's spaces, level by level from the top down; of the type that stands in where hers is open."""
    spaces = hull(type_in(answers)).spaces
    return tuple(tuple(str(each.name) for each in spaces if each.level == level) for level in LEVELS)


def no_such_space(where: str, answers: Mapping[str, str]) -> str:
    """That her type has no space of that name, and what it has; "" if it has one. Where her type is open, of any type."""
    own = type_in(answers)
    if any(
        find_space(preset_spaces(each, _LENGTH_M, _BEAM_M), where)[0]
        for each in ([own] if own else hull_types())
    ):
        return ""
    names = [name for level in spaces_of_type(answers) for name in level]
    near = likely(where, list(preset_spaces(own, _LENGTH_M, _BEAM_M).values()))
    write = f"write {' or '.join(near)}?" if near else f"write one of: {', '.join(names)}"
    return (
        f"a {own or 'boat'} has no space '{shortened(where)}' on her plan; {write} "
        "(a space of her own: answer unknown, and describe it in the file under deck)"
    )


def place_and_side(text: str) -> tuple[str, str]:
    """Space and side of an answer such as "cockpit locker, port"; the side is "" where none is named."""
    words = re.fullmatch(rf"(.*?)[\s,]+({'|'.join(SIDES)})(?:\s+side)?", text.strip(), re.IGNORECASE)
    return (words[1].strip(" ,"), words[2].lower()) if words else (text.strip(), "")
