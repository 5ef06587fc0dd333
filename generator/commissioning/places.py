"""The spaces of a hull type, offered where an answer names one, and told where there is none of that name."""

from __future__ import annotations

import re
from collections.abc import Mapping

from generator.commissioning.called import instead
from generator.commissioning.refusal import Refusal
from generator.manual.drawing.likely import likely
from generator.manual.drawing.spaces import Space, find_space, preset_spaces
from generator.reading.nearest import near, shortened
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


def of_her_type(example: str, answers: Mapping[str, str]) -> str:
    """An example with the spaces in it that boats of her type have."""
    if not type_in(answers):
        return example
    spaces = preset_spaces(type_in(answers), _LENGTH_M, _BEAM_M)
    stand_in = {
        name: found.name
        if (found := find_space(spaces, name)[0])
        else next((each for each in others if each in spaces), _steered(spaces))
        for name, others in instead().items()
    }
    either = "|".join(map(re.escape, sorted(stand_in, key=len, reverse=True)))
    return re.sub(rf"\b(?:{either})\b", lambda match: stand_in[match[0]], example)


def _steered(spaces: Mapping[str, Space]) -> str:
    """Where she is steered: a space that every boat has."""
    return next(space.name for space in spaces.values() if space.steering)


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


_SHORT = {
    "stbd": "starboard",
    "stb": "starboard",
    "sb": "starboard",
    "center": "centre",
    "middle": "centre",
    "ps": "port",
}
_HANDS = {"left": "port", "right": "starboard"}


def place_and_side(key: str, text: str) -> tuple[str, str]:
    """Space and side of an answer such as "cockpit locker, port" or "port locker"; the side is "" where none is named.

    Raises Refusal for a word that is meant as a side and is none: starbord, left.
    """
    text = text.strip()
    refuse_no_side(key, text)
    sides = "|".join((*SIDES, *_SHORT))
    behind = re.fullmatch(rf"(.*?)[\s,]+({sides})(?:[\s-]+side)?", text, re.IGNORECASE)
    before = re.fullmatch(
        rf"(port|starboard|{'|'.join(_SHORT)})\s+(?:side\s+)?(?:of\s+)?(.+)", text, re.IGNORECASE
    )
    if behind:
        return behind[1].strip(" ,"), _SHORT.get(behind[2].lower(), behind[2].lower())
    if before:
        return before[2].strip(" ,"), _SHORT.get(before[1].lower(), before[1].lower())
    return text, ""


def refuse_no_side(key: str, text: str) -> None:
    """Raises Refusal where the last words of a place are meant as a side and are none."""
    words = re.fullmatch(r"(.*?)(,\s*|\s+)([^\W\d_']+)(?:[\s-]+side)?", text.strip())
    said = words[3].lower() if words else ""
    if not words or said in SIDES or said in _SHORT:
        return
    if said in _HANDS:
        raise Refusal(
            f"{key}: left and right change with the way one looks; write {words[1]}, {_HANDS[said]}? (port is left looking forward)"
        )
    meant = near(said, SIDES)
    if meant and (words[2].startswith(",") or len(said) > _LONG_ENOUGH):
        raise Refusal(f"{key}: '{said}' is no side; write {words[1]}, {meant[0]}?")


_LONG_ENOUGH = 7  # letters of a word that without a comma is taken for a misspelt side: starbord
