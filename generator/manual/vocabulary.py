"""The names a vessel file may use that stand on shelves: spaces of each hull type, emergencies and duties, gear asked for."""

from __future__ import annotations

import textwrap
from dataclasses import dataclass

from generator.reading.values import given
from generator.shelves.gear import gear_names
from generator.shelves.languages import catalogue
from generator.shelves.procedures import shelf
from generator.shelves.spaces import hull, hull_types

_WIDTH = 100


@dataclass(frozen=True)
class Duty:
    """A duty by the name the station bill has for it, in words; one that is not essential may be left open."""

    name: str
    words: str
    essential: bool


def spaces(hull_type: str) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """The spaces of a hull type, each with its other names."""
    return tuple((given(each.name, ""), tuple(each.also)) for each in hull(hull_type).spaces)


def duties() -> dict[str, tuple[Duty, ...]]:
    """The duties of each emergency that has any, in the first language's words."""
    found = {}
    for one in shelf():
        if one.duties:
            words = catalogue().procedures[one.id].duties
            found[one.id] = tuple(Duty(each.id, words[each.id], each.essential) for each in one.duties)
    return found


def told_beside(block: str) -> str:
    """What a block takes besides its keys, as text for people: the names on the shelf; "" where there is nothing to tell."""
    if block.startswith("deck"):
        parts = [
            f"The spaces of a {each}: "
            + ", ".join(f"{name} (or {', '.join(also)})" if also else name for name, also in spaces(each))
            for each in hull_types()
        ]
    elif block.startswith("station-bill"):
        parts = []
        for emergency, there in duties().items():
            parts.append(f"The duties of {emergency}:")
            parts += [
                f"  {each.name}{'' if each.essential else ' (may be left open)'}: {each.words}"
                for each in there
            ]
        return "\n".join(parts)
    elif block.startswith("gear"):
        parts = [
            "Names that steps and rule sets ask for, alone or followed by a comma and more: "
            + ", ".join(gear_names()),
        ]
    else:
        parts = []
    return "\n\n".join(
        textwrap.fill(part, _WIDTH, subsequent_indent="  ", break_on_hyphens=False) for part in parts
    )
