"""The starter file's text: what was answered, unknown elsewhere, and a question as a comment beside each key."""

from __future__ import annotations

import functools
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from textwrap import wrap
from typing import TYPE_CHECKING

from jinja2 import Environment, FileSystemLoader, StrictUndefined, Template

from generator.commissioning import moot
from generator.commissioning.answers import NONE, UNKNOWN
from generator.commissioning.crew import Line
from generator.commissioning.names import BEACON, FIXED, HANDHELD, JACKETS, KINDS, RAFT
from generator.commissioning.paths import Target, target
from generator.commissioning.places import of_her_type, type_in
from generator.reading.editing import scalar
from generator.reading.fields import Field, Texts, YesNo
from generator.shelves.folder import templates_folder
from generator.shelves.procedures import shelf
from generator.shelves.spaces import hull
from generator.vessel.vessel import FORMAT

if TYPE_CHECKING:
    from generator.commissioning.first_bill import Proposal

_LINE_LENGTH, _COMMENT_COLUMN = 120, 40
_SKIPPER = "skipper"
_IN_BOTTLES = ("butane", "propane")


@dataclass
class Starter:
    """A starter file to be: `written` are the answers as the file has them, by key path; `named` the entries of lists.

    `used` are the key paths that the text has a line for, once it is made.
    """

    title: str
    folder: str
    schema: str
    written: Mapping[str, str]
    named: Mapping[str, Sequence[str]]
    people: Sequence[Line] = ()
    used: set[str] = field(default_factory=set)

    def text(self, bill: Sequence[Proposal] = ()) -> str:
        """The text, with a first station bill if there is one."""
        self.used.clear()
        return _template(templates_folder() / "parts").render(
            title=self.title,
            folder=self.folder,
            schema=self.schema,
            format=FORMAT,
            names=self._names(),
            people=self.people or [Line(role) for role in self.named.get("people") or (_SKIPPER,)],
            alone=self.written.get("vessel.persons") == "1",
            bill=bill,
            has=self._has,
            emergencies=", ".join(one.id for one in shelf() if one.duties),
            line=self._line,
            kindly=self._kindly,
            kind_line=self._kind_line,
            scalar=scalar,
            at=lambda space: of_her_type(space, self.written),
        )

    def _names(self) -> dict[str, list[str]]:
        """What the entries of each list are called: those that answers name, else the one that every file begins with."""
        rafts = self._there("rafts", RAFT)
        sets = self._there("radio.sets", FIXED)
        if moot.says_none(f"{HANDHELD}.where", self.written):
            sets = [each for each in sets if each != _name(HANDHELD)]
        beacons = [
            each
            for each in self._there("radio.beacons", BEACON)
            if each != _name(BEACON) or self._about(BEACON)
        ]
        jackets = list(dict.fromkeys((_name(JACKETS), *self.named.get("lifejackets", ()))))
        return {"rafts": rafts, "sets": sets, "beacons": beacons, "jackets": jackets}

    def _there(self, listed: str, first: str) -> list[str]:
        """The entries of a list without what an answer says is not aboard."""
        names = list(self.named.get(listed, ())) or [_name(first)]
        asked = next(each for each, block in moot.MAY_BE_NONE.items() if block == first)
        return [each for each in names if each != _name(first) or not moot.says_none(asked, self.written)]

    def _about(self, block: str) -> bool:
        """Whether an answer tells anything of a block."""
        return any(key.startswith(f"{block}.") and text != UNKNOWN for key, text in self.written.items())

    def _has(self, what: str, name: str = "") -> bool:
        """What the template asks of her, or of the raft of a name."""
        raft = f"rafts[{name}]"
        held = self.written.get(f"{raft}.held-by", UNKNOWN)
        return {
            "base": "base" in self.written,
            "holds": held != NONE,
            "release": moot.lets_go_by_itself(held) or self._about(f"{raft}.release"),
            "open beacon": not moot.says_none(f"{BEACON}.where", self.written),
            "rig": self.written.get("vessel.rig", UNKNOWN) != UNKNOWN or moot.has_rig(self.written),
            "raft": not moot.says_none(f"{RAFT}.stowage", self.written),
            "closed in": hull(type_in(self.written)).closed_in,
            "rooms": hull(type_in(self.written)).has_rooms,
            "engine": moot.driven(self.written),
            "inboard": moot.inboard(self.written),
            "cooker asked": self.written.get("gas.fuel", UNKNOWN) != UNKNOWN,
            "gas bottles": self.written.get("gas.fuel") in _IN_BOTTLES,
            "burns": self.written.get("gas.fuel", UNKNOWN) in (UNKNOWN, *_IN_BOTTLES),
        }[what]

    def _line(self, key: str) -> str:
        self.used.add(key)
        one = target(key)
        value = self.written.get(key, UNKNOWN)
        if key in moot.LEFT_OUT and value == NONE:
            return f"{_indent(one)}# {one.field.key}: {one.field.example}"
        fitting = key != "recovery.hoist" or self._has("rig")  # the example is a halyard
        return _line(one, value, of_her_type(one.field.example, self.written) if fitting else "")

    def _kindly(self, key: str) -> str:
        """A key that no finding asks for: in a comment with its question, unless it is answered."""
        if key in self.written:
            return self._line(key)
        one = target(key)
        line = _line(one, UNKNOWN, one.field.example)
        return re.sub(r"(?m)^( *)(?!#| )", r"\1# ", line)

    def _kind_line(self, key: str, name: str) -> str:
        """The kind of a thing that every file has, or as answered."""
        self.used.add(key)
        one = target(key)
        word = name if name in (one.field.choices or ()) else UNKNOWN
        return _line(one, self.written.get(key, KINDS.get(name, word)), one.field.example)


@functools.lru_cache(maxsize=4)
def _template(folder: Path) -> Template:
    made = Environment(
        loader=FileSystemLoader(folder),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        autoescape=False,  # noqa: S701 - it is YAML, and goes nowhere near a browser
    )
    return made.get_template("starter.yaml.j2")


def _name(block: str) -> str:
    """What the entry at a path is called."""
    return block.partition("[")[2].rstrip("]")


def _indent(one: Target) -> str:
    return "  " * (len(one.steps) - 1)


def _line(one: Target, value: str, example: str) -> str:
    """A key with its value, and its question as a comment beside it or, where that is too long, above."""
    key = one.field
    indent = _indent(one)
    entry = f"{indent}{key.key}: {value}"
    comment = key.question
    if key.choices and not isinstance(key, YesNo):
        comment += f" {'Any' if isinstance(key, Texts) else 'One'} of: {', '.join(key.choices)}"
    elif value == UNKNOWN and isinstance(key, YesNo):
        comment += " yes or no"
    elif value == UNKNOWN and example and example != Field.usual:
        comment += f" For example: {example}"
    beside = f"{entry:<{_COMMENT_COLUMN}}  # {comment}"
    if len(beside) <= _LINE_LENGTH:
        return beside
    return "\n".join(
        [*(f"{indent}# {part}" for part in wrap(comment, _LINE_LENGTH - len(indent) - 2)), entry]
    )
